package template_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/pdf"
	"rodsheet/template/sheet"
)

const mm = geom.Millimetre

// jobs are the demo jobs, and one whose boards mirror each other.
var jobs = []string{"settle", "bay", "loft", "asymmetric-studs"}

// bothWays is a job whose wall pages lie both ways, and bothWaysToo the demo jobs with it.
const bothWays = "loft on A3"

var bothWaysToo = append(slices.Clone(jobs), bothWays)

// variants are jobs with a line more than another.
var variants = map[string]struct{ job, before, line string }{
	"hall with a pipe":          {"asymmetric-studs", "    studs: {at: ", "    keep-outs: [{name: pipe, at: [260, 0], size: 30 x 2400, margin: 20}]\n"},
	"loft, screws side by side": {"loft", "  flange: 3\n", "  holes: [[10, 0], [-10, 0]]\n"},
}

func source(t testing.TB, name string) (file string, data []byte) {
	t.Helper()
	switch name {
	case "settle":
		return job.Demo()
	case "under slopes":
		return "slopes.yaml", []byte(underSlopes)
	case bothWays:
		_, data = source(t, "loft")
		return "loft.yaml", bytes.Replace(data, []byte("size: a4"), []byte("size: a3"), 1)
	}
	if v, ok := variants[name]; ok {
		file, data = source(t, v.job)
		require.Contains(t, string(data), v.before)
		return file, []byte(strings.Replace(string(data), v.before, v.line+v.before, 1))
	}
	file = filepath.Join("..", "testdata", "jobs", name+".yaml")
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	return file, data
}

func open(t testing.TB, name string) *template.Work {
	t.Helper()
	file, data := source(t, name)
	w, err := template.Open(file, data)
	require.NoError(t, err)
	return w
}

// A printed is a job on paper: what was meant, and what mutool reads in the file.
type printed struct {
	*template.Work
	set    page.Set
	counts []page.Count
	file   []byte
	read   []reader.Page
}

var (
	printing sync.Mutex
	shelf    = map[string]printed{}
)

// onPaper prints a job and reads the file; the same job is printed once.
func onPaper(t testing.TB, name string, p template.Print) printed {
	t.Helper()
	reader.Need(t, "mutool")
	printing.Lock()
	defer printing.Unlock()
	key := fmt.Sprintf("%s %+v", name, p)
	if known, ok := shelf[key]; ok {
		return known
	}
	shelf[key] = read(t, open(t, name), p)
	return shelf[key]
}

// read prints work, whatever stops stand against it, and reads the file.
func read(t testing.TB, w *template.Work, p template.Print) printed {
	t.Helper()
	out := printed{Work: w}
	var err error
	p.AllowStops = true
	out.set, out.counts, err = w.Pages(p)
	require.NoError(t, err)
	out.file = written(t, out.set)
	out.read = reader.Trace(t, out.file)
	require.Len(t, out.read, len(out.set.Pages))
	return out
}

func written(t testing.TB, set page.Set) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, set))
	return b.Bytes()
}

// everything prints all kinds of sheets, board templates also where corner jigs would do.
func everything() template.Print { return template.Print{Only: sheet.Kinds(), AllowStops: true} }

// pagesOf are the places in the set of a sheet's pages.
func (p printed) pagesOf(c page.Count) []int {
	var out []int
	for i := range c.Pages {
		out = append(out, c.First-1+i)
	}
	return out
}

// of lists the sheets of a kind.
func (p printed) of(k drawing.Kind) []page.Count {
	var out []page.Count
	for _, c := range p.counts {
		if c.Kind == k {
			out = append(out, c)
		}
	}
	return out
}

// A symbol is a drill circle with its cross, or a registration mark, as found on paper.
type symbol struct {
	at     reader.Point
	radius float64
	whole  bool // nothing of the circle is cut off by the window
}

// symbols finds circles with a cross through their middles: those of registration marks, 2.5 mm in a hair line, and
// drill circles in a narrow line. A circle whose middle is outside its window is not looked at.
func symbols(t testing.TB, p reader.Page) (holes, registration []symbol) {
	t.Helper()
	return leaning(p, reader.Within)
}

// leaning is symbols where circles may be out of round and crosses may lean, by slack mm.
func leaning(p reader.Page, slack float64) (holes, registration []symbol) {
	crosses := p.Crosses(slack)
	for _, s := range p.Strokes {
		if !s.Curved || !s.Closed {
			continue
		}
		at, radius, off := s.Round()
		if off > slack || !s.Clip.Has(at) {
			continue
		}
		crossed := false
		for _, c := range crosses {
			crossed = crossed || c.Distance(at) <= slack
		}
		if !crossed {
			continue
		}
		found := symbol{at: at, radius: radius, whole: true}
		for _, q := range s.Points {
			found.whole = found.whole && s.Clip.Has(q)
		}
		if math.Abs(radius-2.5) < 0.05 && s.WidthMM < 0.2 {
			registration = append(registration, found)
		} else {
			holes = append(holes, found)
		}
	}
	return holes, registration
}

// inDrawing maps a place on a page back to the drawing of its first layer, in mm.
func (p printed) inDrawing(i int, at reader.Point) reader.Point {
	m := p.set.Pages[i].Layers[0].ToPage
	x, y := at.X-m.X.Millimetres(), at.Y-m.Y.Millimetres()
	det := m.A*m.D - m.B*m.C
	return reader.Point{X: (m.D*x - m.B*y) / det, Y: (m.A*y - m.C*x) / det}
}

func point(p geom.Point) reader.Point {
	return reader.Point{X: p.X.Millimetres(), Y: p.Y.Millimetres()}
}

// has tells whether the list has a point within d mm of p.
func has(list []reader.Point, p reader.Point, d float64) bool {
	for _, q := range list {
		if q.Distance(p) <= d {
			return true
		}
	}
	return false
}

// outlineOf finds the closed wide outline with the given corners, wherever it lies, and where its plane's origin is on
// the page; y of the corners runs up.
func outlineOf(p reader.Page, corners geom.Polygon) (origin reader.Point, ok bool) {
	for _, s := range p.Strokes {
		if !s.Closed || s.Curved || len(s.Points) != len(corners) || s.WidthMM < drawing.WideWidth.Millimetres()-0.01 {
			continue
		}
		first := point(corners[0])
		origin = reader.Point{X: s.Points[0].X - first.X, Y: s.Points[0].Y + first.Y}
		fits := true
		for k, c := range corners {
			q := point(c)
			fits = fits && s.Points[k].Distance(reader.Point{X: origin.X + q.X, Y: origin.Y - q.Y}) <= 2*reader.Within
		}
		if fits {
			return origin, true
		}
	}
	return reader.Point{}, false
}
