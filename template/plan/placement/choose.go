package placement

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A choice is one option, or none, for each corner.
type choice struct {
	at            [4]*option
	count         int
	short         geom.Length // of the stance floor
	within        bool        // the board's centre of gravity is in the hull
	wood          int
	mirror        bool
	stance        geom.Product
	off           geom.Length
	lowest, least geom.Length
}

// cmp is negative when c is better than o: clips, stance floor, wood, symmetry, stance, centre lines, lower, lefter.
func (c *choice) cmp(o *choice) int {
	return cmp.Or(cmp.Compare(o.count, c.count), trueFirst(c.within, o.within), cmp.Compare(c.short, o.short), cmp.Compare(o.wood, c.wood),
		trueFirst(c.mirror, o.mirror), o.stance.Cmp(c.stance), cmp.Compare(c.off, o.off), cmp.Compare(c.lowest, o.lowest), cmp.Compare(c.least, o.least))
}

// twins says for each corner which one is its mirror image; ok is false when the outline is not symmetric.
func (p *placer) twins(corners [4]*corner) (twins [4]int, ok bool) {
	if !p.outline.Mirror(p.size.W).Equal(p.outline) {
		return twins, false
	}
	for i, c := range corners {
		twins[i] = i
		for j, o := range corners {
			if c != nil && o != nil && o.at == geom.Pt(p.size.W-c.at.X, c.at.Y) {
				twins[i] = j
			}
		}
	}
	return twins, true
}

// mirrored adds to each corner's options the mirror images of its twin's.
func (p *placer) mirrored(options [4][]option, twins [4]int) [4][]option {
	both := options
	for i := range options {
		if twins[i] == i {
			continue
		}
		both[i] = slices.Clone(options[i])
		for _, o := range options[twins[i]] {
			if at := geom.Pt(p.size.W-o.at.X, o.at.Y); p.free(at) && !slices.ContainsFunc(both[i], func(q option) bool { return q.at == at }) {
				both[i] = append(both[i], p.option(at))
			}
		}
	}
	return both
}

// choose tries every combination.
func (p *placer) choose(options [4][]option, twins [4]int, symmetric bool) *choice {
	var best *choice
	var now [4]*option
	var try func(i, count int)
	try = func(i, count int) {
		if i == len(now) {
			if c := p.weigh(now, count, twins, symmetric); c != nil && (best == nil || c.cmp(best) < 0) {
				best = c
			}
			return
		}
		for k := range options[i] {
			o := &options[i][k]
			if slices.ContainsFunc(now[:i], func(q *option) bool { return q != nil && p.overlap(q.at, o.at) }) {
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

// weigh scores a combination; nil where it has no clip at all.
func (p *placer) weigh(at [4]*option, count int, twins [4]int, symmetric bool) *choice {
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
	c.within = p.holdsCentre(at)
	for _, pair := range [4]struct {
		a, b *option
		up   bool
	}{{at[0], at[1], false}, {at[2], at[3], false}, {at[0], at[2], true}, {at[1], at[3], true}} {
		if pair.a != nil && pair.b != nil {
			c.short += pair.a.short(pair.b, pair.up)
		}
	}
	c.mirror = symmetric
	for i, j := range twins {
		c.mirror = c.mirror && p.matches(at[i], at[j])
	}
	return c
}

// short is how much nearer to each other than the stance floor two clips of a row, or of a column, stand.
func (o *option) short(q *option, up bool) geom.Length {
	if up {
		return max(0, min(o.floor.H, q.floor.H)-(q.at.Y-o.at.Y).Abs())
	}
	return max(0, min(o.floor.W, q.floor.W)-(q.at.X-o.at.X).Abs())
}

// holdsCentre reports whether the board's centre of gravity is in the hull of the clips, the corners taken round.
func (p *placer) holdsCentre(at [4]*option) bool {
	var round []geom.Point
	for _, i := range [4]int{0, 1, 3, 2} {
		if at[i] != nil {
			round = append(round, at[i].at)
		}
	}
	if len(round) < 3 {
		return len(round) == 2 && geom.Orientation(round[0], round[1], p.centre) == 0
	}
	for i, a := range round {
		if geom.Orientation(a, round[(i+1)%len(round)], p.centre) < 0 {
			return false
		}
	}
	return true
}

// stance is twice the area of the hull of the clips' middles.
func stance(at [4]*option, points []geom.Point) geom.Product {
	if len(points) == 4 {
		a, b, c, d := at[0].at, at[1].at, at[3].at, at[2].at
		if geom.Orientation(a, b, c) > 0 && geom.Orientation(b, c, d) > 0 && geom.Orientation(c, d, a) > 0 && geom.Orientation(d, a, b) > 0 {
			return geom.Cross(c.Sub(a), d.Sub(b))
		}
	}
	return geom.Hull(points).TwiceArea()
}

// matches reports whether one clip is the mirror image of the other, or, to the step, of itself.
func (p *placer) matches(a, b *option) bool {
	if a == nil || b == nil || a == b {
		return a == b && (a == nil || (2*a.at.X-p.size.W).Abs() <= p.Step)
	}
	return a.at.Y == b.at.Y && a.at.X == p.size.W-b.at.X
}
