package cover

import (
	"slices"

	"rodsheet/geom"
)

// mostPages limits the pages of one grid.
const mostPages = 100_000

// A GridProblem asks for the fewest pages, in columns and rows, that show a drawing.
type GridProblem struct {
	Bounds  geom.Rect   // what must be shown, with the marks' circles; y runs up
	Marks   []Mark      // what no seam may come near
	Window  geom.Size   // what one page can show, upright
	Turn    bool        // pages may be turned, all together
	Overlap geom.Length // neighbours show at least this much in common; the seam is its middle
	Clear   geom.Length // no mark's circle comes nearer to a seam than this
	Sparse  bool        // only pages that carry a mark are printed; Bounds is not looked at
}

// A Cell is one page's place in a grid.
type Cell struct{ Column, Row int }

// A Grid is the answer to a [GridProblem].
//
// Windows are never larger than a page. They are smaller where a seam had to leave the even step, so that an overlap
// is never wider than asked for, but where marks stand whole in it.
type Grid struct {
	Turned  bool   // pages lie on their side
	Columns []Span // windows from left to right
	Rows    []Span // windows from the bottom up
	Pages   []Cell // the pages to print, as they are read: the top row first, each row from the left
	Equal   bool   // all steps are equal, in each direction

	// Whole lists the marks that could not be kept clear of every seam. Each stands whole in the windows on both sides
	// of the seams that come too near.
	Whole []int

	// Bound is a number of pages that no grid can do with less of; Proved says that this one has no more. Compared are
	// all grids, with seams at any distances, that keep the marks clear or, in a direction where that is impossible,
	// clear or whole on both sides. A sparse grid is compared with the sparse grids of equal steps where each direction
	// has some that keep the marks clear; else its bound is that of pages laid anywhere.
	Bound  int
	Proved bool
}

// Window returns what the page at c shows.
func (g Grid) Window(c Cell) geom.Rect {
	x, y := g.Columns[c.Column], g.Rows[c.Row]
	return geom.R(x.From, y.From, x.To, y.To)
}

// Seams returns the places where the windows of a direction meet, the middles of their overlaps.
func Seams(windows []Span) []geom.Length {
	var out []geom.Length
	for i := 1; i < len(windows); i++ {
		from, to := windows[i].From, windows[i-1].To
		out = append(out, from+(to-from)/2)
	}
	return out
}

// Solve finds the grid with the fewest pages: with no mark too near a seam if any grid can do that; of equally few
// pages the one with fewer marks that stand whole, with equal steps, with more room (up to twice Clear) between seams
// and marks, and upright. The drawing is put in the middle of the pages as far as the marks allow. It returns an
// [*InputError] for a problem that makes no sense or needs too many pages, and a [*TooLargeError] for a mark that no
// seam can get past.
func (p GridProblem) Solve() (Grid, error) {
	if err := p.check(); err != nil {
		return Grid{}, err
	}
	if p.Sparse {
		return p.solveSparse()
	}
	var best Grid
	var bestRank []int64
	for _, turned := range p.ways() {
		g, rank, ok := p.lay(turned)
		if !ok {
			continue
		}
		bound := g.Bound
		if bestRank != nil && rank[0] == bestRank[0] {
			bound = min(bound, best.Bound)
		}
		if bestRank == nil || slices.Compare(rank, bestRank) < 0 {
			best, bestRank = g, rank
		} else if rank[0] > bestRank[0] {
			continue // a grid that must let marks stand whole is no measure for one that keeps them clear
		}
		best.Bound = bound
	}
	if bestRank == nil {
		return Grid{}, p.unsolved()
	}
	best.Proved = len(best.Pages) == best.Bound
	return best, nil
}

// ways returns the orientations to try: upright, then turned if that makes a difference.
func (p GridProblem) ways() []bool {
	if p.Turn && p.Window.W != p.Window.H {
		return []bool{false, true}
	}
	return []bool{false}
}

