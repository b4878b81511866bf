package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

// Common practice: the gap above the cushion is made even with the gap under the sill. (33 − 17 1/2 − 3 3/4 − 8)/2 =
// 1 7/8; the panel begins at 17 1/2 + 3 3/4 + 1 7/8 = 23 1/8. Boards of 8 − 3/16 in are whole sixteenths.
func TestAnEvenGapIsTheSameOverCushionAndUnderSill(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.EvenGap = 8*inch, true
	p := laid(t, sample.Settle(sample.Between(b)))
	h := p.Runs[0].Band
	assert.Equal(t, inch+7*inch/8, h.GapBelow)
	assert.Equal(t, inch+7*inch/8, h.GapAbove)
	assert.Equal(t, 23*inch+inch/8, h.Bottom)
	assert.Equal(t, 31*inch+inch/8, h.Top)
	for _, panel := range p.Panels {
		assert.Equal(t, h.Bottom, panel.Finished.Bounds().Min.Y)
		assert.Equal(t, h.Top, panel.Finished.Bounds().Max.Y)
	}
}

// 11 3/4 less two gaps of 1/2 in leave a panel of 10 3/4; an inch in 32nds more of room is slack under the sill.
func TestThePanelHeightFollowsFromTheGap(t *testing.T) {
	b := sample.BayBand()
	b.Gap, b.HasGap = inch/2, true
	b.Sill += inch / 32
	h := laid(t, sample.Settle(sample.Between(b))).Runs[0].Band
	assert.Equal(t, inch/2, h.GapBelow)
	assert.Equal(t, 10*inch+3*inch/4, h.Top-h.Bottom)
	assert.Equal(t, inch/32, h.Slack)
	assert.Equal(t, inch/2+inch/32, h.GapAbove, "the slack of the saw is under the sill")
}

func TestPanelAndGapMustAddUp(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.Gap, b.HasGap = 8*inch, inch+7*inch/8, true
	laid(t, sample.Settle(sample.Between(b)))
	b.Gap = inch / 2
	problems := refused(t, sample.Settle(sample.Between(b)))
	require.Len(t, problems, 1)
	assert.Equal(t, "heights.bay", problems[0].Field)
	assert.Equal(t, "panel 8″ with two gaps of 1/2″ makes 9″, but between cushion and sill are 11 3/4″; leave out one, or write panel: 10 3/4″ or gap: even",
		problems[0].Text)
	b.Sill = 0
	h := laid(t, sample.Settle(sample.Between(b))).Runs[0].Band
	assert.Equal(t, 17*inch+inch/2+3*inch+3*inch/4+inch/2, h.Bottom, "without a sill both together say where the band stands")
	assert.False(t, h.HasSill)
}

func TestBandsThatCannotBeAreRefused(t *testing.T) {
	low, even, wide, bare := sample.BayBand(), sample.BayBand(), sample.BayBand(), sample.BayBand()
	low.Sill, low.Panel = 21*inch, 8*inch
	even.EvenGap = true
	wide.Gap, wide.HasGap = 6*inch, true
	bare.Sill, bare.Panel = 0, 8*inch
	for claim, b := range map[string]job.Band{
		"the sill, 21″, must lie above the cushion, whose top is at 21 1/4″ (seat 17 1/2″ + cushion 3 3/4″)":            low,
		"an even gap needs a panel height; give panel, or gap as a length (there are 11 3/4″ between cushion and sill)": even,
		"two gaps of 6″ leave no panel between cushion and sill, where there are 11 3/4″":                               wide,
		"the band has no sill; give the sill, or panel and gap both":                                                    bare,
	} {
		assert.Equal(t, claim, refused(t, sample.Settle(sample.Between(b)))[0].Text)
	}
}

func TestAPanelTallerThanItsBandIsTold(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.EvenGap = 12*inch, true
	p := laid(t, sample.Settle(sample.Between(b)))
	require.Equal(t, []string{"band-too-low"}, p.IDs())
	assert.Equal(t, BandTooLow{Panel: 12 * inch, Room: 11*inch + 3*inch/4}, p.Findings[0].Params)
}

