package template_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/internal/reader"
	"rodsheet/template/page"
	"rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
)

// edgeOf names an edge of a counter-clockwise outline by the way it runs.
func edgeOf(a, b reader.Point) string {
	switch {
	case a.Y == b.Y && b.X > a.X:
		return "bottom edge"
	case a.Y == b.Y:
		return "top edge"
	case a.X == b.X && b.Y > a.Y:
		return "right edge"
	case a.X == b.X:
		return "left edge"
	}
	return "sloping edge"
}

// called tells whether people would call corner i of an outline by the name: "lower left", or "upper left, the higher"
// where two corners are, or "120 mm across, 80 mm up".
func (p printed) called(t *testing.T, outline []reader.Point, i int, name string) bool {
	t.Helper()
	box := span(outline)
	if across, rest, ok := strings.Cut(name, " across, "); ok {
		x, err := geom.ParseLength(strings.TrimPrefix(across, "≈"), p.Job.Units)
		require.NoError(t, err)
		y, err := geom.ParseLength(strings.TrimPrefix(strings.TrimSuffix(rest, " up"), "≈"), p.Job.Units)
		require.NoError(t, err)
		want := reader.Point{X: box.Min.X + x.Millimetres(), Y: box.Min.Y + y.Millimetres()}
		return outline[i].Distance(want) <= p.Job.Units.Fine().Millimetres()
	}
	quarter := func(p reader.Point) string {
		words := "lower"
		if p.Y > (box.Min.Y+box.Max.Y)/2 {
			words = "upper"
		}
		if p.X > (box.Min.X+box.Max.X)/2 {
			return words + " right"
		}
		return words + " left"
	}
	where, which, _ := strings.Cut(name, ", the ")
	if quarter(outline[i]) != where {
		return false
	}
	for j, p := range outline {
		if j == i || quarter(p) != where || which == "" {
			continue
		}
		if (which == "higher") != (outline[i].Y > p.Y) {
			return false
		}
	}
	return true
}

// onEdge is the point at s mm along the edge from a to b and d mm inside it.
func onEdge(a, b reader.Point, s, d float64) reader.Point {
	l := a.Distance(b)
	x, y := (b.X-a.X)/l, (b.Y-a.Y)/l
	return reader.Point{X: a.X + s*x - d*y, Y: a.Y + s*y + d*x}
}

// A jigReading is one hole of one row of a jig's table, on a board as its back is seen: every place the words allow.
type jigReading struct {
	board string
	row   []string
	at    []reader.Point
	page  int // index of the page that is drilled through
}

// readJigs reads every corner and edge jig, on boards of any shape.
func (p printed) readJigs(t *testing.T) []jigReading {
	t.Helper()
	var out []jigReading
	for _, c := range p.of(sheet.Corner) {
		first := p.read[c.First-1]
		holes, _ := symbols(t, first)
		require.NotEmpty(t, holes, "page %d", c.First)
		isEdge := strings.HasPrefix(c.Title, "Edge")
		var a, lineB reader.Point
		var endA, endB reader.Point
		if isEdge {
			a, endA, lineB = edgeFold(t, first)
		} else {
			a, endA, endB = folds(t, first)
		}
		rows := 0
		for _, i := range p.pagesOf(c) {
			for _, row := range tableRows(p.read[i]) {
				rows++
				outline := p.seen(t, row[0])
				n := len(outline)
				for _, h := range holes {
					got := jigReading{board: row[0], row: row, page: c.First - 1}
					for v := range n {
						at, next, before := outline[v], outline[(v+1)%n], outline[(v+n-1)%n]
						if !isEdge {
							if edgeOf(at, next) == row[2] && edgeOf(before, at) == row[3] && p.called(t, outline, v, row[1]) {
								got.at = append(got.at, meeting(at, next, before, off(h.at, a, endA), off(h.at, a, endB)))
							}
							continue
						}
						if edgeOf(at, next) != row[1] {
							continue
						}
						away, err := geom.ParseLength(strings.TrimPrefix(row[2], "≈"), p.Job.Units)
						require.NoError(t, err)
						s := away.Millimetres()
						side := h.at.X - lineB.X // to the right along fold a, as the outline runs
						if p.called(t, outline, v, row[3]) {
							got.at = append(got.at, onEdge(at, next, s+side, off(h.at, a, endA)))
						}
						if p.called(t, outline, (v+1)%n, row[3]) {
							got.at = append(got.at, onEdge(at, next, at.Distance(next)-s+side, off(h.at, a, endA)))
						}
					}
					assert.Len(t, got.at, 1, "page %d: the words %v must name one place of board %s", i+1, row, row[0])
					out = append(out, got)
				}
			}
		}
		assert.NotZero(t, rows, "page %d has no table of corners", c.First)
	}
	return out
}

