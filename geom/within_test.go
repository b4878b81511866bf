package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestContainsCountsTheBorder(t *testing.T) {
	p := ellShape()
	for _, pt := range mm(0, 0, 500, 0, 1000, 300, 500, 300, 500, 450, 250, 600, 100, 100, 750, 300, 400, 300) {
		assert.True(t, p.ContainsPoint(pt), "%v", pt)
	}
	for _, pt := range append(mm(-1, 0, 1001, 0, 750, 301, 501, 450, 250, 601, 1500, 300, -1, 300, -1, 600), Pt(500*Millimetre+1, 300*Millimetre+1)) {
		assert.False(t, p.ContainsPoint(pt), "%v", pt)
	}
	assert.False(t, Polygon(nil).ContainsPoint(Pt(0, 0)))
}

func TestContainsRectAndPolygon(t *testing.T) {
	p := ellShape()
	assert.True(t, p.ContainsRect(mmRect(0, 0, 500, 600)), "borders may touch")
	assert.True(t, p.ContainsRect(mmRect(0, 0, 1000, 300)))
	assert.True(t, p.ContainsPolygon(p))
	assert.False(t, p.ContainsRect(mmRect(400, 200, 600, 400)), "over the inner corner")
	assert.False(t, p.ContainsRect(mmRect(0, 0, 1000, 600)))
	assert.False(t, p.ContainsPolygon(mm(100, 550, 950, 100, 100, 100)), "all corners are in, an edge is not")
	assert.True(t, p.ContainsPolygon(mm(0, 600, 1000, 0, 0, 0)), "an edge through the inner corner itself")
	assert.False(t, p.ContainsPolygon(Polygon{Pt(0, 600*Millimetre), Pt(1000*Millimetre, 1), Pt(0, 0)}))

	notch := mm(0, 0, 300, 0, 300, 100, 200, 100, 200, 50, 100, 50, 100, 100, 0, 100)
	assert.False(t, notch.ContainsRect(mmRect(0, 0, 300, 100)), "all corners are in, a notch is not")
	assert.False(t, notch.ContainsRect(mmRect(100, 50, 200, 100)), "the notch itself")
	assert.True(t, notch.ContainsRect(mmRect(100, 0, 200, 50)), "under the notch")
	assert.True(t, notch.ContainsRect(mmRect(100, 50, 200, 50)), "a line on its edge")
	assert.False(t, notch.ContainsRect(mmRect(50, 60, 250, 60)), "a line across it")
	assert.True(t, notch.ContainsRect(mmRect(50, 60, 50, 60)), "a point")
	assert.False(t, Polygon(nil).ContainsRect(Rect{}))
}

func TestSelfCrossingNamesTwoEdges(t *testing.T) {
	for _, c := range []struct {
		name  string
		p     Polygon
		pairs [][2]int // any of them is a right answer
	}{
		{"a square", mm(0, 0, 1, 0, 1, 1, 0, 1), nil},
		{"a bow tie", mm(0, 0, 2, 2, 2, 0, 0, 2), [][2]int{{0, 2}}},
		{"closed twice", mm(0, 0, 1, 0, 1, 1, 0, 1, 0, 0), nil},
		{"points on edges and twice", mm(0, 0, 1, 0, 1, 0, 2, 0, 3, 0, 3, 3, 0, 3), nil},
		{"a spike along an edge", mm(0, 0, 3, 0, 2, 0, 2, 2, 0, 2), [][2]int{{0, 1}, {0, 2}}},
		{"a spike at the end", mm(0, 0, 2, 0, 2, 2, 0, 2, 0, -1), [][2]int{{3, 4}, {0, 3}}},
		{"two edges that overlap", mm(0, 0, 4, 0, 4, 2, 3, 2, 3, 0, 1, 0, 1, 2, 0, 2), [][2]int{{0, 3}, {0, 4}, {0, 5}}},
		{"a corner on an edge", mm(0, 0, 4, 0, 4, 4, 2, 0, 0, 4), [][2]int{{0, 2}, {0, 3}}},
		{"a corner met twice", mm(0, 0, 2, 2, 4, 0, 4, 4, 2, 2, 0, 4), [][2]int{{0, 3}, {0, 4}, {1, 3}, {1, 4}}},
		{"a line", mm(0, 0, 5, 5), [][2]int{{0, 1}}},
		{"a folded line", mm(0, 0, 2, 0, 1, 0), [][2]int{{0, 1}, {0, 2}}},
		{"a point", mm(1, 1), nil},
		{"nothing", nil, nil},
	} {
		i, j, crosses := c.p.SelfIntersection()
		assert.Equal(t, c.pairs != nil, crosses, c.name)
		if crosses {
			assert.Contains(t, c.pairs, [2]int{i, j}, c.name)
		}
	}
}

