package tolerance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
)

const (
	mm = geom.Millimetre
	in = geom.Inch
)

// letter is a job of our own for these tests, on US letter.
func letter() *job.Job {
	return &job.Job{
		Units:    geom.Imperial,
		Paper:    job.Paper{Name: "letter", Size: geom.Size{W: 17 * in / 2, H: 11 * in}, Margin: in / 4, Overlap: in / 2},
		Clip:     job.Clip{Play: in / 16},
		Screws:   job.Screws{Marker: in / 8},
		Accuracy: job.Accuracy{Tape: 2, Seam: geom.Millimetre * 3 / 10, Wander: geom.Millimetre / 2, Growth: [2]float64{0.001, 0.002}, Squared: in / 32},
	}
}

// board is one of 24 × 48 in with a hole 2 3/4 in from both edges in each corner.
func board() Board {
	to := 2*in + 3*in/4
	size := geom.Size{W: 24 * in, H: 48 * in}
	return Board{
		Name: "A", Outline: geom.R(0, 0, size.W, size.H).Polygon(), Size: size,
		Holes: []geom.Point{{X: to, Y: to}, {X: size.W - to, Y: to}, {X: to, Y: size.H - to}, {X: size.W - to, Y: size.H - to}},
	}
}

func estimate(j *job.Job, drillThrough bool, print Print) Budget {
	return Estimate(j, []Board{board()}, drillThrough, print)
}

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
	Seams: [2]int{6, 2}, Seam: 3 * mm / 10, Wander: mm / 2, Squared: [2]geom.Length{4 * mm / 10, 4 * mm / 10},
}

func TestErrorsAddUpAsInTheWorkedCase(t *testing.T) {
	worstX, uX := worked.axis(0)
	worstY, uY := worked.axis(1)
	assert.Equal(t, geom.Millimetre.Times(5.6), worstX)
	assert.Equal(t, geom.Millimetre.Times(3.2), worstY)
	assert.InDelta(t, 1.16619, uX/1e6, 0.000005)
	assert.InDelta(t, 0.72111, uY/1e6, 0.000005)
	e := worked.Uncertainty()
	assert.InDelta(t, 6.440, e.Worst.Millimetres(), 0.0005)
	assert.InDelta(t, 2.184, e.Expanded.Millimetres(), 0.0005)
	assert.InDelta(t, 1.09179, e.Expanded.Millimetres()/2, 0.000005)
}

func TestTheExpandedUncertaintyIsTheSpreadOfRandomErrors(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	s := worked
	s.Growth = [2]float64{0.001, 0.002}
	s.Squared[0] = mm
	flat := func(half float64) float64 { return half * (2*r.Float64() - 1) }
	x, y := s.direction()
	sum := 0.0
	const runs = 200_000
	for range runs {
		off := [2]float64{}
		for axis := range off {
			d := s.Printed[axis].Millimetres()
			off[axis] = d*(flat(0.25)+flat(0.25))/250 + d*flat(s.Growth[axis]) + flat(0.5) + flat(0.5) + flat(s.Squared[axis].Millimetres())
			for range s.Seams[axis] {
				off[axis] += flat(0.3)
			}
		}
		along := x*off[0] + y*off[1]
		sum += along * along
	}
	assert.InEpsilon(t, 2*math.Sqrt(sum/runs), s.Uncertainty().Expanded.Millimetres(), 0.01)
}

func TestContributionsAddUpToTheWorstCase(t *testing.T) {
	var sum geom.Length
	for _, term := range worked.Contributions() {
		sum += term.Worst
		assert.NotEmpty(t, term.Name)
	}
	assert.InDelta(t, float64(worked.Uncertainty().Worst), float64(sum), 10)
}

