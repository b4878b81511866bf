package placement

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// two are the best layouts of two columns for each weight; of the greatest alone where only is set. Between two runs of
// steps the best is known without trial, so the price is the number of runs squared, whatever the step.
func (l *line) two(only bool) []*layout {
	steps, first, origin := int(l.length/l.step), int(l.near/l.step), l.length%l.step
	floor, reach := l.limits()
	rights := l.runs(origin, steps-reach, steps-first)
	best := map[int]*layout{}
	heaviest := -1
	for _, left := range l.runs(0, first, reach) {
		for _, right := range rights {
			weight := left.weight + right.weight
			if only && weight < heaviest {
				continue
			}
			o := l.twoOf(left, right, floor)
			if o == nil {
				continue
			}
			heaviest = max(heaviest, weight)
			if q := best[weight]; q == nil || l.compare(o, q) < 0 {
				best[weight] = o
			}
		}
	}
	var all []*layout
	for weight, o := range best {
		if !only || weight == heaviest {
			all = append(all, o)
		}
	}
	slices.SortFunc(all, l.compare)
	return all
}

// twoOf is the best layout with one column in each of two runs, at least floor apart; nil where there is none.
func (l *line) twoOf(left, right run, least geom.Length) *layout {
	steps, origin := int(l.length/l.step), l.length%l.step
	// Steps between them: the widest there are.
	wide := min(right.to-left.from, floor(l.spacing-origin, l.step))
	if wide < max(right.from-left.to, ceil(least-origin, l.step)) {
		return nil
	}
	at := func(k, j int) *layout {
		o := &layout{at: []geom.Length{geom.Length(k) * l.step, origin + geom.Length(j)*l.step}, same: k == steps-j}
		o.wide = o.at[1] - o.at[0]
		if left.weight > 0 {
			o.off += l.off(o.at[0])
		}
		if right.weight > 0 {
			o.off += l.off(o.at[1])
		}
		return o
	}
	low, high := max(left.from, right.from-wide), min(left.to, right.to-wide)
	other := at(low, low+wide)
	for k := low + 1; k <= high && other.off > 0; k++ {
		if o := at(k, k+wide); o.off < other.off {
			other = o
		}
	}
	// Twins stand k steps from either end.
	k := max(left.from, steps-right.to, ceil(l.length-l.spacing, 2*l.step))
	if k > min(left.to, steps-right.from, floor(l.length-least, 2*l.step)) {
		return other
	}
	if same := at(k, steps-k); l.compare(same, other) < 0 {
		return same
	}
	return other
}

// compare is negative when o is better than q, of the same weight: symmetry, stance, centre lines, low or left. On a
// narrow line stance comes first.
func (l *line) compare(o, q *layout) int {
	symmetry, stance := trueFirst(o.same, q.same), cmp.Compare(q.wide, o.wide)
	if l.narrow {
		symmetry, stance = stance, symmetry
	}
	return cmp.Or(symmetry, stance, o.miss.cmp(q.miss), cmp.Compare(sum(o.at), sum(q.at)))
}
