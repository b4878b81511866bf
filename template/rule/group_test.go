package rule

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/template/plan"
)

func at(name, text string) Finding {
	return Finding{ID: "x", Level: Caution, At: plan.Spot{Name: name}, Text: text, Why: "W.", Source: "S"}
}

func TestFindingsInTheSameWordsAreToldOnce(t *testing.T) {
	for _, c := range []struct {
		claim string
		in    []Finding
		names []string
		texts []string
	}{
		{"the same text at several panels", []Finding{at("L1", "Short."), at("L2", "Short."), at("L3", "Short."), at("L5", "Short.")}, []string{"L1–L3, L5"}, []string{"Short."}},
		{"two are no range", []Finding{at("L1", "Short."), at("L2", "Short.")}, []string{"L1, L2"}, []string{"Short."}},
		{"other numbers are another finding", []Finding{at("L1", "Short by 1."), at("L2", "Short by 2."), at("L3", "Short by 1.")}, []string{"L1, L3", "L2"}, []string{"Short by 1.", "Short by 2."}},
		{"the name in the text", []Finding{at("N1", "The board of N1 is small."), at("N12", "The board of N12 is small.")}, []string{"N1, N12"}, []string{"The board of each of N1, N12 is small."}},
		{"the name first in the text", []Finding{at("N1", "N1 has room for 2."), at("N2", "N2 has room for 2.")}, []string{"N1, N2"}, []string{"Each of N1, N2 has room for 2."}},
		{"a part of a word is no name", []Finding{at("N", "None at N."), at("M", "None at M.")}, []string{"N, M"}, []string{"None at each of N, M."}},
		{"boards by their letters", []Finding{at("board A", "Off."), at("board C", "Off.")}, []string{"boards A, C"}, []string{"Off."}},
		{"pieces of an area", []Finding{at("G2a", "Off."), at("G2b", "Off.")}, []string{"G2a, G2b"}, []string{"Off."}},
		{"the same place twice", []Finding{at("N1", "Off."), at("N1", "Off.")}, []string{"N1"}, []string{"Off."}},
		{"no place", []Finding{at("", "Off.")}, []string{""}, []string{"Off."}},
	} {
		var names, texts []string
		for _, f := range Grouped(c.in) {
			names, texts = append(names, f.At.Name), append(texts, f.Text)
		}
		assert.Equal(t, c.names, names, c.claim)
		assert.Equal(t, c.texts, texts, c.claim)
	}
}

func TestAcceptedAndOpenFindingsStayApart(t *testing.T) {
	list := findings(t, "{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "panels: 2", "panels: 4",
		"# job", "accept: [{finding: screw-through, at: N2, because: ground}]")
	grouped := ofID(Grouped(list), "screw-through")
	require.Len(t, grouped, 2)
	assert.Equal(t, "N1, N3, N4", grouped[0].At.Name)
	assert.False(t, grouped[0].Accepted)
	assert.Equal(t, "N2", grouped[1].At.Name)
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
				accepted = append(accepted, f.At.Name)
			}
		}
		assert.Equal(t, c.accepted, accepted, c.at)
		assert.Equal(t, len(c.accepted) == 0, len(ofID(list, "accept-unknown")) == 1, "at%s", c.at)
	}
}

func TestANameThatIsPrintedCanBeAccepted(t *testing.T) {
	for _, names := range [][]string{
		{"L1"}, {"L1", "L2", "L3", "L7"}, {"board A", "board C"}, {"run N", "run M"}, {"G2a", "G2b"}, {"N9", "N10", "N11"}, {"East-1", "East-2"},
	} {
		assert.Equal(t, names, places(joined(names)))
	}
	assert.Equal(t, []string{"N1", "N2", "N5"}, places("N1, N2 and N5"), "as the plan lists panels")
	assert.Equal(t, []string{"N1–N999999"}, places("N1–N999999"), "no range that long is opened up")
}

func TestAnAcceptedStopIsNotOpen(t *testing.T) {
	stop := append(fitting("electrical", 20, 30), "# job", "accept: [{finding: over-box, at: N1, because: moved by an electrician}]")
	f := ofID(findings(t, stop...), "over-box")[0]
	assert.False(t, f.Open())
	assert.True(t, ofID(findings(t, stop[:2]...), "over-box")[0].Open())
	assert.False(t, ofID(findings(t, "carries: 40 lb, ", ""), "carries-unknown")[0].Open(), "a note is never open")
}

func TestAnAcceptanceThatMeetsNothingIsTold(t *testing.T) {
	told := func(accept string) Finding {
		found := ofID(findings(t, "{size: 8, length: 1/2}", "{size: 8, length: 3/4}", "# job", "accept: [{"+accept+", because: so}]"), "accept-unknown")
		require.Len(t, found, 1)
		return found[0]
	}
	assert.Equal(t, `No finding is called "scew-through", so nothing is accepted.`, told("finding: scew-through").Text)
	assert.Equal(t, "This job has no finding screw-deep to accept.", told("finding: screw-deep").Text)
	f := told("finding: screw-through, at: N9")
	assert.Equal(t, `screw-through is not found at "N9" but at N1, N2.`, f.Text)
	assert.Equal(t, `Write at: "N1, N2", or leave at out to accept it everywhere.`, f.Remedy)
	assert.Equal(t, 15, f.Place.Line)
}

func TestFindingsComeWorstFirst(t *testing.T) {
	list := findings(t, append(fitting("electrical", 20, 30), "carries: 40 lb, ", "", "{size: 8, length: 1/2}", "{size: 8, length: 3/4}")...)
	require.GreaterOrEqual(t, len(list), 4)
	for i, f := range list[1:] {
		assert.LessOrEqual(t, list[i].Level, f.Level)
	}
	assert.Equal(t, Stop, list[0].Level)
	assert.Equal(t, Note, list[len(list)-1].Level)
}

func TestThePlaceIsSaidOnce(t *testing.T) {
	assert.Equal(t, "N1: Short.", at("N1", "Short.").Words())
	assert.Equal(t, "The board of N1 is small.", at("N1", "The board of N1 is small.").Words())
	assert.Equal(t, "Off.", at("", "Off.").Words())
}
