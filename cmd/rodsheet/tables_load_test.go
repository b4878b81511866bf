package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NDS 2018, 12.2.2: 2850 G² D lb for each inch of thread. At G 0.42 and 4 mm (0.1575 in) that is 79.2 lb/in; 30 mm of thread
// in the stud (45 − 2.5 − 12.5) are 93.5 lb, or 42.4 kg, and 0.9 of it for a permanent load (2.3.2).
func TestWithdrawalIsToldOfWoodOfKnownGravityOnly(t *testing.T) {
	const job = "../../testdata/jobs/bay.yaml"
	got := command(t, nil, "plan", job)
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.out, "gravity 0.42: withdrawal 38.2 kg (12.2.2)")
	asJSON := command(t, nil, "plan", job, "--json")
	assert.Contains(t, asJSON.out, `"screw_withdrawal_kg": 38.`)

	data, err := os.ReadFile(job)
	require.NoError(t, err)
	const framing = "framing: {wood: spruce, gravity: 0.42}\n"
	require.Contains(t, string(data), framing)
	file := filepath.Join(t.TempDir(), "bay.yaml")
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(data), framing, "", 1)), 0o644))
	assert.NotContains(t, command(t, nil, "plan", file).out, "withdrawal")
	assert.NotContains(t, command(t, nil, "plan", file, "--json").out, "withdrawal")
}
