package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/geom/cover"
	"rodsheet/template/drawing"
)

func a4() Options {
	return Options{
		Paper: Paper{Size: geom.Size{W: 210 * mm, H: 297 * mm}, Margin: 6 * mm, Overlap: 12 * mm},
		Units: geom.Metric, Job: "Test",
	}
}

// tile is a tiled sheet of the given size with drill circles.
func tile(size geom.Size, holes ...geom.Point) drawing.Sheet {
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(size.W, size.H)}}
	d.Add(drawing.Path{Points: d.Bounds.Polygon(), Closed: true, Pen: drawing.Wide, Role: drawing.Cut})
	for _, h := range holes {
		d.Holes = append(d.Holes, drawing.Hole{At: h, Radius: 2 * mm})
		d.Add(drawing.Circle{Centre: h, Radius: 2 * mm, Pen: drawing.Narrow, Role: drawing.Drill})
	}
	return drawing.Sheet{Kind: "board", Name: "board A", Title: "Board template A", Layout: drawing.Tiled, Landscape: true, Drawings: []drawing.Drawing{d}}
}

// ISO 5457:1999, 4.4, letters one side and numbers the other, without I and O. The letters are small, as those of boards
// and panels are not, and l is left out too; after z come aa, ab, as in a spreadsheet.
func TestGridReferencesCountRowsFromTheTopInLetters(t *testing.T) {
	for _, c := range []struct {
		cell cover.Cell
		rows int
		want string
	}{
		{cover.Cell{Column: 0, Row: 0}, 1, "a1"},
		{cover.Cell{Column: 2, Row: 3}, 4, "a3"},
		{cover.Cell{Column: 2, Row: 0}, 4, "d3"},
		{cover.Cell{Column: 0, Row: 0}, 8, "h1"},
		{cover.Cell{Column: 0, Row: 0}, 9, "j1"},
		{cover.Cell{Column: 0, Row: 0}, 10, "k1"},
		{cover.Cell{Column: 0, Row: 0}, 11, "m1"},
		{cover.Cell{Column: 0, Row: 0}, 12, "n1"},
		{cover.Cell{Column: 0, Row: 0}, 13, "p1"},
		{cover.Cell{Column: 0, Row: 0}, 23, "z1"},
		{cover.Cell{Column: 0, Row: 0}, 24, "aa1"},
		{cover.Cell{Column: 11, Row: 0}, 25, "ab12"},
		{cover.Cell{Column: 0, Row: 0}, 46, "az1"},
		{cover.Cell{Column: 0, Row: 0}, 47, "ba1"},
		{cover.Cell{Column: 0, Row: 0}, 552, "zz1"},
		{cover.Cell{Column: 0, Row: 0}, 553, "aaa1"},
	} {
		assert.Equal(t, c.want, cellName(c.cell, c.rows))
	}
}

func TestPaperTooSmallForWhatEveryPageShowsIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		paper Paper
		words []string
	}{
		"margins and overlap": {Paper{Size: geom.Size{W: 100 * mm, H: 297 * mm}, Margin: 40 * mm, Overlap: 10 * mm}, []string{"smaller than twice its margin and overlap (100 mm)", "larger paper"}},
		"check lines":         {Paper{Size: geom.Size{W: 105 * mm, H: 148 * mm}, Margin: 6 * mm, Overlap: 12 * mm}, []string{"105 mm × 148 mm", "A4 and Letter do"}},
		"low":                 {Paper{Size: geom.Size{W: 210 * mm, H: 120 * mm}, Margin: 6 * mm, Overlap: 12 * mm}, []string{"the check lines"}},
	} {
		t.Run(name, func(t *testing.T) {
			o := a4()
			o.Paper = c.paper
			_, err := o.Field()
			var paper *PaperError
			require.ErrorAs(t, err, &paper)
			for _, w := range c.words {
				assert.Contains(t, err.Error(), w)
			}
			_, _, err = Lay("", []drawing.Sheet{tile(geom.Size{W: 300 * mm, H: 300 * mm})}, o)
			require.ErrorAs(t, err, &paper)
		})
	}
}

