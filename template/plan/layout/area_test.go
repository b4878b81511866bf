package layout

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	reference "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/sample"
)

// over is a job in millimetres with one run over an area, on a wall of 4 m × 4 m.
func over(area geom.Polygon, panels int, gap geom.Length, openings ...geom.Rect) *job.Job {
	j := sample.Bay(sample.WallOf("W", 4*geom.Metre, 4*geom.Metre, job.Run{Name: "G", Area: area.Normalized(), Panels: panels, Gap: gap}))
	for _, r := range openings {
		j.Walls[0].Openings = append(j.Walls[0].Openings, job.Opening{Name: "window", Kind: job.Window, Rect: r})
	}
	j.Slivers.Width = 0
	return j
}

// outlines are the finished outlines by panel.
func outlines(p *record) map[string]geom.Polygon {
	m := map[string]geom.Polygon{}
	for _, panel := range p.Panels {
		m[panel.Name] = panel.Finished
	}
	return m
}

func box(x0, y0, x1, y1 int) geom.Rect {
	return geom.R(geom.Length(x0)*mm, geom.Length(y0)*mm, geom.Length(x1)*mm, geom.Length(y1)*mm)
}

func shape(xy ...[2]int) geom.Polygon {
	var q geom.Polygon
	for _, c := range xy {
		q = append(q, geom.Pt(geom.Length(c[0])*mm, geom.Length(c[1])*mm))
	}
	return q.Normalized()
}

// A rectangle as an area is divided as a row is: finished 663, gaps 5.5 (see TestWhatSawStepsLeaveGoesIntoTheGaps).
func TestARectangularAreaIsDividedAsARow(t *testing.T) {
	p := laid(t, over(box(100, 400, 2100, 900).Polygon(), 3, 5*mm))
	q := laid(t, sample.Bay(sample.WallOf("W", 4*geom.Metre, 4*geom.Metre, sample.Row("G", 100*mm, 2100*mm, 400*mm, 900*mm, 3, 5*mm))))
	assert.Equal(t, q.Runs[0].Gaps, p.Runs[0].Gaps)
	require.Len(t, p.Panels, 3)
	for i := range p.Panels {
		assert.Equal(t, q.Panels[i], p.Panels[i])
	}
	assert.Equal(t, q.Runs[0].Bounds, p.Runs[0].Bounds)
}

// A slope from 1000 up to 2000 over 1000 mm, two panels, no gap: the slope is at 1500 in the middle. The board's edge
// under the slope is a parallel 3 mm away: 3·√2 lower.
func TestASlopeMakesTrapezoids(t *testing.T) {
	p := laid(t, over(shape([2]int{0, 0}, [2]int{1000, 0}, [2]int{1000, 2000}, [2]int{0, 1000}), 2, 0))
	assert.Equal(t, shape([2]int{0, 0}, [2]int{500, 0}, [2]int{500, 1500}, [2]int{0, 1000}), p.Panels[0].Finished)
	assert.Equal(t, shape([2]int{500, 0}, [2]int{1000, 0}, [2]int{1000, 2000}, [2]int{500, 1500}), p.Panels[1].Finished)
	board := p.Panels[0].Outline
	require.Len(t, board, 4)
	assert.Equal(t, geom.Pt(3*mm, 3*mm), board[0])
	assert.Equal(t, geom.Pt(497*mm, 3*mm), board[1])
	drop := 3 * 1.4142135623730951
	assert.InDelta(t, 1497-drop, board[2].Y.Millimetres(), 1e-6)
	assert.InDelta(t, 1003-drop, board[3].Y.Millimetres(), 1e-6)
}

func TestWidthsBetweenDivisionsComeToSawStepsAndOtherEdgesAreExact(t *testing.T) {
	p := laid(t, over(shape([2]int{0, 0}, [2]int{1999, 0}, [2]int{1999, 777}, [2]int{0, 1234}), 4, 5*mm))
	require.Len(t, p.Panels, 4)
	for _, panel := range p.Panels[1:3] {
		assert.Zero(t, panel.Outline.Bounds().W()%mm)
	}
	assert.Equal(t, geom.Length(0), p.Panels[0].Finished.Bounds().Min.X)
	assert.Equal(t, 1999*mm, p.Panels[3].Finished.Bounds().Max.X)
	assert.Equal(t, 3*mm, p.Panels[3].Outline.Bounds().Min.Y)
}

