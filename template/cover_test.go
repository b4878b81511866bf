package template_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template/internal/reader"
	"rodsheet/template/plan/stock"
	"rodsheet/template/sheet"
)

// foldPage finds the page of a job on which the corner of the cover is drawn that suits its panels.
func foldPage(t *testing.T, name string) (printed, reader.Page) {
	t.Helper()
	p := onPaper(t, name, everything())
	for _, c := range p.of(sheet.Fold) {
		for _, i := range p.pagesOf(c) {
			if len(p.read[i].Containing("corner: for these panels")) > 0 {
				return p, p.read[i]
			}
		}
	}
	t.Fatalf("%s: no corner of the cover", name)
	return p, reader.Page{}
}

// coverCorner is where the corner of the board's face stands on a page, and that of the flat cover: the one where two
// dashed folds end at the tinted board, the other where the wide edge of the cover turns.
func coverCorner(t *testing.T, page reader.Page) (board, cover reader.Point) {
	t.Helper()
	for _, f := range page.Fills {
		if b := f.Bounds(); f.Box() && f.Grey > 0.5 && f.Grey < 1 && b.Max.X-b.Min.X > 20 {
			board = reader.Point{X: b.Max.X, Y: b.Min.Y}
		}
	}
	for _, s := range page.Strokes {
		if len(s.Points) == 3 && !s.Closed && !s.Curved && s.WidthMM > 0.4 && len(s.Dash) == 0 {
			cover = s.Points[1]
		}
	}
	require.NotZero(t, board)
	require.NotZero(t, cover)
	return board, cover
}

// The tip of a pleated corner is cut off on a line square to the diagonal. What must remain is never less than the wrap
// itself, nor than reaches the staple on the diagonal: board and foam, √2 of the staples' distance from the edge, and
// 5 mm (3/16 in) beyond. In the bay: 31.8 + 20·√2 + 5 = 65.1, less than the wrap of 70 mm. In the settle: 1 15/64 +
// 3/4·√2 + 3/16 = 2.4825 in, less than the wrap of 2 1/2 in. In the hall: 32 + 20·√2 + 5 = 65.3, more than 60 mm.
func TestTheCoversCutLeavesWhatMustRemain(t *testing.T) {
	for name, want := range map[string]struct{ wrap, remain float64 }{
		"bay": {70, 70}, "settle": {2.5 * inch, 2.5 * inch}, "asymmetric-studs": {60, 32 + 20*math.Sqrt2 + 5},
	} {
		t.Run(name, func(t *testing.T) {
			p, page := foldPage(t, name)
			board, cover := coverCorner(t, page)
			fine := p.Job.Units.Fine().Millimetres()/2 + 1e-6
			assert.InDelta(t, want.wrap, cover.X-board.X, 2*reader.Within, "the cover's corner lies up and to the right of the board's")
			assert.InDelta(t, want.wrap, board.Y-cover.Y, 2*reader.Within)

			words := page.FindText("cut the cover here")
			require.Len(t, words, 1)
			var cut reader.Segment
			for _, s := range page.Segments() {
				if len(s.Points) == 2 && s.WidthMM > 0.4 && len(s.Dash) == 0 && !s.Level() && !s.Upright() && slices.ContainsFunc(box(words[0]), func(q reader.Point) bool { return s.Distance(q) < 20 }) {
					cut = s
				}
			}
			require.NotNil(t, cut.Stroke, "no line is cut")
			assert.InDelta(t, want.remain, off(board, cut.From, cut.To), 3*reader.Within, "from the corner of the board's face to the cut")
			legs := 2*want.wrap - want.remain*math.Sqrt2 // the line x + y = √2·remain, to the cover's edges
			from, to := reader.Point{X: cover.X - legs, Y: cover.Y}, reader.Point{X: cover.X, Y: cover.Y + legs}
			assert.True(t, cut.Covers(from, to, 3*reader.Within), "cut from %.2f to %.2f, not from %.2f to %.2f", cut.From, cut.To, from, to)

			told := page.Containing(" must remain")
			require.NotEmpty(t, told)
			assert.InDelta(t, want.remain, length(t, strings.TrimSuffix(told[0].String, " must remain"), p.Job.Units), fine)
			said := regexp.MustCompile(`Cut the tip off the cover on the full line: (.+?) from its corner on each side\. (.+?) must remain`).FindStringSubmatch(paragraphWith(page, "Cut the tip off"))
			require.NotNil(t, said)
			assert.InDelta(t, legs, length(t, said[1], p.Job.Units), fine)
			assert.InDelta(t, want.remain, length(t, said[2], p.Job.Units), fine)
			tinted := slices.ContainsFunc(page.Fills, func(f reader.Fill) bool { // what is cut off is the tip
				return len(f.Points) == 3 && f.Grey > 0.5 && f.Grey < 0.9 && has(f.Points, cover, reader.Within) && has(f.Points, from, 3*reader.Within) && has(f.Points, to, 3*reader.Within)
			})
			assert.True(t, tinted, "what is cut off is not tinted")
		})
	}
}

// paragraphWith is the paragraph whose first line has the words.
func paragraphWith(p reader.Page, words string) string {
	for _, w := range p.Containing(words) {
		return p.Paragraph(w)
	}
	return ""
}

