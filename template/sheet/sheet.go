// Package sheet decides which pictures a plan needs and draws them: templates at actual size, rods, blocks and shims,
// and the pages of words and tables that go with them. It knows the largest field a page offers, and nothing else of
// paper.
//
// Each kind of sheet is one file. [Of] makes all that a plan needs, in the order of the set. [Pictures] and
// [BoardPicture] are the same walls and boards for a screen.
package sheet

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// The kinds, in the order of the set.
const (
	Scale    drawing.Kind = "scale"
	Overview drawing.Kind = "overview"
	Corner   drawing.Kind = "corner"
	Board    drawing.Kind = "board"
	Wall     drawing.Kind = "wall"
	Rod      drawing.Kind = "rod"
	Block    drawing.Kind = "block"
	Shim     drawing.Kind = "shim"
	Fold     drawing.Kind = "fold"
	Cutting  drawing.Kind = "cutting"
)

// Kinds returns every kind, in the order of the set.
func Kinds() []drawing.Kind {
	return []drawing.Kind{Scale, Overview, Corner, Board, Wall, Rod, Block, Shim, Fold, Cutting}
}

// Drills reports whether sheets of the kind are templates that are drilled through: stops forbid them.
func Drills(k drawing.Kind) bool { return k == Corner || k == Board || k == Wall }

// A Side is the side of the work that a sheet is laid on.
type Side string

// The sides.
const (
	Back     Side = "BACK"
	Face     Side = "FACE"
	wallSide Side = "WALL"
)

// Options are what a set of sheets depends on besides the plan.
type Options struct {
	Field     geom.Size      // the largest single page: what a page offers a drawing, upright
	Printable geom.Size      // what can be printed on at all, upright
	Faces     bool           // board templates for the face in place of the back
	Whole     bool           // rods in one piece: drawings go on pages of their own size
	Only      []drawing.Kind // empty: all
}
