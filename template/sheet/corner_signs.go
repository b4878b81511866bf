package sheet

import (
	"math"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/finding"
)

// jigSigns writes, on the part of the page that lies on the board, what must be seen once the flaps are folded: where the
// jig fits, which way the board's top is, and which fold is which. They stand where steps and table leave room.
func (m *maker) jigSigns(d *drawing.Drawing, page jigPage, room *clearing, j jig, side Side) {
	c := j.corners[0]
	add := func(near geom.Point, sizes ...[]drawing.Mark) {
		for _, marks := range sizes { // the largest that finds room
			for _, gap := range []geom.Length{4 * mm, 2 * mm} {
				if placed, ok := room.place(marks, near, gap); ok {
					d.Add(placed...)
					return
				}
			}
		}
	}
	if !c.onEdge() {
		lines := m.onlyAt(j)
		seen := "as you look at the " + strings.ToLower(string(side)) + ", TOP up"
		add(page.origin, legend(lines, seen, large), legend(lines, seen, medium), legend(lines, seen, small))
		sin, cos := math.Sincos(c.theta * math.Pi / 180)
		turn := c.theta
		if turn > 90 {
			turn -= 180
		}
		far := geom.Pt(page.origin.X+leastEdge.Times(cos), page.origin.Y+leastEdge.Times(sin))
		add(far, []drawing.Mark{drawing.Text{String: "fold b", Height: medium, Bold: true, Turn: turn}}, []drawing.Mark{label(geom.Point{}, small, drawing.Left, "fold b")})
	}
	add(geom.Pt(page.size.W, page.origin.Y), []drawing.Mark{drawing.Text{String: "fold a", Height: medium, Bold: true}}, []drawing.Mark{label(geom.Point{}, small, drawing.Left, "fold a")})
	for _, jc := range c.clips {
		words := m.wallHalves(j, jc)
		if words == nil {
			words = []string{"meets the wall half in the table"}
		}
		var lines []drawing.Mark
		for i, text := range words {
			lines = append(lines, label(geom.Pt(0, -linePitch*geom.Length(i)), small, drawing.Left, text))
		}
		add(jc.base.Bounds().Centre().Add(page.origin), lines)
	}
	for _, u := range j.uses() {
		add(page.reach.Centre(), topSign(u, side, medium), topSign(u, side, small))
	}
}

// A use is one way to turn a jig's page.
type use struct {
	turn float64  // as in corner
	at   []string // "LOWER LEFT", or "fold a on the BOTTOM EDGE"
}

// uses are the ways that a jig's page is turned, in the order of its corners.
func (j jig) uses() []use {
	var out []use
	for _, c := range j.corners {
		k := slices.IndexFunc(out, func(u use) bool { return math.Abs(math.Remainder(u.turn-c.turn, 360)) < 0.05 })
		if k < 0 {
			k, out = len(out), append(out, use{turn: c.turn})
		}
		if at := c.called(); !slices.Contains(out[k].at, at) {
			out[k].at = append(out[k].at, at)
		}
	}
	return out
}

// called is what a corner, or an edge jig's edge, is called in large letters: by its number where its place is not enough.
func (c corner) called() string {
	switch {
	case c.onEdge():
		return strings.ToUpper(c.a)
	case strings.Contains(c.name, ", "):
		return "CORNER " + c.no
	}
	return strings.ToUpper(c.name)
}

// onlyAt says on which corners a jig fits: "LOWER LEFT and UPPER RIGHT only" or "every corner", after the boards' names where there are
// several.
func (m *maker) onlyAt(j jig) []string {
	var boards []int
	called := map[int][]string{}
	for _, c := range j.corners {
		if called[c.board] == nil {
			boards = append(boards, c.board)
		}
		called[c.board] = append(called[c.board], c.called())
	}
	var out []string
	for i, b := range boards {
		same := func(other int) bool { return slices.Equal(called[other], called[b]) }
		if slices.ContainsFunc(boards[:i], same) {
			continue
		}
		line := finding.Listed(called[b]) + " only"
		if len(called[b]) == len(m.plan.Boards[b].Outline) {
			line = "every corner"
		}
		if len(m.plan.Boards) > 1 {
			var names []string
			for _, other := range boards[i:] {
				if same(other) {
					names = append(names, m.plan.Boards[other].Name)
				}
			}
			line = strings.Join(names, ", ") + ": " + line
		}
		out = append(out, line)
	}
	return out
}

// legend sets lines in bold letters, and a small one under them.
func legend(lines []string, under string, height geom.Length) []drawing.Mark {
	var out []drawing.Mark
	pitch := height + height/2
	for i, text := range lines {
		out = append(out, drawing.Text{At: geom.Pt(0, linePitch+pitch*geom.Length(len(lines)-1-i)), String: text, Height: height, Bold: true})
	}
	return append(out, label(geom.Point{}, small, drawing.Left, under))
}

