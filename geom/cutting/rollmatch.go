package cutting

import (
	"slices"

	"rodsheet/geom"
)

// matched plans a roll whose pattern has a repeat, in two ways. Either items lie in cells of whole repeats, see
// [matcher.cells], which is as good as a plain roll where all have one phase. Or they stand on shelves: within a shelf
// they lie relative to each other as the pattern demands, so a shelf is rigid, and what remains is the order of the
// shelves, each of which starts where the pattern comes round again.
func (r Roll) matched(f *frame) (root *node, length int64, bound geom.Length, by BoundKind, pattern geom.Length) {
	m := &matcher{w: f.w * f.ux, repeat: int64(r.Repeat), rem: f.counts()}
	// Heights must mix with phases and the repeat, so this works in nanometres throughout.
	for i := range f.items {
		f.items[i].w *= f.ux
		f.items[i].h *= f.uy
		m.phase = append(m.phase, modulo(int64(r.Parts[f.owners[i][0].part].Phase), m.repeat))
	}
	m.items = f.items
	f.w, f.h, f.ux, f.uy = m.w, f.h*f.uy, 1, 1

	var best []shelf
	for _, byHeight := range []bool{true, false} {
		shelves := m.order(m.shelves(byHeight))
		if best == nil || m.length(shelves) < m.length(best) {
			best = shelves
		}
	}
	length = m.length(best)
	root = m.tree(best, length)
	pattern = geom.Length(modulo(-best[0].phase, m.repeat))
	bases := m.bases()
	for _, base := range bases {
		if n, l := m.cells(base, rollSteps/int64(len(bases))); l < length {
			root, length, pattern = n, l, geom.Length(modulo(-base, m.repeat))
		}
	}
	b, by := m.bound()
	return root, length, geom.Length(b) - r.Kerf, by, pattern
}

// The limits of one shelf: kinds tried as its lowest and its highest item, kinds in its knapsack. More shelves than
// maxOrder keep the order found first.
const (
	maxStarts = 8
	maxFits   = 30
	maxOrder  = 60
)

type matcher struct {
	w, repeat int64
	items     []item
	phase     []int64 // of each item, in [0, repeat)
	rem       []int
}

// A shelf is a set of columns; phase is the pattern's at its lower edge.
type shelf struct {
	h, phase int64
	columns  []column
}

// A column is a stack of items, y from the shelf's lower edge.
type column struct {
	w     int64
	items []standing
}

type standing struct {
	item int
	y    int64
}

func modulo(a, m int64) int64 {
	if a %= m; a < 0 {
		a += m
	}
	return a
}

// bases are the phases worth trying as a lattice: those of the items, up to eight.
func (m *matcher) bases() []int64 {
	b := slices.Clone(m.phase)
	slices.Sort(b)
	return thin(slices.Compact(b), 8)
}

// gap is what is lost between a lower edge's end at height h above phase a and the next lower edge of phase b.
func (m *matcher) gap(a, h, b int64) int64 { return modulo(b-a-h, m.repeat) }

// shelves fills shelf after shelf. The lowest item of a shelf and its height are tried in all combinations, the rest
// of the width is filled by a knapsack, the room above low items by more items.
func (m *matcher) shelves(byHeight bool) []shelf {
	rem := slices.Clone(m.rem)
	var out []shelf
	for slices.Max(rem) > 0 {
		s := m.next(rem, byHeight)
		for _, c := range s.columns {
			for _, st := range c.items {
				rem[st.item]--
			}
		}
		out = append(out, s)
	}
	return out
}

