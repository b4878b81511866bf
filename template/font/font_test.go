package font_test

import (
	"math"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/jung-kurt/gofpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"rodsheet/geom"
	"rodsheet/template/font"
)

const mm = geom.Millimetre

// needed are the characters that sheets use beyond ASCII.
const needed = "½¼¾⅛⅜⅝⅞⅓⅔″′×⌀Ø°≈−±▲▼↑→↓←≤≥–·…✂éßø’“”"

func TestBothFacesHaveEveryCharacterThatSheetsUse(t *testing.T) {
	for _, bold := range []bool{false, true} {
		parsed, err := sfnt.Parse(font.File(bold))
		require.NoError(t, err)
		var buffer sfnt.Buffer
		for _, r := range needed {
			index, err := parsed.GlyphIndex(&buffer, r)
			require.NoError(t, err)
			assert.NotZero(t, index, "%c, bold %v", r, bold)
			// A glyph may be there and yet be empty.
			outline, err := parsed.LoadGlyph(&buffer, index, fixed.I(1000), nil)
			require.NoError(t, err)
			assert.NotEmpty(t, outline, "%c, bold %v", r, bold)
		}
	}
	assert.Equal(t, needed, font.Clean(needed))
}

func TestCapitalsAreAsHighAsTheSizePromises(t *testing.T) {
	for _, bold := range []bool{false, true} {
		parsed, err := sfnt.Parse(font.File(bold))
		require.NoError(t, err)
		var buffer sfnt.Buffer
		index, err := parsed.GlyphIndex(&buffer, 'H')
		require.NoError(t, err)
		// The letter drawn at the size for capitals of 3.5 mm, counted in micrometres.
		size := font.Size(7 * mm / 2)
		bounds, _, err := parsed.GlyphBounds(&buffer, index, fixed.I(int(size/geom.Micrometre)), 0)
		require.NoError(t, err)
		assert.InDelta(t, 3500, (bounds.Max.Y - bounds.Min.Y).Round(), 2)
	}
}

func TestWidthAgreesWithThePDFLibrary(t *testing.T) {
	doc := gofpdf.New("P", "mm", "A4", "")
	doc.AddUTF8FontFromBytes("letters", "", font.File(false))
	doc.AddUTF8FontFromBytes("letters", "B", font.File(true))
	doc.AddPage()
	for _, text := range []string{"", "H", "10 1/2″ – Board N3 (back)", "Measure width, height and both diagonals first.", needed} {
		for _, bold := range []bool{false, true} {
			style := map[bool]string{true: "B"}[bold]
			size := font.Size(5 * mm).Millimetres()
			doc.SetFont("letters", style, size/25.4*72)
			// The library rounds each advance to a thousandth of the em, cutting off.
			tolerance := size / 1000 * float64(utf8.RuneCountInString(text))
			got := font.Width(text, 5*mm, bold).Millimetres()
			assert.InDelta(t, doc.GetStringWidth(text), got, tolerance+1e-6, "%q, bold %v", text, bold)
		}
	}
}

func TestWidthGrowsWithTheHeight(t *testing.T) {
	one, ten := font.Width("Board", mm, false), font.Width("Board", 10*mm, false)
	assert.InDelta(t, 10, float64(ten)/float64(one), 1e-6)
}

func TestWidthIsThatOfTheTextAsCleaned(t *testing.T) {
	for _, text := range []string{"漢字", "e\u0301", "a\tb\n", "\xff", "\U0001F600"} {
		assert.Equal(t, font.Width(font.Clean(text), 5*mm, false), font.Width(text, 5*mm, false), "%q", text)
	}
}

func TestCleanKeepsWhatTheFontHasAndShowsTheRest(t *testing.T) {
	for in, want := range map[string]string{
		"":                       "",
		"Plain text, 10 1/2\"":   "Plain text, 10 1/2\"",
		"10½″ × ⌀8":              "10½″ × ⌀8",
		"cafe\u0301":             "café",
		"a\tb\r\nc\x00d":         "a b  c d",
		"漢":                      "?",
		"\U0001F600 ok":          "? ok",
		"bro\xffken":             "bro?ken",
		"10\u00a0mm, 5\u202fmm":  "10\u00a0mm, 5\u00a0mm",
		"soft\u00adhy\u200bphen": "softhyphen",
	} {
		assert.Equal(t, want, font.Clean(in), "%q", in)
	}
}

