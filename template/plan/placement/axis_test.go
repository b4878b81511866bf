package placement

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

const inch = geom.Inch

// imperial asks for clips of 1 1/2 in, 2 in clear, in steps of 1/16 in.
var imperial = Preferences{
	Clear: 2 * inch, Spacing: 24 * inch, Step: inch / 16,
	Base: geom.Size{W: 3 * inch / 2, H: 3 * inch / 2}, Apart: geom.Size{W: 3 * inch / 2, H: 3 * inch / 2},
}

func TestTheCountIsTheLeastThatMeetsNumberAndSpacing(t *testing.T) {
	for _, c := range []struct {
		w, h       geom.Length
		number     int
		cols, rows int
	}{
		{24 * inch, 24 * inch, 4, 2, 2},
		{24 * inch, 24 * inch, 1, 2, 2}, // each quarter of the board keeps a clip
		{24 * inch, 24 * inch, 5, 3, 2}, // equally many either way: more columns
		{18 * inch, 24 * inch, 5, 2, 3},
		{24 * inch, 24 * inch, 9, 3, 3},
		{59 * inch / 2, 24 * inch, 4, 2, 2}, // middles 24 in apart
		{59*inch/2 + inch/16, 24 * inch, 4, 3, 2},
		{24 * inch, 96 * inch, 4, 2, 5}, // 90 1/2 in in 4 parts
		{10 * inch, 6 * inch, 4, 4, 1},  // middles of two rows would be 1/2 in apart
		{7 * inch, 6 * inch, 4, 2, 1},   // no room for more
		{11 * inch / 2, 24 * inch, 4, 1, 4},
	} {
		p := imperial
		p.Number = c.number
		got, ok := CountOf(geom.Size{W: c.w, H: c.h}, p)
		require.True(t, ok)
		assert.Equal(t, fmt.Sprint(c.cols, "x", c.rows), fmt.Sprint(got.Columns, "x", got.Rows), "%s x %s, %d", c.w.In(geom.Imperial), c.h.In(geom.Imperial), c.number)
	}
}

func TestMiddleColumnsStandOnTheLeftGridNearestToEvenSpacing(t *testing.T) {
	a := newAxis(48*inch+inch/16, 2*inch, 3*inch/2, 3*inch/2, inch/16)
	// Outer middles at 2 3/4 and 45 5/16; half-way is 24 1/32, a tie that goes left.
	assert.Equal(t, []geom.Length{11 * inch / 4, 24 * inch, 45*inch + 5*inch/16}, a.corners(3))
}

func TestNearestIsTheNearestStepAndATieGoesDown(t *testing.T) {
	for total := geom.Length(-40); total <= 40; total++ {
		for parts := geom.Length(1); parts <= 4; parts++ {
			got := nearest(total, parts, 6)
			require.Zero(t, got%6)
			far := (got*parts - total).Abs()
			require.LessOrEqual(t, far, ((got+6)*parts - total).Abs())
			require.Less(t, far, ((got-6)*parts - total).Abs())
		}
	}
}