// Brute force over all pairs of edges says the same as the sweep.
func TestSelfIntersectionAgreesWithBruteForce(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 4))
	crossed := 0
	for range 3000 {
		p := make(Polygon, 3+random.IntN(6))
		for i := range p {
			p[i] = Pt(Length(random.IntN(12)), Length(random.IntN(12)))
		}
		want := false
		for i := range p {
			for j := range p {
				a, b, c, d := p[i], p[(i+1)%len(p)], p[j], p[(j+1)%len(p)]
				switch {
				case i == j:
				case (i+1)%len(p) == j:
					want = want || a != b && c != d && Orientation(a, b, d) == 0 && Dot(b.Sub(a), d.Sub(c)).Sign() < 0
				case (j+1)%len(p) == i:
				default:
					want = want || Segment{a, b}.meets(Segment{c, d})
				}
			}
		}
		if p.repeats() {
			continue // neighbours over a repeated point are no neighbours to the plain loops above
		}
		_, _, got := p.SelfIntersection()
		require.Equal(t, want, got, "%v", p)
		if got {
			crossed++
		}
	}
	assert.Greater(t, crossed, 500)
}

func (p Polygon) repeats() bool {
	for i, a := range p {
		if a == p[(i+1)%len(p)] {
			return true
		}
	}
	return false
}

func TestClearOfIsExact(t *testing.T) {
	p := mm(0, 0, 400, 0, 400, 300) // hypotenuse along 3-4-5
	// Corner (x, y) lies (300·x − 400·y)/500 from the hypotenuse: (200, 100) lies exactly 40 mm away.
	r := mmRect(200, 50, 220, 100)
	assert.True(t, p.ClearOf(r, 40*Millimetre))
	assert.False(t, p.ClearOf(r, 40*Millimetre+1), "one nanometre too near")
	assert.False(t, p.ClearOf(r.Add(Pt(0, 1)), 40*Millimetre))
	assert.True(t, p.ClearOf(mmRect(200, 40, 220, 100), 40*Millimetre), "and exactly 40 mm from the foot")
	assert.False(t, p.ClearOf(mmRect(200, 40, 220, 100).Add(Pt(0, -1)), 40*Millimetre))
	assert.True(t, p.ClearOf(mmRect(200, 0, 400, 150), 0), "with no clearance the borders may touch")
	assert.True(t, p.ClearOf(mmRect(200, 0, 400, 150), -1))
	assert.False(t, p.ClearOf(mmRect(200, 0, 400, 151), 0))
	assert.False(t, p.ClearOf(mmRect(500, 500, 510, 510), 1), "outside")
	assert.False(t, Polygon(nil).ClearOf(Rect{}, 1))

	ell := ellShape()
	// Near the inner corner (500, 300) the distance is that of a point: 30-40-50.
	assert.True(t, ell.ClearOf(mmRect(400, 200, 470, 260), 50*Millimetre))
	assert.False(t, ell.ClearOf(mmRect(400, 200, 470, 260), 50*Millimetre+1))
	assert.False(t, ell.ClearOf(mmRect(400, 200, 600, 400), Nanometre), "the inner corner lies in the rectangle")
	assert.False(t, ell.ClearOf(mmRect(450, 250, 550, 290), 20*Millimetre), "an edge over the rectangle")
	assert.True(t, ell.ClearOf(mmRect(450, 250, 550, 280), 20*Millimetre))
}

func TestDistanceTo(t *testing.T) {
	p := mm(0, 0, 400, 0, 400, 300)
	assert.Equal(t, 40*Millimetre, p.DistanceTo(mm(200, 100)[0]))
	assert.Equal(t, 50*Millimetre, p.DistanceTo(mm(-30, -40)[0]))
	assert.Equal(t, Length(0), p.DistanceTo(mm(400, 100)[0]))
	assert.Equal(t, 100*Millimetre, p.DistanceTo(mm(500, 300)[0]))
}

func TestDistanceToRect(t *testing.T) {
	r := R(0, 0, 40*Millimetre, 40*Millimetre)
	// The line from (60, 0) to (0, 80) has its normal along (4, 3)/5: the corner (40, 40) lies (4·40 + 3·40 − 240)/5 =
	// 8 mm beyond it.
	assert.Zero(t, Polygon(mm(60, 0, 0, 80)).DistanceToRect(r), "it cuts the rectangle")
	// Moved out by 125 mm along x: (160 + 120 − 740)/5 = −92 mm. It is longer both ways, so that the foot of the normal
	// lies on it.
	assert.Equal(t, 92*Millimetre, Polygon(mm(245, -80, 65, 160)).DistanceToRect(r))
	// An end 30 and 40 mm away: 50 mm.
	assert.Equal(t, 50*Millimetre, Polygon(mm(70, 80, 200, 81)).DistanceToRect(r))
	outline := R(-10*Millimetre, -20*Millimetre, 90*Millimetre, 80*Millimetre).Polygon()
	assert.Equal(t, 10*Millimetre, outline.DistanceToRect(r), "from inside")
	assert.Zero(t, outline.DistanceToRect(R(-20*Millimetre, 0, 0, Millimetre)))
}
