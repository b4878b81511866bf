package template_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/plan/covering"
	"rodsheet/template/sheet"
)

// A backPicture is a small board on a sheet about the cover, with what stands on it in board coordinates as the back is
// seen, in mm.
type backPicture struct {
	board int // into Plan.Boards
	shape []reader.Point
	scale float64
	box   reader.Rect // on the page
}

func (b backPicture) onBoard(q reader.Point) reader.Point {
	return reader.Point{X: (q.X - b.box.Min.X) / b.scale, Y: (b.box.Max.Y - q.Y) / b.scale}
}

// backPictures finds under each heading "Board A" the nearest outline with as many corners as the board has.
func (p printed) backPictures(page reader.Page) []backPicture {
	var out []backPicture
	for k, b := range p.Plan.Boards {
		for _, w := range page.FindText("Board " + b.Name) {
			var pic backPicture
			for _, s := range page.Strokes {
				box := s.Bounds()
				if !s.Closed || s.Curved || len(s.Points) != len(b.Outline) || s.WidthMM < drawing.WideWidth.Millimetres()-0.01 || box.Min.Y < w.Y || box.Min.X > w.X+80 || box.Max.X < w.X {
					continue
				}
				if pic.shape == nil || box.Min.Y < pic.box.Min.Y {
					pic = backPicture{board: k, shape: s.Points, box: box, scale: (box.Max.X - box.Min.X) / b.Size.W.Millimetres()}
				}
			}
			if pic.shape != nil {
				out = append(out, pic)
			}
		}
	}
	return out
}

// Staples are driven from the back, so the picture shows them as the back is seen: every number and every dot is a
// staple of the plan on the board turned over, a number is its step, and no staple is left out.
func TestStaplesAreShownAsTheBackIsSeen(t *testing.T) {
	for _, name := range []string{"settle", "loft", "under slopes"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			boards := 0
			for _, c := range p.of(sheet.Fold) {
				for _, i := range p.pagesOf(c) {
					page := p.read[i]
					for _, pic := range p.backPictures(page) {
						boards++
						b := &p.Plan.Boards[pic.board]
						slack := 3 * reader.Within / pic.scale
						outline := p.seen(t, b.Name)
						for _, q := range pic.shape {
							require.True(t, has(outline, pic.onBoard(q), slack), "board %s is not drawn as its back is seen", b.Name)
						}
						staples := covering.Staples(p.Job, b.Outline)
						met := make([]bool, len(staples))
						meet := func(at reader.Point, step int) {
							found := false
							for n, s := range staples {
								seen := reader.Point{X: (b.Size.W - s.At.X).Millimetres(), Y: s.At.Y.Millimetres()}
								if (step == 0 || s.Step == step) && seen.Distance(at) <= slack {
									found, met[n] = true, true
								}
							}
							assert.True(t, found, "board %s: no staple of step %d at %.1f", b.Name, step, at)
						}
						for _, d := range page.Dots(0.5) {
							if pic.box.Has(d) {
								meet(pic.onBoard(d), 0)
							}
						}
						for _, w := range page.Texts {
							if n, err := strconv.Atoi(w.String); err == nil && !w.Bold && pic.box.Has(middle(w)) {
								meet(pic.onBoard(middle(w)), n)
							}
						}
						assert.NotContains(t, met, false, "board %s: a staple is not shown", b.Name)
					}
				}
			}
			assert.Equal(t, len(p.Plan.Boards), boards)
		})
	}
}

// inner are the inner corners of a board as its back is seen.
func inner(outline []reader.Point) []reader.Point {
	var out []reader.Point
	for i, at := range outline {
		before, after := outline[(i+len(outline)-1)%len(outline)], outline[(i+1)%len(outline)]
		if (at.X-before.X)*(after.Y-at.Y)-(at.Y-before.Y)*(after.X-at.X) < 0 {
			out = append(out, at)
		}
	}
	return out
}

var relieved = regexp.MustCompile(`^Inner corner at (.+?) from the left, (.+?) up, as the back is seen`)

