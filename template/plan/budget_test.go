package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/tolerance"
)

func TestOneHoleMarksBoardAndWallWhereTheHalvesLieOverEachOther(t *testing.T) {
	j := sample.Reading()
	worst := func() geom.Length {
		p := &Plan{Job: j, Layout: hung.Layout(j, hung.Board24x48(), 1, hung.Stud)}
		p.Screws, _ = fastening.Choose(j, &p.Layout)
		return p.Estimate(tolerance.Print{}).BoardToWall.Worst
	}
	assert.Equal(t, 2*j.Accuracy.Wander, worst())
	j.Clip.Offset = geom.Pt(0, geom.Inch)
	assert.Greater(t, worst(), 2*j.Accuracy.Wander)
}
