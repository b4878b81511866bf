package template_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/internal/reader"
	"rodsheet/template/page"
	"rodsheet/template/sheet"
)

// A wallFigure is what a job file says of a wall, in millimetres above and right of its origin, y up.
type wallFigure struct {
	width, height float64
	studs, rails  []float64 // centre lines
	stud, rail    float64   // how wide each is
	things        map[string]thing
}

// A thing is a fitting or an opening with the margin that holes keep from it.
type thing struct {
	body   reader.Rect
	margin float64
}

func (t thing) zone() reader.Rect {
	return reader.Rect{
		Min: reader.Point{X: t.body.Min.X - t.margin, Y: t.body.Min.Y - t.margin},
		Max: reader.Point{X: t.body.Max.X + t.margin, Y: t.body.Max.Y + t.margin},
	}
}

// rect is a rectangle by its lower left corner and its size.
func rect(x, y, w, h float64) reader.Rect {
	return reader.Rect{Min: reader.Point{X: x, Y: y}, Max: reader.Point{X: x + w, Y: y + h}}
}

// every lists centre lines from one place to the end of the wall.
func every(from, step, width float64) []float64 {
	var out []float64
	for c := from; c < width; c += step {
		out = append(out, c)
	}
	return out
}

const inch = 25.4

// wallFigures are written down from the job files, run by run. Holes keep 1 in or 25 mm from what gives no margin of its
// own.
var wallFigures = map[string]map[string]wallFigure{
	"settle": {"L": {
		width: 118.5 * inch, height: 101 * inch,
		studs: every(9.25*inch, 16*inch, 118.5*inch), stud: 1.5 * inch,
		rails: []float64{24.25 * inch, 41.25 * inch}, rail: 3.5 * inch,
		things: map[string]thing{"lamp socket": {rect(54*inch, 47*inch, 2.75*inch, 4.5*inch), inch}},
	}},
	"bay": {
		"L": {width: 1120, height: 2380, studs: every(180, 400, 1120), stud: 45},
		"M": {
			width: 1865, height: 2380, studs: every(110, 400, 1865), stud: 45,
			things: map[string]thing{"window": {rect(270, 905, 1320, 1180), 20}},
		},
		"R": {
			width: 1090, height: 2380, studs: []float64{30, 430, 830, 1060}, stud: 45,
			things: map[string]thing{"socket": {rect(955, 905, 86, 146), 25}},
		},
	},
	"loft": {"G": {
		width: 3240, height: 2420, studs: every(45, 450, 3240), stud: 45,
		things: map[string]thing{"roof window": {rect(1180, 1210, 500, 780), 25}, "bed lamp": {rect(2790, 260, 86, 86), 25}},
	}},
	"asymmetric-studs": {"H": {width: 1200, height: 2400, studs: []float64{224, 514, 678, 968}, stud: 45}},
	"hall with a pipe": {"H": {
		width: 1200, height: 2400, studs: []float64{224, 514, 678, 968}, stud: 45,
		things: map[string]thing{"pipe": {rect(260, 0, 30, 2400), 20}},
	}},
}

// A wallPage is a page of a wall template.
type wallPage struct {
	printed
	reader.Page
	index  int // into the set's pages
	number int
	run    int // into Plan.Runs
	figure wallFigure
	window reader.Rect // what of the page shows the wall
	pieces []reader.Segment
}

// wallPages are all pages of a job's wall templates.
func wallPages(t *testing.T, name string) []wallPage {
	t.Helper()
	p := onPaper(t, name, everything())
	figures := wallFigures[name]
	if name == bothWays {
		figures = wallFigures["loft"]
	}
	var out []wallPage
	for _, c := range p.of(sheet.Wall) {
		run := -1
		for r := range p.Plan.Runs {
			if "wall "+p.Plan.Runs[r].Name == c.Sheet {
				run = r
			}
		}
		require.GreaterOrEqual(t, run, 0, c.Sheet)
		for _, i := range p.pagesOf(c) {
			out = append(out, wallPage{
				printed: p, Page: p.read[i], index: i, number: i + 1, run: run, figure: figures[p.Plan.Runs[run].Name],
				window: clipOf(p.set.Pages[i].Layers[0].Clip), pieces: p.read[i].Segments(),
			})
		}
	}
	require.NotEmpty(t, out)
	return out
}

