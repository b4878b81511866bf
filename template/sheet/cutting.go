package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/geom/cutting"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/stock"
	"rodsheet/template/typeset"
)

// cuttings show what is cut from what, to some scale, and what to buy.
func (m *maker) cuttings() []drawing.Sheet {
	return []drawing.Sheet{{
		Kind: Cutting, Name: "cutting", Title: "Cut and buy", Layout: drawing.SinglePage,
		Hint:     "Not for measuring: cut by the numbers. Cuts run from edge to edge, in their order.",
		Drawings: m.fewest(cutShares, func(high geom.Length) []drawing.Drawing { return typeset.Set(m.options.Field, m.cutAndBuy(high)...) }),
	}}
}

// cutShares are shares of a page for pictures with words in them: smaller ones have no room for those.
var cutShares = []geom.Length{38, 33, 29}

// fewest sets pages with pictures no higher than shares of the page, in per cent, the largest first: the largest pictures
// that take no more pages than smaller ones would.
func (m *maker) fewest(shares []geom.Length, set func(high geom.Length) []drawing.Drawing) []drawing.Drawing {
	var out []drawing.Drawing
	for _, percent := range shares {
		if pages := set(m.options.Field.H * percent / 100); out == nil || len(pages) < len(out) {
			out = pages
		}
	}
	return out
}

// cutAndBuy is the buying list and what is cut from each stock, in pictures of no more than the given height.
func (m *maker) cutAndBuy(high geom.Length) []typeset.Block {
	s := &m.plan.Stock
	blocks := []typeset.Block{typeset.Title{Text: "Cut and buy"}, m.buying(),
		typeset.Para{Text: "In the pictures the numbers in circles are the cuts in their order, hatching is left over, and sizes are written across × up as the picture lies."}}
	blocks = append(blocks, m.sheetCut("Boards", s.Boards, high)...)
	blocks = append(blocks, m.shapes(high)...)
	blocks = append(blocks, m.sheetCut("Foam", s.Foam, high)...)
	blocks = append(blocks, m.rollCut("Cover", s.Cover, m.plan.Job.Cover.NapUp || s.Cover.Repeat > 0, high)...)
	blocks = append(blocks, m.rollCut("Batting", s.Batting, false, high)...)
	if p := s.Pads; p.Count > 0 {
		blocks = append(blocks, typeset.Heading{Text: "Pads"}, typeset.Para{Text: fmt.Sprintf(
			"%d pads of %s out of a piece of %s%s: %d across, %d rows, a kerf of %s between them.", p.Count, m.sizeOf(p.Size), m.sizeOf(p.Piece), m.ofSheets(p), p.Across, p.Rows, m.read(m.plan.Job.Board.Kerf))})
	}
	return blocks
}

// buying is the buying list.
func (m *maker) buying() typeset.Block {
	s := &m.plan.Stock
	priced := s.Total > 0
	t := typeset.Table{Columns: []typeset.Column{{Head: "buy", Right: true}, {Head: ""}, {Head: "what", Wrap: true}, {Head: "for", Wrap: true}}, Full: true}
	if priced {
		t.Columns = append(t.Columns, typeset.Column{Head: "price", Right: true})
	}
	for _, i := range s.List {
		row := typeset.Cells(amount(i.Amount), i.UnitName(), i.What, i.For)
		if priced {
			price := ""
			if i.Price > 0 {
				price = fmt.Sprintf("%.2f", i.Cost())
			}
			row = append(row, typeset.Cell{Text: price})
		}
		t.Rows = append(t.Rows, row)
	}
	if priced {
		t.Rows = append(t.Rows, []typeset.Cell{{}, {}, {Text: "all items with a price", Bold: true}, {Text: fmt.Sprintf("of it %.2f in offcuts and dust", s.Waste)}, {Text: fmt.Sprintf("%.2f", s.Total), Bold: true}})
	}
	return t
}

// amount writes a number without needless decimals.
func amount(x float64) string { return fmt.Sprintf("%.4g", x) }

