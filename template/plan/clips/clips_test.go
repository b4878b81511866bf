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

// Worked by hand: a stud 6 in from the left end is 6 in from the board's edge. A screw may stand 3/8 in to either side of
// its centre line, and widest is 3/8 in further out. On the right the stud at 22 in would need a clip less than 2 in clear;
// the right column stands as far from its edge as the left one, since symmetry comes before stance.
func TestAClipGoesInwardToAStud(t *testing.T) {
	p := placed(t, sample.Clipped(sample.Panelled([]geom.Length{6 * inch, 22 * inch}, 24*inch)))
	panel := &p.Panels[0]
	require.Len(t, panel.Clips, 4)
	assert.Equal(t, 45*inch/8, panel.Clips[0].Board.X)
	assert.Equal(t, layout.OnStud, panel.Clips[0].On)
	assert.Equal(t, 0, panel.Clips[0].Member)
	assert.Equal(t, 24*inch-45*inch/8, panel.Clips[1].Board.X)
	assert.Equal(t, layout.OnLining, panel.Clips[1].On)
	assert.Equal(t, []string{"on-lining"}, p.IDs())
	rows := []geom.Length{20*inch + 11*inch/4, 44*inch - 11*inch/4}
	assert.Equal(t, HeldByLining{Clips: 4, Bare: 2, Some: []LiningPlaces{{"N1", []string{"lower right", "upper right"}, 4}},
		Follow: 2, Battens: 4, Rails: rows}, p.Findings[0].Params)
	assert.Equal(t, "walls[0].rails", p.Findings[0].Field, "where following the studs helps nothing")
}

// A panel 36 in high has three rows of clips, and a batten for each brings all of them onto wood.
func TestBattensAreToldForEveryRowOfATallPanel(t *testing.T) {
	w := sample.Panelled([]geom.Length{6 * inch, 22 * inch}, 24*inch)
	w.Runs[0].Band.Top = 56 * inch
	p := placed(t, sample.Clipped(w))
	f := sample.ParamsOf[HeldByLining](t, p.Findings)
	assert.Len(t, f.Rails, 3)
	assert.Equal(t, 3, f.Bare)
	assert.Equal(t, 6, f.Battens)
}

// Half of spacing is 12 in: the left column may stand as far from the left edge of a board 27 1/16 in wide, and its right
// one in the clear corner is then 12 5/16 in away, more than two fifths of the board.
func TestAClipGoesNoFurtherForWoodThanTheStanceFloorAllows(t *testing.T) {
	for _, c := range []struct {
		width, stud, want geom.Length
		on                layout.Support
	}{
		{27*inch + inch/16, 91 * inch / 8, 11 * inch, layout.OnStud},
		{27*inch + inch/16, 12*inch + 3*inch/8, 12 * inch, layout.OnStud},
		{27*inch + inch/16, 12*inch + 7*inch/16, 11 * inch / 4, layout.OnLining},
		{16 * inch, 55*inch/8 - inch/16, 55*inch/8 - inch/16 - 3*inch/8, layout.OnStud}, // 6 3/4 in and two fifths, 6.4, from the other
		{16 * inch, 115 * inch / 16, 109 * inch / 16, layout.OnStud},                    // the last step: 6 7/16 from the other
		{16 * inch, 29 * inch / 4, 11 * inch / 4, layout.OnLining},
	} {
		p := placed(t, sample.Clipped(sample.Panelled([]geom.Length{c.stud}, c.width)))
		assert.Equal(t, c.want, p.Panels[0].Clips[0].Board.X, c.stud.In(geom.Imperial))
		assert.Equal(t, c.on, p.Panels[0].Clips[0].On)
		assert.Equal(t, c.width-11*inch/4, p.Panels[0].Clips[1].Board.X, "the other stands wide")
	}
}

// Studs 16 in on centre behind five panels 27 1/16 in wide: those that find no wood stand wide, those that do keep the floor.
func TestNoPanelOnLiningAloneBunchesItsClips(t *testing.T) {
	width := 27*inch + inch/16
	for first := geom.Length(0); first < 16*inch; first += inch {
		var studs []geom.Length
		for at := first; at < 5*width; at += 16 * inch {
			studs = append(studs, at)
		}
		w := sample.Panelled(studs, width, width, width, width, width)
		w.Width, w.Outline = 5*width, geom.R(0, 0, 5*width, 90*inch).Polygon()
		for _, follow := range []bool{false, true} {
			j := sample.Clipped(w)
			j.Clips.Studs = follow
			p := placed(t, j)
			for i := range p.Panels {
				clips, wood := p.Panels[i].Clips, 0
				require.Len(t, clips, 4)
				for _, c := range clips {
					if c.On != layout.OnLining {
						wood++
					}
				}
				wide := clips[1].Board.X - clips[0].Board.X
				assert.GreaterOrEqual(t, 5*wide, 2*width)
				if follow && wood == 0 {
					assert.Equal(t, width-11*inch/2, wide, "a panel that finds no wood stands wide")
				}
			}
		}
	}
}

// Of two studs nailed together the one is found whose safe part has a step of the clip's own grid, whatever the step nearest
// to a centre line is.
func TestEitherOfTwoStudsBesideEachOtherIsFound(t *testing.T) {
	for _, holes := range [][]geom.Point{{{Y: 20 * mm}, {Y: -20 * mm}}, {{X: 20 * mm}, {X: -20 * mm}}} {
		for _, margin := range []geom.Length{2 * mm, 10 * mm} {
			for width := 300 * mm; width < 560*mm; width += 7 * mm {
				w := sample.WallOf("A", 1000*mm, 1000*mm, job.Run{Name: "A", Across: []job.Span{{From: 0, To: width}}, Panels: 1,
					Band: job.Band{Direct: true, Bottom: 300 * mm, Top: 600 * mm}})
				w.Studs = job.Members{At: []geom.Length{190 * mm, 235 * mm}, Width: 45 * mm, Margin: margin, Given: true}
				j := sample.Clipped(w)
				half := job.Half{Base: geom.Size{W: 60 * mm, H: 60 * mm}, Holes: holes}
				j.Units, j.Board.Saw, j.Clip.Board, j.Clip.Wall = geom.Metric, mm, half, half
				j.Clips = job.Clips{Number: 4, Clear: 20 * mm, Spacing: 600 * mm, Step: 10 * mm}
				p := placed(t, j)
				_, _, want, found := brute(p, []int{0})
				require.True(t, found)
				assert.EqualValues(t, want[0], clipsOn(p, layout.OnStud), "%v wide", width)
			}
		}
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
