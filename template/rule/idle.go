package rule

import (
	"fmt"

	"rodsheet/template/plan"
)

// idle names what the job file gives and the plan did not count.
func idle(p *plan.Plan) []plan.Trouble {
	var out []plan.Trouble
	tell := func(name, key, text, remedy string) {
		if p.Job.Source.Has(key) {
			out = append(out, plan.Trouble{ID: "not-acted-on", At: plan.Spot{Name: name, Key: key}, Text: text, Remedy: remedy})
		}
	}
	if p.Job.Framing.Gravity == 0 {
		tell("", "framing.wood", fmt.Sprintf("framing.wood (%s) is only a name: lead holes are worked out for a usual softwood, and what a screw holds is not worked out.", p.Job.Framing.Wood),
			"Give framing.gravity too, from a timber table: 0.42 for spruce-pine-fir, 0.50 for Douglas fir (NDS).")
	}
	hung := map[string]bool{}
	for i := range p.Runs {
		run := p.Runs[i].Job
		hung[run.Band.Name] = true
		for k := range run.Across {
			if key := fmt.Sprintf("%s.across[%d].at", run.Key, k); p.Job.Source.Has(key) {
				tell("run "+run.Name, key, fmt.Sprintf("The heights at which run %s was read across are not counted: its narrowest reading holds from bottom to top.", run.Name), "")
				break
			}
		}
	}
	for _, b := range p.Job.Bands {
		if !hung[b.Name] {
			tell("band "+b.Name, "heights."+b.Name, fmt.Sprintf("No run hangs at the height %s.", b.Name),
				fmt.Sprintf("Write height: %s in a run, or take it out.", b.Name))
		}
	}
	if len(p.Blocks) == 0 {
		tell("", "blocks", "No blocks are made: no band has a deck that they could stand on, or its panels begin on the deck.",
			"Give the band a seat, the height of the hard deck; seat: 0 stands the blocks on the floor.")
	}
	if !p.Job.Wrap.Auto {
		tell("", "wrap.hold", "wrap.hold is not counted, since wrap.size is given.", "Take one of the two out.")
	}
	if !p.Job.Source.Has("cover.roll") {
		tell("", "cover.repeat", "The repeat of the cover's pattern is not counted: nothing is laid out on a roll without cover.roll.", "Give the usable width of the roll.")
	}
	if !p.Job.Source.Has("board.sheet") {
		tell("", "board.grain", "The grain of the boards is not counted: nothing is laid out on sheets without board.sheet.", "Give the size of the sheets.")
	}
	return out
}
