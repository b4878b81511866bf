package tolerance

import (
	"math"

	"rodsheet/geom"
)

// written is how far a place in the written file may be from the plan.
const written = 5 * geom.Micrometre

// Sources are half-widths of what may make the distance of two holes wrong. Each pair is along x and along y.
type Sources struct {
	Distance [2]geom.Length    // between the holes
	Printed  [2]geom.Length    // the part of it that is taken off paper: less than Distance with corner jigs
	Line     [2]geom.Length    // check lines that the scale was read on
	Reading  [2]geom.Length    // of one end of such a line
	Growth   [2]float64        // of the paper after the reading, as a fraction
	Seams    [2]int            // taped seams between the holes
	Seam     geom.Length       // of one seam
	Wander   geom.Length       // of the drill, each hole
	Place    geom.Length       // of a hole's place in the file
	Squared  [2]geom.Length    // of the board's own size, where the holes are set out from different edges
	Taped    [2][2]geom.Length // of the marks, one for each hole, where jigs or pages are placed by tape
}

// An Uncertainty is how far a distance may be off.
type Uncertainty struct {
	Worst    geom.Length // all half-widths added up
	Expanded geom.Length // expanded uncertainty U = 2u: about 95 in 100 cases stay within it
}

// halfWidths are the half-widths on one axis, in nanometres, and their standard uncertainties: rectangular distributions,
// u = a/√3 (JCGM 100:2008, 4.3.7); the scale comes from two readings, one at each end of the line.
func (s Sources) halfWidths(axis int) (half, u [len(names)]float64) {
	printed := float64(s.Printed[axis])
	root3 := math.Sqrt(3)
	set := func(i int, each float64, times float64) {
		half[i], u[i] = each*times, each*math.Sqrt(times)/root3
	}
	if s.Line[axis] > 0 {
		half[0] = printed * 2 * float64(s.Reading[axis]) / float64(s.Line[axis])
		u[0] = printed * math.Sqrt2 * float64(s.Reading[axis]) / root3 / float64(s.Line[axis])
	}
	set(1, printed*s.Growth[axis], 1)
	set(2, float64(s.Seam), float64(s.Seams[axis]))
	set(3, float64(s.Wander), 2)
	set(4, float64(s.Place), 2)
	set(5, float64(s.Squared[axis]), 1)
	for _, mark := range s.Taped[axis] {
		half[6] += float64(mark)
		u[6] = math.Hypot(u[6], float64(mark)/root3)
	}
	return half, u
}

// names are those of the sources, in the order of halfWidths.
var names = [...]string{"reading of the check lines", "growth of the paper", "taped seams", "wander of the drill", "places in the file", "size of the board", "marks made by tape"}

// axis is the worst error along one axis, 0 for x, 1 for y, with the standard uncertainty u in nanometres.
func (s Sources) axis(axis int) (worst geom.Length, u float64) {
	half, us := s.halfWidths(axis)
	sum, squares := 0.0, 0.0
	for i := range half {
		sum += half[i]
		squares += us[i] * us[i]
	}
	return geom.Length(math.Round(sum)), math.Sqrt(squares)
}

// direction is the unit vector between the holes, without signs; (1, 0) for none.
func (s Sources) direction() (x, y float64) {
	x, y = float64(s.Distance[0]), float64(s.Distance[1])
	n := math.Hypot(x, y)
	if n == 0 {
		return 1, 0
	}
	return math.Abs(x) / n, math.Abs(y) / n
}

// Uncertainty is that along the line of the holes: half-widths and variances of both axes combined with the direction's
// cosines, U = 2u (JCGM 100:2008, 5.1.2, 6.2).
func (s Sources) Uncertainty() Uncertainty {
	x, y := s.direction()
	worstX, uX := s.axis(0)
	worstY, uY := s.axis(1)
	return Uncertainty{
		Worst:    geom.Length(math.Round(x*float64(worstX) + y*float64(worstY))),
		Expanded: geom.Length(math.Round(2 * math.Hypot(x*uX, y*uY))),
	}
}

// A Contribution is one source's share in the worst case.
type Contribution struct {
	Name  string
	Worst geom.Length
}

// Contributions are the shares along the line of the holes, without those that are nothing.
func (s Sources) Contributions() []Contribution {
	x, y := s.direction()
	halfX, _ := s.halfWidths(0)
	halfY, _ := s.halfWidths(1)
	var all []Contribution
	for i, name := range names {
		if worst := geom.Length(math.Round(x*halfX[i] + y*halfY[i])); worst > 0 {
			all = append(all, Contribution{name, worst})
		}
	}
	return all
}
