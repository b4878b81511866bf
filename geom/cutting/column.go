package cutting

import (
	"math/big"
	"slices"
)

// The limits of column generation.
const (
	maxKinds    = 80          // kinds of items beyond which it is left out
	maxColumns  = 400         // patterns taken in
	fullSteps   = 40_000_000  // steps of one unrestricted table used for pricing
	proofSteps  = 400_000_000 // steps of the table behind the final bound
	proofPoints = 4000        // raster points of an axis of such a table
	priceScale  = 1_000_000
)

// columns solves the linear programme of the search, raises the bound by its prices, and rounds its patterns.
func (s *search) columns() {
	m := newMaster(s.need, s.homogeneous())
	xs, ys, exact, steps := rasters(s.f.items, s.f.w, s.f.h, proofPoints)
	full := exact && steps <= max(fullSteps, s.limit/2)
	// Prices must look at every kind: a coarser raster pays for it.
	focus, points := s.gen.focus, s.gen.points
	if len(s.need) > focus {
		s.gen.focus, s.gen.points = maxKinds, maxPoints/2
		defer func() { s.gen.focus, s.gen.points = focus, points }()
	}
	half := (s.gen.work + s.limit) / 2 // the rest is for rounding
	for range maxColumns {
		if s.done() || s.gen.work > half {
			break
		}
		y := m.settle()
		val := whole(y)
		left := slices.Clone(s.need)
		tree, v := s.gen.fill(val, left, s.f.w, s.f.h, 0)
		if float64(v) > priceScale*(1+1e-6) {
			if m.pattern(tree, taken(s.need, left)) {
				continue
			}
		}
		if !full {
			break
		}
		t := newTable(s.f.items, val, xs, ys, true)
		s.gen.work += steps / 4 // its steps are that much cheaper
		if float64(t.best(s.f.w, s.f.h)) <= priceScale*(1+1e-6) {
			break
		}
		tree = t.tree(s.f.w, s.f.h)
		counts := make([]int, len(s.need))
		tree.tally(counts)
		if !m.pattern(tree, counts) {
			break
		}
	}
	val := whole(m.settle())
	s.priceBound(val)
	if !s.done() {
		s.round(m)
	}
}

// whole turns prices into whole numbers.
func whole(y []float64) []int64 {
	val := make([]int64, len(y))
	for i, v := range y {
		val[i] = int64(v * priceScale)
	}
	return val
}

func taken(before, after []int) []int {
	out := make([]int, len(before))
	for i := range out {
		out[i] = before[i] - after[i]
	}
	return out
}

// homogeneous is how many of each item alone go on a sheet, in rows and columns.
func (s *search) homogeneous() []int {
	fit := make([]int, len(s.need))
	for i, it := range s.f.items {
		most := int64(it.n)
		n := min(s.f.w/it.w, most) * min(s.f.h/it.h, most)
		if it.turn {
			n = max(n, min(s.f.w/it.h, most)*min(s.f.h/it.w, most))
		}
		fit[i] = int(min(n, most))
	}
	return fit
}

// priceBound is Farley's bound: no sheet holds more than the best pattern's worth of parts, so at least all parts'
// worth over that many sheets are needed. The best pattern is taken over all guillotine patterns; where their
// raster is too fine, sizes are rounded down to a coarser one first, which only weakens the bound. All in whole numbers.
func (s *search) priceBound(val []int64) {
	total := new(big.Int)
	for i, n := range s.need {
		total.Add(total, new(big.Int).Mul(big.NewInt(val[i]), big.NewInt(int64(n))))
	}
	items, w, h := s.f.items, s.f.w, s.f.h
	for unit := int64(1); ; unit *= 2 {
		if unit > 1 {
			items = slices.Clone(s.f.items)
			for i := range items {
				items[i].w, items[i].h = items[i].w/unit, items[i].h/unit
				if items[i].w == 0 || items[i].h == 0 {
					return
				}
			}
			w, h = s.f.w/unit, s.f.h/unit
		}
		xs, ys, exact, steps := rasters(items, w, h, proofPoints)
		if !exact || steps > proofSteps {
			continue
		}
		s.gen.work += steps / 4
		best := newTable(items, val, xs, ys, true).best(w, h)
		if best > 0 {
			s.raise(ceilDiv(total, big.NewInt(best)), ByPatterns)
		}
		return
	}
}

// round keeps the whole part of the programme's solution and packs the rest by value correction; then it also
// rounds up one pattern after the other, largest fraction first.
func (s *search) round(m *master) {
	type cand struct {
		tree   *node
		counts []int
		x      float64
	}
	var cands []cand
	for r, b := range m.basis {
		if b.price == 0 || m.x[r] < 1e-6 {
			continue
		}
		if b.tree == nil {
			only := make([]int, len(s.need))
			only[b.item] = s.need[b.item]
			val := make([]int64, len(s.need))
			val[b.item] = 1
			b.tree, _ = s.gen.fill(val, only, s.f.w, s.f.h, 0)
			b.counts = make([]int, len(s.need))
			b.tree.tally(b.counts)
		}
		cands = append(cands, cand{b.tree, b.counts, m.x[r]})
	}
	slices.SortStableFunc(cands, func(a, b cand) int {
		fa, fb := a.x-float64(int(a.x+1e-6)), b.x-float64(int(b.x+1e-6))
		return sign(fb - fa)
	})
	left := slices.Clone(s.need)
	var sheets []*node
	for _, c := range cands {
		for range int(c.x + 1e-6) {
			if !anyOf(c.counts, left) {
				break // the programme may cover more than is wanted
			}
			sheets = append(sheets, takePattern(c.tree, left))
		}
	}
	s.offer(append(slices.Clone(sheets), quick(s.f, left)...))
	s.correct(sheets, slices.Clone(left), 6)
	for _, c := range cands {
		if s.done() || s.gen.work > s.limit {
			return
		}
		if c.x-float64(int(c.x+1e-6)) < 0.05 || !anyOf(c.counts, left) {
			continue
		}
		sheets = append(sheets, takePattern(c.tree, left))
		s.correct(slices.Clone(sheets), slices.Clone(left), 3)
	}
}

func anyOf(counts, left []int) bool {
	for i, n := range counts {
		if n > 0 && left[i] > 0 {
			return true
		}
	}
	return false
}

// takePattern is a copy of the tree without items no longer wanted; what it uses is taken out of left.
func takePattern(tree *node, left []int) *node {
	t := tree.clone()
	t.drop(left)
	return t
}
