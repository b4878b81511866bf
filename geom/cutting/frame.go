package cutting

import (
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

// equals tells whether two items have one shape; counts don't matter.
func (it item) equals(o item) bool { return it.w == o.w && it.h == o.h && it.turn == o.turn }

// A frame is a question in the solvers' coordinates.
type frame struct {
	w, h   int64 // of the sheet, kerf included
	ux, uy int64 // nanometres in one unit along each axis
	items  []item
	owners [][]owner // for each item, the parts it stands for
}

// An owner is a part of the question and how many of it an item stands for.
type owner struct{ part, n int }

type piece struct {
	size geom.Size
	n    int
	turn bool
}

// newFrame adds the kerf, sorts the pieces (largest first), merges those of one size that are the same to the caller,
// and takes out common divisors.
// Turnable pieces are kept with their longer side as width.
func newFrame(usable geom.Size, kerf geom.Length, pieces []piece, same func(i, j int) bool) *frame {
	f := &frame{w: int64(usable.W + kerf), h: int64(usable.H + kerf)}
	type keyed struct {
		item
		part int
	}
	var all []keyed
	for i, p := range pieces {
		if p.n == 0 {
			continue
		}
		it := item{int64(p.size.W + kerf), int64(p.size.H + kerf), p.n, p.turn}
		if it.w == it.h {
			it.turn = false
		}
		if it.turn && it.w < it.h {
			it.w, it.h = it.h, it.w
		}
		all = append(all, keyed{it, i})
	}
	slices.SortStableFunc(all, func(a, b keyed) int {
		switch {
		case a.area() != b.area():
			return sign(b.area() - a.area())
		case a.w != b.w:
			return sign(float64(b.w - a.w))
		case a.h != b.h:
			return sign(float64(b.h - a.h))
		case a.turn != b.turn && a.turn:
			return -1
		case a.turn != b.turn:
			return 1
		}
		return 0
	})
	anyTurn := false
	for _, k := range all {
		at := len(f.items) - 1
		for at >= 0 && !(f.items[at].equals(k.item) && same(f.owners[at][0].part, k.part)) {
			if at--; at >= 0 && !f.items[at].equals(k.item) {
				at = -1
			}
		}
		if at >= 0 {
			f.items[at].n += k.n
			f.owners[at] = append(f.owners[at], owner{k.part, k.n})
		} else {
			f.items = append(f.items, k.item)
			f.owners = append(f.owners, []owner{{k.part, k.n}})
		}
		f.ux, f.uy = gcd(f.ux, k.w), gcd(f.uy, k.h)
		anyTurn = anyTurn || k.turn
	}
	if anyTurn {
		f.ux = gcd(f.ux, f.uy)
		f.uy = f.ux
	}
	if len(f.items) == 0 {
		f.ux, f.uy = 1, 1
	}
	f.w, f.h = f.w/f.ux, f.h/f.uy
	for i := range f.items {
		f.items[i].w, f.items[i].h = f.items[i].w/f.ux, f.items[i].h/f.uy
	}
	return f
}

// alike and distinct tell newFrame to merge all pieces of one size, or none.
func alike(i, j int) bool    { return true }
func distinct(i, j int) bool { return false }

func (f *frame) counts() []int {
	n := make([]int, len(f.items))
	for i, it := range f.items {
		n[i] = it.n
	}
	return n
}

func (f *frame) total() int {
	n := 0
	for _, it := range f.items {
		n += it.n
	}
	return n
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func sign(f float64) int {
	switch {
	case f < 0:
		return -1
	case f > 0:
		return 1
	}
	return 0
}
