package placement

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A grid is the search for the best pattern of columns and rows for boards of one size behind which different things
// stand.
//
// Every step of the outer columns and of the outer rows is tried. Columns and rows meet in two things only: a forbidden
// rectangle is met where a column and a row cross in it, and a clip is in wood when its column is on a stud or its row on
// a rail. So the layouts of each axis are gathered by the wood and the forbidden rectangles they meet, the best of each
// kind is kept, and all pairs of kinds are compared: exact, and fast because the kinds are few.
type grid struct {
	x, y       axis
	cols, rows int
	spacing    geom.Length
	boards     []*Obstacles
	far        bool // outer clips may leave their corners by more than a quarter of the board, though not for wood
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

// A score is how well a pattern meets the preferences, in their order.
type score struct {
	spoiled        int // boards on which it meets something forbidden
	wood           int // clips in wood, over all boards
	across, up     bool
	off            geom.Length // sum of the distances of clips in wood from its centre lines
	stance         geom.Product
	extent         geom.Length // columns' and rows' widths together, where one of them is 0
	lowest, lefter geom.Length
}

// cmp is negative when s is better than o.
func (s score) cmp(o score) int {
	return cmp.Or(
		cmp.Compare(s.spoiled, o.spoiled),
		cmp.Compare(o.wood, s.wood),
		trueFirst(s.across, o.across),
		trueFirst(s.up, o.up),
		cmp.Compare(s.off, o.off),
		o.stance.Cmp(s.stance),
		cmp.Compare(o.extent, s.extent),
		cmp.Compare(s.lowest, o.lowest),
		cmp.Compare(s.lefter, o.lefter),
	)
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

// leading is the part of a score that comes before sharing a pattern when each board follows its studs.
func (s score) leading() score {
	return score{spoiled: s.spoiled, wood: s.wood, across: s.across, up: s.up, off: s.off}
}

func (g *grid) line(up bool) *line {
	l := &line{axis: g.x, n: g.cols, up: up, spacing: g.spacing, boards: g.boards}
	if up {
		l.axis, l.n = g.y, g.rows
	}
	l.reach, l.seek = l.length/4, l.length/4
	if g.far {
		l.reach = l.length
	}
	for i, b := range g.boards {
		for _, r := range b.Forbidden {
			if up {
				l.forbidden = append(l.forbidden, stretch{i, r.Min.Y, r.Max.Y})
			} else {
				l.forbidden = append(l.forbidden, stretch{i, r.Min.X, r.Max.X})
			}
		}
	}
	return l
}

// best is the pattern with the best score; ok is false when the limits leave none at all. It may be spoiled at
// some boards.
func (g *grid) best() (best pattern, top score, ok bool) {
	lx, ly := g.line(false), g.line(true)
	rails := slices.ContainsFunc(g.boards, func(b *Obstacles) bool { return len(b.Rails) > 0 })
	columns := lx.layouts(true)
	plain := ly.layouts(false)
	seeking := plain
	if rails {
		seeking = ly.layouts(true)
	}
	all := g.cols * len(g.boards)
	for _, x := range columns {
		rows := seeking
		if x.hits == all { // in wood as it is: no row need seek a rail
			rows = plain
		}
		for _, y := range rows {
			if ok && top.spoiled == 0 && x.hits*g.rows+y.hits*g.cols < top.wood {
				break // rows come most wood first: none of the rest can do better
			}
			if s := g.scoreOf(lx, x, y); !ok || s.cmp(top) < 0 {
				best, top, ok = pattern{x.at, y.at}, s, true
			}
		}
	}
	return best, top, ok
}

// scoreOf is how good a pair of layouts is. Wood counts where nothing is spoiled.
func (g *grid) scoreOf(l *line, x, y *layout) score {
	s := score{across: x.same, up: y.same, lowest: sum(y.at), lefter: sum(x.at)}
	s.stance = geom.Cross(geom.Pt(x.wide, 0), geom.Pt(0, y.wide))
	s.extent = x.wide + y.wide
	bad := g.spoilt(l, x, y)
	if bad == nil && y.hits == 0 {
		s.wood = x.hits * g.rows
		s.off = x.off * geom.Length(g.rows)
		return s
	}
	for i := range g.boards {
		if bad != nil && bit(bad, i) {
			s.spoiled++
			continue
		}
		across, offX := x.inWood(i)
		up, offY := y.inWood(i)
		s.wood += g.cols*g.rows - (g.cols-across)*(g.rows-up)
		s.off += offX*geom.Length(g.rows) + offY*geom.Length(g.cols-across)
	}
	return s
}

// spoilt is the set of boards on which some column and some row cross in something forbidden; nil for none.
func (g *grid) spoilt(l *line, x, y *layout) (bad []uint64) {
	for i := range x.forbidden {
		if both := x.forbidden[i] & y.forbidden[i]; both != 0 {
			if bad == nil {
				bad = words(len(g.boards))
			}
			for j := i * 64; j < min(i*64+64, len(l.forbidden)); j++ {
				if both>>(j%64)&1 == 1 {
					bad[l.forbidden[j].board/64] |= 1 << (l.forbidden[j].board % 64)
				}
			}
		}
	}
	return bad
}

func sum(at []geom.Length) geom.Length {
	var s geom.Length
	for _, a := range at {
		s += a
	}
	return s
}

// spoils reports whether the pattern meets something forbidden.
func (p pattern) spoils(b *Obstacles) bool {
	for _, y := range p.rows {
		for _, x := range p.columns {
			if !b.open(geom.Pt(x, y)) {
				return true
			}
		}
	}
	return false
}

// scoreAt is the score of a given pattern on one board.
func (g *grid) scoreAt(p pattern, b *Obstacles) score {
	var s score
	if p.spoils(b) {
		s.spoiled = 1
	}
	last, top := len(p.columns)-1, len(p.rows)-1
	s.across = last == 0 || p.columns[0] == g.x.length-p.columns[last]
	s.up = top == 0 || p.rows[0] == g.y.length-p.rows[top]
	inWood := 0
	for _, x := range p.columns {
		if off, ok := meets(b.Studs, x); ok {
			inWood++
			s.off += off * geom.Length(len(p.rows))
		}
	}
	s.wood = inWood * len(p.rows)
	if inWood < len(p.columns) {
		for _, y := range p.rows {
			if off, ok := meets(b.Rails, y); ok {
				s.wood += len(p.columns) - inWood
				s.off += off * geom.Length(len(p.columns)-inWood)
			}
		}
	}
	s.stance = geom.Cross(geom.Pt(p.columns[last]-p.columns[0], 0), geom.Pt(0, p.rows[top]-p.rows[0]))
	s.extent = p.columns[last] - p.columns[0] + p.rows[top] - p.rows[0]
	s.lowest, s.lefter = sum(p.rows), sum(p.columns)
	return s
}
