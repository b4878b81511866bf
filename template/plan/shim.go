package plan

import "rodsheet/geom"

// Shims are the pads behind wall halves.
type Shims struct {
	Thickness geom.Length // 0 for none
	Size      geom.Size
	Count     int // needed, without spares
	Spares    int
}

// pad decides which runs get shims, and how far each stands off its wall.
func (p *Plan) pad() {}
