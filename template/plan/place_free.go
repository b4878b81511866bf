package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rodsheet/geom"
)

// A yard is the search for clip places on one board of any outline, or on one whose keep-outs leave no pattern of
// columns and rows: each quarter of the board's bounds gets a clip of its own where it has room for one, and the four,
// or three, are chosen together.
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

// option is a place that a quarter's clip may take.
type option struct {
	at   geom.Point
	wood bool
	off  geom.Length
}

// quarters from below, each from the left: whole steps from the right or the top?
var quarters = [4]struct {
	right, top bool
	name       string
}{{false, false, "lower left"}, {true, false, "lower right"}, {false, true, "upper left"}, {true, true, "upper right"}}

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

// placeFreely gives a panel its clips one by one. Equal boards before equal walls are worked out once.
func (p *Plan) placeFreely(panel *Panel, known map[string][]spotted) {
	y := p.yardOf(&p.Walls[panel.Wall], panel.Outline)
	key := fmt.Sprint(y.outline, y.site)
	places, ok := known[key]
	if !ok {
		places = y.places()
		known[key] = places
	}
	for _, s := range places {
		panel.Clips = append(panel.Clips, p.clip(panel, s.at, s.place))
	}
	p.tellFew(panel, y)
}

// free tells whether a clip may stand with its middle at the place: its base clear of the outline, nothing behind it.
func (y *yard) free(at geom.Point) bool { return y.site.open(at) && y.inside(at) }

// inside tells whether the base of a clip at the place lies in the outline and at least clear from every edge.
func (y *yard) inside(at geom.Point) bool {
	base := geom.R(at.X-y.base.W/2, at.Y-y.base.H/2, at.X-y.base.W/2+y.base.W, at.Y-y.base.H/2+y.base.H)
	if !base.Inset(-y.clear).Touches(geom.Rect{Max: geom.Pt(y.size.W, y.size.H)}) {
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
		if t := geom.Turn(a, b, c); t >= 0 {
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
		if a.Y <= at.Y && at.Y < b.Y && geom.Turn(a, b, at) > 0 {
			in = !in
		}
	}
	return in
}

// steps are the places along one axis that a quarter may use, from the outside inward.
func (y *yard) steps(length, base geom.Length, far bool) []geom.Length {
	var all []geom.Length
	near := (y.clear + (base+1)/2).Ceil(y.step)
	for u := near; 2*u <= length; u += y.step {
		if far {
			all = append(all, length-u)
		} else {
			all = append(all, u)
		}
	}
	return all
}

// options are the places worth trying for the clip of a quarter. On the lining: the outermost, of which the widest
// stance can only take one that no mixture of others dominates. In wood: at each stud the step nearest its centre line,
// as far out as may be, and at each rail likewise; no more than a quarter of the board from where it would stand on the
// lining.
func (y *yard) options(right, top bool) []option {
	xs, ys := y.steps(y.size.W, y.base.W, right), y.steps(y.size.H, y.base.H, top)
	out := func(at geom.Point) (dx, dy geom.Length) { // distances from the corner of the bounds
		dx, dy = at.X, at.Y
		if right {
			dx = y.size.W - at.X
		}
		if top {
			dy = y.size.H - at.Y
		}
		return dx, dy
	}
	var lining []geom.Point
	limit := len(xs) // an x further in than one of a row further out is dominated
	for _, v := range ys {
		for i := 0; i < limit; i++ {
			if at := geom.Pt(xs[i], v); y.free(at) {
				lining = append(lining, at)
				limit = i
			}
		}
	}
	if len(lining) == 0 {
		return nil
	}
	corner := slices.MinFunc(lining, func(a, b geom.Point) int {
		ax, ay := out(a)
		bx, by := out(b)
		return cmp.Compare(ax+ay, bx+by)
	})
	cx, cy := out(corner)
	seek := func(at geom.Point) bool {
		dx, dy := out(at)
		return (dx-cx).Abs() <= y.size.W/4 && (dy-cy).Abs() <= y.size.H/4
	}
	var all []option
	for _, at := range bend(lining, right, top) {
		all = append(all, y.option(at))
	}
	add := func(footings []footing, along, over []geom.Length, up bool) {
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
					if seek(at) && y.free(at) {
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
	add(y.site.across, xs, ys, false)
	add(y.site.up, ys, xs, true)
	return all
}

func (y *yard) option(at geom.Point) option {
	o := option{at: at}
	if o.off, o.wood = meets(y.site.across, at.X); !o.wood {
		o.off, o.wood = meets(y.site.up, at.Y)
	}
	return o
}

// bend keeps the corners of the outer side of a quarter's outermost places, which come row by row from the outside
// inward, each further out across than the one before.
func bend(at []geom.Point, right, top bool) []geom.Point {
	sign := 1
	if right != top {
		sign = -1
	}
	var hull []geom.Point
	for _, q := range at {
		for len(hull) >= 2 && sign*geom.Turn(hull[len(hull)-2], hull[len(hull)-1], q) >= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, q)
	}
	return hull
}
