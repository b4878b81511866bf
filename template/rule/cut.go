package rule

// cutting are rules about pieces and the stock they come out of.
func cutting() []Rule {
	large := func(what, why string) Rule {
		return Rule{ID: what + "-too-large", Level: Caution, Why: why, Source: geometry}
	}
	return []Rule{
		{ID: "board-parts", Level: Stop,
			Why:    "The rest of the panel would have no board behind it, and its template would be missing.",
			Source: geometry},
		{ID: "no-board", Level: Caution,
			Why:    "That piece of the wall stays bare.",
			Source: geometry},
		{ID: "sliver", Level: Caution,
			Why:    "A strip that narrow splits when it is screwed, and its cover can't be folded neatly.",
			Source: practice},
		large("board", "It can't be cut from that sheet, so the buying list is short of it."),
		large("foam", "It can't be cut in one piece, so the buying list is short of it."),
		large("batting", "It can't be cut in one piece from that roll."),
		large("cover", "It can't be cut in one piece from that roll, and a seam in a cover shows."),
		{ID: "cannot-plan-cuts", Level: Note,
			Why:    "The buying list counts pieces where it should count sheets.",
			Source: geometry},
	}
}
