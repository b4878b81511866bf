package layout

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// A Corner is where two walls meet.
type Corner struct {
	Left, Right int // into Layout.Walls: the wall that ends here and the one that begins
	Inside      bool
	Through     int         // the wall whose run goes into the corner
	Least       geom.Length // how far the other wall's nearest finished edge must stand off the corner
	Stands      geom.Length // how far it does stand off; below 0 past an outside corner
	Found       bool        // both walls have panels whose heights overlap
}

// Join finds where walls meet, and reports runs on neighbouring walls that collide. Only panels whose heights overlap
// can. Runs must have their build-outs.
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
func (l *Layout) Join() (corners []Corner, found finding.List) {
	for i := range l.Walls {
		next, ok := l.afterCorner(i)
		if !ok {
			continue
		}
		c := Corner{Left: i, Right: next, Inside: l.Walls[i].Job.Corner == job.Inside, Through: i}
		other := next
		if l.Walls[i].Job.ThroughNext {
			c.Through, other = next, i
		}
		for _, t := range l.Walls[c.Through].Runs {
			for _, o := range l.Walls[other].Runs {
				l.meet(&c, &l.Runs[t], &l.Runs[o], &found)
			}
		}
		corners = append(corners, c)
	}
	return corners, found
}

// afterCorner is the wall that begins at the corner in which a wall ends; ok is false where there is no corner.
func (l *Layout) afterCorner(wall int) (next int, ok bool) {
	next = wall + 1
	if next == len(l.Walls) && next > 2 {
		next = 0
	}
	return next, l.Walls[wall].Job.Corner != job.NoCorner && next < len(l.Walls)
}

// meet holds a run of the wall that goes through against one of the other wall.
func (l *Layout) meet(c *Corner, through, other *Run, found *finding.List) {
	gap := max(through.Job.Gap, other.Job.Gap)
	least, stands, hit := geom.Length(0), geom.Length(0), false
	for _, i := range through.Panels {
		a := l.Panels[i].Finished.Bounds()
		for _, k := range other.Panels {
			b := l.Panels[k].Finished.Bounds()
			if a.Min.Y >= b.Max.Y || b.Min.Y >= a.Max.Y {
				continue
			}
			need, off := geom.Length(0), l.offCorner(c, other, b)
			reach := l.offCorner(c, through, a)
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
		found.Add(other.Subject(), ExtentField(other.Job), l.collision(c, through, other, least, stands, gap))
	}
}

// offCorner is how far a panel of a run stands off the corner along its wall.
func (l *Layout) offCorner(c *Corner, run *Run, panel geom.Rect) geom.Length {
	if run.Wall == c.Left {
		return l.Walls[c.Left].Job.Width - panel.Max.X
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

func (l *Layout) collision(c *Corner, through, other *Run, least, stands, gap geom.Length) CornerCollision {
	left := l.Walls[c.Left].Job
	f := CornerCollision{
		Inside: c.Inside, Walls: [2]string{left.Name, l.Walls[c.Right].Job.Name}, Through: through.Name, BuildOut: through.BuildOut,
		Gap: gap, Stands: stands, Least: least, At: least,
	}
	if other.Wall == c.Left {
		f.AtEnd, f.At = true, left.Width-least
	}
	return f
}