// The message promises that A4 (ISO 216) and Letter (ASME Y14.1, size A) are enough, with any margin up to 12 mm.
func TestA4AndLetterAreEnough(t *testing.T) {
	for _, size := range []geom.Size{{W: 210 * mm, H: 297 * mm}, {W: 17 * geom.Inch / 2, H: 11 * geom.Inch}} {
		o := a4()
		o.Paper.Size, o.Paper.Margin = size, 12*mm
		_, err := o.Field()
		assert.NoError(t, err)
	}
}

func TestAPrintOfTooManyPagesIsRefusedWithTheLikelySlip(t *testing.T) {
	o := a4()
	o.Most = 5
	_, _, err := Lay("", []drawing.Sheet{tile(geom.Size{W: 1500 * mm, H: 800 * mm})}, o)
	var many *TooManyError
	require.ErrorAs(t, err, &many)
	assert.Equal(t, 5, many.Most)
	assert.Greater(t, many.Pages, 5)
	assert.Contains(t, err.Error(), "are the units right")
	o.Most = many.Pages
	_, _, err = Lay("", []drawing.Sheet{tile(geom.Size{W: 1500 * mm, H: 800 * mm})}, o)
	assert.NoError(t, err, "the limit itself is allowed")
}

func TestPickKeepsOrderNumbersAndLinksToPagesThatRemain(t *testing.T) {
	set := Set{Title: "Job", Pages: []Page{
		{Number: 1, Links: []Link{{To: 2}, {To: 3}}},
		{Number: 2}, {Number: 3},
	}}
	some, err := set.Pick([]int{3, 1, 1})
	require.NoError(t, err)
	assert.Equal(t, []Page{{Number: 1, Links: []Link{{To: 3}}}, {Number: 3}}, some.Pages)
	assert.Len(t, set.Pages[0].Links, 2, "the full set is left alone")
	for _, bad := range []int{0, 4, -1} {
		_, err = set.Pick([]int{1, bad})
		require.Error(t, err)
		assert.Contains(t, err.Error(), "the set has pages 1 to 3")
	}
}

func TestWordsAboutPartsStandOffEveryHoleAndOffEachOther(t *testing.T) {
	var d drawing.Drawing
	d.Bounds = geom.R(0, 0, 180*mm, 240*mm)
	for x := 20 * mm; x < 170*mm; x += 35 * mm {
		for y := 20 * mm; y < 230*mm; y += 30 * mm {
			at := geom.Pt(x, y)
			d.Holes = append(d.Holes, drawing.Hole{At: at, Radius: 2 * mm})
			d.Callouts = append(d.Callouts, drawing.Callout{
				About: geom.Rect{Min: at, Max: at}.Inset(-6 * mm), Lines: []string{"clip", "25 deep"},
			})
		}
	}
	marks := callouts(&d, d.Bounds)
	require.NotEmpty(t, marks)
	for i, m := range marks {
		text := m.(drawing.Text)
		assert.True(t, d.Bounds.Contains(text.Bounds()), "%q stands outside the page", text.String)
		for _, h := range d.Holes {
			// The cross reaches 4.5 mm past the drill circle.
			assert.False(t, text.Bounds().InteriorIntersects(geom.Rect{Min: h.At, Max: h.At}.Inset(-h.Radius-45*mm/10)), "%q stands over a hole", text.String)
		}
		for _, n := range marks[i+1:] {
			a, b := text, n.(drawing.Text)
			assert.False(t, a.Bounds().Inset(mm/2).InteriorIntersects(b.Bounds().Inset(mm/2)), "%q and %q", a.String, b.String)
		}
	}
}

// What a page shows in part has its words on the page that shows it whole.
func TestWordsAboutAPartStandWhereItsMiddleIs(t *testing.T) {
	d := drawing.Drawing{Bounds: geom.R(0, 0, 400*mm, 100*mm), Callouts: []drawing.Callout{
		{About: geom.R(90*mm, 40*mm, 120*mm, 60*mm), Lines: []string{"here"}},
	}}
	assert.Empty(t, callouts(&d, geom.R(0, 0, 100*mm, 100*mm)), "the middle lies on the other page")
	assert.NotEmpty(t, callouts(&d, geom.R(100*mm, 0, 200*mm, 100*mm)))
}

