package fastening

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// inches reads a decimal of an inch to the nearest nanometre.
func inches(in float64) geom.Length { return geom.Millimetre.Times(in * 25.4) }

func TestScrewNumbersHaveTheDiametersOfTheStandard(t *testing.T) {
	// ASME B18.6.1: D = 0.060 + 0.013 N in; mm by 25.4 mm to the inch.
	for _, row := range []struct {
		number int
		in, mm float64
		root   float64 // NDS 2018, Appendix L, Table L3 (#7, #9 and #16 on from memory)
	}{
		{4, 0.112, 2.845, 0},
		{5, 0.125, 3.175, 0},
		{6, 0.138, 3.505, 0.113},
		{7, 0.151, 3.835, 0.122},
		{8, 0.164, 4.166, 0.131},
		{9, 0.177, 4.496, 0.142},
		{10, 0.190, 4.826, 0.152},
		{12, 0.216, 5.486, 0.171},
		{14, 0.242, 6.147, 0.196},
		{16, 0.268, 6.807, 0.209},
		{18, 0.294, 7.468, 0.232},
		{20, 0.320, 8.128, 0.255},
		{24, 0.372, 9.449, 0.298},
	} {
		d := job.ScrewDiameter(row.number)
		assert.Equal(t, inches(row.in), d, "#%d", row.number)
		assert.InDelta(t, row.mm, d.Millimetres(), 0.0005, "#%d", row.number)
		if row.root > 0 {
			assert.Equal(t, inches(row.root), rootDiameter(d), "#%d", row.number)
		}
	}
}

func TestRootOfAMetricScrewLiesBetweenItsNeighboursOrIsTwoThirds(t *testing.T) {
	// 4 mm = 0.15748 in lies half-way between #7 (0.151, 0.122) and #8 (0.164, 0.131): 0.12649 in.
	assert.InDelta(t, 0.12649, rootDiameter(4*geom.Millimetre).Inches(), 0.00001)
	// USDA Wood Handbook FPL-GTR-190, chapter 8: about two-thirds of the shank, clearly below the roots of the table.
	assert.Equal(t, 2*geom.Millimetre, rootDiameter(3*geom.Millimetre))
	assert.Equal(t, 8*geom.Millimetre, rootDiameter(12*geom.Millimetre))
	for _, number := range []int{6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24} {
		share := rootDiameter(job.ScrewDiameter(number)).Inches() / job.ScrewDiameter(number).Inches()
		assert.Greater(t, share, 0.7, "#%d", number)
		assert.Less(t, share, 0.85, "#%d", number)
	}
}

func TestLeadHolesFollowTheWood(t *testing.T) {
	// NDS 2018, 12.1.5.2 and 12.1.5.3, worked for D 0.164, root 0.131 (#8) and D 0.190, root 0.152 (#10).
	for _, row := range []struct {
		number                    int
		gravity                   float64
		withdrawal, thread, shank float64
	}{
		{8, 0.42, 0, 0.1146, 0.1435},
		{8, 0.50, 0, 0.1146, 0.1435},
		{8, 0.55, 0.0917, 0.1146, 0.1435},
		{8, 0.60, 0.0917, 0.1146, 0.1435},
		{8, 0.67, 0.1179, 0.1310, 0.1640},
		{10, 0.55, 0.1064, 0.1330, 0.1663},
		{10, 0.67, 0.1368, 0.1520, 0.1900},
	} {
		lead := leadHoles(job.ScrewDiameter(row.number), row.gravity)
		name := fmt.Sprintf("#%d in G %.2f", row.number, row.gravity)
		assert.InDelta(t, row.withdrawal, lead.Withdrawal.Inches(), 0.00006, name)
		assert.InDelta(t, row.thread, lead.Thread.Inches(), 0.00006, name)
		assert.InDelta(t, row.shank, lead.Shank.Inches(), 0.00006, name)
	}
}

func TestDrillsStandNextToTheWantedDiameter(t *testing.T) {
	sixtyFourths := func(n geom.Length) geom.Length { return n * geom.SixtyFourth }
	// Drills in steps of 1/64 in: ASME B94.11M.
	for _, row := range []struct {
		want                  float64
		below, above, nearest geom.Length // 64ths
	}{
		{0.0917, 5, 6, 6},   // 70 % of the root of #8: 3/32
		{0.1179, 7, 8, 8},   // 90 %: 7/64 below, 1/8 above
		{0.1146, 7, 8, 7},   // 7/8 of the root: 7/64
		{0.1435, 9, 10, 9},  // 7/8 of the shank: 9/64
		{0.1064, 6, 7, 7},   // 70 % of the root of #10: 7/64
		{0.1368, 8, 9, 9},   // 90 %: 1/8 below, 9/64 above
		{0.078125, 5, 5, 5}, // 5/64 itself
		{0.21875, 14, 14, 14},
	} {
		d := drillsNear(inches(row.want), geom.Imperial)
		assert.Equal(t, drillSizes{sixtyFourths(row.below), sixtyFourths(row.above), sixtyFourths(row.nearest)}, d, "%v", row.want)
	}
	assert.Equal(t, 5*geom.Millimetre/2, drillsNear(inches(0.0917), geom.Metric).Nearest)
}

func TestLeadBitNeverPassesTheRoot(t *testing.T) {
	for number := 4; number <= 14; number++ {
		for _, gravity := range []float64{0.36, 0.5, 0.55, 0.6, 0.73} {
			for _, s := range []geom.System{geom.Metric, geom.Imperial} {
				d := job.ScrewDiameter(number)
				assert.LessOrEqual(t, leadBit(d, gravity, s), rootDiameter(d), "#%d in G %.2f", number, gravity)
			}
		}
	}
	// NDS 2018, 12.1.5: #8 in S-P-F (G 0.42) takes 7/64, in southern pine (G 0.55) 3/32.
	assert.Equal(t, 7*geom.SixtyFourth, leadBit(job.ScrewDiameter(8), 0.42, geom.Imperial))
	assert.Equal(t, 6*geom.SixtyFourth, leadBit(job.ScrewDiameter(8), 0.55, geom.Imperial))
}

func TestWithdrawalValuesFollowTheFormula(t *testing.T) {
	// W = 2850 G² D in lb/in for #6, #8, #10 (NDS 2018, 12.2.2), computed.
	for gravity, row := range map[float64][3]float64{
		0.73: {210, 249, 289}, 0.67: {177, 210, 243}, 0.58: {132, 157, 182}, 0.55: {119, 141, 164},
		0.51: {102, 122, 141}, 0.50: {98, 117, 135}, 0.49: {94, 112, 130}, 0.46: {83, 99, 115},
		0.43: {73, 86, 100}, 0.42: {69, 82, 96}, 0.37: {54, 64, 74}, 0.36: {51, 61, 70},
	} {
		for i, number := range []int{6, 8, 10} {
			assert.InDelta(t, row[i], withdrawal(job.ScrewDiameter(number), gravity), 0.51, "#%d in G %.2f", number, gravity)
		}
	}
	// Worked example, common practice: #10, G 0.45 gives 109 lb/in; exactly 109.65 (NDS 2018, 12.2.2).
	assert.InDelta(t, 109.65, withdrawal(job.ScrewDiameter(10), 0.45), 0.005)
	// #8 at G 0.42: 82.4 lb/in = 14.4 N/mm (1 lb/in = 0.175127 N/mm, by the pound of 1959).
	assert.InDelta(t, 14.4, withdrawal(job.ScrewDiameter(8), 0.42)*0.175127, 0.05)
}
