package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/sample"
)

// band is a run of whole saw steps: with an edge of 3 mm its boards fill the panels to the millimetre.
func band(name string, from, to, bottom, top geom.Length, panels int, gap geom.Length) job.Run {
	return sample.Row(name, from*mm, to*mm, bottom*mm, top*mm, panels, gap*mm)
}

func onOneWall(t *testing.T, runs ...job.Run) *record {
	return laid(t, sample.Bay(sample.WallOf("A", 2440*mm, 2300*mm, runs...)))
}

func TestRunsOverEachOtherAreFoundAndBothNamed(t *testing.T) {
	p := onOneWall(t, band("N", 50, 2390, 545, 1105, 4, 0), band("T", 1000, 1600, 800, 1300, 1, 0))
	require.Equal(t, []string{"runs-overlap"}, p.IDs())
	f := p.Findings[0]
	assert.Equal(t, finding.Subject{Kind: finding.Run, Names: []string{"N", "T"}, Panels: []string{"N2", "N3", "T1"}, Key: "walls[0].runs[1]"}, f.Subject)
	assert.Equal(t, RunsOverlap{Runs: [2]string{"N", "T"}, Across: geom.Span{From: 1000 * mm, To: 1600 * mm}, Up: geom.Span{From: 800 * mm, To: 1105 * mm}}, f.Params)
}

func TestRunsNearerThanTheLargerGapAreFound(t *testing.T) {
	above := func(bottom geom.Length) *record {
		return onOneWall(t, band("N", 0, 1000, 500, 900, 2, 4), band("T", 0, 1000, bottom, bottom+400, 2, 6))
	}
	assert.Empty(t, above(906).IDs())
	p := above(905)
	require.Equal(t, []string{"runs-near"}, p.IDs())
	assert.Equal(t, RunsNear{Runs: [2]string{"N", "T"}, Stands: 5 * mm, Gap: 6 * mm}, p.Findings[0].Params)
	assert.Equal(t, []string{"N1", "N2", "T1", "T2"}, p.Findings[0].Subject.Panels)
	assert.Equal(t, []string{"runs-near"}, above(900).IDs(), "edge on edge")
	assert.Empty(t, onOneWall(t, band("N", 0, 1000, 500, 900, 2, 0), band("T", 0, 1000, 900, 1300, 2, 0)).IDs(), "without gaps")
}

// Two triangles over one diagonal share a bounding box and no panel.
func TestAreasOverOneDiagonalLieApart(t *testing.T) {
	lower := job.Run{Name: "L", Area: geom.Polygon{{X: 0, Y: 100 * mm}, {X: 1000 * mm, Y: 100 * mm}, {X: 0, Y: 1100 * mm}}, Panels: 1}
	upper := func(off geom.Length) job.Run {
		return job.Run{Name: "U", Area: geom.Polygon{{X: 1000 * mm, Y: 100*mm + off}, {X: 1000 * mm, Y: 1100*mm + off}, {X: 0, Y: 1100*mm + off}}, Panels: 1}
	}
	assert.Empty(t, onOneWall(t, lower, upper(0)).IDs())
	assert.Equal(t, []string{"runs-overlap"}, onOneWall(t, lower, upper(-mm)).IDs())
}

func TestEdgesOfNeighboursThatAreNearlyLevelAreFound(t *testing.T) {
	beside := func(bottom, top geom.Length) *record {
		return onOneWall(t, band("N", 0, 1000, 500, 900, 1, 0), sample.Row("M", 1100*mm, 2100*mm, bottom, top, 1, 0))
	}
	assert.Empty(t, beside(500*mm, 900*mm).IDs())
	assert.Empty(t, beside(501*mm+mm/2, 900*mm+mm/2).IDs(), "1.5 mm is not told")
	p := beside(500*mm, 904*mm)
	require.Equal(t, []string{"edges-uneven"}, p.IDs())
	assert.Equal(t, EdgesUneven{Edge: "top", Runs: [2]string{"N", "M"}, At: [2]geom.Length{900 * mm, 904 * mm}, Off: 4 * mm}, p.Findings[0].Params)
	assert.Equal(t, "walls[0].runs[1].height.top", p.Findings[0].Field)
	assert.Equal(t, "bottom", sample.ParamsOf[EdgesUneven](t, beside(504*mm, 900*mm).Findings).Edge)
	assert.Len(t, beside(524*mm, 924*mm).IDs(), 2)
	assert.Empty(t, beside(525*mm, 925*mm).IDs(), "25 mm is meant")

	saw := sample.Bay(sample.WallOf("A", 2440*mm, 2300*mm, band("N", 0, 1000, 500, 906, 1, 0), band("M", 1100, 2100, 500, 914, 1, 0)))
	saw.Board.Saw = 8 * mm
	assert.Empty(t, laid(t, saw).IDs(), "a saw step is not told")
}

func TestOnlyNeighboursAreHeldAgainstEachOther(t *testing.T) {
	assert.Empty(t, onOneWall(t, band("N", 0, 500, 500, 900, 1, 0), band("P", 600, 1000, 400, 1000, 1, 0), band("M", 1100, 2100, 500, 904, 1, 0)).IDs())
	assert.Empty(t, onOneWall(t, band("N", 0, 1000, 500, 900, 1, 0), band("T", 0, 1000, 910, 1310, 1, 0)).IDs(), "over each other")

	round := func(kind job.CornerKind, right job.Run, more ...job.Run) *record {
		j := sample.Bay(sample.WallOf("A", 2*geom.Metre, 2*geom.Metre, band("N", 0, 1900, 500, 900, 2, 0)), sample.WallOf("B", 2*geom.Metre, 2*geom.Metre, append(more, right)...))
		j.Walls[0].Corner = kind
		return laid(t, j)
	}
	uneven := band("M", 400, 1900, 500, 904, 2, 0)
	assert.Equal(t, []string{"edges-uneven"}, round(job.Inside, uneven).IDs())
	assert.Equal(t, []string{"edges-uneven"}, round(job.Outside, uneven).IDs())
	assert.Empty(t, round(job.NoCorner, uneven).IDs())
	assert.Empty(t, round(job.Inside, uneven, band("P", 100, 300, 400, 1000, 1, 0)).IDs(), "another run between")
}
