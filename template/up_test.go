package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// An arrow with UP at its foot points to the upper edge of the page, however the page lies: what is drawn on it stands
// upright (the outlines of boards and the running distances of walls are held to the same way up elsewhere).
func TestArrowsThatSayUpPointUp(t *testing.T) {
	turned, upright := 0, 0
	for _, name := range bothWaysToo {
		for _, print := range []template.Print{everything(), {Only: []drawing.Kind{sheet.Board}, Faces: true}} {
			p := onPaper(t, name, print)
			for i, page := range p.read {
				heads, pieces := page.Arrowheads(), page.Segments()
				for _, w := range page.FindText("UP") {
					if !whole(w) {
						continue // of a board's arrow that goes on on the next page
					}
					if page.WidthMM > page.HeightMM {
						turned++
					} else {
						upright++
					}
					assert.Zero(t, w.Turn, "%s, page %d: UP lies on its side", name, i+1)
					foot := middle(w)
					var head *reader.Arrowhead
					for k, h := range heads {
						if abs(h.Tip.X-foot.X) < 0.5 && h.Tip.Y < foot.Y && foot.Y-h.Tip.Y < 60 && (head == nil || h.Tip.Y > head.Tip.Y) {
							head = &heads[k]
						}
					}
					shaft, goesOn := false, false
					for _, s := range pieces {
						if !s.Upright() || s.WidthMM < 0.9 || abs(s.From.X-foot.X) > 0.5 {
							continue
						}
						top, end := min(s.From.Y, s.To.Y), max(s.From.Y, s.To.Y)
						goesOn = goesOn || top < s.Clip.Min.Y && end < foot.Y && foot.Y-end < 12
						shaft = shaft || head != nil && abs(top-head.Foot.Y) < 0.5 && end < foot.Y && foot.Y-end < 12
					}
					if head == nil {
						assert.True(t, goesOn, "%s, page %d: UP without an arrow over it", name, i+1)
						continue
					}
					assert.Less(t, head.Tip.Y, head.Foot.Y-2, "%s, page %d: the arrow of UP doesn't point up", name, i+1)
					assert.True(t, shaft, "%s, page %d: the arrow's shaft doesn't join UP and its head", name, i+1)
				}
			}
		}
	}
	assert.Positive(t, turned, "no turned page has an arrow: the test sees too little")
	assert.Positive(t, upright)
}

// Rods of heights lie on their sides; their words say which end is up, and the figures grow that way.
func TestRodsOfHeightsSayWhichEndIsUp(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			heights := 0
			for _, c := range p.of(sheet.Rod) {
				for _, i := range p.pagesOf(c) {
					titles := p.read[i].Containing(" · reads from ")
					assert.NotEmpty(t, titles, "page %d", i+1)
					for _, w := range titles {
						up := strings.Contains(w.String, "reads from zero")
						assert.Equal(t, up, strings.Contains(w.String, "UP →"), "page %d: %q", i+1, w.String)
						assert.Zero(t, w.Turn)
						if up {
							heights++
						}
					}
				}
			}
			assert.Positive(t, heights)
		})
	}
}
