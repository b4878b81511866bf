package cover

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// mostAlong limits the windows along one axis.
const mostAlong = 10_000

// A Span is a stretch of one axis, From ≤ To.
type Span struct{ From, To geom.Length }

// Len returns the length of the span.
func (s Span) Len() geom.Length { return s.To - s.From }

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
	spans   []Span
	whole   []int       // marks that a seam comes too near; they stand whole in both windows
	slack   geom.Length // how much more than clear the seams keep off the marks, counted up to clear
	equal   bool        // all steps are equal
	fewest  int         // no strip has fewer windows
	reduced bool        // no strip keeps all marks clear
}

func (a axis) pitch() geom.Length { return a.window - 2*a.half }

// merged puts open stretches in order and joins those that overlap. Stretches that only touch stay two, as a seam may
// lie between them.
func merged(open []Span) []Span {
	slices.SortFunc(open, func(p, q Span) int { return cmp.Or(cmp.Compare(p.From, q.From), cmp.Compare(p.To, q.To)) })
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

// blocks returns where no seam may lie, with more clearance than asked for.
func (a axis) blocks(more geom.Length) []Span {
	open := make([]Span, len(a.at))
	for i, x := range a.at {
		d := a.r[i] + a.clear + more
		open[i] = Span{x - d, x + d}
	}
	return merged(open)
}

// blocked finds the stretch that holds s inside it.
func blocked(blocks []Span, s geom.Length) (Span, bool) {
	i, _ := slices.BinarySearchFunc(blocks, s, func(b Span, s geom.Length) int {
		if b.To <= s {
			return -1
		}
		return 1
	})
	if i < len(blocks) && blocks[i].From < s {
		return blocks[i], true
	}
	return Span{}, false
}

// below returns the largest free place that is not above s, above the smallest that is not below it.
func below(blocks []Span, s geom.Length) geom.Length {
	if b, ok := blocked(blocks, s); ok {
		return b.From
	}
	return s
}

func above(blocks []Span, s geom.Length) geom.Length {
	if b, ok := blocked(blocks, s); ok {
		return b.To
	}
	return s
}

// pick chooses a free place in lo..hi: one that stays off the wide blocks if there is one, the nearest to ideal;
// else the one with the most room to the blocks on both sides, then the nearest to ideal, then the lowest. wide are
// the blocks grown by enough, which is as much room as counts. The second result is the room found.
func pick(blocks, wide []Span, lo, hi, ideal, enough geom.Length) (geom.Length, geom.Length, bool) {
	if lo > hi {
		return 0, 0, false
	}
	ideal = min(max(ideal, lo), hi)
	b, is := blocked(wide, ideal)
	if !is {
		return ideal, enough, true
	}
	down, up := b.From >= lo, b.To <= hi
	switch {
	case down && (!up || ideal-b.From <= b.To-ideal):
		return b.From, enough, true
	case up:
		return b.To, enough, true
	}
	var best, room geom.Length
	found := false
	try := func(from, to geom.Length, openFrom, openTo bool) {
		l, h := lo, hi
		if !openFrom {
			l = max(l, from)
		}
		if !openTo {
			h = min(h, to)
		}
		if l > h {
			return
		}
		s, slack := ideal, enough
		switch {
		case openFrom && openTo:
		case openFrom:
			s = l
		case openTo:
			s = h
		default:
			s = from + (to-from)/2
		}
		s = min(max(s, l), h)
		if !openFrom {
			slack = min(slack, s-from)
		}
		if !openTo {
			slack = min(slack, to-s)
		}
		if !found || slack > room || slack == room && (s-ideal).Abs() < (best-ideal).Abs() {
			best, room, found = s, slack, true
		}
	}
	for i := 0; i <= len(blocks); i++ {
		var from, to geom.Length
		if i > 0 {
			from = blocks[i-1].To
		}
		if i < len(blocks) {
			to = blocks[i].From
		}
		try(from, to, i == 0, i == len(blocks))
	}
	return best, room, found
}

// solve returns the strip with the fewest windows: all seams clear if that can be had at any number, in equal steps
// if that takes no more windows; else with marks that stand whole on both sides of a seam. It fails when a mark
// leaves no place for a seam at all, or when more than mostAlong windows are needed.
func (a axis) solve() (strip, bool) {
	if a.hi-a.lo <= a.window {
		from := a.lo - (a.window-(a.hi-a.lo))/2
		return strip{spans: []Span{{from, from + a.window}}, slack: a.clear, equal: true, fewest: 1}, true
	}
	blocks, wide := a.blocks(0), a.blocks(a.clear)
	if far, ok := a.pushed(blocks); ok {
		if s, ok := a.equalSteps(len(far) + 1); ok {
			return s, true
		}
		return a.unequal(far, blocks, wide), true
	}
	seams, whole, ok := a.mixed(blocks, true)
	if !ok {
		return strip{}, false
	}
	least, _, ok := a.mixed(blocks, false)
	if !ok {
		return strip{}, false
	}
	return strip{spans: a.spans(seams), whole: whole, fewest: len(least) + 1, reduced: true}, true
}

// pushed puts each seam as far up as it will go; it tells whether that reaches the end. Seams that go less far can
// never reach farther, so no strip of clear seams has fewer.
func (a axis) pushed(blocks []Span) ([]geom.Length, bool) {
	var seams []geom.Length
	start := a.lo // of the window that is being filled
	for start+a.window < a.hi {
		s := below(blocks, start+a.window-a.half)
		if s-a.half <= start || len(seams)+1 >= mostAlong {
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
	var open, wide []Span
	first := a.window - a.half // from the first window's start to the first seam
	for i, x := range a.at {
		d := a.r[i] + a.clear
		far := d + a.clear
		k0 := max(0, (x-far-first-hi)/p-1)
		k1 := min(geom.Length(n-2), (x+far-first-lo)/p+1)
		for k := k0; k <= k1; k++ {
			c := x - first - k*p
			open = append(open, Span{c - d, c + d})
			wide = append(wide, Span{c - far, c + far})
		}
	}
	from, slack, ok := pick(merged(open), merged(wide), lo, hi, lo+(hi-lo)/2, a.clear)
	if !ok {
		return strip{}, false
	}
	spans := make([]Span, n)
	for i := range spans {
		spans[i] = Span{from, from + a.window}
		from += p
	}
	return strip{spans: spans, slack: slack, equal: true, fewest: n}, true
}

// unequal places as many seams as pushed found, each as near to even as the others leave it. far are the highest
// places; the lowest are found from the other end. As the number is the least, the two never pass each other.
func (a axis) unequal(far []geom.Length, blocks, wide []Span) strip {
	n := len(far)
	near := make([]geom.Length, n)
	need := a.hi - a.window + a.half
	for i := n - 1; i >= 0; i-- {
		near[i] = above(blocks, need)
		need = near[i] - a.pitch()
	}
	seams := make([]seam, n)
	slack := a.clear
	for i := range seams {
		hi := far[i]
		if i > 0 {
			hi = min(hi, seams[i-1].at+a.pitch())
		}
		even := a.lo + (a.hi-a.lo)/geom.Length(n+1)*geom.Length(i+1)
		s, room, _ := pick(blocks, wide, near[i], hi, even, a.clear)
		seams[i] = seam{s, a.half}
		slack = min(slack, room)
	}
	return strip{spans: a.spans(seams), slack: slack, fewest: n + 1}
}

// spans returns the windows between seams; the outer two reach out as far as a page does.
func (a axis) spans(seams []seam) []Span {
	out := make([]Span, len(seams)+1)
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

// mixed pushes each seam as far as it will go where a seam is also allowed beside or through a mark that stands
// whole in both windows; with preferClear only where no clear place is in reach. It returns the seams and those marks.
func (a axis) mixed(blocks []Span, preferClear bool) ([]seam, []int, bool) {
	var seams []seam
	whole := map[int]bool{}
	for start := a.lo; start+a.window < a.hi; {
		end := start + a.window
		s := seam{below(blocks, end-a.half), a.half}
		clear := s.at-a.half > start
		if !clear || !preferClear {
			if t, ok := a.besideMarks(start, end); ok && (!clear || t.at-t.half > s.at-s.half) {
				s = t
			} else if !clear {
				return nil, nil, false
			}
		}
		if len(seams)+1 >= mostAlong {
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
