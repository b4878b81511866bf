package placement

import (
	"cmp"
	"maps"
	"slices"

	"rodsheet/geom"
)

// A linePlan is all chains of three columns or more of a line, symmetric ones and others.
type linePlan struct {
	*line
	steps, first   int // of the line; the first that is clear of an end
	reach          int // how far an outermost column may stand from its end
	floor          geom.Length
	shifts         []int // by how many steps a twin of the left end's steps may miss its place
	any, same      []stage
	anyOf, samesOf []table
}

func (l *line) plan() *linePlan {
	p := &linePlan{line: l, steps: int(l.length / l.step), first: int(l.near / l.step)}
	p.floor, p.reach = l.limits()
	p.shifts = []int{0, 1}
	if l.length%l.step == 0 {
		p.shifts = []int{-1, 0, 1}
	}
	l.left = l.measure(0)
	l.right = l.measure(l.length % l.step)
	p.any, p.same = p.columns(nil), p.pairs(nil)
	p.anyOf, p.samesOf = solve(p.any), solve(p.same)
	return p
}

// limits are how far the outer columns stand from each other at least, and how many steps one may stand from its own end.
func (l *line) limits() (floor geom.Length, reach int) {
	if l.narrow {
		return l.base, int((l.length - l.near) / l.step)
	}
	return max(l.base, l.stanceFloor()), int(l.outermost(l.spacing) / l.step)
}

// between is the least and greatest number of steps from one column to the next, the next being on a track that begins at
// origin.
func (p *linePlan) between(origin geom.Length) (low, high int) {
	return ceil(p.base-origin, p.step), min(floor(p.spacing-origin, p.step), p.steps)
}

// columns are the stages of a chain from left to right, between given outer columns if there are any.
func (p *linePlan) columns(outer []geom.Length) []stage {
	stages := make([]stage, p.n)
	for i := range stages {
		t, s := &p.left, stage{low: p.first, high: p.steps - p.first, variants: 1}
		switch i {
		case 0:
			s.high = p.reach
			if outer != nil {
				s.low = int(outer[0] / p.step)
				s.high = s.low
			}
		case p.n - 1:
			t, s.low = &p.right, p.steps-p.reach
			if outer != nil {
				s.low = int(outer[i] / p.step)
				s.high = s.low
			}
		}
		s.at = func(_, k int) (int, cost, bool) {
			w, c, ok := p.at(t, k)
			if i == 0 {
				c.first = k
			} else if outer != nil && i < p.n-1 && w == 0 {
				c.uneven = (c.sum - outer[i]).Abs()
			}
			return w, c, ok
		}
		least, most := p.between(t.origin)
		s.window = func(int, int) (from, to int) { return -most, -least }
		stages[i] = s
	}
	return stages
}

// pairs are the stages of a symmetric chain from the middle outward: the middle column if their number is odd, then pairs
// of columns. The outer two stand equally far from their ends, the others to the step: a column and its twin stand at k and
// steps+shift−k, the variant being the shift.
func (p *linePlan) pairs(outer []geom.Length) []stage {
	shifts := p.shifts
	var stages []stage
	var shiftsOf [][]int
	add := func(s stage, of []int) {
		s.variants = len(of)
		stages, shiftsOf = append(stages, s), append(shiftsOf, of)
	}
	if p.n%2 == 1 {
		add(stage{low: p.steps/2 - 1, high: p.steps/2 + 1, at: func(v, k int) (int, cost, bool) {
			if 2*k-p.steps != shifts[v] {
				return 0, cost{}, false
			}
			return p.middle(k, p.n/2, outer)
		}}, shifts)
	}
	for i := p.n/2 - 1; i > 0; i-- {
		first := len(stages) == 0
		least, most := p.between(0)
		add(stage{low: p.first, high: p.steps / 2, at: func(v, k int) (int, cost, bool) {
			twin := p.steps + shifts[v] - k
			if first && (twin-k < least || twin-k > most) {
				return 0, cost{}, false
			}
			w, c, ok := p.middle(k, i, outer)
			w2, c2, ok2 := p.middle(twin, p.n-1-i, outer)
			return w + w2, c.add(c2), ok && ok2
		}}, shifts)
	}
	s := stage{low: p.first, high: min(p.reach, p.steps/2), at: func(_, k int) (int, cost, bool) {
		wide := p.length - 2*geom.Length(k)*p.step
		if wide < p.floor {
			return 0, cost{}, false
		}
		w, c, ok := p.at(&p.left, k)
		w2, c2, ok2 := p.at(&p.right, p.steps-k)
		return w + w2, c.add(c2), ok && ok2
	}}
	if outer != nil {
		s.low = int(outer[0] / p.step)
		s.high = s.low
	}
	add(s, []int{0})
	for i := range stages {
		origin := geom.Length(0)
		if i == len(stages)-1 {
			origin = p.right.origin
		}
		least, most := p.between(0)
		leastTwin, mostTwin := p.between(origin)
		stages[i].window = func(before, variant int) (from, to int) {
			shift := shiftsOf[i][variant] - shiftsOf[i-1][before]
			return max(least, leastTwin-shift), min(most, mostTwin-shift)
		}
	}
	return stages
}

