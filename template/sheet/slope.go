package sheet

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// slope tells how an edge leans, in degrees from level and as carpenters set a bevel: a rise over 12 in, or over
// 1000 mm.
func (m *maker) slope(a, b geom.Point) string {
	run, rise := math.Abs(float64(b.X-a.X)), math.Abs(float64(b.Y-a.Y))
	degrees := math.Atan2(rise, run) * 180 / math.Pi
	if m.plan.Job.Units == geom.Imperial {
		return fmt.Sprintf("%.1f° (%s in 12)", degrees, (12 * geom.Inch).Times(rise/run).Bare(geom.Imperial))
	}
	return fmt.Sprintf("%.1f° (%.0f in 1000)", degrees, 1000*rise/run)
}

// alongEdge writes text along the edge a→b of a counter-clockwise outline, inside it and never upside down.
func alongEdge(a, b geom.Point, off geom.Length, text string) drawing.Text {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	length := math.Hypot(dx, dy)
	// The inner side is on the left of a→b.
	in := geom.Pt(off.Times(-dy/length), off.Times(dx/length))
	turn := math.Atan2(dy, dx) * 180 / math.Pi
	level := drawing.Baseline
	if turn > 90 || turn <= -90 {
		turn, level = math.Mod(turn+180, 360), drawing.Top
	}
	return drawing.Text{At: geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2).Add(in), String: text, Height: small, Anchor: drawing.Middle, Level: level, Turn: turn, Halo: true}
}
