package geom

import (
	"cmp"
	"slices"
)

// ContainsPoint tells whether q lies in p or on its outline. It is exact.
func (p Polygon) ContainsPoint(q Point) bool {
	inside := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (Rect{a, a}).Union(Rect{b, b}).ContainsPoint(q) && Orientation(a, b, q) == 0 {
			return true
		}
		if (a.Y <= q.Y) != (b.Y <= q.Y) {
			if turn := Orientation(a, b, q); (turn > 0) == (b.Y > a.Y) {
				inside = !inside
			}
		}
	}
	return inside
}

// ContainsRect tells whether all of r lies in p; borders may touch. It is exact.
func (p Polygon) ContainsRect(r Rect) bool { return p.ContainsPolygon(r.Polygon()) }

// ContainsPolygon tells whether all of q lies in p; outlines may touch. It is exact; its price is the product of
// the numbers of corners.
func (p Polygon) ContainsPolygon(q Polygon) bool {
	if len(p) < 3 || len(q) == 0 || !p.Bounds().Contains(q.Bounds()) {
		return false
	}
	double := make(Polygon, len(p)) // so that the middle of a part of an edge is a whole number
	for i, pt := range p {
		double[i] = pt.Add(pt)
	}
	for i, a := range q {
		b := q[(i+1)%len(q)]
		stops := []Point{a, b}
		box := Rect{a, a}.Union(Rect{b, b})
		for j, c := range p {
			d := p[(j+1)%len(p)]
			if !box.Intersects(Rect{c, c}.Union(Rect{d, d})) {
				continue
			}
			atC, atD := Orientation(a, b, c), Orientation(a, b, d)
			if atC*atD < 0 && Orientation(c, d, a)*Orientation(c, d, b) < 0 {
				return false
			}
			if atC == 0 && box.ContainsPoint(c) {
				stops = append(stops, c)
			}
		}
		slices.SortFunc(stops, func(s, t Point) int {
			return Dot(s.Sub(a), b.Sub(a)).Cmp(Dot(t.Sub(a), b.Sub(a)))
		})
		for k := 1; k < len(stops); k++ {
			if !double.ContainsPoint(stops[k-1].Add(stops[k])) {
				return false
			}
		}
	}
	return true
}

// SelfIntersection tells whether two edges of the outline cross, overlap, or touch where they are not neighbours, and
// which: edge i runs from p[i] to the next point. Points twice in a row and points along a straight edge are
// no fault; a spike of no width is. It looks only at edges whose extents along one axis overlap, so ordinary
// outlines of 10,000 points take a few milliseconds; an outline whose edges all lie beside each other both ways takes
// the square of their number.
func (p Polygon) SelfIntersection() (i, j int, crosses bool) {
	var edges []int // those of some length
	var boxes []Rect
	for i, a := range p {
		if b := p[(i+1)%len(p)]; a != b {
			edges = append(edges, i)
			boxes = append(boxes, Rect{a, a}.Union(Rect{b, b}))
		}
	}
	ends := func(k int) (Point, Point) { return p[edges[k]], p[(edges[k]+1)%len(p)] }
	touchingPairs(boxes, func(k, l int) bool {
		a, b := ends(k)
		c, d := ends(l)
		switch {
		case l == k+1 && len(edges) > 2 || k == 0 && l == len(edges)-1:
			if l != k+1 {
				a, b, c, d = c, d, a, b
			}
			crosses = Orientation(a, b, d) == 0 && Dot(b.Sub(a), d.Sub(c)).Sign() < 0
		default:
			crosses = segmentsMeet(a, b, c, d)
		}
		if crosses {
			i, j = edges[k], edges[l]
		}
		return !crosses
	})
	return i, j, crosses
}

// segmentsMeet tells whether a–b and c–d, whose bounds touch, share a point.
func segmentsMeet(a, b, c, d Point) bool {
	return Orientation(a, b, c)*Orientation(a, b, d) <= 0 && Orientation(c, d, a)*Orientation(c, d, b) <= 0
}

// touchingPairs calls visit with i < j for the pairs of boxes that touch, until visit says false. It sweeps along the
// axis on which the boxes overlap least.
func touchingPairs(boxes []Rect, visit func(i, j int) bool) {
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
