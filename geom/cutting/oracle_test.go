package cutting_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"rodsheet/geom"
	"rodsheet/geom/cutting"
)

// Parts of one height come out of a roll in rows, and the fewest rows are a cutting-stock problem in one direction. Its linear
// programme over all patterns (Gilmore & Gomory, Oper. Res. 9, 1961), solved by gonum.org/v1/gonum, is a bound from below, and
// the fewest rows are hardly ever more than the next whole number and one.
func TestRowsOfARollAreNoFewerThanTheLinearProgrammeOfAllPatterns(t *testing.T) {
	const high = 100 * geom.Millimetre
	r := rand.New(rand.NewPCG(61, 9))
	for range 40 {
		roll := cutting.Roll{Width: 1000 * geom.Millimetre, Nap: true}
		var widths, wanted []int
		for range 2 + r.IntN(4) {
			w := 180 + r.IntN(500)
			n := 1 + r.IntN(6)
			widths, wanted = append(widths, w), append(wanted, n)
			roll.Parts = append(roll.Parts, cutting.RollPart{Size: geom.Size{W: geom.Length(w) * geom.Millimetre, H: high}, Count: n})
		}
		got, err := roll.Plan()
		require.NoError(t, err)
		least := int(math.Ceil(patterns(t, 1000, widths, wanted) - 1e-6))
		rows := int(got.Length / high)
		assert.Zero(t, got.Length%high)
		assert.GreaterOrEqual(t, rows, least, "%v × %v", widths, wanted)
		assert.LessOrEqual(t, rows, least+1, "%v × %v", widths, wanted)
		assert.LessOrEqual(t, got.Bound, got.Length)
		if got.Proved && rows > least {
			assert.Greater(t, got.Bound, geom.Length(least)*high-high, "a proof of more than the programme's bound")
		}
	}
}

// patterns is the least number of bars, taken in parts, that the wanted widths come out of.
func patterns(t *testing.T, bar int, widths, wanted []int) float64 {
	t.Helper()
	var columns [][]float64
	var fill func(i, left int, counts []float64)
	fill = func(i, left int, counts []float64) {
		if i == len(widths) {
			if slices.Max(counts) > 0 {
				columns = append(columns, slices.Clone(counts))
			}
			return
		}
		for n := 0; n*widths[i] <= left; n++ {
			fill(i+1, left-n*widths[i], append(counts, float64(n)))
		}
	}
	fill(0, bar, nil)
	m, n := len(widths), len(columns)
	cost, a, b := make([]float64, n+m), mat.NewDense(m, n+m, nil), make([]float64, m)
	for k, column := range columns {
		cost[k] = 1
		for i, count := range column {
			a.Set(i, k, count)
		}
	}
	for i := range m {
		a.Set(i, n+i, -1) // more than wanted
		b[i] = float64(wanted[i])
	}
	least, _, err := lp.Simplex(cost, a, b, 1e-9, nil)
	require.NoError(t, err)
	return least
}
