package clips

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/placement"
)

// preferences are what the job asks of clip places. A job put together without a step or a spacing (a job file always has
// them) gets the finest step people read and no limit.
func preferences(j *job.Job) placement.Preferences {
	c, board, wall := j.Clips, j.Clip.Board.Base, j.Clip.Wall.Base
	p := placement.Preferences{
		Number: c.Number, Clear: c.Clear, Spacing: c.Spacing, Step: c.Step, Follow: c.Studs,
		Base: board, Apart: geom.Size{W: max(board.W, wall.W), H: max(board.H, wall.H)},
	}
	if p.Step <= 0 {
		p.Step = j.Units.Fine()
	}
	if p.Spacing <= 0 {
		p.Spacing = geom.Longest
	}
	return p
}

// obstacles looks at a wall through a board with that outline. The circle of a hole counts as the square round it, so
// that every limit is a rectangle; the base of a wall half keeps off the bodies of fittings and openings and on the wall.
func obstacles(j *job.Job, wall *layout.Wall, outline geom.Polygon) placement.Obstacles {
	bounds := outline.Bounds()
	shift := j.Clip.Offset.Sub(bounds.Min) // middle of the wall half, on the wall → middle of the board half
	size := bounds.Size()
	half := &j.Clip.Wall
	var o placement.Obstacles
	for i := range wall.Members {
		m := &wall.Members[i]
		low, high, by, length := m.Safe.Min.X, m.Safe.Max.X, shift.X, size.W
		if m.Rail {
			low, high, by, length = m.Safe.Min.Y, m.Safe.Max.Y, shift.Y, size.H
		}
		least, most := spanOf(half.Holes, m.Rail)
		t := placement.Interval{Low: low - least + by, High: high - most + by, Centre: m.Centre + by}
		if t.Low > t.High || t.High < 0 || t.Low > length {
			continue
		}
		if m.Rail {
			o.Rails = append(o.Rails, t)
		} else {
			o.Studs = append(o.Studs, t)
		}
	}
	// Middles come no nearer to the board's bounds than this.
	x, y := j.Clips.Clear+j.Clip.Board.Base.W/2, j.Clips.Clear+j.Clip.Board.Base.H/2
	middles := geom.R(x, y, max(x, size.W-x), max(y, size.H-y))
	forbid := func(r geom.Rect) {
		r = r.Add(shift)
		if r.Min.X < middles.Max.X && middles.Min.X < r.Max.X && r.Min.Y < middles.Max.Y && middles.Min.Y < r.Max.Y {
			o.Forbidden = append(o.Forbidden, r)
		}
	}
	radius := (j.WidestHole(wall.Job) + 1) / 2
	w, h := (half.Base.W+1)/2, (half.Base.H+1)/2
	for i := range wall.KeepOuts {
		k := &wall.KeepOuts[i]
		for _, hole := range half.Holes {
			forbid(k.Zone.Inset(-radius).Add(geom.Point{}.Sub(hole)))
		}
		if k.Kind == layout.AroundFitting || k.Kind == layout.AroundOpening {
			forbid(geom.R(k.Body.Min.X-w, k.Body.Min.Y-h, k.Body.Max.X+w, k.Body.Max.Y+h))
		}
	}
	const far = 1000 * geom.Metre
	b := wall.Job.Outline.Bounds()
	forbid(geom.R(-far, -far, b.Min.X+w, far))
	forbid(geom.R(b.Max.X-w, -far, far, far))
	forbid(geom.R(-far, -far, far, b.Min.Y+h))
	forbid(geom.R(-far, b.Max.Y-h, far, far))
	return o
}

// spanOf is the least and greatest x, or y, of the holes about the middle of the base.
func spanOf(holes []geom.Point, up bool) (least, most geom.Length) {
	for i, h := range holes {
		along := h.X
		if up {
			along = h.Y
		}
		if i == 0 {
			least, most = along, along
		}
		least, most = min(least, along), max(most, along)
	}
	return least, most
}
