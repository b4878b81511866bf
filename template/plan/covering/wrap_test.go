package covering

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

func TestAutoWrapIsBoardAndFoamAndHoldRoundedUp(t *testing.T) {
	mm := geom.Millimetre
	for _, row := range []struct {
		units             geom.System
		board, foam, hold geom.Length
		size, land        geom.Length
	}{
		{geom.Imperial, 15 * in / 32, in, in, 5 * in / 2, 5*in/2 - 47*in/32},
		{geom.Imperial, in / 2, in, in, 5 * in / 2, in},
		{geom.Imperial, in / 4, 0, 3 * in / 2, 2 * in, 7 * in / 4},
		{geom.Metric, 12 * mm, 25 * mm, 25 * mm, 70 * mm, 33 * mm},
	} {
		j := sample.Reading()
		j.Units, j.Board.Thickness, j.Foam.Thickness, j.Wrap.Hold = row.units, row.board, row.foam, row.hold
		p := hang(j, hung.Board24x48(), 1)
		p.wrap()
		assert.Equal(t, row.size, p.Wrap.Size)
		assert.Equal(t, row.land, p.Wrap.Land)
	}
}

func TestGivenWrapIsKept(t *testing.T) {
	j := sample.Reading()
	j.Wrap = job.Wrap{Size: 7 * in / 2, Fold: "auto"}
	p := hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.Equal(t, 7*in/2, p.Wrap.Size)
	assert.Empty(t, p.Findings)
}

func TestWrapTooSmallForTheStaplesIsTold(t *testing.T) {
	j := sample.Reading() // board and foam 2 1/2, staples 3/4 in, 3/16 beyond: 3 7/16
	j.Wrap = job.Wrap{Size: 27 * in / 8}
	p := hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.Equal(t, 55*in/16, sample.ParamsOf[WrapShort](t, p.Findings).Least)
	j.Wrap.Size = 2 * in
	p = hang(j, hung.Board24x48(), 1)
	p.wrap()
	short := sample.ParamsOf[WrapShort](t, p.Findings)
	assert.LessOrEqual(t, short.Wrap, short.Thick, "it does not even reach the back")
	assert.Equal(t, geom.Length(0), p.Wrap.Land)
	j.Wrap.Size = 55 * in / 16
	p = hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.NotContains(t, p.IDs(), "wrap-short")
}

func TestWrapNeverLiesUnderTheClips(t *testing.T) {
	j := sample.Reading() // clips begin 2 in from the edge
	j.Wrap = job.Wrap{Size: 9 * in / 2}
	p := hang(j, hung.Board24x48(), 2)
	p.wrap()
	assert.Empty(t, p.Findings, "the land may touch the base")
	j.Wrap.Size += in / 16
	p = hang(j, hung.Board24x48(), 2)
	p.wrap()
	under := sample.ParamsOf[WrapUnderClips](t, p.Findings)
	assert.Equal(t, 33*in/16, under.Reach)
	assert.Equal(t, 9*in/2, under.Wrap)
	assert.Len(t, p.Findings, 2, "both panels of the board")

	j = sample.Reading()
	j.Clips.Clear = 3 * in / 4
	p = hang(j, hung.Board24x48(), 1)
	p.wrap()
	sample.ParamsOf[StaplesUnderClips](t, p.Findings)
}

func TestClipNearASlopingEdgeIsMeasuredSquareToIt(t *testing.T) {
	p := hang(sample.Reading(), hung.Board24x48(), 1)
	p.Boards[0].Outline = geom.Polygon{{}, {X: 24 * in}, {X: 24 * in, Y: 38 * in}, {X: 14 * in, Y: 48 * in}, {Y: 48 * in}}
	// The corner (18, 42) of the clip's base is 2/√2 from the edge x + y = 62.
	p.Boards[0].Clips = []layout.Clip{{Board: geom.Pt(18*in-3*in/4, 42*in-3*in/4), Place: "upper right"}}
	room, place := (&planner{Job: p.Job, Layout: &p.Layout}).roomToClips(&p.Boards[0])
	assert.InDelta(t, 2/1.41421356, room.Inches(), 1e-6)
	assert.Equal(t, "upper right", place)
}

func TestWhatLiesBehindTheBoardStaysLowerThanTheStandoff(t *testing.T) {
	j := sample.Reading() // pleat: 3/32 cover, 1/16 batting, 1/32 crown
	p := hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.Equal(t, 3*in/16, p.Wrap.Behind)
	assert.NotContains(t, p.IDs(), "behind-high")
	p = hang(j, hung.Board24x48(), 1)
	j.Clip.Standoff = 3 * in / 16
	p.Runs[0].Standing = j.Clip.Standoff
	p.wrap()
	sample.ParamsOf[BehindHigh](t, p.Findings)
	p = hang(j, hung.Board24x48(), 1)
	p.Runs[0].Standing = 3*in/16 + in/8 // on shims
	p.wrap()
	assert.NotContains(t, p.IDs(), "behind-high")
}

func TestStaplesDoNotComeThroughTheBoard(t *testing.T) {
	j := sample.Reading()
	j.Staple.Length = 29 * in / 64 // 1/2 less 1/64 tolerance less 1/32
	p := hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.NotContains(t, p.IDs(), "staple-through")
	j.Staple.Length = in / 2
	p = hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.Equal(t, 7*in/16, sample.ParamsOf[StapleThrough](t, p.Findings).Most)
}

