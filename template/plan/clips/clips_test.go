package clips

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

func middles(panel *layout.Panel) (all []geom.Point) {
	for _, c := range panel.Clips {
		all = append(all, c.Board)
	}
	return all
}

func places(panel *layout.Panel) (all []string) {
	for _, c := range panel.Clips {
		all = append(all, c.Place)
	}
	return all
}

// A clip of 1 1/2 in, 2 in clear of the edge, has its middle 2 3/4 in from the edge.
func TestWithoutWoodFourClipsStandInTheClearCorners(t *testing.T) {
	p := placed(t, sample.Clipped(sample.Panelled(nil, 20*inch)))
	panel := &p.Panels[0]
	m := 11 * inch / 4
	assert.Equal(t, []geom.Point{{X: m, Y: m}, {X: 20*inch - m, Y: m}, {X: m, Y: 24*inch - m}, {X: 20*inch - m, Y: 24*inch - m}}, middles(panel))
	assert.Equal(t, []string{"lower left", "lower right", "upper left", "upper right"}, places(panel))
	for _, c := range panel.Clips {
		assert.Equal(t, c.Board.Add(geom.Pt(0, 20*inch)), c.Wall)
		assert.Equal(t, []geom.Point{c.Board}, c.BoardHoles)
		assert.Equal(t, []geom.Point{c.Wall}, c.WallHoles)
		assert.Equal(t, layout.OnLining, c.On)
		assert.Equal(t, -1, c.Member)
	}
}

func TestRightAndTopClipsStandWholeStepsFromTheirOwnEdges(t *testing.T) {
	j := sample.Clipped(sample.Panelled(nil, 20*inch+inch/7))
	j.Board.Saw = 1
	p := placed(t, j)
	size := p.Panels[0].Outline.Bounds().Size()
	require.NotZero(t, size.W%(inch/16))
	for _, c := range p.Panels[0].Clips {
		left, right := c.Board.X%(inch/16) == 0, (size.W-c.Board.X)%(inch/16) == 0
		assert.True(t, left != right && left == (c.Board.X < size.W/2))
	}
	assert.Equal(t, p.Panels[0].Clips[0].Board.X, size.W-p.Panels[0].Clips[1].Board.X)
}

// Worked by hand: a stud 6 in from the left end is 6 in from the board's edge, 3 1/4 in further in than the clear
// corner and less than a quarter of 24 in; on the right the stud at 22 in would need a clip less than 2 in clear.
func TestAClipGoesInwardToTheCentreLineOfAStud(t *testing.T) {
	p := placed(t, sample.Clipped(sample.Panelled([]geom.Length{6 * inch, 22 * inch}, 24*inch)))
	panel := &p.Panels[0]
	require.Len(t, panel.Clips, 4)
	assert.Equal(t, 6*inch, panel.Clips[0].Board.X)
	assert.Equal(t, layout.OnStud, panel.Clips[0].On)
	assert.Equal(t, 0, panel.Clips[0].Member)
	assert.Equal(t, 18*inch, panel.Clips[1].Board.X)
	assert.Equal(t, layout.OnLining, panel.Clips[1].On)
	assert.Equal(t, []string{"on-lining"}, p.IDs())
	assert.Equal(t, HeldByLining{Clips: 4, Bare: 2, Some: []LiningPlaces{{"N1", []string{"lower right", "upper right"}, 4}}, Follow: true}, p.Findings[0].Params)
}

func TestAClipGoesNoFurtherForWoodThanAQuarterOfTheBoard(t *testing.T) {
	for _, c := range []struct {
		stud, want geom.Length
		on         layout.Support
	}{
		{11*inch/4 + 6*inch, 11*inch/4 + 6*inch, layout.OnStud},
		{11*inch/4 + 6*inch + 3*inch/8, 11*inch/4 + 6*inch, layout.OnStud}, // within 3/8 in of the centre line
		{11*inch/4 + 6*inch + 7*inch/16, 11 * inch / 4, layout.OnLining},
	} {
		p := placed(t, sample.Clipped(sample.Panelled([]geom.Length{c.stud}, 24*inch)))
		assert.Equal(t, c.want, p.Panels[0].Clips[0].Board.X, c.stud.In(geom.Imperial))
		assert.Equal(t, c.on, p.Panels[0].Clips[0].On)
	}
}

