package cutting

import (
	"math/big"
	"slices"
)

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

// The limits of the bound for items that may be turned.
const (
	turnRounds = 150
	turnSteps  = 40_000_000
)

// turnBound is [barBound] for items that may be turned. Prices of sides bound the length however a plan turns each item:
// the item is worth the lesser of what it costs lying either way, and no slice holds more than the dearest row of sides.
// Prices start at the sides themselves, which is the bound by area, and move a little, round after round, towards sides
// that items would pay for and away from those that the dearest row is made of.
func turnBound(items []item, w int64) int64 {
	var sides []int64
	for _, it := range items {
		sides = append(sides, it.w, it.h)
	}
	slices.Sort(sides)
	sides = slices.Compact(sides)
	for len(sides) > 0 && sides[len(sides)-1] > w {
		sides = sides[:len(sides)-1]
	}
	if len(items) > maxKinds || len(sides) == 0 {
		return 0
	}
	bars := make([]item, len(sides))
	price := make([]float64, len(sides))
	for j, s := range sides {
		bars[j] = item{w: s, h: 1, n: int(w / s)}
		price[j] = float64(s) / float64(w)
	}
	xs, ys, exact, steps := rasters(bars, w, 1, proofPoints)
	rounds := min(turnRounds, turnSteps/max(1, steps))
	if !exact {
		return 0
	}
	best := int64(0)
	for round := range rounds {
		val := whole(price)
		t := newTable(bars, val, xs, ys, true)
		row := t.best(w, 1)
		if row == 0 {
			break
		}
		sum := new(big.Int)
		paid := make([]float64, len(sides)) // by items, for each side
		total := 0.0
		for _, it := range items {
			var least *big.Int
			side, length := -1, int64(0)
			for _, lie := range [][2]int64{{it.w, it.h}, {it.h, it.w}} {
				j, fits := slices.BinarySearch(sides, lie[0])
				if !fits || lie[0] == it.h && lie[0] != it.w && !it.turn {
					continue
				}
				if v := new(big.Int).Mul(big.NewInt(val[j]), big.NewInt(lie[1])); least == nil || v.Cmp(least) < 0 {
					least, side, length = v, j, lie[1]
				}
			}
			if least == nil {
				return 0
			}
			sum.Add(sum, least.Mul(least, big.NewInt(int64(it.n))))
			p := float64(price[side] * float64(length) * float64(it.n))
			paid[side] += p
			total += p
		}
		q, rest := new(big.Int).QuoRem(sum, big.NewInt(row), new(big.Int))
		if rest.Sign() > 0 {
			q.Add(q, big.NewInt(1))
		}
		best = max(best, q.Int64())
		counts := make([]int, len(sides))
		t.tree(w, 1).tally(counts)
		pace := 0.5 / (1 + float64(round)/15)
		for j := range price {
			share := paid[j]/total - float64(val[j]*int64(counts[j]))/float64(row)
			price[j] *= 1 + float64(pace*max(-0.9, min(0.9, share)))
		}
	}
	return best
}
