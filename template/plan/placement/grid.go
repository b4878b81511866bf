package placement

import (
	"cmp"
	"container/heap"
	"encoding/binary"
	"slices"

	"rodsheet/geom"
)

// A grid is the search for the best pattern of columns and rows for boards of one size behind which different things
// stand.
//
// Columns and rows meet in two things only: a clip is in wood when its column is on a stud or its row on a rail, and a
// forbidden rectangle is met where a column and a row cross in it. So without forbidden rectangles each axis is a chain of
// its own (see [line]): for each set of rails that rows can meet, the columns that then bring most clips into wood. A pattern
// that meets a forbidden rectangle shows where to divide the search: no column may stand over it, or no row, or the board
// goes without this pattern. Further limits make no pattern better, so the best branch is taken first, and the first pattern
// that meets nothing forbidden is the best of all.
type grid struct {
	x, y       axis
	cols, rows int
	spacing    geom.Length
}

// newGrid settles the count; ok is false when not even one clip fits.
func newGrid(size geom.Size, p Preferences) (g *grid, ok bool) {
	g = &grid{spacing: p.Spacing}
	g.x = newAxis(size.W, p.Clear, p.Base.W, p.Apart.W, p.Step)
	g.y = newAxis(size.H, p.Clear, p.Base.H, p.Apart.H, p.Step)
	if !g.x.fits(1) || !g.y.fits(1) {
		return g, false
	}
	g.cols, g.rows = counts(g.x, g.y, p.Number, p.Spacing)
	g.spacing = max(g.spacing, widest(g.x.corners(g.cols)), widest(g.y.corners(g.rows)))
	return g, true
}

// A pattern is the columns and rows of a board's clips, in board coordinates.
type pattern struct{ columns, rows []geom.Length }

func (p pattern) equal(q pattern) bool {
	return slices.Equal(p.columns, q.columns) && slices.Equal(p.rows, q.rows)
}

func (p pattern) positions() (all []Position) {
	for r, y := range p.rows {
		for c, x := range p.columns {
			all = append(all, Position{At: geom.Pt(x, y), Column: c, Columns: len(p.columns), Row: r, Rows: len(p.rows), Nth: 1})
		}
	}
	return all
}

// spoils is the first forbidden rectangle that the pattern meets; nil for none.
func (p pattern) spoils(b *Obstacles) *geom.Rect {
	for i, r := range b.Forbidden {
		if slices.ContainsFunc(p.columns, stretch{r.Min.X, r.Max.X}.holds) && slices.ContainsFunc(p.rows, stretch{r.Min.Y, r.Max.Y}.holds) {
			return &b.Forbidden[i]
		}
	}
	return nil
}

// inWood is how many clips of the pattern are in wood.
func (p pattern) inWood(b *Obstacles) int {
	return len(p.columns)*len(p.rows) - (len(p.columns)-woodAt(b.Studs, p.columns))*(len(p.rows)-woodAt(b.Rails, p.rows))
}

func woodAt(intervals []Interval, at []geom.Length) (n int) {
	for _, a := range at {
		if _, ok := meets(intervals, a); ok {
			n++
		}
	}
	return n
}

// A score is how well a pattern meets the preferences, in their order.
type score struct {
	without        int // boards that go without the pattern
	wood           int // clips in wood, over all other boards
	across, up     bool
	stance         geom.Product
	extent         geom.Length // columns' and rows' widths together, where one of them is 0
	miss, missUp   miss
	lowest, lefter geom.Length
	narrow         bool // the widest stance comes first
}

// cmp is negative when s is better than o.
func (s *score) cmp(o *score) int {
	wide := cmp.Or(o.stance.Cmp(s.stance), cmp.Compare(o.extent, s.extent))
	first := 0
	if s.narrow {
		first = wide
	}
	return cmp.Or(
		cmp.Compare(s.without, o.without),
		first,
		cmp.Compare(o.wood, s.wood),
		trueFirst(s.across, o.across),
		trueFirst(s.up, o.up),
		wide,
		s.miss.cmp(o.miss),
		s.missUp.cmp(o.missUp),
		cmp.Compare(s.lowest, o.lowest),
		cmp.Compare(s.lefter, o.lefter),
	)
}

// A miss is how far the columns (or rows) of a layout are from where they would stand best, were there more than whole
// steps.
type miss struct {
	off    geom.Length // from the centre lines of the wood that they are in, over boards
	uneven geom.Length // from even spacing, of those in no wood
}

func (m miss) cmp(o miss) int {
	return cmp.Or(cmp.Compare(m.off, o.off), cmp.Compare(m.uneven, o.uneven))
}

// trueFirst orders true before false.
func trueFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// as reports whether two patterns have the same symmetry and stance.
func (s *score) as(o *score) bool {
	return s.across == o.across && s.up == o.up && s.stance.Cmp(o.stance) == 0 && s.extent == o.extent
}

// A branch is one part of the search: where its columns and rows may not stand, the boards it leaves out, and its best
// pattern without regard to other forbidden rectangles.
type branch struct {
	columns, rows []stretch
	without       []bool
	pattern
	score
}

