package rule

import (
	"strings"

	"rodsheet/template/plan/fastening"
)

// screwing are rules about screws, their depth and their holes.
func screwing() []Rule {
	const guarded = "NEC 2017, 300.4(A)(1) and (D): cables at least 1 1/4 in (32 mm) from the face of the wood, or behind a steel plate; not those fished into finished walls (300.4(D), exceptions)"
	return []Rule{
		{ID: "screw-far-side", Level: Stop,
			What:   "At least 1/4 in (6 mm) of wall or wood remains beyond the tip of a wall screw.",
			Why:    "The tip comes out on the other side of the wall, or cracks the plaster or tile there.",
			Source: practice + ": 1/4 in must remain; framing only 1 1/2 in deep exists",
			say:    say(farSide)},
		{ID: "screw-pierces", Level: Stop,
			What:   "The board screw comes through the face by no more than half the foam.",
			Why:    "Whoever leans on the panel leans on the tip.",
			Source: practice,
			say: say(func(s *speech, f fastening.ScrewPierces) (text, remedy string) {
				foam := s.sprintf("more than half of the %v of foam", f.Foam)
				if f.Foam == 0 {
					foam = "and there is no foam over it"
				}
				return s.sprintf("The %v comes out through the face by %v, %s: it is %v long, the clip takes %v of it, and the board may be as thin as %v.",
					f.Screw, f.Out, foam, f.Screw.Length, f.Flange, f.Thin), s.boardScrew(f.Choice)
			})},
		{ID: "screw-through", Level: Caution,
			What:   "The board screw is no longer than flange + the thinnest the board may be.",
			Why:    "The tip tears foam and cover, and scratches whoever leans on the panel.",
			Source: practice + ": a 1/2 in screw through a clip into 1/4 in plywood comes out by 1/16 to 1/8 in",
			say: say(func(s *speech, f fastening.ScrewThrough) (text, remedy string) {
				return s.sprintf("The %v comes out through the face by %v: it is %v long, the clip takes %v of it, and the board may be as thin as %v.",
					f.Screw, f.Out, f.Screw.Length, f.Flange, f.Thin), s.boardScrew(f.Choice)
			})},
		{ID: "screw-short", Level: Caution,
			What:   "The board screw has at least 3/16 in (5 mm) of thread in the board.",
			Why:    "Too few turns of thread strip the wood, and the clip comes off the board.",
			Source: practice + ", from memory: 3/16 in (5 mm) of thread in the board. Screw tables of NDS 2018 are for solid wood and come out too high for plywood (J. Korean Wood Sci. Technol. 49(1), 2021, p. 93)",
			say: say(func(s *speech, f fastening.ScrewShort) (text, remedy string) {
				return s.sprintf("The %v has only %v of thread in the board; %v is the least that holds.", f.Screw, f.Thread, f.Least), s.boardScrew(f.Choice)
			})},
		{ID: "screw-near-face", Level: Caution,
			What:   "The tip of the board screw stays 1/32 in (0.8 mm) short of the face.",
			Why:    "The tip pushes the last veneer up and is felt through the foam.",
			Source: practice + ", from memory: the tip stays 1/32 in (0.8 mm) short of the face",
			say: say(func(s *speech, f fastening.ScrewNearFace) (text, remedy string) {
				return s.sprintf("The tip of the %v stops %v short of the face; with less than %v it can lift the face or be felt.", f.Screw, f.Short, f.Least), s.boardScrew(f.Choice)
			})},
		{ID: "screw-deep", Level: Caution,
			What:   "A wall screw goes no deeper than 1 1/4 in (32 mm) into wood.",
			Why:    "New cables along or through wood are kept out of its first 1 1/4 in. Cables fished into finished walls need not be, and old wiring may not be: the depth makes meeting one unlikely, not impossible.",
			Source: guarded,
			say: say(func(s *speech, f fastening.ScrewDeep) (text, remedy string) {
				return s.sprintf("The %v goes %v into the %v. Cables laid with the wall are kept at least %v behind the face of the wood, or behind a steel plate; deeper than that a screw is likelier to meet one.",
					f.Screw, f.InWood, f.In, f.Max), s.wallScrew(f.Choice)
			})},
		{ID: "screw-past-zones", Level: Caution,
			What:   "Where cables run straight, a wall screw stays within 50 mm of the wall's face.",
			Why:    "Cables 50 mm deep and deeper need not keep to the zones that holes stay clear of: one may run behind any clip.",
			Source: "BS 7671:2018, 522.6.202",
			say: say(func(s *speech, f fastening.ScrewPastZones) (text, remedy string) {
				return s.sprintf("The %v or its hole goes %v into the wall; cables 50 mm deep and deeper keep to no zones.", f.Screw, f.Tip),
					"Take a shorter screw, on masonry with a shorter plug, or search with a detector that sees so deep."
			})},
		{ID: "screw-depth-limit", Level: Caution,
			What:   "Six diameters in wood fit within the depth limit of 1 1/4 in (32 mm).",
			Why:    "Tables are for 10 diameters in the wood; between 10 and 6 their values fall in proportion, and below there are none.",
			Source: guarded + "; 6 diameters in wood: NDS 2018, 12.1.5.6",
			say: say(func(s *speech, f fastening.ScrewDepthLimit) (text, remedy string) {
				return s.sprintf("A screw of this diameter wants %v in the %v (6 diameters), but no screw should go deeper than %v; the depth limit stands. The %v has %v.",
						f.Wants, f.In, f.Max, f.Screw, f.InWood),
					"Take a thinner screw and more of them, or a screw as long as the depth limit lets."
			})},
		{ID: "screw-shallow", Level: Caution,
			What:   "A wall screw has at least six diameters in wood, behind flange, pad and lining.",
			Why:    "With less than six diameters in wood a screw bends and works out; tables give no value for it.",
			Source: "NDS 2018, 12.1.5.6: 6 diameters in the wood at least; tables assume 10, and are reduced in proportion below",
			say: say(func(s *speech, f fastening.ScrewShallow) (text, remedy string) {
				return s.sprintf("The %v has only %v in the %v behind clip, shim and lining; it wants %v (6 diameters).", f.Screw, f.InWood, f.In, f.Wants), s.wallScrew(f.Choice)
			})},
		{ID: "marker-wide", Level: Caution,
			What:   "screws.marker is no thicker than the root of a screw that has to bite in its hole.",
			Why:    "In a hole wider than its root a screw has only the tips of its thread to hold by.",
			Source: "root diameters: NDS 2018, Appendix L, Table L3; lead holes: NDS 2018, 12.1.5.2 and 12.1.5.3",
			say: say(func(s *speech, f fastening.MarkerWide) (text, remedy string) {
				if f.In == "" {
					return s.sprintf("The %s marker bit is thicker than the root of the board screw, %s: the thread would have little to bite on in the board.", f.Marker, f.Root),
						s.sprintf("Take a bit of %s or less.", f.Bit)
				}
				return s.sprintf("The %s marker bit is thicker than the root of the wall screw, %s: where it goes on into the %s the thread would have little to bite on.", f.Marker, f.Root, f.In),
					s.sprintf("Mark through the board only as deep as the lining, then drill on with %s.", f.Bit)
			})},
		{ID: "depth-unknown", Level: Caution,
			What:   "The depth of the wall, or of its studs and rails, is given.",
			Why:    "A screw or hole that is right for a deep wall comes out of the far side of a shallow one.",
			Source: practice + ": framing only 1 1/2 in deep exists",
			say: say(func(_ *speech, f fastening.DepthUnknown) (text, remedy string) {
				if f.Masonry {
					return "Nobody has said how deep the wall is: whether a hole comes out of its far side can't be told.", "Measure it in a doorway or a window, and give `depth`."
				}
				return "Nobody has said how deep the wall is, nor how deep its studs or rails are: whether a screw comes out of the far side can't be told.",
					"Measure at a doorway, a box or a small test hole, and give `depth`."
			})},
		{ID: "lining-unknown", Level: Caution,
			What:   "The thickness of the lining is given.",
			Why:    "Each bit of lining is a bit of screw that is in neither wood nor plug.",
			Source: geometry,
			say: say(func(_ *speech, f fastening.LiningUnknown) (text, remedy string) {
				if f.Masonry {
					return "The thickness of plaster or lining is not given; holes and screws are worked out as if the masonry were bare, so plugs may end up in plaster.",
						"Measure it at a socket box or a small test hole, and give it as `lining`, 0 for bare masonry."
				}
				return "The thickness of the lining is not given; the screws are worked out as if there were none, so they may reach less deep into the wood than shown.",
					"Measure it at a socket box or a small test hole, and give `lining`."
			})},
	}
}

