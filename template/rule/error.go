package rule

// measuring are rules about how far holes may be off.
func measuring() []Rule {
	return []Rule{
		{ID: "error-over-play", Level: Caution,
			What:   "The likely error between two holes (19 cases in 20) stays within the play of the clip.",
			Why:    "Clips forgive no more than their play: beyond it the panel goes on askew or not at all.",
			Source: "errors put together as in JCGM 100 (GUM); tapes: EU 2014/32/EU Annex X; growth of paper: paper-trade table"},
		{ID: "jig-saw-error", Level: Caution,
			What:   "A board's own error is no more than half the play where corner jigs are used.",
			Why:    "A jig measures from the board's own edges, so a board cut out of true moves the holes with it.",
			Source: geometry + "; half the play is left for all other errors"},
	}
}
