package stack

import (
	"cmp"
	"math"
	"slices"

	"rodsheet/geom"
)

// A sum is what some pieces add up to, with the fewest that do.
type sum struct {
	made   geom.Length
	pieces int32
	taken  bool // one of the pieces is of the layer's own kind
}

// A group is some kinds, thinnest first, with the sums they can make: layer i holds those of the first i kinds, in
// order. Layer 0 holds nothing but the empty sum.
type group struct {
	kinds  []geom.Length
	layers [][]sum
}

// newGroup lists the layers up to top.
func newGroup(kinds []geom.Length, top geom.Length) (group, error) {
	g := group{kinds: slices.Clone(kinds), layers: [][]sum{{{}}}}
	slices.Reverse(g.kinds)
	room := maxSums
	for _, t := range g.kinds {
		layer := addKind(g.last(), t, top, room)
		if layer == nil {
			return group{}, refuse("the stock makes too many sums up to %v to look through them all: leave out a thin one, such as %v", top, g.kinds[0])
		}
		g.layers, room = append(g.layers, layer), room-len(layer)
	}
	return g, nil
}

// addKind returns the layer of the sums in old and of those with any number of pieces t besides, up to top: old merged
// with the new layer itself, moved up by t. Where both make a sum of equally many pieces, the one with t wins, as it
// is the thicker. It returns nil when there are more than room.
func addKind(old []sum, t, top geom.Length, room int) []sum {
	out := make([]sum, 0, min(room, 2*len(old)))
	for i, from := 0, 0; ; {
		next := sum{made: math.MaxInt64}
		if from < len(out) && out[from].made+t <= top {
			next = sum{out[from].made + t, out[from].pieces + 1, true}
		}
		s := next
		switch {
		case i < len(old) && (!next.taken || old[i].made <= next.made):
			if old[i].made == next.made {
				from++
			}
			if old[i].made < next.made || old[i].pieces < next.pieces {
				s = sum{old[i].made, old[i].pieces, false}
			}
			i++
		case next.taken:
			from++
		default:
			return out
		}
		if len(out) == room {
			return nil
		}
		out = append(out, s)
	}
}

func (g group) last() []sum { return g.layers[len(g.layers)-1] }

// take appends the pieces that make the sum, which must be in the last layer.
func (g group) take(to []geom.Length, made geom.Length) []geom.Length {
	for k := len(g.kinds); k > 0; {
		i, _ := slices.BinarySearchFunc(g.layers[k], made, func(s sum, l geom.Length) int { return cmp.Compare(s.made, l) })
		if !g.layers[k][i].taken {
			k--
			continue
		}
		to = append(to, g.kinds[k-1])
		made -= g.kinds[k-1]
	}
	return to
}

// A pair of groups makes every sum of one with every sum of the other.
type pair struct{ a, b group }

// fewest returns the smallest number of pieces, at least one, that make a sum in lo..hi. As the one list goes up, the
// stretch of the other that fits goes down; rising holds the stretch's candidates for the minimum.
func (p pair) fewest(lo, hi geom.Length) (int32, bool) {
	a, b := p.a.last(), p.b.last()
	var rising []sum
	best, found := int32(0), false
	next := len(b) - 1
	for _, s := range a {
		for ; next >= 0 && s.made+b[next].made >= lo; next-- {
			for len(rising) > 0 && rising[len(rising)-1].pieces >= b[next].pieces {
				rising = rising[:len(rising)-1]
			}
			rising = append(rising, b[next])
		}
		for len(rising) > 0 && s.made+rising[0].made > hi {
			rising = rising[1:]
		}
		if len(rising) > 0 && (!found || s.pieces+rising[0].pieces < best) {
			best, found = s.pieces+rising[0].pieces, true
		}
	}
	return best, found
}

// nearest returns how far from height the nearest sum of n pieces is; there must be one.
func (p pair) nearest(height geom.Length, n int32) geom.Length {
	byCount := func(sums []sum) [][]geom.Length {
		out := make([][]geom.Length, n+1)
		for _, s := range sums {
			if s.pieces <= n {
				out[s.pieces] = append(out[s.pieces], s.made)
			}
		}
		return out
	}
	as, bs := byCount(p.a.last()), byCount(p.b.last())
	off := geom.Length(math.MaxInt64)
	for k, a := range as {
		b := bs[int(n)-k]
		for i, j := 0, len(b)-1; i < len(a) && j >= 0; {
			d := a[i] + b[j] - height
			off = min(off, d.Abs())
			if d > 0 {
				j--
			} else {
				i++
			}
		}
	}
	return off
}

// neighbours returns the largest sum under height and the smallest over it. There is always one over it, as the lists
// reach further than one thinnest piece beyond the height.
func (p pair) neighbours(height geom.Length) (under, over geom.Length) {
	a, b := p.a.last(), p.b.last()
	over = math.MaxInt64
	for i, j := 0, len(b)-1; i < len(a) && j >= 0; {
		if s := a[i].made + b[j].made; s > height {
			over = min(over, s)
			j--
		} else {
			under = max(under, s)
			i++
		}
	}
	return under, over
}

// best returns the stack of exactly the height made with the fewest pieces, the one with thicker pieces first among
// equals; nil when there is none, or none of n pieces, if n is not 0.
func (p pair) best(made geom.Length, n int32) *Stack {
	a, b := p.a.last(), p.b.last()
	var best *Stack
	for i, j := 0, len(b)-1; i < len(a) && j >= 0; {
		switch s := a[i].made + b[j].made; {
		case s > made:
			j--
		case s < made:
			i++
		default:
			k := a[i].pieces + b[j].pieces
			if (n == 0 || k == n) && (best == nil || int(k) <= len(best.Pieces)) {
				pieces := p.b.take(p.a.take(nil, a[i].made), b[j].made)
				slices.SortFunc(pieces, func(s, t geom.Length) int { return cmp.Compare(t, s) })
				if best == nil || len(pieces) < len(best.Pieces) || slices.Compare(pieces, best.Pieces) > 0 {
					best = &Stack{pieces, made}
				}
			}
			i++
			j--
		}
	}
	return best
}
