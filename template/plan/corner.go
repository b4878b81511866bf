package plan

import "rodsheet/geom"

// A Corner is where two walls meet.
type Corner struct {
	Left, Right int // into Plan.Walls: the wall that ends here and the one that begins
	Inside      bool
	Through     int         // the wall whose run goes into the corner
	Least       geom.Length // how far the other wall's nearest finished edge must stand off the corner
	Stands      geom.Length // how far it does stand off
	Found       bool        // both walls have runs whose heights overlap
}

// join checks that runs on neighbouring walls do not collide.
func (p *Plan) join() {}
