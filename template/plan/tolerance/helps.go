package tolerance

import (
	"cmp"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// A Help is something that would lessen the expanded uncertainty, and what would then be left of it.
type Help struct {
	What     string
	Expanded geom.Length
}

// helps are the remedies that would lessen the expanded uncertainty, the best first.
func (e estimator) helps(b Budget, board *Board, pair [2]int, sameHoles bool) []Help {
	var helps []Help
	add := func(what string, change func(*Sources)) {
		s := b.Sources
		change(&s)
		left := max(s.Uncertainty().Expanded, e.boardToWall(s).Expanded)
		if left < b.Expanded() {
			helps = append(helps, Help{what, left})
		}
	}
	if left := e.together().Expanded; sameHoles && left < b.Expanded() {
		helps = append(helps, Help{"drill board and wall in one go, the board held in its place, instead of from two templates", left})
	}
	class1 := func(s *Sources) {
		for axis := range s.Line {
			s.Tape[axis] = TapeError(job.TapeI, s.Line[axis])
		}
	}
	if !b.Jigs {
		add("drill with corner jigs instead of a taped template", func(s *Sources) {
			s.Seams = [2]int{}
			jigs := Corners(board.Size, board.Holes)
			e.setOut(s, b.From, jigs[pair[0]], b.To, jigs[pair[1]])
		})
		add("have the drawing printed whole at a print shop, and check it on a line of a metre", func(s *Sources) {
			s.Seams = [2]int{}
			for axis := range s.Line {
				s.Line[axis] = max(s.Line[axis], geom.Metre)
				s.Tape[axis] = TapeError(e.Accuracy.Tape, s.Line[axis])
			}
		})
	}
	if fine := e.Units.Pick(geom.Inch/128, geom.Millimetre/5); e.Accuracy.Reading > fine {
		add("read the check lines twice and to "+e.Units.Pick(geom.SixtyFourth, fine).In(e.Units), func(s *Sources) { s.Reading = fine })
	}
	add("read the check lines with a steel rule or a class I tape", class1)
	add("read the check lines in the room of the wall, just before drilling, so that the paper has no time to grow", func(s *Sources) { s.Growth = [2]float64{} })
	if b.Jigs {
		add("cut the boards truer: half the error in their size", func(s *Sources) { s.Squared[0], s.Squared[1] = s.Squared[0]/2, s.Squared[1]/2 })
	}
	add("start every hole with an awl or a centre punch: half the wander", func(s *Sources) { s.Wander /= 2 })
	slices.SortStableFunc(helps, func(a, b Help) int { return cmp.Compare(a.Expanded, b.Expanded) })
	return helps
}
