package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
)

// What reads the same is the same to whoever saws: a nanometre between two gaps tells them nothing.
func TestLengthsThatReadTheSameAreCounted(t *testing.T) {
	read := func(l geom.Length) string { return l.Bare(geom.Imperial) }
	eighth := geom.Inch / 8
	for _, row := range []struct {
		lengths []geom.Length
		want    []string
	}{
		{nil, nil},
		{[]geom.Length{eighth}, []string{"1/8"}},
		{[]geom.Length{eighth, eighth, 2 * eighth, eighth}, []string{"2 × 1/8", "1/4", "1/8"}},
		{[]geom.Length{eighth + 2, eighth + 1, eighth + 1}, []string{"3 × ≈1/8"}},
	} {
		assert.Equal(t, row.want, Repeated(row.lengths, read))
	}
}
