package cover_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/geom/cover"
)

func TestTheMarksOfAWindowStandInItsMiddle(t *testing.T) {
	w, err := cover.WindowProblem{
		Marks:   []cover.Mark{{At: geom.Pt(0, 0), R: 2 * mm}, {At: geom.Pt(100*mm, 50*mm), R: 2 * mm}, {At: geom.Pt(900*mm, 0), R: 2 * mm}},
		Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}}, Clear: 5 * mm,
	}.Solve()
	require.NoError(t, err)
	assert.Equal(t, cover.Windows{
		Windows: []cover.Window{
			{Rect: geom.R(-45*mm, -105*mm, 145*mm, 155*mm), Marks: []int{0, 1}},
			{Rect: geom.R(805*mm, -130*mm, 995*mm, 130*mm), Marks: []int{2}},
		},
		Bound: 2, Proved: true,
	}, w)
}

func TestPagesAreTurnedOneByOne(t *testing.T) {
	p := cover.WindowProblem{
		Marks: []cover.Mark{
			{At: geom.Pt(0, 0)}, {At: geom.Pt(250*mm, 0)}, // only side by side on a page that lies
			{At: geom.Pt(1000*mm, 0)}, {At: geom.Pt(1000*mm, 250*mm)}, // only on one that stands
		},
		Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}, {W: 260 * mm, H: 190 * mm}},
	}
	w, err := p.Solve()
	require.NoError(t, err)
	require.Len(t, w.Windows, 2)
	assert.Equal(t, 1, w.Windows[0].Way)
	assert.Zero(t, w.Windows[1].Way)
	p.Windows = p.Windows[:1]
	w, err = p.Solve()
	require.NoError(t, err)
	assert.Len(t, w.Windows, 3)
}

func TestPagesLieAlikeWhereThatTakesNoMore(t *testing.T) {
	p := cover.WindowProblem{
		Marks:   []cover.Mark{{At: geom.Pt(0, 0)}, {At: geom.Pt(250*mm, 0)}, {At: geom.Pt(1000*mm, 0)}, {At: geom.Pt(1000*mm, 150*mm)}},
		Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}, {W: 260 * mm, H: 190 * mm}},
	}
	w, err := p.Solve()
	require.NoError(t, err)
	require.Len(t, w.Windows, 2)
	assert.Equal(t, []int{1, 1}, []int{w.Windows[0].Way, w.Windows[1].Way}, "the second would fit a page that stands, too")
}

func TestNoMarksNeedNoWindows(t *testing.T) {
	w, err := cover.WindowProblem{Windows: []geom.Size{{W: mm, H: mm}}}.Solve()
	require.NoError(t, err)
	assert.Equal(t, cover.Windows{Proved: true}, w)
}

func TestWindowsAreNeverBeatenByTryingAllPartitions(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	sizes := map[int]int{}
	for range 600 {
		p := cover.WindowProblem{
			Windows: []geom.Size{{W: geom.Length(8 + rng.IntN(10)), H: geom.Length(8 + rng.IntN(10))}}, Clear: geom.Length(rng.IntN(3)),
		}
		if w := p.Windows[0]; rng.IntN(2) == 0 { // turned, and a little smaller or larger
			p.Windows = append(p.Windows, geom.Size{W: max(8, w.H+geom.Length(rng.IntN(5)-2)), H: max(8, w.W+geom.Length(rng.IntN(5)-2))})
		}
		for range 1 + rng.IntN(9) {
			p.Marks = append(p.Marks, cover.Mark{At: geom.Pt(geom.Length(rng.IntN(40)), geom.Length(rng.IntN(25))), R: geom.Length(rng.IntN(2))})
		}
		w, err := p.Solve()
		require.NoError(t, err)
		checkWindows(t, p, w)
		require.True(t, w.Proved, "%+v", p)
		require.Equal(t, brutePartition(p), w.Bound, "%+v\n%+v", p, w)
		sizes[w.Bound]++
	}
	t.Log(sizes)
	assert.Greater(t, len(sizes), 4)
}

func TestManyWindowsCoverEveryMarkAndTellTheirGap(t *testing.T) {
	for _, marks := range [][]cover.Mark{clipRows(500), closeRows(500), scattered(100), scattered(500), crowded(300)} {
		p := cover.WindowProblem{Marks: marks, Windows: []geom.Size{{W: 190 * mm, H: 259 * mm}, {W: 250 * mm, H: 195 * mm}}, Clear: 5 * mm}
		w, err := p.Solve()
		require.NoError(t, err)
		checkWindows(t, p, w)
		again, err := p.Solve()
		require.NoError(t, err)
		require.Equal(t, w, again)
	}
}

