package placement

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

const mm = geom.Millimetre

// coarse asks for four clips of 40 mm in steps of 10 mm, 20 mm clear.
var coarse = Preferences{
	Number: 4, Clear: 20 * mm, Spacing: 600 * mm, Step: 10 * mm,
	Base: geom.Size{W: 40 * mm, H: 40 * mm}, Apart: geom.Size{W: 40 * mm, H: 40 * mm},
}

// one places the clips of a single board.
func one(outline geom.Polygon, behind Obstacles) []Position {
	return Of(outline, []Obstacles{behind}, coarse)[0].Positions
}

func middles(all []Position) (at []geom.Point) {
	for _, q := range all {
		at = append(at, q.At)
	}
	return at
}

// gauge is the least distance from the base of a clip to the outline, sampled every half millimetre along both; an
// independent and cruder measure than the package's.
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
		return p.Normalized()
	}
	return map[string]geom.Polygon{
		"right triangle":     pt(0, 0, 500, 0, 0, 400),
		"isosceles triangle": pt(0, 0, 600, 0, 300, 400),
		"trapezoid":          pt(0, 0, 400, 0, 400, 500, 0, 250),
		"L":                  pt(0, 0, 500, 0, 500, 200, 200, 200, 200, 450, 0, 450),
		"U":                  pt(0, 0, 500, 0, 500, 400, 300, 400, 300, 200, 200, 200, 200, 400, 0, 400),
		"corner cut away":    pt(120, 0, 500, 0, 500, 400, 0, 400, 0, 120),
	}
}

func TestClipsOfAnyOutlineStayClearOfItsEdges(t *testing.T) {
	for name, outline := range shapes() {
		all := one(outline, Obstacles{Studs: []Interval{{191 * mm, 209 * mm, 200 * mm}}})
		require.GreaterOrEqual(t, len(all), 3, name)
		require.Positive(t, geom.Hull(middles(all)).TwiceArea().Sign(), "%s: not in one line", name)
		for i, q := range all {
			assert.GreaterOrEqual(t, gauge(outline, q.At, coarse.Base), 20.0-1e-9, "%s %v", name, q)
			assert.True(t, outline.ContainsPoint(q.At), name)
			for _, o := range all[:i] {
				assert.False(t, (q.At.X-o.At.X).Abs() < 40*mm && (q.At.Y-o.At.Y).Abs() < 40*mm, name)
				assert.False(t, q.Column == o.Column && q.Row == o.Row && q.Nth == o.Nth, name)
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
		p := newPlacer(outline, Obstacles{}, coarse)
		var free [4][]geom.Point
		corners := p.corners()
		for i, c := range corners {
			if c == nil {
				continue
			}
			xs, ys := p.steps(c)
			for _, u := range xs {
				for _, v := range ys {
					if at := geom.Pt(u, v); near(at, c, corners) && gauge(outline, at, p.Base) >= 20-1e-9 && outline.ContainsPoint(at) {
						free[i] = append(free[i], at)
					}
				}
			}
		}
		got := geom.Hull(middles(one(outline, Obstacles{}))).Area()
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
						was, old := geom.Hull(at).Area(), at[i]
						if at[i] = q; geom.Hull(at).Area() <= was+1e-6 {
							at[i] = old
						} else {
							changed = true
						}
					}
				}
			}
			best = max(best, geom.Hull(at).Area())
		}
		assert.InDelta(t, best, got, 1e-3, name)
	}
}

func TestASymmetricBoardOfAnyOutlineHasASymmetricPattern(t *testing.T) {
	for _, name := range []string{"isosceles triangle", "U"} {
		outline := shapes()[name]
		size := outline.Bounds().W()
		all := middles(one(outline, Obstacles{}))
		for _, at := range all {
			assert.Contains(t, all, geom.Pt(size-at.X, at.Y), "%s: %v has no twin", name, at)
		}
	}
}

// The studs stand 80 and 330 mm from the left of the board.
func TestClipsOfASlopedBoardGoToWood(t *testing.T) {
	all := one(shapes()["trapezoid"], Obstacles{Studs: []Interval{{71 * mm, 89 * mm, 80 * mm}, {321 * mm, 339 * mm, 330 * mm}}})
	require.Len(t, all, 4)
	for _, q := range all {
		assert.Contains(t, []geom.Length{80 * mm, 330 * mm}, q.At.X)
	}
}

func TestALargeSlopedBoardKeepsTheSpacing(t *testing.T) {
	all := one(geom.Polygon{{X: 0, Y: 0}, {X: 1500 * mm, Y: 0}, {X: 1500 * mm, Y: 1500 * mm}, {X: 0, Y: 700 * mm}}, Obstacles{})
	require.Greater(t, len(all), 8)
	for _, q := range all {
		near := math.Inf(1)
		for _, o := range all {
			if q != o {
				near = min(near, q.At.Distance(o.At).Millimetres())
			}
		}
		assert.LessOrEqual(t, near, 610.0, "%v", q)
	}
}

