package plan

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

const in = geom.Inch

// reading is a job of our own for these tests: a 24 × 48 in panel on a wall with studs.
func reading() *job.Job {
	half := job.Half{Base: geom.Size{W: 3 * in / 2, H: 3 * in / 2}, Holes: []geom.Point{{}}, Flange: in / 8}
	return &job.Job{
		Name: "Reading room", Units: geom.Imperial,
		Paper:  job.Paper{Name: "letter", Size: geom.Size{W: 17 * in / 2, H: 11 * in}, Margin: in / 4, Overlap: in / 2},
		Board:  job.Board{Thickness: in / 2, Tolerance: in / 64, Kerf: in / 8, Saw: in / 16},
		Foam:   job.Foam{Thickness: 2 * in},
		Batt:   job.Batting{Thickness: in / 4, Pressed: in / 16},
		Cover:  job.Cover{Thickness: in / 32},
		Wrap:   job.Wrap{Auto: true, Hold: in, Fold: "auto"},
		Staple: job.Staple{Spacing: 3 * in / 2, Edge: 3 * in / 4, Crown: in / 32},
		Clip:   job.Clip{Kind: job.Press, Board: half, Wall: half, Standoff: 5 * in / 16, Play: in / 16},
		Clips:  job.Clips{Number: 4, Clear: 2 * in, Spacing: 24 * in, Step: in / 16},
		Screws: job.Screws{
			Board:  job.Screw{Gauge: 8, Diameter: job.ScrewDiameter(8), Length: in / 2},
			Wall:   job.Screw{Gauge: 8, Diameter: job.ScrewDiameter(8), Length: 5 * in / 4},
			Marker: in / 8,
			OnHand: []geom.Length{in / 2, 5 * in / 8, 3 * in / 4, in, 5 * in / 4, 3 * in / 2, 2 * in},
		},
		Walls: []job.Wall{{
			Name: "North", Width: 96 * in, Height: 90 * in, Depth: 9 * in / 2, Key: "walls[0]",
			Lining: job.Lining{Thickness: in / 8, Given: true},
			Runs:   []job.Run{{Name: "N", Key: "walls[0].runs[0]"}},
		}},
		Accuracy: job.Accuracy{Tape: 2, Seam: geom.Millimetre * 3 / 10, Wander: geom.Millimetre / 2, Growth: [2]float64{0.001, 0.002}, Squared: in / 32},
		Buying:   job.Buying{Spares: 2, ScrewPack: 100},
	}
}

// hung is a plan of the job with panels of the given board size and four clips each, as the steps before screw, weigh
// and the rest leave it: clips on the first member, or on the lining when there is none.
func hung(j *job.Job, board geom.Size, panels int, members ...Member) *Plan {
	p := &Plan{Job: j, Edge: j.Cover.Thickness + j.Batt.Pressed}
	p.Walls = []Wall{{Job: &j.Walls[0], Members: members, Runs: []int{0}}}
	p.Runs = []Run{{Job: &j.Walls[0].Runs[0], Name: "N", Standing: j.Clip.Standoff}}
	outline := geom.R(0, 0, board.W, board.H).Polygon()
	var clips []Clip
	inset := j.Clips.Clear + j.Clip.Board.Base.W/2
	for _, at := range []geom.Point{{X: inset, Y: inset}, {X: board.W - inset, Y: inset}, {X: inset, Y: board.H - inset}, {X: board.W - inset, Y: board.H - inset}} {
		c := Clip{Board: at, On: OnLining, Member: -1, BoardHoles: []geom.Point{at}, WallHoles: []geom.Point{at}}
		if len(members) > 0 {
			c.On, c.Member = OnStud, 0
			if members[0].Rail {
				c.On = OnRail
			}
		}
		clips = append(clips, c)
	}
	for i := range panels {
		shift := geom.Pt(geom.Length(i)*(board.W+in), 20*in)
		p.Panels = append(p.Panels, Panel{
			Name: fmt.Sprintf("N%d", i+1), Outline: outline.Add(shift), Clips: clips,
			Finished: geom.R(-p.Edge, -p.Edge, board.W+p.Edge, board.H+p.Edge).Polygon().Add(shift),
		})
		p.Runs[0].Panels = append(p.Runs[0].Panels, i)
	}
	p.Boards = []Board{{Name: "A", Outline: outline, Size: board, Clips: clips, Panels: p.Runs[0].Panels, Twin: -1}}
	return p
}

