package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// A line under words is broken for them: the edge of a board or a panel must not be, where there is another place.
func TestWordsAboutAPartKeepOffLines(t *testing.T) {
	w := geom.R(0, 0, 180*mm, 240*mm)
	part := geom.R(90*mm, 100*mm, 130*mm, 150*mm)
	for name, m := range map[string]drawing.Mark{
		"an edge where words would stand first": drawing.Line{From: geom.Pt(80*mm, 0), To: geom.Pt(80*mm, 240*mm), Pen: drawing.Wide},
		"a level line through the part":         drawing.Line{From: geom.Pt(0, 125*mm), To: geom.Pt(180*mm, 125*mm), Pen: drawing.Faint},
		"the outline of a board":                drawing.Path{Points: geom.R(70*mm, 20*mm, 160*mm, 220*mm).Polygon(), Closed: true, Pen: drawing.Wide},
		"other words":                           drawing.Text{At: geom.Pt(50*mm, 124*mm), String: "staple land", Height: small},
	} {
		d := drawing.Drawing{
			Bounds: w, Marks: []drawing.Mark{m},
			Callouts: []drawing.Callout{{About: part, Lines: []string{"1: 79 mm from left", "drill"}}},
		}
		words := callouts(&d, w)
		require.Len(t, words, 2, name)
		for _, word := range words {
			r := word.Bounds()
			for _, s := range backgroundOf(w, d.Marks).strokes {
				assert.False(t, s.line.Intersects(r), "%s: %+v", name, word)
			}
			if _, ok := m.(drawing.Text); ok {
				assert.False(t, r.InteriorIntersects(m.Bounds()), name)
			}
			assert.False(t, r.InteriorIntersects(part), name)
		}
	}
}

// Words over a seam stand on the page that has them whole, and leave no scrap on its neighbour.
func TestWordsAcrossASeamStandOnOnePageAlone(t *testing.T) {
	left, right := geom.R(0, 0, 100*mm, 100*mm), geom.R(80*mm, 0, 180*mm, 100*mm)
	windows := []geom.Rect{left, right}
	whole := drawing.Text{At: geom.Pt(70*mm, 50*mm), String: "staple land", Height: small} // on the left page, cut on the right one
	long := drawing.Text{At: geom.Pt(20*mm, 20*mm), String: "BACK of board A and of its twin", Height: 7 * mm}
	line := drawing.Line{From: geom.Pt(0, 30*mm), To: geom.Pt(180*mm, 30*mm), Pen: drawing.Wide}
	marks := []drawing.Mark{whole, long, line}
	require.True(t, left.Contains(whole.Bounds()) && whole.Bounds().InteriorIntersects(right))
	require.False(t, left.Contains(long.Bounds()) || right.Contains(long.Bounds()))
	assert.Equal(t, marks, dropClippedText(marks, left, windows))
	assert.Equal(t, []drawing.Mark{long, line}, dropClippedText(marks, right, windows), "words on no page whole stay")
}

// Drilling words beside the base of another clip would be followed there.
func TestWordsAboutAPartDoNotStandNearAnother(t *testing.T) {
	w := geom.R(0, 0, 170*mm, 240*mm)
	left, right := geom.R(30*mm, 100*mm, 70*mm, 140*mm), geom.R(100*mm, 100*mm, 140*mm, 140*mm)
	d := drawing.Drawing{
		Bounds: w,
		// A stud behind the left one: every place above and below it crosses a line, those on the right of it none.
		Marks: []drawing.Mark{
			drawing.Line{From: geom.Pt(40*mm, 0), To: geom.Pt(40*mm, 240*mm), Pen: drawing.Hidden},
			drawing.Line{From: geom.Pt(80*mm, 0), To: geom.Pt(80*mm, 240*mm), Pen: drawing.Hidden},
		},
		Callouts: []drawing.Callout{
			{About: left, Lines: []string{"E2 upper left", "drill, 40 deep; stop on the bit"}},
			{About: right, Lines: []string{"E2 upper right", "drill, right through the lining"}},
		},
	}
	words := callouts(&d, w)
	require.Len(t, words, 4)
	for i, m := range words {
		other := right
		if i >= 2 {
			other = left
		}
		assert.False(t, m.Bounds().InteriorIntersects(other.Inset(-nearPart)), "%+v", m)
	}
}

// Between two parts there may be just room for words about the one; they go where a line must be crossed rather than
// stand beside the other.
func TestWordsAboutAPartGiveUpAFreePlaceThatIsNearAnother(t *testing.T) {
	left := geom.R(10*mm, 100*mm, 50*mm, 140*mm)
	d := drawing.Drawing{
		Bounds:   geom.R(0, 0, 170*mm, 240*mm),
		Marks:    []drawing.Mark{drawing.Line{From: geom.Pt(30*mm, 0), To: geom.Pt(30*mm, 240*mm), Pen: drawing.Hidden}},
		Callouts: []drawing.Callout{{About: left, Lines: []string{"E2 upper left"}}},
	}
	alone := callouts(&d, d.Bounds)
	require.Len(t, alone, 1)
	beside := alone[0].Bounds()
	require.Greater(t, beside.Min.X, left.Max.X, "alone they stand on the right")
	other := geom.R(beside.Max.X+3*mm, 100*mm, beside.Max.X+43*mm, 140*mm)
	d.Callouts = append(d.Callouts, drawing.Callout{About: other, Lines: []string{"E2 upper right"}})
	words := callouts(&d, d.Bounds)
	require.Len(t, words, 2)
	assert.False(t, words[0].Bounds().InteriorIntersects(other.Inset(-nearPart)), "%+v", words[0])
}

