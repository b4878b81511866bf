package template_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/internal/reader"
)

// A running is a running distance: the line that leads from its words to its place, and the words.
type running struct {
	upright bool         // of an upright line: told from the left
	place   reader.Point // where the lead ends on the window's edge
	words   reader.Point // where it begins
	reads   float64
	name    string
}

// runnings reads a page's running distances. Leads are the lines of four points; words stand at a lead's outer end, with
// the number in bold.
func (w wallPage) runnings(t *testing.T) []running {
	t.Helper()
	var out []running
	for _, s := range w.Strokes {
		if len(s.Points) != 4 || s.Closed || s.Curved {
			continue
		}
		r := running{place: s.Points[0], words: s.Points[3]}
		r.upright = abs(r.words.Y-r.place.Y) > abs(r.words.X-r.place.X)
		nearest := func(bold bool) reader.Text {
			var best reader.Text
			least := 4.0
			for _, text := range w.Texts {
				if text.Bold != bold || (text.Turn > 45) != r.upright {
					continue
				}
				corners := box(text) // the words end at the lead
				end := reader.Point{X: (corners[1].X + corners[2].X) / 2, Y: (corners[1].Y + corners[2].Y) / 2}
				if d := end.Distance(r.words); d < least {
					best, least = text, d
				}
			}
			return best
		}
		number, name := nearest(true), nearest(false)
		require.NotEmpty(t, number.String, "page %d: a lead to %.1f without words", w.number, w.wall(r.place))
		require.NotEmpty(t, name.String, "page %d: the distance %s is of nothing", w.number, number.String)
		r.reads, r.name = length(t, number.String, w.Job.Units), name.String
		out = append(out, r)
	}
	return out
}

// panelsNamed lists the panels that words name, as in "L1–L3, L5"; "panel" are all of a run.
func (w wallPage) panelsNamed(words string) []int {
	all := w.Plan.Runs[w.run].Panels
	named := func(name string) int {
		return slices.IndexFunc(all, func(i int) bool { return w.Plan.Panels[i].Name == name })
	}
	if words == "panel" {
		return all
	}
	var out []int
	for _, part := range strings.Split(words, ", ") {
		first, last, both := strings.Cut(part, "–")
		if !both {
			last = first
		}
		from, to := named(first), named(last)
		if from < 0 || to < from {
			return nil
		}
		out = append(out, all[from:to+1]...)
	}
	return out
}

// meant are the exact places that the name of a running distance allows, in mm; every panel that it names must stand
// there.
func (w wallPage) meant(t *testing.T, r running) []float64 {
	t.Helper()
	bounds := func(words string) []geom.Rect {
		var out []geom.Rect
		for _, i := range w.panelsNamed(words) {
			out = append(out, w.Plan.Panels[i].Finished.Bounds())
		}
		require.NotEmpty(t, out, "page %d: %q names no panel", w.number, r.name)
		return out
	}
	one := func(edge func(geom.Rect) geom.Length, words string) []float64 {
		all := bounds(words)
		for _, b := range all {
			require.Equal(t, edge(all[0]), edge(b), "page %d: the panels of %q don't stand alike", w.number, r.name)
		}
		return []float64{edge(all[0]).Millimetres()}
	}
	left := func(b geom.Rect) geom.Length { return b.Min.X }
	right := func(b geom.Rect) geom.Length { return b.Max.X }
	if before, after, both := strings.Cut(r.name, " | "); both {
		require.Equal(t, one(right, before), one(left, after), r.name)
		return one(right, before)
	}
	at := strings.LastIndex(r.name, " ")
	require.Positive(t, at, "page %d: %q", w.number, r.name)
	switch panels, what := r.name[:at], r.name[at+1:]; what {
	case "left":
		return one(left, panels)
	case "right":
		return one(right, panels)
	case "foot":
		return one(func(b geom.Rect) geom.Length { return b.Min.Y }, panels)
	case "top":
		return one(func(b geom.Rect) geom.Length { return b.Max.Y }, panels)
	case "plumb", "holes":
		var out []float64
		for _, i := range w.Plan.Runs[w.run].Panels {
			for _, c := range w.Plan.Panels[i].Clips {
				for _, h := range c.WallHoles {
					if what == "holes" {
						out = append(out, h.Y.Millimetres())
					} else if w.Plan.Panels[i].Name == panels {
						out = append(out, h.X.Millimetres())
					}
				}
			}
		}
		return out
	}
	t.Fatalf("page %d: what is %q?", w.number, r.name)
	return nil
}

