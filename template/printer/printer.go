// Package printer corrects the scale and skew of printers: from readings of lines on a printed scale sheet it works out how
// a printer distorts a page, says what the readings mean, and keeps the result in one readable file a printer, by paper.
//
// It knows nothing of what is printed. The map is affine and is fixed by four readings at most: a line across, a line
// down and the two diagonals of a rectangle; the fourth is checked against the other three.
package printer

import (
	"fmt"
	"math"

	"rodsheet/geom"
)

// A Line is a line as it was drawn and as it came out, along the middle of its stroke.
type Line struct {
	Drawn, Read geom.Length
	Within      geom.Length // the reading's own greatest error
}

// Mean returns the mean of readings of one line, each of which may be off by within, and by how much the mean may be: its
// standard uncertainty is that of one reading over √n (JCGM 100:2008, 4.2.3). The error says which of them contradict each
// other.
func Mean(within geom.Length, read ...geom.Length) (mean, off geom.Length, err error) {
	sum := geom.Length(0)
	for _, l := range read {
		if (l - read[0]).Abs() > 2*within {
			return 0, 0, fmt.Errorf("%s and %s can't be readings of one line; read it again", read[0], l)
		}
		sum += l
	}
	n := geom.Length(len(read))
	return sum / n, within.Times(1 / math.Sqrt(float64(n))), nil
}

// factor is the printer's scale along the line.
func (l Line) factor() float64 { return float64(l.Read) / float64(l.Drawn) }

// doubt is the greatest error of factor.
func (l Line) doubt() float64 { return float64(l.Within) / float64(l.Drawn) }

// Diagonals are those of an upright rectangle, as the printed page is read.
type Diagonals struct {
	Of      geom.Size   // the rectangle as drawn
	Rising  geom.Length // from its lower left to its upper right corner
	Falling geom.Length // from its upper left to its lower right corner
	Within  geom.Length
}

// Readings are what somebody read off a scale sheet.
type Readings struct {
	Across, Down Line
	Diagonals    *Diagonals  // nil when they were not read
	Units        geom.System // the readings are told in
}

// A Profile is what is known of a printer on one paper, fed upright: wider pages lie on their side in the same sheet.
type Profile struct {
	Name     string
	Paper    geom.Size // upright
	Readings Readings
	Anyway   bool // taken although it was far off

	Across, Down float64 // how long the printer makes a length of 1, as is likeliest by the readings
	Lean         float64 // sine of the angle by which what should be upright leans to the right, likewise
}

// True reports whether there is nothing to correct.
func (p Profile) True() bool { return p.Across == 1 && p.Down == 1 && p.Lean == 0 }

// printed maps a place on an upright page, x right, y up, to where the printer puts it, but for a shift and a turn of the
// whole page, which do no harm.
func (p Profile) printed() geom.Affine {
	return geom.Affine{A: p.Across, B: p.Down * p.Lean, D: p.Down * math.Sqrt(1-p.Lean*p.Lean)}
}

// Correction maps a place of the drawing to where it must stand on an upright page to come out true, x right, y up. It
// must be applied to the drawing before that is divided into pages.
func (p Profile) Correction() geom.Affine {
	inv, ok := p.printed().Inverse()
	if !ok {
		return geom.Identity() // no profile that Correct or Load made comes here
	}
	return inv
}

// lean is the sine that the diagonals give, and its own greatest error.
func (r Readings) lean() (sine, doubt float64) {
	d := r.Diagonals
	if d == nil {
		return 0, 0
	}
	rising, falling := float64(d.Rising), float64(d.Falling)
	four := 4 * float64(d.Of.W) * float64(d.Of.H) * r.Across.factor() * r.Down.factor()
	return (rising*rising - falling*falling) / four, 2 * (rising + falling) * float64(d.Within) / four
}
