package fastening

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

func TestHalfInchScrewComesOutOfAQuarterInchBoard(t *testing.T) {
	// Common practice: a 1/2 in screw through a clip into 1/4 in plywood comes out by 1/16 to 1/8 in, so the flange is
	// 1/8 to 3/16 in; it would not in 3/8 or 1/2 in boards.
	for _, row := range []struct{ flange, board, out geom.Length }{
		{in / 8, in / 4, in / 8},
		{3 * in / 16, in / 4, in / 16},
		{in / 8, 3 * in / 8, 0},
		{in / 8, in / 2, -in / 8},
	} {
		j := sample.Reading()
		j.Board.Thickness, j.Board.Tolerance = row.board, 0
		j.Clip.Board.Flange = row.flange
		p := hang(j, hung.Board24x48(), 2, hung.Stud)
		p.screw()
		assert.Equal(t, row.out, p.Screws.Board.Out)
		if row.out > 0 {
			through, params := sample.First[ScrewThrough](t, p.Findings)
			assert.Equal(t, row.out, params.Out)
			assert.Equal(t, []string{"N1"}, through.Subject.Names)
			assert.Contains(t, p.IDs(), "screw-through")
		} else {
			assert.NotContains(t, p.IDs(), "screw-through")
		}
	}
}

func TestThinnestBoardCounts(t *testing.T) {
	// PS 1-19: 15/32 in unsanded may be 0.438 in thin, 1/32 in below its name.
	j := sample.Reading()
	j.Board.Thickness, j.Board.Tolerance = 15*in/32, in/32
	j.Screws.Board.Length = 9 * in / 16
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.Equal(t, 7*in/16, p.Screws.Board.Thin)
	assert.Equal(t, geom.Length(0), p.Screws.Board.Out)
	j.Screws.Board.Length += in / 64
	p.screw()
	assert.Equal(t, in/64, p.Screws.Board.Out)
}

func TestBoardScrewSaysWhichLengthOrBoardWouldDo(t *testing.T) {
	j := sample.Reading()
	j.Screws.Board.Length = 3 * in / 4
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.Equal(t, []geom.Length{in / 2}, p.Screws.Board.OnHand)
	assert.Equal(t, in/2, sample.ParamsOf[ScrewThrough](t, p.Findings).Choice.OnHand)

	j.Screws.OnHand = []geom.Length{in, 2 * in}
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	// 3/4 − 1/8 in the board, 1/32 short of the face, 1/64 thinner than its name: 43/64, in sixteenths 11/16.
	assert.Equal(t, 11*in/16, p.Screws.Board.Board)
	none := sample.ParamsOf[ScrewThrough](t, p.Findings).Choice
	assert.Equal(t, []geom.Length{11 * in / 16, 0, 0}, []geom.Length{none.Board, none.Screw, none.OnHand})
	assert.True(t, none.NoneOnHand)

	// 5/8 on hand wants 1/8 less of board than this screw.
	j.Screws.OnHand = []geom.Length{in / 4, 5 * in / 8, 2 * in}
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	thicker := sample.ParamsOf[ScrewThrough](t, p.Findings).Choice
	assert.Equal(t, []geom.Length{9 * in / 16, 5 * in / 8}, []geom.Length{thicker.Board, thicker.Screw})

	j.Board.Thickness = 3 * in / 16
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	thin := sample.ParamsOf[ScrewThrough](t, p.Findings).Choice
	assert.Greater(t, thin.Least, thin.Most, "no screw fits this board")
	assert.Equal(t, in/4, thin.Board)
}

func TestBoardScrewNeedsThreadAndStaysShortOfTheFace(t *testing.T) {
	j := sample.Reading()
	j.Screws.Board.Length = in/8 + 3*in/16 - in/64
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.Equal(t, 11*in/64, sample.ParamsOf[ScrewShort](t, p.Findings).Thread)
	j.Screws.Board.Length = in/8 + in/2 - in/64 - in/64
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.Equal(t, in/64, sample.ParamsOf[ScrewNearFace](t, p.Findings).Short)
	j.Screws.Board.Length = in/8 + in/2 - in/64 - in/32
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.True(t, p.Screws.Board.Fits)
}

