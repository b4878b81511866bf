package plan

import "rodsheet/geom"

// Wrap is how cover and batting go round a board.
type Wrap struct {
	Size geom.Length // over the board's edge on each side
	Land geom.Length // staple land on the back: from the board's edge inward
}

// wrap decides how much the cover has over the board.
func (p *Plan) wrap() {}
