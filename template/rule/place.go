package rule

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/plan/access"
	"rodsheet/template/plan/clips"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/finding"
)

// cableZones is the source of zones that nobody gave.
const cableZones = "; zones of straight cables: BS 7671:2018, 522.6.202, for cables less than 50 mm deep"

// placing are rules about where clips go, what they hold to, and how panels come on and off.
func placing() []Rule {
	return []Rule{
		{ID: "no-place", Level: Stop,
			What:   "Every panel has a place for its clips: clear of the board's edges, and holes out of every keep-out and its margin.",
			Why:    "Without a place for a clip the panel has nothing to hang on; a hole elsewhere would meet what the keep-out is there for.",
			Source: geometry + cableZones,
			source: func(f finding.Params) string {
				if np, ok := f.(clips.NoPlace); ok && np.Cables {
					return geometry + cableZones
				}
				return geometry
			},
			say: say(func(s *speech, f clips.NoPlace) (text, remedy string) {
				switch f.Reason {
				case clips.Narrow:
					return s.sprintf("The board of %s is %s wide; a clip %s wide that stays %s clear of both edges needs %s.",
							s.who(), f.Board.W, f.Base.W, f.Clear, f.Needs),
						s.sprintf("Make the finished panel at least %s wide, or lower clear.", f.Panel)
				case clips.Low:
					return s.sprintf("The board of %s is %s high; a clip %s high that stays %s clear of both edges needs %s.",
							s.who(), f.Board.H, f.Base.H, f.Clear, f.Needs),
						s.sprintf("Make the finished panel at least %s high, or lower clear.", f.Panel)
				}
				return s.sprintf("Nowhere on the board of %s (%s) can a clip stand %s clear of the edges and out of the keep-outs behind it.",
					s.who(), f.Board.In(s.units), f.Clear), s.nearPlace(f.Near)
			})},
		{ID: "cannot-lift", Level: Stop,
			What:   "Above each panel on lift clips the free height is at least clip.lift, up to sill, ceiling or fitting.",
			Why:    "The hooks can't come over each other, so the panel can be neither hung nor taken down.",
			Source: "geometry: the free height above must be the lift of the clip, with a millimetre or two of ease",
			say: say(func(s *speech, f access.CannotLift) (text, remedy string) {
				return s.sprintf("%s must rise %s to come on and off, and the free height under %s is %s.", s.subject.Panels, f.Rise, overhead(f.Under), f.Free),
					s.sprintf("Lower the top of the panels by %s, or use clips that press on.", f.Rise-f.Free)
			})},
		{ID: "few-clips", Level: Caution,
			What:   "Each panel has clips.number clips, and not all in one line.",
			Why:    "A panel on too few clips, or on clips in one line, rocks and works loose.",
			Source: practice + ": four clips a panel, and never all in one line",
			say: say(func(s *speech, f clips.FewClips) (text, remedy string) {
				switch f.Reason {
				case clips.OneLine:
					return s.sprintf("%s has room for %d clips only, and not for three that don't stand in one line.", s.whoFirst(), f.Room),
						s.sprintf("Make the panel larger, choose a smaller clip, or lower clear (now %s).", f.Clear)
				case clips.NoRoom:
					return s.sprintf("clips.number asks for %d clips; clips.clear of %s and the clip's base leave room for %d on %s.", f.Asked, f.Clear, f.Room, s.subject.Panels),
						s.sprintf("Make the panels larger, lower clips.clear, or ask for %d.", f.Room)
				}
				return s.sprintf("clips.number asks for %d clips; the keep-outs behind %s leave room for fewer, and some quarter of the board has none.", f.Asked, s.subject.Panels),
					"Divide the run so that a gap falls on the keep-out, or measure again how far it reaches."
			})},
		{ID: "narrow-stance", Level: Caution,
			What:   "The outermost clips of a row, and the outermost rows, stand two fifths of the board apart, no edge is further than half of clips.spacing from the nearest, and the centre of gravity is between them.",
			Why:    "A panel on clips that stand close together swings about them: a knee or a hand at its far edge levers them off.",
			Source: practice + "; the centre of gravity: statics",
			say: say(func(s *speech, f clips.NarrowStance) (text, remedy string) {
				var parts []string
				add := func(by geom.Length, format string) {
					if by > 0 {
						parts = append(parts, s.sprintf(format, by))
					}
				}
				add(f.Across, "%s nearer to each other from left to right than they should")
				add(f.Up, "%s nearer to each other from below upward than they should")
				add(f.Edge, "%s too far from an edge")
				add(f.Centre, "beside the centre of gravity, which is %s outside them")
				return s.sprintf("The keep-outs behind %s push its clips together: they stand %s.", s.who(), strings.Join(parts, ", ")),
					"Divide the run so that a gap falls on the keep-out, measure again how far it reaches, or put an adhesive strip at the edge that is free."
			})},
		{ID: "limits-clash", Level: Caution,
			What:   "clips.spacing is wide enough that neighbouring clips' bases don't lie over each other.",
			Why:    "Both wishes can't be kept; the clips were placed as well as they go.",
			Source: geometry,
			say: say(func(s *speech, f clips.LimitsClash) (text, remedy string) {
				if s.subject.Kind == finding.Job {
					return s.sprintf("clips.spacing is %s and a clip's base %s: clips that near would lie over each other.", f.Spacing, f.Base.In(s.units)),
						s.sprintf("Raise clips.spacing above %s, or correct clip.base.", max(f.Base.W, f.Base.H))
				}
				return s.sprintf("On %s a clip more would lie over its neighbour's base, and without it they stand further apart than clips.spacing (%s); clips.spacing and clip.base can't both be kept.",
					s.subject.Panels, f.Spacing), "Raise clips.spacing a little."
			})},
		{ID: "on-lining", Level: Caution,
			What:   "Every screw of a wall half stands in a stud or rail, at least its margin (3/8 in) from the edge.",
			Why:    "A wood screw in plasterboard or another thin lining pulls out at a small part of what it holds in wood.",
			Source: practice + "; tables of screw values (NDS 2018, chapter 12) are for wood, not for linings",
			say: say(func(s *speech, f clips.HeldByLining) (text, remedy string) {
				heights := make([]string, len(f.Rails))
				for i, h := range f.Rails {
					heights[i] = s.sprintf("%s", h)
				}
				text = s.sprintf("%d of %d clips of %s are held by the lining alone: %s. Level battens (rails) at %s would put %d on wood",
					f.Bare, f.Clips, s.who(), where(f), finding.Listed(heights), f.Battens)
				if f.Follow > f.Clips-f.Bare {
					text += s.sprintf(", follow: studs %d with more templates", f.Follow)
				}
				return text + ".", "Use a fixing made for the lining at those places, or bring wood there."
			})},
		{ID: "studs-unknown", Level: Caution,
			What:   "studs or rails are given for each wall with panels.",
			Why:    "The plan can't bring one clip onto wood when nobody has said where the wood is.",
			Source: practice,
			say: say(func(s *speech, _ clips.StudsUnknown) (text, remedy string) {
				return s.sprintf("Nobody said where the studs of %s are: every clip on it counts as held by the lining alone.", s.who()),
					"Find the studs (magnet on the screws of the lining, small probing holes where a panel will hide them) and write them down as studs."
			})},
		{ID: "lining-gives", Level: Caution,
			What:   "On a lining that gives, every clip is on wood; else all wall halves of that wall get a pad.",
			Why:    "A wall half that gives way under the thumb stays behind when the board half is pressed on.",
			Source: practice + ": a thin hardboard pad makes clips engage on a lining that gives",
			say: say(func(s *speech, f fastening.LiningGives) (text, remedy string) {
				if f.Masonry {
					return s.sprintf("The lining of %s gives: a screw into the masonry behind it draws it in, and wall halves would not stand in one plane.", s.who()),
						s.sprintf("Put a pad %s thick behind every wall half on this wall, and drive each screw no further than the pad bears; the plan counts them.", f.Pad)
				}
				return s.sprintf("The lining of %s gives, and %d of its %d clips are held by it alone: they would pull back and not engage.", s.who(), f.Bare, f.Clips),
					s.sprintf("Put a pad %s thick behind every wall half on this wall, on wood too, so that the panels stand in one plane; the plan counts them.", f.Pad)
			})},
		{ID: "pattern-differs", Level: Note,
			What:   "Panels of one size in a run have their clips at the same places.",
			Why:    "Boards that look alike are drilled differently; the wrong one hangs on nothing.",
			Source: geometry,
			say: say(func(s *speech, _ clips.PatternDiffers) (text, remedy string) {
				return s.sprintf("Keep-outs behind %s leave no room for the clip places of the other panels of the run; clips there stand elsewhere.",
						strings.Join(s.subject.Panels, ", ")),
					"Use the template that names the panel, not its neighbour's; or move the panels so that one pattern serves all."
			})},
		{ID: "shut-in", Level: Note,
			What:   "A panel on press clips has one edge with a gap of 1/8 in (3 mm) or more.",
			Why:    "With no room for fingers or a blade the panel can't be taken off without harm.",
			Source: practice + "; the gap of a putty knife, 1/8 in or 3 mm, from memory",
			say: say(func(s *speech, f access.ShutIn) (text, remedy string) {
				return s.sprintf("No edge of %s leaves a gap of %s, room for a putty knife.", s.subject.Panels, f.Gap),
					"Hang the panel that can be reached last; to get one off again, sew or staple a strong tab of webbing behind one edge, or widen gap or ends."
			})},
	}
}

