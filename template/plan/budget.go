package plan

import (
	"fmt"
	"math"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// TapeError is the greatest permissible error of a tape or rule of accuracy class 1, 2 or 3 over a length:
// ±(a + b·L) mm with L in metres, rounded up to the next whole metre (EU 2014/32/EU, Annex X, chapter 1, Table 1).
func TapeError(class int, length geom.Length) geom.Length {
	a, b := 300*geom.Micrometre, 200*geom.Micrometre
	switch class {
	case 1:
		a, b = 100*geom.Micrometre, 100*geom.Micrometre
	case 3:
		a, b = 600*geom.Micrometre, 400*geom.Micrometre
	}
	return a + b*(length.Abs().Ceil(geom.Metre)/geom.Metre)
}

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
	Play     geom.Length       // of the clip, where that is to be counted in; see Budget.Play
}

// An Error is how far a distance may be off.
type Error struct {
	Worst  geom.Length // all half-widths added up
	Likely geom.Length // expanded uncertainty U = 2u: about 95 in 100 cases stay within it
}

// terms are the half-widths on one axis, in nanometres, and their standard uncertainties: rectangular distributions,
// u = a/√3 (JCGM 100:2008, 4.3.7); the scale comes from two readings, one at each end of the line.
func (s Sources) terms(axis int) (half, u [8]float64) {
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
	set(6, float64(s.Play), 1)
	for _, mark := range s.Taped[axis] {
		half[7] += float64(mark)
		u[7] = math.Hypot(u[7], float64(mark)/root3)
	}
	return half, u
}

// termNames name what terms gives, in its order.
var termNames = [...]string{"reading of the check lines", "growth of the paper", "taped seams", "wander of the drill", "places in the file", "size of the board", "play of the clip", "marks made by tape"}