// wall is where a place of the page is on the wall.
func (w wallPage) wall(at reader.Point) reader.Point { return w.inDrawing(w.index, at) }

// paper is where a place of the wall is on the page.
func (w wallPage) paper(at reader.Point) reader.Point { return w.onPage(w.index, at) }

// onPage maps a place of a page's drawing, in mm, to the page.
func (p printed) onPage(i int, at reader.Point) reader.Point {
	m := p.set.Pages[i].Layers[0].ToPage
	return reader.Point{X: m.A*at.X + m.B*at.Y + m.X.Millimetres(), Y: m.C*at.X + m.D*at.Y + m.Y.Millimetres()}
}

// seen is what a page's window shows of a level or upright line of the wall; ok is false where that is less than 1 mm
// long, or so near the window's edge that it may stand on either side.
func (w wallPage) seen(from, to reader.Point) (a, b reader.Point, ok bool) {
	a, b = w.paper(from), w.paper(to)
	in := w.window
	clamp := func(p reader.Point) reader.Point {
		return reader.Point{X: max(in.Min.X, min(in.Max.X, p.X)), Y: max(in.Min.Y, min(in.Max.Y, p.Y))}
	}
	if middle := (reader.Rect{Min: a, Max: b}).Centre(); abs(a.X-b.X) < 0.001 {
		ok = middle.X > in.Min.X+0.1 && middle.X < in.Max.X-0.1
	} else {
		ok = middle.Y > in.Min.Y+0.1 && middle.Y < in.Max.Y-0.1
	}
	a, b = clamp(a), clamp(b)
	return a, b, ok && a.Distance(b) >= 1
}

// drawn reports whether a line of the page that is as it should be runs from a to b.
func (w wallPage) drawn(a, b reader.Point, as func(reader.Segment) bool) bool {
	return slices.ContainsFunc(w.pieces, func(s reader.Segment) bool { return as(s) && s.Covers(a, b, reader.Within) })
}

// sides are the edges of a rectangle, from corner to corner.
func sides(r reader.Rect) [4][2]reader.Point {
	a, c := r.Min, r.Max
	b, d := reader.Point{X: c.X, Y: a.Y}, reader.Point{X: a.X, Y: c.Y}
	return [4][2]reader.Point{{a, b}, {b, c}, {c, d}, {d, a}}
}

func dashed(s reader.Segment) bool { return len(s.Dash) == 2 && s.Dash[0] > s.Dash[1] }
func solid(s reader.Segment) bool  { return len(s.Dash) == 0 }

// length reads a length as it is written, "≈1/2″" or "12 mm".
func length(t *testing.T, words string, units geom.System) float64 {
	t.Helper()
	l, err := geom.ParseLength(strings.TrimPrefix(words, "≈"), units)
	require.NoError(t, err, "%q", words)
	return l.Millimetres()
}

// lengthIn reads the length between two stretches of words, as in "one step is 0.5 mm, no more"; ok is false where the
// words before it are missing. Words end with the string where after is "".
func lengthIn(t *testing.T, words, before, after string, units geom.System) (mm float64, ok bool) {
	t.Helper()
	_, rest, ok := strings.Cut(words, before)
	if !ok {
		return 0, false
	}
	if after != "" {
		rest, _, _ = strings.Cut(rest, after)
	}
	return length(t, rest, units), true
}

// middle is the middle of what a text covers.
func middle(w reader.Text) reader.Point { return span(box(w)).Centre() }

// whole reports whether all of a text is seen.
func whole(w reader.Text) bool { return inside(w.Clip, span(box(w))) }

// byBoard lists a job's board templates by the names of their boards.
func (p printed) byBoard() map[string]page.Count {
	out := map[string]page.Count{}
	for _, c := range p.of(sheet.Board) {
		out[strings.TrimPrefix(c.Sheet, "board ")] = c
	}
	return out
}

// clearance is how far p is from the nearest edge of an outline.
func clearance(outline []reader.Point, p reader.Point) float64 {
	least := math.Inf(1)
	for i, a := range outline {
		least = min(least, reader.Segment{From: a, To: outline[(i+1)%len(outline)]}.Distance(p))
	}
	return least
}
