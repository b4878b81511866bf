package rule

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
)

// StudSpacing: studs are spaced as no framing is.
type StudSpacing struct {
	Every geom.Length
	Meant geom.Length // 0: nothing comes to mind
}

// ID implements [finding.Params].
func (StudSpacing) ID() string { return "stud-spacing" }

// WallLong: a wall is many times as long as what hangs on it.
type WallLong struct {
	Width geom.Length
	Taken geom.Length // from the first run's beginning to the last one's end
	Meant geom.Length // 0: nothing comes to mind
}

// ID implements [finding.Params].
func (WallLong) ID() string { return "wall-long" }

// ScrewStout: a screw given by its diameter is too thick for its length.
type ScrewStout struct {
	Use   string // "board" or "wall"
	Screw job.Screw
	Gauge int         // that the figure would be; 0: none
	Meant geom.Length // the diameter of that gauge
}

// ID implements [finding.Params].
func (ScrewStout) ID() string { return "screw-stout" }

// BoardThick: the board is thicker than sheets are sold.
type BoardThick struct {
	Thickness, Most geom.Length
	Meant           geom.Length // 0: nothing comes to mind
}

// ID implements [finding.Params].
func (BoardThick) ID() string { return "board-thick" }

// StandoffNone: the standoff is 0.
type StandoffNone struct{}

// ID implements [finding.Params].
func (StandoffNone) ID() string { return "standoff-none" }

// slips are rules about figures that are more often a slipped point or another unit than what was measured.
func slips() []Rule {
	return []Rule{
		{ID: "stud-spacing", Level: Caution, Find: oddStuds,
			What:   "Studs are 8 to 48 in (200 to 1200 mm) from middle to middle.",
			Why:    "With wood where there is none, every clip and screw on it is wrong.",
			Source: practice + ": framing stands 16 or 24 in (400 or 600 mm) apart",
			say: say(func(s *speech, f StudSpacing) (text, remedy string) {
				return s.sprintf("The studs of %s stand %s from middle to middle, which is no usual framing.", s.who(), f.Every) + s.didYouMean(f.Meant),
					"Measure from the middle of one to the middle of the next, and look at the unit."
			})},
		{ID: "wall-long", Level: Caution, Find: longWalls,
			What:   "A wall is at most 26 ft (8 m) long, or less than ten times as long as what its runs take.",
			Why:    "Corners, studs from the left end and what is left over all come out wrong on a wall that isn't so long.",
			Source: practice,
			say: say(func(s *speech, f WallLong) (text, remedy string) {
				return s.sprintf("%s is %s wide, ten times what its runs take (%s) or more.", s.whoFirst(), f.Width, f.Taken) + s.didYouMean(f.Meant),
					"Measure the wall from corner to corner; accept this if it is so long."
			})},
		{ID: "screw-stout", Level: Caution, Find: stoutScrews,
			What:   "A screw given by its diameter is at least two diameters long.",
			Why:    "Bits, holes and what the screw holds are all worked out from its diameter.",
			Source: practice + ", from memory: no wood screw on sale is shorter than two of its diameters",
			say: say(func(s *speech, f ScrewStout) (text, remedy string) {
				text = s.sprintf("The %s screw is %s thick and only %s long: no wood screw is so stout.", f.Use, f.Screw.Diameter, f.Screw.Length)
				if f.Gauge > 0 {
					return text + s.sprintf(" Did you mean gauge %d, which is %s thick?", f.Gauge, f.Meant), s.sprintf("Write size: no %d for the gauge, or measure the shank.", f.Gauge)
				}
				return text + " Did you mean another unit?", "Measure the shank of the screw, and its length."
			})},
		{ID: "board-thick", Level: Caution, Find: thickBoards,
			What:   "The board is no thicker than sheets are sold: 1 1/8 in (30 mm).",
			Why:    "Weight, screws and how far panels stand off all come out wrong with another thickness.",
			Source: "US PS 1-19: plywood up to 1 1/8 in; in millimetres up to 30 (from memory)",
			say: say(func(s *speech, f BoardThick) (text, remedy string) {
				return s.sprintf("The board is %s thick, and sheets are sold up to %s.", f.Thickness, f.Most) + s.didYouMean(f.Meant),
					"Measure a sheet with a calliper near an edge; accept this if it is so thick."
			})},
		{ID: "standoff-none", Level: Caution, Find: noStandoff,
			What:   "clip.standoff is more than 0.",
			Why:    "The board would lie on the wall, with no room for clips, staples and folded cloth between them.",
			Source: geometry,
			say: fixed[StandoffNone]("clip.standoff is 0, as if nothing were between wall and board. Did you mean how thick a hooked pair is?",
				"Hook a pair together and measure from the wall side of one to the board side of the other; accept this if both halves are let in.")},
	}
}

