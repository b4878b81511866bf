package tables

import (
	"fmt"
	"strings"

	"rodsheet/template/plan"
	"rodsheet/template/plan/stock"
)

// List writes what to cut and what to buy.
func List(p *plan.Plan) string {
	t := tables{p: p, r: reader{p.Job.Units}}
	fmt.Fprintf(&t.b, "%s, lengths in %s, width × height as the panel hangs\n", p.Job.Name, t.r.unitName())
	t.cut()
	t.buy()
	return t.b.String()
}

// cut lists parts, stock by stock.
func (t *tables) cut() {
	s := &t.p.Stock
	t.cutSheets("BOARDS", s.Boards)
	t.cutSheets("FOAM", s.Foam)
	t.cutRoll("BATTING", s.Batting)
	t.cutRoll("COVER", s.Cover)
	if c := s.Pads; c.Count > 0 {
		from := ""
		if c.Sheets > 0 {
			from = fmt.Sprintf(", from %s of %s", Count(c.Sheets, "sheet"), t.r.size(t.p.Job.Hardboard))
		}
		t.head("PADS: %d of %s, %d rows of %d out of a piece of %s%s", c.Count, t.r.size(c.Size), c.Rows, c.Across, t.r.size(c.Piece), from)
	}
}

func (t *tables) parts(parts []stock.Part) {
	tab := Table{Heads: []string{"part", ">pieces", ">size", "panels"}}
	for _, p := range parts {
		tab.Add(p.Name, fmt.Sprint(len(p.Panels)), t.r.size(p.Size), t.p.PanelNames(p.Panels))
	}
	t.table(&tab)
}

func (t *tables) cutSheets(head string, c stock.SheetCut) {
	if len(c.Parts) == 0 {
		return
	}
	t.head("%s", head)
	t.parts(c.Parts)
	for _, j := range c.Joined {
		t.words(j.Words(t.r.of))
	}
	if !c.Planned {
		t.words("The job gives no stock size, so nothing is laid out.")
		return
	}
	tooLarge := func() {
		if c.TooLarge > 0 {
			t.words(Count(c.TooLarge, "part") + " too large for a sheet: see the findings.")
		}
	}
	l := &c.Layout
	if len(l.Used) == 0 {
		tooLarge()
		return
	}
	proof := "no plan of such cuts needs fewer"
	if !l.Proved {
		proof = fmt.Sprintf("at most %s could be saved", Count(len(l.Used)-l.Bound, "sheet"))
	}
	t.words(fmt.Sprintf("Cut edge to edge, kerf %s: %s of %s; %s. %.0f %% goes into offcuts and dust.",
		t.r.of(c.Kerf), Count(len(l.Used), "sheet"), t.r.size(c.Sheet), proof, 100*l.Waste.Share()))
	tooLarge()
	tab := Table{Heads: []string{">sheet", "holds"}}
	for i, u := range l.Used {
		n := make([]int, len(c.Laid))
		for _, placed := range u.Placed {
			n[placed.Part]++
		}
		var holds []string
		for k, times := range n {
			if times > 0 {
				holds = append(holds, fmt.Sprintf("%d × %s", times, c.Laid[k].Name))
			}
		}
		tab.Add(fmt.Sprint(i+1), strings.Join(holds, ", "))
	}
	t.table(&tab)
}

func (t *tables) cutRoll(head string, c stock.RollCut) {
	if len(c.Parts) == 0 {
		return
	}
	t.head("%s", head)
	t.parts(c.Parts)
	if c.Width == 0 {
		t.words("The job gives no width of the roll, so nothing is laid out.")
		return
	}
	if c.TooLarge > 0 {
		t.words(Count(c.TooLarge, "part") + " too large for the roll: see the findings.")
	}
	if !c.Planned || c.Layout.Length == 0 {
		return
	}
	l := &c.Layout
	proof := "no plan is shorter"
	if !l.Proved {
		proof = fmt.Sprintf("at least %s is needed", t.r.of(l.Bound))
	}
	repeat := ""
	if c.Repeat > 0 {
		repeat = fmt.Sprintf(", with one pattern repeat of %s more for a start anywhere in the pattern", t.r.of(c.Repeat))
	}
	t.words(fmt.Sprintf("Off a roll %s wide: %s long; %s. Buy %s%s.", t.r.of(c.Width), t.r.of(l.Length), proof, t.r.of(c.Buy), repeat))
}

// buy lists what to buy.
func (t *tables) buy() {
	s := &t.p.Stock
	if len(s.List) == 0 {
		return
	}
	t.head("BUY")
	tab := Table{Heads: []string{">amount", "unit", "what", "for"}}
	if s.Total > 0 {
		tab.Heads = []string{">amount", "unit", ">price", ">cost", "what", "for"}
	}
	for _, i := range s.List {
		row := []string{fmt.Sprintf("%.4g", i.Amount), i.UnitName()}
		if s.Total > 0 {
			price, cost := "", ""
			if i.Price > 0 {
				price, cost = fmt.Sprintf("%.2f", i.Price), fmt.Sprintf("%.2f", i.Cost())
			}
			row = append(row, price, cost)
		}
		tab.Add(append(row, i.What, i.For)...)
	}
	t.table(&tab)
	if s.Total > 0 {
		t.words(fmt.Sprintf("All items with a price: %.2f; of it %.2f goes into offcuts and dust.", s.Total, s.Waste))
	}
}
