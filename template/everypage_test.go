package template_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/font"
	"rodsheet/template/internal/reader"
	"rodsheet/template/paper"
	"rodsheet/template/sheet"
)

// checkLength is how long the check line of the given words is.
func checkLength(p reader.Page, words string, upright bool) (length float64, ok bool) {
	a, b, ok := checkEnds(p, words, upright)
	return a.Distance(b), ok
}

// checkEnds finds the check line with the given words beside its end: one unbroken, continuous stroke of two points with
// a tick across either end.
func checkEnds(p reader.Page, words string, upright bool) (from, to reader.Point, ok bool) {
	for _, w := range p.FindText(words) {
		if (w.Turn > 45) != upright {
			continue
		}
		for _, s := range p.Strokes {
			if len(s.Points) != 2 || s.Closed || s.Curved || len(s.Dash) > 0 {
				continue
			}
			a, b := s.Points[0], s.Points[1]
			if !upright && a.X > b.X || upright && a.Y < b.Y {
				a, b = b, a
			}
			// The words stand 2 mm past the far end, on the line's own level.
			reach, beside := w.X-b.X, w.Y-b.Y
			if upright {
				reach, beside = b.Y-w.Y, w.X-b.X
			}
			if abs(reach-2) > 0.05 || beside < 0 || beside > 2 {
				continue
			}
			if crossed(p, a, upright) && crossed(p, b, upright) && s.Clip.Has(a) && s.Clip.Has(b) {
				return a, b, true
			}
		}
	}
	return reader.Point{}, reader.Point{}, false
}

// crossed tells whether a short stroke stands across the end of a line.
func crossed(p reader.Page, end reader.Point, upright bool) bool {
	half := reader.Point{Y: 1.5}
	if upright {
		half = reader.Point{X: 1.5}
	}
	from, to := reader.Point{X: end.X - half.X, Y: end.Y - half.Y}, reader.Point{X: end.X + half.X, Y: end.Y + half.Y}
	return len(p.FindLine(from, to, 0.03)) > 0
}

// 1 in is 25.4 mm exactly (international yard and pound agreement, 1959), so 4 in are 101.6 mm.
func TestCheckLinesAreTrueOnEveryPage(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			lines := map[string]float64{"100 mm": 100}
			if p.Job.Units == geom.Imperial {
				lines["4 in"] = 101.6
			}
			for i, page := range p.read {
				for words, long := range lines {
					for _, upright := range []bool{false, true} {
						length, ok := checkLength(page, words, upright)
						if assert.True(t, ok, "page %d has no check line of %s (upright: %v)", i+1, words, upright) {
							assert.InDelta(t, long, length, reader.Within, "page %d, %s", i+1, words)
						}
					}
				}
			}
		})
	}
}

// box is what a text covers: capitals, and descenders if it has any.
func box(w reader.Text) []reader.Point {
	const em = 1000 * geom.Millimetre // for a precise ratio of capitals to the em
	capital := w.SizeMM * float64(em) / float64(font.Size(em))
	long := font.Width(w.String, em, w.Bold).Millimetres() / em.Millimetres() * capital
	sin, cos := math.Sincos(w.Turn * math.Pi / 180)
	at := func(along, up float64) reader.Point {
		return reader.Point{X: w.X + along*cos - up*sin, Y: w.Y - along*sin - up*cos}
	}
	foot := 0.0
	if strings.ContainsAny(w.String, "gjpqyQ,;()/_") {
		foot = -0.3 * capital
	}
	return []reader.Point{at(0, foot), at(long, foot), at(long, capital), at(0, capital)}
}

func capitals(w reader.Text) float64 {
	const em = 1000 * geom.Millimetre
	return w.SizeMM * float64(em) / float64(font.Size(em))
}

func span(points []reader.Point) reader.Rect {
	r := reader.Rect{Min: points[0], Max: points[0]}
	for _, p := range points {
		r.Min = reader.Point{X: min(r.Min.X, p.X), Y: min(r.Min.Y, p.Y)}
		r.Max = reader.Point{X: max(r.Max.X, p.X), Y: max(r.Max.Y, p.Y)}
	}
	return r
}

// inked is what shows of an outline with its pen through its window.
func inked(o reader.Outline, pen float64) reader.Rect {
	r := span(o.Points)
	return reader.Rect{
		Min: reader.Point{X: max(r.Min.X-pen/2, o.Clip.Min.X), Y: max(r.Min.Y-pen/2, o.Clip.Min.Y)},
		Max: reader.Point{X: min(r.Max.X+pen/2, o.Clip.Max.X), Y: min(r.Max.Y+pen/2, o.Clip.Max.Y)},
	}
}

func inside(outer, inner reader.Rect) bool { return outer.Has(inner.Min) && outer.Has(inner.Max) }

// onPapers are the jobs on their own paper, and some on larger and smaller, longer and wider paper.
func onPapers(t *testing.T) map[string]printed {
	t.Helper()
	out := map[string]printed{}
	for _, name := range jobs {
		out[name] = onPaper(t, name, everything())
	}
	for name, format := range map[string]paper.Format{"settle": paper.A3, "bay": paper.Legal, "loft": paper.Letter, "asymmetric-studs": paper.Tabloid} {
		print := everything()
		print.Paper = open(t, name).Job.Paper
		print.Paper.Size = format.Size
		out[name+" on "+format.Name] = onPaper(t, name, print)
	}
	return out
}