// didYouMean asks whether a length was meant, or another unit where none comes to mind.
func (s *speech) didYouMean(l geom.Length) string {
	if l == 0 {
		return " Did you mean another unit?"
	}
	return s.sprintf(" Did you mean %s?", l)
}

// Slips, as what a figure must be taken times.
const (
	tenfold     = 0.1
	tenth       = 10.0
	millimetres = 1 / 25.4 // read as inches
	centimetres = 1 / 2.54
)

// meant is the length after the first of the slips that puts it between least and most; 0 for none.
func meant(l, least, most geom.Length, slips ...float64) geom.Length {
	for _, slip := range slips {
		if other := l.Times(slip).Round(geom.Micrometre); least <= other && other <= most {
			return other
		}
	}
	return 0
}

// unitSlips are those of slips that a job of the units invites: nobody takes inches for millimetres unawares.
func unitSlips(u geom.System, slips ...float64) []float64 {
	if u == geom.Imperial {
		return slips
	}
	return slices.DeleteFunc(slips, func(f float64) bool { return f == millimetres || f == centimetres })
}

func oddStuds(p *plan.Plan) (out finding.List) {
	u := p.Job.Units
	for i := range p.Walls {
		wall := &p.Walls[i]
		every := wall.Job.Studs.Every
		if every == 0 || u.Pick(8*geom.Inch, 200*geom.Millimetre) <= every && every <= u.Pick(48*geom.Inch, 1200*geom.Millimetre) {
			continue
		}
		usual := meant(every, u.Pick(12*geom.Inch, 300*geom.Millimetre), u.Pick(32*geom.Inch, 800*geom.Millimetre), unitSlips(u, tenth, tenfold, millimetres)...)
		out.Add(wall.Subject(".studs"), wall.Job.Key+".studs.every", StudSpacing{Every: every, Meant: usual})
	}
	return out
}

// longRoom is a wall longer than those of most rooms.
func longRoom(u geom.System) geom.Length { return u.Pick(26*geom.Foot, 8*geom.Metre) }

func longWalls(p *plan.Plan) (out finding.List) {
	for i := range p.Walls {
		wall := &p.Walls[i]
		var from, to geom.Length
		for n, r := range wall.Runs {
			b := p.Runs[r].Bounds
			if n == 0 {
				from, to = b.Min.X, b.Max.X
			}
			from, to = min(from, b.Min.X), max(to, b.Max.X)
		}
		if width := wall.Job.Width; to > from && width > longRoom(p.Job.Units) && width >= 10*(to-from) {
			out.Add(wall.Subject(".width"), wall.Job.Key+".width", WallLong{Width: width, Taken: to - from, Meant: meant(width, to, width-1, tenfold)})
		}
	}
	return out
}

func stoutScrews(p *plan.Plan) (out finding.List) {
	for _, use := range []string{"board", "wall"} {
		screw := p.Job.Screws.Board
		if use == "wall" {
			screw = p.Job.Screws.Wall
		}
		if screw.Gauge > 0 || screw.Diameter == 0 || screw.Length == 0 || screw.Length >= 2*screw.Diameter {
			continue
		}
		f := ScrewStout{Use: use, Screw: screw}
		if n := screw.Diameter / geom.Millimetre; n <= 24 && screw.Diameter%geom.Millimetre == 0 {
			f.Gauge, f.Meant = int(n), job.ScrewDiameter(int(n))
		}
		field := "screws." + use + ".size"
		out.Add(finding.OfJob(field), field, f)
	}
	return out
}

func thickBoards(p *plan.Plan) (out finding.List) {
	u := p.Job.Units
	if t, most := p.Job.Board.Thickness, u.Pick(geom.Inch+geom.Inch/8, 30*geom.Millimetre); t > most {
		out.Add(finding.OfJob("board.thickness"), "board.thickness", BoardThick{Thickness: t, Most: most, Meant: meant(t, u.Pick(geom.Inch/4, 5*geom.Millimetre), most, unitSlips(u, tenfold, centimetres, millimetres)...)})
	}
	return out
}

func noStandoff(p *plan.Plan) (out finding.List) {
	if p.Job.Clip.Standoff == 0 {
		out.Add(finding.OfJob("clip.standoff"), "clip.standoff", StandoffNone{})
	}
	return out
}
