package cutting

import "slices"

// sampled makes a pattern the given way. With very many kinds it shows only some of them: the dearest, and a sample
// of the others to fill holes with.
func (g *generator) sampled(val []int64, rem []int, pack func(g *generator, val []int64, rem []int) *node) *node {
	var live []int
	for i, n := range rem {
		if n > 0 {
			live = append(live, i)
		}
	}
	if len(live) <= maxKinds {
		return pack(g, val, rem)
	}
	g.work += int64(16 * len(live)) // for the sorting
	slices.SortStableFunc(live, func(a, b int) int { return sign(float64(val[b] - val[a])) })
	some := live[:maxFocus:maxFocus]
	for k, rest := 0, live[maxFocus:]; k < maxKinds-maxFocus; k++ {
		some = append(some, rest[k*len(rest)/(maxKinds-maxFocus)])
	}
	sub := *g
	sub.items = nil
	var v []int64
	var r []int
	for _, i := range some {
		sub.items, v, r = append(sub.items, g.items[i]), append(v, val[i]), append(r, rem[i])
	}
	tree := pack(&sub, v, r)
	g.work = sub.work
	tree.rename(some)
	for k, i := range some {
		rem[i] = r[k]
	}
	return tree
}
