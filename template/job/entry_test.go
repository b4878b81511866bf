package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

const blockRuns = `walls:
  # the first
  - name: N   # north
    runs:   # all
      - name: A
        panels: 2   # two
        # gap: 1/4
      - name: B
        panels: 3
    # corner: none
  - name: E
    runs: []   # none yet
`

const flowRuns = `walls: [{name: N, runs: [{name: A, panels: 2}, {name: B, panels: 3}]}, {name: E, runs: []}]
`

func TestEntriesComeAndGoAtBothEnds(t *testing.T) {
	run := "      - name:\n        across:\n        height:\n        panels:\n"
	flow := "{name: , across: , height: , panels: }"
	for _, row := range []struct{ claim, from, do, path, old, now string }{
		{"first on lines", blockRuns, "add", "walls[0].runs[0]", "   # all\n", "   # all\n" + run},
		{"last on lines", blockRuns, "add", "walls[0].runs[2]", "        panels: 3\n", "        panels: 3\n" + run},
		{"between", blockRuns, "add", "walls[0].runs[1]", "        # gap: 1/4\n", "        # gap: 1/4\n" + run},
		{"the only one", blockRuns, "add", "walls[1].runs[0]", "    runs: []   # none yet\n", "    runs:   # none yet\n" + run},
		{"of a list that is missing", blockRuns, "add", "walls[1].openings[0]", "  - name: E\n", "  - name: E\n    openings:\n      - at:\n        size:\n"},
		{"first in brackets", flowRuns, "add", "walls[0].runs[0]", "runs: [{name: A", "runs: [" + flow + ", {name: A"},
		{"last in brackets", flowRuns, "add", "walls[0].runs[2]", "panels: 3}]", "panels: 3}, " + flow + "]"},
		{"the only one in brackets", flowRuns, "add", "walls[1].runs[0]", "runs: []", "runs: [" + flow + "]"},
		{"a wall in brackets", flowRuns, "add", "walls[2]", "runs: []}]", "runs: []}, {name: , width: , height: }]"},
		{"of a list that is missing, in brackets", flowRuns, "add", "walls[1].openings[0]", "{name: E, runs", "{name: E, openings: [{at: , size: }], runs"},
		{"in the neighbour's way", "accept:\n  - {finding: a, because: b}\n", "add", "accept[1]", "b}\n", "b}\n  - {finding: , because: }\n"},
		{"without a last line end", "accept:\n- finding: a\n  because: b", "add", "accept[1]", "because: b", "because: b\n- finding:\n  because:"},
		{"a list with nothing in it", "accept:   # all\n", "add", "accept[0]", "accept:   # all\n", "accept:   # all\n  - finding:\n    because:\n"},
		{"empty brackets with a comment", "accept: [ # none\n  ]\n", "add", "accept[0]", "[ #", "[{finding: , because: } #"},
		{"empty braces with a comment", "heights: { # none\n  }\n", "add", "heights.a", "{ #", "{a: {bottom: , top: } #"},
		{"a commented list", "units: in\n# accept:   # all\n#   - finding: x\n#     because: y\n", "add", "accept[0]",
			"# accept:   # all\n", "accept:   # all\n  - finding:\n    because:\n"},

		{"first of lines goes", blockRuns, "remove", "walls[0].runs[0]", "      - name: A\n        panels: 2   # two\n        # gap: 1/4\n", ""},
		{"last of lines goes", blockRuns, "remove", "walls[0].runs[1]", "      - name: B\n        panels: 3\n", ""},
		{"a wall goes with what is in it", blockRuns, "remove", "walls[0]", blockRuns[strings.Index(blockRuns, "  - name: N"):strings.Index(blockRuns, "  - name: E")], ""},
		{"first in brackets goes", flowRuns, "remove", "walls[0].runs[0]", "{name: A, panels: 2}, ", ""},
		{"last in brackets goes", flowRuns, "remove", "walls[0].runs[1]", ", {name: B, panels: 3}", ""},
		{"the last one of a list", "units: in\naccept:   # all\n  - finding: a\n    because: b\nname: x\n", "remove", "accept[0]",
			"accept:   # all\n  - finding: a\n    because: b\n", "accept: []   # all\n"},
		{"the last one in brackets", "accept: [{finding: a}]\n", "remove", "accept[0]", "[{finding: a}]", "[]"},
		{"one over lines, with comments", "screws:\n  on hand: [1, # one\n    2, # two\n    3] # three\n", "remove", "screws.on hand[1]", "    2, # two", "     # two"},
		{"the last over lines", "screws:\n  on hand: [1, # one\n    2, # two\n    3] # three\n", "remove", "screws.on hand[2]", "2, # two\n    3]", "2 # two\n    ]"},
		{"one before a comma at the end", "screws:\n  on hand: [1, 2, ]\n", "remove", "screws.on hand[1]", "2, ]", " ]"},

		{"a band in brackets", "heights: {a: {bottom: 1, top: 2}}\n", "add", "heights.b", "top: 2}}", "top: 2}, b: {bottom: , top: }}"},
		{"a band on lines", "heights:\n  a:\n    bottom: 1\n    # top: 2\nwalls: []\n", "add", "heights.b", "    # top: 2\n", "    # top: 2\n  b:\n    bottom:\n    top:\n"},
		{"a band of an odd name", "heights:\n  a: {bottom: 1}\nwalls: []\n", "add", `heights."c: d"`, "  a: {bottom: 1}\n", "  a: {bottom: 1}\n  \"c: d\": {bottom: , top: }\n"},
		{"the first band", "name: x\nwalls: []\n", "add", "heights.b", "name: x\n", "name: x\nheights:\n  b:\n    bottom:\n    top:\n"},
		{"a band goes", "heights:\n  a: {bottom: 1}   # low\n  b:\n    bottom: 2\n", "remove", "heights.a", "  a: {bottom: 1}   # low\n", ""},
		{"the last band goes", "heights:   # all\n  a: {bottom: 1}   # low\nwalls: []\n", "remove", "heights.a", "heights:   # all\n  a: {bottom: 1}   # low\n", "heights: {}   # all\n"},

		{"a group", "name: x\nclip: {}\n", "add", "foam", "name: x\n", "name: x\nfoam:\n  thickness:\n"},
		{"a group with nothing that it needs", "name: x\nclip: {}\n", "add", "staples", "name: x\n", "name: x\nstaples: {}\n"},
		{"a group that is commented out", "name: x\n# foam:   # soft\n#   thickness: 1   # rule\n#   price: 3\n", "add", "foam",
			"# foam:   # soft\n#   thickness: 1   # rule\n", "foam:   # soft\n  thickness:    # rule\n"},
		{"a group goes", "foam:   # soft\n  thickness: 1\n  # price: 3\n  sheet: 1 x 2\nname: x\n", "remove", "foam",
			"foam:   # soft\n  thickness: 1\n  # price: 3\n  sheet: 1 x 2\n", "# foam:   # soft\n#   thickness: 1\n  # price: 3\n#   sheet: 1 x 2\n"},
	} {
		t.Run(row.claim, func(t *testing.T) {
			text := parsed(t, []byte(row.from))
			edit := text.Add
			if row.do == "remove" {
				edit = text.Remove
			}
			next, err := edit(path(t, row.path))
			require.NoError(t, err)
			want := strings.Replace(row.from, row.old, row.now, 1)
			require.NotEqual(t, row.from, want)
			assert.Equal(t, want, string(next.data))
		})
	}
}

