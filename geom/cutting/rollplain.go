package cutting

import "slices"

// A rollSearch looks for the shortest strip without a pattern.
type rollSearch struct {
	f      *frame
	need   []int
	gen    *generator
	limit  int64 // steps
	best   *node
	length int64
	bound  int64
	by     BoundKind
}

// The limits of a roll plan.
const (
	rollSteps   = 40_000_000
	rollRounds  = 80
	rollTargets = 100
	rollSums    = 20_000
)

func newRollSearch(f *frame, limit int64) *rollSearch {
	s := &rollSearch{f: f, need: f.counts(), gen: newGenerator(f.items), limit: limit}
	if len(s.need) > maxFocus && f.total() > 2*manyItems {
		s.gen.focus, s.gen.points = maxFocus/2, maxPoints/2
	}
	s.bound, s.by = widthBound(f.items, f.w, nil)
	for _, it := range f.items {
		h := it.h
		if it.turn && it.h <= f.w {
			h = min(it.w, it.h)
			if it.w > f.w {
				h = it.w
			}
		}
		s.bound = max(s.bound, h)
	}
	return s
}

func (s *rollSearch) done() bool { return s.best != nil && s.length <= s.bound }

// run packs the strip level by level with corrected values, then aims at lengths between the bound and the best.
func (s *rollSearch) run() {
	s.simple()
	s.attainable()
	worth := make([]float64, len(s.need))
	for round := range rollRounds {
		if s.done() || s.gen.work > s.limit {
			break
		}
		if round%8 == 0 {
			for i, it := range s.f.items {
				worth[i] = powOf(it.area()/(float64(s.f.w)*float64(s.f.w)+it.area()), 1+0.03*float64(round/8))
			}
		}
		s.levels(worth)
	}
	s.aim()
	s.shake()
}

// shake shortens the strip by orders of its parts, a twelfth of what the bound leaves open at a time.
func (s *rollSearch) shake() {
	if s.f.total() > shakeItems {
		return
	}
	order := newShaker(s.f)
	for !s.done() {
		target := s.length - max(1, (s.length-s.bound)/12)
		n := order.shake(target)
		if n == nil {
			return
		}
		s.best, s.length = n, target
	}
}

// attainable raises the bound to a sum of sides: packed tight, any guillotine plan's length is one.
func (s *rollSearch) attainable() {
	var sides []int64
	for _, it := range s.f.items {
		sides = append(sides, it.h)
		if it.turn {
			sides = append(sides, it.w)
		}
	}
	points, complete := sums(sides, s.length, rollSums)
	if !complete {
		return
	}
	if i, found := slices.BinarySearch(points, s.bound); !found && i < len(points) {
		s.bound = points[i]
	}
}

func (s *rollSearch) offer(levels []*node) {
	length := int64(0)
	for _, l := range levels {
		length += l.h
	}
	if s.best != nil && length >= s.length {
		return
	}
	s.length = length
	s.best = stackUp(levels, s.f.w, length)
}

// stackUp joins levels to one strip.
func stackUp(levels []*node, w, h int64) *node {
	root := &node{w: w, h: h}
	cur := root
	for i, l := range levels {
		if i == len(levels)-1 {
			*cur = *l
			break
		}
		low, rest := cur.cutAt(true, l.h)
		*low = *l
		cur = rest
	}
	return root
}

// simple is first fit by decreasing height, once as the items lie and once turned where that is allowed.
func (s *rollSearch) simple() {
	for _, flat := range []bool{false, true} {
		type lying struct {
			item   int
			w, h   int64
			turned bool
		}
		var list []lying
		for i, it := range s.f.items {
			l := lying{i, it.w, it.h, false}
			if it.turn && (it.w > s.f.w || !flat && it.h <= s.f.w) {
				l = lying{i, it.h, it.w, true}
			}
			list = append(list, l)
		}
		slices.SortStableFunc(list, func(a, b lying) int { return sign(float64(b.h - a.h)) })
		var levels, rest []*node
		for _, l := range list {
			first := 0
			for range s.need[l.item] {
				for first < len(rest) && rest[first].w < l.w {
					first++
				}
				if first == len(rest) {
					n := &node{w: s.f.w, h: l.h}
					levels, rest = append(levels, n), append(rest, n)
				}
				cell, r := cutOff(rest[first], false, l.w)
				rest[first] = r
				cell, _ = cutOff(cell, true, l.h)
				cell.kind, cell.item, cell.turned = leaf, l.item, l.turned
			}
		}
		s.offer(levels)
	}
}

// levels fills the strip level after level, each the one of highest value for its height, and corrects the values
// of what lies in poor levels.
func (s *rollSearch) levels(worth []float64) {
	rem := slices.Clone(s.need)
	var levels []*node
	for slices.Max(rem) > 0 {
		if s.gen.work > s.limit {
			return // there is a plan already
		}
		before := slices.Clone(rem)
		n := s.gen.sampled(scaled(worth), rem, func(g *generator, val []int64, rem []int) *node {
			return g.level(val, rem, s.f.w)
		})
		got := taken(before, rem)
		used := 0.0
		for i, k := range got {
			used += float64(s.f.items[i].area() * float64(k))
		}
		fill := used / (float64(n.w) * float64(n.h))
		levels = append(levels, n)
		for repeats(got, rem) {
			for i, k := range got {
				rem[i] -= k
			}
			levels = append(levels, n.clone())
		}
		for i, k := range got {
			if k > 0 {
				worth[i] *= 1 + 0.3*(1-fill)*float64(k)/float64(k+rem[i])
			}
		}
	}
	s.offer(levels)
}

// level makes one level of a strip of width w: of all heights, the one with the highest value for its height.
func (g *generator) level(val []int64, rem []int, w int64) *node {
	high := int64(0)
	for i, it := range g.items {
		if rem[i] == 0 {
			continue
		}
		h := it.h
		if it.w > w || it.turn && it.h <= w {
			h = max(h, it.w)
		}
		high = max(high, h)
	}
	vs, focus := g.variants(val, rem, w, high, true)
	t := g.tabulate(vs, focus, val, rem, high, w)
	best := 0
	for i, c := range t.cols {
		if float64(c.value)*float64(t.cols[best].w) > float64(t.cols[best].value)*float64(c.w) {
			best = i
		}
	}
	n := &node{w: w, h: t.cols[best].w}
	laySection(n, t.cols[best], t.rows, vs, rem, true)
	g.holes(val, rem, n, 1)
	return n
}

// aim tries to fit everything into given lengths, shortest first.
func (s *rollSearch) aim() {
	var sides []int64
	for _, it := range s.f.items {
		sides = append(sides, it.h)
		if it.turn {
			sides = append(sides, it.w)
		}
	}
	if s.done() {
		return
	}
	points, _ := sums(sides, s.length-1, 2000)
	i, _ := slices.BinarySearch(points, s.bound)
	targets := append([]int64{s.bound}, thin(points[i:], rollTargets)...)
	val := make([]int64, len(s.need))
	for i, it := range s.f.items {
		val[i] = max(1, int64(1e6*it.area()/(float64(s.f.w)*float64(s.length))))
	}
	for _, target := range targets {
		if target >= s.length || s.gen.work > s.limit {
			return
		}
		rem := slices.Clone(s.need)
		n, _ := s.gen.fill(val, rem, s.f.w, target, 0)
		if slices.Max(rem) == 0 {
			s.best, s.length = n, target
			return
		}
	}
}
