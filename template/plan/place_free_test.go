package plan

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// shaped is a job in millimetres with a step of 10 mm and one panel of the given outline.
func shaped(studs []geom.Length, outline geom.Polygon) *job.Job {
	w := wallOf("A", 3000*mm, 2500*mm, job.Run{Name: "A", Area: outline.Normalized(), Panels: 1})
	w.Studs = job.Members{At: studs, Width: 38 * mm, Margin: 10 * mm, Given: true}
	j := clipped(w)
	half := job.Half{Base: geom.Size{W: 40 * mm, H: 40 * mm}, Holes: []geom.Point{{}}}
	j.Units, j.Board.Saw = geom.Metric, mm
	j.Clip.Board, j.Clip.Wall = half, half
	j.Clips = job.Clips{Number: 4, Clear: 20 * mm, Spacing: 600 * mm, Step: 10 * mm}
	j.Screws.Marker = 3 * mm
	return j
}

// pinned places one panel with that outline on the wall without going through the division of areas.
func pinned(j *job.Job, outline geom.Polygon) *Plan {
	p := &Plan{Job: j, Walls: []Wall{{Job: &j.Walls[0], Runs: []int{0}}}}
	p.Runs = []Run{{Job: &j.Walls[0].Runs[0], Name: "A", Panels: []int{0}}}
	p.Panels = []Panel{{Name: "A1", Finished: outline.Normalized(), Outline: outline.Normalized(), Board: -1}}
	p.place()
	return p
}

// gauge is the least distance from the base of a clip to the outline, sampled every half millimetre along both; an
// independent and cruder measure than the plan's.
func gauge(outline geom.Polygon, at geom.Point, base geom.Size) float64 {
	half := [2]float64{base.W.Millimetres() / 2, base.H.Millimetres() / 2}
	least := math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		n := int(math.Hypot((b.X-a.X).Millimetres(), (b.Y-a.Y).Millimetres())*2) + 1
		for k := range n + 1 {
			f := float64(k) / float64(n)
			x, y := a.X.Millimetres()*(1-f)+b.X.Millimetres()*f, a.Y.Millimetres()*(1-f)+b.Y.Millimetres()*f
			dx, dy := math.Abs(x-at.X.Millimetres())-half[0], math.Abs(y-at.Y.Millimetres())-half[1]
			least = min(least, math.Hypot(max(dx, 0), max(dy, 0)))
		}
	}
	return least
}

func shapes() map[string]geom.Polygon {
	pt := func(c ...geom.Length) (p geom.Polygon) {
		for i := 0; i < len(c); i += 2 {
			p = append(p, geom.Pt(c[i]*mm, c[i+1]*mm))
		}
		return p
	}
	return map[string]geom.Polygon{
		"right triangle":     pt(100, 100, 600, 100, 100, 500),
		"isosceles triangle": pt(100, 100, 700, 100, 400, 500),
		"trapezoid":          pt(100, 100, 500, 100, 500, 600, 100, 350),
		"L":                  pt(100, 100, 600, 100, 600, 300, 300, 300, 300, 550, 100, 550),
		"U":                  pt(100, 100, 600, 100, 600, 500, 400, 500, 400, 300, 300, 300, 300, 500, 100, 500),
		"corner cut away":    pt(220, 100, 600, 100, 600, 500, 100, 500, 100, 220),
	}
}

func TestClipsOfAnyOutlineStayClearOfItsEdges(t *testing.T) {
	for name, outline := range shapes() {
		j := shaped([]geom.Length{300 * mm}, outline)
		p := pinned(j, outline)
		panel := &p.Panels[0]
		require.GreaterOrEqual(t, len(panel.Clips), 3, name)
		require.Positive(t, hull(middles(panel)).TwiceArea().Sign(), "%s: not in one line", name)
		board := panel.Outline.Add(geom.Point{}.Sub(panel.Corner0()))
		for i, c := range panel.Clips {
			assert.GreaterOrEqual(t, gauge(board, c.Board, j.Clip.Board.Base), 20.0-1e-9, "%s %s", name, c.Place)
			assert.True(t, surrounds(board, c.Board), name)
			for _, d := range panel.Clips[:i] {
				assert.False(t, (c.Board.X-d.Board.X).Abs() < 40*mm && (c.Board.Y-d.Board.Y).Abs() < 40*mm, name)
				assert.NotEqual(t, d.Place, c.Place, name)
			}
		}
	}
}

