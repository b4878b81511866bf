// Package plan works out what follows from a job: panels, boards, clip places, the order of hanging, heights, shims,
// screws, weights, stock. Every place is exact and on the wall; nothing here knows of paper or pens.
//
// What each measure means is laid down once: finished sizes are outsides of the cover; a board is its finished panel
// less cover and pressed batting on every edge; clip places are middles of bases. Wall coordinates are seen by a person
// who faces the wall, origin at its left end on the level line; board coordinates are seen from the face, origin at the
// lower left corner of the board's bounding rectangle.
//
// Each step is a package below this one: a function from a job and what earlier steps have worked out to a result and to
// what there is to know about it. [Make] is the list of steps, [Plan] the record that collects them.
package plan

import (
	"rodsheet/template/job"
	"rodsheet/template/plan/access"
	"rodsheet/template/plan/blocks"
	"rodsheet/template/plan/clips"
	"rodsheet/template/plan/covering"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/hanging"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/stock"
	"rodsheet/template/plan/tolerance"
)

// A Plan is all that follows from a job.
type Plan struct {
	Job *job.Job
	layout.Layout

	Corners []layout.Corner
	Hanging hanging.Order
	Blocks  []blocks.Block
	Shims   fastening.Shims
	Screws  fastening.Screws
	Loads   []fastening.Load // one for each panel
	Wrap    covering.Wrap
	Stock   stock.Stock
	Budget  tolerance.Budget // of no board until Judge is called

	Findings finding.List // what could not be done, or not well; package rule gives it words and a level
}

// Make works a job out. The error is a *job.Problems when the job contradicts itself, as when panels don't fit their
// run; what can be planned but not well becomes a finding. How far holes may be off hangs on the pages, too: see [Plan.Judge].
func Make(j *job.Job) (*Plan, error) {
	made, found, err := layout.Make(j)
	if err != nil {
		return nil, err
	}
	p := &Plan{Job: j, Layout: made, Findings: found}
	l := &p.Layout
	note := func(found finding.List) { p.Findings = append(p.Findings, found...) }

	places, found := clips.Place(j, l)
	l.SetClips(places)
	note(found)
	note(access.Check(j, l))

	var stands []layout.Stand
	p.Shims, stands, found = fastening.Pads(j, l)
	l.SetStands(stands)
	note(found)
	l.GroupBoards()

	p.Corners, found = l.Join()
	note(found)
	p.Hanging, found = hanging.Work(j, l, p.Corners)
	note(found)
	p.Blocks, found = blocks.Of(j, l)
	note(found)
	p.Wrap, found = covering.Of(j, l)
	note(found)
	p.Screws, found = fastening.Choose(j, l)
	note(found)
	p.Loads, found = fastening.Weigh(j, l, &p.Screws, p.Wrap.Size)
	note(found)
	p.Stock, found = stock.Of(j, l, &p.Wrap, &p.Screws, p.Shims)
	note(found)
	p.Budget = tolerance.Budget{Board: -1}
	return p, nil
}
