package page

import (
	"fmt"
	"math"
	"slices"

	"rodsheet/geom"
	"rodsheet/geom/cover"
	"rodsheet/template/drawing"
)

// seamRoom is what a seam's registration marks and words take beside it.
const seamRoom = 7 * mm

// tiled lays one drawing over pages that tape together.
//
// A page lies on its left and upper neighbours and is trimmed there on the seam, the middle of the overlap; so only
// left and upper edges are ever cut, and the furniture of the pages beneath disappears under their neighbours.
func (o Options) tiled(s *drawing.Sheet) ([]spec, Count, error) {
	d := &s.Drawings[0]
	grid, turned, err := o.grid(d, s.Landscape)
	if err != nil {
		return nil, Count{}, err
	}
	f := o.frame(o.Paper.Size, turned)
	rows := len(grid.Rows)
	if left := cellsShowing(grid, d.Shape); len(left) < len(grid.Pages) {
		window := f.field.Size()
		grid.Pages = left
		grid.Bound = max(1, int(math.Ceil(d.Shape.Area()/(window.W.Millimetres()*window.H.Millimetres()))))
		grid.Proved = grid.Bound == len(left)
	}
	var maps []geom.Rect
	for _, c := range grid.Pages {
		maps = append(maps, grid.Window(c))
	}
	var kept []geom.Rect // what of each window is not trimmed off or covered
	for _, c := range grid.Pages {
		kept = append(kept, trimmedWindow(grid, c).Inset(seamRoom))
	}
	d = withGroups(d, kept)
	var pages []spec
	for i, c := range grid.Pages {
		w := grid.Window(c)
		move := geom.Point{X: f.field.Min.X - w.Min.X, Y: f.field.Max.Y - w.Max.Y}
		sp := spec{frame: f, at: position{ref: cellName(c, rows), maps: maps, here: i}}
		if len(grid.Pages) == 1 {
			sp.at = position{}
		}
		sp.layers = []Layer{
			f.layer(move, w, dropClippedText(d.Marks, w, maps)),
			f.layer(move, w.Inset(-mm), append(seams(grid, c), callouts(d, trimmedWindow(grid, c))...)),
		}
		pages = append(pages, sp)
	}
	return pages, Count{
		Solved: true, Bound: grid.Bound, Proved: grid.Proved, OnSeam: len(grid.Whole),
		Seams: [2]int{len(grid.Columns) - 1, rows - 1},
	}, nil
}

// dropClippedText leaves out words that the window w clips, where another window shows them whole: what w shows of them
// is trimmed off or covered.
func dropClippedText(marks []drawing.Mark, w geom.Rect, windows []geom.Rect) []drawing.Mark {
	return slices.DeleteFunc(slices.Clone(marks), func(m drawing.Mark) bool {
		t, ok := m.(drawing.Text)
		if !ok {
			return false
		}
		b := t.Bounds()
		return b.InteriorIntersects(w) && !w.Contains(b) && slices.ContainsFunc(windows, func(r geom.Rect) bool { return r.Contains(b) })
	})
}

