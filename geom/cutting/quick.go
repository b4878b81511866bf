package cutting

import "slices"

// quick packs items one after the other, each into the free rectangle it fits best, by several orders and rules,
// and returns the sheets of the best run. It takes about n × (free rectangles) steps and no memory to speak of.
func quick(f *frame, counts []int) []*node {
	orders := []func(item) float64{
		func(it item) float64 { return it.area() },
		func(it item) float64 { return float64(max(it.w, it.h)) },
		func(it item) float64 { return float64(it.w) },
		func(it item) float64 { return float64(it.h) },
	}
	total := 0
	for _, n := range counts {
		total += n
	}
	if total > 2000 {
		orders = orders[:2] // the others seldom win and cost as much
	}
	var best []*node
	for _, key := range orders {
		order := make([]int, len(f.items))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return sign(key(f.items[b]) - key(f.items[a])) })
		for _, longer := range []bool{false, true} {
			if s := quickRun(f, counts, order, longer); best == nil || len(s) < len(best) {
				best = s
			}
		}
	}
	return best
}

func quickRun(f *frame, counts, order []int, longer bool) []*node {
	var sheets, open []*node
	smallest := make([]int64, len(order)+1) // shortest side among the items still to come
	smallest[len(order)] = 1 << 62
	for k := len(order) - 1; k >= 0; k-- {
		smallest[k] = smallest[k+1]
		if it := f.items[order[k]]; counts[order[k]] > 0 {
			smallest[k] = min(smallest[k], it.w, it.h)
		}
	}
	for k, i := range order {
		it := f.items[i]
		open = slices.DeleteFunc(open, func(n *node) bool { return min(n.w, n.h) < smallest[k] })
		for range counts[i] {
			at, turned := bestFit(open, it)
			if at < 0 {
				root := &node{w: f.w, h: f.h}
				sheets = append(sheets, root)
				open = append(open, root)
				at = len(open) - 1
				turned = it.w > root.w || it.h > root.h
			}
			w, h := it.w, it.h
			if turned {
				w, h = h, w
			}
			n := open[at]
			open[at] = open[len(open)-1]
			open = open[:len(open)-1]
			acrossFirst := (n.h-h > n.w-w) != longer
			for _, r := range n.put(i, turned, w, h, acrossFirst) {
				if min(r.w, r.h) >= smallest[k] {
					open = append(open, r)
				}
			}
		}
	}
	return sheets
}

// bestFit finds the free rectangle that leaves the least along one side.
func bestFit(open []*node, it item) (at int, turned bool) {
	at = -1
	least := int64(1) << 62
	for k, n := range open {
		if n.w >= it.w && n.h >= it.h {
			if d := min(n.w-it.w, n.h-it.h); d < least {
				at, turned, least = k, false, d
			}
		}
		if it.turn && n.w >= it.h && n.h >= it.w {
			if d := min(n.w-it.h, n.h-it.w); d < least {
				at, turned, least = k, true, d
			}
		}
	}
	return at, turned
}
