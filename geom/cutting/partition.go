package cutting

import (
	"math/bits"
	"slices"
)

// The limits of the proof for few parts on few sheets.
const (
	partItems  = 40
	partBuilds = 4_000
	partTries  = 4_000_000
	partSteps  = 200_000
)

// partition asks whether the parts fit k sheets, by listing every set of parts one sheet can hold and covering the
// parts with k of them. Sheets with too little on them are left out: the others could not hold the rest. Settled is
// false when a limit came first; nil and settled is a proof that k sheets are too few.
func partition(f *frame, k int) (sheets []*node, settled bool) {
	if f.total() > partItems || f.w > 1<<30 || f.h > 1<<30 {
		return nil, false
	}
	if hi, lo := bits.Mul64(uint64(f.w*f.h), uint64(k+1)); hi > 0 || lo > 1<<62 {
		return nil, false
	}
	m := newMerger(f.items, make([]int64, len(f.items)), f.w, f.h, mergeLimits{partBuilds, partTries})
	if m == nil {
		return nil, false
	}
	sheet, goal := f.w*f.h, int64(0)
	for i, it := range f.items {
		m.val[i] = it.w * it.h
		goal += m.val[i] * int64(it.n)
	}
	m.floor, m.every = goal-int64(k-1)*sheet-1, true
	enough := m.floor
	if !m.grow(func(b *build) int64 { return sheet - b.w*b.h }, func(*build) bool { return false }) {
		return nil, false
	}
	c := &cover{items: f.items, sheet: sheet, failed: map[string]bool{}}
	for _, b := range m.closed {
		if b.value > enough {
			c.sets = append(c.sets, b)
		}
	}
	slices.SortStableFunc(c.sets, func(a, b *build) int { return sign(float64(b.value - a.value)) })
	c.sets = maximal(c.sets)
	left := make([]uint8, len(f.items))
	for i, it := range f.items {
		left[i] = uint8(it.n)
	}
	if !c.find(left, goal, k) {
		return nil, c.steps <= partSteps
	}
	counts := f.counts()
	for _, b := range c.chosen {
		root := &node{w: f.w, h: f.h}
		b.grow(root)
		root.drop(counts)
		sheets = append(sheets, root)
	}
	return sheets, true
}

// maximal leaves out sets that lie within an earlier one.
func maximal(sets []*build) []*build {
	var out []*build
	for _, b := range sets {
		if !slices.ContainsFunc(out, func(a *build) bool { return inside(b.counts, a.counts) }) {
			out = append(out, b)
		}
	}
	return out
}

func inside(a, b []uint8) bool {
	for i, n := range a {
		if n > b[i] {
			return false
		}
	}
	return true
}

// A cover searches for k sets that hold everything.
type cover struct {
	items  []item
	sets   []*build
	sheet  int64
	chosen []*build
	failed map[string]bool // what is left, and k, for which there is no cover
	steps  int
}

// find covers what is left, of the given area, by k sets. Items come largest first, so the first one left is the
// largest, and some set must hold it.
func (c *cover) find(left []uint8, area int64, k int) bool {
	if area == 0 {
		return true
	}
	if c.steps++; c.steps > partSteps || area > int64(k)*c.sheet {
		return false
	}
	key := string(append(slices.Clone(left), uint8(k)))
	if c.failed[key] {
		return false
	}
	first := slices.IndexFunc(left, func(n uint8) bool { return n > 0 })
	for _, b := range c.sets {
		if b.counts[first] == 0 {
			continue
		}
		rest, a := slices.Clone(left), area
		for i, n := range b.counts {
			n = min(n, rest[i])
			rest[i] -= n
			a -= int64(n) * c.items[i].w * c.items[i].h
		}
		c.chosen = append(c.chosen, b)
		if c.find(rest, a, k-1) {
			return true
		}
		c.chosen = c.chosen[:len(c.chosen)-1]
	}
	c.failed[key] = true
	return false
}
