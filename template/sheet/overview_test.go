package sheet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/typeset"
)

// The bay's middle run goes into both corners, so it hangs first; its clips lift.
func TestTheOverviewSaysInWhichOrderPanelsHang(t *testing.T) {
	assert.Equal(t, "Hang the panels in this order: M1–M4, L1, L2, R1, R2. M1 before L2 and M4 before R1: they go into the corner behind. "+
		"Hold each 14 mm above its place, hook it over, let it down. They come off in the opposite order.", makerOf(t, stored(t, "bay")).hangingStep())
	assert.Equal(t, "Hang panel G1.", makerOf(t, metric(`walls: [{name: A, width: 1000, height: 2000, runs: [{name: G, across: [100, 600], height: {bottom: 200, top: 700}, panels: 1}]}]`)).hangingStep())
	assert.Equal(t, "No order of hanging is possible: see above.", makerOf(t, metric(`walls:
  - {name: A, width: 1000, height: 2000, corner: inside, runs: [{name: A, across: [60, 1000], height: {bottom: 200, top: 700}, panels: 1}]}
  - {name: B, width: 1000, height: 2000, corner: inside, runs: [{name: B, across: [60, 1000], height: {bottom: 200, top: 700}, panels: 1}]}
  - {name: C, width: 1000, height: 2000, corner: inside, runs: [{name: C, across: [60, 1000], height: {bottom: 200, top: 700}, panels: 1}]}
`)).hangingStep())
}

// The picture gives way where that spares a page: no few lines on a page of their own.
func TestAnOverviewTakesAsFewPagesAsItCan(t *testing.T) {
	spared := 0
	for boards := range 14 {
		runs := ""
		for i := range boards + 1 {
			runs += fmt.Sprintf("{name: %c, across: [%d, %d], height: {bottom: 200, top: %d}, panels: 1}, ", 'A'+i, 150*i, 150*i+140, 500+10*i)
		}
		m := makerOf(t, metric("walls: [{name: W, width: 2400, height: 2400, lining: {thickness: 12}, depth: 120, studs: {at: []}, runs: ["+runs+"]}]"))
		pages := func(percent geom.Length) int {
			return len(typeset.Set(a4Field, m.overviewBlocks(nil, a4Field.H*percent/100)...))
		}
		got := len(m.overview(nil).Drawings)
		assert.Equal(t, pages(28), got, "%d boards", boards+1)
		if pages(40) > got {
			spared++
		}
	}
	assert.Positive(t, spared)
}

// Every jig shows each board that it is for, with the edges that it lies on.
func TestEveryJigHasAPictureOfEachCornerItIsFor(t *testing.T) {
	for _, job := range []string{"loft", "bay"} {
		m := makerOf(t, stored(t, job))
		sheets, _ := m.corners()
		for _, s := range sheets {
			thick := 0
			for _, d := range s.Drawings {
				for _, mark := range d.Marks {
					if l, ok := mark.(drawing.Line); ok && l.Pen.Width == 12*mm/10 {
						thick++
					}
				}
			}
			assert.Positive(t, thick, "%s, %s: no picture", job, s.Title)
		}
	}
}

// A stretch without a mark takes no paper, and the piece before it says where the next begins.
func TestARodHasNoEmptyPieces(t *testing.T) {
	m := makerOf(t, stored(t, "loft"))
	r := rod{title: "Rod", start: "reads from the left"}
	r.add(0, "first", drawing.Wide)
	r.add(1000*mm, "last", drawing.Wide)
	words := all(drawing.Sheet{Drawings: m.rodPages(r)})
	assert.Contains(t, words, "piece 1 of 2")
	assert.Contains(t, words, "piece 2 of 2")
	assert.Regexp(t, `piece 2 begins at ≈?[0-9.]+ mm`, words)
	assert.NotContains(t, words, "leave this")
	r.add(170*mm, "near", drawing.Wide)
	r.sort()
	assert.Contains(t, all(drawing.Sheet{Drawings: m.rodPages(r)}), "leave this: piece 2 lies on it")
}
