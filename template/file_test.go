package template_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/paper"
	"rodsheet/template/sheet"
	"rodsheet/template/svg"
)

func TestFilesAreSoundAndAskForNoScaling(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			reader.CheckPDF(t, p.file)
			assert.Equal(t, "None", reader.PrintScaling(t, p.file))
			for _, f := range reader.Fonts(t, p.file) {
				assert.True(t, f.Embedded && f.Unicode, f.Name)
			}
		})
	}
}

func TestTwoRunsGiveTheSameBytes(t *testing.T) {
	for _, name := range jobs {
		var files [2][]byte
		for i := range files {
			set, _, err := open(t, name).Pages(everything())
			require.NoError(t, err)
			files[i] = written(t, set)
		}
		assert.True(t, bytes.Equal(files[0], files[1]), name)
	}
}

// A page that jams is printed again alone, and every mark of it stands where it stood.
func TestPickedPagesHaveEveryMarkInTheSamePlace(t *testing.T) {
	p := onPaper(t, "settle", everything())
	numbers := []int{2, 4, 5, 6, len(p.read)}
	some, err := p.set.Pick(numbers)
	require.NoError(t, err)
	again := reader.Trace(t, written(t, some))
	require.Len(t, again, len(numbers))
	for i, n := range numbers {
		assert.Equal(t, p.read[n-1], again[i], "page %d", n)
	}
}

func TestTheOverviewLinksToEverySheet(t *testing.T) {
	for _, name := range jobs {
		p := onPaper(t, name, everything())
		var links []int
		for _, c := range p.of(sheet.Overview) {
			for _, i := range p.pagesOf(c) {
				links = append(links, reader.Links(t, p.file, i+1)...)
			}
		}
		marked := map[int]bool{}
		for _, b := range reader.Bookmarks(t, p.file) {
			marked[b.Page] = true
		}
		for _, c := range p.counts {
			if c.Pages == 0 {
				continue
			}
			assert.True(t, marked[c.First], "%s: %s has no bookmark", name, c.Title)
			if c.Kind != sheet.Overview {
				assert.Contains(t, links, c.First, "%s: no link to %s", name, c.Title)
			}
		}
	}
}

// The least number of pages is proved for each demo job, or its bound is shown.
func TestPageCountsAreTheLeastOrShowTheirBound(t *testing.T) {
	for _, name := range bothWaysToo {
		p := onPaper(t, name, everything())
		total := 0
		for _, c := range p.counts {
			total += c.Pages
			assert.Equal(t, c.Kind == sheet.Board || c.Kind == sheet.Wall || c.Kind == sheet.Block, c.Solved, "%s, %s", name, c.Title)
			if !c.Solved {
				assert.False(t, c.Proved || c.Bound > 0, "%s, %s claims what nobody worked out", name, c.Title)
				continue
			}
			assert.GreaterOrEqual(t, c.Pages, c.Bound, "%s, %s", name, c.Title)
			assert.Equal(t, c.Pages == c.Bound, c.Proved, "%s, %s", name, c.Title)
			if c.Pages > 0 {
				assert.Positive(t, c.Bound, "%s, %s shows no bound", name, c.Title)
			}
			if c.Kind != sheet.Board {
				assert.True(t, c.Proved, "%s, %s: %d pages, bound %d", name, c.Title, c.Pages, c.Bound)
			}
		}
		assert.Equal(t, len(p.read), total, name)
	}
}

// Arithmetic: n = ceil((L − v)/(u − v)) tiles for a length L with windows u and overlap v. Seams that leave the
// even step to keep clear of holes may need one more; never fewer are possible.
func TestTilesOfABoardAreAsManyAsTheFormulaSays(t *testing.T) {
	for _, name := range []string{"settle", "bay", "asymmetric-studs"} {
		p := onPaper(t, name, everything())
		paper := p.Job.Paper
		// The field is read off the layout of each page: what its first layer shows.
		for _, c := range p.of(sheet.Board) {
			var b geom.Size
			for _, board := range p.Plan.Boards {
				if "board "+board.Name == c.Sheet {
					b = board.Size
				}
			}
			if c.Pages != (c.Seams[0]+1)*(c.Seams[1]+1) {
				continue // pages that show nothing are left out
			}
			field := fieldOf(t, p, c)
			tiles := func(l, u geom.Length) int {
				v := paper.Overlap
				return max(1, int(math.Ceil(float64(l-v)/float64(u-v))))
			}
			least := tiles(b.W, field.W) * tiles(b.H, field.H)
			assert.GreaterOrEqual(t, c.Pages, least, "%s, %s", name, c.Title)
			assert.Equal(t, least, c.Pages, "%s, %s", name, c.Title)
		}
	}
}

// fieldOf is what a page of the sheet offers: inside the margins, less the furniture at the foot and on the right, the
// way the page lies.
func fieldOf(t *testing.T, p printed, c page.Count) geom.Size {
	t.Helper()
	o := page.Options{Paper: page.Paper{Size: p.Job.Paper.Size, Margin: p.Job.Paper.Margin, Overlap: p.Job.Paper.Overlap}, Units: p.Job.Units}
	if at := p.set.Pages[c.First-1].Paper; at.W > at.H {
		o.Paper.Size = o.Paper.Size.Turned()
	}
	field, err := o.Field()
	require.NoError(t, err)
	return field
}

