package stock

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/covering"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

const (
	in = geom.Inch
	mm = geom.Millimetre
)

// A record is a layout, what it is cut from and what was found on the way.
type record struct {
	Job *job.Job
	layout.Layout
	sample.Found
	Shims  fastening.Shims
	Screws fastening.Screws
	Wrap   covering.Wrap
	Stock  Stock
}

// hang is the record of panels of one size, see [hung.Layout].
func hang(j *job.Job, board geom.Size, panels int, members ...layout.Member) *record {
	return &record{Job: j, Layout: hung.Layout(j, board, panels, members...)}
}

// cut covers, fastens and cuts the layout.
func (p *record) cut() {
	var found finding.List
	p.Wrap, found = covering.Of(p.Job, &p.Layout)
	p.Note(found)
	p.Screws, found = fastening.Choose(p.Job, &p.Layout)
	p.Note(found)
	p.Stock, found = Of(p.Job, &p.Layout, &p.Wrap, &p.Screws, p.Shims)
	p.Note(found)
}
