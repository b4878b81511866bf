package blocks

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

const (
	inch = geom.Inch
	mm   = geom.Millimetre
)

// A record is a layout, its blocks and what was found on the way.
type record struct {
	layout.Layout
	sample.Found
	Blocks []Block
}

func blocked(t *testing.T, j *job.Job) *record {
	t.Helper()
	l, found, err := layout.Make(j)
	require.NoError(t, err)
	p := &record{Layout: l, Found: sample.Found{Findings: found}}
	p.Blocks, found = Of(j, &p.Layout)
	p.Note(found)
	return p
}

func bayRun() job.Run {
	b := sample.BayBand()
	b.Panel, b.EvenGap = 8*inch, true
	return sample.Between(b)
}

// Cushion 3 3/4 + gap 1 7/8 = 5 5/8 in; a bare board hangs 3/32 in higher.
func TestABlockForDrillingIsCushionGapAndEdge(t *testing.T) {
	j := sample.Settle(bayRun())
	j.Blocks = job.Blocks{Stock: []geom.Length{3 * inch / 4, inch / 2, inch / 8, inch / 32}, Within: inch / 64, Foot: 4 * inch}
	p := blocked(t, j)
	require.Len(t, p.Blocks, 1)
	b := p.Blocks[0]
	assert.Equal(t, 5*inch+5*inch/8+3*inch/32, b.Height)
	bottom := 17*inch + inch/2 + b.Height
	assert.Equal(t, Block{Name: "bay", Band: "bay", Height: b.Height, Heights: []geom.Length{b.Height}, Tops: geom.Span{From: bottom, To: bottom}, Foot: 4 * inch, Drilling: true,
		Stack: b.Stack, Made: b.Height, Count: 2, Panels: []int{0, 1}}, b)
	// In 32nds: 183 of pieces of 24, 16, 4 and 1. Six of 24 leave 39 = 2·16 + 4 + 3·1: twelve pieces. Seven leave
	// 15 = 3·4 + 3·1: thirteen.
	assert.Len(t, b.Stack, 12)
	assert.Empty(t, p.Findings)
}

func TestABlockForHangingIsAnEdgeLower(t *testing.T) {
	j := sample.Settle(bayRun())
	j.Blocks.For = job.ForBoth
	p := blocked(t, j)
	require.Len(t, p.Blocks, 2)
	assert.Equal(t, p.Edge, p.Blocks[0].Height-p.Blocks[1].Height)
	assert.Equal(t, 5*inch+5*inch/8, p.Blocks[1].Height)
	assert.Equal(t, "bay drilling", p.Blocks[0].Name)
	assert.Equal(t, "bay hanging", p.Blocks[1].Name)
	j.Blocks.For = job.ForHanging
	p = blocked(t, j)
	require.Len(t, p.Blocks, 1)
	assert.Equal(t, "bay", p.Blocks[0].Name)
	assert.False(t, p.Blocks[0].Drilling)
	assert.Nil(t, p.Blocks[0].Stack, "no stock, no stack")
}

// Common practice: one set of blocks serves the whole nook.
func TestRunsOfOneBandShareTheirBlocks(t *testing.T) {
	j := sample.Settle(bayRun())
	j.Walls = append(j.Walls, sample.WallOf("East", 96*inch, 90*inch, bayRun()))
	j.Walls[1].Runs[0].Name = "E"
	sample.Name(j)
	p := blocked(t, j)
	require.Len(t, p.Blocks, 1)
	assert.Equal(t, []int{0, 1, 2, 3}, p.Blocks[0].Panels)
	assert.Equal(t, 2, p.Blocks[0].Count)
	j.Blocks.Count = 6
	assert.Equal(t, 6, blocked(t, j).Blocks[0].Count)
}

// On a deck that falls 1/4 in to the left over 90 in, two panels of 45 in need blocks of three heights: 1/4 in more at
// the left end, 1/8 in more where the panels meet, and the plain height at the right end.
func TestLevelPanelsOnASlopingDeckNeedOneBlockForEachEnd(t *testing.T) {
	j := sample.Settle(bayRun())
	j.Walls[0].Runs[0].Band.Seat[0] -= inch / 4
	p := blocked(t, j)
	require.Len(t, p.Blocks, 3)
	plain := 5*inch + 5*inch/8 + 3*inch/32
	for i, want := range []struct {
		name   string
		height geom.Length
		panels []int
	}{{"bay N1 left", plain + inch/4, []int{0}}, {"bay N1 right", plain + inch/8, []int{0, 1}}, {"bay N2 right", plain, []int{1}}} {
		assert.Equal(t, want.name, p.Blocks[i].Name)
		assert.Equal(t, want.height, p.Blocks[i].Height)
		assert.Equal(t, want.panels, p.Blocks[i].Panels)
		assert.Equal(t, 1, p.Blocks[i].Count, "a panel stands on one block of each height")
	}
}

