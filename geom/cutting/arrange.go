package cutting

import (
	"cmp"
	"slices"
)

// A slab is an item, or blocks side by side that cuts in one direction part. Directions alternate.
type slab struct {
	w, h   int64
	item   int
	turned bool
	across bool    // parts lie one above the other
	parts  []*slab // none: an item
}

// along is the size of s across the cuts of the slab it is part of.
func (s *slab) along(across bool) int64 {
	if across {
		return s.h
	}
	return s.w
}

// tight makes slabs of a tree, each no larger than its items; nil where there are none.
func tight(n *node, items []item) *slab {
	switch n.kind {
	case leaf:
		s := items[n.item].sides()[0]
		if n.turned {
			s = items[n.item].sides()[1]
		}
		return &slab{w: s[0], h: s[1], item: n.item, turned: n.turned}
	case split:
		return beside(n.across, tight(n.a, items), tight(n.b, items))
	}
	return nil
}

// beside joins slabs, those of the same direction into one, larger ones first.
func beside(across bool, list ...*slab) *slab {
	s := &slab{across: across}
	for _, p := range list {
		switch {
		case p == nil:
		case p.parts != nil && p.across == across:
			s.parts = append(s.parts, p.parts...)
		default:
			s.parts = append(s.parts, p)
		}
	}
	if len(s.parts) < 2 {
		return slices.Concat(s.parts, []*slab{nil})[0]
	}
	slices.SortStableFunc(s.parts, func(a, b *slab) int { return cmp.Compare(b.along(across), a.along(across)) })
	for _, p := range s.parts {
		if across {
			s.w, s.h = max(s.w, p.w), s.h+p.h
		} else {
			s.w, s.h = s.w+p.w, max(s.h, p.h)
		}
	}
	return s
}

// lay cuts the slab out of a free node. What is left beyond it is cut off first where that is one cut instead of one
// for each part, and on the whole sheet, so that it stays in one piece.
func (s *slab) lay(n *node, whole bool) {
	if s.parts == nil {
		n.put(s.item, s.turned, s.w, s.h, (n.h-s.h)*n.w > (n.w-s.w)*n.h)
		return
	}
	if high := s.along(!s.across); high < (&slab{w: n.w, h: n.h}).along(!s.across) {
		equal := !slices.ContainsFunc(s.parts, func(p *slab) bool { return p.along(!s.across) != high })
		if whole || equal {
			n, _ = n.cutAt(!s.across, high)
		}
	}
	for _, p := range s.parts {
		low := n
		if size := p.along(s.across); size < (&slab{w: n.w, h: n.h}).along(s.across) {
			low, n = n.cutAt(s.across, size)
		}
		p.lay(low, false)
	}
}