func TestAnOpeningThatTouchesASideNotchesThePanel(t *testing.T) {
	p := laid(t, over(box(0, 0, 1000, 1000).Polygon(), 1, 10*mm, box(400, 800, 600, 1200)))
	require.Len(t, p.Panels, 1)
	assert.Equal(t, "G1", p.Panels[0].Name)
	assert.Equal(t, shape([2]int{0, 0}, [2]int{1000, 0}, [2]int{1000, 1000}, [2]int{610, 1000}, [2]int{610, 790}, [2]int{390, 790}, [2]int{390, 1000}, [2]int{0, 1000}),
		p.Panels[0].Finished)
	assert.Equal(t, shape([2]int{3, 3}, [2]int{997, 3}, [2]int{997, 997}, [2]int{613, 997}, [2]int{613, 787}, [2]int{387, 787}, [2]int{387, 997}, [2]int{3, 997}),
		p.Panels[0].Outline, "the board keeps away from the notch, too")
}

func TestAnOpeningFromSideToSideSplitsAPanelIntoAAndB(t *testing.T) {
	p := laid(t, over(box(0, 0, 1000, 1000).Polygon(), 2, 0, box(500, 300, 1000, 700)))
	assert.Equal(t, map[string]geom.Polygon{
		"G1": box(0, 0, 500, 1000).Polygon(), "G2a": box(500, 0, 1000, 300).Polygon(), "G2b": box(500, 700, 1000, 1000).Polygon(),
	}, outlines(p))
}

// The opening stands from 400 to 600; halves meet at its middle height, 500, with half of the gap of 10 off each.
func TestAnOpeningWhollyInsideSplitsAPanelAtItsMiddleHeight(t *testing.T) {
	p := laid(t, over(box(0, 0, 1000, 1000).Polygon(), 1, 10*mm, box(400, 400, 600, 600)))
	assert.Equal(t, map[string]geom.Polygon{
		"G1a": shape([2]int{0, 0}, [2]int{1000, 0}, [2]int{1000, 495}, [2]int{610, 495}, [2]int{610, 390}, [2]int{390, 390}, [2]int{390, 495}, [2]int{0, 495}),
		"G1b": shape([2]int{0, 505}, [2]int{390, 505}, [2]int{390, 610}, [2]int{610, 610}, [2]int{610, 505}, [2]int{1000, 505}, [2]int{1000, 1000}, [2]int{0, 1000}),
	}, outlines(p))
}

func TestAnOpeningBesideTheAreaTakesNothingAndAFittingInsideDoes(t *testing.T) {
	j := over(box(0, 0, 1000, 1000).Polygon(), 1, 10*mm, box(1000, 0, 1200, 1000))
	assert.Equal(t, box(0, 0, 1000, 1000).Polygon(), laid(t, j).Panels[0].Finished)
	j.Walls[0].Fittings = []job.Fitting{{Name: "socket", Rect: box(900, 0, 1000, 100)}}
	assert.Equal(t, shape([2]int{0, 0}, [2]int{890, 0}, [2]int{890, 110}, [2]int{1000, 110}, [2]int{1000, 1000}, [2]int{0, 1000}), laid(t, j).Panels[0].Finished)
}

func TestEndsStandFreeAllRoundAnArea(t *testing.T) {
	j := over(box(0, 0, 1000, 1000).Polygon(), 2, 0)
	j.Walls[0].Runs[0].Ends = 10 * mm
	assert.Equal(t, map[string]geom.Polygon{"G1": box(10, 10, 500, 990).Polygon(), "G2": box(500, 10, 990, 990).Polygon()}, outlines(laid(t, j)))
	j.Walls[0].Runs[0].Ends = 490 * mm
	j.Walls[0].Runs[0].Area = box(0, 0, 1000, 900).Polygon()
	assert.Equal(t, "walls[0].runs[0].ends", refused(t, j)[0].Field)
}

func TestAnOpeningOverTheWholeAreaIsRefused(t *testing.T) {
	problems := refused(t, over(box(100, 100, 900, 900).Polygon(), 2, 0, box(0, 0, 1000, 1000)))
	require.Len(t, problems, 1)
	assert.Equal(t, "walls[0].runs[0].area", problems[0].Field)
}

