package template_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// wideRectangles are upright rectangles drawn in a wide line.
func wideRectangles(p reader.Page) []reader.Rect {
	var out []reader.Rect
	for _, s := range p.Strokes {
		if s.Closed && !s.Curved && len(s.Points) == 4 && abs(s.WidthMM-drawing.WideWidth.Millimetres()) < 0.01 && len(s.Dash) == 0 {
			out = append(out, span(s.Points))
		}
	}
	return out
}

func TestBlocksAreAsHighAsThePlanSaysAndSoAreTheirSteps(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			require.NotEmpty(t, p.Plan.Blocks)
			var boxes []reader.Rect
			var rights []float64
			for _, c := range p.of(sheet.Block) {
				for _, i := range p.pagesOf(c) {
					page := p.read[i]
					boxes = append(boxes, wideRectangles(page)...)
					for _, w := range page.FindText("right") {
						// A tread lies 2 mm under its word; the foot is the wide line below.
						tread, foot := 0.0, 0.0
						for _, s := range strokesOf(page) {
							a, b := s.Points[0], s.Points[1]
							if abs(a.Y-b.Y) > 0.01 || min(a.X, b.X) > w.X || max(a.X, b.X) < w.X {
								continue
							}
							if abs(a.Y-w.Y-2) < 0.01 && s.WidthMM < 0.2 {
								tread = a.Y
							}
							if s.WidthMM > 0.4 && a.Y > w.Y && (foot == 0 || a.Y < foot) {
								foot = a.Y
							}
						}
						require.NotZero(t, tread)
						rights = append(rights, foot-tread)
					}
				}
			}
			for _, b := range p.Plan.Blocks {
				high := b.Height.Millimetres()
				assert.True(t, slices.ContainsFunc(boxes, func(r reader.Rect) bool { return abs(r.Max.Y-r.Min.Y-high) <= reader.Within }), "no block of %v among %v", b.Height, boxes)
				assert.True(t, slices.ContainsFunc(rights, func(r float64) bool { return abs(r-high) <= reader.Within }), "no step of %v among %v", b.Height, rights)
			}
			assert.Len(t, boxes, len(p.Plan.Blocks))
		})
	}
}

// Each line across a rod has what a tape reads there beside it; between any two of a piece the paper measures what the
// plan has between them.
func TestRodsMeasureWhatTheirWordsSay(t *testing.T) {
	for _, name := range []string{"settle", "bay", "loft"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			fine := p.Job.Units.Fine().Millimetres()
			exact := p.rodPlaces()
			told := 0
			for _, c := range p.of(sheet.Rod) {
				for _, i := range p.pagesOf(c) {
					var marks []rodMark
					for _, w := range p.read[i].Texts {
						reads, name, ok := rodWords(w, p.Job.Units)
						if !ok {
							continue
						}
						line, found := besideLine(p.read[i], w)
						if !assert.True(t, found, "page %d: no line beside %q", i+1, w.String) {
							continue
						}
						// The place that the words mean, exact.
						best, least := 0.0, 2*fine
						for _, e := range exact[name] {
							if abs(e-reads) < least {
								best, least = e, abs(e-reads)
							}
						}
						if assert.LessOrEqual(t, least, fine, "page %d: the plan has no %q at %v", i+1, name, reads) {
							marks = append(marks, rodMark{line.X, line.Y, best})
							told++
						}
					}
					for _, a := range marks {
						for _, b := range marks {
							if abs(a.y-b.y) < 1 { // of one piece
								assert.InDelta(t, b.at-a.at, b.x-a.x, 2*reader.Within, "page %d", i+1)
							}
						}
					}
				}
			}
			assert.Greater(t, told, 4*len(p.Plan.Panels), "panel edges and clip columns are missing")
		})
	}
}

type rodMark struct{ x, y, at float64 }

// rodWords splits "18 7/16″ L1 left", written across the strip.
func rodWords(w reader.Text, units geom.System) (reads float64, name string, ok bool) {
	unit := "″ "
	if units == geom.Metric {
		unit = " mm "
	}
	length, name, found := strings.Cut(w.String, unit)
	if !found || w.Turn < 45 {
		return 0, "", false
	}
	l, err := geom.ParseLength(strings.TrimPrefix(length, "≈"), units)
	for _, kind := range []string{"bottom", "top", "clips"} { // of these panels
		if strings.HasPrefix(name, kind+" ") {
			name = kind
		}
	}
	return l.Millimetres(), name, err == nil
}

