package render

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

// text places the letters. Their direction and their size follow the map to the page; a mirror turns the direction
// but not the letters themselves, so that they can always be read.
func (pl *mapper) text(m drawing.Text) (*Text, error) {
	switch {
	case tooFar(m.At.X, m.At.Y):
		return nil, fmt.Errorf("the text %q lies more than a kilometre away", m.String)
	case !(math.Abs(m.Turn) < 360e6):
		return nil, fmt.Errorf("the text %q is turned by %v°, which is no angle", m.String, m.Turn)
	case m.Height <= 0 || m.Height > geom.Metre*10:
		return nil, fmt.Errorf("the text %q has capitals %v high", m.String, m.Height)
	case len(m.String) > 10_000:
		return nil, fmt.Errorf("the text %.40q… is too long for one line", m.String)
	case m.String == "":
		return nil, nil
	}
	sin, cos := math.Sincos(m.Turn * math.Pi / 180)
	// The image of the line of text, with y turned up again.
	along := Point{pl.toPage.A*cos + pl.toPage.B*sin, -(pl.toPage.C*cos + pl.toPage.D*sin)}
	turn := math.Atan2(along.Y, along.X)
	var drop float64 // from the text's point down to the baseline
	switch height := m.Height.Millimetres() * pl.scale; m.Level {
	case drawing.Halfway:
		drop = height / 2
	case drawing.Top:
		drop = height
	}
	at := pl.at(m.At)
	l := Text{
		String: m.String, Bold: m.Bold, Anchor: m.Anchor, Level: m.Level, Own: at,
		At:    Point{at.X + drop*math.Sin(turn), at.Y + drop*math.Cos(turn)},
		Width: font.Width(m.String, m.Height, m.Bold).Millimetres() * pl.scale,
		Size:  font.Size(m.Height).Millimetres() * pl.scale,
		Turn:  roundQuarters(turn * 180 / math.Pi),
	}
	if m.Halo {
		l.Halo = pl.corners(m)
	}
	return &l, nil
}

// corners are those of the text's box on the page.
func (pl *mapper) corners(m drawing.Text) []Point {
	sin, cos := math.Sincos(m.Turn * math.Pi / 180)
	turn := geom.Affine{A: cos, B: -sin, C: sin, D: cos, X: m.At.X, Y: m.At.Y}
	var out []Point
	for _, c := range m.Box().Polygon() {
		out = append(out, pl.at(turn.Apply(c)))
	}
	return out
}

// roundQuarters takes the rounding error off quarter turns, and gives −180 as 180.
func roundQuarters(degrees float64) float64 {
	if r := math.Round(degrees); math.Abs(degrees-r) < 1e-9 {
		degrees = r
	}
	if degrees == -180 {
		return 180
	}
	return degrees + 0 // no negative zero
}
