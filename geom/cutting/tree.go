package cutting

type nodeKind uint8

const (
	free  nodeKind = iota // left over
	leaf                  // an item in the low corner of its rectangle
	split                 // a guillotine cut
)

// A node is a rectangle of a cutting tree in frame units, kerf included.
type node struct {
	kind   nodeKind
	w, h   int64
	item   int
	turned bool
	across bool  // a split at a height rather than at a width
	at     int64 // where the second child begins, from the low edge
	a, b   *node
}

// cutAt makes a free node a split and returns its two free children.
func (n *node) cutAt(across bool, at int64) (low, high *node) {
	n.kind, n.across, n.at = split, across, at
	if across {
		n.a, n.b = &node{w: n.w, h: at}, &node{w: n.w, h: n.h - at}
	} else {
		n.a, n.b = &node{w: at, h: n.h}, &node{w: n.w - at, h: n.h}
	}
	return n.a, n.b
}

// put places an item of size w × h in the low corner of a free node and returns the free nodes that remain. The first
// cut is across when acrossFirst is set.
func (n *node) put(item int, turned bool, w, h int64, acrossFirst bool) []*node {
	var rest []*node
	cur := n
	for _, across := range []bool{acrossFirst, !acrossFirst} {
		var r *node
		switch {
		case across && h < cur.h:
			cur, r = cur.cutAt(true, h)
		case !across && w < cur.w:
			cur, r = cur.cutAt(false, w)
		default:
			continue
		}
		rest = append(rest, r)
	}
	cur.kind, cur.item, cur.turned = leaf, item, turned
	return rest
}

// tally adds the items of the tree to counts.
func (n *node) tally(counts []int) {
	switch n.kind {
	case leaf:
		counts[n.item]++
	case split:
		n.a.tally(counts)
		n.b.tally(counts)
	}
}

// keep is a copy of the tree without items beyond the counts, which are counted down.
func (n *node) keep(counts []int) *node {
	c := *n
	switch n.kind {
	case leaf:
		if counts[n.item]--; counts[n.item] < 0 {
			c.kind, counts[n.item] = free, 0
		}
	case split:
		c.a, c.b = n.a.keep(counts), n.b.keep(counts)
	}
	return &c
}

// lower takes what lies above a height, which is free, off the tree.
func (n *node) lower(h int64) {
	n.h = h
	switch {
	case n.kind != split:
	case !n.across:
		n.a.lower(h)
		n.b.lower(h)
	case n.at < h:
		n.b.lower(h - n.at)
	default:
		*n = *n.a
		n.lower(h)
	}
}
