package plan

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// FittingsOverlap: two fittings of a wall lie over each other.
type FittingsOverlap struct{ First, Second Fitting }

// ID implements [finding.Params].
func (FittingsOverlap) ID() string { return "fittings-overlap" }

// A Fitting is a fitting as its owner knows it.
type Fitting struct {
	Kind job.FittingKind
	Name string // what the person called it, else its kind
}

// OverFitting: panels hang over a fitting. Boxes, vents and valves have IDs of their own.
type OverFitting struct{ Fitting }

// ID implements [finding.Params].
func (f OverFitting) ID() string {
	switch f.Kind {
	case job.Electrical:
		return "over-box"
	case job.Vent:
		return "over-vent"
	case job.Valve:
		return "over-valve"
	}
	return "over-fitting"
}

// NearHeater: panels hang nearer to a heater than is worth a word.
type NearHeater struct {
	Fitting
	Within geom.Length
}

// ID implements [finding.Params].
func (NearHeater) ID() string { return "near-heater" }

// OverOpening: panels hang over a door, a window or another opening.
type OverOpening struct{ Opening string }

// ID implements [finding.Params].
func (OverOpening) ID() string { return "over-opening" }

// DoorSwing: panels hang where a door's leaf opens against the wall.
type DoorSwing struct {
	Opening string
	Swing   geom.Length // on either side of the opening
}

// ID implements [finding.Params].
func (DoorSwing) ID() string { return "door-swing" }

// checkWall reports what hangs where it should not: over boxes, vents, valves, openings, near heaters, in a door's way;
// and fittings that lie over each other.
func (p *Plan) checkWall(w *Wall) {
	for i := range w.Job.Fittings {
		p.checkFitting(w, &w.Job.Fittings[i])
	}
	for i := range w.Job.Openings {
		p.checkOpening(w, &w.Job.Openings[i])
	}
	for i, a := range w.Job.Fittings {
		for _, b := range w.Job.Fittings[:i] {
			if a.Rect.InteriorIntersects(b.Rect) {
				p.report(finding.OfOne(finding.Wall, a.Key, w.Job.Name), a.Key+".at",
					FittingsOverlap{First: Fitting{b.Kind, b.Name}, Second: Fitting{a.Kind, a.Name}})
			}
		}
	}
}

func called(name, other string) string {
	if name == "" {
		return other
	}
	return name
}

func (p *Plan) checkFitting(w *Wall, f *job.Fitting) {
	if f.Kind == job.Heater { // how near is worth a word: common practice, from memory; the appliance's own plate rules
		warmth := p.pick(geom.Foot, 300*geom.Millimetre)
		if near := p.panelsOver(w, f.Rect.Inset(-warmth)); len(near) > 0 {
			p.report(finding.OfPanels(f.Key, names(near)...), extentField(p.Runs[near[0].Run].Job), NearHeater{Fitting{f.Kind, f.Name}, warmth})
		}
		return
	}
	if over := p.panelsOver(w, f.Rect); len(over) > 0 {
		p.report(finding.OfPanels(f.Key, names(over)...), p.Runs[over[0].Run].Job.Key+".area", OverFitting{Fitting{f.Kind, f.Name}})
	}
}

func (p *Plan) checkOpening(w *Wall, o *job.Opening) {
	name := called(o.Name, string(o.Kind))
	if over := p.panelsOver(w, o.Rect); len(over) > 0 {
		p.report(finding.OfPanels(o.Key, names(over)...), p.Runs[over[0].Run].Job.Key+".area", OverOpening{name})
	}
	if o.Swing <= 0 {
		return
	}
	r := o.Rect
	var in []*Panel
	for _, side := range [2]geom.Rect{
		geom.R(r.Min.X-o.Swing, r.Min.Y, r.Min.X, r.Max.Y),
		geom.R(r.Max.X, r.Min.Y, r.Max.X+o.Swing, r.Max.Y),
	} {
		for _, panel := range p.panelsOver(w, side) {
			if !slices.Contains(in, panel) {
				in = append(in, panel)
			}
		}
	}
	if len(in) > 0 {
		p.report(finding.OfPanels(o.Key, names(in)...), extentField(p.Runs[in[0].Run].Job), DoorSwing{name, o.Swing})
	}
}

// panelsOver are the panels of a wall that lie over some of the rectangle.
func (p *Plan) panelsOver(w *Wall, r geom.Rect) []*Panel {
	var over []*Panel
	for _, run := range w.Runs {
		for _, i := range p.Runs[run].Panels {
			if panel := &p.Panels[i]; panel.Finished.Bounds().InteriorIntersects(r) && covers(panel.Finished, r) {
				over = append(over, panel)
			}
		}
	}
	return over
}

// covers tells whether a polygon lies over some of a rectangle: a hundredth of a square millimetre or more.
func covers(p geom.Polygon, r geom.Rect) bool {
	cut := p
	for side := range 4 {
		var next geom.Polygon
		for i, a := range cut {
			b := cut[(i+1)%len(cut)]
			da, db := depth(r, a, side), depth(r, b, side)
			if da >= 0 {
				next = append(next, a)
			}
			if da > 0 && db < 0 || da < 0 && db > 0 {
				t := float64(da) / float64(da-db)
				next = append(next, geom.Pt(a.X+(b.X-a.X).Times(t), a.Y+(b.Y-a.Y).Times(t)))
			}
		}
		cut = next
	}
	return cut.Area() > 0.01
}

// depth is how far inside one side of a rectangle a point lies.
func depth(r geom.Rect, at geom.Point, side int) geom.Length {
	return [4]geom.Length{at.X - r.Min.X, r.Max.X - at.X, at.Y - r.Min.Y, r.Max.Y - at.Y}[side]
}
