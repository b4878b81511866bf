package cutting

import (
	"cmp"
	"slices"
)

// The limits of an exhaustive search.
const (
	maxItems  = 120     // beyond which it is not tried
	maxCovers = 200_000 // sets of items left that are looked into
)

// A block is a rectangle made of items: one alone, or two blocks side by side or one above the other.
type block struct {
	w, h, area int64 // area of the items
	counts     []uint8
	item       int
	turned     bool
	across     bool
	a, b       *block
}

// An exhaustion asks whether all items fit k equal sheets. No sheet of such a plan may lose more area than all sheets
// together have to spare. It lists the sets of items that lose no more, by putting blocks together (Wang 1983), and
// covers the items with k of the sets.
type exhaustion struct {
	items  []item
	need   []int
	w, h   int64
	lost   int64 // area that may be lost in one sheet
	blocks []*block
	seen   map[string][]*block

	sets   []*block // that may be whole sheets, none within another
	order  []int    // of items, those in fewest sets first
	failed map[string]bool
	chosen []*block
}

// exhaust looks for k sheets w × h that hold all items. settled is false when a limit came first; no sheets and settled
// is a proof that k are too few. It looks at about the square of most blocks.
func exhaust(items []item, need []int, w, h int64, k, most int) (sheets []*node, settled bool) {
	if total(need) > maxItems || w > 1<<40/h { // sums of areas stay far from the limits of int64
		return nil, false
	}
	e := &exhaustion{items: items, need: need, w: w, h: h, lost: int64(k) * w * h}
	e.seen, e.failed = map[string][]*block{}, map[string]bool{}
	left := make([]uint8, len(need))
	for i, n := range need {
		e.lost -= items[i].w * items[i].h * int64(n)
		left[i] = uint8(n)
	}
	if e.lost < 0 {
		return nil, true
	}
	if !e.combine(most) {
		return nil, false
	}
	e.choose()
	if !e.cover(left, k) {
		return nil, len(e.failed) <= maxCovers
	}
	counts := slices.Clone(need)
	for _, c := range e.chosen {
		root := &node{w: w, h: h}
		c.grow(root)
		sheets = append(sheets, root.keep(counts))
	}
	return sheets, true
}

// combine lists the blocks; false when there are too many.
func (e *exhaustion) combine(most int) bool {
	for i, it := range e.items {
		for turned, s := range it.sides() {
			if e.need[i] > 0 && s[0] <= e.w && s[1] <= e.h {
				b := &block{w: s[0], h: s[1], area: s[0] * s[1], item: i, turned: turned == 1, counts: make([]uint8, len(e.items))}
				b.counts[i] = 1
				e.keep(b)
			}
		}
	}
	for k := 0; k < len(e.blocks) && len(e.blocks) <= most; k++ {
		c := e.blocks[k]
		for _, d := range e.blocks[:k+1] {
			for _, across := range [2]bool{false, true} {
				w, h, area := c.w+d.w, max(c.h, d.h), c.area+d.area
				if across {
					w, h = max(c.w, d.w), c.h+d.h
				}
				if w <= e.w && h <= e.h && w*h-area <= e.lost && e.wanted(c, d) {
					b := &block{w: w, h: h, area: area, across: across, a: c, b: d, counts: slices.Clone(c.counts)}
					for i, n := range d.counts {
						b.counts[i] += n
					}
					e.keep(b)
				}
			}
		}
	}
	return len(e.blocks) <= most
}

// wanted reports whether two blocks together hold no more of any item than there is.
func (e *exhaustion) wanted(c, d *block) bool {
	for i, n := range c.counts {
		if int(n)+int(d.counts[i]) > e.need[i] {
			return false
		}
	}
	return true
}

// keep adds a block, unless its items are known in a rectangle no larger.
func (e *exhaustion) keep(b *block) {
	key := string(b.counts)
	for _, k := range e.seen[key] {
		if k.w <= b.w && k.h <= b.h {
			return
		}
	}
	e.seen[key] = append(e.seen[key], b)
	e.blocks = append(e.blocks, b)
}

// choose picks the blocks that can be all of a sheet, and leaves out those whose items are among another's.
func (e *exhaustion) choose() {
	slices.SortStableFunc(e.blocks, func(a, b *block) int { return cmp.Compare(b.area, a.area) })
	in := make([]int, len(e.items))
	for _, b := range e.blocks {
		within := func(a *block) bool {
			for i, n := range b.counts {
				if n > a.counts[i] {
					return false
				}
			}
			return true
		}
		if e.w*e.h-b.area > e.lost || slices.ContainsFunc(e.sets, within) {
			continue
		}
		e.sets = append(e.sets, b)
		for i, n := range b.counts {
			in[i] += int(min(n, 1))
		}
	}
	for i := range in {
		e.order = append(e.order, i)
	}
	slices.SortStableFunc(e.order, func(a, b int) int { return cmp.Compare(in[a], in[b]) })
}

// cover looks for k sets that hold what is left.
func (e *exhaustion) cover(left []uint8, k int) bool {
	area := int64(0)
	for i, n := range left {
		area += int64(n) * e.items[i].w * e.items[i].h
	}
	if area == 0 {
		return true
	}
	key := string(append(slices.Clone(left), uint8(k)))
	if area > int64(k)*e.w*e.h || len(e.failed) > maxCovers || e.failed[key] {
		return false
	}
	first := e.order[slices.IndexFunc(e.order, func(i int) bool { return left[i] > 0 })]
	for _, b := range e.sets {
		if b.counts[first] == 0 {
			continue
		}
		rest := slices.Clone(left)
		for i, n := range b.counts {
			rest[i] -= min(n, rest[i])
		}
		e.chosen = append(e.chosen, b)
		if e.cover(rest, k-1) {
			return true
		}
		e.chosen = e.chosen[:len(e.chosen)-1]
	}
	e.failed[key] = true
	return false
}

// grow cuts a free node into what the block says.
func (b *block) grow(n *node) {
	if b.a == nil {
		n.kind, n.item, n.turned = leaf, b.item, b.turned
		return
	}
	at := b.a.w
	if b.across {
		at = b.a.h
	}
	low, high := n.cutAt(b.across, at)
	b.a.grow(low)
	b.b.grow(high)
}