// middle is what the i-th column meets at a step, and how far it stands there from even spacing between the outer ones, if
// those are known.
func (p *linePlan) middle(k, i int, outer []geom.Length) (int, cost, bool) {
	w, c, ok := p.at(&p.left, k)
	if outer != nil && w == 0 {
		c.uneven = (c.sum - outer[i]).Abs()
	}
	return w, c, ok
}

// weights are those that chains can have, the greatest first.
func (p *linePlan) weights() []int {
	return slices.SortedFunc(maps.Keys(p.anyOf[p.n-1]), func(a, b int) int {
		return cmp.Compare(b, a)
	})
}

// layout is the best layout of a weight; nil where none is wide enough.
func (p *linePlan) layout(weight int) *layout {
	same, other := p.symmetric(weight), p.widest(weight)
	if same != nil && (!p.narrow || same.wide == other.wide) {
		return same
	}
	return other
}

func (p *linePlan) symmetric(weight int) *layout {
	last := len(p.same) - 1
	costs, ok := p.samesOf[last][weight]
	if !ok {
		return nil
	}
	i := slices.IndexFunc(costs[0], cost.possible) // the widest
	k := p.same[last].low + i
	at := p.spread(make([]geom.Length, p.n), geom.Length(k)*p.step, geom.Length(k)*p.step)
	stages := p.pairs(at)
	tables := solve(stages)
	chain := trace(stages, tables, weight, state{k: k})
	o := &layout{at: at, same: true, wide: at[p.n-1] - at[0], miss: tables[last].cost(&stages[last], weight, chain[last]).miss}
	for i, s := range chain[:last] {
		left, twin := last-i, p.steps+p.shifts[s.variant]-s.k
		at[left], at[p.n-1-left] = geom.Length(s.k)*p.step, geom.Length(twin)*p.step
	}
	return o
}

// widest is the layout of a weight with the widest stance.
func (p *linePlan) widest(weight int) *layout {
	last := p.n - 1
	s := &p.any[last]
	costs, ok := p.anyOf[last][weight]
	if !ok {
		return nil
	}
	place := func(k int) geom.Length { return p.right.origin + geom.Length(k)*p.step }
	wide, off := p.floor, geom.Length(0)
	var ends []int
	for j, c := range costs[0] {
		if !c.possible() {
			continue
		}
		w := place(s.low+j) - geom.Length(c.first)*p.step
		if w < wide || w == wide && len(ends) > 0 && c.off > off {
			continue
		}
		if w > wide || len(ends) > 0 && c.off < off {
			ends = ends[:0]
		}
		wide, off, ends = w, c.off, append(ends, s.low+j)
	}
	var best *layout
	var least cost
	for _, k := range ends {
		stages := p.columns(p.spread(make([]geom.Length, p.n), place(k)-wide, p.length-place(k)))
		tables := solve(stages)
		c := tables[last].cost(&stages[last], weight, state{k: k})
		c.first = 0
		if best != nil && !c.less(least) {
			continue
		}
		best, least = &layout{at: make([]geom.Length, p.n), wide: wide, miss: c.miss}, c
		for i, s := range trace(stages, tables, weight, state{k: k}) {
			best.at[i] = geom.Length(s.k) * p.step
		}
		best.at[last] = place(k)
		if c.uneven == 0 {
			break // further right is no better
		}
	}
	if best != nil {
		best.same = p.isSame(best.at)
	}
	return best
}
