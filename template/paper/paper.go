// Package paper knows the sizes of paper by name, and the scale at which a page comes out on paper it was not made for.
package paper

import (
	"slices"
	"strings"

	"rodsheet/geom"
)

// A Format is a size of paper with a name.
type Format struct {
	Name string
	Size geom.Size // upright
}

// The formats: A sizes by ISO 216, Letter (size A) and Tabloid (size B) by ASME Y14.1, Legal by trade usage.
var (
	A4      = Format{"A4", geom.Size{W: 210 * geom.Millimetre, H: 297 * geom.Millimetre}}
	A3      = Format{"A3", geom.Size{W: 297 * geom.Millimetre, H: 420 * geom.Millimetre}}
	A2      = Format{"A2", geom.Size{W: 420 * geom.Millimetre, H: 594 * geom.Millimetre}}
	Letter  = Format{"Letter", geom.Size{W: 17 * geom.Inch / 2, H: 11 * geom.Inch}}
	Legal   = Format{"Legal", geom.Size{W: 17 * geom.Inch / 2, H: 14 * geom.Inch}}
	Tabloid = Format{"Tabloid", geom.Size{W: 11 * geom.Inch, H: 17 * geom.Inch}}
)

// formats are in the order in which they are listed to people.
var formats = []Format{Letter, Legal, Tabloid, A4, A3, A2}

// Names returns the names of all formats as people type them: "letter", "a4".
func Names() []string {
	var names []string
	for _, f := range formats {
		names = append(names, strings.ToLower(f.Name))
	}
	return names
}

// Of returns the format of that size, upright.
func Of(size geom.Size) (Format, bool) {
	i := slices.IndexFunc(formats, func(f Format) bool { return f.Size == size })
	if i < 0 {
		return Format{}, false
	}
	return formats[i], true
}

// Named returns the format of that name; case and surrounding space don't matter.
func Named(name string) (Format, bool) {
	name = strings.TrimSpace(name)
	for _, f := range formats {
		if strings.EqualFold(name, f.Name) {
			return f, true
		}
	}
	return Format{}, false
}

// Fitted returns the scale of a page made for one size and fitted to another, as a share of its true size: it shrinks
// or grows until its tighter side fills the paper.
func Fitted(from, to geom.Size) float64 {
	return min(float64(to.W)/float64(from.W), float64(to.H)/float64(from.H))
}
