package plan

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

func planned(t *testing.T, file string) *Plan {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", file))
	require.NoError(t, err)
	j, err := job.Read(file, data)
	require.NoError(t, err)
	p, err := Make(j)
	require.NoError(t, err)
	return p
}

const mm = geom.Millimetre

// By hand: e = 1.2 + 1.5 = 2.7. Between cushion (438 + 85 = 523) and sill (868) are 345: gaps of (345 − 300)/2 = 22.5, so
// the panels begin at 545.5. The board is 300 − 5.4 = 294.6, cut 294; 0.6 is left under the sill.
func TestTheBayStandsAtOneHeightOnThreeWalls(t *testing.T) {
	p := planned(t, "bay.yaml")
	require.Len(t, p.Panels, 8)
	for _, panel := range p.Panels {
		assert.Equal(t, 545*mm+mm/2, panel.Finished.Bounds().Min.Y, panel.Name)
		assert.Equal(t, 844*mm+9*mm/10, panel.Finished.Bounds().Max.Y, panel.Name)
		assert.Equal(t, 294*mm, panel.Outline.Bounds().H(), panel.Name)
	}
	h := p.Runs[1].Band
	assert.Equal(t, []geom.Length{22*mm + mm/2, 23*mm + mm/10, 6 * mm / 10}, []geom.Length{h.GapBelow, h.GapAbove, h.Slack})
	// (1060 − 40 − 6)/2 = 507; less 5.4 it is 501.6, cut 501; finished 506.4, and 1020 − 2·506.4 = 7.2 between them.
	assert.Equal(t, []geom.Length{7*mm + mm/5}, p.Runs[0].Gaps)
	assert.Equal(t, 501*mm, p.Panels[0].Outline.Bounds().W())
}

// Drilling: 85 + 22.5 + 2.7 = 110.2 = 44 + 44 + 18.2 + 4; hanging: 107.5, which 44 + 44 + 11.8 + 4 + 4 = 107.8 comes
// near enough (0.4).
func TestTheBayStandsOnOneKindOfBlock(t *testing.T) {
	p := planned(t, "bay.yaml")
	require.Len(t, p.Blocks, 2)
	assert.Equal(t, 110*mm+mm/5, p.Blocks[0].Height)
	assert.Equal(t, []geom.Length{44 * mm, 44 * mm, 18*mm + mm/5, 4 * mm}, p.Blocks[0].Stack)
	assert.Equal(t, 107*mm+mm/2, p.Blocks[1].Height)
	assert.Equal(t, []geom.Length{44 * mm, 44 * mm, 11*mm + 4*mm/5, 4 * mm, 4 * mm}, p.Blocks[1].Stack)
	assert.Equal(t, 107*mm+4*mm/5, p.Blocks[1].Made)
	for _, b := range p.Blocks {
		assert.Equal(t, 2, b.Count)
		assert.Len(t, b.Panels, 8)
	}
}

// The middle run goes into both corners. Its build-out is at least 9 + 11.8 + 20 + 1.5 + 1.2 = 43.5, and its gap is 6;
// the others stand 60 off.
func TestTheBaysMiddleRunGoesIntoBothCorners(t *testing.T) {
	p := planned(t, "bay.yaml")
	require.Len(t, p.Corners, 2)
	for i, c := range p.Corners {
		assert.Equal(t, 1, c.Through)
		assert.Equal(t, p.Runs[1].BuildOut+6*mm, c.Least, "corner %d", i)
		assert.GreaterOrEqual(t, c.Least, 49*mm+mm/2)
		assert.Equal(t, 60*mm, c.Stands)
	}
	assert.NotContains(t, (&sample.Found{Findings: p.Findings}).IDs(), "corner-collision")
}

func TestTheLoftPrintsFiveBoardsOfItsOwnShape(t *testing.T) {
	p := planned(t, "loft.yaml")
	require.Len(t, p.Panels, 5)
	assert.Len(t, p.Panels[1].Outline, 6, "a notch at a corner gives six corners")
	assert.Len(t, p.Panels[4].Outline, 5)
	for _, panel := range p.Panels {
		assert.True(t, panel.Finished.ContainsPolygon(panel.Outline))
	}
}

// Deck and block make the bottom of the board, or of the finished panel.
func TestEveryBlockCarriesItsBoardExactly(t *testing.T) {
	p := planned(t, "bay.yaml")
	for _, b := range p.Blocks {
		for _, i := range b.Panels {
			bottom := p.Panels[i].Finished.Bounds().Min.Y
			if b.Drilling {
				bottom = p.Panels[i].Origin().Y
			}
			assert.Equal(t, bottom, p.Runs[p.Panels[i].Run].Band.Deck[0]+b.Height)
		}
	}
}

// By hand: M's boards are 453 wide. The first one's stud has its safe part from 89.8 to 114.8 of the board, the third one's
// from 358.9 to 383.9: twins 90 from either end are in both, and no others further out are.
func TestTheBaysMiddleRunIsSymmetricWhereThatCostsNoWood(t *testing.T) {
	p := planned(t, "bay.yaml")
	for _, i := range p.Runs[1].Panels {
		clips := p.Panels[i].Clips
		assert.Equal(t, []geom.Length{90 * mm, 363 * mm}, []geom.Length{clips[0].Board.X, clips[1].Board.X}, p.Panels[i].Name)
	}
}
