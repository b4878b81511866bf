package clips

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/placement"
)

// FewClips: a panel, or panels of a run, have fewer clips than they should.
type FewClips struct {
	Reason FewReason
	Asked  int         // clips.number
	Room   int         // clips that there is room for, but for InTheWay
	Clear  geom.Length // of the board's edge, as it is now
}

// ID implements [finding.Params].
func (FewClips) ID() string { return "few-clips" }

// FewReason says why there are few clips.
type FewReason string

// The reasons.
const (
	OneLine  FewReason = "one line" // no three that don't stand in one line
	NoRoom   FewReason = "room"     // the board is too small
	InTheWay FewReason = "keep-out" // keep-outs leave a quarter of the board without
)

// LimitsClash: clips.spacing asks for clips nearer to each other than their bases allow: on all panels, or on some of
// a run, where one clip more would be too near and without it they stand too far apart.
type LimitsClash struct {
	Spacing geom.Length
	Base    geom.Size // the larger of the two halves
}

// ID implements [finding.Params].
func (LimitsClash) ID() string { return "limits-clash" }

// NoPlace: nowhere on a panel's board may a clip stand.
type NoPlace struct {
	Reason NoPlaceReason
	Board  geom.Size
	Base   geom.Size   // of the board half
	Clear  geom.Length // of the board's edges
	Needs  geom.Length // the least width or height of a board; 0 where it is keep-outs
	Panel  geom.Length // the finished size for it
	Near   NearPlace   // where it is keep-outs
	Cables bool        // a zone in which cables may run is one of the keep-outs
}

// ID implements [finding.Params].
func (NoPlace) ID() string { return "no-place" }

// NoPlaceReason says why there is no place.
type NoPlaceReason string

// The reasons.
const (
	Narrow  NoPlaceReason = "narrow"
	Low     NoPlaceReason = "low"
	KeptOut NoPlaceReason = "keep-out"
)

// NearPlace is the nearest that has a place for its clips: the panel moved, or as wide as Width from From on. The zero
// NearPlace is none.
type NearPlace struct {
	Moved            geom.Point
	Width, From, Now geom.Length // finished; Now is how wide it is
}

// checkClips reports a panel that has no clip, or too few to stand firm.
func (p *planner) checkClips(index int) {
	panel := &p.Panels[index]
	run := p.Runs[panel.Run].Job
	var middles []geom.Point
	for _, c := range p.clips[index] {
		middles = append(middles, c.Board)
	}
	switch {
	case len(middles) == 0:
		p.reportNoPlace(panel, run)
	case !panel.Outline.IsRectangle() && geom.Hull(middles).TwiceArea().Sign() == 0:
		p.found.Add(finding.OfPanels(run.Key, panel.Name), "clips.clear",
			FewClips{Reason: OneLine, Asked: p.Job.Clips.Number, Room: len(middles), Clear: p.Job.Clips.Clear})
	}
}

// NarrowStance: keep-outs keep a panel's clips nearer to each other, or further from an edge, than they should stand.
type NarrowStance struct {
	Across geom.Length // missing between the outermost clips of a row; 0 for none
	Up     geom.Length // between the lowest and the highest
	Edge   geom.Length // how much too far the nearest clips are from an edge
	Centre geom.Length // how far the centre of gravity lies outside the clips
}

// ID implements [finding.Params].
func (NarrowStance) ID() string { return "narrow-stance" }

// checkStance reports a panel whose clips miss the stance floor.
func (p *planner) checkStance(index int, short placement.Shortfall) {
	if short != (placement.Shortfall{}) {
		panel := &p.Panels[index]
		run := p.Runs[panel.Run].Job
		p.found.Add(finding.OfPanels(run.Key, panel.Name), layout.DivisionField(run), NarrowStance(short))
	}
}