// Over a gap of 1/4 in, a deck that rises 1/4 in on 90 in rises by 0.018 mm: the ends of two panels there share a block.
// Each block is as high as some end needs it, and no end is more than a tenth of a millimetre off.
func TestEndsThatAGapPartsShareABlock(t *testing.T) {
	j := sample.Settle(bayRun())
	r := &j.Walls[0].Runs[0]
	r.Panels, r.Gap = 4, inch/4
	r.Band.Seat[0] -= inch / 4
	p := blocked(t, j)
	require.Len(t, p.Blocks, 5, "four panels have five ends between them")
	for i := range p.Panels {
		f, board := p.Panels[i].Finished.Bounds(), p.Panels[i].Outline.Bounds()
		for _, x := range []geom.Length{f.Min.X, f.Max.X} {
			deck := r.Band.Seat[0] + (inch / 4).Times(float64(x)/float64(90*inch))
			near := slices.ContainsFunc(p.Blocks, func(b Block) bool {
				return slices.Contains(b.Panels, i) && (deck+b.Height-board.Min.Y).Abs() <= 100*geom.Micrometre
			})
			assert.True(t, near, "%s has no block at %v", p.Panels[i].Name, x)
		}
	}
	r.Band.Seat[0] -= inch + 3*inch/4
	assert.Len(t, blocked(t, j).Blocks, 8, "a deck 2 in out of level rises by 0.14 mm over the gap")
}

// Panels that follow the deck need the same two blocks everywhere: half of what the deck rises under a panel more on
// the left, as much less on the right.
func TestPanelsThatFollowTheDeckShareALeftAndARightBlock(t *testing.T) {
	j := sample.Settle(bayRun())
	r := &j.Walls[0].Runs[0]
	r.Panels, r.Band.Follow = 7, true
	r.Band.Seat[0] -= inch / 4
	p := blocked(t, j)
	require.Len(t, p.Blocks, 2)
	assert.Equal(t, "bay left", p.Blocks[0].Name)
	assert.Equal(t, "bay right", p.Blocks[1].Name)
	plain := 5*inch + 5*inch/8 + 3*inch/32
	width := p.Panels[0].Finished.Bounds().W()
	half := (inch / 8).Times(float64(width) / float64(90*inch))
	assert.InDelta(t, float64(plain+half), float64(p.Blocks[0].Height), 3)
	assert.InDelta(t, float64(plain-half), float64(p.Blocks[1].Height), 3)
	assert.Len(t, p.Blocks[0].Panels, 7)
}

func TestABandByBottomAndTopStandsOnTheFloorOnlyWhenAsked(t *testing.T) {
	r := sample.Row("N", 0, 90*inch, 20*inch, 44*inch, 3, inch/4)
	assert.Empty(t, blocked(t, sample.Settle(r)).Blocks)
	r.Band.HasSeat = true
	p := blocked(t, sample.Settle(r))
	require.Len(t, p.Blocks, 1)
	assert.Equal(t, 20*inch+3*inch/32, p.Blocks[0].Height)
	assert.Equal(t, "N", p.Blocks[0].Name)
}

func TestABandBelowItsDeckIsTold(t *testing.T) {
	r := sample.Row("N", 0, 90*inch, 20*inch, 44*inch, 1, 0)
	r.Band.HasSeat, r.Band.Seat = true, [2]geom.Length{21 * inch, 21 * inch}
	p := blocked(t, sample.Settle(r))
	assert.Contains(t, p.IDs(), "below-deck")
	assert.Empty(t, p.Blocks)
}

// 183/32 in from pieces of 3/4 in: seven make 5 1/4, eight make 6; 15/32 in is missing on seven.
func TestAStackThatMissesSaysWhatIsMissing(t *testing.T) {
	j := sample.Settle(bayRun())
	j.Blocks = job.Blocks{Stock: []geom.Length{3 * inch / 4}, Within: inch / 64}
	p := blocked(t, j)
	require.Equal(t, []string{"stack-misses"}, p.IDs())
	misses := StackMisses{Block: "bay", Height: 183 * inch / 32, Count: 2, Within: inch / 64, Below: 21 * inch / 4, Above: 6 * inch}
	assert.Equal(t, misses, p.Findings[0].Params)
	assert.Equal(t, finding.OfOne(finding.Block, "blocks.stock", "bay", "N1", "N2"), p.Findings[0].Subject)
	assert.Equal(t, 6*inch, p.Blocks[0].Made, "the nearest stack")

	j.Blocks.Stock = []geom.Length{10 * inch}
	p = blocked(t, j)
	assert.Zero(t, p.Findings[0].Params.(StackMisses).Below, "every piece is thicker")
	j.Blocks.Stock = []geom.Length{inch / 1000}
	p = blocked(t, j)
	require.Equal(t, []string{"stack-misses"}, p.IDs(), "stock too thin to stack is told, too")
	assert.Nil(t, p.Blocks[0].Stack)
}

