package template_test

import (
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/pdf"
	"rodsheet/template/sheet"
)

// areaJob is a metric job with one area under a sloping ceiling, with openings and fittings that cut into it; the same
// number gives the same job.
func areaJob(n uint64) string {
	r := rand.New(rand.NewPCG(n, 6))
	between := func(lo, hi int) int { return lo + r.IntN(hi-lo+1) }
	wide, high := between(900, 3600), between(1300, 2600)
	var b strings.Builder
	fmt.Fprintf(&b, `rodsheet: 1
name: Area %d
units: mm
board: {thickness: 9.2, sheet: 1220 x 2440}
foam: {thickness: %d}
batting: {thickness: 8, pressed: 1.5}
cover: {thickness: 1}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 10}
screws:
  board: {size: 3.5 mm, length: 10}
  wall: {size: 3.5 mm, length: 40}
  marker: 2
slivers: {width: %d, merge: %v}
walls:
  - name: W
    width: %d
    height: %d
    lining: {thickness: 12.5}
    depth: 140
    studs: {from: %d, every: %d, width: 45, depth: 95}
`, n, between(10, 30), between(60, 120), r.IntN(2) == 0, wide, high, between(20, 300), between(300, 625))
	left, right := between(20, wide/4), wide-between(20, wide/4)
	bottom, top := between(50, 500), high-between(20, 300)
	corners := [][2]int{{left, bottom}, {right, bottom}, {right, top}, {left, top}}
	switch r.IntN(6) {
	case 0: // a slope on the right
		corners = [][2]int{{left, bottom}, {right, bottom}, {right, bottom + (top-bottom)/3}, {left + (right-left)/2, top}, {left, top}}
	case 1: // a slope over all
		corners = [][2]int{{left, bottom}, {right, bottom}, {right, bottom + (top-bottom)/2}, {left, top}}
	case 2: // a gable
		corners = [][2]int{{left, bottom}, {right, bottom}, {right, bottom + (top-bottom)/2}, {(left + right) / 2, top}, {left, bottom + (top-bottom)/2}}
	case 3: // an L
		corners = [][2]int{{left, bottom}, {right, bottom}, {right, (bottom + top) / 2}, {(left + right) / 2, (bottom + top) / 2}, {(left + right) / 2, top}, {left, top}}
	case 4: // a triangle, given clockwise and closed twice
		corners = [][2]int{{left, bottom}, {(left + right) / 2, top}, {right, bottom}, {left, bottom}}
	}
	if r.IntN(3) > 0 {
		b.WriteString("    openings:\n")
		for i := range between(1, 2) {
			w, h := between(80, 600), between(80, 600)
			fmt.Fprintf(&b, "      - {name: hole %d, kind: window, at: [%d, %d], size: %d x %d}\n", i, between(0, max(1, wide-w)), between(0, max(1, high-h)), min(w, wide), min(h, high))
		}
	}
	if r.IntN(2) == 0 {
		fmt.Fprintf(&b, "    fittings:\n      - {name: socket, kind: electrical, at: [%d, %d], size: 86 x 86}\n", between(0, wide-90), between(0, high-90))
	}
	b.WriteString("    runs:\n      - {name: G, area: [")
	for i, c := range corners {
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "[%d, %d]", c[0], c[1])
	}
	fmt.Fprintf(&b, "], panels: %d, gap: %d}\n", max(1, (right-left)/between(250, 700)), between(0, 8))
	return b.String()
}

// 200 random areas with openings run through the whole path to PDF without an error.
func TestTwoHundredRandomAreasRunThroughToPaper(t *testing.T) {
	const batches, each = 4, 50
	var panels, notched [batches]int
	t.Run("all", func(t *testing.T) {
		for batch := range batches {
			t.Run(fmt.Sprint(batch), func(t *testing.T) {
				t.Parallel()
				for i := range each {
					n := uint64(batch*each + i)
					text := areaJob(n)
					w, err := template.Open("area.yaml", []byte(text))
					if !assert.NoError(t, err, "area %d:\n%s", n, text) {
						continue
					}
					panels[batch] += len(w.Plan.Panels)
					for _, p := range w.Plan.Panels {
						if len(p.Outline) > 5 {
							notched[batch]++
						}
					}
					set, _, err := w.Pages(template.Print{AllowStops: true})
					if !assert.NoError(t, err, "area %d:\n%s", n, text) {
						continue
					}
					require.NotEmpty(t, set.Pages)
					assert.NoError(t, pdf.Write(io.Discard, set), "area %d:\n%s", n, text)
				}
			})
		}
	})
	sum := func(list [batches]int) (total int) {
		for _, n := range list {
			total += n
		}
		return total
	}
	assert.Greater(t, sum(panels), 400, "the areas are too poor to tell anything")
	assert.Greater(t, sum(notched), 20, "openings hardly cut into any board")
}

// A sample of the random areas is read back off the paper, hole by hole.
func TestRandomAreasAreDrilledWhereTheyShould(t *testing.T) {
	for n := range uint64(200) {
		if n%20 != 0 && n != 190 {
			continue
		}
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			w, err := template.Open("area.yaml", []byte(areaJob(n)))
			require.NoError(t, err)
			read(t, w, template.Print{}).holdJigs(t)
			if n%40 != 0 {
				return
			}
			p := read(t, w, template.Print{Only: []drawing.Kind{sheet.Board, sheet.Wall}})
			for i := range p.Plan.Boards {
				b := &p.Plan.Boards[i]
				hold(t, "board "+b.Name, boardHoles(b), p.holesOnBoard(t, b, sheet.Back), 2*reader.Within)
			}
			for r := range p.Plan.Runs {
				hold(t, "run "+p.Plan.Runs[r].Name, p.wallHoles(r), p.holesOnWall(t, r), reader.Within)
			}
		})
	}
}
