package sheet

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/geom/cutting"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/covering"
	"rodsheet/template/plan/stock"
)

// corridor is a job of many panels: a long roll with a pattern, several sheets, small parts, parts larger than the stock.
func corridor(t *testing.T) *maker {
	return makerOf(t, `rodsheet: 1
name: Corridor
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20, sheet: 1000 x 2000}
batting: {thickness: 10, pressed: 1.5, roll: 1600}
cover: {thickness: 1.2, roll: 1400, nap: up, repeat: 320}
clip: {kind: press, base: 40 x 40, flange: 2.5, standoff: 9}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 3}
walls:
  - name: W
    width: 20000
    height: 2400
    runs:
      - {name: A, across: [100, 9900], height: {bottom: 100, top: 700}, panels: 20, gap: 5}
      - {name: B, across: [100, 9900], height: {bottom: 750, top: 1250}, panels: 17, gap: 5}
      - {name: C, across: [10000, 12000], height: {bottom: 100, top: 200}, panels: 10, gap: 5}
      - {name: D, across: [10000, 13000], height: {bottom: 300, top: 2300}, panels: 2, gap: 5}
`)
}

func TestEveryCutOfASheetHasItsNumberOnItAndEveryPartItsName(t *testing.T) {
	for name, m := range map[string]*maker{"corridor": corridor(t), "demo": makerOf(t, demo(t)), "loft": makerOf(t, stored(t, "loft"))} {
		for _, c := range []stock.SheetCut{m.plan.Stock.Boards, m.plan.Stock.Foam} {
			require.True(t, c.Planned, name)
			for _, u := range c.Layout.Used {
				whole := geom.Rect{Max: geom.Pt(c.Sheet.W, c.Sheet.H)}
				d := m.layoutFigure("Sheet", u, whole, c.Laid, a4Field.H*38/100)
				circles, numbers, names, lines := 0, map[string]geom.Point{}, 0, []drawing.Line{}
				for _, mark := range d.Marks {
					switch mark := mark.(type) {
					case drawing.Circle:
						circles++
					case drawing.Line:
						if mark.Pen == drawing.Wide {
							lines = append(lines, mark)
						}
					case drawing.Text:
						if n, err := strconv.Atoi(mark.String); err == nil {
							require.NotContains(t, numbers, mark.String)
							numbers[mark.String] = mark.At
							require.Positive(t, n)
						} else if mark.Bold && slices.ContainsFunc(c.Laid, func(p stock.Part) bool { return p.Name == mark.String }) {
							names++
						}
					}
				}
				assert.Equal(t, len(u.Cuts), circles)
				assert.Len(t, lines, len(u.Cuts))
				assert.Equal(t, len(u.Placed), names, "%s: every part is named, however small", name)
				for i := range u.Cuts {
					at, ok := numbers[strconv.Itoa(i+1)]
					require.True(t, ok, "cut %d", i+1)
					box := geom.Polygon{lines[i].From, lines[i].To}.Bounds().Inset(-3 * mm)
					assert.True(t, box.ContainsPoint(at), "number %d stands on its cut", i+1)
				}
			}
		}
	}
}

func TestNumbersOfCutsDoNotCoverEachOtherWhereThereIsRoom(t *testing.T) {
	for name, m := range map[string]*maker{"bay": makerOf(t, stored(t, "bay")), "demo": makerOf(t, demo(t)), "loft": makerOf(t, stored(t, "loft"))} {
		for _, d := range m.cuttings()[0].Drawings {
			var circles []drawing.Circle
			for _, mark := range d.Marks {
				if c, ok := mark.(drawing.Circle); ok {
					for _, o := range circles {
						assert.GreaterOrEqual(t, c.Centre.Distance(o.Centre), c.Radius+o.Radius-mm/10, "%s: at %v", name, c.Centre)
					}
					circles = append(circles, c)
				}
			}
		}
	}
}

func TestLongRollIsShownInStretchesThatCanBeRead(t *testing.T) {
	m := corridor(t)
	for _, c := range []stock.RollCut{m.plan.Stock.Cover, m.plan.Stock.Batting} {
		l := c.Layout
		stretches := rollStretches(&l, c.Width, a4Field)
		require.Greater(t, len(stretches), 1)
		y, shown := geom.Length(0), map[int]bool{}
		for _, r := range stretches {
			assert.Equal(t, y, r.Min.Y, "one after the other")
			y = r.Max.Y
			d := m.layoutFigure("Roll", l.Used, r, c.Laid, a4Field.H*38/100)
			assert.LessOrEqual(t, d.Bounds.W(), a4Field.W)
			assert.GreaterOrEqual(t, d.Bounds.H(), 45*mm)
			for i, cut := range l.Cuts {
				if cut.Across && cutOn(cut, r) {
					require.False(t, shown[i], "a cut from side to side is shown once")
					shown[i] = true
				}
			}
		}
		assert.Equal(t, l.Length, y)
		for i, cut := range l.Cuts {
			assert.True(t, shown[i] || !cut.Across, "cut %d", i)
		}
	}
}

