package cutting

import (
	"fmt"
	"math/big"
	"slices"

	"rodsheet/geom"
)

// A Good is a rectangle that may be cut up to Max times (0: any number), each worth Value.
type Good struct {
	Name  string
	Size  geom.Size
	Max   int
	Value int64
	Grain Grain
}

// Value is the question: what is the most that one sheet can yield?
type Value struct {
	Sheet Sheet
	Kerf  geom.Length
	Goods []Good
}

// A Cutting answers [Value.Best]. Bound is what no cutting exceeds; Proved says that Value reaches it.
type Cutting struct {
	Used    Used
	Counts  []int // of each good
	Value   int64
	Bound   int64
	BoundBy BoundKind
	Proved  bool
}

// maxWorth keeps sums of values inside 64 bits.
const maxWorth = 1 << 40

// Best looks for the cutting of highest value. With no limits on copies the guillotine dynamic programme is exact
// wherever its raster is complete; with limits an exhaustive search follows. It fails like [Sheets.Plan].
func (v Value) Best() (Cutting, error) {
	usable := v.Sheet.Usable()
	f, vals, err := v.frame()
	if err != nil {
		return Cutting{}, err
	}
	if len(f.items) == 0 {
		return Cutting{Counts: make([]int, len(v.Goods)), BoundBy: ByArea, Proved: true}, nil
	}
	need := f.counts()
	gen := newGenerator(f.items)
	tree, value := gen.fill(vals, append([]int(nil), need...), f.w, f.h, 0)

	bound, by := valueByArea(f, vals), ByArea
	xs, ys, exact, steps := rasters(f.items, f.w, f.h, proofPoints)
	if exact && steps <= proofSteps {
		t := newTable(f.items, vals, xs, ys, true)
		if b := t.best(f.w, f.h); b < bound {
			bound, by = b, ByTable
		}
		all := t.tree(f.w, f.h)
		counts := make([]int, len(need))
		all.tally(counts)
		if within(counts, need) {
			tree, value = all, bound
		} else if m := newMerger(f.items, vals, f.w, f.h, mergeLimits{maxBuilds, maxTries}); value < bound && m != nil && steps <= mergeSteps {
			better, b, _ := m.highest(t, value)
			if better != nil {
				tree, value = better, m.best.value
			}
			if b < bound {
				bound, by = b, BySearch
			}
		}
	}

	c := Cutting{Value: value, Bound: bound, BoundBy: by, Proved: value == bound, Counts: make([]int, len(v.Goods))}
	sizes := make([]geom.Size, len(v.Goods))
	for i, g := range v.Goods {
		sizes[i] = g.Size
	}
	c.Used = newWriter(f, v.Kerf, sizes).sheet(tree, usable)
	for _, p := range c.Used.Placed {
		c.Counts[p.Part]++
	}
	return c, nil
}

// frame checks the question and turns it into frame units, with the values of the frame's items. Goods keep items of
// their own, since equal sizes may differ in value.
func (v Value) frame() (*frame, []int64, error) {
	if err := checkSheet(v.Sheet, v.Kerf); err != nil {
		return nil, nil, err
	}
	usable := v.Sheet.Usable().Size()
	grown := geom.Size{W: usable.W + v.Kerf, H: usable.H + v.Kerf}
	var pieces []piece
	for i, g := range v.Goods {
		if err := checkPart(i, g.Name, g.Size, g.Max, g.Grain, usable); err != nil {
			return nil, nil, err
		}
		if g.Value < 0 || g.Value > maxWorth {
			return nil, nil, &SizeError{"the value of part " + partName(g.Name, i), fmt.Sprint(g.Value),
				fmt.Sprintf("from zero to %d", int64(maxWorth))}
		}
		// The area allows no more than this, and no one cuts more than the last number.
		n := int(min(area(grown)/area(geom.Size{W: g.Size.W + v.Kerf, H: g.Size.H + v.Kerf})+1, maxParts))
		if g.Max > 0 {
			n = min(n, g.Max)
		}
		pieces = append(pieces, piece{g.Size, n, g.Grain == Free})
	}
	f := newFrame(usable, v.Kerf, pieces, distinct)
	vals := make([]int64, len(f.items))
	for i, o := range f.owners {
		vals[i] = v.Goods[o[0].part].Value
	}
	return f, vals, nil
}

func within(counts, need []int) bool {
	for i, n := range counts {
		if n > need[i] {
			return false
		}
	}
	return true
}

// valueByArea is the fractional knapsack over areas: no cutting at all is worth more. In whole numbers.
func valueByArea(f *frame, vals []int64) int64 {
	order := make([]int, len(f.items))
	areas := make([]*big.Int, len(f.items))
	for i, it := range f.items {
		order[i] = i
		areas[i] = new(big.Int).Mul(big.NewInt(it.w), big.NewInt(it.h))
	}
	slices.SortStableFunc(order, func(a, b int) int { // dearest for its area first
		return new(big.Int).Mul(big.NewInt(vals[b]), areas[a]).Cmp(new(big.Int).Mul(big.NewInt(vals[a]), areas[b]))
	})
	room := new(big.Int).Mul(big.NewInt(f.w), big.NewInt(f.h))
	total := int64(0)
	for _, i := range order {
		n := big.NewInt(int64(f.items[i].n))
		all := new(big.Int).Mul(areas[i], n)
		if all.Cmp(room) > 0 {
			part := new(big.Int).Mul(room, big.NewInt(vals[i]))
			return total + part.Quo(part, areas[i]).Int64()
		}
		room.Sub(room, all)
		total += vals[i] * int64(f.items[i].n)
	}
	return total
}
