package plan

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/geom"
)

// A choice is one option, or none, for each corner.
type choice struct {
	at            [4]*option
	count, wood   int
	mirror        bool
	off           geom.Length
	stance        geom.Product
	lowest, least geom.Length
}

// cmp is negative when c is better than o: clips, wood, symmetry, centre lines, stance, lower, lefter.
func (c *choice) cmp(o *choice) int {
	mirrored := 0
	if c.mirror != o.mirror {
		mirrored = 1
		if c.mirror {
			mirrored = -1
		}
	}
	return cmp.Or(o.count-c.count, o.wood-c.wood, mirrored, cmp.Compare(c.off, o.off), o.stance.Cmp(c.stance),
		cmp.Compare(c.lowest, o.lowest), cmp.Compare(c.least, o.least))
}

// places are the board's clips, rows from below, each from the left; nil when there is room for none.
func (y *yard) places() []spotted {
	corners := y.corners()
	var options [4][]option
	for i, c := range corners {
		if c != nil {
			options[i] = y.options(c, corners)
		}
	}
	twins, symmetric := y.twins(corners)
	if symmetric {
		options = y.mirrored(options, twins)
	}
	best := y.choose(options, twins, symmetric)
	if best == nil {
		return nil
	}
	var all []spotted
	for i, o := range best.at {
		if o != nil {
			all = append(all, spotted{o.at, corners[i].name})
		}
	}
	all = y.fill(best, all)
	slices.SortStableFunc(all, func(a, b spotted) int { return cmp.Or(cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X)) })
	return all
}

// twins says for each corner which one is its mirror image; ok is false when the outline is not symmetric.
func (y *yard) twins(corners [4]*corner) (twins [4]int, ok bool) {
	if !y.outline.Mirror(y.size.W).Equal(y.outline) {
		return twins, false
	}
	for i, c := range corners {
		twins[i] = i
		for j, o := range corners {
			if c != nil && o != nil && o.at == geom.Pt(y.size.W-c.at.X, c.at.Y) {
				twins[i] = j
			}
		}
	}
	return twins, true
}

// mirrored adds to each corner's options the mirror images of its twin's.
func (y *yard) mirrored(options [4][]option, twins [4]int) [4][]option {
	both := options
	for i := range options {
		if twins[i] == i {
			continue
		}
		both[i] = slices.Clone(options[i])
		for _, o := range options[twins[i]] {
			if at := geom.Pt(y.size.W-o.at.X, o.at.Y); y.free(at) && !slices.ContainsFunc(both[i], func(p option) bool { return p.at == at }) {
				both[i] = append(both[i], y.option(at))
			}
		}
	}
	return both
}

// choose tries every combination.
func (y *yard) choose(options [4][]option, twins [4]int, symmetric bool) *choice {
	var best *choice
	var now [4]*option
	var try func(i, count int)
	try = func(i, count int) {
		if i == len(now) {
			if c := y.weigh(now, count, twins, symmetric); c != nil && (best == nil || c.cmp(best) < 0) {
				best = c
			}
			return
		}
		for k := range options[i] {
			o := &options[i][k]
			if slices.ContainsFunc(now[:i], func(p *option) bool { return p != nil && y.overlap(p.at, o.at) }) {
				continue
			}
			now[i] = o
			try(i+1, count+1)
			now[i] = nil
		}
		if best == nil || count+len(now)-i-1 >= best.count {
			try(i+1, count)
		}
	}
	try(0, 0)
	return best
}

// overlap tells whether the bases of clips at two places lie over each other.
func (y *yard) overlap(a, b geom.Point) bool {
	return (a.X-b.X).Abs() < y.apart.W && (a.Y-b.Y).Abs() < y.apart.H
}

func (y *yard) weigh(at [4]*option, count int, twins [4]int, symmetric bool) *choice {
	if count == 0 {
		return nil
	}
	c := &choice{at: at, count: count}
	var points []geom.Point
	for _, o := range at {
		if o == nil {
			continue
		}
		points = append(points, o.at)
		if o.wood {
			c.wood++
			c.off += o.off
		}
		c.lowest += o.at.Y
		c.least += o.at.X
	}
	c.stance = stance(at, points)
	c.mirror = symmetric
	for i, j := range twins {
		c.mirror = c.mirror && y.matches(at[i], at[j])
	}
	return c
}

// stance is twice the area of the hull of the clips' middles.
func stance(at [4]*option, points []geom.Point) geom.Product {
	if len(points) == 4 {
		a, b, c, d := at[0].at, at[1].at, at[3].at, at[2].at
		if geom.Orientation(a, b, c) > 0 && geom.Orientation(b, c, d) > 0 && geom.Orientation(c, d, a) > 0 && geom.Orientation(d, a, b) > 0 {
			return geom.Cross(c.Sub(a), d.Sub(b))
		}
	}
	return hull(points).TwiceArea()
}

// matches tells whether one clip is the mirror image of the other, or, to the step, of itself.
func (y *yard) matches(a, b *option) bool {
	if a == nil || b == nil || a == b {
		return a == b && (a == nil || (2*a.at.X-y.size.W).Abs() <= y.step)
	}
	return a.at.Y == b.at.Y && a.at.X == y.size.W-b.at.X
}

