package drawing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

const mm = geom.Millimetre

// ISO 128-2:2020, table 1 and annex A (from memory): a dash is 12d, a long dash 24d, a gap 3d, a dot 0.5d.
func TestDashesFollowTheWidthOfTheLine(t *testing.T) {
	const d = mm / 4
	for style, want := range map[drawing.Style][]geom.Length{
		drawing.Continuous:  nil,
		drawing.Dashed:      {3 * mm, 750 * geom.Micrometre},
		drawing.Chain:       {6 * mm, 750 * geom.Micrometre, 125 * geom.Micrometre, 750 * geom.Micrometre},
		drawing.DoubleChain: {6 * mm, 750 * geom.Micrometre, 125 * geom.Micrometre, 750 * geom.Micrometre, 125 * geom.Micrometre, 750 * geom.Micrometre},
		drawing.Dotted:      {125 * geom.Micrometre, 750 * geom.Micrometre},
	} {
		assert.Equal(t, want, style.Dash(d))
	}
}

// ISO 128-2: wide and narrow lines are 2:1 (published rule, from memory).
func TestWideLinesAreTwiceAsWideAsNarrowOnes(t *testing.T) {
	assert.Equal(t, 2*drawing.Narrow.Width, drawing.Wide.Width)
}

func TestRolesHaveTheNamesOfTheFilesGroups(t *testing.T) {
	assert.Equal(t, "note mark cut drill", drawing.Note.String()+" "+drawing.Guide.String()+" "+drawing.Cut.String()+" "+drawing.Drill.String())
}

func TestFillsGetDarkerInOrder(t *testing.T) {
	_, ok := drawing.NoFill.Grey()
	assert.False(t, ok)
	last := math.Inf(1)
	for _, f := range []drawing.Fill{drawing.White, drawing.Pale, drawing.Tint, drawing.Black} {
		level, ok := f.Grey()
		assert.True(t, ok)
		assert.Less(t, level, last)
		last = level
	}
}

func TestBoundsHoldTheMark(t *testing.T) {
	for _, c := range []struct {
		mark drawing.Mark
		want geom.Rect
	}{
		{drawing.Line{From: geom.Pt(5*mm, 1*mm), To: geom.Pt(2*mm, 3*mm)}, geom.R(2*mm, 1*mm, 5*mm, 3*mm)},
		{drawing.Path{Points: []geom.Point{{X: mm}, {Y: 4 * mm}, {X: -mm, Y: mm}}}, geom.R(-mm, 0, mm, 4*mm)},
		{drawing.Circle{Centre: geom.Pt(10*mm, 20*mm), Radius: 3 * mm}, geom.R(7*mm, 17*mm, 13*mm, 23*mm)},
		{drawing.Arc{Centre: geom.Pt(0, 0), Radius: 2 * mm, Sweep: 10}, geom.R(-2*mm, -2*mm, 2*mm, 2*mm)},
	} {
		assert.Equal(t, c.want, c.mark.Bounds())
	}
}

func TestATextsBoxStandsWhereItsAnchorAndLevelSay(t *testing.T) {
	width := font.Width("HEH", 5*mm, false)
	box := func(a drawing.Anchor, l drawing.Level) geom.Rect {
		return drawing.Text{String: "HEH", Height: 5 * mm, Anchor: a, Level: l}.Box()
	}
	assert.Equal(t, geom.R(0, -1500*geom.Micrometre, width, 5500*geom.Micrometre), box(drawing.Left, drawing.Baseline))
	assert.Equal(t, -width/2, box(drawing.Middle, drawing.Baseline).Min.X)
	assert.Equal(t, geom.Length(0), box(drawing.Right, drawing.Baseline).Max.X)
	assert.Equal(t, 3*mm, box(drawing.Left, drawing.Halfway).Max.Y, "half the capitals and a tenth of air")
	assert.Equal(t, 500*geom.Micrometre, box(drawing.Left, drawing.Top).Max.Y)
}

func TestATurnedTextsBoundsTurnAboutItsPoint(t *testing.T) {
	flat := drawing.Text{At: geom.Pt(100*mm, 50*mm), String: "HEH", Height: 5 * mm}
	up := flat
	up.Turn = 90
	f, u := flat.Bounds(), up.Bounds()
	assert.InDelta(t, float64(f.W()), float64(u.H()), 2)
	assert.InDelta(t, float64(f.H()), float64(u.W()), 2)
	// The baseline runs up from the point, so that the letters lie to its left.
	assert.InDelta(t, float64(50*mm), float64(u.Min.Y), 2)
	assert.InDelta(t, float64(100*mm+3*mm/2), float64(u.Max.X), 2)
}

func TestAReferenceHasTheBoundsOfItsText(t *testing.T) {
	r := drawing.Ref{Text: drawing.Text{String: "88", Height: 5 * mm}, Sheet: "N1"}
	assert.Equal(t, r.Text.Bounds(), r.Bounds())
}

func TestMarksAreKeptInOrder(t *testing.T) {
	var d drawing.Drawing
	a, b := drawing.Line{Role: drawing.Cut}, drawing.Circle{Role: drawing.Drill}
	d.Add(a)
	d.Add(b, a)
	assert.Equal(t, []drawing.Mark{a, b, a}, d.Marks)
}
