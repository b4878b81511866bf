package rule

import (
	"rodsheet/template/plan/blocks"
	"rodsheet/template/plan/layout"
)

// heights are rules about bands, decks, blocks and walls out of plumb.
func heights() []Rule {
	return []Rule{
		{ID: "band-too-low", Level: Stop,
			What:   "Cushion, gaps and panel together are no higher than seat to sill.",
			Why:    "The panels don't go in between cushion and sill.",
			Source: geometry,
			say: say(func(s *speech, f layout.BandTooLow) (text, remedy string) {
				return s.sprintf("Panels %s high don't go between cushion and sill, where there are %s.", f.Panel, f.Room),
					s.sprintf("Make them at most %s high.", f.Room)
			})},
		{ID: "below-deck", Level: Stop,
			What:   "A panel begins above the deck it stands over.",
			Why:    "Part of the panel would be inside the bench, so a height was measured from somewhere else.",
			Source: geometry,
			say: say(func(s *speech, f blocks.BelowDeck) (text, remedy string) {
				what := "finished edge"
				if f.Drilling {
					what = "board"
				}
				return s.sprintf("The %s of %s begins %s below the deck it should stand over.", what, s.who(), f.By),
					s.sprintf("Let the band begin %s higher, or take seat out of it.", f.By)
			})},
		{ID: "deck-far-out", Level: Caution,
			What:   "The two readings of a deck are within 2 in (50 mm) of each other.",
			Why:    "A bench is seldom so far out of level; more often the two readings start from a floor that slopes.",
			Source: practice + ": 2 in or 50 mm over a run asks for a second look",
			say: say(func(s *speech, f layout.DeckFarOut) (text, remedy string) {
				return s.sprintf("The deck is %s higher at the %s end than at the other: more than %s over the run.", f.Off, f.Higher, f.Most),
					"Measure both ends again from one level line: the second may have been read from the floor."
			})},
		{ID: "deck-restarts", Level: Caution,
			What:   "A band with two seat readings serves runs of one wall.",
			Why:    "The readings are the two ends of every run that uses the band; a bench that goes round a corner goes on where the last one ended, so blocks and gaps come out wrong by the difference.",
			Source: geometry,
			say: say(func(s *speech, f layout.DeckRestarts) (text, remedy string) {
				return s.sprintf("Runs %s stand on several walls and share the two seat readings of %s: on each of them the deck is taken to go from %s at its left end to %s at its right.",
						f.Runs, s.who(), f.Left, f.Right),
					"Give every run on a deck out of level a band of its own, with the readings at its own two ends."
			})},
		{ID: "edges-uneven", Level: Caution,
			What:   "Tops and bottoms of neighbouring runs, also round a corner, are level, or apart by 1 in (25 mm) and more.",
			Why:    "A small step in a line that the eye follows round the room looks like a mistake, and often is one: two heights measured from two floors.",
			Source: practice + ": steps of 1/16 in (1.5 mm), or of one saw step, are not told",
			say: say(func(s *speech, f layout.EdgesUneven) (text, remedy string) {
				s.named = true
				edges := "tops"
				if f.Edge == "bottom" {
					edges = "bottoms"
				}
				return s.sprintf("The %s of runs %s and %s differ by %s where they come together: %s and %s above zero.",
						edges, f.Runs[0], f.Runs[1], f.Off, f.At[0], f.At[1]),
					"Measure both from one level line. Give both runs one band; over decks of different heights, each a band with its own seat and the same bottom and top. Or let them differ by what looks meant."
			})},
		{ID: "stack-misses", Level: Caution,
			What:   "A stack of the stock at hand comes within blocks.within of a block's height.",
			Why:    "Panels stand as much too high or too low as the blocks are. All blocks equal matters more than the height itself.",
			Source: "the job's own stock and blocks.within; sold thickness is not true thickness (PS 1-19: ±1/32 in up to 13/16 in for plywood unsanded or touch-sanded, ±1/64 in up to 3/4 in sanded, from memory)",
			say:    say(stackMisses)},
		{ID: "deck-slopes", Level: Note,
			What:   "A deck's two readings are equal; where they aren't, blocks or gaps follow.",
			Why:    "Blocks or gaps differ from end to end, and a block at the wrong place tilts a panel.",
			Source: geometry,
			say: say(func(s *speech, f layout.DeckSlopes) (text, remedy string) {
				text = s.sprintf("The deck is %s higher at the %s end; ", f.Off, f.Higher)
				if !f.Follow {
					return text + s.sprintf("the panels stay level, so the gap below them is %s there and %s at the other end.", f.GapBelow.From, f.GapBelow.To),
						"Mark every block with its panel and its end: the heights differ."
				}
				text += s.sprintf("each panel stands at its own height on it, from %s above zero", f.Stand)
				if f.HasSill {
					text += s.sprintf("; the gap under the sill goes from %s", f.GapAbove)
				}
				return text + ".", "Write deck: level to keep the panels in one line."
			})},
		{ID: "out-of-plumb", Level: Note,
			What:   "A run's width is the same at every height it was read; the narrowest counts.",
			Why:    "The end panel is square and the corner is not, so the gap beside it is a wedge.",
			Source: geometry,
			say: say(func(s *speech, f layout.OutOfPlumb) (text, remedy string) {
				beside := "last"
				if f.End == "left" {
					beside = "first"
				}
				return s.sprintf("The %s end of %s is %s out of plumb between its readings; the narrowest counts: %s.", f.End, s.who(), f.Off, f.Counts),
					s.sprintf("Look whether a wedge of up to %s beside the %s panel will be seen.", f.Off, beside)
			})},
	}
}

func stackMisses(s *speech, f blocks.StackMisses) (text, remedy string) {
	s.named = true
	rip := s.sprintf("all %d blocks %s high from one piece.", f.Count, f.Height)
	switch f.Count {
	case 1:
		rip = s.sprintf("it %s high from one piece.", f.Height)
	case 2:
		rip = s.sprintf("both blocks %s high from one piece.", f.Height)
	}
	block := s.sprintf("%s, %s high", s.whoFirst(), f.Height)
	if f.Reason != "" {
		return block + ", could not be made up from stock: " + f.Reason + ".", "Rip " + rip
	}
	within := s.sprintf("; it should come within %s.", f.Within)
	text = block + ": the nearest that the stock makes is"
	if f.Below == 0 {
		return text + s.sprintf(" %s, since every piece is thicker", f.Above) + within, "Rip " + rip
	}
	text += s.sprintf(" %s below", f.Below)
	if f.Above > 0 {
		text += s.sprintf(" and %s above", f.Above)
	}
	return text + within, s.sprintf("Lay %s of veneer, card or paper on the stack of %s, or rip %s", f.Height-f.Below, f.Below, rip)
}