func TestShortRollStaysWhole(t *testing.T) {
	l := cutting.RollLayout{Length: 3570 * mm}
	assert.Equal(t, []geom.Rect{geom.R(0, 0, 1143*mm, 3570*mm)}, rollStretches(&l, 1143*mm, a4Field))
}

func TestCoverWithNapShowsTheWayUpBesideEachStretch(t *testing.T) {
	m := corridor(t)
	words := all(m.cuttings()[0])
	n := len(rollStretches(&m.plan.Stock.Cover.Layout, m.plan.Stock.Cover.Width, a4Field))
	assert.Equal(t, n, strings.Count(words, "top of every piece"))
	assert.Contains(t, words, "One pattern repeat of 320 mm is bought more")
	assert.NotContains(t, words, "Farley")
	assert.NotContains(t, words, "dual feasible")
}

func TestFoldStepsThatDoNotFitBelowTheCornerGetAPage(t *testing.T) {
	m := makerOf(t, strings.Replace(metric(oneRun), "foam: {thickness: 20}", "foam: {thickness: 105}", 1))
	s := m.folds()
	require.NotEmpty(t, s)
	words := all(s[0])
	assert.Contains(t, words, "continued")
	assert.Equal(t, 2, strings.Count(words, "Staples: legs no longer than"), "the steps of both corners")
	for _, d := range s[0].Drawings {
		for _, mark := range d.Marks {
			assert.True(t, mark.Bounds().Min.Y > -mm, "%T stands above the foot of the page", mark)
		}
	}
}

func TestWithoutBattingNoneIsCutAndWithoutCoverNothingIsFolded(t *testing.T) {
	with := metric(oneRun)
	assert.Contains(t, all(makerOf(t, with).folds()[0]), "Cut the batting")
	without := strings.Replace(with, "batting: {thickness: 10, pressed: 1.5}\n", "", 1)
	assert.NotContains(t, all(makerOf(t, without).folds()[0]), "Cut the batting")
	bare := strings.Replace(without, "cover: {thickness: 1.5}\n", "", 1)
	m := makerOf(t, bare)
	assert.Empty(t, m.folds())
	assert.Empty(t, m.plan.Stock.Cover.Parts)
	for _, i := range m.plan.Stock.List {
		assert.NotContains(t, i.What, "cover")
	}
}

func TestStapleNumbersDoNotCoverEachOther(t *testing.T) {
	m := makerOf(t, stored(t, "loft"))
	for i := range m.plan.Boards {
		d := m.staples(i, geom.Size{W: a4Field.W * 4 / 10, H: a4Field.H * 35 / 100})
		var at []geom.Point
		marks := 0
		for _, mark := range d.Marks {
			switch mark := mark.(type) {
			case drawing.Circle:
				marks++
			case drawing.Text:
				if mark.Bold {
					continue
				}
				marks++
				for _, o := range at {
					assert.True(t, max((mark.At.X-o.X), (o.X-mark.At.X)) >= mm || max((mark.At.Y-o.Y), (o.Y-mark.At.Y)) >= small)
				}
				at = append(at, mark.At)
			}
		}
		assert.Equal(t, len(covering.Staples(m.plan.Job, m.plan.Boards[i].Outline)), marks, "every staple is shown")
	}
}

const oneRun = `walls:
  - name: W
    width: 2000
    height: 2400
    runs:
      - {name: A, across: [100, 1900], height: {bottom: 500, top: 1100}, panels: 3, gap: 5}
`

func TestBoardsWithCornersThatAreNotSquareAreNamedOnTheFoldSheet(t *testing.T) {
	m := makerOf(t, stored(t, "loft"))
	assert.Equal(t, "D", m.slantingCorners())
	assert.Contains(t, all(m.folds()[0]), "not square (D)")
}

func TestPartsLargerThanTheirStockAreToldWhereTheyAreNotDrawn(t *testing.T) {
	assert.Contains(t, all(corridor(t).cuttings()[0]), "2 parts of the table are too large for it and not shown")
	m := makerOf(t, strings.Replace(metric(oneRun), "sheet: 1220 x 2440", "sheet: 500 x 500", 1))
	words := all(m.cuttings()[0])
	assert.Contains(t, words, "Every part is larger than")
	assert.NotContains(t, words, "0 sheets")
}
