package report

import (
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/fastening"
)

// weight is written in kilograms to a tenth of a gram: it is no more exact than that, and rounded it is the same number
// on every machine.
type weight job.Weight

func (w weight) MarshalJSON() ([]byte, error) {
	return number(w).MarshalJSON()
}

type load struct {
	Board   weight   `json:"board_kg"`
	Foam    weight   `json:"foam_kg"`
	Batting weight   `json:"batting_kg"`
	Cover   weight   `json:"cover_kg"`
	Share   weight   `json:"each_clip_kg"`
	Most    weight   `json:"most_clip_kg"`
	Pull    weight   `json:"pull_top_kg" doc:"outward, on each clip of the top row"`
	Screw   weight   `json:"screw_withdrawal_kg,omitempty" doc:"reference value of one wall screw in wood of known gravity, permanent load"`
	Lateral weight   `json:"screw_lateral_kg,omitempty" doc:"likewise, across the screw"`
	Top     weight   `json:"top_clip_screws_kg,omitempty" doc:"likewise, of all screws of a top clip, pulled and loaded across together"`
	Assumed []string `json:"assumed" doc:"densities that nobody gave"`
}

func loadOf(l fastening.Load) *load {
	return &load{
		Board: weight(l.Board), Foam: weight(l.Foam), Batting: weight(l.Batting), Cover: weight(l.Cover),
		Share: weight(l.Share), Most: weight(l.Most), Pull: weight(l.Pull), Screw: weight(l.Holds.Withdrawal), Lateral: weight(l.Holds.Lateral), Top: weight(l.Holds.Top), Assumed: append([]string{}, l.Assumed...),
	}
}

type budget struct {
	Worst       length `json:"worst_mm" doc:"the larger of the two below"`
	Likely      length `json:"likely_mm" doc:"about 95 in 100 cases stay within it"`
	Play        length `json:"play_mm" doc:"of the clip"`
	Template    string `json:"template" doc:"the board whose holes may be off most"`
	HoleToHole  off    `json:"hole_to_hole"`
	BoardToWall off    `json:"board_to_wall"`
}

type off struct {
	Worst  length `json:"worst_mm"`
	Likely length `json:"likely_mm"`
}

// budgetOf is nil when no board has two holes.
func budgetOf(p *plan.Plan) *budget {
	b := p.Budget
	if b.Board < 0 || b.Board >= len(p.Boards) {
		return nil
	}
	return &budget{
		Worst: length(b.Worst()), Likely: length(b.Expanded()), Play: length(b.Play),
		Template:    p.Boards[b.Board].Name,
		HoleToHole:  off{length(b.HoleToHole.Worst), length(b.HoleToHole.Expanded)},
		BoardToWall: off{length(b.BoardToWall.Worst), length(b.BoardToWall.Expanded)},
	}
}
