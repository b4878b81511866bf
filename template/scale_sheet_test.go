package template_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

// Readings are taken as the diagonals A,B, where A rises to the right (from the lower left corner) and B falls: whoever
// measures the line beside the letter must measure that one.
func TestTheLettersOfTheDiagonalsStandOnTheirLines(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		_, page := scalePage(t, name)
		for letter, rises := range map[string]bool{"diagonal A": true, "diagonal B": false} {
			words := page.FindText(letter)
			require.Len(t, words, 1, name)
			onLine, onOther := math.Inf(1), math.Inf(1)
			for _, s := range page.Segments() {
				if s.Length() < 50 || s.Level() || s.Upright() {
					continue
				}
				if up := (s.To.X-s.From.X)*(s.To.Y-s.From.Y) < 0; up == rises { // y runs down
					onLine = min(onLine, s.Distance(middle(words[0])))
				} else {
					onOther = min(onOther, s.Distance(middle(words[0])))
				}
			}
			assert.Less(t, onLine, 4.0, "%s: %s is not beside its line", name, letter)
			assert.Greater(t, onOther, 20.0, "%s: %s is beside the other line too", name, letter)
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
