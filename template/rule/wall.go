package rule

import (
	"rodsheet/template/job"
	"rodsheet/template/plan/access"
	"rodsheet/template/plan/layout"
)

// onTheWall are rules about what hangs over or beside what is on the wall.
func onTheWall() []Rule {
	return []Rule{
		{ID: "over-box", Level: Stop,
			What:   "No panel hangs over an electrical fitting.",
			Why:    "Joints in a box come loose and get warm; behind a panel nobody sees it, and nobody gets at it.",
			Source: "NEC 314.29 (boxes must stay reachable); round a box, a surface that burns must leave it flush or proud: NEC 314.20",
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
		{ID: "outside-wall", Level: Stop,
			What:   "Every panel is inside the outline of its wall.",
			Why:    "Part of the panel would hang in the air, or the wall was measured wrong and every hole with it.",
			Source: geometry,
			say: say(func(s *speech, f layout.OutsideWall) (text, remedy string) {
				return s.sprintf("%s, from %s across and %s up, reaches out of wall %s.", s.panelFirst(), f.Across, f.Up, f.Wall),
					s.sprintf("Keep it inside the outline, which is %s wide and at most %s high.", f.Width, f.Height)
			})},
		{ID: "near-heater", Level: Caution,
			What:   "No panel hangs within 12 in (300 mm) of a heater.",
			Why:    "Foam and cloth burn, and heat makes glue let go.",
			Source: "NFPA 211 and the appliance's own plate (from memory; no single figure covers all); 300 mm for a first look is common practice, from memory",
			say: say(func(s *speech, f access.NearHeater) (text, remedy string) {
				return s.sprintf("%s within %s of %s.", s.hang(), f.Within, fitting(f.Fitting)),
					"Keep the distance to combustible things that the heater's plate or manual asks for; there is no one figure for all."
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
