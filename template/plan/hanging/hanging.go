// Package hanging works out an order in which all panels of a job can be hung, panel by panel.
//
// A panel comes straight off its wall until it is off its clips and hands have room, one on lift clips after it has risen;
// from there it can be turned and carried away. What hangs in that room was hung too early. Two things put panels into
// it: at an inside corner the panels of the other wall, where a panel goes into the corner behind them; and on the same
// wall a panel above one that must rise.
//
// [Work] takes every such pair as an edge of a graph and sorts it: runs one after the other where that is possible, each
// from left to right. Its price is the square of the panels of a wall, and for the order that of runs times panels.
package hanging

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// An Order is in which order panels are hung.
type Order struct {
	Panels []int    // into Layout.Panels, first to last; nil when there is no order
	Before []Before // what it has to keep to, by Then and First
}

// A Before says that one panel must hang before another.
type Before struct {
	First, Then int // into Layout.Panels
	Reason      Reason
}

// A Reason says why a panel must hang first.
type Reason string

// The reasons.
const (
	InCorner Reason = "corner" // it goes into a corner, and the other would hang in front of its place
	ToRise   Reason = "rise"   // it must rise to come on, and the other would hang in that room
)

// NoOrder: some panels must each hang before the next, and the last before the first.
type NoOrder struct {
	Panels  []string
	Reasons []Reason // why each must hang before the next
}

// ID implements [finding.Params].
func (NoOrder) ID() string { return "no-order" }

// handRoom is what hands need between a panel that is off its clips and what hangs in front of it: common practice,
// from memory.
func handRoom(u geom.System) geom.Length { return u.Pick(4*geom.Inch, 100*geom.Millimetre) }

// Work finds an order, or reports that there is none. Runs must have their build-outs.
func Work(j *job.Job, l *layout.Layout, corners []layout.Corner) (Order, finding.List) {
	p := &planner{Job: j, Layout: l}
	if j.Clip.Kind == job.Lift {
		p.rise = j.Clip.Rise
		for w := range p.Walls {
			p.above(w)
		}
	}
	for _, c := range corners {
		if c.Inside {
			left, right := side{c.Left, true}, side{c.Right, false}
			p.corner(left, right)
			p.corner(right, left)
		}
	}
	g := newGraph(l, p.before)
	order := Order{Panels: g.sort(), Before: g.before}
	var found finding.List
	if order.Panels == nil {
		cycle, reasons := g.cycle()
		names := l.NamesOf(cycle)
		first := &l.Runs[l.Panels[cycle[0]].Run]
		found.Add(finding.OfPanels(first.Job.Key, names...), layout.ExtentField(first.Job), NoOrder{Panels: names, Reasons: reasons})
	}
	return order, found
}

// A planner is a layout on the way to its order.
type planner struct {
	Job *job.Job
	*layout.Layout
	rise   geom.Length // how far panels rise to come off; 0 on press clips
	before []Before
}

func (p *planner) add(first, then int, why Reason) {
	p.before = append(p.before, Before{first, then, why})
}

// panelsOf are the panels of a wall.
func (p *planner) panelsOf(wall int) (all []int) {
	for _, r := range p.Walls[wall].Runs {
		all = append(all, p.Runs[r].Panels...)
	}
	return all
}

// above finds the panels of a wall that others rise into.
func (p *planner) above(wall int) {
	panels := p.panelsOf(wall)
	for _, i := range panels {
		low := p.Panels[i].Finished
		room := low.Bounds()
		room.Max.Y += p.rise
		for _, k := range panels {
			high := p.Panels[k].Finished
			if i == k || !room.InteriorIntersects(high.Bounds()) {
				continue
			}
			if free, over := geom.Clearance(low.TopEdges(), high.BottomEdges()); over && free < p.rise {
				p.add(i, k, ToRise)
			}
		}
	}
}

// A side is a wall at a corner.
type side struct {
	wall int
	ends bool // in the corner; else it begins there
}

// corner finds the panels of a wall that go into an inside corner, and what of the other wall would hang in front of
// them.
func (p *planner) corner(at, other side) {
	beside := p.near(other)
	for _, i := range p.near(at) {
		run := &p.Runs[p.Panels[i].Run]
		free := run.BuildOut + run.Standing + handRoom(p.Job.Units)
		for _, k := range beside {
			in := p.within(i, at, p.Runs[p.Panels[k].Run].BuildOut)
			inside, front := p.within(k, other, run.BuildOut), p.within(k, other, free)
			if meet(in, inside, 0, 0) {
				continue // they collide where they hang, which is told of the corner
			}
			if meet(in, front, p.rise, p.rise) || meet(in, inside, 0, p.rise) {
				p.add(i, k, InCorner)
			}
		}
	}
}

// near are the panels of a wall that can have to do with those round a corner.
func (p *planner) near(at side) (panels []int) {
	far := geom.Length(0)
	for i := range p.Runs {
		far = max(far, p.Runs[i].BuildOut+p.Runs[i].Standing)
	}
	far += handRoom(p.Job.Units)
	for _, i := range p.panelsOf(at.wall) {
		if len(p.within(i, at, far)) > 0 {
			panels = append(panels, i)
		}
	}
	return panels
}

// within are the heights of a panel where it is nearer than so far to a corner.
func (p *planner) within(panel int, at side, far geom.Length) (heights []geom.Span) {
	outline := p.Panels[panel].Finished
	pieces := outline.LeftOf
	if at.ends {
		pieces, far = outline.RightOf, p.Walls[at.wall].Job.Width-far
	}
	for _, piece := range pieces(far) {
		b := piece.Bounds()
		heights = append(heights, geom.Span{From: b.Min.Y, To: b.Max.Y})
	}
	return heights
}

// meet reports whether some of the heights, their ends raised, lie over others.
func meet(heights, others []geom.Span, from, to geom.Length) bool {
	for _, a := range heights {
		for _, b := range others {
			if a.From+from < b.To && b.From < a.To+to {
				return true
			}
		}
	}
	return false
}
