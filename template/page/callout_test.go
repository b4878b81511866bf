package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// A stud or a cable zone runs over many pages, and each of them is laid on the wall by itself.
func TestWordsAboutALongPartStandOnEachPageThatShowsSomeOfIt(t *testing.T) {
	clip := geom.R(85*mm, 480*mm, 125*mm, 530*mm)
	d := drawing.Drawing{
		Bounds: geom.R(0, 0, 400*mm, 1000*mm),
		Holes:  []drawing.Hole{{At: clip.Centre(), Radius: mm}},
		Callouts: []drawing.Callout{
			{About: geom.R(80*mm, 0, 125*mm, 1000*mm), Long: true, Lines: []string{"stud", "probe"}},
			{About: clip, Lines: []string{"N1", "drill"}},
		},
	}
	for _, c := range []struct {
		claim string
		w     geom.Rect
		words []string
	}{
		{"its middle, round a clip", geom.R(20*mm, 400*mm, 200*mm, 620*mm), []string{"N1", "drill", "stud", "probe"}},
		{"its lower end", geom.R(20*mm, 0, 200*mm, 220*mm), []string{"stud", "probe"}},
		{"a strip of it at the edge", geom.R(120*mm, 0, 300*mm, 220*mm), []string{"stud", "probe"}},
		{"a sliver of it", geom.R(123*mm, 0, 300*mm, 220*mm), nil},
		{"nothing of it", geom.R(125*mm, 0, 300*mm, 220*mm), nil},
	} {
		var words []string
		marks := callouts(&d, c.w)
		for i, m := range marks {
			text := m.(drawing.Text)
			words = append(words, text.String)
			assert.True(t, c.w.Contains(text.Bounds()), "%s: %q leaves the page", c.claim, text.String)
			assert.False(t, text.Bounds().InteriorIntersects(clip), "%s: %q stands over the clip", c.claim, text.String)
			for _, n := range marks[i+1:] {
				assert.False(t, text.Bounds().Inset(mm/2).InteriorIntersects(n.(drawing.Text).Bounds().Inset(mm/2)), c.claim)
			}
		}
		require.Equal(t, c.words, words, c.claim)
	}
}

// Words about clips on a rail take up its middle line.
func TestWordsAboutALongPartGiveWayToThoseAboutClips(t *testing.T) {
	w := geom.R(0, 0, 200*mm, 120*mm)
	d := drawing.Drawing{Bounds: w, Callouts: []drawing.Callout{{About: geom.R(-500*mm, 40*mm, 900*mm, 90*mm), Long: true, Lines: []string{"rail", "probe before you drill"}}}}
	for x := 10 * mm; x < 200*mm; x += 60 * mm {
		d.Callouts = append(d.Callouts, drawing.Callout{About: geom.R(x, 60*mm, x+20*mm, 70*mm), Lines: []string{"N1 upper left", "drill 25 deep"}})
	}
	var words []string
	for _, m := range callouts(&d, w) {
		words = append(words, m.(drawing.Text).String)
	}
	assert.Contains(t, words, "probe before you drill")
}
