// Package placement chooses where clips stand on boards. It knows rectangles, outlines, preferred intervals along x and
// y, and forbidden rectangles; what they come from (studs, sockets, walls) and what the clips are called is its
// callers'.
//
// How many columns and rows there are is settled first, with the outer ones as near the corners as the clearance lets
// them: the fewest that keep number and spacing ([CountOf]). Then they are moved to where the preferences are met best: within
// the stance floor and out of forbidden places, most clips in wood, symmetry, widest stance, nearness to the wood's centre
// lines, lowest, leftmost. For rectangular boards that search is exact (see grid), but for how many patterns the boards of a
// run that follow their studs share, which is found one board after the other. On boards of other outlines, and where no pattern
// of columns and rows stays within the floor and out of what is forbidden, each corner gets a clip of its own (see placer).
//
// Cost: grid, for two columns the square of the intervals and forbidden stretches on their way, for more the steps times the
// weights of wood that they can have together, for each forbidden rectangle that a pattern met on the way; at most mostBranches
// of these are tried, then clips are placed one by one. Placer, steps of the rows times their obstacles, and the fourth power of
// the places kept for a corner, a dozen or so.
package placement

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// Preferences are what is asked of all clips. Lengths of halves are those of their bases.
type Preferences struct {
	Number  int         // at least so many, where they find room
	Clear   geom.Length // a base's least distance from the board's outline
	Spacing geom.Length // greatest distance between neighbouring columns, and rows
	Step    geom.Length // places stand whole steps from the edges; above 0
	Base    geom.Size   // of the half on the board, which keeps Clear of its outline
	Apart   geom.Size   // of the larger half each way: no two of these overlap
	Follow  bool        // each board seeks wood for itself; else as many as can share their places
}

// Obstacles are what stands behind one board, in board coordinates, all for the middle of a clip.
type Obstacles struct {
	Studs     []Interval  // of x
	Rails     []Interval  // of y
	Forbidden []geom.Rect // open: no clip's middle may lie inside
}

// An Interval is where a clip's middle may stand along one axis to be in wood, both ends included, and the wood's centre
// line.
type Interval struct{ Low, High, Centre geom.Length }

// A Position is the middle of one clip, in board coordinates, and which of the board's places it is: column and row
// count from the left and from below. Clips of the same column and row are told apart by Nth, from 1.
type Position struct {
	At              geom.Point
	Column, Columns int
	Row, Rows       int
	Nth             int
}

// A Result is the clips of one board, rows from below, each from the left.
type Result struct {
	Positions []Position
	Single    bool      // placed corner by corner; else in columns and rows
	Differs   bool      // the board could not have the columns and rows of the first of its kind
	Short     Shortfall // of the stance floor
}

// Of places the clips of boards with the same outline, one result for each of the obstacles.
func Of(outline geom.Polygon, behind []Obstacles, p Preferences) []Result {
	behind = sorted(behind)
	results := make([]Result, len(behind))
	patterns := make([]*pattern, len(behind))
	narrow := make([]*pattern, len(behind))
	rectangle := outline.IsRectangle()
	if rectangle {
		if g, ok := newGrid(outline.Bounds().Size(), p); ok {
			patterns = g.patterns(behind, p.Follow)
			var rest []int
			for i, q := range patterns {
				if q == nil {
					rest = append(rest, i)
				}
			}
			g.share(behind, rest, narrow, true)
		} else {
			rectangle = false
		}
	}
	first := firstOf(patterns)
	if first == nil {
		first = firstOf(narrow)
	}
	var single []int
	for i, q := range patterns {
		if q == nil {
			single = append(single, i)
			continue
		}
		results[i] = Result{Positions: q.positions(), Differs: !q.equal(*first)}
	}
	places := placeSingly(outline, behind, single, p)
	for k, i := range single {
		r := &results[i]
		r.Positions, r.Single, r.Differs = places[k], true, rectangle && len(behind) > 1
		r.Short = p.shortfall(outline, r.Positions)
		if q := narrow[i]; q != nil {
			o := Result{Positions: q.positions(), Differs: !q.equal(*first)}
			o.Short = p.shortfall(outline, o.Positions)
			if o.cmp(r) <= 0 {
				*r = o
			}
		}
	}
	return results
}

// cmp is negative when r, of one board on which forbidden places break the stance floor, is better than o: what doesn't tip
// over, then more clips, then what misses the floor by less.
func (r *Result) cmp(o *Result) int {
	return cmp.Or(cmp.Compare(min(len(o.Positions), 1), min(len(r.Positions), 1)), cmp.Compare(r.Short.Centre, o.Short.Centre),
		cmp.Compare(len(o.Positions), len(r.Positions)), cmp.Compare(r.Short.sum(), o.Short.sum()))
}

// sorted returns the obstacles with their intervals from the lowest.
func sorted(behind []Obstacles) []Obstacles {
	behind = slices.Clone(behind)
	for i := range behind {
		b := &behind[i]
		for _, intervals := range [2]*[]Interval{&b.Studs, &b.Rails} {
			order := func(a, b Interval) int { return cmp.Compare(a.Low, b.Low) }
			if !slices.IsSortedFunc(*intervals, order) {
				*intervals = slices.Clone(*intervals)
				slices.SortFunc(*intervals, order)
			}
		}
	}
	return behind
}

// InWood returns how many clips of each board would be in wood if each followed its own; the count alone, at less cost than
// [Of].
func InWood(outline geom.Polygon, behind []Obstacles, p Preferences) []int {
	behind = sorted(behind)
	in := make([]int, len(behind))
	known := make([]*branch, len(behind))
	g, ok := newGrid(outline.Bounds().Size(), p)
	for i := range behind {
		if ok && outline.IsRectangle() {
			if known[i] = g.alone(behind, known, i); known[i] != nil {
				in[i] = known[i].score.wood
				continue
			}
		}
		single := newPlacer(outline, behind[i], p)
		for _, q := range single.places() {
			if single.option(q.At).wood {
				in[i]++
			}
		}
	}
	return in
}

// A Count is how many columns and rows a rectangular board gets, before anything is in their way.
type Count struct {
	Columns, Rows int
	Spacing       geom.Length // the greatest distance between neighbours: more than was asked for where bases get in the way
}

// CountOf returns the fewest columns and rows that keep number and spacing; ok is false when not even one clip fits.
func CountOf(size geom.Size, p Preferences) (c Count, ok bool) {
	g, ok := newGrid(size, p)
	return Count{g.cols, g.rows, g.spacing}, ok
}

// LeastSize returns the smallest rectangular board on which a clip finds a whole step for its middle.
func LeastSize(p Preferences) geom.Size {
	x, y := newAxis(0, p.Clear, p.Base.W, p.Base.W, p.Step), newAxis(0, p.Clear, p.Base.H, p.Base.H, p.Step)
	return geom.Size{W: x.near + x.margin, H: y.near + y.margin}
}

func firstOf(patterns []*pattern) *pattern {
	for _, q := range patterns {
		if q != nil {
			return q
		}
	}
	return nil
}
