package rule

// covering are rules about cover, batting and staples behind the board.
func covering() []Rule {
	return []Rule{
		{ID: "wrap-short", Level: Caution,
			What:   "The cover reaches over the board's edge and foam and holds on the back by wrap.hold.",
			Why:    "The cover doesn't reach the staples, or tears out from under them when it is stretched.",
			Source: practice + ": cover = board + twice the thickness + twice the hold on the back"},
		{ID: "wrap-under-clips", Level: Caution,
			What:   "What is turned over to the back ends before the nearest clip begins.",
			Why:    "A clip that stands on folded cover is tilted and stands too far off.",
			Source: geometry},
		{ID: "staples-under-clips", Level: Caution,
			What:   "The row of staples stands clear of every clip's base.",
			Why:    "A clip can't lie flat on staples, nor a staple be driven under a clip.",
			Source: practice + ": clips stay a couple of inches clear of each side for stapling"},
		{ID: "behind-high", Level: Caution,
			What:   "Folds, batting and staples behind the board are lower than the clips stand off the wall.",
			Why:    "The panel bears on its own folds, and the clips don't engage or let go with time.",
			Source: geometry},
		{ID: "staple-through", Level: Caution,
			What:   "A staple's leg is shorter than the thinnest the board may be.",
			Why:    "Points that come out at the face cut the foam and the cover.",
			Source: practice},
		{ID: "notch-narrow", Level: Caution,
			What:   "A notch in a board is wide enough for the cover to be turned into it.",
			Why:    "The sides of the notch would show bare board.",
			Source: geometry},
	}
}
