package typeset

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

// A Column is one column of a table.
type Column struct {
	Head  string
	Right bool // numbers stand at the right
	Wrap  bool // takes what width is left and breaks its lines
}

// A Cell is text, or the page number of a sheet.
type Cell struct {
	Text  string
	Sheet string // the sheet whose pages are named, linked, in place of Text
	Bold  bool
}

// Cells makes plain cells of texts.
func Cells(texts ...string) []Cell {
	out := make([]Cell, len(texts))
	for i, t := range texts {
		out[i].Text = t
	}
	return out
}

// A Table has a head, and lines as high as their highest cell.
type Table struct {
	Columns []Column
	Rows    [][]Cell
	Full    bool // as wide as the drawing even when its text is narrower
}

const (
	refSample = "000–000" // room for a page number not yet known
	cellGap   = 5 * mm

	shortTable = 6 // rows that stay together
)

func (c Cell) sample() string {
	if c.Sheet != "" {
		return refSample
	}
	return c.Text
}

func (b Table) boxes(width geom.Length) []box {
	widths := b.widths(width)
	x := make([]geom.Length, len(widths)+1)
	for i, w := range widths {
		x[i+1] = x[i] + w + cellGap
	}
	end := x[len(widths)] - cellGap
	line := func(cells []Cell, head bool) box {
		var out box
		for i, c := range cells {
			text := drawing.Text{At: geom.Pt(x[i], 0), Height: font.Small, Bold: c.Bold || head}
			if b.Columns[i].Right {
				text.At.X, text.Anchor = x[i]+widths[i], drawing.Right
			}
			if c.Sheet != "" {
				text.At.Y = -font.Small
				out.marks = append(out.marks, drawing.Ref{Text: text, Sheet: c.Sheet, Span: true})
				out.height = max(out.height, pitch(font.Small))
				continue
			}
			for j, l := range font.Wrap(c.Text, font.Small, text.Bold, widths[i]) {
				text.At.Y, text.String = -font.Small-geom.Length(j)*pitch(font.Small), l
				out.marks = append(out.marks, text)
				out.height = max(out.height, geom.Length(j+1)*pitch(font.Small))
			}
		}
		return out
	}
	var out []box
	headed := false
	for _, c := range b.Columns {
		headed = headed || c.Head != ""
	}
	if headed {
		var heads []Cell
		for _, c := range b.Columns {
			heads = append(heads, Cell{Text: c.Head})
		}
		h := line(heads, true)
		h.marks = append(h.marks, drawing.Line{From: geom.Pt(0, -h.height), To: geom.Pt(end, -h.height), Pen: drawing.Narrow})
		h.height += mm
		h.before, h.keep = 2*mm, true
		out = append(out, h)
	}
	for i, row := range b.Rows {
		r := line(row, false)
		if i > 0 || headed {
			r.before = mm / 2
		} else {
			r.before = 2 * mm
		}
		out = append(out, r)
	}
	for i := range out[:max(0, len(out)-1)] { // a short table stays whole; of a long one no line stands alone
		first := 0
		if headed {
			first = 1
		}
		out[i].keep = out[i].keep || len(b.Rows) <= shortTable || i == first || i == len(out)-2
	}
	if len(out) > 0 {
		last := &out[len(out)-1]
		last.marks = append(last.marks, drawing.Line{From: geom.Pt(0, -last.height), To: geom.Pt(end, -last.height), Pen: drawing.Faint})
		last.height += mm
	}
	return out
}

// widths gives every column its natural width; what is too much, or left over, comes from and goes to columns that
// wrap.
func (b Table) widths(width geom.Length) []geom.Length {
	out := make([]geom.Length, len(b.Columns))
	wraps := 0
	total := geom.Length(len(b.Columns)-1) * cellGap
	for i, c := range b.Columns {
		out[i] = font.Width(c.Head, font.Small, true)
		for _, row := range b.Rows {
			out[i] = max(out[i], font.Width(row[i].sample(), font.Small, row[i].Bold))
		}
		out[i] += mm / 5 // rounding of widths must not break a line that fits
		total += out[i]
		if c.Wrap {
			wraps++
		}
	}
	if wraps == 0 || total <= width && !b.Full {
		return out
	}
	fixed, natural := geom.Length(len(b.Columns)-1)*cellGap, geom.Length(0)
	for i, c := range b.Columns {
		if c.Wrap {
			natural += out[i]
		} else {
			fixed += out[i]
		}
	}
	for i, c := range b.Columns {
		if c.Wrap {
			out[i] = max((width - fixed).Times(float64(out[i])/float64(natural)), 20*mm)
		}
	}
	return out
}
