package rule

// cutting are rules about pieces and the stock they come out of.
func cutting() []Rule {
	large := func(what, why string) Rule {
		return Rule{ID: what + "-too-large", Level: Caution, What: "Each " + what + " part fits its stock in one piece.", Why: why, Source: geometry}
	}
	return []Rule{
		{ID: "board-parts", Level: Stop,
			What:   "A board is one piece after cover and batting are taken off its edges.",
			Why:    "The rest of the panel would have no board behind it, and its template would be missing.",
			Source: geometry},
		{ID: "no-board", Level: Caution,
			What:   "Every piece of an area is large enough for a board.",
			Why:    "That piece of the wall stays bare.",
			Source: geometry},
		{ID: "sliver", Level: Caution,
			What:   "No finished panel is narrower than slivers.width.",
			Why:    "A strip that narrow splits when it is screwed, and its cover can't be folded neatly.",
			Source: practice},
		large("board", "It can't be cut from that sheet, so the buying list is short of it."),
		large("foam", "It can't be cut in one piece, so the buying list is short of it."),
		large("batting", "It can't be cut in one piece from that roll."),
		large("cover", "It can't be cut in one piece from that roll, and a seam in a cover shows."),
		{ID: "cannot-plan-cuts", Level: Note,
			What:   "Parts and stock are of a size that cuts can be planned for.",
			Why:    "The buying list counts pieces where it should count sheets.",
			Source: geometry},
	}
}
