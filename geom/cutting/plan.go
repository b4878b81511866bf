package cutting

import (
	"math"

	"rodsheet/geom"
)

// Plan answers with the fewest sheets found, and a bound that says how few they could be at best. It fails with a
// [*SizeError] for measures that make no sense and a [*TooLargeError] for a part that fits no sheet. With no parts
// the layout is empty and proved.
func (s Sheets) Plan() (Layout, error) {
	if err := s.check(); err != nil {
		return Layout{}, err
	}
	usable := s.Sheet.Usable()
	f := newFrame(usable.Size(), s.Kerf, s.pieces(), alike)
	if len(f.items) == 0 {
		return Layout{BoundBy: ByArea, Proved: true}, nil
	}
	se := newSearch(f)
	se.run()

	l := Layout{Bound: se.bound, BoundBy: se.by, Proved: len(se.best) == se.bound}
	sizes := make([]geom.Size, len(s.Parts))
	for i, p := range s.Parts {
		sizes[i] = p.Size
	}
	w := newWriter(f, s.Kerf, sizes)
	for _, root := range se.best {
		l.Used = append(l.Used, w.sheet(root, usable))
	}
	l.Waste = s.waste(l.Used)
	return l, nil
}

func (s Sheets) pieces() []piece {
	out := make([]piece, len(s.Parts))
	for i, p := range s.Parts {
		out[i] = piece{p.Size, p.Count, p.Grain == Free}
	}
	return out
}

func (s Sheets) waste(used []Used) Waste {
	var w Waste
	for _, u := range used {
		w.Sheets += area(s.Sheet.Size)
		for _, p := range u.Placed {
			w.Parts += area(p.Rect.Size())
		}
		for _, o := range u.Offcuts {
			w.Offcuts += area(o.Size())
		}
	}
	w.Lost = math.Max(0, w.Sheets-w.Parts-w.Offcuts)
	return w
}

func area(s geom.Size) float64 { return s.W.Millimetres() * s.H.Millimetres() }
