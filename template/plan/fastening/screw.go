package fastening

import (
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// guardedDepth is how near the face of a stud cables may run: holes for them stand at least 1 1/4 in from the edge
// (NEC 2017, 300.4), but for those fished into finished walls. A screw that goes no deeper into the wood stays on the safe
// side of that, if the cables were laid so.
func guardedDepth(u geom.System) geom.Length {
	return u.Pick(geom.Inch+geom.Inch/4, 32*geom.Millimetre)
}

// farSide is what must remain of a wall beyond the tip of a screw.
func farSide(u geom.System) geom.Length { return u.Pick(geom.Inch/4, 6*geom.Millimetre) }

// softwood is the specific gravity lead holes are chosen for when the wood isn't given: spruce-pine-fir (NDS 2018, Table 12.3.3A).
const softwood = 0.42

// Screws are the screws the plan asks for, and how deep each hole is drilled.
type Screws struct {
	Board BoardScrew
	Wall  []WallScrew // one for each wall, kind of support, depth of wood and shim; in the order of the panels

	Marker       geom.Length // bit that goes through board and lining
	DrillThrough bool        // one hole through board and wall marks both; false: both templates, never through
	Gravity      float64     // of the framing, as counted for lead holes
	Assumed      bool        // Gravity is an assumption
}

// A Drill is one hole as it is drilled.
type Drill struct {
	Bit     geom.Length
	Depth   geom.Length // from the face the bit goes into
	Through bool        // right through: Depth is the thickness
	AtLeast bool        // in masonry: no less deep, for plug, dust and the screw's tip
	Centre  bool        // only the centre of a hole that a fixing's maker asks for
}

// A BoardScrew holds the board half. It is driven from the back.
type BoardScrew struct {
	Screw   job.Screw
	Thin    geom.Length   // the thinnest the board may be
	InBoard geom.Length   // from the back of the board to the tip: length − flange; the thread it has in the board
	Out     geom.Length   // how far the tip stands out of the face of the thinnest board; 0 or less: it stays inside
	Fits    bool          // thread enough, and the tip short of the face
	OnHand  []geom.Length // lengths on hand that fit, ascending
	Board   geom.Length   // least thickness of a board that would take the screw
	Root    geom.Length
	Hole    Drill
	Count   int
}

// A WallScrew holds wall halves of one kind of place.
type WallScrew struct {
	Wall   int // into Layout.Walls
	On     layout.Support
	Shim   geom.Length
	Lining geom.Length
	Wood   geom.Length // depth of the wood behind the lining; 0 when not known, and where there is none

	Screw   job.Screw
	Tip     geom.Length   // from the wall's face to the tip: length − flange − shim
	InWood  geom.Length   // 0 or less: it does not reach the wood; meaningless where there is none
	Left    geom.Length   // what remains of wall or wood beyond the tip, when HasLeft
	HasLeft bool          // the depth of the wall or of the wood is known
	Least   geom.Length   // shortest screw with 6 D in the wood, or past the end of its plug by its diameter
	Most    geom.Length   // longest that goes no deeper than guardedDepth and not out of the far side
	OnHand  []geom.Length // lengths on hand from Least to Most, ascending
	Root    geom.Length
	Hole    Drill
	Printed geom.Length // diameter of the circle that wall sheets print: Hole's in masonry and linings, the marker in wood
	Fixing  Fixing      // what the hole is for, where it is not in wood
	Count   int
}

// Suits reports whether the screw holds in the wood or its plug and goes neither too deep nor out of the far side; never on
// the lining.
func (s WallScrew) Suits() bool {
	return s.On != layout.OnLining && s.Least <= s.Screw.Length && s.Screw.Length <= s.Most
}

// Text is the drilling in words, as the person of the system reads it; a depth on no mark of the rule goes to the
// next mark that is less deep, one that is the least to the next deeper.
func (d Drill) Text(s geom.System) string {
	switch {
	case d.Centre:
		return fmt.Sprintf("centre mark ⌀ %s; hole by its maker", d.Bit.In(s))
	case d.AtLeast:
		return fmt.Sprintf("drill ⌀ %s, %s deep from the face", d.Bit.In(s), d.Depth.MarkAbove(s).In(s))
	}
	if d.Through && d.Depth == 0 { // of a lining that nobody has measured
		return fmt.Sprintf("drill ⌀ %s, right through", d.Bit.In(s))
	}
	if d.Through {
		return fmt.Sprintf("drill ⌀ %s, right through %s", d.Bit.In(s), d.Depth.In(s))
	}
	return fmt.Sprintf("drill ⌀ %s, %s deep; stop on the bit", d.Bit.In(s), d.Depth.MarkBelow(s).In(s))
}

// A planner is a layout whose screws are chosen.
type planner struct {
	Job *job.Job
	*layout.Layout
	Screws Screws
	found  finding.List
}

// Choose chooses screws and drilling depths for a layout with its clips and stands.
func Choose(j *job.Job, l *layout.Layout) (Screws, finding.List) {
	p := &planner{Job: j, Layout: l}
	s := &p.Screws
	s.Marker = j.Screws.Marker
	s.DrillThrough = j.Clip.Offset == geom.Point{} && slices.Equal(j.Clip.Board.Holes, j.Clip.Wall.Holes)
	s.Gravity = j.Framing.Gravity
	if s.Gravity == 0 {
		s.Gravity, s.Assumed = softwood, true
	}
	s.Board = p.boardScrew()
	for i := range p.Panels {
		s.Board.Count += len(p.Panels[i].Clips) * len(j.Clip.Board.Holes)
		p.wallScrews(i)
	}
	p.checkBoardScrew()
	p.checkWalls()
	for i := range p.Panels {
		p.checkWallScrews(i)
	}
	return p.Screws, p.found
}

// leastThread is the thread a screw must have in a board (common practice, from memory).
func (p *planner) leastThread() geom.Length {
	return p.Job.Units.Pick(geom.Inch*3/16, 5*geom.Millimetre)
}

// ShortOfFace is how far the tip of a screw or staple must stay inside a board (common practice, from memory).
func ShortOfFace(u geom.System) geom.Length { return u.Pick(geom.Inch/32, geom.Millimetre*8/10) }

// ready fills in the diameter of a screw that was given by number.
func ready(s job.Screw) job.Screw {
	if s.Diameter == 0 && s.Gauge > 0 {
		s.Diameter = job.ScrewDiameter(s.Gauge)
	}
	return s
}

func (p *planner) boardScrew() BoardScrew {
	j := p.Job
	b := BoardScrew{Screw: ready(j.Screws.Board), Thin: j.Board.Thickness - j.Board.Tolerance}
	fits := func(length geom.Length) bool {
		in := length - j.Clip.Board.Flange
		return in >= p.leastThread() && in+ShortOfFace(p.Job.Units) <= b.Thin
	}
	b.InBoard = b.Screw.Length - j.Clip.Board.Flange
	b.Out = b.InBoard - b.Thin
	b.Fits = fits(b.Screw.Length)
	for _, l := range j.Screws.OnHand {
		if fits(l) {
			b.OnHand = append(b.OnHand, l)
		}
	}
	b.Board = p.boardFor(b.Screw.Length)
	b.Root = rootDiameter(b.Screw.Diameter)
	b.Hole = Drill{Bit: j.Screws.Marker, Depth: j.Board.Thickness, Through: true}
	if !p.Screws.DrillThrough {
		b.Hole.Through = false
		b.Hole.Depth = max(0, min(b.InBoard, b.Thin-ShortOfFace(p.Job.Units)))
	}
	return b
}

// boardFor is the least thickness of a board that takes a screw of the length, in whole 1/16 in or millimetres.
func (p *planner) boardFor(length geom.Length) geom.Length {
	in := max(length-p.Job.Clip.Board.Flange, p.leastThread())
	return (in + ShortOfFace(p.Job.Units) + p.Job.Board.Tolerance).Ceil(p.Job.Units.Pick(geom.Inch/16, geom.Millimetre))
}

// wallScrews adds the kinds of places of a panel's wall halves.
func (p *planner) wallScrews(panel int) {
	for _, c := range p.Panels[panel].Clips {
		at := p.Screws.index(p.Layout, panel, c)
		if at < 0 {
			p.Screws.Wall = append(p.Screws.Wall, p.newWallScrew(panel, c))
			at = len(p.Screws.Wall) - 1
		}
		p.Screws.Wall[at].Count += len(p.Job.Clip.Wall.Holes)
	}
}

// At is the screw and the hole of one clip's wall half on a panel of the layout.
func (s *Screws) At(l *layout.Layout, panel int, c layout.Clip) WallScrew {
	return s.Wall[s.index(l, panel, c)]
}

// index is where the screw of a clip is in s.Wall; −1 when it is not.
func (s *Screws) index(l *layout.Layout, panel int, c layout.Clip) int {
	wood := woodBehind(l, panel, c)
	return slices.IndexFunc(s.Wall, func(s WallScrew) bool {
		return s.Wall == l.Panels[panel].Wall && s.On == c.On && s.Wood == wood && s.Shim == l.Runs[l.Panels[panel].Run].Shim
	})
}

func woodBehind(l *layout.Layout, panel int, c layout.Clip) geom.Length {
	members := l.Walls[l.Panels[panel].Wall].Members
	if c.On == layout.OnLining || c.Member < 0 || c.Member >= len(members) {
		return 0
	}
	return members[c.Member].Depth
}

func (p *planner) newWallScrew(panel int, c layout.Clip) WallScrew {
	j := p.Job
	wall := p.Walls[p.Panels[panel].Wall].Job
	s := WallScrew{
		Wall: p.Panels[panel].Wall, On: c.On, Shim: p.Runs[p.Panels[panel].Run].Shim,
		Lining: wall.Lining.Thickness, Wood: woodBehind(p.Layout, panel, c), Screw: ready(j.Screws.Wall),
	}
	s.Root = rootDiameter(s.Screw.Diameter)
	before := j.Clip.Wall.Flange + s.Shim
	s.Tip = s.Screw.Length - before
	s.InWood = s.Tip - s.Lining
	depth := wall.Depth // how far from the face anything may be screwed into at all
	if s.Wood > 0 && (depth == 0 || s.Lining+s.Wood < depth) {
		depth = s.Lining + s.Wood
	}
	if depth > 0 {
		s.HasLeft, s.Left = true, depth-s.Tip
	}
	s.Printed = j.Screws.Marker
	switch c.On {
	case layout.OnLining:
		p.intoLining(&s)
		return s
	case layout.OnMasonry:
		p.intoMasonry(&s, wall.Depth)
		return s
	}
	s.Least = before + s.Lining + 6*s.Screw.Diameter
	s.Most = before + s.Lining + guardedDepth(p.Job.Units)
	deepest := s.Lining + guardedDepth(p.Job.Units)
	if s.HasLeft {
		s.Most = min(s.Most, before+depth-farSide(p.Job.Units))
		deepest = min(deepest, depth-farSide(p.Job.Units))
	}
	for _, l := range j.Screws.OnHand {
		if s.Least <= l && l <= s.Most {
			s.OnHand = append(s.OnHand, l)
		}
	}
	s.Hole = Drill{Bit: leadBit(s.Screw.Diameter, p.Screws.Gravity, j.Units), Depth: max(0, min(s.Tip, deepest))}
	return s
}
