package geom

import (
	"iter"
	"slices"
)

// A Polygon is a simple closed outline: counter-clockwise (y up), not closed twice, without holes. What people
// write may be otherwise; see [Polygon.Normalized].
type Polygon []Point

// Bounds returns the smallest rectangle that holds the polygon; the zero Rect for no points.
func (p Polygon) Bounds() Rect {
	if len(p) == 0 {
		return Rect{}
	}
	r := Rect{p[0], p[0]}
	for _, q := range p[1:] {
		r = r.Union(Rect{q, q})
	}
	return r
}

// Edges yields the edges in order: edge i runs from corner i to the next one, the last edge back to corner 0.
func (p Polygon) Edges() iter.Seq2[int, Segment] {
	return func(yield func(int, Segment) bool) {
		for i, a := range p {
			b := p[0]
			if i+1 < len(p) {
				b = p[i+1]
			}
			if !yield(i, Segment{a, b}) {
				return
			}
		}
	}
}

// TwiceArea returns twice the signed area, exact: positive when the outline runs counter-clockwise.
func (p Polygon) TwiceArea() Product {
	var sum Product
	if len(p) == 0 {
		return sum
	}
	for i := 1; i+1 < len(p); i++ {
		sum = sum.plus(Cross(p[i].Sub(p[0]), p[i+1].Sub(p[0])))
	}
	return sum
}

// Area returns the area in square millimetres, without its sign; rounded only at the end.
func (p Polygon) Area() float64 {
	a := p.TwiceArea()
	if a.Sign() < 0 {
		a = Product{}.minus(a)
	}
	return a.SquareMillimetres() / 2
}

// Normalized returns the polygon in normal form: counter-clockwise, no point twice in a row, no point on the straight
// line between its neighbours, no spike of no width, starting at its lowest point and the leftmost of those. Equal
// simple shapes have equal normal forms. It is nil when less than three points are left. Its price grows with the
// number of points alone.
func (p Polygon) Normalized() Polygon {
	q := make(Polygon, 0, len(p))
	for _, pt := range p {
		for len(q) > 1 && q[len(q)-1] != pt && Orientation(q[len(q)-2], q[len(q)-1], pt) == 0 {
			q = q[:len(q)-1]
		}
		if len(q) == 0 || q[len(q)-1] != pt {
			q = append(q, pt)
		}
	}
	// The two ends meet: what they make of each other is taken off either of them.
	for trimmed := true; trimmed && len(q) > 2; {
		last := len(q) - 1
		switch {
		case q[last] == q[0] || Orientation(q[last-1], q[last], q[0]) == 0:
			q = q[:last]
		case Orientation(q[last], q[0], q[1]) == 0:
			q = q[1:]
		default:
			trimmed = false
		}
	}
	if len(q) < 3 {
		return nil
	}
	if q.TwiceArea().Sign() < 0 {
		slices.Reverse(q)
	}
	first := 0
	for i, pt := range q {
		if pt.Y < q[first].Y || pt.Y == q[first].Y && pt.X < q[first].X {
			first = i
		}
	}
	return slices.Concat(q[first:], q[:first])
}

// Equal reports whether two normalized polygons are the same outline.
func (p Polygon) Equal(q Polygon) bool { return slices.Equal(p, q) }

// Add returns the polygon moved by d.
func (p Polygon) Add(d Point) Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[i] = pt.Add(d)
	}
	return q
}

// Map returns the polygon as m maps it, corner by corner in the same order: not normalized where m mirrors or turns.
func (p Polygon) Map(m Affine) Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[i] = m.Apply(pt)
	}
	return q
}

// Mirror returns the normalized polygon seen from behind, mirrored left to right about x = axis/2: x′ = axis − x.
func (p Polygon) Mirror(axis Length) Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[i] = Point{axis - pt.X, pt.Y}
	}
	return q.Normalized()
}

// IsRectangle reports whether the normalized polygon is an axis-parallel rectangle.
func (p Polygon) IsRectangle() bool { return len(p) == 4 && p.Equal(p.Bounds().Polygon()) }