// A door that leaves 40 mm of the second column on its right: with the 60 mm column beside it, nothing is lost.
func TestSliversAreToldOrMerged(t *testing.T) {
	j := over(box(0, 0, 1500, 1000).Polygon(), 3, 0, box(500, 0, 960, 1000))
	j.Slivers = job.Slivers{Width: 75 * mm}
	p := laid(t, j)
	assert.Equal(t, []string{"sliver"}, p.IDs())
	assert.Equal(t, finding.OfPanels("walls[0].runs[0]", "G2"), p.Findings[0].Subject)
	assert.Equal(t, box(960, 0, 1000, 1000).Polygon(), outlines(p)["G2"])

	j.Slivers.Merge = true
	p = laid(t, j)
	assert.Empty(t, p.Findings)
	assert.Equal(t, map[string]geom.Polygon{"G1": box(0, 0, 500, 1000).Polygon(), "G2": box(960, 0, 1500, 1000).Polygon()}, outlines(p))
}

// The right one of four columns under a slope of 1000 in 1000 is a triangle of 500 × 500: 125 000 mm² (half the product
// of its sides), which 250 × 500 covers too.
func TestSliversAreToldOrMergedByTheirArea(t *testing.T) {
	triangle := shape([2]int{0, 0}, [2]int{2000, 0}, [2]int{0, 2000})
	j := over(triangle, 4, 0)
	j.Slivers = job.Slivers{Width: 75 * mm, Area: geom.Size{W: 250 * mm, H: 500 * mm}}
	assert.Empty(t, laid(t, j).Findings, "as large as the least is large enough")
	j.Slivers.Area.H += 1
	p := laid(t, j)
	assert.Equal(t, []string{"sliver"}, p.IDs())
	assert.Equal(t, finding.OfPanels("walls[0].runs[0]", "G4"), p.Findings[0].Subject)
	assert.Equal(t, Sliver{Panel: geom.Size{W: 500 * mm, H: 500 * mm}, Area: j.Slivers.Area}, p.Findings[0].Params)

	j.Slivers.Merge = true
	p = laid(t, j)
	assert.Empty(t, p.Findings)
	assert.Len(t, p.Panels, 3)
	assert.Equal(t, box(1000, 0, 2000, 1000), p.Panels[2].Finished.Bounds())
}

// Four columns of 2003 mm: (2003 − 15)/4 = 497, boards of 491. Two with the gap between make 999 and a board of 993.
// The left one of them falls to a sliver, both are joined, between divisions: whole saw steps, whatever the gap was.
func TestAMergedPieceBetweenDivisionsHasABoardOfWholeSawSteps(t *testing.T) {
	j := over(box(0, 0, 2004, 1000).Polygon(), 4, 5*mm, box(500, 0, 950, 1000))
	j.Slivers = job.Slivers{Width: 75 * mm, Merge: true}
	p := laid(t, j)
	require.Len(t, p.Panels, 3)
	merged := p.Panels[1].Finished.Bounds()
	assert.Equal(t, 955*mm, merged.Min.X, "beside the opening the edge is exact")
	over := merged.Max.X - p.Panels[0].Finished.Bounds().Max.X - p.Runs[0].Gaps[0] - 2*p.Edge
	assert.Zero(t, over%mm)
	assert.GreaterOrEqual(t, p.Panels[2].Finished.Bounds().Min.X-merged.Max.X, 5*mm)
}

func TestANeckTooNarrowForABoardIsTold(t *testing.T) {
	hourglass := shape([2]int{0, 0}, [2]int{500, 0}, [2]int{500, 300}, [2]int{252, 500}, [2]int{500, 700}, [2]int{500, 1000}, [2]int{0, 1000}, [2]int{0, 700}, [2]int{248, 500}, [2]int{0, 300})
	p := laid(t, over(hourglass, 1, 0))
	assert.Equal(t, []string{"board-parts"}, p.IDs())
	p = laid(t, over(box(0, 0, 1000, 1000).Polygon(), 2, 0, box(505, 0, 1000, 1000)))
	assert.Equal(t, []string{"no-board"}, p.IDs(), "5 mm less twice 3 mm")
	assert.Equal(t, map[string]geom.Polygon{"G1": box(0, 0, 500, 1000).Polygon()}, outlines(p))
}

