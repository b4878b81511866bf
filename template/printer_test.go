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
	"rodsheet/template/job"
	"rodsheet/template/printer"
	"rodsheet/template/sheet"
)

// A liar is a printer that stretches the paper as it goes through, and leans what should be upright. The paper goes
// through upright; y runs down.
type liar struct{ across, down, lean float64 }

// print is where the liar puts a place of a page; a page wider than high has been turned on its side.
func (l liar) print(p reader.Page, at reader.Point) reader.Point {
	turned := p.WidthMM > p.HeightMM
	if turned {
		at = reader.Point{X: p.HeightMM - at.Y, Y: at.X}
	}
	at = reader.Point{X: l.across*at.X - l.lean*l.down*at.Y, Y: l.down * at.Y * math.Sqrt(1-l.lean*l.lean)}
	if turned {
		at = reader.Point{X: at.Y, Y: p.HeightMM - at.X}
	}
	return at
}

var liars = map[string]liar{
	"a little long and short": {across: 1.004, down: 0.997},
	"leaning":                 {across: 0.996, down: 1.006, lean: 0.004},
	"short both ways":         {across: 0.9905, down: 0.9935, lean: -0.003},
}

// strokesOf lists the lines of two points.
func strokesOf(p reader.Page) []reader.Stroke {
	var out []reader.Stroke
	for _, s := range p.Strokes {
		if len(s.Points) == 2 && !s.Closed && !s.Curved {
			out = append(out, s)
		}
	}
	return out
}

// readScale measures the scale sheet as the liar printed it: the long lines across and down, and from corner to corner.
func readScale(t *testing.T, l liar, page reader.Page, long sheet.Long) printer.Readings {
	t.Helper()
	got := func(a, b reader.Point) geom.Length {
		return geom.Millimetre.Times(l.print(page, a).Distance(l.print(page, b)))
	}
	out := printer.Readings{Diagonals: &printer.Diagonals{Of: geom.Size{W: long.Across, H: long.Down}, Within: mm / 20}}
	var level [][2]reader.Point
	for _, s := range strokesOf(page) {
		a, b := s.Points[0], s.Points[1]
		if a.X > b.X {
			a, b = b, a
		}
		dx, dy := b.X-a.X, b.Y-a.Y
		switch {
		case abs(dx-long.Across.Millimetres()) < 0.01 && abs(dy) < 0.01:
			out.Across = printer.Line{Drawn: long.Across, Read: got(a, b), Within: mm / 20}
			level = append(level, [2]reader.Point{a, b})
		case abs(abs(dy)-long.Down.Millimetres()) < 0.01 && abs(dx) < 0.01:
			out.Down = printer.Line{Drawn: long.Down, Read: got(a, b), Within: mm / 20}
		}
	}
	require.Len(t, level, 2, "the rectangle has two sides across")
	low, high := level[0], level[1]
	if low[0].Y < high[0].Y { // y runs down
		low, high = high, low
	}
	out.Diagonals.Rising, out.Diagonals.Falling = got(low[0], high[1]), got(high[0], low[1])
	require.NotZero(t, out.Across.Read)
	require.NotZero(t, out.Down.Read)
	require.NotZero(t, out.Diagonals.Rising)
	require.NotZero(t, out.Diagonals.Falling)
	return out
}

