package geom

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every pair of the rectangles of a small grid is held against the lattice points (at half steps) that they have.
func TestRectanglesAgreeWithTheirPoints(t *testing.T) {
	var rects []Rect
	for x0 := Length(0); x0 <= 6; x0 += 2 {
		for x1 := x0; x1 <= 6; x1 += 2 {
			rects = append(rects, R(x0, 0, x1, 4), R(x0, 2, x1, 6), R(x0, 4, x1, 4))
		}
	}
	points := func(has func(Point) bool) (n int) {
		for x := Length(-1); x <= 7; x++ {
			for y := Length(-1); y <= 7; y++ {
				if has(Pt(x, y)) {
					n++
				}
			}
		}
		return n
	}
	inner := func(r Rect) func(Point) bool {
		return func(p Point) bool { return r.Min.X < p.X && p.X < r.Max.X && r.Min.Y < p.Y && p.Y < r.Max.Y }
	}
	for _, r := range rects {
		for _, s := range rects {
			both := points(func(p Point) bool { return r.ContainsPoint(p) && s.ContainsPoint(p) })
			require.Equal(t, both > 0, r.Intersects(s), "%v touches %v", r, s)
			require.Equal(t, both > 0, r.Intersection(s).Valid())
			if both > 0 {
				require.Equal(t, both, points(r.Intersection(s).ContainsPoint), "%v and %v", r, s)
			}
			require.Equal(t, both == points(s.ContainsPoint), r.Contains(s), "%v contains %v", r, s)
			if r.W() > 0 && s.W() > 0 && r.H() > 0 && s.H() > 0 {
				open := points(func(p Point) bool { return inner(r)(p) && inner(s)(p) })
				require.Equal(t, open > 0, r.InteriorIntersects(s), "%v overlaps %v", r, s)
			}
			union := r.Union(s)
			require.True(t, union.Contains(r) && union.Contains(s))
		}
	}
}

func TestRectangleMeasures(t *testing.T) {
	r := R(1, 2, 6, 10)
	assert.Equal(t, Size{5, 8}, r.Size())
	assert.Equal(t, Size{8, 5}, r.Size().Turned())
	assert.Equal(t, Pt(3, 6), r.Centre(), "rounded down")
	assert.Equal(t, R(2, 3, 5, 9), r.Inset(1))
	assert.Equal(t, R(0, 1, 7, 11), r.Inset(-1))
	assert.False(t, r.Inset(3).Valid())
	assert.True(t, r.Inset(2).Valid())
	assert.Equal(t, R(2, 1, 7, 9), r.Add(Pt(1, -1)))
	assert.Equal(t, Polygon{{1, 2}, {6, 2}, {6, 10}, {1, 10}}, r.Polygon())
	assert.True(t, r.Polygon().IsRectangle())
}

func TestASizeReadsAsItsPeopleReadIt(t *testing.T) {
	s := Size{15 * SixtyFourth, Inch + Inch/2}
	assert.Equal(t, "15/64″ × 1 1/2″", s.In(Imperial))
	assert.Equal(t, "12 mm × 2440 mm", Size{12 * Millimetre, 2440 * Millimetre}.In(Metric))
}
