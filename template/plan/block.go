package plan

import "rodsheet/geom"

// A Block is a height block: it stands on the deck and carries a board or a finished panel.
type Block struct {
	Name     string // "settle", "bay left", "bay N3"
	Band     string
	Height   geom.Length // exact
	Foot     geom.Length
	Drilling bool          // carries bare boards; else finished panels
	Stack    []geom.Length // thickest first, from the stock; nil when no stock was given
	Made     geom.Length   // sum of Stack
	Count    int
	Panels   []int // into Plan.Panels
}

// stack works out the height blocks.
func (p *Plan) stack() {}
