package plan

import (
	"fmt"

	"rodsheet/geom"
)

// tellFew says when a panel has no clip, or too few to stand firm.
func (p *Plan) tellFew(panel *Panel, y *yard) {
	at := Spot{panel.Name, p.Runs[panel.Run].Job.Key}
	var middles []geom.Point
	for _, c := range panel.Clips {
		middles = append(middles, c.Board)
	}
	switch {
	case len(middles) == 0:
		p.tellNoPlace(panel, at)
	case !y.outline.Rectangle() && hull(middles).TwiceArea().Sign() == 0:
		p.trouble("few-clips", at,
			fmt.Sprintf("%s has room for %d clips only, and not for three that don't stand in one line.", panel.Name, len(middles)),
			fmt.Sprintf("Make the panel larger, choose a smaller clip, or lower clear (now %s).", p.read(p.Job.Clips.Clear)))
	}
}

// tellNoPlace says that a panel has no place for a clip, and what is nearest that has one.
func (p *Plan) tellNoPlace(panel *Panel, at Spot) {
	size := panel.Outline.Bounds().Size()
	clear, base := p.Job.Clips.Clear, p.Job.Clip.Board.Base
	least := geom.Size{W: p.leastLength(base.W), H: p.leastLength(base.H)}
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
		fmt.Sprintf("Nowhere on the board of %s (%s × %s) can a clip stand %s clear of the edges and out of the keep-outs behind it.",
			panel.Name, p.read(size.W), p.read(size.H), p.read(clear)),
		p.nearestPlace(panel))
}

// tellLimits says which two limits on clips contradict each other: spacing may ask for clips nearer to each other than
// their bases allow, and number for more than find room.
func (p *Plan) tellLimits() {
	c := p.wishes()
	base := p.Job.Clip.Board.Base
	base.W, base.H = max(base.W, p.Job.Clip.Wall.Base.W), max(base.H, p.Job.Clip.Wall.Base.H)
	if c.Spacing < max(base.W, base.H) {
		p.trouble("limits-clash", Spot{"", "clips.spacing"},
			fmt.Sprintf("clips.spacing is %s and a clip's base %s × %s: clips that near would lie over each other.", p.read(c.Spacing), p.read(base.W), p.read(base.H)),
			fmt.Sprintf("Raise clips.spacing above %s, or correct clip.base.", p.read(max(base.W, base.H))))
	}
	for i := range p.Runs {
		run := &p.Runs[i]
		var few []*Panel
		most := 0
		for _, index := range run.Panels {
			if panel := &p.Panels[index]; panel.Outline.Rectangle() && len(panel.Clips) > 0 && len(panel.Clips) < c.Number {
				few = append(few, panel)
				most = max(most, len(panel.Clips))
			}
		}
		if len(few) > 0 {
			p.trouble("few-clips", Spot{"run " + run.Name, run.Job.Key},
				fmt.Sprintf("clips.number asks for %d clips; clips.clear of %s and the clip's base leave room for %d on %s.", c.Number, p.read(c.Clear), most, names(few)),
				fmt.Sprintf("Make the panels larger, lower clips.clear, or ask for %d.", most))
		}
	}
}

// leastLength is the shortest board on which a base of that length finds a whole step for its middle.
func (p *Plan) leastLength(base geom.Length) geom.Length {
	a := axisOf(0, p.Job.Clips.Clear, base, base, p.wishes().Step)
	return a.near + a.margin
}

// nearestPlace looks for the nearest position, to either side or up and down, and the nearest width, at which a panel
// has a place for at least one clip in each half; in steps of 1/4 in or 5 mm.
func (p *Plan) nearestPlace(panel *Panel) string {
	inc := p.Job.Units.Fine() * 8
	if inc < 5*geom.Millimetre {
		inc = 5 * geom.Millimetre
	}
	wall := &p.Walls[panel.Wall]
	room := wall.Job.Outline.Bounds()
	fits := func(outline geom.Polygon) bool {
		return room.Contains(outline.Bounds().Inset(-p.Edge)) && len(p.yardOf(wall, outline).places()) >= 2
	}
	size := panel.Outline.Bounds().Size()
	most := int(max(room.W(), room.H()) / inc)
	for k := 1; k <= most; k++ {
		d := geom.Length(k) * inc
		moves := []struct {
			outline geom.Polygon
			text    string
		}{
			{panel.Outline.Add(geom.Pt(-d, 0)), fmt.Sprintf("%s further left", p.read(d))},
			{panel.Outline.Add(geom.Pt(d, 0)), fmt.Sprintf("%s further right", p.read(d))},
			{panel.Outline.Add(geom.Pt(0, d)), fmt.Sprintf("%s higher", p.read(d))},
			{panel.Outline.Add(geom.Pt(0, -d)), fmt.Sprintf("%s lower", p.read(d))},
		}
		for _, m := range moves {
			if fits(m.outline) {
				return fmt.Sprintf("The same panel has a place for clips %s.", m.text)
			}
		}
		if panel.Outline.Rectangle() {
			r := panel.Outline.Bounds()
			left, right := r, r
			left.Min.X -= d
			right.Max.X += d
			for _, w := range [2]geom.Rect{right, left} {
				if fits(w.Polygon()) {
					return fmt.Sprintf("A finished panel %s wide in this place has one; this one is %s.", p.read(size.W+d+2*p.Edge), p.read(size.W+2*p.Edge))
				}
			}
		}
	}
	return "No width and no position of it on this wall has one: mend the keep-outs or choose another wall."
}
