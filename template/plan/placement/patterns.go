package placement

import "slices"

// patterns finds a pattern for each board; nil where what is forbidden leaves none within the stance floor.
func (g *grid) patterns(boards []Obstacles, follow bool) []*pattern {
	found := make([]*pattern, len(boards))
	alone := make([]*branch, len(boards))
	var open []int
	for i := range boards {
		if follow || len(boards[i].Forbidden) > 0 {
			if alone[i] = g.alone(boards, alone, i); alone[i] == nil {
				continue
			}
		}
		open = append(open, i)
	}
	if follow {
		g.group(boards, alone, open, found)
	} else {
		g.share(boards, open, found, false)
	}
	return found
}

// alone is the best pattern for one board, as for an earlier one with the same behind it.
func (g *grid) alone(boards []Obstacles, known []*branch, i int) *branch {
	for j := range i {
		if known[j] != nil && boards[i].equal(&boards[j]) {
			return known[j]
		}
	}
	return g.best([]*Obstacles{&boards[i]}, false)
}

// share gives boards one pattern where possible; those that go without it share the next, and so on.
func (g *grid) share(boards []Obstacles, open []int, found []*pattern, narrow bool) {
	for len(open) > 0 {
		some := make([]*Obstacles, len(open))
		for k, i := range open {
			some[k] = &boards[i]
		}
		best := g.best(some, narrow)
		if best == nil {
			if len(open) == 1 {
				return
			}
			for _, i := range open { // each for itself
				g.share(boards, []int{i}, found, narrow)
			}
			return
		}
		var rest []int
		for k, i := range open {
			if best.without[k] {
				rest = append(rest, i)
			} else {
				found[i] = &best.pattern
			}
		}
		open = rest
	}
}

// group gives each board as much wood as it can have, then symmetry, then the widest stance; boards share a pattern where it
// costs none of them any of the three.
func (g *grid) group(boards []Obstacles, alone []*branch, open []int, found []*pattern) {
	type group struct {
		members []int
		wood    int // of all members
		best    *branch
	}
	var groups []*group
next:
	for _, i := range open {
		own := alone[i]
		for _, h := range groups {
			if !h.best.as(&own.score) {
				continue
			}
			if h.best.spoils(&boards[i]) == nil && h.best.inWood(&boards[i]) == own.score.wood {
				h.members, h.wood = append(h.members, i), h.wood+own.score.wood
				continue next
			}
			all := []*Obstacles{&boards[i]}
			for _, m := range h.members {
				all = append(all, &boards[m])
			}
			both := g.best(all, false)
			if both != nil && both.score.without == 0 && both.score.wood == h.wood+own.score.wood && both.as(&own.score) {
				h.members, h.wood, h.best = append(h.members, i), both.score.wood, both
				continue next
			}
		}
		groups = append(groups, &group{[]int{i}, own.score.wood, own})
	}
	for _, h := range groups {
		for _, i := range h.members {
			found[i] = &h.best.pattern
		}
	}
}

// equal reports whether the same things stand behind two boards.
func (b *Obstacles) equal(o *Obstacles) bool {
	return slices.Equal(b.Studs, o.Studs) && slices.Equal(b.Rails, o.Rails) && slices.Equal(b.Forbidden, o.Forbidden)
}
