package stack_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/geom/stack"
)

const (
	mm = geom.Millimetre
	in = geom.Inch
)

// thou is a thousandth of an inch, as PS 1-19 states thicknesses.
const thou = in / 1000

// TestActualThicknessesMakeTheStack works with what stock measures, not what it is called: dressed lumber of PS 20-20
// (2x4 is 1 1/2 in thick, 1x4 is 3/4 in) and plywood of PS 1-19 (performance categories and the thickness stamped).
func TestActualThicknessesMakeTheStack(t *testing.T) {
	const (
		two    = in + in/2  // 2x4, PS 20-20
		one    = 3 * in / 4 // 1x4, PS 20-20
		ply23  = 703 * thou // 23/32 as usually stamped (PS 1-19)
		ply34  = 734 * thou // 3/4 as usually stamped (PS 1-19)
		thick  = 750 * thou // the thickest that a 23/32 panel may be (PS 1-19)
		nominl = 23 * in / 32
	)
	for _, row := range []struct {
		name   string
		height geom.Length
		within geom.Length
		stock  []geom.Length
		want   []geom.Length
	}{
		{"four 2x4 make 6 in", 6 * in, 0, []geom.Length{one, two}, []geom.Length{two, two, two, two}},
		{"2x4 and a 1x4 make 2 1/4 in", 2*in + in/4, 0, []geom.Length{one, two}, []geom.Length{two, one}},
		{"a nominal 3/4 sheet is no 1x4", two + nominl, 0, []geom.Length{one, two, nominl}, []geom.Length{two, nominl}},
		{"two stamped 23/32 miss 1 1/2 in by 0.094 and come in at a tenth", two, in / 10, []geom.Length{ply23}, []geom.Length{ply23, ply23}},
		{"the nearer of two pairs", two, in / 10, []geom.Length{ply23, ply34}, []geom.Length{ply34, ply34}},
		{"a 23/32 panel at the top of its range doubles to a 2x4", two, 0, []geom.Length{thick}, []geom.Length{thick, thick}},
		{"one piece beats two nearer ones", 10 * mm, mm, []geom.Length{9 * mm, 5 * mm}, []geom.Length{9 * mm}},
		{"thicker first among equals", 10 * mm, 0, []geom.Length{4 * mm, 5 * mm, 6 * mm}, []geom.Length{6 * mm, 4 * mm}},
		{"thicker first among equal errors on both sides", 10 * mm, mm, []geom.Length{9 * mm, 11 * mm}, []geom.Length{11 * mm}},
	} {
		got, err := stack.Find(row.height, row.within, row.stock)
		require.NoError(t, err, row.name)
		require.True(t, got.OK, row.name)
		assert.Equal(t, row.want, got.Pieces, row.name)
	}
}

func TestWhatIsMissingIsToldWhereNothingComesNear(t *testing.T) {
	// Two boards of 23/32 in as stamped, 0.703 in (PS 1-19), under 1 1/2 in: 0.094 in is missing.
	got, err := stack.Find(in+in/2, in/64, []geom.Length{703 * thou})
	require.NoError(t, err)
	assert.False(t, got.OK)
	assert.Empty(t, got.Pieces)
	assert.Equal(t, &stack.Stack{Pieces: []geom.Length{703 * thou, 703 * thou}, Made: 1406 * thou}, got.Below)
	assert.Equal(t, 94*thou, got.Missing)
	assert.Equal(t, 2109*thou, got.Above.Made)

	got, err = stack.Find(10*mm, 0, []geom.Length{18 * mm, 25 * mm})
	require.NoError(t, err)
	assert.Nil(t, got.Below)
	assert.Equal(t, 10*mm, got.Missing)
	assert.Equal(t, &stack.Stack{Pieces: []geom.Length{18 * mm}, Made: 18 * mm}, got.Above)
}

// brute tries every choice of pieces up to the first sum beyond top.
func brute(height, within geom.Length, stock []geom.Length) (best, below, above []geom.Length) {
	kinds := slices.Clone(stock)
	slices.Sort(kinds)
	slices.Reverse(kinds)
	total := func(s []geom.Length) (sum geom.Length) {
		for _, l := range s {
			sum += l
		}
		return sum
	}
	// better tells whether s beats t as a stack for the height aim.
	better := func(s, t []geom.Length, fewFirst bool) bool {
		ds, dt := (total(s) - height).Abs(), (total(t) - height).Abs()
		switch {
		case t == nil:
			return true
		case fewFirst && len(s) != len(t):
			return len(s) < len(t)
		case ds != dt:
			return ds < dt
		case len(s) != len(t):
			return len(s) < len(t)
		}
		return slices.Compare(s, t) > 0
	}
	var walk func(from int, s []geom.Length, sum geom.Length)
	walk = func(from int, s []geom.Length, sum geom.Length) {
		if len(s) > 0 {
			if (sum-height).Abs() <= within && better(s, best, true) {
				best = slices.Clone(s)
			}
			if sum < height && better(s, below, false) {
				below = slices.Clone(s)
			}
			if sum > height && better(s, above, false) {
				above = slices.Clone(s)
			}
		}
		if sum > height+within {
			return
		}
		for k := from; k < len(kinds); k++ {
			walk(k, append(s, kinds[k]), sum+kinds[k])
		}
	}
	walk(0, nil, 0)
	return best, below, above
}

