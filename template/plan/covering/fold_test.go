package covering

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
)

// pleated and parcelled are plans of one board, 1/2 in thick with 2 in of foam and 1/4 in with 1/2 in.
func pleated() *record {
	p := hang(sample.Reading(), hung.Board24x48(), 1)
	p.wrap()
	return p
}

func parcelled(wrap geom.Length) *record {
	j := sample.Reading()
	j.Wrap = job.Wrap{Size: wrap, Fold: Parcel}
	j.Board.Thickness, j.Foam.Thickness = in/4, in/2
	p := hang(j, hung.Board24x48(), 1)
	p.wrap()
	return p
}

func TestPleatIsCutSquareToTheDiagonal(t *testing.T) {
	p := pleated()
	f := p.Wrap.Fold
	require.Len(t, f.Cuts, 1)
	a, b := f.Cuts[0][0], f.Cuts[0][1]
	assert.Equal(t, a.X, b.Y)
	assert.Equal(t, a.Y, b.X)
	middle := geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2)
	assert.InDelta(t, f.Remain.Inches(), geom.Point{}.Distance(middle).Inches(), 1e-6)
	assert.Equal(t, p.Wrap.Size, a.Y, "both ends lie on the edges of the cover")
	assert.Equal(t, f.Legs, p.Wrap.Size-a.X)
}

// Cloth that goes up the upright edge of a corner from the corner of the face, fanned in pleats or straight over it as
// the tip of a parcel does, lies on the back for as much of its length as board and foam leave.
func TestCoverReachesTheStaplesOfTheCorners(t *testing.T) {
	for _, wrap := range []geom.Length{55 * in / 16, 7 * in / 2, 4 * in} { // the least, auto, plenty
		j := sample.Reading()
		j.Wrap = job.Wrap{Size: wrap}
		p := hang(j, hung.Board24x48(), 1)
		p.wrap()
		require.NotContains(t, p.IDs(), "wrap-short")
		f := p.Wrap.Fold
		require.Equal(t, Pleat, f.Kind)
		corners := 0
		for _, s := range p.staples(0) {
			at := geom.Pt(min(s.At.X, 24*in-s.At.X), min(s.At.Y, 48*in-s.At.Y))
			if s.Step != 5 {
				continue
			}
			corners++
			// Square to the cut, or beside it along the ray through the staple: the cut cover's edge is an octagon round the
			// face's corner, so it is no nearer there.
			reach := geom.Point{}.Distance(at) + p.Wrap.Thick + beyondStaple(p.Job.Units)
			assert.LessOrEqual(t, reach, f.Remain+1, "wrap %v, staple at %v", wrap, at)
		}
		assert.Equal(t, 12, corners)
		assert.LessOrEqual(t, f.Remain, wrap.Times(math.Sqrt2)+1, "there is no more cover than to its corner")
	}
	p := parcelled(27 * in / 16) // the least
	require.NotContains(t, p.IDs(), "wrap-short")
	tip := p.Wrap.Size.Times(math.Sqrt2) - p.Wrap.Thick
	for _, s := range p.staples(0) {
		if s.Step == 5 {
			at := geom.Pt(min(s.At.X, 24*in-s.At.X), min(s.At.Y, 48*in-s.At.Y))
			assert.LessOrEqual(t, geom.Point{}.Distance(at)+beyondStaple(p.Job.Units), tip)
		}
	}
}

// The batting is folded here as a person folds it: what stands over one edge turns up on that edge and in on the back,
// what stands over the other likewise.
func TestMitredBattingMeetsOnTheBackAndNowhereLiesTwice(t *testing.T) {
	p := pleated()
	f, thick, size := p.Wrap.Fold, p.Wrap.Thick, p.Wrap.Size
	land := size - thick
	// The flat batting: the cover's square less what lies beyond the cut line.
	reach := 3 * size
	flat := geom.Polygon{geom.Pt(-reach, -reach), geom.Pt(size, -reach)}
	for i := range f.Batts {
		flat = append(flat, f.Batts[len(f.Batts)-1-i])
	}
	flat = append(flat, geom.Pt(-reach, size))
	require.Greater(t, flat.Area(), 0.0, "counter-clockwise")
	step := in / 16
	for u := step / 2; u < 2*land; u += step { // from the board's edges, on the back
		for v := step / 2; v < 2*land; v += step {
			if u == v {
				continue // on the mitre itself
			}
			layers := 0
			if v < land && flat.ContainsPoint(geom.Pt(-u, thick+v)) {
				layers++
			}
			if u < land && flat.ContainsPoint(geom.Pt(thick+u, -v)) {
				layers++
			}
			want := 0
			if min(u, v) < land {
				want = 1
			}
			require.Equal(t, want, layers, "%v and %v in from the edges", u, v)
		}
	}
	for up := step / 2; up < thick; up += step { // both sides come up to the upright edge and not past it
		assert.True(t, flat.ContainsPoint(geom.Pt(-1, up)) && flat.ContainsPoint(geom.Pt(up, -1)))
		assert.False(t, flat.ContainsPoint(geom.Pt(step, up)) || flat.ContainsPoint(geom.Pt(up, step)))
	}
}