func (p GridProblem) check() error {
	if err := checkWindow(p.Window, p.Clear); err != nil {
		return err
	}
	if p.Overlap < 0 || p.half()*2 >= min(p.Window.W, p.Window.H) {
		return refuse("an overlap of %v does not go with pages that show %v × %v: it must be 0 or more, and less than the page's shorter side",
			p.Overlap, p.Window.W, p.Window.H)
	}
	if err := checkMarks(p.Marks); err != nil {
		return err
	}
	if !p.Sparse {
		b := p.Bounds
		if !b.Valid() {
			return refuse("the drawing's bounds run backwards, from %v, %v to %v, %v", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
		}
		for _, l := range []geom.Length{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} {
			if l.Abs() > farthest {
				return refuse("the drawing reaches %v from its origin, beyond what can be laid out, ±%v", l.Abs(), farthest)
			}
		}
	}
	return nil
}

// half returns half the overlap, rounded up, so that a seam lies on a whole nanometre.
func (p GridProblem) half() geom.Length { return (p.Overlap + 1) / 2 }

func (p GridProblem) window(turned bool) geom.Size {
	if turned {
		return p.Window.Turned()
	}
	return p.Window
}

// axes returns the problem in x and in y, over what must be shown.
func (p GridProblem) axes(turned bool) (x, y axis) {
	show := p.Bounds
	if p.Sparse {
		show = p.Marks[0].box(0)
	}
	w := p.window(turned)
	x = axis{window: w.W, half: p.half(), clear: p.Clear}
	y = axis{window: w.H, half: p.half(), clear: p.Clear}
	for _, m := range p.Marks {
		show = show.Union(m.box(0))
		x.at, x.r = append(x.at, m.At.X), append(x.r, m.R)
		y.at, y.r = append(y.at, m.At.Y), append(y.r, m.R)
	}
	x.lo, x.hi, y.lo, y.hi = show.Min.X, show.Max.X, show.Min.Y, show.Max.Y
	return x, y
}

// lay solves the grid in one orientation and ranks it; the lower rank is the better.
func (p GridProblem) lay(turned bool) (Grid, []int64, bool) {
	ax, ay := p.axes(turned)
	x, okX := ax.solve()
	y, okY := ay.solve()
	if !okX || !okY || len(x.spans)*len(y.spans) > mostPages {
		return Grid{}, nil, false
	}
	g := Grid{
		Turned: turned, Columns: x.spans, Rows: y.spans, Equal: x.equal && y.equal,
		Whole: union(x.whole, y.whole), Bound: x.fewest * y.fewest,
	}
	for row := len(g.Rows) - 1; row >= 0; row-- {
		for col := range g.Columns {
			g.Pages = append(g.Pages, Cell{col, row})
		}
	}
	return g, []int64{flag(x.reduced || y.reduced), int64(len(g.Pages)), int64(len(g.Whole)), flag(!g.Equal), -int64(min(x.slack, y.slack))}, true
}

// unsolved says why no orientation has a grid.
func (p GridProblem) unsolved() error {
	worst := -1
	for i, m := range p.Marks {
		if worst < 0 || m.R > p.Marks[worst].R {
			worst = i
		}
	}
	if worst >= 0 {
		// A seam can always get past marks that leave this much of a window beside them.
		r := p.Marks[worst].R
		if 4*r+2*p.Clear+2*p.half() >= min(p.Window.W, p.Window.H) {
			return &TooLargeError{Mark: worst, R: r, Clear: p.Clear, Window: p.Window}
		}
	}
	return refuse("the drawing needs more than %d pages that show %v × %v each: take larger paper", mostPages, p.Window.W, p.Window.H)
}

func union(a, b []int) []int {
	if len(a)+len(b) == 0 {
		return nil
	}
	out := slices.Concat(a, b)
	slices.Sort(out)
	return slices.Compact(out)
}

func flag(b bool) int64 {
	if b {
		return 1
	}
	return 0
}
