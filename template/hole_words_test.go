package template_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// A clipNote is what a wall page says beside a wall half.
type clipNote struct {
	panel, place string
	lines        []reader.Text // the name first
}

// clipNotes are the words about wall halves on a page: the name in bold, and the lines under it.
func (w wallPage) clipNotes() []clipNote {
	var out []clipNote
	for _, pi := range w.Plan.Runs[w.run].Panels {
		panel := &w.Plan.Panels[pi]
		for _, c := range panel.Clips {
			for _, head := range w.FindText(panel.Name + " " + c.Place) {
				note := clipNote{panel: panel.Name, place: c.Place, lines: []reader.Text{head}}
				for last := head; ; {
					k := slices.IndexFunc(w.Texts, func(t reader.Text) bool {
						return abs(t.X-last.X) < 0.1 && t.Y > last.Y && t.Y < last.Y+6 && !t.Bold
					})
					if k < 0 {
						break
					}
					last = w.Texts[k]
					note.lines = append(note.lines, last)
				}
				out = append(out, note)
			}
		}
	}
	return out
}

// box is what a note covers.
func (n clipNote) box() reader.Rect {
	var corners []reader.Point
	for _, l := range n.lines {
		corners = append(corners, box(l)...)
	}
	return span(corners)
}

// Words about a wall half that stand beside another one send the drill to the wrong place: no base on the page is nearer
// to them than their own, and they cover none.
func TestWordsAboutAWallHalfStandBesideItAlone(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			told := 0
			for _, w := range wallPages(t, name) {
				base := w.Job.Clip.Wall.Base
				for _, note := range w.clipNotes() {
					told++
					covered := note.box()
					own, nearest := -1.0, "nothing"
					least := 1000.0
					for _, pi := range w.Plan.Runs[w.run].Panels {
						for _, c := range w.Plan.Panels[pi].Clips {
							at := w.paper(point(c.Wall))
							r := rect(at.X-base.W.Millimetres()/2, at.Y-base.H.Millimetres()/2, base.W.Millimetres(), base.H.Millimetres())
							if r.Gap(w.window) > 0 {
								continue
							}
							d := r.Gap(covered)
							if w.Plan.Panels[pi].Name == note.panel && c.Place == note.place {
								own = d
							}
							if d < least {
								least, nearest = d, w.Plan.Panels[pi].Name+" "+c.Place
							}
						}
					}
					assert.Positive(t, own, "page %d: words about %s %s cover it, or it isn't on the page", w.number, note.panel, note.place)
					assert.LessOrEqual(t, own, least, "page %d: words about %s %s stand nearer to %s", w.number, note.panel, note.place, nearest)
				}
			}
			assert.Positive(t, told)
		})
	}
}

// Every hole on a page has the words of its half beside it, and those say what its screws meet: wood where the job has
// both of them behind it, else the lining alone.
func TestWordsAboutAWallHalfSayWhatItsScrewsMeet(t *testing.T) {
	met := map[string]int{}
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			for _, w := range wallPages(t, name) {
				studs, rails := w.figure.members()
				notes := w.clipNotes()
				for _, pi := range w.Plan.Runs[w.run].Panels {
					for _, c := range w.Plan.Panels[pi].Clips {
						all := true // of the half's holes are seen
						for _, h := range c.WallHoles {
							all = all && w.window.Has(w.paper(point(h)))
						}
						if !all || !w.window.Has(w.paper(point(c.Wall))) {
							continue
						}
						k := slices.IndexFunc(notes, func(n clipNote) bool { return n.panel == w.Plan.Panels[pi].Name && n.place == c.Place })
						if !assert.GreaterOrEqual(t, k, 0, "page %d: no words about %s %s", w.number, w.Plan.Panels[pi].Name, c.Place) {
							continue
						}
						in := func(bodies []reader.Rect) bool {
							return slices.ContainsFunc(bodies, func(b reader.Rect) bool {
								return !slices.ContainsFunc(c.WallHoles, func(h geom.Point) bool { return !b.Has(point(h)) })
							})
						}
						want := map[bool][]string{true: {"lining alone: a fixing made for it"}}[!in(studs) && !in(rails)]
						if in(studs) {
							want = append(want, "into the stud")
						}
						if in(rails) {
							want = append(want, "into the rail")
						}
						said := notes[k].lines[1].String
						met[said]++
						assert.Contains(t, want, said, "page %d: %s %s", w.number, w.Plan.Panels[pi].Name, c.Place)
					}
				}
			}
		})
	}
	for _, words := range []string{"into the stud", "into the rail", "lining alone: a fixing made for it"} {
		assert.Positive(t, met[words], "%s: the test sees too little", words)
	}
}

