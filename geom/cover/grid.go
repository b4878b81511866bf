package cover

import (
	"slices"

	"rodsheet/geom"
)

// maxPages limits the pages of one grid.
const maxPages = 100_000

// A GridProblem asks for the fewest pages, in columns and rows, that show a drawing.
type GridProblem struct {
	Bounds  geom.Rect   // what must be shown, with the marks' circles; y runs up
	Marks   []Mark      // what no seam may come near
	Windows []geom.Size // what a page can show, for each way up that pages may lie, all of them alike
	Overlap geom.Length // neighbours show at least this much in common; the seam is its middle
	Clear   geom.Length // no mark's circle comes nearer to a seam than this
}

// A Cell is one page's place in a grid.
type Cell struct{ Column, Row int }

// A Grid is the answer to a [GridProblem].
//
// Windows are never larger than a page. They are smaller where a seam had to leave the even step, so that an overlap
// is never wider than asked for, but where marks stand whole in it.
type Grid struct {
	Way     int         // which of the problem's Windows was taken
	Columns []geom.Span // windows from left to right
	Rows    []geom.Span // windows from the bottom up
	Pages   []Cell      // all cells as they are read: the top row first, each row from the left

	// Whole lists the marks that could not be kept clear of every seam. Each stands whole in the windows on both sides
	// of the seams that come too near.
	Whole []int

	// Bound is a number of pages that no grid can do with less of; Proved says that this one has no more. Compared are
	// all grids, with seams at any distances, that keep the marks clear or, in a direction where that is impossible,
	// clear or whole on both sides.
	Bound  int
	Proved bool
}

// Window returns what the page at c shows.
func (g Grid) Window(c Cell) geom.Rect {
	x, y := g.Columns[c.Column], g.Rows[c.Row]
	return geom.R(x.From, y.From, x.To, y.To)
}

// Seams returns the places where the windows of a direction meet, the middles of their overlaps.
func Seams(windows []geom.Span) []geom.Length {
	var out []geom.Length
	for i := 1; i < len(windows); i++ {
		from, to := windows[i].From, windows[i-1].To
		out = append(out, from+(to-from)/2)
	}
	return out
}

// Solve finds the grid with the fewest pages: with no mark too near a seam if any grid can do that; of equally few
// pages the one with fewer marks that stand whole, then the one whose size comes first in Windows. Steps are equal
// where that takes no more pages, and the drawing is put in the middle of the pages as far as the marks allow. It
// returns an [*InputError] for a problem that makes no sense or needs too many pages, and a [*TooLargeError] for a mark
// that no seam can get past.
func (p GridProblem) Solve() (Grid, error) {
	if err := p.check(); err != nil {
		return Grid{}, err
	}
	var best candidateGrid
	found := false
	for way := range p.Windows {
		g, ok := p.lay(way)
		if !ok {
			continue
		}
		// A grid that must let marks stand whole is no measure for one that keeps them clear.
		if found && g.reduced == best.reduced {
			bound := min(g.Bound, best.Bound)
			g.Bound, best.Bound = bound, bound
		}
		if !found || g.better(best) {
			best, found = g, true
		}
	}
	if !found {
		return Grid{}, p.unsolved()
	}
	best.Proved = len(best.Pages) == best.Bound
	return best.Grid, nil
}

func (p GridProblem) check() error {
	if err := checkWindows(p.Windows, p.Clear); err != nil {
		return err
	}
	for _, w := range p.Windows {
		if p.Overlap < 0 || p.half()*2 >= min(w.W, w.H) {
			return refuse("an overlap of %v does not go with pages that show %v × %v: it must be 0 or more, and less than the page's shorter side",
				p.Overlap, w.W, w.H)
		}
	}
	if err := checkMarks(p.Marks); err != nil {
		return err
	}
	b := p.Bounds
	if !b.Valid() {
		return refuse("the drawing's bounds run backwards, from %v, %v to %v, %v", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	}
	for _, l := range []geom.Length{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} {
		if l.Abs() > farthest {
			return refuse("the drawing reaches %v from its origin, beyond what can be laid out, ±%v", l.Abs(), farthest)
		}
	}
	return nil
}

// half returns half the overlap, rounded up, so that a seam lies on a whole nanometre.
func (p GridProblem) half() geom.Length { return (p.Overlap + 1) / 2 }

// A candidateGrid is the best grid of one way up.
type candidateGrid struct {
	Grid
	reduced bool // in some direction no seams keep all marks clear
}

func (g candidateGrid) better(h candidateGrid) bool {
	switch {
	case g.reduced != h.reduced:
		return h.reduced
	case len(g.Pages) != len(h.Pages):
		return len(g.Pages) < len(h.Pages)
	}
	return len(g.Whole) < len(h.Whole)
}

// lay solves the grid one way up.
func (p GridProblem) lay(way int) (candidateGrid, bool) {
	ax, ay := p.axes(p.Windows[way])
	x, okX := ax.solve()
	y, okY := ay.solve()
	if !okX || !okY || len(x.spans)*len(y.spans) > maxPages {
		return candidateGrid{}, false
	}
	g := Grid{Way: way, Columns: x.spans, Rows: y.spans, Whole: union(x.whole, y.whole), Bound: x.fewest * y.fewest}
	for row := len(g.Rows) - 1; row >= 0; row-- {
		for col := range g.Columns {
			g.Pages = append(g.Pages, Cell{col, row})
		}
	}
	return candidateGrid{g, x.reduced || y.reduced}, true
}

// axes returns the problem in x and in y, over what must be shown.
func (p GridProblem) axes(window geom.Size) (x, y axis) {
	show := p.Bounds
	x = axis{window: window.W, half: p.half(), clear: p.Clear}
	y = axis{window: window.H, half: p.half(), clear: p.Clear}
	for _, m := range p.Marks {
		show = show.Union(m.box(0))
		x.at, x.r = append(x.at, m.At.X), append(x.r, m.R)
		y.at, y.r = append(y.at, m.At.Y), append(y.r, m.R)
	}
	x.lo, x.hi, y.lo, y.hi = show.Min.X, show.Max.X, show.Min.Y, show.Max.Y
	return x, y
}

// unsolved returns the reason why there is no grid either way up.
func (p GridProblem) unsolved() error {
	worst := -1
	for i, m := range p.Marks {
		if worst < 0 || m.R > p.Marks[worst].R {
			worst = i
		}
	}
	w := p.Windows[0]
	if worst >= 0 {
		// A seam can always get past marks that leave this much of a window beside them.
		r := p.Marks[worst].R
		if 4*r+2*p.Clear+2*p.half() >= min(w.W, w.H) {
			return &TooLargeError{Mark: worst, R: r, Clear: p.Clear, Window: w}
		}
	}
	return refuse("the drawing needs more than %d pages that show %v × %v each: take larger paper", maxPages, w.W, w.H)
}

// union returns the numbers of both lists in ascending order, each once.
func union(a, b []int) []int {
	if len(a)+len(b) == 0 {
		return nil
	}
	out := slices.Concat(a, b)
	slices.Sort(out)
	return slices.Compact(out)
}
