package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/plan/tolerance"
)

func TestOneHoleMarksBoardAndWallWhereTheHalvesLieOverEachOther(t *testing.T) {
	j := reading()
	p := hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Equal(t, 2*j.Accuracy.Wander, p.Estimate(tolerance.Print{}).BoardToWall.Worst)
	j.Clip.Offset = geom.Pt(0, in)
	p = hung(j, board24x48(), 1, stud)
	p.screw()
	assert.Greater(t, p.Estimate(tolerance.Print{}).BoardToWall.Worst, 2*j.Accuracy.Wander)
}