var stud = Member{Body: geom.R(0, 0, 3*in/2, 90*in), Safe: geom.R(3*in/8, 0, 9*in/8, 90*in)}

func board24x48() geom.Size { return geom.Size{W: 24 * in, H: 48 * in} }

func found(p *Plan) []string {
	var ids []string
	for _, f := range p.Findings {
		ids = append(ids, f.ID())
	}
	return ids
}

// first is the first finding with params of that type, and these.
func first[P finding.Params](t *testing.T, p *Plan) (finding.Finding, P) {
	t.Helper()
	for _, f := range p.Findings {
		if params, ok := f.Params.(P); ok {
			return f, params
		}
	}
	var none P
	require.Fail(t, "no such finding", "%T in %v", none, found(p))
	return finding.Finding{}, none
}

func paramsOf[P finding.Params](t *testing.T, p *Plan) P {
	t.Helper()
	_, params := first[P](t, p)
	return params
}

func TestHalfInchScrewComesOutOfAQuarterInchBoard(t *testing.T) {
	// Common practice: a 1/2 in screw through a clip into 1/4 in plywood comes out by 1/16 to 1/8 in, so the flange is
	// 1/8 to 3/16 in; it would not in 3/8 or 1/2 in boards.
	for _, row := range []struct{ flange, board, out geom.Length }{
		{in / 8, in / 4, in / 8},
		{3 * in / 16, in / 4, in / 16},
		{in / 8, 3 * in / 8, 0},
		{in / 8, in / 2, -in / 8},
	} {
		j := reading()
		j.Board.Thickness, j.Board.Tolerance = row.board, 0
		j.Clip.Board.Flange = row.flange
		p := hung(j, board24x48(), 2, stud)
		p.screw()
		assert.Equal(t, row.out, p.Screws.Board.Out)
		if row.out > 0 {
			through, params := first[ScrewThrough](t, p)
			assert.Equal(t, row.out, params.Out)
			assert.Equal(t, []string{"N1"}, through.Subject.Names)
			assert.Contains(t, found(p), "screw-through")
		} else {
			assert.NotContains(t, found(p), "screw-through")
		}
	}
}

func TestThinnestBoardCounts(t *testing.T) {
	// US PS 1: 15/32 in unsanded may be 0.438 in thin, 1/32 in below its name.
	j := reading()
	j.Board.Thickness, j.Board.Tolerance = 15*in/32, in/32
	j.Screws.Board.Length = 9 * in / 16
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, 7*in/16, p.Screws.Board.Thin)
	assert.Equal(t, geom.Length(0), p.Screws.Board.Out)
	j.Screws.Board.Length += in / 64
	p.screw()
	assert.Equal(t, in/64, p.Screws.Board.Out)
}

func TestBoardScrewSaysWhichLengthOrBoardWouldDo(t *testing.T) {
	j := reading()
	j.Screws.Board.Length = 3 * in / 4
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, []geom.Length{in / 2}, p.Screws.Board.OnHand)
	assert.Equal(t, in/2, paramsOf[ScrewThrough](t, p).Choice.OnHand)

	j.Screws.OnHand = []geom.Length{in, 2 * in}
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	// 3/4 − 1/8 in the board, 1/32 short of the face, 1/64 thinner than its name: 43/64, in sixteenths 11/16.
	assert.Equal(t, 11*in/16, p.Screws.Board.Board)
	none := paramsOf[ScrewThrough](t, p).Choice
	assert.Equal(t, []geom.Length{11 * in / 16, 0, 0}, []geom.Length{none.Board, none.Screw, none.OnHand})
	assert.True(t, none.NoneOnHand)

	// 5/8 on hand wants 1/8 less of board than this screw.
	j.Screws.OnHand = []geom.Length{in / 4, 5 * in / 8, 2 * in}
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	thicker := paramsOf[ScrewThrough](t, p).Choice
	assert.Equal(t, []geom.Length{9 * in / 16, 5 * in / 8}, []geom.Length{thicker.Board, thicker.Screw})

	j.Board.Thickness = 3 * in / 16
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	thin := paramsOf[ScrewThrough](t, p).Choice
	assert.Greater(t, thin.Least, thin.Most, "no screw fits this board")
	assert.Equal(t, in/4, thin.Board)
}

