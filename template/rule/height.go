package rule

// heights are rules about bands, decks, blocks and walls out of plumb.
func heights() []Rule {
	return []Rule{
		{ID: "band-too-low", Level: Stop,
			What:   "Cushion, gaps and panel together are no higher than seat to sill.",
			Why:    "The panels don't go in between cushion and sill.",
			Source: geometry},
		{ID: "below-deck", Level: Stop,
			What:   "A panel begins above the deck it stands over.",
			Why:    "Part of the panel would be inside the bench, so a height was measured from somewhere else.",
			Source: geometry},
		{ID: "deck-far-out", Level: Caution,
			What:   "The two readings of a deck are within 2 in (50 mm) of each other.",
			Why:    "A bench is seldom so far out of level; more often the two readings start from a floor that slopes.",
			Source: practice + ": 2 in or 50 mm over a run asks for a second look"},
		{ID: "deck-restarts", Level: Caution,
			What:   "A band with two seat readings serves runs of one wall.",
			Why:    "The readings are the two ends of every run that uses the band; a bench that goes round a corner goes on where the last one ended, so blocks and gaps come out wrong by the difference.",
			Source: geometry},
		{ID: "stack-misses", Level: Caution,
			What:   "A stack of the stock at hand comes within blocks.within of a block's height.",
			Why:    "Panels stand as much too high or too low as the blocks are. All blocks equal matters more than the height itself.",
			Source: "the job's own stock and blocks.within; sold thickness is not true thickness (US PS 1: ±1/32 in for plywood up to 13/16 in)"},
		{ID: "deck-slopes", Level: Note,
			What:   "A deck's two readings are equal; where they aren't, blocks or gaps follow.",
			Why:    "Blocks or gaps differ from end to end, and a block at the wrong place tilts a panel.",
			Source: geometry},
		{ID: "out-of-plumb", Level: Note,
			What:   "A run's width is the same at every height it was read; the narrowest counts.",
			Why:    "The end panel is square and the corner is not, so the gap beside it is a wedge.",
			Source: geometry},
	}
}
