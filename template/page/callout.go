package page

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

const linePitch = 42 * mm / 10

// leastPart is what a page must show of a long part to have words about it.
const leastPart = 3 * mm

// nearPart is how near to another part words would seem to be about it.
const nearPart = 9 * mm

// callouts places the words about what a window shows whole, then those about long parts that it shows some of. Words
// keep inside the window, off holes, off the parts that have words, and off each other, and cover as few lines as they
// can; where there is no such place they are left out.
func callouts(d *drawing.Drawing, w geom.Rect) []drawing.Mark {
	var shown []drawing.Callout
	var taken []geom.Rect
	var long []drawing.Callout
	for _, c := range d.Callouts {
		if c.Long {
			if c.About = c.About.Intersection(w); c.About.W() >= leastPart && c.About.H() >= leastPart {
				long = append(long, c)
			}
			continue
		}
		if w.Contains(c.About) || w.ContainsPoint(c.About.Centre()) {
			shown = append(shown, c)
		}
		taken = append(taken, c.About)
	}
	for _, h := range d.Holes {
		taken = append(taken, geom.Rect{Min: h.At, Max: h.At}.Inset(-h.Radius-5*mm))
	}
	var out []drawing.Mark
	behind := backgroundOf(w, d.Marks, stationLines(d, w))
	for _, c := range append(shown, long...) {
		size := geom.Size{H: geom.Length(len(c.Lines)) * linePitch}
		heads := max(1, c.Heads)
		for i, l := range c.Lines {
			size.W = max(size.W, font.Width(l, small, i < heads))
		}
		size.W += 2 * mm
		find := beside
		if c.Long {
			find = along
		}
		behind.parts = behind.parts[:0]
		for _, other := range d.Callouts {
			if near := other.About.Inset(-nearPart); !c.Long && !other.Long && other.About != c.About && near.InteriorIntersects(w) {
				behind.parts = append(behind.parts, near)
			}
		}
		best, found := find(c.About, size, w, taken, behind)
		if !found {
			continue
		}
		taken = append(taken, best)
		for i, l := range c.Lines {
			x := best.Min.X + mm
			if width := font.Width(l, small, i < heads); c.Long && x+width < c.About.Min.X {
				x = best.Max.X - mm - width // on a part at the window's right edge, as the longest line is
			}
			out = append(out, drawing.Text{
				At:     geom.Pt(x, best.Max.Y-linePitch/2-geom.Length(i)*linePitch),
				String: l, Height: small, Bold: i < heads, Level: drawing.Halfway, Halo: true,
			})
		}
	}
	return out
}

// beside finds a place round a part, or else farther and farther above and below it.
func beside(about geom.Rect, size geom.Size, w geom.Rect, taken []geom.Rect, behind background) (geom.Rect, bool) {
	const off = 15 * mm / 10
	centre := about.Centre()
	at := func(x, y geom.Length) geom.Rect { return geom.R(x, y, x+size.W, y+size.H) }
	right, left := about.Max.X+off, about.Min.X-off-size.W
	above, below := about.Max.Y+off, about.Min.Y-off-size.H
	middle, level := centre.X-size.W/2, centre.Y-size.H/2
	// Above or below, words may slide along to stay inside the window.
	slid := max(w.Min.X+off, min(middle, w.Max.X-off-size.W))
	var candidates []geom.Rect
	if w.Max.X-about.Max.X >= about.Min.X-w.Min.X {
		candidates = append(candidates, at(right, level), at(left, level))
	} else {
		candidates = append(candidates, at(left, level), at(right, level))
	}
	candidates = append(candidates, at(middle, above), at(middle, below), at(slid, above), at(slid, below),
		at(right, above), at(right, below), at(left, above), at(left, below))
	// Off a line through the part's middle.
	for _, y := range []geom.Length{centre.Y + off, centre.Y - off - size.H} {
		candidates = append(candidates, at(right, y), at(left, y))
	}
	// Past a line close to the part, as a stud's edge.
	const past = 4 * mm
	for _, y := range []geom.Length{level, centre.Y + off, centre.Y - off - size.H} {
		candidates = append(candidates, at(right+past, y), at(left-past, y))
	}
	if r, ok := behind.leastCovering(candidates, w, taken); ok {
		return r, true
	}
	candidates = candidates[:0]
	for far := 2 * size.H; far < w.H(); far += size.H {
		candidates = append(candidates, at(slid, above+far), at(slid, below-far))
	}
	return firstFree(candidates, w, taken)
}

// along finds a place inside a long part, from its middle towards its ends, on its middle line and then along its sides;
// where it is too narrow for words they stand out over its sides.
func along(part geom.Rect, size geom.Size, w geom.Rect, taken []geom.Rect, behind background) (geom.Rect, bool) {
	room := w.Inset(mm)
	centre := part.Centre()
	upright := part.H() >= part.W()
	reach, aside := part.W()/2, (part.H()-size.H)/2-mm
	if upright {
		reach, aside = part.H()/2, (part.W()-size.W)/2-mm
	}
	sides := []geom.Length{0}
	if aside > 0 {
		sides = append(sides, aside, -aside)
	}
	var candidates []geom.Rect
	for _, side := range sides {
		for far := geom.Length(0); far <= reach; far += linePitch {
			for _, d := range [2]geom.Length{far, -far} {
				at := centre.Add(geom.Pt(d, side))
				if upright {
					at = centre.Add(geom.Pt(side, d))
				}
				x := max(room.Min.X, min(at.X-size.W/2, room.Max.X-size.W))
				y := max(room.Min.Y, min(at.Y-size.H/2, room.Max.Y-size.H))
				candidates = append(candidates, geom.R(x, y, x+size.W, y+size.H))
			}
		}
	}
	// Words with too little air between them read as one.
	if r, ok := behind.leastCovering(candidates, w, inset(taken, -linePitch)); ok {
		return r, true
	}
	return behind.leastCovering(candidates, w, taken)
}

func inset(all []geom.Rect, by geom.Length) []geom.Rect {
	out := make([]geom.Rect, len(all))
	for i, r := range all {
		out[i] = r.Inset(by)
	}
	return out
}

// firstFree returns the first candidate that is inside the window and over nothing that is taken.
func firstFree(candidates []geom.Rect, w geom.Rect, taken []geom.Rect) (geom.Rect, bool) {
	for _, r := range candidates {
		if w.Contains(r) && !slices.ContainsFunc(taken, r.InteriorIntersects) {
			return r, true
		}
	}
	return geom.Rect{}, false
}
