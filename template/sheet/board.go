package sheet

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan"
	"rodsheet/template/plan/layout"
)

// A view is a board as one of its sides is seen. Everything on a board template goes through it, so that back and
// face cannot disagree.
type view struct {
	side    Side
	to      geom.Affine  // from board coordinates
	outline geom.Polygon // as seen, normalized
	bounds  geom.Rect
}

// boardSide is the side that boards are drawn from.
func (m *maker) boardSide() Side {
	if m.options.Faces {
		return Face
	}
	return Back
}

func viewOf(b *layout.Board, side Side) view {
	v := view{side: side, to: geom.Identity(), outline: b.Outline}
	if side == Back {
		v.to, v.outline = geom.FlipX(b.Size.W), b.Outline.Mirror(b.Size.W)
	}
	v.bounds = v.outline.Bounds()
	return v
}

// base is the outline of a clip's board half as seen.
func (v view) base(p *plan.Plan, c *layout.Clip) geom.Rect {
	half := geom.Pt(p.Job.Clip.Board.Base.W/2, p.Job.Clip.Board.Base.H/2)
	at := v.to.Apply(c.Board)
	return geom.Rect{Min: at.Sub(half), Max: at.Add(half)}
}

// boardName is the name of a board's template, as refs use it.
func boardName(b *layout.Board) string { return "board " + b.Name }

// boards are the drill templates of the different boards, each drawn once for all panels that share it.
func (m *maker) boards() []drawing.Sheet {
	side := m.boardSide()
	var out []drawing.Sheet
	for i := range m.plan.Boards {
		b := &m.plan.Boards[i]
		out = append(out, drawing.Sheet{
			Kind: Board, Name: boardName(b), Title: "Board template " + b.Name, For: "panels " + m.panelNames(b.Panels),
			Side: string(side), Use: len(b.Panels), Layout: drawing.Tiled, Landscape: true, Upright: true,
			Hint:     m.boardHint(side),
			Drawings: []drawing.Drawing{m.board(b, side)},
		})
	}
	return out
}

func (m *maker) boardHint(side Side) string {
	hint := "Tape the pages, lay"
	if m.options.Whole {
		hint = "Lay"
	}
	return m.keepApart("the wall") + hint + " the outline on the board's " + strings.ToLower(string(side)) + ", arrow up."
}

// keepApart warns where one hole must not mark both halves; it comes first, since a page cuts a hint that runs too long.
func (m *maker) keepApart(other string) string {
	if m.plan.Screws.DrillThrough {
		return ""
	}
	return "DO NOT DRILL THROUGH: " + other + " has a template of its own. "
}

func (m *maker) panelNames(panels []int) string { return m.plan.PanelNames(panels) }

// board draws one board at actual size, from the given side.
func (m *maker) board(b *layout.Board, side Side) drawing.Drawing {
	v := viewOf(b, side)
	var d drawing.Drawing
	d.Bounds, d.Shape = v.bounds, v.outline

	// Behind all else: the land that must stay free for staples.
	for _, inner := range m.land(v.outline) {
		d.Add(outline(inner, drawing.Faint, drawing.Note))
		for i, a := range inner {
			m.landWords(&d, a, inner[(i+1)%len(inner)])
		}
	}
	centre := v.bounds.Centre()
	d.Add(
		drawing.Line{From: geom.Pt(centre.X, v.bounds.Min.Y), To: geom.Pt(centre.X, v.bounds.Max.Y), Pen: drawing.Centre, Role: drawing.Guide},
		drawing.Line{From: geom.Pt(v.bounds.Min.X, centre.Y), To: geom.Pt(v.bounds.Max.X, centre.Y), Pen: drawing.Centre, Role: drawing.Guide},
		outline(v.outline, drawing.Wide, drawing.Cut),
	)
	m.boardWords(&d, v, b)
	for i := range b.Clips {
		m.boardClip(&d, v, b, &b.Clips[i])
	}
	if n := len(b.Outline); n <= mostCorners && !b.Outline.IsRectangle() {
		m.sides(&d, v)
	}
	return d
}

// landWords name the staple land along its inner border, often enough that most pages of a template show it.
func (m *maker) landWords(d *drawing.Drawing, a, b geom.Point) {
	const every = 170 * mm
	n := max(1, a.Distance(b)/every)
	for i := range n {
		along := func(k geom.Length) geom.Point {
			part := float64(k) / float64(n)
			return a.Add(geom.Pt((b.X - a.X).Times(part), (b.Y - a.Y).Times(part)))
		}
		words := alongEdge(along(i), along(i+1), -5*mm, "staple land: no clip here")
		d.Groups = append(d.Groups, drawing.Group{Marks: []drawing.Mark{words}, Along: geom.Segment{A: along(i), B: along(i + 1)}.Parallel(-5 * mm)})
	}
}