// A synthetic printer is corrected to within 0.05 mm over the page: what it prints of a corrected page stands
// as the drawing has it, but for a move and a turn of the whole page.
func TestALyingPrinterIsCorrectedToWithinATwentiethOfAMillimetre(t *testing.T) {
	reader.Need(t, "mutool")
	for lie, l := range liars {
		for _, name := range []string{"settle", "bay"} {
			t.Run(lie+" "+name, func(t *testing.T) {
				w := open(t, name)
				set, long, err := template.ScalePages(w.Job.Paper, w.Job.Units, "", geom.Affine{})
				require.NoError(t, err)
				readings := readScale(t, l, reader.Trace(t, written(t, set))[0], long)
				readings.Units = w.Job.Units
				profile, verdicts, err := printer.Correct("liar", w.Job.Paper.Size, readings, false)
				require.NoError(t, err, "%v", verdicts)

				p := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Board, sheet.Wall, sheet.Corner}, Printer: "liar", Correction: profile.Correction()})
				plain := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Board, sheet.Wall, sheet.Corner}})
				drills := 0
				for i, page := range p.read {
					holes, _ := leaning(page, 0.1)
					drills += len(holes)
					var worst float64
					for _, a := range holes {
						for _, b := range holes {
							true := p.inDrawing(i, a.at).Distance(p.inDrawing(i, b.at))
							worst = max(worst, abs(l.print(page, a.at).Distance(l.print(page, b.at))-true))
						}
					}
					assert.LessOrEqual(t, worst, 0.05, "page %d", i+1)
					// The check lines come true as well, in both directions.
					for words, want := range map[string]float64{"100 mm": 100} {
						for _, upright := range []bool{false, true} {
							a, b, ok := checkEnds(page, words, upright)
							require.True(t, ok, "page %d has no check line of %s", i+1, words)
							assert.InDelta(t, want, l.print(page, a).Distance(l.print(page, b)), 0.05, "page %d", i+1)
						}
					}
					assert.True(t, strings.Contains(all(page), "Corrected for printer liar"), "page %d doesn't say that it is corrected", i+1)
				}
				assert.GreaterOrEqual(t, drills, 4*len(p.Plan.Panels))
				// Without correction the test would notice.
				var worst float64
				for i, page := range plain.read {
					holes, _ := leaning(page, 0.1)
					for _, a := range holes {
						for _, b := range holes {
							true := plain.inDrawing(i, a.at).Distance(plain.inDrawing(i, b.at))
							worst = max(worst, abs(l.print(page, a.at).Distance(l.print(page, b.at))-true))
						}
					}
				}
				assert.Greater(t, worst, 0.1)
			})
		}
	}
}

// all is every word of a page.
func all(p reader.Page) string {
	var b strings.Builder
	for _, w := range p.Texts {
		b.WriteString(w.String + " ")
	}
	return b.String()
}

// The corrected page still ends inside what the printer reaches, before and after its lie.
func TestACorrectedPageStaysInsideThePrintableRectangle(t *testing.T) {
	for lie, l := range liars {
		t.Run(lie, func(t *testing.T) {
			p := onPaper(t, "settle", template.Print{Only: []drawing.Kind{sheet.Board, sheet.Corner}, Printer: "liar", Correction: profileOf(l).Correction()})
			m := p.Job.Paper.Margin.Millimetres()
			for i, page := range p.read {
				printable := reader.Rect{Min: reader.Point{X: m, Y: m}, Max: reader.Point{X: page.WidthMM - m, Y: page.HeightMM - m}}
				for _, s := range page.Strokes {
					assert.True(t, inside(printable, inked(s.Outline, s.WidthMM)), "page %d: a stroke at %+v", i+1, inked(s.Outline, s.WidthMM))
				}
			}
		})
	}
}

func profileOf(l liar) printer.Profile {
	return printer.Profile{Name: "liar", Across: l.across, Down: l.down, Lean: l.lean}
}

// A printer that tells the truth must give the very same pages as no correction at all.
func TestATruePrinterChangesNothing(t *testing.T) {
	w := open(t, "settle")
	plain, _, err := w.Pages(template.Print{AllowStops: true})
	require.NoError(t, err)
	same, _, err := w.Pages(template.Print{AllowStops: true, Correction: printer.Profile{Across: 1, Down: 1}.Correction()})
	require.NoError(t, err)
	assert.Equal(t, written(t, plain), written(t, same))
}

// The signature of A4 paper fitted to Letter and the other way round (ISO 216: A4 is 210 × 297 mm; ASME Y14.1: size A is
// 8 1/2 × 11 in) stands on the scale sheet for a person to compare.
func TestTheScaleSheetTellsTheSignaturesOfWrongPaper(t *testing.T) {
	reader.Need(t, "mutool")
	set, _, err := template.ScalePages(job.Paper{Size: geom.Size{W: 210 * mm, H: 297 * mm}, Margin: 6 * mm, Overlap: 12 * mm}, geom.Metric, "", geom.Affine{})
	require.NoError(t, err)
	words := all(reader.Trace(t, written(t, set))[0])
	assert.Contains(t, words, "94.07 mm", "100 · 279.4/297")
	assert.Contains(t, words, "97.27 mm", "100 · 210/215.9")

	letter := job.Paper{Size: geom.Size{W: geom.Inch * 17 / 2, H: 11 * geom.Inch}, Margin: geom.Inch / 4, Overlap: geom.Inch / 2}
	set, _, err = template.ScalePages(letter, geom.Imperial, "", geom.Affine{})
	require.NoError(t, err)
	words = all(reader.Trace(t, written(t, set))[0])
	assert.Contains(t, words, "≈3 3/4″ = 95.58 mm", "the 4 in line, for a tape in inches")
	assert.Contains(t, words, "≈3 29/32″ = 98.82 mm")
}
