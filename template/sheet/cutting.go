package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/geom/cutting"
	"rodsheet/template/drawing"
	"rodsheet/template/flow"
	"rodsheet/template/lettering"
	"rodsheet/template/plan"
)

// cuttings show what is cut from what, to some scale, and what to buy.
func (m *maker) cuttings() []Sheet {
	s := &m.plan.Stock
	blocks := []flow.Block{flow.Title{Text: "Cut and buy"}, m.buying()}
	blocks = append(blocks, m.sheetCut("Boards", "boards", s.Boards)...)
	blocks = append(blocks, m.shapes()...)
	blocks = append(blocks, m.sheetCut("Foam", "pieces of foam", s.Foam)...)
	blocks = append(blocks, m.rollCut("Cover", s.Cover, m.plan.Job.Cover.NapUp || m.plan.Job.Cover.Repeat > 0)...)
	blocks = append(blocks, m.rollCut("Batting", s.Batting, false)...)
	if p := s.Pads; p.Count > 0 {
		blocks = append(blocks, flow.Heading{Text: "Pads"}, flow.Para{Text: fmt.Sprintf(
			"%d pads of %s out of a piece of %s: %d across, %d rows.", p.Count, m.sizeOf(p.Size), m.sizeOf(p.Piece), p.Across, p.Rows)})
	}
	return []Sheet{{
		Kind: Cutting, Name: "cutting", Title: "Cut and buy", Lay: Leaf,
		Hint: "Not for measuring: cut by the numbers. Cuts run from edge to edge, in their order.", Drawings: flow.Set(m.options.Field, blocks...),
	}}
}

// buying is the buying list.
func (m *maker) buying() flow.Block {
	s := &m.plan.Stock
	priced := s.Total > 0
	t := flow.Table{Columns: []flow.Column{{Head: "buy", Right: true}, {Head: ""}, {Head: "what", Wrap: true}, {Head: "for", Wrap: true}}, Full: true}
	if priced {
		t.Columns = append(t.Columns, flow.Column{Head: "price", Right: true})
	}
	for _, i := range s.List {
		row := flow.Cells(amount(i.Amount), i.Unit, i.What, i.For)
		if priced {
			price := ""
			if i.Price > 0 {
				price = fmt.Sprintf("%.2f", i.Cost())
			}
			row = append(row, flow.Cell{Text: price})
		}
		t.Rows = append(t.Rows, row)
	}
	if priced {
		t.Rows = append(t.Rows, []flow.Cell{{}, {}, {Text: "all items with a price", Bold: true}, {Text: fmt.Sprintf("of it %.2f in offcuts and dust", s.Waste)}, {Text: fmt.Sprintf("%.2f", s.Total), Bold: true}})
	}
	return t
}

// amount writes a number without needless decimals.
func amount(x float64) string { return fmt.Sprintf("%.4g", x) }

// sheetCut shows the sheets of one stock, equal ones once.
func (m *maker) sheetCut(title, what string, c plan.SheetCut) []flow.Block {
	if len(c.Parts) == 0 {
		return nil
	}
	blocks := []flow.Block{flow.Heading{Text: title}}
	if !c.Planned {
		return append(blocks, flow.Para{Text: "The job gives no stock size that fits, so this is a list only."}, m.partTable(c.Parts))
	}
	n := len(c.Layout.Used)
	text := fmt.Sprintf("%d sheets of %s, kerf %s; %.0f %% goes into offcuts and dust.", n, m.sizeOf(c.Sheet), m.read(c.Kerf), 100*c.Layout.Waste.Share())
	if n == 1 {
		text = fmt.Sprintf("One sheet of %s, kerf %s; %.0f %% goes into offcuts and dust.", m.sizeOf(c.Sheet), m.read(c.Kerf), 100*c.Layout.Waste.Share())
	}
	if c.Layout.Proved {
		text += " No plan with cuts from edge to edge needs fewer sheets."
	} else {
		text += fmt.Sprintf(" At least %d are needed (%s), so at most %d could be saved.", c.Layout.Bound, c.Layout.BoundBy, n-c.Layout.Bound)
	}
	blocks = append(blocks, flow.Para{Text: text}, m.partTable(c.Parts))
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
		blocks = append(blocks, flow.Figure{Drawing: m.layoutFigure(name, c.Sheet, u.Placed, u.Cuts, func(part int) string { return c.Laid[part].Name })})
		i = j
	}
	return blocks
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

func (m *maker) partTable(parts []plan.Part) flow.Block {
	t := flow.Table{Columns: []flow.Column{{Head: "part"}, {Head: "pieces", Right: true}, {Head: "width × height"}, {Head: "panels", Wrap: true}}}
	for _, p := range parts {
		t.Rows = append(t.Rows, flow.Cells(p.Name, fmt.Sprint(len(p.Panels)), m.sizeOf(p.Size), m.panelNames(p.Panels)))
	}
	return t
}

