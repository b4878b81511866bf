package report

import (
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/fastening"
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
	InWood *length  `json:"in_wood_mm" doc:"null where there is no wood"`
	Shim   length   `json:"shim_mm"`
	OnHand []length `json:"on_hand_mm"`
	Fixing *fixing  `json:"fixing" doc:"what the hole is for; null in wood, and on a lining where the job names no anchor"`
	Mark   length   `json:"printed_mm" doc:"diameter of the drill circle on wall sheets"`
}

type fixing struct {
	Kind   string  `json:"kind" words:"plug,anchor"`
	Hole   length  `json:"hole_mm"`
	Length *length `json:"length_mm" doc:"of a plug"`
	Reach  *length `json:"reach_mm" doc:"thickest lining that an anchor takes; null when not given"`
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
			Shim: length(w.Shim), OnHand: lengthsOf(w.OnHand), Mark: length(w.Printed),
		}
		if f := w.Fixing; f.Kind != "" {
			one.Fixing = &fixing{string(f.Kind), length(f.Hole), optional(f.Length), optional(f.Reach)}
		}
		if w.On.Wooden() {
			one.InWood = new(length(w.InWood))
		}
		out.Wall = append(out.Wall, one)
	}
	return out
}
