package plan

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/job"
)

func TestTapeErrorIsThatOfTheStandard(t *testing.T) {
	// EU 2014/32/EU, Annex X (MI-008), chapter 1, Table 1; worked rows for 3, 5, 8 and 10 m agree with trade pages.
	for _, row := range []struct {
		length geom.Length
		errors [3]float64 // class I, II, III
	}{
		{100 * mm, [3]float64{0.2, 0.5, 1.0}},
		{geom.Metre, [3]float64{0.2, 0.5, 1.0}},
		{geom.Metre + 1, [3]float64{0.3, 0.7, 1.4}},
		{3 * geom.Metre, [3]float64{0.4, 0.9, 1.8}},
		{5 * geom.Metre, [3]float64{0.6, 1.3, 2.6}},
		{8 * geom.Metre, [3]float64{0.9, 1.9, 3.8}},
		{10 * geom.Metre, [3]float64{1.1, 2.3, 4.6}},
	} {
		for class := 1; class <= 3; class++ {
			assert.Equal(t, geom.Millimetre.Times(row.errors[class-1]), TapeError(class, row.length), "class %d over %v", class, row.length)
		}
	}
}

// worked is a case worked by hand and by a Monte Carlo run after JCGM 100:2008 (GUM), 4.3.7, 5.1.2, 6.2.
var worked = Sources{
	Distance: [2]geom.Length{1200 * mm, 600 * mm}, Printed: [2]geom.Length{1200 * mm, 600 * mm},
	Line: [2]geom.Length{250 * mm, 250 * mm}, Reading: [2]geom.Length{mm / 4, mm / 4},
	Seams: [2]int{6, 2}, Seam: 3 * mm / 10, Wander: mm / 2, Play: 4 * mm / 10,
}

func TestErrorsAddUpAsInTheWorkedCase(t *testing.T) {
	worstX, uX := worked.Axis(0)
	worstY, uY := worked.Axis(1)
	assert.Equal(t, geom.Millimetre.Times(5.6), worstX)
	assert.Equal(t, geom.Millimetre.Times(3.2), worstY)
	assert.InDelta(t, 1.16619, uX/1e6, 0.000005)
	assert.InDelta(t, 0.72111, uY/1e6, 0.000005)
	e := worked.Error()
	assert.InDelta(t, 6.440, e.Worst.Millimetres(), 0.0005)
	assert.InDelta(t, 2.184, e.Likely.Millimetres(), 0.0005)
	assert.InDelta(t, 1.09179, e.Likely.Millimetres()/2, 0.000005)
}

func TestLikelyErrorIsTheSpreadOfRandomErrors(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	s := worked
	s.Growth = [2]float64{0.001, 0.002}
	s.Squared = [2]geom.Length{mm, 0}
	flat := func(half float64) float64 { return half * (2*r.Float64() - 1) }
	x, y := s.direction()
	sum := 0.0
	const runs = 200_000
	for range runs {
		off := [2]float64{}
		for axis := range off {
			d := s.Printed[axis].Millimetres()
			off[axis] = d*(flat(0.25)+flat(0.25))/250 + d*flat(s.Growth[axis]) + flat(0.5) + flat(0.5) + flat(0.4) + flat(s.Squared[axis].Millimetres())
			for range s.Seams[axis] {
				off[axis] += flat(0.3)
			}
		}
		along := x*off[0] + y*off[1]
		sum += along * along
	}
	assert.InEpsilon(t, 2*math.Sqrt(sum/runs), s.Error().Likely.Millimetres(), 0.01)
}

func TestTermsAddUpToTheWorstCase(t *testing.T) {
	var sum geom.Length
	for _, term := range worked.Terms() {
		sum += term.Worst
		assert.NotEmpty(t, term.Name)
	}
	assert.InDelta(t, float64(worked.Error().Worst), float64(sum), 10)
}

