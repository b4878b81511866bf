package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"rodsheet/template/plan"
	"rodsheet/template/plan/stock"
)

type cuttingLists struct {
	Boards  *sheetCut `json:"boards"`
	Foam    *sheetCut `json:"foam"`
	Batting *rollCut  `json:"batting"`
	Cover   *rollCut  `json:"cover"`
	Pads    *padCut   `json:"pads"`
}

type part struct {
	Name   string   `json:"name"`
	Count  int      `json:"count"`
	Size   pair     `json:"size_mm"`
	Panels []string `json:"panels"`
}

// sheetCut is how parts come out of sheets; sheets, bound and waste are null without a stock size.
type sheetCut struct {
	Stock    *pair   `json:"stock_mm"`
	Sheets   *int    `json:"sheets"`
	Bound    *int    `json:"bound" doc:"no plan needs fewer"`
	Waste    *number `json:"waste" doc:"share of the sheets that does not become parts"`
	TooLarge int     `json:"too_large"`
	Parts    []part  `json:"parts"`
	Joined   []joint `json:"joined" doc:"parts larger than a sheet, which are joined of pieces that stand among the parts"`
}

type joint struct {
	Part    string   `json:"part"`
	Columns []length `json:"columns_mm" doc:"widths of the pieces from the left, seen from the face"`
	Rows    []length `json:"rows_mm" doc:"heights of the pieces from below"`
}

// rollCut is what comes off a roll; its lengths are null without a width.
type rollCut struct {
	Width    *length `json:"width_mm"`
	Length   *length `json:"length_mm" doc:"before rounding to what the shop sells"`
	Buy      *length `json:"buy_mm"`
	Bound    *length `json:"bound_mm" doc:"no plan is shorter"`
	TooLarge int     `json:"too_large"`
	Parts    []part  `json:"parts"`
}

type padCut struct {
	Count int  `json:"count" doc:"with spares"`
	Size  pair `json:"size_mm"`
	Piece pair `json:"piece_mm" doc:"that they are cut out of"`

	Sheet  *pair `json:"sheet_mm" doc:"hardboard.sheet; null when not given"`
	Sheets *int  `json:"sheets" doc:"null when no sheet is given, or a pad is too large for it"`
}

func cuttingOf(p *plan.Plan) cuttingLists {
	s := &p.Stock
	out := cuttingLists{
		Boards: sheetCutOf(p, s.Boards), Foam: sheetCutOf(p, s.Foam),
		Batting: rollCutOf(p, s.Batting), Cover: rollCutOf(p, s.Cover),
	}
	if s.Pads.Count > 0 {
		out.Pads = &padCut{Count: s.Pads.Count, Size: sizeOf(s.Pads.Size), Piece: sizeOf(s.Pads.Piece), Sheet: sized(p.Job.Hardboard.W > 0, p.Job.Hardboard)}
		if s.Pads.Sheets > 0 {
			out.Pads.Sheets = new(s.Pads.Sheets)
		}
	}
	return out
}

func partsOf(p *plan.Plan, parts []stock.Part) []part {
	out := make([]part, 0, len(parts))
	for _, one := range parts {
		out = append(out, part{one.Name, len(one.Panels), sizeOf(one.Size), namesOf(p, one.Panels)})
	}
	return out
}

func sheetCutOf(p *plan.Plan, c stock.SheetCut) *sheetCut {
	if len(c.Parts) == 0 {
		return nil
	}
	out := &sheetCut{Stock: sized(c.Sheet.W > 0, c.Sheet), TooLarge: c.TooLarge, Parts: partsOf(p, c.Parts), Joined: []joint{}}
	for _, j := range c.Joined {
		out.Joined = append(out.Joined, joint{j.Part, lengthsOf(j.Columns), lengthsOf(j.Rows)})
	}
	if c.Planned {
		out.Sheets, out.Bound, out.Waste = new(len(c.Layout.Used)), new(c.Layout.Bound), new(number(c.Layout.Waste.Share()))
	}
	return out
}

