package template_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/job"
	"rodsheet/template/sheet"
)

// Halves that stand apart, or whose holes differ, are each drilled from their own template: one hole through both would
// spoil the wall, so every page that is drilled by says it in full, on small paper too.
func TestPagesOfHalvesThatStandApartForbidDrillingThrough(t *testing.T) {
	drilled := map[drawing.Kind]bool{sheet.Board: true, sheet.Corner: true, sheet.Wall: true}
	papers := map[string]geom.Size{
		"a4": {W: 210 * mm, H: 297 * mm}, "letter": {W: 17 * geom.Inch / 2, H: 11 * geom.Inch}, "a3": {W: 297 * mm, H: 420 * mm},
	}
	for name, size := range papers {
		t.Run(name, func(t *testing.T) {
			reader.Need(t, "mutool")
			print := everything()
			print.Paper = job.Paper{Size: size, Margin: 6 * mm, Overlap: 12 * mm}
			p := read(t, open(t, "asymmetric-studs"), print)
			pages := 0
			for _, c := range p.counts {
				if !drilled[c.Kind] {
					continue
				}
				for _, i := range p.pagesOf(c) {
					pages++
					assert.True(t, says(p.read[i], "DO NOT DRILL THROUGH"), "%s, page %d", c.Title, i+1)
				}
			}
			require.Positive(t, pages)
		})
	}
}

func TestHalvesWithHolesOfTheirOwnAreNotDrilledThroughEither(t *testing.T) {
	reader.Need(t, "mutool")
	work := func(half string) printed {
		file, data := source(t, "loft")
		data = replaced(t, data, "  standoff: 10\n", "  standoff: 10\n"+half)
		w, err := template.Open(file, data)
		require.NoError(t, err)
		return read(t, w, template.Print{Only: []drawing.Kind{sheet.Wall, sheet.Board}})
	}
	for i, page := range work("  wall half: {base: 38 x 38, holes: [[0, 8], [0, -8]], flange: 3}\n").read {
		assert.True(t, says(page, "DO NOT DRILL THROUGH"), "page %d", i+1)
	}
	for i, page := range work("").read {
		assert.False(t, says(page, "DO NOT DRILL THROUGH"), "page %d", i+1)
	}
}

// says tells whether some text of a page has the words in it.
func says(p reader.Page, words string) bool {
	return slices.ContainsFunc(p.Texts, func(t reader.Text) bool { return strings.Contains(t.String, words) })
}

// replaced changes a job file where it is written so, and fails where it isn't.
func replaced(t *testing.T, data []byte, old, new string) []byte {
	t.Helper()
	require.Contains(t, string(data), old)
	return []byte(strings.Replace(string(data), old, new, 1))
}

func TestLiftPanelsAreHookedOverAndLetDown(t *testing.T) {
	reader.Need(t, "mutool")
	overview := template.Print{Only: []drawing.Kind{sheet.Overview}}
	assert.True(t, says(read(t, open(t, "bay"), overview).read[0], "Hold each 14 mm above its place, hook it over, let it down"))
	for i, page := range read(t, open(t, "loft"), overview).read {
		assert.False(t, says(page, "let it down"), "page %d", i+1)
	}
}

// The settle's wall has a rail behind both rows of clips, so that every page shows some of it; where it is, is never
// sure.
func TestEveryWallPageThatShowsWoodSaysToProbeFirst(t *testing.T) {
	p := onPaper(t, "settle", everything())
	pages := 0
	for _, c := range p.of(sheet.Wall) {
		for _, i := range p.pagesOf(c) {
			pages++
			assert.NotEmpty(t, p.read[i].FindText("probe before you drill"), "page %d", i+1)
			assert.True(t, says(p.read[i], "rail "), "page %d", i+1)
		}
	}
	require.Positive(t, pages)
}
