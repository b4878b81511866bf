package cover

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A candidate is a set of marks that one page can hold and that no further mark can join.
type candidate struct {
	marks []int     // ascending
	box   geom.Rect // what they take with their clearance
}

// candidates returns the sets that pages can hold, each once, in order of their marks. Any window can be slid up and
// right until its left and lower edges touch marks and lose none, so only such windows are looked at.
func (p WindowProblem) candidates() []candidate {
	s := newSquares(p)
	var out []candidate
	for _, size := range p.Windows {
		for at, first := range s.order {
			left := s.box[first]
			if !holds(size, left) || at > 0 && s.box[s.order[at-1]] == left {
				continue
			}
			for _, c := range s.touching(left, size) {
				if !s.canGrow(c) {
					out = append(out, c)
				}
			}
		}
	}
	slices.SortFunc(out, func(c, d candidate) int { return slices.Compare(c.marks, d.marks) })
	return slices.CompactFunc(out, func(c, d candidate) bool { return slices.Equal(c.marks, d.marks) })
}

// squares are the marks' circles with clearance, in order of their left edges.
type squares struct {
	WindowProblem
	box    []geom.Rect // by mark
	order  []int       // the marks from left to right
	widest geom.Length
	reach  geom.Length // the widest window
}

func newSquares(p WindowProblem) squares {
	s := squares{WindowProblem: p, box: make([]geom.Rect, len(p.Marks)), order: make([]int, len(p.Marks))}
	for i, m := range p.Marks {
		s.box[i], s.order[i] = m.box(p.Clear), i
		s.widest = max(s.widest, s.box[i].W())
	}
	for _, w := range p.Windows {
		s.reach = max(s.reach, w.W)
	}
	slices.SortFunc(s.order, func(i, j int) int {
		return cmp.Or(cmp.Compare(s.box[i].Min.X, s.box[j].Min.X), cmp.Compare(s.box[i].Min.Y, s.box[j].Min.Y), cmp.Compare(i, j))
	})
	return s
}

// from returns the marks whose left edges lie in from..to, from left to right.
func (s squares) from(from, to geom.Length) []int {
	search := func(x geom.Length) int {
		i, _ := slices.BinarySearchFunc(s.order, x, func(k int, x geom.Length) int { return cmp.Compare(s.box[k].Min.X, x) })
		return i
	}
	return s.order[search(from):search(to+1)]
}

// touching returns what windows of the size hold that touch left with their left edge and hold it, one for each lower
// edge that touches a mark.
func (s squares) touching(left geom.Rect, size geom.Size) []candidate {
	var in []int
	for _, k := range s.from(left.Min.X, left.Min.X+size.W) {
		if holds(size, left.Union(s.box[k])) {
			in = append(in, k)
		}
	}
	slices.SortFunc(in, func(i, j int) int { return cmp.Or(cmp.Compare(s.box[i].Min.Y, s.box[j].Min.Y), cmp.Compare(i, j)) })
	var out []candidate
	for n, low := range in {
		bottom := s.box[low].Min.Y
		if bottom > left.Min.Y {
			break
		}
		if left.Max.Y > bottom+size.H || n > 0 && s.box[in[n-1]].Min.Y == bottom {
			continue
		}
		c := candidate{box: left}
		for _, k := range in[n:] {
			if s.box[k].Max.Y <= bottom+size.H {
				c.marks, c.box = append(c.marks, k), c.box.Union(s.box[k])
			}
		}
		slices.Sort(c.marks)
		out = append(out, c)
	}
	return out
}

// canGrow reports whether some page can hold a further mark besides those of c.
func (s squares) canGrow(c candidate) bool {
	return slices.ContainsFunc(s.from(c.box.Max.X-s.reach-s.widest, c.box.Min.X+s.reach), func(k int) bool {
		_, in := slices.BinarySearch(c.marks, k)
		return !in && s.fits(c.box.Union(s.box[k]))
	})
}
