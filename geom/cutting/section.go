package cutting

import "slices"

// The limits of one pattern search.
const (
	maxFocus  = 24  // kinds of items looked at together; the rest fills holes
	maxPoints = 160 // raster points of an axis before the mirrored ones are added
	maxDepth  = 6   // holes within holes
)

// A generator makes patterns of high value for given values and remaining counts: sections across the sheet, strips
// across a section, items along a strip, holes filled again in the same way.
type generator struct {
	items         []item
	work          int64 // transitions looked at so far
	focus, points int   // maxFocus and maxPoints, or less for speed
}

// A variant is an item in one orientation.
type variant struct {
	item   int
	slot   int // place in the focus list
	w, h   int64
	turned bool
}

// fill makes a pattern for a w × h rectangle. It takes what it uses out of rem and returns its value.
func (g *generator) fill(val []int64, rem []int, w, h int64, depth int) (*node, int64) {
	var best *node
	var bestRem []int
	bestValue := int64(-1)
	for _, swap := range []bool{false, true} {
		left := slices.Clone(rem)
		n := g.sections(val, left, w, h, swap)
		if n == nil {
			break
		}
		if depth < maxDepth {
			g.holes(val, left, n, depth)
		}
		v := int64(0)
		for i := range left {
			v += val[i] * int64(rem[i]-left[i])
		}
		if v > bestValue {
			best, bestRem, bestValue = n, left, v
		}
	}
	if best == nil {
		return &node{w: w, h: h}, 0
	}
	copy(rem, bestRem)
	return best, bestValue
}

// holes fills the free nodes of a tree, largest first.
func (g *generator) holes(val []int64, rem []int, root *node, depth int) {
	list := root.frees(nil)
	slices.SortStableFunc(list, func(a, b *node) int {
		return sign(float64(b.w)*float64(b.h) - float64(a.w)*float64(a.h))
	})
	for _, n := range list {
		if g.anyFits(rem, n.w, n.h) {
			sub, _ := g.fill(val, rem, n.w, n.h, depth+1)
			*n = *sub
		}
	}
}

func newGenerator(items []item) *generator {
	return &generator{items: items, focus: maxFocus, points: maxPoints}
}

func (g *generator) anyFits(rem []int, w, h int64) bool {
	for i, it := range g.items {
		if rem[i] > 0 && (it.w <= w && it.h <= h || it.turn && it.h <= w && it.w <= h) {
			return true
		}
	}
	return false
}

// variants lists what can be placed, of at most focus kinds: those of the highest value.
func (g *generator) variants(val []int64, rem []int, w, h int64, swap bool) (vs []variant, focus []int) {
	for i, it := range g.items {
		if rem[i] > 0 && val[i] > 0 && (it.w <= w && it.h <= h || it.turn && it.h <= w && it.w <= h) {
			focus = append(focus, i)
		}
	}
	if len(focus) > g.focus {
		slices.SortStableFunc(focus, func(a, b int) int { return sign(float64(val[b] - val[a])) })
		focus = focus[:g.focus]
		slices.Sort(focus)
	}
	for s, i := range focus {
		it := g.items[i]
		for _, turned := range []bool{false, true} {
			iw, ih := it.w, it.h
			if turned {
				if !it.turn {
					continue
				}
				iw, ih = ih, iw
			}
			if iw > w || ih > h {
				continue
			}
			if swap {
				iw, ih = ih, iw
			}
			vs = append(vs, variant{i, s, iw, ih, turned})
		}
	}
	return vs, focus
}

// A strip is a row of items of one section.
type strip struct {
	h    int64
	row  int   // index of h
	x    int32 // index of the width
	uses []use
}

type use struct{ slot, n int }

// A section is the best column of strips found for one width.
type section struct {
	w      int64
	value  int64
	strips []strip
	used   []int32
}

// A rowTable holds the best rows of items for every strip height and raster width.
type rowTable struct {
	nx    int
	value []int64
	item  []int16 // variant added last, −1: same as the width before
	prev  []int32
}

