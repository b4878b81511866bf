package covering

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

const in = geom.Inch

// A record is a layout, how it is covered and what was found on the way.
type record struct {
	Job *job.Job
	layout.Layout
	sample.Found
	Wrap Wrap
}

// hang is the record of panels of one size, see [hung.Layout].
func hang(j *job.Job, board geom.Size, panels int, members ...layout.Member) *record {
	return &record{Job: j, Layout: hung.Layout(j, board, panels, members...)}
}

func (p *record) wrap() {
	var found finding.List
	p.Wrap, found = Of(p.Job, &p.Layout)
	p.Note(found)
}

func (p *record) staples(board int) []Staple { return Staples(p.Job, p.Boards[board].Outline) }

func (p *record) reliefs(board int) []Relief {
	return p.Wrap.Reliefs(p.Boards[board].Outline, p.Job.Units)
}
