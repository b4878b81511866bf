package cutting

import (
	"math"
	"math/big"
	"slices"
)

// The limits of a search, in steps of tables unless said.
const (
	pricingSteps = 1_500_000   // of one table that looks for a pattern
	provingSteps = 150_000_000 // of one table behind a bound
	searchSteps  = 500_000_000
	maxKinds     = 120 // kinds of items beyond which there is no linear programme
	maxColumns   = 1000
	maxDives     = 24
	fewBlocks    = 800 // of an exhaustive search in between
	manyBlocks   = 8_000
	priceScale   = 1_000_000_000
)

// A pattern is what one sheet holds, or one block of a roll.
type pattern struct {
	bin    int
	cost   int
	counts []int
	tree   *node // may hold more than counts say
}

// A solver keeps the cheapest plan and the best bound found so far.
type solver struct {
	f          *frame
	need, left []int // of items and bins
	unit       float64
	alone      []*pattern // of each item
	pool       []*pattern // all found
	best       []*pattern
	cost       int // of best
	bound      int
	by         BoundKind
	work       int64
}

// newSolver makes a solver whose linear programme counts costs in units.
func newSolver(f *frame, unit int64) *solver {
	s := &solver{f: f, need: f.counts(), cost: math.MaxInt, unit: float64(unit), by: ByArea}
	for _, b := range f.bins {
		if b.n == 0 {
			b.n = math.MaxInt32
		}
		s.left = append(s.left, b.n)
	}
	return s
}

func (s *solver) done() bool { return s.cost <= s.bound }

func (s *solver) raise(bound int, by BoundKind) {
	if bound > s.bound {
		s.bound, s.by = bound, by
	}
}

func costOf(plan []*pattern) int {
	sum := 0
	for _, p := range plan {
		sum += p.cost
	}
	return sum
}

func (s *solver) offer(plan []*pattern) {
	if c := costOf(plan); c < s.cost {
		s.best, s.cost = slices.Clone(plan), c
	}
}

// run looks for the cheapest sheets: a quick packing, the bound by area, the linear programme and its bound, then its
// rounding, with exhaustive search where items are few enough.
func (s *solver) run() {
	s.raise(s.areaBound(), ByArea)
	s.quick(nil, s.need, s.left)
	s.pool = append(s.pool, s.best...)
	s.exhaustBound(fewBlocks)
	if len(s.need) > maxKinds {
		s.correct(nil, s.need, s.left, 2)
		return
	}
	if total(s.need) <= 500 {
		s.correct(nil, s.need, s.left, 12)
	} else {
		s.correct(nil, s.need, s.left, 1)
	}
	if s.done() {
		return
	}
	mm := s.relax(s.need, s.left)
	s.prove(mm)
	for d := 0; d < maxDives && s.work < searchSteps && !s.done(); d++ {
		if d == 4 {
			s.exhaustBound(manyBlocks)
		}
		s.dive(d)
	}
}

// patternOf is the best pattern of a table; of a roll, the block that is worth most above the price of its height.
func (s *solver) patternOf(b int, t *table, price float64) *pattern {
	bin := s.f.bins[b]
	p, y, h := &pattern{bin: b, cost: bin.cost, counts: make([]int, len(s.need))}, len(t.ys)-1, bin.h
	if bin.roll {
		y = t.block(price)
		h = t.ys[y]
		p.cost = int(h)
	}
	p.tree = t.tree(bin.w, h, y)
	p.tree.tally(p.counts)
	return p
}

// aloneOf is a pattern of one item.
func (s *solver) aloneOf(i int) *pattern {
	for len(s.alone) <= i {
		k := len(s.alone)
		one := make([]int, len(s.need))
		one[k] = s.need[k]
		b := s.f.cheapest(s.f.items[k])
		g := newGrid(s.f.bins[b], s.f.items, one, 200)
		s.alone = append(s.alone, s.patternOf(b, fill(s.f.items, slices.Repeat([]int64{1}, len(one)), one, g), 0))
	}
	return s.alone[i]
}

// clip is a pattern without items beyond those wanted.
func clip(p *pattern, need []int) *pattern {
	c := *p
	c.counts = slices.Clone(p.counts)
	for i := range c.counts {
		c.counts[i] = min(c.counts[i], need[i])
	}
	return &c
}

// areaBound is what the items' area costs in whole sheets.
func (s *solver) areaBound() int {
	product := func(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }
	sum := new(big.Int)
	for _, it := range s.f.items {
		a := product(it.w, it.h)
		sum.Add(sum, a.Mul(a, big.NewInt(int64(it.n))))
	}
	var most []*big.Int
	for _, b := range s.f.bins {
		most = append(most, product(b.w, b.h))
	}
	return s.leastCost(sum, most)
}

// leastCost is a bound on the cost of sheets that hold a value, when no sheet of a bin holds more than most of it.
func (s *solver) leastCost(value *big.Int, most []*big.Int) int {
	var order []int
	step := int64(0)
	price := func(b int) *big.Rat { return new(big.Rat).SetFrac(big.NewInt(int64(s.f.bins[b].cost)), most[b]) }
	for b, m := range most {
		step = gcd(step, int64(s.f.bins[b].cost))
		if m.Sign() > 0 {
			order = append(order, b)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return price(a).Cmp(price(b)) })
	cost, rest := new(big.Rat), new(big.Rat).SetInt(value)
	for _, b := range order {
		part := new(big.Rat).Set(rest)
		if n := s.f.bins[b].n; n > 0 {
			if all := new(big.Rat).SetInt(new(big.Int).Mul(most[b], big.NewInt(int64(n)))); all.Cmp(part) < 0 {
				part = all
			}
		}
		rest.Sub(rest, part)
		cost.Add(cost, part.Mul(part, price(b)))
	}
	if step == 0 {
		return 0
	}
	cost.Quo(cost, big.NewRat(step, 1))
	return int(ceilDiv(cost.Num(), cost.Denom()) * step)
}

