package geom

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// math/big is the reference for the 128-bit arithmetic.
func TestProductsAgreeWithBigIntegers(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 128))
	edge := []Length{0, 1, -1, 2, 1 << 31, -1 << 31, 1 << 32, 1<<62 - 1, -1<<62 + 1, math.MaxInt64 / 2}
	pick := func() Length {
		if random.IntN(4) == 0 {
			return edge[random.IntN(len(edge))]
		}
		return Length(random.Int64()>>(1+random.IntN(62))) * Length(1-2*random.IntN(2))
	}
	times := func(a, b Length) *big.Int { return new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b))) }
	for range 20_000 {
		u, v := Pt(pick(), pick()), Pt(pick(), pick())
		cross := new(big.Int).Sub(times(u.X, v.Y), times(u.Y, v.X))
		dot := new(big.Int).Add(times(u.X, v.X), times(u.Y, v.Y))
		require.Zero(t, cross.Cmp(Cross(u, v).big()), "%v × %v", u, v)
		require.Zero(t, dot.Cmp(Dot(u, v).big()), "%v · %v", u, v)
		require.Equal(t, cross.Sign(), Cross(u, v).Sign())
		require.Equal(t, dot.Cmp(cross), Dot(u, v).Cmp(Cross(u, v)))
		want, _ := new(big.Rat).SetFrac(cross, big.NewInt(1e12)).Float64()
		require.InDelta(t, want, Cross(u, v).SquareMillimetres(), 1e-15*math.Abs(want))
	}
}

func TestASmallNegativeProductKeepsItsDigits(t *testing.T) {
	assert.Equal(t, -1e-12, Cross(Pt(0, 1), Pt(1, 0)).SquareMillimetres())
}

func TestTurnTellsTheSide(t *testing.T) {
	a, b := Pt(0, 0), Pt(10*Metre, 10*Metre)
	assert.Equal(t, 1, Orientation(a, b, Pt(5*Metre, 5*Metre+1)), "one nanometre to the left, where floats see none")
	assert.Equal(t, 0, Orientation(a, b, Pt(20*Metre, 20*Metre)))
	assert.Equal(t, -1, Orientation(a, b, Pt(5*Metre+1, 5*Metre)))
	far := Length(1<<62 - 1)
	assert.Equal(t, 1, Orientation(Pt(-far, -far), Pt(far, -far), Pt(0, far)), "no overflow at the edge of the range")
}

func TestDistance(t *testing.T) {
	assert.Equal(t, 5*Metre, Pt(Metre, Metre).Distance(Pt(4*Metre, 5*Metre)), "3-4-5")
	assert.Equal(t, Length(1_414_214), Pt(0, 0).Distance(Pt(Millimetre, Millimetre)))
	assert.Equal(t, Pt(4, 6), Pt(1, 2).Add(Pt(3, 4)))
	assert.Equal(t, Pt(-2, -2), Pt(1, 2).Sub(Pt(3, 4)))
}
