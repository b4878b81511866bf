package template_test

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// scalePage is a job's scale sheet.
func scalePage(t *testing.T, name string) (printed, reader.Page) {
	t.Helper()
	p := onPaper(t, name, everything())
	require.Len(t, p.of(sheet.Scale), 1)
	return p, p.read[p.of(sheet.Scale)[0].First-1]
}

// Readings are taken as the diagonals A,B, where A rises to the right (from the lower left corner) and B falls.
func TestTheLettersOfTheDiagonalsSayWhichWayTheyRise(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		_, page := scalePage(t, name)
		assert.Len(t, page.Containing("diagonal A ↗ "), 1, name)
		assert.Len(t, page.Containing("diagonal B ↘ "), 1, name)
	}
}

// A person holds what is read off the squares to a table: whatever it is, one row of the table is meant, and no other.
func TestNoReadingOfTheSquaresHasTwoMeanings(t *testing.T) {
	one := regexp.MustCompile(`^(\d+\.\d+)(?:–(\d+\.\d+))? mm$`)
	for _, name := range []string{"settle", "bay"} {
		_, page := scalePage(t, name)
		heads := page.FindText("100 mm reads")
		require.Len(t, heads, 1, name)
		var rows [][2]float64
		for _, w := range page.Texts {
			if m := one.FindStringSubmatch(w.String); m != nil && abs(w.X-heads[0].X) < 0.1 && w.Y > heads[0].Y {
				low, err := strconv.ParseFloat(m[1], 64)
				require.NoError(t, err)
				high := low
				if m[2] != "" {
					high, err = strconv.ParseFloat(m[2], 64)
					require.NoError(t, err)
				}
				rows = append(rows, [2]float64{low - 0.2, high + 0.2}) // as finely as a tape is read
			}
		}
		require.Len(t, rows, 3, name)
		slices.SortFunc(rows, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
		for i := 1; i < len(rows); i++ {
			assert.Less(t, rows[i-1][1], rows[i][0], name)
		}
	}
}

// The long lines are as long as is written along them, across from left to right and down from top to bottom, and the
// command on the sheet takes both in that order.
func TestTheLongLinesAreAsLongAsTheirWordsAndTheCommandSay(t *testing.T) {
	drawn := regexp.MustCompile(`--drawn (\S+),(\S+) --across … --down … --diagonals A,B`)
	for _, name := range []string{"settle", "bay"} {
		p, page := scalePage(t, name)
		command := drawn.FindStringSubmatch(all(page))
		require.Len(t, command, 3, name)
		for i, way := range []string{"across", "down"} {
			words := page.Containing(way + ": ")
			require.Len(t, words, 1, name)
			for _, reads := range strings.Split(strings.TrimPrefix(words[0].String, way+": "), " = ") {
				want := length(t, reads, p.Job.Units)
				assert.InDelta(t, want, length(t, command[i+1], p.Job.Units), 0.05, "%s: --drawn %s,%s", name, command[1], command[2])
				found := false
				for _, s := range page.Segments() {
					lies := s.Level() && way == "across" || s.Upright() && way == "down"
					found = found || lies && abs(s.Length()-want) <= 0.05 && s.Distance(middle(words[0])) < 10
				}
				assert.True(t, found, "%s: no line beside %q is so long", name, words[0].String)
			}
		}
	}
}

// What the plan reckons is what is printed: the first page repeats its figures, and says which template they are of.
func TestTheFirstPageSaysOfTheErrorsWhatThePlanSays(t *testing.T) {
	for _, name := range jobs {
		p := onPaper(t, name, template.Print{AllowStops: true})
		page := p.read[p.of(sheet.Scale)[0].First-1]
		b, units, words := p.Plan.Budget, p.Job.Units, all(page)
		require.GreaterOrEqual(t, b.Board, 0, name)
		for _, l := range []geom.Length{b.HoleToHole.Expanded, b.HoleToHole.Worst, b.BoardToWall.Expanded, b.BoardToWall.Worst} {
			assert.Contains(t, words, "± "+l.Roughly(units), name)
		}
		board := p.Plan.Boards[b.Board].Name
		taped := false
		for _, s := range p.of(sheet.Board) {
			taped = taped || s.Sheet == "board "+board
		}
		assert.Equal(t, taped, strings.Contains(words, "hole to hole on board "+board+", with the taped board template"), name)
		assert.Equal(t, !taped, b.Jigs, name)
	}
}
