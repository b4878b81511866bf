package sheet

import (
	"cmp"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/layout"
)

// walls are the drill templates for the wall halves, one for each run.
func (m *maker) walls() []drawing.Sheet {
	var out []drawing.Sheet
	for i := range m.plan.Runs {
		r := &m.plan.Runs[i]
		wall := m.plan.Walls[r.Wall].Job
		hint := "Set each page by its running distances, from " + wallFrom(wall.Name) + " and up from zero."
		if !m.plan.Screws.DrillThrough {
			hint = m.keepApart("the board") + "Distances run from " + wallFrom(wall.Name) + " and zero."
		}
		s := drawing.Sheet{
			Kind: Wall, Name: "wall " + r.Name, Title: "Wall template " + r.Name,
			For: "wall " + wall.Name + ", panels " + m.panelNames(r.Panels), Side: string(wallSide), Use: 1, Layout: drawing.Free, Landscape: true,
			Upright: true, Hint: hint, Drawings: []drawing.Drawing{m.wall(r)},
		}
		if len(s.Drawings[0].Holes) > 0 {
			out = append(out, s)
		}
	}
	return out
}

func wallFrom(name string) string { return "the left end of wall " + name }

// wall draws one run on its wall at actual size.
func (m *maker) wall(r *layout.Run) drawing.Drawing {
	w := &m.plan.Walls[r.Wall]
	var d drawing.Drawing
	d.Bounds = r.Bounds
	d.From = [2]string{wallFrom(w.Job.Name), "zero"}
	// As far as a page with a hole of the run can show: what ended before the page does would be drawn wrong.
	view := r.Bounds.Inset(-max(m.options.Field.W, m.options.Field.H))

	m.studs(&d, w, view)
	m.obstacles(&d, w, view)
	wallEnds(&d, w, view)
	m.markedLine(&d, view)
	d.Stations = m.stations(r)
	for _, i := range r.Panels {
		m.wallPanel(&d, i)
	}
	return d
}

// wallEnds shows where the wall ends, if a page of the run may reach past it: in a corner the paper must be folded there.
func wallEnds(d *drawing.Drawing, w *layout.Wall, view geom.Rect) {
	const past = 25 * mm
	for _, end := range []struct{ at, from, to geom.Length }{
		{0, -past, 0},
		{w.Job.Width, w.Job.Width, w.Job.Width + past},
	} {
		if end.at < view.Min.X || end.at > view.Max.X {
			continue
		}
		low, high := view.Min.Y, view.Max.Y
		d.Add(drawing.Line{From: geom.Pt(end.at, low), To: geom.Pt(end.at, high), Pen: drawing.Wide, Role: drawing.Guide})
		d.Callouts = append(d.Callouts, drawing.Callout{About: geom.R(end.from, low, end.to, high), Long: true, Lines: []string{"end of the wall", "fold the paper here"}})
	}
}

// markedLine shows the line that a person has marked on the wall.
func (m *maker) markedLine(d *drawing.Drawing, view geom.Rect) {
	y := m.plan.Job.Line
	if y == 0 || y < view.Min.Y || y > view.Max.Y {
		return
	}
	d.Add(drawing.Line{From: geom.Pt(view.Min.X, y), To: geom.Pt(view.Max.X, y), Pen: linePen, Role: drawing.Guide})
	d.Callouts = append(d.Callouts, drawing.Callout{About: geom.R(view.Min.X, y-mm, view.Max.X, y+mm), Long: true, Lines: []string{"the marked line", m.read(y) + " above zero"}})
}

// studs shows wood behind the lining; where it is said to be is never sure.
func (m *maker) studs(d *drawing.Drawing, w *layout.Wall, view geom.Rect) {
	type seen struct {
		layout.Member
		body geom.Rect
	}
	var members []seen
	for _, s := range w.Members {
		body := s.Body.Intersection(view)
		if !body.Valid() || body.W() == 0 || body.H() == 0 {
			continue
		}
		members = append(members, seen{s, body})
		// All wood before all edges: a rail must not hide the stud it crosses.
		d.Add(drawing.Path{Points: body.Polygon(), Closed: true, Fill: drawing.Pale})
	}
	for _, s := range members {
		body := s.body
		name := "stud "
		if s.Rail {
			name = "rail "
		}
		p := body.Polygon()
		e := [][2]geom.Point{{p[1], p[2]}, {p[3], p[0]}}
		if s.Rail {
			e = [][2]geom.Point{{p[0], p[1]}, {p[2], p[3]}}
		}
		for _, edge := range e {
			d.Add(drawing.Line{From: edge[0], To: edge[1], Pen: drawing.Hidden, Role: drawing.Guide})
		}
		d.Callouts = append(d.Callouts, drawing.Callout{About: body, Long: true, Lines: []string{name + m.read(s.Centre), "probe before you drill"}})
	}
}

// obstacles shows fittings, openings and keep-outs, each zone hatched.
func (m *maker) obstacles(d *drawing.Drawing, w *layout.Wall, view geom.Rect) {
	for _, k := range w.KeepOuts {
		zone := k.Zone.Intersection(view)
		if !zone.Valid() || zone.W() == 0 || zone.H() == 0 {
			continue
		}
		hatch(d, zone, 5*mm)
		d.Add(outline(zone.Polygon(), drawing.Narrow, drawing.Note))
		if body := k.Body.Intersection(view); body.Valid() && k.Kind != layout.Cables {
			d.Add(outline(body.Polygon(), drawing.Wide, drawing.Guide))
		}
		d.Callouts = append(d.Callouts, drawing.Callout{About: zone, Long: true, Lines: []string{k.Name, "no holes here"}})
	}
}

