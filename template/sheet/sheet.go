// Package sheet decides which pictures a plan needs and draws them: templates at actual size, rods, blocks and shims,
// and the pages of words and tables that go with them. It knows the largest field a page offers, and nothing else of
// paper.
//
// Each kind of sheet is one file. [Of] makes all that a plan needs, in the order of the set.
package sheet

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// A Kind is a kind of sheet, by the name the command line uses.
type Kind string

// The kinds, in the order of the set.
const (
	Scale    Kind = "scale"
	Overview Kind = "overview"
	Corner   Kind = "corner"
	Board    Kind = "board"
	Wall     Kind = "wall"
	Rod      Kind = "rod"
	Block    Kind = "block"
	Shim     Kind = "shim"
	Fold     Kind = "fold"
	Cutting  Kind = "cutting"
)

// Kinds lists every kind in the order of the set.
func Kinds() []Kind {
	return []Kind{Scale, Overview, Corner, Board, Wall, Rod, Block, Shim, Fold, Cutting}
}

// Drills tells whether sheets of the kind are templates that are drilled through: stops forbid them.
func (k Kind) Drills() bool { return k == Corner || k == Board || k == Wall }

// A Lay says how drawings go on paper.
type Lay int

// The ways.
const (
	Leaf  Lay = iota // each drawing on a page of its own, no larger than the field
	Tiled            // one drawing over pages that tape together
	Free             // one drawing; only pages with holes, each placed by measure
)

// A Side tells which side of the work the sheet is laid on.
type Side string

// The sides.
const (
	NoSide   Side = ""
	Back     Side = "BACK"
	Face     Side = "FACE"
	WallSide Side = "WALL"
)

// A Sheet is one thing to print.
type Sheet struct {
	Kind     Kind
	Name     string // unique in the set, as refs name it: "board A"
	Title    string // "Drill template A"
	For      string // which panels, or what: "N1–N6"
	Side     Side
	Use      int    // how many times the paper is used; 0 does not apply
	Hint     string // what to do with it, in one line
	Lay      Lay
	Turn     bool              // pages may lie sideways
	Upright  bool              // an UP arrow belongs on every page
	Drawings []drawing.Drawing // one for Tiled and Free
}

// Options are what a set of sheets depends on besides the plan.
type Options struct {
	Field geom.Size // the largest leaf: what a page offers a drawing, upright
	Faces bool      // board templates for the face in place of the back
	Whole bool      // rods in one piece: drawings go on pages of their own size
	Only  []Kind    // empty: all
}
