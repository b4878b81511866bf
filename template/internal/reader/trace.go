package reader

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
)

// pointMM is a point of PDF user space, 1/72 in (ISO 32000-1, 8.3.2.3).
const pointMM = 25.4 / 72

// samples is into how many pieces each curve is cut.
const samples = 16

// Trace reads every page of a PDF file with `mutool trace`, which prints what is painted with its coordinates and
// matrices.
func Trace(t testing.TB, pdf []byte) []Page {
	t.Helper()
	out := run(t, pdf, ".pdf", "mutool", "trace", "FILE")
	pages, err := parseTrace(out)
	if err != nil {
		t.Fatalf("mutool's trace: %v", err)
	}
	return pages
}

type matrix [6]float64 // x′ = a·x + c·y + e, y′ = b·x + d·y + f

func (m matrix) apply(p Point) Point {
	return Point{(m[0]*p.X + m[2]*p.Y + m[4]) * pointMM, (m[1]*p.X + m[3]*p.Y + m[5]) * pointMM}
}

func (m matrix) scale() float64 { return math.Sqrt(math.Abs(m[0]*m[3] - m[1]*m[2])) }

// tracer holds what is open while the trace is read. The path of an element comes as its children.
type tracer struct {
	pages []Page
	clips []Rect
	open  xml.StartElement
	m     matrix
	path  Outline // of the open element, the current point last
	text  *Text
}

func parseTrace(out []byte) ([]Page, error) {
	var tr tracer
	d := xml.NewDecoder(bytes.NewReader(out))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return tr.pages, nil
		}
		if err != nil {
			return nil, err
		}
		switch e := token.(type) {
		case xml.StartElement:
			err = tr.start(e)
		case xml.EndElement:
			err = tr.end(e.Name.Local)
		}
		if err != nil {
			return nil, fmt.Errorf("at byte %d: %w", d.InputOffset(), err)
		}
	}
}

func (tr *tracer) start(e xml.StartElement) error {
	switch e.Name.Local {
	case "page":
		b := numbers(e, "mediabox")
		if len(b) != 4 {
			return fmt.Errorf("page without a media box")
		}
		p := Page{WidthMM: (b[2] - b[0]) * pointMM, HeightMM: (b[3] - b[1]) * pointMM}
		tr.pages = append(tr.pages, p)
		tr.clips = []Rect{{Max: Point{p.WidthMM, p.HeightMM}}}
	case "stroke_path", "fill_path", "clip_path", "fill_text":
		m := numbers(e, "transform")
		if len(m) != 6 {
			return fmt.Errorf("%s without a transform", e.Name.Local)
		}
		tr.open, tr.m, tr.text = e.Copy(), matrix(m), nil
		tr.path = Outline{Clip: tr.clip()}
	case "moveto":
		if len(tr.path.Points) > 0 {
			return fmt.Errorf("a second moveto in one path: %v", e.Attr)
		}
		tr.add(e, "x", "y")
	case "lineto":
		tr.add(e, "x", "y")
	case "curveto":
		tr.curve(e)
	case "closepath":
		tr.path.Closed = true
	case "span":
		return tr.span(e)
	case "g":
		if r := attribute(e, "unicode"); tr.text != nil {
			if tr.text.String == "" {
				p := tr.m.apply(Point{number(e, "x"), number(e, "y")})
				tr.text.X, tr.text.Y = p.X, p.Y
			}
			tr.text.String += r
		}
	case "pop_clip":
		if len(tr.clips) < 2 {
			return fmt.Errorf("a clip is ended that was not begun")
		}
		tr.clips = tr.clips[:len(tr.clips)-1]
	case "document", "set_default_colorspaces":
	default:
		return fmt.Errorf("this reader doesn't know <%s>", e.Name.Local)
	}
	return nil
}