// sections makes a pattern without filling its holes, or nil when nothing fits. With swap, sections lie across the
// height instead of the width. It takes what it uses out of rem.
func (g *generator) sections(val []int64, rem []int, w, h int64, swap bool) *node {
	vs, focus := g.variants(val, rem, w, h, swap)
	if len(vs) == 0 {
		return nil
	}
	W, H := w, h
	if swap {
		W, H = h, w
	}
	t := g.tabulate(vs, focus, val, rem, W, H)
	root := &node{w: w, h: h}
	cur := root
	for _, ci := range g.row(t.cols, focus, val, rem, t.xs) {
		cur = laySection(cur, t.cols[ci], t.rows, vs, rem, swap)
	}
	return root
}

// A tableau holds the best section of every width.
type tableau struct {
	xs   []int64
	rows *rowTable
	cols []section
}

// tabulate finds the best section for every natural width up to w, h high.
func (g *generator) tabulate(vs []variant, focus []int, val []int64, rem []int, w, h int64) tableau {
	var ws, hs []int64
	for _, v := range vs {
		ws, hs = append(ws, v.w), append(hs, v.h)
	}
	slices.Sort(hs)
	hs = slices.Compact(hs)
	natural, _ := sums(ws, w, g.points)
	high, _ := sums(hs, h, g.points)
	ys := mirrored(high, h)
	t := tableau{xs: mirrored(natural, w)}
	t.rows = g.rows(vs, val, rem, t.xs, hs)
	downs := make([][]int32, len(hs))
	for i, h := range hs {
		downs[i] = below(ys, h)
	}
	for _, p := range natural[1:] {
		if s, ok := g.column(t.rows, vs, focus, val, rem, hs, ys, downs, snap(t.xs, p)); ok {
			s.w = p
			t.cols = append(t.cols, s)
		}
	}
	return t
}

// mirrored adds limit − p for every point p, and limit itself.
func mirrored(points []int64, limit int64) []int64 {
	m := make([]int64, len(points))
	for i, p := range points {
		m[i] = limit - p
	}
	return merge(points, m)
}

// rows fills the strips: a knapsack over the widths for each strip height.
func (g *generator) rows(vs []variant, val []int64, rem []int, xs, hs []int64) *rowTable {
	nx := len(xs)
	t := &rowTable{nx, make([]int64, nx*len(hs)), make([]int16, nx*len(hs)), make([]int32, nx*len(hs))}
	back := make([][]int32, len(vs))
	for i, v := range vs {
		back[i] = below(xs, v.w)
	}
	for r, h := range hs {
		value, item, prev := t.value[r*nx:(r+1)*nx], t.item[r*nx:(r+1)*nx], t.prev[r*nx:(r+1)*nx]
		item[0] = -1
		for x := 1; x < nx; x++ {
			value[x], item[x], prev[x] = value[x-1], -1, int32(x-1)
			for i, v := range vs {
				p := back[i][x]
				if v.h > h || p < 0 || value[p]+val[v.item] <= value[x] {
					continue
				}
				if n := rem[v.item]; xs[x]/v.w >= int64(n) && chain(vs, item, prev, int(p), v.item) >= n {
					continue
				}
				value[x], item[x], prev[x] = value[p]+val[v.item], int16(i), p
			}
		}
		g.work += int64(nx * len(vs))
	}
	return t
}

// chain counts an item in the row that ends at x.
func chain(vs []variant, item []int16, prev []int32, x, it int) int {
	n := 0
	for x > 0 {
		if item[x] >= 0 && vs[item[x]].item == it {
			n++
		}
		x = int(prev[x])
	}
	return n
}

