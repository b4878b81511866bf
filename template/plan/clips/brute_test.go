package clips

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

// tally is the wishes for clip places in their order, worked out clip by clip from the plan's own walls: wood, symmetry
// across and up, stance, nearness to centre lines, low, left. More is better in every place.
type tally [7]int64

func (a tally) over(b tally) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] > b[i]
		}
	}
	return false
}

// tallyOf judges a pattern of two columns and two rows for some panels; ok is false when a hard limit is broken.
func tallyOf(p *record, panels []int, xs, ys [2]geom.Length) (result tally, ok bool) {
	size := p.Panels[panels[0]].Outline.Bounds().Size()
	base := p.Job.Clip.Board.Base
	if xs[1]-xs[0] < base.W || ys[1]-ys[0] < base.H || xs[1]-xs[0] > p.Job.Clips.Spacing || ys[1]-ys[0] > p.Job.Clips.Spacing {
		return result, false
	}
	for _, index := range panels {
		panel := &p.Panels[index]
		wall := &p.Walls[panel.Wall]
		for _, x := range xs {
			for _, y := range ys {
				c := p.clip(panel, geom.Pt(x, y))
				for _, k := range wall.KeepOuts {
					for _, h := range c.WallHoles {
						if k.Zone.Inset(-p.Job.Screws.Marker / 2).InteriorIntersects(geom.Rect{Min: h, Max: h}.Inset(-1)) {
							return result, false
						}
					}
					w := p.Job.Clip.Wall.Base
					if k.Kind != "cables" && k.Kind != "keep-out" &&
						k.Body.InteriorIntersects(geom.R(c.Wall.X-w.W/2, c.Wall.Y-w.H/2, c.Wall.X+w.W/2, c.Wall.Y+w.H/2)) {
						return result, false
					}
				}
				if c.On != layout.OnLining {
					result[0]++
				}
				if c.On == layout.OnStud {
					off := geom.Longest
					for _, m := range wall.Members {
						if !m.Rail && m.Holds(c.WallHoles) {
							off = min(off, (c.Wall.X - m.Centre).Abs())
						}
					}
					result[4] -= int64(off)
				}
			}
		}
	}
	if xs[0] == size.W-xs[1] {
		result[1] = 1
	}
	if ys[0] == size.H-ys[1] {
		result[2] = 1
	}
	result[3] = int64((xs[1] - xs[0]) / mm * ((ys[1] - ys[0]) / mm))
	result[5] = -int64(ys[0] + ys[1])
	result[6] = -int64(xs[0] + xs[1])
	return result, true
}

// brute tries every step of every column and row within the stance floor.
func brute(p *record, panels []int) (xs, ys [2]geom.Length, best tally, found bool) {
	size := p.Panels[panels[0]].Outline.Bounds().Size()
	step := p.Job.Clips.Step
	pairs := func(length, base geom.Length) (all [][2]geom.Length) {
		near := (p.Job.Clips.Clear + base/2).Ceil(step)
		far := min(max(p.Job.Clips.Spacing/2, near), length/2)
		for low := near; low <= far; low += step {
			for high := near; high <= far; high += step {
				if wide := length - low - high; 5*wide >= 2*length || wide == length-2*near {
					all = append(all, [2]geom.Length{low, length - high})
				}
			}
		}
		return all
	}
	rows := pairs(size.H, p.Job.Clip.Board.Base.H)
	for _, x := range pairs(size.W, p.Job.Clip.Board.Base.W) {
		for _, y := range rows {
			if t, ok := tallyOf(p, panels, x, y); ok && (!found || t.over(best)) {
				xs, ys, best, found = x, y, t, true
			}
		}
	}
	return xs, ys, best, found
}

