package geom

import (
	"cmp"
	"math/big"
	"slices"
)

// RightOf returns the part of p with x ≥ at. A concave polygon may fall into several pieces, a polygon wholly to the
// left leaves none. Pieces are normalized. Corners that the cut makes on a sloped edge are rounded along the cut to
// the nearest nanometre; all else is exact.
func (p Polygon) RightOf(at Length) []Polygon {
	b := p.Bounds()
	return p.cut(R(b.Min.X-1, b.Min.Y-1, at, b.Max.Y+1))
}

// LeftOf returns the part of p with x ≤ at; see [Polygon.RightOf].
func (p Polygon) LeftOf(at Length) []Polygon {
	b := p.Bounds()
	return p.cut(R(at, b.Min.Y-1, b.Max.X+1, b.Max.Y+1))
}

// Above returns the part of p with y ≥ at; see [Polygon.RightOf].
func (p Polygon) Above(at Length) []Polygon {
	b := p.Bounds()
	return p.cut(R(b.Min.X-1, b.Min.Y-1, b.Max.X+1, at))
}

// Below returns the part of p with y ≤ at; see [Polygon.RightOf].
func (p Polygon) Below(at Length) []Polygon {
	b := p.Bounds()
	return p.cut(R(b.Min.X-1, at, b.Max.X+1, b.Max.Y+1))
}

// cut takes away r, which reaches past p on three sides and so leaves no hole.
func (p Polygon) cut(r Rect) []Polygon {
	pieces, _ := p.Subtract(r)
	return pieces
}

// Clip returns the part of p in r, in normalized pieces. It makes four cuts, one after another; where two of them meet
// the same sloped edge, the outline is within a nanometre of the true one. See [Polygon.RightOf].
func (p Polygon) Clip(r Rect) []Polygon {
	if !r.Valid() {
		return nil
	}
	pieces := p.RightOf(r.Min.X)
	pieces = each(pieces, func(q Polygon) []Polygon { return q.LeftOf(r.Max.X) })
	pieces = each(pieces, func(q Polygon) []Polygon { return q.Above(r.Min.Y) })
	return each(pieces, func(q Polygon) []Polygon { return q.Below(r.Max.Y) })
}

func each(pieces []Polygon, do func(Polygon) []Polygon) []Polygon {
	var out []Polygon
	for _, q := range pieces {
		out = append(out, do(q)...)
	}
	return out
}

// Without returns p less all the rectangles, in normalized pieces without holes. Rectangles that notch a piece or go
// across it are taken first. Then a piece with a rectangle wholly inside is split at the rectangle's middle height
// (rounded down) from side to side, with a slot of the height gap between the two parts where gap is above zero, so
// that each part is notched; and so on until none holds a rectangle. Pieces come in the order in which they are cut.
func (p Polygon) Without(gap Length, rects ...Rect) []Polygon {
	var pieces []Polygon
	if q := p.Normalized(); q != nil {
		pieces = append(pieces, q)
	}
	// A rectangle makes one hole at most, and its hole may be opened by others before it is split: two rounds each.
	for range 2*len(rects) + 1 {
		enclosed := -1
		for i, r := range rects {
			pieces = each(pieces, func(q Polygon) []Polygon {
				rest, hole := q.Subtract(r)
				if !hole {
					return rest
				}
				if enclosed < 0 {
					enclosed = i
				}
				return []Polygon{q}
			})
		}
		if enclosed < 0 {
			break
		}
		r := rects[enclosed]
		pieces = each(pieces, func(q Polygon) []Polygon {
			if _, hole := q.Subtract(r); hole {
				return q.splitAcross(r, gap)
			}
			return []Polygon{q}
		})
	}
	return pieces
}

// splitAcross parts p at the middle height of r, which lies inside it, with a slot of the height gap. The slot runs
// through the limb of p that holds r, and where that alone leaves a hole, or the gap is zero, through all of p.
func (p Polygon) splitAcross(r Rect, gap Length) []Polygon {
	b, low := p.Bounds(), r.Centre().Y-gap/2
	high := low + gap
	if gap > 0 {
		for _, limb := range p.Clip(R(b.Min.X, low, b.Max.X, high)) {
			slot := limb.Bounds()
			if !slot.InteriorIntersects(r) {
				continue
			}
			// One nanometre more on both sides, for ends of the limb that were rounded.
			if parts, hole := p.Subtract(R(slot.Min.X-1, slot.Min.Y, slot.Max.X+1, slot.Max.Y)); !hole {
				return parts
			}
		}
	}
	return slices.Concat(p.Below(low), p.Above(high))
}

