package access

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

// told are the ids of a plan's findings but for those of studs nobody has named.
func told(p *record) (all []string) {
	for _, id := range p.IDs() {
		if id != "studs-unknown" {
			all = append(all, id)
		}
	}
	return all
}

// A panel on lift clips needs a free height of at least its rise (geometry, computed).
func TestALiftPanelNeedsFreeHeightAbove(t *testing.T) {
	const rise = 16 * mm
	slope := geom.Polygon{{X: 0, Y: 0}, {X: 2000 * mm, Y: 0}, {X: 2000 * mm, Y: 900 * mm}, {X: 0, Y: 1300 * mm}}
	cases := []struct {
		name  string
		set   func(w *job.Wall)
		under Overhead // the zero one when it can be lifted
		free  geom.Length
	}{
		{"nothing above", func(*job.Wall) {}, Overhead{}, 0},
		{"ceiling just high enough", func(w *job.Wall) { w.Outline = geom.R(0, 0, 2000*mm, 816*mm).Polygon() }, Overhead{}, 0},
		{"ceiling too low", func(w *job.Wall) { w.Outline = geom.R(0, 0, 2000*mm, 815*mm).Polygon() }, Overhead{Kind: "wall"}, 15 * mm},
		// The slope falls 1 in 5: over the panels' right end, 1000 mm from the left, it is at 1100 mm.
		{"slope high enough", func(w *job.Wall) { w.Outline = slope; w.Runs[0].Band.Top = 1084 * mm }, Overhead{}, 0},
		{"slope too low", func(w *job.Wall) { w.Outline = slope; w.Runs[0].Band.Top = 1085 * mm }, Overhead{Kind: "wall"}, 15 * mm},
		{"next run, which hangs later", func(w *job.Wall) { w.Runs = append(w.Runs, sample.Row("B", 900*mm, 1500*mm, 810*mm, 1200*mm, 1, 0)) }, Overhead{}, 0},
		{"window", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "window", Rect: geom.R(100*mm, 805*mm, 400*mm, 1500*mm)}}
		}, Overhead{string(layout.AroundOpening), "window"}, 5 * mm},
		{"fitting", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Name: "shelf", Kind: job.Other, Rect: geom.R(100*mm, 806*mm, 400*mm, 826*mm)}}
		}, Overhead{string(layout.AroundFitting), "shelf"}, 6 * mm},
		{"duct inside the wall", func(w *job.Wall) {
			w.KeepOuts = []job.KeepOut{{Name: "duct", Rect: geom.R(100*mm, 805*mm, 400*mm, 1500*mm)}}
		}, Overhead{}, 0},
	}
	for _, c := range cases {
		w := sample.WallOf("A", 2000*mm, 2000*mm, sample.Row("A", 0, 1000*mm, 300*mm, 800*mm, 2, 0))
		c.set(&w)
		j := sample.Clipped(w)
		j.Units, j.Board.Saw = geom.Metric, mm
		j.Clip.Kind, j.Clip.Rise = job.Lift, rise
		p := placed(t, j)
		if c.under == (Overhead{}) {
			assert.NotContains(t, p.IDs(), "cannot-lift", c.name)
			continue
		}
		require.Contains(t, p.IDs(), "cannot-lift", c.name)
		assert.Equal(t, CannotLift{Rise: rise, Free: c.free, Under: c.under}, sample.ParamsOf[CannotLift](t, p.Findings), c.name)
	}
}

func TestASillLimitsTheLift(t *testing.T) {
	w := sample.WallOf("A", 2000*mm, 2000*mm, sample.Row("A", 0, 1000*mm, 300*mm, 800*mm, 2, 0))
	w.Runs[0].Band = job.Band{HasSeat: true, Seat: [2]geom.Length{300 * mm, 300 * mm}, Sill: 820 * mm, Panel: 490 * mm, EvenGap: true, Gap: 15 * mm, HasGap: true}
	j := sample.Clipped(w)
	j.Units, j.Board.Saw = geom.Metric, mm
	j.Clip.Kind, j.Clip.Rise = job.Lift, 16*mm
	p := placed(t, j)
	require.Contains(t, p.IDs(), "cannot-lift")
}

func TestAPressPanelWithEveryEdgeShutInIsNoted(t *testing.T) {
	// Two panels without a gap, floor below, ceiling above, corners on both sides.
	closed := func() *job.Job {
		w := sample.WallOf("A", 1000*mm, 600*mm, sample.Row("A", 0, 1000*mm, 0, 600*mm, 2, 0))
		w.Corner = job.Inside
		b, c := sample.WallOf("B", 1000*mm, 600*mm), sample.WallOf("C", 1000*mm, 600*mm)
		b.Corner, c.Corner = job.Inside, job.Inside
		return sample.Clipped(w, b, c)
	}
	p := placed(t, closed())
	assert.Contains(t, told(p), "shut-in")
	open := func(name string, change func(j *job.Job)) {
		j := closed()
		change(j)
		assert.NotContains(t, told(placed(t, j)), "shut-in", name)
	}
	open("gap of 1/8 in between the panels", func(j *job.Job) { j.Walls[0].Runs[0].Gap = inch / 8 })
	open("gap of 1/8 in above", func(j *job.Job) { j.Walls[0].Runs[0].Band.Top = 600*mm - inch/8 })
	open("lift clips", func(j *job.Job) { j.Clip.Kind = job.Lift })
	j := closed()
	j.Walls[2].Corner = job.NoCorner
	assert.Equal(t, 1, shutCount(placed(t, j)), "the left one can be reached from the wall's free end")
}

func shutCount(p *record) (n int) {
	for i := range p.Panels {
		if p.shutIn(&p.Panels[i]) {
			n++
		}
	}
	return n
}
