package sheet

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan/layout"
)

// twoWalls has a rail behind the clips of one wall and nothing behind those of the other.
const twoWalls = `heights: {bay: {seat: 445, bottom: 545, top: 1105}}
walls:
  - name: North
    width: 2400
    height: 2300
    rails: {at: [640, 1000], width: 90}
    fittings: [{name: socket, kind: electrical, at: [2200, 300], size: 80 x 80}]
    openings: [{name: window, at: [900, 1300], size: 600 x 700}]
    keep-outs: [{name: pipe, at: [2150, 1500], size: 40 x 600}]
    runs: [{name: R, across: [20, 2000], height: bay, panels: 3, gap: 6}]
  - name: East
    width: 1200
    height: 2000
    lining: {thickness: 12.5}
    runs: [{name: E, across: [20, 1000], height: bay, panels: 1}]
`

func parts(p drawing.Picture, class string) (all []drawing.Part) {
	for _, part := range p.Parts {
		if slices.Contains(strings.Fields(part.Class), class) {
			all = append(all, part)
		}
	}
	return all
}

func TestEveryThingOfAWallIsAPartWithThePathOfItsValue(t *testing.T) {
	m := makerOf(t, metric(twoWalls))
	pics := Pictures(m.plan)
	require.Len(t, pics, 2)
	for class, key := range map[string]string{
		"rail": "walls[0].rails", "fitting": "walls[0].fittings[0]", "opening": "walls[0].openings[0]", "keep-out": "walls[0].keep-outs[0]",
		"wall-outline": "walls[0]", "panel": "R1", "deck": "heights.bay.seat", "clip": "R1",
	} {
		found := parts(pics[0], class)
		if assert.NotEmpty(t, found, class) {
			assert.Equal(t, key, found[0].Key, class)
		}
	}
	assert.Len(t, parts(pics[0], "rail"), 2)
	assert.Equal(t, []string{"walls[0].runs[0]"}, parts(pics[0], "panel")[0].About)
	assert.Contains(t, parts(pics[0], "fitting")[0].Title, "socket, 80 mm × 80 mm, at 2200 mm from the left")
	assert.Equal(t, "heights.bay.top", parts(pics[0], "height")[2].Key)
	assert.Equal(t, pics[0].Bounds.H(), pics[1].Bounds.H(), "side by side their level lines are one")
}

// The clip's wall half is 38 × 38 mm in the sample; the picture's scale is told by the wall's outline, 2400 mm wide.
func TestClipsOnAScreenAreAsLargeAsTheyAreAndTellWoodFromLiningByShape(t *testing.T) {
	m := makerOf(t, metric(twoWalls))
	pics := Pictures(m.plan)
	wide := parts(pics[0], "wall-outline")[0].Marks[0].Bounds().W()
	base := m.plan.Job.Clip.Wall.Base.W
	for i, class := range []string{"on-wood", "on-lining"} {
		clips := parts(pics[i], class)
		require.NotEmpty(t, clips, class)
		for _, c := range clips {
			assert.InDelta(t, base.Millimetres()/2400, c.Marks[0].Bounds().W().Millimetres()/wide.Millimetres(), 1e-6)
		}
		assert.Empty(t, parts(pics[1-i], class))
	}
	fill := func(p drawing.Part) drawing.Fill { return p.Marks[0].(drawing.Path).Fill }
	wood, lining := parts(pics[0], "on-wood")[0], parts(pics[1], "on-lining")[0]
	assert.Equal(t, drawing.Black, fill(wood))
	assert.Equal(t, drawing.White, fill(lining))
	assert.Contains(t, wood.Title, "on a rail")
	crossed := 0
	for _, mark := range lining.Marks {
		if _, ok := mark.(drawing.Line); ok {
			crossed++
		}
	}
	assert.Equal(t, 2, crossed)
}

func TestABoardsBackIsTheMirrorOfItsFace(t *testing.T) {
	m := makerOf(t, metric(twoWalls))
	b := &m.plan.Boards[0]
	back, face := BoardPicture(m.plan, b, Back), BoardPicture(m.plan, b, Face)
	middle := func(p drawing.Picture, i int) geom.Point { return parts(p, "clip")[i].Marks[0].Bounds().Centre() }
	require.Len(t, parts(back, "clip"), len(b.Clips))
	for i := range b.Clips {
		x, y := middle(back, i), middle(face, i)
		assert.InDelta(t, float64(back.Bounds.Min.X+back.Bounds.Max.X), float64(x.X+y.X), 4)
		assert.Equal(t, x.Y, y.Y)
	}
	holes := HolePlaces(m.plan, b, Back)
	require.Len(t, holes, holesOf(b))
	assert.Contains(t, holes[0].Across, " from ")
}

func holesOf(b *layout.Board) (n int) {
	for _, c := range b.Clips {
		n += len(c.BoardHoles)
	}
	return n
}
