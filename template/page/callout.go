package page

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/lettering"
)

const linePitch = 42 * mm / 10

// callouts places the words about what a window shows whole. Words keep inside the window, off holes, off the parts
// that have words, and off each other; where there is no such place they are left out.
func callouts(d *drawing.Drawing, w geom.Rect) []drawing.Mark {
	var shown []drawing.Callout
	var taken []geom.Rect
	for _, c := range d.Callouts {
		if w.Contains(c.About) || w.Has(c.About.Centre()) {
			shown = append(shown, c)
		}
		taken = append(taken, c.About)
	}
	for _, h := range d.Holes {
		taken = append(taken, geom.Rect{Min: h.At, Max: h.At}.Inset(-h.Radius-5*mm))
	}
	var out []drawing.Mark
	for _, c := range shown {
		size := geom.Size{H: geom.Length(len(c.Lines)) * linePitch}
		for i, l := range c.Lines {
			size.W = max(size.W, lettering.Width(l, small, i == 0))
		}
		size.W += 2 * mm
		best, found := beside(c.About, size, w, taken)
		if !found {
			continue
		}
		taken = append(taken, best)
		for i, l := range c.Lines {
			out = append(out, drawing.Text{
				At:     geom.Pt(best.Min.X+mm, best.Max.Y-linePitch/2-geom.Length(i)*linePitch),
				String: l, Height: small, Bold: i == 0, Level: drawing.Halfway, Halo: true,
			})
		}
	}
	return out
}

// beside tries places round a part, the nearest first.
func beside(about geom.Rect, size geom.Size, w geom.Rect, taken []geom.Rect) (geom.Rect, bool) {
	const off = 15 * mm / 10
	centre := about.Centre()
	at := func(x, y geom.Length) geom.Rect { return geom.R(x, y, x+size.W, y+size.H) }
	right, left := about.Max.X+off, about.Min.X-off-size.W
	above, below := about.Max.Y+off, about.Min.Y-off-size.H
	middle, level := centre.X-size.W/2, centre.Y-size.H/2
	// Above or below, words may slide along to stay inside the window.
	slid := max(w.Min.X+off, min(middle, w.Max.X-off-size.W))
	var tries []geom.Rect
	if w.Max.X-about.Max.X >= about.Min.X-w.Min.X {
		tries = append(tries, at(right, level), at(left, level))
	} else {
		tries = append(tries, at(left, level), at(right, level))
	}
	tries = append(tries, at(middle, above), at(middle, below), at(slid, above), at(slid, below),
		at(right, above), at(right, below), at(left, above), at(left, below))
	for far := 2 * size.H; far < w.H(); far += size.H {
		tries = append(tries, at(slid, above+far), at(slid, below-far))
	}
	free := func(r geom.Rect) bool {
		if !w.Contains(r) {
			return false
		}
		for _, t := range taken {
			if r.Overlaps(t) {
				return false
			}
		}
		return true
	}
	for _, r := range tries {
		if free(r) {
			return r, true
		}
	}
	return geom.Rect{}, false
}
