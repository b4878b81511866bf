package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// grouped is a plan whose panels have the given boards, with one hole each.
func grouped(outlines []geom.Polygon, holes []geom.Point) *Layout {
	p := &Layout{}
	for i, o := range outlines {
		at := geom.Pt(geom.Length(i)*geom.Metre, 7*mm)
		p.Panels = append(p.Panels, Panel{
			Outline: o.Add(at).Normalized(),
			Clips:   []Clip{{Board: holes[i], BoardHoles: []geom.Point{holes[i]}}},
		})
	}
	p.GroupBoards()
	return p
}

func TestEqualBoardsWithEqualHolesShareOneTemplate(t *testing.T) {
	box := geom.R(0, 0, 100*mm, 200*mm).Polygon()
	left, right := geom.Pt(20*mm, 50*mm), geom.Pt(80*mm, 50*mm)
	p := grouped([]geom.Polygon{box, box, box, box}, []geom.Point{left, right, left, geom.Pt(50*mm, 50*mm)})
	require.Len(t, p.Boards, 3)
	assert.Equal(t, []int{0, 2}, p.Boards[0].Panels)
	assert.Equal(t, []int{1}, p.Boards[1].Panels)
	assert.Equal(t, []string{"A", "B", "C"}, []string{p.Boards[0].Name, p.Boards[1].Name, p.Boards[2].Name})
	assert.Equal(t, []int{-1, 0, -1}, []int{p.Boards[0].Twin, p.Boards[1].Twin, p.Boards[2].Twin},
		"B is A seen from behind; C is its own mirror image and no twin")
	for i, panel := range p.Panels {
		assert.Contains(t, p.Boards[panel.Board].Panels, i)
	}
}

func TestAMirroredSlopeIsATwinAndNotTheSame(t *testing.T) {
	rising := geom.Polygon{{}, {X: 100 * mm}, {X: 100 * mm, Y: 200 * mm}, {Y: 150 * mm}}
	falling := rising.Mirror(100 * mm)
	a, b := geom.Pt(20*mm, 50*mm), geom.Pt(80*mm, 50*mm)
	p := grouped([]geom.Polygon{rising, falling, falling}, []geom.Point{a, b, a})
	require.Len(t, p.Boards, 3)
	assert.Equal(t, []int{-1, 0, -1}, []int{p.Boards[0].Twin, p.Boards[1].Twin, p.Boards[2].Twin},
		"mirrored holes make the twin, unmirrored ones don't")
	assert.Equal(t, geom.Size{W: 100 * mm, H: 200 * mm}, p.Boards[0].Size)
	assert.Equal(t, rising.Normalized(), p.Boards[0].Outline)
}

func TestTheOrderOfHolesDoesNotMakeAnotherBoard(t *testing.T) {
	box := geom.R(0, 0, 100*mm, 200*mm).Polygon()
	a, b := geom.Pt(20*mm, 50*mm), geom.Pt(80*mm, 50*mm)
	p := &Layout{Panels: []Panel{
		{Outline: box, Clips: []Clip{{Board: a, BoardHoles: []geom.Point{a, b}}}},
		{Outline: box, Clips: []Clip{{Board: a, BoardHoles: []geom.Point{b, a}}}},
	}}
	p.GroupBoards()
	assert.Len(t, p.Boards, 1)
}

func TestBoardsAreLetteredOnAfterZ(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		assert.Equal(t, want, boardName(i))
	}
}

func BenchmarkGroupThousandPanels(b *testing.B) {
	box := geom.R(0, 0, 100*mm, 200*mm).Polygon()
	hole := geom.Pt(20*mm, 50*mm)
	panels := make([]Panel, 1000)
	for i := range panels {
		panels[i] = Panel{Outline: box, Clips: []Clip{{BoardHoles: []geom.Point{hole}}, {BoardHoles: []geom.Point{hole}}}}
	}
	for b.Loop() {
		p := &Layout{Panels: panels}
		p.GroupBoards()
		require.Len(b, p.Boards, 1)
	}
}
