package plan

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// placeRun gives the panels of a run their clips, equal boards together.
func (p *Plan) placeRun(run *Run) {
	differ := map[int]bool{}
	for _, group := range p.equals(run.Panels) {
		outline := p.Panels[group[0]].Outline
		if !outline.IsRectangle() {
			p.placeFreely(group)
			continue
		}
		g, ok := p.gridOf(outline.Bounds().Size())
		if !ok {
			p.placeFreely(group)
			continue
		}
		var lone []int // no pattern of columns and rows fits
		patterns := p.patterns(g, group)
		for i, index := range group {
			if patterns[i] == nil {
				lone = append(lone, index)
				differ[index] = len(group) > 1
				continue
			}
			differ[index] = !patterns[i].equal(*firstOf(patterns))
			p.clipsAt(&p.Panels[index], patterns[i].columns, patterns[i].rows)
		}
		p.placeFreely(lone)
	}
	if !p.Job.Clips.Studs {
		p.tellDiffering(run, differ)
	}
}

func firstOf(patterns []*pattern) *pattern {
	for _, q := range patterns {
		if q != nil {
			return q
		}
	}
	return nil
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

// wishes are the job's wishes for clips. A job put together without a step or a spacing (a job file always has them)
// gets the finest step people read and no limit.
func (p *Plan) wishes() job.Clips {
	c := p.Job.Clips
	if c.Step <= 0 {
		c.Step = p.Job.Units.Fine()
	}
	if c.Spacing <= 0 {
		c.Spacing = geom.Longest
	}
	return c
}

// gridOf is the search for a board of that size, with the count settled; ok is false when not even one clip fits.
func (p *Plan) gridOf(size geom.Size) (g *grid, ok bool) {
	c := p.wishes()
	g = &grid{spacing: c.Spacing}
	g.x = axisOf(size.W, c.Clear, p.Job.Clip.Board.Base.W, p.Job.Clip.Wall.Base.W, c.Step)
	g.y = axisOf(size.H, c.Clear, p.Job.Clip.Board.Base.H, p.Job.Clip.Wall.Base.H, c.Step)
	if !g.x.fits(1) || !g.y.fits(1) {
		return g, false
	}
	g.cols, g.rows = counts(g.x, g.y, c.Number, c.Spacing)
	g.spacing = max(g.spacing, widest(g.x.corners(g.cols)), widest(g.y.corners(g.rows)))
	return g, true
}

// patterns finds a pattern for each of some panels with equal boards; nil where keep-outs leave none.
func (p *Plan) patterns(g *grid, panels []int) []*pattern {
	sites := make([]site, len(panels))
	all := make([]int, len(panels))
	for i, index := range panels {
		panel := &p.Panels[index]
		sites[i] = p.siteOf(&p.Walls[panel.Wall], panel.Outline)
		all[i] = i
	}
	if p.Job.Clips.Studs {
		return g.followStuds(sites)
	}
	found := make([]*pattern, len(panels))
	// One pattern for all where possible; those whose keep-outs spoil it share the next, and so on.
	for rest := all; len(rest) > 0; {
		best, ok := g.search(sites, rest)
		if !ok {
			break
		}
		var kept, spoilt []int
		for _, i := range rest {
			if best.spoils(&sites[i]) {
				spoilt = append(spoilt, i)
			} else {
				kept = append(kept, i)
			}
		}
		if len(kept) == 0 {
			break
		}
		if len(spoilt) > 0 {
			if again, ok := g.search(sites, kept); ok {
				best = again
			}
		}
		for _, i := range kept {
			found[i] = &best
		}
		rest = spoilt
	}
	return found
}

// search is the best pattern for some of the sites: within a quarter of the board from the clear corners, or further
// in where that spoils fewer.
func (g *grid) search(sites []site, which []int) (best pattern, ok bool) {
	g.sites = g.sites[:0]
	for _, i := range which {
		g.sites = append(g.sites, &sites[i])
	}
	g.far = false
	best, top, ok := g.best()
	if !ok || top.spoiled > 0 {
		g.far = true
		if further, m, fine := g.best(); fine && (!ok || m.spoiled < top.spoiled) {
			best, ok = further, true
		}
	}
	return best, ok
}

// followStuds gives every site a pattern with as much wood as it can have, then symmetry; of those as few different
// ones as can be found by taking, again and again, the pattern that serves most sites.
func (g *grid) followStuds(sites []site) []*pattern {
	found := make([]*pattern, len(sites))
	merits := make([]merit, len(sites))
	var candidates []pattern
	var open []int
	for i := range sites {
		best, ok := g.search(sites, []int{i})
		if !ok || best.spoils(&sites[i]) {
			continue
		}
		merits[i] = g.judge(best, &sites[i])
		open = append(open, i)
		if !slices.ContainsFunc(candidates, best.equal) {
			candidates = append(candidates, best)
		}
	}
	for len(open) > 0 {
		var served []int
		var top merit
		var best pattern
		for _, c := range candidates {
			var serves []int
			for _, i := range open {
				if g.judge(c, &sites[i]).wishes() == merits[i].wishes() {
					serves = append(serves, i)
				}
			}
			m := g.judge(c, &sites[open[0]])
			m = merit{stance: m.stance, extent: m.extent, lowest: m.lowest, lefter: m.lefter}
			if len(serves) > len(served) || len(serves) == len(served) && m.cmp(top) < 0 {
				served, top, best = serves, m, c
			}
		}
		for _, i := range served {
			found[i] = &best
		}
		open = slices.DeleteFunc(open, func(i int) bool { return found[i] != nil })
	}
	return found
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
