package reader

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
)

// SVG reads an SVG file from its XML: the coordinates as they stand there, which is what a laser or a router would
// take. It fails the test unless one user unit is one millimetre, and at any transform but the rotation of letters
// about their own point.
func SVG(t testing.TB, svg []byte) Page {
	t.Helper()
	r := svgReader{clips: map[string]Rect{}}
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return r.page
		}
		if err == nil {
			switch e := token.(type) {
			case xml.StartElement:
				err = r.start(e)
			case xml.EndElement:
				r.end()
			case xml.CharData:
				if r.text != nil {
					r.text.String += string(e)
				}
			}
		}
		if err != nil {
			t.Fatalf("SVG at byte %d: %v", d.InputOffset(), err)
		}
	}
}

// Raster is the SVG file as librsvg paints it, on white.
func Raster(t testing.TB, svg []byte, dpi int) image.Image {
	t.Helper()
	n := strconv.Itoa(dpi)
	return decode(t, run(t, svg, ".svg", "rsvg-convert", "-d", n, "-p", n, "-b", "white", "FILE"))
}

type svgReader struct {
	page  Page
	stack []svgState
	clips map[string]Rect
	text  *Text
}

// svgState is what an element hands on to those in it.
type svgState struct {
	name, role string
	clip       Rect
	clipID     string // of the clipPath that is being defined
}

func (r *svgReader) start(e xml.StartElement) error {
	s := svgState{clip: Rect{Max: Point{r.page.WidthMM, r.page.HeightMM}}}
	if n := len(r.stack); n > 0 {
		s = r.stack[n-1]
	}
	s.name = e.Name.Local
	if class := attribute(e, "class"); class != "" {
		s.role = class
	}
	if ref := attribute(e, "clip-path"); ref != "" {
		clip, ok := r.clips[strings.TrimSuffix(strings.TrimPrefix(ref, "url(#"), ")")]
		if !ok {
			return fmt.Errorf("clip-path %s is not defined", ref)
		}
		s.clip = s.clip.cut(clip)
	}
	if s.name != "text" && attribute(e, "transform") != "" {
		return fmt.Errorf("<%s> has the transform %s", s.name, attribute(e, "transform"))
	}
	var err error
	switch o := (Outline{Clip: s.clip, Role: s.role}); s.name {
	case "svg":
		s.clip, err = r.size(e)
	case "clipPath":
		s.clipID = attribute(e, "id")
	case "rect":
		if s.clipID == "" {
			return fmt.Errorf("a rect outside a clipPath")
		}
		x, y := number(e, "x"), number(e, "y")
		r.clips[s.clipID] = Rect{Point{x, y}, Point{x + number(e, "width"), y + number(e, "height")}}
	case "line":
		o.Points = []Point{{number(e, "x1"), number(e, "y1")}, {number(e, "x2"), number(e, "y2")}}
		r.paint(e, o)
	case "polyline", "polygon":
		o.Closed = s.name == "polygon"
		n := numbers(e, "points")
		for i := 0; i+1 < len(n); i += 2 {
			o.Points = append(o.Points, Point{n[i], n[i+1]})
		}
		r.paint(e, o)
	case "circle":
		o.Curved, o.Closed = true, true
		o.Points = ring(Point{number(e, "cx"), number(e, "cy")}, number(e, "r"), 0, 2*math.Pi)[1:]
		r.paint(e, o)
	case "path":
		if err = o.follow(attribute(e, "d")); err == nil {
			r.paint(e, o)
		}
	case "text":
		err = r.letters(e, s)
	case "g", "defs", "title", "desc":
	default:
		err = fmt.Errorf("this reader doesn't know <%s>", s.name)
	}
	r.stack = append(r.stack, s)
	return err
}

func (r *svgReader) end() {
	n := len(r.stack) - 1
	if r.stack[n].name == "text" {
		r.page.Texts = append(r.page.Texts, *r.text)
		r.text = nil
	}
	r.stack = r.stack[:n]
}

func (r *svgReader) size(e xml.StartElement) (Rect, error) {
	w, okW := strings.CutSuffix(attribute(e, "width"), "mm")
	h, okH := strings.CutSuffix(attribute(e, "height"), "mm")
	view := numbers(e, "viewBox")
	wide, err1 := strconv.ParseFloat(w, 64)
	high, err2 := strconv.ParseFloat(h, 64)
	if !okW || !okH || err1 != nil || err2 != nil || len(view) != 4 || view[0] != 0 || view[1] != 0 || view[2] != wide || view[3] != high {
		return Rect{}, fmt.Errorf("one user unit is not one millimetre: width %q, height %q, viewBox %v",
			attribute(e, "width"), attribute(e, "height"), view)
	}
	r.page.WidthMM, r.page.HeightMM = wide, high
	return Rect{Max: Point{wide, high}}, nil
}

