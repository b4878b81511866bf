package pack_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/geom/pack"
)

const mm = geom.Millimetre

// bars are parts as wide as the page: the problem in one dimension.
func bars(heights ...geom.Length) (parts []geom.Size) {
	for _, h := range heights {
		parts = append(parts, geom.Size{W: 100, H: h})
	}
	return parts
}

// squares are parts with the given sides.
func squares(sides ...geom.Length) (parts []geom.Size) {
	for _, s := range sides {
		parts = append(parts, geom.Size{W: s, H: s})
	}
	return parts
}

// copies repeats a list of lengths.
func copies(n int, of ...geom.Length) (out []geom.Length) {
	for range n {
		out = append(out, of...)
	}
	return out
}

func TestFourBlocksOfTwoHeightsTakeTwoPages(t *testing.T) {
	p := pack.Problem{Page: geom.Size{W: 180 * mm, H: 260 * mm}, Gap: 8 * mm}
	for _, h := range []geom.Length{1506, 1516, 906, 916} {
		p.Parts = append(p.Parts, geom.Size{W: 180 * mm, H: h * mm / 10})
	}
	got, err := p.Solve()
	require.NoError(t, err)
	check(t, p, got)
	assert.Equal(t, 2, got.Pages)
	assert.True(t, got.Proved)
}

func TestPartsStayInTheirOrderWhereThatTakesNoMorePages(t *testing.T) {
	p := pack.Problem{Page: geom.Size{W: 100, H: 100}, Gap: 10, Parts: []geom.Size{{W: 30, H: 20}, {W: 60, H: 40}, {W: 50, H: 30}, {W: 50, H: 60}}}
	got, err := p.Solve()
	require.NoError(t, err)
	check(t, p, got)
	assert.Equal(t, pack.Packing{
		Places: []pack.Place{{0, geom.Pt(0, 80)}, {0, geom.Pt(40, 60)}, {0, geom.Pt(0, 20)}, {1, geom.Pt(0, 40)}},
		Pages:  2, Bound: 2, Proved: true,
	}, got)
}

// The published cases are from memory; each says what was published.
func TestPublishedInstances(t *testing.T) {
	for _, c := range []struct {
		source string
		page   geom.Size
		parts  []geom.Size
		pages  int
	}{
		{"Martello & Toth, Knapsack Problems (1990), chapter 8: 9 items for bins of 100, total 3.0 bins, fewest 4",
			geom.Size{W: 100, H: 100}, bars(70, 60, 50, 33, 33, 33, 11, 7, 3), 4},
		{"Johnson, Demers, Ullman, Garey & Graham (1974): 9 bins are full, where first fit decreasing takes 11",
			geom.Size{W: 100, H: 1000}, bars(slices.Concat(copies(6, 510), copies(6, 270), copies(6, 260), copies(12, 230))...), 9},
		{"Moroń (1925): the 33 × 32 rectangle of nine squares", geom.Size{W: 33, H: 32}, squares(1, 4, 7, 8, 9, 10, 14, 15, 18), 1},
		{"its nine squares on less", geom.Size{W: 33, H: 31}, squares(1, 4, 7, 8, 9, 10, 14, 15, 18), 2},
		{"the 69 × 61 rectangle of nine squares, which Brooks, Smith, Stone & Tutte (1940) list", geom.Size{W: 61, H: 69}, squares(2, 5, 7, 9, 16, 25, 28, 33, 36), 1},
	} {
		p := pack.Problem{Page: c.page, Parts: c.parts}
		got, err := p.Solve()
		require.NoError(t, err, c.source)
		check(t, p, got)
		assert.Equal(t, c.pages, got.Pages, c.source)
		assert.True(t, got.Proved, c.source)
	}
}

// Duijvestijn's square of 21 squares (1978, from memory) leaves no room at all: more than this search finds.
func TestAPuzzleTooHardForTheSearchTellsItsGap(t *testing.T) {
	p := pack.Problem{Page: geom.Size{W: 112, H: 112},
		Parts: squares(2, 4, 6, 7, 8, 9, 11, 15, 16, 17, 18, 19, 24, 25, 27, 29, 33, 35, 37, 42, 50)}
	got, err := p.Solve()
	require.NoError(t, err)
	check(t, p, got)
	assert.Equal(t, 1, got.Bound)
	assert.LessOrEqual(t, got.Pages, 2)
}

