package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestClipsOfRectilinearShapesAreExact(t *testing.T) {
	p := ellShape()
	at := func(v Length) Length { return v * Millimetre }
	for name, c := range map[string]struct{ got, want []Polygon }{
		"right of the step":       {p.RightOf(at(500)), []Polygon{mmRect(500, 0, 1000, 300).Polygon()}},
		"left of the step":        {p.LeftOf(at(500)), []Polygon{mmRect(0, 0, 500, 600).Polygon()}},
		"right, off the step":     {p.RightOf(at(400)), []Polygon{mm(400, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 400, 600)}},
		"above the step":          {p.Above(at(300)), []Polygon{mmRect(0, 300, 500, 600).Polygon()}},
		"below the step":          {p.Below(at(300)), []Polygon{mmRect(0, 0, 1000, 300).Polygon()}},
		"right of nothing":        {p.RightOf(at(0)), []Polygon{p}},
		"right of far left":       {p.RightOf(at(-50)), []Polygon{p}},
		"right of everything":     {p.RightOf(at(1000)), nil},
		"right of far right":      {p.RightOf(at(2000)), nil},
		"left of everything":      {p.LeftOf(at(0)), nil},
		"above everything":        {p.Above(at(600)), nil},
		"below everything":        {p.Below(at(-1)), nil},
		"in a window":             {p.Clip(mmRect(400, 200, 600, 400)), []Polygon{mm(400, 200, 600, 200, 600, 300, 500, 300, 500, 400, 400, 400)}},
		"in a window beside it":   {p.Clip(mmRect(600, 300, 900, 500)), nil},
		"in a window of no width": {p.Clip(mmRect(100, 0, 100, 500)), nil},
		"in an ill-formed window": {p.Clip(mmRect(200, 0, 100, 500)), nil},
		"of a dumbbell, its ends": {dumbbell().Above(at(200)), []Polygon{mmRect(0, 200, 300, 300).Polygon(), mmRect(700, 200, 1000, 300).Polygon()}},
		"of a clockwise outline":  {mm(0, 1, 1, 1, 1, 0, 0, 0).RightOf(500_000), []Polygon{{{500_000, 0}, {Millimetre, 0}, {Millimetre, Millimetre}, {500_000, Millimetre}}}},
		"of nothing":              {Polygon(nil).RightOf(0), nil},
	} {
		assert.Equal(t, c.want, c.got, name)
	}
}

func TestCutsOnSlopesAreRoundedToTheNanometre(t *testing.T) {
	p := mm(0, 0, 3, 0, 0, 1)
	assert.Equal(t, []Polygon{{{0, 0}, {Millimetre, 0}, {Millimetre, 666_667}, {0, Millimetre}}}, p.LeftOf(Millimetre))
	assert.Equal(t, []Polygon{{{Millimetre, 0}, {3 * Millimetre, 0}, {Millimetre, 666_667}}}, p.RightOf(Millimetre),
		"both sides of a cut have the same corners")
}