// random is a small job: a coarse step, up to two studs, up to two fittings or cables, one to three panels.
func random(r *rand.Rand) *job.Job {
	some := func(low, high int) geom.Length { return geom.Length(low+r.Intn(high-low+1)) * 5 * mm }
	width, height := some(50, 70), some(40, 56)
	count := 1 + r.Intn(3)
	studs := job.Members{Width: 38 * mm, Margin: 10 * mm, Given: true}
	at := some(0, 40)
	for at < 1200*mm {
		studs.At = append(studs.At, at)
		at += some(20, 90)
	}
	w := sample.WallOf("A", 1200*mm, 1000*mm, job.Run{
		Name: "A", Across: []job.Span{{From: 60 * mm, To: 60*mm + geom.Length(count)*width}}, Panels: count,
		Band: job.Band{Direct: true, Bottom: 300 * mm, Top: 300*mm + height},
	})
	w.Studs = studs
	if r.Intn(2) == 0 {
		w.Rails = job.Members{At: []geom.Length{some(60, 90), some(95, 130)}, Width: 38 * mm, Margin: 10 * mm, Given: true}
	}
	for range r.Intn(3) {
		x, y := some(0, 200), some(40, 130)
		w.Fittings = append(w.Fittings, job.Fitting{Name: "box", Kind: job.Pipe, Rect: geom.R(x, y, x+some(4, 20), y+some(4, 20)), Margin: some(0, 6)})
	}
	half := job.Half{Base: geom.Size{W: 40 * mm, H: 40 * mm}, Holes: []geom.Point{{}}}
	if r.Intn(2) == 0 {
		half.Holes = []geom.Point{{X: -4 * mm}, {X: 4 * mm, Y: 6 * mm}}
	}
	j := &job.Job{
		Units: geom.Metric, Board: job.Board{Thickness: 12 * mm, Saw: mm},
		Clip:   job.Clip{Board: half, Wall: half, Standoff: 8 * mm},
		Clips:  job.Clips{Number: 4, Clear: 20 * mm, Spacing: 600 * mm, Step: 10 * mm, Studs: r.Intn(2) == 0},
		Screws: job.Screws{Marker: 3 * mm},
		Walls:  []job.Wall{w},
	}
	sample.Name(j)
	return j
}

func TestNoStepsAreBetterThanThoseFoundForOnePanel(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	compared := 0
	for range 250 {
		j := random(r)
		j.Walls[0].Runs[0].Across[0].To = 60*mm + (j.Walls[0].Runs[0].Across[0].To-60*mm)/geom.Length(j.Walls[0].Runs[0].Panels)
		j.Walls[0].Runs[0].Panels = 1
		p := placed(t, j)
		xs, ys, want, found := brute(p, []int{0})
		clips := p.Panels[0].Clips
		if !found {
			continue
		}
		require.Len(t, clips, 4)
		gx, gy := [2]geom.Length{clips[0].Board.X, clips[1].Board.X}, [2]geom.Length{clips[0].Board.Y, clips[2].Board.Y}
		got, ok := tallyOf(p, []int{0}, gx, gy)
		require.True(t, ok, "limits are kept")
		require.Equal(t, want[:4], got[:4], "wood, symmetry and stance")
		if len(j.Walls[0].Rails.At) == 0 {
			require.Equal(t, []any{xs, ys}, []any{gx, gy}, "%v against %v", want, got)
		}
		compared++
	}
	assert.Greater(t, compared, 100)
}

func TestNoOnePatternHasMoreWoodThanThatOfTheRun(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	compared := 0
	for range 80 {
		j := random(r)
		j.Clips.Studs = false
		p := placed(t, j)
		all := p.Runs[0].Panels
		if len(all) < 2 {
			continue
		}
		_, _, want, found := brute(p, all)
		one := true
		for _, i := range all {
			one = one && assert.ObjectsAreEqual(middles(&p.Panels[0]), middles(&p.Panels[i]))
		}
		if !found {
			continue
		}
		require.True(t, one, "where one pattern is possible the run has one")
		wood := 0
		for _, i := range all {
			for _, c := range p.Panels[i].Clips {
				if c.On != layout.OnLining {
					wood++
				}
			}
		}
		require.EqualValues(t, want[0], wood)
		compared++
	}
	assert.Greater(t, compared, 20)
}
