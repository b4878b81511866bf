package rule

import (
	"strings"

	"rodsheet/template/job"
	"rodsheet/template/plan/access"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/hanging"
	"rodsheet/template/plan/layout"
)

// onTheWall are rules about what hangs over or beside what is on the wall.
func onTheWall() []Rule {
	return []Rule{
		{ID: "over-box", Level: Stop,
			What:   "No panel hangs over an electrical fitting.",
			Why:    "Joints in a box come loose and get warm; behind a panel nobody sees it, and nobody gets at it.",
			Source: "NEC 2017, 314.29 (boxes must stay reachable); round a box, a surface that burns must leave it flush or proud: NEC 2017, 314.20",
			say: say(func(s *speech, f access.OverFitting) (text, remedy string) {
				return s.sprintf("%s over %s. An electrical box must stay reachable without taking anything off the wall.", s.hang(), fitting(f.Fitting)),
					s.sprintf("Give the run an area, which leaves %s free, divide it so that a gap falls there, or have the box moved by an electrician.", fitting(f.Fitting))
			})},
		{ID: "over-opening", Level: Stop,
			What:   "No panel hangs over a door, window or other opening.",
			Why:    "A panel over a door or window shuts it, perhaps the way out, and its clips have nothing behind them.",
			Source: geometry,
			say: say(func(s *speech, f access.OverOpening) (text, remedy string) {
				return s.sprintf("%s over %s.", s.hang(), f.Opening),
					s.sprintf("Give the run an area, which cuts %s out of its panels, or end the run beside it.", f.Opening)
			})},
		{ID: "corner-collision", Level: Stop,
			What:   "At an inside corner the run that ends there keeps off by the other's build-out and a gap.",
			Why:    "The second panel meets the face of the first before its clips do, and never goes on.",
			Source: geometry,
			say: say(func(s *speech, f layout.CornerCollision) (text, remedy string) {
				where := s.sprintf("%s from the corner of walls %s and %s", f.Stands, f.Walls[0], f.Walls[1])
				if f.Stands < 0 {
					where = s.sprintf("%s past the corner of walls %s and %s", -f.Stands, f.Walls[0], f.Walls[1])
				}
				if f.Inside {
					text = s.sprintf("%s comes to %s; run %s goes into that corner and stands %s off its wall, so with the gap of %s %s must stay %s clear of it.",
						s.whoFirst(), where, f.Through, f.BuildOut, f.Gap, s.who(), f.Least)
				} else {
					text = s.sprintf("%s comes to %s, where run %s goes past it; with the gap it must stay %s clear of the corner.",
						s.whoFirst(), where, f.Through, f.Least)
				}
				let, choice := "begin at %s or later", "this"
				if f.AtEnd {
					let = "end at %s or earlier"
				} else {
					choice = "next"
				}
				return text, s.sprintf("Let %s "+let+", or let it run through (through: %s on wall %s) and shorten run %s.",
					s.who(), f.At, choice, f.Walls[0], f.Through)
			})},
		{ID: "runs-overlap", Level: Stop,
			What:   "Finished panels of two runs of a wall never lie over each other.",
			Why:    "Two panels can't hang in one place, and each is drilled as if the other weren't there.",
			Source: geometry,
			say: say(func(s *speech, f layout.RunsOverlap) (text, remedy string) {
				return s.sprintf("%s of runs %s and %s lie over each other, from %s across and %s up.", panelsFirst(s), f.Runs[0], f.Runs[1], f.Across, f.Up),
					s.sprintf("Let one of the two end or begin elsewhere, or hang at another height; or give run %s an area that leaves the place of run %s free.", f.Runs[0], f.Runs[1])
			})},
		{ID: "no-order", Level: Stop,
			What:   "There is an order in which every panel comes on to its wall past those that hang already.",
			Why:    "All is drilled and covered, and the last panel does not go on.",
			Source: geometry + "; room for hands, 4 in or 100 mm, is " + practice + ", from memory",
			say:    say(noOrder)},
		{ID: "outside-wall", Level: Stop,
			What:   "Every panel is inside the outline of its wall.",
			Why:    "Part of the panel would hang in the air, or the wall was measured wrong and every hole with it.",
			Source: geometry,
			say: say(func(s *speech, f layout.OutsideWall) (text, remedy string) {
				return s.sprintf("%s, from %s across and %s up, reaches out of wall %s.", s.panelFirst(), f.Across, f.Up, f.Wall),
					s.sprintf("Keep it inside the outline, which is %s wide and at most %s high.", f.Width, f.Height)
			})},
		{ID: "runs-near", Level: Caution,
			What:   "Finished panels of two runs of a wall stand apart by the larger gap of the two.",
			Why:    "Covers rub, or a panel has to be forced on, where a gap was meant.",
			Source: geometry,
			say: say(func(s *speech, f layout.RunsNear) (text, remedy string) {
				return s.sprintf("Runs %s and %s come within %s of each other, and the gap is %s.", f.Runs[0], f.Runs[1], f.Stands, f.Gap),
					s.sprintf("Move or shorten one of them by %s.", f.Gap-f.Stands)
			})},
		{ID: "near-heater", Level: Caution,
			What:   "No panel hangs nearer to a heater than its plate asks for; without a plate, than 36 in (900 mm) to a portable heater or a stove, 12 in (300 mm) to others.",
			Why:    "Foam and cloth burn, and heat makes glue let go.",
			Source: "the appliance's own plate; without one 36 in to a portable heater and 12 in above a baseboard one are fire-service advice, and 36 in to a stove for solid fuel is NFPA 211 (all from memory); 12 in to others is common practice",
			say: say(func(s *speech, f access.NearHeater) (text, remedy string) {
				text = s.sprintf("%s within %s of %s", s.hang(), f.Within, fitting(f.Fitting))
				if f.Plate {
					return text + ", which its plate asks for to things that burn.", "Keep that distance: panels burn."
				}
				return text + ".", "Keep the distance to things that burn that the heater's plate or manual asks for, and give it as clearance; there is no one figure for all."
			})},
		{ID: "over-vent", Level: Caution,
			What:   "No panel hangs over a vent.",
			Why:    "A room, a cupboard or a burner may need that air.",
			Source: practice + "; ventilation is a matter of local codes",
			say: say(func(s *speech, f access.OverFitting) (text, remedy string) {
				return s.sprintf("%s over %s and would shut it.", s.hang(), fitting(f.Fitting)),
					s.sprintf("Leave %s free: give the run an area or divide it otherwise.", fitting(f.Fitting))
			})},
		{ID: "over-valve", Level: Caution,
			What:   "No panel hangs over a valve.",
			Why:    "Water runs for as long as it takes to find the valve.",
			Source: practice,
			say: say(func(s *speech, f access.OverFitting) (text, remedy string) {
				return s.sprintf("%s over %s, which must be found and turned in a hurry.", s.hang(), fitting(f.Fitting)),
					s.sprintf("Leave %s free, or make that panel one that lifts off, and say so beside it.", fitting(f.Fitting))
			})},
		{ID: "over-fitting", Level: Caution,
			What:   "No panel hangs over another fitting.",
			Why:    "The board bears on the fitting and the clips don't engage.",
			Source: practice,
			say: say(func(s *speech, f access.OverFitting) (text, remedy string) {
				return s.sprintf("%s over %s, which stands in the way of the board.", s.hang(), fitting(f.Fitting)),
					s.sprintf("Leave %s free: give the run an area or divide it otherwise. If it lies inside the wall, call it a keep-out.", fitting(f.Fitting))
			})},
		{ID: "door-swing", Level: Caution,
			What:   "No panel hangs where a door's leaf opens against the wall (openings: swing).",
			Why:    "The leaf or its handle dents the panel each time it opens, or the door opens less far than it should.",
			Source: practice,
			say: say(func(s *speech, f access.DoorSwing) (text, remedy string) {
				return s.sprintf("%s where the leaf of %s opens against the wall (%s on either side).", s.hang(), f.Opening, f.Swing),
					"Check which way it opens; fit a stop that holds the leaf off the panels, or keep the run clear of it."
			})},
		{ID: "fittings-overlap", Level: Note,
			What:   "No two fittings of a wall lie over each other.",
			Why:    "Two things can't be in one place, so one of the measures is probably wrong.",
			Source: geometry,
			say: say(func(s *speech, f access.FittingsOverlap) (text, remedy string) {
				return s.sprintf("Two fittings lie over each other on %s: %s and %s.", s.who(), fitting(f.First), fitting(f.Second)),
					"Measure both again if they are two things; one entry will do if they are one."
			})},
	}
}