func TestSubtract(t *testing.T) {
	p := ellShape()
	for _, c := range []struct {
		name string
		p    Polygon
		r    Rect
		want []Polygon
		hole bool
	}{
		{"a notch in the foot", p, mmRect(100, 0, 200, 50),
			[]Polygon{mm(0, 0, 100, 0, 100, 50, 200, 50, 200, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600)}, false},
		{"a notch by a rectangle that juts out", p, mmRect(100, -70, 200, 50),
			[]Polygon{mm(0, 0, 100, 0, 100, 50, 200, 50, 200, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600)}, false},
		{"a corner cut off", p, mmRect(0, 0, 100, 100),
			[]Polygon{mm(100, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600, 0, 100, 100, 100)}, false},
		{"from side to side", p, mmRect(0, 100, 1000, 200),
			[]Polygon{mmRect(0, 0, 1000, 100).Polygon(), mm(0, 200, 1000, 200, 1000, 300, 500, 300, 500, 600, 0, 600)}, false},
		{"from top to bottom", p, mmRect(100, -5, 200, 900),
			[]Polygon{mmRect(0, 0, 100, 600).Polygon(), mm(200, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 200, 600)}, false},
		{"inside", p, mmRect(100, 100, 200, 200), nil, true},
		{"inside, on the inner corner", p, mmRect(400, 200, 500, 300), nil, true},
		{"inside, on the middle of an edge by its corner", mm(0, 0, 200, 0, 0, 200), mmRect(50, 50, 100, 100), nil, true},
		{"inside, on two edges by its corners", mm(0, 0, 400, 0, 200, 200), mmRect(100, 50, 300, 100),
			[]Polygon{mm(0, 0, 400, 0, 300, 100, 300, 50, 100, 50, 100, 100), mm(100, 100, 300, 100, 200, 200)}, false},
		{"at the inner corner", p, mmRect(500, 200, 600, 300),
			[]Polygon{mm(0, 0, 1000, 0, 1000, 300, 600, 300, 600, 200, 500, 200, 500, 600, 0, 600)}, false},
		{"in the nook outside", p, mmRect(500, 300, 1000, 600), []Polygon{p}, false},
		{"beside it, along an edge", p, mmRect(-50, 0, 0, 600), []Polygon{p}, false},
		{"beside it, corner to corner", p, mmRect(-50, -50, 0, 0), []Polygon{p}, false},
		{"far away", p, mmRect(5000, 0, 6000, 10), []Polygon{p}, false},
		{"all of it", p, mmRect(-1, -1, 2000, 2000), nil, false},
		{"all of it, just", p, mmRect(0, 0, 1000, 600), nil, false},
		{"a rectangle of no width", p, mmRect(100, -5, 100, 900), []Polygon{p}, false},
		{"an ill-formed one", p, mmRect(200, 0, 100, 300), []Polygon{p}, false},
		{"the passage of a dumbbell", dumbbell(), mmRect(300, 0, 700, 300),
			[]Polygon{mmRect(0, 0, 300, 300).Polygon(), mmRect(700, 0, 1000, 300).Polygon()}, false},
		{"one room of a dumbbell", dumbbell(), mmRect(0, 0, 300, 300),
			[]Polygon{mm(700, 0, 1000, 0, 1000, 300, 700, 300, 700, 200, 300, 200, 300, 100, 700, 100)}, false},
		{"a clockwise outline", mm(0, 600, 500, 600, 500, 300, 1000, 300, 1000, 0, 0, 0), mmRect(0, 300, 500, 600),
			[]Polygon{mmRect(0, 0, 1000, 300).Polygon()}, false},
		{"nothing", nil, mmRect(0, 0, 1, 1), nil, false},
	} {
		got, hole := c.p.Subtract(c.r)
		assert.Equal(t, c.hole, hole, c.name)
		assert.Equal(t, c.want, got, c.name)
	}
}

func TestWithoutSplitsWhereAHoleWouldBe(t *testing.T) {
	p := mmRect(0, 0, 300, 300).Polygon()
	assert.Equal(t, []Polygon{
		mm(0, 0, 300, 0, 300, 150, 200, 150, 200, 100, 100, 100, 100, 150, 0, 150),
		mm(0, 150, 100, 150, 100, 200, 200, 200, 200, 150, 300, 150, 300, 300, 0, 300),
	}, p.Without(0, mmRect(100, 100, 200, 200)), "split at the middle height, both halves notched")
	assert.Equal(t, []Polygon{mm(0, 0, 100, 0, 100, 200, 200, 200, 200, 0, 300, 0, 300, 300, 0, 300)},
		p.Without(0, mmRect(100, 100, 200, 200), mmRect(100, 0, 200, 100)), "together they reach the edge: no split")
	assert.Equal(t, []Polygon{p}, p.Without(0))
	assert.Equal(t, []Polygon{p}, p.Without(0, mmRect(400, 0, 500, 100)))
	assert.Empty(t, p.Without(0, mmRect(0, 0, 300, 300)))
	assert.Empty(t, Polygon(nil).Without(0, mmRect(0, 0, 300, 300)))
	ring := p.Without(0, mmRect(50, 50, 250, 100), mmRect(50, 200, 250, 250), mmRect(50, 50, 100, 250), mmRect(200, 50, 250, 250))
	assert.Equal(t, 300.0*300-200*200+100*100, area(ring), "what four rectangles fence in is a piece too")
	assert.Contains(t, ring, mmRect(100, 100, 200, 200).Polygon())
}

