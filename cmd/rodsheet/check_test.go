package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/rule"
	"rodsheet/template/sheet"
	"rodsheet/template/tables"
)

func paperLike(t *testing.T) job.Paper {
	t.Helper()
	return job.Paper{Name: "letter", Margin: geom.Inch / 4, Overlap: geom.Inch / 2}
}

// demo is the demo job with one more finding: the drilling of no other package decides what these tests see.
func demo(t *testing.T, f rule.Finding) *template.Work {
	t.Helper()
	w, err := template.Open(job.Demo())
	require.NoError(t, err)
	w.Findings = append([]rule.Finding{f}, w.Findings...)
	return w
}

var box = rule.Finding{
	ID: "box-covered", Level: rule.Stop, At: "L3", Text: "The panel lies over the lamp socket.",
	Why: "A box must stay within reach.", Remedy: "Move the run 5″ to the left.", Source: "NEC 2017, 314.29", Place: job.Place{Line: 3, Col: 1},
}

func TestAStopRefusesDrillTemplatesAndNothingElse(t *testing.T) {
	w := demo(t, box)
	_, _, err := w.Pages(template.Print{})
	var stop *template.StopError
	require.ErrorAs(t, err, &stop)
	assert.Equal(t, []rule.Finding{box}, stop.Stops)

	_, _, err = w.Pages(template.Print{Only: []drawing.Kind{sheet.Scale, sheet.Overview}})
	assert.NoError(t, err, "nothing is drilled by these")
	_, _, err = w.Pages(template.Print{AllowStops: true})
	assert.NoError(t, err, "counting pages is no printing")

	accepted := box
	accepted.Accepted, accepted.Because = true, "the box is dead"
	_, _, err = demo(t, accepted).Pages(template.Print{})
	assert.NoError(t, err)
}

func TestACoveredBoxStopsThePrintUntilItIsAccepted(t *testing.T) {
	job := hall(t, "    runs:", "    fittings:\n      - {name: bell, kind: electrical, at: [600, 700], size: 86 x 86}\n    runs:")
	dir := t.TempDir()
	file, out := filepath.Join(dir, "job.yaml"), filepath.Join(dir, "out.pdf")
	require.NoError(t, os.WriteFile(file, []byte(job), 0o644))

	checked := command(t, nil, "check", file)
	assert.Equal(t, refused, checked.code)
	assert.Contains(t, checked.out, "STOPS. Mend these")
	assert.Contains(t, checked.out, "NEC 2017, 314.29")
	assert.Contains(t, checked.out, file+":22  - {name: bell")
	assert.Empty(t, checked.err)
	for _, other := range []string{"plan", "list", "blocks"} {
		assert.Equal(t, done, command(t, nil, other, file).code, "%s answers whatever the findings", other)
	}
	printed := command(t, nil, "print", file, "-o", out)
	assert.Equal(t, refused, printed.code)
	assert.Contains(t, printed.err, "over-box at H2")
	_, err := os.Stat(out)
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.Equal(t, done, command(t, nil, "print", file, "-o", out, "--only", "scale,overview").code)

	require.NoError(t, os.WriteFile(file, []byte(job+"accept:\n  - {finding: over-box, at: H2, because: it is a dead bell box}\n"), 0o644))
	checked = command(t, nil, "check", file)
	assert.Equal(t, done, checked.code)
	assert.Contains(t, checked.out, "Because it is a dead bell box")
	assert.Equal(t, done, command(t, nil, "print", file, "-o", out).code)
}

func TestARefusalNamesTheStopsAndTheWayOut(t *testing.T) {
	var b bytes.Buffer
	code := reportError(&template.StopError{Stops: []rule.Finding{box}}, nil, &b)
	assert.Equal(t, refused, code)
	assert.Equal(t, `rodsheet: no drill template is printed before 1 stop is mended or accepted:
  box-covered at L3: The panel lies over the lamp socket.
rodsheet check tells what to do. To accept one, write into the job file:
  accept:
    - {finding: box-covered, at: L3, because: YOUR REASON}
Sheets that nothing is drilled by still print, as with --only scale,overview
`, b.String())
}

func TestFindingsAreToldWorstFirstAndOnce(t *testing.T) {
	name, data := job.Demo()
	j, err := job.Read(name, data)
	require.NoError(t, err)
	caution := rule.Finding{ID: "on-lining", Level: rule.Caution, Text: "held by the lining alone.", Remedy: "Use a fixing for it.", Source: "common practice"}
	at := func(f rule.Finding, name string) rule.Finding {
		f.At, f.Subject = name, finding.OfPanels("", name)
		return f
	}
	note := rule.Finding{ID: "heavy", Level: rule.Note, Text: "heavier than usual.", Source: "arithmetic", Accepted: true, Because: "weighed it"}
	text := tables.Check(j, []rule.Finding{box, at(caution, "L1"), at(caution, "L2"), note})
	assert.Contains(t, text, "Reading-room settle: 1 stop, 1 caution, 1 accepted\n\nSTOPS.")
	assert.Contains(t, text, `
  box-covered
    L3: the panel lies over the lamp socket.
    Job     settle.yaml:3  name: Reading-room settle
    Do      Move the run 5″ to the left.
    Why     A box must stay within reach.
    Source  NEC 2017, 314.29
`)
	assert.Contains(t, text, `
CAUTIONS. Work or hold may suffer.

  on-lining
    L1, L2: held by the lining alone.
    Do      Use a fixing for it.
    Source  common practice
`)
	assert.Contains(t, text, "    Because weighed it\n")
	assert.Contains(t, text, "BEFORE YOU DRILL, on any wall:\n  · Cables and pipes")
	assert.NotContains(t, text, "safe", "nobody promises that")
}

func TestEveryRuleCanBeExplained(t *testing.T) {
	all := command(t, nil, "check", "--explain", "all")
	require.Equal(t, done, all.code)
	listed := command(t, nil, "check", "--explain", "all", "--json")
	require.Equal(t, done, listed.code)
	var read struct{ Rules []struct{ ID, What string } }
	require.NoError(t, json.Unmarshal([]byte(listed.out), &read))
	require.Len(t, read.Rules, len(rule.Rules()))
	for i, r := range rule.Rules() {
		assert.Equal(t, r.ID, read.Rules[i].ID)
		assert.Equal(t, r.What, read.Rules[i].What)
	}
	for _, r := range rule.Rules() {
		one := command(t, nil, "check", "--explain", r.ID)
		assert.Equal(t, done, one.code)
		assert.Contains(t, one.out, r.Level.String())
		assert.Contains(t, all.out, one.out)
		assert.NotEmpty(t, r.Source)
	}
	unknown := command(t, nil, "check", "--explain", "no-such-rule")
	assert.Equal(t, misunderstood, unknown.code)
	assert.Contains(t, unknown.err, `there is no rule "no-such-rule"; the rules are accept-unknown`)
}
