package job

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
)

func (r *reader) walls(top *section) {
	walls := top.sections("walls")
	if n := top.get("walls"); n != nil && len(n.items) == 0 && n.kind == list {
		top.add("walls", "the list is empty; a job has at least one wall")
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
		top.add("walls", "no wall has `runs`, so there are no panels; write runs: and below it - %s", root.byName["walls"].byName["runs"].example(r.units))
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
	n := s.get("corner")
	return n != nil && n.kind == scalar && strings.EqualFold(strings.TrimSpace(n.text), "outside")
}

// count is the number of panels the person asked for; a run over an area may have more.
func (r Run) count() int { return max(r.Panels, len(r.Widths)) }

func (r *reader) wall(s *section) Wall {
	defer s.close()
	w := Wall{Key: s.path}
	if s.need("name") {
		s.text("name", &w.Name)
	}
	if s.need("width") {
		s.length("width", &w.Width)
	}
	if !s.has("outline") {
		s.need("height")
	}
	s.length("height", &w.Height)
	r.outline(s, &w)
	w.Masonry = s.choice("build") == "masonry"
	r.lining(s.section("lining"), &w.Lining)
	s.length("depth", &w.Depth)
	w.Studs = r.members(s.section("studs"), w.Width, "wide", "left end of the wall")
	w.Rails = r.members(s.section("rails"), w.Height, "high", "floor")
	r.fittings(s, &w)
	r.openings(s, &w)
	r.keepOuts(s, &w)
	switch s.choice("corner") {
	case "inside":
		w.Corner = Inside
	case "outside":
		w.Corner = Outside
	}
	w.ThroughNext = s.choice("through") == "next"
	if s.has("through") && w.Corner == NoCorner {
		s.add("through", "says nothing without a corner; write `corner: inside` or `corner: outside`, or take it out")
	}
	for _, in := range s.sections("runs") {
		w.Runs = append(w.Runs, r.run(in, &w))
	}
	if w.Masonry && len(w.Runs) > 0 {
		r.masonry(s)
	}
	return w
}

// masonry reports what a wall of masonry needs and the file does not name: without it no hole is known.
func (r *reader) masonry(s *section) {
	places := r.problems.Source
	if !places.Has("fixings.plug") {
		s.add("build", "masonry is drilled for plugs; give them as `fixings: {plug: %s}`", root.byName["fixings"].byName["plug"].example(r.units))
	}
	if !places.Has("screws.wall.size") {
		s.add("build", "masonry takes screws as thick as the plug is made for; give that as `screws: {wall: {size: %s}}`", Each{"10", "5 mm"}.Of(r.units))
	}
}

func (r *reader) lining(s *section, l *Lining) {
	if s.n == nil {
		return
	}
	defer s.close()
	l.Given = true
	if s.need("thickness") {
		s.length("thickness", &l.Thickness)
	}
	s.truth("gives", &l.Gives)
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
		s.judge("outline", "goes %s below the floor; heights are above the floor at the left end of the first wall", r.show(-box.Min.Y))
	}
}