// A page is set on the wall by its running distances alone: each number is what its name means, its lead ends there,
// and a line runs from there through the whole window.
func TestRunningDistancesLeadToTheirLines(t *testing.T) {
	kinds := map[string]int{}
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			for _, w := range wallPages(t, name) {
				fine := w.Job.Units.Fine().Millimetres()
				for _, r := range w.runnings(t) {
					kinds[r.name[strings.LastIndex(r.name, " ")+1:]]++
					stands := w.wall(r.place).Y
					a, b := reader.Point{X: w.window.Min.X, Y: r.place.Y}, reader.Point{X: w.window.Max.X, Y: r.place.Y}
					if r.upright {
						stands = w.wall(r.place).X
						a, b = reader.Point{X: r.place.X, Y: w.window.Min.Y}, reader.Point{X: r.place.X, Y: w.window.Max.Y}
					}
					meant := false
					for _, exact := range w.meant(t, r) {
						meant = meant || abs(exact-r.reads) <= fine/2+1e-6 && abs(exact-stands) <= reader.Within
					}
					assert.True(t, meant, "page %d: %q reads %.2f and leads to %.3f", w.number, r.name, r.reads, stands)
					assert.LessOrEqual(t, min(r.place.Distance(a), r.place.Distance(b)), reader.Within, "page %d: %q leads past the window's edge", w.number, r.name)
					assert.True(t, w.drawn(a, b, solid), "page %d: no line through the page for %q at %.1f", w.number, r.name, stands)
				}
			}
		})
	}
	for _, kind := range []string{"left", "right", "foot", "top", "plumb", "holes"} {
		assert.Positive(t, kinds[kind], "no page tells of %q", kind)
	}
}

// Leads that cross are followed to the wrong line.
func TestLeadsOfRunningDistancesKeepTheirOrder(t *testing.T) {
	for _, name := range bothWaysToo {
		for _, w := range wallPages(t, name) {
			all := w.runnings(t)
			for i, r := range all {
				for _, q := range all[:i] {
					if r.upright != q.upright {
						continue
					}
					from, to := q.place.Y-r.place.Y, q.words.Y-r.words.Y
					if r.upright {
						from, to = q.place.X-r.place.X, q.words.X-r.words.X
					}
					assert.Positive(t, from*to, "%s, page %d: the leads of %q and %q", name, w.number, r.name, q.name)
				}
			}
		}
	}
}

// Every edge of a panel that runs through a page is told on it, so that the page can be set by what already hangs.
func TestEveryEdgeThroughAPageHasItsRunningDistance(t *testing.T) {
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			told := 0
			for _, w := range wallPages(t, name) {
				all := w.runnings(t)
				for _, pi := range w.Plan.Runs[w.run].Panels {
					b := w.Plan.Panels[pi].Finished.Bounds()
					low, high := point(b.Min), point(b.Max)
					for k, e := range sides(reader.Rect{Min: low, Max: high}) {
						from, to, ok := w.seen(e[0], e[1])
						if !ok {
							continue
						}
						told++
						upright := k%2 == 1
						found := slices.ContainsFunc(all, func(r running) bool {
							return r.upright == upright && (upright && abs(r.place.X-from.X) <= reader.Within || !upright && abs(r.place.Y-from.Y) <= reader.Within)
						})
						assert.True(t, found, "page %d: the edge of %s from %.1f to %.1f", w.number, w.Plan.Panels[pi].Name, w.wall(from), w.wall(to))
					}
				}
			}
			assert.NotZero(t, told)
		})
	}
}
