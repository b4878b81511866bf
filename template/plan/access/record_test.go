package access

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

// A record is a layout and what Check found.
type record struct {
	*planner
	sample.Found
}

func placed(t *testing.T, j *job.Job) *record {
	t.Helper()
	l, _, err := layout.Make(j)
	require.NoError(t, err)
	return &record{&planner{Job: j, Layout: &l}, sample.Found{Findings: Check(j, &l)}}
}