// branches is a heap, the best first.
type branches []*branch

func (h branches) Len() int           { return len(h) }
func (h branches) Less(i, j int) bool { return h[i].score.cmp(&h[j].score) < 0 }
func (h branches) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *branches) Push(x any)        { *h = append(*h, x.(*branch)) }
func (h *branches) Pop() any {
	last := (*h)[len(*h)-1]
	*h = (*h)[:len(*h)-1]
	return last
}

// mostBranches is how many branches of a search are looked at before it is given up.
const mostBranches = 2000

// best is the pattern with the best score, and which boards go without it. It is nil where there is none, or none was found
// in time. Where narrow is set, the stance floor is left out of account and nothing seeks wood.
func (g *grid) best(boards []*Obstacles, narrow bool) *branch {
	var open branches
	push := func(p *branch) {
		if g.evaluate(boards, p, narrow) {
			heap.Push(&open, p)
		}
	}
	push(&branch{without: make([]bool, len(boards))})
	for range mostBranches {
		if len(open) == 0 {
			break
		}
		p := heap.Pop(&open).(*branch)
		board, r := p.meets(boards)
		if r == nil {
			return p
		}
		columns, rows := *p, *p
		columns.columns = append(slices.Clip(p.columns), stretch{r.Min.X, r.Max.X})
		rows.rows = append(slices.Clip(p.rows), stretch{r.Min.Y, r.Max.Y})
		push(&columns)
		push(&rows)
		if len(boards) > 1 {
			less := *p
			less.without = slices.Clone(p.without)
			less.without[board] = true
			push(&less)
		}
	}
	return nil
}

// meets is the first forbidden rectangle that the branch's pattern meets, and on which board.
func (p *branch) meets(boards []*Obstacles) (board int, r *geom.Rect) {
	for i, b := range boards {
		if p.without[i] {
			continue
		}
		if r := p.spoils(b); r != nil {
			return i, r
		}
	}
	return 0, nil
}

// evaluate finds the best pattern of a branch; false where there is none.
func (g *grid) evaluate(boards []*Obstacles, p *branch, narrow bool) bool {
	var with []*Obstacles
	for i, b := range boards {
		if !p.without[i] {
			with = append(with, b)
		}
	}
	if len(with) == 0 {
		return false
	}
	y := &line{axis: g.y, n: g.rows, spacing: g.spacing, narrow: narrow, blocked: p.rows}
	if !narrow {
		var ok bool
		if y.wood, ok = rails(with, g.rows); !ok {
			return false
		}
	}
	known := map[string]*layout{}
	found := false
	for _, rows := range y.layouts() {
		x := &line{axis: g.x, n: g.cols, spacing: g.spacing, narrow: narrow, blocked: p.columns}
		if !narrow {
			x.wood = studs(with, rows.at)
		}
		var key []byte
		for _, w := range x.wood {
			key = binary.AppendUvarint(key, uint64(w.weight))
		}
		columns, ok := known[string(key)]
		if !ok {
			columns = x.heaviest()
			known[string(key)] = columns
		}
		if columns == nil {
			continue
		}
		at := pattern{columns.at, rows.at}
		s := score{without: len(boards) - len(with), across: columns.same, up: rows.same, miss: columns.miss, missUp: rows.miss, narrow: narrow}
		s.stance = geom.Cross(geom.Pt(columns.wide, 0), geom.Pt(0, rows.wide))
		s.extent = columns.wide + rows.wide
		s.lowest, s.lefter = sum(rows.at), sum(columns.at)
		for _, b := range with {
			s.wood += at.inWood(b)
		}
		if !found || s.cmp(&p.score) < 0 {
			p.pattern, p.score, found = at, s, true
		}
	}
	return found
}

// rails are the rails behind boards as wood for rows. Boards with different rails weigh in digits of their own, so that
// rows of the same weight meet as much wood on each; ok is false where there are too many for that.
func rails(boards []*Obstacles, rows int) (all []wood, ok bool) {
	const most = 1 << 50
	weight := 1
next:
	for _, b := range boards {
		if len(b.Rails) == 0 {
			continue
		}
		for i := range all {
			if slices.Equal(all[i].intervals, b.Rails) {
				all[i].boards++
				continue next
			}
		}
		if weight > most {
			return nil, false
		}
		all = append(all, wood{b.Rails, weight, 1})
		weight *= rows + 1
	}
	return all, true
}

// studs are the studs behind boards as wood for columns: each clip of a column that is not in wood as it is counts.
func studs(boards []*Obstacles, rows []geom.Length) []wood {
	all := make([]wood, len(boards))
	least := 0
	for i, b := range boards {
		all[i] = wood{b.Studs, len(rows) - woodAt(b.Rails, rows), 1}
		if w := all[i].weight; w > 0 && (least == 0 || w < least) {
			least = w
		}
	}
	for i := range all {
		if all[i].weight%max(least, 1) != 0 {
			return all
		}
	}
	for i := range all {
		all[i].weight /= max(least, 1)
	}
	return all
}

func sum(at []geom.Length) geom.Length {
	var s geom.Length
	for _, a := range at {
		s += a
	}
	return s
}
