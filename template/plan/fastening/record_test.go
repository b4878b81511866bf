package fastening

import (
	"testing"

	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/clips"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

const (
	in   = geom.Inch
	inch = geom.Inch
	mm   = geom.Millimetre
)

// A record is a layout, what holds it and what was found on the way.
type record struct {
	Job *job.Job
	layout.Layout
	sample.Found
	Shims  Shims
	Screws Screws
	Loads  []Load
	wrap   geom.Length // of the cover over a board's edge
}

// hang is the record of panels of one size, see [hung.Layout].
func hang(j *job.Job, board geom.Size, panels int, members ...layout.Member) *record {
	return &record{Job: j, Layout: hung.Layout(j, board, panels, members...)}
}

// placed is the layout of a job with its clips and pads.
func placed(t *testing.T, j *job.Job) *record {
	t.Helper()
	l, _, err := layout.Make(j)
	require.NoError(t, err)
	places, _ := clips.Place(j, &l)
	l.SetClips(places)
	shims, stands, found := Pads(j, &l)
	l.SetStands(stands)
	return &record{Job: j, Layout: l, Shims: shims, Found: sample.Found{Findings: found}}
}

func (p *record) screw() {
	var found finding.List
	p.Screws, found = Choose(p.Job, &p.Layout)
	p.Note(found)
}

func (p *record) weigh() {
	var found finding.List
	p.Loads, found = Weigh(p.Job, &p.Layout, &p.Screws, p.wrap)
	p.Note(found)
}
