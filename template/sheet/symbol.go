package sheet

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

const mm = geom.Millimetre

// Lettering heights, by their names here.
const (
	small  = font.Small
	medium = font.Medium
	large  = font.Large
	huge   = font.Huge
)

// linePitch is the distance of lines of small words beside or under each other in a drawing.
const linePitch = 42 * mm / 10

// armBeyond is how far a hole's cross reaches past its drill circle: short of the 5 mm that seams keep clear.
const armBeyond = 45 * mm / 10

// hole draws a place to drill, a cross in a drill circle, and remembers it for the seams.
func hole(d *drawing.Drawing, at geom.Point, radius geom.Length, name string) {
	arm := radius + armBeyond
	d.Add(
		drawing.Circle{Centre: at, Radius: radius, Pen: drawing.Narrow, Role: drawing.Drill},
		drawing.Line{From: at.Sub(geom.Pt(arm, 0)), To: at.Add(geom.Pt(arm, 0)), Pen: drawing.Hair, Role: drawing.Drill},
		drawing.Line{From: at.Sub(geom.Pt(0, arm)), To: at.Add(geom.Pt(0, arm)), Pen: drawing.Hair, Role: drawing.Drill},
	)
	d.Holes = append(d.Holes, drawing.Hole{At: at, Radius: radius, Name: name})
}

// label is a line of text in the given height.
func label(at geom.Point, height geom.Length, anchor drawing.Anchor, text string) drawing.Text {
	return drawing.Text{At: at, String: text, Height: height, Anchor: anchor}
}

// outline draws a closed shape.
func outline(points []geom.Point, pen drawing.Pen, role drawing.Role) drawing.Path {
	return drawing.Path{Points: points, Closed: true, Pen: pen, Role: role}
}

// upArrow is a tall arrow with UP at its foot, for the middle of a sheet.
func upArrow(d *drawing.Drawing, foot geom.Point, height geom.Length) {
	head := foot.Add(geom.Pt(0, height))
	d.Add(
		drawing.Line{From: foot.Add(geom.Pt(0, 10*mm)), To: head.Sub(geom.Pt(0, height/4)), Pen: drawing.Pen{Width: 15 * mm / 10}},
		drawing.Path{Points: []geom.Point{head, head.Add(geom.Pt(height/9, -height/4)), head.Add(geom.Pt(-height/9, -height/4))}, Closed: true, Fill: drawing.Black},
		drawing.Text{At: foot, String: "UP", Height: huge, Bold: true, Anchor: drawing.Middle},
	)
}

// dimension draws a dimension line from a to b, shifted sideways by off (to its left when positive), with ISO 129
// extension lines, oblique-free arrowheads and the text above it. a and b must lie level or upright.
func dimension(d *drawing.Drawing, a, b geom.Point, off geom.Length, text string) {
	upright := a.X == b.X
	shift := geom.Pt(0, off)
	turn := 0.0
	if upright {
		shift, turn = geom.Pt(-off, 0), 90
	}
	p, q := a.Add(shift), b.Add(shift)
	beyond := geom.Pt(0, sign(off)*2*mm)
	if upright {
		beyond = geom.Pt(-sign(off)*2*mm, 0)
	}
	d.Add(
		drawing.Line{From: a, To: p.Add(beyond), Pen: drawing.Hair},
		drawing.Line{From: b, To: q.Add(beyond), Pen: drawing.Hair},
		drawing.Line{From: p, To: q, Pen: drawing.Hair},
		arrowhead(p, q), arrowhead(q, p),
	)
	middle := geom.Pt((p.X+q.X)/2, (p.Y+q.Y)/2)
	t := drawing.Text{At: middle, String: text, Height: small, Anchor: drawing.Middle, Turn: turn, Halo: true}
	if upright {
		t.At.X -= mm
	} else {
		t.At.Y += mm
	}
	d.Add(t)
}

func sign(l geom.Length) geom.Length {
	if l < 0 {
		return -1
	}
	return 1
}

// arrowhead is a filled head at the point tip of a line that comes from the point from; level or upright.
func arrowhead(tip, from geom.Point) drawing.Path {
	const long, half = 3 * mm, mm / 2
	p := []geom.Point{tip, {}, {}}
	switch {
	case from.X > tip.X:
		p[1], p[2] = tip.Add(geom.Pt(long, half)), tip.Add(geom.Pt(long, -half))
	case from.X < tip.X:
		p[1], p[2] = tip.Add(geom.Pt(-long, half)), tip.Add(geom.Pt(-long, -half))
	case from.Y > tip.Y:
		p[1], p[2] = tip.Add(geom.Pt(half, long)), tip.Add(geom.Pt(-half, long))
	default:
		p[1], p[2] = tip.Add(geom.Pt(half, -long)), tip.Add(geom.Pt(-half, -long))
	}
	return drawing.Path{Points: p, Closed: true, Fill: drawing.Black}
}

// hatch fills a rectangle with lines at 45° for a place where nothing may go, exactly on its border.
func hatch(d *drawing.Drawing, r geom.Rect, pitch geom.Length) {
	for c := r.Min.Y - r.W() + pitch; c < r.Max.Y; c += pitch {
		// The line y = c + (x − r.Min.X).
		from := geom.Pt(r.Min.X, c)
		if c < r.Min.Y {
			from = geom.Pt(r.Min.X+(r.Min.Y-c), r.Min.Y)
		}
		to := geom.Pt(r.Max.X, c+r.W())
		if to.Y > r.Max.Y {
			to = geom.Pt(r.Min.X+(r.Max.Y-c), r.Max.Y)
		}
		d.Add(drawing.Line{From: from, To: to, Pen: drawing.Faint})
	}
}
