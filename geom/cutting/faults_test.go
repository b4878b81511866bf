package cutting

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// twoByTwo is a question with a layout written by hand: four 40 × 40 parts out of 100 × 100, kerf 2.
func twoByTwo() (Sheets, Layout) {
	s := Sheets{Stock: one(geom.Size{W: 100, H: 100}), Kerf: 2,
		Parts: []Part{{Size: geom.Size{W: 40, H: 40}, Count: 3}, {Size: geom.Size{W: 40, H: 30}, Count: 1, Grain: Along}}}
	sheet := geom.R(0, 0, 100, 100)
	left, rest := geom.R(0, 0, 40, 100), geom.R(42, 0, 100, 100)
	right, strip := geom.R(42, 0, 82, 100), geom.R(84, 0, 100, 100)
	u := Used{
		Placed: []Placed{
			{Part: 0, Copy: 0, Rect: geom.R(0, 0, 40, 40)},
			{Part: 0, Copy: 1, Rect: geom.R(0, 42, 40, 82)},
			{Part: 0, Copy: 2, Rect: geom.R(42, 0, 82, 40)},
			{Part: 1, Copy: 0, Rect: geom.R(42, 42, 82, 72)},
		},
		Cuts: []Cut{
			{Piece: 0, Of: sheet, At: 40, Slot: geom.R(40, 0, 42, 100), Low: 1, High: 2},
			{Piece: 2, Of: rest, At: 82, Slot: geom.R(82, 0, 84, 100), Low: 3, High: 4},
			{Piece: 1, Of: left, Across: true, At: 40, Slot: geom.R(0, 40, 40, 42), Low: 5, High: 6},
			{Piece: 6, Of: geom.R(0, 42, 40, 100), Across: true, At: 82, Slot: geom.R(0, 82, 40, 84), Low: 7, High: 8},
			{Piece: 3, Of: right, Across: true, At: 40, Slot: geom.R(42, 40, 82, 42), Low: 9, High: 10},
			{Piece: 10, Of: geom.R(42, 42, 82, 100), Across: true, At: 72, Slot: geom.R(42, 72, 82, 74), Low: 11, High: 12},
		},
		Offcuts: []geom.Rect{strip, geom.R(0, 84, 40, 100), geom.R(42, 74, 82, 100)},
	}
	return s, Layout{Used: []Used{u}, Cost: 1, Bound: 1, BoundBy: ByArea, Proved: true}
}

func TestAGoodLayoutPassesTheVerifier(t *testing.T) {
	s, l := twoByTwo()
	require.NoError(t, verify(s, l))
}

func TestTheVerifierFindsEveryFault(t *testing.T) {
	for _, c := range []struct {
		fault string
		spoil func(*Sheets, *Layout, *Used)
		want  string
	}{
		{"a part is missing", func(s *Sheets, l *Layout, u *Used) { u.Placed = u.Placed[:3] },
			"part 1 is cut 0 times and wanted 1 times"},
		{"a copy is there twice", func(s *Sheets, l *Layout, u *Used) { u.Placed[1].Copy = 0 },
			"part 0: copy 1 is missing or doubled"},
		{"a part too many", func(s *Sheets, l *Layout, u *Used) { s.Parts[0].Count = 2 },
			"part 0 is cut 3 times and wanted 2 times"},
		{"a part nobody asked for", func(s *Sheets, l *Layout, u *Used) { u.Placed[0].Part = 9 },
			"sheet 1: there is no part 9"},
		{"a part too small", func(s *Sheets, l *Layout, u *Used) { u.Placed[0].Rect.Max.X-- },
			"sheet 1: part 0 has a wrong size"},
		{"a part turned along the grain", func(s *Sheets, l *Layout, u *Used) {
			u.Placed[3].Turned, u.Placed[3].Rect = true, geom.R(42, 42, 72, 82)
		}, "sheet 1: part 1 may not be turned"},
		{"outside", func(s *Sheets, l *Layout, u *Used) { u.Placed[3].Rect = geom.R(42, 72, 82, 102) },
			"sheet 1: part 1 lies outside the usable stock"},
		{"nearer than the kerf", func(s *Sheets, l *Layout, u *Used) { s.Kerf = 3 },
			"sheet 1: parts 0 and 0 lie nearer than the kerf"},
		{"not to be cut apart", func(s *Sheets, l *Layout, u *Used) { *s, *u = pinwheel() },
			"sheet 1: no edge-to-edge cuts part these pieces"},
		{"a cut is missing", func(s *Sheets, l *Layout, u *Used) { u.Cuts = u.Cuts[:5] },
			"sheet 1: part 1 is not what the cuts yield"},
		{"cuts in an order nobody can follow", func(s *Sheets, l *Layout, u *Used) { u.Cuts[0], u.Cuts[1] = u.Cuts[1], u.Cuts[0] },
			"sheet 1: cut 1: there is no piece 2 to cut"},
		{"a cut of another rectangle", func(s *Sheets, l *Layout, u *Used) { u.Cuts[1].Of.Max.X-- },
			"sheet 1: cut 2: piece 2 is not the rectangle it says"},
		{"a cut beside the piece", func(s *Sheets, l *Layout, u *Used) { u.Cuts[1].At = 100 },
			"sheet 1: cut 2 misses piece 2"},
		{"a wrong strip of sawdust", func(s *Sheets, l *Layout, u *Used) { u.Cuts[1].Slot.Max.X++ },
			"sheet 1: cut 2: the saw takes another strip than listed"},
		{"a remainder kept quiet", func(s *Sheets, l *Layout, u *Used) { u.Cuts[1].High = -1 },
			"sheet 1: cut 2: what remains beyond the cut is told wrongly"},
		{"a number used twice", func(s *Sheets, l *Layout, u *Used) { u.Cuts[1].High = 1 },
			"sheet 1: cut 2: piece 1 exists already"},
		{"an offcut left out", func(s *Sheets, l *Layout, u *Used) { u.Offcuts = u.Offcuts[1:] },
			"sheet 1: the cuts yield 7 pieces, 6 are listed"},
		{"an offcut made up", func(s *Sheets, l *Layout, u *Used) { u.Offcuts[0] = geom.R(0, 0, 1, 1) },
			"sheet 1: an offcut is not what the cuts yield"},
		{"an empty sheet", func(s *Sheets, l *Layout, u *Used) { l.Used = append(l.Used, Used{}) },
			"sheet 2 holds no part"},
		{"a bound above the plan", func(s *Sheets, l *Layout, u *Used) { l.Bound = 2 },
			"the bound of 2 is above the cost of 1"},
		{"a proof that is none", func(s *Sheets, l *Layout, u *Used) { l.Bound = 0 },
			"proved is true with a bound of 0 for a cost of 1"},
	} {
		s, l := twoByTwo()
		c.spoil(&s, &l, &l.Used[0])
		assert.EqualError(t, verify(s, l), c.want, c.fault)
	}
}

