package access

import (
	"cmp"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/layout"
)

// knife is the least gap that a putty knife goes into to press a panel off: common practice, from memory.
func knife(u geom.System) geom.Length { return u.Pick(geom.Inch/8, 3*geom.Millimetre) }

// ShutIn: panels on press clips have no edge with a gap that a putty knife goes into.
type ShutIn struct{ Gap geom.Length }

// ID implements [finding.Params].
func (ShutIn) ID() string { return "shut-in" }

// CannotLift: panels on lift clips have less free height above them than they must rise.
type CannotLift struct {
	Rise, Free geom.Length // Free is the least of the panels'
	Under      Overhead
}

// ID implements [finding.Params].
func (CannotLift) ID() string { return "cannot-lift" }

// An Overhead is what ends the free height above a panel.
type Overhead struct {
	Kind string // "sill", "wall", or the kind of a fitting or opening
	Name string // of the fitting or opening
}

// checkRemoval reports which panels cannot be taken off again: those on lift clips without the height to rise in, and those on
// press clips with every edge shut in.
func (p *planner) checkRemoval(run *layout.Run) {
	if p.Job.Clip.Kind == job.Lift {
		p.checkLift(run)
		return
	}
	var shut []*layout.Panel
	for _, i := range run.Panels {
		if p.shutIn(&p.Panels[i]) {
			shut = append(shut, &p.Panels[i])
		}
	}
	if len(shut) > 0 {
		p.found.Add(run.Subject(shut...), run.Job.Key+".gap", ShutIn{knife(p.Job.Units)})
	}
}

func (p *planner) checkLift(run *layout.Run) {
	rise := p.Job.Clip.Rise
	var stuck []*layout.Panel
	var least geom.Length
	var under Overhead
	for _, i := range run.Panels {
		free, what, ok := p.headroom(&p.Panels[i])
		if !ok || free >= rise {
			continue
		}
		if len(stuck) == 0 || free < least {
			least, under = free, what
		}
		stuck = append(stuck, &p.Panels[i])
	}
	if len(stuck) == 0 {
		return
	}
	p.found.Add(run.Subject(stuck...), layout.TopField(run.Job), CannotLift{Rise: rise, Free: least, Under: under})
}

// headroom is the least free height above a panel, and what ends it; ok is false under open sky. Other panels can be
// hung later: they are for the order of hanging.
func (p *planner) headroom(panel *layout.Panel) (free geom.Length, under Overhead, ok bool) {
	wall := &p.Walls[panel.Wall]
	note := func(h geom.Length, what Overhead) {
		if !ok || h < free {
			free, under, ok = h, what, true
		}
	}
	if band := p.Runs[panel.Run].Band; band != nil && band.HasSill {
		note(band.Sill-panel.Finished.Bounds().Max.Y, Overhead{Kind: "sill"})
	}
	tops := panel.Finished.TopEdges()
	if h, over := geom.Clearance(tops, wall.Job.Outline.TopEdges()); over {
		note(h, Overhead{Kind: "wall"})
	}
	for i := range wall.KeepOuts {
		k := &wall.KeepOuts[i]
		if k.Kind == layout.Cables || k.Kind == layout.Given {
			continue // inside the wall: what stands out of it is a fitting
		}
		if h, over := geom.Clearance(tops, k.Body.Polygon().BottomEdges()); over {
			note(h, Overhead{Kind: string(k.Kind), Name: k.Name})
		}
	}
	return free, under, ok
}

// shutIn reports whether a rectangular panel has no edge with room for a putty knife anywhere along it. A cushion below
// it can be taken away; the free end of a wall is open.
func (p *planner) shutIn(panel *layout.Panel) bool {
	if !panel.Finished.IsRectangle() {
		return false
	}
	r, knife := panel.Finished.Bounds(), knife(p.Job.Units)
	wall := &p.Walls[panel.Wall]
	room := wall.Job.Outline.Bounds()
	before := p.Job.Walls[(panel.Wall+len(p.Job.Walls)-1)%len(p.Job.Walls)].Corner
	if panel.Wall == 0 && len(p.Job.Walls) < 3 {
		before = job.NoCorner // two walls do not close a room
	}
	lowest := room.Min.Y
	highest := room.Max.Y
	if band := p.Runs[panel.Run].Band; band != nil {
		if band.HasDeck {
			lowest = max(lowest, p.Runs[panel.Run].DeckAt(r.Min.X), p.Runs[panel.Run].DeckAt(r.Max.X))
		}
		if band.HasSill {
			highest = min(highest, band.Sill)
		}
	}
	sides := [4]struct {
		strip geom.Rect
		ended bool
	}{
		{geom.R(r.Min.X-knife, r.Min.Y, r.Min.X, r.Max.Y), before == job.Inside && r.Min.X-room.Min.X < knife},
		{geom.R(r.Max.X, r.Min.Y, r.Max.X+knife, r.Max.Y), wall.Job.Corner == job.Inside && room.Max.X-r.Max.X < knife},
		{geom.R(r.Min.X, r.Min.Y-knife, r.Max.X, r.Min.Y), r.Min.Y-lowest < knife},
		{geom.R(r.Min.X, r.Max.Y, r.Max.X, r.Max.Y+knife), highest-r.Max.Y < knife},
	}
	for i, s := range sides {
		if !s.ended && !p.filled(panel, s.strip, i < 2) {
			return false
		}
	}
	return true
}

// filled reports whether neighbouring panels reach into a strip along all of its length.
func (p *planner) filled(panel *layout.Panel, strip geom.Rect, upright bool) bool {
	var spans [][2]geom.Length
	knife := knife(p.Job.Units)
	for _, other := range p.panelsOver(&p.Walls[panel.Wall], strip) {
		if other == panel {
			continue
		}
		b := other.Finished.Bounds()
		if upright {
			spans = append(spans, [2]geom.Length{b.Min.Y, b.Max.Y})
		} else {
			spans = append(spans, [2]geom.Length{b.Min.X, b.Max.X})
		}
	}
	slices.SortFunc(spans, func(a, b [2]geom.Length) int { return cmp.Compare(a[0], b[0]) })
	at, end := strip.Min.X, strip.Max.X
	if upright {
		at, end = strip.Min.Y, strip.Max.Y
	}
	for _, s := range spans {
		if s[0]-at >= knife {
			return false
		}
		at = max(at, s[1])
	}
	return end-at < knife
}
