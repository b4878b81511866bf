package placement

import (
	"cmp"
	"slices"
	"sort"

	"rodsheet/geom"
)

// An option is a place that a corner's clip may take.
type option struct {
	at    geom.Point
	wood  bool
	off   geom.Length // from the wood's centre line
	floor geom.Size   // how far the outermost clips of its row, and of its column, stand apart at least
}

func (p *placer) option(at geom.Point) option {
	o := option{at: at, floor: geom.Size{W: p.floor(p.outline, at, false), H: p.floor(p.outline, at, true)}}
	if o.off, o.wood = meets(p.Studs, at.X); !o.wood {
		o.off, o.wood = meets(p.Rails, at.Y)
	}
	return o
}

// options are the places worth trying for the clip of a corner, nearer to it than to others. The widest stance can only
// take one that lies outermost in some direction, a corner of the hull of all that are free, and likewise of those that are
// free and in one stud or rail.
func (p *placer) options(c *corner, corners [4]*corner) []option {
	xs, ys := p.steps(c)
	var ends []geom.Point // of the free places of every row
	for _, v := range ys {
		from, to := span(xs, v, c, corners)
		first, ok := p.sweep(xs, v, from, to, 1)
		if !ok {
			continue
		}
		last, _ := p.sweep(xs, v, to-1, from-1, -1)
		ends = append(ends, geom.Pt(xs[first], v))
		if last > first {
			ends = append(ends, geom.Pt(xs[last], v))
		}
	}
	if len(ends) == 0 {
		return nil
	}
	clear := slices.MinFunc(ends, func(a, b geom.Point) int {
		return cmp.Compare((a.X-c.at.X).Abs()+(a.Y-c.at.Y).Abs(), (b.X-c.at.X).Abs()+(b.Y-c.at.Y).Abs())
	})
	outward := c.at.Sub(geom.Pt(p.size.W/2, p.size.H/2))
	var all []option
	for _, at := range outermost(extremes(ends), outward) {
		all = append(all, p.option(at))
	}
	// No edge of a rectangle is farther than half the spacing from its nearest clip.
	most := geom.Size{W: p.size.W, H: p.size.H}
	if p.outline.IsRectangle() {
		half := p.Spacing / 2
		most = geom.Size{W: max(half, (clear.X - c.at.X).Abs()), H: max(half, (clear.Y - c.at.Y).Abs())}
	}
	seek := func(intervals []Interval, along, over []geom.Length, up bool) {
		for _, t := range intervals {
			var in []geom.Point
			for _, u := range fewer(along, t) {
				for _, v := range over {
					at := geom.Pt(u, v)
					if up {
						at = geom.Pt(v, u)
					}
					if (at.X-c.at.X).Abs() <= most.W && (at.Y-c.at.Y).Abs() <= most.H && near(at, c, corners) && p.free(at) {
						in = append(in, at)
						break
					}
				}
			}
			if len(in) == 0 {
				continue
			}
			for _, at := range outermost(extremes(in), outward) {
				all = append(all, p.option(at))
			}
		}
	}
	seek(p.Studs, xs, ys, false)
	seek(p.Rails, ys, xs, true)
	return all
}

// mostAcross is how many steps across one stud or rail are tried.
const mostAcross = 8

// fewer are the steps in an interval, or mostAcross of them, the outermost two among them.
func fewer(steps []geom.Length, in Interval) (kept []geom.Length) {
	for _, u := range steps {
		if in.Low <= u && u <= in.High {
			kept = append(kept, u)
		}
	}
	if n := len(kept); n > mostAcross {
		for i := range mostAcross {
			kept[i] = kept[i*(n-1)/(mostAcross-1)]
		}
		kept = kept[:mostAcross]
	}
	return kept
}

// extremes are the corners of the points' hull from the leftmost, lower of those, on; of points in one line its ends.
func extremes(points []geom.Point) geom.Polygon {
	hull := geom.Hull(points)
	leftmost := slices.MinFunc(hull, func(a, b geom.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	i := slices.Index(hull, leftmost)
	return slices.Concat(hull[i:], hull[:i])
}

// outermost keeps the corners of a hull that are outermost in some direction that has a part of the given one.
func outermost(hull geom.Polygon, direction geom.Point) geom.Polygon {
	if len(hull) < 3 {
		return hull
	}
	faces := func(a, b geom.Point) bool { return geom.Cross(direction, b.Sub(a)).Sign() >= 0 } // the side's outer normal is (dy, −dx)
	var kept geom.Polygon
	for i, at := range hull {
		if faces(hull[(i+len(hull)-1)%len(hull)], at) || faces(at, hull[(i+1)%len(hull)]) {
			kept = append(kept, at)
		}
	}
	return kept
}

// span is the part from..to−1 of a row of places that is nearer to a corner than to others.
func span(xs []geom.Length, v geom.Length, c *corner, corners [4]*corner) (from, to int) {
	to = len(xs)
	for _, o := range corners {
		if o == nil || o == c {
			continue
		}
		pair := [4]*corner{o}
		mine := func(i int) bool { return near(geom.Pt(xs[i], v), c, pair) }
		switch { // one side of a straight line: a beginning or an end of the row
		case from >= to || mine(from) && mine(to-1):
		case mine(from):
			to = from + sort.Search(to-from, func(i int) bool { return !mine(from + i) })
		default:
			from += sort.Search(to-from, func(i int) bool { return mine(from + i) })
		}
	}
	return from, to
}

// sweep is the first free place of a row from one index towards another, which is left out, in steps of 1 or −1. Where a
// place is not free it leaves out as many as cannot be free either.
func (p *placer) sweep(xs []geom.Length, v geom.Length, from, to, step int) (int, bool) {
	for i := from; (to-i)*step > 0; {
		at := geom.Pt(xs[i], v)
		var move geom.Length
		if r := p.forbids(at); r != nil {
			move = r.Max.X - at.X
			if (len(xs) > 1 && xs[1] > xs[0]) != (step > 0) {
				move = at.X - r.Min.X
			}
		} else {
			if p.outline.ClearOf(p.baseAt(at), p.Clear) {
				return i, true
			}
			move = p.lacks(at)
		}
		i += step * max(1, int((move-1)/p.Step))
	}
	return 0, false
}

// lacks is how far a clip whose base is not in the outline, or too near its edge, must at least be moved.
func (p *placer) lacks(at geom.Point) geom.Length {
	away := p.outline.DistanceToRect(p.baseAt(at))
	if p.outline.ContainsPoint(at) {
		return p.Clear - away
	}
	return p.Clear + away
}
