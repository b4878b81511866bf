// Package layout works out what hangs where: walls with their wood and keep-outs, runs, panels, boards, corners and the
// heights of bands. [Make] divides every run of a job into panels; [Layout.GroupBoards] finds those with equal boards,
// [Layout.Join] holds runs of neighbouring walls against each other. Cost: linear in panels, but for the pieces of an
// area, which are held against each opening in it, and the runs of a wall, which are held against each other.
package layout

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// OutOfPlumb: readings of one end of a run at different heights differ.
type OutOfPlumb struct {
	End    string // "left" or "right"
	Off    geom.Length
	Counts geom.Length // the narrowest reading
}

// ID implements [finding.Params].
func (OutOfPlumb) ID() string { return "out-of-plumb" }

// A planner is a job on the way to its layout.
type planner struct {
	Job *job.Job
	Layout
	found finding.List
}

// Make makes walls, runs and finished panels with their board outlines. The error is a *job.Problems that holds every
// contradiction of every run.
func Make(j *job.Job) (Layout, finding.List, error) {
	p := &planner{Job: j, Layout: Layout{Edge: j.Cover.Thickness + j.Batt.Pressed}}
	if err := p.lay(); err != nil {
		return Layout{}, nil, err
	}
	return p.Layout, p.found, nil
}

// read writes a length as the job's people read it.
func (p *planner) read(l geom.Length) string { return l.In(p.Job.Units) }

func (p *planner) lay() error {
	problems := &job.Problems{Source: p.Job.Source}
	for w := range p.Job.Walls {
		wall := &p.Job.Walls[w]
		p.Walls = append(p.Walls, Wall{Job: wall, Members: members(wall), KeepOuts: keepOuts(p.Job.Walls, w, p.Job.Straight)})
		for r := range wall.Runs {
			p.layRun(w, &wall.Runs[r], problems)
		}
	}
	if len(problems.List) > 0 {
		return problems
	}
	p.checkSharedDecks()
	p.checkNeighbours()
	return nil
}

// layRun adds a run and its panels; where the run contradicts itself it adds problems and no panels.
func (p *planner) layRun(wall int, r *job.Run, problems *job.Problems) {
	run := Run{Wall: wall, Job: r, Name: r.Name}
	var panels []Panel
	if len(r.Area) > 0 {
		panels = p.layArea(&run, problems)
	} else {
		panels = p.layRow(&run, problems)
	}
	for i := range panels {
		panels[i].Wall, panels[i].Run = wall, len(p.Runs)
		run.Panels = append(run.Panels, len(p.Panels)+i)
	}
	p.Panels = append(p.Panels, panels...)
	p.Walls[wall].Runs = append(p.Walls[wall].Runs, len(p.Runs))
	p.Runs = append(p.Runs, run)
	p.checkOutline(&p.Runs[len(p.Runs)-1])
}

// layRow makes the rectangular panels of a run across a band.
func (p *planner) layRow(run *Run, problems *job.Problems) []Panel {
	r := run.Job
	from, to, ok := p.narrowest(r, problems)
	if !ok {
		return nil
	}
	columns, gaps, ok := p.divide(r, from, to, problems)
	heights, fine := p.measure(r, problems)
	if !ok || !fine {
		return nil
	}
	run.Gaps, run.Band = gaps, heights
	panels := make([]Panel, len(columns))
	lowest, highest := heights.Bottom, heights.Bottom
	for i, c := range columns {
		drop := heights.drop(c.middle(), from, to)
		finished := geom.R(c.left, heights.Bottom-drop, c.right, heights.Top-drop)
		lowest, highest = min(lowest, finished.Min.Y), max(highest, finished.Max.Y)
		panels[i] = Panel{
			Name:     fmt.Sprint(r.Name, i+1),
			Finished: finished.Polygon(),
			Outline:  finished.Inset(p.Edge).Polygon(),
			Board:    -1,
		}
	}
	run.Bounds = geom.R(from, lowest, to, highest)
	if heights.Follow {
		heights.Bottom, heights.Top = lowest, lowest+heights.Top-heights.Bottom
	}
	p.checkDeck(run)
	return panels
}

// narrowest is the span that every reading of the run leaves free; an end that is out of plumb is reported.
func (p *planner) narrowest(r *job.Run, problems *job.Problems) (from, to geom.Length, ok bool) {
	if len(r.Across) == 0 {
		problems.Add(r.Key, "neither across nor area says where the run stands; write across: [FROM, TO]")
		return 0, 0, false
	}
	from, to = r.Across[0].From, r.Across[0].To
	least, most := from, to
	for _, s := range r.Across[1:] {
		from, to = max(from, s.From), min(to, s.To)
		least, most = min(least, s.From), max(most, s.To)
	}
	if from >= to {
		problems.Add(r.Key+".across", "the run begins at %s and ends at %s; the second must be the greater", p.read(from), p.read(to))
		return 0, 0, false
	}
	check := func(end string, off, counts geom.Length) {
		if off > 0 {
			p.found.Add(finding.OfRun(r.Key+".across", r.Name), r.Key+".across", OutOfPlumb{End: end, Off: off, Counts: counts})
		}
	}
	check("left", from-least, from)
	check("right", most-to, to)
	return from, to, true
}
