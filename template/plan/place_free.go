package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"rodsheet/geom"
)

// A yard is the search for clip places on one board of any outline, or on one whose keep-outs leave no pattern of
// columns and rows: each corner gets a clip of its own where there is room for one, and the four, or three, are chosen
// together.
type yard struct {
	outline geom.Polygon // board coordinates
	site    site
	size    geom.Size
	base    geom.Size // of the board half
	apart   geom.Size // of both halves: bases of two clips may not overlap
	clear   geom.Length
	step    geom.Length
	spacing geom.Length
	number  int
}

// spotted is a clip's middle on a board, with the name of its place.
type spotted struct {
	at    geom.Point
	place string
}

// option is a place that a corner's clip may take.
type option struct {
	at   geom.Point
	wood bool
	off  geom.Length
}

// A corner is one of the at most four corners of a board that a clip of its own belongs to.
type corner struct {
	at         geom.Point
	right, top bool // whole steps from the right edge, from the top edge
	name       string
}

// corners are, from below and each from the left, the corners of the outline furthest towards the corners of its
// bounds. Where one corner is the furthest towards two of them, as the apex of a triangle, it comes once; the place of
// the other is empty.
func (y *yard) corners() [4]*corner {
	found := [4]*corner{
		{name: "lower left"}, {name: "lower right", right: true}, {name: "upper left", top: true}, {name: "upper right", right: true, top: true},
	}
	for i, c := range found {
		towards := func(v geom.Point) geom.Product { // x/W + y/H towards this corner, times W·H
			if c.right {
				v.X -= y.size.W
			} else {
				v.X = -v.X
			}
			if c.top {
				v.Y -= y.size.H
			} else {
				v.Y = -v.Y
			}
			return geom.Dot(v, geom.Pt(y.size.H, y.size.W))
		}
		c.at = y.outline[0]
		for _, v := range y.outline[1:] {
			if towards(v).Cmp(towards(c.at)) > 0 {
				c.at = v
			}
		}
		for _, other := range found[:i] {
			if other != nil && other.at == c.at {
				found[i] = nil
				other.right, other.top = 3*c.at.X > 2*y.size.W, 2*c.at.Y > y.size.H
				other.name = placeName(third(c.at.X, y.size.W), 3, third(c.at.Y, y.size.H), 3)
			}
		}
	}
	return found
}

func third(at, length geom.Length) int { return min(2, int(3*at/max(1, length))) }

func (p *Plan) yardOf(wall *Wall, outline geom.Polygon) *yard {
	b := outline.Bounds()
	board, half := p.Job.Clip.Board.Base, p.Job.Clip.Wall.Base
	return &yard{
		outline: outline.Add(geom.Point{}.Sub(b.Min)),
		site:    p.siteOf(wall, outline),
		size:    b.Size(),
		base:    board,
		apart:   geom.Size{W: max(board.W, half.W), H: max(board.H, half.H)},
		clear:   p.wishes().Clear,
		step:    p.wishes().Step,
		spacing: p.wishes().Spacing,
		number:  p.wishes().Number,
	}
}

// placeFreely gives panels with equal boards their clips one by one. Those before equal walls are worked out once. With
// follow: same they share the places that serve most of them, of those the ones with most clips in wood.
func (p *Plan) placeFreely(group []int) {
	known := map[string][]spotted{}
	var candidates [][]spotted
	yards := make([]*yard, len(group))
	own := make([][]spotted, len(group))
	for i, index := range group {
		panel := &p.Panels[index]
		yards[i] = p.yardOf(&p.Walls[panel.Wall], panel.Outline)
		key := fmt.Sprint(yards[i].site)
		places, ok := known[key]
		if !ok {
			places = yards[i].places()
			known[key] = places
			candidates = append(candidates, places)
		}
		own[i] = places
	}
	if !p.Job.Clips.Studs && len(candidates) > 1 {
		share(yards, own, candidates)
	}
	for i, index := range group {
		for _, s := range own[i] {
			p.Panels[index].Clips = append(p.Panels[index].Clips, p.clip(&p.Panels[index], s.at, s.place))
		}
		p.tellFew(&p.Panels[index], yards[i])
	}
}

// share lets as many boards as possible have the same places, and again of the rest; none gets fewer clips by it.
func share(yards []*yard, own, candidates [][]spotted) {
	open := make([]int, len(yards))
	for i := range open {
		open[i] = i
	}
	for len(open) > 0 {
		var served []int
		var best []spotted
		most := -1
		for _, c := range candidates {
			var serves []int
			wood := 0
			for _, i := range open {
				if len(c) < len(own[i]) || slices.ContainsFunc(c, func(s spotted) bool { return !yards[i].site.open(s.at) }) {
					continue
				}
				serves = append(serves, i)
				for _, s := range c {
					if yards[i].option(s.at).wood {
						wood++
					}
				}
			}
			if len(serves) > len(served) || len(serves) == len(served) && wood > most {
				served, best, most = serves, c, wood
			}
		}
		for _, i := range served {
			own[i] = best
		}
		open = slices.DeleteFunc(open, func(i int) bool { return slices.Contains(served, i) })
	}
}

