package clips

import (
	"rodsheet/geom"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/placement"
)

// placeRun gives the panels of a run their clips, equal boards together.
func (p *planner) placeRun(run *layout.Run) {
	differ := map[int]bool{}
	for _, group := range p.equals(run.Panels) {
		outline, behind := p.behind(group)
		for i, r := range placement.Of(outline, behind, preferences(p.Job)) {
			index := group[i]
			for _, at := range r.Positions {
				p.clips[index] = append(p.clips[index], p.clip(&p.Panels[index], at.At, placeName(at)))
			}
			differ[index] = r.Differs
			if r.Single {
				p.checkClips(index)
			}
			p.checkStance(index, r.Short)
		}
	}
	if !p.Job.Clips.Studs {
		p.checkPattern(run, differ)
	}
}

// behind is the outline of equal panels' boards, in board coordinates, and what stands behind each.
func (p *planner) behind(equal []int) (outline geom.Polygon, behind []placement.Obstacles) {
	for _, index := range equal {
		panel := &p.Panels[index]
		behind = append(behind, obstacles(p.Job, &p.Walls[panel.Wall], panel.Outline))
	}
	outline = p.Panels[equal[0]].Outline
	return outline.Add(geom.Point{}.Sub(outline.Bounds().Min)), behind
}

// equals gathers panels whose boards have the same outline, in the order of their first panels.
func (p *planner) equals(panels []int) [][]int {
	var groups [][]int
next:
	for _, i := range panels {
		a := &p.Panels[i]
		for g := range groups {
			b := &p.Panels[groups[g][0]]
			if len(a.Outline) == len(b.Outline) && a.Outline.Equal(b.Outline.Add(a.Origin().Sub(b.Origin()))) {
				groups[g] = append(groups[g], i)
				continue next
			}
		}
		groups = append(groups, []int{i})
	}
	return groups
}

// PatternDiffers: panels of a run could not share its clip places.
type PatternDiffers struct{}

// ID implements [finding.Params].
func (PatternDiffers) ID() string { return "pattern-differs" }

// checkPattern reports which panels of a run could not share its pattern.
func (p *planner) checkPattern(run *layout.Run, differ map[int]bool) {
	var panels []*layout.Panel
	for _, i := range run.Panels {
		if differ[i] && len(p.clips[i]) > 0 { // without clips it has a finding of its own
			panels = append(panels, &p.Panels[i])
		}
	}
	if len(panels) > 0 {
		p.found.Add(run.Subject(panels...), layout.ExtentField(run.Job), PatternDiffers{})
	}
}
