package sheet

import (
	"fmt"
	"math"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/layout"
	"rodsheet/template/typeset"
)

// mostBraces is how many corners a board may have for its distances from corner to corner to be given in one line.
const mostBraces = 8

// mostCorners is how many corners are worth setting out one by one; an outline of more, as a round one, is laid on.
const mostCorners = 48

// shapes show how boards that are no rectangles are marked out on one with a tape and a square alone: every corner by
// two measures from square edges, corners numbered as on the templates and jigs.
func (m *maker) shapes(high geom.Length) []typeset.Block {
	var out []typeset.Block
	for i := range m.plan.Boards {
		if b := &m.plan.Boards[i]; !b.Outline.IsRectangle() {
			out = append(out, m.shape(b, high)...)
		}
	}
	if len(out) == 0 {
		return nil
	}
	side := strings.ToLower(string(m.boardSide()))
	return append([]typeset.Block{
		typeset.Heading{Text: "Marking out boards that are no rectangles"},
		typeset.Para{Text: fmt.Sprintf("Cut each to its whole width and height first, square. Lay it with the %s towards you, top up, and set off every corner "+
			"from its left and its bottom edge; then join the marks and saw. No protractor is needed; the angles are for setting a saw. "+
			"A slope is told in degrees from level.", side)},
		typeset.Para{Text: "Foam is cut to the same shape. Cover and batting follow it, the wrap all round."},
	}, out...)
}

// shape is one board's picture, the table of its corners, and what to check.
func (m *maker) shape(b *layout.Board, high geom.Length) []typeset.Block {
	v := viewOf(b, m.boardSide())
	n := len(v.outline)
	name := "Board " + b.Name + ", " + m.panelNames(b.Panels) + ": out of " + m.sizeOf(b.Size)
	if b.Twin >= 0 {
		name += fmt.Sprintf("; board %s mirrored, not the same", m.plan.Boards[b.Twin].Name)
	}
	if n <= 5 { // few numbers need little room
		high = high * 2 / 3
	}
	blocks := []typeset.Block{
		typeset.Heading{Text: name},
		typeset.Figure{Drawing: m.shapeFigure(v, geom.Size{W: m.options.Field.W * 6 / 10, H: high})},
	}
	if n > mostCorners {
		return append(blocks, typeset.Para{Text: fmt.Sprintf("It has %d corners, too many to set out one by one: print its board template (print --only board), tape it, lay it on the board and saw along its line.", n)})
	}
	t := typeset.Table{Columns: []typeset.Column{{Head: "corner", Right: true}, {Head: "from left", Right: true}, {Head: "from bottom", Right: true},
		{Head: "to the next", Right: true}, {Head: "slope of that edge"}, {Head: "angle", Right: true}}}
	for i, at := range v.outline {
		next := v.outline[(i+1)%n]
		lean := "level"
		switch {
		case at.X == next.X:
			lean = "upright"
		case at.Y != next.Y:
			lean = m.slope(at, next)
		}
		t.Rows = append(t.Rows, typeset.Cells(fmt.Sprint(i+1), m.read(at.X-v.bounds.Min.X), m.read(at.Y-v.bounds.Min.Y),
			m.read(at.Distance(next)), lean, fmt.Sprintf("%.1f°", v.outline.Angle(i))))
	}
	blocks = append(blocks, t)
	if words := m.braceWords(v.outline); words != "" {
		blocks = append(blocks, typeset.Para{Text: "To check the cut board, from corner to corner: " + words + "."})
	}
	return []typeset.Block{typeset.Keep{Blocks: blocks}, typeset.Space{Height: 3 * mm}}
}

// shapeFigure draws a board in the rectangle that it is cut from, its corners numbered, to the scale that fits.
func (m *maker) shapeFigure(v view, most geom.Size) drawing.Drawing {
	const around = 6 * mm
	k := min(1, float64(most.W-2*around)/float64(v.bounds.W()), float64(most.H-2*around)/float64(v.bounds.H()))
	to := geom.Translate(geom.Point{}.Sub(v.bounds.Min)).Then(geom.Scale(k, k))
	shown := v.outline.Map(to)
	box := shown.Bounds()
	d := drawing.Drawing{Bounds: box.Inset(-around)}
	d.Add(outline(box.Polygon(), drawing.Hidden, drawing.Note), outline(shown, drawing.Wide, drawing.Note))
	for i, at := range shown {
		if len(shown) > mostCorners {
			break
		}
		n := len(v.outline)
		off := wideSide(v.outline[(i+n-1)%n], v.outline[i], v.outline[(i+1)%n], 4*mm)
		d.Add(drawing.Text{At: at.Add(off), String: fmt.Sprint(i + 1), Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true})
	}
	d.Add(drawing.Text{At: box.Centre(), String: string(v.side), Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true})
	return d
}

