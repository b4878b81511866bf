package sheet

import (
	"fmt"
	"strings"

	"rodsheet/geom"
)

// cornerName names a corner by where it is seen: "lower left"; where two corners are, "lower left, the higher"; else by
// its measures from the left and the bottom of the board.
func (m *maker) cornerName(v view, i int) string {
	at, centre := v.outline[i], v.bounds.Centre()
	quarter := func(p geom.Point) string {
		name := "lower"
		if p.Y > centre.Y {
			name = "upper"
		}
		if p.X > centre.X {
			return name + " right"
		}
		return name + " left"
	}
	name := quarter(at)
	var others []geom.Point
	for j, p := range v.outline {
		if j != i && quarter(p) == name {
			others = append(others, p)
		}
	}
	switch {
	case len(others) == 0:
		return name
	case len(others) == 1 && others[0].Y < at.Y:
		return name + ", the higher"
	case len(others) == 1 && others[0].Y > at.Y:
		return name + ", the lower"
	}
	return m.read(at.X-v.bounds.Min.X) + " across, " + m.read(at.Y-v.bounds.Min.Y) + " up"
}

// edgeName names the edge a→b of a counter-clockwise outline.
func edgeName(a, b geom.Point) string {
	switch {
	case a.Y == b.Y && a.X < b.X:
		return "bottom edge"
	case a.Y == b.Y:
		return "top edge"
	case a.X == b.X && a.Y < b.Y:
		return "right edge"
	case a.X == b.X:
		return "left edge"
	}
	return "sloping edge"
}

// number is corners by the numbers that a board is marked out by, "3" or "from 3 to 4"; "" on a rectangle, which needs
// none.
func (v view) number(corners ...int) string {
	if v.outline.IsRectangle() {
		return ""
	}
	var words []string
	for _, i := range corners {
		words = append(words, fmt.Sprint(i+1))
	}
	if len(words) == 1 {
		return words[0]
	}
	return "from " + strings.Join(words, " to ")
}