// polygon reads an outline in normalized form.
func (r *reader) polygon(s *section, name string) (geom.Polygon, bool) {
	points, ok := s.points(name)
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
		at := entry(s.key(name), j)
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
	m := Members{Given: s.n != nil}
	s.length("width", &m.Width)
	s.length("depth", &m.Depth)
	if s.length("margin", &m.Margin) && 2*m.Margin > m.Width {
		s.judge("margin", "twice %s is more than the wood is wide (%s); no screw could stand in it", r.show(m.Margin), r.show(m.Width))
	}
	if s.n == nil {
		return m
	}
	outside := func(l geom.Length) string {
		return fmt.Sprintf("%s is outside the wall, which is %s %s", r.show(l), r.show(extent), extentWord)
	}
	at, listed := s.lengths("at")
	for i, x := range at {
		path := entry(s.key("at"), i)
		where := r.problems.Source.Of(path)
		if first := slices.Index(at, x); first < i {
			r.judge(where, path, "%s stands twice in the list", r.show(x))
		}
		if listed && extent > 0 && (x < 0 || x > extent) {
			r.judge(where, path, "%s; centre lines count from the %s", outside(x), end)
		}
	}
	if s.has("at") {
		m.At = slices.Clone(at)
		slices.Sort(m.At)
	} else if !s.has("from") && !s.has("every") {
		r.add(s.n.place, s.path, "says not where they are; write {from: first centre line, every: spacing} or {at: [8, 24, 40]}, at: [] when there are none")
		return m
	}
	var from, every geom.Length
	regular := !s.has("at") && s.need("from") && s.need("every")
	// Both are read even when one is wrong, so that all is told at once.
	fromRead, everyRead := s.length("from", &from), s.length("every", &every)
	switch {
	case !regular || !fromRead || !everyRead:
	case every < m.Width:
		s.judge("every", "%s from middle to middle is less than the wood is wide (%s)", r.show(every), r.show(m.Width))
	case extent > 0 && from > extent:
		s.judge("from", "%s; the first centre line counts from the %s", outside(from), end)
	case extent/every > maxOnWall:
		s.judge("every", "%s gives more than %d of them; is the unit right?", r.show(every), maxOnWall)
	default:
		m.Every = every
		for x := from; x <= extent; x += every {
			m.At = append(m.At, x)
		}
	}
	return m
}

func (r *reader) fittings(s *section, w *Wall) {
	for _, in := range s.sections("fittings") {
		f := Fitting{Key: in.path}
		if in.need("kind") {
			f.Kind = FittingKind(in.choice("kind"))
			f.Name = string(f.Kind)
		}
		f.Heater = HeaterKind(in.choice("heater"))
		for _, name := range []string{"heater", "clearance"} {
			if in.has(name) && f.Kind != Heater {
				in.add(name, "only a heater has one; write `kind: heater` or take it out")
			}
		}
		in.length("clearance", &f.Plate)
		if f.Far = in.choice("side") == "far"; f.Far && f.Kind != Electrical {
			in.add("side", "on the far side only an electrical fitting counts, by its cables; take this one out")
		}
		r.place(in, w, &f.Name, &f.Rect, &f.Margin, false)
		in.close()
		w.Fittings = append(w.Fittings, f)
	}
}

func (r *reader) openings(s *section, w *Wall) {
	for _, in := range s.sections("openings") {
		o := Opening{Name: "opening", Key: in.path}
		r.place(in, w, &o.Name, &o.Rect, &o.Margin, false)
		if o.Kind = OpeningKind(in.choice("kind")); o.Kind == "" {
			o.Kind = openingKind(o.Name)
		}
		if in.length("swing", &o.Swing) && o.Swing > 0 && o.Kind != Door {
			in.add("swing", "only a door swings; write `kind: door` or take it out")
		}
		in.close()
		w.Openings = append(w.Openings, o)
	}
}

// openingKind is what an opening most likely is by its name.
func openingKind(name string) OpeningKind {
	name = strings.ToLower(name)
	for _, kind := range []OpeningKind{Window, Door} {
		if strings.Contains(name, string(kind)) {
			return kind
		}
	}
	return Hole
}

func (r *reader) keepOuts(s *section, w *Wall) {
	for _, in := range s.sections("keep-outs") {
		k := KeepOut{Name: "keep-out", Key: in.path}
		r.place(in, w, &k.Name, &k.Rect, &k.Margin, true)
		in.close()
		w.KeepOuts = append(w.KeepOuts, k)
	}
}

// place reads what every rectangle on a wall has. A keep-out may lie across a slope.
func (r *reader) place(s *section, w *Wall, name *string, rect *geom.Rect, margin *geom.Length, keepOut bool) {
	s.text("name", name)
	s.length("margin", margin)
	var at geom.Point
	var size geom.Size
	placed := s.need("at") && s.point("at", &at)
	sized := s.need("size") && s.size("size", &size)
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
