package pack

import (
	"math"
	"slices"

	"rodsheet/geom"
)

// A scale maps the lengths of one direction so that parts that fit beside each other on a page still do: a dual
// feasible function, as shares of the page.
type scale func(x geom.Length) float64

// scales returns the functions worth trying for the given lengths on a page that is c long. Each keeps a choice of
// lengths that sum up to c or less at 1 or less:
//
//   - the share itself;
//   - Martello & Toth: lengths under e count nothing and those over c − e the whole page;
//   - Fekete & Schepers, u⁽ᵏ⁾: the share rounded down to k-ths, but for whole (k+1)-ths;
//   - Carlier, Clautiaux & Moukrim: lengths counted in whole e, those over the half by what they leave.
func scales(lengths []geom.Length, c geom.Length) []scale {
	share := func(x geom.Length) float64 { return float64(x) / float64(c) }
	out := []scale{share}
	for _, e := range thresholds(lengths, c) {
		out = append(out,
			func(x geom.Length) float64 {
				switch {
				case x > c-e:
					return 1
				case x < e:
					return 0
				}
				return share(x)
			},
			func(x geom.Length) float64 {
				whole := c / e
				switch {
				case 2*x > c:
					return 1 - float64((c-x)/e)/float64(whole)
				case 2*x == c:
					return 0.5
				}
				return float64(x/e) / float64(whole)
			})
	}
	for k := geom.Length(1); k <= 20; k++ {
		out = append(out, func(x geom.Length) float64 {
			if (k+1)*x%c == 0 {
				return share(x)
			}
			return float64((k+1)*x/c) / float64(k)
		})
	}
	return out
}

// maxThresholds limits the functions of one direction.
const maxThresholds = 24

// thresholds returns the lengths up to half of c, and what longer ones leave of it: between two of them the functions
// of an e don't change for the better.
func thresholds(lengths []geom.Length, c geom.Length) []geom.Length {
	var out []geom.Length
	for _, x := range lengths {
		for _, e := range []geom.Length{x, c - x, c - x + 1} {
			if e > 0 && 2*e <= c {
				out = append(out, e)
			}
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	return out[:min(len(out), maxThresholds)]
}

// weights are the share of a page that each size counts under one pair of scales; the sizes that share a page sum up
// to 1 or less.
type weights []float64

// sum returns the share of all sizes of a set.
func (w weights) sum(n set) float64 {
	total := 0.0
	for i, k := range n {
		total += float64(k) * w[i]
	}
	return total
}

// rounding is more than sums of weights are off, so that no bound is told too high.
const rounding = 1e-9

// boundWeights returns the weights under all pairs of scales, those that count most for n first.
func boundWeights(sizes []geom.Size, page geom.Size, n set) []weights {
	var wide, high []geom.Length
	for _, s := range sizes {
		wide, high = append(wide, s.W), append(high, s.H)
	}
	type table []float64 // by size
	tables := func(list []geom.Length, c geom.Length) []table {
		var out []table
		for _, f := range scales(list, c) {
			t := make(table, len(list))
			for i, x := range list {
				t[i] = f(x)
			}
			if !slices.ContainsFunc(out, func(o table) bool { return slices.Equal(o, t) }) {
				out = append(out, t)
			}
		}
		return out
	}
	var out []weights
	ups := tables(high, page.H)
	for _, across := range tables(wide, page.W) {
		for _, up := range ups {
			w := make(weights, len(sizes))
			for i := range w {
				w[i] = across[i] * up[i]
			}
			out = append(out, w)
		}
	}
	slices.SortStableFunc(out, func(v, w weights) int {
		switch a, b := v.sum(n), w.sum(n); {
		case a > b:
			return -1
		case a < b:
			return 1
		}
		return 0
	})
	return out
}

// pages returns a number of pages that the set can't do with less of.
func pages(list []weights, n set) int {
	most := 0
	for _, w := range list {
		most = max(most, int(math.Ceil(w.sum(n)-rounding)))
	}
	return most
}
