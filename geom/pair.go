package geom

import "math"

// InteriorIntersects reports whether p and q share more than points of their outlines. It is exact; its price is the
// product of the numbers of corners.
func (p Polygon) InteriorIntersects(q Polygon) bool {
	if len(p) < 3 || len(q) < 3 || !p.Bounds().InteriorIntersects(q.Bounds()) {
		return false
	}
	return p.entered(q) || q.entered(p) || p.Normalized().Equal(q.Normalized())
}

// entered reports whether an edge of q crosses an edge of p or has a part inside p.
func (p Polygon) entered(q Polygon) bool {
	doubled := p.doubled()
	for _, e := range q.Edges() {
		stops, crosses := p.stopsOn(e)
		if crosses {
			return true
		}
		for k := 1; k < len(stops); k++ {
			if middle := stops[k-1].Add(stops[k]); doubled.ContainsPoint(middle) && !doubled.onOutline(middle) {
				return true
			}
		}
	}
	return false
}

// onOutline reports whether q lies on an edge of p.
func (p Polygon) onOutline(q Point) bool {
	for _, e := range p.Edges() {
		if e.Bounds().ContainsPoint(q) && e.Side(q) == 0 {
			return true
		}
	}
	return false
}

// DistanceToPolygon returns how far the nearest points of p and q are apart, to the nearest nanometre; 0 where they
// share one.
func (p Polygon) DistanceToPolygon(q Polygon) Length {
	if p.InteriorIntersects(q) {
		return 0
	}
	least := Length(math.MaxInt64)
	for _, at := range q {
		least = min(least, p.DistanceTo(at))
	}
	for _, at := range p {
		least = min(least, q.DistanceTo(at))
	}
	return least
}