func TestBoardScrewNeedsThreadAndStaysShortOfTheFace(t *testing.T) {
	j := reading()
	j.Screws.Board.Length = in/8 + 3*in/16 - in/64
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, 11*in/64, paramsOf[ScrewShort](t, p).Thread)
	j.Screws.Board.Length = in/8 + in/2 - in/64 - in/64
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, in/64, paramsOf[ScrewNearFace](t, p).Short)
	j.Screws.Board.Length = in/8 + in/2 - in/64 - in/32
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	assert.True(t, p.Screws.Board.Fits)
}

func TestDeepestWallScrewKeepsToTheGuardedDepth(t *testing.T) {
	// NEC 300.4(A)(1), (D): 1 1/4 in; gypsum thicknesses of ASTM C1396. Deepest point from the wall's face 1 3/4 in
	// behind 1/2 in gypsum, 1 7/8 in behind 5/8 in.
	for _, row := range []struct {
		lining, deepest geom.Length
		mm              float64
	}{{in / 2, 7 * in / 4, 44.5}, {5 * in / 8, 15 * in / 8, 47.6}} {
		j := reading()
		j.Walls[0].Lining.Thickness = row.lining
		p := hung(j, board24x48(), 1, stud)
		p.screw()
		s := p.WallScrew(0, p.Panels[0].Clips[0])
		assert.Equal(t, row.deepest, s.Most-j.Clip.Wall.Flange)
		assert.InDelta(t, row.mm, row.deepest.Millimetres(), 0.06)

		j.Screws.Wall.Length = s.Most
		p = hung(j, board24x48(), 1, stud)
		p.screw()
		assert.NotContains(t, found(p), "screw-deep")
		j.Screws.Wall.Length = s.Most + in/64
		p = hung(j, board24x48(), 1, stud)
		p.screw()
		deep := paramsOf[ScrewDeep](t, p)
		assert.Equal(t, 81*in/64, deep.InWood)
		assert.Equal(t, OnStud, deep.In)
		assert.Equal(t, row.deepest, p.WallScrew(0, p.Panels[0].Clips[0]).Hole.Depth, "no hole goes deeper either")
	}
}

func TestWallScrewReachesSixDiametersThroughClipShimAndLining(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.Runs[0].Shim = in / 8
	p.screw()
	s := p.WallScrew(0, p.Panels[0].Clips[0])
	// #8: 6 D = 0.984 in, and clip, shim and lining of 1/8 in each.
	assert.Equal(t, 3*in/8+6*164*mil, s.Least)
	assert.Equal(t, 3*in/8+GuardedDepth, s.Most)
	assert.Equal(t, 7*in/8, s.InWood)
	assert.Equal(t, []geom.Length{3 * in / 2}, s.OnHand)
	assert.Equal(t, WallScrewChoice{OnHand: 3 * in / 2, Least: s.Least, Most: s.Most, Flange: in / 8, Shim: in / 8, Lining: in / 8},
		paramsOf[ScrewShallow](t, p).Choice)
	assert.Equal(t, "drill ⌀ 7/64″, 1″ deep; stop on the bit", s.Hole.Text(geom.Imperial))
}

func TestDepthLimitStandsWhereSixDiametersDoNotFit(t *testing.T) {
	j := reading()
	j.Screws.Wall = job.Screw{Gauge: 12, Diameter: job.ScrewDiameter(12), Length: 3 * in / 2} // 6 D = 1.296 in
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, GuardedDepth, p.Screws.Wall[0].InWood)
	limit := paramsOf[ScrewDepthLimit](t, p)
	assert.Equal(t, []geom.Length{6 * job.ScrewDiameter(12), GuardedDepth}, []geom.Length{limit.Wants, limit.Max})
	assert.NotContains(t, found(p), "screw-deep")
}