func TestTheWorstCaseIsThatOfAllHoles(t *testing.T) {
	j, holes := letter(), board().Holes
	b := estimate(j, true, Print{})
	worst := geom.Length(0)
	for _, from := range holes {
		for _, to := range holes {
			if from != to {
				worst = max(worst, estimator{Job: j}.sources(board().Size, from, to, true).Uncertainty().Worst)
			}
		}
	}
	assert.Equal(t, worst, b.HoleToHole.Worst)
	assert.Greater(t, worst, b.Sources.Uncertainty().Worst, "across the corners half-widths of both axes add up, where likely errors hardly do")
	var sum geom.Length
	for _, term := range b.Contributions {
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
	j := letter()
	e := estimator{Job: j, through: true}
	b := estimate(j, true, Print{})
	require.Equal(t, 0, b.Board)
	assert.True(t, b.Corner)
	to := 2*in + 3*in/4
	across := e.sources(board().Size, geom.Pt(to, to), geom.Pt(24*in-to, 48*in-to), true)
	assert.Equal(t, [2]geom.Length{2 * to, 2 * to}, across.Printed)
	assert.Equal(t, [2]geom.Length{j.Accuracy.Squared, j.Accuracy.Squared}, across.Squared)
	assert.Equal(t, [2]int{}, across.Seams)
	beside := e.sources(board().Size, geom.Pt(to, to), geom.Pt(to+in, 48*in-to), true)
	assert.Equal(t, [2]geom.Length{in, 2 * to}, beside.Printed, "two holes of one corner lie on one page")
	assert.Equal(t, [2]geom.Length{0, j.Accuracy.Squared}, beside.Squared)

	whole := estimate(j, true, Print{Corner: func(int) bool { return false }})
	assert.Equal(t, whole.Sources.Distance, whole.Sources.Printed)
	assert.Greater(t, whole.HoleToHole.Expanded, b.HoleToHole.Expanded)
	assert.Contains(t, whole.Helps[0].What, "in one go")
	assert.Equal(t, Sources{Wander: j.Accuracy.Wander}.Uncertainty().Expanded, whole.Helps[0].Expanded)
	assert.Contains(t, whole.Helps, Help{"drill with corner jigs instead of a taped template", e.sources(board().Size, whole.From, whole.To, true).Uncertainty().Expanded})
	for i := 1; i < len(whole.Helps); i++ {
		assert.LessOrEqual(t, whole.Helps[i-1].Expanded, whole.Helps[i].Expanded)
	}
}

func TestJigsBeyondTheReachOfAPageAreSetToMarksMadeByTape(t *testing.T) {
	e, size := estimator{Job: letter()}, geom.Size{W: 96 * in, H: 24 * in}
	s := e.sources(size, geom.Pt(40*in, 3*in), geom.Pt(93*in, 3*in), true)
	// EU 2014/32/EU, Annex X, class II: 0.3 + 0.2 × 2 mm for a mark at 40 in, 1.016 m.
	assert.Equal(t, [2]geom.Length{7 * mm / 10, 0}, s.Taped[0])
	assert.Equal(t, 3*in, s.Printed[0])
	assert.Equal(t, in/32, s.Squared[0])
	both := e.sources(size, geom.Pt(40*in, 3*in), geom.Pt(56*in, 3*in), true)
	assert.Equal(t, [2]geom.Length{7 * mm / 10, 7 * mm / 10}, both.Taped[0])
	assert.Equal(t, geom.Length(0), both.Printed[0]+both.Squared[0])
	worst, u := (Sources{Taped: both.Taped}).axis(0)
	assert.Equal(t, 14*mm/10, worst)
	assert.InDelta(t, 0.7e6*math.Sqrt(2./3), u, 1)
}

func TestPaperGrowthIsAsLargeAsTheTapesError(t *testing.T) {
	// Paper-trade table for bond: 0.4 % across the grain, 0.2 % along; over 250 mm that is 1.0 and 0.5 mm.
	s := Sources{Distance: [2]geom.Length{250 * mm, 0}, Printed: [2]geom.Length{250 * mm, 250 * mm}, Growth: [2]float64{0.004, 0.002}}
	across, _ := s.axis(0)
	along, _ := s.axis(1)
	assert.Equal(t, mm, across)
	assert.Equal(t, TapeError(2, 250*mm), along)
}

func TestLongerCheckLinesLeaveLessError(t *testing.T) {
	plain := Print{Corner: func(int) bool { return false }}
	long := plain
	long.Line = [2]geom.Length{geom.Metre, geom.Metre}
	assert.Less(t, estimate(letter(), true, long).HoleToHole.Expanded, estimate(letter(), true, plain).HoleToHole.Expanded)
}

func TestSeamsAreThoseOfTheFewestPages(t *testing.T) {
	// Tiles for a length L with usable width u and overlap v: n = ceil((L − v)/(u − v)); 1220 mm, u 190, v 10: 7; 610: 4;
	// 190: 1; 190.01: 2 (arithmetic). The length includes what keeps the holes clear of the seams.
	j := letter()
	j.Paper = job.Paper{Size: geom.Size{W: 190 * mm, H: 190 * mm}, Overlap: 10 * mm}
	j.Screws.Marker = 0
	e := estimator{Job: j}
	for length, pages := range map[geom.Length]int{1220 * mm: 7, 610 * mm: 4, 190 * mm: 1, 190*mm + 10_000: 2} {
		assert.Equal(t, pages-1, e.usualSeams([2]geom.Length{length - 10*mm, 0})[0], "%v", length)
	}
}

func TestDrillingBoardAndWallInOneGoLeavesOnlyTheWander(t *testing.T) {
	j := letter()
	assert.Equal(t, 2*j.Accuracy.Wander, estimate(j, true, Print{}).BoardToWall.Worst)
	apart := estimate(j, false, Print{})
	assert.Greater(t, apart.BoardToWall.Expanded, apart.HoleToHole.Expanded)
}
