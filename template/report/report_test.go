package report

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/plan/access"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/stock"
	"rodsheet/template/rule"
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
	w.Plan.Stock.List = append(w.Plan.Stock.List, stock.Item{What: "=1+1", Amount: 2, Unit: "pieces", For: "@x"})
	text, err := ListsCSV(w.Plan)
	require.NoError(t, err)
	assert.Contains(t, text, "buy,'=1+1,,2,pieces,,,'@x,,\n")
}

func TestNumbersOfAFindingAreWrittenWithTheirUnits(t *testing.T) {
	type inner struct {
		Place string
		Off   []geom.Length
	}
	type Embedded struct{ Kind string }
	type all struct {
		Embedded
		BuildOut geom.Length
		Part     geom.Size
		Up       geom.Span
		Moved    geom.Point
		Carries  job.Weight
		Density  job.Density
		Clips    int
		Follow   bool
		Ends     [2]string
		Some     []inner
		Near     inner
	}
	mm := geom.Millimetre
	text, err := json.Marshal(params{all{
		Embedded{"a <b> & c"}, geom.Inch, geom.Size{W: mm, H: 2 * mm}, geom.Span{From: 3 * mm, To: 4 * mm}, geom.Pt(-mm, 0), 1.5, 577, 4, true,
		[2]string{"A", "B"}, []inner{{"upper left", []geom.Length{mm / 2}}}, inner{},
	}})
	require.NoError(t, err)
	assert.JSONEq(t, `{"kind": "a <b> & c", "build_out_mm": 25.4, "part_mm": [1, 2], "up_mm": [3, 4], "moved_mm": [-1, 0], "carries_kg": 1.5,
		"density_kg_m3": 577, "clips": 4, "follow": true, "ends": ["A", "B"], "some": [{"place": "upper left", "off_mm": [0.5]}],
		"near": {"place": "", "off_mm": []}}`, string(text))
	assert.Equal(t, []string{"kind", "build_out_mm", "part_mm", "up_mm", "moved_mm", "carries_kg", "density_kg_m3", "clips", "follow", "ends[]",
		"some[].place", "some[].off_mm[]", "near.place", "near.off_mm[]"}, keysOf("", reflect.TypeFor[all]()))
}

func TestAFindingNamesItsThingsAndItsField(t *testing.T) {
	about := func(subject finding.Subject) map[string]any {
		text, err := Findings(&job.Job{}, []rule.Finding{{Subject: subject, Field: "clips.clear", Params: access.ShutIn{Gap: geom.Inch / 8}}})
		require.NoError(t, err)
		var got struct{ Findings []map[string]any }
		require.NoError(t, json.Unmarshal([]byte(text), &got))
		return got.Findings[0]
	}
	run := about(finding.OfRun("walls[0].runs[0]", "N", "N1", "N3"))
	assert.Equal(t, []any{"N"}, run["runs"])
	assert.Equal(t, []any{"N1", "N3"}, run["panels"])
	assert.Equal(t, "clips.clear", run["field"])
	assert.Equal(t, map[string]any{"gap_mm": 3.175}, run["params"])
	board := about(finding.OfOne(finding.Board, "", "A"))
	assert.Equal(t, []any{"A"}, board["boards"])
	for _, key := range []string{"panels", "runs", "walls", "bands", "blocks"} {
		assert.Equal(t, []any{}, board[key], "an empty list is written as one")
	}
	assert.Equal(t, []any{"N1", "N2"}, about(finding.OfPanels("", "N1", "N2"))["panels"])
}
