package tolerance

import (
	"math"

	"rodsheet/geom"
)

// written is how far a place in the written file may be from the plan.
const written = 5 * geom.Micrometre

// Sources are half-widths of what may make the distance of two holes wrong. Each pair is along x and along y.
type Sources struct {
	Distance [2]geom.Length   // between the holes
	Printed  [2]geom.Length   // the part of it that is taken off paper: less than Distance with corner jigs
	Line     [2]geom.Length   // check lines that the scale was read on
	Tape     [2]geom.Length   // of the tape over such a line
	Reading  geom.Length      // of the person, once for a line or a mark
	Growth   [2]float64       // of the paper after the reading, as a fraction
	Seams    [2]int           // taped seams between the holes
	Seam     geom.Length      // of one seam
	Wander   geom.Length      // of the drill, each hole
	Place    geom.Length      // of a hole's place in the file
	Squared  [2]geom.Length   // of the board's own size, where the holes are set out from different edges
	Marks    [2][]geom.Length // of the tape, for each mark that jigs or pages are set to
}

// An Uncertainty is how far a distance may be off.
type Uncertainty struct {
	Worst    geom.Length // all half-widths added up
	Expanded geom.Length // expanded uncertainty U = 2u: about 95 in 100 cases stay within it
}

// Names of the sources.
const (
	onLines = "reading of the check lines"
	growing = "growth of the paper"
	seaming = "taped seams"
	drilled = "wander of the drill"
	placed  = "places in the file"
	sawn    = "size of the board"
	onMarks = "marks made by tape"
)

// names are in the order in which they are told.
var names = [...]string{onLines, growing, seaming, drilled, placed, sawn, onMarks}

// A term is one error, independent of all others, within its half-width in nanometres.
type term struct {
	name string
	half float64
}

// terms are the errors along one axis. A tape's greatest permissible error holds for the whole interval between two marks:
// it is one term of a reading, and what the person misreads another.
func (s Sources) terms(axis int) []term {
	var all []term
	add := func(name string, half float64, times int) {
		for range times {
			all = append(all, term{name, half})
		}
	}
	printed := float64(s.Printed[axis])
	if line := float64(s.Line[axis]); line > 0 {
		add(onLines, printed*float64(s.Tape[axis])/line, 1)
		add(onLines, printed*float64(s.Reading)/line, 1)
	}
	add(growing, printed*s.Growth[axis], 1)
	add(seaming, float64(s.Seam), s.Seams[axis])
	add(drilled, float64(s.Wander), 2)
	add(placed, float64(s.Place), 2)
	add(sawn, float64(s.Squared[axis]), 1)
	for _, tape := range s.Marks[axis] {
		add(onMarks, float64(tape), 1)
		add(onMarks, float64(s.Reading), 1)
	}
	return all
}

// axis is the worst error along one axis, 0 for x, 1 for y, with the standard uncertainty u in nanometres: distributions are
// rectangular, u = half-width/√3 (JCGM 100:2008, 4.3.7), and add up as squares (5.1.2).
func (s Sources) axis(axis int) (worst, u float64) {
	squares := 0.0
	for _, t := range s.terms(axis) {
		worst += t.half
		squares += t.half * t.half / 3
	}
	return worst, math.Sqrt(squares)
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
// cosines, U = 2u (JCGM 100:2008, 5.1.2, 6.3.3).
func (s Sources) Uncertainty() Uncertainty {
	x, y := s.direction()
	worstX, uX := s.axis(0)
	worstY, uY := s.axis(1)
	return Uncertainty{
		Worst:    geom.Length(math.Round(x*worstX + y*worstY)),
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
	shares := map[string]float64{}
	for axis, cosine := range [2]float64{x, y} {
		for _, t := range s.terms(axis) {
			shares[t.name] += cosine * t.half
		}
	}
	var all []Contribution
	for _, name := range names {
		if worst := geom.Length(math.Round(shares[name])); worst > 0 {
			all = append(all, Contribution{name, worst})
		}
	}
	return all
}