// layoutFigure draws a sheet or a length of a roll with its parts, offcuts hatched, cuts numbered in their order.
func (m *maker) layoutFigure(name string, size geom.Size, placed []cutting.Placed, cuts []cutting.Cut, part func(int) string) drawing.Drawing {
	const head = 6 * mm
	field := m.options.Field
	// A figure lies on its long side where that shows it larger.
	turn := geom.Identity()
	shown := size
	if size.H > size.W {
		turn, shown = geom.Affine{B: 1, C: 1}, size.Turned() // across the diagonal: what was up runs right
	}
	k := min(float64(field.W-4*mm)/float64(shown.W), float64(field.H*38/100)/float64(shown.H))
	to := turn.Then(geom.Scale(k, k))
	rect := func(r geom.Rect) geom.Rect { return geom.Polygon{to.Apply(r.Min), to.Apply(r.Max)}.Bounds() }
	whole := rect(geom.Rect{Max: geom.Pt(size.W, size.H)})
	d := drawing.Drawing{Bounds: geom.R(0, 0, whole.Max.X, whole.Max.Y+head)}
	hatch(&d, whole, 3*mm)
	d.Add(drawing.Text{At: geom.Pt(0, whole.Max.Y+2*mm), String: fmt.Sprintf("%s · %s × %s", name, m.read(shown.W), m.read(shown.H)), Height: small, Bold: true})
	for _, p := range placed {
		r := rect(p.Rect)
		d.Add(drawing.Path{Points: r.Polygon(), Closed: true, Pen: drawing.Narrow, Fill: drawing.White})
		words := []string{part(p.Part), m.sizeOf(p.Rect.Size())}
		if turn != geom.Identity() {
			words[1] = m.sizeOf(p.Rect.Size().Turned())
		}
		m.inside(&d, r, words)
	}
	for i, c := range cuts {
		r := rect(c.Slot)
		at := geom.Pt(r.Centre().X, r.Max.Y-3*mm)
		if r.W() > r.H() {
			at = geom.Pt(r.Min.X+4*mm, r.Centre().Y)
		}
		n := fmt.Sprint(i + 1)
		radius := max(21*mm/10, lettering.Width(n, small, false)/2+8*mm/10)
		d.Add(
			drawing.Line{From: r.Min, To: r.Max, Pen: drawing.Wide},
			drawing.Circle{Centre: at, Radius: radius, Pen: drawing.Hair, Fill: drawing.White},
			drawing.Text{At: at, String: n, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway},
		)
	}
	d.Add(outline(whole.Polygon(), drawing.Wide, drawing.Note))
	return d
}

// inside writes words into a rectangle, upright if they only fit so; those that fit neither way are left to the table.
func (m *maker) inside(d *drawing.Drawing, r geom.Rect, words []string) {
	widest := geom.Length(0)
	for _, w := range words {
		widest = max(widest, lettering.Width(w, small, false))
	}
	high := geom.Length(len(words)) * 4 * mm
	c := r.Centre()
	switch {
	case widest < r.W()-mm && high < r.H():
		for i, w := range words {
			d.Add(drawing.Text{At: geom.Pt(c.X, c.Y+high/2-2*mm-geom.Length(i)*4*mm), String: w, Height: small, Bold: i == 0, Anchor: drawing.Middle, Level: drawing.Halfway})
		}
	case widest < r.H()-mm && high < r.W():
		for i, w := range words {
			d.Add(drawing.Text{At: geom.Pt(c.X-high/2+2*mm+geom.Length(i)*4*mm, c.Y), String: w, Height: small, Bold: i == 0, Anchor: drawing.Middle, Level: drawing.Halfway, Turn: 90})
		}
	case len(words) > 1:
		m.inside(d, r, words[:1])
	}
}

// rollCut shows the length that comes off a roll.
func (m *maker) rollCut(title string, c plan.RollCut, upright bool) []flow.Block {
	if len(c.Parts) == 0 {
		return nil
	}
	blocks := []flow.Block{flow.Heading{Text: title}}
	if !c.Planned {
		return append(blocks, flow.Para{Text: "The job gives no roll width that fits, so this is a list only."}, m.partTable(c.Parts))
	}
	l := &c.Layout
	text := fmt.Sprintf("%s off a roll %s wide; buy %s.", m.read(l.Length), m.read(c.Width), m.read(c.Buy))
	if l.Proved {
		text += " No plan with cuts from edge to edge takes less."
	} else {
		text += fmt.Sprintf(" At least %s are needed (%s).", m.read(l.Bound), l.BoundBy)
	}
	if upright {
		text += " Nap and pattern run the way of the arrow on every piece: turn none of them."
	}
	d := m.layoutFigure(title+", along the roll", geom.Size{W: c.Width, H: l.Length}, l.Placed, l.Cuts, func(part int) string { return c.Laid[part].Name })
	if upright { // the roll lies on its side in the figure: up on the piece is to the right
		y := d.Bounds.Min.Y - 5*mm
		d.Bounds.Min.Y = y - 3*mm
		d.Add(
			drawing.Line{From: geom.Pt(0, y), To: geom.Pt(30*mm, y), Pen: drawing.Wide},
			arrowhead(geom.Pt(33*mm, y), geom.Pt(0, y)),
			drawing.Text{At: geom.Pt(36*mm, y), String: "top of every piece", Height: small, Bold: true, Level: drawing.Halfway},
		)
		if l.Length <= c.Width { // it stands upright in the figure
			d.Marks = d.Marks[:len(d.Marks)-3]
			d.Add(
				drawing.Line{From: geom.Pt(2*mm, y-2*mm), To: geom.Pt(2*mm, y+2*mm), Pen: drawing.Wide},
				arrowhead(geom.Pt(2*mm, y+4*mm), geom.Pt(2*mm, y)),
				drawing.Text{At: geom.Pt(6*mm, y), String: "top of every piece", Height: small, Bold: true, Level: drawing.Halfway},
			)
		}
	}
	return append(blocks, flow.Para{Text: text}, m.partTable(c.Parts), flow.Figure{Drawing: d})
}