func TestThinPanelsAreFoldedLikeAParcelAndThickOnesPleated(t *testing.T) {
	// Common practice: surplus batting and cover is cut out of thick corners, thin panels are folded like a parcel.
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.Equal(t, Pleat, p.Wrap.Fold.Kind)
	assert.Contains(t, p.Wrap.Fold.Why, "2 3/4″ thick")

	j.Board.Thickness, j.Foam.Thickness = in/4, in/4
	p = hang(j, hung.Board24x48(), 1)
	p.Runs[0].Standing = j.Clip.Standoff + in/8
	p.wrap()
	assert.Equal(t, Parcel, p.Wrap.Fold.Kind)
	assert.Equal(t, 5*in/16, p.Wrap.Behind)

	p = hang(j, hung.Board24x48(), 1)
	p.wrap() // standing 5/16 off the wall
	assert.Equal(t, Pleat, p.Wrap.Fold.Kind)
	assert.Contains(t, p.Wrap.Fold.Why, "5/16″ high behind the board")

	j.Wrap.Fold = Parcel
	p = hang(j, hung.Board24x48(), 1)
	p.wrap()
	assert.Equal(t, Parcel, p.Wrap.Fold.Kind)
	assert.True(t, sample.ParamsOf[BehindHigh](t, p.Findings).Parcel)
}

func TestInnerCornersGetASlitThatStopsShort(t *testing.T) {
	p := hang(sample.Reading(), hung.Board24x48(), 1)
	p.Boards[0].Outline = geom.Polygon{{}, {X: 24 * in}, {X: 24 * in, Y: 20 * in}, {X: 10 * in, Y: 20 * in}, {X: 10 * in, Y: 48 * in}, {Y: 48 * in}}
	p.Wrap.Size = 3 * in
	reliefs := p.reliefs(0)
	require.Len(t, reliefs, 1)
	assert.Equal(t, geom.Pt(10*in, 20*in), reliefs[0].Corner)
	assert.Equal(t, geom.Pt(13*in, 23*in), reliefs[0].From)
	assert.InDelta(t, 0.125, reliefs[0].Corner.Distance(reliefs[0].To).Inches(), 1e-6)
	assert.Empty(t, (&Wrap{}).Reliefs(geom.R(0, 0, in, in).Polygon(), geom.Imperial))
}

func TestNotchNeedsCoverForBothSides(t *testing.T) {
	notched := func(w geom.Length) geom.Polygon {
		return geom.Polygon{{}, {X: 24 * in}, {X: 24 * in, Y: 48 * in}, {X: 10*in + w, Y: 48 * in}, {X: 10*in + w, Y: 40 * in}, {X: 10 * in, Y: 40 * in}, {X: 10 * in, Y: 48 * in}, {Y: 48 * in}}
	}
	assert.Equal(t, 4*in, narrowest(notched(4*in)))
	assert.Equal(t, geom.Length(0), narrowest(geom.R(0, 0, in, in).Polygon()))
	p := hang(sample.Reading(), hung.Board24x48(), 1)
	p.Boards[0].Outline = notched(55 * in / 8) // twice 3 7/16
	p.wrap()
	assert.NotContains(t, p.IDs(), "notch-narrow")
	p.Boards[0].Outline = notched(55*in/8 - in/32)
	p.wrap()
	sample.ParamsOf[NotchNarrow](t, p.Findings)
}

func TestStaplesRunFromTheMiddlesOfTheLongSidesToTheCorners(t *testing.T) {
	// Order: middle of each side first, then outwards, corners last (common practice); long sides before short ends is
	// common practice.
	p := hang(sample.Reading(), hung.Board24x48(), 1)
	staples := p.staples(0)
	edge := p.Job.Staple.Edge
	assert.Equal(t, Staple{geom.Pt(24*in-edge, 24*in), 1}, staples[0])
	assert.Equal(t, Staple{geom.Pt(edge, 24*in), 1}, staples[1])
	last := 0
	steps := map[int]int{}
	for _, s := range staples {
		assert.GreaterOrEqual(t, s.Step, last)
		last = s.Step
		steps[s.Step]++
		if s.Step == 5 {
			continue
		}
		nearest := min(s.At.X, 24*in-s.At.X, s.At.Y, 48*in-s.At.Y)
		assert.Equal(t, edge, nearest, "in the row")
	}
	assert.Equal(t, 2, steps[1])
	assert.Equal(t, 2, steps[3])
	assert.Equal(t, 4*3, steps[5], "one on the diagonal of each corner, one in the folds on either side")
	for _, s := range staples {
		if s.Step > 2 {
			continue
		}
		near := 48 * in
		for _, o := range staples {
			if o != s && o.At.X == s.At.X && o.Step <= 2 {
				near = min(near, s.At.Distance(o.At))
			}
		}
		assert.LessOrEqual(t, near, p.Job.Staple.Spacing)
	}
}

func TestNarrowBoardStillGetsAStapleInEachSide(t *testing.T) {
	p := hang(sample.Reading(), geom.Size{W: 4 * in, H: 3 * in}, 1)
	steps := map[int]int{}
	for _, s := range p.staples(0) {
		steps[s.Step]++
	}
	assert.Equal(t, map[int]int{1: 2, 3: 2, 5: 12}, steps)
}
