package fastening

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// BoardScrewChoice is what board screw, or what board, would suit.
type BoardScrewChoice struct {
	OnHand      geom.Length // the longest on hand that fits; 0 for none
	Least, Most geom.Length // lengths that fit; none do where Least is the greater
	Board       geom.Length // a board thick enough for Screw, or for the shortest screw that holds where none fits
	Screw       geom.Length // a length on hand; 0 for the job's screw
	NoneOnHand  bool        // lengths on hand are given, and none fits
	Grind       bool        // the tips come out, and could be ground flush
}

// ScrewThrough: the board screw comes out through the face.
type ScrewThrough struct {
	Screw  job.Screw
	Out    geom.Length
	Flange geom.Length
	Thin   geom.Length // the thinnest the board may be
	Choice BoardScrewChoice
}

// ID implements [finding.Params].
func (ScrewThrough) ID() string { return "screw-through" }

// ScrewPierces: it comes out by more than half the foam.
type ScrewPierces struct {
	ScrewThrough
	Foam geom.Length // 0 for none
}

// ID implements [finding.Params].
func (ScrewPierces) ID() string { return "screw-pierces" }

// ScrewShort: the board screw has too little thread in the board.
type ScrewShort struct {
	Screw         job.Screw
	Thread, Least geom.Length
	Choice        BoardScrewChoice
}

// ID implements [finding.Params].
func (ScrewShort) ID() string { return "screw-short" }

// ScrewNearFace: the tip of the board screw stops too little short of the face.
type ScrewNearFace struct {
	Screw        job.Screw
	Short, Least geom.Length // of the face
	Choice       BoardScrewChoice
}

// ID implements [finding.Params].
func (ScrewNearFace) ID() string { return "screw-near-face" }

// MarkerWide: the marker bit is thicker than the root of a screw that has to bite in its hole.
type MarkerWide struct {
	Marker, Root geom.Length
	In           layout.Support // what the screw bites in; "" for the board
	Bit          geom.Length    // that would do
}

// ID implements [finding.Params].
func (MarkerWide) ID() string { return "marker-wide" }

// DepthUnknown: neither the depth of a wall nor that of its wood is given.
type DepthUnknown struct{ Masonry bool }

// ID implements [finding.Params].
func (DepthUnknown) ID() string { return "depth-unknown" }

// LiningUnknown: the thickness of a wall's lining is not given.
type LiningUnknown struct{ Masonry bool }

// ID implements [finding.Params].
func (LiningUnknown) ID() string { return "lining-unknown" }

// ScrewFarSide: too little of the wall remains beyond the tip of a wall screw.
type ScrewFarSide struct {
	Screw  job.Screw
	Tip    geom.Length // from the wall's face
	Depth  geom.Length // of the wall there
	Left   geom.Length // beyond the tip; below 0: it comes out
	Remain geom.Length // that must
	OnHand geom.Length // the longest on hand that fits; 0 for none
	Most   geom.Length // longest screw that leaves enough
	Wants  geom.Length // shortest that holds in the wood; 0 on the lining
}

// ID implements [finding.Params].
func (ScrewFarSide) ID() string { return "screw-far-side" }

// ScrewDeep: a wall screw goes deeper into wood than cables are kept out of it.
type ScrewDeep struct {
	Screw       job.Screw
	In          layout.Support
	InWood, Max geom.Length
	Choice      WallScrewChoice
}

// ID implements [finding.Params].
func (ScrewDeep) ID() string { return "screw-deep" }

// ScrewDepthLimit: six diameters of a wall screw are more than the depth that cables are kept out of.
type ScrewDepthLimit struct {
	Screw              job.Screw
	In                 layout.Support
	InWood, Wants, Max geom.Length
}

// ID implements [finding.Params].
func (ScrewDepthLimit) ID() string { return "screw-depth-limit" }

// ScrewShallow: a wall screw has less than six diameters in wood.
type ScrewShallow struct {
	Screw         job.Screw
	In            layout.Support
	InWood, Wants geom.Length
	Choice        WallScrewChoice
}

// ID implements [finding.Params].
func (ScrewShallow) ID() string { return "screw-shallow" }

// ScrewPastZones: a wall screw goes deeper into the wall than cables are that the zones of straight cables hold for.
type ScrewPastZones struct {
	Screw job.Screw
	Tip   geom.Length
}

// ID implements [finding.Params].
func (ScrewPastZones) ID() string { return "screw-past-zones" }

// zoneDepth is how deep cables must lie in a wall for the zones not to hold for them (BS 7671:2018, 522.6.202).
const zoneDepth = 50 * geom.Millimetre

// WallScrewChoice is what wall screw would suit, and what it goes through before the wood.
type WallScrewChoice struct {
	OnHand               geom.Length // the longest on hand that fits; 0 for none
	Least, Most          geom.Length // lengths that fit; none do where Least is the greater
	Flange, Shim, Lining geom.Length // 0 for none
}

