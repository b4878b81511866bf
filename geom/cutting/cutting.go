// Package cutting lays rectangular parts out on sheets and on rolls, for a saw or shears that cut from edge to
// edge (guillotine cuts). It knows nothing of panels: parts have a name, a size and a count.
//
// # Kerf
//
// A guillotine plan with kerf k is the same as one without where k has been added to each part and to the sheet in
// both directions: every part carries the kerf above and to its right, and the outermost kerf lies beyond the
// sheet. That is exact, so the solvers work on such grown sizes, in whole numbers, divided by their greatest
// common divisor.
//
// # Method
//
// Sheets: three-stage patterns by dynamic programming on raster points with either first-cut direction (Gilmore
// & Gomory 1965; Cintra et al. 2008), their values corrected sheet after sheet (Belov & Scheithauer), column
// generation over a small simplex with rounding (Gilmore & Gomory 1961), and an exhaustive best-first search over
// merged rectangles (Wang 1983; Viswanathan & Bagchi 1993) where a single sheet is in question. Lower bounds: area,
// dual feasible functions (Fekete & Schepers 2001), and Farley's bound (Farley 1990) with the unrestricted
// guillotine dynamic programme (Beasley 1985), which therefore speaks of every guillotine pattern.
//
// Rolls: levels from the same pattern search, lengths aimed at between the bound and the best, and for up to 120
// parts orders of best fit, shaken by late acceptance (Burke & Bykov 2017); parts of a
// patterned roll lie in cells of whole repeats, or on shelves whose order is searched. Bounds: as for sheets, over
// the width, and the fractional cutting of widths.
//
// Prices: a job of 40 boards takes milliseconds when a bound is met and about a second of steps when none is; 5,000
// different parts take a few seconds. Tables are kept below a few hundred thousand entries; where the raster of cuts
// would be finer, searches thin it out and bounds round sizes down.
//
// All limits count steps, never time: the same parts give the same plan.
package cutting

import (
	"fmt"

	"rodsheet/geom"
)

// Grain tells whether a part may be turned by a quarter.
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

// A Sheet is a stock rectangle; Trim is taken off all four edges before anything else is cut.
type Sheet struct {
	Size geom.Size
	Trim geom.Length
}

// Usable is what remains of the sheet inside its trim, in coordinates with the origin at the sheet's lower-left corner.
func (s Sheet) Usable() geom.Rect {
	return geom.R(0, 0, s.Size.W, s.Size.H).Inset(s.Trim)
}

// Sheets is the question: how do these parts come out of the fewest equal sheets?
type Sheets struct {
	Sheet Sheet
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

// A Cut is one straight cut through a whole piece, edge to edge. Pieces are numbered: 0 is the usable sheet, every
// cut names the numbers of the pieces it makes, −1 where nothing remains on that side. Cuts stand in an order in
// which they can be made.
type Cut struct {
	Piece     int         // number of the piece that is cut
	Of        geom.Rect   // that piece
	Across    bool        // true: the cut runs along X, at a height; false: it runs along Y
	At        geom.Length // lower edge of the saw cut: the low piece ends here
	Slot      geom.Rect   // what the saw takes, clipped to the piece; no width when the kerf is zero
	Low, High int         // numbers of the pieces left/below and right/above
}

// Used is one sheet with what is cut from it.
type Used struct {
	Placed  []Placed
	Cuts    []Cut
	Offcuts []geom.Rect
}

// A BoundKind names the argument behind a lower bound.
type BoundKind string

// The arguments a lower bound can rest on. All of them hold for every guillotine plan, whatever its number of stages.
const (
	ByArea     BoundKind = "area"
	ByDual     BoundKind = "dual feasible functions"
	ByPatterns BoundKind = "pattern prices (Farley)"
	ByTable    BoundKind = "guillotine dynamic programme"
	ByBars     BoundKind = "prices of widths (Farley)" // rolls only
	BySearch   BoundKind = "exhaustive search"
)

// A Layout answers [Sheets.Plan].
type Layout struct {
	Used    []Used
	Bound   int // no plan needs fewer sheets
	BoundBy BoundKind
	Proved  bool // Bound is met: no plan is better
	Waste   Waste
}

// Gap is how many sheets, as a share of those used, the plan might be above the best one: 0 when proved.
func (l Layout) Gap() float64 {
	if len(l.Used) == 0 {
		return 0
	}
	return float64(len(l.Used)-l.Bound) / float64(len(l.Used))
}

// Waste adds up areas in square millimetres. Lost is what went into kerf and trim.
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
	Stock  geom.Size // usable
	Over   geom.Size // excess of the permitted orientation that comes nearest; 0 where it fits
	Turned bool      // Over speaks of the part turned by a quarter
	Fixed  bool      // the part may not be turned, and would fit if it might
}

func (e *TooLargeError) Error() string {
	s := fmt.Sprintf("part %s (%v × %v) is larger than the usable stock (%v × %v)",
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