// On a deck 50 µm out of level ends have heights of their own, and no saw can tell them apart.
func TestHeightsThatNoSawTellsApartShareABlockThatKeepsEach(t *testing.T) {
	run := bayRun()
	run.Band.Seat[1] += 50 * geom.Micrometre
	p := blocked(t, sample.Settle(run))
	require.Len(t, p.Blocks, 1)
	b := p.Blocks[0]
	require.Len(t, b.Heights, 3) // the panels meet in the middle
	assert.True(t, slices.IsSorted(b.Heights))
	assert.Equal(t, 50*geom.Micrometre, b.Spread())
	assert.Contains(t, b.Heights, b.Height)
	for i, l := range p.Panels {
		for _, x := range []geom.Length{l.Finished.Bounds().Min.X, l.Finished.Bounds().Max.X} {
			assert.Contains(t, b.Heights, l.Outline.Bounds().Min.Y-p.Runs[0].DeckAt(x), i)
		}
	}
}

func TestABlockSaysWhereItsTopStandsFromTheMarkedLine(t *testing.T) {
	j := sample.Settle(bayRun())
	bottom := 17*inch + inch/2 + 5*inch + 5*inch/8 + 3*inch/32 // of the bare boards
	read := func(l geom.Length) string { return l.In(geom.Imperial) }
	for _, row := range []struct {
		line geom.Length
		says string
	}{{0, ""}, {bottom + 51*inch/4, "12 3/4″ below the line"}, {bottom, "on the line"}, {bottom - inch, "1″ above the line"}} {
		j.Line = row.line
		assert.Equal(t, row.says, blocked(t, j).Blocks[0].FromLine(j, read))
	}
}

// An area over a seat at 400, cut by a window: the pieces along its lower side stand on blocks of 200 and the edge of
// 3 mm, the piece over the window on none.
func TestPiecesAlongTheLowerSideOfAnAreaStandOnBlocks(t *testing.T) {
	run := job.Run{Name: "G", Area: geom.R(0, 600*mm, 1500*mm, 1800*mm).Polygon(), Panels: 3, Gap: 4 * mm, Band: job.Band{HasSeat: true, Seat: [2]geom.Length{400 * mm, 400 * mm}}}
	wall := sample.WallOf("A", 2000*mm, 2300*mm, run)
	wall.Openings = []job.Opening{{Name: "window", Rect: geom.R(450*mm, 1000*mm, 1050*mm, 1400*mm)}}
	p := blocked(t, sample.Bay(wall))
	require.Len(t, p.Blocks, 1)
	assert.Equal(t, 203*mm, p.Blocks[0].Height)
	assert.Equal(t, "G", p.Blocks[0].Name)
	assert.Equal(t, []string{"G1", "G2a", "G3"}, p.NamesOf(p.Blocks[0].Panels))
	assert.Equal(t, 200*mm, p.Runs[0].Band.GapBelow)

	wall.Runs[0].Band.HasSeat = false
	assert.Empty(t, blocked(t, sample.Bay(wall)).Blocks)
}

// The seat falls by 15 over the run of 1500: under each of three panels by 5.
func TestBlocksOfAnAreaFollowADeckOutOfLevel(t *testing.T) {
	area := geom.Polygon{{X: 0, Y: 600 * mm}, {X: 1500 * mm, Y: 600 * mm}, {X: 1500 * mm, Y: 900 * mm}, {X: 0, Y: 1500 * mm}}
	run := job.Run{Name: "G", Area: area, Panels: 3, Band: job.Band{HasSeat: true, Seat: [2]geom.Length{415 * mm, 400 * mm}}}
	p := blocked(t, sample.Bay(sample.WallOf("A", 2000*mm, 2300*mm, run)))
	var heights []geom.Length
	for _, b := range p.Blocks {
		heights = append(heights, b.Height)
	}
	assert.Equal(t, []geom.Length{188 * mm, 193 * mm, 198 * mm, 203 * mm}, heights)
	assert.Equal(t, []string{"deck-slopes"}, p.IDs())
}

// A panel whose lower edge slopes stands on no block.
func TestASlopingLowerEdgeStandsOnNoBlock(t *testing.T) {
	area := geom.Polygon{{X: 0, Y: 600 * mm}, {X: 1000 * mm, Y: 800 * mm}, {X: 1000 * mm, Y: 1500 * mm}, {X: 0, Y: 1500 * mm}}
	run := job.Run{Name: "G", Area: area, Panels: 1, Band: job.Band{HasSeat: true, Seat: [2]geom.Length{400 * mm, 400 * mm}}}
	p := blocked(t, sample.Bay(sample.WallOf("A", 2000*mm, 2300*mm, run)))
	assert.Empty(t, p.Blocks)
}
