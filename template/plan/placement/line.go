package placement

import (
	"cmp"
	"encoding/binary"
	"slices"

	"rodsheet/geom"
)

// A line is one axis of a [grid]: all ways to set its columns (or rows), gathered into [layout] kinds.
type line struct {
	axis
	n         int
	up        bool // rows
	spacing   geom.Length
	reach     geom.Length // how far from the clear corner an outer clip may go
	seek      geom.Length // how far it may go for wood; beyond, wood does not count
	boards    []*Obstacles
	forbidden []stretch // of all boards

	grid    [2][]*place     // on whole steps from the left or bottom end, without and with regard to wood
	places  map[seen]*place // elsewhere
	classes map[string]int
}

// A stretch is what a forbidden rectangle takes of the line on one of the boards, by number; its ends are free.
type stretch struct {
	board     int
	low, high geom.Length
}

// seen is a place on a line, with or without regard to wood.
type seen struct {
	at   geom.Length
	wood bool
}

// A place is where a column (or row) may stand on a line, and what a clip there meets, board by board.
type place struct {
	at    geom.Length
	class int
	off   geom.Length   // sum over boards of distances from centre lines
	offs  []geom.Length // of each board; nil when no wood is met
	wood  []uint64      // bit i: in wood on board i
	bad   []uint64      // bit i: inside forbidden stretch i
}

// A layout is the best of all ways to set the columns (or rows) of a line that meet the same wood and the same forbidden stretches.
type layout struct {
	at        []geom.Length
	same      bool        // outer clips equally far from both ends
	off       geom.Length // sum of the places'
	wide      geom.Length // first to last
	set       []*place
	forbidden []uint64 // of all columns together
	hits      int      // columns in wood, over all boards
}

func bit(set []uint64, i int) bool { return set[i/64]>>(i%64)&1 == 1 }

func words(n int) []uint64 { return make([]uint64, (n+63)/64) }

// placeAt is what a clip at the place meets.
func (l *line) placeAt(at geom.Length, wood bool) *place {
	var known **place
	if at%l.step == 0 {
		known = &l.grid[0][at/l.step]
		if wood {
			known = &l.grid[1][at/l.step]
		}
		if *known != nil {
			return *known
		}
	} else if s, ok := l.places[seen{at, wood}]; ok {
		return s
	}
	s := &place{at: at, wood: words(len(l.boards)), bad: words(len(l.forbidden))}
	if wood {
		for i, b := range l.boards {
			intervals := b.Studs
			if l.up {
				intervals = b.Rails
			}
			if off, ok := meets(intervals, at); ok {
				s.wood[i/64] |= 1 << (i % 64)
				s.off += off
				if s.offs == nil {
					s.offs = make([]geom.Length, len(l.boards))
				}
				s.offs[i] = off
			}
		}
	}
	for i, f := range l.forbidden {
		if f.low < at && at < f.high {
			s.bad[i/64] |= 1 << (i % 64)
		}
	}
	var key []byte
	for _, w := range s.wood {
		key = binary.LittleEndian.AppendUint64(key, w)
	}
	for _, w := range s.bad {
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
		l.places[seen{at, wood}] = s
	}
	return s
}

// outer are the places of the first clips, or of the last ones, from the clear corner inward: within reach and in their
// own half of the board. Of places that meet wood only those are kept that stand at the step nearest the centre line of
// the wood; where the wood lies differently behind several panels, those between their nearest steps.
func (l *line) outer(last bool) []*place {
	var all []*place
	for u := l.near; u <= l.near+l.reach && 2*u <= l.length; u += l.step {
		at := u
		if last {
			at = l.length - u
		}
		all = append(all, l.placeAt(at, u <= l.near+l.seek))
	}
	return l.nearest(all)
}

