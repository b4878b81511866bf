package sheet

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/geom/cutting"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan"
)

// liesDown tells whether a stretch of stock is drawn on its long side: what was up then runs right.
func liesDown(size geom.Size) bool { return size.H > size.W }

// layoutFigure draws a stretch of a sheet or roll with the parts on it, offcuts hatched, cuts numbered in their order.
// A part that goes on beyond the stretch is named on both. The stock is drawn as wide as the page, or as high as given.
func (m *maker) layoutFigure(name string, used cutting.Used, stretch geom.Rect, parts []plan.Part, high geom.Length) drawing.Drawing {
	const head = 8 * mm // the name, and room below it for a number on the border
	field, size := m.options.Field, stretch.Size()
	turn := geom.Identity()
	if liesDown(size) {
		turn, size = geom.Affine{B: 1, C: 1}, size.Turned() // across the diagonal
	}
	k := min(float64(field.W-4*mm)/float64(size.W), float64(high)/float64(size.H))
	to := turn.Then(geom.Scale(k, k))
	rect := func(r geom.Rect) geom.Rect {
		back := geom.Pt(-stretch.Min.X, -stretch.Min.Y)
		return geom.Polygon{to.Apply(r.Min.Add(back)), to.Apply(r.Max.Add(back))}.Bounds()
	}
	whole := rect(stretch)
	d := drawing.Drawing{Bounds: geom.R(0, 0, whole.Max.X, whole.Max.Y+head)}
	hatch(&d, whole, 3*mm)
	d.Add(drawing.Text{At: geom.Pt(0, whole.Max.Y+4*mm), String: name + " · " + m.sizeOf(size), Height: small, Bold: true})
	var taken []geom.Rect // by words and numbers
	for _, p := range used.Placed {
		if !p.Rect.InteriorIntersects(stretch) {
			continue
		}
		r := rect(p.Rect.Intersection(stretch))
		d.Add(drawing.Path{Points: r.Polygon(), Closed: true, Pen: drawing.Narrow, Fill: drawing.White})
		words := []string{parts[p.Part].Name, m.sizeOf(p.Rect.Size())}
		if turn != geom.Identity() {
			words[1] = m.sizeOf(p.Rect.Size().Turned())
		}
		taken = append(taken, m.inside(&d, r, words))
	}
	for i, c := range used.Cuts {
		if !cutOn(c, stretch) {
			continue
		}
		r := rect(c.Slot.Intersection(stretch))
		from, end := r.Min, r.Max
		if r.W() > r.H() {
			from.Y, end.Y = r.Centre().Y, r.Centre().Y
		} else {
			from.X, end.X = r.Centre().X, r.Centre().X
		}
		n := fmt.Sprint(i + 1)
		radius := max(21*mm/10, font.Width(n, small, false)/2+8*mm/10)
		at := freeOn(from, end, radius, whole, taken)
		taken = append(taken, geom.R(at.X-radius, at.Y-radius, at.X+radius, at.Y+radius))
		d.Add(
			drawing.Line{From: from, To: end, Pen: drawing.Wide},
			drawing.Circle{Centre: at, Radius: radius, Pen: drawing.Hair, Fill: drawing.White},
			drawing.Text{At: at, String: n, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway},
		)
	}
	// Circles last, above every cut.
	slices.SortStableFunc(d.Marks, func(a, b drawing.Mark) int { return layer(a) - layer(b) })
	d.Add(outline(whole.Polygon(), drawing.Wide, drawing.Note))
	return d
}

// cutOn tells whether a cut is drawn on a stretch: one from side to side on the border of two belongs to the first.
func cutOn(c cutting.Cut, stretch geom.Rect) bool {
	if c.Across {
		return c.Slot.Min.Y > stretch.Min.Y && c.Slot.Min.Y <= stretch.Max.Y
	}
	return c.Slot.Max.Y > stretch.Min.Y && c.Slot.Min.Y < stretch.Max.Y
}

// layer puts the numbers of cuts above all cuts.
func layer(m drawing.Mark) int {
	switch m := m.(type) {
	case drawing.Circle:
		return 1
	case drawing.Text:
		if m.Level == drawing.Halfway && m.Anchor == drawing.Middle {
			return 1
		}
	}
	return 0
}

