package cover

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// maxAlong limits the windows along one axis.
const maxAlong = 10_000

// An axis is the problem in one direction: show lo to hi through windows of the given length that overlap by 2·half,
// with seams at least clear off each mark.
type axis struct {
	lo, hi              geom.Length
	window, half, clear geom.Length
	at, r               []geom.Length // the marks
}

// A seam lies at the middle of an overlap of 2·half.
type seam struct{ at, half geom.Length }

// A strip is a solved axis.
type strip struct {
	spans   []geom.Span
	whole   []int // marks that a seam comes too near; they stand whole in both windows
	fewest  int   // no strip has fewer windows
	reduced bool  // no strip keeps all marks clear
}

func (a axis) pitch() geom.Length { return a.window - 2*a.half }

// solve returns the strip with the fewest windows: all seams clear if that can be had at any number, in equal steps
// if that takes no more windows; else with marks that stand whole on both sides of a seam. It fails when a mark
// leaves no place for a seam at all, or when more than maxAlong windows are needed.
func (a axis) solve() (strip, bool) {
	if a.hi-a.lo <= a.window {
		from := a.lo - (a.window-(a.hi-a.lo))/2
		return strip{spans: []geom.Span{{From: from, To: from + a.window}}, fewest: 1}, true
	}
	near, wide := a.forbidden(0), a.forbidden(a.clear)
	if far, ok := a.farthestSeams(near); ok {
		if s, ok := a.equalSteps(len(far) + 1); ok {
			return s, true
		}
		return a.evenSeams(far, near, wide), true
	}
	seams, whole, ok := a.seamsThroughWhole(near, true)
	if !ok {
		return strip{}, false
	}
	least, _, ok := a.seamsThroughWhole(near, false)
	if !ok {
		return strip{}, false
	}
	return strip{spans: a.spans(seams), whole: whole, fewest: len(least) + 1, reduced: true}, true
}

// farthestSeams puts each seam as far up as it will go; ok is false where that doesn't reach the end. Seams that go
// less far can never reach farther, so no strip of clear seams has fewer.
func (a axis) farthestSeams(near intervals) (seams []geom.Length, ok bool) {
	start := a.lo // of the window that is being filled
	for start+a.window < a.hi {
		s := near.lastFree(start + a.window - a.half)
		if s-a.half <= start || len(seams)+1 >= maxAlong {
			return nil, false
		}
		seams = append(seams, s)
		start = s - a.half
	}
	return seams, true
}

// equalSteps lays n windows at one pitch, the drawing in their middle if the marks leave that free, n ≥ 2.
func (a axis) equalSteps(n int) (strip, bool) {
	p := a.pitch()
	lo, hi := a.hi-(geom.Length(n-1)*p+a.window), a.lo // where the first window may start
	if lo > hi {
		return strip{}, false
	}
	var near, wide []geom.Span
	first := a.window - a.half // from the first window's start to the first seam
	for i, x := range a.at {
		d := a.r[i] + a.clear
		far := d + a.clear
		k0 := max(0, (x-far-first-hi)/p-1)
		k1 := min(geom.Length(n-2), (x+far-first-lo)/p+1)
		for k := k0; k <= k1; k++ {
			c := x - first - k*p
			near = append(near, geom.Span{From: c - d, To: c + d})
			wide = append(wide, geom.Span{From: c - far, To: c + far})
		}
	}
	from, ok := bestFree(merged(near), merged(wide), lo, hi, lo+(hi-lo)/2, a.clear)
	if !ok {
		return strip{}, false
	}
	spans := make([]geom.Span, n)
	for i := range spans {
		spans[i] = geom.Span{From: from, To: from + a.window}
		from += p
	}
	return strip{spans: spans, fewest: n}, true
}

// evenSeams places as many seams as farthestSeams found, each as near to even as the others leave it. far are the
// highest places; the lowest are found from the other end. As the number is the least, the two never pass each other.
func (a axis) evenSeams(far []geom.Length, near, wide intervals) strip {
	n := len(far)
	lowest := make([]geom.Length, n)
	need := a.hi - a.window + a.half
	for i := n - 1; i >= 0; i-- {
		lowest[i] = near.firstFree(need)
		need = lowest[i] - a.pitch()
	}
	seams := make([]seam, n)
	for i := range seams {
		hi := far[i]
		if i > 0 {
			hi = min(hi, seams[i-1].at+a.pitch())
		}
		even := a.lo + (a.hi-a.lo)/geom.Length(n+1)*geom.Length(i+1)
		s, _ := bestFree(near, wide, lowest[i], hi, even, a.clear)
		seams[i] = seam{s, a.half}
	}
	return strip{spans: a.spans(seams), fewest: n + 1}
}

// spans returns the windows between seams; the outer two reach out as far as a page does.
func (a axis) spans(seams []seam) []geom.Span {
	out := make([]geom.Span, len(seams)+1)
	for i := range out {
		if i > 0 {
			out[i].From = seams[i-1].at - seams[i-1].half
		}
		if i < len(seams) {
			out[i].To = seams[i].at + seams[i].half
		}
	}
	out[0].From = out[0].To - a.window
	last := &out[len(out)-1]
	last.To = last.From + a.window
	return out
}

