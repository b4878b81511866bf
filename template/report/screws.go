package report

import (
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/layout"
)

type screws struct {
	Board  boardScrew  `json:"board"`
	Wall   []wallScrew `json:"wall"`
	Marker length      `json:"marker_mm"`
}

type screw struct {
	Gauge    *int   `json:"gauge" doc:"null when it was given by diameter"`
	Diameter length `json:"diameter_mm"`
	Length   length `json:"length_mm"`
	Count    int    `json:"count"`
}

type drill struct {
	Bit     length `json:"bit_mm"`
	Depth   length `json:"depth_mm"`
	Through bool   `json:"through"`
}

type boardScrew struct {
	screw
	Hole   drill    `json:"hole"`
	Out    length   `json:"out_mm" doc:"beyond the face of the thinnest board; 0 or less: it stays inside"`
	Fits   bool     `json:"fits"`
	OnHand []length `json:"on_hand_mm" doc:"lengths on hand that fit"`
}

type wallScrew struct {
	Wall string `json:"wall"`
	On   string `json:"on"`
	screw
	Hole   drill    `json:"hole"`
	InWood *length  `json:"in_wood_mm" doc:"null on the lining"`
	Shim   length   `json:"shim_mm"`
	OnHand []length `json:"on_hand_mm"`
}

func screwOf(s job.Screw, count int) screw {
	out := screw{Diameter: length(s.Diameter), Length: length(s.Length), Count: count}
	if s.Gauge > 0 {
		out.Gauge = &s.Gauge
	}
	return out
}

func drillOf(d fastening.Drill) drill { return drill{length(d.Bit), length(d.Depth), d.Through} }

func screwsOf(p *plan.Plan) screws {
	s := &p.Screws
	out := screws{
		Board: boardScrew{
			screw: screwOf(s.Board.Screw, s.Board.Count), Hole: drillOf(s.Board.Hole),
			Out: length(s.Board.Out), Fits: s.Board.Fits, OnHand: lengthsOf(s.Board.OnHand),
		},
		Wall: make([]wallScrew, 0, len(s.Wall)), Marker: length(s.Marker),
	}
	for _, w := range s.Wall {
		one := wallScrew{
			Wall: p.Walls[w.Wall].Job.Name, On: string(w.On), screw: screwOf(w.Screw, w.Count), Hole: drillOf(w.Hole),
			Shim: length(w.Shim), OnHand: lengthsOf(w.OnHand),
		}
		if w.On != layout.OnLining {
			one.InWood = new(length(w.InWood))
		}
		out.Wall = append(out.Wall, one)
	}
	return out
}
