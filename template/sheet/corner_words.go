package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/typeset"
)

// jigText writes how the jig is used, and on which corners; it returns the pages that take what finds no room, and whether
// pictures of the boards are among what it wrote.
func (m *maker) jigText(d *drawing.Drawing, page jigPage, jigs []jig, n int, side Side) (more []drawing.Drawing, pictured bool) {
	j := jigs[n]
	title := jigTitle(j, n)
	blocks := append([]typeset.Block{typeset.Title{Text: title}}, typeset.Steps(m.jigSteps(j, side)...)...)
	table, numbered := m.jigTable(j)
	mirror := j.corners[0].mirrored().key()
	for k := range jigs {
		if k != n && jigs[k].key == mirror {
			blocks = append(blocks, typeset.Para{Bold: true, Text: fmt.Sprintf("Jig %d is this one mirrored, with its own page. Don't turn this page over for it.", k+1)})
		}
	}
	mentioned := map[int]bool{}
	for _, c := range j.corners {
		if also := m.otherJigs(jigs, n, c.board); also != "" && !mentioned[c.board] {
			mentioned[c.board] = true
			blocks = append(blocks, typeset.Para{Text: also})
		}
	}
	heading := typeset.Heading{Text: "Where, as you look at the " + strings.ToLower(string(side)) + ", top edge up"}
	var key []typeset.Block
	if numbered {
		key = append(key, typeset.Para{Text: "no.: the corners by their numbers on Cut and buy."})
	}
	where := func(table typeset.Table) []typeset.Block { return slices.Concat([]typeset.Block{heading, table}, key) }
	pictures := func(width geom.Length) []typeset.Block { return m.jigPictures(j, side, width, jigCell) }
	// As much as the page has room for: with pictures, without them, without the panels' names (the overview has them);
	// beside the steps, or elsewhere on the page; or else the table on a page of its own.
	if setInside(d, page.words, slices.Concat(blocks, where(table), pictures(page.words.W()))) ||
		setApart(d, page, blocks, func(width geom.Length) []typeset.Block { return append(where(table), pictures(width)...) }) {
		return nil, true
	}
	for _, table := range []typeset.Table{table, withoutPanels(table)} {
		if setInside(d, page.words, slices.Concat(blocks, where(table))) ||
			setApart(d, page, blocks, func(geom.Length) []typeset.Block { return where(table) }) {
			return nil, false
		}
	}
	addMoved(d, typeset.Set(page.words.Size(), append(blocks, typeset.Para{Bold: true, Text: "Where: the table is on the next page."})...)[0], page.words.Min)
	return typeset.Set(m.options.Field, slices.Concat([]typeset.Block{typeset.Title{Text: title}}, where(table), pictures(m.options.Field.W))...), true
}

// jigPicturesApart sets pictures where steps, table and signs leave room, as large and as broad as they find it. It is of
// no effect where there is none.
func (m *maker) jigPicturesApart(d *drawing.Drawing, page jigPage, room *clearing, j jig, side Side) {
	for _, cell := range []geom.Size{jigCell, {W: 20 * mm, H: 15 * mm}, {W: 18 * mm, H: 12 * mm}} {
		for across := len(j.corners); across > 0; across-- {
			width := geom.Length(across)*(cell.W+4*mm) - 4*mm
			marks, ok := fitted(geom.Rect{Max: geom.Pt(width, page.size.H)}, m.jigPictures(j, side, width, cell))
			if !ok {
				continue
			}
			if placed, ok := room.place(marks, page.reach.Centre(), 2*mm); ok {
				d.Add(placed...)
				return
			}
		}
	}
}

// setInside sets blocks in a part of a drawing; it reports whether they fit there, and adds nothing where they don't.
func setInside(d *drawing.Drawing, room geom.Rect, blocks []typeset.Block) bool {
	words, ok := fitted(room, blocks)
	if ok {
		d.Add(words...)
	}
	return ok
}

// fitted returns blocks as they are set in a part of a drawing; ok is false where they don't fit.
func fitted(room geom.Rect, blocks []typeset.Block) (marks []drawing.Mark, ok bool) {
	set := typeset.Set(room.Size(), blocks...)
	if len(set) != 1 {
		return nil, false
	}
	for _, m := range set[0].Marks {
		if b := m.Bounds(); b.Max.X > room.W() || b.Min.Y < 0 {
			return nil, false
		}
		marks = append(marks, drawing.Moved(m, room.Min))
	}
	return marks, true
}

