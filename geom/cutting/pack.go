package cutting

import (
	"cmp"
	"slices"
)

// The limits of a search for a better order.
const (
	orderItems  = 120 // beyond it, an order is too long for few exchanges to matter
	orderSteps  = 10_000_000
	orderTries  = 20_000 // orders without a new least cost, before it gives up
	orderMemory = 40     // how many orders back one may be as bad as
)

// A packer packs items in an order: one after the other, each into the free rectangle it fits best.
type packer struct {
	items []item
	rooms []space // the free rectangles to begin with
	list  []int   // items in their order
	rule  []uint8 // with each place of the order

	// On cloth with a pattern, items stand where it lets them: at heights of their phase, modulo repeat.
	repeat int64   // 0 on anything plain
	phase  []int64 // of each item, from the strip's lower edge

	free   []space
	top    int64 // where the highest item ends
	low    space // least sides of an item
	random uint64
	steps  int64
}

// A space is a free rectangle that begins at y.
type space struct{ y, w, h int64 }

// How an item is fitted and cut.
const (
	cutOtherWay uint8 = 1 << iota // first along the shorter rest
	fitByArea
	likeTurned
	allRules
)

func newPacker(items []item, need []int) *packer {
	p := &packer{items: items, random: 0x9E3779B97F4A7C15, low: space{w: 1 << 62, h: 1 << 62}}
	for i, n := range need {
		for _, s := range items[i].sides() {
			if n > 0 {
				p.low.w, p.low.h = min(p.low.w, s[0]), min(p.low.h, s[1])
			}
		}
		p.list = append(p.list, slices.Repeat([]int{i}, n)...)
	}
	p.rule = make([]uint8, len(p.list))
	return p
}

// orders calls try with the items in several sorted orders, by several rules; with very many items, only a few.
func (p *packer) orders(try func()) {
	keys := []func(item) float64{
		item.area,
		func(it item) float64 { return float64(it.h) },
		func(it item) float64 { return float64(it.w) },
		func(it item) float64 { return float64(max(it.w, it.h)) },
	}
	rules := allRules
	if len(p.list) > 500 {
		keys, rules = keys[:2], 1
	}
	for _, key := range keys {
		slices.SortStableFunc(p.list, func(a, b int) int { return cmp.Compare(key(p.items[b]), key(p.items[a])) })
		for rule := range rules {
			for i := range p.rule {
				p.rule[i] = rule
			}
			try()
		}
	}
}

// improve changes the order at random and keeps it when it leaves no more out than the one some while ago (late
// acceptance: Burke & Bykov, Eur. J. Oper. Res. 258, 2017), until nothing is left out.
func (p *packer) improve() bool {
	n := len(p.list)
	cost, _ := p.pack(nil)
	least, since := cost, 0
	past := slices.Repeat([]float64{cost}, orderMemory)
	for try := 0; cost > 0 && since < orderTries && p.steps < orderSteps; try++ {
		a, b, bit := p.below(n), p.below(n), p.below(12)
		change := func() {
			if bit < 3 {
				p.rule[a] ^= 1 << bit
				return
			}
			p.list[a], p.list[b] = p.list[b], p.list[a]
			p.rule[a], p.rule[b] = p.rule[b], p.rule[a]
		}
		change()
		at := try % orderMemory
		if c, _ := p.pack(nil); c <= cost || c <= past[at] {
			cost = c
		} else {
			change()
		}
		past[at] = cost
		if since++; cost < least {
			least, since = cost, 0
		}
	}
	return cost == 0
}

// below is a number from 0 up to n − 1, by xorshift* (Vigna 2016): the same on every run.
func (p *packer) below(n int) int {
	p.random ^= p.random >> 12
	p.random ^= p.random << 25
	p.random ^= p.random >> 27
	return int((p.random * 2685821657736338717 >> 33) % uint64(n))
}

// A placing is where an item goes: into which free rectangle, how far up in it, lying how and cut how. The rectangle's
// number is then the last one's, and what remains of it is added.
type placing struct {
	item, at       int
	up             int64
	turned, across bool
}

// pack places the items and returns the area of those that find no room, and the first of them.
func (p *packer) pack(place func(placing)) (left float64, first int) {
	p.free, p.top = append(p.free[:0], p.rooms...), 0
	for n, i := range p.list {
		c := p.fit(i, p.rule[n])
		if c.at < 0 {
			if left == 0 {
				first = i
			}
			left += p.items[i].area()
			continue
		}
		r, s := p.free[c.at], p.items[i].lying(c.turned)
		c.across = (r.h-c.up-s[1] > r.w-s[0]) != (p.rule[n]&cutOtherWay != 0)
		if place != nil {
			place(c)
		}
		p.free[c.at] = p.free[len(p.free)-1]
		p.free = p.free[:len(p.free)-1]
		p.add(space{r.y, r.w, c.up})
		r.y, r.h = r.y+c.up, r.h-c.up
		p.top = max(p.top, r.y+s[1])
		if c.across { // as [node.put] returns what remains
			p.add(space{r.y + s[1], r.w, r.h - s[1]})
			p.add(space{r.y, r.w - s[0], s[1]})
		} else {
			p.add(space{r.y, r.w - s[0], r.h})
			p.add(space{r.y + s[1], s[0], r.h - s[1]})
		}
	}
	return left, first
}

func (p *packer) holds(w, h int64) bool { return w >= p.low.w && h >= p.low.h }

// add notes a free rectangle, if it can hold an item.
func (p *packer) add(r space) {
	if p.holds(r.w, r.h) {
		p.free = append(p.free, r)
	}
}

// fit finds the free rectangle that an item leaves least of; −1 where none is large enough.
func (p *packer) fit(i int, rule uint8) placing {
	best := placing{item: i, at: -1}
	least := 0.0
	p.steps += int64(len(p.free))
	for k, r := range p.free {
		up := int64(0)
		if p.repeat > 0 {
			up = modulo(p.phase[i]-r.y, p.repeat)
		}
		for _, turned := range [2]bool{rule&likeTurned != 0, rule&likeTurned == 0} {
			if turned && !p.items[i].turn {
				continue
			}
			s := p.items[i].lying(turned)
			if r.w < s[0] || r.h < up+s[1] {
				continue
			}
			d := float64(min(r.w-s[0], r.h-up-s[1]) + up)
			if rule&fitByArea != 0 {
				d = float64(r.w) * float64(r.h)
			}
			if best.at < 0 || d < least {
				best.at, best.up, best.turned, least = k, up, turned, d
			}
		}
	}
	return best
}

// trees are the cutting trees of the rooms.
func (p *packer) trees() []*node {
	var roots []*node
	for _, r := range p.rooms {
		roots = append(roots, &node{w: r.w, h: r.h})
	}
	open := slices.Clone(roots)
	p.pack(func(c placing) {
		n := open[c.at]
		open[c.at] = open[len(open)-1]
		open = open[:len(open)-1]
		var rest []*node
		if c.up > 0 {
			low, high := n.cutAt(true, c.up)
			rest, n = append(rest, low), high
		}
		s := p.items[c.item].lying(c.turned)
		for _, r := range append(rest, n.put(c.item, c.turned, s[0], s[1], c.across)...) {
			if p.holds(r.w, r.h) {
				open = append(open, r)
			}
		}
	})
	return roots
}

func modulo(a, m int64) int64 { return (a%m + m) % m }
