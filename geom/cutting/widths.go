package cutting

import (
	"math/big"
	"slices"
)

// widthSteps limits a table of widths.
const widthSteps = 4_000_000

// stripBound is a lower bound of the strip's length.
func (s *strip) stripBound() (int64, BoundKind) {
	tallest := int64(0)
	for _, it := range s.f.items {
		if it.turn && it.w <= s.w {
			tallest = max(tallest, min(it.w, it.h))
		} else if it.turn {
			tallest = max(tallest, it.w)
		} else {
			tallest = max(tallest, it.h)
		}
	}
	if s.repeat == 0 {
		b, by := widthsBound(s.f.items, s.w)
		return max(b, tallest), by
	}
	// Every item must wait at its upper edge until some item's phase comes round, all but the last one. Grown by that
	// wait, the items still must fit side by side.
	grown := slices.Clone(s.f.items)
	last, one := int64(0), true
	for i := range grown {
		wait := s.repeat
		for _, p := range s.phase {
			wait = min(wait, modulo(p-s.phase[i]-grown[i].h, s.repeat))
		}
		grown[i].h += wait
		last = max(last, wait)
		one = one && s.phase[i] == s.phase[0]
	}
	b, by := widthsBound(grown, s.w)
	if one { // then grown lengths are whole repeats
		b = (b + s.repeat - 1) / s.repeat * s.repeat
	}
	return max(b-last, tallest), by
}

// A need is length wanted in a strip: n times, in one of the ways.
type need struct {
	ways []way
	n    int64
}

// A way is how an item lies: as wide across the strip, for a length along it.
type way struct{ w, length int64 }

// widthsBound is a lower bound for the length of a strip of width w. Sliced across, every slice holds items side by
// side, so the strip is at least as long as the fractional cutting of widths asks for (Gilmore & Gomory 1961), where
// an item that may be turned takes the cheaper of its two ways. It holds for any packing. Widths too many for the linear
// programme are rounded down.
func widthsBound(items []item, w int64) (int64, BoundKind) {
	area := new(big.Int)
	for _, it := range items {
		a := new(big.Int).Mul(big.NewInt(it.w), big.NewInt(it.h))
		area.Add(area, a.Mul(a, big.NewInt(int64(it.n))))
	}
	best, by := ceilDiv(area, big.NewInt(w)), ByArea
	for unit := int64(1); unit <= w/8; unit *= 2 {
		needs := needsOf(items, w, unit)
		var pieces []item
		for _, n := range needs {
			for _, y := range n.ways {
				pieces = append(pieces, item{w: y.w, h: 1})
			}
		}
		g := newGrid(bin{w: w / unit, h: 1}, pieces, slices.Repeat([]int{1}, len(pieces)), completeSums)
		if len(needs) > maxKinds || !g.exact || g.steps() > widthSteps {
			continue
		}
		if b := priceOfWidths(needs, pieces, g); b > best {
			best, by = b, ByWidths
		}
		break
	}
	return best, by
}

// needsOf lists the lengths wanted, of one width together. Widths are in the unit, rounded down.
func needsOf(items []item, w, unit int64) []need {
	var out []need
	byWidth := map[int64]int{}
	for _, it := range items {
		var ways []way
		for _, s := range it.sides() {
			if s[0] <= w {
				ways = append(ways, way{max(1, s[0]/unit), s[1]})
			}
		}
		n := int64(it.n)
		if len(ways) == 1 {
			n *= ways[0].length
			ways[0].length = 1
			if at, known := byWidth[ways[0].w]; known {
				out[at].n += n
				continue
			}
			byWidth[ways[0].w] = len(out)
		}
		out = append(out, need{ways, n})
	}
	return out
}

// priceOfWidths solves the linear programme; the bound comes from its prices in whole numbers (Farley 1990).
func priceOfWidths(needs []need, pieces []item, g grid) int64 {
	m := &master{items: len(needs)}
	w := g.xs[len(g.xs)-1]
	for _, n := range needs {
		m.add(column{cost: 1}, float64(w/n.ways[0].w)/float64(n.ways[0].length), float64(n.n))
	}
	best := int64(0)
	for range maxColumns {
		y := m.prices()
		var val []int64
		sum := new(big.Int)
		for i, n := range needs {
			var least *big.Int
			for _, way := range n.ways {
				v := int64(y[i] / float64(way.length) * priceScale)
				val = append(val, v)
				if p := new(big.Int).Mul(big.NewInt(v), big.NewInt(way.length)); least == nil || p.Cmp(least) < 0 {
					least = p
				}
			}
			sum.Add(sum, least.Mul(least, big.NewInt(n.n)))
		}
		t := fill(pieces, val, nil, g)
		if t.best() == 0 {
			break
		}
		best = max(best, ceilDiv(sum, big.NewInt(t.best())))
		counts := make([]int, len(pieces))
		t.tree(w, 1, 1).tally(counts)
		col, k := make([]float64, len(needs)), 0
		for i, n := range needs {
			for _, way := range n.ways {
				col[i] += float64(counts[k]) / float64(way.length)
				k++
			}
		}
		if float64(t.best()) <= priceScale*(1+1e-7) || !m.enter(col, column{cost: 1}) {
			break
		}
	}
	return best
}
