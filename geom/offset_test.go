package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func offset(t *testing.T, p Polygon, d Length) []Polygon {
	t.Helper()
	pieces, err := p.Offset(d, DefaultMitre)
	require.NoError(t, err)
	return pieces
}

func TestRectilinearOffsetsAreExact(t *testing.T) {
	ell := ellShape()
	// Worked by hand: 1100·700 − 500·300 = 620 000 and 900·500 − 500·300 = 300 000 mm².
	assert.Equal(t, 620_000.0, area(offset(t, ell, 50*Millimetre)))
	assert.Equal(t, 300_000.0, area(offset(t, ell, -50*Millimetre)))

	tee := mm(0, 200, 200, 200, 200, 0, 300, 0, 300, 200, 500, 200, 500, 300, 0, 300)
	slot := mm(0, 0, 300, 0, 300, 200, 200, 200, 200, 100, 100, 100, 100, 200, 0, 200) // a U
	for _, c := range []struct {
		name string
		p    Polygon
		d    Length
		want []Polygon
	}{
		{"ell outward", ell, 50, []Polygon{mm(-50, -50, 1050, -50, 1050, 350, 550, 350, 550, 650, -50, 650)}},
		{"ell inward", ell, -50, []Polygon{mm(50, 50, 950, 50, 950, 250, 450, 250, 450, 550, 50, 550)}},
		{"ell, a leg eaten to the last nanometre", ell, -150, []Polygon{mmRect(150, 150, 350, 450).Polygon()}},
		{"ell, a leg more than eaten", ell, -200, []Polygon{mmRect(200, 200, 300, 400).Polygon()}},
		{"ell, all eaten", ell, -250, nil},
		{"ell, more than eaten", ell, -5000, nil},
		{"not moved", ell, 0, []Polygon{ell}},
		{"tee inward", tee, -40, []Polygon{mm(240, 40, 260, 40, 260, 240, 460, 240, 460, 260, 40, 260, 40, 240, 240, 240)}},
		{"tee, all legs eaten at once", tee, -50, nil},
		{"tee outward", tee, 30, []Polygon{mm(170, -30, 330, -30, 330, 170, 530, 170, 530, 330, -30, 330, -30, 170, 170, 170)}},
		{"a U outward", slot, 49, []Polygon{mm(-49, -49, 349, -49, 349, 249, 151, 249, 151, 149, 149, 149, 149, 249, -49, 249)}},
		{"a U outward, its slot closed", slot, 50, []Polygon{mmRect(-50, -50, 350, 250).Polygon()}},
		{"a U outward, its slot more than closed", slot, 70, []Polygon{mmRect(-70, -70, 370, 270).Polygon()}},
		{"a U inward", slot, -30, []Polygon{mm(30, 30, 270, 30, 270, 170, 230, 170, 230, 70, 70, 70, 70, 170, 30, 170)}},
		{"a dumbbell inward", dumbbell(), -49, []Polygon{mm(49, 49, 251, 49, 251, 149, 749, 149, 749, 49, 951, 49, 951, 251, 749, 251, 749, 151, 251, 151, 251, 251, 49, 251)}},
		{"a dumbbell falls in two", dumbbell(), -50, []Polygon{mmRect(50, 50, 250, 250).Polygon(), mmRect(750, 50, 950, 250).Polygon()}},
		{"a clockwise square with a point on an edge", mm(0, 100, 100, 100, 100, 0, 50, 0, 0, 0), 10, []Polygon{mmRect(-10, -10, 110, 110).Polygon()}},
	} {
		assert.Equal(t, c.want, offset(t, c.p, c.d*Millimetre), c.name)
	}
	assert.Equal(t, []Polygon{{
		{150*Millimetre - 1, 150*Millimetre - 1}, {850*Millimetre + 1, 150*Millimetre - 1},
		{850*Millimetre + 1, 150*Millimetre + 1}, {350*Millimetre + 1, 150*Millimetre + 1},
		{350*Millimetre + 1, 450*Millimetre + 1}, {150*Millimetre - 1, 450*Millimetre + 1},
	}}, offset(t, ell, -150*Millimetre+1), "two nanometres of the leg are left, and kept")
}

