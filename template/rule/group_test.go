package rule

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/access"
	"rodsheet/template/plan/clips"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/stock"
	"rodsheet/template/plan/tolerance"
)

// told is a finding with those params as the job's people read it.
func told(subject finding.Subject, params finding.Params) Finding {
	r, _ := Of(params.ID())
	return r.finding(&plan.Plan{Job: &job.Job{Units: geom.Imperial}}, finding.Finding{Params: params, Subject: subject})
}

// each is the same told of each panel by itself.
func each(params finding.Params, panels ...string) []Finding {
	var out []Finding
	for _, name := range panels {
		out = append(out, told(finding.OfPanels("", name), params))
	}
	return out
}

func TestWhatReadsTheSameIsToldOnce(t *testing.T) {
	const in = geom.Inch
	short := func(thread geom.Length) fastening.ScrewShort {
		return fastening.ScrewShort{Thread: thread, Choice: fastening.BoardScrewChoice{OnHand: in}}
	}
	jigs := tolerance.JigSawError{Saw: in / 8, Play: in / 8}
	vent := access.OverFitting{Fitting: access.Fitting{Kind: job.Vent}}
	for _, c := range []struct {
		claim string
		in    []Finding
		at    []string
		says  []string // parts of the texts
	}{
		{"of several panels", each(short(in/8), "L1", "L2", "L3", "L5"), []string{"L1–L3, L5"}, []string{" has only 1/8″ of thread"}},
		{"two are no range", each(short(in/8), "L1", "L2"), []string{"L1, L2"}, []string{" has only 1/8″ of thread"}},
		{"other numbers are another finding", append(each(short(in/8), "L1", "L3"), each(short(in/16), "L2")...), []string{"L1, L3", "L2"}, []string{"1/8″ of", "1/16″ of"}},
		{"the name in the text", each(clips.NoPlace{Reason: clips.Narrow}, "N1", "N12"), []string{"N1, N12"}, []string{"The board of each of N1, N12 is"}},
		{"the name first in the text", each(clips.FewClips{Reason: clips.OneLine, Room: 2}, "N1", "N2"), []string{"N1, N2"}, []string{"Each of N1, N2 has room for 2"}},
		{"the name of a panel that is called one", each(layout.Sliver{Width: in}, "G1", "G3"), []string{"G1, G3"}, []string{"Each of G1, G3 is only"}},
		{"names that were two from the beginning", []Finding{told(finding.OfPanels("", "N1", "N2"), vent), told(finding.OfPanels("", "N3"), vent)},
			[]string{"N1–N3"}, []string{"Each of N1–N3 hangs over the vent"}},
		{"boards by their letters", []Finding{told(finding.OfOne(finding.Board, "", "A"), jigs), told(finding.OfOne(finding.Board, "", "C"), jigs)},
			[]string{"boards A, C"}, []string{"1/8″: more than half"}},
		{"walls by their names", []Finding{told(finding.OfOne(finding.Wall, "", "East"), clips.StudsUnknown{}), told(finding.OfOne(finding.Wall, "", "West"), clips.StudsUnknown{})},
			[]string{"walls East, West"}, []string{"where the studs of each of walls East, West are"}},
		{"pieces of an area", each(short(0), "G2a", "G2b"), []string{"G2a, G2b"}, []string{"thread"}},
		{"the same place twice", each(short(0), "N1", "N1"), []string{"N1"}, []string{"thread"}},
		{"no place", []Finding{told(finding.OfJob("clip"), fastening.CarriesUnknown{}), told(finding.OfJob("clip"), fastening.CarriesUnknown{})}, []string{""}, []string{"Nobody"}},
		{"panels of two runs are two findings", []Finding{told(finding.OfRun("", "A", "A1"), access.ShutIn{}), told(finding.OfRun("", "B", "B1"), access.ShutIn{})},
			[]string{"run A", "run B"}, []string{"No edge of A1", "No edge of B1"}},
		{"a run and a panel of one name are two things", []Finding{told(finding.OfRun("", "A"), short(0)), told(finding.OfPanels("", "A"), short(0))},
			[]string{"run A", "A"}, []string{"thread", "thread"}},
	} {
		var at []string
		list := Grouped(c.in)
		for i, f := range list {
			at = append(at, f.At)
			if i < len(c.says) {
				assert.Contains(t, f.Text, c.says[i], c.claim)
			}
		}
		assert.Equal(t, c.at, at, c.claim)
	}
}

