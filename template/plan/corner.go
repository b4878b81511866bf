package plan

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// A Corner is where two walls meet.
type Corner struct {
	Left, Right int // into Plan.Walls: the wall that ends here and the one that begins
	Inside      bool
	Through     int         // the wall whose run goes into the corner
	Least       geom.Length // how far the other wall's nearest finished edge must stand off the corner
	Stands      geom.Length // how far it does stand off; below 0 past an outside corner
	Found       bool        // both walls have panels whose heights overlap
}

// join checks that runs on neighbouring walls do not collide. Only panels whose heights overlap can.
//
// Seen from above, the panels of a wall fill the strip from its face to their build-out. At an inside corner the
// strips of two walls cross in the corner: the wall that runs through keeps its run, and the other's nearest edge must
// stand off by the first one's build-out and the gap. A run through that itself ends short of the other's build-out
// and the gap never comes into the corner and asks for nothing.
//
// At an outside corner the strips lie apart as long as both runs end at the corner or before it, and may meet in its
// edge. Only the run of the wall that runs through may go past the corner, as when it covers the other's edges; then
// the other must stand off by the gap.
//
// The gap is the larger one of the two runs. The last wall's corner joins the first wall when there are three or more.
func (p *Plan) join() {
	for i := range p.Walls {
		kind, next := p.Walls[i].Job.Corner, i+1
		if next == len(p.Walls) && next > 2 {
			next = 0
		}
		if kind == job.NoCorner || next == len(p.Walls) {
			continue
		}
		c := Corner{Left: i, Right: next, Inside: kind == job.Inside, Through: i}
		other := next
		if p.Walls[i].Job.ThroughNext {
			c.Through, other = next, i
		}
		for _, t := range p.Walls[c.Through].Runs {
			for _, o := range p.Walls[other].Runs {
				p.meet(&c, &p.Runs[t], &p.Runs[o])
			}
		}
		p.Corners = append(p.Corners, c)
	}
}

// meet holds a run of the wall that goes through against one of the other wall, and tells when they collide.
func (p *Plan) meet(c *Corner, through, other *Run) {
	gap := max(through.Job.Gap, other.Job.Gap)
	least, stands, hit := geom.Length(0), geom.Length(0), false
	for _, i := range through.Panels {
		a := p.Panels[i].Finished.Bounds()
		for _, k := range other.Panels {
			b := p.Panels[k].Finished.Bounds()
			if a.Min.Y >= b.Max.Y || b.Min.Y >= a.Max.Y {
				continue
			}
			need, off := geom.Length(0), p.offCorner(c, other, b)
			reach := p.offCorner(c, through, a)
			switch {
			case c.Inside && reach < other.BuildOut+gap:
				need = through.BuildOut + gap
			case !c.Inside && (reach < 0 || off < 0 && reach < gap):
				need = gap
			}
			if !c.Found || off < c.Stands {
				c.Stands = off
			}
			c.Found = true
			c.Least = max(c.Least, need)
			if off < need && (!hit || off < stands) {
				least, stands, hit = need, off, true
			}
		}
	}
	if hit {
		p.collide(c, through, other, least, stands, gap)
	}
}

// offCorner is how far a panel of a run stands off the corner along its wall.
func (p *Plan) offCorner(c *Corner, run *Run, panel geom.Rect) geom.Length {
	if run.Wall == c.Left {
		return p.Walls[c.Left].Job.Width - panel.Max.X
	}
	return panel.Min.X
}

// CornerCollision: at a corner a run comes too near to the one that goes into it.
type CornerCollision struct {
	Inside   bool
	Walls    [2]string // the one that ends at the corner and the one that begins
	Through  string    // the run that goes into the corner
	BuildOut geom.Length
	Gap      geom.Length
	Stands   geom.Length // how far the other run stands off the corner; below 0: past it
	Least    geom.Length // how far it must
	AtEnd    bool        // the corner is at the run's end, else at its beginning
	At       geom.Length // where the run should end or begin
}

// ID implements [finding.Params].
func (CornerCollision) ID() string { return "corner-collision" }

func (p *Plan) collide(c *Corner, through, other *Run, least, stands, gap geom.Length) {
	left := p.Walls[c.Left].Job
	f := CornerCollision{
		Inside: c.Inside, Walls: [2]string{left.Name, p.Walls[c.Right].Job.Name}, Through: through.Name, BuildOut: through.BuildOut,
		Gap: gap, Stands: stands, Least: least, At: least,
	}
	if other.Wall == c.Left {
		f.AtEnd, f.At = true, left.Width-least
	}
	p.report(runSubject(other), extentField(other.Job), f)
}
