package job

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

const (
	mm = geom.Millimetre
	in = geom.Inch
)

func everyField(t *testing.T) (*Job, string) {
	t.Helper()
	data, err := os.ReadFile("testdata/every-field.yaml")
	require.NoError(t, err)
	j, err := Read("every-field.yaml", data)
	require.NoError(t, err)
	return j, string(data)
}

func TestEveryFieldReachesItsValue(t *testing.T) {
	j, _ := everyField(t)
	sq := func(w, h geom.Length) geom.Size { return geom.Size{W: w, H: h} }
	assert.Equal(t, "Hall: north nook", j.Name)
	assert.Equal(t, geom.Imperial, j.Units)
	assert.Equal(t, Paper{Size: sq(9*in, 13*in), Margin: 3 * in / 8, Overlap: 5 * in / 8}, j.Paper, "paper stands upright")
	assert.InDelta(t, 40*16.01846, float64(j.Board.Density), 0.001, "40 lb/ft³ in kg/m³")
	j.Board.Density = 0
	assert.Equal(t, Board{
		Thickness: 45 * in / 100, Tolerance: in / 32, Sheet: sq(60*in, 60*in), Kerf: 3 * in / 32, Saw: in / 8,
		Grain: GrainAlong, Price: 61.5,
	}, j.Board)
	assert.Equal(t, Foam{Thickness: 3 * in / 2, Sheet: sq(48*in, 72*in), Density: 24, Price: 12}, j.Foam)
	assert.InDelta(t, 16.01846, float64(j.Batt.Density), 0.00001, "1 lb/ft³ in kg/m³")
	j.Batt.Density = 0
	assert.Equal(t, Batting{Thickness: 10 * mm, Pressed: 3 * in / 32, Roll: 60 * in, Price: 4}, j.Batt)
	assert.InDelta(t, 0.4535924/0.8361274, j.Cover.Weight, 1e-6, "16 oz on a square yard is a pound on 0.8361274 m²")
	j.Cover.Weight = 0
	assert.Equal(t, Cover{Thickness: 3 * in / 64, Roll: 56 * in, Repeat: 25 * in / 2, Price: 30}, j.Cover)
	assert.Equal(t, Wrap{Size: 7 * in / 2, Hold: 5 * in / 4, Fold: "parcel"}, j.Wrap)
	assert.Equal(t, Staple{Length: 3 * in / 8, Spacing: 2 * in, Edge: in / 2, Crown: 3 * in / 64}, j.Staple)
	assert.InDelta(t, 9.5*0.45359237, float64(j.Clip.Carries), 1e-12)
	j.Clip.Carries = 0
	assert.Equal(t, Clip{
		Kind:     Lift,
		Board:    Half{Base: sq(in, 2*in), Holes: []geom.Point{{Y: in / 2}, {Y: -in / 2}}, Flange: in / 8},
		Wall:     Half{Base: sq(9*in/4, 5*in/4), Holes: []geom.Point{{X: -3 * in / 4}, {X: 3 * in / 4}}, Flange: 5 * in / 32},
		Standoff: 7 * in / 16, Rise: 3 * in / 4, Offset: geom.Pt(0, -3*in/8), Play: 3 * in / 64, Price: 2.25,
	}, j.Clip)
	assert.Equal(t, Clips{Number: 6, Clear: 5 * in / 2, Spacing: 20 * in, Step: in / 8, Studs: true}, j.Clips)
	assert.Equal(t, Screws{
		Board:  Screw{Gauge: 6, Diameter: 138 * in / 1000, Length: 3 * in / 8},
		Wall:   Screw{Diameter: 4500 * geom.Micrometre, Length: 2 * in},
		Marker: 5 * in / 64, OnHand: []geom.Length{3 * in / 8, 5 * in / 4, 2 * in}, Price: 8,
	}, j.Screws)
	assert.InDelta(t, 20*0.45359237, float64(j.Fixing.Plug.Carries), 1e-12)
	assert.InDelta(t, 12*0.45359237, float64(j.Fixing.Anchor.Carries), 1e-12)
	j.Fixing.Plug.Carries, j.Fixing.Anchor.Carries = 0, 0
	assert.Equal(t, Fixings{
		Plug:   Plug{Hole: 8 * mm, Length: 13 * in / 8, Price: 0.15},
		Anchor: Anchor{Hole: 3 * in / 8, Reach: 5 * in / 8, Price: 0.6},
	}, j.Fixing)
	assert.Equal(t, 83*in/2, j.Line)
	assert.Equal(t, Shims{Stock: 3 * in / 16, Size: sq(5*in/2, 2*in)}, j.Shims)
	assert.Equal(t, sq(24*in, 48*in), j.Hardboard)
	assert.Equal(t, Blocks{
		Stock: []geom.Length{3 * in / 2, 3 * in / 4, in / 8}, Within: in / 32, Foot: 3 * in, For: ForBoth, Count: 3,
	}, j.Blocks)
	back := Band{Key: "heights.back", Name: "back", Direct: true, Bottom: 22 * in, Top: 40 * in, HasSeat: true, Seat: [2]geom.Length{18 * in, 18 * in}}
	bay := Band{
		Key: "heights.bay", Name: "bay", HasSeat: true, Seat: [2]geom.Length{35 * in / 2, 141 * in / 8}, Cushion: 15 * in / 4, Sill: 33 * in,
		Panel: 8 * in, EvenGap: true, Follow: true,
	}
	shelf := Band{
		Key: "heights.shelf", Name: "shelf", HasSeat: true, Seat: [2]geom.Length{18 * in, 18 * in}, Sill: 40 * in, Gap: 5 * in / 4, HasGap: true,
	}
	assert.Equal(t, []Band{back, bay, shelf}, j.Bands)
	assert.Equal(t, Framing{Wood: "fir", Gravity: 0.5}, j.Framing)
	assert.Equal(t, Accuracy{
		Tape: TapeII, Reading: 3 * in / 64, Seam: in / 64, Wander: in / 32, Growth: [2]float64{0.0005, 0.0015}, Squared: 3 * in / 64,
	}, j.Accuracy)
	assert.Equal(t, Slivers{Width: 4 * in, Area: geom.Size{W: 5 * in, H: 8 * in}, Merge: true}, j.Slivers)
	assert.Equal(t, Buying{ScrewPack: 50}, j.Buying)
	assert.True(t, j.Straight)
	assert.Equal(t, []Acceptance{{Finding: "screw-through", At: "N1", Because: "tips ground flush", Key: "accept[0]"}}, j.Accept)

	require.Len(t, j.Walls, 2)
	assert.Equal(t, Wall{
		Name: "North", Width: 96 * in, Height: 90 * in, Outline: geom.R(0, 0, 96*in, 90*in).Polygon(),
		Lining: Lining{Thickness: in / 8, Given: true, Gives: true}, Depth: 4 * in,
		Studs: Members{
			Every: 16 * in,
			At:    []geom.Length{31 * in / 4, 95 * in / 4, 159 * in / 4, 223 * in / 4, 287 * in / 4, 351 * in / 4},
			Width: 7 * in / 4, Depth: 7 * in / 2, Margin: in / 2, Given: true,
		},
		Rails: Members{At: []geom.Length{61 * in / 2, 60 * in}, Width: 2 * in, Depth: 3 * in / 2, Margin: 5 * in / 8, Given: true},
		Fittings: []Fitting{{
			Name: "stopcock", Kind: Valve, Rect: geom.R(52*in, 14*in, 55*in, 37*in/2), Margin: 2 * in, Key: "walls[0].fittings[0]",
		}, {
			Name: "heater", Kind: Heater, Heater: Radiator, Plate: 10 * in, Rect: geom.R(70*in, 4*in, 90*in, 28*in), Margin: in, Key: "walls[0].fittings[1]",
		}, {
			Name: "far socket", Kind: Electrical, Far: true, Rect: geom.R(40*in, 14*in, 43*in, 37*in/2), Margin: in, Key: "walls[0].fittings[2]",
		}},
		Openings: []Opening{{
			Name: "way out", Kind: Door, Rect: geom.R(60*in, 0, 90*in, 80*in), Margin: in / 2, Swing: 28 * in, Key: "walls[0].openings[0]",
		}},
		KeepOuts: []KeepOut{{Name: "old pipe", Rect: geom.R(50*in, 0, 52*in, 90*in), Margin: 3 * in, Key: "walls[0].keep-outs[0]"}},
		Corner:   Outside, ThroughNext: true, Key: "walls[0]",
		Runs: []Run{
			{
				Name: "N", Band: back, Widths: []geom.Length{20 * in, 47 * in / 2}, Gap: 3 * in / 8, Ends: in / 16,
				Across: []Span{
					{From: 2 * in, To: 46 * in, At: 22 * in, HasAt: true}, {From: 17 * in / 8, To: 46 * in, At: 38 * in, HasAt: true},
				},
				Template: CornerTemplate, Key: "walls[0].runs[0]",
			},
			{
				Name: "M", Band: bay, Panels: 2, Template: WholeTemplate, Key: "walls[0].runs[1]",
				Across: []Span{{From: 3 * in, To: 47 * in}, {From: 3 * in, To: 375 * in / 8}},
			},
		},
	}, j.Walls[0])
	east := j.Walls[1]
	assert.Equal(t, geom.Polygon{{}, {X: 80 * in}, {X: 80 * in, Y: 50 * in}, {X: 40 * in, Y: 90 * in}, {Y: 90 * in}}, east.Outline,
		"an outline closed twice is the same outline")
	assert.Equal(t, 90*in, east.Height)
	assert.True(t, east.Masonry)
	assert.False(t, east.Studs.Given, "nobody said where the studs are")
	assert.Equal(t, geom.Polygon{
		{X: 4 * in, Y: 30 * in}, {X: 70 * in, Y: 30 * in}, {X: 70 * in, Y: 50 * in}, {X: 50 * in, Y: 70 * in}, {X: 4 * in, Y: 70 * in},
	}, east.Runs[0].Area, "a clockwise area is turned")
	assert.Equal(t, Band{Key: "walls[1].runs[0]", HasSeat: true, Seat: [2]geom.Length{17 * in, 69 * in / 4}}, east.Runs[0].Band)
	assert.Equal(t, Band{Key: "walls[1].runs[1].height", Direct: true, Bottom: 4 * in, Top: 24 * in}, east.Runs[1].Band)
}

func TestEveryValueHasItsPlace(t *testing.T) {
	j, text := everyField(t)
	lines := strings.Split(text, "\n")
	for key, start := range map[string]string{
		"board.thickness":                 "0.45",
		"clip.wall half.holes[1][0]":      "3/4",
		"screws.on hand[2]":               "1 1/4",
		"walls[0].runs[1].panels":         "2, template: whole",
		"walls[0].studs.every":            "16, width",
		"walls[0]":                        "name: North",
		"board":                           "board:",
		"walls[1].runs[0].area[2]":        "[50, 70]",
		"heights.bay.gap":                 "even",
		"accept[0].because":               "tips",
		"walls[0].runs[0].across[1].from": "2 1/8",
	} {
		p := j.Source.Of(key)
		require.True(t, j.Source.Has(key), key)
		assert.True(t, strings.HasPrefix(lines[p.Line-1][p.Col-1:], start), "%s stands at %d:%d", key, p.Line, p.Col)
	}
	assert.Equal(t, j.Source.Of("walls[1]"), j.Source.Of("walls[1].studs.at[3]"), "what is left out has the place of what is round it")
	assert.Equal(t, Place{}, j.Source.Of("nothing"))
}
