// Package paper knows the sizes of paper by name, and the scale at which a page comes out on paper it was not made for.
package paper

import (
	"fmt"
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

// Parse reads a format by name, or by size as in "12 x 18", whose bare numbers are in the given units; such a format has
// no name.
func Parse(text string, units geom.System) (Format, error) {
	if f, ok := Named(text); ok {
		return f, nil
	}
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == 'x' || r == 'X' || r == '×' })
	if len(parts) != 2 {
		return Format{}, fmt.Errorf("%q is no paper; take %s or WIDTH x HEIGHT", text, strings.Join(Names(), ", "))
	}
	var sides [2]geom.Length
	var named [2]bool
	for i, part := range parts {
		l, err := geom.ParseLength(part, units)
		if err != nil {
			return Format{}, err
		}
		other, _ := geom.ParseLength(part, geom.Metric+geom.Imperial-units)
		sides[i], named[i] = l, l == other // a bare number would change with the units
	}
	if named[0] != named[1] {
		return Format{}, fmt.Errorf("%q has a unit on one side only; write it on both, or on neither when it is %s", text, units)
	}
	for _, l := range sides {
		if l < 100*geom.Millimetre || l > 5*geom.Metre {
			return Format{}, fmt.Errorf("a side of %s is not sensible for paper; 100 mm to 5 m are taken: is the unit right?", l.In(units))
		}
	}
	return Format{Size: geom.Size{W: min(sides[0], sides[1]), H: max(sides[0], sides[1])}}, nil
}

// Fitted returns the scale of a page made for one size and fitted to another, as a share of its true size: it shrinks
// or grows until its tighter side fills the paper.
func Fitted(from, to geom.Size) float64 {
	return min(float64(to.W)/float64(from.W), float64(to.H)/float64(from.H))
}
