package sheet

import "rodsheet/geom"

// freeCorner reports whether a jig can lie on corner i: it is neither blunt nor too sharp, its edges are long enough to
// push the folds against, and nothing of the board is in the way of the flaps.
func (m *maker) freeCorner(outline geom.Polygon, i int) bool {
	n := len(outline)
	before, at, next := outline[(i+n-1)%n], outline[i], outline[(i+1)%n]
	theta := interior(before, at, next)
	a, b := at.Distance(next), before.Distance(at)
	if theta >= 179 || theta < 20 || min(a, b) < leastEdge/2 {
		return false
	}
	size := m.options.Field
	return freeFold(outline, at, next, -flapReach, size.W) && freeFold(outline, before, at, b-size.H, b+flapReach)
}

// flapReach is more than any flap is wide, margin and footer too.
const flapReach = 40 * mm

// freeFold reports whether no part of the board lies beyond the line of the edge at→next, as far as a flap reaches and from
// one place to another along it: there a flap could not fold back.
func freeFold(outline geom.Polygon, at, next geom.Point, from, to geom.Length) bool {
	seen := outline.Map(jigFrame(at, next))
	return len(seen.Clip(geom.R(from, -flapReach, to, -mm/20))) == 0
}