// Axis is the error along one axis, 0 for x, 1 for y, with the standard uncertainty u in nanometres.
func (s Sources) Axis(axis int) (worst geom.Length, u float64) {
	half, us := s.terms(axis)
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

// Error is the error along the line of the holes: half-widths and variances of both axes combined with the direction's
// cosines, U = 2u (JCGM 100:2008, 5.1.2, 6.2).
func (s Sources) Error() Error {
	x, y := s.direction()
	worstX, uX := s.Axis(0)
	worstY, uY := s.Axis(1)
	return Error{
		Worst:  geom.Length(math.Round(x*float64(worstX) + y*float64(worstY))),
		Likely: geom.Length(math.Round(2 * math.Hypot(x*uX, y*uY))),
	}
}

// A Term is one source's share in the worst case.
type Term struct {
	Name  string
	Worst geom.Length
}

// Terms are the shares along the line of the holes, without those that are nothing.
func (s Sources) Terms() []Term {
	x, y := s.direction()
	halfX, _ := s.terms(0)
	halfY, _ := s.terms(1)
	var terms []Term
	for i, name := range termNames {
		if worst := geom.Length(math.Round(x*halfX[i] + y*halfY[i])); worst > 0 {
			terms = append(terms, Term{name, worst})
		}
	}
	return terms
}

// Budget is how far holes may be off. What is likely is that of the two holes of one board that are likely to be off
// most; what may come at the worst is that of the two holes that may be off most, which may be others.
type Budget struct {
	Board       int        // into Plan.Boards; −1 when no board has two holes
	From, To    geom.Point // the holes likely to be off most, board coordinates
	Corner      bool       // set out with corner jigs
	HoleToHole  Error      // on the board
	BoardToWall Error      // a board half against its wall half
	Play        geom.Length
	Sources     Sources // of From and To
	Terms       []Term  // of HoleToHole.Worst
	Helps       []Help  // what would lessen it, the best first
}

// Likely is the greater of the two likely errors, which is held against Play.
func (b Budget) Likely() geom.Length { return max(b.HoleToHole.Likely, b.BoardToWall.Likely) }

// A Help is something that would lessen the likely error, and what would then be left of it.
type Help struct {
	What   string
	Likely geom.Length
}

// A Print is what only the paper decides. The zero Print is the usual one, see [Plan.Estimate].
type Print struct {
	Line   [2]geom.Length       // check lines across and down; 0: the longest the page holds
	Corner func(board int) bool // does the board get corner jigs?
}

// Estimate works out the budget for a print. Where the print leaves something out, check lines are as long as the
// page's printable strip less 10 mm at either end; jigs are used where the job lets them and each hole can be reached
// from an edge on one page; seams are as many as the fewest pages upright or turned need.
//
// Board and wall are drilled in one go where the halves allow it, and then only the drill's wander parts them. Else the
// wall has a template of its own, its pages placed by tape; the two errors are combined.
func (p *Plan) Estimate(print Print) Budget {
	budget := Budget{Board: -1, Play: p.Job.Clip.Play}
	var worst Sources
	var atWorst, wallAtWorst geom.Length
	for i := range p.Boards {
		corner := p.takesJigs(i)
		if print.Corner != nil {
			corner = print.Corner(i)
		}
		var holes []geom.Point
		for _, c := range p.Boards[i].Clips {
			holes = append(holes, c.BoardHoles...)
		}
		for k, from := range holes {
			for _, to := range holes[:k] {
				s := p.sources(print, i, from, to, corner)
				e := s.Error()
				wallAtWorst = max(wallAtWorst, p.boardToWall(s).Worst)
				if e.Worst > atWorst {
					worst, atWorst = s, e.Worst
				}
				if budget.Board >= 0 && e.Likely <= budget.HoleToHole.Likely {
					continue
				}
				budget.Board, budget.From, budget.To, budget.Corner = i, from, to, corner
				budget.HoleToHole, budget.Sources = e, s
			}
		}
	}
	if budget.Board < 0 {
		return budget
	}
	budget.BoardToWall = p.boardToWall(budget.Sources)
	budget.HoleToHole.Worst, budget.BoardToWall.Worst = atWorst, wallAtWorst
	budget.Terms = worst.Terms()
	budget.Helps = p.helps(budget)
	return budget
}

// printable is what a page holds, upright.
func (p *Plan) printable() geom.Size {
	paper := p.Job.Paper
	return geom.Size{W: max(0, paper.Size.W-2*paper.Margin), H: max(0, paper.Size.H-2*paper.Margin)}
}

func (p *Plan) sources(print Print, board int, from, to geom.Point, corner bool) Sources {
	acc := p.Job.Accuracy
	d := [2]geom.Length{(to.X - from.X).Abs(), (to.Y - from.Y).Abs()}
	s := Sources{Distance: d, Printed: d, Line: print.Line, Seam: acc.Seam, Wander: acc.Wander, Place: written}
	page := p.printable()
	for axis, longest := range [2]geom.Length{page.W, page.H} {
		if s.Line[axis] == 0 {
			s.Line[axis] = max(geom.Millimetre, longest-20*geom.Millimetre)
		}
		s.Reading[axis] = TapeError(acc.Tape, s.Line[axis]) / 2
		s.Growth[axis] = max(acc.Growth[0], acc.Growth[1]) // a page may lie either way round
	}
	if corner {
		p.setOut(&s, board, from, to)
	} else {
		s.Seams = p.usualSeams(d)
	}
	return s
}

// setOut fills in what corner jigs make of the distance of two holes. Along each axis a hole within a page's reach of an
// edge is printed from that edge; one beyond it is on a jig that is set to a mark, made by tape from the left or
// lower end. Where the holes depend on different ends the board's own size comes in.
func (p *Plan) setOut(s *Sources, board int, from, to geom.Point) {
	size, page, acc := p.Boards[board].Size, p.printable(), p.Job.Accuracy
	reach := max(page.W, page.H) - p.Job.Screws.Marker/2 - 5*geom.Millimetre
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
func (p *Plan) usualSeams(d [2]geom.Length) [2]int {
	keep := p.Job.Screws.Marker + 10*geom.Millimetre
	seams := func(length, page geom.Length) int {
		pitch := page - p.Job.Paper.Overlap
		if pitch <= 0 {
			return 0
		}
		need := max(0, length+keep-p.Job.Paper.Overlap)
		return max(0, int((need+pitch-1)/pitch)-1)
	}
	page := p.printable()
	upright := [2]int{seams(d[0], page.W), seams(d[1], page.H)}
	turned := [2]int{seams(d[0], page.H), seams(d[1], page.W)}
	if turned[0]+turned[1] < upright[0]+upright[1] {
		return turned
	}
	return upright
}

// takesJigs tells whether a board is usually drilled with corner jigs.
func (p *Plan) takesJigs(board int) bool {
	b := &p.Boards[board]
	kind := job.AutoTemplate
	if len(b.Panels) > 0 {
		if run := p.Runs[p.Panels[b.Panels[0]].Run].Job; run != nil {
			kind = run.Template
		}
	}
	if kind != job.AutoTemplate {
		return kind == job.CornerTemplate
	}
	page, keep := p.printable(), p.Job.Screws.Marker/2+5*geom.Millimetre
	for _, c := range b.Clips {
		for _, h := range c.BoardHoles {
			if b.Outline.DistanceTo(h)+keep > min(page.W, page.H) {
				return false
			}
		}
	}
	return true
}

func (p *Plan) boardToWall(board Sources) Error {
	acc := p.Job.Accuracy
	if p.Screws.DrillThrough {
		return Sources{Wander: acc.Wander}.Error()
	}
	wall := Sources{Distance: board.Distance, Wander: acc.Wander, Place: written}
	for axis, d := range board.Distance {
		if d > 0 {
			wall.Taped[axis][0] = TapeError(acc.Tape, d) // pages are placed by tape
		}
	}
	a, b := board.Error(), wall.Error()
	return Error{a.Worst + b.Worst, geom.Length(math.Round(math.Hypot(float64(a.Likely), float64(b.Likely))))}
}

// helps are the remedies that would lessen the likely error, the best first.
func (p *Plan) helps(b Budget) []Help {
	var helps []Help
	add := func(what string, change func(*Sources)) {
		s := b.Sources
		change(&s)
		likely := max(s.Error().Likely, p.boardToWall(s).Likely)
		if likely < b.Likely() {
			helps = append(helps, Help{what, likely})
		}
	}
	if wander := (Sources{Wander: p.Job.Accuracy.Wander}).Error().Likely; p.Screws.DrillThrough && wander < b.Likely() {
		helps = append(helps, Help{"drill board and wall in one go, the board held in its place, instead of from two templates", wander})
	}
	class1 := func(s *Sources) {
		for axis := range s.Line {
			s.Reading[axis] = TapeError(1, s.Line[axis]) / 2
		}
	}
	if !b.Corner {
		add("drill with corner jigs instead of a taped template", func(s *Sources) {
			p.setOut(s, b.Board, b.From, b.To)
			s.Seams = [2]int{}
		})
		add("have the drawing printed whole at a print shop, and check it on a line of a metre", func(s *Sources) {
			s.Seams = [2]int{}
			for axis := range s.Line {
				s.Line[axis] = max(s.Line[axis], geom.Metre)
				s.Reading[axis] = TapeError(p.Job.Accuracy.Tape, s.Line[axis]) / 2
			}
		})
	}
	page := p.printable()
	if longest := max(page.W, page.H) - 20*geom.Millimetre; min(b.Sources.Line[0], b.Sources.Line[1]) < longest {
		add(fmt.Sprintf("read the longest line a page holds, %s, both ways", p.read(longest.Floor(p.pick(geom.Inch/2, geom.Centimetre)))), func(s *Sources) {
			for axis := range s.Line {
				s.Line[axis] = max(s.Line[axis], longest)
				s.Reading[axis] = TapeError(p.Job.Accuracy.Tape, s.Line[axis]) / 2
			}
		})
	}
	add("read the check lines with a steel rule or a class I tape", class1)
	add("read the check lines in the room of the wall, just before drilling, so that the paper has no time to grow", func(s *Sources) { s.Growth = [2]float64{} })
	if b.Corner {
		add("cut the boards truer: half the error in their size", func(s *Sources) { s.Squared[0], s.Squared[1] = s.Squared[0]/2, s.Squared[1]/2 })
	}
	add("start every hole with an awl or a centre punch: half the wander", func(s *Sources) { s.Wander /= 2 })
	slices.SortStableFunc(helps, func(a, b Help) int {
		switch {
		case a.Likely < b.Likely:
			return -1
		case a.Likely > b.Likely:
			return 1
		}
		return 0
	})
	return helps
}

// ErrorOverPlay: two holes of a board may well be further off than the play of the clip.
type ErrorOverPlay struct {
	Likely, Worst, Play geom.Length
	Help                string      // what would help most; "" for nothing
	Leaves              geom.Length // likely then
}

// ID implements [finding.Params].
func (ErrorOverPlay) ID() string { return "error-over-play" }

// JigSawError: a board drilled with corner jigs may be cut more out of true than half the play.
type JigSawError struct{ Saw, Play geom.Length }

// ID implements [finding.Params].
func (JigSawError) ID() string { return "jig-saw-error" }

// estimate works out the tolerance budget for the usual print.
func (p *Plan) estimate() {
	p.Budget = p.Estimate(Print{})
	b := p.Budget
	if b.Board < 0 || b.Play == 0 {
		return
	}
	if b.Likely() > b.Play {
		f := ErrorOverPlay{Likely: b.Likely(), Worst: max(b.HoleToHole.Worst, b.BoardToWall.Worst), Play: b.Play}
		if len(b.Helps) > 0 {
			f.Help, f.Leaves = b.Helps[0].What, b.Helps[0].Likely
		}
		p.report(p.boardSubject(b.Board, "clip.play"), "clip.play", f)
	}
	for i := range p.Boards {
		if squared := p.Job.Accuracy.Squared; p.takesJigs(i) && 2*squared > b.Play {
			p.report(p.boardSubject(i, "accuracy.squared"), "accuracy.squared", JigSawError{Saw: squared, Play: b.Play})
		}
	}
}
