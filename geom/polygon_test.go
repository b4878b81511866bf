package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAreaByTheShoelaceFormula(t *testing.T) {
	// The shoelace (surveyor's) formula, textbook; the pentagon is the usual worked example, area 30 (from memory).
	assert.Equal(t, 30.0, mm(3, 4, 5, 11, 12, 8, 9, 5, 5, 6).Area())
	assert.Equal(t, 450_000.0, ellShape().Area(), "600·500 + 300·500")
	assert.Equal(t, 1.0, mm(0, 0, 0, 1, 1, 1, 1, 0).Area(), "clockwise too")
	assert.Equal(t, -1, mm(0, 0, 0, 1, 1, 1, 1, 0).TwiceArea().Sign())
	assert.Zero(t, Polygon(nil).Area())
	assert.Zero(t, mm(0, 0, 5, 5).Area())
	big := R(-1<<61, -1<<61, 1<<61, 1<<61).Polygon()
	assert.Equal(t, math.Pow(2, 124)/1e12, big.Area(), "no overflow")
}

// Pick's theorem (1899): A = I + B/2 − 1 for a simple polygon with its corners on a lattice of I inner points and B
// border points. Contains and the area are two ways to the same number.
func TestPicksTheorem(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 1899))
	for range 60 {
		p := randomPolygon(random, 4+random.IntN(9), 20, 2)
		inside, border := 0, 0
		for x := Length(0); x <= 40; x += 2 {
			for y := Length(0); y <= 40; y += 2 {
				switch pt := Pt(x, y); {
				case p.DistanceTo(pt) == 0 && onOutline(p, pt):
					border++
					require.True(t, p.ContainsPoint(pt), "the border belongs to the polygon")
				case p.ContainsPoint(pt):
					inside++
				}
			}
		}
		twice, _ := p.TwiceArea().big().Float64()
		require.Equal(t, twice/8, float64(inside)+float64(border)/2-1, "%v", p)
	}
}

func onOutline(p Polygon, q Point) bool {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if Orientation(a, b, q) == 0 && Dot(q.Sub(a), q.Sub(b)).Sign() <= 0 {
			return true
		}
	}
	return false
}

func TestCanonicalForm(t *testing.T) {
	want := ellShape()
	for name, p := range map[string]Polygon{
		"as it is":             ellShape(),
		"clockwise":            mm(0, 600, 500, 600, 500, 300, 1000, 300, 1000, 0, 0, 0),
		"closed twice":         append(ellShape(), Pt(0, 0)),
		"points on edges":      mm(0, 0, 250, 0, 500, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600, 0, 300),
		"begun on an edge":     mm(0, 300, 0, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600),
		"points twice":         mm(0, 0, 0, 0, 1000, 0, 1000, 300, 1000, 300, 500, 300, 500, 600, 0, 600, 0, 600),
		"with a bent spike":    mm(0, 0, 1000, 0, 1000, 300, 1200, 400, 1300, 300, 1200, 400, 1000, 300, 500, 300, 500, 600, 0, 600),
		"begun in a spike":     mm(-100, -50, -200, 0, -100, -50, 0, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600, 0, 0),
		"spike along an edge":  mm(0, 0, 1500, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600),
		"begun elsewhere":      mm(500, 300, 500, 600, 0, 600, 0, 0, 1000, 0, 1000, 300),
		"clockwise and closed": mm(500, 300, 1000, 300, 1000, 0, 0, 0, 0, 600, 500, 600, 500, 300),
	} {
		assert.Equal(t, want, p.Normalized(), name)
		assert.True(t, want.Equal(p.Normalized()))
	}
	for name, p := range map[string]Polygon{
		"nothing":        nil,
		"a point":        mm(1, 1, 1, 1, 1, 1),
		"a line":         mm(0, 0, 5, 5),
		"a folded line":  mm(0, 0, 5, 5, 9, 9, 3, 3),
		"a bent line":    mm(0, 0, 5, 5, 9, 0, 5, 5),
		"two same lines": mm(0, 0, 5, 0, 0, 0, 5, 0),
	} {
		assert.Nil(t, p.Normalized(), name)
	}
}

