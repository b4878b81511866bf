package rule

import "rodsheet/template/plan/tolerance"

// measuring are rules about how far holes may be off.
func measuring() []Rule {
	return []Rule{
		{ID: "error-over-play", Level: Caution,
			What:   "The likely error between the halves of two clips (19 cases in 20) stays within the play of the clip.",
			Why:    "Clips forgive no more than their play: beyond it the panel goes on askew or not at all.",
			Source: "errors put together as in JCGM 100 (GUM); tapes: EU 2014/32/EU, Annex X, or NIST Handbook 44, 5.52; growth of paper: common practice for bond, 0.10–0.20 % along the grain and 0.20–0.40 % across; seams and the drill's wander: no source, from memory",
			say: say(func(s *speech, f tolerance.ErrorOverPlay) (text, remedy string) {
				remedy = "Try the clips on one panel before drilling the rest."
				if f.Help != "" {
					remedy = s.sprintf("What would help most: %s; that leaves %s. %s", f.Help, f.Leaves.Roughly(s.units), remedy)
				}
				return s.sprintf("The halves of the clips of %s may well miss each other by %s, against a play of %s in the clip (at the worst %s).",
					s.who(), f.Likely.Roughly(s.units), f.Play.Roughly(s.units), f.Worst.Roughly(s.units)), remedy
			})},
		{ID: "jig-saw-error", Level: Caution,
			What:   "A board's own error is no more than half the play where corner jigs are used.",
			Why:    "A jig measures from the board's own edges, so a board cut out of true moves the holes with it.",
			Source: geometry + "; half the play is left for all other errors",
			say: say(func(s *speech, f tolerance.JigSawError) (text, remedy string) {
				return s.sprintf("Corner jigs carry the board's own error into the holes, and that may be %s: more than half the clip's play of %s.", f.Saw, f.Play),
					"Measure width, height and both diagonals first; where they are off by more than half the play, use the board template."
			})},
	}
}