func (tr *tracer) span(e xml.StartElement) error {
	trm := numbers(e, "trm")
	if len(trm) != 4 {
		return fmt.Errorf("a span without its matrix")
	}
	font := attribute(e, "font")
	along := Point{tr.m[0]*trm[0] + tr.m[2]*trm[1], tr.m[1]*trm[0] + tr.m[3]*trm[1]}
	tr.text = &Text{
		SizeMM: math.Hypot(along.X, along.Y) * pointMM,
		Turn:   math.Atan2(-along.Y, along.X) * 180 / math.Pi,
		Bold:   strings.HasSuffix(font, "B"),
		Clip:   tr.clip(),
	}
	return nil
}

func (tr *tracer) end(name string) error {
	if len(tr.pages) == 0 {
		return nil
	}
	page := &tr.pages[len(tr.pages)-1]
	path := tr.path
	if n := len(path.Points); path.Closed && n > 1 && path.Points[0].Distance(path.Points[n-1]) < 0.01 {
		path.Points = path.Points[:n-1] // the curve ends where it began
	}
	switch name {
	case "stroke_path":
		width := number(tr.open, "linewidth") * tr.m.scale() * pointMM
		dash := numbers(tr.open, "dash")
		for i := range dash {
			dash[i] *= tr.m.scale() * pointMM
		}
		page.Strokes = append(page.Strokes, Stroke{Outline: path, WidthMM: width, Dash: dash, Grey: number(tr.open, "color")})
	case "fill_path":
		page.Fills = append(page.Fills, Fill{Outline: path, Grey: number(tr.open, "color")})
	case "clip_path":
		tr.clips = append(tr.clips, tr.clip().cut(bounds(path.Points)))
	case "span":
		if tr.text != nil && tr.open.Name.Local == "fill_text" {
			page.Texts = append(page.Texts, *tr.text)
		}
		tr.text = nil
	}
	return nil
}

func (tr *tracer) clip() Rect { return tr.clips[len(tr.clips)-1] }

func (tr *tracer) add(e xml.StartElement, x, y string) {
	tr.path.Points = append(tr.path.Points, tr.m.apply(Point{number(e, x), number(e, y)}))
}

func (tr *tracer) curve(e xml.StartElement) {
	a := tr.path.Points[len(tr.path.Points)-1]
	b := tr.m.apply(Point{number(e, "x1"), number(e, "y1")})
	c := tr.m.apply(Point{number(e, "x2"), number(e, "y2")})
	d := tr.m.apply(Point{number(e, "x3"), number(e, "y3")})
	tr.path.Points = append(tr.path.Points, bezier(a, b, c, d)...)
	tr.path.Curved = true
}

// bezier gives points of the curve, without its first.
func bezier(a, b, c, d Point) []Point {
	var out []Point
	for i := 1; i <= samples; i++ {
		t := float64(i) / samples
		s := 1 - t
		f := [4]float64{s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t}
		out = append(out, Point{
			f[0]*a.X + f[1]*b.X + f[2]*c.X + f[3]*d.X,
			f[0]*a.Y + f[1]*b.Y + f[2]*c.Y + f[3]*d.Y,
		})
	}
	return out
}

func bounds(points []Point) Rect {
	r := Rect{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	for _, p := range points {
		r.Min = Point{min(r.Min.X, p.X), min(r.Min.Y, p.Y)}
		r.Max = Point{max(r.Max.X, p.X), max(r.Max.Y, p.Y)}
	}
	return r
}

func (r Rect) cut(s Rect) Rect {
	return Rect{
		Point{max(r.Min.X, s.Min.X), max(r.Min.Y, s.Min.Y)},
		Point{min(r.Max.X, s.Max.X), min(r.Max.Y, s.Max.Y)},
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// numbers are the attribute's numbers; nil when it is missing. What is no number is NaN, which no test accepts.
func numbers(e xml.StartElement, name string) []float64 {
	var out []float64
	for _, word := range strings.FieldsFunc(attribute(e, name), func(r rune) bool { return r == ' ' || r == ',' || r == '\n' }) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			v = math.NaN()
		}
		out = append(out, v)
	}
	return out
}

// number is the attribute's one number.
func number(e xml.StartElement, name string) float64 {
	if n := numbers(e, name); len(n) == 1 {
		return n[0]
	}
	return math.NaN()
}