func TestEntriesThatCantBe(t *testing.T) {
	text := parsed(t, []byte(blockRuns))
	for p, want := range map[string]string{
		"walls[3]":              "there are 2 entries; the new one can't be number 4",
		"name":                  "it is a single value; write it",
		"wall[0]":               "there is no such field",
		"walls[5].runs[0]":      "there is nothing that it could be a field of",
		"walls[0].runs":         "it is in the file already",
		"walls[0].runs[0].name": "it is in the file already",
	} {
		_, err := text.Add(path(t, p))
		assert.ErrorContains(t, err, want, p)
	}
	_, err := text.Remove(path(t, "walls[2]"))
	assert.EqualError(t, err, "walls[2]: it is not in the file")
	_, err = parsed(t, []byte("walls: [{runs: [{across: [2, 94]}]}]\n")).Add(path(t, "walls[0].runs[0].across[2]"))
	assert.ErrorContains(t, err, "it is one reading")
}

func TestEntriesAreMoved(t *testing.T) {
	list := "walls:\n  - name: A   # a\n    # depth: 3\n  # of B\n  - name: B\n    width: 3\n  - name: C"
	for _, row := range []struct {
		from string
		path string
		to   int
		want string
	}{
		{list, "walls[0]", 2, "walls:\n  - name: B\n    width: 3\n  # of B\n  - name: C\n  - name: A   # a\n    # depth: 3"},
		{list, "walls[2]", 0, "walls:\n  - name: C\n  # of B\n  - name: A   # a\n    # depth: 3\n  - name: B\n    width: 3"},
		{list, "walls[1]", 1, list},
		{"walls: [{name: A}, {name: B} , {name: C}]\n", "walls[0]", 1, "walls: [{name: B}, {name: A} , {name: C}]\n"},
	} {
		next, err := parsed(t, []byte(row.from)).Move(path(t, row.path), row.to)
		require.NoError(t, err)
		assert.Equal(t, row.want, string(next.data))
	}
	_, err := parsed(t, []byte(list)).Move(path(t, "walls[0]"), 3)
	assert.EqualError(t, err, "walls[0]: there is no such entry")
}

