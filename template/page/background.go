package page

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// A background is what of a drawing the words in a window would stand over or near.
type background struct {
	strokes []stroke
	words   []geom.Rect
	parts   []geom.Rect // others than the words are about, and what is near them
}

type stroke struct {
	line  geom.Segment
	width geom.Length // of the pen
}

// backgroundOf gathers what a window shows of marks.
func backgroundOf(w geom.Rect, marks ...[]drawing.Mark) background {
	var b background
	add := func(from, to geom.Point, pen drawing.Pen) {
		if line := (geom.Segment{A: from, B: to}); pen.Width > 0 && line.Intersects(w) {
			b.strokes = append(b.strokes, stroke{line, pen.Width})
		}
	}
	for _, list := range marks {
		for _, m := range list {
			switch m := m.(type) {
			case drawing.Line:
				add(m.From, m.To, m.Pen)
			case drawing.Path:
				for i := 1; i < len(m.Points); i++ {
					add(m.Points[i-1], m.Points[i], m.Pen)
				}
				if n := len(m.Points); m.Closed && n > 2 {
					add(m.Points[n-1], m.Points[0], m.Pen)
				}
			case drawing.Text:
				if r := m.Bounds(); r.InteriorIntersects(w) {
					b.words = append(b.words, r)
				}
			}
		}
	}
	return b
}

// cost weighs what words in r would cover: the widths of the strokes through it, far more for each part that they would
// seem to be about, and most for other words.
func (b background) cost(r geom.Rect) geom.Length {
	sum := geom.Length(0)
	for _, s := range b.strokes {
		if s.line.Intersects(r) {
			sum += s.width
		}
	}
	for _, part := range b.parts {
		if part.InteriorIntersects(r) {
			sum += 20 * mm
		}
	}
	for _, words := range b.words {
		if words.InteriorIntersects(r) {
			sum += 100 * mm
		}
	}
	return sum
}

// leastCovering returns the candidate of the least cost that is inside the window and over nothing that is taken; the
// first of equal ones.
func (b background) leastCovering(candidates []geom.Rect, w geom.Rect, taken []geom.Rect) (best geom.Rect, found bool) {
	least := geom.Length(0)
	for _, r := range candidates {
		if !w.Contains(r) || slices.ContainsFunc(taken, r.InteriorIntersects) {
			continue
		}
		if c := b.cost(r); !found || c < least {
			best, least, found = r, c, true
		}
		if least == 0 {
			break
		}
	}
	return best, found
}
