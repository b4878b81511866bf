package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/template/sheet"
)

// What a stranger must know of a board stands together on one page, and no page has a part of it.
func TestABoardsWordsStandTogetherOnOnePage(t *testing.T) {
	several := 0
	for _, name := range jobs {
		p := onPaper(t, name, everything())
		for _, c := range p.of(sheet.Board) {
			board := strings.TrimPrefix(c.Title, "Board template ")
			pages := p.pagesOf(c)
			if len(pages) > 1 {
				several++
			}
			found := map[string][]int{}
			for _, i := range pages {
				for _, words := range []string{"BACK of board " + board, "grey line: staple land", "left is left as you see it here", "UP"} {
					for _, w := range p.read[i].Containing(words) {
						if words == "UP" && w.SizeMM < 6 {
							continue // beside the page
						}
						found[words] = append(found[words], i)
					}
				}
				for _, w := range p.read[i].Containing("staple land: no clip here") {
					assert.True(t, inside(w.Clip, span(box(w))), "%s, page %d: %q is cut", c.Title, i+1, w.String)
				}
			}
			for words, at := range found {
				assert.Equal(t, found["BACK of board "+board], at, "%s: %q", c.Title, words)
				assert.Len(t, at, 1, "%s: %q", c.Title, words)
			}
		}
	}
	assert.Positive(t, several)
}