// freeOn is the place on a line, from its start for an upright one from its top, where a circle touches least of what
// is taken.
func freeOn(from, to geom.Point, radius geom.Length, whole geom.Rect, taken []geom.Rect) geom.Point {
	if from.X == to.X {
		from, to = to, from
	}
	length := from.Distance(to)
	const tries = 40
	best, least := from, -1.0
	for i := range geom.Length(tries + 1) {
		along := min(length, radius+mm/2+(length-radius-mm/2)*i/tries)
		at := from
		if length > 0 {
			part := float64(along) / float64(length)
			at = from.Add(geom.Pt((to.X - from.X).Times(part), (to.Y - from.Y).Times(part)))
		}
		// A circle stays within the picture where it can.
		box := geom.R(at.X-radius, at.Y-radius, at.X+radius, at.Y+radius)
		sum := 0.0
		for _, t := range taken {
			if box.InteriorIntersects(t) {
				c := box.Intersection(t)
				sum += c.W().Millimetres() * c.H().Millimetres()
			}
		}
		if out := box.Union(whole); out.H() > whole.H() {
			sum += (out.H() - whole.H()).Millimetres()
		}
		if least < 0 || sum < least-1e-9 {
			best, least = at, sum
		}
		if sum == 0 {
			break
		}
	}
	return best
}

// inside writes words into a rectangle, upright if they only fit so; those that fit neither way are left to the table.
// It returns what they take up.
func (m *maker) inside(d *drawing.Drawing, r geom.Rect, words []string) geom.Rect {
	widest := geom.Length(0)
	for i, w := range words {
		widest = max(widest, font.Width(w, small, i == 0))
	}
	high := geom.Length(len(words)) * 4 * mm
	c := r.Centre()
	switch {
	case widest < r.W()-mm && high < r.H():
		for i, w := range words {
			d.Add(drawing.Text{At: geom.Pt(c.X, c.Y+high/2-2*mm-geom.Length(i)*4*mm), String: w, Height: small, Bold: i == 0, Anchor: drawing.Middle, Level: drawing.Halfway})
		}
		return geom.R(c.X-widest/2, c.Y-high/2, c.X+widest/2, c.Y+high/2)
	case widest < r.H()-mm && high < r.W():
		for i, w := range words {
			d.Add(drawing.Text{At: geom.Pt(c.X-high/2+2*mm+geom.Length(i)*4*mm, c.Y), String: w, Height: small, Bold: i == 0, Anchor: drawing.Middle, Level: drawing.Halfway, Turn: 90})
		}
		return geom.R(c.X-high/2, c.Y-widest/2, c.X+high/2, c.Y+widest/2)
	case len(words) == 2 && strings.Contains(words[1], " × "): // which way a part lies is told by its size
		across, up, _ := strings.Cut(words[1], " × ")
		return m.inside(d, r, []string{words[0], across + " ×", up})
	case len(words) > 1:
		return m.inside(d, r, words[:1])
	}
	// A name is told however small its part is drawn.
	d.Add(drawing.Text{At: c, String: words[0], Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true})
	return geom.R(c.X-widest/2, c.Y-small/2, c.X+widest/2, c.Y+small/2)
}

// rollStretches divides a roll's length into stretches that can be read, about equally long: at cuts from side to side
// where there are any near.
func rollStretches(l *cutting.RollLayout, width geom.Length, field geom.Size) []geom.Rect {
	const readable = 45 * mm // height of a stretch's picture at least
	most := max(width, width.Times(float64(field.W-4*mm)/float64(readable)))
	var out []geom.Rect
	for y := geom.Length(0); y < l.Length; {
		rest := l.Length - y
		target := y + rest/((rest+most-1)/most)
		end := target
		if target < l.Length {
			near := most
			for _, c := range l.Cuts {
				if t := c.Slot.Max.Y; c.Across && c.Of.W() == width && t > y && t <= y+most && max(t-target, target-t) < near {
					end, near = t, max(t-target, target-t)
				}
			}
		}
		out = append(out, geom.R(0, y, width, end))
		y = end
	}
	return out
}

// napArrow shows below a picture of a roll which way is up on every piece.
func napArrow(d *drawing.Drawing, lying bool) {
	y := d.Bounds.Min.Y - 5*mm
	d.Bounds.Min.Y = y - 3*mm
	const words = "top of every piece"
	if lying {
		d.Add(
			drawing.Line{From: geom.Pt(0, y), To: geom.Pt(30*mm, y), Pen: drawing.Wide},
			arrowhead(geom.Pt(33*mm, y), geom.Pt(0, y)),
			drawing.Text{At: geom.Pt(36*mm, y), String: words, Height: small, Bold: true, Level: drawing.Halfway},
		)
		return
	}
	d.Add(
		drawing.Line{From: geom.Pt(2*mm, y-2*mm), To: geom.Pt(2*mm, y+2*mm), Pen: drawing.Wide},
		arrowhead(geom.Pt(2*mm, y+4*mm), geom.Pt(2*mm, y)),
		drawing.Text{At: geom.Pt(6*mm, y), String: words, Height: small, Bold: true, Level: drawing.Halfway},
	)
}
