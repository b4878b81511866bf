package sheet

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/paper"
	"rodsheet/template/typeset"
)

// A Long is the rectangle of long lines on a scale sheet: what its sides measure when the printer prints true.
type Long struct{ Across, Down geom.Length }

// Diagonal returns what both diagonals of the rectangle measure.
func (l Long) Diagonal() geom.Length { return geom.Pt(0, 0).Distance(geom.Pt(l.Across, l.Down)) }

const (
	// longInset keeps the long lines whole inside what can be printed.
	longInset = mm
	// scaleRim is the strip of the page that is theirs.
	scaleRim = 4 * mm
	// scaleSquare is the side of the square that a short rule reads, and that is cut out for the drill trial.
	scaleSquare = 100 * mm
)

// LongLines returns the long lines of a page that can be printed on so far: the longest whole 1 mm, or 1/8 in, that fit.
func LongLines(printable geom.Size, units geom.System) Long {
	step := units.Pick(geom.Inch/8, mm)
	return Long{Across: (printable.W - 2*longInset).Floor(step), Down: (printable.H - 2*longInset).Floor(step)}
}

// ScaleSheet returns the sheet that a printer's scale is measured on, and a drill trial for the marker bit of a job; words
// are further paragraphs, as the tolerance budget.
func ScaleSheet(o Options, j *job.Job, words ...typeset.Block) drawing.Sheet {
	units := j.Units
	whole := geom.Rect{Max: geom.Pt(o.Printable.W, o.Printable.H)}
	d := drawing.Drawing{Bounds: whole}
	long := LongLines(o.Printable, units)
	corner := geom.Pt(longInset, whole.Max.Y-longInset)
	frame := geom.R(corner.X, corner.Y-long.Down, corner.X+long.Across, corner.Y)
	fourStrokes(&d, frame)
	field := geom.R(scaleRim, whole.Max.Y+scaleRim-o.Field.H, o.Field.W-scaleRim, whole.Max.Y-scaleRim)
	d.Add(
		drawing.Text{At: geom.Pt(frame.Centre().X, field.Max.Y-3*mm), String: "across: " + both(long.Across, units), Height: medium, Bold: true, Anchor: drawing.Middle},
		drawing.Text{At: geom.Pt(field.Min.X+3*mm, frame.Centre().Y), String: "down: " + both(long.Down, units), Height: medium, Bold: true, Anchor: drawing.Middle, Turn: 90},
	)

	x, y := field.Min.X+8*mm, field.Max.Y-10*mm-scaleSquare
	square := geom.R(x, y, x+scaleSquare, y+scaleSquare)
	fourStrokes(&d, square)
	d.Add(drawing.Text{At: geom.Pt(x+2*mm, square.Max.Y-2*mm), String: "inner: 100 mm square", Height: small, Level: drawing.Top})
	drillTrial(&d, square, units, j.Screws.Marker)
	// The 4 in square stands on the same corner: 1.6 mm larger, with its two far sides its own.
	four := geom.R(x, y, x+4*geom.Inch, y+4*geom.Inch)
	fourStrokes(&d, four)
	d.Add(drawing.Text{At: geom.Pt(four.Max.X, four.Min.Y-4*mm), String: "outer: 4 in square", Height: small, Anchor: drawing.Right})

	// Words: beside the squares, and below.
	beside := geom.R(four.Max.X+5*mm, y, field.Max.X, four.Max.Y)
	more := setWords(&d, beside, scaleSteps(units, long)...)
	below := geom.R(x, field.Min.Y, field.Max.X, y-6*mm)
	blocks := append([]typeset.Block{signatures(units), record(units, long)}, words...)
	more = append(more, setWords(&d, below, append(blocks, trialSteps(j)...)...)...)
	for i, page := range more { // further pages have no rectangle, and the same room
		more[i] = drawing.Drawing{Bounds: whole}
		addMoved(&more[i], page, geom.Pt(field.Min.X, field.Max.Y-page.Bounds.H()))
	}
	return drawing.Sheet{
		Kind: Scale, Name: "scale", Title: "Is the printer telling the truth?", Layout: drawing.SinglePage, Rim: scaleRim,
		Hint: "Measure the long lines with the tape you build with, before anything else.", Drawings: append([]drawing.Drawing{d}, more...),
	}
}

// fourStrokes draws a rectangle side by side, as it is measured.
func fourStrokes(d *drawing.Drawing, r geom.Rect) {
	p := r.Polygon()
	for i := range p {
		d.Add(drawing.Line{From: p[i], To: p[(i+1)%4], Pen: drawing.Hair, Role: drawing.Guide})
	}
}

// both reads a length in the job's units and in millimetres, for a tape that has either.
func both(l geom.Length, units geom.System) string {
	if units == geom.Imperial {
		return fmt.Sprintf("%s = %.1f mm", l.In(units), l.Millimetres())
	}
	return l.In(units)
}

