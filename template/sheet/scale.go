package sheet

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/paper"
	"rodsheet/template/typeset"
)

// A Long is the pair of long lines that a scale sheet holds: what they measure when the printer prints true.
type Long struct{ Across, Down geom.Length }

// LongLines returns the lines of a scale sheet in a field: the longest whole 10 mm, or 1/2 in, that fit.
func LongLines(field geom.Size, units geom.System) Long {
	step := 10 * mm
	if units == geom.Imperial {
		step = geom.Inch / 2
	}
	return Long{Across: (field.W - 6*mm).Floor(step), Down: (field.H - 6*mm).Floor(step)}
}

// Square is the side of the square on a scale sheet whose diagonals show the skew.
const Square = 100 * mm

// ScaleSheet returns the sheet that a printer's scale is measured on, for a page of the given field and people who read
// the given units; words are further paragraphs, as the tolerance budget.
func ScaleSheet(field geom.Size, units geom.System, words ...typeset.Block) drawing.Sheet {
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(field.W, field.H)}}
	long := LongLines(field, units)
	top := field.H

	// The long lines start at one corner, near the upper left.
	corner := geom.Pt(3*mm, top-3*mm)
	longLine(&d, corner, geom.Pt(corner.X+long.Across, corner.Y), "across: "+both(long.Across, units))
	longLine(&d, corner, geom.Pt(corner.X, corner.Y-long.Down), "down: "+both(long.Down, units))

	// The squares, with the diagonals of the one in millimetres.
	x, y := 16*mm, top-16*mm-Square
	sq := geom.R(x, y, x+Square, y+Square)
	fourStrokes(&d, sq)
	d.Add(
		drawing.Line{From: sq.Min, To: sq.Max, Pen: drawing.Hair, Role: drawing.Guide},
		drawing.Line{From: geom.Pt(sq.Min.X, sq.Max.Y), To: geom.Pt(sq.Max.X, sq.Min.Y), Pen: drawing.Hair, Role: drawing.Guide},
		drawing.Text{At: geom.Pt(sq.Centre().X, sq.Min.Y+3*mm), String: "inner: 100 mm square", Height: small, Anchor: drawing.Middle, Halo: true},
		drawing.Text{At: geom.Pt(sq.Min.X+21*mm, sq.Min.Y+24*mm), String: "diagonal A", Height: small, Anchor: drawing.Middle, Turn: 45, Halo: true},
		drawing.Text{At: geom.Pt(sq.Min.X+21*mm, sq.Max.Y-24*mm), String: "diagonal B", Height: small, Anchor: drawing.Middle, Level: drawing.Top, Turn: -45, Halo: true},
	)
	// The 4 in square stands on the same corner: 1.6 mm larger, with its two far sides its own.
	four := geom.R(x, y, x+4*geom.Inch, y+4*geom.Inch)
	fourStrokes(&d, four)
	d.Add(drawing.Text{At: geom.Pt(four.Max.X, four.Min.Y-4*mm), String: "outer: 4 in square", Height: small, Anchor: drawing.Right})

	// Words: beside the squares, and below.
	beside := geom.R(x+Square+8*mm, y, field.W, top-14*mm)
	more := setWords(&d, beside, scaleSteps(units)...)
	below := geom.R(x, 0, field.W, y-8*mm)
	more = append(more, setWords(&d, below, append([]typeset.Block{signatures(units), record(units, long)}, words...)...)...)
	return drawing.Sheet{
		Kind: Scale, Name: "scale", Title: "Is the printer telling the truth?", Layout: drawing.SinglePage,
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

// longLine is read at the outer points of its ends: fine pointed ticks.
func longLine(d *drawing.Drawing, a, b geom.Point, text string) {
	d.Add(drawing.Line{From: a, To: b, Pen: drawing.Hair, Role: drawing.Guide})
	for _, p := range []geom.Point{a, b} {
		if a.Y == b.Y {
			d.Add(drawing.Line{From: p.Sub(geom.Pt(0, 3*mm)), To: p.Add(geom.Pt(0, 3*mm)), Pen: drawing.Hair})
		} else {
			d.Add(drawing.Line{From: p.Sub(geom.Pt(3*mm, 0)), To: p.Add(geom.Pt(3*mm, 0)), Pen: drawing.Hair})
		}
	}
	t := drawing.Text{At: geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2), String: text, Height: medium, Bold: true, Anchor: drawing.Middle}
	if a.Y == b.Y {
		t.At.Y -= 6 * mm
	} else {
		t.At.X += 6 * mm
		t.Turn = 90
	}
	d.Add(t)
}

