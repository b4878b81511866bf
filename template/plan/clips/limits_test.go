package clips

import (
	"math/rand"
	"testing"

	reference "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

// wild is a random job with everything in it that bears on clip places, its outlines sloped or not.
func wild(r *rand.Rand) *job.Job {
	j := random(r)
	w := &j.Walls[0]
	some := func(low, high int) geom.Length { return geom.Length(low+r.Intn(high-low+1)) * mm }
	for range r.Intn(3) {
		x, y := some(0, 1000), some(0, 700)
		w.Fittings = append(w.Fittings, job.Fitting{Name: "socket", Kind: job.Electrical, Rect: geom.R(x, y, x+80*mm, y+80*mm), Margin: some(0, 30)})
	}
	if r.Intn(3) == 0 {
		x, y := some(0, 1000), some(0, 700)
		w.KeepOuts = []job.KeepOut{{Name: "pipe", Rect: geom.R(x, y, x+some(1, 500), y+some(1, 500)), Margin: some(0, 30)}}
	}
	j.Straight = r.Intn(2) == 0
	j.Clip.Offset = geom.Pt(some(-8, 8), some(-8, 8))
	j.Clips.Step = some(1, 12)
	j.Clips.Spacing = some(50, 400)
	j.Clips.Number = 1 + r.Intn(9)
	if r.Intn(2) == 0 {
		left, right := w.Runs[0].Across[0].From, w.Runs[0].Across[0].To
		w.Runs[0] = job.Run{Name: "A", Panels: w.Runs[0].Panels, Key: w.Runs[0].Key, Area: geom.Polygon{
			{X: left, Y: some(100, 400)}, {X: right, Y: some(100, 400)}, {X: right, Y: some(450, 950)}, {X: left, Y: some(450, 950)}}.Normalized()}
	}
	return j
}

func TestEveryClipOfAnyJobKeepsTheHardLimits(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	clips, bare := 0, 0
	for range 120 {
		j := wild(r)
		l, _, err := layout.Make(j)
		if err != nil {
			continue
		}
		p := &record{Job: j, Layout: l}
		p.place()
		radius := j.Screws.Marker / 2
		for i := range p.Panels {
			panel := &p.Panels[i]
			board := panel.Outline.Add(geom.Point{}.Sub(panel.Origin()))
			if len(panel.Clips) == 0 {
				bare++
				require.Contains(t, p.IDs(), "no-place")
			}
			for n, c := range panel.Clips {
				clips++
				require.Equal(t, panel.Origin().Add(c.Board).Sub(j.Clip.Offset), c.Wall)
				half := geom.Pt(j.Clip.Board.Base.W/2, j.Clip.Board.Base.H/2)
				base := geom.Rect{Min: c.Board.Sub(half), Max: c.Board.Add(half)}
				away, _ := reference.Distance(sample.Refer(t, board).Boundary(), sample.Refer(t, base.Polygon()))
				require.GreaterOrEqual(t, away, j.Clips.Clear.Millimetres()-1e-3)
				require.True(t, board.ContainsPoint(c.Board))
				require.Len(t, c.WallHoles, len(j.Clip.Wall.Holes))
				for _, k := range p.Walls[0].KeepOuts {
					for _, h := range c.WallHoles {
						dx, dy := max(k.Zone.Min.X-h.X, h.X-k.Zone.Max.X, 0), max(k.Zone.Min.Y-h.Y, h.Y-k.Zone.Max.Y, 0)
						require.GreaterOrEqual(t, geom.Point{}.Distance(geom.Pt(dx, dy)), radius, "%s in %s", c.Place, k.Name)
					}
					onWall := geom.R(c.Wall.X-20*mm, c.Wall.Y-20*mm, c.Wall.X+20*mm, c.Wall.Y+20*mm)
					require.False(t, k.Kind == layout.AroundFitting && k.Body.InteriorIntersects(onWall))
				}
				for _, d := range panel.Clips[:n] {
					require.False(t, (c.Board.X-d.Board.X).Abs() < 40*mm && (c.Board.Y-d.Board.Y).Abs() < 40*mm, "bases lie over each other")
					require.NotEqual(t, d.Place, c.Place)
				}
				if c.On == layout.OnLining {
					require.Equal(t, -1, c.Member)
				} else {
					m := p.Walls[0].Members[c.Member]
					require.Equal(t, c.On == layout.OnRail, m.Rail)
					for _, h := range c.WallHoles {
						require.True(t, m.Safe.ContainsPoint(h))
					}
				}
			}
		}
	}
	assert.Greater(t, clips, 700)
	assert.Greater(t, bare, 0)
}

func TestAWallHalfStaysOnTheWall(t *testing.T) {
	// The board ends at the wall's left end; the wall half stands 30 mm further left than the board half.
	w := sample.WallOf("A", 2000*mm, 2000*mm, sample.Row("A", 0, 500*mm, 500*mm, 1000*mm, 1, 0))
	j := sample.Clipped(w)
	j.Board.Saw, j.Clips.Clear, j.Clips.Step = mm, 5*mm, mm
	j.Clip.Offset = geom.Pt(30*mm, 0)
	p := placed(t, j)
	require.Len(t, p.Panels[0].Clips, 4)
	for _, c := range p.Panels[0].Clips {
		assert.GreaterOrEqual(t, c.Wall.X-j.Clip.Wall.Base.W/2, geom.Length(0))
	}
	assert.Equal(t, 50*mm, p.Panels[0].Clips[0].Board.X.Ceil(mm), "30 mm and half a base of 38.1 mm, to the next step")
}

func TestSpacingThatBasesForbidIsTold(t *testing.T) {
	j := sample.Clipped(sample.Panelled(nil, 20*inch))
	j.Clips.Spacing = 25 * inch / 16 // 14 1/2 in between the outer middles: ten parts are too wide, and nine clips between too close
	p := placed(t, j)
	require.Contains(t, p.IDs(), "limits-clash")
	j.Clips.Spacing = 3 * inch
	assert.NotContains(t, placed(t, j).IDs(), "limits-clash")
}

// A keep-out pushes the left column in; by hand: the pipe's zone ends at 3 in, the hole's circle is 1/8 in wide, so the
// left column stands at 3 1/16 in; symmetry comes before the widest stance, so the right one does too.
func TestWhatPushesOneColumnInPushesItsTwin(t *testing.T) {
	w := sample.Panelled(nil, 20*inch)
	w.KeepOuts = []job.KeepOut{{Name: "pipe", Rect: geom.R(inch, 0, 2*inch, 90*inch), Margin: inch}}
	p := placed(t, sample.Clipped(w))
	at := 49 * inch / 16
	for _, c := range p.Panels[0].Clips {
		assert.Contains(t, []geom.Length{at, 20*inch - at}, c.Board.X)
	}
}
