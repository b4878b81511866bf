package cutting

import "math/big"

// barBound is a lower bound for the length of a strip of width w: slice the strip across, and every slice holds
// items side by side, so the strip is at least as long as the fractional cutting of widths asks for. Prices come
// from the linear programme, the bound from the prices in whole numbers (Farley 1990). It holds for any packing of
// items that are not turned; 0 where there are too many kinds or widths.
func barBound(items []item, w int64, heights []int64) int64 {
	if len(items) > maxKinds {
		return 0
	}
	bars := make([]item, len(items))
	need, fit := make([]int, len(items)), make([]int, len(items))
	for i, it := range items {
		if it.turn {
			return 0
		}
		h := it.h
		if heights != nil {
			h = heights[i]
		}
		bars[i] = item{w: it.w, h: 1, n: it.n}
		need[i] = int(h) * it.n
		fit[i] = int(w / it.w)
	}
	xs, ys, exact, steps := rasters(bars, w, 1, proofPoints)
	if !exact || steps > proofSteps/10 {
		return 0
	}
	m := newMaster(need, fit)
	best := int64(0)
	for range maxColumns {
		val := whole(m.settle())
		t := newTable(bars, val, xs, ys, true)
		top := t.best(w, 1)
		if top == 0 {
			break
		}
		sum := new(big.Int)
		for i, n := range need {
			sum.Add(sum, new(big.Int).Mul(big.NewInt(val[i]), big.NewInt(int64(n))))
		}
		q, rest := new(big.Int).QuoRem(sum, big.NewInt(top), new(big.Int))
		b := q.Int64()
		if rest.Sign() > 0 {
			b++
		}
		best = max(best, b)
		if float64(top) <= priceScale*(1+1e-6) {
			break
		}
		tree := t.tree(w, 1)
		counts := make([]int, len(items))
		tree.tally(counts)
		if !m.pattern(tree, counts) {
			break
		}
	}
	return best
}
