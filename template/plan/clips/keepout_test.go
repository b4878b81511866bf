package clips

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/sample"
)

func TestHolesStayOutOfKeepOutZones(t *testing.T) {
	for _, offset := range []geom.Point{{}, {X: 10 * mm, Y: -12 * mm}} {
		w := sample.WallOf("A", 2000*mm, 2000*mm, sample.Row("A", 0, 1200*mm, 500*mm, 1100*mm, 3, 0))
		w.KeepOuts = []job.KeepOut{{Name: "pipe", Rect: geom.R(460*mm, 0, 480*mm, 2000*mm), Margin: 25 * mm}}
		j := sample.Clipped(w)
		j.Clip.Offset = offset
		p := placed(t, j)
		zone := geom.R(435*mm, -25*mm, 505*mm, 2025*mm)
		for i := range p.Panels {
			require.NotEmpty(t, p.Panels[i].Clips)
			for _, c := range p.Panels[i].Clips {
				assert.False(t, zone.Inset(-j.Screws.Marker/2).InteriorIntersects(geom.Rect{Min: c.WallHoles[0], Max: c.WallHoles[0].Add(geom.Pt(1, 1))}), "%v", c)
			}
			assert.Equal(t, middles(&p.Panels[0]), middles(&p.Panels[i]), "one pattern that all keep-outs allow")
		}
	}
}

func TestThePanelsThatKeepOutsSpoilDeviateAndTheRestStayTheSame(t *testing.T) {
	w := sample.WallOf("A", 2500*mm, 2000*mm, sample.Row("A", 0, 1600*mm, 500*mm, 1100*mm, 4, 0))
	// Only the right half of the third panel and the left half of the first are free.
	w.KeepOuts = []job.KeepOut{
		{Name: "duct", Rect: geom.R(800*mm, 500*mm, 1000*mm, 1100*mm)},
		{Name: "lintel", Rect: geom.R(200*mm, 500*mm, 400*mm, 1100*mm)},
	}
	w.Studs.Given = true
	p := placed(t, sample.Clipped(w))
	require.Equal(t, []string{"narrow-stance", "narrow-stance", "pattern-differs", "on-lining"}, p.IDs())
	differ := 0
	for i := range p.Panels {
		if !assert.ObjectsAreEqual(middles(&p.Panels[1]), middles(&p.Panels[i])) {
			differ++
		}
	}
	assert.Equal(t, 2, differ)
	// By hand, in sixteenths of an inch: the boards are 251 wide, and half of one is forbidden. The inner column stands 127
	// from the far edge, the outer one 44 from its own: 80 apart. Two fifths of 251 are 100.4, half of it 125.5.
	for i, name := range []string{"A1", "A3"} {
		assert.Equal(t, finding.OfPanels("walls[0].runs[0]", name), p.Findings[i].Subject)
		short := p.Findings[i].Params.(NarrowStance)
		assert.Equal(t, 204*inch/160, short.Across)
		assert.Equal(t, 15*inch/160, short.Centre)
		assert.Zero(t, short.Up+short.Edge)
	}
	assert.Equal(t, finding.OfRun("walls[0].runs[0]", "A", "A1", "A3"), p.Findings[2].Subject)
	for i := range p.Panels {
		for _, c := range p.Panels[i].Clips {
			for _, k := range w.KeepOuts {
				assert.False(t, k.Rect.ContainsPoint(c.WallHoles[0]))
			}
		}
	}
}

func TestAKeepOutOverTheWholePanelLeavesNoPlaceAndNamesTheNearest(t *testing.T) {
	w := sample.Panelled([]geom.Length{10 * inch}, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "safe", Rect: geom.R(0, 0, 21*inch, 90*inch)}}
	p := placed(t, sample.Clipped(w))
	require.IsType(t, NoPlace{}, p.Findings[0].Params)
	assert.Equal(t, finding.OfPanels("walls[0].runs[0]", "N1"), p.Findings[0].Subject)
	assert.Empty(t, p.Panels[0].Clips)
	// The left column may go in as far as the middle, 10 in, and its holes, 1/8 in wide, must lie beyond 21 in.
	assert.Equal(t, NearPlace{Moved: geom.Pt(23*inch/2, 0)}, sample.ParamsOf[NoPlace](t, p.Findings).Near)

	w = sample.Panelled([]geom.Length{30 * inch}, 20*inch, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "safe", Rect: geom.R(0, 0, 20*inch, 90*inch)}}
	p = placed(t, sample.Clipped(w))
	assert.Contains(t, p.IDs(), "no-place")
	assert.NotContains(t, p.IDs(), "pattern-differs", "a panel without clips hangs on no other pattern")

	w = sample.Panelled([]geom.Length{10 * inch}, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "safe", Rect: geom.R(0, 0, 96*inch, 90*inch)}}
	p = placed(t, sample.Clipped(w))
	assert.Equal(t, NearPlace{}, sample.ParamsOf[NoPlace](t, p.Findings).Near)
}

func TestABaseLargerThanTheBoardSaysHowLargeThePanelMustBe(t *testing.T) {
	j := sample.Clipped(sample.Panelled(nil, 5*inch))
	p := placed(t, j)
	narrow := sample.ParamsOf[NoPlace](t, p.Findings)
	assert.Equal(t, Narrow, narrow.Reason)
	assert.Equal(t, 11*inch/2, narrow.Panel)
	p = placed(t, sample.Clipped(sample.Panelled(nil, 11*inch/2)))
	assert.NotEmpty(t, p.Panels[0].Clips)
}

func TestLimitsThatContradictEachOtherAreBothNamed(t *testing.T) {
	j := sample.Clipped(sample.Panelled(nil, 20*inch))
	j.Clips.Spacing = inch
	p := placed(t, j)
	require.Contains(t, p.IDs(), "limits-clash")
	clash := sample.ParamsOf[LimitsClash](t, p.Findings)
	assert.Equal(t, inch, clash.Spacing)
	assert.Equal(t, 3*inch/2, clash.Base.W)
	assert.NotEmpty(t, p.Panels[0].Clips)
	for i, a := range p.Panels[0].Clips {
		for _, b := range p.Panels[0].Clips[:i] {
			assert.False(t, (a.Board.X-b.Board.X).Abs() < 3*inch/2 && (a.Board.Y-b.Board.Y).Abs() < 3*inch/2)
		}
	}

	p = placed(t, sample.Clipped(sample.WallOf("N", 96*inch, 90*inch, sample.Row("N", 0, 7*inch, 20*inch, 26*inch, 1, 0))))
	require.Contains(t, p.IDs(), "few-clips")
	assert.Len(t, p.Panels[0].Clips, 2)
}
