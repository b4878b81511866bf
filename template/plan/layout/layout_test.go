package layout

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/sample"
)

const (
	inch = geom.Inch
	mm   = geom.Millimetre
)

// A record is a layout and what was found on the way.
type record struct {
	Job *job.Job
	Layout
	sample.Found
	Corners []Corner
}

// join finds the corners.
func (p *record) join() {
	var found finding.List
	p.Corners, found = p.Join()
	p.Note(found)
}

// laid is the layout of a job.
func laid(t testing.TB, j *job.Job) *record {
	t.Helper()
	l, found, err := Make(j)
	require.NoError(t, err)
	return &record{Job: j, Layout: l, Found: sample.Found{Findings: found}}
}

// refused is what Make says of a job that contradicts itself.
func refused(t *testing.T, j *job.Job) []job.Problem {
	t.Helper()
	_, _, err := Make(j)
	var problems *job.Problems
	require.True(t, errors.As(err, &problems), "a contradiction is a *job.Problems")
	return problems.List
}

// Common practice: equal panels are the total width over their number.
func TestEqualPanelsAreTheTotalWidthOverTheirNumber(t *testing.T) {
	j := sample.Settle(sample.Row("N", 2*inch, 94*inch, 20*inch, 44*inch, 4, 0))
	j.Batt.Pressed, j.Cover.Thickness = 0, 0
	p := laid(t, j)
	require.Len(t, p.Panels, 4)
	for i, panel := range p.Panels {
		want := geom.R(2*inch+geom.Length(i)*23*inch, 20*inch, 25*inch+geom.Length(i)*23*inch, 44*inch)
		assert.Equal(t, want.Polygon(), panel.Finished)
		assert.Equal(t, panel.Finished, panel.Outline, "without a cover the board is the panel")
	}
}

// 92 in less five gaps of 1/4 in are 90 3/4 in; a sixth is 15 1/8 in; less twice 3/32 in the board is 14 15/16 in,
// a whole number of sixteenths. The board of 24 in height is 23 13/16 in.
func TestTheReadingRoomSettleDividesExactly(t *testing.T) {
	p := laid(t, sample.Settle(sample.Row("N", 2*inch, 94*inch, 20*inch, 44*inch, 6, inch/4)))
	require.Len(t, p.Panels, 6)
	assert.Equal(t, 3*inch/32, p.Edge)
	for i, panel := range p.Panels {
		x := 2*inch + geom.Length(i)*(15*inch+inch/8+inch/4)
		assert.Equal(t, geom.R(x, 20*inch, x+15*inch+inch/8, 44*inch).Polygon(), panel.Finished)
		assert.Equal(t, geom.Size{W: 14*inch + 15*inch/16, H: 23*inch + 13*inch/16}, panel.Outline.Bounds().Size())
		assert.Equal(t, fmt.Sprint("N", i+1), panel.Name)
		assert.Equal(t, i, p.Runs[0].Panels[i])
	}
	assert.Equal(t, []geom.Length{inch / 4, inch / 4, inch / 4, inch / 4, inch / 4}, p.Runs[0].Gaps)
	assert.Equal(t, geom.R(2*inch, 20*inch, 94*inch, 44*inch), p.Runs[0].Bounds)
	assert.Empty(t, p.Findings)
}

// (2000 − 2·5)/3 = 663.33; less 6 it is 657.33, rounded down 657; finished 663. 2000 − 3·663 − 10 = 1 is left: half a
// millimetre for each gap. Height 500 − 6 = 494 exactly.
func TestWhatSawStepsLeaveGoesIntoTheGaps(t *testing.T) {
	p := laid(t, sample.Bay(sample.WallOf("W", 3*geom.Metre, 2*geom.Metre, sample.Row("W", 100*mm, 2100*mm, 400*mm, 900*mm, 3, 5*mm))))
	assert.Equal(t, []geom.Length{5*mm + mm/2, 5*mm + mm/2}, p.Runs[0].Gaps)
	assert.Equal(t, 100*mm, p.Panels[0].Finished.Bounds().Min.X, "the run begins where it should")
	assert.Equal(t, 2100*mm, p.Panels[2].Finished.Bounds().Max.X, "the run ends where it should")
	for _, panel := range p.Panels {
		assert.Equal(t, 657*mm, panel.Outline.Bounds().W())
	}
}

// 1000 mm for four panels without gaps: 250 − 6 = 244, nothing left. For three: 333.33 − 6 → 327, finished 333, 1 mm
// left in two gaps; a span 1 nm wider leaves the odd nanometre in the first.
func TestOddNanometresGoToTheLeftmostGap(t *testing.T) {
	p := laid(t, sample.Bay(sample.WallOf("W", 3*geom.Metre, 2*geom.Metre, sample.Row("W", 0, geom.Metre+1, 400*mm, 900*mm, 3, 0))))
	assert.Equal(t, []geom.Length{mm/2 + 1, mm / 2}, p.Runs[0].Gaps)
}

func TestOnePanelHasItsSlackAtBothEnds(t *testing.T) {
	p := laid(t, sample.Bay(sample.WallOf("W", 3*geom.Metre, 2*geom.Metre, sample.Row("W", 0, 500*mm+mm/2+1, 400*mm, 900*mm+mm/3, 1, 5*mm))))
	assert.Empty(t, p.Runs[0].Gaps)
	assert.Equal(t, geom.R(mm/4+1, 400*mm, 500*mm+mm/4+1, 900*mm), p.Panels[0].Finished.Bounds())
	assert.Equal(t, mm/3, p.Runs[0].Band.Slack, "the slack of the height is at the top")
	assert.Equal(t, 900*mm, p.Runs[0].Band.Top)
}