// pinwheel is the smallest arrangement that fits but can't be cut from edge to edge.
func pinwheel() (Sheets, Used) {
	s := Sheets{Stock: one(geom.Size{W: 30, H: 30}), Parts: []Part{
		{Size: geom.Size{W: 20, H: 10}, Count: 2, Grain: Along},
		{Size: geom.Size{W: 10, H: 20}, Count: 2, Grain: Along},
	}}
	return s, Used{Placed: []Placed{
		{Part: 0, Copy: 0, Rect: geom.R(0, 0, 20, 10)},
		{Part: 1, Copy: 0, Rect: geom.R(20, 0, 30, 20)},
		{Part: 0, Copy: 1, Rect: geom.R(10, 20, 30, 30)},
		{Part: 1, Copy: 1, Rect: geom.R(0, 10, 10, 30)},
	}}
}

func TestThePinwheelTakesTwoSheets(t *testing.T) {
	s, _ := pinwheel()
	l := planned(t, s)
	assert.Len(t, l.Used, 2)
	assert.True(t, l.Proved)
	assert.Equal(t, BySearch, l.BoundBy)
}

func TestTheRollVerifierFindsEveryFault(t *testing.T) {
	r := Roll{Width: 100, Repeat: 7, Unit: 10, Parts: []RollPart{{Size: geom.Size{W: 60, H: 10}, Count: 2, Phase: 3}}}
	good := rolled(t, r)
	require.Equal(t, geom.Length(24), good.Length)
	for _, c := range []struct {
		fault string
		spoil func(*Roll, *RollLayout)
		want  string
	}{
		{"off the pattern", func(r *Roll, l *RollLayout) { l.Pattern++ }, "part 0 stands off the pattern"},
		{"another phase", func(r *Roll, l *RollLayout) { r.Parts[0].Phase = 4 }, "part 0 stands off the pattern"},
		{"too little bought", func(r *Roll, l *RollLayout) { l.Buy = 20 }, "0.00002 mm is bought for 0.000024 mm"},
		{"a unit too many", func(r *Roll, l *RollLayout) { l.Buy, l.BuyAnywhere, l.Units = 40, 50, 4 },
			"0.00004 mm bought is not the next whole number of 0.00001 mm above 0.000024 mm"},
		{"a part missing", func(r *Roll, l *RollLayout) { l.Placed = l.Placed[:1] }, "part 0 is cut 1 times and wanted 2 times"},
		{"longer than told", func(r *Roll, l *RollLayout) { l.Length-- }, "part 0 lies outside the usable stock"},
		{"wider than the roll", func(r *Roll, l *RollLayout) { r.Width = 50 }, "part 0 lies outside the usable stock"},
		{"a bound above the plan", func(r *Roll, l *RollLayout) { l.Bound = 25 }, "the bound of 0.000025 mm is above the length of 0.000024 mm"},
		{"a proof denied", func(r *Roll, l *RollLayout) { l.Proved = !l.Proved }, ""},
	} {
		q, l := r, good
		q.Parts = slices.Clone(r.Parts)
		c.spoil(&q, &l)
		err := verifyRoll(q, l)
		require.Error(t, err, c.fault)
		if c.want != "" {
			assert.EqualError(t, err, c.want, c.fault)
		}
	}
}
