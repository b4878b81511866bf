package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/sheet"
)

// A roll printer or a print shop prints a rod in one piece, from its first mark to its last.
func TestWholeRodsAreOnePiece(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Rod}, Whole: true})
			for _, c := range p.counts {
				assert.Equal(t, 1, c.Pages, c.Title)
			}
			for i, r := range p.Plan.Runs {
				var words []string
				for _, text := range p.read[p.counts[i].First-1].Texts {
					words = append(words, text.String)
				}
				all := strings.Join(words, "\n")
				first, last := p.Plan.Panels[r.Panels[0]].Name, p.Plan.Panels[r.Panels[len(r.Panels)-1]].Name
				assert.Contains(t, all, first+" left")
				assert.Contains(t, all, last+" right")
				assert.NotContains(t, all, "piece")
			}
		})
	}
}
