package template_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template"
	"rodsheet/template/internal/reader"
	"rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
)

var fromFolds = regexp.MustCompile(`^(?:(\d): )?(\S.*) from fold a(?:, (\S.*) from (fold|line) b)?$`)

// numbered reports whether a hole has the number beside it; "" is of a base's only hole.
func numbered(p reader.Page, hole symbol, number string) bool {
	if number == "" {
		return true
	}
	return slices.ContainsFunc(p.FindText(number), func(w reader.Text) bool { return middle(w).Distance(hole.at) < 6 })
}

// Distances from the folds are measured square to them, on corners of any angle too; the hole with the number is the one
// that the words tell of, and each hole is told once.
func TestDistancesFromFoldsFindTheHoleThatTheyTellOf(t *testing.T) {
	slanting, beside := 0, 0
	for _, name := range []string{"settle", "bay", "loft", "under slopes", "loft, screws side by side"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, template.Print{})
			fine := p.Job.Units.Fine().Millimetres()/2 + reader.Within
			for _, c := range p.of(sheet.Corner) {
				page, number := p.read[c.First-1], c.First
				holes, _ := symbols(t, page)
				var corner, endA, endB reader.Point
				if isEdge := strings.HasPrefix(c.Title, "Edge"); isEdge {
					corner, endA, endB = edgeFold(t, page)
					corner, endB = endB, reader.Point{X: endB.X, Y: endB.Y - 100}
				} else {
					if corner, endA, endB = folds(t, page); abs(endB.X-corner.X) > 1 {
						slanting++
					}
				}
				told := map[reader.Point]int{}
				for _, w := range page.Texts {
					m := fromFolds.FindStringSubmatch(w.String)
					if m == nil {
						continue
					}
					a, b := length(t, m[2], p.Job.Units), 0.0
					if m[3] != "" {
						b = length(t, m[3], p.Job.Units)
						if m[4] == "line" {
							beside++
						}
					}
					found := false
					for _, h := range holes {
						if numbered(page, h, m[1]) && abs(off(h.at, corner, endA)-a) <= fine && abs(off(h.at, corner, endB)-b) <= fine {
							told[h.at]++
							found = true
						}
					}
					assert.True(t, found, "page %d: no hole is %q", number, w.String)
				}
				for _, h := range holes {
					assert.Equal(t, 1, told[h.at], "page %d: words about the hole at %.2f", number, h.at)
				}
			}
		})
	}
	assert.Positive(t, slanting, "no corner that is not square: the test sees too little")
	assert.Positive(t, beside, "no hole beside a line b: the test sees too little")
}

// A jigPicture is a small board on a jig with the edges that the folds lie on and the clips that are drilled from there.
type jigPicture struct {
	board string
	at    reader.Point      // of its name
	shape []reader.Point    // the outline on the page
	thick [][2]reader.Point // edges of it
	dots  []reader.Point    // on the page
}

// pictures reads a page's small boards, in rows from the top, each from the left: over the name an outline as the back
// is seen.
func (p printed) pictures(t *testing.T, page reader.Page) []jigPicture {
	t.Helper()
	var out []jigPicture
	pieces, dots := page.Segments(), page.Dots(1)
	for _, w := range page.Texts {
		board, ok := strings.CutPrefix(w.String, "board ")
		k := slices.IndexFunc(p.Plan.Boards, func(b layout.Board) bool { return b.Name == board })
		if !ok || k < 0 || w.Bold {
			continue
		}
		pic := jigPicture{board: board, at: middle(w)}
		for _, s := range page.Strokes {
			if b := s.Bounds(); s.Closed && !s.Curved && len(s.Points) == len(p.Plan.Boards[k].Outline) && b.Max.Y < w.Y && w.Y-b.Max.Y < 8 && abs(b.Centre().X-pic.at.X) < 1 {
				pic.shape = s.Points
			}
		}
		if pic.shape == nil {
			continue // words, not a picture
		}
		near := span(pic.shape)
		for _, d := range dots {
			if near.Has(d) {
				pic.dots = append(pic.dots, d)
			}
		}
		for _, s := range pieces {
			if s.WidthMM > 1 && near.Has(s.From) && near.Has(s.To) {
				pic.thick = append(pic.thick, [2]reader.Point{s.From, s.To})
			}
		}
		out = append(out, pic)
	}
	slices.SortStableFunc(out, func(a, b jigPicture) int {
		if abs(a.at.Y-b.at.Y) > 1 {
			return int(math.Copysign(1, a.at.Y-b.at.Y))
		}
		return int(math.Copysign(1, a.at.X-b.at.X))
	})
	return out
}

// The small pictures show each board as the jig's side of it is seen: the thick edges are those of the table's row, and
// the dots stand where the clips are that the jig drills there.
func TestPicturesOnJigsShowTheEdgesAndTheClipsOfTheirRows(t *testing.T) {
	for _, name := range []string{"bay", "loft", "under slopes"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, template.Print{})
			seen := 0
			for _, c := range p.of(sheet.Corner) {
				edge := strings.HasPrefix(c.Title, "Edge")
				bases := basesOf(t, p.read[c.First-1], edge)
				for _, i := range p.pagesOf(c) {
					page, rows := p.read[i], tableRows(p.read[i])
					pictures := p.pictures(t, page)
					if len(pictures) == 0 {
						continue // there was no room for them
					}
					require.Len(t, pictures, len(rows), "page %d", i+1)
					for k, pic := range pictures {
						seen++
						row := rows[k]
						require.Equal(t, row[0], pic.board, "page %d", i+1)
						p.holdPicture(t, i+1, row, pic, edge, bases)
						p.holdSigns(t, page, rows, row, pic, edge)
					}
				}
			}
			assert.Positive(t, seen)
		})
	}
}

