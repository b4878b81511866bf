package reader

import (
	"fmt"
	"math"
	"testing"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/page"
)

// Within is how far a position in a file may be off, in millimetres.
const Within = 0.005

// Hold fails the test unless the page that was read holds exactly what the plan says: every mark once, each of its
// points within [Within] of its place, with its pen, fill and clip, nothing else, and nothing of what lies outside a
// layer's clip. The places are worked out here in floats, not by the code under test.
func Hold(t testing.TB, plan page.Page, got Page) {
	t.Helper()
	if d := math.Max(math.Abs(got.WidthMM-plan.Paper.W.Millimetres()), math.Abs(got.HeightMM-plan.Paper.H.Millimetres())); d > Within {
		t.Errorf("page %d: the paper is %.4f × %.4f mm", plan.Number, got.WidthMM, got.HeightMM)
	}
	h := holder{got: got, usedStroke: make([]bool, len(got.Strokes)), usedFill: make([]bool, len(got.Fills)), usedText: make([]bool, len(got.Texts))}
	for i, layer := range plan.Layers {
		h.layer(layer)
		for _, mark := range layer.Marks {
			if !h.visible(mark) {
				continue
			}
			if reason := h.mark(mark); reason != "" {
				t.Errorf("page %d, layer %d: %s: %+v", plan.Number, i+1, reason, mark)
			}
		}
	}
	report := func(used []bool, kind string, show func(int) any) {
		for i, u := range used {
			if !u {
				t.Errorf("page %d holds a %s that the plan doesn't have: %+v", plan.Number, kind, show(i))
			}
		}
	}
	report(h.usedStroke, "stroke", func(i int) any { return got.Strokes[i] })
	report(h.usedFill, "fill", func(i int) any { return got.Fills[i] })
	report(h.usedText, "text", func(i int) any { return got.Texts[i] })
}

type holder struct {
	got                            Page
	usedStroke, usedFill, usedText []bool

	m    geom.Affine
	clip Rect
}

func (h *holder) layer(l page.Layer) {
	h.m = l.ToPage
	h.clip = Rect{
		Point{l.Clip.Min.X.Millimetres(), l.Clip.Min.Y.Millimetres()},
		Point{l.Clip.Max.X.Millimetres(), l.Clip.Max.Y.Millimetres()},
	}
}

// place is where the point of the drawing must stand.
func (h *holder) place(p geom.Point) Point {
	x, y := float64(p.X), float64(p.Y)
	return Point{
		(h.m.A*x + h.m.B*y + float64(h.m.X)) / 1e6,
		(h.m.C*x + h.m.D*y + float64(h.m.Y)) / 1e6,
	}
}

// back is the point of the drawing, in mm, that stands there.
func (h *holder) back(p Point) Point {
	x, y := p.X-float64(h.m.X)/1e6, p.Y-float64(h.m.Y)/1e6
	det := h.m.A*h.m.D - h.m.B*h.m.C
	return Point{(h.m.D*x - h.m.B*y) / det, (h.m.A*y - h.m.C*x) / det}
}

func (h *holder) visible(mark drawing.Mark) bool {
	box, half := mark.Bounds(), 0.0
	switch m := mark.(type) {
	case drawing.Line:
		half = m.Pen.Width.Millimetres() / 2
	case drawing.Path:
		half = m.Pen.Width.Millimetres() / 2
	case drawing.Circle:
		half = m.Pen.Width.Millimetres() / 2
	case drawing.Arc:
		half = m.Pen.Width.Millimetres() / 2
		box = arcBounds(m)
	}
	var corners []Point
	for _, c := range box.Polygon() {
		corners = append(corners, h.place(c))
	}
	b := bounds(corners)
	return b.Min.X-half < h.clip.Max.X && h.clip.Min.X < b.Max.X+half && b.Min.Y-half < h.clip.Max.Y && h.clip.Min.Y < b.Max.Y+half
}

func arcBounds(m drawing.Arc) geom.Rect {
	var r geom.Polygon
	for i := range 361 {
		sin, cos := math.Sincos((m.Start + m.Sweep*float64(i)/360) * math.Pi / 180)
		r = append(r, m.Centre.Add(geom.Pt(m.Radius.Times(cos), m.Radius.Times(sin))))
	}
	return r.Bounds()
}

// mark finds the mark's strokes, fills and letters; the reason is "" when all are there.
func (h *holder) mark(mark drawing.Mark) string {
	switch m := mark.(type) {
	case drawing.Line:
		return h.shape(h.corners([]geom.Point{m.From, m.To}, false), m.Pen, drawing.NoFill, m.Role)
	case drawing.Path:
		fill := m.Fill
		if !m.Closed {
			fill = drawing.NoFill
		}
		return h.shape(h.corners(m.Points, m.Closed), m.Pen, fill, m.Role)
	case drawing.Circle:
		return h.shape(h.circle(m.Centre, m.Radius, 0, 360), m.Pen, m.Fill, m.Role)
	case drawing.Arc:
		return h.shape(h.circle(m.Centre, m.Radius, m.Start, m.Sweep), m.Pen, drawing.NoFill, m.Role)
	case drawing.Text:
		return h.text(m)
	}
	return fmt.Sprintf("the reader doesn't know a %T", mark)
}

// A fits tells whether an outline is where it should be.
type fits func(Outline) bool

func (h *holder) corners(points []geom.Point, closed bool) fits {
	return func(o Outline) bool {
		if o.Curved || o.Closed != closed || len(o.Points) != len(points) {
			return false
		}
		for i, p := range points {
			if !(o.Points[i].Distance(h.place(p)) <= Within) {
				return false
			}
		}
		return true
	}
}

