package cutting

import (
	"cmp"
	"math"
	"slices"
)

// A rest is what remains to be planned beside a plan.
type rest struct {
	plan       []*pattern
	need, left []int
}

// take adds a pattern to the plan as often as its items are all wanted, most times at most, and once at least.
func (r *rest) take(p *pattern, most int) {
	p = clip(p, r.need)
	for n := 0; n < most && r.left[p.bin] > 0 && total(p.counts) > 0; n++ {
		if n > 0 && !slices.Equal(clip(p, r.need).counts, p.counts) {
			return
		}
		r.plan = append(r.plan, p)
		r.left[p.bin]--
		for i, k := range p.counts {
			r.need[i] -= k
		}
	}
}

func restOf(plan []*pattern, need, left []int) *rest {
	return &rest{slices.Clone(plan), slices.Clone(need), slices.Clone(left)}
}

// dive rounds the linear programme: patterns taken whole times are kept, then the one most nearly taken, and so on with
// what is left. The number tells it where to deviate from the nearest.
func (s *solver) dive(number int) {
	r := restOf(nil, s.need, s.left)
	for total(r.need) > 0 {
		m := s.relax(r.need, r.left)
		if float64(costOf(r.plan))+float64(m.value()*s.unit) > float64(s.cost-1)+1e-6 {
			return
		}
		var taken []int
		for k, c := range m.basis {
			if c.pattern != nil && m.x[k] > 1e-6 {
				taken = append(taken, k)
			}
		}
		slices.SortStableFunc(taken, func(a, b int) int { return cmp.Compare(m.x[b], m.x[a]) })
		before := len(r.plan)
		for _, k := range taken {
			r.take(m.basis[k].pattern, int(m.x[k]+1e-6))
		}
		if len(r.plan) == before {
			r.take(m.basis[taken[min(number%3, len(taken)-1)]].pattern, 1)
			number /= 3
		}
		s.finish(r)
		if s.done() {
			return
		}
	}
	s.offer(r.plan)
}

// finish completes a plan by other means.
func (s *solver) finish(r *rest) {
	s.quick(r.plan, r.need, r.left)
	s.correct(r.plan, r.need, r.left, 3)
	k := s.cost - 1 - costOf(r.plan)
	if len(s.f.bins) > 1 || s.f.bins[0].roll || s.f.bins[0].cost != 1 || k > 2 || k <= 0 {
		return
	}
	if roots, _ := exhaust(s.f.items, r.need, s.f.bins[0].w, s.f.bins[0].h, k, 2*fewBlocks); roots != nil {
		s.offer(append(slices.Clone(r.plan), s.patterns(roots)...))
	}
}

// patterns are those of trees of the first bin.
func (s *solver) patterns(roots []*node) []*pattern {
	var out []*pattern
	for _, n := range roots {
		p := &pattern{cost: s.f.bins[0].cost, counts: make([]int, len(s.need)), tree: n}
		n.tally(p.counts)
		out = append(out, p)
	}
	return out
}

// exhaustBound raises the bound, or finds a plan that meets it, by exhaustive search.
func (s *solver) exhaustBound(blocks int) {
	b := s.f.bins[0]
	for !s.done() && len(s.f.bins) == 1 && b.cost > 0 {
		roots, settled := exhaust(s.f.items, s.need, b.w, b.h, s.bound/b.cost, blocks)
		if !settled {
			return
		}
		if roots != nil {
			s.offer(s.patterns(roots))
		} else {
			s.raise(s.bound+b.cost, BySearch)
		}
	}
}

// quick completes a plan by packing items in sorted orders: into limited bins that cost nothing, and as many others as
// it takes.
func (s *solver) quick(plan []*pattern, need, left []int) {
	p := newPacker(s.f.items, need)
	if s.f.bins[0].roll || len(p.list) == 0 {
		return
	}
	p.orders(func() {
		var bins []int
		add := func(b, n int) {
			for range n {
				bins, p.rooms = append(bins, b), append(p.rooms, space{w: s.f.bins[b].w, h: s.f.bins[b].h})
			}
		}
		p.rooms = p.rooms[:0]
		for b, bin := range s.f.bins {
			if bin.n > 0 && bin.cost == 0 {
				add(b, left[b])
			}
		}
		for {
			area, first := p.pack(nil)
			if area == 0 {
				break
			}
			b := s.f.cheapest(s.f.items[first])
			add(b, int(math.Ceil(area/s.f.bins[b].area()-1e-9)))
		}
		done := slices.Clone(plan)
		for k, n := range p.trees() {
			c := &pattern{bin: bins[k], cost: s.f.bins[bins[k]].cost, counts: make([]int, len(need)), tree: n}
			if n.tally(c.counts); n.kind != free {
				done = append(done, c)
			}
		}
		s.offer(done)
	})
}

// correct completes a plan sheet by sheet, each with the items worth most of what is left, several rounds; items that
// end up in poor sheets, or in none, are worth more in the next round (sequential value correction: Belov & Scheithauer
// 2008).
func (s *solver) correct(plan []*pattern, need, left []int, rounds int) {
	bin := s.f.bins[0]
	base, worth := make([]float64, len(need)), make([]float64, len(need))
	for i, it := range s.f.items {
		base[i] = it.area() / bin.area()
		worth[i] = base[i] + float64(0.1*base[i]*base[i])
	}
	g, many := grid{}, len(need) > maxKinds
	if !many {
		g = gridWithin(bin, s.f.items, need, pricingSteps)
	}
	for ; rounds > 0 && !s.done(); rounds-- {
		r := restOf(plan, need, left)
		for {
			area := 0.0
			for i, n := range r.need {
				area += float64(base[i] * float64(n))
			}
			if area == 0 {
				s.offer(r.plan)
				break
			}
			if float64(costOf(r.plan))+float64(area*float64(bin.cost)) > float64(s.cost-1)+1e-9 {
				for i, n := range r.need {
					if n > 0 {
						worth[i] *= 1.05
					}
				}
				break
			}
			val := make([]int64, len(need))
			for i, w := range worth {
				val[i] = max(1, int64(w*priceScale))
			}
			want := r.need
			if many {
				want = sample(val, r.need)
				g = gridWithin(bin, s.f.items, want, pricingSteps/8)
			}
			s.work += g.steps()
			p := s.patternOf(0, fill(s.f.items, val, want, g), 0)
			s.pool = append(s.pool, p)
			used := 0.0
			for i, n := range p.counts {
				used += float64(base[i] * float64(n))
			}
			r.take(p, math.MaxInt)
			for i, n := range p.counts {
				if n > 0 {
					worth[i] += float64(float64(n) / float64(n+r.need[i]+1) * (base[i]/used - worth[i]))
				}
			}
		}
	}
}

// sample wants only some kinds of very many: the dearest, and others spread evenly.
func sample(val []int64, need []int) []int {
	var wanted []int
	for i, n := range need {
		if n > 0 {
			wanted = append(wanted, i)
		}
	}
	slices.SortStableFunc(wanted, func(a, b int) int { return cmp.Compare(val[b], val[a]) })
	some, first := make([]int, len(need)), min(maxKinds/5, len(wanted))
	step := max(1, (len(wanted)-first)/(maxKinds/3))
	for k, i := range wanted {
		if k < first || (k-first)%step == 0 {
			some[i] = need[i]
		}
	}
	return some
}
