package job

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

var update = flag.Bool("update", false, "rewrite the expected texts under testdata")

func TestDemoJobsReadWithoutProblems(t *testing.T) {
	name, data := Demo()
	j, err := Read(name, data)
	require.NoError(t, err)
	assert.Equal(t, 6, j.Walls[0].Runs[0].Panels)
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 2)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		_, err = Read(file, data)
		require.NoError(t, err)
	}
}

func TestDemoIsTheCallersOwn(t *testing.T) {
	_, data := Demo()
	data[0] = '!'
	_, again := Demo()
	assert.NotEqual(t, data[0], again[0])
}

func TestStarterReadsInBothUnits(t *testing.T) {
	for _, units := range []geom.System{geom.Imperial, geom.Metric} {
		j, err := Read("starter.yaml", Starter(units))
		require.NoError(t, err)
		assert.Equal(t, units, j.Units)
		assert.NotContains(t, string(Starter(units)), "«")
	}
}

// What the starter shows in comments as a default must be one.
func TestStarterShowsTheTrueDefaults(t *testing.T) {
	for _, units := range []geom.System{geom.Imperial, geom.Metric} {
		text := string(Starter(units))
		plain, err := Read("starter.yaml", []byte(text))
		require.NoError(t, err)
		for _, name := range []string{
			"margin", "overlap", "tolerance", "kerf", "saw", "grain", "pressed", "nap", "repeat", "offset", "play",
			"number", "clear", "spacing", "step", "marker", "within", "foot", "for", "ends", "template", "through",
		} {
			line := "\n" + strings.Repeat(" ", strings.Index(text[strings.LastIndex(text[:strings.Index(text, "# "+name+": ")], "\n")+1:], "#"))
			text = strings.Replace(text, line+"# "+name+": ", line+name+": ", 1)
		}
		text = strings.Replace(text, "    through: this", "    corner: inside\n    through: this", 1)
		shown, err := Read("starter.yaml", []byte(text))
		require.NoError(t, err)
		shown.Source, plain.Source = Source{}, Source{}
		shown.Walls[0].Corner = NoCorner
		assert.Equal(t, plain, shown)
	}
}

