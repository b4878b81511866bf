package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPolygonsShareAnInteriorOrOnlyTouch(t *testing.T) {
	square := R(0, 0, 10, 10).Polygon()
	for _, c := range []struct {
		name     string
		other    Polygon
		overlap  bool
		distance Length
	}{
		{"itself", square, true, 0},
		{"itself from another corner", Polygon{{X: 10, Y: 10}, {X: 0, Y: 10}, {X: 0, Y: 0}, {X: 10, Y: 0}}, true, 0},
		{"inside", R(2, 2, 4, 4).Polygon(), true, 0},
		{"inside, along an edge", R(0, 2, 4, 4).Polygon(), true, 0},
		{"round it", R(-5, -5, 20, 20).Polygon(), true, 0},
		{"through it like a cross", R(-5, 3, 20, 6).Polygon(), true, 0},
		{"through its corners", Polygon{{X: -5, Y: -5}, {X: 10, Y: 10}, {X: 15, Y: 15}, {X: -5, Y: 15}}, true, 0},
		{"corner into an edge", Polygon{{X: 5, Y: 5}, {X: 20, Y: 0}, {X: 20, Y: 10}}, true, 0},
		{"beside, edge on edge", R(10, 0, 20, 10).Polygon(), false, 0},
		{"beside, part of an edge on an edge", R(10, 3, 20, 6).Polygon(), false, 0},
		{"corner on corner", R(10, 10, 20, 20).Polygon(), false, 0},
		{"beside", R(13, 0, 20, 10).Polygon(), false, 3},
		{"off its corner, 3, 4, 5", R(13, 14, 20, 20).Polygon(), false, 5},
		{"in the notch of an L", Polygon{{X: -10, Y: -10}, {X: 30, Y: -10}, {X: 30, Y: -3}, {X: -2, Y: -3}, {X: -2, Y: 30}, {X: -10, Y: 30}}, false, 2},
	} {
		assert.Equal(t, c.overlap, square.InteriorIntersects(c.other), c.name)
		assert.Equal(t, c.overlap, c.other.InteriorIntersects(square), c.name)
		assert.Equal(t, c.distance, square.DistanceToPolygon(c.other), c.name)
		assert.Equal(t, c.distance, c.other.DistanceToPolygon(square), c.name)
	}
}

// sharedArea is what is left of a convex polygon after cutting it along the edges of another, in floats.
func sharedArea(p, q Polygon) float64 {
	type at struct{ x, y float64 }
	var left []at
	for _, c := range p {
		left = append(left, at{float64(c.X), float64(c.Y)})
	}
	for _, e := range q.Edges() {
		side := func(c at) float64 {
			return float64(e.B.X-e.A.X)*(c.y-float64(e.A.Y)) - float64(e.B.Y-e.A.Y)*(c.x-float64(e.A.X))
		}
		var kept []at
		for i, c := range left {
			d := left[(i+1)%len(left)]
			sc, sd := side(c), side(d)
			if sc >= 0 {
				kept = append(kept, c)
			}
			if sc*sd < 0 {
				f := sc / (sc - sd)
				kept = append(kept, at{c.x + f*(d.x-c.x), c.y + f*(d.y-c.y)})
			}
		}
		left = kept
	}
	area := 0.0
	for i, c := range left {
		d := left[(i+1)%len(left)]
		area += (c.x*d.y - c.y*d.x) / 2
	}
	return area
}

// Triangles on a small grid, where many edges lie on each other, against the area that they share. What is shared is
// nothing or far more than floats are off.
func TestInteriorsIntersectWhereAreaIsShared(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	triangle := func() Polygon {
		for {
			p := Polygon{}
			for range 3 {
				p = append(p, Pt(Length(r.IntN(5)), Length(r.IntN(5))))
			}
			if p.TwiceArea().Sign() != 0 {
				return p.Normalized()
			}
		}
	}
	for range 20_000 {
		p, q := triangle(), triangle()
		assert.Equal(t, sharedArea(p, q) > 1e-6, p.InteriorIntersects(q), "%v %v", p, q)
	}
}
