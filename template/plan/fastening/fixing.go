package fastening

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// A Fixing is what a wall half is held by where there is no wood. The zero Fixing is none that the job names.
type Fixing struct {
	Kind    FixingKind
	Hole    geom.Length
	Length  geom.Length // of a plug
	Reach   geom.Length // of an anchor: the thickest lining that it takes; 0 when not known
	Carries job.Weight  // 0 when not known
}

// A FixingKind is a kind of fixing.
type FixingKind string

// The kinds.
const (
	Plug   FixingKind = "plug"
	Anchor FixingKind = "anchor"
)

// Text is the fixing as people ask for it, "plug 8 × 40 mm".
func (f Fixing) Text(u geom.System) string {
	switch f.Kind {
	case Plug:
		return "plug " + f.Hole.Bare(u) + " × " + f.Length.In(u)
	case Anchor:
		return "anchor for a hole ⌀ " + f.Hole.In(u)
	}
	return "fixing made for the lining"
}

// pastPlug is how much deeper than a plug its hole is: room for the dust that falls into it (common practice; plugs'
// packets ask for about as much, from memory).
func pastPlug(u geom.System) geom.Length { return u.Pick(geom.Inch*3/8, 10*geom.Millimetre) }

// pastTip is how much deeper than a screw's tip a hole in masonry is (common practice, from memory).
func pastTip(u geom.System) geom.Length { return u.Pick(geom.Inch*3/16, 5*geom.Millimetre) }

// intoLining says what is drilled where the lining alone holds.
func (p *planner) intoLining(s *WallScrew) {
	s.Hole = Drill{Bit: p.Job.Screws.Marker, Depth: s.Lining, Through: true, Centre: true}
	if a := p.Job.Fixing.Anchor; a.Hole > 0 {
		s.Fixing = Fixing{Kind: Anchor, Hole: a.Hole, Reach: a.Reach, Carries: a.Carries}
		s.Hole = Drill{Bit: a.Hole, Depth: s.Lining, Through: true}
		s.Printed = a.Hole
	}
}

// intoMasonry chooses the screw of a plug through what bridges it, and the hole for both: of the lengths on hand the
// shortest that reaches past the plug's end by its diameter, else the job's own if it does, else one that would.
func (p *planner) intoMasonry(s *WallScrew, depth geom.Length) {
	j, u := p.Job, p.Job.Units
	plug := j.Fixing.Plug
	s.Fixing = Fixing{Kind: Plug, Hole: plug.Hole, Length: plug.Length, Carries: plug.Carries}
	before := j.Clip.Wall.Flange + s.Shim + s.Lining
	s.Least, s.Most = before+plug.Length+s.Screw.Diameter, geom.Longest
	if depth > 0 {
		s.Most = before + depth - s.Lining - farSide(p.Job.Units) - pastTip(u)
	}
	given := s.Screw.Length
	s.Screw.Length = s.Least.Ceil(u.Pick(geom.Inch/4, 5*geom.Millimetre))
	if given >= s.Least && len(j.Screws.OnHand) == 0 {
		s.Screw.Length = given
	}
	for i := len(j.Screws.OnHand) - 1; i >= 0 && j.Screws.OnHand[i] >= s.Least; i-- {
		s.Screw.Length = j.Screws.OnHand[i]
	}
	for _, l := range j.Screws.OnHand {
		if s.Least <= l && l <= s.Most {
			s.OnHand = append(s.OnHand, l)
		}
	}
	s.Tip = s.Screw.Length - before + s.Lining
	s.InWood = 0
	s.Hole = Drill{Bit: plug.Hole, Depth: s.Lining + max(plug.Length+pastPlug(u), s.Tip-s.Lining+pastTip(u)), AtLeast: true}
	s.Printed = plug.Hole
	if s.HasLeft = depth > 0; s.HasLeft {
		s.Left = depth - s.Hole.Depth
	}
}

// masonryHole is how deep the hole in masonry is from the wall's face; 0 elsewhere.
func (s WallScrew) masonryHole() geom.Length {
	if s.On != layout.OnMasonry {
		return 0
	}
	return s.Hole.Depth
}

// PlugScrew: no screw on hand reaches through a plug.
type PlugScrew struct {
	Least, Longest       geom.Length // that reaches, and the longest on hand
	Take                 geom.Length // what the plan reckons with
	Flange, Shim, Lining geom.Length // what the screw goes through before the plug; 0 for none
	Plug                 geom.Length
	Diameter             geom.Length
}

