// Package reader reads what the writers wrote, with programs that know nothing of this project, so that tests can hold
// a file to the plan: mutool for coordinates in a PDF file, qpdf for its structure, poppler for its words and fonts,
// librsvg for the picture of an SVG file.
//
// It is for tests only. A test whose program is missing is skipped and says so; where CI=true is set it fails.
package reader

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// packages tells where each program comes from (Debian's names).
var packages = map[string]string{
	"mutool": "mupdf-tools", "qpdf": "qpdf", "pdffonts": "poppler-utils", "pdftotext": "poppler-utils",
	"pdftoppm": "poppler-utils", "rsvg-convert": "librsvg2-bin",
}

// Need skips the test when a program is missing; with CI=true in the environment it fails the test instead.
func Need(t testing.TB, programs ...string) {
	t.Helper()
	for _, name := range programs {
		if _, err := exec.LookPath(name); err == nil {
			continue
		}
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing; it comes with the package %s, and CI=true forbids to skip this test", name, packages[name])
		}
		t.Skipf("skipped: %s is missing; it comes with the package %s", name, packages[name])
	}
}

// run runs a program on a file of the given content. Arguments that are "FILE" stand for the file's path.
func run(t testing.TB, content []byte, suffix, program string, args ...string) []byte {
	t.Helper()
	Need(t, program)
	path := filepath.Join(t.TempDir(), "file"+suffix)
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = path
		}
	}
	var out, complaint bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout, cmd.Stderr = &out, &complaint
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v\n%s%s", program, err, complaint.Bytes(), out.Bytes())
	}
	return out.Bytes()
}

// A Point is a place on the page in millimetres, from the upper left corner, y down.
type Point struct{ X, Y float64 }

// Distance is how far q is from p.
func (p Point) Distance(q Point) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// A Rect is an upright rectangle on the page in millimetres.
type Rect struct{ Min, Max Point }

// Has tells whether p lies in r or within a hundredth of a millimetre of it.
func (r Rect) Has(p Point) bool {
	const near = 0.01
	return r.Min.X-near <= p.X && p.X <= r.Max.X+near && r.Min.Y-near <= p.Y && p.Y <= r.Max.Y+near
}

// A Page is one page as the reader found it. Everything is listed in the order it is painted; Clip is the window it is
// seen through, the whole paper if there is none.
type Page struct {
	WidthMM, HeightMM float64
	Strokes           []Stroke
	Fills             []Fill
	Texts             []Text
}

// An Outline is a path: its corners, or, when Curved, close-set points of it. A closed outline doesn't repeat its first
// point.
type Outline struct {
	Points []Point
	Curved bool
	Closed bool
	Clip   Rect
	Role   string // "note", "mark", "cut" or "drill" in SVG, "" in PDF
}

// A Stroke is a drawn line.
type Stroke struct {
	Outline
	WidthMM float64
	Dash    []float64 // mm, on and off in turn; nil for a continuous line
	Grey    float64   // 0 is black
}

// A Fill is a filled outline.
type Fill struct {
	Outline
	Grey float64 // 0 is black, 1 white
}

// A Text is one run of letters.
type Text struct {
	String string
	X, Y   float64 // beginning of the baseline
	SizeMM float64 // the em
	Turn   float64 // degrees counter-clockwise, as seen
	Bold   bool
	Clip   Rect
	Role   string
}

// Round fits a circle to the outline: its centre and radius, and how far the worst point lies off it.
func (o Outline) Round() (centre Point, radius, off float64) {
	// The fit of Kåsa, about the points' mean: least squares of x² + y² = 2ax + 2by + c.
	var mean Point
	n := float64(len(o.Points))
	for _, p := range o.Points {
		mean.X, mean.Y = mean.X+p.X/n, mean.Y+p.Y/n
	}
	var xx, xy, yy, xz, yz float64
	for _, p := range o.Points {
		x, y := p.X-mean.X, p.Y-mean.Y
		z := x*x + y*y
		xx, xy, yy, xz, yz = xx+x*x, xy+x*y, yy+y*y, xz+x*z, yz+y*z
	}
	det := 2 * (xx*yy - xy*xy)
	if det == 0 {
		return mean, 0, math.Inf(1)
	}
	centre = Point{mean.X + (xz*yy-yz*xy)/det, mean.Y + (yz*xx-xz*xy)/det}
	for _, p := range o.Points {
		radius += centre.Distance(p) / n
	}
	for _, p := range o.Points {
		off = max(off, math.Abs(centre.Distance(p)-radius))
	}
	return centre, radius, off
}

// FindText lists the texts that read so.
func (p Page) FindText(s string) []Text {
	var found []Text
	for _, t := range p.Texts {
		if t.String == s {
			found = append(found, t)
		}
	}
	return found
}

// FindLine lists the strokes of two points that run from a to b or from b to a, within tolerance mm.
func (p Page) FindLine(a, b Point, tolerance float64) []Stroke {
	var found []Stroke
	for _, s := range p.Strokes {
		if len(s.Points) != 2 || s.Closed || s.Curved {
			continue
		}
		u, v := s.Points[0], s.Points[1]
		if u.Distance(a) <= tolerance && v.Distance(b) <= tolerance || u.Distance(b) <= tolerance && v.Distance(a) <= tolerance {
			found = append(found, s)
		}
	}
	return found
}

// Crosses lists the middles of all crosses: pairs of upright and level lines of two points with a common middle,
// within tolerance mm.
func (p Page) Crosses(tolerance float64) []Point {
	var upright, level, found []Point
	for _, s := range p.Strokes {
		if len(s.Points) != 2 || s.Closed || s.Curved {
			continue
		}
		a, b := s.Points[0], s.Points[1]
		middle := Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
		switch {
		case math.Abs(a.X-b.X) <= tolerance:
			upright = append(upright, middle)
		case math.Abs(a.Y-b.Y) <= tolerance:
			level = append(level, middle)
		}
	}
	for _, u := range upright {
		for _, l := range level {
			if u.Distance(l) <= tolerance {
				found = append(found, Point{(u.X + l.X) / 2, (u.Y + l.Y) / 2})
			}
		}
	}
	return found
}