// column stacks strips in a section as wide as raster point x.
func (g *generator) column(t *rowTable, vs []variant, focus []int, val []int64, rem []int, hs, ys []int64, downs [][]int32, x int) (section, bool) {
	var strips []strip
	for r, h := range hs {
		s := strip{h: h, row: r, x: int32(x)}
		tall := int64(0)
		for at := x; at > 0; at = int(t.prev[r*t.nx+at]) {
			i := t.item[r*t.nx+at]
			if i < 0 {
				continue
			}
			v := vs[i]
			tall = max(tall, v.h)
			if k := slices.IndexFunc(s.uses, func(u use) bool { return u.slot == v.slot }); k >= 0 {
				s.uses[k].n++
			} else {
				s.uses = append(s.uses, use{v.slot, 1})
			}
		}
		if tall == h {
			strips = append(strips, s)
		}
	}
	if len(strips) == 0 {
		return section{}, false
	}
	m, ny := len(focus), len(ys)
	value, by, prev := make([]int64, ny), make([]int16, ny), make([]int32, ny)
	used := make([]int32, ny*m)
	worth, most := make([]int64, m), make([]int, m)
	for s, i := range focus {
		worth[s], most[s] = val[i], rem[i]
	}
	by[0] = -1
	for y := 1; y < ny; y++ {
		best, bi, bp := value[y-1], -1, int32(y-1)
		for i := range strips {
			p := downs[strips[i].row][y]
			if p < 0 {
				continue
			}
			v := value[p]
			for _, u := range strips[i].uses {
				v += worth[u.slot] * int64(min(u.n, most[u.slot]-int(used[int(p)*m+u.slot])))
			}
			if v > best {
				best, bi, bp = v, i, p
			}
		}
		value[y], by[y], prev[y] = best, int16(bi), bp
		copy(used[y*m:(y+1)*m], used[int(bp)*m:(int(bp)+1)*m])
		if bi >= 0 {
			for _, u := range strips[bi].uses {
				at := y*m + u.slot
				used[at] = int32(min(most[u.slot], int(used[at])+u.n))
			}
		}
	}
	g.work += int64(ny * len(strips))
	s := section{value: value[ny-1], used: used[(ny-1)*m:]}
	for y := ny - 1; y > 0; y = int(prev[y]) {
		if by[y] >= 0 {
			s.strips = append(s.strips, strips[by[y]])
		}
	}
	return s, true
}

// row sets sections side by side and returns their indices.
func (g *generator) row(cols []section, focus []int, val []int64, rem []int, xs []int64) []int {
	m, nx := len(focus), len(xs)
	value, by, prev := make([]int64, nx), make([]int32, nx), make([]int32, nx)
	used := make([]int32, nx*m)
	back := make([][]int32, len(cols))
	for i, c := range cols {
		back[i] = below(xs, c.w)
	}
	by[0] = -1
	for x := 1; x < nx; x++ {
		best, bi, bp := value[x-1], -1, int32(x-1)
		for i := range cols {
			p := back[i][x]
			if p < 0 || value[p]+cols[i].value <= best {
				continue
			}
			v := value[p]
			for s, it := range focus {
				if n := int(cols[i].used[s]); n > 0 {
					v += val[it] * int64(min(n, rem[it]-int(used[int(p)*m+s])))
				}
			}
			if v > best {
				best, bi, bp = v, i, p
			}
		}
		value[x], by[x], prev[x] = best, int32(bi), bp
		copy(used[x*m:(x+1)*m], used[int(bp)*m:(int(bp)+1)*m])
		if bi >= 0 {
			for s, it := range focus {
				used[x*m+s] = int32(min(rem[it], int(used[x*m+s])+int(cols[bi].used[s])))
			}
		}
	}
	g.work += int64(nx * len(cols))
	var chosen []int
	for x := nx - 1; x > 0; x = int(prev[x]) {
		if by[x] >= 0 {
			chosen = append(chosen, int(by[x]))
		}
	}
	return chosen
}

// laySection cuts a section off a free node, places what rem still wants of it and returns the free rest. Strips and
// items no longer wanted are left out, so that the room they would take stays in one piece.
func laySection(n *node, s section, t *rowTable, vs []variant, rem []int, swap bool) *node {
	type line struct {
		h   int64
		row []variant
	}
	var lines []line
	for _, st := range s.strips {
		l := line{}
		for at := int(st.x); at > 0; at = int(t.prev[st.row*t.nx+at]) {
			i := t.item[st.row*t.nx+at]
			if i < 0 || rem[vs[i].item] == 0 {
				continue
			}
			rem[vs[i].item]--
			l.row = append(l.row, vs[i])
			l.h = max(l.h, vs[i].h)
		}
		if len(l.row) > 0 {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		return n
	}
	col, rest := cutOff(n, swap, s.w)
	for _, l := range lines {
		var row *node
		row, col = cutOff(col, !swap, l.h)
		for _, v := range l.row {
			var cell *node
			cell, row = cutOff(row, swap, v.w)
			cell, _ = cutOff(cell, !swap, v.h)
			cell.kind, cell.item, cell.turned = leaf, v.item, v.turned
		}
	}
	return rest
}

// cutOff is cutAt, save that nothing is cut when the node is used up: the rest is then an empty node.
func cutOff(n *node, across bool, at int64) (low, rest *node) {
	if across && at == n.h || !across && at == n.w {
		return n, &node{}
	}
	return n.cutAt(across, at)
}