// both reads a length in the job's units and in millimetres, for a tape that has either.
func both(l geom.Length, units geom.System) string {
	if units == geom.Imperial {
		return fmt.Sprintf("%s = %.1f mm", l.In(units), l.Millimetres())
	}
	return l.In(units)
}

func scaleSteps(units geom.System) []typeset.Block {
	line := "_____________"
	return []typeset.Block{
		typeset.Heading{Text: "Measure"},
		typeset.Item{Label: "1", Text: "Print with scaling off: “actual size” or 100 %."},
		typeset.Item{Label: "2", Text: "Let the paper lie for a few minutes in the room where you work."},
		typeset.Item{Label: "3", Text: "Measure both long lines from tick to tick, and both diagonals of the square."},
		typeset.Space{Height: 3 * mm},
		typeset.Para{Text: "across " + line}, typeset.Para{Text: "down " + line},
		typeset.Para{Text: "diagonal A " + line}, typeset.Para{Text: "diagonal B " + line},
		typeset.Para{Text: fmt.Sprintf("Both diagonals should read %s.", both(geom.Pt(0, 0).Distance(geom.Pt(Square, Square)), units))},
		typeset.Item{Label: "4", Text: "Off? The table below says what to do."},
	}
}

// record is the command that takes these readings.
func record(units geom.System, long Long) typeset.Block {
	return typeset.Para{Text: fmt.Sprintf("To correct the printer's own error: rodsheet scale record --printer NAME --drawn %s,%s --across … --down … --diagonals A,B", typed(long.Across, units), typed(long.Down, units))}
}

// typed is a length as it is typed on a command line.
func typed(l geom.Length, units geom.System) string {
	return strings.ReplaceAll(l.Bare(units), " ", "-") + units.String()
}

// signatures is the table of what the printed 100 mm line reads where a page was fitted to other paper.
func signatures(units geom.System) typeset.Block {
	ratio := func(k float64) []typeset.Cell {
		four := (4 * geom.Inch).Times(k)
		read := fmt.Sprintf("%.2f mm", four.Millimetres())
		if units == geom.Imperial {
			read = four.In(units) + " = " + read
		}
		return typeset.Cells(fmt.Sprintf("%.2f mm", 100*k), read)
	}
	shrunk, own := "97.5–100.6 mm", "101–102.1 mm"
	if units == geom.Imperial { // as a tape of 1/64 in reads them
		shrunk, own = "3 27/32–3 61/64″", "3 63/64–4 1/64″"
	}
	row := func(k float64, what, todo string) []typeset.Cell {
		return append(ratio(k), typeset.Cells(what, todo)...)
	}
	fitted := func(from, to paper.Format) []typeset.Cell {
		return row(paper.Fitted(from.Size, to.Size), fmt.Sprintf("%s was fitted to %s", from.Name, to.Name), "switch fitting off, choose "+from.Name)
	}
	return typeset.Table{
		Columns: []typeset.Column{{Head: "100 mm reads"}, {Head: "4 in reads"}, {Head: "what happened", Wrap: true}, {Head: "what to do", Wrap: true}},
		Rows: [][]typeset.Cell{
			row(1, "the printer tells the truth", "go on"),
			fitted(paper.A4, paper.Letter),
			fitted(paper.Letter, paper.A4),
			typeset.Cells("96–99 mm", shrunk, "shrunk to fit the margins", "choose actual size, 100 %"),
			typeset.Cells("99.5–100.5 mm", own, "the printer's own error", "rodsheet scale record"),
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
