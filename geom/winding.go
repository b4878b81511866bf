package geom

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// An edge is a segment from its left end, or its lower one where it is upright, with how many more of the line's
// segments run from A to B than from B to A.
type edge struct {
	Segment
	net int
}

func newEdge(a, b Point, net int) edge {
	if a.compare(b) > 0 {
		return edge{Segment{b, a}, -net}
	}
	return edge{Segment{a, b}, net}
}

// maxCuts bounds the work on a line that meets itself again and again, maxPasses the passes over it.
const (
	maxCuts   = 300_000
	maxPasses = 20
)

var errRagged = errors.New("the outline is too ragged for this offset: its parallels meet too often; give it fewer points")

// positiveUnion returns the outlines, counter-clockwise, of the region round which the closed line winds more than
// zero times (the positive fill rule), and the outlines of the holes in it. Outlines that share a point stay separate.
func positiveUnion(line Polygon) (pieces, holes []Polygon, err error) {
	// Windings are counted along level rays. Where most edges are upright, many would share a band of height; the line
	// is transposed first.
	transposed := line.mostlyUpright()
	if transposed {
		line = line.transposed()
	}
	edges, err := splitAtIntersections(line)
	if err != nil {
		return nil, nil, err
	}
	for _, ring := range assembleRings(boundary(edges)) {
		if transposed {
			ring = ring.transposed()
		}
		for _, simple := range ring.splitAtRepeats() {
			hole := simple.TwiceArea().Sign() < 0
			switch simple = simple.Normalized(); {
			case simple == nil:
			case hole:
				holes = append(holes, simple)
			default:
				pieces = append(pieces, simple)
			}
		}
	}
	slices.SortStableFunc(pieces, byStart)
	slices.SortStableFunc(holes, byStart)
	return pieces, holes, nil
}

// mostlyUpright reports whether the edges run up and down more than across, each measured by the bounds.
func (p Polygon) mostlyUpright() bool {
	across, up := 0.0, 0.0
	for _, e := range p.Edges() {
		d := e.Vector()
		across += float64(d.X.Abs())
		up += float64(d.Y.Abs())
	}
	b := p.Bounds()
	return up*float64(b.W()) > across*float64(b.H())
}

// transposed returns p with x and y exchanged and its corners reversed, so that it keeps its orientation.
func (p Polygon) transposed() Polygon {
	q := make(Polygon, len(p))
	for i, pt := range p {
		q[len(p)-1-i] = Point{pt.Y, pt.X}
	}
	return q
}

// splitAtIntersections returns the line's edges cut so that they meet at their ends alone. An intersection is rounded
// to nanometres, which bends the edges a little and may make them meet anew, so it is repeated until no two meet.
func splitAtIntersections(line Polygon) ([]edge, error) {
	var edges []edge
	for _, e := range line.Edges() {
		edges = append(edges, newEdge(e.A, e.B, 1))
	}
	edges = merged(edges)
	for range maxPasses {
		cuts, count := intersections(edges)
		switch {
		case count >= maxCuts:
			return nil, errRagged
		case count == 0:
			return edges, nil
		}
		var next []edge
		for i, e := range edges {
			e.sort(cuts[i])
			from := e.A
			for _, pt := range append(cuts[i], e.B) {
				next = append(next, newEdge(from, pt, e.net))
				from = pt
			}
		}
		edges = merged(next)
	}
	return edges, nil
}

// intersections returns for each edge the points, its ends left out, where it meets others, and how many there are in
// all. It stops at maxCuts.
func intersections(edges []edge) (cuts [][]Point, count int) {
	cuts = make([][]Point, len(edges))
	boxes := make([]Rect, len(edges))
	for i, e := range edges {
		boxes[i] = e.Bounds()
	}
	cut := func(i int, pt Point) bool {
		if pt == edges[i].A || pt == edges[i].B {
			return false
		}
		cuts[i] = append(cuts[i], pt)
		count++
		return true
	}
	intersectingPairs(boxes, func(i, j int) bool {
		e, f := edges[i], edges[j]
		sideA, sideB := e.Side(f.A), e.Side(f.B)
		ofA, ofB := f.Side(e.A), f.Side(e.B)
		if sideA*sideB > 0 || ofA*ofB > 0 {
			return true
		}
		if sideA*sideB < 0 && ofA*ofB < 0 {
			pt := e.intersection(f)
			inE, inF := cut(i, pt), cut(j, pt)
			if inE || inF {
				return count < maxCuts
			}
		}
		// An end of one lies on the other.
		for _, end := range [...]struct {
			side, on int
			pt       Point
		}{{sideA, i, f.A}, {sideB, i, f.B}, {ofA, j, e.A}, {ofB, j, e.B}} {
			if end.side == 0 && boxes[end.on].ContainsPoint(end.pt) {
				cut(end.on, end.pt)
			}
		}
		return count < maxCuts
	})
	return cuts, count
}

// intersection returns where two edges cross, to the nearest nanometre. Both cross products are exact before they are
// divided, so near-parallel edges lose no digits.
func (e edge) intersection(f edge) Point {
	u, v := e.Vector(), f.Vector()
	t := Cross(f.A.Sub(e.A), v).float() / Cross(u, v).float()
	return e.A.shift(vector{float64(u.X), float64(u.Y)}, t)
}

