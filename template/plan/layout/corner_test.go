package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

// meeting is the plan of two walls of 2 m that join in a corner, a run on each; both runs stand 50 mm off the wall
// and have gaps of 5 mm.
func meeting(t *testing.T, kind job.CornerKind, throughNext bool, left, right job.Run) *record {
	j := sample.Bay(sample.WallOf("A", 2*geom.Metre, 2*geom.Metre, left), sample.WallOf("B", 2*geom.Metre, 2*geom.Metre, right))
	j.Walls[0].Corner, j.Walls[0].ThroughNext = kind, throughNext
	p := laid(t, j)
	for i := range p.Runs {
		p.Runs[i].BuildOut = 50 * mm
	}
	p.join()
	return p
}

func strip(name string, from, to, bottom geom.Length) job.Run {
	return sample.Row(name, from, to, bottom, bottom+400*mm, 2, 5*mm)
}

// 50 mm of build-out and a gap of 5 mm: the wall that does not run through begins 55 mm from the corner.
func TestTheOtherWallStandsOffAnInsideCornerByBuildOutAndGap(t *testing.T) {
	through := strip("A", 0, 2000*mm, 500*mm)
	p := meeting(t, job.Inside, false, through, strip("B", 55*mm, 1500*mm, 500*mm))
	assert.Empty(t, p.Findings)
	assert.Equal(t, []Corner{{Left: 0, Right: 1, Inside: true, Through: 0, Least: 55 * mm, Stands: 55 * mm, Found: true}}, p.Corners)

	p = meeting(t, job.Inside, false, through, strip("B", 54*mm, 1500*mm, 500*mm))
	require.Equal(t, []string{"corner-collision"}, p.IDs())
	assert.Equal(t, "run B", p.Findings[0].Subject.String())
	assert.Equal(t, "walls[1].runs[0].across", p.Findings[0].Field)
	assert.Equal(t, CornerCollision{Inside: true, Walls: [2]string{"A", "B"}, Through: "A", BuildOut: 50 * mm, Gap: 5 * mm, Stands: 54 * mm, Least: 55 * mm, At: 55 * mm},
		p.Findings[0].Params)
	assert.Equal(t, 54*mm, p.Panels[2].Finished.Bounds().Min.X, "a run is never moved")
}

func TestThroughNextAsksTheRoomOfThisWall(t *testing.T) {
	p := meeting(t, job.Inside, true, strip("A", 0, 1950*mm, 500*mm), strip("B", 0, 1500*mm, 500*mm))
	require.Equal(t, []string{"corner-collision"}, p.IDs())
	f := sample.ParamsOf[CornerCollision](t, p.Findings)
	assert.True(t, f.AtEnd)
	assert.Equal(t, 1945*mm, f.At)
	assert.Equal(t, 50*mm, p.Corners[0].Stands)
	assert.Empty(t, meeting(t, job.Inside, true, strip("A", 0, 1945*mm, 500*mm), strip("B", 0, 1500*mm, 500*mm)).Findings)
}

func TestTwoRunsIntoOneCornerCollide(t *testing.T) {
	assert.Equal(t, []string{"corner-collision"},
		meeting(t, job.Inside, false, strip("A", 0, 2000*mm, 500*mm), strip("B", 0, 1500*mm, 500*mm)).IDs())
}

func TestRunsAtOtherHeightsPassEachOther(t *testing.T) {
	p := meeting(t, job.Inside, false, strip("A", 0, 2000*mm, 500*mm), strip("B", 0, 1500*mm, 900*mm))
	assert.Empty(t, p.Findings)
	assert.False(t, p.Corners[0].Found)
	p = meeting(t, job.Inside, false, strip("A", 0, 2000*mm, 500*mm), strip("B", 0, 1500*mm, 899*mm))
	assert.Equal(t, []string{"corner-collision"}, p.IDs())
}

func TestARunThatNeverComesIntoTheCornerAsksForNothing(t *testing.T) {
	p := meeting(t, job.Inside, false, strip("A", 0, 1945*mm, 500*mm), strip("B", 0, 1500*mm, 500*mm))
	assert.Empty(t, p.Findings)
	assert.Zero(t, p.Corners[0].Least)
}

func TestRunsMayMeetInAnOutsideCorner(t *testing.T) {
	p := meeting(t, job.Outside, false, strip("A", 0, 2000*mm, 500*mm), strip("B", 0, 1500*mm, 500*mm))
	assert.Empty(t, p.Findings)
	assert.Equal(t, Corner{Left: 0, Right: 1, Through: 0, Found: true}, p.Corners[0])
}

func TestARunPastAnOutsideCornerKeepsTheOtherBack(t *testing.T) {
	past := strip("A", 0, 2050*mm, 500*mm)
	p := meeting(t, job.Outside, false, past, strip("B", 4*mm, 1500*mm, 500*mm))
	require.Equal(t, []string{"corner-collision"}, p.IDs())
	assert.Equal(t, 5*mm, sample.ParamsOf[CornerCollision](t, p.Findings).Least)
	assert.Empty(t, meeting(t, job.Outside, false, past, strip("B", 5*mm, 1500*mm, 500*mm)).Findings)
	assert.Equal(t, []string{"corner-collision"},
		meeting(t, job.Outside, true, past, strip("B", 0, 1500*mm, 500*mm)).IDs(), "only the wall that runs through may go past")
}

func TestOnlyAnOutsideCornerLetsARunLeaveItsWall(t *testing.T) {
	p := meeting(t, job.Inside, false, strip("A", 0, 2050*mm, 500*mm), strip("B", 60*mm, 1500*mm, 500*mm))
	assert.Contains(t, p.IDs(), "outside-wall")
	high := meeting(t, job.Outside, false, strip("A", 0, 2050*mm, 1700*mm), strip("B", 60*mm, 1500*mm, 500*mm))
	assert.Equal(t, []string{"outside-wall", "outside-wall"}, high.IDs())
	assert.Equal(t, []string{"A1"}, high.Findings[0].Subject.Names)
}

func TestTheLastWallOfARoomJoinsTheFirst(t *testing.T) {
	var walls []job.Wall
	for _, n := range []string{"A", "B", "C", "D"} {
		w := sample.WallOf(n, 2*geom.Metre, 2*geom.Metre, strip(n, 0, 2000*mm, 500*mm))
		w.Corner = job.Inside
		walls = append(walls, w)
	}
	p := laid(t, sample.Bay(walls...))
	p.join()
	require.Len(t, p.Corners, 4)
	assert.Equal(t, 3, p.Corners[3].Left)
	assert.Equal(t, 0, p.Corners[3].Right)
	p = laid(t, sample.Bay(walls[:2]...))
	p.join()
	assert.Len(t, p.Corners, 1, "two walls don't go round a room")
}