// Five rectangles round a middle one: no straight cut goes through, so rows and columns don't find it.
func TestAPinwheelFitsOnOnePage(t *testing.T) {
	p := pack.Problem{Page: geom.Size{W: 32, H: 32}, Gap: 1, Parts: []geom.Size{{W: 21, H: 10}, {W: 10, H: 21}, {W: 10, H: 10}, {W: 10, H: 21}, {W: 21, H: 10}}}
	got, err := p.Solve()
	require.NoError(t, err)
	check(t, p, got)
	assert.Equal(t, 1, got.Pages)
	p.Parts[2].W++
	got, err = p.Solve()
	require.NoError(t, err)
	check(t, p, got)
	assert.Equal(t, 2, got.Pages)
	assert.True(t, got.Proved)
}

func TestPagesAreNeverBeatenByBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	pages, unordered := map[int]int{}, 0
	for range 700 {
		p := pack.Problem{Page: geom.Size{W: geom.Length(3 + rng.IntN(6)), H: geom.Length(3 + rng.IntN(6))}, Gap: geom.Length(rng.IntN(2))}
		for range 1 + rng.IntN(7) {
			p.Parts = append(p.Parts, geom.Size{W: geom.Length(1 + rng.IntN(int(p.Page.W))), H: geom.Length(1 + rng.IntN(int(p.Page.H)))})
		}
		got, err := p.Solve()
		require.NoError(t, err)
		check(t, p, got)
		require.True(t, got.Proved, "%+v", p)
		require.Equal(t, brute(p), got.Pages, "%+v\n%+v", p, got)
		pages[got.Pages]++
		if !slices.IsSortedFunc(got.Places, func(a, b pack.Place) int { return a.Page - b.Page }) {
			unordered++
		}
	}
	t.Log(pages, unordered)
	assert.Greater(t, len(pages), 4)
	assert.Greater(t, unordered, 10)
}

// brute is the fewest pages over all ways to share the parts out, each tried at all whole places.
func brute(p pack.Problem) int {
	best := len(p.Parts) + 1
	var groups [][]geom.Size
	var share func(k int)
	share = func(k int) {
		if len(groups) >= best {
			return
		}
		if k == len(p.Parts) {
			best = len(groups)
			return
		}
		for i := range groups {
			groups[i] = append(groups[i], p.Parts[k])
			if bruteFits(p, groups[i], nil) {
				share(k + 1)
			}
			groups[i] = groups[i][:len(groups[i])-1]
		}
		groups = append(groups, []geom.Size{p.Parts[k]})
		share(k + 1)
		groups = groups[:len(groups)-1]
	}
	share(0)
	return best
}

func bruteFits(p pack.Problem, parts []geom.Size, laid []geom.Rect) bool {
	if len(laid) == len(parts) {
		return true
	}
	s := parts[len(laid)]
	for x := geom.Length(0); x+s.W <= p.Page.W; x++ {
		for y := geom.Length(0); y+s.H <= p.Page.H; y++ {
			r := geom.R(x, y, x+s.W, y+s.H)
			if !slices.ContainsFunc(laid, func(o geom.Rect) bool { return apart(r, o) < p.Gap || r.InteriorIntersects(o) }) &&
				bruteFits(p, parts, append(laid, r)) {
				return true
			}
		}
	}
	return false
}

// apart is how far two rectangles are from each other, the greater of across and up; below 0 where they overlap.
func apart(a, b geom.Rect) geom.Length {
	return max(a.Min.X-b.Max.X, b.Min.X-a.Max.X, a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y)
}

func check(t *testing.T, p pack.Problem, got pack.Packing) {
	t.Helper()
	require.Len(t, got.Places, len(p.Parts))
	pages := map[int][]geom.Rect{}
	last := -1
	for i, place := range got.Places {
		s := p.Parts[i]
		r := geom.R(0, 0, s.W, s.H).Add(place.At)
		require.True(t, geom.R(0, 0, p.Page.W, p.Page.H).Contains(r), "part %d is off the page: %+v\n%+v", i, p, got)
		for _, o := range pages[place.Page] {
			require.GreaterOrEqual(t, apart(r, o), p.Gap, "%+v\n%+v", p, got)
		}
		pages[place.Page] = append(pages[place.Page], r)
		require.LessOrEqual(t, place.Page, last+1, "pages come in the order of their first parts")
		last = max(last, place.Page)
	}
	require.Len(t, pages, got.Pages)
	require.LessOrEqual(t, got.Bound, got.Pages)
	require.Equal(t, got.Bound == got.Pages, got.Proved)
}