func (h *holder) circle(centre geom.Point, radius geom.Length, start, sweep float64) fits {
	c, r := Point{centre.X.Millimetres(), centre.Y.Millimetres()}, radius.Millimetres()
	at := func(degrees float64) Point {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return h.place(centre.Add(geom.Pt(radius.Times(cos), radius.Times(sin))))
	}
	return func(o Outline) bool {
		whole := math.Abs(sweep) >= 360
		if !o.Curved || o.Closed != whole || len(o.Points) < samples {
			return false
		}
		for _, p := range o.Points {
			if !(math.Abs(h.back(p).Distance(c)-r) <= Within) {
				return false
			}
		}
		if whole {
			// All the way round: the extremes are reached.
			b := bounds(o.Points)
			return b.Max.X-b.Min.X > 1.9*r && b.Max.Y-b.Min.Y > 1.9*r
		}
		nearest := math.Inf(1)
		for _, p := range o.Points {
			nearest = min(nearest, p.Distance(at(start+sweep/2)))
		}
		n := len(o.Points) - 1
		return o.Points[0].Distance(at(start)) <= Within && o.Points[n].Distance(at(start+sweep)) <= Within && nearest < r/5
	}
}

func (h *holder) shape(fit fits, pen drawing.Pen, fill drawing.Fill, role drawing.Role) string {
	if level, ok := fill.Grey(); ok && !h.fill(fit, level, role) {
		return "its fill is missing"
	}
	if pen.Width == 0 {
		return ""
	}
	dash := pen.Style.Dash(pen.Width)
	for i, s := range h.got.Strokes {
		if h.usedStroke[i] || !fit(s.Outline) || !h.seen(s.Outline, role) || len(s.Dash) != len(dash) {
			continue
		}
		same := math.Abs(s.WidthMM-pen.Width.Millimetres()) < 0.01 && (s.Grey > 0.3) == pen.Grey && s.Grey < 0.7
		for j := range dash {
			same = same && math.Abs(s.Dash[j]-dash[j].Millimetres()) < 0.01
		}
		if same {
			h.usedStroke[i] = true
			return ""
		}
	}
	return "its line is missing"
}

func (h *holder) fill(fit fits, level float64, role drawing.Role) bool {
	for i, f := range h.got.Fills {
		if !h.usedFill[i] && math.Abs(f.Grey-level) < 0.01 && fit(f.Outline) && h.seen(f.Outline, role) {
			h.usedFill[i] = true
			return true
		}
	}
	return false
}

// seen tells whether the outline is cut off where the layer ends, and nowhere else, and stands in its group.
func (h *holder) seen(o Outline, role drawing.Role) bool {
	if o.Role != "" && o.Role != role.String() {
		return false
	}
	return h.cut(o.Points, o.Clip)
}

func (h *holder) cut(points []Point, clip Rect) bool {
	if near(clip, h.clip) {
		return true
	}
	// Otherwise all of it must be inside both.
	for _, p := range points {
		if !h.clip.Has(p) || !clip.Has(p) {
			return false
		}
	}
	return true
}

func near(a, b Rect) bool { return a.Min.Distance(b.Min) < 0.01 && a.Max.Distance(b.Max) < 0.01 }

func (h *holder) text(m drawing.Text) string {
	if m.String == "" {
		return ""
	}
	sin, cos := math.Sincos(m.Turn * math.Pi / 180)
	if m.Halo {
		box := m.Box()
		corner := func(x, y geom.Length) geom.Point {
			fx, fy := float64(x), float64(y)
			return m.At.Add(geom.Pt(geom.Length(math.Round(cos*fx-sin*fy)), geom.Length(math.Round(sin*fx+cos*fy))))
		}
		outline := []geom.Point{
			corner(box.Min.X, box.Min.Y), corner(box.Max.X, box.Min.Y), corner(box.Max.X, box.Max.Y), corner(box.Min.X, box.Max.Y),
		}
		if !h.fill(h.corners(outline, true), 1, drawing.Note) {
			return "its halo is missing"
		}
	}
	scale := math.Sqrt(math.Abs(h.m.A*h.m.D - h.m.B*h.m.C))
	turn := math.Atan2(-(h.m.C*cos + h.m.D*sin), h.m.A*cos+h.m.B*sin)
	width, height := font.Width(m.String, m.Height, m.Bold).Millimetres()*scale, m.Height.Millimetres()*scale
	back := map[drawing.Anchor]float64{drawing.Middle: width / 2, drawing.Right: width}[m.Anchor]
	drop := map[drawing.Level]float64{drawing.Halfway: height / 2, drawing.Top: height}[m.Level]
	at := h.place(m.At)
	at.X += -back*math.Cos(turn) + drop*math.Sin(turn)
	at.Y += back*math.Sin(turn) + drop*math.Cos(turn)
	reason := "the letters are missing"
	for i, s := range h.got.Texts {
		if h.usedText[i] || s.String != m.String && s.String != font.Clean(m.String) || s.Bold != m.Bold {
			continue
		}
		apart := Point{s.X, s.Y}.Distance(at)
		away := math.Abs(math.Remainder(s.Turn-turn*180/math.Pi, 360))
		size := math.Abs(s.SizeMM - font.Size(m.Height).Millimetres()*scale)
		if apart <= 2*Within && away < 0.01 && size < 0.01 && (s.Role == "" || s.Role == "note") && h.cut([]Point{{s.X, s.Y}}, s.Clip) {
			h.usedText[i] = true
			return ""
		}
		reason = fmt.Sprintf("the letters should stand at %.4f, %.4f, turned by %.3f°; they stand at %.4f, %.4f, turned by %.3f°",
			at.X, at.Y, turn*180/math.Pi, s.X, s.Y, s.Turn)
	}
	return reason
}
