package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/rule"
	"rodsheet/template/tables"
)

// What is told once is counted once: of three panels over one window, and a screw too long for all of them.
func TestFindingsAreCountedAsTheyAreTold(t *testing.T) {
	stop := func(at string) rule.Finding {
		return rule.Finding{ID: "x", Level: rule.Stop, Text: "Too long.", At: at}
	}
	list := []rule.Finding{stop("N1"), stop("N2"), stop("N3"), {ID: "y", Level: rule.Caution, Text: "Loose."}}
	assert.Equal(t, "1 stop, 1 caution", tables.Tally(list))
	assert.Contains(t, tables.Stops(list[:3]), "before 1 stop is mended")
}

// Three gaps of 6 2/3 come to 20, which no sum of what they read as does.
func TestGapsThatAreRoundedComeWithTheirSum(t *testing.T) {
	w, err := template.Open("hall.yaml", []byte(`rodsheet: 1
name: Hall
units: mm
board: {thickness: 12}
cover: {thickness: 0}
clip: {kind: press, base: 40 x 40, flange: 2.5, standoff: 10}
walls:
  - {name: A, width: 2000, height: 2400, runs: [{name: N, across: [0, 1964], height: {bottom: 500, top: 900}, panels: 4, gap: 6}, {name: T, across: [0, 1959], height: {bottom: 1000, top: 1400}, panels: 4, gap: 5}]}
`))
	require.NoError(t, err)
	total := geom.Length(0)
	for _, g := range w.Plan.Runs[0].Gaps {
		total += g
	}
	require.Equal(t, 20*geom.Millimetre, total)
	words := tables.Plan(w, nil, "", "hall.yaml")
	assert.Contains(t, words, "3 × ≈6.5, together 20")
	assert.Regexp(t, `T +0 +1959 .* 3 × \d+\n`, words)
}