func TestOneWayIsChosenForAnother(t *testing.T) {
	for _, row := range []struct{ claim, from, path, field, want string }{
		{"in brackets", "walls: [{runs: [{name: N, panels: 4, gap: 1}]}]\n", "walls[0].runs[0]", "widths",
			"walls: [{runs: [{name: N, widths: , gap: 1}]}]\n"},
		{"on lines, commented out", "walls:\n  - runs:\n      - name: N\n        panels: 4   # number\n        # widths: [18, 24]   # or these\n", "walls[0].runs[0]", "widths",
			"walls:\n  - runs:\n      - name: N\n        # panels: 4   # number\n        widths:    # or these\n"},
		{"several fields for one", "walls: [{runs: [{name: N, area: [[1, 2]], panels: 4}]}]\n", "walls[0].runs[0]", "height",
			"walls: [{runs: [{name: N, across: , height: , panels: 4}]}]\n"},
		{"one for several", "walls: [{studs: {from: 8, every: 16, depth: 3}}]\n", "walls[0].studs", "at", "walls: [{studs: {at: , depth: 3}}]\n"},
		{"a field that need not be", "heights: {a: {seat: 18, bottom: 20, top: 44}}\n", "heights.a", "sill", "heights: {a: {seat: 18, cushion: , sill: }}\n"},
		{"the one that is there", "walls: [{height: 90}]\n", "walls[0]", "height", "walls: [{height: 90}]\n"},
	} {
		next, err := parsed(t, []byte(row.from)).Choose(path(t, row.path), row.field)
		require.NoError(t, err, row.claim)
		assert.Equal(t, row.want, string(next.data), row.claim)
	}
	_, err := parsed(t, []byte("board: {kerf: 1}\n")).Choose(path(t, "board"), "saw")
	assert.EqualError(t, err, "board.saw: there is no other way to write it")
}

func TestANewNameReachesWhatRefersToIt(t *testing.T) {
	const text = `heights: {settle: {bottom: 1, top: 2}, other: {bottom: 1, top: 2}}   # bands
walls:
  - name: North
    runs:
      - {name: N, height: settle}
      - {name: N1-, height: "settle"}
      - {name: M, height: other}
accept:
  - {finding: a, at: N3, because: b}
  - {finding: a, at: "N1–N4, N6 and M2", because: b}
  - {finding: a, at: run N, because: b}
  - {finding: a, at: "walls North, East", because: b}
  - {finding: a, at: wall North, because: b}
  - {finding: a, at: band settle, because: b}
  - {finding: a, at: N1-4, because: settle at North}
`
	for _, row := range []struct {
		path, name string
		changes    []string
	}{
		{"heights.settle", "bench back", []string{"{settle:", "{bench back:", "height: settle", "height: bench back", `height: "settle"`, `height: "bench back"`, "band settle", "band bench back"}},
		{"walls[0]", "South", []string{"name: North", "name: South", "walls North,", "walls South,", "wall North", "wall South"}},
		{"walls[0].runs[0]", "S", []string{"name: N,", "name: S,", "at: N3", "at: S3", "N1–N4, N6 and", "S1–S4, S6 and", "run N", "run S"}},
	} {
		next, err := parsed(t, []byte(text)).Rename(path(t, row.path), row.name)
		require.NoError(t, err)
		assert.Equal(t, strings.NewReplacer(row.changes...).Replace(text), string(next.data))
		back, err := next.Rename(path(t, strings.Replace(row.path, "settle", "bench back", 1)), strings.NewReplacer("bench back", "settle", "South", "North", "S", "N").Replace(row.name))
		require.NoError(t, err)
		assert.Equal(t, text, string(back.data))
	}
	_, err := parsed(t, []byte(text)).Rename(path(t, "heights.settle"), "other")
	assert.EqualError(t, err, `heights.settle: there is a band "other" already`)
	_, err = parsed(t, []byte(text)).Rename(path(t, "walls[0].runs[0]"), " ")
	assert.EqualError(t, err, "walls[0].runs[0]: it needs a name")
	_, err = parsed(t, []byte(text)).Rename(path(t, "accept[0]"), "x")
	assert.EqualError(t, err, "accept[0]: it has no name")
}

