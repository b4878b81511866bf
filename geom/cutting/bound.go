package cutting

import (
	"math/big"
	"slices"
)

// areaBound is the sum of the items' areas over the sheet's, rounded up.
func areaBound(f *frame) int {
	sum := new(big.Int)
	for _, it := range f.items {
		a := new(big.Int).Mul(big.NewInt(it.w), big.NewInt(it.h))
		sum.Add(sum, a.Mul(a, big.NewInt(int64(it.n))))
	}
	return ceilDiv(sum, new(big.Int).Mul(big.NewInt(f.w), big.NewInt(f.h)))
}

func ceilDiv(a, b *big.Int) int {
	q, r := new(big.Int).QuoRem(a, b, new(big.Int))
	if r.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return int(q.Int64())
}

// A dual is a dual feasible function: numbers x with sum at most 1 have images with sum at most 1. It maps whole
// numbers 0 ≤ x ≤ size to numerators over one denominator.
type dual struct {
	den int64
	of  func(x int64) int64
}

// duals lists the functions of Fekete & Schepers (2001) for sums up to size: the identity, u(k), U(ε) and φ(ε), ε
// taken from the sides given. At most most values of ε are used, and of k a quarter of that.
func duals(size int64, sides []int64, most int) []dual {
	out := []dual{{size, func(x int64) int64 { return x }}}
	for k := int64(1); k <= int64(max(2, most/4)) && k < 1<<30; k++ {
		if size > (1<<62)/(k+1) {
			break
		}
		out = append(out, dual{size * k, func(x int64) int64 {
			if x*(k+1)%size == 0 {
				return x * k
			}
			return x * (k + 1) / size * size
		}})
	}
	var eps []int64
	for _, s := range sides {
		for _, e := range []int64{s, size - s, size - s + 1} {
			if e > 0 && e <= size/2 {
				eps = append(eps, e)
			}
		}
	}
	slices.Sort(eps)
	eps = thin(slices.Compact(eps), most)
	for _, e := range eps {
		out = append(out, dual{size, func(x int64) int64 {
			switch {
			case x > size-e:
				return size
			case x < e:
				return 0
			}
			return x
		}})
		q := size / e
		out = append(out, dual{q, func(x int64) int64 {
			switch {
			case 2*x > size:
				return q - (size-x)/e
			case x < e:
				return 0
			case 2*x == size:
				return q / 2
			}
			return 1
		}})
	}
	return out
}

// dualBound is the best bound from a pair of dual feasible functions, one for each axis. An item that may be turned
// counts with the lesser of its two values, which holds however a plan turns it.
func dualBound(f *frame) int {
	most := 40
	if len(f.items) > 60 {
		most = 12
	}
	if len(f.items) > 1000 {
		most = 4
	}
	var ws, hs []int64
	for _, it := range f.items {
		ws, hs = append(ws, it.w), append(hs, it.h)
		if it.turn {
			ws, hs = append(ws, it.h), append(hs, it.w)
		}
	}
	fx, fy := duals(f.w, ws, most), duals(f.h, hs, most)
	// Floats find the best pairs, whole numbers then compute them.
	type pair struct {
		x, y  int
		value float64
	}
	xw, xh := dualTable(fx, f, f.w)
	yw, yh := dualTable(fy, f, f.h)
	var pairs []pair
	for x := range fx {
		for y := range fy {
			sum := 0.0
			for i, it := range f.items {
				v := xw[x][i] * yh[y][i]
				if it.turn {
					v = min(v, xh[x][i]*yw[y][i])
				}
				sum += float64(v * float64(it.n))
			}
			pairs = append(pairs, pair{x, y, sum})
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return sign(b.value - a.value) })
	best := 0
	for _, p := range pairs[:min(4, len(pairs))] {
		best = max(best, dualSum(f, fx[p.x], fy[p.y]))
	}
	return best
}

// dualTable holds the images of the items' sides; a side that is longer than the axis gets a value no turn can use.
func dualTable(fs []dual, f *frame, size int64) (ofW, ofH [][]float64) {
	image := func(d dual, x int64) float64 {
		if x > size {
			return 1e9
		}
		return float64(d.of(x)) / float64(d.den)
	}
	for _, d := range fs {
		w, h := make([]float64, len(f.items)), make([]float64, len(f.items))
		for i, it := range f.items {
			w[i], h[i] = image(d, it.w), image(d, it.h)
		}
		ofW, ofH = append(ofW, w), append(ofH, h)
	}
	return ofW, ofH
}

func dualSum(f *frame, dx, dy dual) int {
	sum := new(big.Int)
	product := func(w, h int64) *big.Int {
		if w > f.w || h > f.h {
			return nil // this orientation does not fit
		}
		return new(big.Int).Mul(big.NewInt(dx.of(w)), big.NewInt(dy.of(h)))
	}
	for _, it := range f.items {
		v := product(it.w, it.h)
		if it.turn {
			if t := product(it.h, it.w); v == nil || t != nil && t.Cmp(v) < 0 {
				v = t
			}
		}
		sum.Add(sum, v.Mul(v, big.NewInt(int64(it.n))))
	}
	return ceilDiv(sum, new(big.Int).Mul(big.NewInt(dx.den), big.NewInt(dy.den)))
}
