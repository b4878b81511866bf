package cutting

import (
	"container/heap"
)

// The limits of the exhaustive search.
const (
	maxBuilds  = 60_000      // rectangles kept
	maxTries   = 150_000_000 // pairs looked at
	mergeSteps = 40_000_000  // steps of the table behind its bounds
)

// A merger builds rectangles from items and from each other, best first, every one bounded by what could still be cut
// around it (Wang 1983; Viswanathan & Bagchi 1993). When it ends within its limits, its best is the best there is.
type merger struct {
	items  []item
	val    []int64
	w, h   int64
	xs, ys []int64
	around []int64 // bound on what the rest of the sheet holds around a rectangle, by raster point
	best   *build
	floor  int64 // only values above it are of interest
	every  bool  // keep looking below the best: all rectangles with f above the floor are wanted
	open   buildHeap
	closed []*build
	seen   map[string][]*build
	tries  int64
	limits mergeLimits
}

// mergeLimits bound the rectangles kept and the pairs looked at.
type mergeLimits struct {
	builds int
	tries  int64
}

// A build is a rectangle made of items: one alone, or two builds side by side or one above the other.
type build struct {
	w, h   int64
	value  int64
	f      int64 // value and bound on the rest
	counts []uint8
	item   int
	turned bool
	across bool
	a, b   *build
	seq    int
}

type buildHeap []*build

func (q buildHeap) Len() int { return len(q) }
func (q buildHeap) Less(i, j int) bool {
	a, b := q[i], q[j]
	switch {
	case a.f != b.f:
		return a.f > b.f
	case a.value != b.value:
		return a.value > b.value
	}
	return a.seq < b.seq
}
func (q buildHeap) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *buildHeap) Push(x any)   { *q = append(*q, x.(*build)) }
func (q *buildHeap) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}

// newMerger is nil when the question is too large for it.
func newMerger(items []item, val []int64, w, h int64, limits mergeLimits) *merger {
	for _, it := range items {
		if it.n > 255 {
			return nil
		}
	}
	xs, ys, exact, _ := rasters(items, w, h, proofPoints)
	if !exact {
		return nil
	}
	return &merger{items: items, val: val, w: w, h: h, xs: xs, ys: ys, seen: map[string][]*build{}, limits: limits}
}

// bounds fills the table of what can be cut around a rectangle: to its right over its height, or above it over its
// width, again and again until the sheet is full. A neighbour may be taller than the rectangle, which then stands
// in a larger one with nothing above it: so the table never rises with the rectangle's sides.
func (m *merger) bounds(t *table) {
	nx, ny := len(m.xs), len(m.ys)
	m.around = make([]int64, nx*ny)
	for x := nx - 1; x >= 0; x-- {
		for y := ny - 1; y >= 0; y-- {
			best := int64(0)
			if x+1 < nx {
				best = m.around[(x+1)*ny+y]
			}
			if y+1 < ny {
				best = max(best, m.around[x*ny+y+1])
			}
			restX, restY := m.w-m.xs[x], m.h-m.ys[y]
			for p := 1; p < nx && m.xs[p] <= restX; p++ {
				to := snapUp(m.xs, m.xs[x]+m.xs[p], x+1, nx)
				best = max(best, t.v[p*ny+y]+m.around[to*ny+y])
			}
			for p := 1; p < ny && m.ys[p] <= restY; p++ {
				to := snapUp(m.ys, m.ys[y]+m.ys[p], y+1, ny)
				best = max(best, t.v[x*ny+p]+m.around[x*ny+to])
			}
			m.around[x*ny+y] = best
		}
	}
}