func TestWithoutLeavesAGapWhereItSplits(t *testing.T) {
	gap := 10 * Millimetre
	assert.Equal(t, []Polygon{
		mm(0, 0, 300, 0, 300, 145, 200, 145, 200, 100, 100, 100, 100, 145, 0, 145),
		mm(0, 155, 100, 155, 100, 200, 200, 200, 200, 155, 300, 155, 300, 300, 0, 300),
	}, mmRect(0, 0, 300, 300).Polygon().Without(gap, mmRect(100, 100, 200, 200)))

	u := mm(0, 0, 500, 0, 500, 400, 300, 400, 300, 100, 200, 100, 200, 400, 0, 400)
	assert.Equal(t, []Polygon{
		mm(0, 0, 500, 0, 500, 400, 300, 400, 300, 100, 200, 100, 200, 245, 150, 245, 150, 200, 50, 200, 50, 245, 0, 245),
		mm(0, 255, 50, 255, 50, 300, 150, 300, 150, 255, 200, 255, 200, 400, 0, 400),
	}, u.Without(gap, mmRect(50, 200, 150, 300)), "the other limb of a U at the same height stays whole")
}

func totalArea(pieces []Polygon) Product {
	var twice Product
	for _, q := range pieces {
		twice = twice.plus(q.TwiceArea())
	}
	return twice
}

func area(pieces []Polygon) (sum float64) {
	for _, p := range pieces {
		sum += p.Area()
	}
	return sum
}

// Whatever is cut away and what is left make up the whole, are simple and lie in it: exactly so when rectilinear.
func TestCutsLoseNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 1))
	for n := range 400 {
		p := randomStairs(random, 1+random.IntN(8), Millimetre)
		b := p.Bounds()
		x := b.Min.X + Length(random.Int64N(int64(b.W()/Millimetre)+1))*Millimetre
		y := b.Min.Y + Length(random.Int64N(int64(b.H()/Millimetre)+1))*Millimetre
		r := Rect{Pt(x, y), Pt(x+Length(1+random.IntN(8))*Millimetre, y+Length(1+random.IntN(8))*Millimetre)}
		for name, pieces := range map[string][]Polygon{
			"left and right":  append(p.LeftOf(x), p.RightOf(x)...),
			"above and below": append(p.Above(y), p.Below(y)...),
			"in and out":      append(p.Clip(r), p.Without(0, r)...),
		} {
			require.Equal(t, p.TwiceArea(), totalArea(pieces), "%d %s: %v less %v", n, name, p, r)
			for _, q := range pieces {
				_, _, crosses := q.SelfIntersection()
				require.False(t, crosses)
				require.True(t, p.ContainsPolygon(q), "%v in %v", q, p)
				require.Equal(t, q, q.Normalized())
			}
		}
		for _, q := range p.Without(0, r) {
			require.Empty(t, q.Clip(r), "nothing of the rectangle is left")
		}
	}
}

// An outline that crosses itself gives no right answer, but an answer.
func TestCutsOfCrossedOutlinesEnd(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 2))
	for range 5000 {
		p := make(Polygon, 3+random.IntN(8))
		for i := range p {
			p[i] = Pt(Length(random.IntN(10)), Length(random.IntN(10)))
		}
		x, y := Length(random.IntN(10)), Length(random.IntN(10))
		r := R(x, y, x+Length(random.IntN(5)), y+Length(random.IntN(5)))
		assert.NotPanics(t, func() {
			p.Subtract(r)
			p.Without(Length(random.IntN(3)), r, r.Add(Pt(1, 1)))
			p.Clip(r)
		})
	}
}
