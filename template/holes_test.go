package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
)

// hold fails unless the found places are those wanted, every one at least once, nothing else, within d mm.
func hold(t *testing.T, what string, wanted, found []reader.Point, d float64) {
	t.Helper()
	for _, w := range wanted {
		assert.True(t, has(found, w, d), "%s: the hole of the plan at %.3f, %.3f is not on paper", what, w.X, w.Y)
	}
	for _, f := range found {
		assert.True(t, has(wanted, f, d), "%s: on paper is a hole at %.3f, %.3f that the plan doesn't have", what, f.X, f.Y)
	}
}

func boardHoles(b *layout.Board) []reader.Point {
	var out []reader.Point
	for _, c := range b.Clips {
		for _, h := range c.BoardHoles {
			out = append(out, point(h))
		}
	}
	return out
}

// holesOnBoard reads a board template by its own outline alone, in board coordinates (seen from the face).
func (p printed) holesOnBoard(t *testing.T, b *layout.Board, side sheet.Side) []reader.Point {
	t.Helper()
	seen := b.Outline
	if side == sheet.Back {
		seen = b.Outline.Mirror(b.Size.W)
	}
	var found []reader.Point
	for _, c := range p.of(sheet.Board) {
		if c.Sheet != "board "+b.Name {
			continue
		}
		for _, i := range p.pagesOf(c) {
			require.NotEmpty(t, p.read[i].FindText(string(side)), "%s, page %d doesn't say %s", c.Title, i+1, side)
			origin, ok := outlineOf(p.read[i], seen)
			require.True(t, ok, "%s, page %d: no outline of the board as seen from the %s", c.Title, i+1, side)
			holes, _ := symbols(t, p.read[i])
			for _, h := range holes {
				at := reader.Point{X: h.at.X - origin.X, Y: origin.Y - h.at.Y}
				if side == sheet.Back {
					at.X = b.Size.W.Millimetres() - at.X
				}
				found = append(found, at)
			}
		}
	}
	return found
}

func TestEveryBoardHoleOfThePlanIsOnItsTemplateAndNoOther(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			require.Len(t, p.of(sheet.Board), len(p.Plan.Boards))
			for i := range p.Plan.Boards {
				b := &p.Plan.Boards[i]
				found := p.holesOnBoard(t, b, sheet.Back)
				require.GreaterOrEqual(t, len(found), len(boardHoles(b)))
				hold(t, "board "+b.Name, boardHoles(b), found, reader.Within)
			}
		})
	}
}

func TestTheFaceSheetIsTheMirrorOfTheBackSheet(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			backs := onPaper(t, name, everything())
			faces := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Board}, Faces: true})
			for i := range backs.Plan.Boards {
				b := &backs.Plan.Boards[i]
				// holesOnBoard has turned the back over by x′ = W − x.
				back, face := backs.holesOnBoard(t, b, sheet.Back), faces.holesOnBoard(t, b, sheet.Face)
				require.NotEmpty(t, face)
				hold(t, "face and back of board "+b.Name, back, face, 2*reader.Within)
			}
		})
	}
}

func TestEveryWallHoleOfThePlanIsOnItsTemplateAndNoOther(t *testing.T) {
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			for r := range p.Plan.Runs {
				hold(t, "run "+p.Plan.Runs[r].Name, p.wallHoles(r), p.holesOnWall(t, r), reader.Within)
			}
		})
	}
}

func (p printed) wallHoles(run int) []reader.Point {
	var out []reader.Point
	for _, i := range p.Plan.Runs[run].Panels {
		for _, c := range p.Plan.Panels[i].Clips {
			for _, h := range c.WallHoles {
				out = append(out, point(h))
			}
		}
	}
	return out
}

// holesOnWall reads a run's wall template, in wall coordinates by the layout of its pages.
func (p printed) holesOnWall(t *testing.T, run int) []reader.Point {
	t.Helper()
	var found []reader.Point
	for _, c := range p.of(sheet.Wall) {
		if c.Sheet != "wall "+p.Plan.Runs[run].Name {
			continue
		}
		for _, i := range p.pagesOf(c) {
			holes, _ := symbols(t, p.read[i])
			require.NotEmpty(t, holes, "page %d of the wall template has nothing to drill", i+1)
			for _, h := range holes {
				found = append(found, p.inDrawing(i, h.at))
			}
		}
	}
	return found
}

