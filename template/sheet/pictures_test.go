package sheet

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// Pictures give way where that spares a page, and only there.
func TestPicturesAreSmallerOnlyWhereThatSparesAPage(t *testing.T) {
	m := &maker{options: Options{Field: geom.Size{W: 186 * mm, H: 200 * mm}}}
	for _, c := range []struct {
		claim string
		pages func(high geom.Length) int
		want  geom.Length
	}{
		{"it never matters", func(geom.Length) int { return 3 }, 76 * mm},
		{"the middle size spares one, the least no more", func(high geom.Length) int { return map[bool]int{true: 3, false: 2}[high > 66*mm] }, 66 * mm},
		{"only the least spares one", func(high geom.Length) int { return map[bool]int{true: 3, false: 2}[high > 58*mm] }, 58 * mm},
	} {
		out := m.fewest(cutShares, func(high geom.Length) []drawing.Drawing {
			leaves := make([]drawing.Drawing, c.pages(high))
			leaves[0].Bounds.Max.Y = high
			return leaves
		})
		assert.Equal(t, c.want, out[0].Bounds.Max.Y, c.claim)
	}
}

// A board's corners are read from its table while one looks at its picture.
func TestTheTableOfABoardsCornersStandsWithItsPicture(t *testing.T) {
	boards := 0
	for _, d := range makerOf(t, stored(t, "loft")).cuttings()[0].Drawings {
		words := all(drawing.Sheet{Drawings: []drawing.Drawing{d}})
		n := strings.Count(words, ": out of ")
		boards += n
		assert.Equal(t, n, strings.Count(words, "slope of that edge"))
		assert.Equal(t, n, strings.Count(words, "To check the cut board"))
	}
	assert.Equal(t, 3, boards)
}

// A pipe as high as the wall must not be named over the wall's own name.
func TestNamesInAnElevationKeepOffTheNameOfTheWall(t *testing.T) {
	m := makerOf(t, metric(`walls:
  - name: North
    width: 2600
    height: 2400
    lining: {thickness: 12.5}
    studs: {from: 100, every: 600, width: 45}
    keep-outs: [{name: old pipe, at: [500, 0], size: 30 x 2400}]
    runs: [{name: S, across: [600, 1500], height: {bottom: 520, top: 1020}, panels: 3}]
`))
	d := m.elevations(geom.Size{W: a4Field.W, H: 100 * mm})[0]
	boxes := map[string]geom.Rect{}
	for _, mark := range d.Marks {
		if text, ok := mark.(drawing.Text); ok {
			boxes[strings.SplitN(text.String, " ", 2)[0]] = text.Bounds()
		}
	}
	require.Contains(t, boxes, "old")
	for _, name := range []string{"Wall", "1"} {
		require.Contains(t, boxes, name)
		assert.False(t, boxes["old"].InteriorIntersects(boxes[name]), name)
	}
}

// Clips stand left and right of the middle of each panel, at the height of its name, and under one of them a socket is as
// near as the words of the panels' foot.
func TestNamesInAnElevationKeepOffClipsAndPanels(t *testing.T) {
	m := makerOf(t, metric(`walls:
  - name: Bed
    width: 2110
    height: 2400
    lining: {thickness: 12.5}
    studs: {from: 160, every: 400, width: 38}
    fittings:
      - {name: left socket, kind: electrical, at: [110, 340], size: 80 x 80}
      - {name: right socket, kind: electrical, at: [1930, 340], size: 80 x 80}
      - {name: high switch, kind: electrical, at: [2000, 1400], size: 80 x 80}
    runs: [{name: H, across: [0, 1990], height: {bottom: 480, top: 1500}, panels: 5, gap: 4}]
`))
	d := m.elevations(geom.Size{W: a4Field.W, H: 70 * mm})[0]
	var texts, dots, panels []geom.Rect
	for _, mark := range d.Marks {
		switch mark := mark.(type) {
		case drawing.Text:
			if strings.HasPrefix(mark.String, "H") && mark.Bold || strings.Contains(mark.String, "socket") || strings.Contains(mark.String, "switch") {
				texts = append(texts, mark.Bounds())
			}
		case drawing.Circle:
			dots = append(dots, mark.Bounds())
		}
	}
	require.Len(t, texts, 5+3)
	require.Len(t, dots, 5*6)
	for _, text := range texts[:5] {
		panels = append(panels, text)
		assert.False(t, slices.ContainsFunc(dots, text.InteriorIntersects), "a panel's name covers a clip")
	}
	for _, text := range texts[5:] {
		assert.False(t, slices.ContainsFunc(dots, text.InteriorIntersects) || slices.ContainsFunc(panels, text.InteriorIntersects), "a fitting's name covers a panel")
		assert.False(t, slices.ContainsFunc(heightWords(d), text.InteriorIntersects), "a fitting's name covers a height")
	}
}