func TestBadFilesAreToldInWhole(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		j, err := Read(filepath.Base(file), data)
		require.Nil(t, j)
		var problems *Problems
		require.ErrorAs(t, err, &problems)
		golden := strings.TrimSuffix(file, ".yaml") + ".txt"
		if *update {
			require.NoError(t, os.WriteFile(golden, []byte(err.Error()+"\n"), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		assert.Equal(t, string(want), problems.Error()+"\n", file)
	}
}

// plain is a small job that reads; the cases below spoil one thing of it.
const plain = `rodsheet: 1
name: Nook
units: in
board: {thickness: 1/2}
cover: {thickness: 1/32}
clip: {kind: press, base: 1 1/2 x 1 1/2, flange: 3/32, standoff: 5/16}
heights:
  settle: {bottom: 20, top: 44}
walls:
  - name: North
    width: 96
    height: 90
    runs:
      - {name: N, across: [2, 94], height: settle, panels: 6}
`

func problemsOf(t *testing.T, text string) []Problem {
	t.Helper()
	_, err := Read("nook.yaml", []byte(text))
	if err == nil {
		return nil
	}
	var problems *Problems
	require.True(t, errors.As(err, &problems))
	return problems.List
}

func TestOneSlipOneProblem(t *testing.T) {
	require.Empty(t, problemsOf(t, plain))
	for _, c := range []struct{ claim, old, new, want string }{
		{"exponents are no lengths", "width: 96", "width: 1e9", `11:12: walls[0].width: "1e9" is no length`},
		{"digit groups are no lengths", "width: 96", "width: 1_000", `11:12: walls[0].width: "1_000" is no length`},
		{"a decimal comma is named", "width: 96", "width: 96,5", "a comma is neither"},
		{"a zero under the stroke", "width: 96", "width: 10 1/0 in", "zero under its stroke"},
		{"hexadecimal is no length", "width: 96", "width: 0x10", `"0x10" is no length`},
		{"infinity is no length", "width: 96", "width: .inf", `".inf" is no length`},
		{"truth is no length", "width: 96", "width: true", `"true" is no length`},
		{"other digits are no lengths", "width: 96", "width: ٣ in", `"٣ in" is no length`},
		{"negative", "width: 96", "width: -96", "walls[0].width: −96″ is less than"},
		{"a wall in mm though units are in", "width: 96", "width: 9600", "more than the 100 m that is sensible here; is the unit right?"},
		{"a board in mm though units are in", "thickness: 1/2", "thickness: 12", "more than the 4″ that is sensible"},
		{"a kilometre", "width: 96", "width: 2000 m", "longer than a kilometre"},
		{"a list for a length", "width: 96", "width: [96]", "this is a list; expected a length"},
		{"a group for a length", "width: 96", "width: {a: 1}", "this is a group of fields; expected a length"},
		{"nothing for a length", "width: 96", "width:", "11:5: walls[0].width: nothing is written here"},
		{"null for a length", "width: 96", "width: ~", "nothing is written here"},
		{"twice the same field", "height: 90", "height: 90\n    width: 96", "13:5: walls[0].width: given twice, first in line 11"},
		{"swapped letters", "height: 90", "heihgt: 90", "12:5: walls[0].heihgt: there is no such field; did you mean `height`?"},
		{"an underscore for a hyphen", "height: 90", "height: 90\n    keep_outs: []", "did you mean `keep-outs`?"},
		{"a beginning", "thickness: 1/2", "thickness: 1/2, tol: 1/64", "did you mean `tolerance`?"},
		{"nothing near", "thickness: 1/2", "thickness: 1/2, colour: red", "the fields are thickness, tolerance"},
		{"a missing measure says how", "thickness: 1/2", "kerf: 1/8", "board.thickness: is missing: measure a sheet with a calliper"},
		{"one unit for two numbers", "base: 1 1/2 x 1 1/2", "base: 40 x 40 mm", "unit on one side only"},
		{"one unit for two numbers, first", "base: 1 1/2 x 1 1/2", "base: 40 mm x 40", "unit on one side only"},
		{"a size of one number", "base: 1 1/2 x 1 1/2", "base: 1 1/2", "expected width x height"},
		{"a base of nothing", "base: 1 1/2 x 1 1/2", "base: 1 1/2 x 0", "clip.base: is 0"},
		{"a hole beyond the base", "flange: 3/32", "flange: 3/32, holes: [[0, 0], [3/4, 0]]",
			"clip.holes[1]: the hole [3/4, 0] is not inside the base of 1 1/2″ x 1 1/2″"},
		{"no holes", "flange: 3/32", "flange: 3/32, holes: []", "at least one screw hole"},
		{"holes without brackets of their own", "flange: 3/32", "flange: 3/32, holes: [0, 0]", "each in its own brackets"},
		{"a press clip that lifts", "flange: 3/32", "flange: 3/32, lift: 1/2", "clip.lift: a press clip comes straight off"},
		{"a lift clip without lift", "kind: press", "kind: lift", "clip.lift: is missing: measure how far"},
		{"negative clear", "heights:", "clips: {clear: -1}\nheights:", "clips.clear: −1″ is negative"},
		{"zero spacing", "heights:", "clips: {spacing: 0}\nheights:", "clips.spacing: 0″ is less than"},
		{"one clip", "heights:", "clips: {number: 1}\nheights:", "whole number from 2 to 100"},
		{"half a clip", "heights:", "clips: {number: 4.5}\nheights:", `"4.5" is no whole number`},
		{"unknown choice", "heights:", "clips: {follow: stud}\nheights:", "did you mean studs?"},
		{"unknown band", "height: settle", "height: setle", "there is no band \"setle\"; did you mean settle? The bands are settle"},
		{"band upside down", "bottom: 20, top: 44", "bottom: 44, top: 20", "heights.settle.top: 20″ is not above the bottom, 44″"},
		{"band of two kinds", "bottom: 20, top: 44", "bottom: 20, top: 44, sill: 50", "can't stand beside `bottom`"},
		{"band above the wall", "bottom: 20, top: 44", "bottom: 20, top: 91", "goes up to 91″, but the wall is 90″ high"},
		{"sill below cushion", "{bottom: 20, top: 44}", "{seat: 18, cushion: 4, sill: 21, panel: 8, gap: even}",
			"sill: 21″ is not above the cushion, which ends at 22″ (18″ + 4″)"},
		{"no cushion said", "{bottom: 20, top: 44}", "{seat: 18, sill: 31, panel: 8}", "cushion: is missing: measure how thick"},
		{"even without a panel", "{bottom: 20, top: 44}", "{seat: 18, cushion: 4, sill: 31, gap: even}", "panel: is missing"},
		{"no sill", "{bottom: 20, top: 44}", "{seat: 18, cushion: 4, panel: 8, gap: even}", "sill: is missing"},
		{"run outside the wall", "[2, 94]", "[2, 97]", "2″ to 97″ is outside the wall, which is 96″ wide"},
		{"readings whose narrowest is outside", "[2, 94]", "[[2, 97], [1, 98]]", "2″ to 97″ is outside the wall, which is 96″ wide"},
		{"run backwards", "[2, 94]", "[94, 2]", "not to the right of its beginning"},
		{"run of one end", "[2, 94]", "[94]", "expected where the run begins and ends"},
		{"readings that leave nothing", "[2, 94]", "[[2, 40], [50, 94]]", "leave nothing between them"},
		{"panels and widths", "panels: 6", "panels: 6, widths: [18, 24]", "can't stand beside `panels`"},
		{"across and area", ", height: settle", ", area: [[2, 20], [94, 20], [94, 44]]", "can't stand beside `across`"},
		{"across and seat", ", height: settle", ", height: settle, seat: 18", "can't stand beside `across`"},
		{"area and height", "across: [2, 94]", "area: [[2, 20], [94, 20], [94, 44]]", "can't stand beside `area`"},
		{"no panels", "panels: 6", "panels: 0", "whole number from 1 to 5000"},
		{"too many panels", "panels: 6", "panels: 5001", "whole number from 1 to 5000"},
		{"height and outline", "height: 90", "height: 90\n    outline: [[0, 0], [96, 0], [96, 90], [0, 90]]", "can't stand beside `height`"},
		{"outline of another width", "height: 90", "outline: [[0, 0], [90, 0], [90, 90], [0, 90]]", "runs from 0″ to 90″ across, but the wall is 96″ wide"},
		{"outline that crosses itself", "height: 90", "outline: [[0, 0], [96, 90], [96, 0], [0, 90]]",
			"[0, 0] to [96, 90] meets [96, 0] to [0, 90]"},
		{"outline of no area", "height: 90", "outline: [[0, 0], [96, 0], [50, 0]]", "the outline has no area: all its corners lie on one line"},
		{"outline of two points", "height: 90", "outline: [[0, 0], [96, 0]]", "at least three corners; this has 2"},
		{"run above a slope", "height: 90", "outline: [[0, 0], [96, 0], [96, 40], [40, 90], [0, 90]]", "the corner [94, 44] of the run is outside"},
		{"first stud outside", "height: 90", "height: 90\n    studs: {from: 97, every: 16}", "97″ is outside the wall, which is 96″ wide"},
		{"a stud outside", "height: 90", "height: 90\n    studs: {at: [8, 97]}", "studs.at[1]: 97″ is outside"},
		{"a rail outside", "height: 90", "height: 90\n    rails: {at: [91]}", "rails.at[0]: 91″ is outside the wall, which is 90″ high"},
		{"studs in each other", "height: 90", "height: 90\n    studs: {from: 8, every: 1}", "less than the wood is wide"},
		{"studs nowhere", "height: 90", "height: 90\n    studs: {width: 2}", "says not where they are"},
		{"studs of two kinds", "height: 90", "height: 90\n    studs: {at: [8], every: 16}", "studs.every: can't stand beside `at`"},
		{"no room for a screw", "height: 90", "height: 90\n    studs: {at: [8], margin: 1}", "no screw could stand in it"},
		{"a socket outside", "height: 90", "height: 90\n    fittings: [{kind: electrical, at: [95, 10], size: 3 x 4}]", "reaches from 95″ to 98″ across"},
		{"a socket of no kind", "height: 90", "height: 90\n    fittings: [{at: [9, 10], size: 3 x 4}]", "fittings[0].kind: is missing"},
		{"a window that swings", "height: 90", "height: 90\n    openings: [{name: window, at: [9, 10], size: 3 x 4, swing: 20}]", "only a door swings"},
		{"through without a corner", "height: 90", "height: 90\n    through: next", "says nothing without a corner"},
		{"a negative margin", "height: 90", "height: 90\n    keep-outs: [{at: [9, 10], size: 3 x 4, margin: -1}]", "margin: −1″ is negative"},
		{"two walls of a name", "    runs:", "    runs: []\n  - name: North\n    width: 96\n    height: 90\n    runs:", `a wall "North" stands already in line 10`},
		{"two runs of a name", "panels: 6}", "panels: 6}\n      - {name: N, across: [2, 94], height: settle, panels: 6}", `a run "N" stands already in line 14`},
		{"two panels of a name", "panels: 6}", "panels: 16}\n      - {name: N1, across: [2, 94], height: settle, panels: 6}", "would both have a panel N11"},
		{"no runs at all", "    runs:\n      - {name: N, across: [2, 94], height: settle, panels: 6}\n", "", "walls: no wall has `runs`"},
		{"another version", "rodsheet: 1", "rodsheet: 2", "it reads version 1"},
		{"a density without a unit", "thickness: 1/2", "thickness: 1/2, density: 36", "needs its unit"},
		{"a density in another unit", "thickness: 1/2", "thickness: 1/2, density: 36 lb/ft2", "is not known; write it like 36 lb/ft3"},
		{"a density of lead", "thickness: 1/2", "thickness: 1/2, density: 11340 kg/m3", "out of reach"},
		{"a price with its sign", "thickness: 1/2", "thickness: 1/2, price: 42 EUR", "is no price"},
		{"a screw between numbers", "heights:", "screws: {board: {size: 8.5}}\nheights:", "needs its unit"},
		{"a screw of no number", "heights:", "screws: {board: {size: 30}}\nheights:", "no wood screw number 30"},
		{"unknown paper", "heights:", "paper: {size: a7}\nheights:", `"a7" is no paper this program knows`},
		{"paper all margin", "heights:", "paper: {margin: 4}\nheights:", "leave nothing of a page"},
		{"unknown tape class", "heights:", "accuracy: {tape: 4}\nheights:", "choose one of 1, 2, 3, I, II, III"},
		{"acceptance without reason", "heights:", "accept: [{finding: x}]\nheights:", "because: is missing"},
		{"an anchor", "thickness: 1/2", "thickness: &t 1/2", "anchors and aliases"},
		{"a tag", "thickness: 1/2", "thickness: !!str 1/2", "tags (!) are not used"},
		{"a tab", "    height: 90", "\theight: 90", "12:1: : a tab begins this line"},
		{"a second document", "walls:", "---\nwalls:", "a second document begins here"},
		{"an open bracket", "[2, 94]", "[2, 94", "close every [ and {"},
		{"an open quote", "units: in", "units: \"in", "a quote is opened here and not closed"},
		{"two colons", "name: Nook", "name: Nook: one", "a second `:`"},
	} {
		t.Run(c.claim, func(t *testing.T) {
			text := strings.Replace(plain, c.old, c.new, 1)
			require.NotEqual(t, plain, text)
			list := problemsOf(t, text)
			require.Len(t, list, 1, "%v", list)
			assert.Contains(t, fmt.Sprintf("%d:%d: %s: %s", list[0].Line, list[0].Col, list[0].Field, list[0].Text), c.want)
			assert.Contains(t, list[0].Excerpt, "^")
		})
	}
}

var waysToWriteTheSame = []struct{ claim, old, new string }{
	{"a mark of byte order is no problem", "rodsheet", "\ufeffrodsheet"},
	{"lines may end as on Windows", "\n", "\r\n"},
	{"a document may begin with ---", "rodsheet", "---\nrodsheet"},
	{"quotes", "thickness: 1/2}", `thickness: "1/2"}`},
	{"an inch sign", "width: 96", `width: 96"`},
	{"feet", "width: 96", "width: 8'"},
	{"feet with no inches", "width: 96", "width: 8 ft 0 in"},
	{"millimetres", "width: 96", "width: 2438.4 mm"},
	{"a decimal", "thickness: 1/2}", "thickness: 0.50}"},
	{"a fraction character", "thickness: 1/2}", "thickness: ½}"},
	{"a capital X between", "1 1/2 x 1 1/2", "1 1/2 X 1 1/2"},
	{"a true cross, close", "1 1/2 x 1 1/2", "1 1/2×1 1/2"},
	{"a size as a list", "1 1/2 x 1 1/2", "[1 1/2, 1 1/2]"},
	{"the same unit on one side", "1 1/2 x 1 1/2", "1 1/2 x 1 1/2 in"},
	{"a band in the run", "height: settle", "height: {bottom: 20, top: 44}"},
	{"an outline that is a rectangle", "height: 90", "outline: [[0, 90], [96, 90], [96, 0], [0, 0], [0, 90]]"},
}

func TestWaysToWriteTheSame(t *testing.T) {
	want, err := Read("nook.yaml", []byte(plain))
	require.NoError(t, err)
	for _, c := range waysToWriteTheSame {
		t.Run(c.claim, func(t *testing.T) {
			text := strings.ReplaceAll(plain, c.old, c.new)
			if c.old != "\n" {
				text = strings.Replace(plain, c.old, c.new, 1)
			}
			require.NotEqual(t, plain, text)
			got, err := Read("nook.yaml", []byte(text))
			require.NoError(t, err)
			got.Source = want.Source
			for i := range got.Walls[0].Runs {
				got.Walls[0].Runs[i].Band.Name, got.Walls[0].Runs[i].Band.Key = "settle", "heights.settle"
			}
			assert.Equal(t, want, got)
		})
	}
}

func TestWhatIsNoJobAtAll(t *testing.T) {
	for _, c := range []struct{ claim, text, want string }{
		{"an empty file", "", "the file is empty"},
		{"only comments", "# nothing yet\n", "the file is empty"},
		{"prose", "dear carpenter\n", "a job file is made of `field: value` lines"},
		{"a list", "- 1\n- 2\n", "this is a list"},
		{"too long a file", strings.Repeat("#\n", MaxSize/2+1), "the file is too long; a job has at most 1048576 bytes"},
		{"bytes that are no text", "name: \xff\xfe\n", "1:7: the file is not UTF-8"},
		{"a control character", "name: a\x00b\n", "1:8: there is a control character"},
		{"brackets without end", strings.Repeat("[", 1000), "too many groups within each other"},
		{"lists without end", strings.Repeat("- ", 1000), "too many groups within each other"},
		{"groups without end", func() string {
			var b strings.Builder
			for i := range 100 {
				fmt.Fprintf(&b, "%sa:\n", strings.Repeat(" ", i))
			}
			return b.String()
		}(), "too many groups within each other"},
		{"fields without end", func() string {
			var b strings.Builder
			for i := range 3000 {
				fmt.Fprintf(&b, "a%d: 1\n", i)
			}
			return b.String()
		}(), "too many fields in one"},
		{"empty entries without end", "a:\n" + strings.Repeat("-\n", 500_000), "too many values"},
		{"an alias bomb", "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "anchors and aliases"},
		{"a merge", "a: 1\n<<: {b: 2}\n", "anchors and aliases"},
		{"a directive", "%YAML 1.2\n---\na: 1\n", "directives (%) are not used"},
		{"a complex key", "? a\n: b\n", "`?` form"},
	} {
		t.Run(c.claim, func(t *testing.T) {
			list := problemsOf(t, c.text)
			require.Len(t, list, 1)
			assert.Contains(t, list[0].String(), "nook.yaml:")
			assert.Contains(t, list[0].String(), c.want)
		})
	}
}

func TestManyProblemsAreCountedNotPrinted(t *testing.T) {
	var b bytes.Buffer
	b.WriteString(plain)
	for i := range 500 {
		fmt.Fprintf(&b, "zz%d: 1\n", i)
	}
	_, err := Read("nook.yaml", b.Bytes())
	var problems *Problems
	require.ErrorAs(t, err, &problems)
	assert.Len(t, problems.List, 100)
	assert.Contains(t, err.Error(), "and 400 more")
}

func manyRuns(walls, panels int) []byte {
	var b bytes.Buffer
	head, _, _ := strings.Cut(plain, "walls:\n")
	b.WriteString(head + "walls:\n")
	for i := range walls {
		fmt.Fprintf(&b, "  - name: W%d\n    width: 30 m\n    height: 90\n    runs:\n", i)
		fmt.Fprintf(&b, "      - {name: R%d-, across: [2, 1000], height: settle, panels: %d}\n", i, panels)
	}
	return b.Bytes()
}

func TestAThousandPanelsAreReadAndSixThousandRefused(t *testing.T) {
	j, err := Read("big.yaml", manyRuns(100, 10))
	require.NoError(t, err)
	assert.Len(t, j.Walls, 100)
	_, err = Read("big.yaml", manyRuns(600, 10))
	require.ErrorContains(t, err, "the job has 6000 panels; at most 5000 are taken")
}

func saw(points int) string {
	var b strings.Builder
	b.WriteString("[[94, 20], [2, 20]")
	for i := 2; i < points; i++ {
		fmt.Fprintf(&b, ", [%d.%04d, %d]", 2+(i*90)/points, (i*90*10000/points)%10000, 40+i%2)
	}
	b.WriteString("]")
	return b.String()
}

func TestTenThousandPointsAreReadAndMoreRefused(t *testing.T) {
	j, err := Read("saw.yaml", []byte(strings.Replace(plain, "across: [2, 94], height: settle", "area: "+saw(MaxPoints), 1)))
	require.NoError(t, err)
	assert.Len(t, j.Walls[0].Runs[0].Area, MaxPoints)
	list := problemsOf(t, strings.Replace(plain, "across: [2, 94], height: settle", "area: "+saw(MaxPoints+1), 1))
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Text, "has 10001 points; at most 10000")
	assert.Less(t, len(list[0].Excerpt), 1000, "a long line is shown in part")
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(plain))
	f.Add(Starter(geom.Metric))
	_, demo := Demo()
	f.Add(demo)
	for _, dir := range []string{"testdata/*.yaml", "testdata/bad/*.yaml", "../../testdata/jobs/*.yaml"} {
		files, _ := filepath.Glob(dir)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := Read("fuzz.yaml", data)
		if (j == nil) == (err == nil) {
			t.Fatal("either a job or problems")
		}
		if err != nil && err.Error() == "" {
			t.Fatal("a problem says nothing")
		}
		again, err2 := Read("fuzz.yaml", data)
		if fmt.Sprint(err) != fmt.Sprint(err2) || (j == nil) != (again == nil) {
			t.Fatal("the same file reads differently")
		}
	})
}

