package geom

import (
	"math/rand/v2"
	"testing"

	reference "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSegmentAndRectangle(t *testing.T) {
	r := R(0, 0, 100, 60)
	for _, c := range []struct {
		name            string
		s               Segment
		touches, enters bool
		part            Segment
	}{
		{"right through", Segment{Pt(-50, 30), Pt(150, 30)}, true, true, Segment{Pt(0, 30), Pt(100, 30)}},
		{"the other way", Segment{Pt(150, 30), Pt(-50, 30)}, true, true, Segment{Pt(100, 30), Pt(0, 30)}},
		{"from inside", Segment{Pt(20, 20), Pt(20, 200)}, true, true, Segment{Pt(20, 20), Pt(20, 60)}},
		{"inside", Segment{Pt(20, 20), Pt(30, 40)}, true, true, Segment{Pt(20, 20), Pt(30, 40)}},
		{"a point inside", Segment{Pt(20, 20), Pt(20, 20)}, true, true, Segment{Pt(20, 20), Pt(20, 20)}},
		{"along the border", Segment{Pt(-10, 60), Pt(40, 60)}, true, false, Segment{Pt(0, 60), Pt(40, 60)}},
		{"up to the border", Segment{Pt(-10, 20), Pt(0, 20)}, true, false, Segment{Pt(0, 20), Pt(0, 20)}},
		{"past a corner", Segment{Pt(-10, 10), Pt(10, -10)}, true, false, Segment{Pt(0, 0), Pt(0, 0)}},
		{"just outside a corner", Segment{Pt(-14, 10), Pt(10, -10)}, false, false, Segment{}},
		{"just inside a corner", Segment{Pt(-9, 10), Pt(10, -10)}, true, true, Segment{Pt(0, 1), Pt(1, 0)}},
		{"beside", Segment{Pt(101, -10), Pt(101, 90)}, false, false, Segment{}},
		{"a point outside", Segment{Pt(101, 30), Pt(101, 30)}, false, false, Segment{}},
	} {
		assert.Equal(t, c.touches, c.s.Intersects(r), c.name)
		assert.Equal(t, c.enters, c.s.InteriorIntersects(r), c.name)
		part, ok := c.s.Clip(r)
		assert.Equal(t, c.touches, ok, c.name)
		assert.Equal(t, c.part, part, c.name)
		assert.Equal(t, !c.enters, c.s.ClearOf(r, 0), c.name)
		assert.Equal(t, !c.touches, c.s.ClearOf(r, 1), c.name)
		assert.Equal(t, c.touches, c.s.DistanceToRect(r) == 0, c.name)
	}
}

func TestClearOfIsExactAtTheVeryDistance(t *testing.T) {
	r := R(0, 0, 100, 60)
	s := Segment{Pt(100+3, 60+4), Pt(200, 64)} // 5 from the corner
	assert.True(t, s.ClearOf(r, 5))
	assert.False(t, s.ClearOf(r, 6))
	assert.Equal(t, Length(5), s.DistanceToRect(r))
	far := Segment{Pt(0, -3*Metre), Pt(4*Metre, 0)} // 3-4-5: 2.4 m from the origin, seen from the lower right
	at := Rect{Pt(-1, 0), Pt(0, 1)}
	assert.Equal(t, 2400*Millimetre, far.DistanceToRect(at))
	assert.True(t, far.ClearOf(at, 2400*Millimetre))
	assert.False(t, far.ClearOf(at, 2400*Millimetre+1))
}

func TestParallelsOfSegments(t *testing.T) {
	s := Segment{Pt(0, 0), Pt(40, 30)}
	assert.Equal(t, Segment{Pt(-6, 8), Pt(34, 38)}, s.Parallel(10), "to the left of A to B")
	assert.Equal(t, Segment{Pt(6, -8), Pt(46, 22)}, s.Parallel(-10))
	assert.Equal(t, Pt(20, 15), s.Middle())
	assert.Equal(t, 1, s.Side(s.Parallel(10).A))
	point := Segment{Pt(5, 5), Pt(5, 5)}
	assert.Equal(t, point, point.Parallel(10), "a point has no left")
}

func TestSegmentsAgreeWithTheReference(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 17))
	line := func(s Segment) reference.Geometry {
		xy := []float64{s.A.X.Millimetres(), s.A.Y.Millimetres(), s.B.X.Millimetres(), s.B.Y.Millimetres()}
		return reference.NewLineString(reference.NewSequence(xy, reference.DimXY)).AsGeometry()
	}
	met := 0
	for range 3000 {
		at := func() Length { return Length(random.IntN(100)) * Millimetre }
		s := Segment{Pt(at(), at()), Pt(at(), at())}
		r := Rect{s.A, s.A}.Union(Rect{Pt(at(), at()), Pt(at(), at())}).Add(Pt(at()/4, at()/4))
		if s.A == s.B || r.W() == 0 || r.H() == 0 {
			continue
		}
		box := refer(r.Polygon())
		meets := reference.Intersects(line(s), box)
		require.Equal(t, meets, s.Intersects(r), "%v %v", s, r)
		distance, _ := reference.Distance(line(s), box)
		require.InDelta(t, distance, s.DistanceToRect(r).Millimetres(), 1e-6)
		part, ok := s.Clip(r)
		require.Equal(t, meets, ok)
		if !meets {
			near := s.DistanceToRect(r)
			require.True(t, s.ClearOf(r, near-1), "%v %v", s, r)
			require.False(t, s.ClearOf(r, near+1), "%v %v", s, r)
			continue
		}
		met++
		in, err := reference.Intersection(line(s), box)
		require.NoError(t, err)
		require.InDelta(t, in.Length(), part.A.Distance(part.B).Millimetres(), 1e-5, "%v %v", s, r)
		require.True(t, r.ContainsPoint(part.A) && r.ContainsPoint(part.B))
	}
	assert.Greater(t, met, 500)
}
