package geom

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// A way is a straight stretch between two points, from the lower-left-most (a before b by X, then Y), with how often
// lines run from a to b more than from b to a.
type way struct {
	a, b Point
	net  int
}

// mostWays bounds the work on a line that meets itself again and again.
const mostWays = 300_000

var errRagged = errors.New("the outline is too ragged for this offset: its parallels meet too often; give it fewer points")

// wound gives the outlines, counter-clockwise, of the region round which the closed line winds more than zero times,
// and the outlines of the holes in it. Outlines that meet in a point are apart.
func wound(line Polygon) (pieces, holes []Polygon, err error) {
	// Windings are counted along level rays; the plane is laid on its side where upright edges would crowd them.
	turned := line.upright()
	if turned {
		line = line.transposed()
	}
	ways, err := noded(line)
	if err != nil {
		return nil, nil, err
	}
	for _, loop := range traced(border(ways)) {
		if turned {
			loop = loop.transposed()
		}
		for _, part := range loop.apart() {
			hole := part.TwiceArea().Sign() < 0
			switch part = part.Normalized(); {
			case part == nil:
			case hole:
				holes = append(holes, part)
			default:
				pieces = append(pieces, part)
			}
		}
	}
	slices.SortStableFunc(pieces, byStart)
	slices.SortStableFunc(holes, byStart)
	return pieces, holes, nil
}

// upright tells whether the edges run up and down more than across, measured by the bounds.
func (p Polygon) upright() bool {
	across, up := 0.0, 0.0
	for i, a := range p {
		d := p[(i+1)%len(p)].Sub(a)
		across += float64(d.X.Abs())
		up += float64(d.Y.Abs())
	}
	b := p.Bounds()
	return up*float64(b.W()) > across*float64(b.H())
}

// transposed has x and y exchanged; the outline runs the same way round as before.
func (p Polygon) transposed() Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[len(p)-1-i] = Point{pt.Y, pt.X}
	}
	return q
}

// apart cuts the loop where it comes back to a point, so that a hole whose border meets the outline in a point is
// a loop of its own.
func (p Polygon) apart() []Polygon {
	var loops []Polygon
	var path Polygon
	at := map[Point]int{}
	for _, pt := range p {
		if k, seen := at[pt]; seen {
			loops = append(loops, slices.Clone(path[k:]))
			for _, gone := range path[k+1:] {
				delete(at, gone)
			}
			path = path[:k+1]
			continue
		}
		at[pt] = len(path)
		path = append(path, pt)
	}
	return append(loops, path)
}

// noded cuts the line into ways that meet at their ends alone. A meeting point is rounded to nanometres, which bends
// the ways a little and may make them meet anew: so it is done again until nothing more meets.
func noded(line Polygon) ([]way, error) {
	var ways []way
	for i, a := range line {
		ways = append(ways, newWay(a, line[(i+1)%len(line)], 1))
	}
	ways = merged(ways)
	for range 20 {
		stops := make([][]Point, len(ways))
		count := 0
		boxes := make([]Rect, len(ways))
		for i, w := range ways {
			boxes[i] = Rect{w.a, w.a}.Union(Rect{w.b, w.b})
		}
		touchingPairs(boxes, func(i, j int) bool {
			v, w := ways[i], ways[j]
			atA, atB := Orientation(v.a, v.b, w.a), Orientation(v.a, v.b, w.b)
			ofA, ofB := Orientation(w.a, w.b, v.a), Orientation(w.a, w.b, v.b)
			if atA*atB > 0 || ofA*ofB > 0 {
				return true
			}
			before := count
			stop := func(i int, pt Point) {
				if pt != ways[i].a && pt != ways[i].b {
					stops[i] = append(stops[i], pt)
					count++
				}
			}
			if atA*atB < 0 && ofA*ofB < 0 {
				pt := v.at(w)
				stop(i, pt)
				stop(j, pt)
			}
			if count == before {
				for _, t := range []struct {
					turn, way int
					pt        Point
				}{{atA, i, w.a}, {atB, i, w.b}, {ofA, j, v.a}, {ofB, j, v.b}} {
					if t.turn == 0 && boxes[t.way].ContainsPoint(t.pt) {
						stop(t.way, t.pt)
					}
				}
			}
			return count < mostWays
		})
		if count >= mostWays {
			return nil, errRagged
		}
		if count == 0 {
			break
		}
		var next []way
		for i, w := range ways {
			slices.SortFunc(stops[i], func(s, t Point) int {
				return Dot(s.Sub(w.a), w.b.Sub(w.a)).Cmp(Dot(t.Sub(w.a), w.b.Sub(w.a)))
			})
			last := w.a
			for _, pt := range append(stops[i], w.b) {
				next = append(next, newWay(last, pt, w.net))
				last = pt
			}
		}
		ways = merged(next)
	}
	return ways, nil
}

func newWay(a, b Point, net int) way {
	if a.compare(b) > 0 {
		return way{b, a, -net}
	}
	return way{a, b, net}
}

