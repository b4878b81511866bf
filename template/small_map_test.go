package template_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// mapCell reads the small map in a page's footer: the cell that is black, and all the others.
func mapCell(t *testing.T, p reader.Page) (here reader.Rect, others []reader.Rect) {
	t.Helper()
	black := 0
	for _, f := range p.Fills {
		if b := f.Bounds(); f.Box() && f.Grey == 0 && b.Max.Y-b.Min.Y < 20 {
			here = b
			black++
		}
	}
	require.Equal(t, 1, black, "black cells")
	for _, s := range p.Strokes {
		if b := s.Bounds(); s.Box() && s.WidthMM < 0.2 && s.Grey == 0 && b.Gap(here) < 30 && b.Max.Y-b.Min.Y < 20 && b.Centre().Distance(here.Centre()) > 0.001 {
			others = append(others, b)
		}
	}
	return here, others
}

// The black cell of the small map is this page's: cells lie to each other as the pages' windows do on the drawing.
func TestTheBlackCellOfTheSmallMapIsThisPage(t *testing.T) {
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			several := 0
			for _, c := range p.counts {
				if c.Pages < 2 || c.Kind != sheet.Board && c.Kind != sheet.Wall {
					continue
				}
				var cells, windows []reader.Rect
				for _, i := range p.pagesOf(c) {
					several++
					here, others := mapCell(t, p.read[i])
					assert.GreaterOrEqual(t, len(others), c.Pages-1, "page %d: the map shows every page", i+1)
					corner := here // of the whole map
					for _, o := range others {
						corner = span([]reader.Point{corner.Min, corner.Max, o.Min, o.Max})
					}
					here.Min, here.Max = minus(here.Min, corner.Min), minus(here.Max, corner.Min)
					cells = append(cells, here)
					w := clipOf(p.set.Pages[i].Layers[0].Clip)
					windows = append(windows, span([]reader.Point{p.inDrawing(i, w.Min), p.inDrawing(i, w.Max)}))
				}
				// The map's scale, from the two pages that are farthest apart.
				k := 0.0
				var far float64
				for i := range windows {
					if d := windows[i].Centre().Distance(windows[0].Centre()); d > far {
						far, k = d, cells[i].Centre().Distance(cells[0].Centre())/d
					}
				}
				require.Positive(t, k, c.Title)
				for i := range windows {
					a, b := windows[0].Centre(), windows[i].Centre()
					u, v := cells[0].Centre(), cells[i].Centre()
					assert.InDelta(t, (b.X-a.X)*k, v.X-u.X, 0.02, "page %d of %s", c.First+i, c.Title)
					assert.InDelta(t, -(b.Y-a.Y)*k, v.Y-u.Y, 0.02, "page %d of %s", c.First+i, c.Title)
				}
			}
			assert.Positive(t, several)
		})
	}
}

func minus(p, q reader.Point) reader.Point { return reader.Point{X: p.X - q.X, Y: p.Y - q.Y} }

// Rows of a board template are lettered from the top, columns numbered from the left, as its pages lie.
func TestGridReferencesTellRowAndColumn(t *testing.T) {
	for _, name := range jobs {
		p := onPaper(t, name, everything())
		for _, c := range p.of(sheet.Board) {
			for _, i := range p.pagesOf(c) {
				here, others := mapCell(t, p.read[i])
				// A cell that overlaps this one's rows less than by half lies in another row.
				rows, columns := map[int]bool{}, map[int]bool{}
				for _, o := range others {
					if d := o.Centre().Y - here.Centre().Y; d < -(here.Max.Y-here.Min.Y)/2 {
						rows[int(d*10)] = true
					}
					if d := o.Centre().X - here.Centre().X; d < -(here.Max.X-here.Min.X)/2 {
						columns[int(d*10)] = true
					}
				}
				ref := string(rune('a'+len(rows))) + string(rune('1'+len(columns)))
				found := false
				for _, w := range p.read[i].FindText(ref) {
					found = found || w.Bold && w.SizeMM > 5
				}
				assert.True(t, found, "%s, page %d is not called %s", name, i+1, ref)
			}
		}
	}
}
