package cutting

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// An item is one kind of rectangle as the solvers see it: sizes with kerf, in units of the frame.
type item struct {
	w, h int64
	n    int
	turn bool
}

func (it item) area() float64 { return float64(it.w) * float64(it.h) }

// lying is the item's width and height as it lies.
func (it item) lying(turned bool) [2]int64 {
	if turned {
		return [2]int64{it.h, it.w}
	}
	return [2]int64{it.w, it.h}
}

// sides lists the widths and heights in which the item can lie, turned last.
func (it item) sides() [][2]int64 {
	if it.turn {
		return [][2]int64{it.lying(false), it.lying(true)}
	}
	return [][2]int64{it.lying(false)}
}

// A bin is one kind of sheet as the solvers see it, kerf included, or a roll, of which patterns cost their height.
type bin struct {
	w, h int64
	n    int // 0: any number
	cost int
	roll bool
}

func (b bin) area() float64 { return float64(b.w) * float64(b.h) }

func (b bin) holds(it item) bool {
	return slices.ContainsFunc(it.sides(), func(s [2]int64) bool { return s[0] <= b.w && s[1] <= b.h })
}

// A frame is a question in the solvers' coordinates.
type frame struct {
	bins   []bin
	ux, uy int64 // nanometres in one unit along each axis
	items  []item
	owners [][]owner // for each item, the parts it stands for
}

// An owner is a part of the question and how many of it an item stands for.
type owner struct{ part, n int }

// newFrame adds the kerf, sorts the items of the parts (largest first), merges those of one size for which same holds,
// and takes out common divisors. Items that may be turned are kept with their longer side as width.
func newFrame(stock []Stock, kerf geom.Length, parts []Part, same func(i, j int) bool) *frame {
	f := &frame{}
	order := make([]int, 0, len(parts))
	sizes := make([]item, len(parts))
	for i, p := range parts {
		it := item{int64(p.Size.W + kerf), int64(p.Size.H + kerf), p.Count, p.Grain == Free && p.Size.W != p.Size.H}
		if it.turn && it.w < it.h {
			it.w, it.h = it.h, it.w
		}
		if sizes[i] = it; it.n > 0 {
			order = append(order, i)
		}
	}
	compare := func(i, j int) int {
		a, b := sizes[i], sizes[j]
		turn := 0
		if a.turn != b.turn {
			turn = 1
			if a.turn {
				turn = -1
			}
		}
		return cmp.Or(cmp.Compare(b.area(), a.area()), cmp.Compare(b.w, a.w), cmp.Compare(b.h, a.h), turn)
	}
	slices.SortStableFunc(order, compare)
	anyTurn := false
	for _, i := range order {
		at := len(f.items) - 1
		for at >= 0 && compare(f.owners[at][0].part, i) == 0 && !same(f.owners[at][0].part, i) {
			at--
		}
		if at >= 0 && compare(f.owners[at][0].part, i) == 0 {
			f.items[at].n += sizes[i].n
			f.owners[at] = append(f.owners[at], owner{i, sizes[i].n})
		} else {
			f.items = append(f.items, sizes[i])
			f.owners = append(f.owners, []owner{{i, sizes[i].n}})
		}
		f.ux, f.uy = gcd(f.ux, sizes[i].w), gcd(f.uy, sizes[i].h)
		anyTurn = anyTurn || sizes[i].turn
	}
	if anyTurn {
		f.ux = gcd(f.ux, f.uy)
		f.uy = f.ux
	}
	for i := range f.items {
		f.items[i].w, f.items[i].h = f.items[i].w/f.ux, f.items[i].h/f.uy
	}
	if len(f.items) > 0 {
		for _, s := range stock {
			f.bins = append(f.bins, bin{w: int64(s.Size.W+kerf) / f.ux, h: int64(s.Size.H+kerf) / f.uy, n: s.Count, cost: s.Cost})
		}
	}
	return f
}

func (f *frame) counts() []int {
	n := make([]int, len(f.items))
	for i, it := range f.items {
		n[i] = it.n
	}
	return n
}

// cheapest is the bin without a limit that an item fits at the least cost for its area.
func (f *frame) cheapest(it item) int {
	best := -1
	for b, s := range f.bins {
		if s.n == 0 && s.holds(it) && (best < 0 || float64(s.cost)*f.bins[best].area() < float64(f.bins[best].cost)*s.area()) {
			best = b
		}
	}
	return best
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// total is the sum of counts.
func total(counts []int) int {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	return sum
}