// The loft's area, by hand: span 2920, five panels, gaps of 5 → (2920 − 20)/5 = 580; boards 575 (e = 2.5). The roof
// window, with the gap, lies from 1175 to 1685 and above 1205: it notches G2 (from 785 to 1365) and G3 (from 1370 to
// 1950) at the top.
func TestTheLoftIsDividedByHand(t *testing.T) {
	area := shape([2]int{200, 420}, [2]int{3120, 420}, [2]int{3120, 1160}, [2]int{2607, 1560}, [2]int{200, 1560})
	j := over(area, 5, 5*mm, box(1180, 1210, 1680, 1990))
	j.Batt.Pressed, j.Cover.Thickness = mm+mm/2, mm
	p := laid(t, j)
	require.Len(t, p.Panels, 5)
	assert.Equal(t, box(200, 420, 780, 1560).Polygon(), p.Panels[0].Finished)
	assert.Equal(t, shape([2]int{785, 420}, [2]int{1365, 420}, [2]int{1365, 1205}, [2]int{1175, 1205}, [2]int{1175, 1560}, [2]int{785, 1560}), p.Panels[1].Finished)
	assert.Equal(t, shape([2]int{1370, 420}, [2]int{1950, 420}, [2]int{1950, 1560}, [2]int{1685, 1560}, [2]int{1685, 1205}, [2]int{1370, 1205}), p.Panels[2].Finished)
	assert.Equal(t, box(1955, 420, 2535, 1560).Polygon(), p.Panels[3].Finished)
	assert.Equal(t, shape([2]int{2540, 420}, [2]int{3120, 420}, [2]int{3120, 1160}, [2]int{2607, 1560}, [2]int{2540, 1560}), p.Panels[4].Finished)
}

func less(t *testing.T, a, b reference.Geometry) reference.Geometry {
	t.Helper()
	d, err := reference.Difference(a, b)
	require.NoError(t, err)
	return d
}

// ceiling is a random area with a straight floor and a broken line above it, and some openings.
func ceiling(r *rand.Rand) (geom.Polygon, []geom.Rect) {
	length := func(least, most int) geom.Length {
		return geom.Length(least)*mm + geom.Length(r.Int64N(int64(most-least)*int64(mm)))
	}
	q := geom.Polygon{}
	x := length(0, 300)
	floor := length(0, 400)
	q = append(q, geom.Pt(x, floor))
	var above geom.Polygon
	for range 2 + r.IntN(5) {
		above = append(above, geom.Pt(x, floor+length(300, 2500)))
		x += length(150, 700)
	}
	q = append(q, geom.Pt(above[len(above)-1].X, floor))
	slices.Reverse(above)
	q = append(q, above...)
	var openings []geom.Rect
	for range r.IntN(4) {
		at := geom.Pt(length(0, 2500), length(0, 2500))
		openings = append(openings, geom.Rect{Min: at, Max: at.Add(geom.Pt(length(30, 800), length(30, 800)))})
	}
	return q.Normalized(), openings
}

// The reference library works in floats of millimetres; a nanometre along an outline of 10 m is 1e-2 mm², and areas
// here are of the order of 1e6 mm²: 1e-9 of that and the rounding of corners.
func TestPiecesOfRandomAreasLieInsideApartAndCoverThem(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	split, panels, boardless := 0, 0, 0
	for n := range 200 {
		q, openings := ceiling(r)
		gap := []geom.Length{0, 5 * mm, 7*mm + 1}[r.IntN(3)]
		j := over(q, 1+r.IntN(5), gap, openings...)
		p := &planner{Job: j, Layout: Layout{Edge: 3 * mm}}
		if err := p.lay(); err != nil {
			require.ErrorContains(t, err, "leave nothing of the area", "area %d", n)
			continue
		}
		whole := sample.Refer(t, q)
		tolerance := 1e-9*whole.Area() + 2e-6*whole.Length()
		var finished []geom.Polygon
		for _, panel := range p.Panels {
			panels++
			f := panel.Finished
			require.Equal(t, f.Normalized(), f, "area %d", n)
			_, _, crosses := f.SelfIntersection()
			require.False(t, crosses, "area %d", n)
			require.LessOrEqual(t, less(t, sample.Refer(t, f), whole).Area(), tolerance, "area %d: %s reaches out", n, panel.Name)
			require.True(t, f.ContainsPolygon(panel.Outline), "area %d: the board of %s", n, panel.Name)
			finished = append(finished, f)
			if last := panel.Name[len(panel.Name)-1]; last == 'b' {
				split++
			}
		}
		all := sample.Refer(t, finished...)
		var sum float64
		for _, f := range finished {
			sum += f.Area()
		}
		require.InDelta(t, sum, all.Area(), tolerance, "area %d: no two pieces overlap", n)

		// What the pieces leave must be gaps, openings with the gap round them, halves' gaps at middle heights.
		var given []geom.Polygon
		b := q.Bounds()
		columns, _, ok := p.divide(p.Runs[0].Job, b.Min.X, b.Max.X, &job.Problems{})
		require.True(t, ok)
		for i := 1; i < len(columns); i++ {
			if columns[i-1].right < columns[i].left {
				given = append(given, geom.R(columns[i-1].right, b.Min.Y, columns[i].left, b.Max.Y).Polygon())
			}
		}
		var zones []geom.Polygon
		for _, o := range openings {
			if len(q.Clip(o)) > 0 {
				zone := o.Inset(-gap)
				zones = append(zones, zone.Polygon())
				given = append(given, zone.Polygon())
			}
		}
		taken := sample.Refer(t, given...)
		over, err := reference.Intersection(all, taken)
		require.NoError(t, err)
		require.LessOrEqual(t, over.Area(), tolerance, "area %d: pieces keep out of gaps and openings", n)
		for _, z := range zones {
			if y := z.Bounds().Centre().Y; gap > 0 {
				given = append(given, geom.R(b.Min.X, y-gap/2, b.Max.X, y-gap/2+gap).Polygon())
			}
		}
		bare := less(t, less(t, whole, all), sample.Refer(t, given...))
		if slices.ContainsFunc(p.found, func(f finding.Finding) bool { return f.ID() == "no-board" }) {
			boardless++ // such a piece is told and makes no panel
			continue
		}
		require.LessOrEqual(t, bare.Area(), tolerance, "area %d: with gaps and openings the pieces cover it", n)
	}
	assert.Greater(t, panels, 400)
	assert.Greater(t, split, 30, "the areas must show splits to show anything")
	assert.Less(t, boardless, 20)
}

