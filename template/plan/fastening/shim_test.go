package fastening

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

// A 1/8 in pad makes clips engage on a lining that gives (common practice); for all clips of a plane or none.
func TestWhereTheLiningGivesAllRunsOfTheWallStandOnPads(t *testing.T) {
	j := sample.Clipped(sample.Panelled([]geom.Length{6 * inch, 18 * inch}, 24*inch, 24*inch), sample.Panelled([]geom.Length{6 * inch, 18 * inch}, 24*inch))
	j.Walls[0].Lining = job.Lining{Thickness: inch / 8, Given: true, Gives: true}
	j.Walls[1].Lining = j.Walls[0].Lining
	second := sample.Row("T", 2*inch, 26*inch, 50*inch, 74*inch, 1, 0)
	j.Walls[0].Runs = append(j.Walls[0].Runs, second)
	j.Foam = job.Foam{Thickness: inch}
	j.Batt = job.Batting{Pressed: inch / 16}
	j.Cover = job.Cover{Thickness: inch / 32}
	p := placed(t, j)
	assert.Contains(t, p.IDs(), "lining-gives")
	// shim 1/8 + standoff 5/16 + board 15/32 + foam 1 + pressed batting 1/16 + cover 1/32 = 2 in, worked by hand
	for _, r := range []int{0, 1} {
		assert.Equal(t, inch/8, p.Runs[r].Shim)
		assert.Equal(t, 7*inch/16, p.Runs[r].Standing)
		assert.Equal(t, 2*inch, p.Runs[r].BuildOut)
	}
	// On the second wall every clip is on wood: no pads, 1/8 in nearer to the wall.
	assert.Equal(t, geom.Length(0), p.Runs[2].Shim)
	assert.Equal(t, 5*inch/16, p.Runs[2].Standing)
	assert.Equal(t, 15*inch/8, p.Runs[2].BuildOut)
	assert.Equal(t, Shims{Thickness: inch / 8, Size: geom.Size{W: 7 * inch / 4, H: 7 * inch / 4}, Count: 12, Spares: 2}, p.Shims)
}

func TestALiningThatHoldsNeedsNoPads(t *testing.T) {
	p := placed(t, sample.Clipped(sample.Panelled(nil, 24*inch)))
	assert.Equal(t, Shims{}, p.Shims)
	assert.Equal(t, geom.Length(0), p.Runs[0].Shim)
}

func TestAPadHasTheSizeTheJobSays(t *testing.T) {
	j := sample.Clipped(sample.Panelled(nil, 24*inch))
	j.Walls[0].Lining.Gives = true
	j.Shims.Size = geom.Size{W: 2 * inch, H: 3 * inch}
	assert.Equal(t, j.Shims.Size, placed(t, j).Shims.Size)
}
