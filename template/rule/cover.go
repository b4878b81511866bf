package rule

import "rodsheet/template/plan/covering"

// covering are rules about cover, batting and staples behind the board.
func wrapping() []Rule {
	return []Rule{
		{ID: "wrap-short", Level: Caution,
			What:   "The cover reaches over the board's edge and foam and holds on the back by wrap.hold.",
			Why:    "The cover doesn't reach the staples, or tears out from under them when it is stretched.",
			Source: practice + ": cover = board + twice the thickness + twice the hold on the back",
			say: say(func(s *speech, f covering.WrapShort) (text, remedy string) {
				text = s.sprintf("A wrap of %s is too small: board and foam take %s of it, the staples stand %s in from the edge, and %s must lie beyond them.",
					f.Wrap, f.Thick, f.Staples, f.Beyond)
				if f.Wrap <= f.Thick {
					text = s.sprintf("A wrap of %s does not even reach the back: board and foam are %s thick.", f.Wrap, f.Thick)
				}
				return text, s.sprintf("Give the wrap %s or more.", f.Least)
			})},
		{ID: "wrap-under-clips", Level: Caution,
			What:   "What is turned over to the back ends before the nearest clip begins.",
			Why:    "A clip that stands on folded cover is tilted and stands too far off.",
			Source: geometry,
			say: say(func(s *speech, f covering.WrapUnderClips) (text, remedy string) {
				if f.Tip {
					return s.sprintf("At the corners the folded tip of the cover reaches %s in from both edges; the %s clip begins %s in and would stand on it.", f.Reach, f.Clip, f.Begins),
						s.sprintf("Turn the end of the tip back, or keep the clips %s clear of the edge.", f.Reach)
				}
				return s.sprintf("The turned-over cover reaches %s in from the board's edge; the %s clip begins at %s and would stand on it.", f.Reach, f.Clip, f.Begins),
					s.sprintf("Trim the wrap to %s, or keep the clips %s clear of the edge.", f.Wrap, f.Reach)
			})},
		{ID: "staples-under-clips", Level: Caution,
			What:   "The row of staples stands clear of every clip's base.",
			Why:    "A clip can't lie flat on staples, nor a staple be driven under a clip.",
			Source: practice + ": clips stay a couple of inches clear of each side for stapling",
			say: say(func(s *speech, f covering.StaplesUnderClips) (text, remedy string) {
				return s.sprintf("The row of staples stands %s in from the board's edge, where the %s clip begins at %s.", f.Staples, f.Clip, f.Begins),
					s.sprintf("Keep the clips %s clear of the edge, or staple nearer to it.", f.Clear)
			})},
		{ID: "behind-high", Level: Caution,
			What:   "Folds, batting and staples behind the board are lower than the clips stand off the wall.",
			Why:    "The panel bears on its own folds, and the clips don't engage or let go with time.",
			Source: geometry,
			say: say(func(s *speech, f covering.BehindHigh) (text, remedy string) {
				remedy = s.sprintf("Cut surplus batting out of the corners and thin it on the back, press the folds flat, or stand the panels off by more than %s.", f.Behind)
				if f.Parcel {
					remedy = "Cut the corners as for pleats, so that no batting is folded in. " + remedy
				}
				return s.sprintf("Folds, batting and staples behind the board come to %s; the panels stand only %s off the wall, so they would bear on their corners before the clips engage.",
					f.Behind, f.Room), remedy
			})},
		{ID: "staple-through", Level: Caution,
			What:   "A staple's leg is shorter than the thinnest the board may be.",
			Why:    "Points that come out at the face cut the foam and the cover.",
			Source: practice,
			say: say(func(s *speech, f covering.StapleThrough) (text, remedy string) {
				return s.sprintf("Staples of %s come through, or too near to, the face of a board that may be as thin as %s.", f.Staple, f.Thin),
					s.sprintf("Take staples of %s or less.", f.Most)
			})},
		{ID: "notch-narrow", Level: Caution,
			What:   "A notch in a board is wide enough for the cover to be turned into it.",
			Why:    "The sides of the notch would show bare board.",
			Source: geometry,
			say: say(func(s *speech, f covering.NotchNarrow) (text, remedy string) {
				return s.sprintf("A notch of the board is %s wide: cut down its middle it leaves %s of cover for each side, and %s are needed to reach the staples.",
						f.Notch, f.Notch/2, f.Needs),
					"Line the sides of the notch with strips of cover first, glued and stapled, or make the panel in two."
			})},
	}
}