// In areas that an opening does not reach the corner of, pieces stand a whole gap apart.
func TestPiecesKeepTheirGaps(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 5))
	pairs := 0
	for n := range 100 {
		gap := 5 * mm
		x, y := geom.Length(200+r.IntN(500))*mm, geom.Length(200+r.IntN(300))*mm
		o := geom.R(x, y, x+geom.Length(50+r.IntN(700))*mm, y+geom.Length(50+r.IntN(200))*mm)
		top := 900 + r.IntN(900)
		p := laid(t, over(shape([2]int{0, 0}, [2]int{1600, 0}, [2]int{1600, top}, [2]int{0, 900}), 1+r.IntN(4), gap, o))
		for i := range p.Panels {
			for k := range i {
				d, ok := reference.Distance(sample.Refer(t, p.Panels[i].Finished), sample.Refer(t, p.Panels[k].Finished))
				require.True(t, ok)
				require.GreaterOrEqual(t, d, gap.Millimetres()-1e-6, "case %d: %s and %s", n, p.Panels[k].Name, p.Panels[i].Name)
				pairs++
			}
		}
	}
	assert.Greater(t, pairs, 200)
}

func TestMergingLeavesNoSliverThatCouldGoAndCoversAsMuch(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 9))
	merged := 0
	for n := range 100 {
		q, openings := ceiling(r)
		j := over(q, 2+r.IntN(6), 5*mm, openings...)
		j.Slivers = job.Slivers{Width: 150 * mm}
		apart, _, err := Make(j)
		if err != nil {
			continue
		}
		j.Slivers.Merge = true
		joined := laid(t, j)
		require.LessOrEqual(t, len(joined.Panels), len(apart.Panels), "area %d", n)
		if len(joined.Panels) < len(apart.Panels) {
			merged++
		}
		all := geom.Polygon(nil)
		var sum float64
		for _, panel := range joined.Panels {
			sum += panel.Finished.Area()
			all = panel.Finished
		}
		require.NotNil(t, all)
		var before float64
		for _, panel := range apart.Panels {
			before += panel.Finished.Area()
		}
		require.GreaterOrEqual(t, sum, before-float64(len(joined.Panels))*2500, "area %d: but for a saw step nothing is lost", n)
	}
	assert.Greater(t, merged, 10)
}

func BenchmarkLayThousandAreaPanels(b *testing.B) {
	var runs []job.Run
	for i := range 100 {
		runs = append(runs, job.Run{Name: fmt.Sprint("R", i), Panels: 10, Gap: 5 * mm,
			Area: shape([2]int{0, i * 1000}, [2]int{3900, i * 1000}, [2]int{3900, i*1000 + 900}, [2]int{0, i*1000 + 500})})
	}
	w := sample.WallOf("W", 4*geom.Metre, 100*geom.Metre, runs...)
	for i := range 100 {
		at := geom.Pt(1200*mm, geom.Length(i*1000+200)*mm)
		w.Openings = append(w.Openings, job.Opening{Rect: geom.Rect{Min: at, Max: at.Add(geom.Pt(100*mm, 100*mm))}})
	}
	j := sample.Bay(w)
	for b.Loop() {
		require.Len(b, laid(b, j).Panels, 1100)
	}
}
