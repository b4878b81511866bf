package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

// Where a corner jig's corner stands on its page: the flap left of fold b, and the strip between the field's foot and
// fold a (the footer below it folds away with it).
const (
	flap     = 15 * mm
	foldFoot = 5 * mm
	// leastEdge is how much of each edge a jig must show to lie steady against the board.
	leastEdge = 80 * mm
	// jigWordsHigh and jigWordsWide are the least room for the words, above the holes or beside them.
	jigWordsHigh = 78 * mm
	jigWordsWide = 78 * mm
)

// awayFold is what is done at a fold; it stands on the flap, which is out of sight afterwards.
const awayFold = "fold away from you"

// A jigPage is where a jig lies on a page.
type jigPage struct {
	size   geom.Size  // of the page
	origin geom.Point // of the corner in the page
	reach  geom.Rect  // of bases and holes, in the page
	words  geom.Rect  // room for words
}

// jigPage lays a corner on a page; ok is false when it does not fit.
func (m *maker) jigPage(c corner) (page jigPage, ok bool) {
	reach, ok := m.clipBounds(c)
	if !ok || reach.Min.Y < -foldFoot {
		return jigPage{}, false
	}
	sin, cos := math.Sincos(c.theta * math.Pi / 180)
	edgeB := geom.Pt(leastEdge.Times(cos), leastEdge.Times(sin))
	left := min(0, edgeB.X, reach.Min.X)
	size := m.options.Field
	origin := geom.Pt(flap-left, foldFoot)
	if c.onEdge() {
		origin.X = size.W / 2
	}
	r := reach.Add(origin)
	above := geom.R(origin.X+8*mm, r.Max.Y+6*mm, size.W, size.H)
	if c.onEdge() {
		above.Min = geom.Pt(8*mm, r.Max.Y+12*mm)
		if above.H() < jigWordsHigh { // line b moves left, and the words go beside
			shift := origin.X + left - 8*mm - leastEdge/4
			origin.X -= shift
			r = r.Add(geom.Pt(-shift, 0))
		}
	}
	if r.Min.X < 0 || r.Max.X > size.W || r.Max.Y > size.H || origin.X+leastEdge > size.W || origin.Y+edgeB.Y > size.H {
		return jigPage{}, false
	}
	beside := geom.R(r.Max.X+8*mm, origin.Y+12*mm, size.W, size.H)
	words, ok := jigWordsRoom(above, beside, origin, c.theta)
	return jigPage{size: size, origin: origin, reach: r, words: words}, ok
}

// clipBounds returns the bounds of a corner's bases and holes in the jig's frame; ok is false where it has no clips.
func (m *maker) clipBounds(c corner) (bounds geom.Rect, ok bool) {
	grow := func(r geom.Rect) {
		if !ok {
			bounds, ok = r, true
		}
		bounds = bounds.Union(r)
	}
	for _, jc := range c.clips {
		grow(jc.base.Bounds())
		for _, h := range jc.holes {
			grow(geom.Rect{Min: h, Max: h}.Inset(-m.marker()/2 - 5*mm))
		}
	}
	return bounds, ok
}

// jigWordsRoom chooses where a jig's words go, above the holes or beside them; ok is false where neither has room.
func jigWordsRoom(above, beside geom.Rect, origin geom.Point, theta float64) (room geom.Rect, ok bool) {
	switch {
	case above.H() >= jigWordsHigh:
		room = above
	case beside.W() >= jigWordsWide:
		room = beside
	default:
		return geom.Rect{}, false
	}
	if theta >= 90 {
		return room, true
	}
	// Fold b leans over the room.
	sin, cos := math.Sincos(theta * math.Pi / 180)
	rightOfB := func(r geom.Rect) geom.Rect {
		r.Min.X = max(r.Min.X, origin.X+(r.Max.Y-origin.Y).Times(cos/sin)+8*mm)
		return r
	}
	if room = rightOfB(room); room.W() < jigWordsWide {
		room = rightOfB(beside)
	}
	return room, room.W() >= jigWordsWide
}

