package rule

// placing are rules about where clips go, what they hold to, and how panels come on and off.
func placing() []Rule {
	return []Rule{
		{ID: "no-place", Level: Stop,
			Why:    "Without a place for a clip the panel has nothing to hang on; a hole elsewhere would meet what the keep-out is there for.",
			Source: geometry + "; zones of straight cables: BS 7671:2018, 522.6.202"},
		{ID: "cannot-lift", Level: Stop,
			Why:    "The hooks can't come over each other, so the panel can be neither hung nor taken down.",
			Source: "geometry: the free height above must be the lift of the clip, with a millimetre or two of ease"},
		{ID: "few-clips", Level: Caution,
			Why:    "A panel on too few clips, or on clips in one line, rocks and works loose.",
			Source: practice + ": four clips a panel, and never all in one line"},
		{ID: "limits-clash", Level: Caution,
			Why:    "Both wishes can't be kept; the clips were placed as well as they go.",
			Source: geometry},
		{ID: "on-lining", Level: Caution,
			Why:    "A wood screw in plasterboard or another thin lining pulls out at a small part of what it holds in wood.",
			Source: practice + "; tables of screw values (NDS chapter 12) are for wood, not for linings"},
		{ID: "studs-unknown", Level: Caution,
			Why:    "The plan can't bring one clip onto wood when nobody has said where the wood is.",
			Source: practice},
		{ID: "lining-gives", Level: Caution,
			Why:    "A wall half that gives way under the thumb stays behind when the board half is pressed on.",
			Source: practice + ": a thin hardboard pad makes clips engage on a lining that gives"},
		{ID: "pattern-differs", Level: Note,
			Why:    "Boards that look alike are drilled differently; the wrong one hangs on nothing.",
			Source: geometry},
		{ID: "shut-in", Level: Note,
			Why:    "With no room for fingers or a blade the panel can't be taken off without harm.",
			Source: practice + "; the gap of a putty knife, 1/8 in, from memory"},
	}
}