// snapUp is the index of the sum among the points. Sums of points are points, so it is there.
func snapUp(points []int64, v int64, lo, hi int) int {
	for lo < hi {
		mid := (lo + hi) / 2
		if points[mid] < v {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return min(lo, len(points)-1)
}

// highest finds the most valuable set of items for the sheet that is worth more than floor; nil if there is none.
// settled is false when a limit ended the search; bound then still holds.
func (m *merger) highest(t *table, floor int64) (tree *node, bound int64, settled bool) {
	m.bounds(t)
	m.floor = floor
	rest := func(b *build) int64 {
		return m.around[snap(m.xs, b.w)*len(m.ys)+snap(m.ys, b.h)]
	}
	settled = m.grow(rest, func(b *build) bool { return b.value > m.floor })
	bound = max(m.floor, 0)
	if !settled {
		bound = max(bound, m.upper())
	}
	if m.best == nil {
		return nil, bound, settled
	}
	return m.tree(), max(bound, m.best.value), settled
}

// upper is the highest bound among what has not been looked at to the end.
func (m *merger) upper() int64 {
	if len(m.open) == 0 {
		return 0
	}
	return m.open[0].f
}

// grow runs the search. It is false when a limit stopped it.
func (m *merger) grow(rest func(*build) int64, better func(*build) bool) bool {
	seq := 0
	add := func(b *build) {
		b.f = b.value + rest(b)
		if b.f <= m.floor || m.dominated(b) {
			return
		}
		seq++
		b.seq = seq
		if better(b) {
			m.best = b
			if !m.every {
				m.floor = b.value
			}
		}
		heap.Push(&m.open, b)
	}
	for i, it := range m.items {
		for _, turned := range []bool{false, true} {
			w, h := it.w, it.h
			if turned {
				if !it.turn {
					continue
				}
				w, h = h, w
			}
			if w > m.w || h > m.h || it.n == 0 {
				continue
			}
			counts := make([]uint8, len(m.items))
			counts[i] = 1
			add(&build{w: w, h: h, value: m.val[i], counts: counts, item: i, turned: turned})
		}
	}
	for len(m.open) > 0 {
		if m.open[0].f <= m.floor {
			return true
		}
		if len(m.closed) >= m.limits.builds || len(m.open) > 8*m.limits.builds || m.tries > m.limits.tries {
			return false
		}
		b := heap.Pop(&m.open).(*build)
		m.closed = append(m.closed, b)
		for _, c := range m.closed {
			m.tries++
			if b.w+c.w <= m.w && m.compatible(b, c) {
				add(join(b, c, false))
			}
			if b.h+c.h <= m.h && m.compatible(b, c) {
				add(join(b, c, true))
			}
		}
	}
	return true
}

func (m *merger) compatible(a, b *build) bool {
	for i, n := range a.counts {
		if int(n)+int(b.counts[i]) > m.items[i].n {
			return false
		}
	}
	return true
}

func join(a, b *build, across bool) *build {
	c := &build{value: a.value + b.value, a: a, b: b, across: across, counts: make([]uint8, len(a.counts))}
	for i := range c.counts {
		c.counts[i] = a.counts[i] + b.counts[i]
	}
	if across {
		c.w, c.h = max(a.w, b.w), a.h+b.h
	} else {
		c.w, c.h = a.w+b.w, max(a.h, b.h)
	}
	return c
}

// dominated tells whether the same items are known in a rectangle no larger; if not, it notes b.
func (m *merger) dominated(b *build) bool {
	key := string(b.counts)
	known := m.seen[key]
	for _, k := range known {
		if k.w <= b.w && k.h <= b.h {
			return true
		}
	}
	m.seen[key] = append(known, b)
	return false
}

func (m *merger) tree() *node {
	root := &node{w: m.w, h: m.h}
	m.best.grow(root)
	return root
}

// grow cuts a free node into what the build says.
func (b *build) grow(n *node) {
	if b.a == nil {
		n.put(b.item, b.turned, b.w, b.h, true)
		return
	}
	at := b.a.w
	if b.across {
		at = b.a.h
	}
	low, high := cutOff(n, b.across, at)
	b.a.grow(low)
	b.b.grow(high)
}
