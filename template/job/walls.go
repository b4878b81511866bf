package job

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
)

const (
	widest   = 100 * geom.Metre // wall
	tallest  = 30 * geom.Metre
	most     = 2000 // studs, fittings, openings, keep-outs of one wall
	farAside = 24 * geom.Inch
	farPast  = 24 * geom.Inch // a run past an outside corner
)

func (r *reader) walls(top *section) {
	walls := top.groups("walls", "{name: North, width: 96, height: 90, runs: […]}")
	if n := top.get("walls"); n != nil && len(n.items) == 0 && n.kind == list {
		top.add("walls", "the list is empty; a job has at least one wall")
	}
	if len(walls) > maxWalls {
		top.add("walls", "has %d walls; at most %d are taken, so divide the job", len(walls), maxWalls)
		return
	}
	first := map[string]int{}
	total, runs := 0, 0
	for i, s := range walls {
		// The last wall's corner joins the first where there are three or more.
		r.past = [2]bool{i > 0 && outsideCorner(walls[i-1]) || i == 0 && len(walls) > 2 && outsideCorner(walls[len(walls)-1]), outsideCorner(s)}
		w := r.wall(s)
		if line, twice := first[w.Name]; twice && w.Name != "" {
			s.add("name", "a wall %q stands already in line %d; each wall needs a name of its own", w.Name, line)
		} else {
			first[w.Name] = s.at("name").Line
		}
		runs += len(w.Runs)
		if s.has("runs") && len(w.Runs) == 0 {
			runs++ // empty or wrong, which is told at its own place
		}
		for _, run := range w.Runs {
			total += run.count()
		}
		r.job.Walls = append(r.job.Walls, w)
	}
	if runs == 0 && len(walls) > 0 {
		top.add("walls", "no wall has `runs`, so there are no panels; write runs: and below it - {name: N, across: [2, 94], height: …, panels: 6}")
	}
	if total > MaxPanels {
		top.judge("walls", "the job has %d panels; at most %d are taken, so divide it (or is a number of panels a slip?)", total, MaxPanels)
		return
	}
	r.panelNames()
}

// outsideCorner tells whether the wall ends in an outside corner, before it is read.
func outsideCorner(s *section) bool {
	if s.n == nil {
		return false
	}
	f, ok := s.n.field("corner")
	return ok && f.value != nil && f.value.kind == scalar && strings.EqualFold(strings.TrimSpace(f.value.text), "outside")
}

// count is the number of panels the person asked for; a run over an area may have more.
func (r Run) count() int { return max(r.Panels, len(r.Widths)) }

func (r *reader) wall(s *section) Wall {
	defer s.close()
	w := Wall{Key: s.path}
	if s.need("name", "panels and sheets are found by it, as in `name: North`") {
		s.text("name", &w.Name, 40)
	}
	if s.need("width", "measure from corner to corner at the height of the panels, and at two more heights") {
		s.length("width", &w.Width, between(geom.Inch, widest))
	}
	if s.apart("height", "outline", "the outline has the height; keep one") && !s.has("outline") {
		if s.need("height", "measure from the floor to the ceiling; where the top slopes give `outline` instead") {
			s.length("height", &w.Height, between(geom.Inch, tallest))
		}
	}
	s.length("height", &w.Height, between(geom.Inch, tallest))
	r.outline(s, &w)
	if lining := s.section("lining"); lining.n != nil {
		w.Lining.Given = true
		if lining.need("thickness", "measure it at the edge of a socket's box or a small hole; write 0 for bare framing or masonry") {
			lining.length("thickness", &w.Lining.Thickness, from0(4*geom.Inch))
		}
		lining.truth("gives", &w.Lining.Gives)
		lining.close()
	}
	s.length("depth", &w.Depth, over0(2*geom.Metre))
	w.Studs = r.members(s.section("studs"), w.Width, "wide", "left end of the wall")
	w.Rails = r.members(s.section("rails"), w.Height, "high", "floor")
	r.things(s, &w)
	if i := s.choice("corner", "inside", "outside", "none"); i >= 0 {
		w.Corner = []CornerKind{Inside, Outside, NoCorner}[i]
	}
	w.ThroughNext = s.choice("through", "this", "next") == 1
	if s.has("through") && w.Corner == NoCorner {
		s.add("through", "says nothing without a corner; write `corner: inside` or `corner: outside`, or take it out")
	}
	runs := s.groups("runs", "{name: N, across: [2, 94], height: settle, panels: 6}")
	if len(runs) > most {
		s.add("runs", "has %d runs; at most %d are taken on one wall", len(runs), most)
		return w
	}
	for _, in := range runs {
		w.Runs = append(w.Runs, r.run(in, &w))
	}
	return w
}

