package cover

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// mostSteps limits the search over pairs of offsets, counted in marks looked at: about half a second.
const mostSteps = 400_000_000

// A lane is one way to lay an axis of a sparse grid: which window each mark is in, counted from 0.
type lane struct {
	cell  []int
	from  geom.Length // where window 0 starts
	strip             // its spans are left out where steps are equal
}

// solveSparse tries all pairs of free arcs in each orientation. An axis without a free arc takes the seams that
// [axis.solve] finds.
func (p GridProblem) solveSparse() (Grid, error) {
	if len(p.Marks) == 0 {
		return Grid{Equal: true, Proved: true}, nil
	}
	var best Grid
	var bestRank []int64
	exact := true
	for _, turned := range p.ways() {
		ax, ay := p.axes(turned)
		xs, okX := ax.lanes()
		ys, okY := ay.lanes()
		if !okX || !okY {
			exact = false
			continue
		}
		exact = exact && xs[0].equal && ys[0].equal
		if most := max(1, mostSteps/len(p.Marks)/len(ys)); len(xs) > most {
			xs, exact = xs[:most], false
		}
		var cells cellSet
		var x, y lane
		var rank []int64
		for _, lx := range xs {
			for _, ly := range ys {
				n := cells.count(lx.cell, ly.cell)
				whole := 0
				if len(lx.whole)+len(ly.whole) > 0 {
					whole = len(union(lx.whole, ly.whole))
				}
				r := [...]int64{flag(whole > 0), int64(n), int64(whole), flag(!lx.equal || !ly.equal), -int64(min(lx.slack, ly.slack)), int64(lx.from), int64(ly.from)}
				if rank == nil || slices.Compare(r[:], rank) < 0 {
					x, y, rank = lx, ly, slices.Clone(r[:])
				}
			}
		}
		if bestRank == nil || slices.Compare(rank[:5], bestRank[:5]) < 0 {
			best, bestRank = sparseGrid(turned, x, y, ax, ay), rank
		}
	}
	if bestRank == nil {
		return Grid{}, p.unsolved()
	}
	if best.Bound = len(best.Pages); !exact {
		best.Bound = p.leastPages()
	}
	best.Proved = best.Bound == len(best.Pages)
	return best, nil
}

// lanes returns the lanes of equal steps, one for each free arc and each way it deals out the marks, the roomiest
// first; or else the one lane of unequal steps.
func (a axis) lanes() ([]lane, bool) {
	p := a.pitch()
	if (a.hi-a.lo)/p >= mostAlong {
		return nil, false
	}
	var open []Span
	for i, x := range a.at {
		d := a.r[i] + a.clear
		if 2*d > p {
			open = nil
			break
		}
		from := x - d
		from -= from.Floor(p)
		for _, f := range []geom.Length{from - p, from, from + p} {
			open = append(open, Span{f, f + 2*d})
		}
	}
	slices.SortFunc(open, func(s, t Span) int { return cmp.Or(cmp.Compare(s.From, t.From), cmp.Compare(s.To, t.To)) })
	var lanes []lane
	for i, end := 0, geom.Length(0); i < len(open); i++ {
		// end is how far the stretches before i reach; a free arc runs from there to the start of i. A mark of no
		// size blocks nothing, but the arc ends there all the same, as the mark changes its page.
		if i > 0 && open[i].From >= end && open[i-1] != open[i] && 0 <= end && end < p {
			lanes = append(lanes, a.lane(end, open[i].From))
		}
		if i == 0 || open[i].To > end {
			end = open[i].To
		}
	}
	if len(lanes) == 0 {
		s, ok := a.solve()
		if !ok {
			return nil, false
		}
		s.equal = false
		l := lane{strip: s, from: s.spans[0].From}
		seams := Seams(s.spans)
		for _, x := range a.at {
			k, on := slices.BinarySearch(seams, x)
			if on {
				k++
			}
			l.cell = append(l.cell, k)
		}
		return []lane{l}, true
	}
	slices.SortStableFunc(lanes, func(l, m lane) int { return cmp.Or(cmp.Compare(m.slack, l.slack), cmp.Compare(l.from, m.from)) })
	var different []lane
	seen := map[string]bool{}
	for _, l := range lanes {
		key := make([]byte, 0, 2*len(l.cell))
		for _, k := range l.cell {
			key = append(key, byte(k), byte(k>>8))
		}
		if !seen[string(key)] {
			seen[string(key)] = true
			different = append(different, l)
		}
	}
	return different, true
}

// lane returns the lane of equal steps with a seam in the middle of the free arc from..to.
func (a axis) lane(from, to geom.Length) lane {
	p := a.pitch()
	s := from + (to-from)/2
	first := s + (slices.Min(a.at) - s).Floor(p) // the seam below the first window in use
	l := lane{from: first - a.half, strip: strip{equal: true, slack: min(a.clear, s-from, to-s)}}
	for _, x := range a.at {
		l.cell = append(l.cell, int((x-first)/p))
	}
	return l
}

// sparseGrid returns the windows in use and the pages that carry marks.
func sparseGrid(turned bool, x, y lane, ax, ay axis) Grid {
	windows := func(l lane, a axis) []Span {
		if l.spans != nil {
			return l.spans
		}
		var out []Span
		for k := range slices.Max(l.cell) + 1 {
			from := l.from + geom.Length(k)*a.pitch()
			out = append(out, Span{from, from + a.window})
		}
		return out
	}
	g := Grid{Turned: turned, Columns: windows(x, ax), Rows: windows(y, ay), Equal: x.equal && y.equal, Whole: union(x.whole, y.whole)}
	for i := range x.cell {
		g.Pages = append(g.Pages, Cell{x.cell[i], y.cell[i]})
	}
	slices.SortFunc(g.Pages, func(c, d Cell) int {
		return cmp.Or(cmp.Compare(d.Row, c.Row), cmp.Compare(c.Column, d.Column))
	})
	g.Pages = slices.Compact(g.Pages)
	return g
}

// A cellSet counts different cells, over and over, without clearing its memory.
type cellSet struct {
	stamp []int
	round int
}

func (c *cellSet) count(xs, ys []int) int {
	wide := slices.Max(ys) + 1
	if need := (slices.Max(xs) + 1) * wide; need > len(c.stamp) {
		if need > 1<<22 {
			return countSorted(xs, ys)
		}
		c.stamp, c.round = make([]int, need), 0
	}
	c.round++
	n := 0
	for i, x := range xs {
		if at := x*wide + ys[i]; c.stamp[at] != c.round {
			c.stamp[at] = c.round
			n++
		}
	}
	return n
}

func countSorted(xs, ys []int) int {
	cells := make([]Cell, len(xs))
	for i := range xs {
		cells[i] = Cell{xs[i], ys[i]}
	}
	slices.SortFunc(cells, func(c, d Cell) int {
		return cmp.Or(cmp.Compare(c.Column, d.Column), cmp.Compare(c.Row, d.Row))
	})
	return len(slices.Compact(cells))
}

// leastPages returns a number of pages that the marks need however pages are laid.
func (p GridProblem) leastPages() int {
	w, err := WindowProblem{Marks: p.Marks, Window: p.Window, Turn: p.Turn}.Solve()
	if err != nil {
		return 1
	}
	return w.Bound
}