// byStart orders normalized polygons by their lowest, then leftmost corners.
func byStart(p, q Polygon) int {
	return cmp.Or(cmp.Compare(p[0].Y, q[0].Y), cmp.Compare(p[0].X, q[0].X))
}

// Subtract returns p less r, in normalized pieces, lowest and leftmost start first: none when r covers p, several when
// r parts it. When r lies inside p and touches its outline nowhere or in one point only, the rest would have a hole:
// then hole is true and pieces is nil, and the caller can split p ([Polygon.Below], [Polygon.Above]) and subtract from
// the parts. A rectangle of no width or height takes nothing. Rounding is that of [Polygon.RightOf].
//
// It is an outline walk in the manner of Weiler & Atherton, "Hidden surface removal using polygon area sorting",
// SIGGRAPH 1977: it follows the outline outside r and, where that enters r, turns back along the border of r to where
// the outline last left it. Ties are settled as if r were larger by less than any length, so that an edge along r's
// border counts as under r.
func (p Polygon) Subtract(r Rect) (pieces []Polygon, hole bool) {
	p = p.Normalized()
	if p == nil {
		return nil, false
	}
	if r.W() <= 0 || r.H() <= 0 || !p.Bounds().InteriorIntersects(r) {
		return []Polygon{p}, false
	}
	path := p.crossings(r)
	if len(path) == 0 {
		switch {
		case r.ContainsPoint(p[0]):
			return nil, false
		case p.ContainsPoint(r.Min):
			return nil, true
		}
		return []Polygon{p}, false
	}
	round := slices.SortedStableFunc(slices.Values(path), (*crossing).compare)
	for i, c := range round {
		c.rank = i
	}
	for i, start := range path {
		if !start.leaves || start.used {
			continue
		}
		var piece Polygon
		for i := i; ; {
			from, to := path[i], path[(i+1)%len(path)]
			from.used = true
			piece = append(piece, from.at)
			for n, k := (to.edge-from.edge+len(p)-1)%len(p)+1, 1; k <= n; k++ {
				piece = append(piece, p[(from.edge+k)%len(p)])
			}
			piece = append(piece, to.at)
			next := previousExit(round, to, start)
			if next == nil {
				next = start // the outline crosses itself: close the piece somehow
			}
			piece = append(piece, r.cornersBetween(to, next)...)
			if next == start {
				break
			}
			i = next.order
		}
		if piece = piece.Normalized(); piece != nil {
			if piece.repeatsCorner() {
				return nil, true
			}
			pieces = append(pieces, piece)
		}
	}
	slices.SortStableFunc(pieces, byStart)
	return pieces, false
}

// previousExit returns the nearest place in front of c, going counter-clockwise round r, where the outline leaves r:
// there the piece goes on, or closes. It is nil when another piece holds that place, which only a crossing outline
// brings about.
func previousExit(round []*crossing, c, start *crossing) *crossing {
	for k := 1; k < len(round); k++ {
		b := round[(c.rank-k+len(round))%len(round)]
		switch {
		case b.leaves && b.used && b != start:
			return nil
		case b.leaves:
			return b
		}
	}
	return nil
}

// repeatsCorner reports whether the outline comes back to one of its corners.
func (p Polygon) repeatsCorner() bool {
	q := slices.SortedFunc(slices.Values(p), Point.compare)
	for i := 1; i < len(q); i++ {
		if q[i] == q[i-1] {
			return true
		}
	}
	return false
}

func (p Point) compare(q Point) int { return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y)) }

// The sides of a rectangle, counter-clockwise.
const (
	bottom = iota
	right
	top
	left
)

// A crossing is a place where an outline goes through the border of a rectangle.
type crossing struct {
	at     Point // rounded along the border
	leaves bool  // the outline goes out of the rectangle here
	edge   int   // from which corner of the outline
	order  int   // along the outline
	rank   int   // round the rectangle, counter-clockwise
	used   bool

	side     int
	along    *big.Rat // grows counter-clockwise along the side
	alongBit *big.Rat // by how much along grows just outside the side
}

