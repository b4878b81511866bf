package geom

import (
	"fmt"
	"math"
)

// DefaultMitre is a mitre limit that keeps every corner of 60° and more whole.
const DefaultMitre = 2.0

// A SlotError says that an outline moved outward closed round a space that it doesn't cover, as the mouth of a
// narrow slot does. At is a corner of that space.
type SlotError struct {
	Distance Length
	At       Point
}

func (e *SlotError) Error() string {
	return fmt.Sprintf("moved outward by %v the outline closes round a hole at (%v, %v); it can't be one outline",
		e.Distance, e.At.X, e.At.Y)
}

// Offset returns p with every edge moved by d to its parallel, outward where d is above zero, inward below; corners
// stay sharp (mitred). Inward, p may fall into several pieces or vanish, and a leg no wider than 2·|d| goes: the
// pieces are normalized, in no promised number, and none is left without an error when all is eaten. Outward there is
// one piece.
//
// The mitre limit is how far a corner may run from where it was, in multiples of |d|; it is 1 or more, and a corner of
// angle α runs out by 1/sin(α/2). A sharper corner is cut off square at the limit.
//
// Where all edges are upright or level the result is exact. Else corners are rounded to nanometres, and pieces
// thinner than four nanometres are dropped as rounding.
//
// Errors: p has no area or crosses itself (the message counts edges from 1); the limit is below 1 or no number; the
// result would have a hole (a *[SlotError], and the outlines are given with their holes filled); p is so ragged
// that the parallels meet too often.
//
// The result is what p and the strips beside its edges cover, or what is left of p without them: the parallels are
// joined into one closed line, through the corner itself where the strips overlap, and the region round which that
// line winds is kept.
func (p Polygon) Offset(d Length, mitre float64) ([]Polygon, error) {
	if !(mitre >= 1) || math.IsInf(mitre, 0) {
		return nil, fmt.Errorf("a mitre limit of %v is not 1 or more", mitre)
	}
	if d < -Longest || d > Longest {
		return nil, fmt.Errorf("an offset of %v is longer than a kilometre", d)
	}
	if i, j, crosses := p.SelfIntersection(); crosses {
		return nil, fmt.Errorf("edge %d and edge %d of the outline cross or touch; an outline may not meet itself", i+1, j+1)
	}
	q := p.Normalized()
	if q == nil {
		return nil, fmt.Errorf("the outline has no area")
	}
	if d == 0 {
		return []Polygon{q}, nil
	}
	pieces, holes, err := positiveUnion(q.rawOffset(d, mitre))
	if err != nil {
		return nil, err
	}
	if !q.rectilinear() {
		pieces = withoutSlivers(pieces, 4)
		holes = withoutSlivers(holes, 4)
	}
	if len(holes) > 0 {
		return pieces, &SlotError{d, holes[0][0]}
	}
	return pieces, nil
}

// rawOffset returns the closed line of the edges moved by d and joined (the raw offset curve); it may cross itself.
func (p Polygon) rawOffset(d Length, mitre float64) Polygon {
	var line Polygon
	for i, at := range p {
		from, to := p[(i+len(p)-1)%len(p)], p[(i+1)%len(p)]
		u, v := direction(from, at), direction(at, to)
		along := float64(d)
		if Orientation(from, at, to) < 0 {
			// At an inner corner outward and inward change places; the mitre is on the other side.
			along = -along
		}
		if along < 0 {
			line = append(line, at.shift(u.outward(), float64(d)), at, at.shift(v.outward(), float64(d)))
			continue
		}
		m, n := u.outward(), v.outward()
		cosine := m.x*n.x + m.y*n.y
		turn := math.Atan2(math.Abs(m.x*n.y-m.y*n.x), cosine)
		sin, cos := math.Sincos(turn / 2)
		if mitre*cos >= 1-1e-9 {
			tip := vector{(m.x + n.x) / (1 + cosine), (m.y + n.y) / (1 + cosine)}
			line = append(line, at.shift(tip, float64(d)))
			continue
		}
		// Square across the bisector at the limit: so far along each parallel.
		run := (mitre - cos) / sin * math.Abs(float64(d))
		line = append(line,
			at.shift2(m, float64(d), u, run),
			at.shift2(n, float64(d), v, -run))
	}
	return line
}

// rectilinear reports whether all edges are upright or level.
func (p Polygon) rectilinear() bool {
	for _, e := range p.Edges() {
		if e.A.X != e.B.X && e.A.Y != e.B.Y {
			return false
		}
	}
	return true
}

// withoutSlivers leaves out the pieces that are thinner, in the mean, than so many nanometres.
func withoutSlivers(pieces []Polygon, least float64) []Polygon {
	var kept []Polygon
	for _, q := range pieces {
		if math.Abs(q.TwiceArea().float()) >= least*q.perimeter() {
			kept = append(kept, q)
		}
	}
	return kept
}

// perimeter returns the length of the outline in nanometres.
func (p Polygon) perimeter() float64 {
	sum := 0.0
	for _, e := range p.Edges() {
		sum += math.Hypot(float64(e.B.X-e.A.X), float64(e.B.Y-e.A.Y))
	}
	return sum
}

// A vector is a direction or a ratio; only parallels need one.
type vector struct{ x, y float64 }

func direction(a, b Point) vector {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	h := math.Hypot(dx, dy)
	return vector{dx / h, dy / h}
}

// outward returns v turned a quarter to the right: out of a counter-clockwise outline.
func (v vector) outward() vector { return vector{v.y, -v.x} }

func (p Point) shift(v vector, d float64) Point { return p.shift2(v, d, vector{}, 0) }

func (p Point) shift2(v vector, d float64, w vector, e float64) Point {
	return Point{
		p.X + Length(math.Round(v.x*d+w.x*e)),
		p.Y + Length(math.Round(v.y*d+w.y*e)),
	}
}