// snapped is the edge of an outline, as it runs, with the given ends or the nearest to them.
func snapped(outline []reader.Point, u, v reader.Point) (from, to reader.Point) {
	least := math.Inf(1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if d := min(a.Distance(u)+b.Distance(v), a.Distance(v)+b.Distance(u)); d < least {
			from, to, least = a, b, d
		}
	}
	return from, to
}

// basesOf lists how far the middles of a jig's bases are from its folds a (X) and b (Y).
func basesOf(t *testing.T, page reader.Page, edge bool) []reader.Point {
	t.Helper()
	if edge {
		return nil
	}
	corner, endA, endB := folds(t, page)
	holes, _ := symbols(t, page)
	var out []reader.Point
	for _, s := range page.Strokes {
		if !s.Closed || s.Curved || len(s.Points) != 4 {
			continue
		}
		b := s.Bounds()
		if slices.ContainsFunc(holes, func(h symbol) bool { return b.Has(h.at) }) {
			out = append(out, reader.Point{X: off(b.Centre(), corner, endA), Y: off(b.Centre(), corner, endB)})
		}
	}
	return out
}

// holdPicture holds a picture to its row, and to the bases on the jig.
func (p printed) holdPicture(t *testing.T, number int, row []string, pic jigPicture, edge bool, bases []reader.Point) {
	t.Helper()
	k := slices.IndexFunc(p.Plan.Boards, func(b layout.Board) bool { return b.Name == pic.board })
	b := &p.Plan.Boards[k]
	outline, box := p.seen(t, pic.board), span(pic.shape)
	scale := (box.Max.X - box.Min.X) / b.Size.W.Millimetres()
	onBoard := func(q reader.Point) reader.Point {
		return reader.Point{X: (q.X - box.Min.X) / scale, Y: (box.Max.Y - q.Y) / scale}
	}
	slack := 2 * reader.Within / scale
	for n, q := range pic.shape {
		assert.LessOrEqual(t, onBoard(q).Distance(outline[n]), slack, "page %d: board %s is not drawn as its back is seen", number, pic.board)
	}
	var middles []reader.Point // of the clips, as the back is seen
	for _, c := range b.Clips {
		middles = append(middles, reader.Point{X: (b.Size.W - c.Board.X).Millimetres(), Y: c.Board.Y.Millimetres()})
	}
	assert.NotEmpty(t, pic.dots, "page %d, board %s: no clip is shown", number, pic.board)
	for _, d := range pic.dots {
		assert.True(t, has(middles, onBoard(d), slack), "page %d, board %s: a clip at %.1f", number, pic.board, onBoard(d))
	}
	edges := map[string]bool{}
	var ends []reader.Point
	for _, e := range pic.thick {
		u, v := onBoard(e[0]), onBoard(e[1])
		for n, a := range outline {
			if next := outline[(n+1)%len(outline)]; a.Distance(u) <= slack && next.Distance(v) <= slack || a.Distance(v) <= slack && next.Distance(u) <= slack {
				edges[edgeOf(a, next)] = true
				ends = append(ends, a, next)
			}
		}
	}
	names := row[2:4]
	if edge {
		names = row[1:2]
	}
	for _, want := range names {
		assert.True(t, edges[want], "page %d: %v shows %v in thick lines", number, row, edges)
	}
	require.Len(t, ends, 2*len(pic.thick), "page %d, board %s: a thick line along no edge", number, pic.board)
	if !edge {
		corner := ends[0] // where both folds meet
		if corner != ends[2] && corner != ends[3] {
			corner = ends[1]
		}
		assert.True(t, p.called(t, outline, slices.Index(outline, corner), row[1]), "page %d: %v points to corner %.1f", number, row, corner)
		for _, d := range pic.dots {
			var from reader.Point // how far it is from the edges that folds a and b lie on
			for _, e := range pic.thick {
				d := off(onBoard(d), onBoard(e[0]), onBoard(e[1]))
				if edgeOf(snapped(outline, onBoard(e[0]), onBoard(e[1]))) == row[2] {
					from.X = d
				} else {
					from.Y = d
				}
			}
			assert.True(t, has(bases, from, 2*slack), "page %d, board %s: a dot %.1f from folds a and b, where no base is: %.1f", number, pic.board, from, bases)
		}
	}
	if edge {
		along := length(t, row[2], p.Job.Units)
		met := false
		for n, a := range outline {
			next := outline[(n+1)%len(outline)]
			if edgeOf(a, next) != row[1] {
				continue
			}
			for _, q := range []struct {
				corner    int
				from, end reader.Point
			}{{n, a, next}, {(n + 1) % len(outline), next, a}} {
				if !p.called(t, outline, q.corner, row[3]) {
					continue
				}
				l := q.from.Distance(q.end)
				for _, d := range pic.dots {
					at := onBoard(d)
					reach := ((at.X-q.from.X)*(q.end.X-q.from.X) + (at.Y-q.from.Y)*(q.end.Y-q.from.Y)) / l
					met = met || abs(reach-along) <= slack+p.Job.Units.Fine().Millimetres()
				}
			}
		}
		assert.True(t, met, "page %d: no dot of board %s stands on line b of %v", number, pic.board, row)
	}
}