func rollCutOf(p *plan.Plan, c stock.RollCut) *rollCut {
	if len(c.Parts) == 0 {
		return nil
	}
	out := &rollCut{Width: optional(c.Width), TooLarge: c.TooLarge, Parts: partsOf(p, c.Parts)}
	if c.Planned {
		out.Length, out.Buy, out.Bound = new(length(c.Layout.Length)), new(length(c.Buy)), new(length(c.Layout.Bound))
	}
	return out
}

type item struct {
	What   string  `json:"what"`
	Amount number  `json:"amount"`
	Unit   string  `json:"unit"`
	For    string  `json:"for"`
	Price  *number `json:"price" doc:"of one unit"`
	Cost   *number `json:"cost"`
}

func itemsOf(p *plan.Plan) []item {
	out := make([]item, 0, len(p.Stock.List))
	for _, i := range p.Stock.List {
		one := item{What: i.What, Amount: number(i.Amount), Unit: i.Unit, For: i.For}
		if i.Price > 0 {
			one.Price, one.Cost = new(number(i.Price)), new(number(i.Cost()))
		}
		out = append(out, one)
	}
	return out
}

type listsDocument struct {
	Job     string       `json:"job"`
	Cutting cuttingLists `json:"cutting"`
	Buying  []item       `json:"buying"`
	Total   number       `json:"total" doc:"of the items with a price"`
	Waste   number       `json:"waste" doc:"the part of the total that goes into offcuts and dust"`
}

// Lists writes what to cut and what to buy: {job, cutting, buying, total, waste}.
func Lists(p *plan.Plan) (string, error) {
	return write(listsDocument{p.Job.Name, cuttingOf(p), itemsOf(p), number(p.Stock.Total), number(p.Stock.Waste)})
}

// ListsCSV writes the same for a spreadsheet, one line a part or item: list ("cut" or "buy"), what, name, amount, unit,
// width_mm, height_mm, for, price, cost. A cell that a spreadsheet would take for a formula gets a ' before it.
func ListsCSV(p *plan.Plan) (string, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	line := func(cells ...string) {
		for i, c := range cells {
			if c != "" && (c[0] == '=' || c[0] == '+' || c[0] == '-' || c[0] == '@') {
				cells[i] = "'" + c
			}
		}
		_ = w.Write(cells) // Error below tells
	}
	line("list", "what", "name", "amount", "unit", "width_mm", "height_mm", "for", "price", "cost")
	s := &p.Stock
	for _, group := range []struct {
		what  string
		parts []stock.Part
	}{{"board", s.Boards.Parts}, {"foam", s.Foam.Parts}, {"batting", s.Batting.Parts}, {"cover", s.Cover.Parts}} {
		for _, one := range partsOf(p, group.parts) {
			line("cut", group.what, one.Name, strconv.Itoa(one.Count), "pieces", text(one.Size[0]), text(one.Size[1]), strings.Join(one.Panels, " "), "", "")
		}
	}
	if s.Pads.Count > 0 {
		line("cut", "pad", "pad", strconv.Itoa(s.Pads.Count), "pieces", text(length(s.Pads.Size.W)), text(length(s.Pads.Size.H)), "", "", "")
	}
	for _, i := range itemsOf(p) {
		price, cost := "", ""
		if i.Price != nil {
			price, cost = fmt.Sprintf("%.2f", float64(*i.Price)), fmt.Sprintf("%.2f", float64(*i.Cost))
		}
		line("buy", i.What, "", text(i.Amount), i.Unit, "", "", i.For, price, cost)
	}
	w.Flush()
	return b.String(), w.Error()
}

// text is a value as JSON writes it.
func text(v interface{ MarshalJSON() ([]byte, error) }) string {
	b, _ := v.MarshalJSON() // lengths and numbers always can
	return string(b)
}
