package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/typeset"
)

// shims are the pads behind the wall halves, as many outlines as the pages hold.
func (m *maker) shims() []drawing.Sheet {
	s := m.plan.Shims
	if s.Thickness == 0 || s.Count == 0 {
		return nil
	}
	const gap = 6 * mm
	field := m.options.Field
	total := s.Count + s.Spares
	words := []typeset.Block{
		typeset.Title{Text: fmt.Sprintf("Cut %d pads of %s stock", total, m.read(s.Thickness))},
		typeset.Para{Text: fmt.Sprintf("%d pads, %d spare, each %s. One goes behind every wall half of the runs that share a plane, or none: a pad "+
			"behind some of them would set the panels out of line. Measure the stock: the plan counts with %s.", s.Count, s.Spares, m.sizeOf(s.Size), m.read(s.Thickness))},
		typeset.Para{Text: "Glue the paper on the stock, drill, then cut; or cut one pad and mark the others from it. All pads equal matters more than their size."},
	}
	const head = 40 * mm
	cols := max(1, int((field.W+gap)/(s.Size.W+gap)))
	rows := max(1, int((field.H-head+gap)/(s.Size.H+gap)))
	var d drawing.Drawing
	d.Bounds = geom.Rect{Max: geom.Pt(field.W, field.H)}
	more := setWords(&d, geom.R(0, field.H-head, field.W, field.H), words...)
	n := 0
	for r := range rows {
		for c := range cols {
			if n == total {
				break
			}
			n++
			at := geom.Pt(geom.Length(c)*(s.Size.W+gap), field.H-head-geom.Length(r+1)*(s.Size.H+gap)+gap)
			pad := geom.R(0, 0, s.Size.W, s.Size.H).Add(at)
			d.Add(outline(pad.Polygon(), drawing.Wide, drawing.Cut))
			for _, h := range m.plan.Job.Clip.Wall.Holes {
				hole(&d, pad.Centre().Add(h), m.marker()/2, "pad")
			}
		}
	}
	what := fmt.Sprintf("%d outlines on the page, %d pads to cut", n, total)
	return []drawing.Sheet{{
		Kind: Shim, Name: "shims", Title: "Pads behind the wall halves", For: what, Layout: drawing.SinglePage,
		Hint: "Outlines at actual size; measure the stock before you cut.", Drawings: append([]drawing.Drawing{d}, more...),
	}}
}
