package drawing

import "rodsheet/geom"

// A Kind is a word for what a sheet is for. Whoever makes the sheets chooses the words; nothing here depends on them.
type Kind string

// A Layout is how the drawings of a sheet go on paper.
type Layout int

// The layouts.
const (
	SinglePage Layout = iota // each drawing on a page of its own, no larger than a page's field
	Packed                   // small drawings, as many to a page as fit beside and below each other, in their order where that costs nothing
	Tiled                    // one drawing over pages that tape together
	Free                     // one drawing; only pages with holes, each placed by measure
)

// A Sheet is one thing to print: drawings under one title, and how they go on paper.
type Sheet struct {
	Kind      Kind
	Name      string // unique in a print, as refs name it: "board A"
	Title     string // "Drill template A"
	For       string // what it is for: "N1–N6"
	Side      string // in a box beside the title, which side is laid on: "BACK"; "" for none
	Use       int    // how many times the paper is used; 0 does not apply
	Hint      string // what to do with it, in one line
	Layout    Layout
	Landscape bool        // pages may be turned to landscape
	Upright   bool        // an UP arrow belongs on every page
	Rim       geom.Length // drawings of SinglePage are as large as what can be printed; inside this strip lie the field and what stands on every page
	Drawings  []Drawing   // one for Tiled and Free
}