var drill = regexp.MustCompile(`^drill ⌀ ([^,]+), (.+)$`)

// A lead hole is never wider than the screw's root, or the threads hold nothing. NDS 2018, Appendix L, Table L3: the
// root of #8 is 0.131 in, that of #7 (shank 0.151 in = 3.84 mm, less than 4 mm) 0.122 in. Screws thinner than #6 have no
// row; two-thirds of the shank is the careful rule of the USDA Wood Handbook, FPL-GTR-190, chapter 8.
func TestLeadHolesOnWallPagesAreNoWiderThanTheScrewsRoot(t *testing.T) {
	for name, root := range map[string]float64{"settle": 0.131 * inch, "bay": 0.122 * inch, "loft": 3.5 * 2 / 3, "asymmetric-studs": 0.122 * inch} {
		told := 0
		for _, w := range wallPages(t, name) {
			for _, note := range w.clipNotes() {
				wood := slices.ContainsFunc(note.lines, func(l reader.Text) bool { return strings.HasPrefix(l.String, "into the ") })
				for _, l := range note.lines {
					if m := drill.FindStringSubmatch(l.String); m != nil && wood {
						told++
						assert.LessOrEqual(t, length(t, m[1], w.Job.Units), root, "%s, page %d: %q", name, w.number, l.String)
						assert.True(t, strings.Contains(m[2], " deep"), "%s, page %d: %q", name, w.number, l.String)
					}
				}
			}
		}
		assert.Positive(t, told, name)
	}
}

// Of a screw of 2.2 mm the root is 1.47 mm (two-thirds, as above) and 7/8 of it 1.28 mm (NDS 2018, 12.1.5.3). Bits come in
// steps of 0.5 mm; the nearest, 1.5 mm, is wider than the root, so it must be 1 mm.
func TestTheNearestBitGivesWayWhereItIsWiderThanTheRoot(t *testing.T) {
	reader.Need(t, "mutool")
	_, data := source(t, "asymmetric-studs")
	data = replaced(t, data, "wall: {size: 4 mm, length: 45}", "wall: {size: 2.2 mm, length: 45}")
	w, err := template.Open("thin.yaml", data)
	require.NoError(t, err)
	told := 0
	for i, page := range read(t, w, template.Print{Only: []drawing.Kind{sheet.Wall}}).read {
		for _, l := range page.Texts {
			if m := drill.FindStringSubmatch(l.String); m != nil {
				told++
				assert.InDelta(t, 1, length(t, m[1], w.Job.Units), 1e-9, "page %d: %q", i+1, l.String)
			}
		}
	}
	assert.Positive(t, told)
}

// Words that cover each other can't be read, or are read together: no two on a page overlap, but where a seam hides one.
func TestWordsDoNotCoverEachOther(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			for _, c := range p.counts {
				for _, i := range p.pagesOf(c) {
					var seen []reader.Rect
					var words []reader.Text
					for _, w := range p.read[i].Texts {
						r := span(box(w))
						if w.Turn != 0 && w.Turn != 90 || !whole(w) {
							continue // slanting words have more box than letters
						}
						for k, other := range seen {
							over := min(r.Max.X, other.Max.X)-max(r.Min.X, other.Min.X) > 0.3 && min(r.Max.Y, other.Max.Y)-max(r.Min.Y, other.Min.Y) > 0.3
							assert.False(t, over, "page %d (%s): %q stands on %q at %.1f, %.1f", i+1, c.Title, w.String, words[k].String, w.X, w.Y)
						}
						seen, words = append(seen, r), append(words, w)
					}
				}
			}
		})
	}
}