// land is the outline inside which nothing is stapled.
func (m *maker) land(outline geom.Polygon) []geom.Polygon {
	inner, err := outline.Offset(-m.plan.Wrap.Land, mitre)
	if err != nil {
		return nil
	}
	return inner
}

// mitre is how many times the distance a sharp corner may reach before it is cut off.
const mitre = 4

// boardClip draws a clip's base, its holes and their distances from two edges, so that a tape can check them.
func (m *maker) boardClip(d *drawing.Drawing, v view, b *layout.Board, c *layout.Clip) {
	base := v.base(m.plan, c)
	d.Add(outline(base.Polygon(), drawing.Narrow, drawing.Guide))
	words := drawing.Callout{About: base}
	for i, h := range c.BoardHoles {
		at := v.to.Apply(h)
		hole(d, at, m.marker()/2, c.Place)
		name := ""
		if len(c.BoardHoles) > 1 {
			name = fmt.Sprintf("%d: ", i+1)
			d.Add(label(at.Add(geom.Pt(m.marker()/2+mm, m.marker()/2+mm)), small, drawing.Left, fmt.Sprint(i+1)))
		}
		across, up := m.reach(v, at)
		words.Lines = append(words.Lines, name+across+", "+up)
	}
	words.Heads = len(words.Lines) // one hole is no more than another
	words.Lines = append(words.Lines, m.boardDrill())
	d.Callouts = append(d.Callouts, words)
}

// boardWords writes what a stranger must know in the middle of the board, not of a notch in it, or on the page next to
// that.
func (m *maker) boardWords(d *drawing.Drawing, v view, b *layout.Board) {
	var words drawing.Drawing
	at := v.bounds.Centre()
	if middle := v.outline.Centroid(); v.outline.ContainsPoint(middle) {
		at = middle
	}
	width := m.sizeOf(b.Size)
	lines := []drawing.Text{
		{String: string(v.side) + " of board " + b.Name, Height: 7 * mm, Bold: true},
		{String: "panels " + m.panelNames(b.Panels), Height: large},
		{String: width + ", both diagonals " + m.read(geom.Pt(0, 0).Distance(geom.Pt(b.Size.W, b.Size.H))), Height: medium},
		{String: "grey line: staple land, " + m.read(m.plan.Wrap.Land) + " wide, no clip on it", Height: small},
	}
	if v.side == Back {
		lines = append(lines, drawing.Text{String: "left is left as you see it here", Height: small})
	}
	if !b.Outline.IsRectangle() {
		lines[2].String = width + " over all"
		if words := m.braceWords(v.outline); words != "" {
			lines = append(lines, drawing.Text{String: "corner to corner " + words, Height: small})
		}
	}
	y := at.Y - 4*mm
	for _, t := range lines {
		y -= t.Height
		t.At, t.Anchor, t.Halo = geom.Pt(at.X, y), drawing.Middle, true
		words.Add(t)
		y -= t.Height * 8 / 10
	}
	upArrow(&words, geom.Pt(at.X, at.Y+3*mm), min(45*mm, v.bounds.H()/4))
	d.Groups = append(d.Groups, drawing.Group{Marks: words.Marks})
}

// sides writes length and slope of every edge along it, and at each corner its number and its two measures from the
// square edges of the whole width and height.
func (m *maker) sides(d *drawing.Drawing, v view) {
	n := len(v.outline)
	about := func(p geom.Point) geom.Rect { return geom.Rect{Min: p, Max: p}.Inset(-mm) }
	for i, a := range v.outline {
		b := v.outline[(i+1)%n]
		text := m.read(a.Distance(b))
		if a.X != b.X && a.Y != b.Y {
			text += ", " + m.slope(a, b)
		}
		if along := alongEdge(a, b, 3*mm, text); font.Width(text, small, false) < a.Distance(b)-6*mm {
			d.Add(along)
		} else { // too short for its words
			middle := geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2)
			d.Callouts = append(d.Callouts, drawing.Callout{About: about(middle), Lines: []string{text}})
		}
	}
	for i, c := range v.outline {
		words := []string{fmt.Sprintf("corner %d", i+1)}
		if !v.square(c) {
			words = append(words, fmt.Sprintf("%s from left, %s from bottom", m.read(c.X-v.bounds.Min.X), m.read(c.Y-v.bounds.Min.Y)))
		}
		// Off the outline's level edges.
		off := geom.Pt(0, 7*mm)
		if c.Y > v.bounds.Centre().Y {
			off.Y = -off.Y
		}
		d.Callouts = append(d.Callouts, drawing.Callout{About: about(c.Add(off)), Lines: words})
	}
}

// square reports whether a corner is one of the whole rectangle's.
func (v view) square(c geom.Point) bool {
	return (c.X == v.bounds.Min.X || c.X == v.bounds.Max.X) && (c.Y == v.bounds.Min.Y || c.Y == v.bounds.Max.Y)
}
