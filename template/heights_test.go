package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/rule"
	"rodsheet/template/sheet"
)

// A stranger reads the band off the overview: each word's line ends at its height over the level line, to the scale
// that is written beside the wall's name.
func TestTheOverviewShowsTheBandWithItsHeights(t *testing.T) {
	p := onPaper(t, "bay", template.Print{Only: []drawing.Kind{sheet.Overview}})
	page := p.read[0]
	require.NotEmpty(t, page.FindText("Wall Left"))
	scale := 0.0
	for _, w := range page.Texts {
		if n, ok := strings.CutPrefix(w.String, "1 : "); ok {
			l, err := geom.ParseLength(n, geom.Metric)
			require.NoError(t, err)
			scale = l.Millimetres()
		}
	}
	require.NotZero(t, scale)
	var level float64 // of the datum's mark, whose point stands on the level line
	for _, f := range page.Fills {
		if len(f.Points) == 3 && f.Points[1].Y == f.Points[2].Y && f.Points[0].Y > f.Points[1].Y {
			level = f.Points[0].Y
		}
	}
	require.NotZero(t, level)
	// seat 438, cushion 85, panel 300, sill 868: the gap is (868 − 438 − 85 − 300)/2 = 22.5 mm. Boards are cut to whole
	// millimetres, so of 300 the finished panel is 294 + 2·2.7 = 299.4 mm.
	for words, height := range map[string]float64{
		"deck 438 mm": 438, "cushion 523 mm": 523, "bottom 545.5 mm": 545.5, "top 844.9 mm": 844.9, "sill 868 mm": 868,
	} {
		found := page.FindText(words)
		if !assert.Len(t, found, 1, "%q: walls side by side share the words", words) {
			continue
		}
		middle := reader.Point{X: found[0].X, Y: found[0].Y - 1.25}
		ends := 0
		for _, s := range page.Strokes {
			if len(s.Points) == 3 && !s.Closed && abs(s.Points[0].Y-middle.Y) < 0.01 && s.Points[0].X > middle.X {
				ends++
				assert.InDelta(t, height/scale, level-s.Points[2].Y, reader.Within, "%q", words)
			}
		}
		assert.Equal(t, 1, ends, "%q leads nowhere", words)
	}
	for _, words := range []string{"22.5 mm", "23.1 mm", "545.5 mm to 844.9 mm", "85 mm thick", "L, M, R"} {
		assert.NotEmpty(t, page.FindText(words), "the table of heights lacks %q", words)
	}
}

// Common practice: one set of blocks on the deck keeps panels at the same height through the whole nook. On paper all
// walls of the bay have their panels' lower clips at one height over the level line, and so for the upper ones.
func TestTheWallTemplatesOfTheBayHaveOneHeightAllRound(t *testing.T) {
	p := onPaper(t, "bay", everything())
	require.Len(t, p.Plan.Runs, 3)
	var heights []float64
	for r := range p.Plan.Runs {
		for _, h := range p.holesOnWall(t, r) {
			known := false
			for _, y := range heights {
				known = known || abs(y-h.Y) <= 2*reader.Within
			}
			if !known {
				heights = append(heights, h.Y)
			}
		}
	}
	assert.Len(t, heights, 4, "two rows of clips with two screws each: %v", heights)
	for i := range p.Plan.Panels {
		b := p.Plan.Panels[i].Finished.Bounds()
		assert.Equal(t, 545*mm+mm/2, b.Min.Y, p.Plan.Panels[i].Name)
		assert.Equal(t, 844*mm+9*mm/10, b.Max.Y, p.Plan.Panels[i].Name)
	}
}

// At an outside corner the run of the wall that runs through may cover the edges of the other,
// which then keeps the gap. No clip goes past the end of its wall.
func TestARunPastAnOutsideCornerIsPlannedWithItsClipsOnTheWall(t *testing.T) {
	job := func(start string) string {
		return `rodsheet: 1
name: Corner
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20}
batting: {thickness: 10, pressed: 1.5}
cover: {thickness: 1.5}
clip: {kind: press, base: 40 x 40, flange: 2.5, standoff: 10}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 3}
walls:
  - {name: A, width: 1200, height: 2400, lining: {thickness: 12.5}, corner: outside, runs: [{name: A, across: [0, 1245], height: {bottom: 500, top: 800}, panels: 3, gap: 5}]}
  - {name: B, width: 900, height: 2400, lining: {thickness: 12.5}, runs: [{name: B, across: [` + start + `, 890], height: {bottom: 500, top: 800}, panels: 2, gap: 5}]}
`
	}
	stops := func(start string) (ids []string) {
		w, err := template.Open("corner.yaml", []byte(job(start)))
		require.NoError(t, err)
		assert.Equal(t, 1245*mm, w.Plan.Panels[2].Finished.Bounds().Max.X)
		for _, panel := range w.Plan.Panels {
			for _, c := range panel.Clips {
				assert.LessOrEqual(t, c.Wall.X+20*mm, w.Plan.Walls[panel.Wall].Job.Width, panel.Name)
			}
		}
		for _, f := range w.Findings {
			if f.Level == rule.Stop {
				ids = append(ids, f.ID)
			}
		}
		return ids
	}
	assert.Empty(t, stops("5"))
	assert.Equal(t, []string{"corner-collision"}, stops("4"))
}
