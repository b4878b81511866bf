package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

func socket(x, y geom.Length) job.Fitting {
	return job.Fitting{Name: "socket", Kind: job.Electrical, Rect: geom.R(x, y, x+80*mm, y+120*mm), Margin: 25 * mm, Key: "walls[0].fittings[0]"}
}

// BS 7671:2018, 522.6.202 (check value F-11): 150 mm along wall tops and corners, straight up, down and sideways from an
// accessory, as wide as it is (check value F-12).
func TestCablesLaidStraightKeepTheZonesOfBS7671(t *testing.T) {
	walls := []job.Wall{wallOf("A", 3000*mm, 2400*mm), wallOf("B", 2000*mm, 2400*mm), wallOf("C", 3000*mm, 2400*mm)}
	walls[0].Corner = job.Inside
	walls[1].Fittings = []job.Fitting{socket(500*mm, 300*mm)}
	got := keepOuts(walls, 1, true)
	want := map[string]geom.Rect{
		"socket":                           geom.R(475*mm, 275*mm, 605*mm, 445*mm),
		"cable zone above socket":          geom.R(500*mm, 420*mm, 580*mm, 2400*mm),
		"cable zone below socket":          geom.R(500*mm, 0, 580*mm, 300*mm),
		"cable zone left of socket":        geom.R(0, 300*mm, 500*mm, 420*mm),
		"cable zone right of socket":       geom.R(580*mm, 300*mm, 2000*mm, 420*mm),
		"cable zone along the wall top":    geom.R(0, 2250*mm, 2000*mm, 2400*mm),
		"cable zone along the left corner": geom.R(0, 0, 150*mm, 2400*mm),
	}
	require.Len(t, got, len(want))
	for _, k := range got {
		assert.Equal(t, want[k.Name], k.Zone, k.Name)
	}
	assert.Equal(t, AroundFitting, got[0].Kind)
	assert.Equal(t, geom.R(500*mm, 300*mm, 580*mm, 420*mm), got[0].Body)
	assert.Len(t, keepOuts(walls, 1, false), 1, "no zones when cables may run anyhow")
	assert.Equal(t, "cable zone along the right corner", keepOuts(walls, 0, true)[1].Name)
}

// Every point within 150 mm of a sloped top, measured square to it, lies in some slice.
func TestTheZoneUnderASlopeHoldsAllOfTheStrip(t *testing.T) {
	walls := []job.Wall{wallOf("A", 3000*mm, 2400*mm)}
	walls[0].Outline = geom.Polygon{{X: 0, Y: 0}, {X: 3000 * mm, Y: 0}, {X: 3000 * mm, Y: 800 * mm}, {X: 0, Y: 2400 * mm}}
	zones := keepOuts(walls, 0, true)
	a, b := geom.Pt(0, 2400*mm), geom.Pt(3000*mm, 800*mm)
	for x := 10 * mm; x < 2990*mm; x += 37 * mm {
		top := onLine(a, b, x)
		for down := mm; down < 300*mm; down += 13 * mm {
			at := geom.Pt(x, top-down)
			in := false
			for _, z := range zones {
				in = in || z.Zone.ContainsPoint(at)
			}
			if (geom.Polygon{a, b}).DistanceTo(at) <= 150*mm {
				require.True(t, in, "%v", at)
			}
		}
	}
}

func TestHolesStayOutOfKeepOutZones(t *testing.T) {
	for _, offset := range []geom.Point{{}, {X: 10 * mm, Y: -12 * mm}} {
		w := wallOf("A", 2000*mm, 2000*mm, row("A", 0, 1200*mm, 500*mm, 1100*mm, 3, 0))
		w.KeepOuts = []job.KeepOut{{Name: "pipe", Rect: geom.R(460*mm, 0, 480*mm, 2000*mm), Margin: 25 * mm}}
		j := clipped(w)
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
	w := wallOf("A", 2500*mm, 2000*mm, row("A", 0, 1600*mm, 500*mm, 1100*mm, 4, 0))
	// Only the right half of the third panel and the left half of the first are free.
	w.KeepOuts = []job.KeepOut{
		{Name: "duct", Rect: geom.R(800*mm, 500*mm, 1000*mm, 1100*mm)},
		{Name: "lintel", Rect: geom.R(200*mm, 500*mm, 400*mm, 1100*mm)},
	}
	w.Studs.Given = true
	p := placed(t, clipped(w))
	require.Equal(t, []string{"pattern-differs", "few-clips", "on-lining"}, ids(p))
	differ := 0
	for i := range p.Panels {
		if !assert.ObjectsAreEqual(middles(&p.Panels[1]), middles(&p.Panels[i])) {
			differ++
		}
	}
	assert.Equal(t, 2, differ)
	assert.Equal(t, finding.OfRun("walls[0].runs[0]", "A", "A1", "A3"), p.Findings[0].Subject)
	assert.Equal(t, finding.OfRun("walls[0].runs[0]", "A", "A1", "A3"), p.Findings[1].Subject)
	assert.Equal(t, InTheWay, p.Findings[1].Params.(FewClips).Reason)
	for i := range p.Panels {
		for _, c := range p.Panels[i].Clips {
			for _, k := range w.KeepOuts {
				assert.False(t, k.Rect.ContainsPoint(c.WallHoles[0]))
			}
		}
	}
}

func TestAKeepOutOverTheWholePanelLeavesNoPlaceAndNamesTheNearest(t *testing.T) {
	w := panelled([]geom.Length{10 * inch}, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "safe", Rect: geom.R(0, 0, 21*inch, 90*inch)}}
	p := placed(t, clipped(w))
	require.IsType(t, NoPlace{}, p.Findings[0].Params)
	assert.Equal(t, finding.OfPanels("walls[0].runs[0]", "N1"), p.Findings[0].Subject)
	assert.Empty(t, p.Panels[0].Clips)
	// The left column may go in as far as the middle, 10 in, and its holes, 1/8 in wide, must lie beyond 21 in.
	assert.Equal(t, NearPlace{Moved: geom.Pt(23*inch/2, 0)}, paramsOf[NoPlace](t, p).Near)

	w = panelled([]geom.Length{30 * inch}, 20*inch, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "safe", Rect: geom.R(0, 0, 20*inch, 90*inch)}}
	p = placed(t, clipped(w))
	assert.Contains(t, ids(p), "no-place")
	assert.NotContains(t, ids(p), "pattern-differs", "a panel without clips hangs on no other pattern")

	w = panelled([]geom.Length{10 * inch}, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "safe", Rect: geom.R(0, 0, 96*inch, 90*inch)}}
	p = placed(t, clipped(w))
	assert.Equal(t, NearPlace{}, paramsOf[NoPlace](t, p).Near)
}