// ISO 216: A4 210 × 297, A3 297 × 420, A2 420 × 594 mm. ASME Y14.1: A 8 1/2 × 11, B 11 × 17 in. US legal: 8 1/2 × 14 in
// (from memory). PDF user space: 1/72 in (ISO 32000-1, 8.3.2.3).
func TestPaperHasItsStandardSizeInTheFile(t *testing.T) {
	const in = 25.4
	for name, want := range map[string][2]float64{
		"a4": {210, 297}, "a3": {297, 420}, "a2": {420, 594},
		"letter": {8.5 * in, 11 * in}, "tabloid": {11 * in, 17 * in}, "legal": {8.5 * in, 14 * in},
	} {
		t.Run(name, func(t *testing.T) {
			w, err := template.Open("paper.yaml", job.Starter(geom.Metric))
			require.NoError(t, err)
			format, ok := paper.Named(name)
			require.True(t, ok)
			on := w.Job.Paper
			on.Size = format.Size
			set, _, err := template.ScalePages(on, geom.Metric, "", geom.Affine{})
			require.NoError(t, err)
			for _, p := range reader.Trace(t, written(t, set)) { // the reader has points, 1/72 in
				assert.InDelta(t, want[0]/in*72, p.WidthMM/in*72, 0.01)
				assert.InDelta(t, want[1]/in*72, p.HeightMM/in*72, 0.01)
			}
		})
	}
}

// The two writers must draw the same page: what is read from the one is held to the other through the same pages.
func TestSVGPagesHoldTheSameMarksAsThePDF(t *testing.T) {
	for _, name := range []string{"settle", "bay", "asymmetric-studs"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			roles := map[string]bool{}
			for i, pg := range p.set.Pages {
				var b bytes.Buffer
				require.NoError(t, svg.Write(&b, pg))
				got := reader.SVG(t, b.Bytes())
				assert.InDelta(t, p.read[i].WidthMM, got.WidthMM, reader.Within)
				assert.InDelta(t, p.read[i].HeightMM, got.HeightMM, reader.Within)
				for _, s := range got.Strokes {
					roles[s.Role] = true
				}
				for _, w := range got.Texts {
					roles[w.Role] = true
				}
				samePage(t, i+1, p.read[i], got)
			}
			for _, group := range []string{"cut", "drill", "mark", "note"} {
				assert.True(t, roles[group], "no group %q", group)
			}
		})
	}
}

// samePage holds lines, circles and words of two files to each other.
func samePage(t *testing.T, number int, a, b reader.Page) {
	t.Helper()
	if !assert.Len(t, b.Strokes, len(a.Strokes), "page %d", number) || !assert.Len(t, b.Texts, len(a.Texts), "page %d", number) {
		return
	}
	used := make([]bool, len(b.Strokes))
	for _, s := range a.Strokes {
		found := false
		for k, o := range b.Strokes {
			if !used[k] && s.Closed == o.Closed && s.Curved == o.Curved && abs(s.WidthMM-o.WidthMM) < 0.01 && sameOutline(s.Outline, o.Outline) {
				used[k], found = true, true
				break
			}
		}
		assert.True(t, found, "page %d: the SVG file has no stroke %+v", number, s.Points[0])
	}
	words := make([]bool, len(b.Texts))
	for _, w := range a.Texts {
		found := false
		for k, o := range b.Texts {
			if !words[k] && w.String == o.String && (reader.Point{X: w.X, Y: w.Y}).Distance(reader.Point{X: o.X, Y: o.Y}) <= 3*reader.Within {
				words[k], found = true, true
				break
			}
		}
		assert.True(t, found, "page %d: the SVG file has no %q at %.3f, %.3f", number, w.String, w.X, w.Y)
	}
}

func sameOutline(a, b reader.Outline) bool {
	if a.Curved && a.Closed {
		ca, ra, _ := a.Round()
		cb, rb, _ := b.Round()
		return ca.Distance(cb) <= reader.Within && abs(ra-rb) <= reader.Within
	}
	if a.Curved {
		n, m := len(a.Points)-1, len(b.Points)-1
		return a.Points[0].Distance(b.Points[0]) <= reader.Within && a.Points[n].Distance(b.Points[m]) <= reader.Within
	}
	if len(a.Points) != len(b.Points) {
		return false
	}
	for i, p := range a.Points {
		if p.Distance(b.Points[i]) > reader.Within {
			return false
		}
	}
	return true
}

// --whole puts each drawing on one page of its own size.
func TestWholeDrawingsHaveNoSeamAndEveryHole(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Board, sheet.Wall}, Whole: true})
			for _, c := range p.counts {
				assert.Equal(t, 1, c.Pages, c.Title)
				_, registration := symbols(t, p.read[c.First-1])
				assert.Empty(t, registration, c.Title)
			}
			for i := range p.Plan.Boards {
				b := &p.Plan.Boards[i]
				found := p.holesOnBoard(t, b, sheet.Back)
				assert.Len(t, found, len(boardHoles(b)))
				hold(t, "board "+b.Name, boardHoles(b), found, reader.Within)
			}
			for r := range p.Plan.Runs {
				found := p.holesOnWall(t, r)
				assert.Len(t, found, len(p.wallHoles(r)))
				hold(t, "run "+p.Plan.Runs[r].Name, p.wallHoles(r), found, reader.Within)
			}
		})
	}
}

// Pages that lie all one way, as many as it takes without turning some, are more.
func TestWallPagesLieEachForItselfWhereThatSavesPages(t *testing.T) {
	p := onPaper(t, bothWays, everything())
	lying, standing := 0, 0
	for _, c := range p.of(sheet.Wall) {
		for _, i := range p.pagesOf(c) {
			if p.read[i].WidthMM > p.read[i].HeightMM {
				lying++
			} else {
				standing++
			}
		}
	}
	assert.Positive(t, lying)
	assert.Positive(t, standing)
	assert.Equal(t, 18, lying+standing, "19 when all lie alike")
}