// at is where two ways that cross do so, to the nearest nanometre. Both cross products are exact before they are
// divided, so near-parallel ways lose no digits.
func (v way) at(w way) Point {
	u := v.b.Sub(v.a)
	t := Cross(w.a.Sub(v.a), w.b.Sub(w.a)).float() / Cross(u, w.b.Sub(w.a)).float()
	return v.a.shift(vector{float64(u.X), float64(u.Y)}, t)
}

// merged sorts the ways, adds up equal ones and drops those that cancel or have no length.
func merged(ways []way) []way {
	slices.SortFunc(ways, func(v, w way) int { return cmp.Or(v.a.compare(w.a), v.b.compare(w.b)) })
	out := ways[:0]
	for _, w := range ways {
		if n := len(out); n > 0 && out[n-1].a == w.a && out[n-1].b == w.b {
			out[n-1].net += w.net
			continue
		}
		out = append(out, w)
	}
	return slices.DeleteFunc(out, func(w way) bool { return w.net == 0 || w.a == w.b })
}

// border gives the ways with the wound region on one side only, directed so that it is on their left.
func border(ways []way) [][2]Point {
	winds := newWinds(ways)
	var out [][2]Point
	for i, w := range ways {
		// The ray starts right of a steep way and above a level one. Since a is lefter than b, or below it, that is the
		// right side of a way that rises from a to b, and the left side of any other.
		right := winds.beside(i)
		if w.b.Y <= w.a.Y {
			right -= w.net
		}
		left := right + w.net
		switch {
		case left > 0 && right <= 0:
			out = append(out, [2]Point{w.a, w.b})
		case left <= 0 && right > 0:
			out = append(out, [2]Point{w.b, w.a})
		}
	}
	return out
}

// winds counts windings with level rays to the right, over ways sorted into bands of height.
type winds struct {
	ways   []way
	bottom Length
	band   Length
	bands  [][]int32
}

func newWinds(ways []way) *winds {
	s := &winds{ways: ways, band: 1}
	if len(ways) == 0 {
		return s
	}
	low, high, sum := ways[0].a.Y, ways[0].a.Y, 0.0
	for _, w := range ways {
		low, high = min(low, w.a.Y, w.b.Y), max(high, w.a.Y, w.b.Y)
		sum += math.Abs(float64(w.b.Y - w.a.Y))
	}
	// As many bands as keep the entries to a few a way.
	count := 1 + int(4*float64(len(ways))*float64(high-low)/max(sum, 1))
	count = min(count, 4*len(ways))
	s.bottom = low
	s.band = (high-low)/Length(count) + 1
	s.bands = make([][]int32, (high-low)/s.band+1)
	for i, w := range ways {
		from, to := min(w.a.Y, w.b.Y), max(w.a.Y, w.b.Y)
		if from == to {
			continue
		}
		for k := (from - low) / s.band; k <= (to-low)/s.band; k++ {
			s.bands[k] = append(s.bands[k], int32(i))
		}
	}
	return s
}

// beside is how often the line winds round the place just right of the middle of way i, or just above it when the
// way is level.
func (s *winds) beside(i int) int {
	w := s.ways[i]
	middle := w.a.Add(w.b) // doubled
	winding := 0
	for _, k := range s.bands[(middle.Y/2-s.bottom)/s.band] {
		v := s.ways[k]
		if int(k) == i {
			continue
		}
		a, b, net := v.a.Add(v.a), v.b.Add(v.b), v.net
		if a.Y > b.Y {
			a, b, net = b, a, -net
		}
		if a.Y <= middle.Y && middle.Y < b.Y && max(a.X, b.X) >= middle.X &&
			(min(a.X, b.X) > middle.X || Orientation(a, b, middle) > 0) {
			winding += net
		}
	}
	return winding
}

// traced joins directed ways into loops, at each point by the sharpest turn to the left.
func traced(ways [][2]Point) []Polygon {
	out := map[Point][]int{}
	for i, w := range ways {
		out[w[0]] = append(out[w[0]], i)
	}
	used := make([]bool, len(ways))
	var loops []Polygon
	for start := range ways {
		if used[start] {
			continue
		}
		var loop Polygon
		for i := start; i >= 0; {
			used[i] = true
			loop = append(loop, ways[i][0])
			at, best := ways[i][1], -1
			for _, k := range out[at] {
				if !(used[k] && k != start) && (best < 0 || sooner(ways[i][0].Sub(at), ways[best][1].Sub(at), ways[k][1].Sub(at))) {
					best = k
				}
			}
			if i = best; i == start {
				i = -1
			}
		}
		loops = append(loops, loop)
	}
	return loops
}

// sooner tells whether v comes before u when turning clockwise from back.
func sooner(back, u, v Point) bool {
	return clockwise(back, v) < clockwise(back, u) || clockwise(back, v) == clockwise(back, u) && Cross(u, v).Sign() > 0
}

// clockwise says in which half turn clockwise from back v lies: 1 up to and without a half turn, 2 for the rest.
func clockwise(back, v Point) int {
	switch s := Cross(back, v).Sign(); {
	case s < 0:
		return 1
	case s == 0 && Dot(back, v).Sign() < 0:
		return 2
	case s == 0:
		return 4
	}
	return 3
}
