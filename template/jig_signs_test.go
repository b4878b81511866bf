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
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/paper"
	"rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
)

// jigsOn are the jigs of jobs on their own paper, and on some that leaves more or less room.
func jigsOn(t *testing.T) map[string]printed {
	t.Helper()
	out := map[string]printed{}
	only := []drawing.Kind{sheet.Corner}
	for _, name := range []string{"settle", "bay", "loft", "under slopes"} {
		out[name] = onPaper(t, name, template.Print{Only: only})
	}
	for name, format := range map[string]paper.Format{"settle": paper.A4, "bay": paper.Letter, "loft": paper.Letter} {
		print := template.Print{Only: only}
		print.Paper = open(t, name).Job.Paper
		print.Paper.Size = format.Size
		out[name+" on "+format.Name] = onPaper(t, name, print)
	}
	return out
}

// jigsOf calls f with each jig's own page and the rows of its table.
func (p printed) jigsOf(t *testing.T, f func(number int, page reader.Page, rows [][]string, edge bool)) {
	t.Helper()
	seen := 0
	for _, c := range p.of(sheet.Corner) {
		var rows [][]string
		for _, i := range p.pagesOf(c) {
			rows = append(rows, tableRows(p.read[i])...)
		}
		require.NotEmpty(t, rows, "page %d", c.First)
		f(c.First, p.read[c.First-1], rows, strings.HasPrefix(c.Title, "Edge"))
		seen++
	}
	require.Positive(t, seen)
}

// largeName is what a row's corner, or its edge, is called in large letters: by its number where its place is not enough.
func largeName(row []string, edge bool) string {
	switch {
	case edge:
		return strings.ToUpper(row[1])
	case strings.Contains(row[1], ", "):
		return "CORNER " + row[4]
	}
	return strings.ToUpper(row[1])
}

var onlyThere = regexp.MustCompile(`^(?:(.+): )?(?:(.+) only|every corner)$`)

// A corner jig turned by a right angle seats on the wrong corners as well, so the page says in letters of 5 mm beside the
// folds' corner, on the part that lies on the board, on which ones it belongs.
func TestCornerJigsSayInLargeLettersOnWhichCornersOnlyTheyLie(t *testing.T) {
	for name, p := range jigsOn(t) {
		t.Run(name, func(t *testing.T) {
			p.jigsOf(t, func(number int, page reader.Page, rows [][]string, edge bool) {
				if edge {
					return
				}
				corner, _, endB := folds(t, page)
				want, told := map[string][]string{}, map[string][]string{}
				for _, r := range rows {
					want[r[0]] = append(want[r[0]], largeName(r, false))
				}
				for _, w := range page.Texts {
					m := onlyThere.FindStringSubmatch(w.String)
					if m == nil || !w.Bold {
						continue
					}
					assert.GreaterOrEqual(t, capitals(w), 5-0.01, "page %d: %q", number, w.String)
					assert.True(t, onBoard(w, corner, endB), "page %d: %q is folded away", number, w.String)
					assert.Less(t, corner.Distance(reader.Point{X: w.X, Y: w.Y}), 60.0, "page %d: %q", number, w.String)
					boards := strings.Split(m[1], ", ")
					if m[1] == "" {
						require.Len(t, p.Plan.Boards, 1, "page %d: whose corners?", number)
						boards = []string{p.Plan.Boards[0].Name}
					}
					for _, b := range boards {
						told[b] = strings.Split(strings.ReplaceAll(m[2], " and ", ", "), ", ")
						if m[2] == "" {
							require.Len(t, want[b], len(p.seen(t, b)))
							told[b] = want[b]
						}
					}
				}
				assert.Equal(t, want, told, "page %d", number)
			})
		})
	}
}

