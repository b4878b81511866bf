package fastening

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

func pounds(w job.Weight) float64 { return float64(w / job.Pound) }

func TestWeightsOfAWorkedPanel(t *testing.T) {
	// Worked from what plywood weighs by common practice (3 lb/ft² for each inch) and the definition of foam density: 24 × 48
	// in, board 1/2 in 12.0 lb, foam 2 in of 1.8 lb/ft³ 2.40 lb, cover of 30 oz a yard of 54 in cut 28 × 52 in 1.40 lb;
	// together 15.8 lb. The cover's cut is 2 in over on each side.
	j := sample.Reading()
	j.Batt = job.Batting{}
	j.Wrap = job.Wrap{Size: 2 * in}
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.wrap = 2 * in
	p.screw()
	p.weigh()
	l := p.Loads[0]
	assert.InDelta(t, 12.0, pounds(l.Board), 1e-9)
	assert.InDelta(t, 2.40, pounds(l.Foam), 1e-9)
	assert.InDelta(t, 1.40, pounds(l.Cover), 0.005)
	assert.InDelta(t, 15.8, pounds(l.Total), 0.005)
	assert.Equal(t, job.Weight(0), l.Batting)
	assert.Equal(t, []string{"board of 36.0 lb/ft³", "foam of 1.8 lb/ft³", "cover of 0.14 lb/ft²"}, l.Assumed)
	assert.InDelta(t, 15.8/4, pounds(l.Share), 0.005)
	assert.InDelta(t, pounds(l.Share), pounds(l.Most), 1e-9, "clips stand evenly")
}

func TestPlywoodWeighsAsTheTablesSay(t *testing.T) {
	// Trade-association weight table, lb/ft² (from memory), within the rule's 15 %.
	for _, row := range []struct{ thickness, weight float64 }{
		{0.25, 0.8}, {0.375, 1.1}, {15. / 32, 1.4}, {0.5, 1.5}, {19. / 32, 1.8}, {0.625, 1.9}, {23. / 32, 2.2}, {0.75, 2.3}, {1.125, 3.3},
	} {
		j := sample.Reading()
		j.Board.Thickness = inches(row.thickness)
		p := hang(j, geom.Size{W: 12 * in, H: 12 * in}, 1, hung.Stud)
		p.weigh()
		assert.InEpsilon(t, row.weight, pounds(p.Loads[0].Board), 0.15)
		assert.InDelta(t, 3*row.thickness, pounds(p.Loads[0].Board), 1e-9)
	}
	// 1.8 lb/ft³ = 28.83 kg/m³, 2.5 = 40.05 (by the pound of 1959 and the inch).
	assert.InDelta(t, 28.83, 1.8*poundPerCubicFoot, 0.005)
	assert.InDelta(t, 40.05, 2.5*poundPerCubicFoot, 0.005)
}

func TestGivenDensitiesCountAndNothingIsTakenForGranted(t *testing.T) {
	j := sample.Reading()
	j.Board.Density, j.Foam.Density, j.Batt.Density, j.Cover.Weight = 600, 30, 10, 0.7
	p := hang(j, geom.Size{W: geom.Metre, H: geom.Metre}, 1, hung.Stud)
	p.wrap = 50 * geom.Millimetre
	p.weigh()
	l := p.Loads[0]
	assert.Empty(t, l.Assumed)
	assert.InDelta(t, 600*0.0127, float64(l.Board), 1e-9)
	assert.InDelta(t, 30*0.0508, float64(l.Foam), 1e-9)
	assert.InDelta(t, 10*0.00635*1.21, float64(l.Batting), 1e-9, "batting by its cut area")
	assert.InDelta(t, 0.7*1.21, float64(l.Cover), 1e-9)
}

func TestPolygonsWeighTheirTrueArea(t *testing.T) {
	p := hang(sample.Reading(), hung.Board24x48(), 2, hung.Stud)
	p.Panels[1].Outline = geom.Polygon{{}, {X: 24 * in}, {X: 24 * in, Y: 48 * in}}
	p.weigh()
	assert.InDelta(t, pounds(p.Loads[0].Board)/2, pounds(p.Loads[1].Board), 1e-9)
}

func TestPullOnTheTopClipsBalancesTheWeightInFrontOfTheWall(t *testing.T) {
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.weigh()
	l := p.Loads[0]
	assert.Equal(t, 48*in-2*(2*in+3*in/4), l.Arm)
	assert.Equal(t, 2, l.TopRow)
	// Moments about the bottom clips: pull × arm × clips = weight × distance.
	assert.InDelta(t, pounds(l.Total)*l.Off.Inches(), pounds(l.Pull)*l.Arm.Inches()*2, 1e-6)
	// Board middle 9/16, foam middle 1 13/16 off the wall, cover and batting beyond: the whole lies between.
	assert.Greater(t, l.Off, 9*in/16)
	assert.Less(t, l.Off, 29*in/16)

	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.Panels[0].Clips = p.Panels[0].Clips[:2]
	p.weigh()
	assert.Equal(t, "bottom edge", p.Loads[0].Bears)
	assert.Equal(t, 2*in+3*in/4, p.Loads[0].Arm)
}

func TestUnevenClipsShareUnevenly(t *testing.T) {
	// Two clips in a row at 6 and 18 in under a load at 9 in: by the lever 3/4 and 1/4.
	p := hang(sample.Reading(), geom.Size{W: 18 * in, H: 12 * in}, 1, hung.Stud)
	p.Panels[0].Clips = []layout.Clip{{Board: geom.Pt(6*in, 10*in)}, {Board: geom.Pt(18*in, 10*in)}}
	p.weigh()
	l := p.Loads[0]
	assert.InDelta(t, 0.75*pounds(l.Total), pounds(l.Most), 1e-9)
}

func TestLoadIsHeldAgainstWhatTheClipCarries(t *testing.T) {
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.weigh()
	assert.Equal(t, []string{"carries-unknown"}, p.IDs())
	worst := p.Loads[0].Worst

	j.Clip.Carries = worst
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.weigh()
	assert.Empty(t, p.Findings)

	j.Clip.Carries = worst * 0.9
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.weigh()
	over, params := sample.First[LoadOver](t, p.Findings)
	assert.Equal(t, []string{"N1"}, over.Subject.Names)
	assert.Contains(t, params.Assumed, "board of 36.0 lb/ft³")
	assert.Equal(t, 5, params.Clips)
}

func TestWithdrawalIsShownForWoodOfKnownGravityOnly(t *testing.T) {
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	p.weigh()
	assert.Equal(t, Holds{}, p.Loads[0].Holds)

	j.Framing.Gravity = 0.42
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	p.weigh()
	// #8 × 1 1/4 in, 1 in into the wood, but only 5/6 in of it thread: 82.4 lb/in × 5/6 (NDS 2018, 12.2.2, computed), × 0.9 for a
	// permanent load (2.3.2).
	assert.InDelta(t, 82.4*5/6*0.9, pounds(p.Loads[0].Holds.Withdrawal), 0.1)

	p = hang(j, hung.Board24x48(), 1) // on the lining
	p.screw()
	p.weigh()
	assert.Equal(t, Holds{}, p.Loads[0].Holds)
}

func TestHeavyBoardIsTold(t *testing.T) {
	j := sample.Reading()
	j.Clip.Carries = 100
	j.Board.Density = 750 // as medium-density fibreboard
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.weigh()
	assert.Equal(t, []string{"heavy-board"}, p.IDs())
	j.Board.Density = 650
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.weigh()
	assert.Empty(t, p.Findings)
}
