package plan

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/plan/placement"
)

// tellFew says when a panel has no clip, or too few to stand firm.
func (p *Plan) tellFew(panel *Panel) {
	at := Spot{panel.Name, p.Runs[panel.Run].Job.Key}
	var middles []geom.Point
	for _, c := range panel.Clips {
		middles = append(middles, c.Board)
	}
	switch {
	case len(middles) == 0:
		p.tellNoPlace(panel, at)
	case !panel.Outline.IsRectangle() && geom.Hull(middles) == nil:
		p.trouble("few-clips", at,
			fmt.Sprintf("%s has room for %d clips only, and not for three that don't stand in one line.", panel.Name, len(middles)),
			fmt.Sprintf("Make the panel larger, choose a smaller clip, or lower clear (now %s).", p.read(p.Job.Clips.Clear)))
	}
}

// tellNoPlace says that a panel has no place for a clip, and what is nearest that has one.
func (p *Plan) tellNoPlace(panel *Panel, at Spot) {
	size := panel.Outline.Bounds().Size()
	clear, base := p.Job.Clips.Clear, p.Job.Clip.Board.Base
	least := placement.LeastSize(preferences(p.Job))
	switch {
	case size.W < least.W:
		p.trouble("no-place", at,
			fmt.Sprintf("The board of %s is %s wide; a clip %s wide that stays %s clear of both edges needs %s.",
				panel.Name, p.read(size.W), p.read(base.W), p.read(clear), p.read(least.W)),
			fmt.Sprintf("Make the finished panel at least %s wide, or lower clear.", p.read(least.W+2*p.Edge)))
		return
	case size.H < least.H:
		p.trouble("no-place", at,
			fmt.Sprintf("The board of %s is %s high; a clip %s high that stays %s clear of both edges needs %s.",
				panel.Name, p.read(size.H), p.read(base.H), p.read(clear), p.read(least.H)),
			fmt.Sprintf("Make the finished panel at least %s high, or lower clear.", p.read(least.H+2*p.Edge)))
		return
	}
	p.trouble("no-place", at,
		fmt.Sprintf("Nowhere on the board of %s (%s) can a clip stand %s clear of the edges and out of the keep-outs behind it.",
			panel.Name, size.In(p.Job.Units), p.read(clear)),
		p.nearestPlace(panel))
}

// tellLimits says which two limits on clips contradict each other: spacing may ask for clips nearer to each other than
// their bases allow, and number for more than find room.
func (p *Plan) tellLimits() {
	c := preferences(p.Job)
	base := c.Apart
	if c.Spacing < max(base.W, base.H) {
		p.trouble("limits-clash", Spot{"", "clips.spacing"},
			fmt.Sprintf("clips.spacing is %s and a clip's base %s: clips that near would lie over each other.", p.read(c.Spacing), base.In(p.Job.Units)),
			fmt.Sprintf("Raise clips.spacing above %s, or correct clip.base.", p.read(max(base.W, base.H))))
	}
	for i := range p.Runs {
		run := &p.Runs[i]
		var small, spoilt, wide []*Panel
		most := 0
		for _, index := range run.Panels {
			panel := &p.Panels[index]
			if !panel.Outline.IsRectangle() || len(panel.Clips) == 0 {
				continue
			}
			count, ok := placement.CountOf(panel.Outline.Bounds().Size(), c)
			if ok && count.Spacing > c.Spacing && c.Spacing >= max(base.W, base.H) {
				wide = append(wide, panel)
			}
			if len(panel.Clips) >= c.Number {
				continue
			}
			if ok && count.Columns*count.Rows >= c.Number {
				spoilt = append(spoilt, panel)
				continue
			}
			small = append(small, panel)
			most = max(most, len(panel.Clips))
		}
		at := Spot{"run " + run.Name, run.Job.Key}
		if len(small) > 0 {
			p.trouble("few-clips", at,
				fmt.Sprintf("clips.number asks for %d clips; clips.clear of %s and the clip's base leave room for %d on %s.", c.Number, p.read(c.Clear), most, names(small)),
				fmt.Sprintf("Make the panels larger, lower clips.clear, or ask for %d.", most))
		}
		if len(wide) > 0 {
			p.trouble("limits-clash", at,
				fmt.Sprintf("On %s a clip more would lie over its neighbour's base, and without it they stand further apart than clips.spacing (%s); clips.spacing and clip.base can't both be kept.", names(wide), p.read(c.Spacing)),
				"Raise clips.spacing a little.")
		}
		if len(spoilt) > 0 {
			p.trouble("few-clips", at,
				fmt.Sprintf("clips.number asks for %d clips; the keep-outs behind %s leave room for fewer, and some quarter of the board has none.", c.Number, names(spoilt)),
				"Divide the run so that a gap falls on the keep-out, or measure again how far it reaches.")
		}
	}
}

// nearestPlace looks for the nearest position, to either side, up and down, and the nearest width, at which every
// corner of a panel has a place for a clip; in steps of 1/2 in or 10 mm.
func (p *Plan) nearestPlace(panel *Panel) string {
	inc := p.pick(geom.Inch/2, 10*geom.Millimetre)
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
		for _, m := range [4]struct {
			by    geom.Point
			where string
		}{{geom.Pt(-d, 0), "further left"}, {geom.Pt(d, 0), "further right"}, {geom.Pt(0, d), "higher"}, {geom.Pt(0, -d), "lower"}} {
			if fits(panel.Outline.Add(m.by)) {
				return fmt.Sprintf("The same panel %s %s has a place for its clips.", p.read(d), m.where)
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
				from := w.Min.X - p.Edge
				return fmt.Sprintf("A finished panel %s wide that begins at %s has a place for its clips; this one is %s wide.",
					p.read(w.W()+2*p.Edge), p.read(from), p.read(r.W()+2*p.Edge))
			}
		}
	}
	return "No width and no position of it on this wall that was tried has one: mend the keep-outs or choose another wall."
}