func TestEndsStandFreeOnBothSides(t *testing.T) {
	r := sample.Row("W", 0, 1020*mm, 0, 500*mm, 2, 0)
	r.Ends = 10 * mm
	p := laid(t, sample.Bay(sample.WallOf("W", 3*geom.Metre, 2*geom.Metre, r)))
	assert.Equal(t, geom.R(10*mm, 0, 510*mm, 500*mm), p.Panels[0].Finished.Bounds())
	assert.Equal(t, geom.R(510*mm, 0, 1010*mm, 500*mm), p.Panels[1].Finished.Bounds())
	assert.Equal(t, geom.R(0, 0, 1020*mm, 500*mm), p.Runs[0].Bounds)
}

// Finished 18, 24, 18 in with two gaps of 1/4 in fill 60 1/2 in; boards lose 3/16 in and are whole sixteenths.
func TestGivenWidthsFillTheSpan(t *testing.T) {
	r := sample.Row("N", 0, 60*inch+inch/2, 20*inch, 44*inch, 0, inch/4)
	r.Widths = []geom.Length{18 * inch, 24 * inch, 18 * inch}
	p := laid(t, sample.Settle(r))
	assert.Equal(t, 18*inch-3*inch/16, p.Panels[0].Outline.Bounds().W())
	assert.Equal(t, 18*inch+inch/4, p.Panels[1].Finished.Bounds().Min.X)

	r.Across[0].To += 3 * inch / 16
	p = laid(t, sample.Settle(r))
	assert.Equal(t, []geom.Length{inch/4 + 3*inch/32, inch/4 + 3*inch/32}, p.Runs[0].Gaps, "three saw steps may go into the gaps")

	r.Across[0].To += inch / 16
	problems := refused(t, sample.Settle(r))
	require.Len(t, problems, 1)
	assert.Equal(t, "walls[0].runs[0].widths", problems[0].Field)
	assert.Equal(t, "18″ + 24″ + 18″ with gaps and ends of 1/2″ make 60 1/2″, but the run is 60 3/4″: too little by 1/4″", problems[0].Text)

	r.Across[0].To = 60 * inch
	assert.Contains(t, refused(t, sample.Settle(r))[0].Text, "too much by 1/2″")
}

func TestTheMostPanelsThatFitAreNamedAndDoFit(t *testing.T) {
	r := sample.Row("N", 0, 10*inch, 20*inch, 44*inch, 1000, inch/4)
	problems := refused(t, sample.Settle(r))
	require.Len(t, problems, 1)
	assert.Equal(t, "walls[0].runs[0].panels", problems[0].Field)
	// (10 + 1/4) / (1/16 + 3/16 + 1/4) = 20.5
	assert.Contains(t, problems[0].Text, "at most 20 fit")
	r.Panels = 20
	assert.Len(t, laid(t, sample.Settle(r)).Panels, 20)
	r.Panels = 21
	refused(t, sample.Settle(r))
}

func TestEveryContradictionIsToldInOneGo(t *testing.T) {
	narrow := sample.Row("A", 0, inch/8, 20*inch, 44*inch, 1, 0)
	backward := sample.Row("B", 10*inch, 5*inch, 20*inch, 44*inch, 1, 0)
	upside := sample.Row("C", 0, 10*inch, 20*inch, 19*inch, 1, 0)
	flat := sample.Row("D", 0, 10*inch, 20*inch, 20*inch+inch/8, 1, 0)
	thin := sample.Row("E", 0, 10*inch, 20*inch, 44*inch, 0, 0)
	thin.Widths = []geom.Length{inch / 8, 9*inch + 7*inch/8}
	none := sample.Row("F", 0, 10*inch, 20*inch, 44*inch, 0, 0)
	problems := refused(t, sample.Settle(narrow, backward, upside, flat, thin, none))
	var fields []string
	for _, q := range problems {
		fields = append(fields, q.Field)
	}
	assert.Equal(t, []string{"walls[0].runs[0]", "walls[0].runs[1].across", "walls[0].runs[2].height",
		"walls[0].runs[3].height", "walls[0].runs[4].widths[0]", "walls[0].runs[5].panels"}, fields)
}

func TestTheNarrowestReadingCountsAndPlumbIsTold(t *testing.T) {
	r := sample.Row("N", 0, 0, 20*inch, 44*inch, 2, 0)
	r.Across = []job.Span{{From: 2 * inch, To: 94 * inch, At: 20 * inch}, {From: 2*inch + inch/4, To: 94*inch + inch/8, At: 44 * inch}}
	p := laid(t, sample.Settle(r))
	assert.Equal(t, 2*inch+inch/4, p.Runs[0].Bounds.Min.X)
	assert.Equal(t, 94*inch, p.Runs[0].Bounds.Max.X)
	require.Equal(t, []string{"out-of-plumb", "out-of-plumb"}, p.IDs())
	assert.Equal(t, OutOfPlumb{End: "left", Off: inch / 4, Counts: 9 * inch / 4}, p.Findings[0].Params)
	assert.Equal(t, OutOfPlumb{End: "right", Off: inch / 8, Counts: 94 * inch}, p.Findings[1].Params)
}

func BenchmarkLayThousandPanels(b *testing.B) {
	var runs []job.Run
	for i := range 100 {
		runs = append(runs, sample.Row(fmt.Sprint("R", i), 0, 90*inch, geom.Length(i)*30*inch, geom.Length(i)*30*inch+24*inch, 10, inch/4))
	}
	j := sample.Settle(runs...)
	j.Walls[0].Outline = geom.R(0, 0, 96*inch, 3000*inch).Polygon()
	for b.Loop() {
		require.Len(b, laid(b, j).Panels, 1000)
	}
}
