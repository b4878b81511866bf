package template_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
)

// A boardPage is a page of a board template.
type boardPage struct {
	printed
	reader.Page
	number  int
	board   *layout.Board
	outline []reader.Point // as the side is seen, in mm
	origin  reader.Point   // of the outline's plane on the page
	window  reader.Rect
}

// boardPages are all pages of a job's board templates, each found by the outline on it.
func boardPages(t *testing.T, name string, faces bool) []boardPage {
	t.Helper()
	print := everything()
	if faces {
		print = template.Print{Only: []drawing.Kind{sheet.Board}, Faces: true}
	}
	p := onPaper(t, name, print)
	var out []boardPage
	for i := range p.Plan.Boards {
		b := &p.Plan.Boards[i]
		seen := b.Outline
		if !faces {
			seen = b.Outline.Mirror(b.Size.W)
		}
		c, ok := p.byBoard()[b.Name]
		require.True(t, ok, "board %s", b.Name)
		for _, k := range p.pagesOf(c) {
			w := boardPage{printed: p, Page: p.read[k], number: k + 1, board: b, window: clipOf(p.set.Pages[k].Layers[0].Clip)}
			w.origin, ok = outlineOf(w.Page, seen)
			require.True(t, ok, "page %d: no outline of board %s", k+1, b.Name)
			for _, q := range seen {
				w.outline = append(w.outline, point(q))
			}
			out = append(out, w)
		}
	}
	return out
}

func (b boardPage) onBoard(at reader.Point) reader.Point {
	return reader.Point{X: at.X - b.origin.X, Y: b.origin.Y - at.Y}
}

// landWidths are how much of the back the cover takes, in mm: the wrap less board and foam. A wrap that is worked out
// is board, foam and 1 in or 25 mm to hold by (the bay says 30), up to whole 1/2 in or 10 mm.
var landWidths = map[string]float64{
	"settle":           2.5*inch - (31./64+3./4)*inch, // 31/64 + 3/4 + 1 = 2 15/64
	"bay":              70 - (11.8 + 20),              // 61.8
	"loft":             50 - (9.2 + 15),               // 49.2
	"asymmetric-studs": 60 - (12. + 20),               // 57
}

// No clip may stand where the cover is stapled: the grey line runs all round, as far inside the outline as the words in
// the middle say, and words name what lies outside it.
func TestBoardTemplatesShowTheStapleLand(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			land, told := landWidths[name], 0
			around := map[string]map[int]bool{} // the edges of each board that a line runs inside of
			for _, b := range boardPages(t, name, false) {
				for _, w := range b.Containing("staple land, ") {
					reads, ok := lengthIn(t, w.String, "staple land, ", " wide", b.Job.Units)
					require.True(t, ok)
					assert.InDelta(t, land, reads, b.Job.Units.Fine().Millimetres()/2+1e-6, "page %d", b.number)
				}
				var inner []reader.Segment
				for _, s := range b.Segments() {
					if s.Closed && s.Grey > 0.3 && s.Length() > 1 && s.Clip.Min.Distance(b.window.Min) < 0.1 {
						inner = append(inner, s)
					}
				}
				require.NotEmpty(t, inner, "page %d", b.number)
				if around[b.board.Name] == nil {
					around[b.board.Name] = map[int]bool{}
				}
				for _, s := range inner {
					at := b.onBoard(reader.Rect{Min: s.From, Max: s.To}.Centre())
					assert.True(t, within(b.outline, at), "page %d: the land's line lies outside the board", b.number)
					assert.InDelta(t, land, clearance(b.outline, at), 2*reader.Within, "page %d: the land at %.1f", b.number, at)
					for i, a := range b.outline {
						if abs(reader.Segment{From: a, To: b.outline[(i+1)%len(b.outline)]}.Distance(at)-land) <= 2*reader.Within {
							around[b.board.Name][i] = true
						}
					}
				}
				for _, w := range b.FindText("staple land: no clip here") {
					told++
					at := b.onBoard(middle(w))
					d := clearance(b.outline, at)
					assert.True(t, within(b.outline, at) && d < land && land-d < 8, "page %d: %.1f inside the edge stands %q", b.number, d, w.String)
				}
			}
			for _, board := range onPaper(t, name, everything()).Plan.Boards {
				assert.Len(t, around[board.Name], len(board.Outline), "board %s: edges with a land", board.Name)
			}
			assert.Positive(t, told)
		})
	}
}

var fromEdges = regexp.MustCompile(`^(?:(\d): )?(\S.*) from (left|right), (\S.*) from (top|bottom)$`)