func TestNoStackIsBetterThanTheOneFound(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 3))
	made, missed := 0, 0
	for round := range 2000 {
		unit := []geom.Length{1, mm / 10, in / 64, 7}[round%4]
		height := geom.Length(10+rng.IntN(70))*unit + geom.Length(rng.IntN(3))
		within := geom.Length(rng.IntN(4)) * unit / 2
		var stock []geom.Length
		for range 1 + rng.IntN(5) {
			if l := geom.Length(5+rng.IntN(40))*unit + geom.Length(rng.IntN(2)); !slices.Contains(stock, l) {
				stock = append(stock, l)
			}
		}
		if within >= height {
			continue
		}
		got, err := stack.Find(height, within, stock)
		require.NoError(t, err)
		best, below, above := brute(height, within, stock)
		if best != nil {
			made++
			require.True(t, got.OK, "%v ± %v of %v", height, within, stock)
			require.Equal(t, best, got.Pieces, "%v ± %v of %v", height, within, stock)
			require.Nil(t, got.Below)
			continue
		}
		missed++
		require.False(t, got.OK, "%v ± %v of %v", height, within, stock)
		require.Equal(t, above, got.Above.Pieces, "%v ± %v of %v", height, within, stock)
		if below == nil {
			require.Nil(t, got.Below)
			require.Equal(t, height, got.Missing)
			continue
		}
		require.Equal(t, below, got.Below.Pieces, "%v ± %v of %v", height, within, stock)
		require.Equal(t, height, got.Below.Made+got.Missing)
	}
	t.Logf("%d made, %d missed", made, missed)
	assert.Greater(t, made, 300)
	assert.Greater(t, missed, 300)
}

func TestHeightsToAFootOverSixThicknessesMatchBruteForce(t *testing.T) {
	// Stock of a scrap bin: PS 20-20 and PS 1-19 thicknesses with 6 and 18 mm plywood of a metric mill.
	stock := []geom.Length{in + in/2, 3 * in / 4, 703 * thou, 451 * thou, 18 * mm, 12 * mm}
	for h := in; h <= 12*in; h += 11 * in / 16 {
		for _, within := range []geom.Length{0, in / 128, in / 32} {
			got, err := stack.Find(h, within, stock)
			require.NoError(t, err)
			best, below, above := brute(h, within, stock)
			require.Equal(t, best != nil, got.OK)
			if got.OK {
				require.Equal(t, best, got.Pieces)
			} else {
				require.Equal(t, below, got.Below.Pieces)
				require.Equal(t, above, got.Above.Pieces)
			}
		}
	}
}

func TestANonsensicalStackIsRefused(t *testing.T) {
	many := make([]geom.Length, stack.MaxKinds+1)
	for i := range many {
		many[i] = geom.Length(i+1) * mm
	}
	for _, row := range []struct {
		name           string
		height, within geom.Length
		stock          []geom.Length
		says           string
	}{
		{"no height", 0, 0, []geom.Length{mm}, "a stack can't be 0 mm high"},
		{"height below nothing", -mm, 0, []geom.Length{mm}, "a stack can't be −1 mm high"},
		{"height beyond a wall", 2 * geom.Longest, 0, []geom.Length{mm}, "a stack can't be 2000000 mm high"},
		{"negative tolerance", mm, -1, []geom.Length{mm}, "it must be 0 or more"},
		{"tolerance of the height", mm, mm, []geom.Length{mm}, "less than the height"},
		{"no stock", mm, 0, nil, "no stock to stack"},
		{"no thickness", mm, 0, []geom.Length{mm, 0}, "stock can't be 0 mm thick"},
		{"twice the same", mm, 0, []geom.Length{mm, 2 * mm, mm}, "the thickness 1 mm is given twice"},
		{"too many kinds", mm, 0, many, "17 thicknesses are more than the 16"},
		{"too many pieces", geom.Metre, 0, []geom.Length{mm}, "takes 1000 pieces even of the thickest stock, 1 mm"},
		{"too many sums", 10 * geom.Metre, 0, []geom.Length{25*mm + 1, 2*mm + 3, 2*mm + 7, 2*mm + 11, 3*mm + 17, 3*mm + 23}, "leave out a thin one"},
	} {
		_, err := stack.Find(row.height, row.within, row.stock)
		var input *stack.InputError
		require.ErrorAs(t, err, &input, row.name)
		assert.ErrorContains(t, err, row.says, row.name)
	}
}

func BenchmarkFind(b *testing.B) {
	var sixteen []geom.Length
	for i := range geom.Length(stack.MaxKinds) {
		sixteen = append(sixteen, 6*mm+i*3*mm/2)
	}
	for _, row := range []struct {
		name   string
		within geom.Length
		stock  []geom.Length
	}{
		{"sixty-fourths", 0, []geom.Length{in + in/2, 3 * in / 4, 23 * in / 32, 15 * in / 32, in / 4, in / 8}},
		{"inches and tenths of mm", 0, []geom.Length{in + in/2, 23 * in / 32, in / 8, 18*mm + 3*mm/10, 12 * mm, 6*mm + mm/10}},
		{"no common measure, missed", 0, []geom.Length{38*mm + 13, 19*mm + 7, 18*mm + 101, 12*mm + 1, 6*mm + 17, 3*mm + 29}},
		{"no common measure, half a mm", mm / 2, []geom.Length{38*mm + 13, 19*mm + 7, 18*mm + 101, 12*mm + 1, 6*mm + 17, 3*mm + 29}},
		{"sixteen kinds", 0, sixteen},
	} {
		b.Run(row.name, func(b *testing.B) {
			for b.Loop() {
				_, err := stack.Find(12*in-in/64, row.within, row.stock)
				require.NoError(b, err)
			}
		})
	}
}
