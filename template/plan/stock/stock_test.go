package stock

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/covering"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

// cutUp is a plan that has been cut, of n panels of the board size.
func cutUp(j *job.Job, board geom.Size, n int) *record {
	p := hang(j, board, n, hung.Stud)
	p.cut()
	return p
}

func TestCoverAndBattingGoOverTheBoardFoamDoesNot(t *testing.T) {
	// Common practice: a 10 × 30 in board with 2 1/2 in over on each side takes a 15 × 35 in cover; batting is cut to the
	// cover's size, foam to the board's.
	j := sample.Reading()
	j.Wrap = job.Wrap{Size: 5 * in / 2, Fold: "auto"}
	p := cutUp(j, geom.Size{W: 10 * in, H: 30 * in}, 1)
	cover := geom.Size{W: 15 * in, H: 35 * in}
	assert.Equal(t, cover, p.Stock.Cover.Parts[0].Size)
	assert.Equal(t, cover, p.Stock.Batting.Parts[0].Size)
	assert.Equal(t, geom.Size{W: 10 * in, H: 30 * in}, p.Stock.Foam.Parts[0].Size)
	assert.Equal(t, geom.Size{W: 10 * in, H: 30 * in}, p.Stock.Boards.Parts[0].Size)
}

func TestWrapFromTheWholeStackGivesTheGuidesCut(t *testing.T) {
	// Common practice in upholstery: size + 2 × (board + foam + batting) + 8 in: 24 × 48 with 1/2 + 2 + 1/4 takes 37.5 × 61.5. With
	// 1 1/2 in of hold, by geometry: 32.5 × 56.5.
	for _, row := range []struct{ hold, w, h geom.Length }{{4 * in, 75 * in / 2, 123 * in / 2}, {3 * in / 2, 65 * in / 2, 113 * in / 2}} {
		j := sample.Reading()
		j.Wrap = job.Wrap{Size: 11*in/4 + row.hold}
		p := cutUp(j, hung.Board24x48(), 1)
		assert.Equal(t, geom.Size{W: row.w, H: row.h}, p.Stock.Cover.Parts[0].Size)
	}
}

func TestStripsPayForTheKerf(t *testing.T) {
	// Stock needed is the sum of parts and cuts (common practice): two true 24 in strips do not come out of 48 in with a kerf
	// of 1/8 in, two of 23 15/16 in do; nor two of 610 mm out of 1220 mm with 3 mm, two of 608.5 mm do.
	for _, row := range []struct {
		sheet, kerf, strip geom.Length
		sheets             int
	}{
		{48 * in, in / 8, 24 * in, 2},
		{48 * in, in / 8, 23*in + 15*in/16, 1},
		{48 * in, 0, 24 * in, 1},
		{1220 * mm, 3 * mm, 610 * mm, 2},
		{1220 * mm, 3 * mm, 608*mm + mm/2, 1},
	} {
		j := sample.Reading()
		j.Board.Sheet = geom.Size{W: row.sheet, H: 96 * in}
		j.Board.Kerf = row.kerf
		p := cutUp(j, geom.Size{W: row.strip, H: 96 * in}, 2)
		require.True(t, p.Stock.Boards.Planned)
		assert.Len(t, p.Stock.Boards.Layout.Used, row.sheets, "%v with %v", row.strip, row.kerf)
	}
}

func TestPartTooLargeForItsStockIsToldByHowMuch(t *testing.T) {
	j := sample.Reading()
	j.Board.Sheet = geom.Size{W: 20 * in, H: 40 * in}
	p := cutUp(j, hung.Board24x48(), 2)
	large, params := sample.First[TooLarge](t, p.Findings)
	assert.Equal(t, "board-too-large", large.ID())
	assert.Equal(t, []string{"N1"}, large.Subject.Names)
	assert.Equal(t, TooLarge{Stock: "board", Board: "A", Part: hung.Board24x48(), Wider: 4 * in, Longer: 8 * in, Sheet: j.Board.Sheet}, params)
	assert.Equal(t, 2, p.Stock.Boards.TooLarge)
	assert.Empty(t, p.Stock.Boards.Layout.Used)

	j = sample.Reading()
	j.Foam.Sheet = geom.Size{W: 46 * in, H: 30 * in}
	p = cutUp(j, hung.Board24x48(), 1)
	foam := sample.ParamsOf[TooLarge](t, p.Findings)
	assert.Equal(t, "foam-too-large", foam.ID())
	assert.True(t, foam.Lying)
	assert.Equal(t, 2*in, foam.Wider)

	j = sample.Reading()
	j.Board.Sheet, j.Board.Grain = geom.Size{W: 48 * in, H: 47 * in}, job.GrainAlong
	p = cutUp(j, geom.Size{W: 47 * in, H: 48 * in}, 1)
	assert.NotContains(t, p.IDs(), "board-too-large", "the longer side lies along the grain, up the panel")
	p = cutUp(j, geom.Size{W: 48 * in, H: 47 * in}, 1)
	assert.True(t, sample.ParamsOf[TooLarge](t, p.Findings).FitsLying)

	j = sample.Reading()
	j.Cover.Roll, j.Cover.NapUp = 25*in, true
	p = cutUp(j, hung.Board24x48(), 1)
	cover := sample.ParamsOf[TooLarge](t, p.Findings)
	assert.Equal(t, "cover-too-large", cover.ID())
	assert.Equal(t, 25*in, cover.Roll)
}