// sweep leaves places out; none of those may be free.
func TestSweepingLeavesOutNoFreePlace(t *testing.T) {
	fine := coarse
	fine.Step = 2 * mm
	for name, outline := range shapes() {
		p := newPlacer(outline, Obstacles{Forbidden: []geom.Rect{geom.R(78*mm, -100*mm, 132*mm, 42*mm)}}, fine)
		corners := p.corners()
		for _, c := range corners {
			if c == nil {
				continue
			}
			xs, ys := p.steps(c)
			for _, v := range ys {
				first, last := -1, -1
				for i, u := range xs {
					if at := geom.Pt(u, v); near(at, c, corners) && p.free(at) {
						if last = i; first < 0 {
							first = i
						}
					}
				}
				from, to := span(xs, v, c, corners)
				got, ok := p.sweep(xs, v, from, to, 1)
				require.Equal(t, first >= 0, ok, name)
				if ok {
					require.Equal(t, first, got, name)
					got, _ = p.sweep(xs, v, to-1, from-1, -1)
					require.Equal(t, last, got, name)
				}
			}
		}
	}
}

func TestEqualSlopedBoardsShareTheirPlacesUnlessEachFollowsItsStuds(t *testing.T) {
	stud := func(at geom.Length) Obstacles { return Obstacles{Studs: []Interval{{at - 9*mm, at + 9*mm, at}}} }
	for _, follow := range []bool{false, true} {
		p := coarse
		p.Follow = follow
		both := Of(shapes()["trapezoid"], []Obstacles{stud(70 * mm), stud(300 * mm)}, p)
		assert.Equal(t, !follow, assert.ObjectsAreEqual(both[0].Positions, both[1].Positions))
	}
}

// The middle column of the first board would stand nearest its stud's centre line at 510 or 520, that of the second at 530;
// at 520 and 530 both are in wood, and nothing that the boards' wishes name is lost by it.
func TestBoardsSharePatternsWhereThatCostsNeitherWoodNorSymmetryNorStance(t *testing.T) {
	p := coarse
	p.Follow = true
	stud := func(low, high geom.Length) Obstacles {
		return Obstacles{Studs: []Interval{{low * mm, high * mm, (low + high) * mm / 2}}}
	}
	board := geom.R(0, 0, 900*mm, 400*mm).Polygon()
	both := Of(board, []Obstacles{stud(496, 526), stud(516, 546)}, p)
	assert.Equal(t, both[0].Positions, both[1].Positions)
	assert.Contains(t, middles(both[0].Positions), geom.Pt(520*mm, 40*mm))
	apart := Of(board, []Obstacles{stud(496, 516), stud(526, 546)}, p)
	assert.NotEqual(t, apart[0].Positions, apart[1].Positions)
	both = Of(board, []Obstacles{stud(496, 526), {}}, p)
	assert.Contains(t, middles(both[1].Positions), geom.Pt(450*mm, 40*mm), "a board without wood keeps its symmetry")
}

// The price of placing does not grow with the fineness of steps.
func BenchmarkOf(b *testing.B) {
	strewn := func(size geom.Length) (many []geom.Rect) {
		r := rand.New(rand.NewSource(1))
		for range 2000 {
			x, y := geom.Length(r.Intn(590))*mm, geom.Length(r.Intn(390))*mm
			many = append(many, geom.R(x, y, x+size, y+size))
		}
		return many
	}
	for _, c := range []struct {
		name   string
		step   geom.Length
		width  geom.Length
		behind Obstacles
	}{
		{"1 mm", mm, 600 * mm, Obstacles{}},
		{"0.01 mm", mm / 100, 600 * mm, Obstacles{}},
		{"0.01 mm, three columns", mm / 100, 900 * mm, Obstacles{}},
		{"2000 small keep-outs", mm, 600 * mm, Obstacles{Forbidden: strewn(3 * mm)}},
		{"2000 larger keep-outs", mm, 600 * mm, Obstacles{Forbidden: strewn(12 * mm)}},
		{"2000 keep-outs all over", mm, 600 * mm, Obstacles{Forbidden: strewn(30 * mm)}},
	} {
		b.Run(c.name, func(b *testing.B) {
			p := coarse
			p.Step, p.Follow = c.step, true
			c.behind.Studs = []Interval{{191 * mm, 209 * mm, 200 * mm}, {491 * mm, 509 * mm, 500 * mm}}
			for range b.N {
				Of(geom.R(0, 0, c.width, 400*mm).Polygon(), []Obstacles{c.behind}, p)
			}
		})
	}
}