func TestTheWorstCaseIsThatOfAllHoles(t *testing.T) {
	p := hung(reading(), board24x48(), 1, stud)
	p.screw()
	b := p.Estimate(Print{})
	var holes []geom.Point
	for _, c := range p.Boards[0].Clips {
		holes = append(holes, c.BoardHoles...)
	}
	worst := geom.Length(0)
	for _, from := range holes {
		for _, to := range holes {
			if from != to {
				worst = max(worst, p.sources(Print{}, 0, from, to, true).Error().Worst)
			}
		}
	}
	assert.Equal(t, worst, b.HoleToHole.Worst)
	assert.Greater(t, worst, b.Sources.Error().Worst, "across the corners half-widths of both axes add up, where likely errors hardly do")
	var sum geom.Length
	for _, term := range b.Terms {
		sum += term.Worst
	}
	assert.InDelta(t, float64(worst), float64(sum), 10)
}

func TestClassTwoTapeProvesTheScaleOfItsLine(t *testing.T) {
	// A class II tape can prove 0.2 % on 250 mm (EU 2014/32/EU, Annex X, worked): both readings' halves of its 0.5 mm.
	reading := TapeError(2, 250*mm) / 2
	assert.Equal(t, worked.Reading[0], reading)
	assert.InDelta(t, 0.002, 2*float64(reading)/float64(250*mm), 1e-12)
}

func TestJigsPrintOnlyTheWayToTheEdges(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	b := p.Estimate(Print{})
	require.Equal(t, 0, b.Board)
	assert.True(t, b.Corner)
	to := 2*in + 3*in/4
	across := p.sources(Print{}, 0, geom.Pt(to, to), geom.Pt(24*in-to, 48*in-to), true)
	assert.Equal(t, [2]geom.Length{2 * to, 2 * to}, across.Printed)
	assert.Equal(t, [2]geom.Length{j.Accuracy.Squared, j.Accuracy.Squared}, across.Squared)
	assert.Equal(t, [2]int{}, across.Seams)
	beside := p.sources(Print{}, 0, geom.Pt(to, to), geom.Pt(to+in, 48*in-to), true)
	assert.Equal(t, [2]geom.Length{in, 2 * to}, beside.Printed, "two holes of one corner lie on one page")
	assert.Equal(t, [2]geom.Length{0, j.Accuracy.Squared}, beside.Squared)

	whole := p.Estimate(Print{Corner: func(int) bool { return false }})
	assert.Equal(t, whole.Sources.Distance, whole.Sources.Printed)
	assert.Greater(t, whole.HoleToHole.Likely, b.HoleToHole.Likely)
	assert.Contains(t, whole.Helps[0].What, "in one go")
	assert.Equal(t, through(j), whole.Helps[0].Likely)
	assert.Contains(t, whole.Helps, Help{"drill with corner jigs instead of a taped template", p.jigged(whole)})
	for i := 1; i < len(whole.Helps); i++ {
		assert.LessOrEqual(t, whole.Helps[i-1].Likely, whole.Helps[i].Likely)
	}
}

// through is the likely error where one hole marks both.
func through(j *job.Job) geom.Length { return Sources{Wander: j.Accuracy.Wander}.Error().Likely }

// jigged is the likely error of the same two holes drilled with corner jigs.
func (p *Plan) jigged(b Budget) geom.Length {
	return p.sources(Print{}, b.Board, b.From, b.To, true).Error().Likely
}

func TestJigsBeyondTheReachOfAPageAreSetToMarksMadeByTape(t *testing.T) {
	p := hung(reading(), geom.Size{W: 96 * in, H: 24 * in}, 1, stud)
	s := p.sources(Print{}, 0, geom.Pt(40*in, 3*in), geom.Pt(93*in, 3*in), true)
	// EU 2014/32/EU, Annex X, class II: 0.3 + 0.2 × 2 mm for a mark at 40 in, 1.016 m.
	assert.Equal(t, [2]geom.Length{7 * mm / 10, 0}, s.Taped[0])
	assert.Equal(t, 3*in, s.Printed[0])
	assert.Equal(t, in/32, s.Squared[0])
	both := p.sources(Print{}, 0, geom.Pt(40*in, 3*in), geom.Pt(56*in, 3*in), true)
	assert.Equal(t, [2]geom.Length{7 * mm / 10, 7 * mm / 10}, both.Taped[0])
	assert.Equal(t, geom.Length(0), both.Printed[0]+both.Squared[0])
	worst, u := (Sources{Taped: both.Taped}).Axis(0)
	assert.Equal(t, 14*mm/10, worst)
	assert.InDelta(t, 0.7e6*math.Sqrt(2./3), u, 1)
}

