package plan

import (
	"slices"

	"rodsheet/geom"
)

// A grid is the search for the best pattern of columns and rows for equal boards at several sites.
//
// Every step of the outer columns and of the outer rows is tried. Columns and rows meet in two things only: a ban is
// met where a column and a row cross in it, and a clip is in wood when its column is on a stud or its row on a rail. So
// the layouts of each axis are gathered by the wood and the bans they meet, the best of each kind is kept, and all
// pairs of kinds are compared: exact, and fast because the kinds are few.
type grid struct {
	x, y       axis
	cols, rows int
	spacing    geom.Length
	sites      []*site
	far        bool // outer clips may leave their corners by more than a quarter of the board, though not for wood
}

// A pattern is the columns and rows of a board's clips, in board coordinates.
type pattern struct{ columns, rows []geom.Length }

func (p pattern) equal(q pattern) bool {
	return slices.Equal(p.columns, q.columns) && slices.Equal(p.rows, q.rows)
}

// A merit is how well a pattern meets the wishes, in their order.
type merit struct {
	spoiled        int // sites whose keep-outs it meets
	wood           int // clips in wood, over all sites
	across, up     bool
	off            geom.Length // sum of the distances of clips in wood from its centre lines
	stance         geom.Product
	extent         geom.Length // columns' and rows' widths together, where one of them is 0
	lowest, lefter geom.Length
}

// cmp is negative when m is better than o.
func (m merit) cmp(o merit) int {
	flag := func(a, b bool) int {
		switch {
		case a == b:
			return 0
		case a:
			return -1
		}
		return 1
	}
	steps := [...]int{
		m.spoiled - o.spoiled,
		o.wood - m.wood,
		flag(m.across, o.across),
		flag(m.up, o.up),
		int(m.off - o.off),
		o.stance.Cmp(m.stance),
		int(o.extent - m.extent),
		int(m.lowest - o.lowest),
		int(m.lefter - o.lefter),
	}
	for _, s := range steps {
		if s != 0 {
			return s
		}
	}
	return 0
}

// wishes is the part of a merit that comes before one pattern when clips follow the studs.
func (m merit) wishes() merit {
	return merit{spoiled: m.spoiled, wood: m.wood, across: m.across, up: m.up, off: m.off}
}

func (g *grid) line(up bool) *line {
	l := &line{axis: g.x, n: g.cols, up: up, spacing: g.spacing, sites: g.sites}
	if up {
		l.axis, l.n = g.y, g.rows
	}
	l.reach, l.seek = l.length/4, l.length/4
	if g.far {
		l.reach = l.length
	}
	for i, s := range g.sites {
		for _, b := range s.bans {
			if up {
				l.bans = append(l.bans, banned{i, b.Min.Y, b.Max.Y})
			} else {
				l.bans = append(l.bans, banned{i, b.Min.X, b.Max.X})
			}
		}
	}
	return l
}

// best is the pattern with the greatest merit; ok is false when the limits leave none at all. It may be spoiled at
// some sites.
func (g *grid) best() (best pattern, top merit, ok bool) {
	lx, ly := g.line(false), g.line(true)
	rails := slices.ContainsFunc(g.sites, func(s *site) bool { return len(s.up) > 0 })
	columns := lx.layouts(true)
	plain := ly.layouts(false)
	seeking := plain
	if rails {
		seeking = ly.layouts(true)
	}
	all := g.cols * len(g.sites)
	for _, x := range columns {
		rows := seeking
		if x.hits == all { // in wood as it is: no row need seek a rail
			rows = plain
		}
		for _, y := range rows {
			if ok && top.spoiled == 0 && x.hits*g.rows+y.hits*g.cols < top.wood {
				break // rows come most wood first: none of the rest can do better
			}
			if m := g.merit(lx, x, y); !ok || m.cmp(top) < 0 {
				best, top, ok = pattern{x.at, y.at}, m, true
			}
		}
	}
	return best, top, ok
}

// merit is how good a pair of layouts is. Wood counts where nothing is spoiled.
func (g *grid) merit(l *line, x, y *layout) merit {
	m := merit{across: x.same, up: y.same, lowest: sum(y.at), lefter: sum(x.at)}
	m.stance = geom.Cross(geom.Pt(x.wide, 0), geom.Pt(0, y.wide))
	m.extent = x.wide + y.wide
	bad := g.spoilt(l, x, y)
	if bad == nil && y.hits == 0 {
		m.wood = x.hits * g.rows
		m.off = x.off * geom.Length(g.rows)
		return m
	}
	for i := range g.sites {
		if bad != nil && bit(bad, i) {
			m.spoiled++
			continue
		}
		across, offX := x.inWood(i)
		up, offY := y.inWood(i)
		m.wood += g.cols*g.rows - (g.cols-across)*(g.rows-up)
		m.off += offX*geom.Length(g.rows) + offY*geom.Length(g.cols-across)
	}
	return m
}

// spoilt is the set of sites where some column and some row cross in a ban; nil for none.
func (g *grid) spoilt(l *line, x, y *layout) (bad []uint64) {
	for i := range x.ban {
		if both := x.ban[i] & y.ban[i]; both != 0 {
			if bad == nil {
				bad = words(len(g.sites))
			}
			for j := i * 64; j < min(i*64+64, len(l.bans)); j++ {
				if both>>(j%64)&1 == 1 {
					bad[l.bans[j].site/64] |= 1 << (l.bans[j].site % 64)
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

// spoils tells whether the pattern meets a keep-out at the site.
func (p pattern) spoils(s *site) bool {
	for _, y := range p.rows {
		for _, x := range p.columns {
			if !s.open(geom.Pt(x, y)) {
				return true
			}
		}
	}
	return false
}

// judge is the merit of a given pattern at one site.
func (g *grid) judge(p pattern, s *site) merit {
	var m merit
	if p.spoils(s) {
		m.spoiled = 1
	}
	last, top := len(p.columns)-1, len(p.rows)-1
	m.across = last == 0 || p.columns[0] == g.x.length-p.columns[last]
	m.up = top == 0 || p.rows[0] == g.y.length-p.rows[top]
	inWood := 0
	for _, x := range p.columns {
		if off, ok := meets(s.across, x); ok {
			inWood++
			m.off += off * geom.Length(len(p.rows))
		}
	}
	m.wood = inWood * len(p.rows)
	if inWood < len(p.columns) {
		for _, y := range p.rows {
			if off, ok := meets(s.up, y); ok {
				m.wood += len(p.columns) - inWood
				m.off += off * geom.Length(len(p.columns)-inWood)
			}
		}
	}
	m.stance = geom.Cross(geom.Pt(p.columns[last]-p.columns[0], 0), geom.Pt(0, p.rows[top]-p.rows[0]))
	m.extent = p.columns[last] - p.columns[0] + p.rows[top] - p.rows[0]
	m.lowest, m.lefter = sum(p.rows), sum(p.columns)
	return m
}
