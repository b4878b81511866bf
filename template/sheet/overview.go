package sheet

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/plan/layout"
	"rodsheet/template/rule"
	"rodsheet/template/typeset"
)

// overview is the wall in a picture, with what to know first. It lists the given sheets with their pages.
func (m *maker) overview(sheets []drawing.Sheet) drawing.Sheet {
	shares := []geom.Length{40, 36, 32, 28}
	if len(m.plan.Walls) > 1 {
		shares = []geom.Length{60, 54, 48, 42}
	}
	return drawing.Sheet{
		Kind: Overview, Name: "overview", Title: "Overview", Layout: drawing.SinglePage,
		Hint: "Read this page before you cut or drill anything.",
		Drawings: m.fewest(shares, func(high geom.Length) []drawing.Drawing {
			return typeset.Set(m.options.Field, m.overviewBlocks(sheets, high)...)
		}),
	}
}

// overviewBlocks are the overview with its pictures no higher than given.
func (m *maker) overviewBlocks(sheets []drawing.Sheet, high geom.Length) []typeset.Block {
	blocks := []typeset.Block{typeset.Title{Text: m.plan.Job.Name}}
	for _, d := range m.elevations(geom.Size{W: m.options.Field.W, H: high}) {
		blocks = append(blocks, typeset.Figure{Drawing: d})
	}
	blocks = append(blocks, typeset.Para{Text: "Dots are clips, hatching is where no hole may go, grey bands are studs and rails as you gave them. " + m.heightsFrom()})
	blocks = append(blocks, m.heightTable()...)
	blocks = append(blocks, m.findingBlocks()...)
	blocks = append(blocks, typeset.Heading{Text: "Order of work"})
	blocks = append(blocks, typeset.Steps(m.order(sheets)...)...)
	blocks = append(blocks, typeset.Heading{Text: "Boards"}, m.boardTable())
	if len(sheets) > 0 {
		blocks = append(blocks, typeset.Heading{Text: "Sheets"}, m.contents(sheets))
	}
	blocks = append(blocks, typeset.Heading{Text: "Before you drill"})
	for _, c := range rule.Cautions() {
		blocks = append(blocks, typeset.Item{Label: "!", Text: c})
	}
	return blocks
}

// heightsFrom says what heights begin at.
func (m *maker) heightsFrom() string {
	const slopes = "floors slope, so a height measured from the floor somewhere else is another height."
	if line := m.plan.Job.Line; line > 0 {
		return "Heights are above zero (▼), which is level with the floor at the left end of the first wall, and are told from the marked line too, " +
			m.read(line) + " above zero: " + slopes
	}
	return "All heights are above zero (▼), which is level with the floor at the left end of the first wall: " + slopes
}

// lookFirst is what is looked for before anything is drilled, and the line to mark.
func (m *maker) lookFirst() string {
	probe := " probe for the studs,"
	if !slices.ContainsFunc(m.plan.Walls, func(w layout.Wall) bool { return !w.Job.Masonry || len(w.Members) > 0 }) {
		probe = ""
	}
	text := "Look for cables and pipes," + probe + " compare with this sheet. "
	if line := m.plan.Job.Line; line > 0 {
		return text + "Mark the line, " + m.read(line) + " above zero (▼), level all round."
	}
	return text + "Mark a level line round the room, a measured height above zero (▼)."
}

// setPlugs is what a hole in masonry needs before its screw; "" where there is none.
func (m *maker) setPlugs() string {
	if !m.plan.Screws.Holds(layout.OnMasonry) {
		return ""
	}
	return " On masonry use the bit and depth that each place names, clear the hole of dust, and set the plug flush with the masonry's own face, behind plaster or lining."
}

// findingBlocks are what to know first, worst first.
func (m *maker) findingBlocks() []typeset.Block {
	var out []typeset.Block
	labels := map[rule.Level]string{rule.Stop: "STOP", rule.Caution: "Caution", rule.Note: "Note"}
	for _, f := range rule.Grouped(m.findings) {
		text := f.Words()
		if f.Remedy != "" {
			text += " " + f.Remedy
		}
		if f.Accepted {
			text += " Accepted: " + f.Because + "."
		}
		out = append(out, typeset.Item{Label: labels[f.Level], Text: text, Hang: 17 * mm})
	}
	if len(out) == 0 {
		return nil
	}
	return append([]typeset.Block{typeset.Heading{Text: "Know this first"}}, out...)
}