// sheetCut shows the sheets of one stock, equal ones once.
func (m *maker) sheetCut(title string, c stock.SheetCut, high geom.Length) []typeset.Block {
	if len(c.Parts) == 0 {
		return nil
	}
	blocks := []typeset.Block{typeset.Heading{Text: title}}
	for _, j := range c.Joined {
		blocks = append(blocks, typeset.Para{Text: j.Words(m.read)})
	}
	if !c.Planned {
		return append(blocks, typeset.Para{Text: "The job gives no stock size that fits, so this is a list only."}, m.partTable(c.Parts))
	}
	n := len(c.Layout.Used)
	if n == 0 {
		return append(blocks, typeset.Para{Text: "Every part is larger than " + m.sizeOf(c.Sheet) + ": see the findings."}, m.partTable(c.Parts))
	}
	text := fmt.Sprintf("%d sheets of %s", n, m.sizeOf(c.Sheet))
	if n == 1 {
		text = "One sheet of " + m.sizeOf(c.Sheet)
	}
	if c.Kerf > 0 {
		text += ", kerf " + m.read(c.Kerf)
	}
	text += fmt.Sprintf("; %.0f %% goes into offcuts and dust.", 100*c.Layout.Waste.Share())
	if c.Layout.Proved {
		text += " No plan with cuts from edge to edge needs fewer sheets."
	} else {
		text += fmt.Sprintf(" At least %d are needed, so at most %d could be saved.", c.Layout.Bound, n-c.Layout.Bound)
	}
	blocks = append(blocks, typeset.Para{Text: text + tooLarge(c.TooLarge)}, m.partTable(c.Parts))
	for i := 0; i < n; {
		j := i + 1
		for j < n && sameLayout(c.Layout.Used[i], c.Layout.Used[j]) {
			j++
		}
		name := fmt.Sprintf("Sheet %d", i+1)
		if j > i+1 {
			name = fmt.Sprintf("Sheets %d–%d, equal", i+1, j)
		}
		u := c.Layout.Used[i]
		whole := geom.Rect{Max: geom.Pt(c.Sheet.W, c.Sheet.H)}
		blocks = append(blocks, typeset.Figure{Drawing: m.layoutFigure(name, u, whole, c.Laid, high)})
		i = j
	}
	return together(blocks, 4+len(c.Joined))
}

// ofSheets says which sheets the piece for the pads comes out of; "" where none is given.
func (m *maker) ofSheets(p stock.PadCut) string {
	switch p.Sheets {
	case 0:
		return ""
	case 1:
		return ", from one sheet of " + m.sizeOf(m.plan.Job.Hardboard)
	}
	return fmt.Sprintf(", from each of %d sheets of %s", p.Sheets, m.sizeOf(m.plan.Job.Hardboard))
}

// together keeps a heading with its words, its table and the first picture.
func together(blocks []typeset.Block, n int) []typeset.Block {
	n = min(n, len(blocks))
	return append([]typeset.Block{typeset.Keep{Blocks: blocks[:n]}}, blocks[n:]...)
}

// tooLarge counts parts that are in the table and in no picture.
func tooLarge(parts int) string {
	switch parts {
	case 0:
		return ""
	case 1:
		return " One part of the table is too large for it and not shown: see the findings."
	}
	return fmt.Sprintf(" %d parts of the table are too large for it and not shown: see the findings.", parts)
}

func sameLayout(a, b cutting.Used) bool {
	if len(a.Placed) != len(b.Placed) {
		return false
	}
	for i := range a.Placed {
		if a.Placed[i].Part != b.Placed[i].Part || a.Placed[i].Rect != b.Placed[i].Rect {
			return false
		}
	}
	return true
}

func (m *maker) partTable(parts []stock.Part) typeset.Block {
	t := typeset.Table{Columns: []typeset.Column{{Head: "part"}, {Head: "pieces", Right: true}, {Head: "width × height"}, {Head: "panels", Wrap: true}}}
	for _, p := range parts {
		t.Rows = append(t.Rows, typeset.Cells(p.Name, fmt.Sprint(len(p.Panels)), m.sizeOf(p.Size), m.panelNames(p.Panels)))
	}
	return t
}

// rollCut shows the length that comes off a roll.
func (m *maker) rollCut(title string, c stock.RollCut, upright bool, high geom.Length) []typeset.Block {
	if len(c.Parts) == 0 {
		return nil
	}
	blocks := []typeset.Block{typeset.Heading{Text: title}}
	if !c.Planned {
		return append(blocks, typeset.Para{Text: "The job gives no roll width that fits, so this is a list only."}, m.partTable(c.Parts))
	}
	l := &c.Layout
	if l.Length == 0 {
		return append(blocks, typeset.Para{Text: "Every part is larger than the roll, which is " + m.read(c.Width) + " wide: see the findings."}, m.partTable(c.Parts))
	}
	text := fmt.Sprintf("%s off a roll %s wide; buy %s.", m.read(l.Length), m.read(c.Width), c.Buy.Long(m.plan.Job.Units))
	if l.Proved {
		text += " No plan with cuts from edge to edge takes less."
	} else {
		text += fmt.Sprintf(" At least %s are needed.", m.read(l.Bound))
	}
	if c.Repeat > 0 {
		text += fmt.Sprintf(" One pattern repeat of %s is bought more, so that the cut may begin anywhere in the pattern. The pattern runs through at equal heights: leave the strips between the pieces as they are shown.", m.read(c.Repeat))
	}
	if upright {
		text += " Nap and pattern run up every piece: the arrow below the picture points to its top. Turn none of them."
	}
	blocks = append(blocks, typeset.Para{Text: text + tooLarge(c.TooLarge)}, m.partTable(c.Parts))
	stretches := rollStretches(l, c.Width, m.options.Field)
	for _, r := range stretches {
		name := title + ", along the roll"
		if len(stretches) > 1 {
			name += fmt.Sprintf(", %s to %s", m.read(r.Min.Y), m.read(r.Max.Y))
		}
		d := m.layoutFigure(name, l.Used, r, c.Laid, high)
		if upright {
			napArrow(&d, liesDown(r.Size()))
		}
		blocks = append(blocks, typeset.Figure{Drawing: d})
	}
	return together(blocks, 4)
}