// The distances beside a base are those of the hole with their number, taped from the edges that they name as this side
// is seen; and the base beside which they stand is that hole's.
func TestDistancesOnBoardTemplatesStandBesideTheHolesTheyTellOf(t *testing.T) {
	corners := 0
	for _, name := range jobs {
		for _, faces := range []bool{false, true} {
			told := 0
			for _, b := range boardPages(t, name, faces) {
				holes, _ := symbols(t, b.Page)
				size := b.board.Size
				for _, w := range b.Texts {
					m := fromEdges.FindStringSubmatch(w.String)
					if m == nil || !whole(w) {
						continue
					}
					told++
					want := reader.Point{X: length(t, m[2], b.Job.Units), Y: length(t, m[4], b.Job.Units)}
					if m[3] == "right" {
						want.X = size.W.Millimetres() - want.X
					}
					if m[5] == "top" {
						want.Y = size.H.Millimetres() - want.Y
					}
					fine := b.Job.Units.Fine().Millimetres()
					if k, ok := b.cornerOver(t, w); ok {
						corners++
						assert.LessOrEqual(t, b.outline[k].Distance(want), fine, "%s, page %d: corner %d is not %q", name, b.number, k+1, w.String)
						continue
					}
					k := slices.IndexFunc(holes, func(h symbol) bool {
						at := b.onBoard(h.at)
						return abs(at.X-want.X) <= fine && abs(at.Y-want.Y) <= fine
					})
					if !assert.GreaterOrEqual(t, k, 0, "%s, page %d: no hole is %q", name, b.number, w.String) {
						continue
					}
					assert.True(t, numbered(b.Page, holes[k], m[1]), "%s, page %d: %q tells of a hole with another number", name, b.number, w.String)
					nearest := slices.MinFunc(holes, func(g, h symbol) int {
						if span(box(w)).Distance(g.at) < span(box(w)).Distance(h.at) {
							return -1
						}
						return 1
					})
					// The nearest hole is of the same base.
					assert.Less(t, nearest.at.Distance(holes[k].at), 60.0, "%s, page %d: %q stands beside another clip", name, b.number, w.String)
				}
			}
			assert.Positive(t, told, name)
		}
	}
	assert.Positive(t, corners)
}

// cornerOver is the corner that the words over a text name, as "corner 4".
func (b boardPage) cornerOver(t *testing.T, w reader.Text) (index int, ok bool) {
	t.Helper()
	for _, over := range b.Containing("corner ") {
		if n, named := strings.CutPrefix(over.String, "corner "); named && abs(over.X-w.X) < 0.1 && over.Y < w.Y && w.Y-over.Y < 6 {
			k, err := strconv.Atoi(n)
			require.NoError(t, err)
			return k - 1, true
		}
	}
	return 0, false
}

// A board half is laid on its outline, seen from the back: it stands round its holes as the half has them, turned over.
func TestBoardTemplatesShowTheBaseOfEveryHalfInItsPlace(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			told := 0
			for _, b := range boardPages(t, name, false) {
				base := b.Job.Clip.Board.Base
				pieces := b.Segments()
				for _, c := range b.board.Clips {
					var middle reader.Point // where the mean of the holes stands, less the mean that the job gives them
					for k, h := range c.BoardHoles {
						off, n := b.Job.Clip.Board.Holes[k], float64(len(c.BoardHoles))
						middle.X += (h.X - off.X).Millimetres() / n
						middle.Y += (h.Y - off.Y).Millimetres() / n
					}
					middle.X = b.board.Size.W.Millimetres() - middle.X
					w, h := base.W.Millimetres(), base.H.Millimetres()
					for _, e := range sides(rect(middle.X-w/2, middle.Y-h/2, w, h)) {
						from := reader.Point{X: b.origin.X + e[0].X, Y: b.origin.Y - e[0].Y}
						to := reader.Point{X: b.origin.X + e[1].X, Y: b.origin.Y - e[1].Y}
						if !b.window.Has(from) || !b.window.Has(to) {
							continue
						}
						told++
						drawn := slices.ContainsFunc(pieces, func(s reader.Segment) bool { return solid(s) && s.Covers(from, to, 2*reader.Within) })
						assert.True(t, drawn, "page %d: the %s half of board %s has no edge from %.1f to %.1f", b.number, c.Place, b.board.Name, e[0], e[1])
					}
				}
			}
			assert.Positive(t, told)
		})
	}
}

var useTimes = regexp.MustCompile(`use it (?:(\d+) times|once)`)

// Paper that is used too seldom leaves a board undrilled: a template is used once for each of its panels, a jig once for
// each corner of each panel in its table.
func TestPagesSayHowOftenTheyAreUsed(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			for _, print := range []template.Print{everything(), {}} {
				p := onPaper(t, name, print)
				for _, c := range p.counts {
					want := 0
					switch c.Kind {
					case sheet.Wall:
						want = 1
					case sheet.Board:
						want = p.panelsOf(strings.TrimPrefix(c.Sheet, "board "))
					case sheet.Corner:
						for _, i := range p.pagesOf(c) {
							for _, row := range tableRows(p.read[i]) {
								want += p.panelsOf(row[0])
							}
						}
					default:
						continue
					}
					for _, i := range p.pagesOf(c) {
						m := useTimes.FindStringSubmatch(all(p.read[i]))
						if !assert.NotNil(t, m, "page %d", i+1) {
							continue
						}
						said := "1"
						if m[1] != "" {
							said = m[1]
						}
						assert.Equal(t, strconv.Itoa(want), said, "page %d, %s", i+1, c.Title)
					}
				}
			}
		})
	}
}

// panelsOf is how many panels have the board.
func (p printed) panelsOf(board string) int {
	n := 0
	for _, panel := range p.Plan.Panels {
		if p.Plan.Boards[panel.Board].Name == board {
			n++
		}
	}
	return n
}
