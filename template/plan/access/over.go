// Package access checks what panels hide and shut in: electrical boxes, vents, valves and other fittings, openings and the
// swing of doors, heaters nearby, and whether every panel comes off its wall again.
package access

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
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

// NearHeater: panels hang nearer to a heater than its plate asks for, or than is worth a word.
type NearHeater struct {
	Fitting
	Heater job.HeaterKind
	Within geom.Length
	Plate  bool // Within is the plate's figure
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

// A planner is a layout that is checked.
type planner struct {
	Job *job.Job
	*layout.Layout
	found finding.List
}

// Check reports what hangs where it should not, and panels that cannot be taken off again.
func Check(j *job.Job, l *layout.Layout) finding.List {
	p := &planner{Job: j, Layout: l}
	for i := range p.Walls {
		p.checkWall(&p.Walls[i])
	}
	for i := range p.Runs {
		p.checkRemoval(&p.Runs[i])
	}
	return p.found
}

// checkWall reports what hangs where it should not: over boxes, vents, valves, openings, near heaters, in a door's way;
// and fittings that lie over each other.
func (p *planner) checkWall(w *layout.Wall) {
	var here []*job.Fitting // on this side of the wall
	for i := range w.Job.Fittings {
		if f := &w.Job.Fittings[i]; !f.Far {
			here = append(here, f)
			p.checkFitting(w, f)
		}
	}
	for i := range w.Job.Openings {
		p.checkOpening(w, &w.Job.Openings[i])
	}
	for i, a := range here {
		for _, b := range here[:i] {
			if a.Rect.InteriorIntersects(b.Rect) {
				p.found.Add(finding.OfOne(finding.Wall, a.Key, w.Job.Name), a.Key+".at",
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

func (p *planner) checkFitting(w *layout.Wall, f *job.Fitting) {
	if f.Kind == job.Heater {
		warmth := f.Plate
		if warmth == 0 {
			warmth = p.usualClearance(f.Heater)
		}
		if near := p.panelsOver(w, f.Rect.Inset(-warmth)); len(near) > 0 {
			p.found.Add(finding.OfPanels(f.Key, layout.Names(near)...), layout.ExtentField(p.Runs[near[0].Run].Job), NearHeater{Fitting{f.Kind, f.Name}, f.Heater, warmth, f.Plate > 0})
		}
		return
	}
	if over := p.panelsOver(w, f.Rect); len(over) > 0 {
		p.found.Add(finding.OfPanels(f.Key, layout.Names(over)...), p.Runs[over[0].Run].Job.Key+".area", OverFitting{Fitting{f.Kind, f.Name}})
	}
}

// usualClearance is how near to a heater without a plate is worth a word: 36 in round a portable one (fire-service advice, from
// memory) and a stove for solid fuel (NFPA 211, from memory), 12 in for others, as fire services advise above a baseboard one
// (from memory).
func (p *planner) usualClearance(h job.HeaterKind) geom.Length {
	if h == job.Portable || h == job.Stove {
		return p.Job.Units.Pick(36*geom.Inch, 900*geom.Millimetre)
	}
	return p.Job.Units.Pick(geom.Foot, 300*geom.Millimetre)
}

func (p *planner) checkOpening(w *layout.Wall, o *job.Opening) {
	name := called(o.Name, string(o.Kind))
	if over := p.panelsOver(w, o.Rect); len(over) > 0 {
		p.found.Add(finding.OfPanels(o.Key, layout.Names(over)...), p.Runs[over[0].Run].Job.Key+".area", OverOpening{name})
	}
	if o.Swing <= 0 {
		return
	}
	r := o.Rect
	var in []*layout.Panel
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
		p.found.Add(finding.OfPanels(o.Key, layout.Names(in)...), layout.ExtentField(p.Runs[in[0].Run].Job), DoorSwing{name, o.Swing})
	}
}

// panelsOver are the panels of a wall that lie over some of the rectangle.
func (p *planner) panelsOver(w *layout.Wall, r geom.Rect) []*layout.Panel {
	var over []*layout.Panel
	for _, run := range w.Runs {
		for _, i := range p.Runs[run].Panels {
			if panel := &p.Panels[i]; panel.Finished.Bounds().InteriorIntersects(r) && covers(panel.Finished, r) {
				over = append(over, panel)
			}
		}
	}
	return over
}

// covers reports whether a polygon lies over some of a rectangle: more than a hundredth of a square millimetre.
func covers(p geom.Polygon, r geom.Rect) bool {
	area := 0.0
	for _, piece := range p.Clip(r) {
		area += piece.Area()
	}
	return area > 0.01
}