// onBoard reports whether words stand on the part of a corner jig that lies on the board.
func onBoard(w reader.Text, corner, endB reader.Point) bool {
	return !slices.ContainsFunc(box(w), func(q reader.Point) bool {
		right := (endB.X-corner.X)*(q.Y-corner.Y) - (endB.Y-corner.Y)*(q.X-corner.X) // of fold b; y runs down
		return q.Y > corner.Y || right < 0
	})
}

// The words with an arrow stand upright, and the arrow points up, when the page lies as each row says and the board's top
// is up.
func TestEveryTurnOfAJigHasItsOwnArrowToTheTopOfTheBoard(t *testing.T) {
	turned := 0
	for name, p := range jigsOn(t) {
		t.Run(name, func(t *testing.T) {
			p.jigsOf(t, func(number int, page reader.Page, rows [][]string, edge bool) {
				var corner, endB reader.Point
				if edge {
					_, _, corner = edgeFold(t, page)
					endB = reader.Point{Y: corner.Y} // no fold b
				} else {
					corner, _, endB = folds(t, page)
				}
				signs := page.FindText("BACK · TOP of the board this way")
				used := map[int]bool{}
				for _, r := range rows {
					k := slices.IndexFunc(signs, func(w reader.Text) bool {
						return abs(math.Remainder(w.Turn+p.layTurn(t, r, edge), 360)) < 0.1
					})
					if !assert.GreaterOrEqual(t, k, 0, "page %d: no words stand upright for %v", number, r) {
						continue
					}
					used[k] = true
					w := signs[k]
					if abs(w.Turn) > 1 {
						turned++
					}
					if !edge {
						assert.True(t, onBoard(w, corner, endB), "page %d: folded away", number)
					}
					up := reader.Point{X: -math.Sin(w.Turn * math.Pi / 180), Y: -math.Cos(w.Turn * math.Pi / 180)}
					assert.True(t, slices.ContainsFunc(page.Fills, func(f reader.Fill) bool { return pointsAlong(f, w, up) }), "page %d: no arrow by the words turned by %.1f", number, w.Turn)
					said := slices.ContainsFunc(page.Containing(largeName(r, edge)), func(v reader.Text) bool {
						return abs(math.Remainder(v.Turn-w.Turn, 360)) < 0.1 && (reader.Point{X: v.X, Y: v.Y}).Distance(reader.Point{X: w.X, Y: w.Y}) < 8
					})
					assert.True(t, said, "page %d: the arrow of %v doesn't say so", number, r)
				}
				assert.Len(t, used, len(signs), "page %d: arrows for no row", number)
			})
		})
	}
	assert.Positive(t, turned, "no page is turned: the test sees too little")
}

// layTurn is by how many degrees counter-clockwise a jig's page is turned where it lies as a row says.
func (p printed) layTurn(t *testing.T, row []string, edge bool) float64 {
	outline := p.seen(t, row[0])
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		name := row[2]
		if edge {
			name = row[1]
		}
		if edgeOf(a, b) != name {
			continue
		}
		if !edge && !p.called(t, outline, i, row[1]) || edge && !p.called(t, outline, i, row[3]) && !p.called(t, outline, (i+1)%len(outline), row[3]) {
			continue
		}
		return math.Atan2(b.Y-a.Y, b.X-a.X) * 180 / math.Pi
	}
	t.Fatalf("no edge for %v", row)
	return 0
}

// pointsAlong reports whether a fill is an arrow's head left of the words that points the given way.
func pointsAlong(f reader.Fill, w reader.Text, way reader.Point) bool {
	if len(f.Points) < 3 || len(f.Points) > 4 || f.Grey > 0 || f.Points[0].Distance(reader.Point{X: w.X, Y: w.Y}) > 15 {
		return false
	}
	for i, tip := range f.Points[:3] {
		a, b := f.Points[(i+1)%3], f.Points[(i+2)%3]
		if abs(tip.Distance(a)-tip.Distance(b)) < 0.05 && abs(a.Distance(b)-tip.Distance(a)) > 0.05 {
			d := reader.Point{X: tip.X - (a.X+b.X)/2, Y: tip.Y - (a.Y+b.Y)/2}
			return d.X*way.X+d.Y*way.Y > 0.999*math.Hypot(d.X, d.Y)
		}
	}
	return false
}