func TestGroupingLeavesItsFindingsAsTheyWere(t *testing.T) {
	list := each(clips.NoPlace{Reason: clips.Narrow}, "N1", "N2", "N3")
	Grouped(list)
	assert.Equal(t, each(clips.NoPlace{Reason: clips.Narrow}, "N1", "N2", "N3"), list)
	again := Grouped(Grouped(list))
	assert.Equal(t, Grouped(list), again)
}

func TestAcceptedAndOpenFindingsStayApart(t *testing.T) {
	list := findings(t, "{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "panels: 2", "panels: 4",
		"# job", "accept: [{finding: screw-through, at: N2, because: ground}]")
	grouped := ofID(Grouped(list), "screw-through")
	require.Len(t, grouped, 2)
	assert.Equal(t, "N1, N3, N4", grouped[0].At)
	assert.False(t, grouped[0].Accepted)
	assert.Equal(t, "N2", grouped[1].At)
	assert.Equal(t, "ground", grouped[1].Because)
	assert.Len(t, ofID(list, "screw-through"), 4, "each panel has its own to accept")
}

func TestAnAcceptanceHoldsForItsPlacesOnly(t *testing.T) {
	for _, c := range []struct {
		at       string
		accepted []string
	}{
		{"", []string{"N1", "N2", "N3", "N4"}},
		{", at: N2", []string{"N2"}},
		{", at: N", nil},
		{`, at: "N1, N4"`, []string{"N1", "N4"}},
		{", at: N1 and N2", []string{"N1", "N2"}},
		{", at: N2–N4", []string{"N2", "N3", "N4"}},
		{", at: N2-N4", []string{"N2", "N3", "N4"}},
	} {
		list := findings(t, "{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "panels: 2", "panels: 4",
			"# job", "accept: [{finding: screw-through"+c.at+", because: ground}]")
		var accepted []string
		for _, f := range ofID(list, "screw-through") {
			if f.Accepted {
				accepted = append(accepted, f.At)
			}
		}
		assert.Equal(t, c.accepted, accepted, c.at)
		assert.Equal(t, len(c.accepted) == 0, len(ofID(list, "accept-unknown")) == 1, "at%s", c.at)
	}
}

func TestANameThatIsPrintedCanBeAccepted(t *testing.T) {
	for _, list := range [][]Finding{
		each(layout.Sliver{}, "L1"), each(layout.Sliver{}, "L1", "L2", "L3", "L7"), each(layout.Sliver{}, "G2a", "G2b"),
		each(layout.Sliver{}, "N9", "N10", "N11"), each(layout.Sliver{}, "East-1", "East-2"), each(layout.Sliver{}, "W-1", "W-2", "W-3"),
		{told(finding.OfPanels("", "N1", "N2", "N5"), layout.Sliver{})},
		{told(finding.OfOne(finding.Board, "", "A"), layout.Sliver{}), told(finding.OfOne(finding.Board, "", "C"), layout.Sliver{})},
		{told(finding.OfRun("", "N"), layout.Sliver{}), told(finding.OfRun("", "M"), layout.Sliver{})},
		{told(finding.OfOne(finding.Wall, "", "hall and stairs"), layout.Sliver{})},
		{told(finding.OfOne(finding.Block, "", "bay left hanging"), layout.Sliver{}), told(finding.OfOne(finding.Block, "", "bay N3 right"), layout.Sliver{})},
	} {
		grouped := Grouped(list)
		assert.Len(t, grouped, 1)
		for _, f := range append(list, grouped...) {
			assert.True(t, covers(job.Acceptance{Finding: f.ID, At: grouped[0].At}, f), "%s by %s", f.At, grouped[0].At)
		}
	}
}

