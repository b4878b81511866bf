package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/tolerance"
)

func TestDrillingInOneGoHelpsWhereTheHalvesLieOverEachOther(t *testing.T) {
	j := sample.Reading()
	helps := func() string {
		p := &Plan{Job: j, Layout: hung.Layout(j, hung.Board24x48(), 1, hung.Stud)}
		p.Screws, _ = fastening.Choose(j, &p.Layout)
		return fmt.Sprint(p.Estimate(tolerance.Print{Line: [2]geom.Length{200 * geom.Millimetre, 260 * geom.Millimetre}, Page: geom.Size{W: 190 * geom.Millimetre, H: 240 * geom.Millimetre}}).Helps)
	}
	assert.Contains(t, helps(), "in one go")
	j.Clip.Offset = geom.Pt(0, geom.Inch)
	assert.NotContains(t, helps(), "in one go")
}
