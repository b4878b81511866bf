package cutting

// A table holds, for every rectangle with sides on a grid, the highest value that guillotine cuts get out of it: the
// dynamic programme of Gilmore & Gomory (1965) and Beasley (1985). It takes grid.steps.
type table struct {
	grid
	items []item
	val   []int64
	v     []int64
	how   []int32
	// Where numbers are limited, used are the items in each rectangle, one number for each of the kinds there are. The
	// best of two rectangles that together break a limit counts what the limit allows, which may miss the best value.
	most  []int // nil: any number
	kinds []int // that are there, but too few to fill the bin
	used  []int32
}

// How a rectangle's best value comes about, in the low two bits; the rest is an index.
const (
	howSmaller = iota // as in the rectangle one point narrower, or with index 1 one point lower
	howItem           // an item, twice its index, plus one where it is turned
	howCutX           // a cut at a width
	howCutY           // a cut at a height
)

// fill makes the table of values. With most given, no rectangle holds more of an item than that.
func fill(items []item, val []int64, most []int, g grid) *table {
	nx, ny := len(g.xs), len(g.ys)
	t := &table{grid: g, items: items, val: val, v: make([]int64, nx*ny), how: make([]int32, nx*ny), most: most}
	for i, n := range most {
		if area := float64(g.xs[nx-1]) * float64(g.ys[ny-1]); n > 0 && float64(n)*items[i].area() < area {
			t.kinds = append(t.kinds, i)
		}
	}
	t.used = make([]int32, nx*ny*len(t.kinds))
	for x := 1; x < nx; x++ {
		for y := 1; y < ny; y++ {
			t.take(x*ny+y, (x-1)*ny+y, howSmaller)
		}
		t.place(x)
		row := t.v[x*ny : (x+1)*ny]
		for a, b := 1, x-1; a < x && 2*g.xs[a] <= g.xs[x]; a++ {
			for g.xs[b] > g.xs[x]-g.xs[a] {
				b--
			}
			low, high := t.v[a*ny:(a+1)*ny], t.v[b*ny:(b+1)*ny]
			for y := range row {
				if v := low[y] + high[y]; v > row[y] {
					t.join(x*ny+y, a*ny+y, b*ny+y, v, int32(a)<<2|howCutX)
				}
			}
		}
		for y := 1; y < ny; y++ {
			if row[y-1] > row[y] {
				t.take(x*ny+y, x*ny+y-1, howSmaller+1<<2)
			}
			best := row[y]
			for a, b := 1, y-1; a < y && 2*g.ys[a] <= g.ys[y]; a++ {
				for g.ys[b] > g.ys[y]-g.ys[a] {
					b--
				}
				if v := row[a] + row[b]; v > best {
					t.join(x*ny+y, x*ny+a, x*ny+b, v, int32(a)<<2|howCutY)
					best = row[y]
				}
			}
		}
	}
	return t
}

// place puts single items into the rectangles of column x, in which they fit first.
func (t *table) place(x int) {
	ny, m := len(t.ys), len(t.kinds)
	for i, it := range t.items {
		if t.most != nil && t.most[i] == 0 {
			continue
		}
		for turned, s := range it.sides() {
			if s[0] > t.xs[x] || s[0] <= t.xs[x-1] || s[1] > t.ys[ny-1] {
				continue
			}
			if at := x*ny + snap(t.ys, s[1]-1) + 1; t.val[i] > t.v[at] {
				t.v[at], t.how[at] = t.val[i], int32(2*i+turned)<<2|howItem
				for k, kind := range t.kinds {
					t.used[at*m+k] = 0
					if kind == i {
						t.used[at*m+k] = 1
					}
				}
			}
		}
	}
}

// take copies a smaller rectangle's best.
func (t *table) take(at, from int, how int32) {
	m := len(t.kinds)
	t.v[at], t.how[at] = t.v[from], how
	copy(t.used[at*m:(at+1)*m], t.used[from*m:(from+1)*m])
}

// join takes two rectangles' bests, worth v together, if they are worth more than what is known within the limits.
func (t *table) join(at, a, b int, v int64, how int32) {
	m := len(t.kinds)
	low, high := t.used[a*m:(a+1)*m], t.used[b*m:(b+1)*m]
	for k, n := range low {
		i := t.kinds[k]
		if over := int(n+high[k]) - t.most[i]; over > 0 {
			v -= int64(over) * t.val[i]
		}
	}
	if v <= t.v[at] {
		return
	}
	to := t.used[at*m : (at+1)*m]
	for k, n := range low {
		to[k] = min(n+high[k], int32(t.most[t.kinds[k]]))
	}
	t.v[at], t.how[at] = v, how
}

// best is the highest value of the whole bin.
func (t *table) best() int64 { return t.v[len(t.v)-1] }

// block is the index of the height of a roll's block whose value is highest above a price for its height; with no
// price, of that with the highest value for its height.
func (t *table) block(price float64) int {
	top := t.v[len(t.v)-len(t.ys):]
	best := 1
	for y := 2; y < len(top); y++ {
		v, w := float64(top[y]), float64(top[best])
		if price == 0 && v*float64(t.ys[best]) > w*float64(t.ys[y]) ||
			price > 0 && v-w > price*float64(t.ys[y]-t.ys[best]) {
			best = y
		}
	}
	return best
}

// tree is the pattern behind the best value of a bin w × h, at the height of index y.
func (t *table) tree(w, h int64, y int) *node {
	root := &node{w: w, h: h}
	t.grow(root, len(t.xs)-1, y)
	if t.most == nil {
		return root
	}
	left := make([]int, len(t.most))
	copy(left, t.most)
	return root.keep(left)
}

func (t *table) grow(n *node, x, y int) {
	for x > 0 && y > 0 && t.how[x*len(t.ys)+y]&3 == howSmaller {
		if t.how[x*len(t.ys)+y]>>2 == 0 {
			x--
		} else {
			y--
		}
	}
	if x == 0 || y == 0 {
		return
	}
	how := t.how[x*len(t.ys)+y]
	i := int(how >> 2)
	switch how & 3 {
	case howItem:
		n.kind, n.item, n.turned = leaf, i/2, i%2 == 1
	case howCutX:
		low, high := n.cutAt(false, t.xs[i])
		t.grow(low, i, y)
		t.grow(high, snap(t.xs, t.xs[x]-t.xs[i]), y)
	case howCutY:
		low, high := n.cutAt(true, t.ys[i])
		t.grow(low, x, i)
		t.grow(high, x, snap(t.ys, t.ys[y]-t.ys[i]))
	}
}