// hull is the convex hull of a few points, counter-clockwise. Unlike [geom.Hull] it has something to choose from where
// they stand in one line: its ends.
func hull(points []geom.Point) geom.Polygon {
	p := slices.Clone(points)
	slices.SortFunc(p, func(a, b geom.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	chain := func(p []geom.Point) geom.Polygon {
		var h geom.Polygon
		for _, q := range p {
			for len(h) >= 2 && geom.Orientation(h[len(h)-2], h[len(h)-1], q) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		return h[:len(h)-1]
	}
	if len(p) < 3 {
		return p
	}
	lower := chain(p)
	slices.Reverse(p)
	return append(lower, chain(p)...)
}

// fill puts clips between those of the corners where they stand further apart than spacing allows, and more where
// number asks for more: along the sides of the stance, and in rows inside it where all four corners have a clip.
// Each takes the step nearest to even spacing that is free. Where a corner is missing, number asks for one clip less,
// down to three.
func (y *yard) fill(c *choice, all []spotted) []spotted {
	number := y.number
	for range len(c.at) - c.count {
		number = max(number-1, min(number, 3))
	}
	cols := max(y.parts(c.at[0], c.at[1], false), y.parts(c.at[2], c.at[3], false))
	rows := max(y.parts(c.at[0], c.at[2], true), y.parts(c.at[1], c.at[3], true))
	if c.count == 3 { // the long side is the way over the missing corner
		cols = max(cols, y.parts(c.at[0], c.at[3], false), y.parts(c.at[1], c.at[2], false))
		rows = max(rows, y.parts(c.at[0], c.at[3], true), y.parts(c.at[1], c.at[2], true))
	}
	for tries := 0; ; tries++ {
		more := y.between(c, all, cols, rows)
		if len(more) >= number || tries >= number {
			return more
		}
		if y.size.W*geom.Length(rows) >= y.size.H*geom.Length(cols) {
			cols++
		} else {
			rows++
		}
	}
}

// parts is into how many parts the way between two clips must be cut to keep the spacing.
func (y *yard) parts(a, b *option, up bool) int {
	if a == nil || b == nil || y.spacing <= 0 {
		return 1
	}
	d := (b.at.X - a.at.X).Abs()
	if up {
		d = (b.at.Y - a.at.Y).Abs()
	}
	return max(1, int((d+y.spacing-1)/y.spacing))
}

// between adds the clips between the corners when the stance is cut into columns and rows of parts.
func (y *yard) between(c *choice, corners []spotted, cols, rows int) []spotted {
	all := slices.Clone(corners)
	add := func(at geom.Point, place string) {
		if at, ok := y.nearestFree(at, all); ok {
			n := 1
			name := place
			for slices.ContainsFunc(all, func(s spotted) bool { return s.place == name }) {
				n++
				name = fmt.Sprint(place, " ", n)
			}
			all = append(all, spotted{at, name})
		}
	}
	side := func(a, b *option, parts int, place string) {
		if a == nil || b == nil {
			return
		}
		for i := 1; i < parts; i++ {
			add(part(a.at, b.at, i, parts), place)
		}
	}
	side(c.at[0], c.at[1], cols, "lower middle")
	side(c.at[0], c.at[2], rows, "middle left")
	if c.count < 4 {
		if c.at[3] == nil {
			side(c.at[1], c.at[2], max(cols, rows), "middle")
		}
		if c.at[0] == nil {
			side(c.at[1], c.at[2], max(cols, rows), "middle")
		}
		if c.at[1] == nil || c.at[2] == nil {
			side(c.at[0], c.at[3], max(cols, rows), "middle")
		}
	} else {
		for r := 1; r < rows; r++ {
			left, right := part(c.at[0].at, c.at[2].at, r, rows), part(c.at[1].at, c.at[3].at, r, rows)
			for i := 1; i < cols; i++ {
				add(part(left, right, i, cols), "middle")
			}
		}
	}
	side(c.at[1], c.at[3], rows, "middle right")
	side(c.at[2], c.at[3], cols, "upper middle")
	return all
}

// part is the point i parts of the way from a to b.
func part(a, b geom.Point, i, parts int) geom.Point {
	d := b.Sub(a)
	return geom.Pt(a.X+d.X*geom.Length(i)/geom.Length(parts), a.Y+d.Y*geom.Length(i)/geom.Length(parts))
}

// nearestFree is the whole step from the left and bottom edge nearest to a place where a clip may stand beside those
// there are; no further away than half the spacing.
func (y *yard) nearestFree(at geom.Point, there []spotted) (geom.Point, bool) {
	home := geom.Pt(nearest(at.X, 1, y.step), nearest(at.Y, 1, y.step))
	reach := min(int(y.spacing/y.step/2), 400)
	var best geom.Point
	var far geom.Product
	found := false
	for ring := 0; ring <= reach; ring++ {
		for i := -ring; i <= ring; i++ {
			for j := -ring; j <= ring; j++ {
				if max(i, -i, j, -j) != ring {
					continue
				}
				q := home.Add(geom.Pt(geom.Length(i)*y.step, geom.Length(j)*y.step))
				d := geom.Dot(q.Sub(at), q.Sub(at))
				if found && d.Cmp(far) >= 0 || !y.free(q) ||
					slices.ContainsFunc(there, func(s spotted) bool { return y.overlap(s.at, q) }) {
					continue
				}
				best, far, found = q, d, true
			}
		}
		if found && far.Cmp(geom.Dot(geom.Pt(geom.Length(ring)*y.step, 0), geom.Pt(geom.Length(ring)*y.step, 0))) <= 0 {
			break // nothing in a wider ring can be nearer
		}
	}
	return best, found
}
