package cutting

import (
	"math"
	"slices"
)

// A strip is a roll as the search sees it.
type strip struct {
	f      *frame
	w      int64
	repeat int64   // 0 without a pattern
	phase  []int64 // of each item, in [0, repeat)
	pack   *packer
	best   *node
	length int64 // of best
	origin int64 // where the pattern of height 0 stands in it
	bound  int64
	by     BoundKind
}

func newStrip(f *frame, r Roll) *strip {
	if r.Repeat > 0 { // heights must mix with phases and the repeat
		for i := range f.items {
			f.items[i].h *= f.uy
		}
		f.uy = 1
	}
	s := &strip{f: f, w: f.bins[0].w, repeat: int64(r.Repeat), pack: newPacker(f.items, f.counts()), length: math.MaxInt64}
	for i := range f.items {
		if s.repeat > 0 {
			s.phase = append(s.phase, modulo(int64(r.Parts[f.owners[i][0].part].Phase), s.repeat))
		}
	}
	s.pack.repeat, s.pack.phase = s.repeat, s.phase
	s.bound, s.by = s.stripBound()
	return s
}

func (s *strip) done() bool { return s.length <= s.bound }

// run looks for the shortest strip: sorted orders, on plain cloth blocks by the linear programme, then better orders.
func (s *strip) run() {
	s.sorted()
	if s.repeat == 0 {
		s.blocks()
	}
	s.settle()
	for share := int64(6); len(s.pack.list) <= orderItems && !s.done(); {
		step := (s.length - s.bound) / share
		s.pack.rooms = []space{{w: s.w, h: s.length - max(1, step)}}
		if s.pack.improve() {
			s.keep()
			s.settle()
		} else if share *= 3; step <= 1 || s.pack.steps > orderSteps {
			return
		}
	}
}

// keep takes the strip as it is packed for the best one, no longer than its items.
func (s *strip) keep() {
	s.best, s.length = s.pack.trees()[0], s.pack.top
	s.best.lower(s.length)
}

// sorted packs by sorted orders, each into the shortest strip found by halving, the pattern beginning at the phases of
// up to eight items.
func (s *strip) sorted() {
	p := s.pack
	begins := thin(sorted(slices.Clone(s.phase)), 8)
	if s.repeat == 0 {
		begins = []int64{0}
	}
	s.length = 1
	for _, i := range p.list {
		s.length += max(s.f.items[i].w, s.f.items[i].h) + s.repeat
	}
	var list []int
	var rule []uint8
	var phase []int64
	for _, begin := range begins {
		p.phase = slices.Clone(s.phase)
		for i := range p.phase {
			p.phase[i] -= begin
		}
		p.orders(func() {
			for low, high := s.bound, s.length; low < high-high/500; {
				p.rooms = []space{{w: s.w, h: (low + high) / 2}}
				if left, _ := p.pack(nil); left > 0 {
					low = p.rooms[0].h + 1
					continue
				}
				s.keep()
				high, s.origin = s.length, modulo(-begin, max(1, s.repeat))
				list, rule, phase = slices.Clone(p.list), slices.Clone(p.rule), p.phase
			}
		})
	}
	p.list, p.rule, p.phase = list, rule, phase
}

// blocks composes the strip of blocks over all its width: the linear programme of sheets, with patterns that cost their
// height. A block is as high as three items at most.
func (s *strip) blocks() {
	tallest := int64(0)
	for _, it := range s.f.items {
		tallest = max(tallest, it.w, it.h)
	}
	f := &frame{bins: []bin{{w: s.w, h: 3 * tallest, cost: 1, roll: true}}, items: s.f.items}
	if s.done() || len(f.items) > maxKinds {
		return
	}
	so := newSolver(f, tallest)
	so.cost, so.bound = int(s.length), int(s.bound)
	so.correct(nil, so.need, so.left, 3)
	for d := 0; d < maxDives/2 && !so.done(); d++ {
		so.dive(d)
	}
	if so.best == nil {
		return
	}
	s.length = int64(so.cost)
	s.best = &node{w: s.w, h: s.length}
	rest := s.best
	for i, p := range so.best {
		low := rest
		if i < len(so.best)-1 {
			low, rest = rest.cutAt(true, int64(p.cost))
		}
		*low = *p.tree.keep(slices.Clone(p.counts))
	}
}

// settle raises the bound to a length that sides add up to, since any guillotine plan packed tight has such a length,
// and, where the items are few, tries the lengths below the best by exhaustive search.
func (s *strip) settle() {
	var sides []int64
	for _, it := range s.f.items {
		for _, side := range it.sides() {
			if side[0] <= s.w {
				sides = append(sides, side[1])
			}
		}
	}
	points, complete := sums(sides, s.length, completeSums)
	if !complete || s.repeat > 0 {
		return
	}
	slices.Sort(points)
	blocks := fewBlocks
	if len(s.pack.list) <= 20 {
		blocks *= 4
	}
	for limit := len(points); !s.done(); {
		low, _ := slices.BinarySearch(points, s.bound)
		s.bound = points[low]
		high, _ := slices.BinarySearch(points, s.length)
		mid := min((low+high)/2, limit-1)
		if s.done() || mid < low {
			return
		}
		roots, settled := exhaust(s.f.items, s.f.counts(), s.w, points[mid], 1, blocks)
		switch {
		case !settled:
			limit = mid // longer strips are harder to search
		case roots == nil:
			s.bound, s.by = points[mid]+1, BySearch
		default:
			s.best, s.length = roots[0], points[mid]
		}
	}
}
