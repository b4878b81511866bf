package rule

// loading are rules about weights and what clips are asked to hold.
func loading() []Rule {
	return []Rule{
		{ID: "load-over", Level: Caution,
			What:   "Weight on the clip that carries most, and pull on the top clips, together stay within clip.carries.",
			Why:    "A clip that holds more than its maker lets it carry may open, and the panel comes down.",
			Source: "the maker's figure in the job; forces by statics from true areas and densities. Arithmetic, not a licence"},
		{ID: "carries-unknown", Level: Note,
			What:   "clip.carries is given.",
			Why:    "Nothing here can say whether the clips are strong enough.",
			Source: "the clip maker's own sheet"},
		{ID: "heavy-board", Level: Note,
			What:   "board.density is no more than 15 % above plywood's 36 lb/ft³ (577 kg/m³).",
			Why:    "Either the density is a slip, or each clip holds more than one is used to.",
			Source: "softwood plywood weighs about 3 lb/ft² for each inch of thickness, ±15 % by species (trade association's rule)"},
	}
}