// The wall place is the board place less the offset.
func TestBoardAndWallSheetsAgreeHoleByHole(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			offset := point(p.Job.Clip.Offset)
			for r := range p.Plan.Runs {
				var wanted []reader.Point
				for _, i := range p.Plan.Runs[r].Panels {
					panel := &p.Plan.Panels[i]
					origin := point(panel.Origin())
					for _, h := range p.holesOnBoard(t, &p.Plan.Boards[panel.Board], sheet.Back) {
						wanted = append(wanted, reader.Point{X: origin.X + h.X - offset.X, Y: origin.Y + h.Y - offset.Y})
					}
				}
				hold(t, "boards of run "+p.Plan.Runs[r].Name+" on the wall", wanted, p.holesOnWall(t, r), 2*reader.Within)
			}
		})
	}
}

func TestAsymmetricStudsMakeMirroredBoards(t *testing.T) {
	p := onPaper(t, "asymmetric-studs", everything())
	require.Len(t, p.Plan.Boards, 2)
	require.Equal(t, 0, p.Plan.Boards[1].Twin)
	a, b := &p.Plan.Boards[0], &p.Plan.Boards[1]
	var mirrored []reader.Point
	for _, h := range p.holesOnBoard(t, a, sheet.Back) {
		mirrored = append(mirrored, reader.Point{X: a.Size.W.Millimetres() - h.X, Y: h.Y})
	}
	found := p.holesOnBoard(t, b, sheet.Back)
	hold(t, "board B against board A mirrored", mirrored, found, 2*reader.Within)
	for _, h := range mirrored { // else the test could not tell a mirror from a copy
		assert.False(t, has(p.holesOnBoard(t, a, sheet.Back), h, 5), "board A is symmetric")
	}
	for _, panel := range p.Plan.Panels {
		for _, c := range panel.Clips {
			assert.Equal(t, layout.OnStud, c.On, "%s %s", panel.Name, c.Place)
		}
	}
}

// The words on the page are all that a person has: running distances beside a lead to each hole's lines.
func TestRunningDistancesOnThePaperAlonePlaceEveryWallHole(t *testing.T) {
	for _, name := range bothWaysToo {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			// What a person reads is rounded to 1/64 in or 0.1 mm.
			fine := p.Job.Units.Fine().Millimetres()
			for _, c := range p.of(sheet.Wall) {
				var run int
				for r := range p.Plan.Runs {
					if "wall "+p.Plan.Runs[r].Name == c.Sheet {
						run = r
					}
				}
				wanted := p.wallHoles(run)
				for _, i := range p.pagesOf(c) {
					across, up := stations(t, p.read[i], p.Job.Units)
					require.NotEmpty(t, across, "page %d", i+1)
					require.NotEmpty(t, up, "page %d", i+1)
					holes, _ := symbols(t, p.read[i])
					for _, h := range holes {
						x, okX := across.at(h.at.X)
						y, okY := up.at(h.at.Y)
						if assert.True(t, okX && okY, "page %d: the hole at %.2f, %.2f has no running distances", i+1, h.at.X, h.at.Y) {
							assert.True(t, has(wanted, reader.Point{X: x, Y: y}, fine), "page %d: distances %.2f, %.2f place no hole of the plan", i+1, x, y)
						}
					}
				}
			}
		})
	}
}

// A scale is what running distances read (mm) at coordinates of a page.
type scale map[float64]float64

func (s scale) at(place float64) (float64, bool) {
	for k, reads := range s {
		if k-place < reader.Within && place-k < reader.Within {
			return reads, true
		}
	}
	return 0, false
}

// stations reads running distances: a hair line of four points from the window's edge, its far end 2 mm off the words,
// in bold, on the left and at the foot.
func stations(t *testing.T, p reader.Page, units geom.System) (across, up scale) {
	t.Helper()
	across, up = scale{}, scale{}
	for _, s := range p.Strokes {
		if len(s.Points) != 4 || s.Closed || s.Curved {
			continue
		}
		near, far := s.Points[0], s.Points[3]
		best, least := "", 4.0
		for _, w := range p.Texts {
			_, err := geom.ParseLength(strings.TrimPrefix(w.String, "≈"), units)
			if !w.Bold || err != nil {
				continue
			}
			// The words end (level) or begin their line (turned) on the side of the lead's far end.
			var gap float64
			if w.Turn > 45 {
				gap = abs(w.X - far.X)
				if w.Y < far.Y {
					continue
				}
			} else {
				gap = abs(w.Y - far.Y)
				if w.X > far.X {
					continue
				}
			}
			if gap < least {
				best, least = w.String, gap
			}
		}
		if best == "" {
			continue
		}
		length, err := geom.ParseLength(strings.TrimPrefix(best, "≈"), units)
		require.NoError(t, err)
		if abs(far.X-near.X) < abs(far.Y-near.Y) {
			across[near.X] = length.Millimetres()
		} else {
			up[near.Y] = length.Millimetres()
		}
	}
	return across, up
}

func abs(x float64) float64 { return max(x, -x) }