// besideLine finds the foot of the line that words along it belong to: a hair line leads from their beginning to it.
func besideLine(p reader.Page, w reader.Text) (foot reader.Point, ok bool) {
	words := reader.Point{X: w.X - font.Small.Millimetres()/2, Y: w.Y + 1} // the middle of the letters
	for _, lead := range strokesOf(p) {
		if lead.WidthMM > 0.2 || lead.Points[1].Distance(words) > 0.02 {
			continue
		}
		for _, s := range strokesOf(p) {
			a, b := s.Points[0], s.Points[1]
			if abs(a.X-b.X) < 0.001 && a.Y-b.Y > 8 && b.Distance(lead.Points[0]) < 0.001 {
				return a, true
			}
		}
	}
	return reader.Point{}, false
}

// rodPlaces are the exact places that the words of rods mean, mm.
func (p printed) rodPlaces() map[string][]float64 {
	out := map[string][]float64{}
	add := func(name string, at geom.Length) { out[name] = append(out[name], at.Millimetres()) }
	for i := range p.Plan.Panels {
		panel := &p.Plan.Panels[i]
		b := panel.Finished.Bounds()
		add(panel.Name+" left", b.Min.X)
		add(panel.Name+" right", b.Max.X)
		for _, name := range []string{"panel ", ""} { // shared by the run, or not
			add(name+"bottom", b.Min.Y)
			add(name+"top", b.Max.Y)
		}
		for _, c := range panel.Clips {
			add(panel.Name+" clips", c.Wall.X)
			add("clips", c.Wall.Y)
		}
	}
	for _, r := range p.Plan.Runs {
		for _, stud := range p.Plan.Walls[r.Wall].Members {
			add("stud", stud.Body.Min.X)
			add("stud", stud.Body.Max.X)
		}
		if h := r.Band; h != nil {
			for i, end := range []string{", left", ", right"} {
				for _, end := range []string{"", end} {
					add("deck"+end, h.Deck[i])
					add("cushion"+end, h.Deck[i]+h.Cushion)
				}
			}
			add("sill", h.Sill)
		}
	}
	return out
}

// The lining gives and no stud is known, so every wall half gets a pad.
func TestPadsHaveTheirSizeAndTheirHolesWhereTheWallHalfHasThem(t *testing.T) {
	reader.Need(t, "mutool")
	_, data := source(t, "asymmetric-studs")
	text := strings.NewReplacer("lining: {thickness: 12.5}", "lining: {thickness: 6, gives: true}", "[224, 514, 678, 968]", "[20]", "clips: {follow: studs}", "shims: {stock: 3.2}").Replace(string(data))
	w, err := template.Open("pads.yaml", []byte(text))
	require.NoError(t, err)
	require.Positive(t, w.Plan.Shims.Count)
	p := read(t, w, template.Print{Only: []drawing.Kind{sheet.Shim}})
	size := w.Plan.Shims.Size
	pads := 0
	for _, page := range p.read {
		holes, _ := symbols(t, page)
		boxes := wideRectangles(page)
		pads += len(boxes)
		assert.Len(t, holes, len(boxes)*len(w.Job.Clip.Wall.Holes))
		for _, b := range boxes {
			assert.InDelta(t, size.W.Millimetres(), b.Max.X-b.Min.X, reader.Within)
			assert.InDelta(t, size.H.Millimetres(), b.Max.Y-b.Min.Y, reader.Within)
			for _, h := range w.Job.Clip.Wall.Holes {
				want := reader.Point{X: (b.Min.X+b.Max.X)/2 + h.X.Millimetres(), Y: (b.Min.Y+b.Max.Y)/2 - h.Y.Millimetres()}
				var at []reader.Point
				for _, s := range holes {
					at = append(at, s.at)
				}
				assert.True(t, has(at, want, reader.Within), "no hole at %+v", want)
			}
		}
	}
	assert.NotZero(t, pads)
	assert.LessOrEqual(t, pads, w.Plan.Shims.Count+w.Plan.Shims.Spares)
}