func (r *reader) outline(s *section, w *Wall) {
	if w.Width > 0 && w.Height > 0 {
		w.Outline = geom.R(0, 0, w.Width, w.Height).Polygon()
	}
	if s.get("outline") == nil {
		return
	}
	outline, ok := r.polygon(s, "outline")
	if !ok {
		return
	}
	box := outline.Bounds()
	w.Outline, w.Height = outline, box.Max.Y
	switch {
	case w.Width == 0:
	case box.Min.X != 0 || box.Max.X != w.Width:
		s.judge("outline", "runs from %s to %s across, but the wall is %s wide; it must reach from 0 to the width",
			r.show(box.Min.X), r.show(box.Max.X), r.show(w.Width))
	case box.Min.Y < 0:
		s.judge("outline", "goes %s below the floor; heights are above the level line through the floor", r.show(-box.Min.Y))
	}
}

// polygon reads an outline in normalized form.
func (r *reader) polygon(s *section, name string) (geom.Polygon, bool) {
	points, ok := s.points(name, eitherWay(widest), MaxPoints)
	if !ok {
		return nil, false
	}
	if len(points) < 3 {
		s.add(name, "an outline needs at least three corners; this has %d", len(points))
		return nil, false
	}
	if len(geom.Hull(points)) < 3 { // before crossings: such an outline runs back over itself
		s.judge(name, "the outline has no area: all its corners lie on one line")
		return nil, false
	}
	if i, j, crosses := geom.Polygon(points).SelfIntersection(); crosses {
		n := len(points)
		edge := func(k int) string {
			a, b := points[k], points[(k+1)%n]
			return fmt.Sprintf("[%s, %s] to [%s, %s]", a.X.Bare(r.units), a.Y.Bare(r.units), b.X.Bare(r.units), b.Y.Bare(r.units))
		}
		at := join(s.path, fmt.Sprintf("%s[%d]", name, j))
		r.judge(r.problems.Source.Of(at), at, "the outline crosses or touches itself: %s meets %s; give the corners in order round it",
			edge(i), edge(j))
		return nil, false
	}
	outline := geom.Polygon(points).Normalized()
	if outline == nil || outline.TwiceArea().Sign() == 0 {
		s.judge(name, "the outline has no area; give its corners in order round it")
		return nil, false
	}
	return outline, true
}

// members reads studs or rails as centre lines up to the wall's extent.
func (r *reader) members(s *section, extent geom.Length, extentWord, end string) Members {
	defer s.close()
	m := Members{
		Width:  pick(r.units, 3*geom.Inch/2, 38*geom.Millimetre),
		Margin: pick(r.units, 3*geom.Inch/8, 10*geom.Millimetre),
		Given:  s.n != nil,
	}
	s.length("width", &m.Width, over0(12*geom.Inch))
	s.length("depth", &m.Depth, over0(24*geom.Inch))
	if s.length("margin", &m.Margin, from0(6*geom.Inch)) && 2*m.Margin > m.Width {
		s.judge("margin", "twice %s is more than the wood is wide (%s); no screw could stand in it", r.show(m.Margin), r.show(m.Width))
	}
	listed := s.has("at")
	if listed {
		s.apart("at", "from", "give every centre line, or the first and the spacing")
		s.apart("at", "every", "give every centre line, or the first and the spacing")
	}
	at, ok := s.lengths("at", eitherWay(widest), most)
	from, every := geom.Length(0), geom.Length(0)
	fromOK := s.length("from", &from, from0(widest))
	everyOK := s.length("every", &every, over0(widest))
	switch {
	case s.n == nil:
	case listed && ok:
		for i, x := range at {
			path := fmt.Sprintf("%s.at[%d]", s.path, i)
			where := r.problems.Source.Of(path)
			if first := slices.Index(at, x); first < i {
				r.judge(where, path, "%s stands twice in the list", r.show(x))
			}
			if extent > 0 && (x < 0 || x > extent) {
				r.judge(where, path, "%s is outside the wall, which is %s %s; centre lines count from the %s",
					r.show(x), r.show(extent), extentWord, end)
			}
		}
		m.At = slices.Clone(at)
		slices.Sort(m.At)
	case !listed && !s.has("from") && !s.has("every"):
		s.r.add(s.n.place, s.path, "says not where they are; write {from: first centre line, every: spacing} or {at: [8, 24, 40]}, at: [] when there are none")
	case !listed && s.need("from", "measure from the "+end+" to the middle of the first one") &&
		s.need("every", "measure from middle to middle") && fromOK && everyOK:
		switch {
		case every < m.Width:
			s.judge("every", "%s from middle to middle is less than the wood is wide (%s)", r.show(every), r.show(m.Width))
		case extent > 0 && from > extent:
			s.judge("from", "%s is outside the wall, which is %s %s; the first centre line counts from the %s",
				r.show(from), r.show(extent), extentWord, end)
		case extent/every > most:
			s.judge("every", "%s gives more than %d of them; is the unit right?", r.show(every), most)
		default:
			for x := from; x <= extent; x += every {
				m.At = append(m.At, x)
			}
		}
	}
	return m
}

