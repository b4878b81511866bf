package cover

import "slices"

// maxNodes limits the search for each component of a problem.
const maxNodes = 4000

// solveSetCover picks few of the sets so that each of the marks 0..n−1 is in one; every mark must be in some set. It
// returns them in ascending order with a number of sets that none can do with less of.
func solveSetCover(n int, sets []bits) (chosen []int, bound int) {
	t := reduce(n, sets)
	for _, component := range t.components() {
		got, least := t.search(component)
		chosen, bound = append(chosen, got...), bound+least
	}
	slices.Sort(chosen)
	return t.irredundant(chosen, t.sets), bound
}

// A table is the problem turned both ways: which marks are in which set, and which sets hold which mark.
type table struct {
	n     int
	sets  []bits  // full sets, by number
	live  []int   // the sets that are left
	marks bits    // the marks that are left
	small []bits  // sets with only the marks that are left
	of    [][]int // for each mark that is left: the live sets that hold it, ascending
	near  []bits  // for each mark that is left: the marks that share a set with it, itself too
}

// reduce drops marks that are covered whenever another is, and sets whose marks another set has too, in turn, until
// nothing changes. The fewest sets for what is left are the fewest for all.
func reduce(n int, sets []bits) *table {
	t := &table{n: n, sets: sets, marks: newBits(n)}
	for i := range n {
		t.marks.set(i)
	}
	for i := range sets {
		t.live = append(t.live, i)
		t.small = append(t.small, slices.Clone(sets[i]))
	}
	for {
		t.index()
		if !t.dropMarks() && !t.dropSets() {
			break
		}
	}
	t.near = make([]bits, n)
	t.marks.each(func(k int) {
		t.near[k] = newBits(n)
		for _, s := range t.of[k] {
			t.near[k].or(t.small[s])
		}
	})
	return t
}

func (t *table) index() {
	t.of = make([][]int, t.n)
	for _, s := range t.live {
		t.small[s].and(t.marks)
		t.small[s].each(func(k int) { t.of[k] = append(t.of[k], s) })
	}
}

// dropMarks drops each mark k for which there is a j whose sets all hold k.
func (t *table) dropMarks() bool {
	dropped := false
	for j := range t.n {
		if !t.marks.has(j) {
			continue
		}
		in := slices.Clone(t.small[t.of[j][0]])
		for _, s := range t.of[j][1:] {
			in.and(t.small[s])
		}
		in.and(t.marks)
		in.each(func(k int) {
			if k != j {
				t.marks.clear(k)
				dropped = true
			}
		})
	}
	return dropped
}

// dropSets drops each set whose marks another has as well; of equal ones the first stays. Only the sets that share its
// rarest mark can have them all.
func (t *table) dropSets() bool {
	dropped := false
	gone := newBits(len(t.sets))
	for _, s := range t.live {
		rarest := -1
		t.small[s].each(func(k int) {
			if rarest < 0 || len(t.of[k]) < len(t.of[rarest]) {
				rarest = k
			}
		})
		drop := rarest < 0
		if !drop {
			for _, o := range t.of[rarest] {
				if o != s && !gone.has(o) && t.small[s].within(t.small[o]) && (o < s || !t.small[o].within(t.small[s])) {
					drop = true
					break
				}
			}
		}
		if drop {
			gone.set(s)
			dropped = true
		}
	}
	t.live = slices.DeleteFunc(t.live, gone.has)
	return dropped
}

// components splits the marks that are left into groups that share no set.
func (t *table) components() []bits {
	var components []bits
	seen := newBits(t.n)
	t.marks.each(func(k int) {
		if seen.has(k) {
			return
		}
		component, queue := newBits(t.n), []int{k}
		component.set(k)
		for len(queue) > 0 {
			j := queue[0]
			queue = queue[1:]
			t.near[j].each(func(i int) {
				if !component.has(i) {
					component.set(i)
					queue = append(queue, i)
				}
			})
		}
		seen.or(component)
		components = append(components, component)
	})
	return components
}

// A search is a branch and bound over the choices for one component.
type search struct {
	*table
	order []int // the component's marks, those with fewest neighbours first
	nodes int
	best  []int
	floor int
}

// search returns the fewest sets that cover the component and a bound; they agree unless the nodes ran out.
func (t *table) search(component bits) ([]int, int) {
	s := &search{table: t, best: t.greedy(component)}
	component.each(func(k int) { s.order = append(s.order, k) })
	slices.SortStableFunc(s.order, func(i, j int) int { return t.near[i].count() - t.near[j].count() })
	s.floor = max(s.independent(component), t.independentByDegree(component))
	if len(s.best) == s.floor || s.branch(component, nil) {
		return s.best, len(s.best)
	}
	return s.best, s.floor
}

// greedy takes the set that covers most, over and over, then leaves out those that the others make needless.
func (t *table) greedy(component bits) []int {
	open := slices.Clone(component)
	var got []int
	for open.any() {
		best, most := -1, 0
		for _, s := range t.live {
			if n := t.small[s].common(open); n > most {
				best, most = s, n
			}
		}
		got = append(got, best)
		open.without(t.small[best])
	}
	return t.irredundant(got, t.small)
}

// irredundant leaves out chosen sets whose marks are all in other chosen ones, the last first.
func (t *table) irredundant(chosen []int, sets []bits) []int {
	for i := len(chosen) - 1; i >= 0; i-- {
		rest := newBits(t.n)
		for j, s := range chosen {
			if j != i {
				rest.or(sets[s])
			}
		}
		if sets[chosen[i]].within(rest) {
			chosen = slices.Delete(chosen, i, i+1)
		}
	}
	return chosen
}

// independent returns the size of an independent set of open marks, no two of which share a set, so that each needs one
// of its own. Marks are taken in a fixed order.
func (s *search) independent(open bits) int {
	open = slices.Clone(open)
	n := 0
	for _, k := range s.order {
		if open.has(k) {
			open.without(s.near[k])
			n++
		}
	}
	return n
}

// independentByDegree is a slower way to the same: it takes the mark with the fewest neighbours left each time.
func (t *table) independentByDegree(open bits) int {
	open = slices.Clone(open)
	n := 0
	for open.any() {
		best, least := -1, 0
		open.each(func(k int) {
			if c := t.near[k].common(open); best < 0 || c < least {
				best, least = k, c
			}
		})
		open.without(t.near[best])
		n++
	}
	return n
}

// branch tries all sets for the mark with the fewest; it reports whether it could look at everything that mattered.
func (s *search) branch(open bits, got []int) bool {
	if !open.any() {
		if len(got) < len(s.best) {
			s.best = slices.Clone(got)
		}
		return true
	}
	if len(got)+s.independent(open) >= len(s.best) {
		return true
	}
	if s.nodes++; s.nodes > maxNodes {
		return false
	}
	next, most := -1, 0
	open.each(func(k int) {
		if c := len(s.of[k]); next < 0 || c < most {
			next, most = k, c
		}
	})
	sets := slices.Clone(s.of[next])
	slices.SortStableFunc(sets, func(i, j int) int { return s.small[j].common(open) - s.small[i].common(open) })
	for i, set := range sets {
		rest := slices.Clone(open)
		rest.without(s.small[set])
		// A set that leaves open no less than an earlier one can do no better.
		beaten := slices.ContainsFunc(sets[:i], func(o int) bool {
			other := slices.Clone(open)
			other.without(s.small[o])
			return other.within(rest)
		})
		if beaten {
			continue
		}
		if !s.branch(rest, append(got, set)) {
			return false
		}
		if len(s.best) == s.floor {
			return true
		}
	}
	return true
}