// setApart sets a jig's steps in the room for words and the rest under them or under the bases, where nothing else is
// drawn; it reports whether both fit, and adds nothing where they don't.
func setApart(d *drawing.Drawing, page jigPage, steps []typeset.Block, rest func(width geom.Length) []typeset.Block) bool {
	const apart = 8 * mm
	words, ok := fitted(page.words, steps)
	if !ok {
		return false
	}
	end := page.words.Max.Y // of the steps
	for _, w := range words {
		end = min(end, w.Bounds().Min.Y)
	}
	low := page.origin.Y + 12*mm
	left, right := page.origin.X+8*mm, page.size.W
	for _, room := range []geom.Rect{
		geom.R(left, low, right, min(end, page.reach.Min.Y)-apart),
		geom.R(left, low, right, min(end, page.reach.Min.Y)-apart-3*linePitch), // under the words below a base
		geom.R(page.reach.Max.X+8*mm, low, right, end-apart),
		geom.R(8*mm, low, page.origin.X-8*mm, end-apart), // left of an edge jig's line b
	} {
		if room.W() < 40*mm || room.H() < 20*mm {
			continue
		}
		if marks, ok := fitted(room, rest(room.W())); ok && clearOf(d.Marks, marks, apart/2) {
			d.Add(words...)
			d.Add(marks...)
			return true
		}
	}
	return false
}

// clearOf reports whether no mark of the one list comes nearer than gap to the rectangle round those of the other.
func clearOf(drawn, marks []drawing.Mark, gap geom.Length) bool {
	box := marks[0].Bounds()
	for _, m := range marks {
		box = box.Union(m.Bounds())
	}
	box = box.Inset(-gap)
	return !slices.ContainsFunc(drawn, func(m drawing.Mark) bool {
		switch m := m.(type) {
		case drawing.Line:
			return geom.Segment{A: m.From, B: m.To}.Intersects(box)
		default:
			return m.Bounds().Intersects(box)
		}
	})
}

// jigSteps are how a jig is used.
func (m *maker) jigSteps(j jig, side Side) []string {
	var sizes []string
	seen := map[int]bool{}
	for _, c := range j.corners {
		if b := &m.plan.Boards[c.board]; !seen[c.board] {
			seen[c.board] = true
			sizes = append(sizes, fmt.Sprintf("board %s %s", b.Name, m.checkWords(b)))
		}
	}
	measure := "Measure width, height and both diagonals first: " + strings.Join(sizes, "; ") + ". Off by more than " + m.read(m.plan.Job.Clip.Play/2) +
		": use the board template (print --only board)."
	lay := "Lay the board " + strings.ToLower(string(side)) + " up. "
	if j.corners[0].onEdge() {
		return []string{
			measure,
			"Cut the notch out. Fold the flap away from you, sharply, on the dashed line. Mark the board's edge at the distance in the table, with the tape.",
			lay + "Push the fold hard against its edge, line b on the mark, which the notch shows, tape, " + m.boardDrill() + ".",
		}
	}
	fold := "Cut in along the thick line, from the paper's edge to where the folds meet. Fold both flaps away from you, sharply, on the dashed lines."
	if off := math.Abs(j.corners[0].theta - 90); off > 0.05 {
		fold += fmt.Sprintf(" They meet at %.1f°: %s off square.", j.corners[0].theta, m.lean(math.Tan(off*math.Pi/180)))
	}
	return []string{measure, fold, lay + "Push both folds hard against its edges, tape, " + m.boardDrill() + "."}
}

// jigTable says on which corners a jig is used; numbered reports whether corners have the numbers they are marked out by.
func (m *maker) jigTable(j jig) (table typeset.Table, numbered bool) {
	edge := j.corners[0].onEdge()
	table.Columns = []typeset.Column{{Head: "board"}, {Head: "corner"}, {Head: "fold a on"}, {Head: "fold b on"}, {Head: "panels", Wrap: true}}
	if edge {
		table.Columns = []typeset.Column{{Head: "board"}, {Head: "fold a on"}, {Head: "line b at"}, {Head: "from corner"}, {Head: "panels", Wrap: true}}
	}
	for _, c := range j.corners {
		b := &m.plan.Boards[c.board]
		if edge {
			table.Rows = append(table.Rows, typeset.Cells(b.Name, c.a, m.read(c.along), c.name, m.panelNames(b.Panels)))
			continue
		}
		table.Rows = append(table.Rows, typeset.Cells(b.Name, c.name, c.a, c.b, m.panelNames(b.Panels)))
	}
	insert := func(head string, cell func(c corner) string) {
		last := len(table.Columns) - 1
		table.Columns = slices.Insert(table.Columns, last, typeset.Column{Head: head})
		for i, c := range j.corners {
			table.Rows[i] = slices.Insert(table.Rows[i], last, typeset.Cell{Text: cell(c)})
		}
	}
	if slices.ContainsFunc(j.corners[0].clips, func(jc jigClip) bool { return m.wallHalves(j, jc) == nil }) {
		insert("on the wall", func(c corner) string { return strings.Join(c.wall, ", ") })
	}
	numbered = slices.ContainsFunc(j.corners, func(c corner) bool { return c.no != "" })
	if numbered {
		insert("no.", func(c corner) string { return c.no })
	}
	return table, numbered
}

