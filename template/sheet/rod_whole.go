package sheet

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// longestRod is the longest rod that is laid whole: what a page of a PDF file can be (5080 mm) less what stands round a
// drawing, generously.
const longestRod = 4800 * mm

// strip gives a sheet its rod: whole where drawings are wanted whole and a page can be that long, else in pieces.
func (m *maker) strip(s drawing.Sheet, r rod) drawing.Sheet {
	from, to := r.ends()
	if !m.options.Whole || to-from > longestRod {
		s.Layout, s.Drawings = drawing.SinglePage, m.rodPages(r)
		return s
	}
	r.high = m.highRod(r)
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(to-from, r.high)}}
	m.rodPiece(&d, r, geom.Pt(-from, 0), []geom.Span{{From: from, To: to}}, 0)
	s.Layout, s.Drawings = drawing.Tiled, []drawing.Drawing{d}
	return s
}
