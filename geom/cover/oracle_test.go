package cover

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/crillab/gophersat/maxsat"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// coverings are random problems of a few marks and sets, each mark in some set.
func coverings(r *rand.Rand, problems int, try func(n int, sets [][]int)) {
	for range problems {
		n, m := 4+r.IntN(16), 4+r.IntN(14)
		sets := make([][]int, m)
		for mark := range n {
			in := r.IntN(m)
			for s := range sets {
				if s == in || r.IntN(5) == 0 {
					sets[s] = append(sets[s], mark)
				}
			}
		}
		try(n, slices.DeleteFunc(sets, func(set []int) bool { return len(set) == 0 }))
	}
}

func bitsOf(n int, sets [][]int) []bits {
	out := make([]bits, len(sets))
	for i, set := range sets {
		out[i] = newBits(n)
		for _, mark := range set {
			out[i].set(mark)
		}
	}
	return out
}

// A general solver of satisfiability, github.com/crillab/gophersat, is asked for the fewest sets: each mark needs one of its
// sets, each set is rather not taken.
func TestNoGeneralSolverFindsFewerSets(t *testing.T) {
	coverings(rand.New(rand.NewPCG(3, 7)), 150, func(n int, sets [][]int) {
		var constraints []maxsat.Constr
		of := make([][]maxsat.Lit, n)
		for i, set := range sets {
			name := fmt.Sprint("s", i)
			constraints = append(constraints, maxsat.SoftClause(maxsat.Not(name)))
			for _, mark := range set {
				of[mark] = append(of[mark], maxsat.Var(name))
			}
		}
		for _, lits := range of {
			constraints = append(constraints, maxsat.HardClause(lits...))
		}
		model, fewest := maxsat.New(constraints...).Solve()
		require.NotNil(t, model)
		chosen, bound := solveSetCover(n, bitsOf(n, sets))
		assert.Len(t, chosen, fewest)
		assert.Equal(t, fewest, bound, "so small a problem is proved")
	})
}

// The linear programme that lets sets be taken in parts, solved by gonum.org/v1/gonum, is a bound from below.
func TestFewestSetsAreNoLessThanTheLinearProgramme(t *testing.T) {
	coverings(rand.New(rand.NewPCG(5, 9)), 100, func(n int, sets [][]int) {
		// Least sum of x with A·x − surplus = 1 and all of them zero or more.
		m := len(sets)
		cost, a, one := make([]float64, m+n), mat.NewDense(n, m+n, nil), make([]float64, n)
		for i, set := range sets {
			cost[i] = 1
			for _, mark := range set {
				a.Set(mark, i, 1)
			}
		}
		for mark := range n {
			a.Set(mark, m+mark, -1)
			one[mark] = 1
		}
		least, _, err := lp.Simplex(cost, a, one, 1e-9, nil)
		require.NoError(t, err)
		chosen, bound := solveSetCover(n, bitsOf(n, sets))
		assert.GreaterOrEqual(t, len(chosen), int(math.Ceil(least-1e-6)))
		assert.GreaterOrEqual(t, len(chosen), bound)
	})
}
