package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/job"
)

// members are the bodies of a wall's studs and rails.
func (f wallFigure) members() (studs, rails []reader.Rect) {
	for _, c := range f.studs {
		studs = append(studs, rect(c-f.stud/2, 0, f.stud, f.height))
	}
	for _, c := range f.rails {
		rails = append(rails, rect(0, c-f.rail/2, f.width, f.rail))
	}
	return studs, rails
}

// Screws must meet the wood that the person found, so both edges of every stud and rail stand on each page that shows
// them, dashed as what is hidden (ISO 128-2), and no other line looks so.
func TestWallPagesShowBothEdgesOfEveryStudAndRail(t *testing.T) {
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			told := 0
			for _, w := range wallPages(t, name) {
				var edges [][2]reader.Point
				studs, rails := w.figure.members()
				for _, s := range studs {
					edges = append(edges, sides(s)[1], sides(s)[3])
				}
				for _, r := range rails {
					edges = append(edges, sides(r)[0], sides(r)[2])
				}
				for _, e := range edges {
					if a, b, ok := w.seen(e[0], e[1]); ok {
						told++
						assert.True(t, w.drawn(a, b, dashed), "page %d: no edge of wood from %.1f to %.1f of the wall", w.number, e[0], e[1])
					}
				}
				for _, s := range w.pieces {
					if !dashed(s) || s.Clip.Min.Distance(w.window.Min) > 0.1 {
						continue
					}
					middle := reader.Rect{Min: s.From, Max: s.To}.Centre()
					known := !w.window.Has(middle) && !w.window.Has(s.From) && !w.window.Has(s.To)
					for _, e := range edges {
						a, b := w.paper(e[0]), w.paper(e[1])
						known = known || reader.Segment{From: a, To: b}.Distance(middle) <= reader.Within
					}
					assert.True(t, known, "page %d: a dashed line at %.1f where no wood ends", w.number, w.wall(middle))
				}
			}
			assert.NotZero(t, told)
		})
	}
}

// The words about wood say where its middle is, and stand on it.
func TestWordsAboutWoodStandOnItAndTellItsMiddle(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			told := 0
			for _, w := range wallPages(t, name) {
				studs, rails := w.figure.members()
				for _, kind := range []struct {
					word    string
					bodies  []reader.Rect
					centres []float64
				}{{"stud ", studs, w.figure.studs}, {"rail ", rails, w.figure.rails}} {
					for _, words := range w.Texts {
						reads, ok := strings.CutPrefix(words.String, kind.word)
						if !ok {
							continue
						}
						told++
						on := 0
						for i, body := range kind.bodies {
							a, b := w.paper(body.Min), w.paper(body.Max)
							if span([]reader.Point{a, b}).Gap(span(box(words))) > 0 {
								continue
							}
							if abs(length(t, reads, w.Job.Units)-kind.centres[i]) <= w.Job.Units.Fine().Millimetres() {
								on++
							}
						}
						assert.Equal(t, 1, on, "page %d: %q at %.1f of the wall", w.number, words.String, w.wall(middle(words)))
					}
				}
			}
			assert.NotZero(t, told)
		})
	}
}

// A zone without holes reaches as far as its margin: its border is drawn where a page shows it, the thing itself in a
// wide line, and hatching runs from border to border.
func TestWallPagesShowZonesWithoutHolesWithTheirMargin(t *testing.T) {
	shown := map[string]int{}
	for _, name := range []string{"settle", "bay", "loft", bothWays, "hall with a pipe"} {
		t.Run(name, func(t *testing.T) {
			for _, w := range wallPages(t, name) {
				for what, th := range w.figure.things {
					for _, r := range []struct {
						reader.Rect
						wide bool
					}{{th.zone(), false}, {th.body, true}} {
						for _, e := range sides(r.Rect) {
							a, b, ok := w.seen(e[0], e[1])
							if !ok {
								continue
							}
							if r.wide {
								shown[what+" itself"]++
							} else {
								shown[what]++
							}
							assert.True(t, w.drawn(a, b, func(s reader.Segment) bool {
								return solid(s) && (s.WidthMM > drawing.NarrowWidth.Millimetres()+0.1) == r.wide
							}), "page %d: %s has no edge from %.1f to %.1f of the wall", w.number, what, e[0], e[1])
						}
					}
				}
				w.holdHatching(t, shown)
			}
		})
	}
	for _, what := range []string{"roof window", "pipe", "pipe itself", "hatching"} {
		assert.Positive(t, shown[what], "no page shows %s: the test sees too little", what)
	}
}

// slanting reports whether a piece is an open line at 45°, as hatching is.
func slanting(s reader.Segment) bool {
	return !s.Closed && s.Length() > 0.5 && abs(abs(s.From.X-s.To.X)-abs(s.From.Y-s.To.Y)) < 0.02
}

