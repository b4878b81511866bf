package report

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/plan"
)

func TestLengthsAreWrittenExactlyInMillimetres(t *testing.T) {
	for _, row := range []struct {
		l    geom.Length
		want string
	}{
		{0, "0"},
		{geom.Inch, "25.4"},
		{geom.SixtyFourth, "0.396875"}, // 25.4/64, the international inch of 1959
		{-geom.SixtyFourth, "-0.396875"},
		{geom.Nanometre, "0.000001"},
		{-geom.Nanometre, "-0.000001"},
		{12 * geom.Metre, "12000"},
		{10*geom.Millimetre + 50*geom.Micrometre, "10.05"},
		{math.MaxInt64, "9223372036854.775807"},
		{math.MinInt64, "-9223372036854.775808"},
	} {
		got, err := json.Marshal(length(row.l))
		require.NoError(t, err)
		assert.Equal(t, row.want, string(got))
	}
}

func demo(t *testing.T) *template.Work {
	t.Helper()
	w, err := template.Open(job.Demo())
	require.NoError(t, err)
	return w
}

func TestThePromisedKeysAreThere(t *testing.T) {
	w := demo(t)
	text, err := Plan(w.Plan, w.Findings, []page.Count{{Sheet: "scale", Kind: "scale", First: 1, Pages: 1}, {Sheet: "board A", Kind: "board", First: 2, Pages: 4, Use: 6}})
	require.NoError(t, err)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	keys := func(m any) (list []string) {
		for k := range m.(map[string]any) {
			list = append(list, k)
		}
		return list
	}
	first := func(key string) any { return got[key].([]any)[0] }
	// The job file's page, "What comes back".
	assert.Subset(t, keys(got), []string{"job", "units", "panels", "blocks", "shims", "sheets", "pages", "cutting", "screws", "budget", "findings"})
	assert.Subset(t, keys(first("panels")), []string{"name", "wall", "run", "finished_mm", "board_mm", "outline_mm", "clips", "cover_mm", "batting_mm", "foam_mm", "weight_kg", "same_as"})
	clip := first("panels").(map[string]any)["clips"].([]any)[0]
	assert.Subset(t, keys(clip), []string{"board_mm", "wall_mm", "holes_mm", "on", "shim_mm"})
	assert.ElementsMatch(t, keys(clip.(map[string]any)["holes_mm"]), []string{"board", "wall"})
	assert.Subset(t, keys(first("blocks")), []string{"name", "height_mm", "stack_mm", "made_mm", "count"})
	assert.Subset(t, keys(got["shims"]), []string{"thickness_mm", "count"})
	assert.Subset(t, keys(first("sheets")), []string{"kind", "name", "pages", "copies"})
	assert.Subset(t, keys(got["cutting"].(map[string]any)["boards"]), []string{"sheets", "bound", "waste"})
	assert.Subset(t, keys(got["cutting"].(map[string]any)["cover"]), []string{"length_mm", "buy_mm", "bound_mm"})
	assert.Subset(t, keys(got["budget"]), []string{"worst_mm", "likely_mm", "play_mm"})
	assert.Equal(t, 5.0, got["pages"])
}

// Every place in the JSON, read back in nanometres, is the plan's.
func TestPlacesReadBackAreThePlans(t *testing.T) {
	w := demo(t)
	text, err := Plan(w.Plan, w.Findings, nil)
	require.NoError(t, err)
	var got struct {
		Panels []struct {
			Name    string           `json:"name"`
			SameAs  *string          `json:"same_as"`
			Outline [][2]json.Number `json:"outline_mm"`
			Clips   []struct {
				Holes struct {
					Board, Wall [][2]json.Number
				} `json:"holes_mm"`
			} `json:"clips"`
		} `json:"panels"`
		Sheets any `json:"sheets"`
		Pages  any `json:"pages"`
	}
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	same := func(want []geom.Point, read [][2]json.Number) {
		require.Len(t, read, len(want))
		for i, p := range want {
			for axis, l := range [2]geom.Length{p.X, p.Y} {
				back, err := geom.ParseLength(string(read[i][axis]), geom.Metric)
				require.NoError(t, err)
				assert.Equal(t, l, back)
			}
		}
	}
	require.Len(t, got.Panels, len(w.Plan.Panels))
	for i, p := range w.Plan.Panels {
		read := got.Panels[i]
		same(p.Outline, read.Outline)
		require.Len(t, read.Clips, len(p.Clips))
		for k, c := range p.Clips {
			same(c.BoardHoles, read.Clips[k].Holes.Board)
			same(c.WallHoles, read.Clips[k].Holes.Wall)
		}
		if first := w.Plan.Boards[p.Board].Panels[0]; first == i {
			assert.Nil(t, read.SameAs)
		} else {
			assert.Equal(t, w.Plan.Panels[first].Name, *read.SameAs)
		}
	}
	assert.Nil(t, got.Sheets, "without a layout nothing is said of pages")
	assert.Nil(t, got.Pages)
}

func TestASpreadsheetMeetsNoFormula(t *testing.T) {
	w := demo(t)
	w.Plan.Stock.List = append(w.Plan.Stock.List, plan.Item{What: "=1+1", Amount: 2, Unit: "pieces", For: "@x"})
	text, err := ListsCSV(w.Plan)
	require.NoError(t, err)
	assert.Contains(t, text, "buy,'=1+1,,2,pieces,,,'@x,,\n")
}
