package fastening

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

// brick is a panel on a plastered wall of masonry, of our own invention: flange 3, plaster 12.5, plugs of 40, screws of 5 mm.
func brick() *record {
	j := sample.Reading()
	j.Units = geom.Metric
	j.Clip.Wall.Flange = 3 * mm
	j.Screws.Wall = job.Screw{Diameter: 5 * mm}
	j.Screws.OnHand = []geom.Length{40 * mm, 50 * mm, 60 * mm, 70 * mm, 80 * mm}
	j.Fixing.Plug = job.Plug{Hole: 8 * mm, Length: 40 * mm}
	j.Walls[0].Masonry = true
	j.Walls[0].Lining.Thickness = 25 * mm / 2
	j.Walls[0].Depth = 240 * mm
	p := hang(j, hung.Board24x48(), 1)
	for i := range p.Panels[0].Clips {
		p.Panels[0].Clips[i].On = layout.OnMasonry
	}
	return p
}

func TestScrewInMasonryReachesPastItsPlugThroughWhatBridgesIt(t *testing.T) {
	for _, row := range []struct {
		claim                               string
		flange, pad, lining, plug, diameter geom.Length
		hand                                []geom.Length
		least, screw, hole                  geom.Length // hole from the face of lining or plaster
	}{
		{"the design's worked case: 60.5 wanted, of 60 and 70 the 70; 59.5 in the masonry", 3 * mm, 0, 25 * mm / 2, 40 * mm, 5 * mm,
			[]geom.Length{60 * mm, 70 * mm}, 121 * mm / 2, 70 * mm, 72 * mm},
		{"bare: 48 wanted, 50 taken; the plug and 10 rule the hole's depth, not the tip and 5", 3 * mm, 0, 0, 40 * mm, 5 * mm,
			[]geom.Length{40 * mm, 50 * mm}, 48 * mm, 50 * mm, 52 * mm},
		{"a screw just as long as wanted; the plug's 10 and the tip's 5 are one", 3 * mm, 0, 0, 40 * mm, 5 * mm, []geom.Length{48 * mm}, 48 * mm, 48 * mm, 50 * mm},
		{"a pad takes of the screw, not of the hole", 3 * mm, 4 * mm, 10 * mm, 30 * mm, 5 * mm, []geom.Length{52 * mm}, 52 * mm, 52 * mm, 50 * mm},
		{"none on hand reaches: the next whole 5 mm", 3 * mm, 0, 25 * mm / 2, 40 * mm, 5 * mm, []geom.Length{40 * mm}, 121 * mm / 2, 65 * mm, 67 * mm},
	} {
		p := brick()
		p.Job.Clip.Wall.Flange, p.Job.Walls[0].Lining.Thickness = row.flange, row.lining
		p.Job.Fixing.Plug.Length, p.Job.Screws.Wall.Diameter, p.Job.Screws.OnHand = row.plug, row.diameter, row.hand
		p.Runs[0].Shim = row.pad
		p.screw()
		require.Len(t, p.Screws.Wall, 1)
		s := p.Screws.Wall[0]
		assert.Equal(t, row.least, s.Least, row.claim)
		assert.Equal(t, row.screw, s.Screw.Length, row.claim)
		assert.Equal(t, row.hole, s.Hole.Depth, row.claim)
		assert.Equal(t, 8*mm, s.Hole.Bit)
		assert.Equal(t, 8*mm, s.Printed)
		assert.True(t, s.Suits())
		assert.Equal(t, len(row.hand) == 1 && row.hand[0] < row.least, hasID(p, "plug-screw"), row.claim)
	}
}

func hasID(p *record, id string) bool {
	for _, have := range p.IDs() {
		if have == id {
			return true
		}
	}
	return false
}

func TestPlugHoleIsToldByBitDepthAndPlug(t *testing.T) {
	p := brick()
	p.screw()
	s := p.Screws.Wall[0]
	assert.Equal(t, "drill ⌀ 8 mm, 72 mm deep from the face", s.Hole.Text(geom.Metric))
	assert.Equal(t, "plug 8 × 40 mm", s.Fixing.Text(geom.Metric))
	assert.Equal(t, "drill ⌀ 1/4″, 2 1/32″ deep from the face", Drill{Bit: in / 4, Depth: 2*in + in/33, AtLeast: true}.Text(geom.Imperial), "no less deep than it must be")
	assert.Equal(t, 4, s.Count)
}

func TestHoleInMasonryNeverComesOutOfTheFarSide(t *testing.T) {
	for _, row := range []struct {
		depth geom.Length
		stop  bool
	}{{72*mm + farSide(geom.Metric), false}, {72*mm + farSide(geom.Metric) - 1, true}, {60 * mm, true}} {
		p := brick()
		p.Job.Walls[0].Depth = row.depth
		p.screw()
		assert.Equal(t, row.stop, hasID(p, "hole-far-side"), row.depth)
		assert.False(t, hasID(p, "screw-far-side"))
		if row.stop {
			f := sample.ParamsOf[HoleFarSide](t, p.Findings)
			assert.Equal(t, row.depth-72*mm, f.Left)
			p.Job.Fixing.Plug.Length, p.Findings, p.Screws = f.Longest, nil, Screws{}
			p.Job.Screws.OnHand = []geom.Length{p.Job.Clip.Wall.Flange + p.Job.Walls[0].Lining.Thickness + f.Longest + 5*mm}
			p.screw()
			assert.False(t, hasID(p, "hole-far-side"), "the plug that the finding names has room")
		}
	}
}

func TestAnchorsHoleIsTheOnePrintedAndTheMarkerOnlyACentre(t *testing.T) {
	p := hang(sample.Reading(), hung.Board24x48(), 1)
	p.screw()
	assert.True(t, p.Screws.Wall[0].Hole.Centre)
	assert.Equal(t, in/8, p.Screws.Wall[0].Printed)

	p = hang(sample.Reading(), hung.Board24x48(), 1)
	p.Job.Fixing.Anchor = job.Anchor{Hole: in / 2, Reach: in / 16}
	p.screw()
	assert.Equal(t, "drill ⌀ 1/2″, right through 1/8″", p.Screws.Wall[0].Hole.Text(geom.Imperial))
	assert.Equal(t, in/2, p.Screws.Wall[0].Printed)
	assert.Equal(t, AnchorReach{Lining: in / 8, Reach: in / 16}, sample.ParamsOf[AnchorReach](t, p.Findings))
}

func TestLoadIsHeldAgainstWhatPlugsCarryTogether(t *testing.T) {
	p := brick()
	p.screw()
	p.weigh()
	worst := p.Loads[0].Worst
	assert.True(t, hasID(p, "fixing-carries-unknown"))
	for _, row := range []struct {
		carries job.Weight
		holes   int
		over    bool
	}{{worst, 1, false}, {worst * 0.99, 1, true}, {worst * 0.51, 2, false}, {worst * 0.49, 2, true}} {
		p := brick()
		p.Job.Fixing.Plug.Carries = row.carries
		p.Job.Clip.Wall.Holes = make([]geom.Point, row.holes)
		p.screw()
		p.weigh()
		assert.Equal(t, row.over, hasID(p, "fixing-over"), row)
		assert.False(t, hasID(p, "fixing-carries-unknown"))
	}
}
