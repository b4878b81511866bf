// Package render turns the layers of a page into shapes and letters in millimetres. It is the one place where exact
// lengths become floats, shared by the writers so that all of them draw the same page.
//
// Points have their origin at the paper's top left corner, x right, y down. Marks that lie wholly outside their
// layer's clip are left out; those that cross it are whole, and the writer clips them, so that a long stroke stays one
// stroke.
package render

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/page"
)

// A Point is a place on the page in millimetres.
type Point struct{ X, Y float64 }

// A Box is an upright rectangle on the page in millimetres.
type Box struct{ Min, Max Point }

// InteriorIntersects reports whether the boxes share more than their borders.
func (b Box) InteriorIntersects(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// contains reports whether all of c lies in b.
func (b Box) contains(c Box) bool {
	return b.Min.X <= c.Min.X && c.Max.X <= b.Max.X && b.Min.Y <= c.Min.Y && c.Max.Y <= b.Max.Y
}

// A Layer is one layer of a page.
type Layer struct {
	Clip  Box
	Items []Item
}

// An Item is one thing to draw: either a shape or text.
type Item struct {
	Role    drawing.Role
	Box     Box  // holds the item with its pen, whether clipped or not
	Clipped bool // some of it lies outside the clip
	Shape   *Shape
	Text    *Text
}

// Opaque reports whether the item hides what was drawn before it.
func (i Item) Opaque() bool {
	return i.Shape != nil && i.Shape.Filled || i.Text != nil && i.Text.Halo != nil
}

// A Shape is a path with a pen, a fill or both. A curved path is a start and then triples of two control points and an
// end (cubic Bézier curves); other paths are corners.
type Shape struct {
	Points []Point
	Curved bool
	Closed bool
	Arc    *Arc // what the curved path stands for, if it is truly round on the page

	Pen    float64   // width; 0 draws no line
	Dash   []float64 // on and off in turn; nil for a continuous line
	Grey   bool      // the line is grey
	Filled bool
	Fill   float64 // share of white, when Filled
}

// An Arc is a circle, or an arc from the path's first point to its last.
type Arc struct {
	Centre    Point
	Radius    float64
	Whole     bool // a circle
	Large     bool // an arc of more than a half circle
	Clockwise bool // as seen on the page
}

// A Text is one line of text. It is never mirrored.
type Text struct {
	String string
	Bold   bool
	At     Point // on the baseline
	Level  drawing.Level
	Own    Point // the mark's own point, which Level stands at
	Anchor drawing.Anchor
	Width  float64 // how far the text runs
	Size   float64 // the em
	Turn   float64 // degrees counter-clockwise as seen on the page
	Halo   []Point // four corners of white behind the letters, or nil
}

// GreyLevel is the share of white of a grey pen.
const GreyLevel = 0.5

// maxCoefficient bounds the coefficients of a layer's map, and with them every sum below int64.
const maxCoefficient = 1000

// Page renders every layer of the page. It is an error, which names the mark, if a page reference has not been
// replaced by its number, if a mark is of an unknown kind or if a number in it is no number or absurdly large.
func Page(p page.Page) ([]Layer, error) {
	layers := make([]Layer, len(p.Layers))
	for i, l := range p.Layers {
		layer, err := layerOf(l)
		if err != nil {
			return nil, fmt.Errorf("page %d (%s), layer %d: %w", p.Number, p.Sheet, i+1, err)
		}
		layers[i] = layer
	}
	return layers, nil
}

// A mapper carries one layer's marks to the page.
type mapper struct {
	toPage geom.Affine
	clip   geom.Rect
	round  bool    // circles stay circles
	scale  float64 // of letters: the square root of the map's area scale
	flips  bool    // counter-clockwise in the drawing is clockwise on the page, seen with y down
}

func layerOf(l page.Layer) (Layer, error) {
	m := l.ToPage
	for _, k := range []float64{m.A, m.B, m.C, m.D} {
		if math.IsNaN(k) || math.Abs(k) > maxCoefficient {
			return Layer{}, fmt.Errorf("the map to the page has the coefficient %v; it must be a number up to %d", k, maxCoefficient)
		}
	}
	if tooFar(m.X, m.Y) || tooFar(l.Clip.Min.X, l.Clip.Min.Y, l.Clip.Max.X, l.Clip.Max.Y) {
		return Layer{}, fmt.Errorf("the window lies more than a kilometre away")
	}
	if !l.Clip.Valid() {
		return Layer{}, fmt.Errorf("the window's corners are exchanged: %v to %v", l.Clip.Min, l.Clip.Max)
	}
	det := m.A*m.D - m.B*m.C
	if det == 0 {
		return Layer{}, fmt.Errorf("the map to the page flattens the drawing")
	}
	pl := mapper{
		toPage: m, clip: l.Clip,
		round: nearlyEqual(m.A*m.A+m.C*m.C, m.B*m.B+m.D*m.D) && nearlyEqual(m.A*m.B+m.C*m.D+1, 1),
		scale: math.Sqrt(math.Abs(det)),
		flips: det < 0,
	}
	out := Layer{Clip: toBox(l.Clip), Items: make([]Item, 0, len(l.Marks))}
	for i, mark := range l.Marks {
		item, drawn, err := pl.item(mark)
		if err != nil {
			return Layer{}, fmt.Errorf("mark %d: %w", i+1, err)
		}
		if drawn {
			out.Items = append(out.Items, item)
		}
	}
	return out, nil
}

func (pl *mapper) item(mark drawing.Mark) (item Item, drawn bool, err error) {
	switch m := mark.(type) {
	case drawing.Line:
		item.Shape, err = pl.path("line", []geom.Point{m.From, m.To}, false, m.Pen, drawing.NoFill)
		item.Role = m.Role
	case drawing.Path:
		fill := m.Fill
		if !m.Closed {
			fill = drawing.NoFill
		}
		item.Shape, err = pl.path("path", m.Points, m.Closed, m.Pen, fill)
		item.Role = m.Role
	case drawing.Circle:
		item.Shape, err = pl.curve("circle", m.Centre, m.Radius, 0, 360, m.Pen, m.Fill)
		item.Role = m.Role
	case drawing.Arc:
		item.Shape, err = pl.curve("arc", m.Centre, m.Radius, m.Start, m.Sweep, m.Pen, drawing.NoFill)
		item.Role = m.Role
	case drawing.Text:
		item.Text, err = pl.text(m)
		item.Role = drawing.Note
	case drawing.Ref:
		err = fmt.Errorf("the reference to sheet %q has not been replaced by its page number", m.Sheet)
	default:
		err = fmt.Errorf("no writer knows how to draw a %T", mark)
	}
	if err != nil {
		return Item{}, false, err
	}
	if item.Role < drawing.Note || item.Role > drawing.Drill {
		return Item{}, false, fmt.Errorf("role %d is unknown", int(item.Role))
	}
	// What draws nothing, or nothing here, is left out; the rest is whole.
	switch {
	case item.Shape != nil:
		item.Box = boxOf(item.Shape.Points, item.Shape.Pen/2)
	case item.Text != nil:
		item.Box = boxOf(pl.corners(mark.(drawing.Text)), 0)
	default:
		return Item{}, false, nil
	}
	window := toBox(pl.clip)
	item.Clipped = !window.contains(item.Box)
	return item, item.Box.InteriorIntersects(window), nil
}

func (pl *mapper) path(kind string, points []geom.Point, closed bool, pen drawing.Pen, fill drawing.Fill) (*Shape, error) {
	s, err := shape(kind, pen, fill)
	if err != nil {
		return nil, err
	}
	if len(points) < 2 {
		return nil, fmt.Errorf("a path needs two points at least, this one has %d", len(points))
	}
	for _, p := range points {
		if tooFar(p.X, p.Y) {
			return nil, fmt.Errorf("the %s runs more than a kilometre away", kind)
		}
	}
	if s == nil {
		return nil, nil
	}
	s.Closed, s.Points = closed, make([]Point, len(points))
	for i, p := range points {
		s.Points[i] = pl.at(p)
	}
	return s, nil
}

// curve is an arc, or a circle when the sweep is 360° or more either way.
func (pl *mapper) curve(kind string, centre geom.Point, radius geom.Length, start, sweep float64, pen drawing.Pen, fill drawing.Fill) (*Shape, error) {
	s, err := shape(kind, pen, fill)
	if err != nil {
		return nil, err
	}
	if tooFar(centre.X, centre.Y, radius) {
		return nil, fmt.Errorf("the %s lies more than a kilometre away", kind)
	}
	if radius < 0 {
		return nil, fmt.Errorf("the %s has the negative radius %v", kind, radius)
	}
	// Beyond a million turns a float no longer tells degrees apart.
	if !(math.Abs(start) < 360e6 && math.Abs(sweep) < 360e6) {
		return nil, fmt.Errorf("the %s runs from %v° over %v°, which is no angle", kind, start, sweep)
	}
	if s == nil || radius == 0 || sweep == 0 {
		return nil, nil
	}
	whole := math.Abs(sweep) >= 360
	if whole {
		sweep = 360
	}
	r := radius.Millimetres()
	n := bezierCount(r*pl.scale, math.Abs(sweep))
	step := sweep * math.Pi / 180 / float64(n)
	handle := r * 4 / 3 * math.Tan(step/4)
	from := start * math.Pi / 180
	middle := pl.at(centre)
	place := func(x, y float64) Point {
		m := pl.toPage
		return Point{middle.X + m.A*x + m.B*y, middle.Y + m.C*x + m.D*y}
	}
	s.Points = make([]Point, 0, 1+3*n)
	s.Points = append(s.Points, place(r*math.Cos(from), r*math.Sin(from)))
	for i := range n {
		sin0, cos0 := math.Sincos(from + float64(i)*step)
		sin1, cos1 := math.Sincos(from + float64(i+1)*step)
		s.Points = append(s.Points,
			place(r*cos0-handle*sin0, r*sin0+handle*cos0),
			place(r*cos1+handle*sin1, r*sin1-handle*cos1),
			place(r*cos1, r*sin1))
	}
	s.Curved, s.Closed = true, whole
	if pl.round {
		s.Arc = &Arc{
			Centre: middle, Radius: r * pl.scale, Whole: whole,
			Large: math.Abs(sweep) > 180, Clockwise: (sweep > 0) != pl.flips,
		}
	}
	return s, nil
}

// bezierCount returns how many Bézier curves keep an arc of radius r mm within half a micrometre of the true one: a
// quarter circle errs by 2.7e-4 of the radius, and the error falls with the sixth power of the angle.
func bezierCount(r, sweep float64) int {
	angle := min(90, 90*math.Pow(0.0005/(2.73e-4*r), 1.0/6))
	return max(1, int(math.Ceil(sweep/angle-1e-9)))
}

// shape is the pen and the fill; nil if both draw nothing.
func shape(kind string, pen drawing.Pen, fill drawing.Fill) (*Shape, error) {
	if pen.Width < 0 || pen.Width > geom.Metre {
		return nil, fmt.Errorf("the %s has a pen of %v", kind, pen.Width)
	}
	if fill < drawing.NoFill || fill > drawing.Black {
		return nil, fmt.Errorf("the %s has the unknown fill %d", kind, int(fill))
	}
	s := Shape{Pen: pen.Width.Millimetres(), Grey: pen.Grey}
	s.Fill, s.Filled = fill.Grey()
	for _, d := range pen.Style.Dash(pen.Width) {
		s.Dash = append(s.Dash, d.Millimetres())
	}
	if s.Pen == 0 && !s.Filled {
		return nil, nil
	}
	return &s, nil
}

// at is the point on the page.
func (pl *mapper) at(p geom.Point) Point {
	q := pl.toPage.Apply(p)
	return Point{q.X.Millimetres(), q.Y.Millimetres()}
}

func toBox(r geom.Rect) Box {
	return Box{
		Point{r.Min.X.Millimetres(), r.Min.Y.Millimetres()},
		Point{r.Max.X.Millimetres(), r.Max.Y.Millimetres()},
	}
}

// boxOf returns the smallest box about the points, grown by d. Of a curve it holds the control points, which hold the
// curve.
func boxOf(points []Point, d float64) Box {
	b := Box{points[0], points[0]}
	for _, p := range points[1:] {
		b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
		b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	}
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

func tooFar(lengths ...geom.Length) bool {
	for _, l := range lengths {
		if l > geom.Longest || l < -geom.Longest {
			return true
		}
	}
	return false
}

func nearlyEqual(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b)) }