func TestRimOfACornerLiesAsFarFromTheFaceAsThePanelIsThick(t *testing.T) {
	p := pleated()
	rim := p.Wrap.Fold.Rim
	for _, q := range rim {
		assert.InDelta(t, p.Wrap.Thick.Inches(), geom.Point{}.Distance(q).Inches(), 1e-6)
	}
	assert.Equal(t, geom.Pt(0, p.Wrap.Thick), rim[0])
	assert.Equal(t, geom.Pt(p.Wrap.Thick, 0), rim[len(rim)-1])
}

// A fold turns one side of its line over onto the other without stretching: what meets after folding is equally far from
// the fold's line.
func TestParcelFoldsWithoutStretching(t *testing.T) {
	p := parcelled(2 * in)
	f, thick := p.Wrap.Fold, p.Wrap.Thick
	assert.Empty(t, f.Cuts)
	assert.Empty(t, f.Batts)
	tip, sides, ears := f.Folds[0], f.Folds[1:3], f.Folds[3:5]
	middle := geom.Pt((tip[0].X+tip[1].X)/2, (tip[0].Y+tip[1].Y)/2)
	distance := func(a, b geom.Point) float64 { return a.Distance(b).Inches() }
	// Pulled up the upright edge, the middle of the tip's fold comes to the corner of the back, where both sides come to.
	assert.InDelta(t, thick.Inches(), distance(geom.Point{}, middle), 1e-6)
	for i, side := range sides {
		assert.Equal(t, geom.Point{}, side[0])
		assert.InDelta(t, thick.Inches(), distance(side[0], side[1]), 1e-6)
		// The ear's fold lies half way between them, and ends where the tip's fold crosses the edge of the back.
		end := ears[i][1]
		assert.InDelta(t, distance(end, side[1]), distance(end, middle), 1e-6)
		assert.InDelta(t, (thick.Times(math.Sqrt2)).Inches(), (end.X + end.Y).Inches(), 1e-6, "on the tip's fold")
		assert.Equal(t, thick, max(end.X, end.Y), "on the edge of the back")
	}
	assert.Equal(t, p.Wrap.Size, tip[0].Y, "from edge to edge of the cover")
	assert.Equal(t, p.Wrap.Size, tip[1].X)
}

func TestTipOfAParcelStaysClearOfTheClips(t *testing.T) {
	// Board and foam 3/4, wrap 2 5/8: 1 7/8 lie on the back, and 2 5/8 − 0.53 = 2.095 at the tip; the clips begin at 2.
	p := parcelled(21 * in / 8)
	under := sample.ParamsOf[WrapUnderClips](t, p.Findings)
	assert.True(t, under.Tip)
	assert.Equal(t, 2*in, under.Begins)
	p = parcelled(5 * in / 2)
	assert.NotContains(t, p.IDs(), "wrap-under-clips")
}

func TestNoParcelWhereItsFoldsWouldKeepThePanelOffTheWall(t *testing.T) {
	// Cover 1/32 three deep, batting 1/16 and a crown of 1/32: 3/16 pleated, 5/16 folded like a parcel.
	for _, room := range []geom.Length{in / 8, in / 4} {
		j := sample.Reading()
		j.Board.Thickness, j.Foam.Thickness = in/4, in/4
		j.Clip.Standoff = room
		p := hang(j, hung.Board24x48(), 1)
		p.Runs[0].Standing = room
		p.wrap()
		assert.Equal(t, Pleat, p.Wrap.Fold.Kind)
		assert.Equal(t, 3*in/16, p.Wrap.Behind)
	}
}