// nearPlace tells of the nearest place for a panel.
func (s *speech) nearPlace(n clips.NearPlace) string {
	by, where := n.Moved.X, "further right"
	switch {
	case n.Width > 0:
		return s.sprintf("A finished panel %s wide that begins at %s has a place for its clips; this one is %s wide.", n.Width, n.From, n.Now)
	case n.Moved.X < 0:
		by, where = -n.Moved.X, "further left"
	case n.Moved.Y > 0:
		by, where = n.Moved.Y, "higher"
	case n.Moved.Y < 0:
		by, where = -n.Moved.Y, "lower"
	case n.Moved.X == 0:
		return "No width and no position of it on this wall that was tried has one: mend the keep-outs or choose another wall."
	}
	return s.sprintf("The same panel %s %s has a place for its clips.", by, where)
}

// overhead names what a panel would rise against.
func overhead(o access.Overhead) string {
	switch {
	case o.Kind == "sill":
		return "the sill"
	case o.Kind == "wall":
		return "the top of the wall"
	case o.Name == "":
		return "a " + o.Kind
	}
	return o.Name
}

// mostListed is how many clips of a panel are named one by one; the wall sheet shows them all.
const mostListed = 6

// where lists the clips that the lining holds.
func where(f clips.HeldByLining) string {
	var parts []string
	if len(f.Whole) > 0 {
		parts = append(parts, "all of "+finding.Listed(f.Whole))
	}
	for _, panel := range f.Some {
		if len(panel.Places) > mostListed {
			parts = append(parts, fmt.Sprintf("%s %d of %d", panel.Panel, len(panel.Places), panel.Clips))
		} else {
			parts = append(parts, panel.Panel+" "+finding.Listed(panel.Places))
		}
	}
	return strings.Join(parts, "; ")
}
