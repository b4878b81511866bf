package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNamesWithFollowingNumbersAreDrawnTogether(t *testing.T) {
	for _, row := range []struct{ names, want []string }{
		{nil, nil},
		{[]string{"N1", "N2", "N3", "N5"}, []string{"N1–N3", "N5"}},
		{[]string{"N1", "N2"}, []string{"N1", "N2"}},
		{[]string{"N9", "N10", "N11"}, []string{"N9–N11"}},
		{[]string{"N1", "M2", "M3", "M4"}, []string{"N1", "M2–M4"}},
		{[]string{"Left", "Right", "Middle"}, []string{"Left", "Right", "Middle"}},
	} {
		assert.Equal(t, row.want, Ranges(row.names), "%v", row.names)
	}
}