// checkBoardScrew reports to each panel what the board screw does to it.
func (p *planner) checkBoardScrew() {
	b := p.Screws.Board
	if b.Count == 0 {
		return
	}
	var params finding.Params
	switch {
	case b.Out > 0:
		through := ScrewThrough{Screw: b.Screw, Out: b.Out, Flange: p.Job.Clip.Board.Flange, Thin: b.Thin, Choice: p.boardScrewChoice()}
		params = through
		if foam := p.Job.Foam.Thickness; 2*b.Out > foam {
			params = ScrewPierces{through, foam}
		}
	case b.InBoard < p.leastThread():
		params = ScrewShort{Screw: b.Screw, Thread: max(0, b.InBoard), Least: p.leastThread(), Choice: p.boardScrewChoice()}
	case !b.Fits:
		params = ScrewNearFace{Screw: b.Screw, Short: -b.Out, Least: ShortOfFace(p.Job.Units), Choice: p.boardScrewChoice()}
	}
	for i := range p.Panels {
		if params != nil && len(p.Panels[i].Clips) > 0 {
			p.found.Add(p.PanelSubject(i), "screws.board", params)
		}
	}
	if b.Root > 0 && p.Job.Screws.Marker > b.Root {
		p.found.Add(finding.OfJob("screws.marker"), "screws.marker",
			MarkerWide{Marker: p.Job.Screws.Marker, Root: b.Root, Bit: drillsNear(b.Root, p.Job.Units).Below})
	}
}

func (p *planner) boardScrewChoice() BoardScrewChoice {
	b, flange := p.Screws.Board, p.Job.Clip.Board.Flange
	c := BoardScrewChoice{
		OnHand: longest(b.OnHand), Least: flange + p.leastThread(), Most: flange + b.Thin - ShortOfFace(p.Job.Units),
		Board: b.Board, NoneOnHand: len(b.OnHand) == 0 && len(p.Job.Screws.OnHand) > 0, Grind: b.Out > 0,
	}
	switch {
	case c.Least > c.Most:
		c.Board = p.boardFor(0)
	case c.NoneOnHand:
		for _, l := range p.Job.Screws.OnHand {
			if needs := p.boardFor(l); needs < c.Board && l-flange >= p.leastThread() {
				c.Board, c.Screw = needs, l
			}
		}
	}
	return c
}

// longest is the last of ascending lengths, 0 for none.
func longest(lengths []geom.Length) geom.Length {
	if len(lengths) == 0 {
		return 0
	}
	return lengths[len(lengths)-1]
}

// checkWalls reports what isn't known of each wall that screws go into.
func (p *planner) checkWalls() {
	for w := range p.Walls {
		used, unknown := false, false
		for _, s := range p.Screws.Wall {
			if s.Wall == w {
				used = true
				unknown = unknown || !s.HasLeft
			}
		}
		wall := &p.Walls[w]
		if !used {
			continue
		}
		if unknown {
			p.found.Add(wall.Subject(".depth"), wall.Job.Key+".depth", DepthUnknown{wall.Job.Masonry})
		}
		if !wall.Job.Lining.Given {
			p.found.Add(wall.Subject(".lining"), wall.Job.Key+".lining", LiningUnknown{wall.Job.Masonry})
		}
	}
}

// checkWallScrews reports to a panel what the wall screws do behind it.
func (p *planner) checkWallScrews(panel int) {
	uses := map[int]bool{} // into Screws.Wall
	for _, c := range p.Panels[panel].Clips {
		uses[p.Screws.index(p.Layout, panel, c)] = true
	}
	at := p.PanelSubject(panel)
	for i, s := range p.Screws.Wall {
		if !uses[i] {
			continue
		}
		if deepest := max(s.Tip, s.masonryHole()); p.Job.Straight && s.Fixing.Kind != Anchor && deepest >= zoneDepth {
			p.found.Add(at, "screws.wall", ScrewPastZones{Screw: s.Screw, Tip: deepest})
		}
		switch s.On {
		case layout.OnLining: // its clips are reported once a run, with their places
			p.checkAnchor(at, s)
			continue
		case layout.OnMasonry:
			p.checkPlug(at, s)
			continue
		}
		p.checkFarSide(at, s)
		p.checkDepth(at, s)
		if p.Screws.DrillThrough && p.Job.Screws.Marker > s.Root {
			p.found.Add(at, "screws.marker", MarkerWide{Marker: p.Job.Screws.Marker, Root: s.Root, In: s.On, Bit: s.Hole.Bit})
		}
	}
}

func (p *planner) checkFarSide(at finding.Subject, s WallScrew) {
	if !s.HasLeft || s.Left >= farSide(p.Job.Units) {
		return
	}
	f := ScrewFarSide{
		Screw: s.Screw, Tip: s.Tip, Depth: s.Tip + s.Left, Left: s.Left, Remain: farSide(p.Job.Units), OnHand: longest(s.OnHand),
		Most: s.Screw.Length + s.Left - farSide(p.Job.Units),
	}
	if s.On != layout.OnLining {
		f.Wants = s.Least
	}
	p.found.Add(at, "screws.wall", f)
}

// checkDepth holds a wall screw in wood against 6 D and the guarded depth.
func (p *planner) checkDepth(at finding.Subject, s WallScrew) {
	sixD, inWood := 6*s.Screw.Diameter, max(0, s.InWood)
	choice := WallScrewChoice{
		OnHand: longest(s.OnHand), Least: s.Least, Most: s.Most,
		Flange: p.Job.Clip.Wall.Flange, Shim: s.Shim, Lining: s.Lining,
	}
	switch {
	case s.InWood > guardedDepth(p.Job.Units):
		p.found.Add(at, "screws.wall", ScrewDeep{Screw: s.Screw, In: s.On, InWood: inWood, Max: guardedDepth(p.Job.Units), Choice: choice})
	case s.InWood < sixD && sixD > guardedDepth(p.Job.Units):
		p.found.Add(at, "screws.wall", ScrewDepthLimit{Screw: s.Screw, In: s.On, InWood: inWood, Wants: sixD, Max: guardedDepth(p.Job.Units)})
	case s.InWood < sixD:
		p.found.Add(at, "screws.wall", ScrewShallow{Screw: s.Screw, In: s.On, InWood: inWood, Wants: sixD, Choice: choice})
	}
}