// finely reads a length that lies on no mark of a rule.
func finely(l geom.Length, units geom.System) string {
	text := fmt.Sprintf("%.1f mm", l.Millimetres())
	if units == geom.Imperial {
		text = "≈" + l.Round(geom.SixtyFourth).In(units) + " = " + text
	}
	return text
}

func scaleSteps(units geom.System, long Long) []typeset.Block {
	const line = "______"
	fine := "0.2 mm"
	if units == geom.Imperial {
		fine = "1/64″"
	}
	blank := func(what string) typeset.Block { return typeset.Para{Text: what + " " + line + "  " + line} }
	return []typeset.Block{
		typeset.Heading{Text: "Measure"},
		typeset.Item{Label: "1", Text: "Print with scaling off: “actual size” or 100 %."},
		typeset.Item{Label: "2", Text: "Let the paper lie for a few minutes in the room where you work."},
		typeset.Item{Label: "3", Text: fmt.Sprintf("Measure the line round the page, across and down, and from corner to corner, each twice, from two places of the tape. Read to %s, always the same edge of the line.", fine)},
		typeset.Space{Height: 2 * mm},
		blank("across"), blank("down"), blank("diagonal A ↗"), blank("diagonal B ↘"),
		typeset.Para{Text: fmt.Sprintf("Both diagonals should read %s.", finely(long.Diagonal(), units))},
		typeset.Item{Label: "4", Text: "Off? The table below says what to do."},
	}
}

// record is the command that takes these readings.
func record(units geom.System, long Long) typeset.Block {
	return typeset.Para{Text: fmt.Sprintf("To correct the printer's own error: rodsheet scale record --printer NAME --drawn %s,%s --across … --down … --diagonals A,B. Give each again with its second reading.", typed(long.Across, units), typed(long.Down, units))}
}

// typed is a length as it is typed on a command line.
func typed(l geom.Length, units geom.System) string {
	return strings.ReplaceAll(l.Bare(units), " ", "-") + units.String()
}

// signatures is the table of what the lines of the squares read, and what each reading means. No reading has two rows.
func signatures(units geom.System) typeset.Block {
	read := func(k float64) []typeset.Cell {
		four := (4 * geom.Inch).Times(k)
		text := fmt.Sprintf("%.2f mm", four.Millimetres())
		if units == geom.Imperial {
			text = four.In(units) + " = " + text
		}
		return typeset.Cells(fmt.Sprintf("%.2f mm", 100*k), text)
	}
	between := func(low, high float64) []typeset.Cell {
		a, b := (4 * geom.Inch).Times(low), (4 * geom.Inch).Times(high)
		text := fmt.Sprintf("%.1f–%.1f mm", a.Millimetres(), b.Millimetres())
		if units == geom.Imperial { // as a tape reads them
			text = a.Ceil(geom.SixtyFourth).Bare(units) + "–" + b.Floor(geom.SixtyFourth).In(units)
		}
		return typeset.Cells(fmt.Sprintf("%.1f–%.1f mm", 100*low, 100*high), text)
	}
	row := func(cells []typeset.Cell, what, todo string) []typeset.Cell {
		return append(cells, typeset.Cells(what, todo)...)
	}
	fitted := func(from, to paper.Format) []typeset.Cell {
		return row(read(paper.Fitted(from.Size, to.Size)), fmt.Sprintf("%s was fitted to %s", from.Name, to.Name), "switch fitting off, choose "+from.Name)
	}
	return typeset.Table{
		Columns: []typeset.Column{{Head: "100 mm reads"}, {Head: "4 in reads"}, {Head: "what happened"}, {Head: "what to do", Wrap: true}},
		Rows: [][]typeset.Cell{
			row(between(0.99, 1.01), "the printer's own error", "record the long lines, see below"),
			fitted(paper.A4, paper.Letter),
			fitted(paper.Letter, paper.A4),
			row(typeset.Cells("any other", "any other"), "shrunk to fit, or enlarged", "choose actual size, 100 %"),
		},
		Full: true,
	}
}

// setWords sets blocks into a rectangle of a drawing, and returns what finds no room there on pages of the rectangle's
// size.
func setWords(d *drawing.Drawing, r geom.Rect, blocks ...typeset.Block) []drawing.Drawing {
	set := typeset.Set(r.Size(), blocks...)
	addMoved(d, set[0], r.Min)
	return set[1:]
}

// addMoved adds the marks of a page of words to a larger drawing, moved to at.
func addMoved(d *drawing.Drawing, page drawing.Drawing, at geom.Point) {
	for _, mark := range page.Marks {
		d.Add(drawing.Moved(mark, at))
	}
}
