package geom

import (
	"cmp"
	"slices"
)

// ContainsPoint reports whether q lies in p or on its outline. It is exact.
func (p Polygon) ContainsPoint(q Point) bool {
	inside := false
	for _, e := range p.Edges() {
		crossesLevel := (e.A.Y <= q.Y) != (e.B.Y <= q.Y)
		if !crossesLevel && !e.Bounds().ContainsPoint(q) {
			continue
		}
		side := e.Side(q)
		if side == 0 && e.Bounds().ContainsPoint(q) {
			return true
		}
		if crossesLevel && (side > 0) == (e.B.Y > e.A.Y) {
			inside = !inside
		}
	}
	return inside
}

// ContainsRect reports whether all of r lies in p; borders may touch. It is exact.
func (p Polygon) ContainsRect(r Rect) bool { return p.ContainsPolygon(r.Polygon()) }

// ContainsPolygon reports whether all of q lies in p; outlines may touch. It is exact; its price is the product of
// the numbers of corners.
func (p Polygon) ContainsPolygon(q Polygon) bool {
	if len(p) < 3 || len(q) == 0 || !p.Bounds().Contains(q.Bounds()) {
		return false
	}
	doubled := p.doubled()
	for _, e := range q.Edges() {
		stops, crosses := p.stopsOn(e)
		if crosses {
			return false
		}
		for k := 1; k < len(stops); k++ {
			if !doubled.ContainsPoint(stops[k-1].Add(stops[k])) {
				return false
			}
		}
	}
	return true
}

// doubled is p twice as large, where the sum of two points of p is the middle between them in whole coordinates.
func (p Polygon) doubled() Polygon {
	doubled := make(Polygon, len(p))
	for i, pt := range p {
		doubled[i] = pt.Add(pt)
	}
	return doubled
}

// stopsOn returns the ends of e and the corners of p on it, in order from e.A. Where an edge of p goes from one side
// of e to the other through its inside, crosses is true and the stops are not told.
func (p Polygon) stopsOn(e Segment) (stops []Point, crosses bool) {
	stops = []Point{e.A, e.B}
	box := e.Bounds()
	for _, f := range p.Edges() {
		if !box.Intersects(f.Bounds()) {
			continue
		}
		sideA := e.Side(f.A)
		if sideA*e.Side(f.B) < 0 && f.Side(e.A)*f.Side(e.B) < 0 {
			return nil, true
		}
		if sideA == 0 && box.ContainsPoint(f.A) {
			stops = append(stops, f.A)
		}
	}
	e.sort(stops)
	return stops, false
}

// sort orders points on the segment by their distance from A.
func (s Segment) sort(points []Point) {
	v := s.Vector()
	slices.SortFunc(points, func(p, q Point) int { return Dot(p.Sub(s.A), v).Cmp(Dot(q.Sub(s.A), v)) })
}

// SelfIntersection reports whether two edges of the outline cross, overlap, or touch where they are not neighbours, and
// which: edge i runs from p[i] to the next point. Points twice in a row and points along a straight edge are
// no fault; a spike of no width is. It looks only at edges whose extents along one axis overlap, so ordinary
// outlines of 10,000 points take a few milliseconds; an outline whose edges all lie beside each other both ways takes
// the square of their number.
func (p Polygon) SelfIntersection() (i, j int, crosses bool) {
	var numbers []int // of the edges that have some length
	var edges []Segment
	for i, e := range p.Edges() {
		if e.A != e.B {
			numbers, edges = append(numbers, i), append(edges, e)
		}
	}
	boxes := make([]Rect, len(edges))
	for k, e := range edges {
		boxes[k] = e.Bounds()
	}
	intersectingPairs(boxes, func(k, l int) bool {
		e, f := edges[k], edges[l]
		switch {
		case l == k+1 && len(edges) > 2:
			crosses = e.foldsBack(f)
		case k == 0 && l == len(edges)-1:
			crosses = f.foldsBack(e)
		default:
			crosses = e.meets(f)
		}
		if crosses {
			i, j = numbers[k], numbers[l]
		}
		return !crosses
	})
	return i, j, crosses
}

// meets reports whether the segments share a point.
func (s Segment) meets(t Segment) bool {
	return s.Bounds().Intersects(t.Bounds()) && s.Side(t.A)*s.Side(t.B) <= 0 && t.Side(s.A)*t.Side(s.B) <= 0
}

// foldsBack reports whether t, which begins where s ends, runs back along s.
func (s Segment) foldsBack(t Segment) bool {
	return s.Side(t.B) == 0 && Dot(s.Vector(), t.Vector()).Sign() < 0
}

// intersectingPairs calls visit with i < j for the pairs of boxes that share a point, until visit returns false. It
// sweeps along the axis on which the boxes overlap least.
func intersectingPairs(boxes []Rect, visit func(i, j int) bool) {
	if len(boxes) == 0 {
		return
	}
	bounds, wide, high := boxes[0], 0.0, 0.0
	for _, b := range boxes {
		bounds = bounds.Union(b)
		wide += float64(b.W())
		high += float64(b.H())
	}
	span := func(b Rect) (Length, Length) { return b.Min.X, b.Max.X }
	if wide*float64(bounds.H()) > high*float64(bounds.W()) {
		span = func(b Rect) (Length, Length) { return b.Min.Y, b.Max.Y }
	}
	order := make([]int, len(boxes))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		from, _ := span(boxes[i])
		other, _ := span(boxes[j])
		return cmp.Or(cmp.Compare(from, other), cmp.Compare(i, j))
	})
	var open []int
	for _, i := range order {
		from, _ := span(boxes[i])
		kept := open[:0]
		for _, j := range open {
			if _, to := span(boxes[j]); to < from {
				continue
			}
			kept = append(kept, j)
			if boxes[i].Intersects(boxes[j]) && !visit(min(i, j), max(i, j)) {
				return
			}
		}
		open = append(kept, i)
	}
}
