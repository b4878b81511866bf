package drawing

import (
	"fmt"

	"rodsheet/geom"
)

// Moved returns the mark moved by d.
func Moved(m Mark, d geom.Point) Mark {
	switch m := m.(type) {
	case Line:
		m.From, m.To = m.From.Add(d), m.To.Add(d)
		return m
	case Path:
		m.Points = geom.Polygon(m.Points).Add(d)
		return m
	case Circle:
		m.Centre = m.Centre.Add(d)
		return m
	case Arc:
		m.Centre = m.Centre.Add(d)
		return m
	case Text:
		m.At = m.At.Add(d)
		return m
	case Ref:
		m.At = m.At.Add(d)
		return m
	}
	panic(fmt.Sprintf("drawing: a mark of type %T", m))
}
