package pdf

import (
	"fmt"
	"math"

	"github.com/jung-kurt/gofpdf"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/internal/render"
)

// invalidateState makes the next mark set its pen, fill and font, after a change of the graphics state by the library.
func (d *document) invalidateState() {
	d.pen, d.fillLevel, d.face = pen{width: -1, dash: "?"}, -1, face{}
}

// layer draws the layer, clipped only where something crosses its clip.
func (d *document) layer(l render.Layer) {
	clipped := false
	for _, item := range l.Items {
		clipped = clipped || item.Clipped
	}
	if clipped {
		d.pdf.ClipRect(pt(l.Clip.Min.X), pt(l.Clip.Min.Y), pt(l.Clip.Max.X-l.Clip.Min.X), pt(l.Clip.Max.Y-l.Clip.Min.Y), false)
		d.invalidateState()
	}
	for _, item := range l.Items {
		if item.Shape != nil {
			d.shape(item.Shape)
		} else {
			d.text(item.Text)
		}
	}
	if clipped {
		d.pdf.ClipEnd()
		d.invalidateState()
		d.fill(0) // the library believes in the last fill before ClipEnd, and would colour text by it
	}
}

func (d *document) shape(s *render.Shape) {
	var how string
	switch {
	case s.Pen > 0 && s.Filled:
		how = "B"
	case s.Filled:
		how = "f"
	default:
		how = "S"
	}
	if s.Filled {
		d.fill(s.Fill)
	}
	if s.Pen > 0 {
		d.stroke(s)
	}
	d.trace(s.Points, s.Curved, s.Closed)
	d.pdf.DrawPath(how)
}

func (d *document) trace(points []render.Point, curved, closed bool) {
	d.pdf.MoveTo(pt(points[0].X), pt(points[0].Y))
	if curved {
		for i := 1; i+2 < len(points); i += 3 {
			a, b, end := points[i], points[i+1], points[i+2]
			d.pdf.CurveBezierCubicTo(pt(a.X), pt(a.Y), pt(b.X), pt(b.Y), pt(end.X), pt(end.Y))
		}
	} else {
		for _, p := range points[1:] {
			d.pdf.LineTo(pt(p.X), pt(p.Y))
		}
	}
	if closed {
		d.pdf.ClosePath()
	}
}

func (d *document) stroke(s *render.Shape) {
	next := pen{width: s.Pen, grey: s.Grey}
	if s.Dash != nil {
		next.dash = fmt.Sprint(s.Dash)
	}
	if next == d.pen {
		return
	}
	if next.width != d.pen.width {
		d.pdf.SetLineWidth(pt(s.Pen))
	}
	if next.grey != d.pen.grey || d.pen.width < 0 {
		level := 0
		if s.Grey {
			level = grey(render.GreyLevel)
		}
		d.pdf.SetDrawColor(level, level, level)
	}
	if next.dash != d.pen.dash {
		dash := make([]float64, len(s.Dash))
		for i, mm := range s.Dash {
			dash[i] = pt(mm)
		}
		d.pdf.SetDashPattern(dash, 0)
	}
	d.pen = next
}

func (d *document) fill(share float64) {
	if share != d.fillLevel {
		level := grey(share)
		d.pdf.SetFillColor(level, level, level)
		d.fillLevel = share
	}
}

// grey is a share of white in the library's 256 steps.
func grey(share float64) int { return int(math.Round(share * 255)) }

func (d *document) text(l *render.Text) {
	if l.Halo != nil {
		d.fill(1)
		d.trace(l.Halo, false, true)
		d.pdf.DrawPath("f")
	}
	text := font.Clean(l.String)
	next := face{bold: l.Bold, size: math.Round(pt(l.Size)*100) / 100}
	if next != d.face {
		d.setFace(next)
	}
	back := 0.0
	switch l.Anchor {
	case drawing.Middle:
		back = l.Width / 2
	case drawing.Right:
		back = l.Width
	}
	sin, cos := math.Sincos(l.Turn * math.Pi / 180)
	x, y := pt(l.At.X-back*cos), pt(l.At.Y+back*sin)
	if l.Turn == 0 {
		d.pdf.Text(x, y, text)
		return
	}
	// The text is set at the origin of a turned plane: turned about its far place it would move with the rounding of
	// the sines.
	d.pdf.TransformBegin()
	d.pdf.Transform(gofpdf.TransformMatrix{A: cos, B: sin, C: -sin, D: cos, E: x, F: d.height - y})
	d.pdf.Text(0, d.height, text)
	d.pdf.TransformEnd()
}