func TestScrewNeverComesOutOfTheFarSide(t *testing.T) {
	j := reading()
	j.Walls[0].Depth = 0
	flat := stud
	flat.Depth = 3 * in / 2 // framing only 1 1/2 in deep exists
	j.Screws.Wall.Length = 3 * in / 2
	p := hung(j, board24x48(), 1, flat)
	p.screw()
	assert.Equal(t, in/4, p.Screws.Wall[0].Left)
	assert.NotContains(t, found(p), "screw-far-side")
	j.Screws.Wall.Length += in / 64
	p = hung(j, board24x48(), 1, flat)
	p.screw()
	assert.Equal(t, 15*in/64, paramsOf[ScrewFarSide](t, p).Left)

	j.Walls[0].Depth = 5 * in / 4 // a thin partition, boarded on both sides
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	far := paramsOf[ScrewFarSide](t, p)
	assert.Equal(t, -9*in/64, far.Left)
	assert.Greater(t, far.Wants, far.Most, "there is not depth enough")
	assert.LessOrEqual(t, p.Screws.Wall[0].Hole.Depth, in)

	p = hung(j, board24x48(), 1)
	p.screw()
	assert.Zero(t, paramsOf[ScrewFarSide](t, p).Wants, "also where there is no stud")
}

func TestWhatIsNotKnownOfAWallIsSaid(t *testing.T) {
	j := reading()
	j.Walls[0].Depth, j.Walls[0].Lining = 0, job.Lining{}
	p := hung(j, board24x48(), 3, stud)
	p.screw()
	unknown, _ := first[DepthUnknown](t, p)
	assert.Equal(t, "wall North", unknown.Subject.String())
	paramsOf[LiningUnknown](t, p)
	assert.Equal(t, "drill ⌀ 1/8″, right through", Drill{Bit: in / 8, Through: true}.Text(geom.Imperial), "no figure where none is known")
	assert.Equal(t, 1, strings.Count(strings.Join(found(p), " "), "depth-unknown"), "once a wall")
}

func TestClipOnLiningAloneIsDrilledThroughTheLiningOnly(t *testing.T) {
	p := hung(reading(), board24x48(), 1, stud)
	p.Panels[0].Clips[2].On, p.Panels[0].Clips[2].Member = OnLining, -1
	p.screw()
	require.Len(t, p.Screws.Wall, 2)
	assert.Equal(t, []int{3, 1}, []int{p.Screws.Wall[0].Count, p.Screws.Wall[1].Count})
	assert.Equal(t, "drill ⌀ 1/8″, right through 1/8″", p.Screws.Wall[1].Hole.Text(geom.Imperial))
	assert.Equal(t, in/8, p.Screws.Wall[1].Hole.Depth)
	assert.Empty(t, p.Screws.Wall[1].OnHand, "no wood screw suits")
}

func TestMarkerMustNotBeThickerThanTheRoot(t *testing.T) {
	// NDS Appendix L: root of #8 0.131 in, above 1/8 in; of #6 0.113 in, below it.
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.NotContains(t, found(p), "marker-wide")
	j.Screws.Board = job.Screw{Gauge: 6, Diameter: job.ScrewDiameter(6), Length: in / 2}
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, 7*in/64, paramsOf[MarkerWide](t, p).Bit)
}

func TestBoardIsNotDrilledThroughWhereTheHalvesStandApart(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.True(t, p.Screws.Board.Hole.Through)
	j.Clip.Offset = geom.Pt(0, in/2)
	p.screw()
	assert.False(t, p.Screws.Board.Hole.Through)
	assert.Equal(t, "drill ⌀ 1/8″, 3/8″ deep; stop on the bit", p.Screws.Board.Hole.Text(geom.Imperial))
}

func TestMetricScrewsCountInMillimetres(t *testing.T) {
	j := reading()
	j.Units = geom.Metric
	mm := geom.Millimetre
	j.Board.Thickness, j.Board.Tolerance, j.Clip.Board.Flange = 12*mm, mm*4/10, 2*mm
	j.Screws.Board = job.Screw{Diameter: 4 * mm, Length: 12 * mm}
	j.Screws.Wall = job.Screw{Diameter: 4 * mm, Length: 30 * mm}
	j.Screws.OnHand = []geom.Length{12 * mm, 16 * mm, 30 * mm}
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.True(t, p.Screws.Board.Fits) // 10 mm in a board of at least 11.6 mm, 1.6 mm short of the face
	assert.Equal(t, []geom.Length{12 * mm}, p.Screws.Board.OnHand)
	assert.Equal(t, 3*mm, p.Screws.Wall[0].Hole.Bit) // 7/8 of a root of 3.21 mm is 2.81 mm
}
