package sheet

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// slope writes how an edge leans, in degrees from level and as carpenters set a bevel: a rise over 12 in, or over
// 1000 mm.
func (m *maker) slope(a, b geom.Point) string {
	return m.lean(math.Abs(float64(b.Y-a.Y)) / math.Abs(float64(b.X-a.X)))
}

// lean writes a slope of so much rise to its run.
func (m *maker) lean(rise float64) string {
	degrees := math.Atan(rise) * 180 / math.Pi
	if m.plan.Job.Units == geom.Imperial {
		return fmt.Sprintf("%.1f° (%s in 12)", degrees, (12 * geom.Inch).Times(rise).Bare(geom.Imperial))
	}
	return fmt.Sprintf("%.1f° (%.0f in 1000)", degrees, 1000*rise)
}

// alongEdge writes text along the edge a→b of a counter-clockwise outline, inside it and never upside down.
func alongEdge(a, b geom.Point, off geom.Length, text string) drawing.Text {
	inside := geom.Segment{A: a, B: b}.Parallel(off)
	turn := math.Atan2(float64(b.Y-a.Y), float64(b.X-a.X)) * 180 / math.Pi
	level := drawing.Baseline
	if turn > 90 || turn <= -90 {
		turn, level = math.Mod(turn+180, 360), drawing.Top
	}
	return drawing.Text{At: inside.Middle(), String: text, Height: small, Anchor: drawing.Middle, Level: level, Turn: turn, Halo: true}
}
