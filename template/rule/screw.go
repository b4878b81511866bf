package rule

// screwing are rules about screws, their depth and their holes.
func screwing() []Rule {
	const guarded = "NEC 300.4(A)(1) and (D): cables at least 1 1/4 in (32 mm) from the face of the wood, or behind a steel plate"
	return []Rule{
		{ID: "screw-far-side", Level: Stop,
			Why:    "The tip comes out on the other side of the wall, or cracks the plaster or tile there.",
			Source: practice + ": 1/4 in must remain; framing only 1 1/2 in deep exists"},
		{ID: "screw-through", Level: Caution,
			Why:    "The tip tears foam and cover, and scratches whoever leans on the panel.",
			Source: practice + ": a 1/2 in screw through a clip into 1/4 in plywood comes out by 1/16 to 1/8 in"},
		{ID: "screw-short", Level: Caution,
			Why:    "Too few turns of thread strip the wood, and the clip comes off the board.",
			Source: practice + ", from memory: 3/16 in (5 mm) of thread in the board. Screw tables of the NDS are for solid wood and come out too high for plywood (J. Korean Wood Sci. Technol. 49(1), 2021, p. 93)"},
		{ID: "screw-near-face", Level: Caution,
			Why:    "The tip pushes the last veneer up and is felt through the foam.",
			Source: practice + ", from memory: the tip stays 1/32 in (0.8 mm) short of the face"},
		{ID: "screw-deep", Level: Caution,
			Why:    "Cables in walls are kept out of the first 1 1/4 in of the wood, and only there; old wiring may not even keep to that.",
			Source: guarded},
		{ID: "screw-depth-limit", Level: Caution,
			Why:    "The screw holds less than tables say, since it may not go as deep as they want.",
			Source: guarded + "; 6 diameters in wood: NDS, lateral values of wood screws (from memory)"},
		{ID: "screw-shallow", Level: Caution,
			Why:    "With less than six diameters in wood a screw bends and works out; tables give no value for it.",
			Source: "NDS, lateral values of wood screws: 6 diameters at least (from memory)"},
		{ID: "marker-wide", Level: Caution,
			Why:    "In a hole wider than its root a screw has only the tips of its thread to hold by.",
			Source: "root diameters: NDS Appendix L, Table L3; lead holes: NDS 12.1.5"},
		{ID: "depth-unknown", Level: Caution,
			Why:    "A screw that is right for a deep stud comes out of the far side of a shallow one.",
			Source: practice + ": framing only 1 1/2 in deep exists"},
		{ID: "lining-unknown", Level: Caution,
			Why:    "Each bit of lining is a bit of screw that is not in wood.",
			Source: geometry},
	}
}
