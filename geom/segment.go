package geom

import (
	"math"
	"math/big"
)

// A Segment is the straight line from A to B; both ends belong to it. It may be a single point.
type Segment struct{ A, B Point }

// Bounds returns the smallest rectangle that holds the segment.
func (s Segment) Bounds() Rect {
	return Rect{
		Point{min(s.A.X, s.B.X), min(s.A.Y, s.B.Y)},
		Point{max(s.A.X, s.B.X), max(s.A.Y, s.B.Y)},
	}
}

// Vector returns B − A.
func (s Segment) Vector() Point { return s.B.Sub(s.A) }

// YAt returns the height at x of the line that the segment, which is not upright, lies on, to the nearest nanometre.
func (s Segment) YAt(x Length) Length {
	d := s.Vector()
	return s.A.Y + d.Y.Times(float64(x-s.A.X)/float64(d.X))
}

// Side reports on which side of the directed line through A and B the point q lies: +1 left, −1 right, 0 on it.
func (s Segment) Side(q Point) int { return Orientation(s.A, s.B, q) }

// Parallel returns the segment moved by d to its left, looking from A to B, or to its right where d is negative. The
// move is rounded to whole nanometres; a single point stays where it is.
func (s Segment) Parallel(d Length) Segment {
	if s.A == s.B {
		return s
	}
	return s.Add(Point{}.shift(direction(s.A, s.B).outward(), -float64(d)))
}

// Middle returns the point halfway between the ends, rounded down to whole nanometres where that lies between two.
func (s Segment) Middle() Point { return s.Bounds().Centre() }

// Add returns the segment moved by d.
func (s Segment) Add(d Point) Segment { return Segment{s.A.Add(d), s.B.Add(d)} }

// Intersects reports whether the segment has a point in r or on its border. It is exact.
func (s Segment) Intersects(r Rect) bool {
	if !r.Intersects(s.Bounds()) {
		return false
	}
	left, right := s.sides(r)
	return left >= 0 && right <= 0
}

// InteriorIntersects reports whether the segment has a point inside r, off its border. It is exact.
func (s Segment) InteriorIntersects(r Rect) bool {
	if !r.InteriorIntersects(s.Bounds()) {
		return false
	}
	left, right := s.sides(r)
	return s.A == s.B || left > 0 && right < 0
}

// sides returns the greatest and the least [Segment.Side] of r's corners.
func (s Segment) sides(r Rect) (left, right int) {
	left, right = -1, 1
	for _, c := range r.Polygon() {
		side := s.Side(c)
		left, right = max(left, side), min(right, side)
	}
	return left, right
}

// Clip returns the part of the segment in r; ok is false where there is none, and a part may be a single point on the
// border. Whether there is one is decided exactly, and new ends are rounded to the nearest nanometre. The method is
// that of Liang & Barsky, "A new concept and method for line clipping", ACM Transactions on Graphics 3 (1984).
func (s Segment) Clip(r Rect) (part Segment, ok bool) {
	if !s.Intersects(r) {
		return Segment{}, false
	}
	d, from, to := s.Vector(), 0.0, 1.0
	for _, side := range [...]struct{ speed, room Length }{
		{d.X, r.Max.X - s.A.X}, {-d.X, s.A.X - r.Min.X}, {d.Y, r.Max.Y - s.A.Y}, {-d.Y, s.A.Y - r.Min.Y},
	} {
		switch at := float64(side.room) / float64(side.speed); {
		case side.speed > 0:
			to = min(to, at)
		case side.speed < 0:
			from = max(from, at)
		}
	}
	from = min(from, to) // where the segment only touches a corner, rounding may set them a hair apart
	along := func(t float64) Point { return s.A.Add(Point{d.X.Times(t), d.Y.Times(t)}) }
	return Segment{along(from), along(to)}, true
}

// squareTo returns the squared distance from q to the segment, rounded.
func (s Segment) squareTo(q Point) float64 {
	u, v := s.Vector(), q.Sub(s.A)
	along := Dot(u, v)
	square := Dot(u, u)
	switch {
	case along.Sign() <= 0:
		return Dot(v, v).float()
	case along.Cmp(square) >= 0:
		w := q.Sub(s.B)
		return Dot(w, w).float()
	}
	c := Cross(u, v).float()
	return c * c / square.float()
}

// DistanceToRect returns how far the nearest points of the segment and of r are apart, rounded to the nearest
// nanometre; 0 where they share one.
func (s Segment) DistanceToRect(r Rect) Length {
	if s.Intersects(r) {
		return 0
	}
	least := math.Inf(1)
	for _, end := range []Point{s.A, s.B} {
		away := r.away(end)
		least = min(least, Dot(away, away).float())
	}
	for _, corner := range r.Polygon() {
		least = min(least, s.squareTo(corner))
	}
	return Length(math.Round(math.Sqrt(least)))
}

// away returns how far q is outside r, in x and in y; both are zero where q lies in r.
func (r Rect) away(q Point) Point {
	return Point{max(r.Min.X-q.X, 0, q.X-r.Max.X), max(r.Min.Y-q.Y, 0, q.Y-r.Max.Y)}
}

// ClearOf reports whether no point of the segment is nearer than c to r. It is exact, and true at a distance of just c.
// For a c of zero or less it reports whether the segment stays out of r's interior.
func (s Segment) ClearOf(r Rect, c Length) bool {
	if c <= 0 {
		return !s.InteriorIntersects(r)
	}
	box := s.Bounds()
	if !r.Inset(-c).InteriorIntersects(box) {
		return true
	}
	limit := mul(c, c)
	if s.A.X == s.B.X || s.A.Y == s.B.Y { // the segment is its own bounding box
		away := Point{max(r.Min.X-box.Max.X, 0, box.Min.X-r.Max.X), max(r.Min.Y-box.Max.Y, 0, box.Min.Y-r.Max.Y)}
		return Dot(away, away).Cmp(limit) >= 0
	}
	if s.Intersects(r) {
		return false
	}
	for _, end := range []Point{s.A, s.B} {
		if away := r.away(end); Dot(away, away).Cmp(limit) < 0 {
			return false
		}
	}
	u := s.Vector()
	square := Dot(u, u)
	for _, corner := range r.Polygon() {
		v := corner.Sub(s.A)
		if along := Dot(u, v); along.Sign() <= 0 || along.Cmp(square) >= 0 {
			continue // the nearest point is an end, already looked at
		}
		cross := Cross(u, v)
		off, reach := cross.float()*cross.float(), limit.float()*square.float()
		switch { // floats decide, but where their rounding might
		case off < reach*(1-1e-12):
			return false
		case off > reach*(1+1e-12):
			continue
		}
		exact := cross.big()
		if exact.Mul(exact, exact).Cmp(new(big.Int).Mul(limit.big(), square.big())) < 0 {
			return false
		}
	}
	return true
}
