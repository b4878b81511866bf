package placement

import (
	"math"

	"rodsheet/geom"
)

// A stage is one link of a chain: a column, or a pair of columns that mirror each other. Its states are whole steps from
// low to high, in one or more variants (of a pair, how the two stand to each other).
type stage struct {
	low, high int
	variants  int
	// at is what a state weighs and costs; ok is false where nothing may stand.
	at func(variant, k int) (weight int, c cost, ok bool)
	// window is where the stage before may stand: from k+from to k+to.
	window func(before, variant int) (from, to int)
}

// A cost is what a chain of columns costs, its first part first.
type cost struct {
	first int // step of the first column
	miss
	sum geom.Length // of the places
}

var impossible = cost{first: math.MaxInt}

func (c cost) possible() bool { return c.first != math.MaxInt }

func (c cost) add(o cost) cost {
	return cost{c.first + o.first, miss{c.off + o.off, c.uneven + o.uneven}, c.sum + o.sum}
}

func (c cost) less(o cost) bool {
	switch {
	case c.first != o.first:
		return c.first < o.first
	case c.off != o.off:
		return c.off < o.off
	case c.uneven != o.uneven:
		return c.uneven < o.uneven
	}
	return c.sum < o.sum
}

// A table holds, for one stage, the least cost of all chains that end in each state, by what they weigh together: by
// variant, then by step from the stage's low.
type table map[int][][]cost

// solve fills the tables of all stages, each from the one before: a sliding minimum over its window, so that the price
// is the number of steps times that of weights and of pairs of variants.
func solve(stages []stage) []table {
	tables := make([]table, len(stages))
	for i := range stages {
		s := &stages[i]
		tables[i] = table{}
		for v := range s.variants {
			if i == 0 {
				for k := s.low; k <= s.high; k++ {
					if w, c, ok := s.at(v, k); ok {
						tables[i].put(s, w, v, k, c)
					}
				}
				continue
			}
			before := &stages[i-1]
			for weight, costs := range tables[i-1] {
				for b := range before.variants {
					from, to := s.window(b, v)
					slide(costs[b], s.low+from-before.low, to-from, s.high-s.low+1, func(j int, least cost) {
						if w, c, ok := s.at(v, s.low+j); ok {
							tables[i].put(s, weight+w, v, s.low+j, least.add(c))
						}
					})
				}
			}
		}
	}
	return tables
}

// put keeps the cost where it is less than what is known.
func (t table) put(s *stage, weight, variant, k int, c cost) {
	costs, ok := t[weight]
	if !ok {
		costs = make([][]cost, s.variants)
		for v := range costs {
			costs[v] = make([]cost, s.high-s.low+1)
			for j := range costs[v] {
				costs[v][j] = impossible
			}
		}
		t[weight] = costs
	}
	if at := &costs[variant][k-s.low]; c.less(*at) {
		*at = c
	}
}

// slide hands over, for each of n windows, the least of the costs in it; nothing where there is none. The first window
// is from..from+width, each further one is one step on.
func slide(costs []cost, from, width, n int, found func(j int, least cost)) {
	if width < 0 {
		return
	}
	var queue []int // indices whose costs rise: the first is the least of the window
	next := max(from, 0)
	for j := range n {
		for ; next <= from+j+width && next < len(costs); next++ {
			if !costs[next].possible() {
				continue
			}
			for len(queue) > 0 && costs[next].less(costs[queue[len(queue)-1]]) {
				queue = queue[:len(queue)-1]
			}
			queue = append(queue, next)
		}
		for len(queue) > 0 && queue[0] < from+j {
			queue = queue[1:]
		}
		if len(queue) > 0 {
			found(j, costs[queue[0]])
		}
	}
}

// A state is one of a stage's.
type state struct{ variant, k int }

// trace goes back over the tables from a state of the last stage: the states of one chain with that weight and the least
// cost, the lowest of several.
func trace(stages []stage, tables []table, weight int, last state) []state {
	chain := make([]state, len(stages))
	chain[len(stages)-1] = last
	for i := len(stages) - 1; i > 0; i-- {
		s, before, now := &stages[i], &stages[i-1], chain[i]
		w, _, _ := s.at(now.variant, now.k)
		weight -= w
		best := impossible
		for b := range before.variants {
			from, to := s.window(b, now.variant)
			for k := max(now.k+from, before.low); k <= min(now.k+to, before.high); k++ {
				if c := tables[i-1].cost(before, weight, state{b, k}); c.less(best) {
					best, chain[i-1] = c, state{b, k}
				}
			}
		}
	}
	return chain
}

func (t table) cost(s *stage, weight int, at state) cost {
	costs, ok := t[weight]
	if !ok {
		return impossible
	}
	return costs[at.variant][at.k-s.low]
}
