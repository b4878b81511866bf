package cutting

import (
	"fmt"
	"slices"

	"rodsheet/geom"
)

// verify checks a layout against its question: every copy of every part is there once, in its size and permitted
// orientation, inside the usable sheet, apart from its neighbours by the kerf; the parts can be had by edge-to-edge
// cuts at all; the cuts listed, made in their order, yield exactly the parts and offcuts listed; and the bound is
// believable. It shares no code with the solver. The error names the first fault.
func verify(s Sheets, l Layout) error {
	want := make([]wanted, len(s.Parts))
	for i, p := range s.Parts {
		want[i] = wanted{p.Size, p.Count, p.Grain == Free}
	}
	if err := verifyCopies(want, l.Used); err != nil {
		return err
	}
	cost, taken := 0, make([]int, len(s.Stock))
	for i, u := range l.Used {
		st := s.Stock[u.Stock]
		cost += st.Cost
		if taken[u.Stock]++; st.Count > 0 && taken[u.Stock] > st.Count {
			return fmt.Errorf("sheet %d: there are only %d of stock %d", i+1, st.Count, u.Stock)
		}
		usable := geom.Rect{Max: geom.Pt(st.Size.W, st.Size.H)}
		if len(u.Placed) == 0 {
			return fmt.Errorf("sheet %d holds no part", i+1)
		}
		if err := verifyUsed(want, u, usable, s.Kerf); err != nil {
			return fmt.Errorf("sheet %d: %w", i+1, err)
		}
	}
	switch {
	case l.Cost != cost:
		return fmt.Errorf("the sheets cost %d, told %d", cost, l.Cost)
	case l.Bound > cost:
		return fmt.Errorf("the bound of %d is above the cost of %d", l.Bound, cost)
	case l.Proved != (l.Bound == cost):
		return fmt.Errorf("proved is %v with a bound of %d for a cost of %d", l.Proved, l.Bound, cost)
	}
	return nil
}

type wanted struct {
	size geom.Size
	n    int // −1: any number
	turn bool
}

// verifyCopies checks that copies 0 … n−1 of every part occur exactly once.
func verifyCopies(want []wanted, used []Used) error {
	seen := make([][]int, len(want))
	for i, u := range used {
		for _, p := range u.Placed {
			if p.Part < 0 || p.Part >= len(want) {
				return fmt.Errorf("sheet %d: there is no part %d", i+1, p.Part)
			}
			seen[p.Part] = append(seen[p.Part], p.Copy)
		}
	}
	for i, copies := range seen {
		slices.Sort(copies)
		for k, c := range copies {
			if c != k {
				return fmt.Errorf("part %d: copy %d is missing or doubled", i, k)
			}
		}
		if n := want[i].n; n >= 0 && len(copies) != n {
			return fmt.Errorf("part %d is cut %d times and wanted %d times", i, len(copies), n)
		}
	}
	return nil
}

func verifyUsed(want []wanted, u Used, usable geom.Rect, kerf geom.Length) error {
	for i, p := range u.Placed {
		size := want[p.Part].size
		if p.Turned {
			if !want[p.Part].turn {
				return fmt.Errorf("part %d may not be turned", p.Part)
			}
			size.W, size.H = size.H, size.W
		}
		r := p.Rect
		if r.Max.X-r.Min.X != size.W || r.Max.Y-r.Min.Y != size.H {
			return fmt.Errorf("part %d has a wrong size", p.Part)
		}
		if r.Min.X < usable.Min.X || r.Min.Y < usable.Min.Y || r.Max.X > usable.Max.X || r.Max.Y > usable.Max.Y {
			return fmt.Errorf("part %d lies outside the usable stock", p.Part)
		}
		for _, q := range u.Placed[:i] {
			if !apart(r, q.Rect, kerf) {
				return fmt.Errorf("parts %d and %d lie nearer than the kerf", q.Part, p.Part)
			}
		}
	}
	rects := make([]geom.Rect, len(u.Placed))
	for i, p := range u.Placed {
		rects[i] = p.Rect
	}
	if !separable(rects, kerf) {
		return fmt.Errorf("no edge-to-edge cuts part these pieces")
	}
	return replay(u, usable, kerf)
}

// apart tells whether a saw of the given kerf passes between two rectangles.
func apart(a, b geom.Rect, kerf geom.Length) bool {
	return a.Max.X+kerf <= b.Min.X || b.Max.X+kerf <= a.Min.X || a.Max.Y+kerf <= b.Min.Y || b.Max.Y+kerf <= a.Min.Y
}

