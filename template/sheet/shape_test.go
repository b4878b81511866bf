package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
)

// slopes is a wall of triangles, trapezoids and notches.
var slopes = metric(`walls:
  - name: W
    width: 3000
    outline: [[0, 0], [3000, 0], [3000, 600], [1500, 2400], [0, 600]]
    lining: {thickness: 12.5}
    studs: {from: 100, every: 400, width: 45}
    openings:
      - {name: hatch, at: [1180, 900], size: 300 x 400}
      - {name: low, at: [1700, 300], size: 200 x 120}
    runs:
      - {name: T, area: [[300, 640], [2700, 640], [1500, 2100]], panels: 4, gap: 3}
      - {name: L, area: [[300, 60], [2700, 60], [2700, 600], [1500, 600], [1500, 300], [300, 300]], panels: 2, gap: 5}
  - name: V
    width: 1200
    height: 1200
    lining: {thickness: 12.5}
    runs:
      - {name: P, area: [[100, 100], [1100, 100], [600, 1100]], panels: 1}
`)

// tape measures from a place in one of the four ways to where the board ends, and tells whether a tape would meet an
// edge there that stands square to it.
func tape(outline geom.Polygon, at geom.Point, dx, dy float64) (d float64, square bool) {
	d = math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		// at + d·(dx, dy) on a–b, by Cramer's rule.
		ex, ey := float64(b.X-a.X), float64(b.Y-a.Y)
		det := dx*-ey + dy*ex
		if det == 0 {
			continue
		}
		px, py := float64(a.X-at.X), float64(a.Y-at.Y)
		far, along := (px*-ey+py*ex)/det, (dx*py-dy*px)/det
		if far > 0 && along >= 0 && along <= 1 && far < d {
			d, square = far, dx*ex+dy*ey == 0
		}
	}
	return d / 1e6, square
}

// A tape hooked to the edge that the words on a board template name finds the hole, on boards of any outline.
func TestDistancesOnBoardTemplatesAreFromEdgesThatATapeMeets(t *testing.T) {
	for name, text := range map[string]string{"slopes": slopes, "loft": stored(t, "loft"), "settle": demo(t)} {
		t.Run(name, func(t *testing.T) {
			m := makerOf(t, text)
			corners, edges := 0, 0
			for i := range m.plan.Boards {
				b := &m.plan.Boards[i]
				for _, side := range []Side{Back, Face} {
					v := viewOf(b, side)
					for _, c := range b.Clips {
						at := v.to.Apply(c.BoardHoles[0])
						across, up := m.reach(v, at)
						for _, words := range []string{across, up} {
							read, where, ok := strings.Cut(words, " from ")
							require.True(t, ok, words)
							var k, next int
							if n, _ := fmt.Sscanf(where, "corner %d", &k); n == 1 {
								corners++
								number, way, _ := lastCut(read, " ")
								l, err := geom.ParseLength(strings.TrimPrefix(number, "≈"), m.plan.Job.Units)
								require.NoError(t, err)
								off := v.outline[k-1].Sub(at)
								// No square edge stands on either side, or the words would name it.
								dirs := [][2]float64{{1, 0}, {-1, 0}}
								wanted := map[string]geom.Length{"across": off.X.Abs(), "up": -off.Y, "down": off.Y}[way]
								if way != "across" {
									dirs = [][2]float64{{0, 1}, {0, -1}}
								}
								assert.InDelta(t, wanted.Millimetres(), l.Millimetres(), 0.5, "board %s %s: %s", b.Name, c.Place, words)
								for _, d := range dirs {
									_, square := tape(v.outline, at, d[0], d[1])
									assert.False(t, square, "board %s %s: %s", b.Name, c.Place, words)
								}
								continue
							}
							l, err := geom.ParseLength(strings.TrimPrefix(read, "≈"), m.plan.Job.Units)
							require.NoError(t, err)
							dir, named := map[string][2]float64{"left": {-1, 0}, "right": {1, 0}, "bottom": {0, -1}, "top": {0, 1}}[where]
							if n, _ := fmt.Sscanf(where, "edge %d–%d", &k, &next); !named && assert.Equal(t, 2, n, words) {
								edges++
								p, q := v.outline[k-1], v.outline[next-1]
								if p.X == q.X {
									dir = [2]float64{math.Copysign(1, float64(p.X-at.X)), 0}
								} else {
									dir = [2]float64{0, math.Copysign(1, float64(p.Y-at.Y))}
								}
							}
							d, square := tape(v.outline, at, dir[0], dir[1])
							assert.True(t, square, "board %s %s %s: %s", b.Name, c.Place, side, words)
							assert.InDelta(t, d, l.Millimetres(), 0.8, "board %s %s %s: %s", b.Name, c.Place, side, words)
							whole := map[string]float64{"left": (at.X - v.bounds.Min.X).Millimetres(), "right": (v.bounds.Max.X - at.X).Millimetres(),
								"bottom": (at.Y - v.bounds.Min.Y).Millimetres(), "top": (v.bounds.Max.Y - at.Y).Millimetres()}
							if named {
								assert.InDelta(t, whole[where], d, 1e-3, "board %s %s: %s would be read from a notch", b.Name, c.Place, words)
							}
						}
					}
				}
			}
			if name == "slopes" {
				assert.NotZero(t, corners, "no hole with slopes on both sides: the test sees too little")
				assert.NotZero(t, edges, "no hole beside a notch: the test sees too little")
			}
		})
	}
}

func lastCut(s, sep string) (before, after string, ok bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

// Sides alone don't hold four bars in shape; n − 3 distances more hold n (count of a triangulation, textbook).
func TestDistancesFromCornerToCornerHoldABoardInShape(t *testing.T) {
	assert.Empty(t, braces(make(geom.Polygon, 3)))
	assert.Equal(t, [][2]int{{0, 2}, {1, 3}}, braces(make(geom.Polygon, 4)), "both diagonals")
	for n := 5; n < 9; n++ {
		assert.Len(t, braces(make(geom.Polygon, n)), n-3)
	}
	m := makerOf(t, slopes)
	square := geom.R(0, 0, 300*mm, 400*mm).Polygon()
	assert.Equal(t, "1–3 500 mm, 2–4 500 mm", m.braceWords(square), "3-4-5 triangle")
	assert.Empty(t, m.braceWords(make(geom.Polygon, mostBraces+1)))
}

func TestNumbersStandInTheWiderAngleOfACorner(t *testing.T) {
	square := geom.R(0, 0, 4, 4).Polygon()
	assert.Equal(t, geom.Pt(-100, -100), wideSide(square[3], square[0], square[1], 141))
	assert.Equal(t, geom.Pt(-100, -100), wideSide(square[1], square[0], square[3], 141), "an inner corner between the same edges")
	assert.Equal(t, geom.Pt(0, -141), wideSide(geom.Pt(-5*mm, 0), geom.Pt(0, 0), geom.Pt(5*mm, 0), 141), "straight on: outward")
}
