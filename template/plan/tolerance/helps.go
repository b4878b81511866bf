package tolerance

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/geom"
)

// A Help is something that would lessen the expanded uncertainty, and what would then be left of it.
type Help struct {
	What     string
	Expanded geom.Length
}

// helps are the remedies that would lessen the expanded uncertainty, the best first.
func (e estimator) helps(b Budget, size geom.Size) []Help {
	var helps []Help
	add := func(what string, change func(*Sources)) {
		s := b.Sources
		change(&s)
		left := max(s.Uncertainty().Expanded, e.boardToWall(s).Expanded)
		if left < b.Expanded() {
			helps = append(helps, Help{what, left})
		}
	}
	if wander := (Sources{Wander: e.Accuracy.Wander}).Uncertainty().Expanded; e.through && wander < b.Expanded() {
		helps = append(helps, Help{"drill board and wall in one go, the board held in its place, instead of from two templates", wander})
	}
	class1 := func(s *Sources) {
		for axis := range s.Line {
			s.Reading[axis] = TapeError(1, s.Line[axis]) / 2
		}
	}
	if !b.Corner {
		add("drill with corner jigs instead of a taped template", func(s *Sources) {
			e.setOut(s, size, b.From, b.To)
			s.Seams = [2]int{}
		})
		add("have the drawing printed whole at a print shop, and check it on a line of a metre", func(s *Sources) {
			s.Seams = [2]int{}
			for axis := range s.Line {
				s.Line[axis] = max(s.Line[axis], geom.Metre)
				s.Reading[axis] = TapeError(e.Accuracy.Tape, s.Line[axis]) / 2
			}
		})
	}
	page := printable(e.Job)
	if longest := max(page.W, page.H) - 20*geom.Millimetre; min(b.Sources.Line[0], b.Sources.Line[1]) < longest {
		add(fmt.Sprintf("read the longest line a page holds, %s, both ways", longest.Floor(e.Units.Pick(geom.Inch/2, geom.Centimetre)).In(e.Units)), func(s *Sources) {
			for axis := range s.Line {
				s.Line[axis] = max(s.Line[axis], longest)
				s.Reading[axis] = TapeError(e.Accuracy.Tape, s.Line[axis]) / 2
			}
		})
	}
	add("read the check lines with a steel rule or a class I tape", class1)
	add("read the check lines in the room of the wall, just before drilling, so that the paper has no time to grow", func(s *Sources) { s.Growth = [2]float64{} })
	if b.Corner {
		add("cut the boards truer: half the error in their size", func(s *Sources) { s.Squared[0], s.Squared[1] = s.Squared[0]/2, s.Squared[1]/2 })
	}
	add("start every hole with an awl or a centre punch: half the wander", func(s *Sources) { s.Wander /= 2 })
	slices.SortStableFunc(helps, func(a, b Help) int { return cmp.Compare(a.Expanded, b.Expanded) })
	return helps
}