// heightWords are where the words of heights stand, which end beside their wall.
func heightWords(d drawing.Drawing) (out []geom.Rect) {
	for _, mark := range d.Marks {
		if text, ok := mark.(drawing.Text); ok && text.Anchor == drawing.Right {
			out = append(out, text.Bounds())
		}
	}
	return out
}

// Parts that are nearly square lie one way or the other: where their size has no room in one line it takes two.
func TestTheSizeOfASmallPartTakesTwoLines(t *testing.T) {
	m := corridor(t)
	for width, want := range map[geom.Length][]string{
		40 * mm: {"A", "470 mm × 494 mm"}, 24 * mm: {"A", "470 mm ×", "494 mm"}, 9 * mm: {"A"},
	} {
		var d drawing.Drawing
		room := geom.R(0, 0, width, width)
		m.partWords(&d, room, "A", geom.Size{W: 470 * mm, H: 494 * mm})
		var words []string
		for _, mark := range d.Marks {
			words = append(words, mark.(drawing.Text).String)
			assert.True(t, room.Contains(mark.Bounds()), "%v: %v", width, mark)
		}
		assert.Equal(t, want, words)
	}
}

// What is printed whole has no pages to tape and no dashed ends.
func TestWhatIsPrintedWholeIsNotToBeTaped(t *testing.T) {
	for _, whole := range []bool{false, true} {
		m := makerOf(t, stored(t, "asymmetric-studs"))
		m.options.Whole = whole
		said := m.boards()[0].Hint + m.rods()[0].Hint + all(m.overview(m.boards()))
		for _, words := range []string{"Tape the pages", "Tape the board", "dashed ends"} {
			if whole {
				assert.NotContains(t, said, words)
			} else {
				assert.Contains(t, said, words)
			}
		}
	}
}

// Line b is set on a mark, so that no words may break it.
func TestWordsOfAnEdgeJigStandBesideItsLine(t *testing.T) {
	edges := 0
	for _, s := range Of(makerOf(t, stored(t, "loft")).plan, nil, Options{Field: a4Field, Printable: a4Printable, Only: []drawing.Kind{Corner}}) {
		if !strings.HasPrefix(s.Title, "Edge") {
			continue
		}
		edges++
		var line drawing.Line
		for _, mark := range s.Drawings[0].Marks {
			if l, ok := mark.(drawing.Line); ok && l.Pen.Style == drawing.Chain && l.From.X == l.To.X {
				line = l
			}
		}
		require.NotZero(t, line, s.Title)
		for _, mark := range s.Drawings[0].Marks {
			if text, ok := mark.(drawing.Text); ok && strings.Contains(text.String, "from fold a") {
				b := text.Bounds()
				assert.False(t, b.Min.X < line.From.X && line.From.X < b.Max.X, "%s: %q", s.Title, text.String)
			}
		}
	}
	assert.Positive(t, edges)
}

// Two heights in one cell are of the two ends; where none differ nothing is said of ends.
func TestTheTableOfHeightsTellsWhichEndAFigureIsOf(t *testing.T) {
	for deck, want := range map[string]bool{"[400, 412]": true, "[400, 400]": false} {
		m := makerOf(t, room("{seat: "+deck+", cushion: 80, sill: 860, gap: 20, deck: follow}", ""))
		words := all(m.overview(nil))
		assert.Equal(t, want, strings.Contains(words, "at the left end of the run"), deck)
	}
}