// reportNoPlace reports that a panel has no place for a clip, and what is nearest that has one.
func (p *planner) reportNoPlace(panel *layout.Panel, run *job.Run) {
	f := NoPlace{Board: panel.Outline.Bounds().Size(), Base: p.Job.Clip.Board.Base, Clear: p.Job.Clips.Clear}
	least := placement.LeastSize(preferences(p.Job))
	field := layout.ExtentField(run)
	switch {
	case f.Board.W < least.W:
		field = layout.DivisionField(run)
		f.Reason, f.Needs, f.Panel = Narrow, least.W, least.W+2*p.Edge
	case f.Board.H < least.H:
		field = layout.TopField(run)
		f.Reason, f.Needs, f.Panel = Low, least.H, least.H+2*p.Edge
	default:
		f.Reason, f.Near = KeptOut, p.nearestPlace(panel)
		f.Cables = slices.ContainsFunc(p.Walls[panel.Wall].KeepOuts, func(k layout.KeepOut) bool {
			return k.Kind == layout.Cables && k.Zone.InteriorIntersects(panel.Outline.Bounds())
		})
	}
	p.found.Add(finding.OfPanels(run.Key, panel.Name), field, f)
}

// checkLimits reports which two limits on clips contradict each other: spacing may ask for clips nearer to each other
// than their bases allow, and number for more than find room.
func (p *planner) checkLimits() {
	c := preferences(p.Job)
	base := c.Apart
	if c.Spacing < max(base.W, base.H) {
		p.found.Add(finding.OfJob("clips.spacing"), "clips.spacing", LimitsClash{c.Spacing, base})
	}
	for i := range p.Runs {
		run := &p.Runs[i]
		var small, spoilt, wide []*layout.Panel
		most := 0
		for _, index := range run.Panels {
			panel := &p.Panels[index]
			if !panel.Outline.IsRectangle() || len(p.clips[index]) == 0 {
				continue
			}
			count, ok := placement.CountOf(panel.Outline.Bounds().Size(), c)
			if ok && count.Spacing > c.Spacing && c.Spacing >= max(base.W, base.H) {
				wide = append(wide, panel)
			}
			if len(p.clips[index]) >= c.Number {
				continue
			}
			if ok && count.Columns*count.Rows >= c.Number {
				spoilt = append(spoilt, panel)
				continue
			}
			small = append(small, panel)
			most = max(most, len(p.clips[index]))
		}
		few := FewClips{Asked: c.Number, Clear: c.Clear}
		if len(small) > 0 {
			few.Reason, few.Room = NoRoom, most
			p.found.Add(run.Subject(small...), "clips.number", few)
		}
		if len(wide) > 0 {
			p.found.Add(run.Subject(wide...), "clips.spacing", LimitsClash{c.Spacing, base})
		}
		if len(spoilt) > 0 {
			few.Reason, few.Room = InTheWay, 0
			p.found.Add(run.Subject(spoilt...), layout.DivisionField(run.Job), few)
		}
	}
}

// nearestPlace looks for the nearest position, to either side, up and down, and the nearest width, at which every
// corner of a panel has a place for a clip; in steps of 1/2 in or 10 mm.
func (p *planner) nearestPlace(panel *layout.Panel) NearPlace {
	inc := p.Job.Units.Pick(geom.Inch/2, 10*geom.Millimetre)
	wall := &p.Walls[panel.Wall]
	room := wall.Job.Outline.Bounds()
	fits := func(outline geom.Polygon) bool {
		return room.Contains(outline.Bounds().Inset(-p.Edge)) &&
			placement.HasRoom(outline.Add(geom.Point{}.Sub(outline.Bounds().Min)), obstacles(p.Job, wall, outline), preferences(p.Job))
	}
	most := int(max(room.W(), room.H()) / inc)
	if !panel.Outline.IsRectangle() {
		most = min(most, 20) // every step of a sloped board is tried: enough to say "a little further"
	}
	r := panel.Outline.Bounds()
	for k := 1; k <= most; k++ {
		d := geom.Length(k) * inc
		for _, by := range [4]geom.Point{{X: -d}, {X: d}, {Y: d}, {Y: -d}} {
			if fits(panel.Outline.Add(by)) {
				return NearPlace{Moved: by}
			}
		}
		if !panel.Outline.IsRectangle() {
			continue
		}
		right, left := r, r
		right.Max.X += d
		left.Min.X -= d
		for _, w := range [2]geom.Rect{right, left} {
			if fits(w.Polygon()) {
				return NearPlace{Width: w.W() + 2*p.Edge, From: w.Min.X - p.Edge, Now: r.W() + 2*p.Edge}
			}
		}
	}
	return NearPlace{}
}