func BenchmarkReadDemo(b *testing.B) {
	name, data := Demo()
	for b.Loop() {
		if _, err := Read(name, data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadThousandPanels(b *testing.B) {
	data := manyRuns(100, 10)
	for b.Loop() {
		if _, err := Read("big.yaml", data); err != nil {
			b.Fatal(err)
		}
	}
}

// A wall of masonry without plugs would be drilled by guess.
func TestMasonryNamesItsPlugs(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/stair.yaml")
	require.NoError(t, err)
	j, err := Read("stair.yaml", data)
	require.NoError(t, err)
	assert.True(t, j.Walls[0].Masonry)
	assert.Equal(t, 8*mm, j.WidestHole(&j.Walls[0]))
	_, err = Read("stair.yaml", []byte(strings.Replace(string(data), "plug: {hole: 8, length: 40, carries: 8 kg}", "anchor: {hole: 10}", 1)))
	require.ErrorContains(t, err, "walls[0].build: masonry is drilled for plugs; give them as `fixings: {plug: {hole: 8, length: 40}}`")
	_, err = Read("stair.yaml", []byte(strings.Replace(string(data), "wall: {size: 5 mm}", "", 1)))
	require.ErrorContains(t, err, "walls[0].build: masonry takes screws as thick as the plug is made for")
}

// An inch is told as 25 mm in a metric job, and kept to as it is told.
func TestLimitsAreRoundInBothUnits(t *testing.T) {
	for _, c := range []struct{ units, field, last, refused, says string }{
		{"in", "gap", "12", "12 1/32", "12 1/32″ is more than the 12″"},
		{"mm", "gap", "300", "301", "301 mm is more than the 300 mm"},
		{"mm", "gap", "11 in", "12 in", "304.8 mm is more than the 300 mm"},
		{"in", "ends", "90", "4000", "4000″ is more than the 100 m"},
	} {
		text := "rodsheet: 1\nname: T\nunits: " + c.units + "\nwalls: [{name: A, width: 3 m, height: 2 m, runs: [{name: N, across: [0, 2 m], height: {bottom: 0, top: 1 m}, panels: 1, " + c.field + ": "
		problems := func(value string) string {
			_, err := Read("t.yaml", []byte(text+value+"}]}]\n"))
			require.Error(t, err, "boards and clips are missing")
			return err.Error()
		}
		assert.NotContains(t, problems(c.last), "sensible", c.last)
		assert.Contains(t, problems(c.refused), c.says)
	}
	for _, f := range Fields() {
		b := f.limits.in(geom.Metric)
		for _, l := range []geom.Length{b.min, b.max} {
			assert.NotContains(t, l.In(geom.Metric), "≈", f.Path)
			assert.True(t, l%geom.Millimetre == 0 || l < geom.Millimetre, "%s: %s", f.Path, l.In(geom.Metric))
		}
	}
}
