package rule

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template/job"
)

// metric is a job of our own in millimetres without a slip in it.
const metric = `rodsheet: 1
name: Try
units: mm
board: {thickness: 12, density: 580 kg/m3}
foam: {thickness: 25}
cover: {thickness: 1}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 9, carries: 20 kg, play: 6}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}}
walls:
  - name: North
    width: 2440
    height: 2400
    lining: {thickness: 12.5}
    depth: 120
    studs: {from: 200, every: 400, depth: 95}
    runs:
      - {name: N, across: [50, 2390], height: {bottom: 545, top: 1105}, panels: 3}
`

func TestSlipsOfPointAndUnitAreAskedAbout(t *testing.T) {
	asked := func(id, old, new string) string {
		t.Helper()
		require.Contains(t, metric, old)
		j, err := job.Read("try.yaml", []byte(strings.Replace(metric, old, new, 1)))
		require.NoError(t, err, new)
		found := ofID(checked(t, j), id)
		if len(found) == 0 {
			return ""
		}
		_, question, _ := strings.Cut(found[0].Text, " Did you mean ")
		return question
	}
	for _, c := range []struct{ id, old, new, question string }{
		{"stud-spacing", "every: 400", "every: 4000", "400 mm?"},
		{"stud-spacing", "every: 400", "every: 40", "400 mm?"},
		{"stud-spacing", "every: 400", "every: 406", ""},
		{"stud-spacing", "every: 400", "every: 200", ""},
		{"stud-spacing", "every: 400", "every: 1200", ""},
		{"stud-spacing", "every: 400", "every: 1201", "another unit?"},
		{"stud-spacing", "from: 200, every: 400", "at: [40, 80]", ""},
		{"wall-long", "width: 2440", "width: 24400", "2440 mm?"},
		{"wall-long", "width: 2440", "width: 23400", "another unit?"},
		{"wall-long", "width: 2440", "width: 23399", ""},
		{"wall-long", "across: [50, 2390], height: {bottom: 545, top: 1105}, panels: 3", "across: [50, 250], height: {bottom: 545, top: 1105}, panels: 1", ""},
		{"screw-stout", "board: {size: 4 mm, length: 12}", "board: {size: 8 mm, length: 1/2 in}", "gauge 8, which is ≈4 mm thick?"},
		{"screw-stout", "board: {size: 4 mm, length: 12}", "board: {size: 5 mm, length: 10}", ""},
		{"screw-stout", "board: {size: 4 mm, length: 12}", "board: {size: 6.5 mm, length: 12}", "another unit?"},
		{"screw-stout", "board: {size: 4 mm, length: 12}", "board: {size: no 8, length: 10}", ""},
		{"board-thick", "thickness: 12,", "thickness: 30,", ""},
		{"board-thick", "thickness: 12,", "thickness: 90,", "9 mm?"},
		{"board-thick", "thickness: 12,", "thickness: 31,", "another unit?"},
		{"standoff-none", "standoff: 9", "standoff: 0", "how thick a hooked pair is?"},
		{"standoff-none", "standoff: 9", "standoff: 0.5", ""},
	} {
		assert.Equal(t, c.question, asked(c.id, c.old, c.new), c.new)
	}
}

// Through the face by half the foam is a caution, by a hair more a stop.
func TestAScrewThroughMoreThanHalfTheFoamIsAStop(t *testing.T) {
	through := func(length string) []string {
		j, err := job.Read("try.yaml", []byte(strings.Replace(metric, "length: 12}", "length: "+length+"}", 1)))
		require.NoError(t, err)
		var ids []string
		for _, f := range Grouped(checked(t, j)) {
			if f.ID == "screw-through" || f.ID == "screw-pierces" {
				ids = append(ids, f.ID+" "+f.Level.String())
			}
		}
		return ids
	}
	// Flange 3 + board 12 less 0.4 + half of 25.
	assert.Equal(t, []string{"screw-through caution"}, through("27.1"))
	assert.Equal(t, []string{"screw-pierces stop"}, through("27.2"))
}
