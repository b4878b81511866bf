package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMovesAndMirrorsAreExactFarOut(t *testing.T) {
	far := Pt(1<<60+1, -(1<<60 + 3)) // beyond what a float64 holds to the nanometre
	assert.Equal(t, far, Identity().Apply(far))
	assert.Equal(t, far.Add(Pt(1, 1)), Translate(Pt(1, 1)).Apply(far))
	assert.Equal(t, Pt(7-far.X, far.Y), FlipX(7).Apply(far))
	assert.Equal(t, Pt(far.X, 7-far.Y), FlipY(7).Apply(far))
	quarter := Affine{B: -1, C: 1}
	assert.Equal(t, Pt(-far.Y, far.X), quarter.Apply(far))
}

func TestThenAndInverse(t *testing.T) {
	p := Pt(123*Millimetre, -45*Millimetre)
	m := Translate(Pt(3, 4)).Then(FlipX(Metre)).Then(Affine{B: -1, C: 1, X: 9})
	assert.Equal(t, Pt(45*Millimetre-4+9, Metre-123*Millimetre-3), m.Apply(p), "the first one first")
	inverse, ok := m.Inverse()
	require.True(t, ok)
	assert.Equal(t, p, inverse.Apply(m.Apply(p)))
	assert.Equal(t, p, m.Apply(inverse.Apply(p)))

	half := Scale(0.5, 2)
	assert.Equal(t, Pt(p.X/2, 2*p.Y), half.Apply(p))
	inverse, ok = half.Inverse()
	require.True(t, ok)
	assert.Equal(t, p, inverse.Apply(half.Apply(p)))

	_, ok = Scale(1, 0).Inverse()
	assert.False(t, ok, "a flattened plane can't be undone")
	_, ok = Scale(math.NaN(), 1).Inverse()
	assert.False(t, ok)
}
