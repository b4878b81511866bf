package geom

import "math"

// An Affine maps a point (x, y) to (A·x + B·y + X, C·x + D·y + Y). It is exact while A…D are −1, 0 or +1, as in
// moves, mirrors and quarter turns; otherwise results are rounded to whole nanometres.
type Affine struct {
	A, B, C, D float64
	X, Y       Length
}

// Identity maps every point to itself.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Translate maps p to p + d.
func Translate(d Point) Affine { return Affine{A: 1, D: 1, X: d.X, Y: d.Y} }

// FlipX maps (x, y) to (width − x, y): the view from behind.
func FlipX(width Length) Affine { return Affine{A: -1, D: 1, X: width} }

// FlipY maps (x, y) to (x, height − y): from y up to y down.
func FlipY(height Length) Affine { return Affine{A: 1, D: -1, Y: height} }

// Scale maps (x, y) to (sx·x, sy·y).
func Scale(sx, sy float64) Affine { return Affine{A: sx, D: sy} }

// Apply returns the image of p.
func (m Affine) Apply(p Point) Point {
	return Point{
		m.X + linear(m.A, p.X) + linear(m.B, p.Y),
		m.Y + linear(m.C, p.X) + linear(m.D, p.Y),
	}
}

// linear keeps whole coefficients in integers, so that moves and mirrors stay exact at any distance.
func linear(k float64, l Length) Length {
	switch k {
	case 0:
		return 0
	case 1:
		return l
	case -1:
		return -l
	}
	return l.Times(k)
}

// Then returns the map that does m first and n after it.
func (m Affine) Then(n Affine) Affine {
	o := n.Apply(Point{m.X, m.Y})
	return Affine{
		A: n.A*m.A + n.B*m.C, B: n.A*m.B + n.B*m.D,
		C: n.C*m.A + n.D*m.C, D: n.C*m.B + n.D*m.D,
		X: o.X, Y: o.Y,
	}
}

// Inverse returns the map that undoes m; ok is false when m flattens the plane or is not a number.
func (m Affine) Inverse() (inv Affine, ok bool) {
	det := m.A*m.D - m.B*m.C
	if det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return Affine{}, false
	}
	inv = Affine{A: m.D / det, B: -m.B / det, C: -m.C / det, D: m.A / det}
	o := inv.Apply(Point{m.X, m.Y})
	inv.X, inv.Y = -o.X, -o.Y
	return inv, true
}