func (r *svgReader) paint(e xml.StartElement, o Outline) {
	if fill := attribute(e, "fill"); fill != "none" {
		r.page.Fills = append(r.page.Fills, Fill{Outline: o, Grey: shade(fill)})
	}
	if stroke := attribute(e, "stroke"); stroke != "" && stroke != "none" {
		r.page.Strokes = append(r.page.Strokes, Stroke{
			Outline: o, WidthMM: number(e, "stroke-width"), Dash: numbers(e, "stroke-dasharray"), Grey: shade(stroke),
		})
	}
}

// shade is the share of white of a grey #rrggbb; NaN for anything else. No fill at all is black in SVG.
func shade(colour string) float64 {
	if colour == "" {
		return 0
	}
	v, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 32)
	if err != nil || len(colour) != 7 || v>>16 != v&0xff || v>>8&0xff != v&0xff {
		return math.NaN()
	}
	return float64(v&0xff) / 255
}

func (r *svgReader) letters(e xml.StartElement, s svgState) error {
	t := Text{
		X: number(e, "x"), Y: number(e, "y"), SizeMM: number(e, "font-size"),
		Bold: attribute(e, "font-weight") == "bold", Clip: s.clip, Role: s.role,
	}
	if turn := attribute(e, "transform"); turn != "" {
		var x, y float64
		if _, err := fmt.Sscanf(turn, "rotate(%g %g %g)", &t.Turn, &x, &y); err != nil || x != t.X || y != t.Y {
			return fmt.Errorf("the letters at %v, %v have the transform %s", t.X, t.Y, turn)
		}
		t.Turn = -t.Turn
	}
	back := map[string]float64{"middle": 0.5, "end": 1}[attribute(e, "text-anchor")] * number(e, "textLength")
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	t.X, t.Y = t.X-back*cos, t.Y+back*sin
	r.text = &t
	return nil
}

// ring gives points of an arc of a circle, from angle a over sweep (radians, from x towards y).
func ring(centre Point, radius, a, sweep float64) []Point {
	n := max(samples, int(math.Ceil(math.Abs(sweep)/(2*math.Pi)*64)))
	out := make([]Point, n+1)
	for i := range out {
		sin, cos := math.Sincos(a + sweep*float64(i)/float64(n))
		out[i] = Point{centre.X + radius*cos, centre.Y + radius*sin}
	}
	return out
}

// follow reads path data of one figure: M, then L, C and A with absolute coordinates, and Z.
func (o *Outline) follow(data string) error {
	for len(data) > 0 {
		command := data[0]
		end := strings.IndexAny(data[1:], "MLCAZ") + 1
		if end == 0 {
			end = len(data)
		}
		var v []float64
		for _, word := range strings.FieldsFunc(data[1:end], func(r rune) bool { return r == ' ' || r == ',' }) {
			f, err := strconv.ParseFloat(word, 64)
			if err != nil {
				return fmt.Errorf("path data: %w", err)
			}
			v = append(v, f)
		}
		if err := o.step(command, v); err != nil {
			return err
		}
		data = data[end:]
	}
	if n := len(o.Points); o.Closed && n > 1 && o.Points[0].Distance(o.Points[n-1]) < 0.01 {
		o.Points = o.Points[:n-1]
	}
	return nil
}

func (o *Outline) step(command byte, v []float64) error {
	n := len(o.Points)
	switch {
	case command == 'M' && len(v) == 2 && n == 0, command == 'L' && len(v) == 2 && n > 0:
		o.Points = append(o.Points, Point{v[0], v[1]})
	case command == 'C' && len(v) == 6 && n > 0:
		o.Points = append(o.Points, bezier(o.Points[n-1], Point{v[0], v[1]}, Point{v[2], v[3]}, Point{v[4], v[5]})...)
		o.Curved = true
	case command == 'A' && len(v) == 7 && n > 0 && v[0] == v[1]:
		o.Points = append(o.Points, arc(o.Points[n-1], Point{v[5], v[6]}, v[0], v[3] != 0, v[4] != 0)[1:]...)
		o.Curved = true
	case command == 'Z' && len(v) == 0 && n > 0:
		o.Closed = true
	default:
		return fmt.Errorf("this reader doesn't know the path step %c %v", command, v)
	}
	return nil
}

// arc is a round arc between two points (SVG 1.1, appendix F.6.5, for equal radii).
func arc(a, b Point, r float64, large, clockwise bool) []Point {
	half := a.Distance(b) / 2
	r = max(r, half)
	rise := math.Sqrt(r*r - half*half)
	if large == clockwise {
		rise = -rise
	}
	along := Point{(b.X - a.X) / (2 * half), (b.Y - a.Y) / (2 * half)}
	c := Point{(a.X+b.X)/2 - rise*along.Y, (a.Y+b.Y)/2 + rise*along.X}
	from, to := math.Atan2(a.Y-c.Y, a.X-c.X), math.Atan2(b.Y-c.Y, b.X-c.X)
	switch {
	case clockwise && to < from: // with y down, growing angles run clockwise
		to += 2 * math.Pi
	case !clockwise && to > from:
		to -= 2 * math.Pi
	}
	return ring(c, r, from, to-from)
}
