// Package tolerance works out how far holes may be off: between two holes of a board, and between a board half and its
// wall half. Half-widths of errors are combined after JCGM 100:2008 (GUM), as rectangular distributions.
package tolerance

import (
	"math"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// A Board is what counts of one kind of board.
type Board struct {
	Name   string
	Panels []string // names of those that have it
	Size   geom.Size
	Holes  []geom.Point // board coordinates
}

// A Budget is how far holes may be off. Expanded uncertainties are those of the two holes of one board that are likely
// to be off most; what may come at the worst is that of the two holes that may be off most, which may be others.
type Budget struct {
	Board         int            // into the boards; −1 when no board has two holes
	From, To      geom.Point     // the holes likely to be off most, board coordinates
	Jigs          bool           // set out with jigs
	HoleToHole    Uncertainty    // on the board
	BoardToWall   Uncertainty    // a board half against its wall half
	Play          geom.Length    // of the clip
	Sources       Sources        // of From and To
	Contributions []Contribution // to HoleToHole.Worst
	Helps         []Help         // what would lessen the expanded uncertainty, the best first
}

// Expanded is the greater of the two expanded uncertainties, which is held against Play.
func (b Budget) Expanded() geom.Length { return max(b.HoleToHole.Expanded, b.BoardToWall.Expanded) }

// Worst is the greater of the two worst cases.
func (b Budget) Worst() geom.Length { return max(b.HoleToHole.Worst, b.BoardToWall.Worst) }

// A Print is what the pages decide.
type Print struct {
	Line [2]geom.Length // check lines across and down
	Page geom.Size      // what a page of a taped template shows, upright
	Jigs [][]SetOut     // for each board that is drilled with jigs its holes; nil for the others
}

// jigs are the settings of a board's holes; nil without jigs.
func (p Print) jigs(board int) []SetOut {
	if board >= len(p.Jigs) {
		return nil
	}
	return p.Jigs[board]
}

// Estimate works out the budget for a print, board and wall drilled each from its own sheets: those of the wall are set by
// tape, and the two errors are combined. With sameHoles the halves could be drilled in one go, which then is among what
// would help.
func Estimate(j *job.Job, boards []Board, sameHoles bool, print Print) Budget {
	e := estimator{Job: j, print: print}
	budget := Budget{Board: -1, Play: j.Clip.Play}
	var worst Sources
	var atWorst, wallAtWorst geom.Length
	var pair [2]int
	for i := range boards {
		holes := boards[i].Holes
		for k := range holes {
			for l := range k {
				s := e.sources(&boards[i], print.jigs(i), k, l)
				u := s.Uncertainty()
				wallAtWorst = max(wallAtWorst, e.boardToWall(s).Worst)
				if u.Worst > atWorst {
					worst, atWorst = s, u.Worst
				}
				if budget.Board >= 0 && u.Expanded <= budget.HoleToHole.Expanded {
					continue
				}
				budget.Board, budget.From, budget.To, budget.Jigs = i, holes[k], holes[l], print.jigs(i) != nil
				budget.HoleToHole, budget.Sources, pair = u, s, [2]int{k, l}
			}
		}
	}
	if budget.Board < 0 {
		return budget
	}
	budget.BoardToWall = e.boardToWall(budget.Sources)
	budget.HoleToHole.Worst, budget.BoardToWall.Worst = atWorst, wallAtWorst
	budget.Contributions = worst.Contributions()
	budget.Helps = e.helps(budget, &boards[budget.Board], pair, sameHoles)
	return budget
}

// An estimator is a job and a print whose errors are estimated.
type estimator struct {
	*job.Job
	print Print
}

// sources are those of the distance of two holes of a board.
func (e estimator) sources(b *Board, jigs []SetOut, from, to int) Sources {
	acc, p, q := e.Accuracy, b.Holes[from], b.Holes[to]
	d := [2]geom.Length{(q.X - p.X).Abs(), (q.Y - p.Y).Abs()}
	s := Sources{Distance: d, Printed: d, Line: e.print.Line, Reading: acc.Reading, Seam: acc.Seam, Wander: acc.Wander, Place: written}
	for axis, line := range s.Line {
		s.Tape[axis] = TapeError(acc.Tape, line)
		s.Growth[axis] = max(acc.Growth[0], acc.Growth[1]) // a page may lie either way round
	}
	if jigs == nil {
		s.Seams = e.seams(d)
		return s
	}
	e.setOut(&s, p, jigs[from], q, jigs[to])
	return s
}

// setOut fills in what jigs make of the distance of two holes: what each is printed from an edge or a mark, marks made by
// tape, and the board's own size where the holes depend on different edges.
func (e estimator) setOut(s *Sources, p geom.Point, a SetOut, q geom.Point, b SetOut) {
	if a.Page == b.Page {
		return
	}
	for axis, at := range [2][2]geom.Length{{p.X, q.X}, {p.Y, q.Y}} {
		s.Printed[axis] = (at[0] - a.Settings[axis].From - (at[1] - b.Settings[axis].From)).Abs()
		if a.Settings[axis].Edge != b.Settings[axis].Edge {
			s.Squared[axis] = e.Accuracy.Squared
		}
		for _, set := range [2]Setting{a.Settings[axis], b.Settings[axis]} {
			if set.From != set.Edge {
				s.Marks[axis] = append(s.Marks[axis], HookedError(e.Accuracy.Tape, set.From-set.Edge))
			}
		}
	}
}

// seams is how many seams lie between holes a distance apart, where pages are laid as few as can be, upright or
// turned. Holes stay clear of seams by their circle and 5 mm.
func (e estimator) seams(d [2]geom.Length) [2]int {
	keep := e.Screws.Marker + 10*geom.Millimetre
	count := func(length, page geom.Length) int {
		pitch := page - e.Paper.Overlap
		if pitch <= 0 {
			return 0
		}
		need := max(0, length+keep-e.Paper.Overlap)
		return max(0, int((need+pitch-1)/pitch)-1)
	}
	page := e.print.Page
	upright := [2]int{count(d[0], page.W), count(d[1], page.H)}
	turned := [2]int{count(d[0], page.H), count(d[1], page.W)}
	if turned[0]+turned[1] < upright[0]+upright[1] {
		return turned
	}
	return upright
}

// boardToWall is how far a wall half may be off its board half, whose holes have the sources: the wall's pages are set to
// marks by tape.
func (e estimator) boardToWall(board Sources) Uncertainty {
	acc := e.Accuracy
	wall := Sources{Distance: board.Distance, Wander: acc.Wander, Place: written, Reading: acc.Reading}
	for axis, d := range board.Distance {
		if d > 0 {
			wall.Marks[axis] = []geom.Length{TapeError(acc.Tape, d)}
		}
	}
	a, b := board.Uncertainty(), wall.Uncertainty()
	return Uncertainty{a.Worst + b.Worst, geom.Length(math.Round(math.Hypot(float64(a.Expanded), float64(b.Expanded))))}
}

// together is how far a wall half is off its board half when both are drilled in one go, wherever on the board that is.
func (e estimator) together() Uncertainty { return Sources{Wander: e.Accuracy.Wander}.Uncertainty() }
