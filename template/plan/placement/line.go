package placement

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A line is one axis of a [grid]: where its columns (or rows) may stand, and what they meet there. Columns but the last
// stand whole steps from the left end, the last from the right one.
type line struct {
	axis
	n       int
	spacing geom.Length
	narrow  bool      // the stance floor is left out of account, and the widest stance comes first
	wood    []wood    // what columns seek
	blocked []stretch // where no column may stand

	left, right track
}

// Wood is what a column can meet behind a board, or behind several that are alike in it.
type wood struct {
	intervals []Interval // from the lowest
	weight    int
	boards    int
}

// A stretch is an open part of a line.
type stretch struct{ low, high geom.Length }

func (s stretch) holds(at geom.Length) bool { return s.low < at && at < s.high }

// A track is the whole steps from one end of a line, and what a column there meets.
type track struct {
	origin geom.Length
	weight []int         // by step; −1 where no column may stand
	off    []geom.Length // from centre lines, over boards
}

// A run is a row of steps, both ends included, at which a column meets wood of one weight and may stand.
type run struct{ from, to, weight int }

// A layout is one way to set the columns (or rows) of a line.
type layout struct {
	at   []geom.Length
	same bool // symmetric, middle columns to the step
	wide geom.Length
	miss
}

// seeks reports whether there is wood to seek.
func (l *line) seeks() bool {
	return slices.ContainsFunc(l.wood, func(w wood) bool { return w.weight > 0 && len(w.intervals) > 0 })
}

// layouts are the best layouts for each weight that they can have together.
func (l *line) layouts() []*layout {
	if done, ok := l.plain(); ok {
		return done
	}
	if l.n == 2 {
		return l.two(false)
	}
	p := l.plan()
	var all []*layout
	for _, weight := range p.weights() {
		if o := p.layout(weight); o != nil {
			all = append(all, o)
		}
	}
	return all
}

// heaviest is the best layout of the greatest weight; nil for none.
func (l *line) heaviest() *layout {
	if done, ok := l.plain(); ok {
		return append(done, nil)[0]
	}
	if l.n == 2 {
		return append(l.two(true), nil)[0]
	}
	p := l.plan()
	for _, weight := range p.weights() {
		if o := p.layout(weight); o != nil {
			return o
		}
	}
	return nil
}

// plain is the layout where there is nothing to choose.
func (l *line) plain() (only []*layout, ok bool) {
	if l.n > 1 && (len(l.blocked) > 0 || l.seeks()) {
		return nil, false
	}
	at := l.corners(l.n)
	for _, s := range l.blocked { // of a single one
		if s.holds(at[0]) {
			return nil, true
		}
	}
	return []*layout{{at: at, same: true, wide: at[l.n-1] - at[0]}}, true
}

// runs are the steps from low to high of a track that begins at origin.
func (l *line) runs(origin geom.Length, low, high int) []run {
	type change struct{ at, weight, shut int }
	changes := []change{{at: low}, {at: high + 1}}
	add := func(from, to, weight, shut int) { // to is left out
		if from, to = max(from, low), min(to, high+1); from < to {
			changes = append(changes, change{from, weight, shut}, change{to, -weight, -shut})
		}
	}
	for _, w := range l.wood {
		if w.weight == 0 {
			continue
		}
		reached := low // what is below is counted
		for _, in := range w.intervals {
			to := floor(in.High-origin, l.step) + 1
			add(max(ceil(in.Low-origin, l.step), reached), to, w.weight, 0)
			reached = max(reached, to)
		}
	}
	for _, s := range l.blocked {
		add(floor(s.low-origin, l.step)+1, ceil(s.high-origin, l.step), 0, 1)
	}
	slices.SortFunc(changes, func(a, b change) int { return cmp.Compare(a.at, b.at) })
	var all []run
	weight, shut := 0, 0
	for i, c := range changes[:len(changes)-1] {
		weight, shut = weight+c.weight, shut+c.shut
		if next := changes[i+1].at; next > c.at && shut == 0 {
			if n := len(all); n > 0 && all[n-1].to == c.at-1 && all[n-1].weight == weight {
				all[n-1].to = next - 1
			} else {
				all = append(all, run{c.at, next - 1, weight})
			}
		}
	}
	return all
}

// off is how far a place is from the centre lines of the wood that holds it, over all boards.
func (l *line) off(at geom.Length) (off geom.Length) {
	for _, w := range l.wood {
		if w.weight > 0 {
			d, _ := meets(w.intervals, at)
			off += d * geom.Length(w.boards)
		}
	}
	return off
}

// measure fills a track.
func (l *line) measure(origin geom.Length) track {
	steps := int(l.length / l.step)
	t := track{origin: origin, weight: make([]int, steps+1), off: make([]geom.Length, steps+1)}
	for k := range t.weight {
		t.weight[k] = -1
	}
	for _, r := range l.runs(origin, 0, steps) {
		for k := r.from; k <= r.to; k++ {
			t.weight[k] = r.weight
			if r.weight > 0 {
				t.off[k] = l.off(origin + geom.Length(k)*l.step)
			}
		}
	}
	return t
}

// at is what a column at a step of the track weighs and costs, without regard to even spacing.
func (l *line) at(t *track, k int) (weight int, c cost, ok bool) {
	if k < 0 || k >= len(t.weight) || t.weight[k] < 0 {
		return 0, c, false
	}
	c.sum, c.off = t.origin+geom.Length(k)*l.step, t.off[k]
	return t.weight[k], c, true
}

// isSame reports whether columns are symmetric.
func (a axis) isSame(at []geom.Length) bool {
	last := len(at) - 1
	if last > 0 && at[0] != a.length-at[last] {
		return false
	}
	for i := 1; i < last; i++ {
		if (at[i] + at[last-i] - a.length).Abs() > a.step {
			return false
		}
	}
	return true
}

func floor(a, step geom.Length) int { return int(a.Floor(step) / step) }
func ceil(a, step geom.Length) int  { return int(a.Ceil(step) / step) }