// otherJigs says which further jigs a board needs.
func (m *maker) otherJigs(jigs []jig, n, board int) string {
	var others []string
	for k, j := range jigs {
		if k != n && slices.ContainsFunc(j.corners, func(c corner) bool { return c.board == board }) {
			others = append(others, fmt.Sprint(k+1))
		}
	}
	switch len(others) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("Board %s takes jig %s too.", m.plan.Boards[board].Name, others[0])
	}
	return fmt.Sprintf("Board %s takes jigs %s too.", m.plan.Boards[board].Name, finding.Listed(others))
}

// jigCell is how large a picture of a board is on a jig.
var jigCell = geom.Size{W: 26 * mm, H: 20 * mm}

// jigPictures show each board small, its top up, with the edges that the folds lie on and the clips that are drilled
// from there.
func (m *maker) jigPictures(j jig, side Side, width geom.Length, size geom.Size) []typeset.Block {
	cell, high := size.W, size.H
	const beside = 35 * mm / 10 // the folds' letters, outside the edges
	across := max(1, int((width+4*mm)/(cell+4*mm)))
	var out []typeset.Block
	for from := 0; from < len(j.corners); from += across {
		row := j.corners[from:min(from+across, len(j.corners))]
		d := drawing.Drawing{Bounds: geom.R(0, -7*mm, geom.Length(len(row))*(cell+4*mm)-4*mm, 0)}
		for i, c := range row {
			v := viewOf(&m.plan.Boards[c.board], side)
			k := min(float64(cell-2*beside)/float64(v.bounds.W()), float64(high)/float64(v.bounds.H()))
			left := geom.Length(i)*(cell+4*mm) + (cell-v.bounds.W().Times(k))/2
			to := geom.Scale(k, k).Then(geom.Translate(geom.Pt(left, 0)))
			n := len(v.outline)
			shape := v.outline.Map(to)
			d.Bounds.Max.Y = max(d.Bounds.Max.Y, shape.Bounds().Max.Y+beside)
			d.Add(outline(shape, drawing.Narrow, drawing.Note))
			thick := drawing.Pen{Width: 12 * mm / 10}
			d.Add(drawing.Line{From: shape[c.at], To: shape[(c.at+1)%n], Pen: thick})
			letterEdge(&d, shape[c.at], shape[(c.at+1)%n], "a")
			if !c.onEdge() {
				d.Add(drawing.Line{From: shape[(c.at+n-1)%n], To: shape[c.at], Pen: thick})
				letterEdge(&d, shape[(c.at+n-1)%n], shape[c.at], "b")
				crossOut(&d, shape, j.of(c.board))
			}
			for _, p := range c.seen {
				d.Add(drawing.Circle{Centre: to.Apply(p), Radius: 8 * mm / 10, Fill: drawing.Black})
			}
			d.Add(label(geom.Pt(geom.Length(i)*(cell+4*mm)+cell/2, -65*mm/10), small, drawing.Middle, "board "+m.plan.Boards[c.board].Name))
		}
		out = append(out, typeset.Figure{Drawing: d})
	}
	return out
}

// of lists the corners of a board, as they stand in its outline as seen, that the jig is laid on.
func (j jig) of(board int) []int {
	var out []int
	for _, c := range j.corners {
		if c.board == board {
			out = append(out, c.at)
		}
	}
	return out
}

// letterEdge writes a fold's letter outside the edge from→to of a counter-clockwise shape.
func letterEdge(d *drawing.Drawing, from, to geom.Point, letter string) {
	at := geom.Segment{A: from, B: to}.Parallel(-22 * mm / 10).Middle()
	d.Add(drawing.Text{At: at, String: letter, Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Halfway})
}

// crossOut crosses out the corners of a small shape that a jig doesn't fit.
func crossOut(d *drawing.Drawing, shape geom.Polygon, fits []int) {
	const arm = 11 * mm / 10
	for i, p := range shape {
		if !slices.Contains(fits, i) {
			d.Add(
				drawing.Line{From: p.Sub(geom.Pt(arm, arm)), To: p.Add(geom.Pt(arm, arm)), Pen: drawing.Wide},
				drawing.Line{From: p.Add(geom.Pt(-arm, arm)), To: p.Add(geom.Pt(arm, -arm)), Pen: drawing.Wide},
			)
		}
	}
}

// withoutPanels returns a table without its last column, the panels.
func withoutPanels(t typeset.Table) typeset.Table {
	out := typeset.Table{Columns: t.Columns[:len(t.Columns)-1]}
	for _, row := range t.Rows {
		out.Rows = append(out.Rows, row[:len(row)-1])
	}
	return out
}

// checkWords is how a cut board is checked: its two sizes and its diagonals.
func (m *maker) checkWords(b *layout.Board) string {
	text := m.sizeOf(b.Size)
	rising, falling, four := b.Outline.Diagonals()
	switch {
	case b.Outline.IsRectangle():
		return text + ", diagonals " + m.read(rising)
	case four:
		return text + ", diagonals " + m.read(rising) + " and " + m.read(falling)
	case len(braces(b.Outline)) > 0 && len(b.Outline) <= mostBraces:
		return text + " over all, from corner to corner as on Cut and buy"
	}
	return text + " over all"
}