// manyParts are labels or blocks in number, of a few or of all different sizes.
func manyParts(seed uint64, n, kinds int) pack.Problem {
	rng := rand.New(rand.NewPCG(seed, 31))
	p := pack.Problem{Page: geom.Size{W: 180 * mm, H: 260 * mm}, Gap: 8 * mm}
	var sizes []geom.Size
	for range kinds {
		sizes = append(sizes, geom.Size{W: geom.Length(30+rng.IntN(150)) * mm, H: geom.Length(20+rng.IntN(200)) * mm})
	}
	for range n {
		p.Parts = append(p.Parts, sizes[rng.IntN(kinds)])
	}
	return p
}

func TestManyPartsTellTheirGap(t *testing.T) {
	for seed := range uint64(4) {
		for _, n := range []int{12, 40, 200} {
			for _, kinds := range []int{1, 4, 40} {
				p := manyParts(seed, n, kinds)
				got, err := p.Solve()
				require.NoError(t, err)
				check(t, p, got)
				again, err := p.Solve()
				require.NoError(t, err)
				require.Equal(t, got, again)
				t.Log(seed, n, kinds, got.Pages, got.Bound)
			}
		}
	}
}

func TestBadInputIsRefused(t *testing.T) {
	for _, c := range []struct {
		p    pack.Problem
		says string
	}{
		{pack.Problem{}, "a page of 0 mm × 0 mm can hold nothing: both must be more than nothing"},
		{pack.Problem{Page: geom.Size{W: mm, H: mm}, Gap: -mm}, "a gap of −1 mm makes no sense: it must be 0 or more"},
		{pack.Problem{Page: geom.Size{W: mm, H: mm}, Parts: []geom.Size{{W: mm}}}, "part 0 is 1 mm × 0 mm: both must be more than nothing"},
		{pack.Problem{Page: geom.Size{W: mm, H: mm}, Parts: make([]geom.Size, pack.MaxParts+1)}, "10001 parts are more than the 10000 that can be packed"},
	} {
		_, err := c.p.Solve()
		var input *pack.InputError
		require.ErrorAs(t, err, &input)
		assert.EqualError(t, err, c.says)
	}
	_, err := pack.Problem{Page: geom.Size{W: 5 * mm, H: 5 * mm}, Parts: []geom.Size{{W: 5 * mm, H: 5 * mm}, {W: 4 * mm, H: 6 * mm}}}.Solve()
	var large *pack.TooLargeError
	require.ErrorAs(t, err, &large)
	assert.EqualError(t, err, "part 1, 4 mm × 6 mm, is too large for a page that holds 5 mm × 5 mm")
	got, err := pack.Problem{Page: geom.Size{W: mm, H: mm}}.Solve()
	require.NoError(t, err)
	assert.Equal(t, pack.Packing{Proved: true}, got)
}

func ExampleProblem_Solve() {
	labels := slices.Repeat([]geom.Size{{W: 85 * mm, H: 55 * mm}}, 9)
	got, _ := pack.Problem{Parts: labels, Page: geom.Size{W: 180 * mm, H: 260 * mm}, Gap: 5 * mm}.Solve()
	fmt.Println(got.Pages, "pages, the last label on page", got.Places[8].Page+1)
	// Output: 2 pages, the last label on page 2
}

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		name string
		p    pack.Problem
	}{
		{"blocks 12", manyParts(1, 12, 12)}, {"labels 200", manyParts(1, 200, 1)}, {"mixed 40", manyParts(1, 40, 4)}, {"worst 200", manyParts(1, 200, 40)},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				got, err := c.p.Solve()
				require.NoError(b, err)
				b.ReportMetric(float64(got.Pages), "pages")
				b.ReportMetric(float64(got.Pages-got.Bound), "gap")
			}
		})
	}
}
