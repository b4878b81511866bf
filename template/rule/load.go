package rule

import (
	"strings"

	"rodsheet/template/plan/fastening"
)

// loading are rules about weights and what clips are asked to hold.
func loading() []Rule {
	return []Rule{
		{ID: "load-over", Level: Caution,
			What:   "Weight on the clip that carries most, and pull on the top clips, together stay within clip.carries.",
			Why:    "A clip that holds more than its maker lets it carry may open, and the panel comes down.",
			Source: "the maker's figure in the job; forces by statics from true areas and densities. Arithmetic, not a licence",
			say: say(func(s *speech, f fastening.LoadOver) (text, remedy string) {
				text = s.sprintf("A clip has to hold %v (%v of weight, and %v of pull at the top); its maker lets it carry %v. This is arithmetic, not a licence.",
					f.Holds, f.Weight, f.Pull, f.Carries)
				if len(f.Assumed) > 0 {
					text += " Taken for granted: " + strings.Join(f.Assumed, ", ") + "."
				}
				return text, s.sprintf("Give the panel %d clips or more, stronger clips, or a lighter board.", f.Clips)
			})},
		{ID: "screws-over", Level: Caution,
			What:   "What hangs on a top clip, weight and pull together, stays within the reference value of its wall screws for a permanent load.",
			Why:    "Reference values have some reserve for what cannot be seen in wood; what hangs there for good should not live on it.",
			Source: "NDS 2018, 12.2.2 (withdrawal), chapter 12 (lateral, with lining and pad as a gap: AWC Technical Report 12, from memory), 12.4.1 (both together), 2.3.2 (C_D 0.9)",
			say: say(func(s *speech, f fastening.ScrewsOver) (text, remedy string) {
				return s.sprintf("A top clip has to hold %v, and the reference value of its wall screws for a permanent load is %v, with %s in the wood.", f.Holds, f.Value, f.Depth),
					"Give the panel more clips, longer or thicker screws, or a lighter board."
			})},
		{ID: "carries-unknown", Level: Note,
			What:   "clip.carries is given.",
			Why:    "Nothing here can say whether the clips are strong enough.",
			Source: "the clip maker's own sheet",
			say: fixed[fastening.CarriesUnknown](
				"Nobody has said what a clip carries; loads are shown and not judged.",
				"Take the figure from the maker's sheet and give `carries`.")},
		{ID: "heavy-board", Level: Note,
			What:   "board.density is no more than 15 % above plywood's 36 lb/ft³ (577 kg/m³).",
			Why:    "Either the density is a slip, or each clip holds more than one is used to.",
			Source: "softwood plywood weighs about 3 lb/ft² for each inch of thickness, ±15 % by species (common practice)",
			say: say(func(s *speech, f fastening.HeavyBoard) (text, remedy string) {
				return s.sprintf("The board is heavier than plywood usually is (%v, against %v).", f.Density, f.Usual),
					"Weigh a piece of it; where it is right, look at the loads on the clips."
			})},
	}
}
