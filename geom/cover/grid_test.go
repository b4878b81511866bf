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

const mm = geom.Millimetre

// Arithmetic: n = ceil((L − v)/(u − v)) windows of length u that overlap by v show a length L.
func TestTilesFollowTheCountingRule(t *testing.T) {
	for _, row := range []struct {
		length geom.Length
		pages  int
	}{
		{1220 * mm, 7}, {610 * mm, 4}, {190 * mm, 1}, {190*mm + mm/100, 2}, {0, 1}, {370 * mm, 2}, {370*mm + 1, 3},
	} {
		g, err := cover.GridProblem{
			Bounds: geom.R(0, 0, row.length, 50*mm), Windows: []geom.Size{geom.Size{W: 190 * mm, H: 259 * mm}}, Overlap: 10 * mm,
		}.Solve()
		require.NoError(t, err)
		assert.Len(t, g.Columns, row.pages, "%v long", row.length)
		assert.Len(t, g.Rows, 1)
		assert.Equal(t, row.pages, g.Bound)
		assert.True(t, g.Proved && equalSteps(g))
	}
}

func TestADrawingWithoutMarksLiesInTheMiddleOfItsPages(t *testing.T) {
	g, err := cover.GridProblem{
		Bounds: geom.R(5*mm, 7*mm, 305*mm, 107*mm), Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}}, Overlap: 10 * mm,
	}.Solve()
	require.NoError(t, err)
	assert.Equal(t, []geom.Span{{From: -30 * mm, To: 160 * mm}, {From: 150 * mm, To: 340 * mm}}, g.Columns)
	assert.Equal(t, []geom.Span{{From: -73 * mm, To: 187 * mm}}, g.Rows)
	assert.Equal(t, []geom.Length{155 * mm}, cover.Seams(g.Columns))
	assert.Equal(t, []cover.Cell{{0, 0}, {1, 0}}, g.Pages)
	assert.Equal(t, geom.R(150*mm, -73*mm, 340*mm, 187*mm), g.Window(g.Pages[1]))
}

func TestPagesAreTurnedWhereThatTakesFewer(t *testing.T) {
	p := cover.GridProblem{
		Bounds: geom.R(0, 0, 250*mm, 180*mm), Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}, {W: 260 * mm, H: 190 * mm}}, Overlap: 10 * mm,
	}
	g, err := p.Solve()
	require.NoError(t, err)
	assert.Equal(t, 1, g.Way)
	assert.Equal(t, 1, g.Bound)
	p.Windows = p.Windows[:1]
	g, err = p.Solve()
	require.NoError(t, err)
	assert.Zero(t, g.Way)
	assert.Equal(t, 2, g.Bound)
}

func TestASeamMovesOffAMark(t *testing.T) {
	p := cover.GridProblem{
		Bounds: geom.R(0, 0, 300*mm, 100*mm), Marks: []cover.Mark{{At: geom.Pt(150*mm, 50*mm), R: 4 * mm}},
		Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}}, Overlap: 10 * mm, Clear: 5 * mm,
	}
	g, err := p.Solve()
	require.NoError(t, err)
	require.Len(t, g.Columns, 2)
	// 4 mm of radius, 5 mm clear, and as much room again.
	assert.Equal(t, []geom.Length{136 * mm}, cover.Seams(g.Columns))
	assert.True(t, equalSteps(g))
	assert.Empty(t, g.Whole)
}

func TestSeamsStandAtUnequalDistancesWhereNoEqualStepIsClear(t *testing.T) {
	// Two seams a pitch of 180 apart would have to start within 0..20 of the first window: marks block that range.
	p := cover.GridProblem{
		Bounds: geom.R(0, 0, 540*mm, 100*mm), Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}}, Overlap: 10 * mm, Clear: 5 * mm,
		Marks: []cover.Mark{{At: geom.Pt(176*mm, 0), R: 4 * mm}, {At: geom.Pt(371*mm, 0), R: 4 * mm}, {At: geom.Pt(350*mm, 0), R: 4 * mm}},
	}
	g, err := p.Solve()
	require.NoError(t, err)
	checkGrid(t, p, g)
	assert.Len(t, g.Columns, 3)
	assert.False(t, equalSteps(g))
	assert.Empty(t, g.Whole)
	assert.True(t, g.Proved)
}