// wallPanel draws one panel's outlines and its wall halves.
func (m *maker) wallPanel(d *drawing.Drawing, i int) {
	p := &m.plan.Panels[i]
	d.Add(outline(p.Finished, drawing.Narrow, drawing.Guide))
	half := m.plan.Job.Clip.Wall.Base
	for _, c := range p.Clips {
		base := geom.R(c.Wall.X-half.W/2, c.Wall.Y-half.H/2, c.Wall.X+half.W/2, c.Wall.Y+half.H/2)
		d.Add(outline(base.Polygon(), drawing.Narrow, drawing.Guide))
		screw := m.plan.Screws.At(&m.plan.Layout, i, c)
		for _, h := range c.WallHoles {
			hole(d, h, screw.Printed/2, p.Name+" "+c.Place)
		}
		words := drawing.Callout{About: base, Lines: append([]string{p.Name + " " + c.Place}, m.wallHole(screw)...)}
		if m.plan.Runs[p.Run].Shim > 0 {
			words.Lines = append(words.Lines, m.read(m.plan.Runs[p.Run].Shim)+" pad behind the half")
		}
		d.Callouts = append(d.Callouts, words)
	}
}

// wallHole says what a wall half is fixed into, and how its hole is drilled.
func (m *maker) wallHole(s fastening.WallScrew) []string {
	u := m.plan.Job.Units
	switch hole := s.Hole.Text(u); {
	case s.On == layout.OnMasonry:
		return []string{"masonry: " + s.Fixing.Text(u), hole, "screw " + s.Screw.In(u)}
	case s.Fixing.Kind == fastening.Anchor:
		return []string{"lining alone: anchor", hole}
	case s.On == layout.OnLining:
		return []string{"lining alone: a fixing made for it", hole}
	default:
		return []string{"into the " + string(s.On), hole}
	}
}

// A wallStation is a coordinate that the pages of a run are set by.
type wallStation struct {
	drawing.Station
	rightOf string // the panel that has its right edge there
}

// stations returns the coordinates that the pages of a run are set by, in ascending order, each once.
func (m *maker) stations(r *layout.Run) []drawing.Station {
	var all []wallStation
	// add adds a station, or widens the one that is there already; leftOf is the panel that has its left edge there.
	add := func(s wallStation, leftOf string) {
		for i := range all {
			was := &all[i]
			if was.Upright != s.Upright || was.At != s.At {
				continue
			}
			was.Along = geom.Span{From: min(was.Along.From, s.Along.From), To: max(was.Along.To, s.Along.To)}
			if was.rightOf != "" && leftOf != "" { // panels without a gap
				was.Name, was.rightOf = was.rightOf+" | "+leftOf, ""
			}
			return
		}
		all = append(all, s)
	}
	upright := func(at geom.Length, name string, along geom.Span) wallStation {
		return wallStation{Station: drawing.Station{Upright: true, At: at, Reads: at, Name: name, Along: along}}
	}
	level := func(at geom.Length, name string, along geom.Span) wallStation {
		return wallStation{Station: drawing.Station{At: at, Reads: at, Also: m.fromLine(at), Name: name, Along: along}}
	}
	for _, i := range r.Panels {
		p := &m.plan.Panels[i]
		for _, c := range p.Clips {
			for _, h := range c.WallHoles {
				add(upright(h.X, p.Name+" plumb", geom.Span{From: h.Y, To: h.Y}), "")
				add(level(h.Y, "level, holes", geom.Span{From: h.X, To: h.X}), "")
			}
		}
	}
	feet, tops := map[geom.Length][]int{}, map[geom.Length][]int{}
	for _, i := range r.Panels {
		b := m.plan.Panels[i].Finished.Bounds()
		feet[b.Min.Y], tops[b.Max.Y] = append(feet[b.Min.Y], i), append(tops[b.Max.Y], i)
	}
	// Panels that stand at heights of their own are named.
	edge := func(what string, panels []int) string {
		if len(panels) == len(r.Panels) {
			return "panel " + what
		}
		return m.panelNames(panels) + " " + what
	}
	for _, i := range r.Panels {
		p := &m.plan.Panels[i]
		b := p.Finished.Bounds()
		up, across := geom.Span{From: b.Min.Y, To: b.Max.Y}, geom.Span{From: b.Min.X, To: b.Max.X}
		add(upright(b.Min.X, p.Name+" left", up), p.Name)
		right := upright(b.Max.X, p.Name+" right", up)
		right.rightOf = p.Name
		add(right, "")
		add(level(b.Min.Y, edge("foot", feet[b.Min.Y]), across), "")
		add(level(b.Max.Y, edge("top", tops[b.Max.Y]), across), "")
	}
	slices.SortStableFunc(all, func(a, b wallStation) int { return cmp.Compare(a.At, b.At) })
	out := make([]drawing.Station, len(all))
	for i, s := range all {
		out[i] = s.Station
	}
	return out
}
