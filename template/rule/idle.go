package rule

import (
	"fmt"
	"slices"

	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// NotActedOn: the plan did not count a field that is given.
type NotActedOn struct {
	Field idleField
	Name  string // what the field says, or of what it is
}

// ID implements [finding.Params].
func (NotActedOn) ID() string { return "not-acted-on" }

// An idleField is a field that may be given and not counted.
type idleField string

// The fields.
const (
	idleWood   idleField = "framing.wood"
	idleAt     idleField = "across.at"
	idleBand   idleField = "heights"
	idleBlocks idleField = "blocks"
	idleHold   idleField = "wrap.hold"
	idleRepeat idleField = "cover.repeat"
	idleGrain  idleField = "board.grain"
	idleScrew  idleField = "screws.wall.length"
	idlePlug   idleField = "fixings.plug"
	idleAnchor idleField = "fixings.anchor"
	idleBoard  idleField = "hardboard.sheet"
)

// notActedOn tells what is not counted, and what would have it counted.
func notActedOn(s *speech, f NotActedOn) (text, remedy string) {
	switch f.Field {
	case idleWood:
		return s.sprintf("framing.wood (%s) is only a name: lead holes are worked out for a usual softwood, and what a screw holds is not worked out.", f.Name),
			"Give framing.gravity too, from a timber table: 0.42 for spruce-pine-fir, 0.50 for Douglas fir-larch, 0.46 for Douglas fir-south (NDS 2018, Table 12.3.3A)."
	case idleAt:
		return s.sprintf("The heights at which %s was read across are not counted: its narrowest reading holds from bottom to top.", s.who()), ""
	case idleBand:
		return s.sprintf("No run hangs at the height %s.", f.Name), s.sprintf("Write height: %s in a run, or take it out.", f.Name)
	case idleBlocks:
		return "No blocks are made: no band has a deck that they could stand on, or its panels begin on the deck.",
			"Give the band, or the run over an area, a seat: the height of the hard deck; seat: 0 stands the blocks on the floor."
	case idleHold:
		return "wrap.hold is not counted, since wrap.size is given.", "Take one of the two out."
	case idleRepeat:
		return "The repeat of the cover's pattern is not counted: nothing is laid out on a roll without cover.roll.", "Give the usable width of the roll."
	case idleScrew:
		return "screws.wall.length is not counted: masonry takes the screws that fit the plug, " + f.Name + ".", "Take it out, or give it among the lengths on hand."
	case idlePlug:
		return "The plugs are not counted: no clip stands on masonry.", "Write build: masonry for the wall that they are for, or take them out."
	case idleAnchor:
		return "The anchors are not counted: no clip is held by the lining alone.", "Take them out."
	case idleBoard:
		return "The sheet of hardboard is not counted: no pads are cut.", "Take it out."
	}
	return "The grain of the boards is not counted: nothing is laid out on sheets without board.sheet.", "Give the size of the sheets."
}

// idle names what the job file gives and the plan did not count.
func idle(p *plan.Plan) finding.List {
	var out finding.List
	report := func(subject finding.Subject, f NotActedOn) {
		if p.Job.Source.Has(subject.Key) {
			out.Add(subject, subject.Key, f)
		}
	}
	whole := func(field idleField, name string) { report(finding.OfJob(string(field)), NotActedOn{field, name}) }
	if p.Job.Framing.Gravity == 0 {
		whole(idleWood, p.Job.Framing.Wood)
	}
	hung := map[string]bool{}
	for i := range p.Runs {
		run := p.Runs[i].Job
		hung[run.Band.Name] = true
		for k := range run.Across {
			if key := fmt.Sprintf("%s.across[%d].at", run.Key, k); p.Job.Source.Has(key) {
				report(finding.OfRun(key, run.Name), NotActedOn{Field: idleAt})
				break
			}
		}
	}
	for _, b := range p.Job.Bands {
		if !hung[b.Name] {
			report(finding.OfOne(finding.Band, b.Key, b.Name), NotActedOn{idleBand, b.Name})
		}
	}
	if screws := screwsInPlugs(p); len(screws) > 0 {
		whole(idleScrew, finding.Listed(screws))
	}
	if !p.Screws.Holds(layout.OnMasonry) {
		whole(idlePlug, "")
	}
	if !p.Screws.Holds(layout.OnLining) {
		whole(idleAnchor, "")
	}
	if p.Stock.Pads.Count == 0 {
		whole(idleBoard, "")
	}
	if len(p.Blocks) == 0 {
		whole(idleBlocks, "")
	}
	if !p.Job.Wrap.Auto {
		whole(idleHold, "")
	}
	if !p.Job.Source.Has("cover.roll") {
		whole(idleRepeat, "")
	}
	if !p.Job.Source.Has("board.sheet") {
		whole(idleGrain, "")
	}
	return out
}

// screwsInPlugs are the wall screws of a plan that drives them into plugs only, none as long as the job's own; nil otherwise.
func screwsInPlugs(p *plan.Plan) (out []string) {
	for _, s := range p.Screws.Wall {
		if s.On != layout.OnMasonry || s.Screw.Length == p.Job.Screws.Wall.Length {
			return nil
		}
		if text := s.Screw.In(p.Job.Units); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}
