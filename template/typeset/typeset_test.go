package typeset

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

var a4Field = geom.Size{W: 180 * mm, H: 240 * mm}

// texts lists the words of a drawing in the order they were set.
func texts(d drawing.Drawing) []drawing.Text {
	var out []drawing.Text
	for _, m := range d.Marks {
		switch m := m.(type) {
		case drawing.Text:
			out = append(out, m)
		case drawing.Ref:
			t := m.Text
			t.String = refSample
			out = append(out, t)
		}
	}
	return out
}

func words(n int) string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprint("word", i))
	}
	return strings.Join(out, " ")
}

// many is a run of every kind of block, long enough for several drawings.
func many() []Block {
	var out []Block
	out = append(out, Title{"A title"}, Para{Text: words(120)})
	for i := range 12 {
		out = append(out,
			Heading{fmt.Sprint("Heading ", i)}, Para{Text: words(60 + 7*i)}, Item{Label: "1", Text: words(30)}, Item{Label: "!", Text: words(5)},
			Space{4 * mm},
			Figure{drawing.Drawing{Bounds: geom.R(-10*mm, 0, 40*mm, geom.Length(5+3*i)*mm), Marks: []drawing.Mark{
				drawing.Path{Points: geom.R(-10*mm, 0, 40*mm, geom.Length(5+3*i)*mm).Polygon(), Closed: true, Pen: drawing.Narrow}}}},
			Columns{[][]Block{{Para{Text: words(20)}}, {Heading{"Right"}, Para{Text: words(45)}}}},
			Table{Columns: []Column{{Head: "n", Right: true}, {Head: "what", Wrap: true}, {Head: "page"}}, Rows: [][]Cell{
				{{Text: "1"}, {Text: words(40)}, {Sheet: "rod"}}, {{Text: "22"}, {Text: words(3)}, {Sheet: "block"}}}},
		)
	}
	return out
}

func TestNothingIsSetOutsideTheDrawing(t *testing.T) {
	for _, size := range []geom.Size{a4Field, {W: 120 * mm, H: 130 * mm}, {W: 260 * mm, H: 150 * mm}} {
		set := Set(size, many()...)
		require.Greater(t, len(set), 1)
		for i, d := range set {
			assert.Equal(t, geom.Rect{Max: geom.Pt(size.W, size.H)}, d.Bounds)
			for _, m := range d.Marks {
				assert.True(t, d.Bounds.Inset(-mm/2).Contains(m.Bounds()), "drawing %d: %+v", i, m)
			}
		}
	}
}

func TestEveryWordIsSetOnceAndInOrder(t *testing.T) {
	text := words(400)
	var got []string
	for _, d := range Set(geom.Size{W: 90 * mm, H: 60 * mm}, Para{Text: text}) {
		for _, w := range texts(d) {
			got = append(got, w.String)
		}
	}
	assert.Equal(t, text, strings.Join(got, " "))
}

func TestLinesDoNotTouch(t *testing.T) {
	for _, d := range Set(a4Field, many()...) {
		list := texts(d)
		for i, a := range list {
			for _, b := range list[i+1:] {
				// Boxes hold descenders and a little air; letters themselves must be apart.
				assert.False(t, a.Bounds().Inset(a.Height/10).InteriorIntersects(b.Bounds().Inset(b.Height/10)), "%q and %q", a.String, b.String)
			}
		}
	}
}

// However far down a heading falls, the first words after it stand on the same drawing.
func TestAHeadingStaysWithWhatFollows(t *testing.T) {
	for lead := range 40 {
		for name, next := range map[string]Block{
			"paragraph": Para{Text: words(200)},
			"item":      Item{Label: "1", Text: words(90)},
			"table":     Table{Columns: []Column{{Head: "head"}}, Rows: [][]Cell{Cells("row"), Cells("row")}},
			"figure":    Figure{drawing.Drawing{Bounds: geom.R(0, 0, 50*mm, 30*mm), Marks: []drawing.Mark{drawing.Text{String: "figure", Height: font.Small}}}},
		} {
			set := Set(geom.Size{W: 100 * mm, H: 100 * mm}, Space{geom.Length(lead) * 25 * mm / 10}, Heading{"HEADING"}, next)
			for _, d := range set {
				list := texts(d)
				for i, w := range list {
					if w.String == "HEADING" {
						assert.Less(t, i+1, len(list), "%s after %d: the heading stands alone", name, lead)
					}
				}
			}
		}
	}
}

