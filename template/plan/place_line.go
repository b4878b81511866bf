package plan

import (
	"encoding/binary"
	"slices"

	"rodsheet/geom"
)

// A line is one axis of a [grid]: all ways to set its columns (or rows), gathered into [layout] kinds.
type line struct {
	axis
	n       int
	up      bool // rows
	spacing geom.Length
	reach   geom.Length // how far from the clear corner an outer clip may go
	seek    geom.Length // how far it may go for wood; beyond, wood does not count
	sites   []*site
	bans    []banned // of all sites

	grid    [2][]*spot     // on whole steps from the left or bottom end, without and with regard to wood
	spots   map[seen]*spot // elsewhere
	classes map[string]int
}

// banned is a ban of one of the sites, by number.
type banned struct {
	site      int
	low, high geom.Length
}

// seen is a place on a line, with or without regard to wood.
type seen struct {
	at   geom.Length
	wood bool
}

// A spot is one place on a line: what a clip there meets, site by site.
type spot struct {
	at    geom.Length
	class int
	off   geom.Length   // sum over sites of distances from centre lines
	offs  []geom.Length // of each site; nil when no wood is met
	wood  []uint64      // bit i: in wood at site i
	ban   []uint64      // bit i: inside ban i
}

// A layout is the best of all ways to set the columns (or rows) of a line that meet the same wood and the same bans.
type layout struct {
	at   []geom.Length
	same bool        // outer clips equally far from both ends
	off  geom.Length // sum of the spots'
	wide geom.Length // first to last
	set  []*spot
	ban  []uint64 // of all columns together
	hits int      // columns in wood, over all sites
}

func bit(set []uint64, i int) bool { return set[i/64]>>(i%64)&1 == 1 }

func words(n int) []uint64 { return make([]uint64, (n+63)/64) }

// spotAt is what a clip at the place meets.
func (l *line) spotAt(at geom.Length, wood bool) *spot {
	var known **spot
	if at%l.step == 0 {
		known = &l.grid[0][at/l.step]
		if wood {
			known = &l.grid[1][at/l.step]
		}
		if *known != nil {
			return *known
		}
	} else if s, ok := l.spots[seen{at, wood}]; ok {
		return s
	}
	s := &spot{at: at, wood: words(len(l.sites)), ban: words(len(l.bans))}
	if wood {
		for i, site := range l.sites {
			footings := site.across
			if l.up {
				footings = site.up
			}
			if off, ok := meets(footings, at); ok {
				s.wood[i/64] |= 1 << (i % 64)
				s.off += off
				if s.offs == nil {
					s.offs = make([]geom.Length, len(l.sites))
				}
				s.offs[i] = off
			}
		}
	}
	for i, b := range l.bans {
		if b.low < at && at < b.high {
			s.ban[i/64] |= 1 << (i % 64)
		}
	}
	var key []byte
	for _, w := range s.wood {
		key = binary.LittleEndian.AppendUint64(key, w)
	}
	for _, w := range s.ban {
		key = binary.LittleEndian.AppendUint64(key, w)
	}
	class, ok := l.classes[string(key)]
	if !ok {
		class = len(l.classes)
		l.classes[string(key)] = class
	}
	s.class = class
	if known != nil {
		*known = s
	} else {
		l.spots[seen{at, wood}] = s
	}
	return s
}

// outer are the spots of the first clips, or of the last ones, from the clear corner inward: within reach and in their
// own half of the board. Of spots that meet wood only those are kept that stand at the step nearest the centre line of
// the wood; where the wood lies differently behind several panels, those between their nearest steps.
func (l *line) outer(last bool) []*spot {
	var all []*spot
	for u := l.near; u <= l.near+l.reach && 2*u <= l.length; u += l.step {
		at := u
		if last {
			at = l.length - u
		}
		all = append(all, l.spotAt(at, u <= l.near+l.seek))
	}
	return l.nearest(all)
}

// nearest leaves out spots that are in wood further from its centre lines than need be.
func (l *line) nearest(all []*spot) []*spot {
	groups := map[int][]*spot{}
	for _, s := range all {
		groups[s.class] = append(groups[s.class], s)
	}
	var kept []*spot
	for _, s := range all {
		low, high, ok := l.centres(s)
		if !ok {
			kept = append(kept, s)
			continue
		}
		best := geom.Length(-1)
		for _, t := range groups[s.class] {
			if d := outside(t.at, low, high); best < 0 || d < best {
				best = d
			}
		}
		// Half a step either side of the centre lines is the nearest step, or one of two that are.
		if d := outside(s.at, low, high); d == best || 2*d <= l.step {
			kept = append(kept, s)
		}
	}
	return kept
}

// centres is the range of centre lines of the wood at a spot, over all sites where it meets wood.
func (l *line) centres(s *spot) (low, high geom.Length, ok bool) {
	for i, site := range l.sites {
		if !bit(s.wood, i) {
			continue
		}
		footings := site.across
		if l.up {
			footings = site.up
		}
		off, _ := meets(footings, s.at)
		for _, t := range footings {
			if t.low <= s.at && s.at <= t.high && (s.at-t.centre).Abs() == off {
				if !ok {
					low, high, ok = t.centre, t.centre, true
				}
				low, high = min(low, t.centre), max(high, t.centre)
				break
			}
		}
	}
	return low, high, ok
}