func TestDeepestWallScrewKeepsToTheGuardedDepth(t *testing.T) {
	// NEC 2017, 300.4(A)(1) and (D): 1 1/4 in; gypsum thicknesses of ASTM C1396. Deepest point from the wall's face 1 3/4 in
	// behind 1/2 in gypsum, 1 7/8 in behind 5/8 in.
	for _, row := range []struct {
		lining, deepest geom.Length
		mm              float64
	}{{in / 2, 7 * in / 4, 44.5}, {5 * in / 8, 15 * in / 8, 47.6}} {
		j := sample.Reading()
		j.Walls[0].Lining.Thickness = row.lining
		p := hang(j, hung.Board24x48(), 1, hung.Stud)
		p.screw()
		s := p.Screws.At(&p.Layout, 0, p.Panels[0].Clips[0])
		assert.Equal(t, row.deepest, s.Most-j.Clip.Wall.Flange)
		assert.InDelta(t, row.mm, row.deepest.Millimetres(), 0.06)

		j.Screws.Wall.Length = s.Most
		p = hang(j, hung.Board24x48(), 1, hung.Stud)
		p.screw()
		assert.NotContains(t, p.IDs(), "screw-deep")
		j.Screws.Wall.Length = s.Most + in/64
		p = hang(j, hung.Board24x48(), 1, hung.Stud)
		p.screw()
		deep := sample.ParamsOf[ScrewDeep](t, p.Findings)
		assert.Equal(t, 81*in/64, deep.InWood)
		assert.Equal(t, layout.OnStud, deep.In)
		assert.Equal(t, row.deepest, p.Screws.At(&p.Layout, 0, p.Panels[0].Clips[0]).Hole.Depth, "no hole goes deeper either")
	}
}

func TestWallScrewReachesSixDiametersThroughClipShimAndLining(t *testing.T) {
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.Runs[0].Shim = in / 8
	p.screw()
	s := p.Screws.At(&p.Layout, 0, p.Panels[0].Clips[0])
	// #8: 6 D = 0.984 in, and clip, shim and lining of 1/8 in each.
	assert.Equal(t, 3*in/8+6*164*mil, s.Least)
	assert.Equal(t, 3*in/8+guardedDepth(geom.Imperial), s.Most)
	assert.Equal(t, 7*in/8, s.InWood)
	assert.Equal(t, []geom.Length{3 * in / 2}, s.OnHand)
	assert.Equal(t, WallScrewChoice{OnHand: 3 * in / 2, Least: s.Least, Most: s.Most, Flange: in / 8, Shim: in / 8, Lining: in / 8},
		sample.ParamsOf[ScrewShallow](t, p.Findings).Choice)
	assert.Equal(t, "drill ⌀ 7/64″, 1″ deep; stop on the bit", s.Hole.Text(geom.Imperial))
}

func TestDepthLimitStandsWhereSixDiametersDoNotFit(t *testing.T) {
	j := sample.Reading()
	j.Screws.Wall = job.Screw{Gauge: 12, Diameter: job.ScrewDiameter(12), Length: 3 * in / 2} // 6 D = 1.296 in
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.Equal(t, guardedDepth(geom.Imperial), p.Screws.Wall[0].InWood)
	limit := sample.ParamsOf[ScrewDepthLimit](t, p.Findings)
	assert.Equal(t, []geom.Length{6 * job.ScrewDiameter(12), guardedDepth(geom.Imperial)}, []geom.Length{limit.Wants, limit.Max})
	assert.NotContains(t, p.IDs(), "screw-deep")
}

func TestScrewNeverComesOutOfTheFarSide(t *testing.T) {
	j := sample.Reading()
	j.Walls[0].Depth = 0
	flat := hung.Stud
	flat.Depth = 3 * in / 2 // framing only 1 1/2 in deep exists
	j.Screws.Wall.Length = 3 * in / 2
	p := hang(j, hung.Board24x48(), 1, flat)
	p.screw()
	assert.Equal(t, in/4, p.Screws.Wall[0].Left)
	assert.NotContains(t, p.IDs(), "screw-far-side")
	j.Screws.Wall.Length += in / 64
	p = hang(j, hung.Board24x48(), 1, flat)
	p.screw()
	assert.Equal(t, 15*in/64, sample.ParamsOf[ScrewFarSide](t, p.Findings).Left)

	j.Walls[0].Depth = 5 * in / 4 // a thin partition, boarded on both sides
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	far := sample.ParamsOf[ScrewFarSide](t, p.Findings)
	assert.Equal(t, -9*in/64, far.Left)
	assert.Greater(t, far.Wants, far.Most, "there is not depth enough")
	assert.LessOrEqual(t, p.Screws.Wall[0].Hole.Depth, in)

	p = hang(j, hung.Board24x48(), 1)
	p.screw()
	assert.Zero(t, sample.ParamsOf[ScrewFarSide](t, p.Findings).Wants, "also where there is no stud")
}

