package cutting

// cells plans a patterned roll as a plain one: every item lies in a cell of whole repeats, at the place the pattern
// gives it, so that cells may be set anywhere on one lattice. base is the phase at the lattice's lines. It returns a
// strip in nanometres with items in place, and its length.
func (m *matcher) cells(base, limit int64) (*node, int64) {
	f := &frame{w: m.w, ux: 1, uy: 1}
	lift := make([]int64, len(m.items))
	for i, it := range m.items {
		lift[i] = modulo(m.phase[i]-base, m.repeat)
		repeats := (lift[i] + it.h + m.repeat - 1) / m.repeat
		f.items = append(f.items, item{w: it.w, h: repeats, n: it.n})
	}
	s := newRollSearch(f, limit)
	s.run()
	levels := levelsOf(s.best, nil)
	// The level with the most room above its items goes last, where that room is not bought.
	last, spare := 0, int64(-1)
	for i, l := range levels {
		l.stretch(m.repeat)
		if room := l.h - m.top(l, lift); room > spare {
			last, spare = i, room
		}
	}
	levels[last], levels[len(levels)-1] = levels[len(levels)-1], levels[last]
	length := int64(0)
	for _, l := range levels {
		l.raise(lift, m.items)
		length += l.h
	}
	root := stackUp(levels, m.w, length)
	root.h -= spare
	return root, root.h
}

// levelsOf takes a strip apart at the cuts that go across all of it.
func levelsOf(n *node, list []*node) []*node {
	if n.kind == split && n.across {
		return levelsOf(n.b, levelsOf(n.a, list))
	}
	return append(list, n)
}

// stretch turns heights from repeats into lengths.
func (n *node) stretch(repeat int64) {
	n.h *= repeat
	if n.kind == split {
		if n.across {
			n.at *= repeat
		}
		n.a.stretch(repeat)
		n.b.stretch(repeat)
	}
}

// top is the highest edge of an item, from the node's lower edge.
func (m *matcher) top(n *node, lift []int64) int64 {
	switch n.kind {
	case leaf:
		return lift[n.item] + m.items[n.item].h
	case split:
		b := m.top(n.b, lift)
		if n.across && b > 0 {
			b += n.at
		}
		return max(m.top(n.a, lift), b)
	}
	return 0
}

// raise sets every item to its place within its cell.
func (n *node) raise(lift []int64, items []item) {
	switch n.kind {
	case leaf:
		if up := lift[n.item]; up > 0 {
			it := n.item
			_, high := n.cutAt(true, up)
			high.put(it, false, items[it].w, items[it].h, true)
		}
	case split:
		n.a.raise(lift, items)
		n.b.raise(lift, items)
	}
}
