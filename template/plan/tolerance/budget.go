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
	Name     string
	Panels   []string     // names of those that have it
	Outline  geom.Polygon // board coordinates
	Size     geom.Size
	Holes    []geom.Point // board coordinates
	Template job.TemplateKind
}

// A Budget is how far holes may be off. Expanded uncertainties are those of the two holes of one board that are likely
// to be off most; what may come at the worst is that of the two holes that may be off most, which may be others.
type Budget struct {
	Board         int            // into the boards; −1 when no board has two holes
	From, To      geom.Point     // the holes likely to be off most, board coordinates
	Corner        bool           // set out with corner jigs
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

// A Print is what only the paper decides. The zero Print is the usual one, see [Estimate].
type Print struct {
	Line   [2]geom.Length       // check lines across and down; 0: the longest the page holds
	Corner func(board int) bool // does the board get corner jigs?
}

// Estimate works out the budget for a print. Where the print leaves something out, check lines are as long as the
// page's printable strip less 10 mm at either end; jigs are used where the job lets them and each hole can be reached
// from an edge on one page; seams are as many as the fewest pages upright or turned need.
//
// With drillThrough board and wall are drilled in one go, and then only the drill's wander parts them. Else the wall has
// a template of its own, its pages placed by tape; the two errors are combined.
func Estimate(j *job.Job, boards []Board, drillThrough bool, print Print) Budget {
	e := estimator{Job: j, through: drillThrough, print: print}
	budget := Budget{Board: -1, Play: j.Clip.Play}
	var worst Sources
	var atWorst, wallAtWorst geom.Length
	for i := range boards {
		corner := takesJigs(j, &boards[i])
		if print.Corner != nil {
			corner = print.Corner(i)
		}
		for k, from := range boards[i].Holes {
			for _, to := range boards[i].Holes[:k] {
				s := e.sources(boards[i].Size, from, to, corner)
				u := s.Uncertainty()
				wallAtWorst = max(wallAtWorst, e.boardToWall(s).Worst)
				if u.Worst > atWorst {
					worst, atWorst = s, u.Worst
				}
				if budget.Board >= 0 && u.Expanded <= budget.HoleToHole.Expanded {
					continue
				}
				budget.Board, budget.From, budget.To, budget.Corner = i, from, to, corner
				budget.HoleToHole, budget.Sources = u, s
			}
		}
	}
	if budget.Board < 0 {
		return budget
	}
	budget.BoardToWall = e.boardToWall(budget.Sources)
	budget.HoleToHole.Worst, budget.BoardToWall.Worst = atWorst, wallAtWorst
	budget.Contributions = worst.Contributions()
	budget.Helps = e.helps(budget, boards[budget.Board].Size)
	return budget
}

// takesJigs reports whether a board is usually drilled with corner jigs.
func takesJigs(j *job.Job, b *Board) bool {
	if b.Template != job.AutoTemplate {
		return b.Template == job.CornerTemplate
	}
	page, keep := printable(j), j.Screws.Marker/2+5*geom.Millimetre
	for _, h := range b.Holes {
		if b.Outline.DistanceTo(h)+keep > min(page.W, page.H) {
			return false
		}
	}
	return true
}

// printable is what a page holds, upright.
func printable(j *job.Job) geom.Size {
	paper := j.Paper
	return geom.Size{W: max(0, paper.Size.W-2*paper.Margin), H: max(0, paper.Size.H-2*paper.Margin)}
}

// An estimator is a job and a print whose errors are estimated.
type estimator struct {
	*job.Job
	through bool // one hole marks board and wall
	print   Print
}

// sources are those of the distance of two holes on a board of the size.
func (e estimator) sources(size geom.Size, from, to geom.Point, corner bool) Sources {
	acc := e.Accuracy
	d := [2]geom.Length{(to.X - from.X).Abs(), (to.Y - from.Y).Abs()}
	s := Sources{Distance: d, Printed: d, Line: e.print.Line, Seam: acc.Seam, Wander: acc.Wander, Place: written}
	page := printable(e.Job)
	for axis, longest := range [2]geom.Length{page.W, page.H} {
		if s.Line[axis] == 0 {
			s.Line[axis] = max(geom.Millimetre, longest-20*geom.Millimetre)
		}
		s.Reading[axis] = TapeError(acc.Tape, s.Line[axis]) / 2
		s.Growth[axis] = max(acc.Growth[0], acc.Growth[1]) // a page may lie either way round
	}
	if corner {
		e.setOut(&s, size, from, to)
	} else {
		s.Seams = e.usualSeams(d)
	}
	return s
}

// setOut fills in what corner jigs make of the distance of two holes. Along each axis a hole within a page's reach of an
// edge is printed from that edge; one beyond it is on a jig that is set to a mark, made by tape from the left or
// lower end. Where the holes depend on different ends the board's own size comes in.
func (e estimator) setOut(s *Sources, size geom.Size, from, to geom.Point) {
	page, acc := printable(e.Job), e.Accuracy
	reach := max(page.W, page.H) - e.Screws.Marker/2 - 5*geom.Millimetre
	for axis, along := range [2][3]geom.Length{{from.X, to.X, size.W}, {from.Y, to.Y, size.H}} {
		var low [2]bool // set out from the left or lower end
		var printed [2]geom.Length
		for i, at := range along[:2] {
			low[i], printed[i] = at <= along[2]-at, min(at, along[2]-at)
			if printed[i] > reach {
				low[i], printed[i], s.Taped[axis][i] = true, 0, TapeError(acc.Tape, at)
			}
		}
		s.Printed[axis], s.Squared[axis] = printed[0]+printed[1], acc.Squared
		if low[0] == low[1] {
			s.Squared[axis] = 0
			if s.Taped[axis] == ([2]geom.Length{}) {
				s.Printed[axis] = (printed[0] - printed[1]).Abs() // on one page, or on pages that share their edge
			}
		}
	}
}

// usualSeams is how many seams lie between holes a distance apart, where pages are laid as few as can be, upright or
// turned. Holes stay clear of seams by their circle and 5 mm.
func (e estimator) usualSeams(d [2]geom.Length) [2]int {
	keep := e.Screws.Marker + 10*geom.Millimetre
	seams := func(length, page geom.Length) int {
		pitch := page - e.Paper.Overlap
		if pitch <= 0 {
			return 0
		}
		need := max(0, length+keep-e.Paper.Overlap)
		return max(0, int((need+pitch-1)/pitch)-1)
	}
	page := printable(e.Job)
	upright := [2]int{seams(d[0], page.W), seams(d[1], page.H)}
	turned := [2]int{seams(d[0], page.H), seams(d[1], page.W)}
	if turned[0]+turned[1] < upright[0]+upright[1] {
		return turned
	}
	return upright
}

// boardToWall is how far a wall half may be off its board half, whose holes have the sources.
func (e estimator) boardToWall(board Sources) Uncertainty {
	acc := e.Accuracy
	if e.through {
		return Sources{Wander: acc.Wander}.Uncertainty()
	}
	wall := Sources{Distance: board.Distance, Wander: acc.Wander, Place: written}
	for axis, d := range board.Distance {
		if d > 0 {
			wall.Taped[axis][0] = TapeError(acc.Tape, d) // pages are placed by tape
		}
	}
	a, b := board.Uncertainty(), wall.Uncertainty()
	return Uncertainty{a.Worst + b.Worst, geom.Length(math.Round(math.Hypot(float64(a.Expanded), float64(b.Expanded))))}
}
