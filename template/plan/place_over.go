package plan

import (
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// judgeWall tells what hangs where it should not: over boxes, vents, valves, openings, near heaters, in a door's way;
// and fittings that lie over each other.
func (p *Plan) judgeWall(w *Wall) {
	for i := range w.Job.Fittings {
		p.judgeFitting(w, &w.Job.Fittings[i])
	}
	for i := range w.Job.Openings {
		p.judgeOpening(w, &w.Job.Openings[i])
	}
	for i, a := range w.Job.Fittings {
		for _, b := range w.Job.Fittings[:i] {
			if a.Rect.InteriorIntersects(b.Rect) {
				p.trouble("fittings-overlap", Spot{"wall " + w.Job.Name, a.Key},
					fmt.Sprintf("Two fittings lie over each other on wall %s: %s and %s.", w.Job.Name, fittingName(&b), fittingName(&a)),
					"Measure both again if they are two things; one entry will do if they are one.")
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

// fittingName is what the person called a fitting, or what it is.
func fittingName(f *job.Fitting) string {
	switch {
	case f.Name != "" && f.Name != string(f.Kind):
		return f.Name
	case f.Kind == job.Electrical:
		return "the electrical box"
	case f.Kind == job.Other:
		return "the fitting"
	}
	return "the " + string(f.Kind)
}

func (p *Plan) judgeFitting(w *Wall, f *job.Fitting) {
	over := p.panelsOver(w, f.Rect)
	name := fittingName(f)
	tell := func(id, panels, text, remedy string) {
		p.trouble(id, Spot{panels, f.Key}, text, remedy)
	}
	if f.Kind == job.Heater { // how near is worth a word: common practice, from memory; the appliance's own plate rules
		warmth := p.pick(geom.Foot, 300*geom.Millimetre)
		near := p.panelsOver(w, f.Rect.Inset(-warmth))
		if len(near) > 0 {
			who := names(near)
			tell("near-heater", who, fmt.Sprintf("%s within %s of %s.", hang(who, len(near)), p.read(warmth), name),
				"Keep the distance to combustible things that the heater's plate or manual asks for; there is no one figure for all.")
		}
	}
	if len(over) == 0 {
		return
	}
	who := names(over)
	switch f.Kind {
	case job.Electrical:
		tell("over-box", who, fmt.Sprintf("%s over %s. An electrical box must stay reachable without taking anything off the wall.", hang(who, len(over)), name),
			fmt.Sprintf("Give the run an area, which leaves %s free, divide it so that a gap falls there, or have the box moved by an electrician.", name))
	case job.Vent:
		tell("over-vent", who, fmt.Sprintf("%s over %s and would shut it.", hang(who, len(over)), name),
			fmt.Sprintf("Leave %s free: give the run an area or divide it otherwise.", name))
	case job.Valve:
		tell("over-valve", who, fmt.Sprintf("%s over %s, which must be found and turned in a hurry.", hang(who, len(over)), name),
			fmt.Sprintf("Leave %s free, or make that panel one that lifts off, and say so beside it.", name))
	case job.Heater: // told above
	default:
		tell("over-fitting", who, fmt.Sprintf("%s over %s, which stands in the way of the board.", hang(who, len(over)), name),
			fmt.Sprintf("Leave %s free: give the run an area or divide it otherwise. If it lies inside the wall, call it a keep-out.", name))
	}
}

func (p *Plan) judgeOpening(w *Wall, o *job.Opening) {
	name := called(o.Name, string(o.Kind))
	if over := p.panelsOver(w, o.Rect); len(over) > 0 {
		who := names(over)
		p.trouble("over-opening", Spot{who, o.Key}, fmt.Sprintf("%s over %s.", hang(who, len(over)), name),
			fmt.Sprintf("Give the run an area, which cuts %s out of its panels, or end the run beside it.", name))
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
		who := names(in)
		p.trouble("door-swing", Spot{who, o.Key}, fmt.Sprintf("%s where the leaf of %s opens against the wall (%s on either side).", hang(who, len(in)), name, p.read(o.Swing)),
			"Check which way it opens; fit a stop that holds the leaf off the panels, or keep the run clear of it.")
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

func hang(who string, n int) string {
	if n == 1 {
		return who + " hangs"
	}
	return who + " hang"
}