func TestPartsAreListedWhereNoStockIsGiven(t *testing.T) {
	p := cutUp(sample.Reading(), hung.Board24x48(), 3)
	assert.False(t, p.Stock.Boards.Planned)
	assert.Equal(t, []int{0, 1, 2}, p.Stock.Boards.Parts[0].Panels)
	i := item(t, p, "board 1/2″, as in the list of parts")
	assert.InDelta(t, 3, i.Amount, 0)
	assert.Equal(t, "24.0 ft² in all; no stock size was given", i.For)
}

// item is the line of the buying list that begins so.
func item(t *testing.T, p *record, what string) Item {
	t.Helper()
	for _, i := range p.Stock.List {
		if len(i.What) >= len(what) && i.What[:len(what)] == what {
			return i
		}
	}
	require.Fail(t, "not on the list", "%s in %v", what, p.Stock.List)
	return Item{}
}

func TestBuyingListCountsPairsPacksAndPads(t *testing.T) {
	j := sample.Reading()
	j.Clip.Price, j.Screws.Price = 1.5, 8
	j.Board.Sheet, j.Board.Price = geom.Size{W: 48 * in, H: 96 * in}, 40
	j.Buying = job.Buying{Spares: 2, ScrewPack: 50}
	p := hang(j, geom.Size{W: 15 * in, H: 24 * in}, 20, hung.Stud)
	for i := range p.Panels { // one clip of each stands on the lining
		p.Panels[i].Clips = append([]layout.Clip(nil), p.Panels[i].Clips...)
		p.Panels[i].Clips[3].On, p.Panels[i].Clips[3].Member = layout.OnLining, -1
	}
	p.Shims = fastening.Shims{Thickness: in / 8, Size: geom.Size{W: 2 * in, H: 2 * in}, Count: 80, Spares: 2}

	p.cut()

	assert.Equal(t, Item{"clips", 82, "pairs", "80 in use, 2 spare", 1.5}, item(t, p, "clips"))
	assert.Equal(t, Item{"#8 × 1/2″ screws", 2, "packs of 50", "80 screws", 4}, item(t, p, "#8 × 1/2″"))
	assert.Equal(t, "60 screws", item(t, p, "#8 × 1 1/4″").For)
	assert.InDelta(t, 20, item(t, p, "fixings").Amount, 0)
	pads := item(t, p, "hardboard 1/8″")
	assert.Equal(t, "82 pads, 2 of them spare", pads.For)
	// 10 across and 9 rows, 1/8 in between.
	assert.Equal(t, geom.Size{W: 20*in + 9*in/8, H: 18*in + in}, p.Stock.Pads.Piece)
	assert.InDelta(t, 50, item(t, p, "adhesive").Amount, 0.1+1e-9) // 20 × 2.5 ft²

	// 20 boards of 15 × 24 in come out of two sheets of 48 × 96 in at 40 each: 7200 of 9216 in² used.
	boards := item(t, p, "board 1/2″, sheets")
	assert.InDelta(t, 2, boards.Amount, 0)
	assert.InDelta(t, 80*(1-7200./9216), p.Stock.Waste, 1e-9)
	assert.InDelta(t, 82*1.5+2*4+2*4+80, p.Stock.Total, 1e-9)
}

func TestListTakesTheScrewThatSuits(t *testing.T) {
	j := sample.Reading()
	j.Screws.Board.Length = in // comes out through the face; 1/2 in on hand fits
	p := cutUp(j, hung.Board24x48(), 1)
	assert.Equal(t, "4 screws", item(t, p, "#8 × 1/2″").For)
	for _, i := range p.Stock.List {
		assert.NotContains(t, i.What, "#8 × 1″")
	}
}

func TestScrewsOfOneKindAreListedOnce(t *testing.T) {
	j := sample.Reading()
	j.Board.Thickness = 3 * in / 2
	j.Screws.Board = j.Screws.Wall
	p := cutUp(j, hung.Board24x48(), 1)
	assert.Equal(t, "8 screws", item(t, p, "#8 × 1 1/4″").For)
}

func TestStaplesNoLongerThanTheBoardTakes(t *testing.T) {
	p := cutUp(sample.Reading(), hung.Board24x48(), 2)
	i := item(t, p, "staples")
	assert.Equal(t, "staples for the cover, no longer than 7/16″", i.What)
	assert.InDelta(t, float64(2*len(covering.Staples(p.Job, p.Boards[0].Outline))), i.Amount, 0)
}

