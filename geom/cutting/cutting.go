// Package cutting lays rectangular parts out on sheets and on rolls, for a saw or shears that cut from edge to edge
// (guillotine cuts). It knows nothing of panels: parts have a name, a size and a count.
//
// # One idea
//
// What one sheet holds is a pattern. The best pattern for given prices of the parts comes from a dynamic programme over
// the places at which cuts need be made ([table]: Gilmore & Gomory 1965; Beasley 1985; the places after Herz 1972 and
// Terno, Lindemann & Scheithauer 1987). A linear programme takes the patterns that pay and gives prices in return
// ([master]: Gilmore & Gomory 1961). Rounding it, pattern by pattern, gives the plan; its prices give the bound. A roll
// is planned the same way, with blocks over its width that cost their height.
//
// Around it: a quick packing, so that an answer is always there; sequential value correction, which finds most of what
// is easy; and an exhaustive search over blocks (Wang 1983) where items are few or sheets are full. Rolls are shortened
// at last by late acceptance of better orders, which is all there is for cloth with a pattern.
//
// # What is proved
//
// A bound holds for every guillotine plan, whatever its number of stages: of area; of prices in whole numbers, so that no
// rounding of floats can break it (Farley 1990); or of exhaustive search. Bounds of rolls hold for any packing, cut from
// edge to edge or not, save those of exhaustive search. A plan is proved when it meets its bound; else both are told.
//
// # Kerf
//
// A guillotine plan with kerf k is the same as one without where k has been added to each part and to the sheet in
// both directions: every part carries the kerf above and to its right, and the outermost kerf lies beyond the sheet.
// That is exact, so the solvers work on such grown sizes, in whole numbers, divided by their greatest common divisor.
//
// All limits count steps, never time: the same parts give the same plan.
package cutting

import (
	"fmt"

	"rodsheet/geom"
)

// Grain says whether a part may be turned by a quarter.
type Grain int

// Free parts may be turned; Along parts keep their width along the sheet's width.
const (
	Free Grain = iota
	Along
)

// A Part is a rectangle wanted Count times.
type Part struct {
	Name  string
	Size  geom.Size
	Count int
	Grain Grain
}

// A Stock is a size of sheet that parts are cut from.
type Stock struct {
	Size  geom.Size
	Count int // how many there are; 0: as many as it takes
	Cost  int // what one of them counts: 1 for a sheet that is bought, 0 for an offcut on hand, or a price
}

// Sheets is the question: how do these parts come out of the sheets that cost least? Every part must fit a stock
// that there is any number of.
type Sheets struct {
	Stock []Stock
	Kerf  geom.Length // width of the saw cut, may be zero
	Parts []Part
}

// Placed is one copy of a part on a sheet or roll.
type Placed struct {
	Part   int // index into the parts asked for
	Copy   int // 0-based among the copies of the part
	Rect   geom.Rect
	Turned bool
}

// A Cut is one straight cut through a whole piece, edge to edge. Pieces are numbered: 0 is the sheet, every cut names
// the numbers of the pieces it makes, −1 where nothing remains on that side. Cuts stand in an order in which they can
// be made.
type Cut struct {
	Piece     int         // number of the piece that is cut
	Of        geom.Rect   // that piece
	Stage     int         // 1 for cuts of the sheet, one more wherever the direction changes
	Across    bool        // true: the cut runs along X, at a height; false: it runs along Y
	At        geom.Length // lower edge of the saw cut: the low piece ends here
	Slot      geom.Rect   // what the saw takes, clipped to the piece; no width when the kerf is zero
	Low, High int         // numbers of the pieces left/below and right/above
}

// Used is one sheet with what is cut from it.
type Used struct {
	Stock   int // index into the stock asked for
	Placed  []Placed
	Cuts    []Cut
	Offcuts []geom.Rect
}

// A BoundKind names the argument behind a lower bound.
type BoundKind string

// The arguments a lower bound can rest on. All of them hold for every guillotine plan, whatever its number of stages.
const (
	ByArea     BoundKind = "area"
	ByPatterns BoundKind = "prices of patterns"
	BySearch   BoundKind = "exhaustive search"
	ByWidths   BoundKind = "prices of widths" // rolls only
)

// A Layout answers [Sheets.Plan].
type Layout struct {
	Used    []Used
	Cost    int // of the sheets used; their number where each costs 1
	Bound   int // no plan costs less
	BoundBy BoundKind
	Proved  bool // Cost meets Bound: no plan is better
	Waste   Waste
}

// Waste adds up areas in square millimetres. Lost is what the saw takes.
type Waste struct{ Sheets, Parts, Offcuts, Lost float64 }

// Share is the part of the sheets that did not become parts, 0 to 1.
func (w Waste) Share() float64 {
	if w.Sheets == 0 {
		return 0
	}
	return 1 - w.Parts/w.Sheets
}

// A SizeError says that a measure of the question makes no sense.
type SizeError struct {
	What string // what was measured
	Got  string
	Want string
}

func (e *SizeError) Error() string {
	return fmt.Sprintf("%s is %s; it must be %s", e.What, e.Got, e.Want)
}

// A TooLargeError says that a part does not fit the stock, in any permitted way, and by how much.
type TooLargeError struct {
	Part   int // index
	Name   string
	Size   geom.Size
	Stock  geom.Size
	Over   geom.Size // excess of the permitted orientation that comes nearest; 0 where it fits
	Turned bool      // Over speaks of the part turned by a quarter
	Fixed  bool      // the part may not be turned, and would fit if it might
}

func (e *TooLargeError) Error() string {
	s := fmt.Sprintf("part %s (%v × %v) is larger than the stock (%v × %v)",
		e.Name, e.Size.W, e.Size.H, e.Stock.W, e.Stock.H)
	switch {
	case e.Over.W > 0 && e.Over.H > 0:
		s += fmt.Sprintf(": %v too wide and %v too high", e.Over.W, e.Over.H)
	case e.Over.W > 0:
		s += fmt.Sprintf(": %v too wide", e.Over.W)
	default:
		s += fmt.Sprintf(": %v too high", e.Over.H)
	}
	if e.Turned {
		s += " when turned"
	}
	if e.Fixed {
		return s + "; it would fit if it might be turned"
	}
	return s + "; use larger stock or join the part from two"
}