func TestAMarkStandsWholeOnBothPagesWhereNoSeamIsClear(t *testing.T) {
	p := cover.GridProblem{
		Bounds: geom.R(0, 0, 1000*mm, 100*mm), Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}}, Overlap: 10 * mm, Clear: 5 * mm,
	}
	for x := geom.Length(0); x <= 1000*mm; x += 15 * mm {
		p.Marks = append(p.Marks, cover.Mark{At: geom.Pt(x, 50*mm), R: 4 * mm})
	}
	g, err := p.Solve()
	require.NoError(t, err)
	checkGrid(t, p, g)
	assert.NotEmpty(t, g.Whole)
	assert.GreaterOrEqual(t, len(g.Pages), g.Bound)
}

func TestAGridIsNeverBeatenBySearchingAllSmallOnes(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	clear, unequal, whole, turned := 0, 0, 0, 0
	for range 1500 {
		p := smallGrid(rng)
		g, err := p.Solve()
		want, stands := bruteGrid(p)
		if want == 0 {
			require.Error(t, err, "%+v", p)
			continue
		}
		require.NoError(t, err, "%+v", p)
		checkGrid(t, p, g)
		require.Equal(t, want, g.Bound, "%+v\n%+v", p, g)
		if !stands {
			require.Empty(t, g.Whole, "%+v\n%+v", p, g)
			require.True(t, g.Proved, "%+v\n%+v", p, g)
			clear++
		} else {
			whole++
		}
		if !equalSteps(g) {
			unequal++
		}
		if g.Way > 0 {
			turned++
		}
	}
	t.Logf("%d clear, %d whole, %d unequal, %d turned", clear, whole, unequal, turned)
	assert.Greater(t, clear, 300)
	assert.Greater(t, unequal, 100)
	assert.Greater(t, whole, 30)
	assert.Greater(t, turned, 100)
}

func TestAnOddOverlapIsKeptToo(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		p := smallGrid(rng)
		p.Overlap++
		if g, err := p.Solve(); err == nil {
			checkGrid(t, p, g)
		} else {
			var large *cover.TooLargeError
			require.ErrorAs(t, err, &large, "%+v", p)
		}
	}
}

// smallGrid is a random problem a few dozen nanometres wide.
func smallGrid(rng *rand.Rand) cover.GridProblem {
	n := func(k int) geom.Length { return geom.Length(rng.IntN(k)) }
	p := cover.GridProblem{
		Windows: []geom.Size{{W: 10 + n(12), H: 10 + n(12)}}, Overlap: 2 * n(4), Clear: n(3),
	}
	if w := p.Windows[0]; rng.IntN(3) > 0 { // turned, and a little smaller or larger
		p.Windows = append(p.Windows, geom.Size{W: max(10, w.H+n(3)-1), H: max(10, w.W+n(3)-1)})
	}
	p.Bounds.Min = geom.Pt(n(20)-10, n(20)-10)
	p.Bounds.Max = p.Bounds.Min.Add(geom.Pt(n(70), n(40)))
	for range rng.IntN(14) {
		p.Marks = append(p.Marks, cover.Mark{
			At: p.Bounds.Min.Add(geom.Pt(n(int(p.Bounds.W()+1)), n(int(p.Bounds.H()+1)))), R: n(3),
		})
	}
	return p
}

// bruteGrid is the fewest pages over all grids with clear seams, or in a direction that has none, with marks that
// stand whole; whole tells that no orientation has clear seams in both.
func bruteGrid(p cover.GridProblem) (pages int, whole bool) {
	show := p.Bounds
	for _, m := range p.Marks {
		show = show.Union(geom.R(m.At.X-m.R, m.At.Y-m.R, m.At.X+m.R, m.At.Y+m.R))
	}
	for _, w := range p.Windows {
		n, stands := 1, false
		for _, dir := range []struct {
			along func(geom.Point) geom.Length
			w     geom.Length
		}{
			{func(q geom.Point) geom.Length { return q.X }, w.W},
			{func(q geom.Point) geom.Length { return q.Y }, w.H},
		} {
			k := bruteAxis(p, dir.along, show, dir.w, false)
			if k == 0 {
				k, stands = bruteAxis(p, dir.along, show, dir.w, true), true
			}
			n *= k
		}
		if n > 0 && (pages == 0 || whole && !stands || whole == stands && n < pages) {
			pages, whole = n, stands
		}
	}
	return pages, whole
}