// closeRows are the holes of small panels: four rows 140 mm apart, a pair of holes every 110 mm.
func closeRows(n int) []cover.Mark {
	var out []cover.Mark
	for i := range n {
		out = append(out, cover.Mark{At: geom.Pt(geom.Length(i/8)*110*mm+geom.Length(i%2)*38*mm, geom.Length(i%8/2)*140*mm), R: 2 * mm})
	}
	return out
}

// crowded are marks so dense that many windows are equally good.
func crowded(n int) []cover.Mark {
	rng := rand.New(rand.NewPCG(9, 9))
	var out []cover.Mark
	for range n {
		out = append(out, cover.Mark{At: geom.Pt(geom.Length(rng.IntN(800))*mm, geom.Length(rng.IntN(600))*mm), R: 2 * mm})
	}
	return out
}

// brutePartition puts each mark in a group it fits or in a new one, every way there is.
func brutePartition(p cover.WindowProblem) int {
	best := len(p.Marks)
	var groups []geom.Rect
	var walk func(k int)
	walk = func(k int) {
		if len(groups) >= best {
			return
		}
		if k == len(p.Marks) {
			best = len(groups)
			return
		}
		m := p.Marks[k]
		d := m.R + p.Clear
		box := geom.R(m.At.X-d, m.At.Y-d, m.At.X+d, m.At.Y+d)
		for i, g := range groups {
			u := g.Union(box)
			if slices.ContainsFunc(p.Windows, func(w geom.Size) bool { return u.W() <= w.W && u.H() <= w.H }) {
				groups[i] = u
				walk(k + 1)
				groups[i] = g
			}
		}
		groups = append(groups, box)
		walk(k + 1)
		groups = groups[:len(groups)-1]
	}
	walk(0)
	return best
}

func checkWindows(t *testing.T, p cover.WindowProblem, w cover.Windows) {
	t.Helper()
	seen := map[int]bool{}
	for _, win := range w.Windows {
		require.Equal(t, p.Windows[win.Way], win.Size())
		require.NotEmpty(t, win.Marks)
		for _, k := range win.Marks {
			require.False(t, seen[k], "mark %d is on two pages", k)
			seen[k] = true
			m := p.Marks[k]
			require.True(t, win.Inset(m.R+p.Clear).ContainsPoint(m.At), "mark %d does not fit: %+v\n%+v", k, p, w)
		}
	}
	require.Len(t, seen, len(p.Marks))
	require.LessOrEqual(t, w.Bound, len(w.Windows))
	require.Equal(t, w.Bound == len(w.Windows), w.Proved)
}

func TestANonsensicalWindowProblemIsRefused(t *testing.T) {
	var input *cover.InputError
	_, err := cover.WindowProblem{}.Solve()
	require.ErrorAs(t, err, &input)
	_, err = cover.WindowProblem{Windows: []geom.Size{{W: mm, H: mm}}, Clear: -1}.Solve()
	require.ErrorAs(t, err, &input)
	_, err = cover.WindowProblem{Windows: []geom.Size{{W: mm, H: mm}}, Marks: []cover.Mark{{R: -1}}}.Solve()
	require.ErrorAs(t, err, &input)

	p := cover.WindowProblem{Windows: []geom.Size{{W: 20 * mm, H: 30 * mm}, {W: 30 * mm, H: 20 * mm}}, Clear: 5 * mm, Marks: []cover.Mark{{R: 5 * mm}, {R: 6 * mm}}}
	_, err = p.Solve()
	var large *cover.TooLargeError
	require.ErrorAs(t, err, &large)
	assert.Equal(t, 1, large.Mark)
	p.Marks = p.Marks[:1]
	w, err := p.Solve()
	require.NoError(t, err, "a mark that just fits is not too large")
	assert.Len(t, w.Windows, 1)
}

func BenchmarkWindows(b *testing.B) {
	for _, row := range []struct {
		name  string
		marks []cover.Mark
	}{
		{"clip rows 100", clipRows(100)}, {"clip rows 500", clipRows(500)},
		{"close rows 500", closeRows(500)}, {"scattered 100", scattered(100)}, {"scattered 500", scattered(500)}, {"crowded 300", crowded(300)},
	} {
		p := cover.WindowProblem{Marks: row.marks, Windows: []geom.Size{{W: 190 * mm, H: 259 * mm}, {W: 250 * mm, H: 195 * mm}}, Clear: 5 * mm}
		b.Run(row.name, func(b *testing.B) {
			for b.Loop() {
				w, err := p.Solve()
				require.NoError(b, err)
				b.ReportMetric(float64(len(w.Windows)), "windows")
				b.ReportMetric(float64(len(w.Windows)-w.Bound), "gap")
			}
		})
	}
}
