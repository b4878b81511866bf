package rule

// onTheWall are rules about what hangs over or beside what is on the wall.
func onTheWall() []Rule {
	return []Rule{
		{ID: "over-box", Level: Stop,
			Why:    "Joints in a box come loose and get warm; behind a panel nobody sees it, and nobody gets at it.",
			Source: "NEC 314.29 (boxes must stay reachable); round a box, a surface that burns must leave it flush or proud: NEC 314.20"},
		{ID: "over-opening", Level: Stop,
			Why:    "A panel over a door or window shuts it, perhaps the way out, and its clips have nothing behind them.",
			Source: geometry},
		{ID: "corner-collision", Level: Stop,
			Why:    "The second panel meets the face of the first before its clips do, and never goes on.",
			Source: geometry},
		{ID: "outside-wall", Level: Stop,
			Why:    "Part of the panel would hang in the air, or the wall was measured wrong and every hole with it.",
			Source: geometry},
		{ID: "near-heater", Level: Caution,
			Why:    "Foam and cloth burn, and heat makes glue let go.",
			Source: "NFPA 211 and the appliance's own plate (from memory; no single figure covers all); 300 mm for a first look is common practice, from memory"},
		{ID: "over-vent", Level: Caution,
			Why:    "A room, a cupboard or a burner may need that air.",
			Source: practice + "; ventilation is a matter of local codes"},
		{ID: "over-valve", Level: Caution,
			Why:    "Water runs for as long as it takes to find the valve.",
			Source: practice},
		{ID: "over-fitting", Level: Caution,
			Why:    "The board bears on the fitting and the clips don't engage.",
			Source: practice},
		{ID: "door-swing", Level: Caution,
			Why:    "The leaf or its handle dents the panel each time it opens, or the door opens less far than it should.",
			Source: practice},
		{ID: "fittings-overlap", Level: Note,
			Why:    "Two things can't be in one place, so one of the measures is probably wrong.",
			Source: geometry},
	}
}