func TestAnAcceptanceMeansTheThingThatItNames(t *testing.T) {
	for _, c := range []struct {
		at      string
		subject finding.Subject
		covers  bool
	}{
		{"N1, N2 and N5", finding.OfPanels("", "N5"), true},
		{"N1, N2 and N5", finding.OfPanels("", "N4"), false},
		{"N1–N4", finding.OfPanels("", "N2", "N4"), true},
		{"N1–N4", finding.OfPanels("", "N2", "N5"), false},
		{"N1–N4", finding.OfPanels("", "M2"), false},
		{"N1–M4", finding.OfPanels("", "N2"), false},
		{"N", finding.OfRun("", "N"), false},
		{"run N", finding.OfRun("", "N"), true},
		{"run N", finding.OfPanels("", "N"), false},
		{"run M, run N", finding.OfRun("", "N"), true},
		{"runs M, N", finding.OfRun("", "N"), true},
		{"wall M, run N", finding.OfRun("", "M"), false},
		{"N1", finding.OfJob("clip"), false},
	} {
		f := told(c.subject, layout.Sliver{})
		assert.Equal(t, c.covers, covers(job.Acceptance{Finding: "sliver", At: c.at}, f), "%q and %s", c.at, f.At)
	}
	assert.True(t, covers(job.Acceptance{Finding: "sliver"}, told(finding.OfJob("clip"), layout.Sliver{})), "everywhere")
}

func TestAnAcceptedStopIsNotOpen(t *testing.T) {
	stop := append(fittingAt("electrical", 20, 30), "# job", "accept: [{finding: over-box, at: N1, because: moved by an electrician}]")
	f := ofID(findings(t, stop...), "over-box")[0]
	assert.False(t, f.Open())
	assert.True(t, ofID(findings(t, stop[:2]...), "over-box")[0].Open())
	assert.False(t, ofID(findings(t, "carries: 40 lb, ", ""), "carries-unknown")[0].Open(), "a note is never open")
}

func TestAnAcceptanceThatMeetsNothingIsTold(t *testing.T) {
	unmet := func(accept string) Finding {
		found := ofID(findings(t, "{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "# job", "accept: [{"+accept+", because: so}]"), "accept-unknown")
		require.Len(t, found, 1)
		return found[0]
	}
	assert.Equal(t, `No finding is called "scew-through", so nothing is accepted.`, unmet("finding: scew-through").Text)
	assert.Equal(t, "This job has no finding screw-deep to accept.", unmet("finding: screw-deep").Text)
	f := unmet("finding: screw-through, at: N9")
	assert.Equal(t, `screw-through is not found at "N9" but at N1, N2.`, f.Text)
	assert.Equal(t, `Write at: "N1, N2", or leave at out to accept it everywhere.`, f.Remedy)
	assert.Equal(t, 15, f.Place.Line)
}

func TestFindingsComeWorstFirst(t *testing.T) {
	list := findings(t, append(fittingAt("electrical", 20, 30), "carries: 40 lb, ", "", "{size: 8, length: 1/2}", "{size: 8, length: 3/4}")...)
	require.GreaterOrEqual(t, len(list), 4)
	for i, f := range list[1:] {
		assert.LessOrEqual(t, list[i].Level, f.Level)
	}
	assert.Equal(t, Stop, list[0].Level)
	assert.Equal(t, Note, list[len(list)-1].Level)
}

func TestTheSubjectIsSaidOnce(t *testing.T) {
	choice := fastening.BoardScrewChoice{OnHand: geom.Inch}
	said := func(f Finding) string { return f.Words() }
	assert.Regexp(t, "^N1: the tip of", said(told(finding.OfPanels("", "N1"), fastening.ScrewNearFace{Choice: choice})), "a name at the beginning keeps its capital")
	assert.Regexp(t, "^The board of N1 is", said(told(finding.OfPanels("", "N1"), clips.NoPlace{Reason: clips.Narrow})))
	assert.Regexp(t, "^Nobody", said(told(finding.OfJob("clip"), fastening.CarriesUnknown{})))
	assert.Regexp(t, "^No finding", said(told(finding.Subject{Kind: finding.Acceptance}, AcceptUnknown{Finding: "x"})), "its line shows which")
	// What only looks like the name is not it.
	assert.Regexp(t, "^A: the board of board A1,", said(told(finding.OfPanels("", "A"), stock.TooLarge{Stock: "board", Board: "A1"})))
}
