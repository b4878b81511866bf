package pdf_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/internal/specimen"
	"rodsheet/template/page"
	"rodsheet/template/pdf"
)

const mm = geom.Millimetre

func write(t testing.TB, set page.Set) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, set))
	return b.Bytes()
}

// one is a set of a single A4 page with the marks on it, at their places with y up.
func one(marks ...drawing.Mark) page.Set {
	a4 := geom.Size{W: 210 * mm, H: 297 * mm}
	return page.Set{Title: "one", Pages: []page.Page{{
		Number: 1, Paper: a4, Sheet: "test",
		Layers: []page.Layer{{ToPage: geom.FlipY(a4.H), Clip: geom.R(0, 0, a4.W, a4.H), Marks: marks}},
	}}}
}

func TestEveryMarkOfTheSpecimenStandsInItsPlace(t *testing.T) {
	set := specimen.Set()
	pages := reader.Trace(t, write(t, set))
	require.Len(t, pages, len(set.Pages))
	for i, p := range set.Pages {
		reader.Hold(t, p, pages[i])
	}
}

func TestTheHoleIsTheMiddleOfItsCircleAndCross(t *testing.T) {
	p := reader.Trace(t, write(t, specimen.Set()))[0]
	// 2 13/16 in = 71.4375 mm and 4 in = 101.6 mm, moved by 30 mm and counted down from 248 mm.
	want := reader.Point{X: 101.4375, Y: 146.4}
	best := math.Inf(1)
	for _, c := range p.Crosses(reader.Within) {
		best = min(best, c.Distance(want))
	}
	assert.LessOrEqual(t, best, reader.Within)
	best = math.Inf(1)
	for _, s := range p.Strokes {
		if centre, r, off := s.Round(); s.Curved && s.Closed && math.Abs(r-4) <= reader.Within && off <= reader.Within {
			best = min(best, centre.Distance(want))
		}
	}
	assert.LessOrEqual(t, best, reader.Within)
}

func TestPositionsHoldFarOutOnTheLongestPage(t *testing.T) {
	long := geom.Size{W: 5080 * mm, H: 5080 * mm}
	set := one()
	set.Pages[0].Paper = long
	set.Pages[0].Layers[0] = page.Layer{ToPage: geom.FlipY(long.H), Clip: geom.R(0, 0, long.W, long.H), Marks: []drawing.Mark{
		drawing.Line{From: geom.Pt(mm/3, mm/7), To: geom.Pt(5079*mm, 5079*mm+mm/3), Pen: drawing.Hair},
		drawing.Text{At: geom.Pt(5000*mm, 5000*mm), String: "turned", Height: 5 * mm, Turn: 33},
		drawing.Circle{Centre: geom.Pt(2500*mm, 2500*mm), Radius: 2400 * mm, Pen: drawing.Narrow},
	}}
	reader.Hold(t, set.Pages[0], reader.Trace(t, write(t, set))[0])
}

func TestTheFileIsSoundAndAsksForNoScaling(t *testing.T) {
	file := write(t, specimen.Set())
	reader.CheckPDF(t, file)
	catalog, version := reader.Catalog(t, file)
	assert.Equal(t, "None", reader.PrintScaling(t, file))
	assert.Equal(t, "1.7", version, "PrintScaling needs PDF 1.6 (ISO 32000-1, table 150)")
	assert.Contains(t, catalog, "/Outlines")
	assert.NotContains(t, string(file), "Date")
}

func TestBookmarksLeadToTheTopOfTheirPagesAndLinksToTheirPages(t *testing.T) {
	file := write(t, specimen.Set())
	assert.Equal(t, []reader.Bookmark{
		{Title: "Whole ⌀", Level: 0, Page: 1, Y: 841.89},
		{Title: "All marks", Level: 1, Page: 1, Y: 841.89},
		{Title: "Window", Level: 0, Page: 2, Y: 612},
		{Title: "Corrected", Level: 1, Page: 3, Y: 841.89}, // asked for at level 3
		{Title: "Roll", Level: 0, Page: 5, Y: 2834.65},
	}, reader.Bookmarks(t, file))
	assert.Equal(t, []int{3}, reader.Links(t, file, 1), "the link to a page that isn't there is left out")
	assert.Equal(t, []int{1}, reader.Links(t, file, 2))
	// Pages printed again keep their numbers, and links follow them.
	again := specimen.Set()
	again.Pages = []page.Page{again.Pages[2], again.Pages[1], again.Pages[0]}
	assert.Equal(t, []int{1}, reader.Links(t, write(t, again), 3))
}

