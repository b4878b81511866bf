package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	reference "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// github.com/peterstace/simplefeatures works in float64 by ways of its own: here in millimetres.
func refer(pieces ...Polygon) reference.Geometry {
	var polygons []reference.Polygon
	for _, p := range pieces {
		var xy []float64
		for _, pt := range p {
			xy = append(xy, pt.X.Millimetres(), pt.Y.Millimetres())
		}
		polygons = append(polygons, referRing(append(xy, xy[0], xy[1])))
	}
	return reference.NewMultiPolygon(polygons).AsGeometry()
}

func referRing(xy []float64) reference.Polygon {
	ring := reference.NewLineString(reference.NewSequence(xy, reference.DimXY))
	return reference.NewPolygon([]reference.LineString{ring})
}

// differ is the area in mm² on which two shapes differ.
func differ(t *testing.T, a, b reference.Geometry) float64 {
	t.Helper()
	d, err := reference.SymmetricDifference(a, b)
	require.NoError(t, err)
	return d.Area()
}

func TestAreasHullsAndCentroidsAgreeWithTheReference(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 11))
	for range 200 {
		p := randomPolygon(random, 3+random.IntN(12), 2000, Millimetre)
		g := refer(p)
		require.NoError(t, g.Validate())
		require.InEpsilon(t, g.Area(), p.Area(), 1e-12)
		require.InDelta(t, 0, differ(t, g.ConvexHull(), refer(Hull(p))), 1e-6)
		c, ok := g.Centroid().XY()
		require.True(t, ok)
		require.InDelta(t, c.X, p.Centroid().X.Millimetres(), 1e-5)
		require.InDelta(t, c.Y, p.Centroid().Y.Millimetres(), 1e-5)
	}
}

func TestCutsAgreeWithTheReference(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 12))
	parted, holes := 0, 0
	for range 500 {
		p := randomPolygon(random, 3+random.IntN(9), 200, 5*Millimetre)
		x, y := Length(random.IntN(900))*Millimetre, Length(random.IntN(900))*Millimetre
		r := Rect{Pt(x, y), Pt(x+Length(1+random.IntN(400))*Millimetre, y+Length(1+random.IntN(400))*Millimetre)}
		slack := 4e-6 * p.perimeter() / 1e6 // two nanometres to either side of every edge

		in, err := reference.Intersection(refer(p), refer(r.Polygon()))
		require.NoError(t, err)
		clipped := p.Clip(r)
		require.InDelta(t, 0, differ(t, in, refer(clipped...)), slack, "%v in %v", p, r)

		out, err := reference.Difference(refer(p), refer(r.Polygon()))
		require.NoError(t, err)
		rest, hole := p.Subtract(r)
		if hole {
			holes++
			require.Equal(t, 1, out.MustAsPolygon().NumInteriorRings())
			rest = p.Without(0, r)
		}
		require.InDelta(t, 0, differ(t, out, refer(rest...)), slack, "%v less %v", p, r)
		if len(rest) > 1 {
			parted++
		}
		for _, q := range append(rest, clipped...) {
			require.NoError(t, refer(q).Validate(), "each piece is simple")
		}
	}
	assert.Greater(t, parted, 50)
	assert.Greater(t, holes, 5)
}

func TestInsideAndClearAgreeWithTheReference(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 13))
	inside := 0
	for range 1500 {
		p := randomPolygon(random, 3+random.IntN(6), 40, 20*Millimetre)
		x, y := Length(random.IntN(750))*Millimetre, Length(random.IntN(750))*Millimetre
		r := Rect{Pt(x, y), Pt(x+Length(1+random.IntN(60))*Millimetre, y+Length(1+random.IntN(60))*Millimetre)}
		covers, err := reference.Covers(refer(p), refer(r.Polygon()))
		require.NoError(t, err)
		require.Equal(t, covers, p.ContainsRect(r), "%v in %v", r, p)
		distance, _ := reference.Distance(refer(p).Boundary(), refer(r.Polygon()))
		near := Millimetre.Times(distance)
		if covers {
			inside++
			require.Equal(t, near > 2, p.ClearOf(r, max(near-2, 1)))
			require.False(t, p.ClearOf(r, near+2))
		} else {
			require.False(t, p.ClearOf(r, 1))
		}
		at, _ := reference.Distance(refer(p).Boundary(), reference.XY{X: x.Millimetres(), Y: y.Millimetres()}.AsPoint().AsGeometry())
		require.InDelta(t, at, p.DistanceTo(r.Min).Millimetres(), 1e-6)
	}
	assert.Greater(t, inside, 50)
}