// free tells whether a clip may stand with its middle at the place: its base clear of the outline, nothing behind it.
func (y *yard) free(at geom.Point) bool { return y.site.open(at) && y.inside(at) }

// inside tells whether the base of a clip at the place lies in the outline and at least clear from every edge.
func (y *yard) inside(at geom.Point) bool {
	base := y.baseAt(at)
	if !base.Inset(-y.clear).Intersects(geom.Rect{Max: geom.Pt(y.size.W, y.size.H)}) {
		return false
	}
	for i, a := range y.outline {
		if nearer(base, a, y.outline[(i+1)%len(y.outline)], y.clear) {
			return false
		}
	}
	return surrounds(y.outline, at)
}

// nearer tells whether a segment comes nearer to a rectangle than d, or into it. It is exact for upright and level
// segments; else to a thousandth of a nanometre.
func nearer(r geom.Rect, a, b geom.Point, d geom.Length) bool {
	s := geom.Rect{Min: a, Max: a}.Union(geom.Rect{Min: b, Max: b})
	dx, dy := max(s.Min.X-r.Max.X, r.Min.X-s.Max.X), max(s.Min.Y-r.Max.Y, r.Min.Y-s.Max.Y)
	if dx >= d || dy >= d {
		return false
	}
	if a.X == b.X || a.Y == b.Y {
		dx, dy = max(dx, 0), max(dy, 0)
		return dx == 0 && dy == 0 || math.Hypot(float64(dx), float64(dy)) < float64(d)
	}
	corners := r.Polygon()
	least := math.Inf(1)
	sides := [2]bool{}
	for _, c := range corners {
		least = min(least, offSegment(c, a, b))
		if t := geom.Orientation(a, b, c); t >= 0 {
			sides[0] = true
		} else {
			sides[1] = true
		}
	}
	if sides[0] && sides[1] && dx < 0 && dy < 0 && crosses(r, a, b) {
		return true
	}
	for _, e := range [2]geom.Point{a, b} {
		ex, ey := max(r.Min.X-e.X, e.X-r.Max.X, 0), max(r.Min.Y-e.Y, e.Y-r.Max.Y, 0)
		least = min(least, math.Hypot(float64(ex), float64(ey)))
	}
	return least < float64(d)-1e-3
}

// crosses tells whether a sloped segment goes through the inside of a rectangle.
func crosses(r geom.Rect, a, b geom.Point) bool {
	low, high := 0.0, 1.0
	for _, side := range [2][4]geom.Length{{a.X, b.X, r.Min.X, r.Max.X}, {a.Y, b.Y, r.Min.Y, r.Max.Y}} {
		from, to := float64(side[0]), float64(side[1])
		t0, t1 := (float64(side[2])-from)/(to-from), (float64(side[3])-from)/(to-from)
		low, high = max(low, min(t0, t1)), min(high, max(t0, t1))
	}
	return low < high
}

// offSegment is how far c is from the segment between a and b, in nanometres.
func offSegment(c, a, b geom.Point) float64 {
	ab, ac := b.Sub(a), c.Sub(a)
	length := math.Hypot(float64(ab.X), float64(ab.Y))
	along := (float64(ab.X)*float64(ac.X) + float64(ab.Y)*float64(ac.Y)) / length
	if along <= 0 {
		return math.Hypot(float64(ac.X), float64(ac.Y))
	}
	if along >= length {
		bc := c.Sub(b)
		return math.Hypot(float64(bc.X), float64(bc.Y))
	}
	return math.Abs(geom.Cross(ab, ac).SquareMillimetres()*float64(geom.Millimetre)*float64(geom.Millimetre)) / length
}

// surrounds tells whether the point lies inside the polygon (on its border: either answer).
func surrounds(p geom.Polygon, at geom.Point) bool {
	in := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if a.Y > b.Y {
			a, b = b, a
		}
		if a.Y <= at.Y && at.Y < b.Y && geom.Orientation(a, b, at) > 0 {
			in = !in
		}
	}
	return in
}

// steps are the places along one axis that a corner's clip may use, from the outside inward.
func (y *yard) steps(length, base geom.Length, far bool) []geom.Length {
	var all []geom.Length
	near := (y.clear + (base+1)/2).Ceil(y.step)
	for u := near; u <= length-y.clear-base/2; u += y.step {
		if far {
			all = append(all, length-u)
		} else {
			all = append(all, u)
		}
	}
	return all
}