// nearest leaves out places that are in wood further from its centre lines than need be.
func (l *line) nearest(all []*place) []*place {
	groups := map[int][]*place{}
	for _, s := range all {
		groups[s.class] = append(groups[s.class], s)
	}
	var kept []*place
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

// centres is the range of centre lines of the wood at a place, over all boards on which it meets wood.
func (l *line) centres(s *place) (low, high geom.Length, ok bool) {
	for i, b := range l.boards {
		if !bit(s.wood, i) {
			continue
		}
		intervals := b.Studs
		if l.up {
			intervals = b.Rails
		}
		off, _ := meets(intervals, s.at)
		for _, t := range intervals {
			if t.Low <= s.at && s.at <= t.High && (s.at-t.Centre).Abs() == off {
				if !ok {
					low, high, ok = t.Centre, t.Centre, true
				}
				low, high = min(low, t.Centre), max(high, t.Centre)
				break
			}
		}
	}
	return low, high, ok
}

// outside is how far a place lies outside a range.
func outside(at, low, high geom.Length) geom.Length { return max(low-at, at-high, 0) }

// hasWood reports whether any board has wood along the line.
func (l *line) hasWood() bool {
	return slices.ContainsFunc(l.boards, func(b *Obstacles) bool { return l.up && len(b.Rails) > 0 || !l.up && len(b.Studs) > 0 })
}

// layouts are the kinds of layout of the line, most wood first; wood false leaves all wood out of account.
func (l *line) layouts(wood bool) []*layout {
	l.places, l.classes = map[seen]*place{}, map[string]int{}
	for i := range l.grid {
		l.grid[i] = make([]*place, l.length/l.step+1)
	}
	seek := l.seek
	if !wood {
		l.seek = -1
	}
	defer func() { l.seek = seek }()
	if l.n == 1 || len(l.forbidden) == 0 && (!wood || !l.hasWood()) { // nothing to seek, nothing in the way
		at := l.corners(l.n)
		places := make([]*place, l.n)
		for i := range at {
			places[i] = l.placeAt(at[i], wood)
		}
		return []*layout{l.layout(at, places, true)}
	}
	f := finder{line: l, wood: wood, best: map[string]*layout{}, at: make([]geom.Length, l.n), places: make([]*place, l.n)}
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
	mirrored := map[geom.Length]*place{}
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

// free reports whether any left place keeps clear of any right one, and near enough.
func (l *line) free(lefts, rights []*place) bool {
	if len(lefts) == 0 || len(rights) == 0 {
		return true
	}
	return rights[len(rights)-1].at-lefts[len(lefts)-1].at >= l.base && rights[0].at-lefts[0].at <= l.spacing
}

// foremost is the best place of each class: nearest the centre lines, then outermost. Spots come from the outside inward.
func foremost(places []*place) []*place {
	var kept []*place
	index := map[int]int{}
	for _, s := range places {
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
	wood   bool
	best   map[string]*layout
	order  []*layout
	at     []geom.Length
	places []*place
	key    []byte
}

func (f *finder) try(left, right *place) {
	f.spread(f.at, left.at, f.length-right.at)
	if !f.apart(f.at) || !within(f.at, f.spacing) {
		return
	}
	f.places[0], f.places[f.n-1] = left, right
	for i := 1; i < f.n-1; i++ {
		f.places[i] = f.placeAt(f.at[i], f.wood)
	}
	f.key = f.key[:0]
	for _, s := range f.places {
		f.key = binary.LittleEndian.AppendUint32(f.key, uint32(s.class))
	}
	same := left.at == f.length-right.at
	old, found := f.best[string(f.key)]
	if found {
		if old.worse(f.places, same) {
			*old = *f.layout(f.at, f.places, same)
		}
		return
	}
	o := f.layout(f.at, f.places, same)
	f.best[string(f.key)] = o
	f.order = append(f.order, o)
}

// sorted are the layouts found, most wood first.
func (f *finder) sorted() []*layout {
	slices.SortStableFunc(f.order, func(a, b *layout) int { return cmp.Compare(b.hits, a.hits) })
	return f.order
}

// worse reports whether the layout is worse than another of its kind: symmetry, centre lines, stance, place.
func (o *layout) worse(places []*place, same bool) bool {
	if o.same != same {
		return same
	}
	var off geom.Length
	for _, s := range places {
		off += s.off
	}
	if o.off != off {
		return off < o.off
	}
	first, last := places[0].at, places[len(places)-1].at
	if wide := last - first; wide != o.wide {
		return wide > o.wide
	}
	return first < o.at[0]
}

func (l *line) layout(at []geom.Length, places []*place, same bool) *layout {
	o := &layout{at: slices.Clone(at), set: slices.Clone(places), same: same, forbidden: words(len(l.forbidden))}
	o.wide = o.at[l.n-1] - o.at[0]
	for _, s := range places {
		o.off += s.off
		for i, w := range s.bad {
			o.forbidden[i] |= w
		}
		for i := range l.boards {
			if bit(s.wood, i) {
				o.hits++
			}
		}
	}
	return o
}

// inWood is how many of the layout's columns are in wood on a board, and how far off its centre lines in all.
func (o *layout) inWood(board int) (n int, off geom.Length) {
	for _, s := range o.set {
		if bit(s.wood, board) {
			n++
			off += s.offs[board]
		}
	}
	return n, off
}
