package placement

import (
	"fmt"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// A trial is a pattern judged clip by clip, from the definition of the clip places alone.
type trial struct {
	xs, ys []geom.Length
	wood   []int    // clips in wood, by board
	open   []bool   // nothing forbidden, by board
	rank   [5]int64 // wishes met, more is better
}

// before reports whether a's wishes, in their order, are met better; what is compared from the given one on.
func (a *trial) before(b *trial, from int) bool {
	for i := from; i < len(a.rank); i++ {
		if a.rank[i] != b.rank[i] {
			return a.rank[i] > b.rank[i]
		}
	}
	return false
}

// lines are all ways to set n columns on a length: outer ones on whole steps from their own ends, the others from the left.
func lines(length, base, step, near, spacing geom.Length, n int) (all [][]geom.Length) {
	if n == 1 {
		at := geom.Length(0)
		for at*2+step < length { // the step nearest the middle, a tie goes down
			at += step
		}
		return [][]geom.Length{{at}}
	}
	var set func(at []geom.Length)
	set = func(at []geom.Length) {
		if len(at) == n {
			wide := at[n-1] - at[0]
			ends := [2]geom.Length{at[0], length - at[n-1]}
			far := max(near*2, spacing)
			if (5*wide >= 2*length || wide >= length-2*near) && 2*ends[0] <= far && 2*ends[1] <= far && 2*at[0] <= length && 2*at[n-1] >= length {
				all = append(all, append([]geom.Length{}, at...))
			}
			return
		}
		for k := geom.Length(0); k*step <= length; k++ {
			p := k * step
			if len(at) == n-1 {
				p = length - p
			}
			if p < near || length-p < near {
				continue
			}
			if len(at) > 0 && (p-at[len(at)-1] < base || p-at[len(at)-1] > spacing) {
				continue
			}
			set(append(at, p))
		}
	}
	set(nil)
	return all
}

// symmetric reports whether places mirror each other: the outer two exactly, those between to the step of their grid.
func symmetric(at []geom.Length, length, step geom.Length) bool {
	for i := range at {
		off := (at[i] + at[len(at)-1-i] - length).Abs()
		if i == 0 && len(at) > 1 && off != 0 || off > step {
			return false
		}
	}
	return true
}

func judge(boards []Obstacles, size geom.Size, step geom.Length, xs, ys []geom.Length) *trial {
	t := &trial{xs: xs, ys: ys}
	for _, b := range boards {
		wood, open := 0, true
		for _, x := range xs {
			for _, y := range ys {
				held := false
				for _, s := range b.Studs {
					held = held || s.Low <= x && x <= s.High
				}
				for _, s := range b.Rails {
					held = held || s.Low <= y && y <= s.High
				}
				if held {
					wood++
				}
				for _, r := range b.Forbidden {
					open = open && !(r.Min.X < x && x < r.Max.X && r.Min.Y < y && y < r.Max.Y)
				}
			}
		}
		t.wood, t.open = append(t.wood, wood), append(t.open, open)
		if open {
			t.rank[0]++
			t.rank[1] += int64(wood)
		}
	}
	if symmetric(xs, size.W, step) {
		t.rank[2] += 2
	}
	if symmetric(ys, size.H, step) {
		t.rank[2]++
	}
	w, h := xs[len(xs)-1]-xs[0], ys[len(ys)-1]-ys[0]
	t.rank[3], t.rank[4] = int64(w)*int64(h), int64(w+h)
	return t
}

// A case is boards of one size with different things behind them.
type boardsOf struct {
	size   geom.Size
	boards []Obstacles
	p      Preferences
	grid   *grid
}

func randomBoards(r *rand.Rand) boardsOf {
	some := func(low, high int) geom.Length { return geom.Length(low + r.Intn(high-low+1)) }
	c := boardsOf{size: geom.Size{W: some(40, 170), H: some(40, 170)}}
	base := some(8, 16)
	c.p = Preferences{Number: 1 + r.Intn(7), Clear: some(1, 8), Spacing: some(45, 160), Step: some(7, 13), Follow: r.Intn(2) == 0,
		Base: geom.Size{W: base, H: base}, Apart: geom.Size{W: base + some(0, 3), H: base}}
	rails := r.Intn(2) == 0
	for range 1 + r.Intn(4) {
		var b Obstacles
		strips := func(length geom.Length) (all []Interval) {
			for at := some(-20, 60); at < length; at += some(8, 90) {
				half := some(0, 6)
				all = append(all, Interval{at - half, at + half, at + some(-1, 1)*(half/3)})
			}
			return all
		}
		if r.Intn(4) > 0 {
			b.Studs = strips(c.size.W)
		}
		if rails {
			b.Rails = strips(c.size.H)
			if len(c.boards) > 0 && r.Intn(3) > 0 {
				b.Rails = c.boards[0].Rails
			}
		}
		for range r.Intn(6) {
			x, y := some(-20, 150), some(-20, 150)
			b.Forbidden = append(b.Forbidden, geom.R(x, y, x+some(2, 60), y+some(2, 60)))
		}
		c.boards = append(c.boards, b)
	}
	c.grid, _ = newGrid(c.size, c.p)
	return c
}

// trials are all patterns within all limits; nil where they are too many to try.
func (c *boardsOf) trials() (all []*trial) {
	near := func(base geom.Length) geom.Length { return (c.p.Clear + (base+1)/2).Ceil(c.p.Step) }
	g := c.grid
	rows := lines(c.size.H, c.p.Apart.H, c.p.Step, near(c.p.Base.H), g.spacing, g.rows)
	columns := lines(c.size.W, c.p.Apart.W, c.p.Step, near(c.p.Base.W), g.spacing, g.cols)
	if len(columns)*len(rows) > 5000 {
		return nil
	}
	for _, xs := range columns {
		for _, ys := range rows {
			all = append(all, judge(c.boards, c.size, c.p.Step, xs, ys))
		}
	}
	return all
}

// alone judges a trial for one of the boards.
func (c *boardsOf) alone(t *trial, i int) *trial {
	return judge(c.boards[i:i+1], c.size, c.p.Step, t.xs, t.ys)
}

// patternOf is the columns and rows of positions.
func patternOf(all []Position) (xs, ys []geom.Length) {
	for _, q := range all {
		if q.Row == 0 {
			xs = append(xs, q.At.X)
		}
		if q.Column == 0 {
			ys = append(ys, q.At.Y)
		}
	}
	return xs, ys
}

func TestNoPatternOfAllStepsIsBetterForBoardsThatFollowTheirStuds(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	compared, shared, narrow, ties := map[string]int{}, 0, 0, 0
	for range 800 {
		c := randomBoards(r)
		if c.p.Follow = true; !c.grid.x.fits(1) || !c.grid.y.fits(1) || c.grid.cols > 3 || c.grid.rows > 3 {
			continue
		}
		all := c.trials()
		if all == nil {
			continue
		}
		best := make([]*trial, len(c.boards))
		for i := range c.boards {
			for _, a := range all {
				if a.open[i] {
					if own := c.alone(a, i); best[i] == nil || own.before(best[i], 1) {
						best[i] = own
					}
				}
			}
		}
		results := Of(geom.R(0, 0, c.size.W, c.size.H).Polygon(), c.boards, c.p)
		for i, got := range results {
			if best[i] == nil {
				require.False(t, !got.Single && got.Short == Shortfall{} && len(got.Positions) > 0)
				narrow++
				continue
			}
			require.False(t, got.Single)
			require.Zero(t, got.Short)
			xs, ys := patternOf(got.Positions)
			own := judge(c.boards[i:i+1], c.size, c.p.Step, xs, ys)
			require.True(t, own.open[0])
			require.Equal(t, best[i].rank, own.rank, "%v %v against %v %v", xs, ys, best[i].xs, best[i].ys)
			require.True(t, contains(all, xs, ys), "%v %v is within all limits", xs, ys)
			compared[fmt.Sprint(c.grid.cols, "x", c.grid.rows)]++
			if len(c.boards) > 1 || len(c.boards[i].Rails) > 0 {
				continue
			}
			for _, a := range all { // of equals the nearest to the centre lines, evenly spaced, low and left
				if a := c.alone(a, i); a.open[0] && a.rank == own.rank {
					require.False(t, c.tie(a).before(c.tie(own), 0), "%v %v against %v %v", xs, ys, a.xs, a.ys)
					ties++
				}
			}
		}
		if len(c.boards) == 2 && best[0] != nil && best[1] != nil {
			one := false // is there one pattern that is best for both?
			for _, a := range all {
				one = one || a.open[0] && a.open[1] && c.alone(a, 0).rank == best[0].rank && c.alone(a, 1).rank == best[1].rank
			}
			require.Equal(t, one, assert.ObjectsAreEqual(results[0].Positions, results[1].Positions))
			if one {
				shared++
			}
		}
	}
	for _, kind := range []string{"1x2", "2x1", "2x2", "2x3", "3x2", "3x3"} {
		assert.Greater(t, compared[kind], 15, kind)
	}
	assert.Greater(t, shared, 30)
	assert.Greater(t, narrow, 30)
	assert.Greater(t, ties, 40)
}

// tie is what decides between patterns that meet all wishes as well, on the first board without its rails.
func (c *boardsOf) tie(a *trial) *trial {
	t := &trial{}
	for up, at := range [2][]geom.Length{a.xs, a.ys} {
		for i, p := range at {
			off, held := geom.Longest, false
			for _, s := range c.boards[0].Studs {
				if up == 0 && s.Low <= p && p <= s.High {
					off, held = min(off, (p-s.Centre).Abs()), true
				}
			}
			if held {
				t.rank[0] -= int64(off)
			} else if i > 0 && i < len(at)-1 {
				// The step nearest to even spacing, found by trial, a tie goes left or down.
				even := at[0]
				for q := at[0]; q < at[len(at)-1]; q += c.p.Step {
					miss := func(q geom.Length) geom.Length {
						return ((q-at[0])*geom.Length(len(at)-1) - (at[len(at)-1]-at[0])*geom.Length(i)).Abs()
					}
					if miss(q) < miss(even) {
						even = q
					}
				}
				t.rank[1+up] -= int64((p - even).Abs())
			}
			t.rank[4-up] -= int64(p) // lowest, then leftmost
		}
	}
	return t
}

func contains(all []*trial, xs, ys []geom.Length) bool {
	for _, a := range all {
		if fmt.Sprint(a.xs, a.ys) == fmt.Sprint(xs, ys) {
			return true
		}
	}
	return false
}

func TestNoPatternOfAllStepsIsBetterForARun(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	compared, split := 0, 0
	for range 800 {
		c := randomBoards(r)
		if c.p.Follow = false; !c.grid.x.fits(1) || !c.grid.y.fits(1) || c.grid.cols > 3 || c.grid.rows > 3 {
			continue
		}
		all := c.trials()
		if all == nil {
			continue
		}
		can := make([]bool, len(c.boards)) // has a pattern at all
		for i := range c.boards {
			for _, a := range all {
				can[i] = can[i] || a.open[i]
			}
		}
		results := Of(geom.R(0, 0, c.size.W, c.size.H).Polygon(), c.boards, c.p)
		for left := true; left; { // what goes without a pattern shares the next
			var some []Obstacles
			var which []int
			for i := range c.boards {
				if can[i] {
					some, which = append(some, c.boards[i]), append(which, i)
				}
			}
			if left = len(some) > 0; !left {
				break
			}
			var best *trial
			for _, a := range all {
				if a := judge(some, c.size, c.p.Step, a.xs, a.ys); best == nil || a.before(best, 0) {
					best = a
				}
			}
			// Of the runs' patterns one is as good.
			var got *trial
			for _, i := range which {
				require.False(t, results[i].Single)
				xs, ys := patternOf(results[i].Positions)
				require.True(t, contains(all, xs, ys), "%v %v is within all limits", xs, ys)
				if a := judge(some, c.size, c.p.Step, xs, ys); got == nil || a.before(got, 0) {
					got = a
				}
			}
			require.Equal(t, best.rank, got.rank, "%v %v against %v %v", got.xs, got.ys, best.xs, best.ys)
			for k, i := range which {
				xs, ys := patternOf(results[i].Positions)
				if got.open[k] {
					require.Equal(t, []any{got.xs, got.ys}, []any{xs, ys}, "one pattern for the run")
					can[i] = false
				} else {
					split++
				}
			}
			compared++
		}
	}
	assert.Greater(t, compared, 500)
	assert.Greater(t, split, 10)
}