func ceilDiv(a, b *big.Int) int64 {
	q, r := new(big.Int).QuoRem(a, b, new(big.Int))
	if r.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return q.Int64()
}

// whole turns prices into whole numbers, rounded down, and sums up what all items cost.
func (s *solver) whole(y []float64) (val []int64, sum *big.Int) {
	sum = new(big.Int)
	for i, n := range s.need {
		val = append(val, int64(y[i]*priceScale))
		sum.Add(sum, new(big.Int).Mul(big.NewInt(val[i]), big.NewInt(int64(n))))
	}
	return val, sum
}

// relax solves the linear programme of what is left, over patterns that hold no more than is wanted. Patterns are sought
// at prices drawn towards the items' area first, which wander less.
func (s *solver) relax(need, left []int) *master {
	var alone, known []*pattern
	for i := range need {
		alone = append(alone, clip(s.aloneOf(i), need))
	}
	for _, p := range s.pool {
		if left[p.bin] > 0 {
			known = append(known, clip(p, need))
		}
	}
	grids := make([]grid, len(s.f.bins))
	for b, bin := range s.f.bins {
		grids[b] = gridWithin(bin, s.f.items, need, pricingSteps)
	}
	m := newMaster(s.f.bins, left, need, alone, s.unit)
	for range maxColumns {
		y := m.prices()
		var best *pattern
		most := 1e-7
		for _, p := range known {
			if g := m.gain(p, y, s.unit); g > most {
				best, most = p, g
			}
		}
		if best != nil && m.take(best, s.unit) {
			continue
		}
		if s.work > searchSteps {
			break // the patterns there are must do
		}
		before := len(s.pool)
		for _, share := range []float64{0.6, 0.3, 0} {
			val := make([]int64, m.items)
			for i, it := range s.f.items {
				v := float64((1-share)*y[i]) + float64(share*it.area()/s.f.bins[0].area())
				val[i] = max(1, int64(v*priceScale)) // what costs nothing fills holes all the same
			}
			for b := range s.f.bins {
				if left[b] == 0 {
					continue
				}
				s.work += grids[b].steps()
				p := s.patternOf(b, fill(s.f.items, val, need, grids[b]), priceScale/s.unit)
				if m.gain(p, y, s.unit) > 1e-7 {
					s.pool, known = append(s.pool, p), append(known, p)
				}
			}
			if len(s.pool) > before {
				break
			}
		}
		if len(s.pool) == before {
			break
		}
	}
	return m
}

// prove raises the bound by the prices of the linear programme: no sheet holds more than the best pattern's worth, so
// all items' worth in whole sheets of that worth is a bound (Farley 1990). The best pattern is found over all guillotine
// patterns, any number of an item allowed; where that takes too many steps, sizes are rounded down to a coarser unit
// first, which only weakens the bound. Where a better pattern turns up the programme goes on with it.
func (s *solver) prove(m *master) {
	centre := make([]float64, len(s.need)) // prices with the highest bound so far
	for i, it := range s.f.items {
		centre[i] = it.area() / s.f.bins[0].area()
	}
	highest, share := 0.0, 0.7
	for range maxColumns {
		if int(math.Ceil(m.value()-1e-6)) <= s.bound || s.done() || s.work > searchSteps/3 {
			return
		}
		y := m.prices()
		prices := make([]float64, len(centre))
		for i, c := range centre {
			prices[i] = float64(share*c) + float64((1-share)*y[i])
		}
		val, sum := s.whole(prices)
		better, all := false, true
		var most []*big.Int
		for b := range s.f.bins {
			t, exact := s.roundedTable(b, val, provingSteps)
			most = append(most, big.NewInt(t.best()))
			if all = all && exact; exact {
				p := s.patternOf(b, t, 0)
				if m.gain(p, y, s.unit) > 1e-6 && m.take(p, s.unit) {
					better = true
					s.pool = append(s.pool, clip(p, s.need))
				}
			}
		}
		s.raise(s.leastCost(sum, most), ByPatterns)
		bound, _ := new(big.Rat).SetFrac(sum, most[0]).Float64()
		if bound > highest {
			highest, centre = bound, prices
		} else if share *= 0.8; !better && share < 0.05 {
			return
		}
	}
}

// roundedTable is the table of a bin for any number of items, or one of sizes rounded down to a unit for which it takes
// no more than the given steps.
func (s *solver) roundedTable(b int, val []int64, steps int64) (t *table, exact bool) {
	for unit := int64(1); ; unit++ {
		items, bin := slices.Clone(s.f.items), s.f.bins[b]
		bin.w, bin.h = bin.w/unit, bin.h/unit
		for i, it := range items {
			items[i].w, items[i].h = max(1, it.w/unit), max(1, it.h/unit)
		}
		if g := newGrid(bin, items, s.need, completeSums); g.exact && g.steps() <= steps {
			s.work += g.steps()
			return fill(items, val, nil, g), unit == 1
		}
	}
}