func (m *matcher) next(rem []int, byHeight bool) shelf {
	type start struct{ phase, h int64 }
	var starts []start
	high := m.largest(rem, maxStarts, func(it item) float64 { return float64(it.h) })
	tallest := m.items[high[0]].h
	for _, i := range high {
		for _, j := range high {
			h := modulo(m.phase[j]-m.phase[i], m.repeat) + m.items[j].h
			if h >= m.items[i].h && !(byHeight && h < tallest) {
				starts = append(starts, start{m.phase[i], h})
			}
		}
	}
	slices.SortFunc(starts, func(a, b start) int {
		if a.h != b.h {
			return sign(float64(a.h - b.h))
		}
		return sign(float64(a.phase - b.phase))
	})
	starts = slices.Compact(starts)
	slices.Reverse(starts) // highest first
	starts = starts[:min(len(starts), 4*maxStarts)]
	var best shelf
	bestFill := -1.0
	for _, st := range starts {
		s := m.fill(rem, st.phase, st.h)
		if len(s.columns) == 0 {
			continue
		}
		used := 0.0
		for _, c := range s.columns {
			for _, p := range c.items {
				used += m.items[p.item].area()
			}
		}
		// What a shelf costs includes the wait for the pattern, here until the same phase.
		if fill := used / float64(s.h+m.gap(s.phase, s.h, s.phase)); fill > bestFill {
			best, bestFill = s, fill
		}
	}
	return best
}

// largest lists at most n kinds of items still wanted, those with the highest key.
func (m *matcher) largest(rem []int, n int, key func(item) float64) []int {
	var list []int
	for i, k := range rem {
		if k > 0 {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return sign(key(m.items[b]) - key(m.items[a])) })
	return list[:min(n, len(list))]
}

// fill packs a shelf that is h high and begins at the given phase.
func (m *matcher) fill(rem []int, phase, h int64) shelf {
	type choice struct {
		item int
		y    int64
	}
	var fits []choice
	var widths []int64
	for _, i := range m.largest(rem, maxFits, item.area) {
		it := m.items[i]
		if y := modulo(m.phase[i]-phase, m.repeat); y+it.h <= h {
			fits = append(fits, choice{i, y})
			widths = append(widths, it.w)
		}
	}
	if len(fits) == 0 {
		return shelf{}
	}
	points, _ := sums(widths, m.w, 150)
	points = mirrored(points, m.w)
	value := make([]float64, len(points))
	by := make([]int, len(points))
	prev := make([]int, len(points))
	back := make([][]int32, len(fits))
	for k, w := range widths {
		back[k] = below(points, w)
	}
	by[0] = -1
	for x := 1; x < len(points); x++ {
		value[x], by[x], prev[x] = value[x-1], -1, x-1
		for k, c := range fits {
			it := m.items[c.item]
			p := int(back[k][x])
			if p < 0 || value[p]+it.area() <= value[x] {
				continue
			}
			n := 0
			for at := p; at > 0; at = prev[at] {
				if by[at] == k {
					n++
				}
			}
			if n < rem[c.item] {
				value[x], by[x], prev[x] = value[p]+it.area(), k, p
			}
		}
	}
	left := slices.Clone(rem)
	s := shelf{phase: phase}
	for at := len(points) - 1; at > 0; at = prev[at] {
		if k := by[at]; k >= 0 {
			c := fits[k]
			left[c.item]--
			s.columns = append(s.columns, column{m.items[c.item].w, []standing{{c.item, c.y}}})
		}
	}
	slices.Reverse(s.columns)
	for i := range s.columns {
		m.stack(&s.columns[i], left, phase, h)
	}
	return m.settle(s)
}

// stack sets more items into a column, as long as they are no wider and end within the shelf.
func (m *matcher) stack(c *column, left []int, phase, h int64) {
	for {
		last := c.items[len(c.items)-1]
		from := last.y + m.items[last.item].h
		at, y := -1, int64(0)
		for i, it := range m.items {
			start := from + modulo(m.phase[i]-phase-from, m.repeat)
			if left[i] > 0 && it.w <= c.w && start+it.h <= h && (at < 0 || it.area() > m.items[at].area()) {
				at, y = i, start
			}
		}
		if at < 0 {
			return
		}
		left[at]--
		c.items = append(c.items, standing{at, y})
	}
}

