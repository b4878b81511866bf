package stock

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/covering"
	"rodsheet/template/plan/layout"
)

// An Item is one line of the buying list.
type Item struct {
	What   string  // "board 15/32″, sheets of 48 × 96″"
	Amount float64 // in Unit: whole numbers but for lengths off a roll
	Unit   string  // "sheets", "pairs", "packs of 100", "yd", "m", …
	For    string  // what needs it: "6 boards", "96 screws"
	Price  float64 // of one unit; 0 when not given
}

// Cost is the price of all of it, 0 when no price was given.
func (i Item) Cost() float64 { return i.Amount * i.Price }

// UnitName is Unit, in the singular where there is one.
func (i Item) UnitName() string {
	first, rest, more := strings.Cut(i.Unit, " ")
	if i.Amount != 1 || len(first) < 3 {
		return i.Unit
	}
	first = strings.TrimSuffix(first, "s")
	if more {
		return first + " " + rest
	}
	return first
}

// counted is a number of things, "1 board" or "6 boards".
func counted(n int, things string) string {
	return fmt.Sprint(n, " ", Item{Amount: float64(n), Unit: things}.UnitName())
}

// list writes the buying list and adds up its prices.
func (p *planner) list() {
	s := &p.Stock
	p.listSheets("board "+p.read(p.Job.Board.Thickness), "boards", s.Boards, p.Job.Board.Price)
	if p.Job.Foam.Thickness > 0 {
		p.listSheets("foam "+p.read(p.Job.Foam.Thickness), "pieces", s.Foam, p.Job.Foam.Price)
	}
	if p.Job.Batt.Thickness > 0 {
		p.listRoll("batting "+p.read(p.Job.Batt.Thickness), s.Batting, p.Job.Batt.Price)
	}
	if covering.HasCover(p.Job) {
		p.listRoll("cover", s.Cover, p.Job.Cover.Price)
	}
	p.listClips()
	p.listScrews()
	p.listFixings()
	if s.Pads.Sheets > 0 {
		p.buy(Item{What: fmt.Sprintf("hardboard %s, sheets of %s, for pads of %s", p.read(p.shims.Thickness), p.readSize(p.Job.Hardboard), p.readSize(s.Pads.Size)),
			Amount: float64(s.Pads.Sheets), Unit: "sheets", For: fmt.Sprintf("%d pads, %d of them spare", s.Pads.Count, p.shims.Spares)})
	} else if s.Pads.Count > 0 {
		p.buy(Item{What: fmt.Sprintf("hardboard %s for pads of %s", p.read(p.shims.Thickness), p.readSize(s.Pads.Size)), Amount: 1, Unit: "piece of " + p.readSize(s.Pads.Piece),
			For: fmt.Sprintf("%d pads, %d of them spare", s.Pads.Count, p.shims.Spares)})
	}
	p.listStaples()
	p.listGlue()
}

// buy adds an item.
func (p *planner) buy(i Item) {
	p.Stock.List = append(p.Stock.List, i)
	p.Stock.Total += i.Cost()
}

// readSize writes a size as the job's people read it.
func (p *planner) readSize(s geom.Size) string {
	return s.W.Bare(p.Job.Units) + " × " + s.H.In(p.Job.Units)
}

func (p *planner) listSheets(what, parts string, c SheetCut, price float64) {
	n := 0
	for _, part := range c.Parts {
		n += len(part.Panels)
	}
	switch {
	case n == 0:
	case c.Planned:
		sheets := len(c.Layout.Used)
		if sheets > 0 {
			p.buy(Item{What: what + ", sheets of " + p.readSize(c.Sheet), Amount: float64(sheets), Unit: "sheets", For: counted(n-c.TooLarge, parts), Price: price})
		}
		p.Stock.Waste += float64(sheets) * price * c.Layout.Waste.Share()
		if c.TooLarge > 0 {
			p.buy(Item{What: what + ", larger than a sheet", Amount: float64(c.TooLarge), Unit: parts, For: "see the findings"})
		}
	default:
		p.buy(Item{What: what + ", as in the list of parts", Amount: float64(n), Unit: parts, For: fmt.Sprintf("%s in all; no stock size was given", p.readArea(partsArea(c.Parts)))})
	}
}

func partsArea(parts []Part) float64 {
	sum := 0.0
	for _, part := range parts {
		sum += part.Size.W.Millimetres() * part.Size.H.Millimetres() * float64(len(part.Panels))
	}
	return sum
}

// readArea writes an area in square millimetres as the job's people read it.
func (p *planner) readArea(mm2 float64) string {
	if p.Job.Units == geom.Imperial {
		return fmt.Sprintf("%.1f ft²", mm2/(304.8*304.8))
	}
	return fmt.Sprintf("%.2f m²", mm2/1e6)
}

func (p *planner) listClips() {
	n := 0
	for _, panel := range p.Panels {
		n += len(panel.Clips)
	}
	if n == 0 {
		return
	}
	spares := p.Job.Buying.Spares
	p.buy(Item{What: "clips", Amount: float64(n + spares), Unit: "pairs", For: fmt.Sprintf("%d in use, %d spare", n, spares), Price: p.Job.Clip.Price})
}

// A kindOfScrew is what a shop tells screws apart by.
type kindOfScrew struct {
	gauge            int
	diameter, length geom.Length
}