// wideSide is a step of length d from a corner into the wider of its two angles, halfway between its edges, where
// there is most room for words.
func wideSide(before, at, next geom.Point, d geom.Length) geom.Point {
	towards := func(p geom.Point) (x, y float64) {
		x, y = float64(p.X-at.X), float64(p.Y-at.Y)
		n := math.Hypot(x, y)
		return x / n, y / n
	}
	aX, aY := towards(before)
	bX, bY := towards(next)
	x, y := -aX-bX, -aY-bY
	if math.Hypot(x, y) < 1e-3 { // nearly straight: square to the edge, outward
		x, y = bY, -bX
	}
	n := math.Hypot(x, y)
	return geom.Pt(d.Times(x/n), d.Times(y/n))
}

// braces are the pairs of corners whose distances, with the sides, hold an outline in shape: both diagonals of four
// corners, else those from corner 0; none of a triangle, which its sides hold.
func braces(outline geom.Polygon) [][2]int {
	if len(outline) == 4 {
		return [][2]int{{0, 2}, {1, 3}}
	}
	var out [][2]int
	for i := 2; i < len(outline)-1; i++ {
		out = append(out, [2]int{0, i})
	}
	return out
}

// braceWords give the distances from corner to corner by their numbers; "" where there are none or too many for a line.
func (m *maker) braceWords(outline geom.Polygon) string {
	if len(outline) > mostBraces {
		return ""
	}
	var words []string
	for _, b := range braces(outline) {
		words = append(words, fmt.Sprintf("%d–%d %s", b[0]+1, b[1]+1, m.read(outline[b[0]].Distance(outline[b[1]]))))
	}
	return strings.Join(words, ", ")
}

// reach writes how far a place of a board is from an edge that a tape can be hooked to, or pushed against: across and
// up or down. Edges on the whole width and height come first, the nearer of two; then those of a notch, by the
// numbers of their corners. Where only slopes stand there, it is measured square from the corner that reaches as far
// as the board goes.
func (m *maker) reach(v view, at geom.Point) (across, up string) {
	side := func(spans []geom.Span, q, low, high geom.Length, names [2]string, level bool) string {
		var from, to geom.Length
		for _, s := range spans {
			if s.Contains(q) {
				from, to = s.From, s.To
			}
		}
		type end struct {
			at, d, whole geom.Length
			name         string
		}
		ends := []end{{from, q - from, low, names[0]}, {to, to - q, high, names[1]}}
		if q > low+(high-low)/2 {
			ends[0], ends[1] = ends[1], ends[0]
		}
		for _, whole := range []bool{true, false} {
			for _, e := range ends {
				edge, ok := v.squareEdge(e.at, at, level)
				switch {
				case !ok || whole != (e.at == e.whole):
				case whole:
					return m.read(e.d) + " from " + e.name
				default:
					return fmt.Sprintf("%s from edge %d–%d", m.read(e.d), edge+1, (edge+1)%len(v.outline)+1)
				}
			}
		}
		e := ends[0]
		way := "across"
		if level {
			way = "up"
			if e.whole == high {
				way = "down"
			}
		}
		return fmt.Sprintf("%s %s from corner %d", m.read((q - e.whole).Abs()), way, v.cornerAt(e.whole, level)+1)
	}
	b := v.bounds
	return side(v.outline.SpansAtY(at.Y), at.X, b.Min.X, b.Max.X, [2]string{"left", "right"}, false),
		side(v.outline.SpansAtX(at.X), at.Y, b.Min.Y, b.Max.Y, [2]string{"bottom", "top"}, true)
}

// squareEdge finds the edge that runs upright (or level) at the given place and stands beside (or over or under) at.
func (v view) squareEdge(place geom.Length, at geom.Point, level bool) (edge int, ok bool) {
	for i, a := range v.outline {
		b := v.outline[(i+1)%len(v.outline)]
		if level && a.Y == place && b.Y == place && min(a.X, b.X) <= at.X && at.X <= max(a.X, b.X) ||
			!level && a.X == place && b.X == place && min(a.Y, b.Y) <= at.Y && at.Y <= max(a.Y, b.Y) {
			return i, true
		}
	}
	return 0, false
}

// cornerAt is the first corner that stands at the given height, or at the given place across.
func (v view) cornerAt(place geom.Length, level bool) int {
	for i, a := range v.outline {
		if level && a.Y == place || !level && a.X == place {
			return i
		}
	}
	return 0
}
