package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

// BS 7671:2018, 522.6.202: 150 mm along wall tops and corners, straight up, down and sideways from an
// accessory, as wide as it is, the width of the strip by IET guidance, from memory.
func TestCablesLaidStraightKeepTheZonesOfBS7671(t *testing.T) {
	walls := []job.Wall{sample.WallOf("A", 3000*mm, 2400*mm), sample.WallOf("B", 2000*mm, 2400*mm), sample.WallOf("C", 3000*mm, 2400*mm)}
	walls[0].Corner = job.Inside
	walls[1].Fittings = []job.Fitting{sample.Socket(500*mm, 300*mm)}
	got := keepOuts(walls, 1, true)
	want := map[string]geom.Rect{
		"socket":                           geom.R(475*mm, 275*mm, 605*mm, 445*mm),
		"cable zone above socket":          geom.R(500*mm, 420*mm, 580*mm, 2400*mm),
		"cable zone below socket":          geom.R(500*mm, 0, 580*mm, 300*mm),
		"cable zone left of socket":        geom.R(0, 300*mm, 500*mm, 420*mm),
		"cable zone right of socket":       geom.R(580*mm, 300*mm, 2000*mm, 420*mm),
		"cable zone along the wall top":    geom.R(0, 2250*mm, 2000*mm, 2400*mm),
		"cable zone along the left corner": geom.R(0, 0, 150*mm, 2400*mm),
	}
	require.Len(t, got, len(want))
	for _, k := range got {
		assert.Equal(t, want[k.Name], k.Zone, k.Name)
	}
	assert.Equal(t, AroundFitting, got[0].Kind)
	assert.Equal(t, geom.R(500*mm, 300*mm, 580*mm, 420*mm), got[0].Body)
	assert.Len(t, keepOuts(walls, 1, false), 1, "no zones when cables may run anyhow")
	assert.Equal(t, "cable zone along the right corner", keepOuts(walls, 0, true)[1].Name)
}

// BS 7671:2018, 522.6.202: in a wall of 100 mm or less the zones reach the other side.
func TestFittingsOfTheFarSideMakeZonesInThinWalls(t *testing.T) {
	walls := []job.Wall{sample.WallOf("A", 3000*mm, 2400*mm)}
	far := sample.Socket(500*mm, 300*mm)
	far.Far = true
	walls[0].Fittings = []job.Fitting{far}
	for depth, zones := range map[geom.Length]int{0: 5, 75 * mm: 5, 100 * mm: 5, 101 * mm: 1} {
		walls[0].Depth = depth
		got := keepOuts(walls, 0, true)
		assert.Len(t, got, zones, "%v", depth)
		for _, k := range got {
			assert.Equal(t, Cables, k.Kind, "there is nothing to be seen on this side")
		}
	}
	assert.Empty(t, keepOuts(walls, 0, false))
}

// Every point within 150 mm of a sloped top, measured square to it, lies in some slice.
func TestTheZoneUnderASlopeHoldsAllOfTheStrip(t *testing.T) {
	walls := []job.Wall{sample.WallOf("A", 3000*mm, 2400*mm)}
	walls[0].Outline = geom.Polygon{{X: 0, Y: 0}, {X: 3000 * mm, Y: 0}, {X: 3000 * mm, Y: 800 * mm}, {X: 0, Y: 2400 * mm}}
	zones := keepOuts(walls, 0, true)
	a, b := geom.Pt(0, 2400*mm), geom.Pt(3000*mm, 800*mm)
	for x := 10 * mm; x < 2990*mm; x += 37 * mm {
		top := geom.Segment{A: a, B: b}.YAt(x)
		for down := mm; down < 300*mm; down += 13 * mm {
			at := geom.Pt(x, top-down)
			in := false
			for _, z := range zones {
				in = in || z.Zone.ContainsPoint(at)
			}
			if (geom.Polygon{a, b}).DistanceTo(at) <= 150*mm {
				require.True(t, in, "%v", at)
			}
		}
	}
}
