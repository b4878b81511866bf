package rule

// loading are rules about weights and what clips are asked to hold.
func loading() []Rule {
	return []Rule{
		{ID: "load-over", Level: Caution,
			Why:    "A clip that holds more than its maker lets it carry may open, and the panel comes down.",
			Source: "the maker's figure in the job; forces by statics from true areas and densities. Arithmetic, not a licence"},
		{ID: "carries-unknown", Level: Note,
			Why:    "Nothing here can say whether the clips are strong enough.",
			Source: "the clip maker's own sheet"},
		{ID: "heavy-board", Level: Note,
			Why:    "Either the density is a slip, or each clip holds more than one is used to.",
			Source: "softwood plywood weighs about 3 lb/ft² for each inch of thickness, ±15 % by species (trade association's rule)"},
	}
}
