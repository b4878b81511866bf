package plan

import "rodsheet/geom"

// An axis is one direction of a rectangular board: its length, the base of a clip along it, and how near a clip's
// middle may come to either end. Places are measured from the left or the bottom.
type axis struct {
	length, base, step geom.Length
	near               geom.Length // of the first step at which the base is clear of the edge
}

// axisOf is the axis of a board; ok is false when not even one clip fits.
func axisOf(clear, base, step, length geom.Length) (a axis, ok bool) {
	a = axis{length: length, base: base, step: step, near: (clear + (base+1)/2).Ceil(step)}
	return a, a.fits(1)
}

// fits tells whether so many clips find room side by side, each clear of the edges and of its neighbours' bases.
func (a axis) fits(n int) bool {
	if n == 1 {
		return a.room(a.corners(1)[0])
	}
	return a.near <= a.length-a.near && a.apart(a.corners(n))
}

// room tells whether a clip at x is clear of both edges.
func (a axis) room(x geom.Length) bool { return x >= a.near && x <= a.length-a.near }

// apart tells whether no base lies over its neighbour's.
func (a axis) apart(at []geom.Length) bool {
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] < a.base {
			return false
		}
	}
	return true
}

// corners are the places of n clips with the outer ones as near the ends as may be; a single one stands in the middle.
func (a axis) corners(n int) []geom.Length {
	if n == 1 {
		return []geom.Length{nearest(a.length, 2, a.step)}
	}
	return a.spread(a.near, a.near, n)
}

// spread are the places of n clips, two or more, with the first u from the left or bottom end and the last v from the
// other; those between stand on the grid of the left or bottom end, nearest to even spacing, a tie goes left or down.
func (a axis) spread(u, v geom.Length, n int) []geom.Length {
	at := make([]geom.Length, n)
	at[0], at[n-1] = u, a.length-v
	for i := 1; i < n-1; i++ {
		at[i] = u + nearest((at[n-1]-u)*geom.Length(i), geom.Length(n-1), a.step)
	}
	return at
}

// nearest is the whole number of steps nearest to total/parts, a tie goes down.
func nearest(total, parts, step geom.Length) geom.Length {
	twice := 2*total - parts*step // (total/parts)/step − 1/2, rounded up, without a fraction
	return -(-twice).Floor(2*parts*step) / (2 * parts) / step * step
}

// within tells whether neighbours stand no further apart than spacing.
func within(at []geom.Length, spacing geom.Length) bool {
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] > spacing {
			return false
		}
	}
	return true
}

// least is the smallest number of clips, two where two find room, that keeps the spacing. When bases get in the way
// before the spacing is met it is the largest number that finds room.
func (a axis) least(spacing geom.Length) int {
	if !a.fits(2) {
		return 1
	}
	n := 2
	for !within(a.corners(n), spacing) && a.fits(n+1) {
		n++
	}
	return n
}
