package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

func TestAGroupStandsWholeOnOnePageAsNearAsItCan(t *testing.T) {
	windows := []geom.Rect{geom.R(0, 0, 100*mm, 100*mm), geom.R(100*mm, 0, 200*mm, 100*mm)}
	block := func(x geom.Length) drawing.Group { // 30 wide, 20 high, its middle at x
		return drawing.Group{Marks: []drawing.Mark{
			drawing.Path{Points: geom.R(x-15*mm, 40*mm, x+15*mm, 50*mm).Polygon(), Closed: true},
			drawing.Path{Points: geom.R(x-5*mm, 50*mm, x+5*mm, 60*mm).Polygon(), Closed: true},
		}}
	}
	place := func(d drawing.Drawing) geom.Rect {
		out := withGroups(&d, windows)
		return drawing.Group{Marks: out.Marks[len(d.Marks):]}.Bounds()
	}
	assert.Equal(t, geom.R(20*mm, 40*mm, 50*mm, 60*mm), place(drawing.Drawing{Groups: []drawing.Group{block(35 * mm)}}), "whole where it is")
	assert.Equal(t, geom.R(70*mm, 40*mm, 100*mm, 60*mm), place(drawing.Drawing{Groups: []drawing.Group{block(95 * mm)}}))
	assert.Equal(t, geom.R(100*mm, 40*mm, 130*mm, 60*mm), place(drawing.Drawing{Groups: []drawing.Group{block(105 * mm)}}))

	hole := drawing.Hole{At: geom.Pt(120*mm, 50*mm), Radius: mm}
	at := place(drawing.Drawing{Groups: []drawing.Group{block(105 * mm)}, Holes: []drawing.Hole{hole}})
	assert.False(t, at.Inset(-6*mm).ContainsPoint(hole.At), "off a hole")
	base := drawing.Callout{About: geom.R(60*mm, 30*mm, 100*mm, 70*mm)}
	at = place(drawing.Drawing{Groups: []drawing.Group{block(95 * mm)}, Callouts: []drawing.Callout{base}})
	assert.False(t, at.InteriorIntersects(base.About), "off what has words of its own")

	along := geom.Segment{A: geom.Pt(0, 50*mm), B: geom.Pt(200*mm, 50*mm)}
	g := block(95 * mm)
	g.Along = along
	assert.Equal(t, geom.R(70*mm, 40*mm, 100*mm, 60*mm), place(drawing.Drawing{Groups: []drawing.Group{g}}))
	g.Along = geom.Segment{A: geom.Pt(75*mm, 50*mm), B: geom.Pt(115*mm, 50*mm)}
	assert.Equal(t, g.Bounds(), place(drawing.Drawing{Groups: []drawing.Group{g}}), "where it was: its segment leaves no room")
}
