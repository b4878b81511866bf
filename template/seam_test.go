package template_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/page"
	"rodsheet/template/sheet"
)

// A placed symbol stands in the drawing, mm, as found on one page.
type placed struct {
	symbol
	page int
	in   reader.Point
}

func (p printed) placed(t *testing.T, c page.Count) (holes, registration []placed) {
	for _, i := range p.pagesOf(c) {
		h, r := symbols(t, p.read[i])
		for _, s := range h {
			holes = append(holes, placed{s, i, p.inDrawing(i, s.at)})
		}
		for _, s := range r {
			registration = append(registration, placed{s, i, p.inDrawing(i, s.at)})
		}
	}
	return holes, registration
}

// A seam is a trim line or the place of a neighbour's edge: a level or upright stroke with two registration marks on it.
type seam struct {
	upright  bool
	at       float64
	from, to float64
	trim     bool // drawn through: cut here
}

func seams(p reader.Page, registration []symbol) []seam {
	var out []seam
	for _, s := range p.Strokes {
		if len(s.Points) != 2 || abs(s.WidthMM-drawing.NarrowWidth.Millimetres()) > 0.01 {
			continue
		}
		a, b := s.Points[0], s.Points[1]
		on := 0
		for _, r := range registration {
			if off(r.at, a, b) < 0.01 {
				on++
			}
		}
		if on < 2 {
			continue
		}
		line := seam{upright: abs(a.X-b.X) < 0.01, at: a.Y, from: min(a.X, b.X), to: max(a.X, b.X), trim: len(s.Dash) == 0}
		if line.upright {
			line.at, line.from, line.to = a.X, min(a.Y, b.Y), max(a.Y, b.Y)
		}
		out = append(out, line)
	}
	return out
}

func TestRegistrationMarksOfNeighboursStandAtTheSamePlaceOfTheDrawing(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			for _, c := range append(p.of(sheet.Board), p.of(sheet.Wall)...) {
				_, marks := p.placed(t, c)
				shared := map[[2]int]int{}
				for _, m := range marks {
					mates := 0
					for _, n := range marks {
						if n.page != m.page && n.in.Distance(m.in) <= 2*reader.Within {
							mates++
							shared[[2]int{m.page, n.page}]++
						}
					}
					assert.NotZero(t, mates, "%s: the registration mark at %.2f, %.2f on page %d is on no other page", c.Title, m.in.X, m.in.Y, m.page+1)
				}
				if c.Kind != sheet.Board {
					continue
				}
				assert.LessOrEqual(t, c.Pages, (c.Seams[0]+1)*(c.Seams[1]+1), c.Title)
				for _, i := range p.pagesOf(c) {
					for _, j := range p.pagesOf(c) {
						if neighbours(p.set.Pages[i].Ref, p.set.Pages[j].Ref) {
							assert.GreaterOrEqual(t, shared[[2]int{i, j}], 2, "%s: pages %d and %d", c.Title, i+1, j+1)
						}
					}
				}
			}
		})
	}
}

// neighbours tells whether grid references such as B2 and B3 stand side by side, or one above the other.
func neighbours(a, b string) bool {
	if len(a) != 2 || len(b) != 2 {
		return false
	}
	return a[0] == b[0] && abs(float64(a[1])-float64(b[1])) == 1 || a[1] == b[1] && abs(float64(a[0])-float64(b[0])) == 1
}

func TestNoHoleIsNearerThanFiveMillimetresToASeamUnlessWholeOnBothPages(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			seen := 0
			for _, c := range p.of(sheet.Board) {
				holes, _ := p.placed(t, c)
				near := map[int]bool{}
				for _, i := range p.pagesOf(c) {
					_, registration := symbols(t, p.read[i])
					lines := seams(p.read[i], registration)
					seen += len(lines)
					for k, h := range holes {
						if h.page != i {
							continue
						}
						for _, s := range lines {
							away, along := h.at.Y-s.at, h.at.X
							if s.upright {
								away, along = h.at.X-s.at, h.at.Y
							}
							if along >= s.from && along <= s.to && abs(away) < h.radius+5-reader.Within {
								near[k] = true
							}
						}
					}
				}
				for k := range near {
					whole := 0
					for _, h := range holes {
						if h.in.Distance(holes[k].in) < 2*reader.Within && h.whole {
							whole++
						}
					}
					assert.GreaterOrEqual(t, whole, 2, "%s: the hole at %.2f, %.2f is near a seam and cut", c.Title, holes[k].in.X, holes[k].in.Y)
				}
				assert.False(t, len(near) > 0 && c.OnSeam == 0, "%s: the count hides holes on a seam", c.Title)
			}
			if name != "asymmetric-studs" {
				assert.NotZero(t, seen, "no seam was found to hold holes against")
			}
		})
	}
}

// Every hole must be whole on a page inside what is left of it when it is trimmed and covered.
func TestEveryHoleIsWholeInsideTheTrimmedPart(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			for _, c := range p.of(sheet.Board) {
				holes, _ := p.placed(t, c)
				for _, h := range holes {
					clear := false
					for _, other := range holes {
						if other.in.Distance(h.in) > 2*reader.Within || !other.whole {
							continue
						}
						_, registration := symbols(t, p.read[other.page])
						middle := reader.Point{X: p.read[other.page].WidthMM / 2, Y: p.read[other.page].HeightMM / 2}
						inside := true
						for _, s := range seams(p.read[other.page], registration) {
							away, mid := other.at.Y-s.at, middle.Y-s.at
							if s.upright {
								away, mid = other.at.X-s.at, middle.X-s.at
							}
							inside = inside && math.Signbit(away) == math.Signbit(mid) && abs(away) > h.radius
						}
						clear = clear || inside
					}
					assert.True(t, clear || c.OnSeam > 0, "%s: the hole at %.2f, %.2f is cut by a seam on every page", c.Title, h.in.X, h.in.Y)
				}
			}
		})
	}
}

// Where a page is cut, its neighbour lies beneath; where it is covered, the other page is the one that is cut.
func TestOfTwoNeighboursExactlyOneIsTrimmedOnTheSeam(t *testing.T) {
	p := onPaper(t, "settle", everything())
	for _, c := range p.of(sheet.Board) {
		trims, covers := 0, 0
		for _, i := range p.pagesOf(c) {
			_, registration := symbols(t, p.read[i])
			for _, s := range seams(p.read[i], registration) {
				middle := p.read[i].HeightMM / 2
				if s.upright {
					middle = p.read[i].WidthMM / 2
				}
				if s.trim {
					trims++
					assert.Less(t, s.at, middle, "page %d is trimmed on its right or foot", i+1)
				} else {
					covers++
					assert.Greater(t, s.at, middle, "page %d is covered on its left or head", i+1)
				}
			}
		}
		assert.Equal(t, trims, covers)
		assert.NotZero(t, trims)
	}
}