// merged sorts the edges, adds up equal ones and drops those that cancel or have no length.
func merged(edges []edge) []edge {
	slices.SortFunc(edges, func(e, f edge) int { return cmp.Or(e.A.compare(f.A), e.B.compare(f.B)) })
	out := edges[:0]
	for _, e := range edges {
		if n := len(out); n > 0 && out[n-1].Segment == e.Segment {
			out[n-1].net += e.net
			continue
		}
		out = append(out, e)
	}
	return slices.DeleteFunc(out, func(e edge) bool { return e.net == 0 || e.A == e.B })
}

// boundary returns the edges with the region on one side only, directed so that it lies on their left.
func boundary(edges []edge) []Segment {
	counter := newWindingCounter(edges)
	var out []Segment
	for i, e := range edges {
		// The ray starts right of a steep edge and above a level one. Since A is left of B, or below it, that is the
		// right side of an edge that rises from A to B, and the left side of any other.
		right := counter.beside(i)
		if e.B.Y <= e.A.Y {
			right -= e.net
		}
		left := right + e.net
		switch {
		case left > 0 && right <= 0:
			out = append(out, e.Segment)
		case left <= 0 && right > 0:
			out = append(out, Segment{e.B, e.A})
		}
	}
	return out
}

// A windingCounter counts windings with level rays to the right, over edges sorted into bands of height.
type windingCounter struct {
	edges  []edge
	bottom Length
	band   Length    // the height of each band
	bands  [][]int32 // the edges that reach into each band
}

func newWindingCounter(edges []edge) *windingCounter {
	c := &windingCounter{edges: edges, band: 1}
	if len(edges) == 0 {
		return c
	}
	low, high, sum := edges[0].A.Y, edges[0].A.Y, 0.0
	for _, e := range edges {
		low, high = min(low, e.A.Y, e.B.Y), max(high, e.A.Y, e.B.Y)
		sum += math.Abs(float64(e.B.Y - e.A.Y))
	}
	// As many bands as keep the entries to a few for each edge.
	count := 1 + int(4*float64(len(edges))*float64(high-low)/max(sum, 1))
	count = min(count, 4*len(edges))
	c.bottom = low
	c.band = (high-low)/Length(count) + 1
	c.bands = make([][]int32, (high-low)/c.band+1)
	for i, e := range edges {
		from, to := min(e.A.Y, e.B.Y), max(e.A.Y, e.B.Y)
		if from == to {
			continue
		}
		for k := (from - low) / c.band; k <= (to-low)/c.band; k++ {
			c.bands[k] = append(c.bands[k], int32(i))
		}
	}
	return c
}

// beside returns how often the line winds round the point just right of the middle of edge i, or just above it when
// the edge is level.
func (c *windingCounter) beside(i int) int {
	middle := c.edges[i].A.Add(c.edges[i].B) // doubled
	winding := 0
	for _, k := range c.bands[(middle.Y/2-c.bottom)/c.band] {
		e := c.edges[k]
		if int(k) == i {
			continue
		}
		a, b, net := e.A.Add(e.A), e.B.Add(e.B), e.net
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

// assembleRings joins directed segments into closed rings, at each point by the sharpest turn to the left.
func assembleRings(segments []Segment) []Polygon {
	from := map[Point][]int{}
	for i, s := range segments {
		from[s.A] = append(from[s.A], i)
	}
	used := make([]bool, len(segments))
	next := func(i, start int) int {
		at, best := segments[i].B, -1
		back := segments[i].A.Sub(at)
		for _, k := range from[at] {
			if used[k] && k != start {
				continue
			}
			if best < 0 || clockwiseBefore(back, segments[k].B.Sub(at), segments[best].B.Sub(at)) {
				best = k
			}
		}
		return best
	}
	var rings []Polygon
	for start := range segments {
		if used[start] {
			continue
		}
		ring := Polygon{segments[start].A}
		used[start] = true
		for i := next(start, start); i >= 0 && i != start; i = next(i, start) {
			used[i] = true
			ring = append(ring, segments[i].A)
		}
		rings = append(rings, ring)
	}
	return rings
}

// clockwiseBefore reports whether v comes before u when turning clockwise from the vector back.
func clockwiseBefore(back, v, u Point) bool {
	sv, su := clockwiseSector(back, v), clockwiseSector(back, u)
	return sv < su || sv == su && Cross(u, v).Sign() > 0
}

// clockwiseSector orders v by its clockwise angle from back: 1 for less than a half turn, 2 for just that, 3 for more,
// 4 for a whole turn.
func clockwiseSector(back, v Point) int {
	switch s := Cross(back, v).Sign(); {
	case s < 0:
		return 1
	case s > 0:
		return 3
	case Dot(back, v).Sign() < 0:
		return 2
	}
	return 4
}

// splitAtRepeats cuts the ring where it comes back to a point, so that a hole whose border meets the outline in a
// point becomes a ring of its own.
func (p Polygon) splitAtRepeats() []Polygon {
	var rings []Polygon
	var path Polygon
	index := map[Point]int{}
	for _, pt := range p {
		if k, seen := index[pt]; seen {
			rings = append(rings, slices.Clone(path[k:]))
			for _, gone := range path[k+1:] {
				delete(index, gone)
			}
			path = path[:k+1]
			continue
		}
		index[pt] = len(path)
		path = append(path, pt)
	}
	return append(rings, path)
}