// holdHatching fails where a slanting line of a page that ends in its window does not end on the border of a zone.
func (w wallPage) holdHatching(t *testing.T, count map[string]int) {
	t.Helper()
	for _, s := range w.pieces {
		if !slanting(s) {
			continue
		}
		for _, end := range []reader.Point{s.From, s.To} {
			if !w.window.Has(end) {
				continue
			}
			count["hatching"]++
			on := false
			for _, th := range w.figure.things {
				for _, e := range sides(th.zone()) {
					on = on || reader.Segment{From: e[0], To: e[1]}.Distance(w.wall(end)) <= reader.Within
				}
			}
			assert.True(t, on, "page %d: hatching ends at %.1f of the wall", w.number, w.wall(end))
		}
	}
}

// In the overview's pictures, to the scale that stands beside the wall's name, hatching fills each zone up to its margin.
func TestTheOverviewHatchesZonesWithTheirMargin(t *testing.T) {
	for name, run := range map[string]string{"settle": "L", "loft": "G"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			page := p.read[p.of("overview")[0].First-1]
			scale := 0.0
			for _, w := range page.Containing("1 : ") {
				scale, _ = lengthIn(t, w.String, "1 : ", "", job.Job{}.Units)
			}
			figure := wallFigures[name][run]
			var origin reader.Point // the level line at the wall's left end is where the datum's mark points to
			for _, f := range page.Arrowheads() {
				if f.Tip.Y > f.Foot.Y+1 {
					origin = f.Tip
				}
			}
			ends := map[string]map[int]bool{}
			for _, s := range page.Segments() {
				if !slanting(s) {
					continue
				}
				for _, end := range []reader.Point{s.From, s.To} {
					at := reader.Point{X: (end.X - origin.X) * scale, Y: (origin.Y - end.Y) * scale}
					found := false
					for what, th := range figure.things {
						for k, e := range sides(th.zone()) {
							if (reader.Segment{From: e[0], To: e[1]}).Distance(at) <= scale*reader.Within {
								if ends[what] == nil {
									ends[what] = map[int]bool{}
								}
								ends[what][k], found = true, true
							}
						}
					}
					assert.True(t, found, "hatching ends at %.1f of the wall", at)
				}
			}
			for what := range figure.things {
				assert.Len(t, ends[what], 4, "%s is hatched to all four sides of its zone", what)
			}
		})
	}
}

// A wall half is laid on its outline: it has the half's size and stands round the holes as the half has them.
func TestWallPagesShowTheBaseOfEveryHalfInItsPlace(t *testing.T) {
	bases := map[string]reader.Point{ // from the job files
		"settle": {X: 1.25 * inch, Y: 2.25 * inch}, "bay": {X: 40, Y: 50}, "loft": {X: 38, Y: 38}, bothWays: {X: 38, Y: 38}, "asymmetric-studs": {X: 40, Y: 50},
	}
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			size, told := bases[name], 0
			for _, w := range wallPages(t, name) {
				for _, pi := range w.Plan.Runs[w.run].Panels {
					for _, c := range w.Plan.Panels[pi].Clips {
						// The middle of a half: where the mean of its holes stands, less the mean that the job gives them.
						var middle reader.Point
						for k, h := range c.WallHoles {
							off, n := w.Job.Clip.Wall.Holes[k], float64(len(c.WallHoles))
							middle.X += (h.X - off.X).Millimetres() / n
							middle.Y += (h.Y - off.Y).Millimetres() / n
						}
						for _, e := range sides(rect(middle.X-size.X/2, middle.Y-size.Y/2, size.X, size.Y)) {
							if a, b, ok := w.seen(e[0], e[1]); ok {
								told++
								assert.True(t, w.drawn(a, b, solid), "page %d: the %s half has no edge from %.1f to %.1f", w.number, c.Place, e[0], e[1])
							}
						}
					}
				}
			}
			assert.NotZero(t, told)
		})
	}
}

// The outline of each finished panel is drawn on every page that shows some of it.
func TestWallPagesShowTheOutlinesOfPanels(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			told := 0
			for _, w := range wallPages(t, name) {
				for _, pi := range w.Plan.Runs[w.run].Panels {
					outline := w.Plan.Panels[pi].Finished
					for i, a := range outline {
						b := outline[(i+1)%len(outline)]
						if a.X != b.X && a.Y != b.Y {
							continue
						}
						if from, to, ok := w.seen(point(a), point(b)); ok {
							told++
							assert.True(t, w.drawn(from, to, solid), "page %d: %s has no edge from %v to %v", w.number, w.Plan.Panels[pi].Name, a, b)
						}
					}
				}
			}
			assert.NotZero(t, told)
		})
	}
}