func TestCoverComesOffTheRollOneAcross(t *testing.T) {
	// By those cuts and a 54 in roll, nap up: six of 37.5 × 61.5 in lie one across, 369 in = 10.25 yd; of 32.5 × 56.5,
	// 339 in = 9.42 yd, in quarter yards 9.5.
	for _, row := range []struct {
		hold, length geom.Length
		yards        float64
	}{{4 * in, 369 * in, 10.25}, {3 * in / 2, 339 * in, 9.5}} {
		j := sample.Reading()
		j.Wrap = job.Wrap{Size: 11*in/4 + row.hold}
		j.Cover.Roll, j.Cover.NapUp, j.Cover.Price = 54*in, true, 20
		p := cutUp(j, hung.Board24x48(), 6)
		c := p.Stock.Cover
		require.True(t, c.Planned)
		assert.Equal(t, row.length, c.Layout.Length)
		assert.True(t, c.Layout.Proved)
		i := item(t, p, "cover, off a roll of 54″")
		assert.InDelta(t, row.yards, i.Amount, 1e-9)
		assert.Equal(t, "yd", i.Unit)
		used := c.Parts[0].Size.W.Inches() * c.Parts[0].Size.H.Inches() * 6
		assert.InDelta(t, row.yards*20*(1-used/(row.yards*36*54)), p.Stock.Waste, 1e-6)
	}
}

func TestPatternRunsThroughAtEqualHeights(t *testing.T) {
	j := sample.Reading()
	j.Cover.Roll, j.Cover.Repeat = 54*in, 23*in
	p := hang(j, geom.Size{W: 15 * in, H: 24 * in}, 4, hung.Stud)
	for i := range p.Panels { // two rows, 5 in apart in the pattern
		if i >= 2 {
			p.Panels[i].Outline = p.Panels[i].Outline.Add(geom.Pt(0, 28*in))
		}
	}

	p.cut()
	c := p.Stock.Cover
	require.Len(t, c.Laid, 2)
	assert.Equal(t, [][]int{{0, 1}, {2, 3}}, [][]int{c.Laid[0].Panels, c.Laid[1].Panels})
	bottoms := map[int]geom.Length{}
	for _, placed := range c.Layout.Placed {
		panel := c.Laid[placed.Part].Panels[placed.Copy]
		onWall := p.Panels[panel].Outline.Bounds().Min.Y - p.Wrap.Size
		phase := placed.Rect.Min.Y - onWall
		bottoms[panel] = phase - phase.Floor(23*in)
		assert.False(t, placed.Turned)
	}
	require.Len(t, bottoms, 4)
	for _, phase := range bottoms {
		assert.Equal(t, bottoms[0], phase)
	}
	assert.GreaterOrEqual(t, c.Buy, c.Layout.Length+23*in)
}

func TestBattingMayBeTurned(t *testing.T) {
	j := sample.Reading()
	j.Batt.Roll = 56 * in // 31 × 55 over a wrap of 3 1/2: only lying down are two as short
	p := cutUp(j, hung.Board24x48(), 2)
	assert.Equal(t, geom.Size{W: 31 * in, H: 55 * in}, p.Stock.Batting.Parts[0].Size)
	assert.Equal(t, 62*in, p.Stock.Batting.Layout.Length)
}

func BenchmarkThousandPanelsFromWrapToList(b *testing.B) {
	j := sample.Reading()
	j.Framing.Gravity = 0.42
	for b.Loop() {
		hang(j, hung.Board24x48(), 1000, hung.Stud).cut()
	}
}

func TestOneOfAThingIsNamedInTheSingular(t *testing.T) {
	for _, row := range []struct {
		amount     float64
		unit, want string
	}{{1, "sheets", "sheet"}, {2, "sheets", "sheets"}, {1, "packs of 100", "pack of 100"}, {1, "yd", "yd"}, {1, "piece of 20 × 20 mm", "piece of 20 × 20 mm"}} {
		assert.Equal(t, row.want, Item{Amount: row.amount, Unit: row.unit}.UnitName())
	}
}

func TestNothingIsBoughtOfAStockThatHoldsNoPart(t *testing.T) {
	j := sample.Reading()
	j.Board.Sheet, j.Cover.Roll, j.Cover.NapUp = geom.Size{W: 20 * in, H: 40 * in}, 20*in, true
	p := cutUp(j, hung.Board24x48(), 2)
	for _, i := range p.Stock.List {
		assert.NotZero(t, i.Amount, i.What)
	}
	assert.InDelta(t, 2, item(t, p, "board 1/2″, larger than a sheet").Amount, 0)
	assert.InDelta(t, 2, item(t, p, "cover, larger than the roll").Amount, 0)
}
