package plan

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/plan/placement"
)

// placeRun gives the panels of a run their clips, equal boards together.
func (p *Plan) placeRun(run *Run) {
	differ := map[int]bool{}
	for _, group := range p.equals(run.Panels) {
		outline := p.Panels[group[0]].Outline
		behind := make([]placement.Obstacles, len(group))
		for i, index := range group {
			panel := &p.Panels[index]
			behind[i] = obstacles(p.Job, &p.Walls[panel.Wall], panel.Outline)
		}
		for i, r := range placement.Of(outline.Add(geom.Point{}.Sub(outline.Bounds().Min)), behind, preferences(p.Job)) {
			panel := &p.Panels[group[i]]
			for _, at := range r.Positions {
				panel.Clips = append(panel.Clips, p.clip(panel, at.At, placeName(at)))
			}
			differ[group[i]] = r.Differs
			if r.Single {
				p.tellFew(panel)
			}
		}
	}
	if !p.Job.Clips.Studs {
		p.tellDiffering(run, differ)
	}
}

// equals gathers panels whose boards have the same outline, in the order of their first panels.
func (p *Plan) equals(panels []int) [][]int {
	var groups [][]int
next:
	for _, i := range panels {
		a := &p.Panels[i]
		for g := range groups {
			b := &p.Panels[groups[g][0]]
			if len(a.Outline) == len(b.Outline) && a.Outline.Equal(b.Outline.Add(a.Corner0().Sub(b.Corner0()))) {
				groups[g] = append(groups[g], i)
				continue next
			}
		}
		groups = append(groups, []int{i})
	}
	return groups
}

// tellDiffering says which panels of a run could not share its pattern.
func (p *Plan) tellDiffering(run *Run, differ map[int]bool) {
	var names []string
	for _, i := range run.Panels {
		if differ[i] && len(p.Panels[i].Clips) > 0 { // without clips it has a finding of its own
			names = append(names, p.Panels[i].Name)
		}
	}
	if len(names) == 0 {
		return
	}
	p.trouble("pattern-differs", Spot{"run " + run.Name, run.Job.Key},
		fmt.Sprintf("Keep-outs behind %s leave no room for the clip places of the other panels of the run; clips there stand elsewhere.",
			strings.Join(names, ", ")),
		"Use the template that names the panel, not its neighbour's; or move the panels so that one pattern serves all.")
}
