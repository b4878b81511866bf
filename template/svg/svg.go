// Package svg writes pages as SVG files at actual size, and pictures as SVG for a page on a screen. It alone knows svgo.
//
// What a file promises: width and height in millimetres and one user unit to the millimetre, so that every
// coordinate can be read off as it stands, from the upper left corner, y down; only turned letters carry a transform, a
// rotation about their own point. Letters stay text. Everything stands in one of the groups "note", "mark", "cut" and
// "drill", so that a laser or a router can be told which to follow.
package svg

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	svgo "github.com/ajstarks/svgo/float"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/internal/render"
	"rodsheet/template/page"
)

// decimals of a millimetre in coordinates: a tenth of a micrometre.
const decimals = 4

// fonts are tried in this order by the reading program, which must have one of them.
const fonts = "'" + font.Family + "', 'DejaVu Sans', sans-serif"

// Write writes one page as an SVG file. The groups hold the marks of all layers in the order of the page; where a mark
// of one group would hide one of a later group or be hidden by it against that order, it stands in a further group
// (id "note-2", class "note"). Links and bookmarks have no place in the file. It is an error if the page has no size,
// if a layer can't be drawn (see package render) or if w fails.
func Write(w io.Writer, p page.Page) error {
	if p.Paper.W <= 0 || p.Paper.H <= 0 || p.Paper.W > geom.Longest || p.Paper.H > geom.Longest {
		return fmt.Errorf("page %d (%s) is %v wide and %v high, which is no size of paper", p.Number, p.Sheet, p.Paper.W, p.Paper.H)
	}
	layers, err := render.Page(p)
	if err != nil {
		return err
	}
	out := &errWriter{w: bufio.NewWriterSize(w, 1<<16)}
	f := file{SVG: svgo.New(out)}
	f.Decimals = decimals
	wide, high := p.Paper.W.Millimetres(), p.Paper.H.Millimetres()
	f.StartviewUnit(wide, high, "mm", 0, 0, wide, high)
	f.Title(strings.TrimSpace(p.Sheet + " " + p.Ref))
	f.clips(layers)
	for i, pass := range groupByRole(layers) {
		f.pass(i, pass)
	}
	f.End()
	return out.close()
}

// An errWriter keeps the first error of the writer below, which svgo drops.
type errWriter struct {
	w   *bufio.Writer
	err error
}

func (e *errWriter) Write(p []byte) (int, error) {
	if e.err != nil {
		return 0, e.err
	}
	n, err := e.w.Write(p)
	e.err = err
	return n, err
}

func (e *errWriter) close() error {
	if e.err != nil {
		return e.err
	}
	return e.w.Flush()
}

type file struct{ *svgo.SVG }

// clips defines the window of every layer that something crosses.
func (f file) clips(layers []render.Layer) {
	for i, l := range layers {
		for _, item := range l.Items {
			if item.Clipped {
				f.Def()
				f.ClipPath(`id="window-` + strconv.Itoa(i+1) + `"`)
				f.Rect(l.Clip.Min.X, l.Clip.Min.Y, l.Clip.Max.X-l.Clip.Min.X, l.Clip.Max.Y-l.Clip.Min.Y)
				f.ClipEnd()
				f.DefEnd()
				break
			}
		}
	}
}

// pass writes the four groups; those of further passes only where they hold something.
func (f file) pass(i int, groups [4][]placed) {
	for role, items := range groups {
		if i > 0 && len(items) == 0 {
			continue
		}
		name := drawing.Role(role).String()
		id := name
		if i > 0 {
			id += "-" + strconv.Itoa(i+1)
		}
		f.Group(`id="`+id+`"`, `class="`+name+`"`)
		for _, item := range items {
			clip := ""
			if item.Clipped {
				clip = `clip-path="url(#window-` + strconv.Itoa(item.layer+1) + `)"`
			}
			if item.Shape != nil {
				f.shape(item.Shape, clip)
			} else {
				f.text(item.Text, clip)
			}
		}
		f.Gend()
	}
}