// bruteAxis searches, breadth first, over the start of each window: every end it may have, every start of the next.
func bruteAxis(p cover.GridProblem, along func(geom.Point) geom.Length, show geom.Rect, w geom.Length, allow bool) int {
	lo, hi := along(show.Min), along(show.Max)
	reach, seen := []geom.Length{lo}, map[geom.Length]bool{lo: true}
	for n := 1; len(reach) > 0; n++ {
		var next []geom.Length
		for _, start := range reach {
			if start+w >= hi {
				return n
			}
			for end := start + 1; end <= start+w; end++ {
				for from := start + 1; from <= end-p.Overlap; from++ {
					if (from+end)%2 == 0 && !seen[from] && bruteSeam(p, along, from, end, allow) {
						seen[from] = true
						next = append(next, from)
					}
				}
			}
		}
		reach = next
	}
	return 0
}

func bruteSeam(p cover.GridProblem, along func(geom.Point) geom.Length, from, end geom.Length, allow bool) bool {
	for _, m := range p.Marks {
		x := along(m.At)
		if ((from+end)/2-x).Abs()-m.R >= p.Clear || m.R+p.Clear == 0 {
			continue
		}
		if !allow || x-m.R < from || x+m.R > end {
			return false
		}
	}
	return true
}

// equalSteps reports whether the windows of each direction are whole pages at one pitch.
func equalSteps(g cover.Grid) bool {
	return !slices.ContainsFunc([][]geom.Span{g.Columns, g.Rows}, func(spans []geom.Span) bool {
		for i := 1; i < len(spans); i++ {
			if spans[i].From-spans[i-1].From != spans[1].From-spans[0].From || spans[i].Length() != spans[0].Length() {
				return true
			}
		}
		return false
	})
}

// checkGrid holds a grid against what was asked, with no code of the solver's.
func checkGrid(t *testing.T, p cover.GridProblem, g cover.Grid) {
	t.Helper()
	w := p.Windows[g.Way]
	near := map[int]bool{}
	direction := func(spans []geom.Span, size geom.Length, along func(geom.Point) geom.Length) {
		for i, s := range spans {
			require.LessOrEqual(t, s.Length(), size)
			if i == 0 {
				continue
			}
			require.Greater(t, s.From, spans[i-1].From)
			require.GreaterOrEqual(t, spans[i-1].To-s.From, p.Overlap)
			for k, m := range p.Marks {
				x := along(m.At)
				// Twice the distance, so that nothing is rounded.
				if d := (2*x - s.From - spans[i-1].To).Abs(); d < 2*(m.R+p.Clear) {
					near[k] = true
					require.True(t, s.From <= x-m.R && x+m.R <= spans[i-1].To, "mark %d is cut: %+v\n%+v", k, p, g)
				}
			}
		}
	}
	direction(g.Columns, w.W, func(q geom.Point) geom.Length { return q.X })
	direction(g.Rows, w.H, func(q geom.Point) geom.Length { return q.Y })
	for k := range p.Marks {
		require.Equal(t, near[k], slices.Contains(g.Whole, k), "mark %d: %+v\n%+v", k, p, g)
	}
	require.True(t, slices.IsSorted(g.Whole))
	require.LessOrEqual(t, g.Bound, len(g.Pages))
	require.Equal(t, g.Bound == len(g.Pages), g.Proved)
	require.Len(t, g.Pages, len(g.Columns)*len(g.Rows))
	first, last := g.Window(cover.Cell{}), g.Window(cover.Cell{Column: len(g.Columns) - 1, Row: len(g.Rows) - 1})
	require.True(t, first.Union(last).Contains(p.Bounds), "%+v\n%+v", p, g)
	for k, m := range p.Marks {
		circle := geom.R(m.At.X-m.R, m.At.Y-m.R, m.At.X+m.R, m.At.Y+m.R)
		on := slices.ContainsFunc(g.Pages, func(c cover.Cell) bool { return g.Window(c).Contains(circle) })
		require.True(t, on, "mark %d is whole on no page: %+v\n%+v", k, p, g)
	}
}