func TestNoSeamComesNearAHole(t *testing.T) {
	var holes []geom.Point
	for x := 50 * mm; x < 800*mm; x += 175 * mm {
		for y := 50 * mm; y < 600*mm; y += 240 * mm {
			holes = append(holes, geom.Pt(x, y))
		}
	}
	s := tile(geom.Size{W: 820 * mm, H: 620 * mm}, holes...)
	set, counts, err := Lay("", []drawing.Sheet{s}, a4())
	require.NoError(t, err)
	require.Len(t, counts, 1)
	assert.Equal(t, len(set.Pages), counts[0].Pages)
	assert.Zero(t, counts[0].OnSeam)
	assert.True(t, counts[0].Proved)
	// The same, by the solver's own answer.
	g, _, err := a4().grid(&s.Drawings[0], true)
	require.NoError(t, err)
	for _, columns := range [][]geom.Length{cover.Seams(g.Columns)} {
		for _, at := range columns {
			for _, h := range holes {
				assert.GreaterOrEqual(t, (h.X - at).Abs(), 7*mm)
			}
		}
	}
}

func fieldOf(t *testing.T, o Options) geom.Size {
	t.Helper()
	size, err := o.Field()
	require.NoError(t, err)
	return size
}

// A turned page goes through the printer upright: what stretches the sheet's height stretches the drawing's width.
func TestATurnedPageIsCorrectedAcrossThePrinter(t *testing.T) {
	o := a4()
	o.Correction = geom.Affine{A: 1.01, D: 0.98}
	upright, turned := o.frame(o.Paper.Size, false), o.frame(o.Paper.Size, true)
	unit := func(f frame, x, y geom.Length) geom.Point {
		return f.toPage.Apply(geom.Pt(x, y)).Sub(f.toPage.Apply(geom.Point{}))
	}
	near := func(want, got geom.Point) {
		assert.LessOrEqual(t, want.Distance(got), geom.Length(2), "%v, not %v", got, want)
	}
	near(geom.Pt(101*mm, 0), unit(upright, 100*mm, 0))
	near(geom.Pt(0, -98*mm), unit(upright, 0, 100*mm))
	near(geom.Pt(98*mm, 0), unit(turned, 100*mm, 0))
	near(geom.Pt(0, -101*mm), unit(turned, 0, 100*mm))
}

// A page turned by a quarter either way is skewed alike, and two skewed pages fit at their seam.
func TestSkewIsCarriedToTurnedPages(t *testing.T) {
	o := a4()
	k := geom.Affine{A: 1.002, B: 0.004, D: 0.997}
	o.Correction = k
	f := o.frame(o.Paper.Size, true)
	at := f.toPage.Apply(geom.Pt(60*mm, 35*mm)).Sub(f.toPage.Apply(geom.Point{}))
	// Turn the vector by a quarter, correct it, and turn it back.
	for _, turn := range []geom.Affine{{B: -1, C: 1}, {B: 1, C: -1}} {
		back, ok := turn.Inverse()
		require.True(t, ok)
		want := turn.Then(k).Then(back).Then(geom.FlipY(0)).Apply(geom.Pt(60*mm, 35*mm))
		assert.LessOrEqual(t, want.Distance(at), geom.Length(3))
	}
}

func TestCorrectedPagesOfferLessSoThatAllEndsInsideTheMargins(t *testing.T) {
	o := a4()
	plain := fieldOf(t, o)
	o.Correction = geom.Affine{A: 1.02, B: 0.004, D: 1.01}
	smaller := fieldOf(t, o)
	assert.Less(t, smaller.W, plain.W)
	assert.Less(t, smaller.H, plain.H)
	for _, turned := range []bool{false, true} {
		f := o.frame(o.Paper.Size, turned)
		inside := geom.Rect{Max: geom.Pt(f.paper.W, f.paper.H)}.Inset(o.Paper.Margin - geom.Micrometre)
		assert.True(t, inside.Contains(f.window(f.printable)), "%v ends outside %v", f.window(f.printable), inside)
	}
}

func TestADrawingThatFitsOnePageHasNoGridReference(t *testing.T) {
	set, counts, err := Lay("", []drawing.Sheet{tile(geom.Size{W: 100 * mm, H: 100 * mm})}, a4())
	require.NoError(t, err)
	require.Len(t, set.Pages, 1)
	assert.Empty(t, set.Pages[0].Ref)
	assert.Equal(t, [2]int{}, counts[0].Seams)
}