// reliefWords are what a page tells of inner corners as the back is seen, by the labels beside the words.
func (p printed) reliefWords(t *testing.T, page reader.Page) map[string][]reader.Point {
	t.Helper()
	out := map[string][]reader.Point{}
	for _, w := range page.Containing("Inner corner at ") {
		m := relieved.FindStringSubmatch(page.Paragraph(w))
		if m == nil {
			continue // of the leaf at actual size
		}
		label := slices.IndexFunc(page.Texts, func(l reader.Text) bool {
			return strings.HasPrefix(l.String, "R") && abs(l.Y-w.Y) < 0.1 && l.X < w.X && w.X-l.X < 12
		})
		require.GreaterOrEqual(t, label, 0, "%q has no label", m[0])
		name := page.Texts[label].String
		out[name] = append(out[name], reader.Point{X: length(t, m[1], p.Job.Units), Y: length(t, m[2], p.Job.Units)})
	}
	return out
}

// The words about slits tell the inner corners as the back is seen, each once; their lines and labels stand there, and a
// slit halves the open angle from where the cover ends, a wrap off both edges, to short of the corner.
func TestInnerCornersAreToldAndShownAsTheBackIsSeen(t *testing.T) {
	for _, name := range []string{"loft", "under slopes"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			fine := p.Job.Units.Fine().Millimetres()
			corners, told, lopsided := 0, 0, false
			for _, c := range p.of(sheet.Fold) {
				for _, i := range p.pagesOf(c) {
					page := p.read[i]
					words := p.reliefWords(t, page)
					for _, list := range words {
						told += len(list)
					}
					for _, pic := range p.backPictures(page) {
						b := &p.Plan.Boards[pic.board]
						outline, slits := p.seen(t, b.Name), pic.slits(page)
						all := inner(outline)
						assert.Len(t, slits, len(all), "board %s", b.Name)
						for _, at := range all {
							corners++
							lopsided = lopsided || !has(all, reader.Point{X: b.Size.W.Millimetres() - at.X, Y: at.Y}, 1)
							p.holdSlit(t, pic, outline, at, slits)
							label := ""
							for _, w := range page.Texts {
								if list := words[w.String]; has(list, at, fine) && pic.onBoard(middle(w)).Distance(at) < p.Plan.Wrap.Size.Millimetres()*1.5+3/pic.scale {
									label = w.String
								}
							}
							assert.NotEmpty(t, label, "board %s: the words about the inner corner at %.1f, or the label there, are missing: %v", b.Name, at, words)
						}
					}
				}
			}
			assert.Positive(t, corners)
			assert.Equal(t, corners, told)
			assert.True(t, lopsided, "all boards are symmetric: the test sees too little")
		})
	}
}

// slits are the short wide lines that begin or end in a picture, each from its end near the board's corner.
func (b backPicture) slits(page reader.Page) [][2]reader.Point {
	var out [][2]reader.Point
	for _, s := range page.Segments() {
		if len(s.Points) == 2 && !s.Closed && s.WidthMM > 0.4 && len(s.Dash) == 0 && s.Length() < 40 && b.box.Has(s.From) && b.box.Has(s.To) {
			out = append(out, [2]reader.Point{b.onBoard(s.From), b.onBoard(s.To)})
		}
	}
	return out
}

// holdSlit fails unless one of the slits opens the cover at an inner corner.
func (p printed) holdSlit(t *testing.T, pic backPicture, outline []reader.Point, at reader.Point, slits [][2]reader.Point) {
	t.Helper()
	n, v := len(outline), slices.Index(outline, at)
	before, after := outline[(v+n-1)%n], outline[(v+1)%n]
	slack := 3 * reader.Within / pic.scale
	found := false
	for _, s := range slits {
		far, near := s[0], s[1]
		if far.Distance(at) < near.Distance(at) {
			far, near = near, far
		}
		wrap := p.Plan.Wrap.Size.Millimetres()
		found = found || abs(near.Distance(at)-3) <= slack && abs(off(far, before, at)-wrap) <= slack && abs(off(far, at, after)-wrap) <= slack &&
			off(near, at, far) <= slack && !within(outline, far)
	}
	assert.True(t, found, "no slit opens the inner corner at %.1f: %.1f", at, slits)
}

// within reports whether p is inside an outline, by the count of edges to its right.
func within(outline []reader.Point, p reader.Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}
