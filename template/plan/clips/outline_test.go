package clips

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

// shaped is a job in millimetres with a step of 10 mm and one panel of the given outline.
func shaped(studs []geom.Length, outline geom.Polygon) *job.Job {
	w := sample.WallOf("A", 3000*mm, 2500*mm, job.Run{Name: "A", Area: outline.Normalized(), Panels: 1})
	w.Studs = job.Members{At: studs, Width: 38 * mm, Margin: 10 * mm, Given: true}
	j := sample.Clipped(w)
	half := job.Half{Base: geom.Size{W: 40 * mm, H: 40 * mm}, Holes: []geom.Point{{}}}
	j.Units, j.Board.Saw = geom.Metric, mm
	j.Clip.Board, j.Clip.Wall = half, half
	j.Clips = job.Clips{Number: 4, Clear: 20 * mm, Spacing: 600 * mm, Step: 10 * mm}
	j.Screws.Marker = 3 * mm
	return j
}

// pinned places one panel with that outline on the wall without going through the division of areas.
func pinned(j *job.Job, outline geom.Polygon) *record {
	p := &record{Job: j}
	p.Walls = []layout.Wall{{Job: &j.Walls[0], Runs: []int{0}}}
	p.Runs = []layout.Run{{Job: &j.Walls[0].Runs[0], Name: "A", Panels: []int{0}}}
	p.Panels = []layout.Panel{{Name: "A1", Finished: outline.Normalized(), Outline: outline.Normalized(), Board: -1}}
	p.place()
	return p
}

func TestTooSmallATriangleSaysThatItStandsOnOneLine(t *testing.T) {
	outline := geom.Polygon{{X: 0, Y: 0}, {X: 160 * mm, Y: 0}, {X: 0, Y: 160 * mm}}
	p := pinned(shaped(nil, outline), outline)
	assert.Contains(t, p.IDs(), "few-clips")
	outline = geom.Polygon{{X: 0, Y: 0}, {X: 100 * mm, Y: 0}, {X: 0, Y: 100 * mm}}
	p = pinned(shaped(nil, outline), outline)
	assert.Contains(t, p.IDs(), "no-place")
}
