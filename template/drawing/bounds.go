package drawing

import (
	"math"

	"rodsheet/geom"
	"rodsheet/template/font"
)

// Bounds returns the smallest rectangle that holds the line.
func (m Line) Bounds() geom.Rect { return geom.Polygon{m.From, m.To}.Bounds() }

// Bounds returns the smallest rectangle that holds the path.
func (m Path) Bounds() geom.Rect { return geom.Polygon(m.Points).Bounds() }

// Bounds returns the square round the circle.
func (m Circle) Bounds() geom.Rect { return geom.Rect{Min: m.Centre, Max: m.Centre}.Inset(-m.Radius) }

// Bounds returns the square round the arc's whole circle.
func (m Arc) Bounds() geom.Rect { return geom.Rect{Min: m.Centre, Max: m.Centre}.Inset(-m.Radius) }

// Bounds returns the upright rectangle that holds the letters, descenders too, turned as the text is.
func (m Text) Bounds() geom.Rect {
	sin, cos := math.Sincos(m.Turn * math.Pi / 180)
	turn := geom.Affine{A: cos, B: -sin, C: sin, D: cos, X: m.At.X, Y: m.At.Y}
	return m.Box().Polygon().Map(turn).Bounds()
}

// Box returns the rectangle of the letters about the text's own point, before turning: descenders and a little air.
func (m Text) Box() geom.Rect {
	w := font.Width(m.String, m.Height, m.Bold)
	left, base := geom.Length(0), geom.Length(0)
	switch m.Anchor {
	case Middle:
		left = -w / 2
	case Right:
		left = -w
	}
	switch m.Level {
	case Halfway:
		base = -m.Height / 2
	case Top:
		base = -m.Height
	}
	return geom.R(left, base-m.Height*3/10, left+w, base+m.Height*11/10)
}
