package cutting

import (
	"slices"

	"rodsheet/geom"
)

// An emitter turns cutting trees into placements and cuts in real lengths.
type emitter struct {
	f     *frame
	kerf  geom.Length
	parts []Part
	queue [][]owner // per item, parts still to be named
	named []int     // per part, copies named so far
	out   *Used
	next  int // number of the next piece
}

func newEmitter(f *frame, kerf geom.Length, parts []Part) *emitter {
	e := &emitter{f: f, kerf: kerf, parts: parts, named: make([]int, len(parts))}
	for _, o := range f.owners {
		e.queue = append(e.queue, slices.Clone(o))
	}
	return e
}

// emit writes the tree of one sheet.
func (e *emitter) emit(root *node, sheet geom.Rect) Used {
	var u Used
	e.out, e.next = &u, 1
	e.node(root, sheet, Cut{})
	return u
}

// node writes the tree of a piece that a cut made.
func (e *emitter) node(n *node, r geom.Rect, from Cut) {
	switch n.kind {
	case free:
		e.out.Offcuts = append(e.out.Offcuts, r)
	case split:
		at := geom.Length(n.at * e.f.ux)
		if n.across {
			at = geom.Length(n.at * e.f.uy)
		}
		low, high, c := e.cut(r, from, n.across, at-e.kerf)
		e.node(n.a, low, c)
		if c.High >= 0 {
			c.Low = c.High // the piece that is gone on with
			e.node(n.b, high, c)
		}
	case leaf:
		e.leaf(n, r, from)
	}
}

// cut records a cut of r whose low piece is size wide or high. Where nothing would come off, it does nothing.
func (e *emitter) cut(r geom.Rect, from Cut, across bool, size geom.Length) (low, high geom.Rect, c Cut) {
	low, high = r, r
	c = Cut{Piece: from.Low, Of: r, Stage: from.Stage, Across: across, Slot: r, Low: e.next, High: -1}
	if from.Stage == 0 || from.Across != across {
		c.Stage++
	}
	rest := geom.Length(0)
	if across {
		c.At = r.Min.Y + size
		rest = r.Max.Y - c.At
		low.Max.Y, high.Min.Y = c.At, min(c.At+e.kerf, r.Max.Y)
		c.Slot.Min.Y, c.Slot.Max.Y = low.Max.Y, high.Min.Y
	} else {
		c.At = r.Min.X + size
		rest = r.Max.X - c.At
		low.Max.X, high.Min.X = c.At, min(c.At+e.kerf, r.Max.X)
		c.Slot.Min.X, c.Slot.Max.X = low.Max.X, high.Min.X
	}
	if rest <= 0 {
		from.High = -1
		return r, high, from
	}
	e.next++
	if rest > e.kerf {
		c.High = e.next
		e.next++
	}
	e.out.Cuts = append(e.out.Cuts, c)
	return low, high, c
}

// leaf trims r down to the part, first along the direction that leaves the larger offcut.
func (e *emitter) leaf(n *node, r geom.Rect, from Cut) {
	q := e.queue[n.item]
	part := q[0].part
	if q[0].n--; q[0].n == 0 {
		e.queue[n.item] = q[1:]
	}
	s := e.f.items[n.item].lying(n.turned)
	want := geom.Size{W: geom.Length(s[0]*e.f.ux) - e.kerf, H: geom.Length(s[1]*e.f.uy) - e.kerf}
	first := float64(r.H()-want.H)*float64(r.W()) > float64(r.W()-want.W)*float64(r.H())
	for _, across := range []bool{first, !first} {
		size := want.W
		if across {
			size = want.H
		}
		low, high, c := e.cut(r, from, across, size)
		if c.High >= 0 {
			e.out.Offcuts = append(e.out.Offcuts, high)
		}
		r, from = low, c
	}
	// Items lie with their longer side as width, so whether the part itself is turned shows only here.
	e.out.Placed = append(e.out.Placed, Placed{Part: part, Copy: e.named[part], Rect: r, Turned: want != e.parts[part].Size})
	e.named[part]++
}