func TestWhatIsNotKnownOfAWallIsSaid(t *testing.T) {
	j := sample.Reading()
	j.Walls[0].Depth, j.Walls[0].Lining = 0, job.Lining{}
	p := hang(j, hung.Board24x48(), 3, hung.Stud)
	p.screw()
	unknown, _ := sample.First[DepthUnknown](t, p.Findings)
	assert.Equal(t, "wall North", unknown.Subject.String())
	sample.ParamsOf[LiningUnknown](t, p.Findings)
	assert.Equal(t, "drill ⌀ 1/8″, right through", Drill{Bit: in / 8, Through: true}.Text(geom.Imperial), "no figure where none is known")
	assert.Equal(t, 1, strings.Count(strings.Join(p.IDs(), " "), "depth-unknown"), "once a wall")
}

func TestClipOnLiningAloneIsDrilledThroughTheLiningOnly(t *testing.T) {
	p := hang(sample.Reading(), hung.Board24x48(), 1, hung.Stud)
	p.Panels[0].Clips[2].On, p.Panels[0].Clips[2].Member = layout.OnLining, -1
	p.screw()
	require.Len(t, p.Screws.Wall, 2)
	assert.Equal(t, []int{3, 1}, []int{p.Screws.Wall[0].Count, p.Screws.Wall[1].Count})
	assert.Equal(t, "centre mark ⌀ 1/8″; hole by its maker", p.Screws.Wall[1].Hole.Text(geom.Imperial))
	assert.Equal(t, in/8, p.Screws.Wall[1].Hole.Depth)
	assert.Empty(t, p.Screws.Wall[1].OnHand, "no wood screw suits")
}

func TestMarkerMustNotBeThickerThanTheRoot(t *testing.T) {
	// NDS 2018, Appendix L, Table L3: root of #8 0.131 in, above 1/8 in; of #6 0.113 in, below it.
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.NotContains(t, p.IDs(), "marker-wide")
	j.Screws.Board = job.Screw{Gauge: 6, Diameter: job.ScrewDiameter(6), Length: in / 2}
	p = hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.Equal(t, 7*in/64, sample.ParamsOf[MarkerWide](t, p.Findings).Bit)
}

func TestBoardIsNotDrilledThroughWhereTheHalvesStandApart(t *testing.T) {
	j := sample.Reading()
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.True(t, p.Screws.Board.Hole.Through)
	j.Clip.Offset = geom.Pt(0, in/2)
	p.screw()
	assert.False(t, p.Screws.Board.Hole.Through)
	assert.Equal(t, "drill ⌀ 1/8″, 3/8″ deep; stop on the bit", p.Screws.Board.Hole.Text(geom.Imperial))
}

func TestMetricScrewsCountInMillimetres(t *testing.T) {
	j := sample.Reading()
	j.Units = geom.Metric
	mm := geom.Millimetre
	j.Board.Thickness, j.Board.Tolerance, j.Clip.Board.Flange = 12*mm, mm*4/10, 2*mm
	j.Screws.Board = job.Screw{Diameter: 4 * mm, Length: 12 * mm}
	j.Screws.Wall = job.Screw{Diameter: 4 * mm, Length: 30 * mm}
	j.Screws.OnHand = []geom.Length{12 * mm, 16 * mm, 30 * mm}
	p := hang(j, hung.Board24x48(), 1, hung.Stud)
	p.screw()
	assert.True(t, p.Screws.Board.Fits) // 10 mm in a board of at least 11.6 mm, 1.6 mm short of the face
	assert.Equal(t, []geom.Length{12 * mm}, p.Screws.Board.OnHand)
	assert.Equal(t, 3*mm, p.Screws.Wall[0].Hole.Bit) // 7/8 of a root of 3.21 mm is 2.81 mm
}