// ID implements [finding.Params].
func (PlugScrew) ID() string { return "plug-screw" }

// HoleFarSide: too little of a wall of masonry remains beyond a hole.
type HoleFarSide struct {
	Hole, Depth, Left, Remain geom.Length // of the hole, of the wall; below 0 it comes out
	Longest                   geom.Length // plug that the wall has room for; 0 or less: none
}

// ID implements [finding.Params].
func (HoleFarSide) ID() string { return "hole-far-side" }

// AnchorReach: the lining is thicker than the anchor takes.
type AnchorReach struct{ Lining, Reach geom.Length }

// ID implements [finding.Params].
func (AnchorReach) ID() string { return "anchor-reach" }

func (p *planner) checkPlug(at finding.Subject, s WallScrew) {
	u := p.Job.Units
	if hand := p.Job.Screws.OnHand; longest(hand) < s.Least && len(hand) > 0 {
		p.found.Add(at, "screws.on hand", PlugScrew{
			Least: s.Least, Longest: longest(hand), Take: s.Screw.Length, Flange: p.Job.Clip.Wall.Flange, Shim: s.Shim, Lining: s.Lining,
			Plug: s.Fixing.Length, Diameter: s.Screw.Diameter,
		})
	}
	if !s.HasLeft || s.Left >= farSide(p.Job.Units) {
		return
	}
	p.found.Add(at, "fixings.plug.length", HoleFarSide{
		Hole: s.Hole.Depth, Depth: s.Hole.Depth + s.Left, Left: s.Left, Remain: farSide(p.Job.Units),
		Longest: s.Hole.Depth + s.Left - s.Lining - farSide(p.Job.Units) - max(pastPlug(u), s.Screw.Diameter+pastTip(u)),
	})
}

func (p *planner) checkAnchor(at finding.Subject, s WallScrew) {
	switch {
	case s.Fixing.Kind == "":
		p.checkFarSide(at, s)
	case s.Fixing.Reach > 0 && s.Lining > s.Fixing.Reach:
		p.found.Add(at, "fixings.anchor.reach", AnchorReach{s.Lining, s.Fixing.Reach})
	}
}

// FixingOver: a fixing has to hold more than its maker lets it carry.
type FixingOver struct {
	Kind         FixingKind
	Holds        job.Weight // what hangs on a wall half
	Carries      job.Weight // one fixing
	Each         int        // fixings of a wall half
	Clips        int        // that would be enough
	Weight, Pull job.Weight // of Holds, at right angles
	Assumed      []string   // as in Load
}

// ID implements [finding.Params].
func (FixingOver) ID() string { return "fixing-over" }

// FixingUnknown: what a fixing carries is not given.
type FixingUnknown struct{ Kind FixingKind }

// ID implements [finding.Params].
func (FixingUnknown) ID() string { return "fixing-carries-unknown" }

// checkFixings holds a panel's greatest load on one clip against its weakest fixings: the holes of a wall half share it
// evenly.
func (p *weigher) checkFixings(panel int, l Load) {
	each := len(p.Job.Clip.Wall.Holes)
	clips := p.Panels[panel].Clips
	done := map[FixingKind]bool{}
	for _, c := range clips {
		if c.On.Wooden() || p.screws.index(p.Layout, panel, c) < 0 {
			continue
		}
		f := p.screws.At(p.Layout, panel, c).Fixing
		holds := f.Carries * job.Weight(each)
		if f.Carries == 0 || done[f.Kind] || l.Worst <= holds {
			continue
		}
		done[f.Kind] = true
		p.found.Add(p.PanelSubject(panel), "clips.number", FixingOver{
			Kind: f.Kind, Holds: l.Worst, Carries: f.Carries, Each: each, Clips: enough(len(clips), l.Worst, holds), Weight: l.Most, Pull: l.Pull, Assumed: l.Assumed,
		})
	}
}

// checkFixingsKnown reports fixings that loads can't be held against.
func (p *weigher) checkFixingsKnown() {
	for _, kind := range []FixingKind{Plug, Anchor} {
		for _, s := range p.screws.Wall {
			if s.Fixing.Kind == kind && s.Fixing.Carries == 0 {
				key := "fixings." + string(kind)
				p.found.Add(finding.OfJob(key), key+".carries", FixingUnknown{kind})
				break
			}
		}
	}
}

// Holds reports whether the plan has places held so.
func (s *Screws) Holds(on layout.Support) bool {
	for _, w := range s.Wall {
		if w.On == on {
			return true
		}
	}
	return false
}
