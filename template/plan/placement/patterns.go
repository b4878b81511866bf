package placement

import "slices"

// patterns finds a pattern for each board; nil where what is forbidden leaves none.
func (g *grid) patterns(boards []Obstacles, follow bool) []*pattern {
	if follow {
		return g.followStuds(boards)
	}
	found := make([]*pattern, len(boards))
	rest := make([]int, len(boards))
	for i := range rest {
		rest[i] = i
	}
	// One pattern for all where possible; those on which it is spoilt share the next, and so on.
	for len(rest) > 0 {
		best, ok := g.search(boards, rest)
		if !ok {
			break
		}
		var kept, spoilt []int
		for _, i := range rest {
			if best.spoils(&boards[i]) {
				spoilt = append(spoilt, i)
			} else {
				kept = append(kept, i)
			}
		}
		if len(kept) == 0 {
			break
		}
		if len(spoilt) > 0 {
			if again, ok := g.search(boards, kept); ok {
				best = again
			}
		}
		for _, i := range kept {
			found[i] = &best
		}
		rest = spoilt
	}
	return found
}

// search is the best pattern for some of the boards: within a quarter of the board from the clear corners, or further
// in where that spoils fewer.
func (g *grid) search(boards []Obstacles, which []int) (best pattern, ok bool) {
	g.boards = g.boards[:0]
	for _, i := range which {
		g.boards = append(g.boards, &boards[i])
	}
	g.far = false
	best, top, ok := g.best()
	if !ok || top.spoiled > 0 {
		g.far = true
		if further, s, fine := g.best(); fine && (!ok || s.spoiled < top.spoiled) {
			best, ok = further, true
		}
	}
	return best, ok
}

// followStuds gives every board a pattern with as much wood as it can have, then symmetry; of those as few different
// ones as can be found by taking, again and again, the pattern that serves most boards.
func (g *grid) followStuds(boards []Obstacles) []*pattern {
	found := make([]*pattern, len(boards))
	scores := make([]score, len(boards))
	var candidates []pattern
	var open []int
	for i := range boards {
		best, ok := g.search(boards, []int{i})
		if !ok || best.spoils(&boards[i]) {
			continue
		}
		scores[i] = g.scoreAt(best, &boards[i])
		open = append(open, i)
		if !slices.ContainsFunc(candidates, best.equal) {
			candidates = append(candidates, best)
		}
	}
	for len(open) > 0 {
		var served []int
		var top score
		var best pattern
		for _, c := range candidates {
			var serves []int
			for _, i := range open {
				if g.scoreAt(c, &boards[i]).leading() == scores[i].leading() {
					serves = append(serves, i)
				}
			}
			s := g.scoreAt(c, &boards[open[0]])
			s = score{stance: s.stance, extent: s.extent, lowest: s.lowest, lefter: s.lefter}
			if len(serves) > len(served) || len(serves) == len(served) && s.cmp(top) < 0 {
				served, top, best = serves, s, c
			}
		}
		for _, i := range served {
			found[i] = &best
		}
		open = slices.DeleteFunc(open, func(i int) bool { return found[i] != nil })
	}
	return found
}