// One cut from the paper's edge to where the folds meet frees both flaps. Nothing else lies on it.
func TestTheCutOfACornerJigRunsFromThePapersEdgeToTheFolds(t *testing.T) {
	for name, p := range jigsOn(t) {
		t.Run(name, func(t *testing.T) {
			margin := p.Job.Paper.Margin.Millimetres()
			p.jigsOf(t, func(number int, page reader.Page, rows [][]string, edge bool) {
				if edge {
					return
				}
				corner, _, _ := folds(t, page)
				from := reader.Point{X: margin, Y: corner.Y}
				cuts := page.FindLine(from, corner, 0.05)
				require.Len(t, cuts, 1, "page %d: no cut as far as the printer reaches", number)
				assert.Empty(t, cuts[0].Dash)
				assert.GreaterOrEqual(t, cuts[0].WidthMM, 0.5)
				assert.NotEmpty(t, page.FindText("cut here, on to the paper's edge"), "page %d", number)
				for _, w := range page.Texts {
					b := span(box(w))
					assert.False(t, b.Min.Y < corner.Y && b.Max.Y > corner.Y && b.Min.X < corner.X, "page %d: the cut runs through %q", number, w.String)
				}
				for _, s := range page.Segments() {
					crosses := min(s.From.Y, s.To.Y) < corner.Y-0.1 && max(s.From.Y, s.To.Y) > corner.Y+0.1 && max(s.From.X, s.To.X) < corner.X-0.1
					assert.False(t, crosses, "page %d: the cut runs through a line at %.1f", number, s.From)
				}
			})
		})
	}
}

// The flap of an edge jig covers the mark that line b is set on, but for a notch with its tip on line b and the fold; line b
// runs on through it.
func TestTheFlapOfAnEdgeJigHasANotchThatShowsTheMark(t *testing.T) {
	edges := 0
	for name, p := range jigsOn(t) {
		t.Run(name, func(t *testing.T) {
			p.jigsOf(t, func(number int, page reader.Page, rows [][]string, edge bool) {
				if !edge {
					return
				}
				edges++
				_, _, foot := edgeFold(t, page)
				assert.NotEmpty(t, page.FindText("cut the notch out"), "page %d", number)
				deep := 0.0
				for _, s := range page.Strokes {
					if !s.Closed || len(s.Points) != 3 || s.Points[0].Distance(foot) > reader.Within {
						continue
					}
					a, b := s.Points[1], s.Points[2]
					assert.InDelta(t, 2*foot.X, a.X+b.X, 2*reader.Within, "page %d: the notch's tip is not over its middle", number)
					assert.InDelta(t, a.Y, b.Y, reader.Within)
					deep = a.Y - foot.Y
				}
				assert.GreaterOrEqual(t, deep, 4.0, "page %d: no notch in the flap", number)
				over := slices.ContainsFunc(page.Segments(), func(s reader.Segment) bool {
					return abs(s.From.X-foot.X) < reader.Within && abs(s.To.X-foot.X) < reader.Within && s.WidthMM > 0.24 &&
						min(s.From.Y, s.To.Y) < foot.Y && max(s.From.Y, s.To.Y) >= foot.Y+deep-reader.Within
				})
				assert.True(t, over, "page %d: line b ends at the fold", number)
			})
		})
	}
	assert.Positive(t, edges)
}