func TestNothingIsPrintedOutsideThePrintableRectangle(t *testing.T) {
	for name, p := range onPapers(t) {
		t.Run(name, func(t *testing.T) {
			m := p.Job.Paper.Margin.Millimetres()
			for i, page := range p.read {
				printable := reader.Rect{Min: reader.Point{X: m, Y: m}, Max: reader.Point{X: page.WidthMM - m, Y: page.HeightMM - m}}
				for _, s := range page.Strokes {
					assert.True(t, inside(printable, inked(s.Outline, s.WidthMM)), "page %d: a stroke at %+v", i+1, inked(s.Outline, s.WidthMM))
				}
				for _, f := range page.Fills {
					if f.Grey < 1 {
						assert.True(t, inside(printable, inked(f.Outline, 0)), "page %d: a fill at %+v", i+1, inked(f.Outline, 0))
					}
				}
				for _, w := range page.Texts {
					if p.set.Pages[i].Ref != "" && !inside(w.Clip, span(box(w))) {
						continue // words that run over to the next page
					}
					assert.True(t, inside(printable, span(box(w))), "page %d: %q at %+v", i+1, w.String, span(box(w)))
				}
			}
		})
	}
}

// No letter is lower than 2.5 mm: our own choice out of the heights of ISO 3098, which begin at 1.8 mm.
func TestLettersAreAtLeastTwoAndAHalfMillimetresHigh(t *testing.T) {
	for _, name := range jobs {
		p := onPaper(t, name, everything())
		for i, page := range p.read {
			require.NotEmpty(t, page.Texts, "%s, page %d", name, i+1)
			for _, w := range page.Texts {
				assert.GreaterOrEqual(t, capitals(w), 2.5-0.01, "%s, page %d: %q", name, i+1, w.String)
			}
		}
	}
}

// Words must not be cut off by the edge of the window they stand in. Those of a tiled drawing run over to the next page,
// and on wall pages what is written behind the holes may be cut off where it is not written twice.
func TestWordsAreWhole(t *testing.T) {
	for name, p := range onPapers(t) {
		t.Run(name, func(t *testing.T) {
			for i, page := range p.read {
				behind := clipOf(p.set.Pages[i].Layers[0].Clip)
				for _, w := range page.Texts {
					if inside(w.Clip, span(box(w))) {
						continue
					}
					again := false
					for _, other := range page.FindText(w.String) {
						again = again || inside(other.Clip, span(box(other)))
					}
					tiled := p.set.Pages[i].Ref != "" && w.Clip.Min.Distance(behind.Min) < 0.01 && w.Clip.Max.Distance(behind.Max) < 0.01
					assert.True(t, tiled && (!again || strings.HasPrefix(p.set.Pages[i].Sheet, "board")),
						"page %d (%s): %q at %+v is cut by the window %+v", i+1, p.set.Pages[i].Sheet, w.String, span(box(w)), w.Clip)
				}
			}
		})
	}
}

func clipOf(r geom.Rect) reader.Rect {
	return reader.Rect{Min: point(r.Min), Max: point(r.Max)}
}

// reaches tells whether the quadrilateral comes nearer to p than r.
func reaches(quad []reader.Point, p reader.Point, r float64) bool {
	in := true
	for i, a := range quad {
		b := quad[(i+1)%len(quad)]
		in = in && (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) <= 0
		k := ((p.X-a.X)*(b.X-a.X) + (p.Y-a.Y)*(b.Y-a.Y)) / (a.Distance(b) * a.Distance(b))
		k = max(0, min(1, k))
		if p.Distance(reader.Point{X: a.X + k*(b.X-a.X), Y: a.Y + k*(b.Y-a.Y)}) < r {
			return true
		}
	}
	return in
}

// Text never stands over a drill circle nor over the arms of its cross.
func TestNoWordsStandOverAHole(t *testing.T) {
	for name, p := range onPapers(t) {
		t.Run(name, func(t *testing.T) {
			drills := 0
			for _, c := range p.counts {
				if c.Kind != sheet.Board && c.Kind != sheet.Wall && c.Kind != sheet.Corner {
					continue
				}
				for _, i := range p.pagesOf(c) {
					holes, _ := symbols(t, p.read[i])
					drills += len(holes)
					for _, h := range holes {
						arm := h.radius + 4.5
						for _, w := range p.read[i].Texts {
							quad := box(w)
							over := reaches(quad, h.at, h.radius)
							for k := -9.0; k <= 9; k++ { // along both arms
								over = over || reaches(quad, reader.Point{X: h.at.X + arm*k/9, Y: h.at.Y}, 0.1) ||
									reaches(quad, reader.Point{X: h.at.X, Y: h.at.Y + arm*k/9}, 0.1)
							}
							assert.False(t, over, "page %d (%s): %q at %.1f, %.1f stands over the hole at %.1f, %.1f", i+1, c.Title, w.String, w.X, w.Y, h.at.X, h.at.Y)
						}
					}
				}
			}
			assert.NotZero(t, drills)
		})
	}
}

// On every page stand its number, its sheet, its grid reference, the job, and what side it is laid on.
func TestEveryPageTellsWhatItIs(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			for _, c := range p.counts {
				for _, i := range p.pagesOf(c) {
					page := p.read[i]
					assert.NotEmpty(t, page.FindText(fmt.Sprintf("page %d of %d", i+1, len(p.read))), "page %d", i+1)
					assert.NotEmpty(t, page.FindText(c.Title), "page %d doesn't say %q", i+1, c.Title)
					assert.NotEmpty(t, page.FindText(p.Job.Name), "page %d", i+1)
					if ref := p.set.Pages[i].Ref; ref != "" {
						assert.NotEmpty(t, page.FindText(ref), "page %d", i+1)
					}
					if c.Kind == sheet.Board || c.Kind == sheet.Wall {
						assert.NotEmpty(t, page.FindText("UP"), "page %d has no UP", i+1)
						assert.True(t, c.Pages == 1 || p.set.Pages[i].Ref != "", "page %d, one of several, has no reference", i+1)
					}
				}
			}
		})
	}
}