func (f file) shape(s *render.Shape, clip string) {
	attributes := shapeAttributes(s, clip)
	switch r := s.Arc; {
	case r != nil && r.Whole:
		f.Circle(r.Centre.X, r.Centre.Y, r.Radius, attributes)
	case r != nil:
		from, to := s.Points[0], s.Points[len(s.Points)-1]
		f.Arc(from.X, from.Y, r.Radius, r.Radius, 0, r.Large, r.Clockwise, to.X, to.Y, attributes)
	case s.Curved:
		f.Path(curve(s), attributes)
	case len(s.Points) == 2 && !s.Closed:
		f.Line(s.Points[0].X, s.Points[0].Y, s.Points[1].X, s.Points[1].Y, attributes)
	default:
		x, y := make([]float64, len(s.Points)), make([]float64, len(s.Points))
		for i, p := range s.Points {
			x[i], y[i] = p.X, p.Y
		}
		if s.Closed {
			f.Polygon(x, y, attributes)
		} else {
			f.Polyline(x, y, attributes)
		}
	}
}

// shapeAttributes are the shape's attributes, in one string.
func shapeAttributes(s *render.Shape, clip string) string {
	var b strings.Builder
	b.WriteString(`fill="`)
	if s.Filled {
		b.WriteString(grey(s.Fill))
	} else {
		b.WriteString("none")
	}
	b.WriteByte('"')
	if s.Pen > 0 {
		level := 0.0
		if s.Grey {
			level = render.GreyLevel
		}
		b.WriteString(` stroke="` + grey(level) + `" stroke-width="` + number(s.Pen) + `"`)
		for i, d := range s.Dash {
			if i == 0 {
				b.WriteString(` stroke-dasharray="`)
			} else {
				b.WriteByte(',')
			}
			b.WriteString(number(d))
		}
		if s.Dash != nil {
			b.WriteByte('"')
		}
	}
	if clip != "" {
		b.WriteString(" " + clip)
	}
	return b.String()
}

// curve is the path data of cubic curves.
func curve(s *render.Shape) string {
	var b strings.Builder
	for i, p := range s.Points {
		switch {
		case i == 0:
			b.WriteByte('M')
		case i%3 == 1:
			b.WriteString(" C")
		default:
			b.WriteByte(' ')
		}
		b.WriteString(number(p.X) + "," + number(p.Y))
	}
	if s.Closed {
		b.WriteString(" Z")
	}
	return b.String()
}

func (f file) text(l *render.Text, clip string) {
	attributes := []string{`font-family="` + fonts + `"`, `font-size="` + number(l.Size) + `"`}
	if l.Bold {
		attributes = append(attributes, `font-weight="bold"`)
	}
	switch l.Anchor {
	case drawing.Middle:
		attributes = append(attributes, `text-anchor="middle"`)
	case drawing.Right:
		attributes = append(attributes, `text-anchor="end"`)
	}
	// Where another font has to step in, the text still runs as far as it was laid out to.
	attributes = append(attributes, `textLength="`+number(l.Width)+`"`, `lengthAdjust="spacingAndGlyphs"`)
	if strings.Contains(l.String, "  ") || strings.TrimSpace(l.String) != l.String {
		attributes = append(attributes, `xml:space="preserve"`)
	}
	if l.Turn != 0 {
		attributes = append(attributes, fmt.Sprintf(`transform="rotate(%s %s %s)"`,
			strconv.FormatFloat(-l.Turn, 'f', -1, 64), number(l.At.X), number(l.At.Y)))
	}
	if clip != "" { // about the letters, since a clip turns with what it clips
		f.Group(clip)
		defer f.Gend()
	}
	if l.Halo != nil {
		f.shape(&render.Shape{Points: l.Halo, Closed: true, Filled: true, Fill: 1}, "")
	}
	f.Text(l.At.X, l.At.Y, l.String, attributes...)
}

// grey is a share of white as a colour.
func grey(share float64) string {
	level := int(math.Round(share * 255))
	return fmt.Sprintf("#%02x%02x%02x", level, level, level)
}

// number has no needless noughts.
func number(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', decimals, 64), "0")
	s = strings.TrimSuffix(s, ".")
	if s == "-0" {
		return "0"
	}
	return s
}
