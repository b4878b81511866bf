package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
)

// The printable field of a letter page with quarter-inch margins is this.
var letterField = geom.Size{W: 1912 * mm / 10, H: 2417 * mm / 10}

func TestTheStartersJigsNeedNoSecondPageForTheirTable(t *testing.T) {
	m := makerOf(t, string(job.Starter(geom.Imperial)))
	m.options.Field = letterField
	sheets, covered := m.corners()
	require.Equal(t, []bool{true}, covered)
	require.Len(t, sheets, 2)
	for _, s := range sheets {
		require.Len(t, s.Drawings, 1, s.Title)
		assert.Contains(t, all(s), "fold b on", s.Title)
		for _, mark := range s.Drawings[0].Marks {
			if text, ok := mark.(drawing.Text); ok {
				assert.LessOrEqual(t, text.Bounds().Max.X, letterField.W, text.String)
			}
		}
	}
}

func TestBlocksThatDifferAreToBeNamedNotCutAlike(t *testing.T) {
	level, sloped := makerOf(t, metric(levelDeck)), makerOf(t, metric(strings.Replace(levelDeck, "seat: 445", "seat: [445, 451]", 1)))
	assert.Contains(t, level.blocks()[0].Hint, "All blocks equal")
	s := sloped.blocks()[0]
	assert.NotContains(t, s.Hint, "All blocks equal")
	assert.Contains(t, s.Hint, "write its name on every block")
	assert.Contains(t, all(s), "Or rip it from one piece.")
	assert.NotContains(t, all(s), "all of them", "there is one of each")
	assert.Equal(t, "6 blocks, each by its name", s.For)
}

const levelDeck = `blocks: {stock: [18, 12, 6]}
heights: {bay: {seat: 445, bottom: 545, top: 1105}}
walls:
  - name: North
    width: 2400
    height: 2300
    runs:
      - {name: R, across: [20, 2000], height: bay, panels: 5, gap: 6}
`

func TestTheOrderOfWorkNamesTheSideThatTheSheetsAreFor(t *testing.T) {
	m := makerOf(t, metric(levelDeck))
	sheets := []drawing.Sheet{{Kind: Corner}, {Kind: Board}}
	order := strings.Join(m.order(sheets), " ")
	assert.Contains(t, order, "with the jigs, back up.")
	assert.Contains(t, order, "lay them on the backs")
	assert.Contains(t, order, "and TOP, on the back of each")
	m.options.Faces = true
	order = strings.Join(m.order(sheets), " ")
	assert.Contains(t, order, "with the jigs, face up.")
	assert.NotContains(t, order, "back")
}

// The buying list and the fold sheet speak of the same staple.
func TestTheFoldSheetNamesTheLegThatIsBought(t *testing.T) {
	m := makerOf(t, string(job.Starter(geom.Imperial)))
	folds := m.folds()
	require.NotEmpty(t, folds)
	assert.Contains(t, all(folds[0]), "no longer than "+m.read(m.plan.Wrap.StapleLeg(m.plan.Job.Units)))
	listed := false
	for _, i := range m.plan.Stock.List {
		listed = listed || strings.Contains(i.What, "no longer than "+m.read(m.plan.Wrap.StapleLeg(m.plan.Job.Units)))
	}
	assert.True(t, listed)
}