// jigSheet draws jig n.
func (m *maker) jigSheet(jigs []jig, n int, side Side) drawing.Sheet {
	j := jigs[n]
	c := j.corners[0]
	page, _ := m.jigPage(c)
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(page.size.W, page.size.H)}}
	if c.onEdge() {
		m.drawEdge(&d, page)
	} else {
		m.drawCorner(&d, page, c.theta)
	}
	for _, jc := range c.clips {
		m.jigClip(&d, page, c, jc)
	}
	more, pictured := m.jigText(&d, page, jigs, n, side)
	room := page.clearing(c, d.Marks)
	m.jigSigns(&d, page, room, j, side)
	if !pictured {
		m.jigPicturesApart(&d, page, room, j, side)
	}

	use := 0
	var boards []string
	for _, c := range j.corners {
		use += len(m.plan.Boards[c.board].Panels)
		if name := m.plan.Boards[c.board].Name; !slices.Contains(boards, name) {
			boards = append(boards, name)
		}
	}
	what := "board "
	if len(boards) > 1 {
		what = "boards "
	}
	hint := "Measure the board, fold both flaps away from you, push the folds against its edges, drill."
	if c.onEdge() {
		hint = "Fold the flap away from you, push the fold against the board's edge, line b on its mark, drill."
	}
	hint = m.keepApart("the wall") + hint
	return drawing.Sheet{
		Kind: Corner, Name: fmt.Sprintf("corner %d", n+1), Title: jigTitle(j, n), For: what + strings.Join(boards, ", "),
		Side: string(side), Use: use, Hint: hint, Layout: drawing.SinglePage, Drawings: append([]drawing.Drawing{d}, more...),
	}
}

