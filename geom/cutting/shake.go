package cutting

// The limits of shaking.
const (
	shakeItems  = 120 // beyond it, an order is too long for few exchanges to matter
	shakeSteps  = 25_000_000
	shakeTries  = 4_000 // orders without a new least, before it gives up
	shakeMemory = 40    // how many orders back one may be as bad as
)

// A shaker packs a rectangle by an order of its items: one after the other, each into the free rectangle it fits best. It
// changes the order and keeps what is no worse than some while ago (late acceptance: Burke & Bykov, Eur. J. Oper. Res.
// 258, 2017).
type shaker struct {
	items  []item
	w, h   int64
	list   []int   // items in their order
	rule   []uint8 // with each place of the order: fitBy…
	free   []space
	random uint64
	steps  int64
}

// How an item is fitted and cut.
const (
	cutOtherWay uint8 = 1 << iota // first along the shorter rest
	fitByArea
	likeTurned
)

// A space is a free rectangle.
type space struct{ w, h int64 }

func newShaker(f *frame) *shaker {
	s := &shaker{items: f.items, w: f.w, random: 0x9E3779B97F4A7C15}
	for i, it := range f.items {
		for range it.n {
			s.list = append(s.list, i)
		}
	}
	s.rule = make([]uint8, len(s.list))
	return s
}

// shake looks for an order whose items all find room in a height; nil where it finds none.
func (s *shaker) shake(height int64) *node {
	s.h = height
	n, cost := len(s.list), s.cost()
	least, since := cost, 0
	var past [shakeMemory]float64
	for i := range past {
		past[i] = cost
	}
	for try := 0; cost > 0 && since < shakeTries && s.steps < shakeSteps; try++ {
		a, b, kind := s.below(n), s.below(n), s.below(8)
		was := s.rule[a]
		change := func(a, b int) {
			switch {
			case kind < 5:
				s.swap(a, b)
			case kind < 6:
				s.move(a, b)
			}
		}
		if kind >= 6 {
			s.rule[a] ^= 1 << s.below(3)
		}
		change(a, b)
		c := s.cost()
		at := try % shakeMemory
		if c <= cost || c <= past[at] {
			cost = c
		} else {
			change(b, a)
			if kind >= 6 {
				s.rule[a] = was
			}
		}
		past[at] = cost
		if since++; cost < least {
			least, since = cost, 0
		}
	}
	if cost > 0 {
		return nil
	}
	return s.tree()
}

// below is a number from 0 up to n − 1, by xorshift* (Vigna 2016): the same on every run.
func (s *shaker) below(n int) int {
	s.random ^= s.random >> 12
	s.random ^= s.random << 25
	s.random ^= s.random >> 27
	return int((s.random * 2685821657736338717 >> 33) % uint64(n))
}

func (s *shaker) swap(a, b int) {
	s.list[a], s.list[b] = s.list[b], s.list[a]
	s.rule[a], s.rule[b] = s.rule[b], s.rule[a]
}

// move takes what is at a out and puts it in at b.
func (s *shaker) move(a, b int) {
	item, rule := s.list[a], s.rule[a]
	if a < b {
		copy(s.list[a:b], s.list[a+1:b+1])
		copy(s.rule[a:b], s.rule[a+1:b+1])
	} else {
		copy(s.list[b+1:a+1], s.list[b:a])
		copy(s.rule[b+1:a+1], s.rule[b:a])
	}
	s.list[b], s.rule[b] = item, rule
}

// cost is the area of what finds no room.
func (s *shaker) cost() float64 {
	left := 0.0
	s.pack(func(item int) { left += s.items[item].area() }, nil)
	return left
}

// pack places the items in their order. missing hears which find no room; place, where it is given, which free rectangle
// each of the others goes into, and how: that rectangle's number is then the last one's, and what remains of it is added.
func (s *shaker) pack(missing func(item int), place func(item, at int, turned, across bool)) {
	s.free = append(s.free[:0], space{s.w, s.h})
	for n, i := range s.list {
		it, rule := s.items[i], s.rule[n]
		at, turned := s.fit(it, rule)
		if at < 0 {
			missing(i)
			continue
		}
		w, h := it.w, it.h
		if turned {
			w, h = h, w
		}
		r := s.free[at]
		across := (r.h-h > r.w-w) != (rule&cutOtherWay != 0)
		if place != nil {
			place(i, at, turned, across)
		}
		s.free[at] = s.free[len(s.free)-1]
		s.free = s.free[:len(s.free)-1]
		// As [node.put] returns what remains.
		first, second := space{r.w, r.h - h}, space{r.w - w, h}
		if !across {
			first, second = space{r.w - w, r.h}, space{w, r.h - h}
		}
		for _, x := range []space{first, second} {
			if x.w > 0 && x.h > 0 {
				s.free = append(s.free, x)
			}
		}
	}
}

// fit is the free rectangle that an item leaves least of; −1 where none is large enough.
func (s *shaker) fit(it item, rule uint8) (at int, turned bool) {
	at = -1
	least := 0.0
	s.steps += int64(len(s.free))
	for k, r := range s.free {
		for _, t := range []bool{rule&likeTurned != 0, rule&likeTurned == 0} {
			w, h := it.w, it.h
			if t {
				w, h = h, w
			}
			if t && !it.turn || r.w < w || r.h < h {
				continue
			}
			d := float64(min(r.w-w, r.h-h))
			if rule&fitByArea != 0 {
				d = float64(r.w) * float64(r.h)
			}
			if at < 0 || d < least {
				at, turned, least = k, t, d
			}
		}
	}
	return at, turned
}

// tree is the cutting tree of the order.
func (s *shaker) tree() *node {
	root := &node{w: s.w, h: s.h}
	open := []*node{root}
	s.pack(func(int) {}, func(item, at int, turned, across bool) {
		w, h := s.items[item].w, s.items[item].h
		if turned {
			w, h = h, w
		}
		n := open[at]
		open[at] = open[len(open)-1]
		open = append(open[:len(open)-1], n.put(item, turned, w, h, across)...)
	})
	return root
}