func TestCanonDoesNotChangeItsInput(t *testing.T) {
	p := mm(0, 600, 500, 600, 500, 300, 1000, 300, 1000, 0, 500, 0, 0, 0)
	before := slices.Clone(p)
	_ = p.Normalized()
	assert.Equal(t, before, p)
}

func TestMirroredTwinsDiffer(t *testing.T) {
	p := ellShape()
	twin := p.Mirror(1000 * Millimetre)
	assert.Equal(t, mm(0, 0, 1000, 0, 1000, 600, 500, 600, 500, 300, 0, 300), twin)
	assert.False(t, p.Equal(twin))
	assert.True(t, p.Equal(twin.Mirror(1000*Millimetre)))
	assert.Equal(t, Pt(5, 6), p.Add(Pt(5, 6))[0])
	assert.False(t, p.IsRectangle())
	assert.Equal(t, mmRect(0, 0, 1000, 600), p.Bounds())
	assert.Equal(t, Rect{}, Polygon(nil).Bounds())
}

func TestAMappedOutlineKeepsTheOrderOfItsCorners(t *testing.T) {
	p := Polygon{{0, 0}, {30, 0}, {0, 20}}
	assert.Equal(t, Polygon{{50, 0}, {20, 0}, {50, 20}}, p.Map(FlipX(50)))
	assert.Equal(t, p.Mirror(50), p.Map(FlipX(50)).Normalized())
	assert.Equal(t, Polygon{{0, 0}, {30, 0}, {0, 20}}, p, "its input is left alone")
}

func TestMeasuresOfATrapezoid(t *testing.T) {
	p := mm(0, 0, 400, 0, 400, 300, 0, 600) // a board under a slope
	d02, d13, ok := p.Diagonals()
	require.True(t, ok)
	assert.Equal(t, 500*Millimetre, d02, "3-4-5")
	assert.Equal(t, Millimetre.Times(math.Sqrt(400*400+600*600)), d13)
	_, _, ok = ellShape().Diagonals()
	assert.False(t, ok)
	slope := math.Atan2(300, 400) * 180 / math.Pi // 36.87°, the 3-4-5 triangle
	assert.InDelta(t, 90, p.Angle(0), 1e-12)
	assert.InDelta(t, 90, p.Angle(1), 1e-12)
	assert.InDelta(t, 90+slope, p.Angle(2), 1e-12)
	assert.InDelta(t, 90-slope, p.Angle(3), 1e-12)
	assert.Equal(t, 270.0, ellShape().Angle(3), "an inner corner")
}

func TestAnglesAddUp(t *testing.T) { // (n − 2)·180°, Euclid I.32 and its corollary
	random := rand.New(rand.NewPCG(6, 32))
	for range 50 {
		p := randomPolygon(random, 3+random.IntN(12), 500, Millimetre)
		sum := 0.0
		for i := range p {
			sum += p.Angle(i)
		}
		require.InDelta(t, float64(len(p)-2)*180, sum, 1e-9)
	}
}

func TestCentroid(t *testing.T) {
	assert.Equal(t, Pt(500, 300), R(0, 0, 1000, 600).Polygon().Centroid())
	assert.Equal(t, mm(2, 1)[0], mm(0, 0, 6, 0, 0, 3).Centroid(), "a third of the height of a triangle")
	// Composite areas, as handbooks of mechanics have it: Σ A·x / Σ A of the two rectangles of the ell.
	x := (300_000.0*250 + 150_000*750) / 450_000
	y := (300_000.0*300 + 150_000*150) / 450_000
	assert.Equal(t, Pt(Millimetre.Times(x), Millimetre.Times(y)), ellShape().Centroid())
	assert.Equal(t, Pt(5, 0), Polygon{{0, 0}, {10, 0}}.Centroid())
	assert.Equal(t, ellShape().Centroid(), mm(0, 600, 500, 600, 500, 300, 1000, 300, 1000, 0, 0, 0).Centroid())
}