func farSide(s *speech, f fastening.ScrewFarSide) (text, remedy string) {
	what := s.sprintf("leaves only %s of it", f.Left)
	switch {
	case f.Left < 0:
		what = s.sprintf("comes out of the far side by %s", -f.Left)
	case f.Left == 0:
		what = "reaches the far side"
	}
	text = s.sprintf("The %v goes %v into a wall that is %v deep there and %v; %v must remain.", f.Screw, f.Tip, f.Depth, what, f.Remain)
	switch {
	case f.OnHand > 0:
		return text, s.sprintf("Use the %s screws you have.", f.OnHand)
	case f.Wants > f.Most:
		return text, s.sprintf("There is not depth enough for a screw that holds: %s long at most, and %s are wanted. A thinner screw, or a rail fixed across the studs, would do.",
			s.atMost(f.Most), s.atLeast(f.Wants))
	}
	return text, s.sprintf("Take a screw no longer than %s.", s.atMost(f.Most))
}

// boardScrew tells which board screw to take.
func (s *speech) boardScrew(c fastening.BoardScrewChoice) string {
	ground := ""
	if c.Grind {
		ground = " Or grind the tips flush, with eye protection, before the foam goes on."
	}
	switch {
	case c.OnHand > 0:
		return s.sprintf("Use the %s screws you have.", c.OnHand) + ground
	case c.Least > c.Most:
		return s.sprintf("No screw fits this board; a thicker board would: %s for the shortest screw that holds.", c.Board) + ground
	case c.NoneOnHand:
		screw := "this one"
		if c.Screw > 0 {
			screw = s.sprintf("the %s screws you have", c.Screw)
		}
		return s.sprintf("None of the lengths on hand fits: a screw from %s to %s would, or a board of %s for %s.",
			s.atLeast(c.Least), s.atMost(c.Most), c.Board, screw) + ground
	}
	return s.sprintf("Take a screw from %s to %s long, or a board of %s.", s.atLeast(c.Least), s.atMost(c.Most), c.Board) + ground
}

// wallScrew tells which wall screw to take.
func (s *speech) wallScrew(c fastening.WallScrewChoice) string {
	parts := []string{s.sprintf("%s clip", c.Flange)}
	if c.Shim > 0 {
		parts = append(parts, s.sprintf("%s shim", c.Shim))
	}
	if c.Lining > 0 {
		parts = append(parts, s.sprintf("%s lining", c.Lining))
	}
	sum := strings.Join(parts, " + ")
	switch {
	case c.OnHand > 0:
		return s.sprintf("Use the %s screws you have (%s + the wood).", c.OnHand, sum)
	case c.Least > c.Most:
		return s.sprintf("Take a screw no longer than %s, and a thinner one: 6 diameters of this one don't fit (%s + the wood).", s.atMost(c.Most), sum)
	}
	return s.sprintf("Take a screw from %s to %s long (%s + the wood).", s.atLeast(c.Least), s.atMost(c.Most), sum)
}
