package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The bay's middle run goes into both corners, so it hangs first; its clips lift.
func TestTheOverviewSaysInWhichOrderPanelsHang(t *testing.T) {
	assert.Equal(t, "Hang the panels in this order: M1–M4, L1, L2, R1, R2. M1 before L2 and M4 before R1: they go into the corner behind. "+
		"Hold each 14 mm above its place, hook it over, let it down. They come off in the opposite order.", makerOf(t, stored(t, "bay")).hangingStep())
	assert.Equal(t, "Hang panel G1.", makerOf(t, metric(`walls: [{name: A, width: 1000, height: 2000, runs: [{name: G, across: [100, 600], height: {bottom: 200, top: 700}, panels: 1}]}]`)).hangingStep())
	assert.Equal(t, "No order of hanging is possible: see above.", makerOf(t, metric(`walls:
  - {name: A, width: 1000, height: 2000, corner: inside, runs: [{name: A, across: [60, 1000], height: {bottom: 200, top: 700}, panels: 1}]}
  - {name: B, width: 1000, height: 2000, corner: inside, runs: [{name: B, across: [60, 1000], height: {bottom: 200, top: 700}, panels: 1}]}
  - {name: C, width: 1000, height: 2000, corner: inside, runs: [{name: C, across: [60, 1000], height: {bottom: 200, top: 700}, panels: 1}]}
`)).hangingStep())
}
