package cutting

import "rodsheet/geom"

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
func (n *node) cutAt(across bool, at int64) (*node, *node) {
	n.kind, n.across, n.at = split, across, at
	if across {
		n.a, n.b = &node{w: n.w, h: at}, &node{w: n.w, h: n.h - at}
	} else {
		n.a, n.b = &node{w: at, h: n.h}, &node{w: n.w - at, h: n.h}
	}
	return n.a, n.b
}

// put places an item of size w × h in the low corner of a free node and returns the free nodes that remain.
// The first cut is across when acrossFirst is set.
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

// frees appends the free leaves of the tree.
func (n *node) frees(list []*node) []*node {
	switch n.kind {
	case free:
		return append(list, n)
	case split:
		return n.b.frees(n.a.frees(list))
	}
	return list
}

// drop turns items beyond keep into free nodes and counts down keep for the others.
func (n *node) drop(keep []int) {
	switch n.kind {
	case leaf:
		if keep[n.item] == 0 {
			n.kind = free
			return
		}
		keep[n.item]--
	case split:
		n.a.drop(keep)
		n.b.drop(keep)
		if n.a.kind == free && n.b.kind == free {
			n.kind, n.a, n.b = free, nil, nil
		}
	}
}

// rename replaces the items of the tree by what the list says.
func (n *node) rename(items []int) {
	switch n.kind {
	case leaf:
		n.item = items[n.item]
	case split:
		n.a.rename(items)
		n.b.rename(items)
	}
}

func (n *node) clone() *node {
	c := *n
	if n.kind == split {
		c.a, c.b = n.a.clone(), n.b.clone()
	}
	return &c
}

// A writer turns cutting trees into placements and cuts in real lengths.
type writer struct {
	f     *frame
	kerf  geom.Length
	parts []geom.Size
	queue [][]owner // per item, parts still to be named
	copy  []int     // per part, copies named so far
	out   *Used
	next  int // number of the next piece
}

func newWriter(f *frame, kerf geom.Length, parts []geom.Size) *writer {
	w := &writer{f: f, kerf: kerf, parts: parts, copy: make([]int, len(parts))}
	for _, o := range f.owners {
		w.queue = append(w.queue, append([]owner(nil), o...))
	}
	return w
}

// sheet writes the tree of one sheet whose usable part is given.
func (w *writer) sheet(root *node, usable geom.Rect) Used {
	var u Used
	w.out, w.next = &u, 1
	w.node(root, usable, 0)
	return u
}

func (w *writer) node(n *node, r geom.Rect, number int) {
	switch n.kind {
	case free:
		w.out.Offcuts = append(w.out.Offcuts, r)
	case split:
		at := geom.Length(n.at * w.f.ux)
		if n.across {
			at = geom.Length(n.at * w.f.uy)
		}
		low, high, c := w.cut(r, number, n.across, at-w.kerf)
		w.node(n.a, low, c.Low)
		if c.High >= 0 {
			w.node(n.b, high, c.High)
		}
	case leaf:
		w.leaf(n, r, number)
	}
}

// cut records a cut of r whose low piece is size wide or high. Where nothing would come off, it does nothing.
func (w *writer) cut(r geom.Rect, number int, across bool, size geom.Length) (low, high geom.Rect, c Cut) {
	low, high = r, r
	slot := r
	rest := geom.Length(0)
	if across {
		low.Max.Y = r.Min.Y + size
		rest = r.Max.Y - low.Max.Y
		high.Min.Y = min(low.Max.Y+w.kerf, r.Max.Y)
		slot.Min.Y, slot.Max.Y = low.Max.Y, high.Min.Y
	} else {
		low.Max.X = r.Min.X + size
		rest = r.Max.X - low.Max.X
		high.Min.X = min(low.Max.X+w.kerf, r.Max.X)
		slot.Min.X, slot.Max.X = low.Max.X, high.Min.X
	}
	if rest <= 0 {
		return r, high, Cut{Low: number, High: -1}
	}
	c = Cut{Piece: number, Of: r, Across: across, Slot: slot, Low: w.next, High: -1}
	c.At = low.Max.X
	if across {
		c.At = low.Max.Y
	}
	w.next++
	if rest > w.kerf {
		c.High = w.next
		w.next++
	}
	w.out.Cuts = append(w.out.Cuts, c)
	return low, high, c
}

// leaf trims r down to the part, first along the direction that leaves the larger offcut.
func (w *writer) leaf(n *node, r geom.Rect, number int) {
	q := w.queue[n.item]
	part := q[0].part
	if q[0].n--; q[0].n == 0 {
		w.queue[n.item] = q[1:]
	}
	size := w.parts[part]
	// Items lie with their longer side as width, so whether the part itself is turned shows only here.
	want := geom.Size{
		W: geom.Length(w.f.items[n.item].w*w.f.ux) - w.kerf,
		H: geom.Length(w.f.items[n.item].h*w.f.uy) - w.kerf,
	}
	if n.turned {
		want = want.Turned()
	}
	dw, dh := float64(r.W()-want.W), float64(r.H()-want.H)
	acrossFirst := dh*float64(r.W()) > dw*float64(r.H())
	for _, across := range []bool{acrossFirst, !acrossFirst} {
		side := want.W
		if across {
			side = want.H
		}
		low, high, c := w.cut(r, number, across, side)
		if c.High >= 0 {
			w.out.Offcuts = append(w.out.Offcuts, high)
		}
		r, number = low, c.Low
	}
	w.out.Placed = append(w.out.Placed, Placed{Part: part, Copy: w.copy[part], Rect: r, Turned: want != size})
	w.copy[part]++
}