// A quarter that has no room goes without; the others take the widest stance there is.
func TestNoFreeStepsGiveAWiderStanceWithoutWood(t *testing.T) {
	for name, outline := range shapes() {
		if name == "isosceles triangle" || name == "U" {
			continue // symmetry comes before the widest stance there
		}
		j := shaped(nil, outline)
		p := pinned(j, outline)
		y := p.yardOf(&p.Walls[0], outline)
		var free [4][]geom.Point
		corners := y.corners()
		for i, c := range corners {
			if c == nil {
				continue
			}
			for _, u := range y.steps(y.size.W, y.base.W, c.right) {
				for _, v := range y.steps(y.size.H, y.base.H, c.top) {
					if at := geom.Pt(u, v); near(at, c, corners) && gauge(y.outline, at, y.base) >= 20-1e-9 && surrounds(y.outline, at) {
						free[i] = append(free[i], at)
					}
				}
			}
		}
		got := hull(middles(&p.Panels[0])).Area()
		// Widest by ascent from many random starts, an independent search: each clip in turn goes where it serves best.
		r := rand.New(rand.NewSource(1))
		best := 0.0
		for range 10 {
			var at []geom.Point
			var of [][]geom.Point
			for _, f := range free {
				if len(f) > 0 {
					at, of = append(at, f[r.Intn(len(f))]), append(of, f)
				}
			}
			for changed := true; changed; {
				changed = false
				for i := range at {
					for _, q := range of[i] {
						was, old := hull(at).Area(), at[i]
						if at[i] = q; hull(at).Area() <= was+1e-6 {
							at[i] = old
						} else {
							changed = true
						}
					}
				}
			}
			best = max(best, hull(at).Area())
		}
		assert.InDelta(t, best, got, 1e-3, name)
	}
}

func TestASymmetricBoardOfAnyOutlineHasASymmetricPattern(t *testing.T) {
	for _, name := range []string{"isosceles triangle", "U"} {
		outline := shapes()[name]
		p := pinned(shaped(nil, outline), outline)
		size := outline.Bounds().W()
		places := map[geom.Point]bool{}
		for _, c := range p.Panels[0].Clips {
			places[c.Board] = true
		}
		for at := range places {
			assert.True(t, places[geom.Pt(size-at.X, at.Y)], "%s: %v has no twin", name, at)
		}
	}
}

// The studs stand 80 and 330 mm from the left of the board.
func TestClipsOfASlopedBoardGoToWood(t *testing.T) {
	outline := shapes()["trapezoid"]
	p := pinned(shaped([]geom.Length{180 * mm, 430 * mm}, outline), outline)
	require.Len(t, p.Panels[0].Clips, 4)
	for _, c := range p.Panels[0].Clips {
		assert.Equal(t, OnStud, c.On, c.Place)
		assert.Contains(t, []geom.Length{80 * mm, 330 * mm}, c.Board.X)
	}
}

func TestALargeSlopedBoardKeepsTheSpacing(t *testing.T) {
	outline := geom.Polygon{{X: 0, Y: 0}, {X: 1500 * mm, Y: 0}, {X: 1500 * mm, Y: 1500 * mm}, {X: 0, Y: 700 * mm}}
	p := pinned(shaped(nil, outline), outline)
	clips := p.Panels[0].Clips
	require.Greater(t, len(clips), 8)
	for _, c := range clips {
		near := math.Inf(1)
		for _, d := range clips {
			if c.Board != d.Board {
				near = min(near, c.Board.Distance(d.Board).Millimetres())
			}
		}
		assert.LessOrEqual(t, near, 610.0, c.Place)
	}
}

