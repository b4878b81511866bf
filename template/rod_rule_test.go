package template_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// A strip is one piece of a rod on a page: what lies between its cut or dashed ends, and its ruled lower edge.
type strip struct {
	reader.Rect
	page   reader.Page
	pieces []reader.Segment
}

// strips reads the pieces of rods on a page: two level lines of one length whose left ends an upright one joins.
func strips(p reader.Page) []strip {
	var out []strip
	pieces := p.Segments()
	cut := func(s reader.Segment) bool { return len(s.Dash) == 0 && s.Length() > 20 && abs(s.WidthMM-0.25) < 0.01 }
	for _, left := range pieces {
		if !left.Upright() || !cut(left) {
			continue
		}
		r := reader.Rect{Min: reader.Point{X: left.From.X, Y: min(left.From.Y, left.To.Y)}, Max: reader.Point{Y: max(left.From.Y, left.To.Y)}}
		right := func(y float64) float64 {
			for _, s := range pieces {
				if s.Level() && cut(s) && abs(s.From.Y-y) < 0.01 && abs(min(s.From.X, s.To.X)-r.Min.X) < 0.01 {
					return max(s.From.X, s.To.X)
				}
			}
			return 0
		}
		if r.Max.X = right(r.Min.Y); r.Max.X > 0 && abs(r.Max.X-right(r.Max.Y)) < 0.01 {
			out = append(out, strip{r, p, pieces})
		}
	}
	return out
}

// lines are the upright lines of a strip that stand on its lower edge (or hang from its upper one), by their places.
func (s strip) lines(lower bool) []reader.Segment {
	var out []reader.Segment
	for _, q := range s.pieces {
		if !q.Upright() || q.From.X < s.Min.X-0.01 || q.From.X > s.Max.X+0.01 {
			continue
		}
		if lower && abs(max(q.From.Y, q.To.Y)-s.Max.Y) < 0.01 || !lower && abs(min(q.From.Y, q.To.Y)-s.Min.Y) < 0.01 {
			if q.Length() < s.Max.Y-s.Min.Y-1 { // not its ends
				out = append(out, q)
			}
		}
	}
	return out
}

// numbers are the figures of the graduation with the ticks that they stand over.
func (s strip) numbers(t *testing.T, units geom.System) map[float64]reader.Segment {
	t.Helper()
	out := map[float64]reader.Segment{}
	for _, w := range s.page.Texts {
		l, err := geom.ParseLength(w.String, units)
		if err != nil || w.Turn != 0 || w.X < s.Min.X || w.X > s.Max.X || w.Y > s.Max.Y || w.Y < s.Max.Y-12 {
			continue
		}
		var best reader.Segment
		least := math.Inf(1)
		for _, q := range s.lines(true) {
			if d := abs(q.From.X - middle(w).X); q.WidthMM < 0.2 && len(q.Dash) == 0 && q.Length() > 4 && q.Length() < 8 && d < least {
				best, least = q, d
			}
		}
		require.Less(t, least, 6.0, "the number %s stands over no tick", w.String)
		out[l.Millimetres()] = best
	}
	return out
}

// scale tells what a rule reads at a place of the page, by the numbers of the strip's graduation.
func (s strip) scale(t *testing.T, units geom.System) func(x float64) float64 {
	t.Helper()
	numbers := s.numbers(t, units)
	require.NotEmpty(t, numbers, "a strip without a number")
	var zero float64
	first := true
	for reads, tick := range numbers {
		if at := tick.From.X - reads; first {
			zero, first = at, false
		} else {
			require.InDelta(t, zero, at, 2*reader.Within, "the number %.1f is out of step", reads)
		}
	}
	return func(x float64) float64 { return x - zero }
}

