package placement

import "rodsheet/geom"

// An axis is one direction of a rectangular board: its length, what a clip's base takes of it, and how near a clip's
// middle may come to either end. Places are measured from the left or the bottom.
type axis struct {
	length, base, step geom.Length
	margin             geom.Length // least distance from a clip's middle to an end
	near               geom.Length // the first whole step at least margin from an end
}

// newAxis takes the base of the half on the board and the length that keeps both halves' bases apart.
func newAxis(length, clear, base, apart, step geom.Length) axis {
	margin := clear + (base+1)/2
	return axis{length: length, base: apart, step: step, margin: margin, near: margin.Ceil(step)}
}

// fits reports whether so many clips find room side by side, each clear of the edges and of its neighbours' bases.
func (a axis) fits(n int) bool {
	at := a.corners(n)
	return at[0] >= a.margin && at[n-1] <= a.length-a.margin && a.apart(at)
}

// apart reports whether no base lies over its neighbour's.
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
	return a.spread(make([]geom.Length, n), a.near, a.near)
}

// spread fills the places of two clips or more, the first u from the left or bottom end and the last v from the other;
// those between stand on the grid of the left or bottom end, nearest to even spacing, a tie goes left or down.
func (a axis) spread(at []geom.Length, u, v geom.Length) []geom.Length {
	last := len(at) - 1
	at[0], at[last] = u, a.length-v
	for i := 1; i < last; i++ {
		at[i] = u + nearest((at[last]-u)*geom.Length(i), geom.Length(last), a.step)
	}
	return at
}

// nearest is the multiple of step nearest to total/parts, a tie goes down.
func nearest(total, parts, step geom.Length) geom.Length {
	twice := 2*total - parts*step // (total/parts − step/2)·2·parts: no fraction
	return twice.Ceil(2*parts*step) / (2 * parts)
}

// within reports whether neighbours stand no further apart than spacing.
func within(at []geom.Length, spacing geom.Length) bool { return widest(at) <= spacing }

// widest is the greatest distance between neighbours; 0 for one.
func widest(at []geom.Length) geom.Length {
	var w geom.Length
	for i := 1; i < len(at); i++ {
		w = max(w, at[i]-at[i-1])
	}
	return w
}

// stanceFloor is how far the outermost of several clips stand from each other at least: two fifths of the length, or what
// there is between the clear ends.
func (a axis) stanceFloor() geom.Length { return min((2*a.length+4)/5, a.length-2*a.near) }

// outermost is how far an outermost of several clips may stand from its end: half of spacing, where the clear end is no
// further, and no further than the middle.
func (a axis) outermost(spacing geom.Length) geom.Length {
	return min(max(spacing/2, a.near), a.length/2)
}

// least is the smallest number of clips that keeps the spacing, two where two find room. When bases get in the way
// before the spacing is kept it is the largest number that finds room, and ok is false.
func (a axis) least(spacing geom.Length) (n int, ok bool) {
	if !a.fits(2) {
		return 1, true
	}
	for n = 2; ; n++ {
		if within(a.corners(n), spacing) {
			return n, true
		}
		if !a.fits(n + 1) {
			return n, false
		}
	}
}

// counts are the columns and rows of the fewest clips that make at least number and keep the spacing; of equal
// counts the one with the smaller greatest distance between neighbours, then the one with more columns. When number
// cannot be reached they are the most that find room.
func counts(x, y axis, number int, spacing geom.Length) (cols, rows int) {
	leastCols, _ := x.least(spacing)
	leastRows, _ := y.least(spacing)
	cols, rows = leastCols, leastRows
	for c := leastCols; c <= max(number, leastCols) && x.fits(c); c++ {
		for r := leastRows; r <= max(number, leastRows) && y.fits(r); r++ {
			if countsBetter(x, y, c, r, cols, rows, number) {
				cols, rows = c, r
			}
		}
	}
	return cols, rows
}

func countsBetter(x, y axis, c, r, cols, rows, number int) bool {
	now, was := c*r, cols*rows
	switch {
	case now >= number && was < number:
		return true
	case now < number:
		return was < number && now > was
	case now != was:
		return now < was
	}
	a := max(widest(x.corners(c)), widest(y.corners(r)))
	b := max(widest(x.corners(cols)), widest(y.corners(rows)))
	return a < b || a == b && c > cols
}
