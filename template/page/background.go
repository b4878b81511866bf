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
	from, to geom.Point
	weight   geom.Length // the pen's width
}

// backgroundOf gathers what a window shows of marks.
func backgroundOf(w geom.Rect, marks ...[]drawing.Mark) background {
	var b background
	add := func(from, to geom.Point, pen drawing.Pen) {
		if pen.Width > 0 && meets(from, to, w) {
			b.strokes = append(b.strokes, stroke{from, to, pen.Width})
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
		if meets(s.from, s.to, r) {
			sum += s.weight
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

// meets tells whether a line touches a rectangle.
func meets(a, b geom.Point, r geom.Rect) bool {
	if max(a.X, b.X) < r.Min.X || min(a.X, b.X) > r.Max.X || max(a.Y, b.Y) < r.Min.Y || min(a.Y, b.Y) > r.Max.Y {
		return false
	}
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	lo, hi := 0.0, 1.0
	for _, side := range [...][2]float64{
		{dx, float64(r.Max.X - a.X)}, {-dx, float64(a.X - r.Min.X)}, {dy, float64(r.Max.Y - a.Y)}, {-dy, float64(a.Y - r.Min.Y)},
	} {
		switch d, room := side[0], side[1]; {
		case d == 0 && room < 0:
			return false
		case d > 0:
			hi = min(hi, room/d)
		case d < 0:
			lo = max(lo, room/d)
		}
	}
	return lo <= hi
}
