package geom

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// Hull returns the convex hull of the points, normalized. Of points on one line it returns the two ends, the left or
// else the lower one first; of one point, that point. It is Andrew's monotone chain, "Another efficient algorithm for
// convex hulls in two dimensions", Information Processing Letters 9 (1979).
func Hull(points []Point) Polygon {
	q := slices.SortedFunc(slices.Values(points), Point.compare)
	q = slices.Compact(q)
	if len(q) < 2 {
		return q
	}
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
	if len(hull) == 2 {
		return hull
	}
	return hull.Normalized()
}

// Centroid returns the centre of area, rounded to the nearest nanometre; the centre of the bounds when there is no
// area.
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

// Diagonals returns the lengths from corner 0 to corner 2 and from corner 1 to corner 3, to the nearest nanometre; ok
// is false unless the polygon has four corners.
func (p Polygon) Diagonals() (d02, d13 Length, ok bool) {
	if len(p) != 4 {
		return 0, 0, false
	}
	return p[0].Distance(p[2]), p[1].Distance(p[3]), true
}

// Angle returns the angle inside the normalized polygon at corner i in degrees, more than 0 and less than 360; more
// than 180 at an inner corner.
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

// Length returns how long the span is.
func (s Span) Length() Length { return s.To - s.From }

// Contains reports whether at lies in the span or at its ends.
func (s Span) Contains(at Length) bool { return s.From <= at && at <= s.To }

// SpansAtY returns the stretches of x that lie in p at height y, from left to right, apart from each other. The outline
// belongs to p: a corner that only touches the height gives a span of no length. Ends on sloped edges are rounded
// to the nearest nanometre.
func (p Polygon) SpansAtY(y Length) []Span {
	// What lies in p just above the height, and just below it, are pairs of edges; both together are closed.
	var above, below []Length
	for _, e := range p.Edges() {
		a, b := e.A, e.B
		if a.Y == b.Y || y < min(a.Y, b.Y) || y > max(a.Y, b.Y) {
			continue
		}
		x := roundHalfUp(interpolate(a.X, b.X-a.X, y-a.Y, b.Y-a.Y))
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

// SpansAtX returns the stretches of y that lie in p at the place x, from the bottom up; see [Polygon.SpansAtY].
func (p Polygon) SpansAtX(x Length) []Span {
	return p.transposed().SpansAtY(x)
}

// DistanceTo returns how far q is from the nearest edge of p, inside or out, to the nearest nanometre.
func (p Polygon) DistanceTo(q Point) Length {
	least := math.Inf(1)
	for _, e := range p.Edges() {
		least = min(least, e.squareTo(q))
	}
	if math.IsInf(least, 1) {
		return math.MaxInt64
	}
	return Length(math.Round(math.Sqrt(least)))
}

// DistanceToRect returns how far the nearest edge of p is from r, to the nearest nanometre; 0 when an edge meets r.
func (p Polygon) DistanceToRect(r Rect) Length {
	least := Length(math.MaxInt64)
	for _, e := range p.Edges() {
		least = min(least, e.DistanceToRect(r))
	}
	return least
}

// ClearOf reports whether r lies in p with no point of r nearer than c to an edge of p. It is exact, and true when
// the nearest edge is c away. A c below zero is taken as zero.
func (p Polygon) ClearOf(r Rect, c Length) bool {
	if len(p) < 3 || !r.Valid() || !p.Bounds().Contains(r) {
		return false
	}
	if c <= 0 {
		return p.ContainsRect(r)
	}
	for _, e := range p.Edges() {
		if !e.ClearOf(r, c) {
			return false
		}
	}
	return p.ContainsPoint(r.Min) // no edge enters r, so one corner speaks for all of it
}
