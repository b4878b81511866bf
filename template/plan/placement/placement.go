// Package placement chooses where clips stand on boards. It knows rectangles, outlines, preferred intervals along x and
// y, and forbidden rectangles; what they come from (studs, sockets, walls) and what the clips are called is its
// callers'.
//
// How many columns and rows there are is settled first, with the outer ones as near the corners as the clearance lets
// them: the fewest that keep number and spacing ([CountOf]). Then they are moved, over all whole steps, to where the
// preferences are met best: no forbidden place, most clips in wood, symmetry, nearness to the wood's centre lines, widest
// stance, lowest, leftmost. For rectangular boards that search is exact (see grid). On boards of other outlines, and where
// no pattern of columns and rows stays out of what is forbidden, each corner gets a clip of its own (see placer): exact
// over the places that can be best, which are few.
//
// Cost: grid, steps² for each axis at worst, less as columns and rows are kept by what they meet alone; placer, steps of
// the rows times their obstacles, and the fourth power of the places kept for a corner, a dozen or so.
package placement

import (
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
	Single    bool // placed corner by corner; else in columns and rows
	Differs   bool // the board could not have the columns and rows of the first of its kind
}

// Of places the clips of boards with the same outline, one result for each of the obstacles.
func Of(outline geom.Polygon, behind []Obstacles, p Preferences) []Result {
	results := make([]Result, len(behind))
	var single []int
	patterns := make([]*pattern, len(behind))
	rectangle := outline.IsRectangle()
	if rectangle {
		if g, ok := newGrid(outline.Bounds().Size(), p); ok {
			patterns = g.patterns(behind, p.Follow)
		} else {
			rectangle = false
		}
	}
	first := firstOf(patterns)
	for i, q := range patterns {
		if q == nil {
			single = append(single, i)
			results[i].Differs = rectangle && len(behind) > 1
			continue
		}
		results[i] = Result{Positions: q.positions(), Differs: !q.equal(*first)}
	}
	places := placeSingly(outline, behind, single, p)
	for k, i := range single {
		results[i].Positions, results[i].Single = places[k], true
	}
	return results
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