// A rod is ruled along its lower edge: a tick every 5 mm or 1/4 in, longer ones every 10 mm or 1/2 in, the longest with
// their numbers every 50 mm or 1 in. Every mark stands where the rule reads the mark's own words.
func TestRodsAreRuledAsATapeIs(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			fine, mid, numbered := 5.0, 10.0, 50.0
			if p.Job.Units == geom.Imperial {
				fine, mid, numbered = inch/4, inch/2, inch
			}
			whole := func(x, step float64) bool { return abs(x-math.Round(x/step)*step) < 0.02 }
			told, marks := 0, 0
			for _, c := range p.of(sheet.Rod) {
				for _, i := range p.pagesOf(c) {
					for _, s := range strips(p.read[i]) {
						scale := s.scale(t, p.Job.Units)
						numbers := s.numbers(t, p.Job.Units)
						told += len(numbers)
						ticks := map[int]float64{} // how long, by their place in fine steps
						for _, q := range s.lines(true) {
							if q.WidthMM < 0.2 && len(q.Dash) == 0 && q.Length() < 8 {
								reads := scale(q.From.X)
								assert.True(t, whole(reads, fine), "page %d: a tick at %.2f", i+1, reads)
								ticks[int(math.Round(reads/fine))] = q.Length()
							}
						}
						for k := int(math.Ceil((scale(s.Min.X) + 0.01) / fine)); float64(k)*fine < scale(s.Max.X)-0.01; k++ {
							reads := float64(k) * fine
							switch long := ticks[k]; {
							case whole(reads, numbered):
								assert.Greater(t, long, 4.0, "page %d: the tick at %.1f", i+1, reads)
							case whole(reads, mid):
								assert.True(t, long > 2.5 && long < 4, "page %d: the tick at %.1f is %.1f long", i+1, reads, long)
							default:
								assert.True(t, long > 1 && long < 2.5, "page %d: the tick at %.1f is %.1f long", i+1, reads, long)
							}
						}
						for reads := range numbers {
							assert.True(t, whole(reads, numbered), "page %d: the number %.2f", i+1, reads)
						}
						for _, w := range p.read[i].Texts {
							reads, _, ok := rodWords(w, p.Job.Units)
							if !ok || !s.Has(reader.Point{X: w.X, Y: w.Y}) {
								continue
							}
							foot, ok := besideLine(p.read[i], w)
							if assert.True(t, ok, "page %d: %q", i+1, w.String) {
								marks++
								assert.InDelta(t, reads, scale(foot.X), p.Job.Units.Fine().Millimetres()/2+2*reader.Within, "page %d: %q", i+1, w.String)
							}
						}
					}
				}
			}
			assert.Greater(t, told, 10)
			assert.Positive(t, marks)
		})
	}
}

// A mark is seen at both edges of its strip, so that a square can be laid on it.
func TestMarksOfRodsEndAtBothEdges(t *testing.T) {
	for _, name := range jobs {
		p := onPaper(t, name, everything())
		for _, c := range p.of(sheet.Rod) {
			for _, i := range p.pagesOf(c) {
				for _, s := range strips(p.read[i]) {
					upper := s.lines(false)
					for _, w := range p.read[i].Texts {
						if _, _, ok := rodWords(w, p.Job.Units); !ok || !s.Has(reader.Point{X: w.X, Y: w.Y}) {
							continue
						}
						foot, ok := besideLine(p.read[i], w)
						require.True(t, ok)
						met := false
						for _, q := range upper {
							met = met || abs(q.From.X-foot.X) < 0.01
						}
						assert.True(t, met, "%s, page %d: %q has no tick at the upper edge", name, i+1, w.String)
					}
				}
			}
		}
	}
}

// Wood behind the lining is a grey band on the rods of runs, from edge to edge of each stud that the strip passes.
func TestRodsShowTheStudsTheyPass(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			told := 0
			for r := range p.Plan.Runs {
				figure := wallFigures[name][p.Plan.Runs[r].Name]
				for _, c := range p.of(sheet.Rod) {
					if c.Sheet != "rod "+p.Plan.Runs[r].Name {
						continue
					}
					for _, i := range p.pagesOf(c) {
						for _, s := range strips(p.read[i]) {
							scale := s.scale(t, p.Job.Units)
							from, to := scale(s.Min.X), scale(s.Max.X)
							var bands [][2]float64
							for _, f := range p.read[i].Fills {
								if b := f.Bounds(); f.Box() && f.Grey > 0.5 && f.Grey < 1 && abs(b.Max.Y-s.Max.Y) < 0.01 && abs(b.Min.Y-s.Min.Y) < 0.01 {
									bands = append(bands, [2]float64{scale(b.Min.X), scale(b.Max.X)})
								}
							}
							var want [][2]float64
							for _, centre := range figure.studs {
								a, b := max(from, centre-figure.stud/2), min(to, centre+figure.stud/2)
								if a < b {
									want = append(want, [2]float64{a, b})
								}
							}
							if assert.Len(t, bands, len(want), "page %d, from %.1f to %.1f", i+1, from, to) {
								for k := range want {
									told++
									assert.InDeltaSlice(t, want[k][:], bands[k][:], 3*reader.Within, "page %d", i+1)
								}
							}
						}
					}
				}
			}
			assert.Positive(t, told)
		})
	}
}
