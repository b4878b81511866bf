package rule

// covering are rules about cover, batting and staples behind the board.
func covering() []Rule {
	return []Rule{
		{ID: "wrap-short", Level: Caution,
			Why:    "The cover doesn't reach the staples, or tears out from under them when it is stretched.",
			Source: practice + ": cover = board + twice the thickness + twice the hold on the back"},
		{ID: "wrap-under-clips", Level: Caution,
			Why:    "A clip that stands on folded cover is tilted and stands too far off.",
			Source: geometry},
		{ID: "staples-under-clips", Level: Caution,
			Why:    "A clip can't lie flat on staples, nor a staple be driven under a clip.",
			Source: practice + ": clips stay a couple of inches clear of each side for stapling"},
		{ID: "behind-high", Level: Caution,
			Why:    "The panel bears on its own folds, and the clips don't engage or let go with time.",
			Source: geometry},
		{ID: "staple-through", Level: Caution,
			Why:    "Points that come out at the face cut the foam and the cover.",
			Source: practice},
		{ID: "notch-narrow", Level: Caution,
			Why:    "The sides of the notch would show bare board.",
			Source: geometry},
	}
}
