package placement

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/geom"
)

// A placer is the search for clip places on one board of any outline, or on one whose obstacles leave no pattern of
// columns and rows: each corner gets a clip of its own where there is room for one, and the four, or three, are chosen
// together.
type placer struct {
	Preferences
	Obstacles
	outline geom.Polygon // board coordinates
	size    geom.Size
	centre  geom.Point // of gravity
}

func newPlacer(outline geom.Polygon, behind Obstacles, p Preferences) *placer {
	return &placer{Preferences: p, Obstacles: behind, outline: outline, size: outline.Bounds().Size(), centre: outline.Centroid()}
}

// placeSingly places the clips of some of the boards one by one. Boards with the same obstacles are worked out once. Where
// boards don't each follow their studs they share the places that serve most of them, of those the ones with most clips
// in wood.
func placeSingly(outline geom.Polygon, behind []Obstacles, which []int, p Preferences) [][]Position {
	known := map[string][]Position{}
	var candidates [][]Position
	placers := make([]*placer, len(which))
	own := make([][]Position, len(which))
	for i, board := range which {
		placers[i] = newPlacer(outline, behind[board], p)
		key := fmt.Sprint(behind[board])
		places, ok := known[key]
		if !ok {
			places = placers[i].places()
			known[key] = places
			candidates = append(candidates, places)
		}
		own[i] = places
	}
	if !p.Follow && len(candidates) > 1 {
		share(placers, own, candidates)
	}
	return own
}

// share lets as many boards as possible have the same places, and again of the rest; none gets fewer clips by it.
func share(placers []*placer, own, candidates [][]Position) {
	open := make([]int, len(placers))
	for i := range open {
		open[i] = i
	}
	for len(open) > 0 {
		var served []int
		var best []Position
		most := -1
		for _, c := range candidates {
			var serves []int
			wood := 0
			for _, i := range open {
				if len(c) < len(own[i]) || slices.ContainsFunc(c, func(q Position) bool { return !placers[i].open(q.At) }) {
					continue
				}
				serves = append(serves, i)
				for _, q := range c {
					if placers[i].option(q.At).wood {
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

// places are the board's clips, rows from below, each from the left; nil when there is room for none.
func (p *placer) places() []Position {
	corners := p.corners()
	var options [4][]option
	for i, c := range corners {
		if c != nil {
			options[i] = p.options(c, corners)
		}
	}
	twins, symmetric := p.twins(corners)
	if symmetric {
		options = p.mirrored(options, twins)
	}
	best := p.choose(options, twins, symmetric)
	if best == nil {
		return nil
	}
	var all []Position
	for i, o := range best.at {
		if o != nil {
			all = append(all, corners[i].zone.position(o.at))
		}
	}
	all = p.fill(best, all)
	slices.SortStableFunc(all, func(a, b Position) int {
		return cmp.Or(cmp.Compare(a.At.Y, b.At.Y), cmp.Compare(a.At.X, b.At.X))
	})
	return all
}

// A zone is one of the nine parts of a board, three columns by three rows.
type zone struct{ column, row int }

var (
	lowerLeft, lowerMiddle, lowerRight = zone{0, 0}, zone{1, 0}, zone{2, 0}
	middleLeft, middle, middleRight    = zone{0, 1}, zone{1, 1}, zone{2, 1}
	upperLeft, upperMiddle, upperRight = zone{0, 2}, zone{1, 2}, zone{2, 2}
)

// position is the first position of the zone.
func (z zone) position(at geom.Point) Position {
	return Position{At: at, Column: z.column, Columns: 3, Row: z.row, Rows: 3, Nth: 1}
}

// A corner is one of the at most four corners of a board that a clip of its own belongs to.
type corner struct {
	at         geom.Point
	right, top bool // whole steps from the right edge, from the top edge
	zone       zone
}

// corners are, from below and each from the left, the corners of the outline furthest towards the corners of its
// bounds. Where one corner is the furthest towards two of them, as the apex of a triangle, it comes once; the place of
// the other is empty.
func (p *placer) corners() [4]*corner {
	found := [4]*corner{
		{zone: lowerLeft}, {zone: lowerRight, right: true}, {zone: upperLeft, top: true}, {zone: upperRight, right: true, top: true},
	}
	for i, c := range found {
		towards := func(v geom.Point) geom.Product { // x/W + y/H towards this corner, times W·H
			if c.right {
				v.X -= p.size.W
			} else {
				v.X = -v.X
			}
			if c.top {
				v.Y -= p.size.H
			} else {
				v.Y = -v.Y
			}
			return geom.Dot(v, geom.Pt(p.size.H, p.size.W))
		}
		c.at = p.outline[0]
		for _, v := range p.outline[1:] {
			if towards(v).Cmp(towards(c.at)) > 0 {
				c.at = v
			}
		}
		for _, other := range found[:i] {
			if other != nil && other.at == c.at {
				found[i] = nil
				other.right, other.top = 3*c.at.X > 2*p.size.W, 2*c.at.Y > p.size.H
				other.zone = zone{third(c.at.X, p.size.W), third(c.at.Y, p.size.H)}
			}
		}
	}
	return found
}

func third(at, length geom.Length) int { return min(2, int(3*at/max(1, length))) }

// free reports whether a clip may stand with its middle at the place: its base clear of the outline, nothing forbidden.
func (p *placer) free(at geom.Point) bool {
	return p.open(at) && p.outline.ClearOf(p.baseAt(at), p.Clear)
}

func (p *placer) baseAt(at geom.Point) geom.Rect {
	x, y := at.X-p.Base.W/2, at.Y-p.Base.H/2
	return geom.R(x, y, x+p.Base.W, y+p.Base.H)
}

// overlap reports whether the bases of clips at two places lie over each other.
func (p *placer) overlap(a, b geom.Point) bool {
	return (a.X-b.X).Abs() < p.Apart.W && (a.Y-b.Y).Abs() < p.Apart.H
}

// steps are the places along one axis that a corner's clip may use, from the outside inward.
func (p *placer) steps(c *corner) (xs, ys []geom.Length) {
	along := func(length, base geom.Length, far bool) (all []geom.Length) {
		near := (p.Clear + (base+1)/2).Ceil(p.Step)
		for u := near; u <= length-p.Clear-base/2; u += p.Step {
			if far {
				all = append(all, length-u)
			} else {
				all = append(all, u)
			}
		}
		return all
	}
	return along(p.size.W, p.Base.W, c.right), along(p.size.H, p.Base.H, c.top)
}

// near reports whether a place is no nearer to another corner of the board: on a rectangle, whether it is in the
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