func TestHull(t *testing.T) {
	assert.Equal(t, mm(0, 0, 1000, 0, 1000, 300, 500, 600, 0, 600), Hull(ellShape()))
	assert.Equal(t, R(0, 0, 4, 4).Polygon(), Hull([]Point{{0, 0}, {4, 0}, {2, 0}, {4, 4}, {0, 4}, {2, 2}, {0, 0}, {4, 2}}))
	assert.Empty(t, Hull(nil))
	assert.Equal(t, Polygon{{1, 1}}, Hull([]Point{{1, 1}, {1, 1}}))
	assert.Equal(t, Polygon{{0, 0}, {3, 3}}, Hull([]Point{{1, 1}, {3, 3}, {0, 0}, {2, 2}}), "of points on a line, its ends")
	assert.Equal(t, Polygon{{2, -1}, {2, 7}}, Hull([]Point{{2, 7}, {2, -1}, {2, 3}}))
	random := rand.New(rand.NewPCG(6, 6))
	for range 50 {
		points := randomPolygon(random, 12, 30, 1)
		hull := Hull(points)
		for i := range hull {
			require.Less(t, hull.Angle(i), 180.0)
			require.Contains(t, points, hull[i])
		}
		for _, pt := range points {
			require.True(t, hull.ContainsPoint(pt))
		}
	}
}

func TestSpans(t *testing.T) {
	p := ellShape()
	s := func(fromTo ...Length) (spans []Span) {
		for i := 0; i < len(fromTo); i += 2 {
			spans = append(spans, Span{fromTo[i] * Millimetre, fromTo[i+1] * Millimetre})
		}
		return spans
	}
	at := func(v Length) Length { return v * Millimetre }
	assert.Equal(t, s(0, 1000), p.SpansAtY(at(100)))
	assert.Equal(t, s(0, 1000), p.SpansAtY(at(0)), "the border belongs to it")
	assert.Equal(t, s(0, 1000), p.SpansAtY(at(300)))
	assert.Equal(t, s(0, 500), p.SpansAtY(at(300)+1))
	assert.Equal(t, s(0, 500), p.SpansAtY(at(600)))
	assert.Empty(t, p.SpansAtY(at(600)+1))
	assert.Equal(t, s(0, 600), p.SpansAtX(at(500)))
	assert.Equal(t, s(0, 300), p.SpansAtX(at(500)+1))

	w := mm(0, 0, 400, 0, 400, 200, 300, 100, 200, 200, 100, 100, 0, 200) // three peaks
	assert.Equal(t, s(0, 50, 150, 250, 350, 400), w.SpansAtY(at(150)))
	assert.Equal(t, s(0, 400), w.SpansAtY(at(100)))
	assert.Equal(t, s(0, 0, 200, 200, 400, 400), w.SpansAtY(at(200)), "peaks touch their height in a point")
	assert.Equal(t, s(0, 100), w.SpansAtX(at(100)))

	third := mm(0, 0, 100, 0, 0, 300).SpansAtY(at(100))
	assert.Equal(t, []Span{{0, 66_666_667}}, third, "rounded to the nanometre")
	assert.Equal(t, Length(66_666_667), third[0].Length())
	assert.True(t, third[0].Contains(0))
	assert.False(t, third[0].Contains(-1))
}

// A place is in a span exactly when the point is in the polygon.
func TestSpansAgreeWithContains(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 9))
	for range 60 {
		p := randomPolygon(random, 4+random.IntN(9), 12, 1)
		for y := Length(-1); y <= 12; y++ {
			for x := Length(-1); x <= 12; x++ {
				across, up := false, false
				for _, s := range p.SpansAtY(y) {
					across = across || s.Contains(x)
				}
				for _, s := range p.SpansAtX(x) {
					up = up || s.Contains(y)
				}
				in := p.ContainsPoint(Pt(x, y))
				if across != in || up != in {
					// Ends on slopes are rounded: within half a unit a lattice point may be taken in.
					require.LessOrEqual(t, p.DistanceTo(Pt(x, y)), Length(1), "%v at %v", p, Pt(x, y))
					require.False(t, in, "nothing that is inside is left out")
				}
			}
		}
	}
}