// drawCorner draws two folds, to the page's border, and the cut from the border to where they meet, so that both flaps
// fold: one cut frees them, and leaves what stands at the page's foot whole.
func (m *maker) drawCorner(d *drawing.Drawing, page jigPage, theta float64) {
	o := page.origin
	sin, cos := math.Sincos(theta * math.Pi / 180)
	aEnd := geom.Pt(page.size.W, o.Y)
	reachB := (page.size.H - o.Y).Times(1 / sin)
	if cos < 0 { // fold b leaves the page on the left, else on the right or at the top
		reachB = min(reachB, o.X.Times(-1/cos))
	} else if cos > 0.001 {
		reachB = min(reachB, (page.size.W - o.X).Times(1/cos))
	}
	bEnd := geom.Pt(o.X+reachB.Times(cos), o.Y+reachB.Times(sin))
	d.Add(
		drawing.Line{From: o, To: aEnd, Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Line{From: o, To: bEnd, Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Line{From: geom.Pt(0, o.Y), To: o, Pen: drawing.Pen{Width: mm}, Role: drawing.Cut},
		drawing.Text{At: geom.Pt(mm, o.Y-4*mm), String: "cut here, on to the paper's edge", Height: small, Bold: true},
		drawing.Text{At: geom.Pt(page.size.W-4*mm, o.Y-4*mm), String: "fold a: " + awayFold, Height: small, Bold: true, Anchor: drawing.Right},
		alongFoldB(o, bEnd),
	)
}

// jigClip draws a base with its holes, and their distances from the folds below it, or above it where there is no room.
func (m *maker) jigClip(d *drawing.Drawing, page jigPage, c corner, jc jigClip) {
	o := page.origin
	sin, cos := math.Sincos(c.theta * math.Pi / 180)
	base := jc.base.Add(o)
	d.Add(outline(base, drawing.Narrow, drawing.Guide))
	box := base.Bounds()
	var lines []string
	for i, h := range jc.holes {
		hole(d, h.Add(o), m.marker()/2, "")
		text := m.read(h.Y) + " from fold a"
		if fromB := geom.Length(math.Round(float64(h.X)*sin - float64(h.Y)*cos)); !c.onEdge() {
			text += ", " + m.read(fromB) + " from fold b"
		} else if h.X != 0 {
			text += ", " + m.read(h.X.Abs()) + " from line b"
		}
		if len(jc.holes) > 1 {
			d.Add(label(h.Add(o).Add(geom.Pt(m.marker()/2+mm, m.marker()/2+mm)), small, drawing.Left, fmt.Sprint(i+1)))
			text = fmt.Sprintf("%d: ", i+1) + text
		}
		lines = append(lines, text)
	}
	y, high := box.Min.Y-5*mm, linePitch*geom.Length(len(lines))
	if y-high < o.Y {
		y = box.Max.Y + high - small/2
	}
	for i, text := range lines {
		half := font.Width(text, small, false)/2 + mm
		x := max(half, min(box.Centre().X, page.size.W-half))
		line := func(at geom.Length) geom.Rect {
			return geom.R(at-half, y-linePitch*geom.Length(i+1), at+half, y-linePitch*geom.Length(i)+small)
		}
		if c.onEdge() { // beside line b
			for _, at := range []geom.Length{o.X + mm + half, o.X - mm - half} {
				if words := line(at); words.Min.X >= 0 && words.Max.X <= page.size.W && !words.InteriorIntersects(page.words) {
					x = at
					break
				}
			}
		} else if line(x).InteriorIntersects(page.words) { // left of the words beside it
			x = max(half, page.words.Min.X-3*mm-half)
		}
		d.Add(drawing.Text{At: geom.Pt(x, y-linePitch*geom.Length(i)), String: text, Height: small, Anchor: drawing.Middle, Halo: true})
	}
}

// drawEdge draws one fold, and line b that is set by tape: it runs on over the flap, to a notch that shows the mark on the
// board's edge.
func (m *maker) drawEdge(d *drawing.Drawing, page jigPage) {
	o := page.origin
	const notch = 4 * mm
	foot := o.Sub(geom.Pt(0, foldFoot))
	d.Add(
		drawing.Line{From: geom.Pt(0, o.Y), To: geom.Pt(page.size.W, o.Y), Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Line{From: o, To: geom.Pt(o.X, page.reach.Max.Y+8*mm), Pen: drawing.Pen{Width: drawing.NarrowWidth, Style: drawing.Chain}, Role: drawing.Guide},
		drawing.Line{From: foot, To: geom.Pt(o.X, o.Y+12*mm), Pen: drawing.Narrow, Role: drawing.Guide},
		outline([]geom.Point{o, foot.Sub(geom.Pt(notch, 0)), foot.Add(geom.Pt(notch, 0))}, drawing.Wide, drawing.Cut),
		drawing.Text{At: geom.Pt(o.X-notch-2*mm, o.Y-4*mm), String: "cut the notch out", Height: small, Bold: true, Anchor: drawing.Right},
		drawing.Text{At: geom.Pt(page.size.W-4*mm, o.Y-4*mm), String: "fold a: " + awayFold, Height: small, Bold: true, Anchor: drawing.Right},
		drawing.Text{At: geom.Pt(o.X-3*mm, o.Y+5*mm), String: "line b", Height: medium, Bold: true, Anchor: drawing.Right},
	)
}

func jigTitle(j jig, n int) string {
	if j.corners[0].onEdge() {
		return fmt.Sprintf("Edge jig %d", n+1)
	}
	return fmt.Sprintf("Corner jig %d", n+1)
}

// alongFoldB writes along fold b, on its flap.
func alongFoldB(o, end geom.Point) drawing.Text {
	at := geom.Segment{A: o, B: end}.Parallel(3 * mm).Middle()
	turn := math.Atan2(float64(end.Y-o.Y), float64(end.X-o.X)) * 180 / math.Pi
	level := drawing.Baseline
	if turn > 90 {
		turn, level = turn-180, drawing.Top
	}
	return drawing.Text{At: at, String: "fold b: " + awayFold, Height: small, Bold: true, Anchor: drawing.Middle, Level: level, Turn: turn}
}