// Batting is cut square to both edges as far as board and foam are thick, then outward at 45°.
func TestTheBattingIsCutSquareAsFarAsThePanelIsThick(t *testing.T) {
	for name, thick := range map[string]float64{"bay": 31.8, "settle": (31./64 + 3./4) * inch, "asymmetric-studs": 32} {
		_, page := foldPage(t, name)
		board, cover := coverCorner(t, page)
		land := cover.X - board.X - thick
		at := func(x, y float64) reader.Point { return reader.Point{X: board.X + x, Y: board.Y - y} }
		for _, leg := range [][2]reader.Point{
			{at(0, 0), at(0, thick)}, {at(0, 0), at(thick, 0)},
			{at(0, thick), at(-land, thick+land)}, {at(thick, 0), at(thick+land, -land)},
		} {
			found := slices.ContainsFunc(page.Segments(), func(s reader.Segment) bool {
				return len(s.Dash) == 4 && s.WidthMM > 0.4 && s.Covers(leg[0], leg[1], 3*reader.Within)
			})
			assert.True(t, found, "%s: no cut of the batting from %.2f to %.2f", name, leg[0], leg[1])
		}
	}
}

var acrossUp = regexp.MustCompile(`^(≈?\d.*) × (≈?\d.*)$`)

// A cover with a nap is cut with every piece the same way up. The arrow under a picture of the roll points to the tops:
// along the pieces' heights as the picture lies, and to where the roll goes on, as the plan lays the pieces on it.
func TestTheNapArrowPointsToTheTopOfEveryPiece(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			require.True(t, p.Job.Cover.NapUp)
			cut, fine := &p.Plan.Stock.Cover, p.Job.Units.Fine().Millimetres()
			arrows := 0
			for _, c := range p.of(sheet.Cutting) {
				for _, i := range p.pagesOf(c) {
					page := p.read[i]
					for _, w := range page.FindText("top of every piece") {
						arrows++
						arrow, roll := arrowBeside(t, page, w), pictureOver(t, page, w)
						lying := abs(arrow.Tip.X-arrow.Foot.X) > abs(arrow.Tip.Y-arrow.Foot.Y)
						pieces := 0
						for _, q := range page.Texts {
							m := acrossUp.FindStringSubmatch(q.String)
							if m == nil || !roll.Has(middle(q)) {
								continue
							}
							across, up := length(t, m[1], p.Job.Units), length(t, m[2], p.Job.Units)
							if lying {
								across, up = up, across
							}
							pieces++
							fits := slices.ContainsFunc(cut.Parts, func(part stock.Part) bool {
								return abs(part.Size.W.Millimetres()-across) <= fine && abs(part.Size.H.Millimetres()-up) <= fine
							})
							assert.True(t, fits, "page %d: the top of the piece of %s is not where the arrow points", i+1, q.String)
						}
						assert.Positive(t, pieces, "page %d: no piece tells its size", i+1)
						for _, placed := range cut.Layout.Used.Placed {
							onward := placed.Rect.Centre().Y.Millimetres() / cut.Layout.Length.Millimetres()
							part := cut.Laid[placed.Part].Name
							found := slices.ContainsFunc(page.FindText(part), func(q reader.Text) bool {
								at := middle(q)
								return roll.Has(at) && abs(along(roll, arrow, at)-onward) < 0.04
							})
							assert.True(t, found, "page %d: piece %s stands at %.2f of the roll's length, not so along the arrow", i+1, part, onward)
						}
					}
				}
			}
			assert.Equal(t, 1, arrows, "a roll that is shown in one stretch")
		})
	}
}

// along is how far a place lies along an arrow's way through a rectangle: 0 where it begins, 1 where it ends.
func along(r reader.Rect, arrow reader.Arrowhead, at reader.Point) float64 {
	part, back := (at.X-r.Min.X)/(r.Max.X-r.Min.X), arrow.Tip.X < arrow.Foot.X
	if abs(arrow.Tip.X-arrow.Foot.X) < abs(arrow.Tip.Y-arrow.Foot.Y) {
		part, back = (at.Y-r.Min.Y)/(r.Max.Y-r.Min.Y), arrow.Tip.Y < arrow.Foot.Y
	}
	if back {
		return 1 - part
	}
	return part
}

// arrowBeside is the arrowhead nearest to words.
func arrowBeside(t *testing.T, page reader.Page, w reader.Text) reader.Arrowhead {
	t.Helper()
	var arrow reader.Arrowhead
	least := 20.0
	for _, a := range page.Arrowheads() {
		if d := span(box(w)).Distance(a.Foot); d < least {
			arrow, least = a, d
		}
	}
	require.Less(t, least, 20.0, "no arrow beside %q", w.String)
	return arrow
}

// pictureOver is the nearest box in a wide line over words.
func pictureOver(t *testing.T, page reader.Page, w reader.Text) reader.Rect {
	t.Helper()
	var best reader.Rect
	for _, s := range page.Strokes {
		if b := s.Bounds(); s.Box() && s.WidthMM > 0.4 && b.Max.Y < w.Y && b.Max.Y > best.Max.Y && b.Max.X-b.Min.X > 30 {
			best = b
		}
	}
	require.NotZero(t, best, "no picture over %q", w.String)
	return best
}