// order is the order of work, as far as the plan and the printed sheets go.
func (m *maker) order(sheets []drawing.Sheet) []string {
	has := map[drawing.Kind]bool{}
	for _, s := range sheets {
		has[s.Kind] = true
	}
	var out []string
	add := func(ok bool, text string) {
		if ok {
			out = append(out, text)
		}
	}
	add(true, "Measure the check lines on the scale sheet, then those on every page. If they are off, don't drill.")
	add(true, m.lookFirst())
	side, sides := "back", "backs"
	if m.options.Faces {
		side, sides = "face", "faces"
	}
	mark := " Boards of one letter are cut with one setting; write it, and TOP, on the " + side + " of each."
	add(has[Cutting], "Cut boards, foam, batting and cover by the cutting sheets."+mark+m.shaped())
	add(!has[Cutting], "Cut the boards by the table below."+mark)
	add(has[Corner], "Drill the boards with the jigs, "+side+" up.")
	tape := "Tape the board templates, lay them"
	if m.options.Whole {
		tape = "Lay the board templates"
	}
	add(has[Board], tape+" on the "+sides+", drill the boards.")
	add(has[Block], m.blockStep())
	add(has[Wall], "Set the wall templates by their running distances, check one board against them, then drill the wall."+m.setPlugs())
	add(has[Shim], "Cut the pads and put one behind every wall half.")
	add(true, "Screw the wall halves on, then the board halves, and hang one bare board before you cover any.")
	add(has[Fold], "Cover the boards; fold the corners by the fold sheet.")
	add(true, m.hangingStep())
	return out
}

// hangingStep says in which order the panels go on the wall.
func (m *maker) hangingStep() string {
	order, why := rule.HangingOrder(m.plan)
	text := "Hang the panels in this order: " + order + "."
	switch {
	case order == "":
		text = "No order of hanging is possible: see above."
	case len(m.plan.Panels) == 1:
		text = "Hang panel " + order + "."
	case len(why) > 0:
		text += " " + strings.Join(why, " ")
	}
	if clip := m.plan.Job.Clip; clip.Kind == job.Lift {
		text += " Hold each " + m.read(clip.Rise) + " above its place, hook it over, let it down."
	}
	if len(m.plan.Panels) > 1 && order != "" {
		text += " They come off in the opposite order."
	}
	return text
}

// shaped says what boards that are no rectangles need; "" where there are none.
func (m *maker) shaped() string {
	for i := range m.plan.Boards {
		if !m.plan.Boards[i].Outline.IsRectangle() {
			return " Those that are no rectangles are marked out by the corners in the tables there."
		}
	}
	return ""
}

func (m *maker) boardTable() typeset.Table {
	t := typeset.Table{Columns: []typeset.Column{{Head: "board"}, {Head: "pieces", Right: true}, {Head: "cut to"}, {Head: "diagonals"}, {Head: "finished"}, {Head: "panels", Wrap: true}}}
	for i := range m.plan.Boards {
		b := &m.plan.Boards[i]
		name := b.Name
		if b.Twin >= 0 {
			name += " (mirror of " + m.plan.Boards[b.Twin].Name + ")"
		}
		finished := m.plan.Panels[b.Panels[0]].Finished.Bounds().Size()
		t.Rows = append(t.Rows, typeset.Cells(name, fmt.Sprint(len(b.Panels)), m.sizeOf(b.Size), m.diagonals(b), m.sizeOf(finished), m.panelNames(b.Panels)))
	}
	return t
}

// diagonals are the two measures that show whether a board of four corners is square or true.
func (m *maker) diagonals(b *layout.Board) string {
	rising, falling, four := b.Outline.Diagonals()
	switch {
	case b.Outline.IsRectangle():
		return m.read(rising)
	case four:
		return m.read(rising) + ", " + m.read(falling)
	}
	return "see Cut and buy"
}

func (m *maker) contents(sheets []drawing.Sheet) typeset.Table {
	t := typeset.Table{Columns: []typeset.Column{{Head: "pages", Right: true}, {Head: "sheet"}, {Head: "for", Wrap: true}, {Head: "use", Right: true}}}
	for _, s := range sheets {
		use := ""
		if s.Use > 0 {
			use = fmt.Sprintf("%d×", s.Use)
		}
		what := s.Title
		if s.Side != "" {
			what += ", " + s.Side
		}
		t.Rows = append(t.Rows, []typeset.Cell{{Sheet: s.Name}, {Text: what}, {Text: s.For}, {Text: use}})
	}
	return t
}
