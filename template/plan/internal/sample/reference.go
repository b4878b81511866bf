package sample

import (
	"slices"
	"testing"

	reference "github.com/peterstace/simplefeatures/geom"

	"rodsheet/geom"
)

// Refer is polygons as the reference library has them, in millimetres.
func Refer(t testing.TB, polygons ...geom.Polygon) reference.Geometry {
	t.Helper()
	sum := reference.Geometry{}
	for _, q := range polygons {
		var xy []float64
		for _, pt := range append(slices.Clone(q), q[0]) {
			xy = append(xy, pt.X.Millimetres(), pt.Y.Millimetres())
		}
		ring := reference.NewLineString(reference.NewSequence(xy, reference.DimXY))
		next, err := reference.Union(sum, reference.NewPolygon([]reference.LineString{ring}).AsGeometry())
		if err != nil {
			t.Fatal(err)
		}
		sum = next
	}
	return sum
}