// Stud face 1 1/2 in, screw 3/8 in from its edge: 3/8 in either side of the centre line (PS 20-20, computed).
func TestOnWoodMeansEveryScrewOfTheWallHalf(t *testing.T) {
	for _, c := range []struct {
		apart geom.Length
		on    layout.Support
	}{{3 * inch / 4, layout.OnStud}, {3*inch/4 + inch/32, layout.OnLining}} {
		j := sample.Clipped(sample.Panelled([]geom.Length{6 * inch}, 24*inch))
		j.Clip.Wall.Holes = []geom.Point{{X: -c.apart / 2}, {X: c.apart / 2}}
		p := placed(t, j)
		assert.Equal(t, c.on, p.Panels[0].Clips[0].On)
	}
}

func TestAsymmetricStudsGiveMirroredBoardsWhenClipsFollowThem(t *testing.T) {
	j := sample.Clipped(sample.Panelled([]geom.Length{5 * inch, 41 * inch / 2, 55 * inch / 2, 43 * inch}, 24*inch, 24*inch))
	j.Clips.Studs = true
	p := placed(t, j)
	left, right := p.Panels[0].Clips, p.Panels[1].Clips
	require.Len(t, left, 4)
	require.Len(t, right, 4)
	for i := range left {
		twin := right[i^1]
		assert.Equal(t, geom.Pt(24*inch-twin.Board.X, twin.Board.Y), left[i].Board)
		assert.Equal(t, twin.On, left[i].On)
	}
	p.GroupBoards()
	require.Len(t, p.Boards, 2)
	assert.Equal(t, 0, p.Boards[1].Twin)

	j.Clips.Studs = false
	p = placed(t, j)
	assert.Equal(t, middles(&p.Panels[0]), middles(&p.Panels[1]), "follow: same has one pattern")
	assert.Equal(t, 4, clipsOn(p, layout.OnStud), "either board's columns meet wood in the one panel only")
}

func clipsOn(p *record, on layout.Support) (n int) {
	for i := range p.Panels {
		for _, c := range p.Panels[i].Clips {
			if c.On == on {
				n++
			}
		}
	}
	return n
}

// The wall place is the board place less the offset, and each half has its own holes.
func TestBothHalvesOfAnOffsetClipAreRightOnTheirOwnTemplates(t *testing.T) {
	j := sample.Clipped(sample.Panelled(nil, 24*inch))
	j.Clip.Kind, j.Clip.Rise = job.Lift, inch/2
	j.Clip.Offset = geom.Pt(0, inch/2)
	j.Clip.Board.Holes = []geom.Point{{X: -inch / 4}, {X: inch / 4}}
	j.Clip.Wall.Holes = []geom.Point{{Y: inch / 4}, {Y: -inch / 4}}
	p := placed(t, j)
	c := p.Panels[0].Clips[0]
	m := 11 * inch / 4
	assert.Equal(t, geom.Pt(m, m), c.Board)
	assert.Equal(t, geom.Pt(m, 20*inch+m-inch/2), c.Wall)
	assert.Equal(t, []geom.Point{{X: m - inch/4, Y: m}, {X: m + inch/4, Y: m}}, c.BoardHoles)
	assert.Equal(t, []geom.Point{{X: m, Y: 20*inch + m - inch/4}, {X: m, Y: 20*inch + m - 3*inch/4}}, c.WallHoles)
}

func TestTheSameJobGivesTheSamePlacesEveryTime(t *testing.T) {
	build := func() *record {
		j := sample.Clipped(sample.Panelled([]geom.Length{8 * inch, 24 * inch, 40 * inch, 56 * inch, 72 * inch}, 18*inch, 18*inch, 18*inch, 18*inch))
		j.Walls[0].Fittings = []job.Fitting{{Name: "socket", Kind: job.Electrical, Rect: geom.R(40*inch, 14*inch, 43*inch, 18*inch), Margin: inch}}
		j.Straight = true
		return placed(t, j)
	}
	first := build()
	for range 5 {
		again := build()
		assert.Equal(t, first.Panels, again.Panels)
		assert.Equal(t, first.Findings, again.Findings)
	}
}
