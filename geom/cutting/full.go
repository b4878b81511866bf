package cutting

// A table is the unrestricted guillotine dynamic programme: the highest value cut from every rectangle with sides
// on raster points, any number of stages, any number of copies (Gilmore & Gomory 1966; Beasley 1985).
type table struct {
	items  []item
	val    []int64
	xs, ys []int64
	exact  bool // the raster is complete, so the values are upper bounds for every pattern
	v      []int64
}

// rasters lists the points for a w × h sheet and the steps the programme would take on them.
func rasters(items []item, w, h int64, most int) (xs, ys []int64, exact bool, steps int64) {
	var sw, sh []int64
	for _, it := range items {
		if it.w <= w && it.h <= h {
			sw, sh = append(sw, it.w), append(sh, it.h)
		}
		if it.turn && it.h <= w && it.w <= h {
			sw, sh = append(sw, it.h), append(sh, it.w)
		}
	}
	xs, cx := sums(sw, w, most)
	ys, cy := sums(sh, h, most)
	nx, ny := int64(len(xs)), int64(len(ys))
	return xs, ys, cx && cy, nx * ny * (nx + ny) / 2
}

func newTable(items []item, val []int64, xs, ys []int64, exact bool) *table {
	t := &table{items: items, val: val, xs: xs, ys: ys, exact: exact, v: make([]int64, len(xs)*len(ys))}
	ny := len(ys)
	for i, it := range items {
		for _, turned := range []bool{false, true} {
			w, h := it.w, it.h
			if turned {
				if !it.turn {
					continue
				}
				w, h = h, w
			}
			x, y := snap(xs, w), snap(ys, h)
			if xs[x] == w && ys[y] == h {
				t.v[x*ny+y] = max(t.v[x*ny+y], val[i])
			}
		}
	}
	for x := range xs {
		col := t.v[x*ny : (x+1)*ny]
		if x > 0 {
			raise(col, t.v[(x-1)*ny:x*ny])
		}
		for p, q := 1, x; p < x && 2*xs[p] <= xs[x]; p++ {
			for q > 0 && xs[q] > xs[x]-xs[p] {
				q--
			}
			raiseSum(col, t.v[p*ny:(p+1)*ny], t.v[q*ny:(q+1)*ny])
		}
		for y := 1; y < ny; y++ {
			best := max(col[y], col[y-1])
			for p, q := 1, y; p < y && 2*ys[p] <= ys[y]; p++ {
				for q > 0 && ys[q] > ys[y]-ys[p] {
					q--
				}
				best = max(best, col[p]+col[q])
			}
			col[y] = best
		}
	}
	return t
}

func raise(dst, a []int64) {
	for i, v := range a[:len(dst)] {
		dst[i] = max(dst[i], v)
	}
}

func raiseSum(dst, a, b []int64) {
	a, b = a[:len(dst)], b[:len(dst)]
	for i := range dst {
		dst[i] = max(dst[i], a[i]+b[i])
	}
}

// best is the highest value for a w × h rectangle.
func (t *table) best(w, h int64) int64 {
	return t.v[snap(t.xs, w)*len(t.ys)+snap(t.ys, h)]
}

// tree cuts a w × h rectangle to its highest value.
func (t *table) tree(w, h int64) *node {
	n := &node{w: w, h: h}
	t.cut(n, snap(t.xs, w), snap(t.ys, h))
	return n
}

func (t *table) cut(n *node, x, y int) {
	ny := len(t.ys)
	want := t.v[x*ny+y]
	if want == 0 {
		return
	}
	for x > 0 && t.v[(x-1)*ny+y] == want {
		x--
	}
	for y > 0 && t.v[x*ny+y-1] == want {
		y--
	}
	for i, it := range t.items {
		if t.val[i] == want && it.w <= t.xs[x] && it.h <= t.ys[y] {
			n.put(i, false, it.w, it.h, true)
			return
		}
		if t.val[i] == want && it.turn && it.h <= t.xs[x] && it.w <= t.ys[y] {
			n.put(i, true, it.h, it.w, true)
			return
		}
	}
	for p := 1; p < x; p++ {
		q := snap(t.xs, t.xs[x]-t.xs[p])
		if t.v[p*ny+y]+t.v[q*ny+y] == want {
			a, b := n.cutAt(false, t.xs[p])
			t.cut(a, p, y)
			t.cut(b, q, y)
			return
		}
	}
	for p := 1; p < y; p++ {
		q := snap(t.ys, t.ys[y]-t.ys[p])
		if t.v[x*ny+p]+t.v[x*ny+q] == want {
			a, b := n.cutAt(true, t.ys[p])
			t.cut(a, x, p)
			t.cut(b, x, q)
			return
		}
	}
}