// separable tells whether edge-to-edge cuts of the kerf can part the rectangles. Any cut that misses all of them
// may be made at once without spoiling a later one, so there is nothing to try out.
func separable(rects []geom.Rect, kerf geom.Length) bool {
	if len(rects) <= 1 {
		return true
	}
	for _, vertical := range []bool{true, false} {
		lo := func(r geom.Rect) geom.Length {
			if vertical {
				return r.Min.X
			}
			return r.Min.Y
		}
		hi := func(r geom.Rect) geom.Length {
			if vertical {
				return r.Max.X
			}
			return r.Max.Y
		}
		sorted := slices.Clone(rects)
		slices.SortStableFunc(sorted, func(a, b geom.Rect) int {
			switch {
			case lo(a) < lo(b):
				return -1
			case lo(a) > lo(b):
				return 1
			}
			return 0
		})
		end := hi(sorted[0])
		for i := 1; i < len(sorted); i++ {
			if end+kerf <= lo(sorted[i]) {
				return separable(sorted[:i], kerf) && separable(sorted[i:], kerf)
			}
			end = max(end, hi(sorted[i]))
		}
	}
	return false
}

// replay makes the listed cuts one after the other and compares what lies on the bench at the end.
func replay(u Used, usable geom.Rect, kerf geom.Length) error {
	bench := map[int]geom.Rect{0: usable}
	made := map[int]bool{0: true}
	for i, c := range u.Cuts {
		r, ok := bench[c.Piece]
		if !ok {
			return fmt.Errorf("cut %d: there is no piece %d to cut", i+1, c.Piece)
		}
		if r != c.Of {
			return fmt.Errorf("cut %d: piece %d is not the rectangle it says", i+1, c.Piece)
		}
		delete(bench, c.Piece)
		low, high, slot := r, r, r
		var inside bool
		if c.Across {
			inside = c.At > r.Min.Y && c.At < r.Max.Y
			low.Max.Y, high.Min.Y = c.At, c.At+kerf
			slot.Min.Y, slot.Max.Y = c.At, min(c.At+kerf, r.Max.Y)
		} else {
			inside = c.At > r.Min.X && c.At < r.Max.X
			low.Max.X, high.Min.X = c.At, c.At+kerf
			slot.Min.X, slot.Max.X = c.At, min(c.At+kerf, r.Max.X)
		}
		if !inside {
			return fmt.Errorf("cut %d misses piece %d", i+1, c.Piece)
		}
		if slot != c.Slot {
			return fmt.Errorf("cut %d: the saw takes another strip than listed", i+1)
		}
		remains := high.Min.X < high.Max.X && high.Min.Y < high.Max.Y
		if remains != (c.High >= 0) {
			return fmt.Errorf("cut %d: what remains beyond the cut is told wrongly", i+1)
		}
		for _, n := range []int{c.Low, c.High} {
			if n >= 0 && made[n] {
				return fmt.Errorf("cut %d: piece %d exists already", i+1, n)
			}
			made[n] = true
		}
		bench[c.Low] = low
		if remains {
			bench[c.High] = high
		}
	}
	left := map[geom.Rect]int{}
	for _, r := range bench {
		left[r]++
	}
	for _, p := range u.Placed {
		if left[p.Rect] == 0 {
			return fmt.Errorf("part %d is not what the cuts yield", p.Part)
		}
		left[p.Rect]--
	}
	for _, r := range u.Offcuts {
		if left[r] == 0 {
			return fmt.Errorf("an offcut is not what the cuts yield")
		}
		left[r]--
	}
	if len(bench) != len(u.Placed)+len(u.Offcuts) {
		return fmt.Errorf("the cuts yield %d pieces, %d are listed", len(bench), len(u.Placed)+len(u.Offcuts))
	}
	return nil
}

// verifyRoll is [verify] for a roll; it also checks that the pattern matches and that what is bought suffices.
func verifyRoll(r Roll, l RollLayout) error {
	want := make([]wanted, len(r.Parts))
	for i, p := range r.Parts {
		want[i] = wanted{p.Size, p.Count, !r.Nap && r.Repeat == 0}
	}
	if err := verifyCopies(want, []Used{l.Used}); err != nil {
		return err
	}
	if len(l.Placed) > 0 {
		if err := verifyUsed(want, l.Used, geom.R(0, 0, r.Width, l.Length), 0); err != nil {
			return err
		}
	}
	if r.Repeat > 0 {
		for _, p := range l.Placed {
			if (p.Rect.Min.Y-l.Pattern-r.Parts[p.Part].Phase)%r.Repeat != 0 {
				return fmt.Errorf("part %d stands off the pattern", p.Part)
			}
		}
	}
	switch {
	case l.Bound > l.Length:
		return fmt.Errorf("the bound of %v is above the length of %v", l.Bound, l.Length)
	case l.Proved != (l.Bound == l.Length):
		return fmt.Errorf("proved is %v with a bound of %v for %v", l.Proved, l.Bound, l.Length)
	case l.Buy < l.Length || l.BuyAnywhere < l.Buy:
		return fmt.Errorf("%v is bought for %v", l.Buy, l.Length)
	case r.Unit > 0 && (l.Buy%r.Unit != 0 || l.Buy-l.Length >= r.Unit || l.Buy != geom.Length(l.Units)*r.Unit):
		return fmt.Errorf("%v bought is not the next whole number of %v above %v", l.Buy, r.Unit, l.Length)
	}
	return nil
}
