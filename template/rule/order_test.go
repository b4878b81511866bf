package rule

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template/plan"
)

func TestTheOrderOfHangingIsSaidInRangesWithItsReasons(t *testing.T) {
	order := func(edits ...string) (string, []string) {
		p, err := plan.Make(read(t, edits...))
		require.NoError(t, err)
		return HangingOrder(p)
	}
	said, why := order()
	assert.Equal(t, "N1, N2", said)
	assert.Empty(t, why)

	// The second run, 1/8 in under the first, takes 1/2 in of lift only when it hangs last.
	said, why = order("kind: press", "kind: lift, lift: 1/2", "panels: 2, gap: 1/4", "panels: 3",
		"# walls", "      - {name: T, across: [10, 60], height: {bottom: 8, top: 23 7/8}, panels: 3}")
	assert.Equal(t, "T1–T3, N1–N3", said)
	assert.Equal(t, []string{"T1–T3 before N1–N3: they rise to come on, into that room."}, why)

	said, why = order("# wall", "corner: inside\n    through: next", run, "across: [10, 93], height: band, panels: 2",
		"# walls", "  - {name: E, width: 60, height: 96, runs: [{name: E, across: [0, 40], height: band, panels: 1}]}")
	assert.Equal(t, "E1, N1, N2", said)
	assert.Equal(t, []string{"E1 before N2: they go into the corner behind."}, why)

	said, why = order(pinwheel...)
	assert.Empty(t, said)
	assert.Empty(t, why)
}
