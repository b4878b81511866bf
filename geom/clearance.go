package geom

// TopEdges returns the edges that a counter-clockwise outline has on its upper sides, each from left to right; upright
// edges are none.
func (p Polygon) TopEdges() []Segment {
	var edges []Segment
	for _, e := range p.Edges() {
		if e.A.X > e.B.X {
			edges = append(edges, Segment{e.B, e.A})
		}
	}
	return edges
}

// BottomEdges returns the edges on the lower sides; see [Polygon.TopEdges].
func (p Polygon) BottomEdges() []Segment {
	var edges []Segment
	for _, e := range p.Edges() {
		if e.A.X < e.B.X {
			edges = append(edges, e)
		}
	}
	return edges
}

// Clearance returns the least upright distance from edges, each from left to right, up to others; ok is false when none
// of those are above.
func Clearance(below, above []Segment) (least Length, ok bool) {
	for _, e := range below {
		for _, f := range above {
			from, to := max(e.A.X, f.A.X), min(e.B.X, f.B.X)
			if from >= to {
				continue
			}
			left := f.YAt(from) - e.YAt(from)
			right := f.YAt(to) - e.YAt(to)
			if h := min(left, right); max(left, right) >= 0 && h >= 0 && (!ok || h < least) {
				least, ok = h, true
			}
		}
	}
	return least, ok
}
