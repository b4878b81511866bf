package plan

import "rodsheet/geom"

// A site is one panel as its clips see it: the wood and the keep-outs behind the board, in board coordinates, all for
// the middle of a clip's board half.
type site struct {
	across []footing   // studs: where along x
	up     []footing   // rails: where along y
	bans   []geom.Rect // open: no clip's middle may lie inside
}

// A footing is where a clip's middle may stand along one axis for every screw of its wall half to be in one member.
type footing struct{ low, high, centre geom.Length }

// siteOf looks at a wall through a board with that outline. The circle of a hole counts as the square round it, so that
// every limit is a rectangle; the base of a wall half keeps off the bodies of fittings and openings and on the wall.
func (p *Plan) siteOf(wall *Wall, outline geom.Polygon) site {
	bounds := outline.Bounds()
	shift := p.Job.Clip.Offset.Sub(bounds.Min) // middle of the wall half, on the wall → middle of the board half
	size := bounds.Size()
	half := &p.Job.Clip.Wall
	var s site
	for i := range wall.Members {
		m := &wall.Members[i]
		low, high, by, length := m.Safe.Min.X, m.Safe.Max.X, shift.X, size.W
		if m.Rail {
			low, high, by, length = m.Safe.Min.Y, m.Safe.Max.Y, shift.Y, size.H
		}
		least, most := spanOf(half.Holes, m.Rail)
		t := footing{low - least + by, high - most + by, m.Centre + by}
		if t.low > t.high || t.high < 0 || t.low > length {
			continue
		}
		if m.Rail {
			s.up = append(s.up, t)
		} else {
			s.across = append(s.across, t)
		}
	}
	// Middles come no nearer to the board's bounds than this.
	x, y := p.Job.Clips.Clear+p.Job.Clip.Board.Base.W/2, p.Job.Clips.Clear+p.Job.Clip.Board.Base.H/2
	middles := geom.R(x, y, max(x, size.W-x), max(y, size.H-y))
	ban := func(r geom.Rect) {
		r = r.Add(shift)
		if r.Min.X < middles.Max.X && middles.Min.X < r.Max.X && r.Min.Y < middles.Max.Y && middles.Min.Y < r.Max.Y {
			s.bans = append(s.bans, r)
		}
	}
	radius := (p.Job.Screws.Marker + 1) / 2
	w, h := (half.Base.W+1)/2, (half.Base.H+1)/2
	for i := range wall.KeepOuts {
		k := &wall.KeepOuts[i]
		for _, hole := range half.Holes {
			ban(k.Zone.Inset(-radius).Add(geom.Point{}.Sub(hole)))
		}
		if k.Kind == AroundFitting || k.Kind == AroundOpening {
			ban(geom.R(k.Body.Min.X-w, k.Body.Min.Y-h, k.Body.Max.X+w, k.Body.Max.Y+h))
		}
	}
	const far = 1000 * geom.Metre
	b := wall.Job.Outline.Bounds()
	ban(geom.R(-far, -far, b.Min.X+w, far))
	ban(geom.R(b.Max.X-w, -far, far, far))
	ban(geom.R(-far, -far, far, b.Min.Y+h))
	ban(geom.R(-far, b.Max.Y-h, far, far))
	return s
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

// open tells whether a clip's middle may be at the place.
func (s *site) open(at geom.Point) bool {
	for _, b := range s.bans {
		if b.Min.X < at.X && at.X < b.Max.X && b.Min.Y < at.Y && at.Y < b.Max.Y {
			return false
		}
	}
	return true
}

// meets tells whether some footing holds the place along its axis, and how far the place is from the nearest centre
// line of those that do.
func meets(footings []footing, at geom.Length) (off geom.Length, ok bool) {
	for _, t := range footings {
		if t.low <= at && at <= t.high {
			if d := (at - t.centre).Abs(); !ok || d < off {
				off, ok = d, true
			}
		}
	}
	return off, ok
}
