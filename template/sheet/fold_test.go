package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/covering"
)

// Words about the cut stand on its line only where the line is longer than they are.
func TestWordsOfAShortCutStandBesideTheCover(t *testing.T) {
	for _, legs := range []geom.Length{15 * mm, 60 * mm} {
		corner := geom.Pt(110*mm, 200*mm)
		d := drawing.Drawing{Bounds: geom.R(0, 0, 190*mm, 250*mm)}
		(&maker{}).cutWords(&d, corner.Sub(geom.Pt(legs, 0)), corner.Sub(geom.Pt(0, legs)))
		var words drawing.Text
		for _, m := range d.Marks {
			if w, ok := m.(drawing.Text); ok {
				words = w
			}
		}
		require.NotEmpty(t, words.String)
		if legs < 30*mm {
			assert.Greater(t, words.Bounds().Min.X, corner.X)
		} else {
			assert.True(t, geom.R(corner.X-legs, corner.Y-legs, corner.X+mm, corner.Y+mm).Contains(words.Bounds()))
		}
		assert.True(t, d.Bounds.Contains(words.Bounds()))
	}
}

// The corner that is not chosen must not say that the job asks for it.
func TestOnlyTheCornerThatTheJobAsksForSaysSo(t *testing.T) {
	m := makerOf(t, stored(t, "bay"))
	require.Equal(t, covering.Pleat, m.plan.Job.Wrap.Fold)
	chosen, other := 0, 0
	for _, s := range m.folds() {
		for _, d := range s.Drawings {
			switch words := all(drawing.Sheet{Drawings: []drawing.Drawing{d}}); {
			case strings.Contains(words, "not for these panels"):
				other++
				assert.Contains(t, words, "The job asks for the other one.")
				assert.NotContains(t, words, "The job asks for it.")
			case strings.Contains(words, "for these panels"):
				chosen++
				assert.Contains(t, words, "The job asks for it.")
			}
		}
	}
	assert.Equal(t, [2]int{1, 1}, [2]int{chosen, other})
}
