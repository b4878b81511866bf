package fastening

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
)

// Lateral values of wood screws in single shear between two pieces of the same wood, 10 diameters deep in the main one, in
// pounds: NDS 2018, Table 12L, rows of Douglas fir-larch (G 0.50) and spruce-pine-fir (G 0.42), from memory.
func TestYieldEquationsGiveTheTablesOfScrewsBetweenTwoPiecesOfWood(t *testing.T) {
	for _, row := range []struct {
		number        int
		side, gravity float64
		want          float64
	}{
		{6, 0.5, 0.50, 59}, {8, 0.5, 0.50, 73}, {8, 0.75, 0.50, 88}, {10, 0.5, 0.50, 82}, {10, 0.75, 0.50, 98}, {8, 0.75, 0.42, 69},
	} {
		shank := job.ScrewDiameter(row.number)
		root := rootDiameter(shank).Inches()
		q := dowelBearing(row.gravity) * root
		d := dowel{main: bearing{q, 10 * shank.Inches()}, side: bearing{q, row.side}, moment: bendingYield(shank) * math.Pow(root, 3) / 6}
		assert.InDelta(t, row.want, d.yields()/reduction(shank), 1.5, "#%d, %v in", row.number, row.side)
	}
}

// By statics alone: a screw that sticks out of wood and is bent at its end yields where the wood, crushed over a length x from
// its face, balances the load, and the bending moment is greatest at x, where there is no shear: P = q·x, M = P·(e + x/2).
func TestAGapIsALeverThatBendsTheScrew(t *testing.T) {
	d := dowel{main: bearing{440, 3}, gap: 0.7, moment: 34}
	low, high := 0.0, 3.0
	for range 60 {
		x := (low + high) / 2
		if 440*x*(0.7+x/2) < 34 {
			low = x
		} else {
			high = x
		}
	}
	assert.InDelta(t, 440*low, d.yields(), 1e-6)
	// Stiff: crushed one way over a from the face, the other way over the rest, in balance about the face.
	stiff := dowel{main: bearing{440, 1}, gap: 0.7, moment: 1e6}
	low, high = 0.5, 1
	for range 60 {
		a := (low + high) / 2
		b := 1 - a
		if load := 440 * (a - b); load*0.7+440*a*a/2 < 440*b*(a+b/2) { // moments about the face
			low = a
		} else {
			high = a
		}
	}
	assert.InDelta(t, 440*(2*low-1), stiff.yields(), 1e-6)
}

func TestLateralValuesFallWithDepthAndGap(t *testing.T) {
	d := job.ScrewDiameter(8)
	full := lateral(d, 10*d, geom.Inch/2, 0.42)
	assert.Greater(t, full, 0.0)
	assert.Greater(t, full, lateral(d, 10*d, geom.Inch, 0.42), "a longer lever")
	// A #8 held to 1 1/4 in has 7.6 of its 10 diameters: the tables' notes reduce in proportion (NDS 2018, 12.1.5.6).
	part := 1.25 / 1.64
	assert.InDelta(t, part, lateral(d, guardedDepth(geom.Imperial), geom.Inch/2, 0.42)/full, 0.001)
	assert.Zero(t, lateral(d, 6*d-1, geom.Inch/2, 0.42), "less than six diameters")
	assert.Zero(t, lateral(d, 10*d, geom.Inch/2, 0))
}

// Hankinson's form (NDS 2018, 12.4.1): at 0° it is the lateral value, at 90° the withdrawal value, at 45° 2WZ/(W + Z).
func TestPullAndWeightAreHeldTogether(t *testing.T) {
	assert.InDelta(t, 40, combined(100, 40, 0, 7), 1e-9)
	assert.InDelta(t, 100, combined(100, 40, 7, 0), 1e-9)
	assert.InDelta(t, 2*100*40./140, combined(100, 40, 5, 5), 1e-9)
	assert.Zero(t, combined(100, 0, 5, 5))
}

// The ultimate withdrawal load of the USDA Wood Handbook, FPL-GTR-190, eq. (8-10), p = 15 700 G² D L (from memory), is about five
// and a half times a reference value.
func TestReferenceWithdrawalIsAFifthOfWhatTearsScrewsOut(t *testing.T) {
	for _, number := range []int{6, 8, 10, 12} {
		for _, gravity := range []float64{0.36, 0.42, 0.5, 0.67} {
			ultimate := 15700 * gravity * gravity * job.ScrewDiameter(number).Inches()
			assert.InDelta(t, 5.5, ultimate/withdrawal(job.ScrewDiameter(number), gravity), 0.05, "#%d", number)
		}
	}
}

// Commentary to NDS 2018, 12.1.5.7 (from memory): edge distance of wood screws 1.5 D in lead holes.
func TestScrewsKeepTheirEdgeDistanceInStuds(t *testing.T) {
	for _, units := range []geom.System{geom.Imperial, geom.Metric} {
		j, err := job.Read("starter", job.Starter(units))
		require.NoError(t, err)
		for number := 4; number <= 14; number++ {
			assert.GreaterOrEqual(t, j.Walls[0].Studs.Margin, job.ScrewDiameter(number)*3/2, "#%d", number)
		}
	}
}

func TestScrewsOfATopClipAreHeldToTheirReferenceValue(t *testing.T) {
	j := sample.Reading()
	j.Framing.Gravity = 0.42
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	p.weigh()
	h, l := p.Loads[0].Holds, p.Loads[0]
	require.Positive(t, h.Top)
	assert.InDelta(t, combined(pounds(h.Withdrawal), pounds(h.Lateral), pounds(l.Pull), pounds(l.Most))*float64(len(j.Clip.Wall.Holes)), pounds(h.Top), 1e-6)
	assert.NotContains(t, p.IDs(), "screws-over", fmt.Sprint(l))

	j.Board.Density = 100 * plywoodDensity // as if of lead
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	p.weigh()
	assert.Contains(t, p.IDs(), "screws-over")
}
