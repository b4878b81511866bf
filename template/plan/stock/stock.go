// Package stock plans what is cut from what and lists what to buy.
package stock

import (
	"rodsheet/geom"
	"rodsheet/geom/cutting"
	"rodsheet/template/job"
	"rodsheet/template/plan/covering"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// Stock is what is cut from what, and what to buy.
type Stock struct {
	Boards, Foam   SheetCut
	Batting, Cover RollCut
	Pads           PadCut

	List  []Item  // the buying list
	Total float64 // of the items with a price, in the person's own money
	Waste float64 // the part of Total that goes into offcuts and saw dust, of sheets and rolls with a price
}

// A Part is a rectangle to cut, as many times as Panels says. A board with other than four corners is cut out of
// its bounding rectangle.
type Part struct {
	Board  int // into Layout.Boards
	Name   string
	Panels []int     // into Layout.Panels
	Size   geom.Size // width and height as the panel hangs
}

// A SheetCut is a list of parts and how they come out of sheets. Without a stock size the parts are listed and not
// planned.
type SheetCut struct {
	Parts    []Part
	Sheet    geom.Size // as it lies in the plan: with locked grain its longer side is upright
	Kerf     geom.Length
	Laid     []Part // the parts of the layout: its part i is Laid[i], copy k of it for panel Laid[i].Panels[k]
	Planned  bool
	Layout   cutting.Layout
	TooLarge int    // parts that are too large for the stock; they are not in the layout
	Joined   []Join // parts that are, and are joined of pieces: those are in Parts and Laid in their place
}

// A RollCut is a list of parts and how they come out of a roll. Without a width the parts are listed and not planned.
type RollCut struct {
	Parts    []Part
	Width    geom.Length // usable; 0 when not given
	Repeat   geom.Length // of the pattern; 0: plain
	Laid     []Part      // as in SheetCut; with a pattern repeat, panels at different heights are parts of their own
	Planned  bool
	Layout   cutting.RollLayout
	Buy      geom.Length // in whole shop units; with a repeat, enough for a start at any place of the pattern
	TooLarge int         // parts that are too large for the roll
}

// A PadCut is the pads behind wall halves and the piece they come out of in rows.
type PadCut struct {
	Size         geom.Size
	Count        int // with spares
	Across, Rows int
	Piece        geom.Size // with a kerf between the pads; out of each sheet where a sheet is given
	Sheets       int       // of hardboard.sheet; 0 where none is given, or a pad is too large for it
}

// A planner is a layout on the way to its cuts and its buying list.
type planner struct {
	Job *job.Job
	*layout.Layout
	wrap   *covering.Wrap
	screws *fastening.Screws
	shims  fastening.Shims
	Stock  Stock
	found  finding.List
}

// Of plans how boards, foam, batting, cover and pads of a layout are cut, and writes the buying list.
func Of(j *job.Job, l *layout.Layout, wrap *covering.Wrap, screws *fastening.Screws, shims fastening.Shims) (Stock, finding.List) {
	p := &planner{Job: j, Layout: l, wrap: wrap, screws: screws, shims: shims}
	s := &p.Stock
	bare := p.parts(0)
	over := p.parts(p.wrap.Size)
	s.Boards = p.cutSheets(SheetCut{Parts: bare, Sheet: j.Board.Sheet, Kerf: j.Board.Kerf}, j.Board.Grain, stockField{"board", "board.sheet"})
	if j.Foam.Thickness > 0 {
		s.Foam = p.cutSheets(p.joinFoam(SheetCut{Parts: bare, Sheet: j.Foam.Sheet}), job.GrainFree, stockField{"foam", "foam.sheet"})
	}
	if j.Batt.Thickness > 0 {
		s.Batting = p.cutRoll(RollCut{Parts: over, Width: j.Batt.Roll}, false, stockField{"batting", "batting.roll"})
	}
	if covering.HasCover(j) {
		s.Cover = p.cutRoll(RollCut{Parts: over, Width: j.Cover.Roll, Repeat: j.Cover.Repeat}, j.Cover.NapUp, stockField{"cover", "cover.roll"})
	}
	s.Pads = p.cutPads()
	p.list()
	return p.Stock, p.found
}

// read writes a length as the job's people read it.
func (p *planner) read(l geom.Length) string { return l.In(p.Job.Units) }

// parts are the boards' bounding rectangles with something over on each side.
func (p *planner) parts(over geom.Length) []Part {
	parts := make([]Part, len(p.Boards))
	for i, b := range p.Boards {
		parts[i] = Part{i, b.Name, b.Panels, geom.Size{W: b.Size.W + 2*over, H: b.Size.H + 2*over}}
	}
	return parts
}

// stockField is what findings call a stock, and its field.
type stockField struct{ what, key string }

// TooLarge: a part does not fit its stock in one piece.
type TooLarge struct {
	Stock         string // "board", "foam", "batting" or "cover"
	Board         string
	Part          geom.Size
	Lying         bool          // Wider and Longer are those of the part lying down
	Wider, Longer geom.Length   // than the stock, 0 for not
	Sheet         geom.Size     // the zero Size for a roll
	Roll          geom.Length   // its width
	FitsLying     bool          // were it allowed to lie down
	Columns, Rows []geom.Length // of the pieces that it is joined of, as in [Join]; none where it is not
}

// ID implements [finding.Params].
func (t TooLarge) ID() string { return t.Stock + "-too-large" }

// CannotPlanCuts: parts or stock are of a size that cuts can't be planned for.
type CannotPlanCuts struct {
	Stock  string // as in TooLarge
	Roll   bool
	Reason string
}

// ID implements [finding.Params].
func (CannotPlanCuts) ID() string { return "cannot-plan-cuts" }

func (p *planner) cutSheets(c SheetCut, grain job.Grain, w stockField) SheetCut {
	if c.Sheet.W <= 0 || c.Sheet.H <= 0 {
		return c
	}
	turn := cutting.Free
	if grain == job.GrainAlong {
		turn = cutting.Along
		if c.Sheet.W > c.Sheet.H { // the grain runs along the longer side, and up the panel
			c.Sheet = c.Sheet.Turned()
		}
	}
	q := cutting.Sheets{Stock: []cutting.Stock{{Size: c.Sheet, Cost: 1}}, Kerf: c.Kerf}
	for _, part := range c.Parts {
		if p.tooLarge(part, turn, c.Sheet, w) {
			c.TooLarge += len(part.Panels)
			continue
		}
		c.Laid = append(c.Laid, part)
		q.Parts = append(q.Parts, cutting.Part{Name: part.Name, Size: part.Size, Count: len(part.Panels), Grain: turn})
	}
	layout, err := q.Plan()
	if err != nil {
		p.found.Add(finding.OfJob(w.key), w.key, CannotPlanCuts{Stock: w.what, Reason: err.Error()})
		return c
	}
	c.Layout, c.Planned = layout, true
	return c
}

// joinFoam puts pieces in the place of foam that is larger than its sheet, and reports them.
func (p *planner) joinFoam(c SheetCut) SheetCut {
	if c.Sheet.W <= 0 || c.Sheet.H <= 0 {
		return c
	}
	var parts []Part
	for _, part := range c.Parts {
		e := cutting.Excess(part.Size, c.Sheet, cutting.Free)
		if e == nil {
			parts = append(parts, part)
			continue
		}
		j, ok := join(part, c.Sheet, p.Job.Units.Pick(geom.Inch/16, geom.Millimetre))
		if !ok { // told as too large
			parts = append(parts, part)
			continue
		}
		c.Joined, parts = append(c.Joined, j), append(parts, j.parts(part)...)
		f := TooLarge{Stock: "foam", Board: part.Name, Part: part.Size, Sheet: c.Sheet, Lying: e.Turned, FitsLying: e.Fixed, Wider: e.Over.W, Longer: e.Over.H, Columns: j.Columns, Rows: j.Rows}
		for _, panel := range part.Panels {
			p.found.Add(p.PanelSubject(panel), "foam.sheet", f)
		}
	}
	c.Parts = parts
	return c
}

// tooLarge reports whether a part does not fit its stock by itself; a finding says so for each panel made of it.
func (p *planner) tooLarge(part Part, grain cutting.Grain, stock geom.Size, w stockField) bool {
	e := cutting.Excess(part.Size, stock, grain)
	if e == nil {
		return false
	}
	f := TooLarge{Stock: w.what, Board: part.Name, Part: part.Size, Sheet: stock, Lying: e.Turned, FitsLying: e.Fixed, Wider: e.Over.W, Longer: e.Over.H}
	if stock.H == geom.Longest {
		f.Sheet, f.Roll = geom.Size{}, stock.W
	}
	for _, panel := range part.Panels {
		p.found.Add(p.PanelSubject(panel), w.key, f)
	}
	return true
}

// shopUnit is the step cloth is sold in: a quarter yard or 10 cm (trade usage).
func (p *planner) shopUnit() geom.Length { return p.Job.Units.Pick(9*geom.Inch, 10*geom.Centimetre) }

func (p *planner) cutRoll(c RollCut, upright bool, w stockField) RollCut {
	if c.Width <= 0 {
		return c
	}
	turn := cutting.Free
	if upright || c.Repeat > 0 {
		turn = cutting.Along
	}
	q := cutting.Roll{Width: c.Width, Repeat: c.Repeat, Nap: upright, Unit: p.shopUnit()}
	endless := geom.Size{W: c.Width, H: geom.Longest}
	for _, part := range c.Parts {
		if p.tooLarge(part, turn, endless, w) {
			c.TooLarge += len(part.Panels)
			continue
		}
		for _, phased := range p.phases(part, c.Repeat) {
			bottom := p.Panels[phased.Panels[0]].Outline.Bounds().Min.Y - p.wrap.Size
			c.Laid = append(c.Laid, phased)
			q.Parts = append(q.Parts, cutting.RollPart{Name: part.Name, Size: part.Size, Count: len(phased.Panels), Phase: bottom})
		}
	}
	layout, err := q.Plan()
	if err != nil {
		p.found.Add(finding.OfJob(w.key), w.key, CannotPlanCuts{Stock: w.what, Roll: true, Reason: err.Error()})
		return c
	}
	c.Layout, c.Planned, c.Buy = layout, true, layout.BuyAnywhere
	return c
}

// phases divides a part's panels by where they stand in the pattern; all of them are one where there is no repeat.
func (p *planner) phases(part Part, repeat geom.Length) []Part {
	if repeat <= 0 {
		return []Part{part}
	}
	var divided []Part
	at := map[geom.Length]int{}
	for _, panel := range part.Panels {
		bottom := p.Panels[panel].Outline.Bounds().Min.Y
		phase := bottom - bottom.Floor(repeat)
		i, known := at[phase]
		if !known {
			i = len(divided)
			at[phase] = i
			divided = append(divided, Part{Board: part.Board, Name: part.Name, Size: part.Size})
		}
		divided[i].Panels = append(divided[i].Panels, panel)
	}
	return divided
}

// cutPads lays the pads out in a near square of rows, a kerf apart.
func (p *planner) cutPads() PadCut {
	s := p.shims
	if s.Count == 0 {
		return PadCut{}
	}
	c := PadCut{Size: s.Size, Count: s.Count + s.Spares, Across: 1}
	for c.Across*c.Across < c.Count {
		c.Across++
	}
	c.Rows = (c.Count + c.Across - 1) / c.Across
	kerf := p.Job.Board.Kerf
	p.padsOfSheets(&c, kerf)
	c.Piece = geom.Size{
		W: geom.Length(c.Across)*s.Size.W + geom.Length(c.Across-1)*kerf,
		H: geom.Length(c.Rows)*s.Size.H + geom.Length(c.Rows-1)*kerf,
	}
	return c
}

// padsOfSheets lays the pads out in rows on as many sheets of hardboard as they take, a sheet upright or lying as it holds
// more; it leaves c alone where no sheet is given, or where a pad is larger than one.
func (p *planner) padsOfSheets(c *PadCut, kerf geom.Length) {
	sheet := p.Job.Hardboard
	if sheet.W <= 0 || sheet.H <= 0 {
		return
	}
	across, rows := 0, 0
	for _, s := range []geom.Size{sheet, sheet.Turned()} {
		a, r := int((s.W+kerf)/(c.Size.W+kerf)), int((s.H+kerf)/(c.Size.H+kerf))
		if a*r > across*rows {
			across, rows = a, r
		}
	}
	if across*rows == 0 {
		e := cutting.Excess(c.Size, sheet, cutting.Free)
		p.found.Add(finding.OfJob("hardboard.sheet"), "hardboard.sheet",
			TooLarge{Stock: "pad", Part: c.Size, Sheet: sheet, Lying: e.Turned, FitsLying: e.Fixed, Wider: e.Over.W, Longer: e.Over.H})
		return
	}
	c.Sheets = (c.Count + across*rows - 1) / (across * rows)
	if c.Across > across || c.Rows > rows { // the near square doesn't come out of one sheet
		c.Across, c.Rows = across, (min(c.Count, across*rows)+across-1)/across
	}
}