func TestABaseLargerThanTheBoardSaysHowLargeThePanelMustBe(t *testing.T) {
	j := clipped(panelled(nil, 5*inch))
	p := placed(t, j)
	narrow := paramsOf[NoPlace](t, p)
	assert.Equal(t, Narrow, narrow.Reason)
	assert.Equal(t, 11*inch/2, narrow.Panel)
	p = placed(t, clipped(panelled(nil, 11*inch/2)))
	assert.NotEmpty(t, p.Panels[0].Clips)
}

func TestLimitsThatContradictEachOtherAreBothNamed(t *testing.T) {
	j := clipped(panelled(nil, 20*inch))
	j.Clips.Spacing = inch
	p := placed(t, j)
	require.Contains(t, ids(p), "limits-clash")
	clash := paramsOf[LimitsClash](t, p)
	assert.Equal(t, inch, clash.Spacing)
	assert.Equal(t, 3*inch/2, clash.Base.W)
	assert.NotEmpty(t, p.Panels[0].Clips)
	for i, a := range p.Panels[0].Clips {
		for _, b := range p.Panels[0].Clips[:i] {
			assert.False(t, (a.Board.X-b.Board.X).Abs() < 3*inch/2 && (a.Board.Y-b.Board.Y).Abs() < 3*inch/2)
		}
	}

	p = placed(t, clipped(wallOf("N", 96*inch, 90*inch, row("N", 0, 7*inch, 20*inch, 26*inch, 1, 0))))
	require.Contains(t, ids(p), "few-clips")
	assert.Len(t, p.Panels[0].Clips, 2)
}

// Boxes must stay reachable: NEC 314.29 (check value F-09).
func TestAPanelOverABoxOrInAWrongPlaceIsTold(t *testing.T) {
	cases := []struct {
		name string
		set  func(w *job.Wall)
		want []string
	}{
		{"clear of everything", func(*job.Wall) {}, nil},
		{"box", func(w *job.Wall) { w.Fittings = []job.Fitting{socket(400*mm, 700*mm)} }, []string{"over-box"}},
		{"box beside, touching", func(w *job.Wall) { w.Fittings = []job.Fitting{socket(1200*mm, 700*mm)} }, nil},
		{"vent", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Vent, Rect: geom.R(100*mm, 700*mm, 200*mm, 800*mm)}}
		}, []string{"over-vent"}},
		{"valve", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Valve, Rect: geom.R(100*mm, 700*mm, 200*mm, 800*mm)}}
		}, []string{"over-valve"}},
		{"heater below", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Heater, Rect: geom.R(100*mm, 0, 800*mm, 250*mm)}}
		}, []string{"near-heater"}},
		{"heater far below", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Heater, Rect: geom.R(100*mm, 0, 800*mm, 150*mm)}}
		}, nil},
		{"window", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "window", Kind: job.Window, Rect: geom.R(900*mm, 1000*mm, 1500*mm, 1900*mm)}}
		}, []string{"over-opening"}},
		{"door leaf", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "door", Kind: job.Door, Rect: geom.R(1900*mm, 0, 2400*mm, 2000*mm), Swing: 800 * mm}}
		}, []string{"door-swing"}},
		{"short door leaf", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "door", Kind: job.Door, Rect: geom.R(1900*mm, 0, 2400*mm, 2000*mm), Swing: 700 * mm}}
		}, nil},
		{"fittings over each other", func(w *job.Wall) {
			w.Fittings = []job.Fitting{socket(1500*mm, 200*mm), socket(1550*mm, 200*mm)}
		}, []string{"fittings-overlap"}},
	}
	for _, c := range cases {
		w := wallOf("A", 2500*mm, 2000*mm, row("A", 0, 1200*mm, 500*mm, 1100*mm, 2, 5*mm))
		c.set(&w)
		p := placed(t, clipped(w))
		assert.Equal(t, append(c.want, "studs-unknown"), ids(p), c.name)
	}
}
