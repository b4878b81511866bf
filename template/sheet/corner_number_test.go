package sheet

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
)

// The numbers in a jig's table, read on the drawing by which the board was marked out, put every hole of the board in its
// place once.
func TestNumbersOfCornersLeadEveryJigToItsHoles(t *testing.T) {
	for name, text := range map[string]string{"slopes": slopes, "loft": stored(t, "loft")} {
		t.Run(name, func(t *testing.T) {
			m := makerOf(t, text)
			corners, edges := 0, 0
			for i := range m.plan.Boards {
				b := &m.plan.Boards[i]
				for _, side := range []Side{Back, Face} {
					list, all := m.boardCorners(i, side)
					if !all {
						continue
					}
					v := viewOf(b, side)
					n := len(v.outline)
					met := map[int]int{}
					for _, c := range list {
						if b.Outline.IsRectangle() {
							assert.Empty(t, c.no, "a rectangle needs no numbers")
							continue
						}
						var from, to int
						var place func(h geom.Point) geom.Point
						if c.onEdge() {
							edges++
							_, err := fmt.Sscanf(c.no, "from %d to %d", &from, &to)
							require.NoError(t, err, c.no)
							p, q := v.outline[from-1], v.outline[to-1]
							require.True(t, from%n == to-1 || to%n == from-1, "corners %s are no neighbours", c.no)
							l := float64(p.Distance(q))
							x, y := float64(q.X-p.X)/l, float64(q.Y-p.Y)/l
							inX, inY := -y, x
							if to%n == from-1 { // against the way the outline runs
								inX, inY = y, -x
							}
							place = func(h geom.Point) geom.Point {
								// Line b stands at along; only clips with one hole are looked at, on line b.
								return p.Add(geom.Pt(c.along.Times(x)+h.Y.Times(inX), c.along.Times(y)+h.Y.Times(inY)))
							}
						} else {
							corners++
							_, err := fmt.Sscanf(c.no, "%d", &from)
							require.NoError(t, err, c.no)
							at, next := v.outline[from-1], v.outline[from%n]
							before := v.outline[(from+n-2)%n]
							l := float64(at.Distance(next))
							x, y := float64(next.X-at.X)/l, float64(next.Y-at.Y)/l
							assert.InDelta(t, c.theta, interior(before, at, next), 1e-9)
							place = func(h geom.Point) geom.Point {
								return at.Add(geom.Pt(h.X.Times(x)-h.Y.Times(y), h.X.Times(y)+h.Y.Times(x)))
							}
						}
						for _, jc := range c.clips {
							at := place(jc.holes[0])
							for k := range b.Clips {
								d := v.to.Apply(b.Clips[k].BoardHoles[0]).Sub(at)
								if math.Hypot(float64(d.X), float64(d.Y)) < 10 {
									met[k]++
								}
							}
						}
					}
					if b.Outline.IsRectangle() {
						continue
					}
					for k := range b.Clips {
						assert.Equal(t, 1, met[k], "board %s %s: %s", b.Name, side, b.Clips[k].Place)
					}
				}
			}
			assert.NotZero(t, corners)
			assert.NotZero(t, edges)
		})
	}
}

// 45° rises by as much as it runs; 3 in 4 is the slope of the 3-4-5 triangle, 36.87° (trigonometry).
func TestSlopesAreToldInDegreesAndAsARise(t *testing.T) {
	m := makerOf(t, slopes)
	assert.Equal(t, "45.0° (1000 in 1000)", m.slope(geom.Pt(0, 0), geom.Pt(-7*mm, 7*mm)))
	assert.Equal(t, "36.9° (750 in 1000)", m.slope(geom.Pt(0, 0), geom.Pt(4*mm, 3*mm)))
	in := makerOf(t, demo(t))
	assert.Equal(t, "36.9° (9 in 12)", in.slope(geom.Pt(0, 0), geom.Pt(4*mm, -3*mm)))
}