// seamsThroughWhole pushes each seam as far as it will go where a seam is also allowed beside or through a mark that
// stands whole in both windows; with preferClear only where no clear place is in reach. It returns the seams and those
// marks.
func (a axis) seamsThroughWhole(near intervals, preferClear bool) ([]seam, []int, bool) {
	var seams []seam
	whole := map[int]bool{}
	for start := a.lo; start+a.window < a.hi; {
		end := start + a.window
		s := seam{near.lastFree(end - a.half), a.half}
		clear := s.at-a.half > start
		if !clear || !preferClear {
			if t, ok := a.besideMarks(start, end); ok && (!clear || t.at-t.half > s.at-s.half) {
				s = t
			} else if !clear {
				return nil, nil, false
			}
		}
		if len(seams)+1 >= maxAlong {
			return nil, nil, false
		}
		seams = append(seams, s)
		start = s.at - s.half
		for i, x := range a.at {
			if (x - s.at).Abs() < a.r[i]+a.clear {
				whole[i] = true
			}
		}
	}
	out := make([]int, 0, len(whole))
	for i := range whole {
		out = append(out, i)
	}
	slices.Sort(out)
	return seams, out, true
}

// besideMarks finds the seam whose overlap ends by end, holds whole every mark the seam comes too near, and starts
// as far up as can be, above start. Between two places where the set of those marks changes, the start only grows
// with the seam, so the seams just before each such place and those that just reach end are all that need trying.
func (a axis) besideMarks(start, end geom.Length) (seam, bool) {
	var in []int
	for i, x := range a.at {
		if d := a.r[i] + a.clear; x+d > start && x-d < end {
			in = append(in, i)
		}
	}
	tries := []geom.Length{end - a.half}
	for _, i := range in {
		x, d := a.at[i], a.r[i]+a.clear
		tries = append(tries, x-d, x-d-1, x+d, x+d-1, start+(end-a.r[i]+x-2*start)/2)
	}
	slices.Sort(tries)
	var best seam
	found := false
	for _, s := range slices.Compact(tries) {
		half := a.half
		for _, i := range in {
			if d := (a.at[i] - s).Abs(); d < a.r[i]+a.clear {
				half = max(half, d+a.r[i])
			}
		}
		if s+half <= end && s-half > start && (!found || s-half > best.at-best.half) {
			best, found = seam{s, half}, true
		}
	}
	return best, found
}

// forbidden returns where no seam may lie, with so much more clearance than asked for.
func (a axis) forbidden(more geom.Length) intervals {
	open := make([]geom.Span, len(a.at))
	for i, x := range a.at {
		d := a.r[i] + a.clear + more
		open[i] = geom.Span{From: x - d, To: x + d}
	}
	return merged(open)
}

// intervals are open stretches of an axis in ascending order that don't overlap; two may share an end, which belongs
// to neither.
type intervals []geom.Span

// merged puts open stretches in order and joins those that overlap.
func merged(open []geom.Span) intervals {
	slices.SortFunc(open, func(p, q geom.Span) int { return cmp.Or(cmp.Compare(p.From, q.From), cmp.Compare(p.To, q.To)) })
	out := open[:0]
	for _, s := range open {
		switch n := len(out); {
		case s.From >= s.To:
		case n > 0 && s.From < out[n-1].To:
			out[n-1].To = max(out[n-1].To, s.To)
		default:
			out = append(out, s)
		}
	}
	return out
}

// at returns the interval that holds s.
func (v intervals) at(s geom.Length) (geom.Span, bool) {
	i, _ := slices.BinarySearchFunc(v, s, func(b geom.Span, s geom.Length) int {
		if b.To <= s {
			return -1
		}
		return 1
	})
	if i < len(v) && v[i].From < s {
		return v[i], true
	}
	return geom.Span{}, false
}

// lastFree returns the largest place not above s that is in no interval.
func (v intervals) lastFree(s geom.Length) geom.Length {
	if b, ok := v.at(s); ok {
		return b.From
	}
	return s
}

// firstFree returns the smallest place not below s that is in no interval.
func (v intervals) firstFree(s geom.Length) geom.Length {
	if b, ok := v.at(s); ok {
		return b.To
	}
	return s
}

// bestFree chooses a place in lo..hi outside the near intervals: one outside the wide ones if there is one, the
// nearest to ideal; else the one with the most room to the near intervals on both sides, then the nearest to ideal,
// then the lowest. The wide intervals are the near ones grown by enough, which is as much room as counts.
func bestFree(near, wide intervals, lo, hi, ideal, enough geom.Length) (geom.Length, bool) {
	if lo > hi {
		return 0, false
	}
	ideal = min(max(ideal, lo), hi)
	b, inWide := wide.at(ideal)
	if !inWide {
		return ideal, true
	}
	down, up := b.From >= lo, b.To <= hi
	switch {
	case down && (!up || ideal-b.From <= b.To-ideal):
		return b.From, true
	case up:
		return b.To, true
	}
	var best, room geom.Length
	found := false
	for i := 0; i <= len(near); i++ {
		// The gap below interval i: it has a lower end where i > 0, an upper one where i < len(near).
		l, h := lo, hi
		if i > 0 {
			l = max(l, near[i-1].To)
		}
		if i < len(near) {
			h = min(h, near[i].From)
		}
		if l > h {
			continue
		}
		s, slack := ideal, enough
		switch {
		case i > 0 && i < len(near):
			s = near[i-1].To + (near[i].From-near[i-1].To)/2
		case i > 0:
			s = h
		case i < len(near):
			s = l
		}
		s = min(max(s, l), h)
		if i > 0 {
			slack = min(slack, s-near[i-1].To)
		}
		if i < len(near) {
			slack = min(slack, near[i].From-s)
		}
		if !found || slack > room || slack == room && (s-ideal).Abs() < (best-ideal).Abs() {
			best, room, found = s, slack, true
		}
	}
	return best, found
}