func (c *crossing) compare(d *crossing) int {
	return cmp.Or(cmp.Compare(c.side, d.side), c.along.Cmp(d.along), c.alongBit.Cmp(d.alongBit))
}

// crossings returns the places where the normalized polygon crosses r's border, in the order of the outline.
func (p Polygon) crossings(r Rect) []*crossing {
	var path []*crossing
	for i, a := range p {
		b := p[(i+1)%len(p)]
		aIn, bIn := r.ContainsPoint(a), r.ContainsPoint(b)
		if aIn && bIn || !(Segment{a, b}).Intersects(r) {
			continue
		}
		if !aIn {
			path = append(path, r.exit(b, a))
			path[len(path)-1].edge = i
		}
		if !bIn {
			path = append(path, r.exit(a, b))
			path[len(path)-1].edge = i
			path[len(path)-1].leaves = true
		}
	}
	for i, c := range path {
		c.order = i
	}
	return path
}

// exit returns where the directed segment a→b, which meets r and ends outside, leaves r.
func (r Rect) exit(a, b Point) *crossing {
	d := b.Sub(a)
	// How far along the segment each pair of sides lets it come; nil is all the way.
	var tx, ty *big.Rat
	sideX, sideY := right, top
	switch {
	case d.X > 0:
		tx = ratio(r.Max.X-a.X, d.X)
	case d.X < 0:
		tx, sideX = ratio(a.X-r.Min.X, -d.X), left
	}
	switch {
	case d.Y > 0:
		ty = ratio(r.Max.Y-a.Y, d.Y)
	case d.Y < 0:
		ty, sideY = ratio(a.Y-r.Min.Y, -d.Y), bottom
	}
	side := sideX
	switch {
	case tx == nil:
		side = sideY
	case ty == nil:
	case tx.Cmp(ty) != 0:
		if ty.Cmp(tx) < 0 {
			side = sideY
		}
	case d.X.Abs() < d.Y.Abs(), d.X.Abs() == d.Y.Abs() && (sideX+1)%4 != sideY:
		side = sideY // through a corner: the steeper side first; at 45° the end of the earlier side
	}
	c := &crossing{side: side}
	switch side {
	case right, left:
		x := r.Max.X
		if side == left {
			x = r.Min.X
		}
		y := interpolate(a.Y, d.Y, x-a.X, d.X)
		c.at = Point{x, roundHalfUp(y)}
		c.along, c.alongBit = y, ratio(d.Y, d.X)
		if side == left {
			c.along = y.Neg(y)
		}
	default:
		y := r.Max.Y
		if side == bottom {
			y = r.Min.Y
		}
		x := interpolate(a.X, d.X, y-a.Y, d.Y)
		c.at = Point{roundHalfUp(x), y}
		c.along, c.alongBit = x, ratio(-d.X, d.Y)
		if side == top {
			c.along = x.Neg(x)
		}
	}
	return c
}

func ratio(a, b Length) *big.Rat { return big.NewRat(int64(a), int64(b)) }

// interpolate returns base + rise·part/whole.
func interpolate(base, rise, part, whole Length) *big.Rat {
	t := ratio(rise, whole)
	t.Mul(t, ratio(part, 1))
	return t.Add(t, ratio(base, 1))
}

// roundHalfUp returns the nearest whole number, halves up.
func roundHalfUp(r *big.Rat) Length {
	n := new(big.Int).Lsh(r.Num(), 1)
	n.Add(n, r.Denom())
	n.Div(n, new(big.Int).Lsh(r.Denom(), 1)) // Euclidean: down, since the divisor is positive
	return Length(n.Int64())
}

// cornersBetween returns the corners of r passed when going clockwise from one crossing to another.
func (r Rect) cornersBetween(from, to *crossing) []Point {
	var corners []Point
	outline := r.Polygon() // each corner is where the side of the same number begins
	for side := from.side; ; side = (side + 3) % 4 {
		if side == to.side && (len(corners) > 0 || to.rank < from.rank) {
			return corners
		}
		corners = append(corners, outline[side])
	}
}
