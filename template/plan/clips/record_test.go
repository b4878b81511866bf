package clips

import (
	"testing"

	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

const (
	inch = geom.Inch
	mm   = geom.Millimetre
)

// A record is a layout with its clips and what was found in placing them.
type record struct {
	Job *job.Job
	layout.Layout
	sample.Found
}

// place gives the layout its clips.
func (p *record) place() {
	places, found := Place(p.Job, &p.Layout)
	p.SetClips(places)
	p.Note(found)
}

// clip is the clip of a panel at a place of its board.
func (p *record) clip(panel *layout.Panel, at geom.Point) layout.Clip {
	return (&planner{Job: p.Job, Layout: &p.Layout}).clip(panel, at, "")
}

// placed is the layout of a job with its clips; what was found in laying it out is another matter.
func placed(t testing.TB, j *job.Job) *record {
	t.Helper()
	l, _, err := layout.Make(j)
	require.NoError(t, err)
	p := &record{Job: j, Layout: l}
	p.place()
	return p
}