// The area of a convex polygon moved outward by d with mitred corners is A + P·d + d²·Σ tan(θᵢ/2), θᵢ the angle by
// which the outline turns at corner i. Derivation: beside each edge lies a rectangle of its length by d, together
// P·d; at each corner a kite fills the gap between two rectangles. It is two right-angled triangles with one leg d
// and the angle θ/2 between d and the mitre, so their other leg is d·tan(θ/2) and the kite's area d²·tan(θ/2).
// (For round corners the kites are sectors of θᵢ that add up to one circle: Steiner's A + P·d + π·d².)
func TestMitredOffsetOfConvexPolygons(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 1840))
	for range 300 {
		p := Hull(randomPolygon(random, 4+random.IntN(12), 2000, Millimetre))
		d := Length(1+random.IntN(100)) * Millimetre
		want := p.Area() + p.perimeter()/1e6*d.Millimetres()
		for i := range p {
			want += d.Millimetres() * d.Millimetres() * math.Tan((180-p.Angle(i))/2*math.Pi/180)
		}
		pieces, err := p.Offset(d, 1e6) // no corner is cut
		require.NoError(t, err)
		require.Len(t, pieces, 1)
		require.Len(t, pieces[0], len(p))
		require.InDelta(t, want, pieces[0].Area(), pieces[0].perimeter()*1e-12, "a nanometre along the outline")
	}
}

// A sharp corner of angle α cut square at m·d: of the kite's tip a triangle is cut off whose height is d/sin(α/2) − m·d
// and half whose base is height·tan(α/2).
func TestSharpCornersAreCutSquareAtTheLimit(t *testing.T) {
	p := mm(0, 0, 1000, 0, 0, 100)
	d := 10 * Millimetre
	sharp := p.Angle(1) * math.Pi / 180 // about 5.7°, would run out by 20·d
	whole, err := p.Offset(d, 100)
	require.NoError(t, err)
	cut, err := p.Offset(d, 2)
	require.NoError(t, err)
	height := d.Millimetres()/math.Sin(sharp/2) - 2*d.Millimetres()
	assert.InDelta(t, height*height*math.Tan(sharp/2), whole[0].Area()-cut[0].Area(), whole[0].perimeter()*1e-12,
		"a nanometre along the outline")
	require.Len(t, cut[0], 4)
	axis := math.Atan2(-math.Sin(sharp/2), math.Cos(sharp/2)) // the bisector leads out to the right and down
	for _, corner := range cut[0] {
		out := (corner.X-1000*Millimetre).Millimetres()*math.Cos(axis) + corner.Y.Millimetres()*math.Sin(axis)
		assert.LessOrEqual(t, out, 20.000001, "no farther than twice d")
	}
	right, err := mmRect(0, 0, 10, 10).Polygon().Offset(Millimetre, math.Sqrt2)
	require.NoError(t, err)
	assert.Equal(t, []Polygon{mmRect(-1, -1, 11, 11).Polygon()}, right, "a right angle needs a limit of √2")
	octagon, err := mmRect(0, 0, 10, 10).Polygon().Offset(Millimetre, 1)
	require.NoError(t, err)
	require.Len(t, octagon[0], 8)
	assert.InEpsilon(t, 144-4*math.Pow(math.Sqrt2-1, 2), octagon[0].Area(), 1e-6, "four corners cut off a square of 12")
}

func TestOffsetRefuses(t *testing.T) {
	square := mmRect(0, 0, 100, 100).Polygon()
	for _, c := range []struct {
		p     Polygon
		d     Length
		mitre float64
		says  string
	}{
		{square, 1, 0.5, "a mitre limit of 0.5 is not 1 or more"},
		{square, 1, math.NaN(), "a mitre limit of NaN is not 1 or more"},
		{square, 1, math.Inf(1), "a mitre limit of +Inf is not 1 or more"},
		{square, 2 * Longest, 2, "longer than a kilometre"},
		{square, -2 * Longest, 2, "longer than a kilometre"},
		{mm(0, 0, 2, 2, 2, 0, 0, 2), 1, 2, "edge 1 and edge 3 of the outline cross or touch"},
		{mm(0, 0, 2, 2), 1, 2, "edge 1 and edge 2 of the outline cross or touch"},
		{mm(1, 1), 1, 2, "the outline has no area"},
		{nil, 1, 2, "the outline has no area"},
	} {
		pieces, err := c.p.Offset(c.d, c.mitre)
		assert.Nil(t, pieces)
		assert.ErrorContains(t, err, c.says)
	}
}