func TestANonsensicalGridIsRefused(t *testing.T) {
	good := cover.GridProblem{Bounds: geom.R(0, 0, 500*mm, 500*mm), Windows: []geom.Size{{W: 190 * mm, H: 260 * mm}}, Overlap: 10 * mm}
	for _, row := range []struct {
		name   string
		change func(*cover.GridProblem)
		says   string
	}{
		{"no window", func(p *cover.GridProblem) { p.Windows = nil }, "give at least one size"},
		{"window of no size", func(p *cover.GridProblem) { p.Windows = []geom.Size{{}} }, "a page that shows 0 mm × 0 mm can show no drawing"},
		{"overlap of a whole page", func(p *cover.GridProblem) { p.Overlap = 190 * mm }, "an overlap of 190 mm does not go with pages"},
		{"negative overlap", func(p *cover.GridProblem) { p.Overlap = -mm }, "it must be 0 or more"},
		{"negative clearance", func(p *cover.GridProblem) { p.Clear = -mm }, "the clearance −1 mm must be 0 or more"},
		{"negative radius", func(p *cover.GridProblem) { p.Marks = []cover.Mark{{R: -mm}} }, "mark 0 has the radius −1 mm"},
		{"mark out of range", func(p *cover.GridProblem) { p.Marks = []cover.Mark{{At: geom.Pt(1<<62, 0)}} }, "lies beyond what can be laid out"},
		{"bounds backwards", func(p *cover.GridProblem) { p.Bounds = geom.R(10, 0, 0, 0) }, "run backwards"},
		{"bounds out of range", func(p *cover.GridProblem) { p.Bounds.Max.X = 1 << 62 }, "beyond what can be laid out"},
		{"too many pages", func(p *cover.GridProblem) { p.Bounds = geom.R(0, 0, 1000*geom.Metre, 1000*geom.Metre) }, "needs more than 100000 pages"},
		{"too long", func(p *cover.GridProblem) { p.Bounds = geom.R(0, 0, 100_000*geom.Metre, 0) }, "needs more than"},
	} {
		p := good
		row.change(&p)
		_, err := p.Solve()
		var input *cover.InputError
		require.ErrorAs(t, err, &input, row.name)
		assert.ErrorContains(t, err, row.says, row.name)
	}
	p := good
	p.Marks = []cover.Mark{{At: geom.Pt(250*mm, 250*mm), R: 200 * mm}}
	_, err := p.Solve()
	var large *cover.TooLargeError
	require.ErrorAs(t, err, &large)
	assert.Equal(t, 0, large.Mark)
	assert.EqualError(t, err, "mark 0, 400 mm across with 0 mm clear around it, is too large for a page that shows 190 mm × 260 mm: take larger paper or less clearance")
}

// clipRows are n holes as a wall of clips has them: rows 500 mm apart, pairs of holes every 407 mm.
func clipRows(n int) []cover.Mark {
	var out []cover.Mark
	for i := range n {
		col, row := i/10, i%10/2
		out = append(out, cover.Mark{At: geom.Pt(geom.Length(col)*407*mm+geom.Length(i%2)*38*mm, geom.Length(row)*500*mm), R: 2 * mm})
	}
	return out
}

func scattered(n int) []cover.Mark {
	rng := rand.New(rand.NewPCG(1, 2))
	var out []cover.Mark
	for range n {
		out = append(out, cover.Mark{At: geom.Pt(geom.Length(rng.IntN(6000))*mm, geom.Length(rng.IntN(2400))*mm), R: 2 * mm})
	}
	return out
}

func boundsOf(marks []cover.Mark) geom.Rect {
	b := geom.Rect{Min: marks[0].At, Max: marks[0].At}
	for _, m := range marks {
		b = b.Union(geom.Rect{Min: m.At, Max: m.At})
	}
	return b.Inset(-50 * mm)
}

func BenchmarkGrid(b *testing.B) {
	for _, row := range []struct {
		name  string
		marks []cover.Mark
	}{
		{"clip rows 500", clipRows(500)},
		{"scattered 500", scattered(500)},
	} {
		p := cover.GridProblem{
			Bounds: boundsOf(row.marks), Marks: row.marks, Windows: []geom.Size{{W: 190 * mm, H: 259 * mm}, {W: 259 * mm, H: 190 * mm}},
			Overlap: 10 * mm, Clear: 5 * mm,
		}
		b.Run(row.name, func(b *testing.B) {
			for b.Loop() {
				g, err := p.Solve()
				require.NoError(b, err)
				b.ReportMetric(float64(len(g.Pages)), "pages")
				b.ReportMetric(float64(len(g.Pages)-g.Bound), "gap")
			}
		})
	}
}