// outside is how far a place lies outside a range.
func outside(at, low, high geom.Length) geom.Length { return max(low-at, at-high, 0) }

// footed tells whether any site has wood along the line.
func (l *line) footed() bool {
	return slices.ContainsFunc(l.sites, func(s *site) bool { return l.up && len(s.up) > 0 || !l.up && len(s.across) > 0 })
}

// layouts are the kinds of layout of the line, most wood first; wood false leaves all wood out of account.
func (l *line) layouts(wood bool) []*layout {
	l.spots, l.classes = map[seen]*spot{}, map[string]int{}
	for i := range l.grid {
		l.grid[i] = make([]*spot, l.length/l.step+1)
	}
	seek := l.seek
	if !wood {
		l.seek = -1
	}
	defer func() { l.seek = seek }()
	if l.n == 1 || len(l.bans) == 0 && (!wood || !l.footed()) { // nothing to seek, nothing in the way
		at := l.corners(l.n)
		spots := make([]*spot, l.n)
		for i := range at {
			spots[i] = l.spotAt(at[i], wood)
		}
		return []*layout{l.layout(at, spots, true)}
	}
	f := finder{line: l, wood: wood, best: map[string]*layout{}, at: make([]geom.Length, l.n), spots: make([]*spot, l.n)}
	lefts, rights := l.outer(false), l.outer(true)
	if l.n > 2 || !l.free(lefts, rights) {
		for _, left := range lefts {
			for _, right := range rights {
				f.try(left, right)
			}
		}
		return f.sorted()
	}
	// Two columns that cannot come in each other's way: of a kind either the outer clips stand equally far from both
	// ends, or each of them is the best of its own class.
	mirrored := map[geom.Length]*spot{}
	for _, right := range rights {
		mirrored[l.length-right.at] = right
	}
	for _, left := range lefts {
		if right, ok := mirrored[left.at]; ok {
			f.try(left, right)
		}
	}
	rights = foremost(rights)
	for _, left := range foremost(lefts) {
		for _, right := range rights {
			f.try(left, right)
		}
	}
	return f.sorted()
}

// free tells whether any left spot keeps clear of any right one, and near enough.
func (l *line) free(lefts, rights []*spot) bool {
	if len(lefts) == 0 || len(rights) == 0 {
		return true
	}
	return rights[len(rights)-1].at-lefts[len(lefts)-1].at >= l.base && rights[0].at-lefts[0].at <= l.spacing
}

// foremost is the best spot of each class: nearest the centre lines, then outermost. Spots come from the outside inward.
func foremost(spots []*spot) []*spot {
	var kept []*spot
	index := map[int]int{}
	for _, s := range spots {
		i, ok := index[s.class]
		switch {
		case !ok:
			index[s.class] = len(kept)
			kept = append(kept, s)
		case s.off < kept[i].off:
			kept[i] = s
		}
	}
	return kept
}

// A finder keeps the best layout of each kind.
type finder struct {
	*line
	wood  bool
	best  map[string]*layout
	order []*layout
	at    []geom.Length
	spots []*spot
	key   []byte
}

func (f *finder) try(left, right *spot) {
	f.spread(f.at, left.at, f.length-right.at)
	if !f.apart(f.at) || !within(f.at, f.spacing) {
		return
	}
	f.spots[0], f.spots[f.n-1] = left, right
	for i := 1; i < f.n-1; i++ {
		f.spots[i] = f.spotAt(f.at[i], f.wood)
	}
	f.key = f.key[:0]
	for _, s := range f.spots {
		f.key = binary.LittleEndian.AppendUint32(f.key, uint32(s.class))
	}
	same := left.at == f.length-right.at
	old, found := f.best[string(f.key)]
	if found {
		if old.worse(f.spots, same) {
			*old = *f.layout(f.at, f.spots, same)
		}
		return
	}
	o := f.layout(f.at, f.spots, same)
	f.best[string(f.key)] = o
	f.order = append(f.order, o)
}

// sorted are the layouts found, most wood first.
func (f *finder) sorted() []*layout {
	slices.SortStableFunc(f.order, func(a, b *layout) int { return b.hits - a.hits })
	return f.order
}

// worse tells whether the layout is worse than another of its kind: symmetry, centre lines, stance, place.
func (o *layout) worse(spots []*spot, same bool) bool {
	if o.same != same {
		return same
	}
	var off geom.Length
	for _, s := range spots {
		off += s.off
	}
	if o.off != off {
		return off < o.off
	}
	first, last := spots[0].at, spots[len(spots)-1].at
	if wide := last - first; wide != o.wide {
		return wide > o.wide
	}
	return first < o.at[0]
}

func (l *line) layout(at []geom.Length, spots []*spot, same bool) *layout {
	o := &layout{at: slices.Clone(at), set: slices.Clone(spots), same: same, ban: words(len(l.bans))}
	o.wide = o.at[l.n-1] - o.at[0]
	for _, s := range spots {
		o.off += s.off
		for i, w := range s.ban {
			o.ban[i] |= w
		}
		for i := range l.sites {
			if bit(s.wood, i) {
				o.hits++
			}
		}
	}
	return o
}

// inWood is how many of the layout's columns are in wood at a site, and how far off its centre lines in all.
func (o *layout) inWood(site int) (n int, off geom.Length) {
	for _, s := range o.set {
		if bit(s.wood, site) {
			n++
			off += s.offs[site]
		}
	}
	return n, off
}
