package sheet

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/lettering"
	"rodsheet/template/plan"
)

// Room round an elevation for its dimensions.
const (
	elevationLeft   = 24 * mm
	elevationBottom = 18 * mm
	elevationTop    = 7 * mm
	elevationRight  = 6 * mm
)

// elevation is a wall as a person who faces it sees it, to a whole scale that fits the given size.
func (m *maker) elevation(index int, most geom.Size) drawing.Drawing {
	w := &m.plan.Walls[index]
	wall := w.Job.Outline.Bounds()
	n := math.Max(
		float64(wall.W())/float64(most.W-elevationLeft-elevationRight),
		float64(wall.H())/float64(most.H-elevationBottom-elevationTop))
	n = math.Max(1, math.Ceil(n))
	to := geom.Scale(1/n, 1/n)
	shape := func(p geom.Polygon) []geom.Point {
		out := make([]geom.Point, len(p))
		for i, q := range p {
			out[i] = to.Apply(q)
		}
		return out
	}
	var d drawing.Drawing
	right, top := to.Apply(wall.Max).X, to.Apply(wall.Max).Y
	d.Bounds = geom.R(-elevationLeft, -elevationBottom, right+elevationRight, top+elevationTop)

	for _, s := range w.Members {
		d.Add(drawing.Path{Points: shape(s.Body.Polygon()), Closed: true, Fill: drawing.Pale})
	}
	for _, k := range w.KeepOuts {
		zone := geom.Polygon(shape(k.Zone.Polygon())).Bounds().Intersect(geom.R(0, 0, right, top))
		if !zone.Valid() {
			continue
		}
		hatch(&d, zone, 18*mm/10)
		if k.Kind != "cables" {
			d.Add(drawing.Path{Points: shape(k.Body.Polygon()), Closed: true, Pen: drawing.Narrow, Fill: drawing.White})
		}
	}
	d.Add(outline(shape(w.Job.Outline), drawing.Wide, drawing.Guide))
	for _, ri := range w.Runs {
		r := &m.plan.Runs[ri]
		for _, pi := range r.Panels {
			p := &m.plan.Panels[pi]
			d.Add(drawing.Path{Points: shape(p.Finished), Closed: true, Pen: drawing.Narrow})
			for _, c := range p.Clips {
				d.Add(drawing.Circle{Centre: to.Apply(c.Wall), Radius: 6 * mm / 10, Fill: drawing.Black})
			}
		}
		for _, pi := range r.Panels {
			p := &m.plan.Panels[pi]
			b := geom.Polygon(shape(p.Finished)).Bounds()
			t := drawing.Text{At: to.Apply(p.Finished.Centroid()), String: p.Name, Height: medium, Bold: true, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true}
			if lettering.Width(p.Name, medium, true) > b.W()-mm {
				t.Height = small
			}
			if lettering.Width(p.Name, t.Height, true) > b.W()-mm && b.H() > b.W() {
				t.Turn = 90
			}
			d.Add(t)
		}
		m.elevationHeights(&d, r, to)
	}
	for _, k := range w.KeepOuts {
		if k.Kind == "cables" {
			continue
		}
		body := geom.Polygon(shape(k.Body.Polygon())).Bounds()
		at := body.Centre()
		if lettering.Width(k.Name, small, false) > body.W() {
			at.Y = body.Max.Y + 2*mm
		}
		d.Add(drawing.Text{At: at, String: k.Name, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true})
	}
	// The level line with its datum, and the wall's name and scale.
	d.Add(
		drawing.Path{Points: []geom.Point{{}, {X: -2 * mm, Y: 3 * mm}, {X: 2 * mm, Y: 3 * mm}}, Closed: true, Fill: drawing.Black},
		drawing.Line{From: geom.Pt(-6*mm, 0), To: geom.Pt(right+4*mm, 0), Pen: drawing.Pen{Width: drawing.NarrowWidth, Style: drawing.Chain}},
		drawing.Text{At: geom.Pt(0, top+3*mm), String: "Wall " + w.Job.Name, Height: medium, Bold: true},
		drawing.Text{At: geom.Pt(right, top+3*mm), String: fmt.Sprintf("1 : %.0f", n), Height: small, Anchor: drawing.Right},
	)
	m.elevationWidths(&d, w, to, right)
	return d
}

// elevationWidths are the places along the wall: ends of the wall and of its runs.
func (m *maker) elevationWidths(d *drawing.Drawing, w *plan.Wall, to geom.Affine, right geom.Length) {
	at := []geom.Length{0}
	for _, ri := range w.Runs {
		b := m.plan.Runs[ri].Bounds
		for _, x := range []geom.Length{b.Min.X, b.Max.X} {
			if x > at[len(at)-1] && x < w.Job.Width {
				at = append(at, x)
			}
		}
	}
	at = append(at, w.Job.Width)
	for i := 0; i+1 < len(at); i++ {
		a, b := to.Apply(geom.Pt(at[i], 0)), to.Apply(geom.Pt(at[i+1], 0))
		text := m.read(at[i+1] - at[i])
		if lettering.Width(text, small, false) < b.X-a.X-2*mm {
			dimension(d, a, b, -7*mm, text)
		}
	}
	dimension(d, geom.Pt(0, 0), geom.Pt(right, 0), -14*mm, "wall "+m.read(w.Job.Width))
}

// elevationHeights are a run's heights above the level line.
func (m *maker) elevationHeights(d *drawing.Drawing, r *plan.Run, to geom.Affine) {
	x := to.Apply(r.Bounds.Min).X
	seen := map[geom.Length]bool{}
	for _, pi := range r.Panels {
		b := m.plan.Panels[pi].Finished.Bounds()
		for _, y := range []geom.Length{b.Min.Y, b.Max.Y} {
			if seen[y] || len(seen) >= 2 {
				continue
			}
			seen[y] = true
			at := to.Apply(geom.Pt(0, y))
			d.Add(
				drawing.Line{From: geom.Pt(-3*mm, at.Y), To: geom.Pt(x, at.Y), Pen: drawing.Hair},
				drawing.Text{At: geom.Pt(-4*mm, at.Y), String: m.read(y), Height: small, Anchor: drawing.Right, Level: drawing.Halfway},
			)
		}
	}
	if b := r.Band; b != nil && b.HasDeck {
		right := to.Apply(r.Bounds.Max).X
		d.Add(drawing.Line{From: geom.Pt(x, to.Apply(geom.Pt(0, b.Deck[0])).Y), To: geom.Pt(right, to.Apply(geom.Pt(0, b.Deck[1])).Y), Pen: drawing.Narrow})
	}
}
