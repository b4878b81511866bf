package rule

import (
	"strings"

	"rodsheet/geom"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/stock"
)

// cutting are rules about pieces and the stock they come out of.
func cutting() []Rule {
	large := func(what, why, help string) Rule {
		return Rule{ID: what + "-too-large", Level: Caution, What: "Each " + what + " part fits its stock in one piece.", Why: why, Source: geometry,
			say: say(func(s *speech, f stock.TooLarge) (text, remedy string) { return tooLarge(s, f, help) })}
	}
	return []Rule{
		{ID: "board-parts", Level: Stop,
			What:   "A board is one piece after cover and batting are taken off its edges.",
			Why:    "The rest of the panel would have no board behind it, and its template would be missing.",
			Source: geometry,
			say: say(func(s *speech, f layout.BoardParts) (text, remedy string) {
				return s.sprintf("%s has a neck narrower than %s, where its board falls into %d parts; only the largest is drawn.", s.piece(f.Piece), f.Neck, f.Parts),
					"Divide the area at the neck."
			})},
		{ID: "no-board", Level: Caution,
			What:   "Every piece of an area is large enough for a board.",
			Why:    "That piece of the wall stays bare.",
			Source: geometry,
			say: say(func(s *speech, f layout.NoBoard) (text, remedy string) {
				return s.sprintf("%s is left bare: a cover of %s on each edge leaves no board in it.", s.piece(f.Piece), f.Edge),
					"Change the divisions or the gap so that it joins its neighbour or goes."
			})},
		{ID: "sliver", Level: Caution,
			What:   "No finished panel is narrower than slivers.width.",
			Why:    "A strip that narrow splits when it is screwed, and its cover can't be folded neatly.",
			Source: practice,
			say: say(func(s *speech, f layout.Sliver) (text, remedy string) {
				remedy = "Move the divisions with widths, or change how many panels there are; slivers: merge joins it with a neighbour where it can."
				if f.Width > 0 {
					return s.sprintf("%s is only %s wide and %s high; less than %s is hard to make.", s.panelFirst(), f.Panel.W, f.Panel.H, f.Width), remedy
				}
				return s.sprintf("%s, %s wide and %s high over all, covers less than %s.", s.panelFirst(), f.Panel.W, f.Panel.H, f.Area.In(s.units)), remedy
			})},
		large("board", "It can't be cut from that sheet, so the buying list is short of it.", "a larger sheet, or divide the panel in two"),
		{ID: "foam-too-large", Level: Note,
			What:   "Each foam part fits its stock in one piece.",
			Why:    "It is glued together from pieces; a joint right behind a back or a head may be felt.",
			Source: practice + ": foam is glued edge to edge, with the joint off the middle; under batting it does not show",
			say:    say(joinedFoam)},
		large("pad", "The pads don't come out of that sheet; the buying list asks for a piece that they do come out of.", "a larger sheet, or two pieces side by side behind the half"),
		large("batting", "It can't be cut in one piece from that roll.",
			"a wider roll, or lay two pieces side by side: torn, not cut, the joint does not show"),
		large("cover", "It can't be cut in one piece from that roll, and a seam in a cover shows.", "a wider roll, or a seam"),
		{ID: "cannot-plan-cuts", Level: Note,
			What:   "Parts and stock are of a size that cuts can be planned for.",
			Why:    "The buying list counts pieces where it should count sheets.",
			Source: geometry,
			say: say(func(s *speech, f stock.CannotPlanCuts) (text, remedy string) {
				stock := "stock size"
				if f.Roll {
					stock = "roll"
				}
				return s.sprintf("The %s could not be planned: %s.", f.Stock, f.Reason), s.sprintf("Correct the %s; the parts are listed all the same.", stock)
			})},
	}
}

// piece names a piece of a run's area by where it is.
func (s *speech) piece(p layout.Piece) string {
	return s.sprintf("The piece of %s from %s across and %s up", s.who(), p.Across, p.Up)
}

func tooLarge(s *speech, f stock.TooLarge, help string) (text, remedy string) {
	var by []string
	if f.Wider > 0 {
		by = append(by, s.sprintf("%s wider", f.Wider))
	}
	if f.Longer > 0 {
		by = append(by, s.sprintf("%s longer", f.Longer))
	}
	lying := ""
	if f.Lying {
		lying = " lying down,"
	}
	of := s.sprintf("the sheet of %s", f.Sheet)
	if f.Roll > 0 {
		of = s.sprintf("the roll of %s", f.Roll)
	}
	remedy = "It takes " + help + "."
	if f.FitsLying {
		remedy = "It would fit lying down, where it need not stand upright. Else it takes " + help + "."
	}
	what := s.sprintf("The %s of board %s, %s", f.Stock, f.Board, f.Part)
	if f.Board == "" {
		what = s.sprintf("A %s, %s", f.Stock, f.Part)
	}
	return s.sprintf("%s,%s is %s than %s.", what, lying, strings.Join(by, " and "), of), remedy
}

// joinedFoam tells of what pieces foam is joined.
func joinedFoam(s *speech, f stock.TooLarge) (text, remedy string) {
	text, remedy = tooLarge(s, f, "a larger sheet, or glue the foam together edge to edge: a joint under the batting does not show")
	n := len(f.Columns) * len(f.Rows)
	if n == 0 {
		return text, remedy
	}
	var of []string
	if len(f.Columns) > 1 {
		of = append(of, s.sprintf("%s wide from the left as you face it", s.lengths(f.Columns)))
	}
	if len(f.Rows) > 1 {
		of = append(of, s.sprintf("%s high from below", s.lengths(f.Rows)))
	}
	return text + s.sprintf(" The plan joins it of %d pieces: %s.", n, strings.Join(of, "; ")),
		"Glue them edge to edge on the board as they are named: the joints keep off the panel's middle."
}

// lengths are several lengths, one after the other.
func (s *speech) lengths(list []geom.Length) string {
	return strings.Join(finding.Repeated(list, func(l geom.Length) string { return l.In(s.units) }), " + ")
}
