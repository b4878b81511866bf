package geom

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// Hull is the convex hull of the points, normalized; nil when they lie on one line.
func Hull(points []Point) Polygon {
	q := slices.SortedFunc(slices.Values(points), Point.compare)
	q = slices.Compact(q)
	var hull Polygon
	chain := func(next func(yield func(int, Point) bool)) {
		from := len(hull)
		for _, pt := range next {
			for len(hull) > from+1 && Orientation(hull[len(hull)-2], hull[len(hull)-1], pt) <= 0 {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, pt)
		}
		hull = hull[:max(from, len(hull)-1)] // the last point begins the other chain
	}
	chain(slices.All(q))
	chain(slices.Backward(q))
	return hull.Normalized()
}

// Centroid is the centre of area, rounded to the nearest nanometre; the centre of the bounds when there is no area.
func (p Polygon) Centroid() Point {
	var area Product
	sumX, sumY := new(big.Int), new(big.Int)
	for i := 1; i+1 < len(p); i++ {
		a, b := p[i].Sub(p[0]), p[i+1].Sub(p[0])
		cross := Cross(a, b)
		area = area.plus(cross)
		w, s := cross.big(), a.Add(b)
		sumX.Add(sumX, new(big.Int).Mul(w, big.NewInt(int64(s.X))))
		sumY.Add(sumY, new(big.Int).Mul(w, big.NewInt(int64(s.Y))))
	}
	if area.Sign() == 0 {
		return p.Bounds().Centre()
	}
	over := new(big.Int).Mul(area.big(), big.NewInt(3))
	at := func(sum *big.Int) Length { return roundHalfUp(new(big.Rat).SetFrac(sum, over)) }
	return p[0].Add(Point{at(sumX), at(sumY)})
}

// Diagonals are the lengths from corner 0 to corner 2 and from corner 1 to corner 3, to the nearest nanometre; ok is
// false unless the polygon has four corners.
func (p Polygon) Diagonals() (d02, d13 Length, ok bool) {
	if len(p) != 4 {
		return 0, 0, false
	}
	return p[0].Distance(p[2]), p[1].Distance(p[3]), true
}

// Angle is the angle inside the normalized polygon at corner i in degrees, more than 0 and less than 360; more than 180
// at an inner corner.
func (p Polygon) Angle(i int) float64 {
	at := p[i]
	next, last := p[(i+1)%len(p)].Sub(at), p[(i+len(p)-1)%len(p)].Sub(at)
	a := math.Atan2(Cross(next, last).float(), Dot(next, last).float()) * 180 / math.Pi
	if a < 0 {
		a += 360
	}
	return a
}

// A Span is what lies between two places on an axis, both of them in it: From ≤ To.
type Span struct{ From, To Length }

// Length is how long the span is.
func (s Span) Length() Length { return s.To - s.From }

// Contains tells whether at lies in the span or at its ends.
func (s Span) Contains(at Length) bool { return s.From <= at && at <= s.To }

// SpansAtY gives the stretches of x that lie in p at height y, from left to right, apart from each other. The outline
// belongs to p: a corner that only touches the height gives a span of no length. Ends on sloped edges are rounded
// to the nearest nanometre.
func (p Polygon) SpansAtY(y Length) []Span {
	// What lies in p just above the height, and just below it, are pairs of edges; both together are closed.
	var above, below []Length
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if a.Y == b.Y || y < min(a.Y, b.Y) || y > max(a.Y, b.Y) {
			continue
		}
		x := roundHalfUp(where(a.X, b.X-a.X, y-a.Y, b.Y-a.Y))
		if y < max(a.Y, b.Y) {
			above = append(above, x)
		}
		if y > min(a.Y, b.Y) {
			below = append(below, x)
		}
	}
	var spans []Span
	for _, side := range [][]Length{above, below} {
		slices.Sort(side)
		for i := 0; i+1 < len(side); i += 2 {
			spans = append(spans, Span{side[i], side[i+1]})
		}
	}
	slices.SortFunc(spans, func(s, t Span) int { return cmp.Or(cmp.Compare(s.From, t.From), cmp.Compare(s.To, t.To)) })
	var joined []Span
	for _, s := range spans {
		if n := len(joined); n > 0 && s.From <= joined[n-1].To {
			joined[n-1].To = max(joined[n-1].To, s.To)
			continue
		}
		joined = append(joined, s)
	}
	return joined
}