// A cross may reach past a narrow part: words keep off it all the same.
func TestWordsKeepOffACrossThatReachesPastItsPart(t *testing.T) {
	const radius = 2 * mm
	at := geom.Pt(85*mm, 120*mm)
	d := drawing.Drawing{
		Bounds:   geom.R(0, 0, 170*mm, 240*mm),
		Holes:    []drawing.Hole{{At: at, Radius: radius}},
		Callouts: []drawing.Callout{{About: geom.Rect{Min: at, Max: at}.Inset(-mm), Lines: []string{"E2 upper left", "drill, 40 deep"}}},
	}
	words := callouts(&d, d.Bounds)
	require.Len(t, words, 2)
	for _, m := range words {
		assert.False(t, m.Bounds().InteriorIntersects(geom.Rect{Min: at, Max: at}.Inset(-radius-5*mm)), "%+v", m)
	}
}

// A height that holes stand at is named where one of them is seen, and an edge where it runs.
func TestRunningDistancesAreToldWhereTheyAreOfUse(t *testing.T) {
	w := geom.R(0, 0, 200*mm, 150*mm)
	holes := []drawing.Hole{{At: geom.Pt(50*mm, 60*mm), Radius: mm}, {At: geom.Pt(900*mm, 80*mm), Radius: mm}}
	for _, c := range []struct {
		claim string
		s     drawing.Station
		want  bool
	}{
		{"a hole here", drawing.Station{At: 60 * mm}, true},
		{"a hole elsewhere", drawing.Station{At: 80 * mm}, false},
		{"upright, a hole here", drawing.Station{Upright: true, At: 50 * mm}, true},
		{"an edge that runs through", drawing.Station{At: 100 * mm, Along: geom.Span{From: -100 * mm, To: 300 * mm}}, true},
		{"an edge that has ended", drawing.Station{At: 100 * mm, Along: geom.Span{From: -100 * mm, To: -1}}, false},
		{"an upright edge above", drawing.Station{Upright: true, At: 100 * mm, Along: geom.Span{From: 151 * mm, To: 200 * mm}}, false},
		{"no holes, everywhere", drawing.Station{At: 100 * mm}, true},
	} {
		assert.Equal(t, c.want, relevant(c.s, holes, w), c.claim)
	}
}

// The line of a running distance lies over the wood's tint and under the crosses, whatever panels it runs through.
func TestLinesOfRunningDistancesLieBetweenTintsAndCrosses(t *testing.T) {
	wood := drawing.Path{Points: geom.R(0, 0, 300*mm, 90*mm).Polygon(), Closed: true, Fill: drawing.Pale}
	cross := drawing.Line{From: geom.Pt(45*mm, 60*mm), To: geom.Pt(55*mm, 60*mm), Pen: drawing.Hair, Role: drawing.Drill}
	d := drawing.Drawing{
		Bounds: geom.R(0, 0, 300*mm, 150*mm), Marks: []drawing.Mark{wood, cross},
		Holes:    []drawing.Hole{{At: geom.Pt(50*mm, 60*mm), Radius: mm}},
		Stations: []drawing.Station{{At: 60 * mm, Name: "level, holes"}, {At: 120 * mm, Name: "N9 top", Along: geom.Span{From: 900 * mm, To: 990 * mm}}},
	}
	o := Options{Paper: Paper{Size: geom.Size{W: 210 * mm, H: 297 * mm}, Margin: 6 * mm, Overlap: 12 * mm}}
	layers := o.windowLayers(o.frame(o.Paper.Size, false), &d, geom.R(0, 0, 150*mm, 150*mm), nil)
	line := drawing.Line{From: geom.Pt(0, 60*mm), To: geom.Pt(150*mm, 60*mm), Pen: drawing.Faint, Role: drawing.Guide}
	assert.Equal(t, []drawing.Mark{wood, line, cross}, layers[0].Marks)
}

func TestAsManyLinesAreBoldAsAreSaidToBe(t *testing.T) {
	w := geom.R(0, 0, 180*mm, 240*mm)
	for heads, want := range map[int][]bool{0: {true, false, false}, 2: {true, true, false}} {
		d := drawing.Drawing{Bounds: w, Callouts: []drawing.Callout{{About: geom.R(90*mm, 100*mm, 130*mm, 150*mm), Lines: []string{"1: a", "2: b", "drill"}, Heads: heads}}}
		var bold []bool
		for _, m := range callouts(&d, w) {
			bold = append(bold, m.(drawing.Text).Bold)
		}
		assert.Equal(t, want, bold)
	}
}
