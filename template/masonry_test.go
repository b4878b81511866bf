package template_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// A brick wall, plastered: plugs 8 × 40 under 12.5 of plaster, screws 5 × 70 through a flange of 3. The tip is 54.5 in the
// masonry; 5 more make a hole of 59.5, 72 from the plaster's face.
func TestTheStairsWallIsDrilledForItsPlugs(t *testing.T) {
	p := onPaper(t, "stair", template.Print{Only: []drawing.Kind{sheet.Wall}})
	for r := range p.Plan.Runs {
		hold(t, "run "+p.Plan.Runs[r].Name, p.wallHoles(r), p.holesOnWall(t, r), reader.Within)
	}
	for i, page := range p.read {
		holes, _ := symbols(t, page)
		require.NotEmpty(t, holes)
		for _, h := range holes {
			assert.InDelta(t, 4, h.radius, reader.Within, "page %d", i+1)
		}
		for _, says := range []string{"masonry: plug 8 × 40 mm", "drill ⌀ 8 mm, 72 mm deep from the face", "screw 5 × 70 mm"} {
			assert.Len(t, page.FindText(says), len(holes), "page %d: %s", i+1, says)
		}
		assert.Empty(t, page.Containing("stud"), "page %d", i+1)
		assert.NotEmpty(t, page.Containing(" the line"), "page %d", i+1)
	}
}