// things reads fittings, openings and keep-outs.
func (r *reader) things(s *section, w *Wall) {
	kinds := []string{"electrical", "pipe", "vent", "heater", "valve", "other"}
	for _, in := range r.some(s, "fittings", "{name: socket, kind: electrical, at: [52, 14], size: 3 x 4 1/2}") {
		f := Fitting{Key: in.path}
		if in.need("kind", "what it is decides how far panels and screws stay away; write one of "+strings.Join(kinds, ", ")) {
			if i := in.choice("kind", kinds...); i >= 0 {
				f.Kind, f.Name = FittingKind(kinds[i]), kinds[i]
			}
		}
		r.thing(in, w, &f.Name, &f.Rect, &f.Margin, false)
		in.close()
		w.Fittings = append(w.Fittings, f)
	}
	for _, in := range r.some(s, "openings", "{name: window, at: [20, 50], size: 40 x 36}") {
		o := Opening{Name: "opening", Key: in.path}
		r.thing(in, w, &o.Name, &o.Rect, &o.Margin, false)
		switch name := strings.ToLower(o.Name); {
		case strings.Contains(name, "window"):
			o.Kind = Window
		case strings.Contains(name, "door"):
			o.Kind = Door
		default:
			o.Kind = Hole
		}
		if i := in.choice("kind", "window", "door", "opening"); i >= 0 {
			o.Kind = []OpeningKind{Window, Door, Hole}[i]
		}
		if in.length("swing", &o.Swing, from0(3*geom.Metre)) && o.Swing > 0 && o.Kind != Door {
			in.add("swing", "only a door swings; write `kind: door` or take it out")
		}
		in.close()
		w.Openings = append(w.Openings, o)
	}
	for _, in := range r.some(s, "keep-outs", "{name: old pipe, at: [70, 0], size: 2 x 90}") {
		k := KeepOut{Name: "keep-out", Key: in.path}
		r.thing(in, w, &k.Name, &k.Rect, &k.Margin, true)
		in.close()
		w.KeepOuts = append(w.KeepOuts, k)
	}
}

func (r *reader) some(s *section, name, example string) []*section {
	list := s.groups(name, example)
	if len(list) > most {
		s.add(name, "has %d entries; at most %d are taken on one wall", len(list), most)
		return nil
	}
	return list
}

// thing reads what every rectangle on a wall has. A keep-out may lie across a slope.
func (r *reader) thing(s *section, w *Wall, name *string, rect *geom.Rect, margin *geom.Length, keepOut bool) {
	s.text("name", name, 40)
	*margin = keepOutMargin(r.units)
	s.length("margin", margin, from0(farAside))
	var at geom.Point
	var size geom.Size
	placed := s.need("at", "measure to its lower-left corner, [from the left end of the wall, up from the floor]") &&
		s.point("at", &at, eitherWay(widest))
	sized := s.need("size", "measure it, width x height") && s.size("size", &size, over0(widest))
	if !placed || !sized {
		return
	}
	*rect = geom.R(at.X, at.Y, at.X+size.W, at.Y+size.H)
	if w.Outline == nil {
		return
	}
	if box := w.Outline.Bounds(); !box.Contains(*rect) {
		s.judge("at", "it reaches from %s to %s across and %s to %s up, out of the wall of %s x %s; at is its lower-left corner",
			r.show(rect.Min.X), r.show(rect.Max.X), r.show(rect.Min.Y), r.show(rect.Max.Y), r.show(w.Width), r.show(w.Height))
	} else if !keepOut && !w.Outline.ContainsRect(*rect) {
		s.judge("at", "it reaches out of the wall's outline; at is its lower-left corner")
	}
}