func TestASinglePageThatDoesNotFitIsAnErrorThatNamesTheSheet(t *testing.T) {
	s := tile(geom.Size{W: 500 * mm, H: 500 * mm})
	s.Layout, s.Name = drawing.SinglePage, "fold"
	_, _, err := Lay("", []drawing.Sheet{s}, a4())
	require.Error(t, err)
	assert.True(t, strings.HasPrefix(err.Error(), "sheet fold: "), err.Error())
	assert.Contains(t, err.Error(), "500 mm × 500 mm")
}

func TestRefsBecomeNumbersAndLinks(t *testing.T) {
	single := func(name string, drawings int, marks ...drawing.Mark) drawing.Sheet {
		s := drawing.Sheet{Kind: "rod", Name: name, Title: name, Layout: drawing.SinglePage}
		for range drawings {
			s.Drawings = append(s.Drawings, drawing.Drawing{Bounds: geom.R(0, 0, 100*mm, 100*mm), Marks: marks})
		}
		return s
	}
	ref := func(name string) drawing.Ref {
		return drawing.Ref{Text: drawing.Text{At: geom.Pt(10*mm, 10*mm), Height: small}, Sheet: name, Span: true}
	}
	set, _, err := Lay("", []drawing.Sheet{single("first", 1, ref("rod"), ref("one"), ref("absent")), single("rod", 3), single("one", 1)}, a4())
	require.NoError(t, err)
	require.Len(t, set.Pages, 5)
	var words []string
	for _, m := range set.Pages[0].Layers[0].Marks {
		words = append(words, m.(drawing.Text).String)
	}
	assert.Equal(t, []string{"2–4", "5", "–"}, words)
	require.Len(t, set.Pages[0].Links, 2)
	assert.Equal(t, []int{2, 5}, []int{set.Pages[0].Links[0].To, set.Pages[0].Links[1].To})
}

func TestASheetThatCannotBeTiledSaysWhy(t *testing.T) {
	s := tile(geom.Size{W: 400 * mm, H: 400 * mm})
	s.Drawings[0].Holes = []drawing.Hole{{At: geom.Pt(200*mm, 200*mm), Radius: 190 * mm}}
	_, _, err := Lay("", []drawing.Sheet{s}, a4())
	assert.Error(t, err)
}

func TestSmallDrawingsSharePages(t *testing.T) {
	field, err := a4().Field()
	require.NoError(t, err)
	s := drawing.Sheet{Name: "blocks", Layout: drawing.Packed}
	for i, high := range []geom.Length{field.H * 6 / 10, field.H * 65 / 100, field.H * 3 / 10, field.H * 25 / 100} {
		from := geom.Pt(geom.Length(i)*mm, -3*mm) // a drawing's origin may be anywhere
		d := drawing.Drawing{Bounds: geom.R(0, 0, field.W, high).Add(from)}
		d.Add(drawing.Line{From: d.Bounds.Min, To: d.Bounds.Max, Pen: drawing.Wide})
		s.Drawings = append(s.Drawings, d)
	}
	set, counts, err := Lay("", []drawing.Sheet{s}, a4())
	require.NoError(t, err)
	require.Len(t, set.Pages, 2, "one under the other in their order they take three")
	assert.True(t, counts[0].Solved && counts[0].Proved)
	seen := 0
	for _, p := range set.Pages {
		var shown []geom.Rect
		for _, l := range p.Layers {
			for _, m := range l.Marks {
				line, ok := m.(drawing.Line)
				if !ok || line.Pen != drawing.Wide {
					continue
				}
				box := geom.Segment{A: l.ToPage.Apply(line.From), B: l.ToPage.Apply(line.To)}.Bounds()
				assert.True(t, l.Clip.Contains(box), "it is whole")
				for _, o := range shown {
					assert.False(t, box.Inset(-packGap+1).InteriorIntersects(o), "and keeps off the others")
				}
				shown = append(shown, box)
				seen++
			}
		}
	}
	assert.Equal(t, 4, seen)
	s.Drawings[0].Bounds.Max.Y += field.H
	_, _, err = Lay("", []drawing.Sheet{s}, a4())
	require.ErrorContains(t, err, "sheet blocks: part 0,")
}