// topSign is an arrow to the board's top with its words, to be read upright when the page lies as it is used there.
func topSign(u use, side Side, height geom.Length) []drawing.Mark {
	const high, half = 12 * mm, 3 * mm
	at := "at "
	if strings.HasSuffix(u.at[0], " EDGE") {
		at = "with fold a on the "
	}
	sin, cos := math.Sincos(u.turn * math.Pi / 180)
	back := geom.Affine{A: cos, B: sin, C: -sin, D: cos}
	point := func(x, y geom.Length) geom.Point { return back.Apply(geom.Pt(x, y)) }
	text := func(y, h geom.Length, bold bool, words string) drawing.Text {
		return drawing.Text{At: point(3*half, y), String: words, Height: h, Bold: bold, Turn: -u.turn}
	}
	return []drawing.Mark{
		drawing.Line{From: point(half, 0), To: point(half, high/2), Pen: drawing.Pen{Width: mm}},
		drawing.Path{Points: []geom.Point{point(half, high), point(0, high/2), point(2*half, high/2)}, Closed: true, Fill: drawing.Black},
		text(high/2, height, true, string(side)+" · TOP of the board this way"),
		text(mm, small, false, at+finding.Listed(u.at)),
	}
}

// A clearing is where nothing is drawn on the part of a jig that lies on the board.
type clearing struct {
	size   geom.Size
	origin geom.Point
	foldB  geom.Segment // what lies on the board is right of it; a point where there is none
	lines  []geom.Segment
	boxes  []geom.Rect
}

// clearing finds what is free on a page beside marks.
func (page jigPage) clearing(c corner, marks []drawing.Mark) *clearing {
	out := &clearing{size: page.size, origin: page.origin, foldB: geom.Segment{A: page.origin, B: page.origin}}
	if !c.onEdge() {
		sin, cos := math.Sincos(c.theta * math.Pi / 180)
		out.foldB.B = page.origin.Add(geom.Pt((500 * mm).Times(cos), (500 * mm).Times(sin)))
	}
	out.add(marks)
	return out
}

func (c *clearing) add(marks []drawing.Mark) {
	for _, m := range marks {
		if l, ok := m.(drawing.Line); ok && l.Pen == drawing.Hidden { // a fold: see free
			continue
		} else if ok {
			c.lines = append(c.lines, geom.Segment{A: l.From, B: l.To})
		} else {
			c.boxes = append(c.boxes, m.Bounds())
		}
	}
}

// free reports whether r lies on the board with nothing drawn nearer than the gap; the folds may be as near as any words.
func (c *clearing) free(r geom.Rect, gap geom.Length) bool {
	wide := r.Inset(-gap)
	if r.Max.X > c.size.W || r.Max.Y > c.size.H || r.Min.X < 0 || r.Min.Y < c.origin.Y+2*mm {
		return false
	}
	if c.foldB.A != c.foldB.B && slices.ContainsFunc(r.Inset(-2*mm).Polygon(), func(p geom.Point) bool { return c.foldB.Side(p) > 0 }) {
		return false
	}
	return !slices.ContainsFunc(c.boxes, wide.InteriorIntersects) &&
		!slices.ContainsFunc(c.lines, func(s geom.Segment) bool { return s.Intersects(wide.Inset(1)) })
}

// place moves marks to the free place nearest to a point, with a gap all round, which then is free no longer; ok is false
// where there is none.
func (c *clearing) place(marks []drawing.Mark, near geom.Point, gap geom.Length) (placed []drawing.Mark, ok bool) {
	const step = 3 * mm
	box := marks[0].Bounds()
	for _, m := range marks {
		box = box.Union(m.Bounds())
	}
	var move geom.Point
	least := geom.Length(math.MaxInt64)
	first := c.origin.Add(geom.Pt(step, step))
	for x := first.X - (first.X / step * step); x+box.W() <= c.size.W; x += step {
		for y := first.Y; y+box.H() <= c.size.H; y += step {
			by := geom.Pt(x, y).Sub(box.Min)
			at := box.Add(by)
			if d := at.Centre().Distance(near); d < least && c.free(at, gap) {
				move, least = by, d
			}
		}
	}
	if least == math.MaxInt64 {
		return nil, false
	}
	for _, m := range marks {
		placed = append(placed, drawing.Moved(m, move))
	}
	c.boxes = append(c.boxes, box.Add(move))
	return placed, true
}

// wallHalves says which wall halves a jig's clip comes to hang on, at each corner where they differ; nil where that takes
// a table.
func (m *maker) wallHalves(j jig, clip jigClip) []string {
	var at, place []string
	for _, c := range j.corners {
		k := slices.IndexFunc(c.clips, func(jc jigClip) bool { return jc.base.Bounds().Centre().Distance(clip.base.Bounds().Centre()) < mm/10 })
		use := c.called()
		if i := slices.Index(at, use); i < 0 {
			at, place = append(at, use), append(place, c.wall[k])
		} else if place[i] != c.wall[k] {
			return nil
		}
	}
	const looking = "as you look at the wall"
	panels := m.plan.Boards[j.corners[0].board].Panels
	oneBoard := !slices.ContainsFunc(j.corners, func(c corner) bool { return c.board != j.corners[0].board })
	switch {
	case !slices.ContainsFunc(place, func(p string) bool { return p != place[0] }):
		half := place[0]
		if oneBoard && len(panels) <= 3 {
			half += " of " + m.panelNames(panels)
		}
		return []string{"meets the wall half", half + ",", looking}
	case len(at) > 4:
		return nil
	}
	var out []string
	for i := range at {
		out = append(out, at[i]+": meets the wall half "+place[i])
	}
	return append(out, looking)
}
