package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/geom/cutting"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan/stock"
)

// partPitch is the distance of lines of words on a part.
const partPitch = 4 * mm

// liesDown reports whether a stretch of stock is drawn on its long side: what was up then runs right.
func liesDown(size geom.Size) bool { return size.H > size.W }

// layoutFigure draws a stretch of a sheet or roll with the parts on it, offcuts hatched, cuts numbered in their order.
// A part that goes on beyond the stretch is named on both. The stock is drawn as wide as the page, or as high as given.
func (m *maker) layoutFigure(name string, used cutting.Used, stretch geom.Rect, parts []stock.Part, high geom.Length) drawing.Drawing {
	const head = 8 * mm // the name, and room below it for a number on the border
	field, size := m.options.Field, stretch.Size()
	turn, lying := geom.Identity(), liesDown(size)
	if lying {
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
	var labels drawing.Drawing // names of parts and numbers of cuts, above all lines
	var taken []geom.Rect      // by labels
	for _, p := range used.Placed {
		if !p.Rect.InteriorIntersects(stretch) {
			continue
		}
		r := rect(p.Rect.Intersection(stretch))
		d.Add(drawing.Path{Points: r.Polygon(), Closed: true, Pen: drawing.Narrow, Fill: drawing.White})
		part := p.Rect.Size()
		if lying {
			part = part.Turned()
		}
		taken = append(taken, m.partWords(&labels, r, parts[p.Part].Name, part))
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
		d.Add(drawing.Line{From: from, To: end, Pen: drawing.Wide})
		labels.Add(
			drawing.Circle{Centre: at, Radius: radius, Pen: drawing.Hair, Fill: drawing.White},
			drawing.Text{At: at, String: n, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway},
		)
	}
	d.Add(labels.Marks...)
	d.Add(outline(whole.Polygon(), drawing.Wide, drawing.Note))
	return d
}

// cutOn reports whether a cut is drawn on a stretch: one from side to side on the border of two belongs to the first.
func cutOn(c cutting.Cut, stretch geom.Rect) bool {
	if c.Across {
		return c.Slot.Min.Y > stretch.Min.Y && c.Slot.Min.Y <= stretch.Max.Y
	}
	return c.Slot.Max.Y > stretch.Min.Y && c.Slot.Min.Y < stretch.Max.Y
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

// partWords writes a part's name and size into its rectangle, upright if they only fit so, the size on two lines if it
// only fits so; where it doesn't fit at all it is left to the table, but the name is written however small the part. It
// returns what the words take up.
func (m *maker) partWords(d *drawing.Drawing, r geom.Rect, name string, size geom.Size) geom.Rect {
	c := r.Centre()
	for _, lines := range [][]string{{name, m.sizeOf(size)}, {name, m.read(size.W) + " ×", m.read(size.H)}, {name}} {
		block := geom.Size{H: geom.Length(len(lines)) * partPitch}
		for i, l := range lines {
			block.W = max(block.W, font.Width(l, small, i == 0))
		}
		turn, box := 0.0, block
		switch {
		case block.W < r.W()-mm && block.H < r.H():
		case block.W < r.H()-mm && block.H < r.W():
			turn, box = 90, block.Turned()
		default:
			continue
		}
		for i, l := range lines {
			off := block.H/2 - partPitch/2 - geom.Length(i)*partPitch // above the middle of the block
			at := geom.Pt(c.X, c.Y+off)
			if turn != 0 {
				at = geom.Pt(c.X-off, c.Y)
			}
			d.Add(drawing.Text{At: at, String: l, Height: small, Bold: i == 0, Anchor: drawing.Middle, Level: drawing.Halfway, Turn: turn})
		}
		return geom.R(c.X-box.W/2, c.Y-box.H/2, c.X+box.W/2, c.Y+box.H/2)
	}
	wide := font.Width(name, small, true)
	d.Add(drawing.Text{At: c, String: name, Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true})
	return geom.R(c.X-wide/2, c.Y-small/2, c.X+wide/2, c.Y+small/2)
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
