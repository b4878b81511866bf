package cutting

import (
	"cmp"
	"math"
	"slices"

	"rodsheet/geom"
)

// Plan answers with the cheapest sheets found, and a bound that says how cheap they could be at best. It fails with a
// [*SizeError] for measures that make no sense and a [*TooLargeError] for a part that fits no stock. With no parts the
// layout is empty and proved.
func (s Sheets) Plan() (Layout, error) {
	if err := s.check(); err != nil {
		return Layout{}, err
	}
	f := newFrame(s.Stock, s.Kerf, s.Parts, func(i, j int) bool { return true })
	if len(f.items) == 0 {
		return Layout{BoundBy: ByArea, Proved: true}, nil
	}
	so := newSolver(f, 1)
	so.run()
	l := Layout{Cost: so.cost, Bound: so.bound, BoundBy: so.by, Proved: so.done()}
	e := newEmitter(f, s.Kerf, s.Parts)
	for _, p := range so.best {
		root := &node{w: f.bins[p.bin].w, h: f.bins[p.bin].h}
		tight(p.tree.keep(slices.Clone(p.counts)), f.items).lay(root, true)
		size := s.Stock[p.bin].Size
		u := e.emit(root, geom.Rect{Max: geom.Pt(size.W, size.H)})
		u.Stock = p.bin
		slices.SortStableFunc(u.Cuts, func(a, b Cut) int {
			return cmp.Or(cmp.Compare(a.Stage, b.Stage), cmp.Compare(b.fence(), a.fence()))
		})
		l.Used = append(l.Used, u)
		l.Waste.add(size, u)
	}
	return l, nil
}

// fence is the distance of the cut from the edge that the piece lies against the fence with.
func (c Cut) fence() geom.Length {
	if c.Across {
		return c.At - c.Of.Min.Y
	}
	return c.At - c.Of.Min.X
}

func (w *Waste) add(sheet geom.Size, u Used) {
	area := func(s geom.Size) float64 { return s.W.Millimetres() * s.H.Millimetres() }
	w.Sheets += area(sheet)
	for _, p := range u.Placed {
		w.Parts += area(p.Rect.Size())
	}
	for _, o := range u.Offcuts {
		w.Offcuts += area(o.Size())
	}
	w.Lost = math.Max(0, w.Sheets-w.Parts-w.Offcuts)
}