// near tells whether a place is no nearer to another corner of the board: on a rectangle, whether it is in the
// corner's own quarter.
func near(at geom.Point, c *corner, corners [4]*corner) bool {
	d := geom.Dot(at.Sub(c.at), at.Sub(c.at))
	for _, o := range corners {
		if o != nil && o != c && geom.Dot(at.Sub(o.at), at.Sub(o.at)).Cmp(d) < 0 {
			return false
		}
	}
	return true
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

// sweep is the first free place of a row from one index towards another, which is left out. Where a place is not free
// it leaves out as many as cannot be free either.
func (y *yard) sweep(xs []geom.Length, v geom.Length, from, to, way int) (int, bool) {
	for i := from; (to-i)*way > 0; {
		at := geom.Pt(xs[i], v)
		move := geom.Length(0)
		for _, b := range y.site.bans {
			if b.Min.X < at.X && at.X < b.Max.X && b.Min.Y < at.Y && at.Y < b.Max.Y {
				move = b.Max.X - at.X
				if (len(xs) > 1 && xs[1] > xs[0]) != (way > 0) {
					move = at.X - b.Min.X
				}
				break
			}
		}
		if move == 0 {
			if y.inside(at) {
				return i, true
			}
			move = y.lacks(at)
		}
		i += way * max(1, int((move-1)/y.step))
	}
	return 0, false
}

// lacks is how far a clip whose base is not in the outline, or too near its edge, must at least be moved.
func (y *yard) lacks(at geom.Point) geom.Length {
	base := y.baseAt(at)
	least := math.Inf(1)
	for i, a := range y.outline {
		b := y.outline[(i+1)%len(y.outline)]
		if a.X != b.X && a.Y != b.Y && crosses(base, a, b) {
			return y.clear
		}
		for _, c := range base.Polygon() {
			least = min(least, offSegment(c, a, b))
		}
		dx, dy := max(base.Min.X-a.X, a.X-base.Max.X, 0), max(base.Min.Y-a.Y, a.Y-base.Max.Y, 0)
		least = min(least, math.Hypot(float64(dx), float64(dy)))
		if s := (geom.Rect{Min: a, Max: a}).Union(geom.Rect{Min: b, Max: b}); (a.X == b.X || a.Y == b.Y) && s.Intersects(base) {
			return y.clear
		}
	}
	if surrounds(y.outline, at) {
		return y.clear - geom.Length(least)
	}
	return y.clear + geom.Length(least)
}

func (y *yard) baseAt(at geom.Point) geom.Rect {
	return geom.R(at.X-y.base.W/2, at.Y-y.base.H/2, at.X-y.base.W/2+y.base.W, at.Y-y.base.H/2+y.base.H)
}

// options are the places worth trying for the clip of a corner, nearer to it than to others. The widest stance can only
// take one that lies outermost in some direction, a corner of the hull of all that are free. In wood it is, at each
// stud, the step nearest its centre line, as far out as may be, and at each rail likewise; no more than a quarter of the
// board from where the clip would stand nearest to the corner.
func (y *yard) options(c *corner, corners [4]*corner) []option {
	xs, ys := y.steps(y.size.W, y.base.W, c.right), y.steps(y.size.H, y.base.H, c.top)
	var ends []geom.Point // of the free places of every row
	for _, v := range ys {
		from, to := span(xs, v, c, corners)
		first, ok := y.sweep(xs, v, from, to, 1)
		if !ok {
			continue
		}
		last, _ := y.sweep(xs, v, to-1, from-1, -1)
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
	var all []option
	for _, at := range outermost(hull(ends), c.at.Sub(geom.Pt(y.size.W/2, y.size.H/2))) {
		all = append(all, y.option(at))
	}
	seek := func(footings []footing, along, over []geom.Length, up bool) {
		for _, t := range footings {
			var best *option
			for _, u := range along {
				off := (u - t.centre).Abs()
				if u < t.low || u > t.high || best != nil && off >= best.off {
					continue
				}
				for _, v := range over {
					at := geom.Pt(u, v)
					if up {
						at = geom.Pt(v, u)
					}
					if (at.X-clear.X).Abs() <= y.size.W/4 && (at.Y-clear.Y).Abs() <= y.size.H/4 && near(at, c, corners) && y.free(at) {
						best = &option{at, true, off}
						break
					}
				}
			}
			if best != nil {
				all = append(all, *best)
			}
		}
	}
	seek(y.site.across, xs, ys, false)
	seek(y.site.up, ys, xs, true)
	return all
}

// outermost keeps the corners of a hull that are outermost in some direction that has a part of the given one.
func outermost(h geom.Polygon, way geom.Point) geom.Polygon {
	if len(h) < 3 {
		return h
	}
	faces := func(a, b geom.Point) bool { return geom.Cross(way, b.Sub(a)).Sign() >= 0 } // the side's outer normal is (dy, −dx)
	var kept geom.Polygon
	for i, at := range h {
		if faces(h[(i+len(h)-1)%len(h)], at) || faces(at, h[(i+1)%len(h)]) {
			kept = append(kept, at)
		}
	}
	return kept
}

func (y *yard) option(at geom.Point) option {
	o := option{at: at}
	if o.off, o.wood = meets(y.site.across, at.X); !o.wood {
		o.off, o.wood = meets(y.site.up, at.Y)
	}
	return o
}