func TestLinesHoldTheWordsAndFit(t *testing.T) {
	const text = "Measure the width, the height and both diagonals of the board first: if they differ by more than half the clip's play, use the board template."
	for _, width := range []geom.Length{30 * mm, 60 * mm, 200 * mm, 10_000 * mm} {
		lines := font.Wrap(text, 5*mm/2, false, width)
		assert.Equal(t, text, strings.Join(lines, " "))
		for i, line := range lines {
			assert.LessOrEqual(t, font.Width(line, 5*mm/2, false), width)
			if i > 0 { // as full as it will go
				first, _, _ := strings.Cut(line, " ")
				assert.Greater(t, font.Width(lines[i-1]+" "+first, 5*mm/2, false), width)
			}
		}
	}
}

func TestOverlongWordsBreakAndNoBreakSpacesDoNot(t *testing.T) {
	lines := font.Wrap("a "+strings.Repeat("W", 50)+" b", 5*mm, false, 30*mm)
	assert.Equal(t, "a"+strings.Repeat("W", 50)+"b", strings.Join(strings.Fields(strings.Join(lines, "")), ""))
	for _, line := range lines {
		assert.LessOrEqual(t, font.Width(line, 5*mm, false), 30*mm)
	}
	assert.Equal(t, []string{"½", "″", "é"}, font.Wrap("½″é", 5*mm, false, 0))
	assert.Equal(t, []string{"it is so", "10\u00a0mm"}, font.Wrap("it is so 10\u00a0mm", 5*mm, false, font.Width("it is so 10", 5*mm, false)))
	assert.Equal(t, []string{"one", "", "two"}, font.Wrap("one\n\ntwo", 5*mm, false, 100*mm))
	assert.Empty(t, font.Wrap("", 5*mm, false, 100*mm))
}

func TestAWriterMayChangeItsFontFile(t *testing.T) {
	first := font.File(true)
	clear(first)
	_, err := sfnt.Parse(font.File(true))
	require.NoError(t, err)
}

func TestWidthsMayBeAskedForAtTheSameTime(t *testing.T) {
	want := font.Width("Ω at once", 5*mm, true)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() { assert.Equal(t, want, font.Width("Ω at once", 5*mm, true)) })
	}
	all.Wait()
}

func FuzzCleanAndWrap(f *testing.F) {
	f.Add("10 1/2″ ⌀8 \xff\U0001F600 e\u0301", int64(30*mm))
	f.Add("a\nb", int64(-1))
	f.Fuzz(func(t *testing.T, text string, width int64) {
		clean := font.Clean(text)
		require.True(t, utf8.ValidString(clean))
		for _, r := range clean {
			require.LessOrEqual(t, r, rune(0xffff))
		}
		require.Equal(t, clean, font.Clean(clean), "cleaning twice changes nothing")
		if len(text) > 2000 {
			return
		}
		strip := func(s string) string { return strings.NewReplacer(" ", "", "\t", "", "\r", "", "\n", "").Replace(s) }
		lines := font.Wrap(text, 5*mm, false, geom.Length(width%math.MaxInt32))
		require.Equal(t, strip(text), strip(strings.Join(lines, "")), "no character is lost")
	})
}

func BenchmarkFirstUse(b *testing.B) {
	for b.Loop() {
		if _, err := sfnt.Parse(font.File(false)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWidth(b *testing.B) {
	for b.Loop() {
		font.Width("10 1/2″ from the left end", 5*mm/2, false)
	}
}

func TestLongTitlesAreCutWithAMarkThatTheyWere(t *testing.T) {
	assert.Equal(t, "short", font.Truncate("short", font.Small, false, 100*mm))
	cut := font.Truncate(strings.Repeat("long ", 50), font.Small, false, 40*mm)
	assert.True(t, strings.HasSuffix(cut, "…"))
	assert.LessOrEqual(t, font.Width(cut, font.Small, false), 40*mm)
	assert.Equal(t, "…", font.Truncate("no room", font.Small, false, 0))
}