func FuzzAnyTextIsWritten(f *testing.F) {
	f.Add("10 1/2″ \\()\r\xff\U0001F600")
	f.Fuzz(func(t *testing.T, text string) {
		set := one(drawing.Text{At: geom.Pt(mm, mm), String: text[:min(len(text), 5000)], Height: 5 * mm, Bold: len(text)%2 == 0})
		set.Title = text
		set.Pages[0].Bookmarks = []page.Bookmark{{Title: text}}
		require.NoError(t, pdf.Write(io.Discard, set))
	})
}

func TestLettersAreEmbeddedAndCopy(t *testing.T) {
	file := write(t, specimen.Set())
	fonts := reader.Fonts(t, file)
	require.Len(t, fonts, 2)
	for _, f := range fonts {
		assert.True(t, f.Embedded, f.Name)
		assert.True(t, f.Unicode, f.Name)
	}
	words := reader.Words(t, file, 1)
	assert.Equal(t, 2, strings.Count(words, specimen.Glyphs), words)
	assert.Contains(t, words, "10 1/2″ (haloed)")
	assert.Contains(t, words, `<b> & "a\b" (c) 'd' %s`)
	assert.Contains(t, reader.Words(t, file, 2), "after the window")
}

func TestLettersAreBlackAfterAWindowThatEndedInWhite(t *testing.T) {
	white := drawing.Circle{Centre: geom.Pt(50*mm, 50*mm), Radius: 5 * mm, Fill: drawing.White}
	black := white
	black.Fill = drawing.Black
	set := one()
	layer := set.Pages[0].Layers[0]
	window := page.Layer{ToPage: layer.ToPage, Clip: geom.R(0, 0, 50*mm, 297*mm), Marks: []drawing.Mark{white, black}}
	plain := layer
	plain.Marks = []drawing.Mark{white}
	layer.Marks = []drawing.Mark{drawing.Text{At: geom.Pt(100*mm, 100*mm), String: "HHHHHHHH", Height: 20 * mm, Bold: true}}
	set.Pages[0].Layers = []page.Layer{plain, window, layer}
	picture := reader.Picture(t, write(t, set), 1, 50)
	dark := 0
	for y := range picture.Bounds().Dy() {
		for x := 200; x < picture.Bounds().Dx(); x++ {
			if r, _, _, _ := picture.At(x, y).RGBA(); r < 0x4000 {
				dark++
			}
		}
	}
	assert.Greater(t, dark, 1000)
}

func TestCharactersTheFontLacksShow(t *testing.T) {
	set := one(drawing.Text{At: geom.Pt(20*mm, 20*mm), String: "a\U0001F600b\xffc\nd漢e", Height: 5 * mm})
	set.Title = "\U0001F600 \xff"
	set.Pages[0].Bookmarks = []page.Bookmark{{Title: "\U0001F600 \xff\x00"}}
	file := write(t, set)
	reader.CheckPDF(t, file)
	assert.Equal(t, "a?b?c d?e", reader.Trace(t, file)[0].Texts[0].String)
}

func TestEveryCharacterOfTheBasicPlaneIsWritten(t *testing.T) {
	var marks []drawing.Mark
	for first := rune(0); first < 0x1_1000; first += 1000 {
		var text []rune
		for r := first; r < first+1000; r++ {
			text = append(text, r)
		}
		marks = append(marks, drawing.Text{At: geom.Pt(0, 150*mm), String: string(text), Height: mm, Bold: first%2000 == 0})
	}
	file := write(t, one(marks...))
	reader.CheckPDF(t, file)
	assert.Contains(t, reader.Words(t, file, 1), "абвгд")
}

func TestTheSameSetGivesTheSameBytes(t *testing.T) {
	first := write(t, specimen.Set())
	for range 10 {
		require.Equal(t, first, write(t, specimen.Set()))
	}
}