func TestTooSmallATriangleSaysThatItStandsOnOneLine(t *testing.T) {
	outline := geom.Polygon{{X: 0, Y: 0}, {X: 160 * mm, Y: 0}, {X: 0, Y: 160 * mm}}
	p := pinned(shaped(nil, outline), outline)
	assert.Contains(t, ids(p), "few-clips")
	outline = geom.Polygon{{X: 0, Y: 0}, {X: 100 * mm, Y: 0}, {X: 0, Y: 100 * mm}}
	p = pinned(shaped(nil, outline), outline)
	assert.Contains(t, ids(p), "no-place")
}

func TestDistancesToSlopedEdgesAreTrue(t *testing.T) {
	base := geom.R(0, 0, 40*mm, 40*mm)
	// The line from (60, 0) to (0, 80) has its normal along (4, 3)/5: the corner (40, 40) lies (4·40 + 3·40 − 240)/5 =
	// 8 mm beyond it.
	assert.True(t, nearer(base, geom.Pt(60*mm, 0), geom.Pt(0, 80*mm), mm), "it cuts the base")
	// Moved out by 125 mm along x: (160 + 120 − 740)/5 = −92 mm.
	// Made longer both ways, so that the foot of the normal lies on it.
	a, b := geom.Pt(245*mm, -80*mm), geom.Pt(65*mm, 160*mm)
	assert.False(t, nearer(base, a, b, 92*mm))
	assert.True(t, nearer(base, a, b, 92*mm+1000))
	// A corner of the outline: 30 and 40 mm away, so 50 mm.
	assert.False(t, nearer(base, geom.Pt(70*mm, 80*mm), geom.Pt(200*mm, 81*mm), 50*mm))
	assert.True(t, nearer(base, geom.Pt(70*mm, 80*mm), geom.Pt(200*mm, 81*mm), 50*mm+1000))
}

// sweep leaves places out; none of those may be free.
func TestSweepingLeavesOutNoFreePlace(t *testing.T) {
	for name, outline := range shapes() {
		j := shaped(nil, outline)
		j.Clips.Step = 2 * mm
		j.Walls[0].KeepOuts = []job.KeepOut{{Name: "pipe", Rect: geom.R(180*mm, 0, 230*mm, 140*mm)}}
		p := pinned(j, outline)
		y := p.yardOf(&p.Walls[0], outline)
		corners := y.corners()
		for _, c := range corners {
			if c == nil {
				continue
			}
			xs := y.steps(y.size.W, y.base.W, c.right)
			for _, v := range y.steps(y.size.H, y.base.H, c.top) {
				first, last := -1, -1
				for i, u := range xs {
					if at := geom.Pt(u, v); near(at, c, corners) && y.free(at) {
						if last = i; first < 0 {
							first = i
						}
					}
				}
				from, to := span(xs, v, c, corners)
				got, ok := y.sweep(xs, v, from, to, 1)
				require.Equal(t, first >= 0, ok, name)
				if ok {
					require.Equal(t, first, got, name)
					got, _ = y.sweep(xs, v, to-1, from-1, -1)
					require.Equal(t, last, got, name)
				}
			}
		}
	}
}

func TestEqualSlopedBoardsShareTheirPlacesWhenOnePatternIsWished(t *testing.T) {
	outline := shapes()["trapezoid"].Normalized()
	for _, studs := range []bool{false, true} {
		j := shaped([]geom.Length{170 * mm, 1100 * mm}, outline)
		j.Clips.Studs = studs
		p := &Plan{Job: j, Walls: []Wall{{Job: &j.Walls[0], Runs: []int{0}}}}
		p.Runs = []Run{{Job: &j.Walls[0].Runs[0], Name: "A", Panels: []int{0, 1}}}
		for _, o := range []geom.Polygon{outline, outline.Add(geom.Pt(600*mm, 0))} {
			p.Panels = append(p.Panels, Panel{Name: "A", Finished: o, Outline: o, Board: -1})
		}
		p.place()
		assert.Equal(t, !studs, assert.ObjectsAreEqual(middles(&p.Panels[0]), middles(&p.Panels[1])))
	}
}