// listScrews lists each kind once: board screws and those that go into wood. Where a length on hand suits and the
// job's does not, the suitable one is listed.
func (p *planner) listScrews() {
	count := map[kindOfScrew]int{}
	var kinds []kindOfScrew
	add := func(s job.Screw, suits bool, onHand []geom.Length, n int) {
		k := kindOfScrew{s.Gauge, s.Diameter, s.Length}
		if !suits && len(onHand) > 0 {
			k.length = onHand[len(onHand)-1]
		}
		if count[k] == 0 {
			kinds = append(kinds, k)
		}
		count[k] += n
	}
	b := p.screws.Board
	if b.Count > 0 {
		add(b.Screw, b.Fits, b.OnHand, b.Count)
	}
	for _, s := range p.screws.Wall {
		if s.On == layout.OnLining { // a fixing brings its own
			continue
		}
		add(s.Screw, s.Suits(), s.OnHand, s.Count)
	}
	slices.SortStableFunc(kinds, func(k, l kindOfScrew) int { return cmp.Compare(k.length, l.length) })
	pack := max(1, p.Job.Buying.ScrewPack)
	for _, k := range kinds {
		n := count[k]
		packs := (n + pack - 1) / pack
		p.buy(Item{What: job.Screw{Gauge: k.gauge, Diameter: k.diameter, Length: k.length}.In(p.Job.Units) + " screws", Amount: float64(packs), Unit: fmt.Sprintf("packs of %d", pack),
			For: fmt.Sprintf("%d screws", n), Price: p.Job.Screws.Price * float64(pack) / 100})
	}
}

// listFixings lists what holds wall halves that have no wood behind them, one for each hole.
func (p *planner) listFixings() {
	plugs, anchors := 0, 0
	for _, s := range p.screws.Wall {
		switch s.On {
		case layout.OnMasonry:
			plugs += s.Count
		case layout.OnLining:
			anchors += s.Count
		}
	}
	plug, anchor := p.Job.Fixing.Plug, p.Job.Fixing.Anchor
	if plugs > 0 {
		p.buy(Item{What: fmt.Sprintf("plugs %s × %s for masonry", plug.Hole.Bare(p.Job.Units), p.read(plug.Length)), Amount: float64(plugs), Unit: "pieces",
			For: "wall halves on masonry", Price: plug.Price})
	}
	if anchors == 0 {
		return
	}
	what := "fixings made for the lining"
	if anchor.Hole > 0 {
		what = "anchors for the lining, holes of " + p.read(anchor.Hole)
	}
	p.buy(Item{What: what, Amount: float64(anchors), Unit: "pieces", For: "wall halves that have no wood behind them", Price: anchor.Price})
}

func (p *planner) listStaples() {
	n := 0
	for _, b := range p.Boards {
		n += len(covering.Staples(p.Job, b.Outline)) * len(b.Panels)
	}
	if n == 0 || !covering.TurnsOver(p.Job) {
		return
	}
	what := "staples for the cover"
	if leg := p.Job.Staple.Length; leg > 0 {
		what += ", " + p.read(leg)
	} else if p.wrap.Leg > 0 {
		what += ", no longer than " + p.read(p.wrap.StapleLeg(p.Job.Units))
	}
	p.buy(Item{What: what, Amount: float64(n), Unit: "pieces", For: fmt.Sprintf("%d panels, one row each", len(p.Panels))})
}

// listGlue is the area on which foam is glued to boards.
func (p *planner) listGlue() {
	if p.Job.Foam.Thickness == 0 || len(p.Panels) == 0 {
		return
	}
	sum := 0.0
	for _, panel := range p.Panels {
		sum += panel.Outline.Area()
	}
	unit, amount := "m²", sum/1e6
	if p.Job.Units == geom.Imperial {
		unit, amount = "ft²", sum/(304.8*304.8)
	}
	p.buy(Item{What: "adhesive for foam on board, enough for", Amount: math.Ceil(amount*10) / 10, Unit: unit, For: "one face of each board"})
}

func (p *planner) listRoll(what string, c RollCut, price float64) {
	n := 0
	for _, part := range c.Parts {
		n += len(part.Panels)
	}
	if n == 0 {
		return
	}
	if !c.Planned {
		p.buy(Item{What: what + ", as in the list of parts", Amount: float64(n), Unit: "pieces", For: fmt.Sprintf("%s in all; no width of a roll was given", p.readArea(partsArea(c.Parts)))})
		return
	}
	unit, per := "m", geom.Metre
	if p.Job.Units == geom.Imperial {
		unit, per = "yd", 36*geom.Inch
	}
	amount := float64(c.Buy) / float64(per)
	if n > c.TooLarge {
		p.buy(Item{What: what + ", off a roll of " + p.read(c.Width), Amount: amount, Unit: unit, For: fmt.Sprintf("%d pieces", n-c.TooLarge), Price: price})
	}
	if area := c.Buy.Millimetres() * c.Width.Millimetres(); area > 0 {
		p.Stock.Waste += amount * price * (1 - partsArea(c.Laid)/area)
	}
	if c.TooLarge > 0 {
		p.buy(Item{What: what + ", larger than the roll", Amount: float64(c.TooLarge), Unit: "pieces", For: "see the findings"})
	}
}
