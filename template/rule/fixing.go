package rule

import (
	"fmt"
	"strings"

	"rodsheet/template/plan/fastening"
)

// fixing are rules about what holds where there is no wood.
func fixing() []Rule {
	return []Rule{
		{ID: "hole-far-side", Level: Stop,
			What:   "At least 1/4 in (6.4 mm) of masonry remains beyond a hole for a plug.",
			Why:    "The bit breaks out of the other side of the wall, with whatever hangs or runs there.",
			Source: practice + ": 1/4 in must remain; a hammer drill breaks out more of the far face than its hole",
			say: say(func(s *speech, f fastening.HoleFarSide) (text, remedy string) {
				what := s.sprintf("leaves only %s of it", f.Left)
				switch {
				case f.Left < 0:
					what = s.sprintf("comes out of the far side by %s", -f.Left)
				case f.Left == 0:
					what = "reaches the far side"
				}
				text = s.sprintf("A hole %s deep from the wall's face %s: the wall is %s deep, and %s must remain.", f.Hole, what, f.Depth, f.Remain)
				if f.Longest <= 0 {
					return text, "There is no room for a plug: screw a batten to what holds, and give it as rails."
				}
				return text, s.sprintf("Take plugs no longer than %s, with screws to suit.", s.atMost(f.Longest))
			})},
		{ID: "plug-screw", Level: Caution,
			What:   "A screw on hand reaches past the end of its plug by its own diameter, through flange, pad and lining.",
			Why:    "A screw that ends inside its plug doesn't spread it where it should hold.",
			Source: practice + ": a screw as long as what it fixes, what bridges the masonry, the plug, and its own diameter more",
			say: say(func(s *speech, f fastening.PlugScrew) (text, remedy string) {
				parts := []string{s.sprintf("%s clip", f.Flange)}
				if f.Shim > 0 {
					parts = append(parts, s.sprintf("%s pad", f.Shim))
				}
				if f.Lining > 0 {
					parts = append(parts, s.sprintf("%s lining", f.Lining))
				}
				parts = append(parts, s.sprintf("%s plug", f.Plug), s.sprintf("%s of the screw's own diameter", f.Diameter))
				return s.sprintf("The longest screw on hand, %s, does not reach through its plug: %s are wanted (%s).", f.Longest, s.atLeast(f.Least), strings.Join(parts, " + ")),
					s.sprintf("Get screws of %s, or the next longer; holes are reckoned for %s.", f.Take, f.Take)
			})},
		{ID: "anchor-reach", Level: Caution,
			What:   "The lining is no thicker than fixings.anchor.reach.",
			Why:    "An anchor that doesn't reach through the lining can't open behind it, and holds next to nothing.",
			Source: "the anchor maker's own figure in the job",
			say: say(func(s *speech, f fastening.AnchorReach) (text, remedy string) {
				return s.sprintf("The lining is %s thick, and the anchor takes %s.", f.Lining, f.Reach), s.sprintf("Get anchors that take %s of lining.", f.Lining)
			})},
		{ID: "fixing-over", Level: Caution,
			What:   "What hangs on a wall half, weight and pull together, stays within what its plugs or anchors carry.",
			Why:    "A plug or anchor that is pulled harder than it may works loose, and the panel comes down with it.",
			Source: "the maker's figure in the job; forces by statics from true areas and densities, shared evenly by the holes of a wall half. Arithmetic, not a licence",
			say: say(func(s *speech, f fastening.FixingOver) (text, remedy string) {
				held := fmt.Sprintf("one %s carries", f.Kind)
				if f.Each > 1 {
					held = fmt.Sprintf("each of its %d %ss carries", f.Each, f.Kind)
				}
				text = s.sprintf("A wall half has to hold %v (%v of weight, and %v of pull at the top); %s %v by its maker. This is arithmetic, not a licence.",
					f.Holds, f.Weight, f.Pull, held, f.Carries)
				if len(f.Assumed) > 0 {
					text += " Taken for granted: " + strings.Join(f.Assumed, ", ") + "."
				}
				return text, fmt.Sprintf("Give the panel %d clips or more, stronger %ss, or a lighter board.", f.Clips, f.Kind)
			})},
		{ID: "fixing-carries-unknown", Level: Note,
			What:   "What a plug or an anchor that is used carries is given.",
			Why:    "Nothing here can say whether the fixings are strong enough.",
			Source: "the fixing maker's own sheet",
			say: say(func(_ *speech, f fastening.FixingUnknown) (text, remedy string) {
				return fmt.Sprintf("Nobody has said what one %s carries in this wall; loads are shown and not judged.", f.Kind),
					fmt.Sprintf("Take the figure from the maker's sheet, for your kind of wall, and give `fixings.%s.carries`.", f.Kind)
			})},
	}
}
