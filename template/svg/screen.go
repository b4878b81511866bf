package svg

import (
	"bufio"
	"fmt"
	"html"
	"io"
	"strconv"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/internal/render"
	"rodsheet/template/page"
)

// WritePicture writes a picture as an SVG element for a page on a screen, with a label for those who don't see it. One user
// unit is 1 mm of the drawing; how large it is shown is left to the page. Each part is a group with its class, its key as
// data-key, the others as a list in data-about, and its title.
//
// How lines and letters look is left to the page's style sheet: lines have the classes "wide", "narrow" and "hair" and keep their
// width at any size; "grey" lines and what is filled "white", "pale", "tint" or "black" have those too. Letters are "small", "medium"
// or "large", and "bold"; their class says how high they are, and they stand at the same place at any height. Letters with
// the class "halo" must not be spoilt by lines under them. It is an error if a mark can't be drawn (see package render) or if w fails.
func WritePicture(w io.Writer, p drawing.Picture, label string) error {
	out := &errWriter{w: bufio.NewWriterSize(w, 1<<16)}
	s := screen{out}
	size := p.Bounds.Size()
	s.print(`<svg xmlns="http://www.w3.org/2000/svg" class="picture" role="img" aria-label="`, html.EscapeString(label),
		`" viewBox="0 0 `, number(size.W.Millimetres()), ` `, number(size.H.Millimetres()), `">`)
	layers := make([]page.Layer, len(p.Parts))
	for i, part := range p.Parts {
		layers[i] = page.Layer{
			ToPage: geom.Translate(geom.Pt(-p.Bounds.Min.X, -p.Bounds.Min.Y)).Then(geom.FlipY(size.H)),
			Clip:   geom.Rect{Max: geom.Pt(size.W, size.H)}, Marks: part.Marks,
		}
	}
	rendered, err := render.Page(page.Page{Number: 1, Sheet: label, Layers: layers})
	if err != nil {
		return err
	}
	for i, layer := range rendered {
		s.part(p.Parts[i], layer.Items)
	}
	s.print("</svg>\n")
	return out.close()
}

// A screen writes SVG by hand: what svgo writes can't be told apart by part and is three times as long.
type screen struct{ *errWriter }

func (s screen) print(texts ...string) {
	for _, text := range texts {
		if s.err == nil {
			_, s.err = s.w.WriteString(text)
		}
	}
}

func (s screen) part(p drawing.Part, items []render.Item) {
	s.print(`<g class="`, html.EscapeString(p.Class), `"`)
	if p.Key != "" {
		s.print(` data-key="`, html.EscapeString(p.Key), `"`)
	}
	if len(p.About) > 0 {
		s.print(` data-about="`, html.EscapeString(strings.Join(p.About, "\n")), `"`)
	}
	s.print(">")
	if p.Title != "" {
		s.print("<title>", html.EscapeString(p.Title), "</title>")
	}
	open := "" // attributes of the path that is being written
	for _, item := range items {
		attributes := ""
		if item.Shape != nil {
			attributes = lookOf(item.Shape)
		}
		if open != "" && open != attributes {
			s.print(`"`, open, `/>`)
		}
		if attributes != "" && open != attributes {
			s.print(`<path d="`)
		}
		if open = attributes; item.Shape != nil {
			s.outline(item.Shape)
		} else {
			s.text(item.Text)
		}
	}
	if open != "" {
		s.print(`"`, open, `/>`)
	}
	s.print("</g>")
}

// lookOf are the attributes of a shape that say how it looks. Shapes of a part that follow each other and look alike are one
// element: a page with a thousand panels has enough of them.
func lookOf(r *render.Shape) string {
	class := fillClass(r)
	if r.Pen > 0 {
		class = append(class, penClass(r))
		if r.Grey {
			class = append(class, "grey")
		}
	}
	attributes := ` class="` + strings.Join(class, " ") + `"`
	if r.Dash != nil { // such lines keep their width, so their dashes are in pixels of 1/96 in
		var dash []string
		for _, d := range r.Dash {
			dash = append(dash, strconv.FormatFloat(max(1, d*96/25.4), 'f', 1, 64))
		}
		attributes += ` stroke-dasharray="` + strings.Join(dash, " ") + `"`
	}
	return attributes
}

// outline writes a shape as path data.
func (s screen) outline(r *render.Shape) {
	if a := r.Arc; a != nil && a.Whole { // two halves
		radius, across := coarse(a.Radius), coarse(2*a.Radius)
		half := "a" + radius + " " + radius + " 0 1 0 "
		s.print("M", coarse(a.Centre.X-a.Radius), " ", coarse(a.Centre.Y), half, across, " 0", half, "-", across, " 0Z")
		return
	}
	for i, p := range r.Points {
		switch {
		case i == 0:
			s.print("M")
		case r.Curved && i%3 == 1:
			s.print("C")
		case r.Curved:
			s.print(" ")
		default:
			s.print("L")
		}
		s.print(coarse(p.X), " ", coarse(p.Y))
	}
	if r.Closed {
		s.print("Z")
	}
}

var fills = []struct {
	fill  drawing.Fill
	class string
}{{drawing.White, "white"}, {drawing.Pale, "pale"}, {drawing.Tint, "tint"}, {drawing.Black, "black"}}

// fillClass says how a shape is filled.
func fillClass(r *render.Shape) []string {
	if r.Filled {
		for _, f := range fills {
			if level, _ := f.fill.Grey(); level == r.Fill {
				return []string{f.class}
			}
		}
	}
	return nil
}

// penClass is the nearest of the widths that a screen shows.
func penClass(r *render.Shape) string {
	switch {
	case r.Pen >= drawing.WideWidth.Millimetres():
		return "wide"
	case r.Pen >= drawing.NarrowWidth.Millimetres():
		return "narrow"
	}
	return "hair"
}

// Where the levels of text stand above its baseline, in shares of the em.
var levels = map[drawing.Level]string{drawing.Halfway: ".365em", drawing.Top: ".729em"}

func (s screen) text(t *render.Text) {
	class := "small"
	switch {
	case t.Size >= font.Size(font.Large).Millimetres():
		class = "large"
	case t.Size >= font.Size(font.Medium).Millimetres():
		class = "medium"
	}
	if t.Bold {
		class += " bold"
	}
	if t.Halo != nil {
		class += " halo"
	}
	x, y := coarse(t.Own.X), coarse(t.Own.Y)
	s.print(`<text x="`, x, `" y="`, y, `" class="`, class, `"`)
	if dy := levels[t.Level]; dy != "" {
		s.print(` dy="`, dy, `"`)
	}
	switch t.Anchor {
	case drawing.Middle:
		s.print(` text-anchor="middle"`)
	case drawing.Right:
		s.print(` text-anchor="end"`)
	}
	if t.Turn != 0 {
		s.print(fmt.Sprintf(` transform="rotate(%s %s %s)"`, strconv.FormatFloat(-t.Turn, 'f', -1, 64), x, y))
	}
	s.print(">", html.EscapeString(t.String), "</text>")
}

// coarse is a coordinate to a thousandth of a millimetre of the drawing.
func coarse(v float64) string {
	text := strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 3, 64), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}
