package job

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// walled is a job of walls 1000 mm wide, each with its corner and where its run goes.
func walled(walls ...[2]string) []byte {
	var b strings.Builder
	b.WriteString(`rodsheet: 1
name: Corners
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20}
batting: {thickness: 10, pressed: 1.5}
cover: {thickness: 1.5}
clip: {kind: press, base: 40 x 40, flange: 2.5, standoff: 10}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 3}
walls:
`)
	for i, w := range walls {
		fmt.Fprintf(&b, "  - {name: W%d, width: 1000, height: 2400, lining: {thickness: 12}, corner: %s, runs: [{name: %c, across: %s, height: {bottom: 500, top: 900}, panels: 2}]}\n",
			i, w[0], 'A'+i, w[1])
	}
	return []byte(b.String())
}

// Past an outside corner a run covers the edges of the other; anywhere else a run ends with its wall.
func TestARunMayGoPastAnOutsideCornerOnly(t *testing.T) {
	for _, row := range []struct {
		name  string
		walls [][2]string
		wrong int // walls whose run is refused
	}{
		{"right end at an outside corner", [][2]string{{"outside", "[0, 1045]"}, {"none", "[0, 900]"}}, 0},
		{"left end at an outside corner", [][2]string{{"outside", "[0, 900]"}, {"none", "[-45, 1000]"}}, 0},
		{"the last wall joins the first", [][2]string{{"none", "[-45, 900]"}, {"none", "[0, 900]"}, {"outside", "[0, 1000]"}}, 0},
		{"two walls don't go round", [][2]string{{"none", "[-45, 900]"}, {"outside", "[0, 1000]"}}, 1},
		{"side walls out of plumb, the narrowest reading as wide as the wall", [][2]string{{"none", "[[0, 1003], [0, 1000], [-2, 1001]]"}, {"none", "[0, 900]"}}, 0},
		{"an inside corner", [][2]string{{"inside", "[0, 1045]"}, {"none", "[-45, 900]"}}, 2},
		{"no corner", [][2]string{{"none", "[-1, 1000]"}, {"none", "[0, 1001]"}}, 2},
		{"the other end of the wall", [][2]string{{"outside", "[-45, 1000]"}, {"none", "[0, 1045]"}}, 2},
		{"farther than a person would mean", [][2]string{{"outside", "[0, 1700]"}, {"none", "[-700, 900]"}}, 2},
		{"wholly past the corner", [][2]string{{"outside", "[1000, 1200]"}, {"none", "[-200, 0]"}}, 2},
	} {
		_, err := Read("corners.yaml", walled(row.walls...))
		if row.wrong == 0 {
			assert.NoError(t, err, row.name)
			continue
		}
		var problems *Problems
		require.ErrorAs(t, err, &problems, row.name)
		assert.Equal(t, row.wrong, strings.Count(err.Error(), "is outside the wall, which is 1000 mm wide"), "%s: %v", row.name, err)
	}
}