// meeting is the point inside a corner that stands da off the edge at→next and db off before→at.
func meeting(at, next, before reader.Point, da, db float64) reader.Point {
	unit := func(a, b reader.Point) (x, y float64) { l := a.Distance(b); return (b.X - a.X) / l, (b.Y - a.Y) / l }
	ax, ay := unit(at, next)
	bx, by := unit(before, at)
	// Inward normals are (−y, x); solve for the vector from the corner.
	det := -ay*bx + ax*by
	return reader.Point{X: at.X + (da*bx-db*ax)/det, Y: at.Y + (-ay*db+by*da)/det}
}

// seen is a board's outline as its back is seen, mm.
func (p printed) seen(t *testing.T, name string) []reader.Point {
	t.Helper()
	for _, b := range p.Plan.Boards {
		if b.Name == name {
			var out []reader.Point
			for _, q := range b.Outline.Mirror(b.Size.W) {
				out = append(out, point(q))
			}
			return out
		}
	}
	t.Fatalf("no board %q", name)
	return nil
}

// tableRows are the rows of a jig's table: words on one level, an edge's name in the second or third of them.
func tableRows(p reader.Page) [][]string {
	var out [][]string
	for _, t := range p.Texts {
		if !strings.HasSuffix(t.String, " edge") {
			continue
		}
		var line []reader.Text
		for _, u := range p.Texts {
			if abs(u.Y-t.Y) < 0.1 {
				line = append(line, u)
			}
		}
		slices.SortFunc(line, func(u, v reader.Text) int { return int(math.Copysign(1, u.X-v.X)) })
		// The first edge's name of the line, so that each row counts once.
		at := slices.IndexFunc(line, func(u reader.Text) bool { return strings.HasSuffix(u.String, " edge") })
		if len(line) < 4 || line[at] != t {
			continue
		}
		var row []string
		for _, u := range line {
			row = append(row, u.String)
		}
		out = append(out, row)
	}
	return out
}

// edgeFold reads an edge jig's fold, from left to right, and the foot of its line b.
func edgeFold(t *testing.T, p reader.Page) (from, to, foot reader.Point) {
	t.Helper()
	for _, s := range strokesOf(p) {
		a, b := s.Points[0], s.Points[1]
		if len(s.Dash) == 2 && abs(a.Y-b.Y) < 0.01 && a.Distance(b) > 100 {
			from, to = a, b
		}
	}
	for _, s := range strokesOf(p) {
		if a, b := s.Points[0], s.Points[1]; len(s.Dash) == 4 && abs(a.X-b.X) < 0.01 && abs(a.Y-from.Y) < 0.01 {
			return from, to, a
		}
	}
	t.Fatal("an edge jig without fold and line b")
	return
}

// The holes of a board are drilled from jigs on its corners and edges; every hole is met once, in its place. Distances
// along an edge are read off a tape and so are rounded.
func TestJigsOfBoardsOfAnyShapeMeetEveryHoleOnce(t *testing.T) {
	for _, name := range []string{"settle", "bay", "loft"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, template.Print{})
			require.NotEmpty(t, p.of(sheet.Corner))
			p.holdJigs(t)
		})
	}
}

// holdJigs fails unless the jigs put a hole in each place of the plan once, and nowhere else.
func (p printed) holdJigs(t *testing.T) {
	t.Helper()
	fine := p.Job.Units.Fine().Millimetres()
	met := map[string][]int{}
	for i := range p.Plan.Boards {
		met[p.Plan.Boards[i].Name] = make([]int, len(boardHoles(&p.Plan.Boards[i])))
	}
	for _, r := range p.readJigs(t) {
		k := slices.IndexFunc(p.Plan.Boards, func(b layout.Board) bool { return b.Name == r.board })
		b := &p.Plan.Boards[k]
		d := reader.Within
		if strings.HasSuffix(r.row[1], " edge") {
			d += fine / 2
		}
		found := -1
		for n, h := range boardHoles(b) {
			if has(r.at, reader.Point{X: b.Size.W.Millimetres() - h.X, Y: h.Y}, 2*d) {
				found = n
			}
		}
		if assert.GreaterOrEqual(t, found, 0, "%v puts a hole at %+v of board %s, where the plan has none", r.row, r.at, r.board) {
			met[r.board][found]++
		}
	}
	for i := range p.Plan.Boards {
		b := &p.Plan.Boards[i]
		if slices.ContainsFunc(p.of(sheet.Board), func(c page.Count) bool { return c.Sheet == "board "+b.Name }) {
			continue // it has a template of its own in place of jigs
		}
		for n, k := range met[b.Name] {
			assert.Equal(t, 1, k, "hole %+v of board %s", boardHoles(b)[n], b.Name)
		}
	}
}