// cellsShowing returns the pages of a grid that show something of a shape.
func cellsShowing(g cover.Grid, shape geom.Polygon) []cover.Cell {
	if shape == nil {
		return g.Pages
	}
	var out []cover.Cell
	for _, c := range g.Pages {
		if len(shape.Clip(trimmedWindow(g, c))) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// grid finds the fewest pages, upright or, where they may be, turned. A turned page offers a field of another shape
// than the upright field turned, since the furniture stays at its foot.
func (o Options) grid(d *drawing.Drawing, mayTurn bool) (grid cover.Grid, turned bool, err error) {
	problem := cover.GridProblem{
		Bounds: d.Bounds, Marks: holeMarks(d), Windows: []geom.Size{o.frame(o.Paper.Size, false).field.Size()},
		Overlap: o.Paper.Overlap, Clear: holeClear,
	}
	if mayTurn {
		problem.Windows = append(problem.Windows, o.frame(o.Paper.Size, true).field.Size())
	}
	grid, err = problem.Solve()
	return grid, grid.Way == 1, err
}

func holeMarks(d *drawing.Drawing) []cover.Mark {
	var out []cover.Mark
	for _, h := range d.Holes {
		out = append(out, cover.Mark{At: h.At, R: h.Radius})
	}
	return out
}

// gridLetters are those that ISO 5457 letters a drawing's fields with, but small, so that no page is taken for a board or
// a panel. i and o, and l among small letters, are left out, since they read as figures.
const gridLetters = "abcdefghjkmnpqrstuvwxyz"

// cellName is the grid reference: rows are lettered from the top, after z with aa, columns numbered from the left.
func cellName(c cover.Cell, rows int) string {
	row := rows - 1 - c.Row
	name := ""
	for n := row; n >= 0; n = n/len(gridLetters) - 1 {
		name = gridLetters[n%len(gridLetters):][:1] + name
	}
	return fmt.Sprintf("%s%d", name, c.Column+1)
}

// trimmedWindow returns what of the page at c is neither trimmed off nor covered by a neighbour.
func trimmedWindow(g cover.Grid, c cover.Cell) geom.Rect {
	w := g.Window(c)
	columns, rows := cover.Seams(g.Columns), cover.Seams(g.Rows)
	if c.Column > 0 {
		w.Min.X = columns[c.Column-1]
	}
	if c.Column < len(columns) {
		w.Max.X = columns[c.Column]
	}
	if c.Row > 0 {
		w.Min.Y = rows[c.Row-1]
	}
	if c.Row < len(rows) {
		w.Max.Y = rows[c.Row]
	}
	return w
}

// seams draws, in the drawing's plane, the seams round the page at c with their registration marks.
func seams(g cover.Grid, c cover.Cell) []drawing.Mark {
	var d drawing.Drawing
	rows := len(g.Rows)
	// A seam's words stand in the half of the overlap that is cut off or covered.
	draw := func(upright bool, a, b geom.Span, trim bool, neighbour cover.Cell) {
		if !slices.Contains(g.Pages, neighbour) { // it shows nothing of the board: nothing to tape here
			return
		}
		at := cover.Seams([]geom.Span{a, b})[0]
		along := g.Rows[c.Row]
		if !upright {
			along = g.Columns[c.Column]
		}
		pt := func(s geom.Length, off geom.Length) geom.Point {
			if upright {
				return geom.Pt(at+off, s)
			}
			return geom.Pt(s, at+off)
		}
		pen := drawing.Hidden
		words := cellName(neighbour, rows) + " lies on top, its trimmed edge on this line"
		if trim {
			pen = drawing.Narrow
			words = "trim on this line, lay it over " + cellName(neighbour, rows)
		}
		off := (a.To - b.From) / 4
		if upright == trim { // the left edge is trimmed and the lower one covered
			off = -off
		}
		d.Add(drawing.Line{From: pt(along.From, 0), To: pt(along.To, 0), Pen: pen})
		t := drawing.Text{At: pt((along.From+along.To)/2, off), String: words, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true}
		if upright {
			t.Turn = 90
		}
		d.Add(t)
		for _, q := range []geom.Length{1, 3} {
			d.Add(registration(pt(along.From+(along.To-along.From)*q/4, 0))...)
		}
	}
	if c.Column > 0 {
		draw(true, g.Columns[c.Column-1], g.Columns[c.Column], true, cover.Cell{Column: c.Column - 1, Row: c.Row})
	}
	if c.Column+1 < len(g.Columns) {
		draw(true, g.Columns[c.Column], g.Columns[c.Column+1], false, cover.Cell{Column: c.Column + 1, Row: c.Row})
	}
	if c.Row+1 < rows { // the upper neighbour
		draw(false, g.Rows[c.Row], g.Rows[c.Row+1], true, cover.Cell{Column: c.Column, Row: c.Row + 1})
	}
	if c.Row > 0 {
		draw(false, g.Rows[c.Row-1], g.Rows[c.Row], false, cover.Cell{Column: c.Column, Row: c.Row - 1})
	}
	return d.Marks
}

// registration is a cross in a circle that stands at the same place of the drawing on both pages of a seam.
func registration(at geom.Point) []drawing.Mark {
	const r, arm = 25 * mm / 10, 4 * mm
	return []drawing.Mark{
		drawing.Circle{Centre: at, Radius: r, Pen: drawing.Hair, Role: drawing.Guide},
		drawing.Line{From: at.Sub(geom.Pt(arm, 0)), To: at.Add(geom.Pt(arm, 0)), Pen: drawing.Hair, Role: drawing.Guide},
		drawing.Line{From: at.Sub(geom.Pt(0, arm)), To: at.Add(geom.Pt(0, arm)), Pen: drawing.Hair, Role: drawing.Guide},
	}
}
