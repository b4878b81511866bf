package typeset_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/typeset"
)

func TestSpreadMovesWordsApartAndNoFartherThanNeeded(t *testing.T) {
	for _, c := range []struct{ at, want []geom.Length }{
		{[]geom.Length{10, 50}, []geom.Length{10, 50}},
		{[]geom.Length{50, 51}, []geom.Length{50, 60}},
		{[]geom.Length{50, 50, 50}, []geom.Length{50, 60, 70}},
		{[]geom.Length{0, 1}, []geom.Length{5, 15}},
		{[]geom.Length{94, 95, 100}, []geom.Length{75, 85, 95}},
	} {
		assert.Equal(t, c.want, typeset.Spread(c.at, 10, 5, 95), "%v", c.at)
	}
}

// Whatever is asked, words keep their order and their distance, and stay between the limits while there is room.
func TestSpreadKeepsDistanceOrderAndLimits(t *testing.T) {
	const pitch, lo, hi = 10, 0, 100
	for n := range 11 {
		for seed := range 200 {
			at := make([]geom.Length, n)
			state := uint32(seed*7919 + 1)
			for i := range at {
				state = state*1664525 + 1013904223
				at[i] = geom.Length(state>>16) % 130
			}
			slices.Sort(at)
			out := typeset.Spread(at, pitch, lo, hi)
			for i := range out {
				assert.True(t, i == 0 || out[i]-out[i-1] >= pitch, "%v became %v", at, out)
				assert.True(t, out[i] >= lo && out[i] <= hi, "%v became %v", at, out)
			}
		}
	}
}
