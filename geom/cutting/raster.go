package cutting

import "slices"

// sums lists the sums of sizes up to limit, 0 included, those of few summands first. With more than most, complete is
// false: all sums of few summands are there, and some of one more.
func sums(sizes []int64, limit int64, most int) (points []int64, complete bool) {
	sizes = slices.Clone(sizes)
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	bits, known := []bool{}, map[int64]bool{}
	if limit < 1<<20 {
		bits = make([]bool, limit+1)
	}
	isNew := func(p int64) bool {
		if len(bits) > 0 {
			was := bits[p]
			bits[p] = true
			return !was
		}
		was := known[p]
		known[p] = true
		return !was
	}
	points = []int64{0}
	for from := 0; from < len(points); {
		end := len(points)
		for _, p := range points[from:end] {
			for _, s := range sizes {
				if p+s > limit {
					break
				}
				if isNew(p + s) {
					points = append(points, p+s)
				}
			}
		}
		if from = end; len(points) > most {
			return append(points[:end], thin(points[end:], most-end)...), false
		}
	}
	return points, true
}

// thin keeps about n evenly spaced members of a list, the last among them.
func thin(list []int64, n int) []int64 {
	n = max(1, n)
	if len(list) <= n {
		return list
	}
	out := make([]int64, 0, n)
	for i := 1; i <= n; i++ {
		out = append(out, list[i*len(list)/n-1])
	}
	return out
}

// sorted sorts a list and leaves out doubles.
func sorted(list []int64) []int64 {
	slices.Sort(list)
	return slices.Compact(list)
}

// snap is the index of the largest point not above v. Points begin with 0, and v is not negative.
func snap(points []int64, v int64) int {
	i, found := slices.BinarySearch(points, v)
	if found {
		return i
	}
	return i - 1
}

// completeSums is the number of sums of sides up to which a raster is exact.
const completeSums = 20_000

// raster lists the widths that pieces of a sheet need be considered in: for every sum p of sides, the largest sum not
// above size − p (reduced raster points; Terno, Lindemann & Scheithauer 1987). For a width w among them and a sum s of
// sides, the largest sum not above w − s is among them too: a piece that is cut off may take all the room its neighbour
// leaves. So a dynamic programme over them finds the best value of the sheet. With more sums than most, exact is false.
func raster(sides []int64, size int64, most int) (points []int64, exact bool) {
	all, complete := sums(sides, size, most)
	slices.Sort(all)
	for _, p := range all {
		if complete {
			points = append(points, all[snap(all, size-p)])
		} else {
			points = append(points, p, size-p)
		}
	}
	return sorted(points), complete
}

// A grid is the rasters of a bin's two axes.
type grid struct {
	xs, ys []int64
	exact  bool
}

// steps is about how many pairs of pieces a table over the grid looks at.
func (g grid) steps() int64 {
	nx, ny := int64(len(g.xs)), int64(len(g.ys))
	return nx*ny*(nx+ny)/4 + nx*ny
}

// newGrid is the grid of a bin for the items that are wanted. Blocks of a roll may have any height that sides add up to.
func newGrid(b bin, items []item, want []int, most int) grid {
	var ws, hs []int64
	for i, it := range items {
		for _, s := range it.sides() {
			if want[i] > 0 && s[0] <= b.w && s[1] <= b.h {
				ws, hs = append(ws, s[0]), append(hs, s[1])
			}
		}
	}
	xs, okX := raster(ws, b.w, most)
	ys, okY := raster(hs, b.h, most)
	if b.roll {
		ys, okY = sums(hs, b.h, most)
		slices.Sort(ys)
	}
	return grid{xs, ys, okX && okY}
}

// gridWithin is the exact grid if its table takes no more than the given steps, else the finest thinned one that does.
func gridWithin(b bin, items []item, want []int, steps int64) grid {
	g := newGrid(b, items, want, completeSums)
	if g.exact && g.steps() <= steps {
		return g
	}
	for most := 512; ; most = most * 3 / 4 {
		if g = newGrid(b, items, want, most); g.steps() <= steps || most < 8 {
			return g
		}
	}
}