// In other units all measures stay, or all numbers.
func TestUnitsAreSwitchedBothWays(t *testing.T) {
	for name, data := range texts(t) {
		text := parsed(t, data)
		old, known := text.Units()
		if !known {
			continue
		}
		other := geom.Imperial + geom.Metric - old
		kept, _, err := text.SetUnits(other, true)
		require.NoError(t, err, name)
		was, err := jobOf(data)
		if err != nil {
			continue // a bad file has no measures
		}
		j, err := jobOf(kept.data)
		require.NoError(t, err, "%s\n%s", name, kept.data)
		assert.Equal(t, other, j.Units)
		assert.Equal(t, was.Walls[0].Width, j.Walls[0].Width)
		assert.Equal(t, was.Walls[0].Outline, j.Walls[0].Outline)
		assert.Equal(t, was.Board.Thickness, j.Board.Thickness)
		assert.Equal(t, was.Board.Sheet, j.Board.Sheet)
		assert.Equal(t, was.Clip.Wall, j.Clip.Wall)
		assert.Equal(t, was.Clip.Offset, j.Clip.Offset)
		assert.Equal(t, was.Screws.OnHand, j.Screws.OnHand)
		assert.Equal(t, was.Screws.Board, j.Screws.Board)
		assert.Equal(t, was.Bands, j.Bands)
		for i := range was.Walls {
			for k, run := range was.Walls[i].Runs {
				assert.Equal(t, run.Across, j.Walls[i].Runs[k].Across)
				assert.Equal(t, run.Area, j.Walls[i].Runs[k].Area)
				assert.Equal(t, run.Widths, j.Walls[i].Runs[k].Widths)
			}
		}
		back, _, err := kept.SetUnits(old, true)
		require.NoError(t, err)
		again, err := jobOf(back.data)
		require.NoError(t, err)
		assert.Equal(t, was, again)
		anew, _, err := text.SetUnits(other, false)
		require.NoError(t, err)
		from, to, _ := difference(data, anew.data)
		assert.LessOrEqual(t, to-from, 2, "only the units change")
	}
	text := parsed(t, []byte("units: in\nscrews: {board: {size: 8}, on hand: [1, 25 mm]}\nboard: {sheet: 48 x 96 in, kerf: 0}\ncover: {price: 3}\nwrap: 2 1/2\nheights: {a: {gap: even, seat: [17 1/2, 3' 2\"]}}\n"))
	next, recount, err := text.SetUnits(geom.Metric, true)
	require.NoError(t, err)
	assert.Equal(t, "units: mm\nscrews: {board: {size: no 8}, on hand: [1 in, 25 mm]}\nboard: {sheet: 48 in x 96 in, kerf: 0}\ncover: {price: 3}\nwrap: 2 1/2 in\nheights: {a: {gap: even, seat: [17 1/2 in, 3' 2\"]}}\n", string(next.data))
	assert.Equal(t, []Path{path(t, "cover.price")}, recount)
}

func FuzzEdit(f *testing.F) {
	for _, data := range texts(f) {
		f.Add(data, "walls[0].name", "a #b", uint8(0))
	}
	f.Add([]byte(blockRuns), "walls[0].runs[0]", "", uint8(2))
	f.Add([]byte(flowRuns), "walls[0].runs[1]", "N, ]", uint8(1))
	f.Fuzz(func(t *testing.T, data []byte, at, typed string, op uint8) {
		text, err := ParseText(data)
		p, wrong := ParsePath(at)
		if err != nil || wrong != nil || len(p) == 0 || len(p) > maxDepth {
			return
		}
		var next *Text
		switch op % 5 {
		case 0:
			next, err = text.Set(p, typed)
			if got, _ := text.Value(p); err == nil && strings.TrimSpace(typed) != "" && len(typed) > 0 && typed[0] != '[' && typed[0] != '{' {
				if now, _ := next.Value(p); now != strings.TrimSpace(typed) {
					t.Fatalf("%q was %q, set to %q and is %q", p, got, typed, now)
				}
			}
		case 1:
			next, err = text.Remove(p)
		case 2:
			next, err = text.Add(p)
		case 3:
			next, err = text.Rename(p, typed)
		case 4:
			next, _, err = text.SetUnits(geom.System(len(typed)%2), len(at)%2 == 0)
		}
		if err != nil {
			return
		}
		if _, err := ParseText(next.Bytes()); err != nil {
			t.Fatalf("unreadable: %v", err)
		}
	})
}

func BenchmarkSetInAThousandPanels(b *testing.B) {
	text, err := ParseText(manyRuns(100, 10))
	require.NoError(b, err)
	p, err := ParsePath("walls[50].width")
	require.NoError(b, err)
	for b.Loop() {
		if _, err := text.Set(p, "29 m"); err != nil {
			b.Fatal(err)
		}
	}
}