// A deck 1/4 in higher at the right end: the gap is even there, the panels are level, and 1/4 in more is left below
// them at the other end.
func TestLevelPanelsStandByTheHigherEndOfTheDeck(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.EvenGap = 8*inch, true
	b.Seat[0] -= inch / 4
	p := laid(t, sample.Settle(sample.Between(b)))
	for _, panel := range p.Panels {
		assert.Equal(t, 23*inch+inch/8, panel.Finished.Bounds().Min.Y)
	}
	require.Equal(t, []string{"deck-slopes"}, p.IDs())
	assert.Equal(t, DeckSlopes{Off: inch / 4, Higher: "right", GapBelow: geom.Span{From: 15 * inch / 8, To: 17 * inch / 8}}, p.Findings[0].Params)
}

// The middles of two panels of 45 in stand a quarter and three quarters along a deck that rises 1/4 in: 3/16 and
// 1/16 in below its high end.
func TestPanelsFollowTheDeckAtTheirMiddles(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.EvenGap, b.Follow = 8*inch, true, true
	b.Seat[0] -= inch / 4
	p := laid(t, sample.Settle(sample.Between(b)))
	assert.Equal(t, 23*inch+inch/8-3*inch/16, p.Panels[0].Finished.Bounds().Min.Y)
	assert.Equal(t, 23*inch+inch/8-inch/16, p.Panels[1].Finished.Bounds().Min.Y)
	assert.True(t, p.Panels[0].Finished.IsRectangle(), "panels stay plumb and level")
	assert.Equal(t, p.Panels[0].Finished.Bounds().Size(), p.Panels[1].Finished.Bounds().Size())
	assert.Equal(t, p.Panels[0].Finished.Bounds().Min.Y, p.Runs[0].Band.Bottom, "bottom and top are the lowest panel's")
	assert.Equal(t, p.Panels[0].Finished.Bounds().Max.Y, p.Runs[0].Band.Top)
	assert.Equal(t, p.Panels[1].Finished.Bounds().Max.Y, p.Runs[0].Bounds.Max.Y)
	assert.Equal(t, []string{"deck-slopes"}, p.IDs())
}

func TestADeckMoreThanTwoInchesOutIsMeasuredAgain(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.EvenGap = 4*inch, true
	b.Seat[0] -= 2 * inch
	assert.NotContains(t, laid(t, sample.Settle(sample.Between(b))).IDs(), "deck-far-out")
	b.Seat[0]--
	assert.Contains(t, laid(t, sample.Settle(sample.Between(b))).IDs(), "deck-far-out")
}

func TestEveryPanelOfABandStandsAtOneHeightAllRound(t *testing.T) {
	b := sample.BayBand()
	b.Panel, b.EvenGap = 8*inch, true
	j := sample.Settle(sample.Between(b))
	j.Walls = append(j.Walls, sample.WallOf("East", 60*inch, 90*inch, sample.Between(b)), sample.WallOf("South", 77*inch, 90*inch, sample.Between(b)))
	j.Walls[1].Runs[0].Across = []job.Span{{From: 3 * inch, To: 58*inch + 7*inch/16}}
	j.Walls[1].Runs[0].Panels = 3
	j.Walls[2].Runs[0].Across = []job.Span{{From: inch / 3, To: 70 * inch}}
	sample.Name(j)
	p := laid(t, j)
	require.Len(t, p.Panels, 7)
	for _, panel := range p.Panels {
		assert.Equal(t, 23*inch+inch/8, panel.Finished.Bounds().Min.Y)
		assert.Equal(t, 31*inch+inch/8, panel.Finished.Bounds().Max.Y)
		assert.Equal(t, 8*inch-3*inch/16, panel.Outline.Bounds().H())
	}
}