func TestASlotThatClosesRoundAHoleIsTold(t *testing.T) {
	p := mm(0, 0, 100, 0, 100, 100, 60, 100, 60, 20, 20, 20, 20, 80, 55, 80, 55, 100, 0, 100)
	pieces, err := p.Offset(4*Millimetre, DefaultMitre)
	var slot *SlotError
	require.ErrorAs(t, err, &slot)
	assert.Equal(t, mm(24, 24)[0], slot.At)
	assert.Equal(t, []Polygon{mmRect(-4, -4, 104, 104).Polygon()}, pieces, "the outline with its hole filled")
	assert.EqualError(t, err, "moved outward by 4 mm the outline closes round a hole at (24 mm, 24 mm); it can't be one outline")
}

func TestASlotThatClosesInOnePointIsTold(t *testing.T) {
	// The mouth's two corners stand diagonally, 20 mm apart both ways: moved by 10 mm they meet in a point.
	p := mm(0, 0, 200, 0, 200, 100, 110, 100, 110, 60, 150, 60, 150, 30, 50, 30, 50, 120, 90, 120, 90, 200, 0, 200)
	pieces, err := p.Offset(10*Millimetre, DefaultMitre)
	var slot *SlotError
	require.ErrorAs(t, err, &slot)
	require.Len(t, pieces, 1)
	_, _, crosses := pieces[0].SelfIntersection()
	assert.False(t, crosses, "what is given back does not touch itself")
	open, err := p.Offset(10*Millimetre-1, DefaultMitre)
	require.NoError(t, err)
	assert.Len(t, open, 1)
}

func TestARaggedOutlineIsRefusedNotChewedOn(t *testing.T) {
	_, err := comb(10_000).Offset(20*Millimetre, DefaultMitre) // teeth a millimetre wide, 20 under each parallel
	assert.ErrorContains(t, err, "too ragged")
}

// Ten thousand points: a ring of 2 m moved inward keeps its shape.
func TestOffsetOfTenThousandPoints(t *testing.T) {
	p := wavy(10_000)
	pieces, err := p.Offset(-20*Millimetre, DefaultMitre)
	require.NoError(t, err)
	require.Len(t, pieces, 1)
	_, _, crosses := pieces[0].SelfIntersection()
	assert.False(t, crosses)
	for i, pt := range pieces[0] {
		if i%500 == 0 {
			assert.InDelta(t, 20, p.DistanceTo(pt).Millimetres(), 0.05)
		}
	}
	// Steiner's A − P·d + π·d² for one turn of a smooth outline; the inner corners' kites are the difference.
	assert.InEpsilon(t, p.Area()-p.perimeter()/1e6*20+math.Pi*400, pieces[0].Area(), 1e-4)
}

// Moved in steps, a rectilinear outline comes to what one move makes of it.
func TestOffsetsAddUp(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 3))
	split := 0
	for range 400 {
		p := randomStairs(random, 1+random.IntN(8), Millimetre)
		d := Length(1 + random.IntN(int(3*Millimetre)))
		once, err := p.Offset(-2*d, DefaultMitre)
		require.NoError(t, err)
		first, err := p.Offset(-d, DefaultMitre)
		require.NoError(t, err)
		twice := each(first, func(q Polygon) []Polygon {
			pieces, err := q.Offset(-d, DefaultMitre)
			require.NoError(t, err)
			return pieces
		})
		require.ElementsMatch(t, once, twice, "%v by %d", p, d)
		if len(once) > 1 {
			split++
		}
		for _, q := range once {
			require.True(t, p.ContainsPolygon(q))
			_, _, crosses := q.SelfIntersection()
			require.False(t, crosses)
			for _, pt := range q {
				require.True(t, p.ClearOf(Rect{pt, pt}, 2*d), "no corner is nearer than 2d to the outline")
			}
			outward, err := q.Offset(2*d, DefaultMitre)
			require.NoError(t, err)
			require.True(t, p.ContainsPolygon(outward[0]), "nothing grows back beyond the outline")
		}
	}
	assert.Greater(t, split, 20, "some of them fell apart")
}