func TestReferencesAndBadNumbersAreRefused(t *testing.T) {
	line := drawing.Line{To: geom.Pt(mm, mm), Pen: drawing.Wide}
	tooLarge, tooSmall, mapless, flat := one(line), one(line), one(line), one(line)
	tooLarge.Pages[0].Paper.W = 5081 * mm
	tooSmall.Pages[0].Paper.H = 0
	mapless.Pages[0].Layers[0].ToPage.A = math.NaN()
	flat.Pages[0].Layers[0].ToPage.A = 0
	deep := one(line)
	deep.Pages[0].Bookmarks = []page.Bookmark{{Title: "x", Level: -1}}
	type own struct{ drawing.Line }
	for name, c := range map[string]struct {
		set  page.Set
		want string
	}{
		"no pages":           {page.Set{}, "there are no pages to write"},
		"page too large":     {tooLarge, "page 1 (test) is 5081 mm wide; a page of a PDF file can be 5080 mm (200 in) at most: split the drawing over pages"},
		"page too small":     {tooSmall, "page 1 (test) is 0 mm high; a page of a PDF file must be 1.1 mm at least"},
		"map not a number":   {mapless, "page 1 (test), layer 1: the map to the page has the coefficient NaN; it must be a number up to 1000"},
		"flat map":           {flat, "page 1 (test), layer 1: the map to the page flattens the drawing"},
		"bookmark level":     {deep, `page 1 (test): the bookmark "x" has the level -1`},
		"unresolved ref":     {one(drawing.Ref{Sheet: "N1 back"}), `page 1 (test), layer 1: mark 1: the reference to sheet "N1 back" has not been replaced by its page number`},
		"unknown mark":       {one(line, own{line}), "page 1 (test), layer 1: mark 2: no writer knows how to draw a pdf_test.own"},
		"pointer":            {one(&line), "page 1 (test), layer 1: mark 1: no writer knows how to draw a *drawing.Line"},
		"no mark":            {one(nil), "page 1 (test), layer 1: mark 1: no writer knows how to draw a <nil>"},
		"far away":           {one(drawing.Line{To: geom.Pt(math.MaxInt64, 0), Pen: drawing.Wide}), "page 1 (test), layer 1: mark 1: the line runs more than a kilometre away"},
		"turn not a number":  {one(drawing.Text{String: "a", Height: mm, Turn: math.NaN()}), `page 1 (test), layer 1: mark 1: the text "a" is turned by NaN°, which is no angle`},
		"turn without end":   {one(drawing.Text{String: "a", Height: mm, Turn: math.Inf(1)}), `page 1 (test), layer 1: mark 1: the text "a" is turned by +Inf°, which is no angle`},
		"height nought":      {one(drawing.Text{String: "a"}), `page 1 (test), layer 1: mark 1: the text "a" has capitals 0 mm high`},
		"sweep not a number": {one(drawing.Arc{Radius: mm, Sweep: math.NaN(), Pen: drawing.Wide}), "page 1 (test), layer 1: mark 1: the arc runs from 0° over NaN°, which is no angle"},
		"negative radius":    {one(drawing.Circle{Radius: -mm, Pen: drawing.Wide}), "page 1 (test), layer 1: mark 1: the circle has the negative radius −1 mm"},
		"negative pen":       {one(drawing.Line{To: geom.Pt(mm, mm), Pen: drawing.Pen{Width: -mm}}), "page 1 (test), layer 1: mark 1: the line has a pen of −1 mm"},
		"empty path":         {one(drawing.Path{Pen: drawing.Wide}), "page 1 (test), layer 1: mark 1: a path needs two points at least, this one has 0"},
		"role":               {one(drawing.Line{To: geom.Pt(mm, mm), Pen: drawing.Wide, Role: 7}), "page 1 (test), layer 1: mark 1: role 7 is unknown"},
	} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			require.EqualError(t, pdf.Write(&b, c.set), c.want)
			assert.Zero(t, b.Len(), "nothing is written of a set that is refused")
		})
	}
}

// failing takes some bytes and then fails, or, without an error, takes less than it is given.
type failing struct{ err error }

func (f failing) Write(p []byte) (int, error) { return len(p) / 2, f.err }

func TestTheWritersErrorIsTold(t *testing.T) {
	full := errors.New("disk full")
	require.ErrorIs(t, pdf.Write(failing{full}, one()), full)
	require.ErrorIs(t, pdf.Write(failing{}, one()), io.ErrShortWrite)
}