// settle moves the shelf's lower edge up to its lowest item and its upper edge down to its highest.
func (m *matcher) settle(s shelf) shelf {
	low, high := int64(1)<<62, int64(0)
	for _, c := range s.columns {
		low = min(low, c.items[0].y)
		last := c.items[len(c.items)-1]
		high = max(high, last.y+m.items[last.item].h)
	}
	for _, c := range s.columns {
		for k := range c.items {
			c.items[k].y -= low
		}
	}
	s.h, s.phase = high-low, modulo(s.phase+low, m.repeat)
	return s
}

// length is the strip's for shelves in that order.
func (m *matcher) length(shelves []shelf) int64 {
	l := int64(0)
	for i, s := range shelves {
		l += s.h
		if i+1 < len(shelves) {
			l += m.gap(s.phase, s.h, shelves[i+1].phase)
		}
	}
	return l
}

// order looks for the order of least loss between shelves: the next best one each time from every start, then swaps
// and moves while they help.
func (m *matcher) order(shelves []shelf) []shelf {
	n := len(shelves)
	var best []shelf
	for first := range min(n, maxOrder) {
		left := slices.Clone(shelves)
		run := []shelf{left[first]}
		left = slices.Delete(left, first, first+1)
		for len(left) > 0 {
			last, at := run[len(run)-1], 0
			for i, s := range left {
				if m.gap(last.phase, last.h, s.phase) < m.gap(last.phase, last.h, left[at].phase) {
					at = i
				}
			}
			run = append(run, left[at])
			left = slices.Delete(left, at, at+1)
		}
		if best == nil || m.length(run) < m.length(best) {
			best = run
		}
	}
	if n > maxOrder {
		return best
	}
	for range 4 {
		before := m.length(best)
		for i := range n {
			for j := range n {
				moved := slices.Insert(slices.Delete(slices.Clone(best), i, i+1), j, best[i])
				if m.length(moved) < m.length(best) {
					best = moved
				}
				swapped := slices.Clone(best)
				swapped[i], swapped[j] = swapped[j], swapped[i]
				if m.length(swapped) < m.length(best) {
					best = swapped
				}
			}
		}
		if m.length(best) == before {
			break
		}
	}
	return best
}

// bound: every item must wait at its upper edge until some item's phase comes round, all but the last one. Grown by
// that wait, the items still must fit side by side.
func (m *matcher) bound() (int64, BoundKind) {
	heights := make([]int64, len(m.items))
	last, one := int64(0), true
	tallest := int64(0)
	for i, it := range m.items {
		wait := m.repeat
		for j := range m.items {
			wait = min(wait, m.gap(m.phase[i], it.h, m.phase[j]))
		}
		heights[i] = it.h + wait
		last = max(last, wait)
		tallest = max(tallest, it.h)
		one = one && m.phase[i] == m.phase[0]
	}
	b, by := widthBound(m.items, m.w, heights)
	if one { // then grown lengths are whole repeats
		b = (b + m.repeat - 1) / m.repeat * m.repeat
	}
	return max(b-last, tallest), by
}

// tree cuts the strip into shelves, columns and items.
func (m *matcher) tree(shelves []shelf, length int64) *node {
	root := &node{w: m.w, h: length}
	cur := root
	for i, s := range shelves {
		var row *node
		row, cur = cutOff(cur, true, s.h)
		for _, c := range s.columns {
			var col *node
			col, row = cutOff(row, false, c.w)
			y := int64(0)
			for _, st := range c.items {
				if st.y > y {
					_, col = cutOff(col, true, st.y-y)
				}
				it := m.items[st.item]
				y = st.y + it.h
				var cell *node
				cell, col = cutOff(col, true, it.h)
				cell, _ = cutOff(cell, false, it.w)
				cell.kind, cell.item = leaf, st.item
			}
		}
		if i+1 < len(shelves) {
			if g := m.gap(s.phase, s.h, shelves[i+1].phase); g > 0 {
				_, cur = cutOff(cur, true, g)
			}
		}
	}
	return root
}