// SpansAtX gives the stretches of y that lie in p at the place x, from the bottom up; see [Polygon.SpansAtY].
func (p Polygon) SpansAtX(x Length) []Span {
	return p.transposed().SpansAtY(x)
}

// DistanceTo is how far q is from the nearest edge of p, inside or out, to the nearest nanometre.
func (p Polygon) DistanceTo(q Point) Length {
	least := math.Inf(1)
	for i, a := range p {
		least = min(least, squareToSegment(q, a, p[(i+1)%len(p)]))
	}
	if math.IsInf(least, 1) {
		return math.MaxInt64
	}
	return Length(math.Round(math.Sqrt(least)))
}

// DistanceToRect is how far the nearest edge of p is from r, to the nearest nanometre; 0 when an edge meets r.
func (p Polygon) DistanceToRect(r Rect) Length {
	least := math.Inf(1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if r.meets(a, b) {
			return 0
		}
		away := Point{max(r.Min.X-a.X, 0, a.X-r.Max.X), max(r.Min.Y-a.Y, 0, a.Y-r.Max.Y)}
		least = min(least, Dot(away, away).float())
		for _, corner := range r.Polygon() {
			least = min(least, squareToSegment(corner, a, b))
		}
	}
	if math.IsInf(least, 1) {
		return math.MaxInt64
	}
	return Length(math.Round(math.Sqrt(least)))
}

// squareToSegment is the squared distance from q to the segment a–b, rounded.
func squareToSegment(q, a, b Point) float64 {
	u, v := b.Sub(a), q.Sub(a)
	along := Dot(u, v)
	square := Dot(u, u)
	switch {
	case along.Sign() <= 0:
		return Dot(v, v).float()
	case along.Cmp(square) >= 0:
		w := q.Sub(b)
		return Dot(w, w).float()
	}
	c := Cross(u, v).float()
	return c * c / square.float()
}

// ClearOf tells whether r lies in p with no point of r nearer than c to an edge of p. It is exact, and true when
// the nearest edge is c away. A c below zero is taken as zero.
func (p Polygon) ClearOf(r Rect, c Length) bool {
	if len(p) < 3 || !r.Valid() || !p.Bounds().Contains(r) {
		return false
	}
	if c <= 0 {
		return p.ContainsRect(r)
	}
	for i, a := range p {
		if r.nearer(a, p[(i+1)%len(p)], c) {
			return false
		}
	}
	return p.ContainsPoint(r.Min) // no edge enters r, so one corner speaks for all of it
}

// nearer tells whether a point of the segment a–b is nearer than c > 0 to r. It is exact.
func (r Rect) nearer(a, b Point, c Length) bool {
	box := Rect{a, a}.Union(Rect{b, b})
	if !box.InteriorIntersects(r.Inset(-c)) {
		return false
	}
	limit := mul(c, c)
	if a.X == b.X || a.Y == b.Y { // the segment is its own bounding box
		away := Point{max(r.Min.X-box.Max.X, 0, box.Min.X-r.Max.X), max(r.Min.Y-box.Max.Y, 0, box.Min.Y-r.Max.Y)}
		return Dot(away, away).Cmp(limit) < 0
	}
	if r.meets(a, b) {
		return true
	}
	for _, end := range []Point{a, b} {
		away := Point{max(r.Min.X-end.X, 0, end.X-r.Max.X), max(r.Min.Y-end.Y, 0, end.Y-r.Max.Y)}
		if Dot(away, away).Cmp(limit) < 0 {
			return true
		}
	}
	u := b.Sub(a)
	square := Dot(u, u)
	for _, corner := range r.Polygon() {
		v := corner.Sub(a)
		if along := Dot(u, v); along.Sign() <= 0 || along.Cmp(square) >= 0 {
			continue // the nearest point is an end, already looked at
		}
		cross := Cross(u, v)
		off, reach := cross.float()*cross.float(), limit.float()*square.float()
		switch { // floats decide, but where their rounding might
		case off < reach*(1-1e-12):
			return true
		case off > reach*(1+1e-12):
			continue
		}
		exact := cross.big()
		if exact.Mul(exact, exact).Cmp(new(big.Int).Mul(limit.big(), square.big())) < 0 {
			return true
		}
	}
	return false
}