// panelsFirst names the panels of a finding at the beginning of a sentence.
func panelsFirst(s *speech) string {
	s.named = true
	return "Panels " + finding.Listed(finding.Ranges(s.subject.Panels))
}

// mostInCircle is how many panels of a circle are named with their reasons; the rest is counted.
const mostInCircle = 4

// noOrder tells a circle of panels, and why each has to hang before the next.
func noOrder(s *speech, f hanging.NoOrder) (text, remedy string) {
	s.named = true
	n := len(f.Panels)
	var parts []string
	for i, panel := range f.Panels[:min(n, mostInCircle)] {
		parts = append(parts, s.sprintf("%s before %s (%s)", panel, f.Panels[(i+1)%n], because(f.Reasons[i])))
	}
	text = "No order of hanging is possible: " + finding.Listed(parts)
	if n > mostInCircle {
		text = s.sprintf("No order of hanging is possible: %s, and so on round %d panels, back to %s", strings.Join(parts, ", "), n, f.Panels[0])
	}
	return text + ".", "Divide one of these panels, let the other run go through at one of the corners, or give a run more room there."
}

// because says of a panel why it must hang before another.
func because(r hanging.Reason) string {
	if r == hanging.ToRise {
		return "it rises to come on, into that room"
	}
	return "it goes into the corner behind"
}

// fitting is what the person called a fitting, or what it is.
func fitting(f access.Fitting) string {
	switch {
	case f.Name != "" && f.Name != string(f.Kind):
		return f.Name
	case f.Kind == job.Electrical:
		return "the electrical box"
	case f.Kind == job.Other:
		return "the fitting"
	}
	return "the " + string(f.Kind)
}
