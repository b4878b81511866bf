// Package sample has jobs for the tests of the plan's steps, and looks findings up in what they return.
package sample

import (
	"fmt"
	"testing"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

const (
	inch = geom.Inch
	mm   = geom.Millimetre
)

// Settle is a job in inches with one wall, 96 in wide, and the given runs; cover 1/32 and pressed batting 1/16 make
// an edge of 3/32 in.
func Settle(runs ...job.Run) *job.Job {
	j := &job.Job{
		Units: geom.Imperial,
		Board: job.Board{Thickness: 15 * inch / 32, Saw: inch / 16},
		Batt:  job.Batting{Thickness: inch / 2, Pressed: inch / 16},
		Cover: job.Cover{Thickness: inch / 32},
		Walls: []job.Wall{WallOf("North", 96*inch, 90*inch, runs...)},
	}
	Name(j)
	return j
}

// Bay is a job in millimetres with an edge of 3 mm.
func Bay(walls ...job.Wall) *job.Job {
	j := &job.Job{
		Units:   geom.Metric,
		Board:   job.Board{Thickness: 12 * mm, Saw: mm},
		Batt:    job.Batting{Thickness: 10 * mm, Pressed: 2 * mm},
		Cover:   job.Cover{Thickness: mm},
		Slivers: job.Slivers{Width: 75 * mm},
		Walls:   walls,
	}
	Name(j)
	return j
}

func WallOf(name string, width, height geom.Length, runs ...job.Run) job.Wall {
	return job.Wall{Name: name, Width: width, Height: height, Outline: geom.R(0, 0, width, height).Polygon(), Runs: runs}
}

// Name gives walls and runs their keys.
func Name(j *job.Job) {
	for w := range j.Walls {
		j.Walls[w].Key = fmt.Sprintf("walls[%d]", w)
		for r := range j.Walls[w].Runs {
			j.Walls[w].Runs[r].Key = fmt.Sprintf("walls[%d].runs[%d]", w, r)
			if b := &j.Walls[w].Runs[r].Band; b.Name == "" {
				b.Key = j.Walls[w].Runs[r].Key + ".height"
			}
		}
	}
}

// Row is a run of equal panels in a band given by bottom and top.
func Row(name string, from, to, bottom, top geom.Length, panels int, gap geom.Length) job.Run {
	return job.Run{Name: name, Across: []job.Span{{From: from, To: to}}, Panels: panels, Gap: gap,
		Band: job.Band{Direct: true, Bottom: bottom, Top: top}}
}

// Between is a run of two panels on the settle wall with a band between cushion and sill.
func Between(b job.Band) job.Run {
	b.HasSeat = true
	return job.Run{Name: "N", Across: []job.Span{{From: 0, To: 90 * inch}}, Panels: 2, Band: b}
}

// BayBand has a seat at 17 1/2, a cushion of 3 3/4 and a sill at 33 in: 11 3/4 in of room.
func BayBand() job.Band {
	return job.Band{Name: "bay", Key: "heights.bay", Seat: [2]geom.Length{17*inch + inch/2, 17*inch + inch/2}, Cushion: 3*inch + 3*inch/4, Sill: 33 * inch}
}

// Clipped is a job in inches with the default preferences for clips, a press clip of 1 1/2 in with one hole in the middle,
// and no edge, so that boards are as large as their panels.
func Clipped(walls ...job.Wall) *job.Job {
	half := job.Half{Base: geom.Size{W: 3 * inch / 2, H: 3 * inch / 2}, Holes: []geom.Point{{}}, Flange: 3 * inch / 32}
	j := &job.Job{
		Units:  geom.Imperial,
		Board:  job.Board{Thickness: 15 * inch / 32, Saw: inch / 16},
		Clip:   job.Clip{Board: half, Wall: half, Standoff: 5 * inch / 16},
		Clips:  job.Clips{Number: 4, Clear: 2 * inch, Spacing: 24 * inch, Step: inch / 16},
		Screws: job.Screws{Marker: inch / 8},
		Shims:  job.Shims{Stock: inch / 8},
		Walls:  walls,
	}
	Name(j)
	return j
}

// Panelled is a wall 96 x 90 in with studs at the given places and panels of the given widths, 24 in high from 20 in,
// from the left end of the wall.
func Panelled(studs []geom.Length, widths ...geom.Length) job.Wall {
	var to geom.Length
	for _, w := range widths {
		to += w
	}
	w := WallOf("North", 96*inch, 90*inch, job.Run{
		Name: "N", Across: []job.Span{{From: 0, To: to}}, Widths: widths,
		Band: job.Band{Direct: true, Bottom: 20 * inch, Top: 44 * inch},
	})
	w.Studs = job.Members{At: studs, Width: 3 * inch / 2, Margin: 3 * inch / 8, Given: true}
	return w
}

// Reading is a job of our own for these tests: a 24 × 48 in panel on a wall with studs.
func Reading() *job.Job {
	half := job.Half{Base: geom.Size{W: 3 * inch / 2, H: 3 * inch / 2}, Holes: []geom.Point{{}}, Flange: inch / 8}
	return &job.Job{
		Name: "Reading room", Units: geom.Imperial,
		Paper:  job.Paper{Name: "letter", Size: geom.Size{W: 17 * inch / 2, H: 11 * inch}, Margin: inch / 4, Overlap: inch / 2},
		Board:  job.Board{Thickness: inch / 2, Tolerance: inch / 64, Kerf: inch / 8, Saw: inch / 16},
		Foam:   job.Foam{Thickness: 2 * inch},
		Batt:   job.Batting{Thickness: inch / 4, Pressed: inch / 16},
		Cover:  job.Cover{Thickness: inch / 32},
		Wrap:   job.Wrap{Auto: true, Hold: inch, Fold: "auto"},
		Staple: job.Staple{Spacing: 3 * inch / 2, Edge: 3 * inch / 4, Crown: inch / 32},
		Clip:   job.Clip{Kind: job.Press, Board: half, Wall: half, Standoff: 5 * inch / 16, Play: inch / 16},
		Clips:  job.Clips{Number: 4, Clear: 2 * inch, Spacing: 24 * inch, Step: inch / 16},
		Screws: job.Screws{
			Board:  job.Screw{Gauge: 8, Diameter: job.ScrewDiameter(8), Length: inch / 2},
			Wall:   job.Screw{Gauge: 8, Diameter: job.ScrewDiameter(8), Length: 5 * inch / 4},
			Marker: inch / 8,
			OnHand: []geom.Length{inch / 2, 5 * inch / 8, 3 * inch / 4, inch, 5 * inch / 4, 3 * inch / 2, 2 * inch},
		},
		Walls: []job.Wall{{
			Name: "North", Width: 96 * inch, Height: 90 * inch, Depth: 9 * inch / 2, Key: "walls[0]",
			Lining: job.Lining{Thickness: inch / 8, Given: true},
			Runs:   []job.Run{{Name: "N", Key: "walls[0].runs[0]"}},
		}},
		Accuracy: job.Accuracy{Tape: 2, Seam: geom.Millimetre * 3 / 10, Wander: geom.Millimetre / 2, Growth: [2]float64{0.001, 0.002}, Squared: inch / 32},
		Buying:   job.Buying{Spares: 2, ScrewPack: 100},
	}
}

func Socket(x, y geom.Length) job.Fitting {
	return job.Fitting{Name: "socket", Kind: job.Electrical, Rect: geom.R(x, y, x+80*mm, y+120*mm), Margin: 25 * mm, Key: "walls[0].fittings[0]"}
}

// Found is what steps have found.
type Found struct{ Findings finding.List }

// Note adds what a step has found.
func (f *Found) Note(found finding.List) { f.Findings = append(f.Findings, found...) }

// IDs are those of the findings.
func (f *Found) IDs() (ids []string) {
	for _, f := range f.Findings {
		ids = append(ids, f.ID())
	}
	return ids
}

// First is the first finding with params of that type, and these.
func First[P finding.Params](t testing.TB, list finding.List) (finding.Finding, P) {
	t.Helper()
	for _, f := range list {
		if params, ok := f.Params.(P); ok {
			return f, params
		}
	}
	var none P
	t.Fatalf("no finding %T in %v", none, list)
	return finding.Finding{}, none
}

// ParamsOf are the params of that type of the first finding that has them.
func ParamsOf[P finding.Params](t testing.TB, list finding.List) P {
	t.Helper()
	_, params := First[P](t, list)
	return params
}