func TestATableHeadStaysWithItsFirstRow(t *testing.T) {
	table := Table{Columns: []Column{{Head: "HEAD"}}, Rows: [][]Cell{Cells("one"), Cells("two")}}
	for lead := range 60 {
		set := Set(geom.Size{W: 100 * mm, H: 100 * mm}, Para{Text: "x"}, Space{geom.Length(lead) * 2 * mm}, table)
		for _, d := range set {
			list := texts(d)
			for i, w := range list {
				if w.String == "HEAD" {
					require.Less(t, i+1, len(list), "after %d mm", 2*lead)
					assert.Equal(t, "one", list[i+1].String)
				}
			}
		}
	}
}

// A few rows without their head, at the top of the next page, say nothing.
func TestAShortTableStaysWholeAndALongOneLeavesNoLineAlone(t *testing.T) {
	rows := func(n int) (out [][]Cell) {
		for range n {
			out = append(out, Cells("row"))
		}
		return out
	}
	for lead := range 60 {
		for n, least := range map[int]int{shortTable: shortTable, 30: 2} {
			table := Table{Columns: []Column{{Head: "HEAD"}}, Rows: rows(n)}
			total := 0
			for _, d := range Set(geom.Size{W: 100 * mm, H: 100 * mm}, Para{Text: "x"}, Space{geom.Length(lead) * 2 * mm}, table) {
				here := 0
				for _, w := range texts(d) {
					if w.String == "row" {
						here++
					}
				}
				total += here
				assert.False(t, here > 0 && here < least, "%d of %d rows after %d mm", here, n, 2*lead)
			}
			assert.Equal(t, n, total)
		}
	}
}

func TestWideTablesBreakTheLinesOfWrappingColumnsAlone(t *testing.T) {
	table := Table{
		Columns: []Column{{Head: "board"}, {Head: "cut to", Right: true}, {Head: "panels", Wrap: true}, {Head: "why", Wrap: true}},
		Rows: [][]Cell{
			Cells("A", "18 7/16″ × 23 5/16″", words(40), words(15)),
			Cells("B", "9″ × 3″", "N1", ""),
		},
	}
	set := Set(a4Field, table)
	require.Len(t, set, 1)
	lines := map[string]int{}
	for _, w := range texts(set[0]) {
		assert.LessOrEqual(t, w.Bounds().Max.X, a4Field.W+mm/2, "%q runs out of the page", w.String)
		lines[w.String]++
	}
	assert.Equal(t, 1, lines["18 7/16″ × 23 5/16″"], "a column that doesn't wrap is whole")
	assert.Greater(t, len(lines), 8+4, "the wrapping columns take several lines")
	// Narrow text takes its own width unless the table is to be full.
	small := Table{Columns: []Column{{Head: "a"}, {Head: "b", Wrap: true}}, Rows: [][]Cell{Cells("1", "2")}}
	assert.Less(t, small.widths(a4Field.W)[1], 20*mm)
	small.Full = true
	widths := small.widths(a4Field.W)
	assert.InDelta(t, float64(a4Field.W), float64(widths[0]+cellGap+widths[1]), float64(mm))
}

func TestNumbersStandAtTheRightOfTheirColumn(t *testing.T) {
	set := Set(a4Field, Table{Columns: []Column{{Head: "pieces", Right: true}}, Rows: [][]Cell{Cells("1"), Cells("1000")}})
	list := texts(set[0])
	require.Len(t, list, 3)
	for _, w := range list {
		assert.Equal(t, drawing.Right, w.Anchor)
		assert.Equal(t, list[0].At.X, w.At.X)
	}
	assert.GreaterOrEqual(t, list[0].At.X, font.Width("pieces", font.Small, true))
}

func TestNoBlocksAreOneEmptyDrawing(t *testing.T) {
	set := Set(a4Field)
	require.Len(t, set, 1)
	assert.Empty(t, set[0].Marks)
	assert.Empty(t, Para{}.boxes(a4Field.W))
	assert.Empty(t, Item{}.boxes(a4Field.W))
}