func TestPaperGrowthIsAsLargeAsTheTapesError(t *testing.T) {
	// Paper-trade table for bond: 0.4 % across the grain, 0.2 % along; over 250 mm that is 1.0 and 0.5 mm.
	s := Sources{Distance: [2]geom.Length{250 * mm, 0}, Printed: [2]geom.Length{250 * mm, 250 * mm}, Growth: [2]float64{0.004, 0.002}}
	across, _ := s.Axis(0)
	along, _ := s.Axis(1)
	assert.Equal(t, mm, across)
	assert.Equal(t, TapeError(2, 250*mm), along)
}

func TestLongerCheckLinesLeaveLessError(t *testing.T) {
	p := hung(reading(), board24x48(), 1, stud)
	p.screw()
	plain := Print{Corner: func(int) bool { return false }}
	long := plain
	long.Line = [2]geom.Length{geom.Metre, geom.Metre}
	assert.Less(t, p.Estimate(long).HoleToHole.Likely, p.Estimate(plain).HoleToHole.Likely)
}

func TestSeamsAreThoseOfTheFewestPages(t *testing.T) {
	// Tiles for a length L with usable width u and overlap v: n = ceil((L − v)/(u − v)); 1220 mm, u 190, v 10: 7; 610: 4;
	// 190: 1; 190.01: 2 (arithmetic). The length includes what keeps the holes clear of the seams.
	j := reading()
	j.Paper = job.Paper{Size: geom.Size{W: 190 * mm, H: 190 * mm}, Overlap: 10 * mm}
	j.Screws.Marker = 0
	p := &Plan{Job: j}
	for length, pages := range map[geom.Length]int{1220 * mm: 7, 610 * mm: 4, 190 * mm: 1, 190*mm + 10_000: 2} {
		assert.Equal(t, pages-1, p.usualSeams([2]geom.Length{length - 10*mm, 0})[0], "%v", length)
	}
}

func TestDrillingBoardAndWallInOneGoLeavesOnlyTheWander(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	through := p.Estimate(Print{})
	assert.Equal(t, 2*j.Accuracy.Wander, through.BoardToWall.Worst)

	j.Clip.Offset = geom.Pt(0, in)
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	apart := p.Estimate(Print{})
	assert.Greater(t, apart.BoardToWall.Likely, apart.HoleToHole.Likely)
}

func TestLikelyErrorOverThePlayIsToldWithWhatHelpsMost(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	p.estimate()
	assert.NotContains(t, found(p), "error-over-play", "jigs do it: %v", p.Budget.HoleToHole)

	j.Walls[0].Runs[0].Template = job.WholeTemplate
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	p.estimate()
	over, params := first[ErrorOverPlay](t, p)
	assert.Contains(t, params.Help, "drill board and wall in one go")
	assert.Equal(t, "board A", over.Subject.String())
}

func TestJigsOnBoardsSawnRoughlyAreTold(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	p.estimate()
	assert.NotContains(t, found(p), "jig-saw-error", "half the play is still right")
	j.Accuracy.Squared = in/32 + in/64
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	p.estimate()
	paramsOf[JigSawError](t, p)
}

func TestNoBoardsMakeNoBudget(t *testing.T) {
	p := &Plan{Job: reading()}
	p.estimate()
	assert.Equal(t, -1, p.Budget.Board)
	assert.Empty(t, p.Findings)
}
