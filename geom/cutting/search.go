package cutting

import "slices"

// Steps a plan may spend on patterns: about half a second, and a quarter of a millisecond more for each part.
const (
	planSteps = 40_000_000
	itemSteps = 25_000
	manyItems = 400 // beyond it, the linear programme comes before value correction
)

// A search keeps the best plan and the best bound found so far.
type search struct {
	f      *frame
	need   []int
	gen    *generator
	limit  int64
	best   []*node
	bound  int
	by     BoundKind
	powers int // value corrections started so far; each starts from a different power of the area
}

func newSearch(f *frame) *search {
	s := &search{f: f, need: f.counts(), gen: newGenerator(f.items), limit: planSteps}
	s.limit += itemSteps * int64(min(f.total(), 5000))
	s.raise(areaBound(f), ByArea)
	s.raise(dualBound(f), ByDual)
	return s
}

func (s *search) done() bool { return s.best != nil && len(s.best) <= s.bound }

func (s *search) raise(bound int, by BoundKind) {
	if bound > s.bound {
		s.bound, s.by = bound, by
	}
}

func (s *search) offer(sheets []*node) {
	if s.best == nil || len(sheets) < len(s.best) {
		s.best = sheets
	}
}

// run looks for the fewest sheets.
func (s *search) run() {
	s.offer(quick(s.f, s.need))
	if s.done() {
		return
	}
	for !s.done() {
		sheets, settled := partition(s.f, s.bound)
		if !settled {
			break
		}
		if sheets != nil {
			s.offer(sheets)
		} else {
			s.raise(s.bound+1, BySearch)
		}
	}
	if len(s.need) > maxFocus && s.f.total() > 2*manyItems {
		s.gen.focus, s.gen.points = maxFocus/2, maxPoints/2
	}
	if s.f.total() <= manyItems || len(s.need) > maxKinds {
		s.correct(nil, slices.Clone(s.need), 4)
	}
	if !s.done() && len(s.need) <= maxKinds {
		s.columns()
	}
	for !s.done() && s.gen.work < s.limit && s.powers < 12 {
		s.correct(nil, slices.Clone(s.need), 8)
	}
}

// correct is sequential value correction: sheet after sheet takes the pattern of the highest value; items that
// ended up in poor patterns, or in none, gain value for the next round. It starts from given sheets, with left
// still to be placed.
func (s *search) correct(given []*node, left []int, rounds int) {
	sheetArea := float64(s.f.w) * float64(s.f.h)
	power := 1 + 0.02*float64(s.powers%6)
	s.powers++
	base := make([]float64, len(left))
	worth := make([]float64, len(left))
	for i, it := range s.f.items {
		base[i] = powOf(it.area()/sheetArea, power)
		worth[i] = base[i]
	}
	for range rounds {
		if s.done() || s.gen.work > s.limit {
			return
		}
		rem := slices.Clone(left)
		sheets := slices.Clone(given)
		for {
			area := 0.0
			for i, n := range rem {
				area += float64(s.f.items[i].area() * float64(n))
			}
			if area == 0 {
				s.offer(sheets)
				break
			}
			if s.best != nil && float64(len(sheets))+area/sheetArea > float64(len(s.best)-1)+1e-9 {
				for i, n := range rem {
					if n > 0 {
						worth[i] *= 1.05
					}
				}
				break
			}
			if s.gen.work > s.limit {
				s.offer(append(sheets, quick(s.f, rem)...))
				return
			}
			before := slices.Clone(rem)
			tree := s.gen.sampled(scaled(worth), rem, func(g *generator, val []int64, rem []int) *node {
				n, _ := g.fill(val, rem, s.f.w, s.f.h, 0)
				return n
			})
			got := taken(before, rem)
			sheets = append(sheets, tree)
			used := 0.0
			for i, n := range got {
				used += float64(s.f.items[i].area() * float64(n))
			}
			for repeats(got, rem) {
				for i, n := range got {
					rem[i] -= n
				}
				sheets = append(sheets, tree.clone())
			}
			for i, n := range got {
				if n > 0 {
					share := float64(n) / float64(n+rem[i]+1)
					worth[i] += share * (base[i]*sheetArea/used - worth[i]) // used is not zero: n is not
				}
			}
		}
	}
}

// repeats tells whether the pattern can be cut once more and still is used to the full.
func repeats(got, rem []int) bool {
	any := false
	for i, n := range got {
		if n > rem[i] {
			return false
		}
		any = any || n > 0
	}
	return any
}

// scaled turns values into whole numbers, the highest being a million and none zero.
func scaled(worth []float64) []int64 {
	top := slices.Max(worth)
	out := make([]int64, len(worth))
	for i, v := range worth {
		out[i] = max(1, int64(v/top*1e6))
	}
	return out
}

// powOf is x to a power between 1 and 1.2 in steps that give the same bits on every machine.
func powOf(x, power float64) float64 {
	// x^(1+e) ≈ x·(1 + e·ln x), with ln by its series in square-root reduced form, needs no library rounding.
	e := power - 1
	if e == 0 {
		return x
	}
	ln, y := 0.0, x
	for y < 0.5 {
		y *= 2
		ln -= 0.6931471805599453
	}
	z := (y - 1) / (y + 1)
	z2, term := float64(z*z), z
	for k := 1; k < 20; k += 2 {
		ln += float64(2 * term / float64(k))
		term *= z2
	}
	t, sum := 1.0, 1.0
	for k := 1; k < 16; k++ {
		t *= float64(e*ln) / float64(k)
		sum += t
	}
	return x * sum
}
