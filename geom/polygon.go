package geom

import "slices"

// A Polygon is a simple closed outline: counter-clockwise (y up), not closed twice, without holes. What people
// write may be otherwise; see [Polygon.Canon].
type Polygon []Point

// Bounds is the smallest rectangle that holds the polygon; the zero Rect for no points.
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

// TwiceArea is twice the signed area, exact: positive when the outline runs counter-clockwise.
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

// Area is the area in square millimetres, without its sign; rounded only at the end.
func (p Polygon) Area() float64 {
	a := p.TwiceArea()
	if a.Sign() < 0 {
		a = Product{}.minus(a)
	}
	return a.SquareMillimetres() / 2
}

// Canon is the polygon in canonical form: counter-clockwise, no point twice in a row, no point on the straight line
// between its neighbours, starting at its lowest point and the leftmost of those. Equal shapes have equal canonical
// forms. It is nil when less than three points are left.
func (p Polygon) Canon() Polygon {
	q := slices.Clone(p)
	if q.TwiceArea().Sign() < 0 {
		slices.Reverse(q)
	}
	for changed := true; changed && len(q) > 0; {
		changed = false
		out := q[:0:0]
		for i, pt := range q {
			before := q[(i+len(q)-1)%len(q)]
			if len(out) > 0 {
				before = out[len(out)-1]
			}
			after := q[(i+1)%len(q)]
			if pt == before && len(q) > 1 || Turn(before, pt, after) == 0 {
				changed = true
				continue
			}
			out = append(out, pt)
		}
		q = out
	}
	if len(q) < 3 {
		return nil
	}
	first := 0
	for i, pt := range q {
		if pt.Y < q[first].Y || pt.Y == q[first].Y && pt.X < q[first].X {
			first = i
		}
	}
	return slices.Concat(q[first:], q[:first])
}

// Equal tells whether two canonical polygons are the same outline.
func (p Polygon) Equal(q Polygon) bool { return slices.Equal(p, q) }

// Add is the polygon moved by d.
func (p Polygon) Add(d Point) Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[i] = pt.Add(d)
	}
	return q
}

// Mirror is the canonical polygon seen from behind, mirrored left to right about x = axis/2: x′ = axis − x.
func (p Polygon) Mirror(axis Length) Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[i] = Point{axis - pt.X, pt.Y}
	}
	return q.Canon()
}

// Rectangle tells whether the canonical polygon is an axis-parallel rectangle.
func (p Polygon) Rectangle() bool { return len(p) == 4 && p.Equal(p.Bounds().Polygon()) }