// What an offset should be is put together by the reference library from its parts: the polygon with (outward), or
// without (inward), a rectangle beside each edge and, where the outline turns away, a kite cut square at the limit.
func TestOffsetsAgreeWithTheReference(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 14))
	apart, eaten, slots := 0, 0, 0
	for range 400 {
		p := randomPolygon(random, 3+random.IntN(9), 200, 5*Millimetre)
		d := Length(1+random.IntN(60)) * Millimetre
		if random.IntN(3) > 0 {
			d = -d
		}
		got, err := p.Offset(d, DefaultMitre)
		if _, slot := err.(*SlotError); slot {
			slots++
			continue
		}
		require.NoError(t, err)

		strips := []reference.Geometry{}
		for i, a := range p {
			strips = append(strips, strip(a, p[(i+1)%len(p)], d).AsGeometry())
			if kite, ok := mitreKite(p, i, d, DefaultMitre); ok {
				strips = append(strips, kite.AsGeometry())
			}
		}
		covered, err := reference.UnionMany(strips)
		require.NoError(t, err)
		var want reference.Geometry
		if d > 0 {
			want, err = reference.Union(refer(p), covered)
		} else {
			want, err = reference.Difference(refer(p), covered)
		}
		require.NoError(t, err)
		slack := 4e-6 * (p.perimeter()/1e6 + 20*d.Abs().Millimetres())
		require.InDelta(t, 0, differ(t, want, refer(got...)), slack, "%v by %v", p, d)
		for _, q := range got {
			require.NoError(t, refer(q).Validate())
			require.Equal(t, q, q.Normalized())
		}
		if len(got) > 1 {
			apart++
		}
		if len(got) == 0 {
			eaten++
		}
	}
	assert.Greater(t, apart, 20)
	assert.Greater(t, eaten, 5)
	assert.Less(t, slots, 100)
}

func strip(a, b Point, d Length) reference.Polygon {
	ax, ay, bx, by := a.X.Millimetres(), a.Y.Millimetres(), b.X.Millimetres(), b.Y.Millimetres()
	h := math.Hypot(bx-ax, by-ay)
	nx, ny := (by-ay)/h*d.Millimetres(), -(bx-ax)/h*d.Millimetres()
	return referRing([]float64{ax, ay, bx, by, bx + nx, by + ny, ax + nx, ay + ny, ax, ay})
}

// mitreKite is worked out in polar angles, where the code uses vectors.
func mitreKite(p Polygon, i int, d Length, limit float64) (reference.Polygon, bool) {
	turn := math.Pi - p.Angle(i)*math.Pi/180
	if turn > 0 != (d > 0) {
		return reference.Polygon{}, false
	}
	at, to := p[i], p[(i+1)%len(p)]
	ahead := math.Atan2((to.Y - at.Y).Millimetres(), (to.X - at.X).Millimetres())
	after := ahead - math.Pi/2 // square to the edge that follows, outward
	if d < 0 {
		after += math.Pi
	}
	before, middle := after-turn, after-turn/2
	r, h := d.Abs().Millimetres(), math.Abs(turn)/2
	x, y := at.X.Millimetres(), at.Y.Millimetres()
	xy := []float64{x, y}
	add := func(angle, far float64) { xy = append(xy, x+far*math.Cos(angle), y+far*math.Sin(angle)) }
	add(before, r)
	if 1/math.Cos(h) <= limit {
		add(middle, r/math.Cos(h))
	} else {
		// On the cut, limit·r out, at half the width that is left between the two parallels.
		half := (1 - limit*math.Cos(h)) / math.Sin(h) * r
		far, swing := math.Hypot(limit*r, half), math.Copysign(math.Atan2(half, limit*r), turn)
		add(middle-swing, far)
		add(middle+swing, far)
	}
	add(after, r)
	return referRing(append(xy, x, y)), true
}