// Every hole of a jig tells which wall half it meets, by its place as one looks at the wall: beside the base, or in the
// table.
func TestEveryHoleOfAJigTellsWhichWallHalfItMeets(t *testing.T) {
	inTable := 0
	for name, p := range jigsOn(t) {
		t.Run(name, func(t *testing.T) {
			fine := p.Job.Units.Fine().Millimetres()
			for _, r := range p.readJigs(t) {
				k := slices.IndexFunc(p.Plan.Boards, func(b layout.Board) bool { return b.Name == r.board })
				b := &p.Plan.Boards[k]
				place := ""
				for _, c := range b.Clips {
					for _, h := range c.BoardHoles {
						if has(r.at, reader.Point{X: b.Size.W.Millimetres() - h.X.Millimetres(), Y: h.Y.Millimetres()}, 2*reader.Within+fine) {
							place = c.Place
						}
					}
				}
				require.NotEmpty(t, place, "page %d, %v", r.page+1, r.row)
				page := p.read[r.page]
				isEdge := strings.HasSuffix(r.row[1], " edge")
				switch alone := page.FindText("meets the wall half"); {
				case len(alone) > 0:
					assert.True(t, slices.ContainsFunc(page.Texts, func(w reader.Text) bool {
						return strings.HasPrefix(w.String, place) && strings.HasSuffix(w.String, ",") && abs(w.X-alone[0].X) < 0.1 && w.Y > alone[0].Y && w.Y < alone[0].Y+6
					}), "page %d, %v: %s", r.page+1, r.row, place)
				case len(page.FindText("meets the wall half in the table")) > 0:
					inTable++
					assert.Contains(t, r.row[4:], place, "page %d", r.page+1)
				default:
					assert.NotEmpty(t, page.FindText(largeName(r.row, isEdge)+": meets the wall half "+place), "page %d, %v", r.page+1, r.row)
				}
				if len(page.FindText("meets the wall half in the table")) == 0 {
					assert.NotEmpty(t, page.FindText("as you look at the wall"), "page %d", r.page+1)
				}
			}
		})
	}
	assert.Positive(t, inTable, "no table tells of halves: the test sees too little")
}

// holdSigns fails unless a picture has the folds' letters beside their edges, and a cross on each corner of the board that
// the jig has no row for.
func (p printed) holdSigns(t *testing.T, page reader.Page, rows [][]string, row []string, pic jigPicture, edge bool) {
	t.Helper()
	outline := p.seen(t, pic.board)
	n := len(outline)
	names := map[string]string{"a": row[1]}
	if !edge {
		names = map[string]string{"a": row[2], "b": row[3]}
	}
	for letter, name := range names {
		found := false
		for _, w := range page.FindText(letter) {
			for i, q := range pic.shape {
				next := pic.shape[(i+1)%n]
				middleOf := reader.Point{X: (q.X + next.X) / 2, Y: (q.Y + next.Y) / 2}
				if middle(w).Distance(middleOf) < 3.5 && edgeOf(outline[i], outline[(i+1)%n]) == name {
					found = true
				}
			}
		}
		assert.True(t, found, "no %s beside the %s of board %s", letter, name, pic.board)
	}
	if edge {
		return
	}
	for i, q := range pic.shape {
		fits := slices.ContainsFunc(rows, func(r []string) bool {
			before, next := outline[(i+n-1)%n], outline[(i+1)%n]
			return r[0] == pic.board && p.called(t, outline, i, r[1]) && edgeOf(outline[i], next) == r[2] && edgeOf(before, outline[i]) == r[3]
		})
		strokes := 0
		for _, s := range page.Segments() {
			at := reader.Point{X: (s.From.X + s.To.X) / 2, Y: (s.From.Y + s.To.Y) / 2}
			if at.Distance(q) < 0.05 && abs(abs(s.To.X-s.From.X)-abs(s.To.Y-s.From.Y)) < 0.05 && s.From.Distance(s.To) < 5 {
				strokes++
			}
		}
		assert.Equal(t, map[bool]int{true: 0, false: 2}[fits], strokes, "the cross on corner %d of board %s", i+1, pic.board)
	}
}
