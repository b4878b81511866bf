package template_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/paper"
	"rodsheet/template/sheet"
)

// A jigRow is a line of a corner jig's table, as a person reads it.
type jigRow struct{ board, corner, a, b string }

// jigRows reads the table of a corner jig.
func jigRows(p reader.Page) []jigRow {
	var out []jigRow
	for _, r := range tableRows(p) {
		out = append(out, jigRow{r[0], r[1], r[2], r[3]})
	}
	return out
}

// folds reads the two dashed lines that start at one corner: a runs level to the right.
func folds(t *testing.T, p reader.Page) (corner, alongA, alongB reader.Point) {
	t.Helper()
	var lines []reader.Stroke
	for _, s := range p.Strokes {
		if len(s.Points) == 2 && len(s.Dash) > 0 && s.WidthMM > 0.2 {
			lines = append(lines, s)
		}
	}
	for _, a := range lines {
		for _, b := range lines {
			level := abs(a.Points[0].Y-a.Points[1].Y) < reader.Within && a.Points[1].X > a.Points[0].X
			if level && b.Points[1] != a.Points[1] && a.Points[0].Distance(b.Points[0]) < reader.Within {
				return a.Points[0], a.Points[1], b.Points[1]
			}
		}
	}
	t.Fatal("no two folds start at one corner")
	return
}

// off is how far p is from the line through a and b.
func off(p, a, b reader.Point) float64 {
	return abs((b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X)) / a.Distance(b)
}

// jigHoles reads every corner jig of a print: its folds, its holes and its table of corners. The result is the holes of
// each board in board coordinates, one entry for each hole of each row.
func (p printed) jigHoles(t *testing.T, side sheet.Side) map[string][]reader.Point {
	t.Helper()
	found := map[string][]reader.Point{}
	for _, c := range p.of(sheet.Corner) {
		for _, i := range p.pagesOf(c) {
			page := p.read[i]
			require.NotEmpty(t, page.FindText(string(side)), "page %d doesn't say %s", i+1, side)
			corner, endA, endB := folds(t, page)
			holes, _ := symbols(t, page)
			rows := jigRows(page)
			require.NotEmpty(t, rows, "page %d names no corner", i+1)
			for _, row := range rows {
				var size geom.Size
				for _, b := range p.Plan.Boards {
					if b.Name == row.board {
						size = b.Size
					}
				}
				require.NotZero(t, size, "page %d: no board %q", i+1, row.board)
				for _, h := range holes {
					require.True(t, h.whole)
					at := reader.Point{X: math.NaN(), Y: math.NaN()}
					for _, m := range []struct {
						edge string
						d    float64
					}{{row.a, off(h.at, corner, endA)}, {row.b, off(h.at, corner, endB)}} {
						switch m.edge {
						case "bottom edge":
							at.Y = m.d
						case "top edge":
							at.Y = size.H.Millimetres() - m.d
						case "left edge":
							at.X = m.d
						case "right edge":
							at.X = size.W.Millimetres() - m.d
						}
					}
					if side == sheet.Back {
						at.X = size.W.Millimetres() - at.X
					}
					found[row.board] = append(found[row.board], at)
				}
			}
		}
	}
	return found
}

func TestCornerJigsPutEveryHoleOfEveryBoardInItsPlaceOnce(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		for _, side := range []sheet.Side{sheet.Back, sheet.Face} {
			t.Run(name+" "+string(side), func(t *testing.T) {
				p := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Corner}, Faces: side == sheet.Face})
				found := p.jigHoles(t, side)
				require.Len(t, found, len(p.Plan.Boards))
				for i := range p.Plan.Boards {
					b := &p.Plan.Boards[i]
					wanted := boardHoles(b)
					assert.Len(t, found[b.Name], len(wanted), "board %s", b.Name)
					hold(t, "board "+b.Name, wanted, found[b.Name], reader.Within)
				}
			})
		}
	}
}

// A table on the page says how far each hole is from both folds; a tape must find it so.
func TestWordsOnCornerJigsAreWhatATapeReads(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Corner}})
			fine := p.Job.Units.Fine().Millimetres()
			for i, page := range p.read {
				corner, endA, endB := folds(t, page)
				holes, _ := symbols(t, page)
				told := 0
				for _, w := range page.Texts {
					text := w.String
					if _, after, numbered := strings.Cut(text, ": "); numbered {
						text = after
					}
					first, rest, ok := strings.Cut(text, " from fold a, ")
					second, ok2 := strings.CutSuffix(rest, " from fold b")
					if !ok || !ok2 {
						continue
					}
					told++
					a, err := geom.ParseLength(strings.TrimPrefix(first, "≈"), p.Job.Units)
					require.NoError(t, err)
					b, err := geom.ParseLength(strings.TrimPrefix(second, "≈"), p.Job.Units)
					require.NoError(t, err)
					met := false
					for _, h := range holes {
						met = met || abs(off(h.at, corner, endA)-a.Millimetres()) <= fine && abs(off(h.at, corner, endB)-b.Millimetres()) <= fine
					}
					assert.True(t, met, "page %d: no hole is %s", i+1, w.String)
				}
				assert.NotZero(t, told, "page %d tells no distances", i+1)
			}
		})
	}
}

// A rectangle has four corners, so six equal boards need four corner pages or fewer, and no seam.
func TestSixEqualBoardsOfTheSettleTakeFourCornerPagesAtMostAndNoSeam(t *testing.T) {
	p := onPaper(t, "settle", template.Print{})
	require.Len(t, p.Plan.Boards, 1)
	require.Len(t, p.Plan.Boards[0].Panels, 6)
	jigs := p.of(sheet.Corner)
	assert.NotEmpty(t, jigs)
	assert.LessOrEqual(t, len(jigs), 4)
	assert.Empty(t, p.of(sheet.Board), "board templates are printed beside the jigs")
	for _, c := range jigs {
		assert.Equal(t, 1, c.Pages)
		assert.Equal(t, [2]int{}, c.Seams)
		_, registration := symbols(t, p.read[c.First-1])
		assert.Empty(t, registration, "a page without a seam has registration marks")
	}
}

// A jig is laid on the board as one page: what it says must find room beside its holes.
func TestEveryJigIsOnePageOnEveryPaper(t *testing.T) {
	seen := 0
	for _, name := range jobs {
		for _, format := range []paper.Format{paper.A4, paper.Letter, paper.A3, paper.Legal, paper.Tabloid} {
			w := open(t, name)
			print := template.Print{Only: []drawing.Kind{sheet.Corner}, AllowStops: true, Paper: w.Job.Paper}
			print.Paper.Size = format.Size
			_, counts, err := w.Pages(print)
			require.NoError(t, err)
			for _, c := range counts {
				assert.Equal(t, 1, c.Pages, "%s on %s: %s", name, format.Name, c.Title)
				seen++
			}
		}
	}
	assert.Greater(t, seen, 50)
}
