package job

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// texts are the job files that edits are tried on: jobs, starters, bad files, and each with other line ends, a byte order
// mark and no last line end.
func texts(t testing.TB) map[string][]byte {
	t.Helper()
	out := map[string][]byte{"starter in": Starter(geom.Imperial), "starter mm": Starter(geom.Metric), "plain": []byte(plain), "bare": []byte(bare)}
	_, out["demo"] = Demo()
	for _, pattern := range []string{"testdata/*.yaml", "testdata/bad/*.yaml", "../../testdata/jobs/*.yaml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, file := range files {
			out[filepath.Base(file)], err = os.ReadFile(file)
			require.NoError(t, err)
		}
	}
	for _, name := range []string{"starter in", "every-field.yaml", "demo"} {
		data := out[name]
		out[name+", CRLF"] = bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))
		out[name+", CR"] = bytes.ReplaceAll(data, []byte("\n"), []byte("\r"))
		out[name+", BOM"] = append([]byte("\ufeff"), data...)
		out[name+", no last line end"] = bytes.TrimRight(data, "\n")
	}
	return out
}

func parsed(t testing.TB, data []byte) *Text {
	t.Helper()
	text, err := ParseText(data)
	require.NoError(t, err, "%s", data)
	return text
}

func path(t testing.TB, text string) Path {
	t.Helper()
	p, err := ParsePath(text)
	require.NoError(t, err)
	return p
}

// difference is what lies between the first and the last byte in which two texts differ.
func difference(a, b []byte) (from, toA, toB int) {
	for from < len(a) && from < len(b) && a[from] == b[from] {
		from++
	}
	toA, toB = len(a), len(b)
	for toA > from && toB > from && a[toA-1] == b[toB-1] {
		toA, toB = toA-1, toB-1
	}
	return from, toA, toB
}

// changed shows the lines round a difference.
func changed(a, b []byte) string {
	from, toA, toB := difference(a, b)
	if from == toA && from == toB {
		return ""
	}
	return fmt.Sprintf("%q became %q", a[max(0, from-40):min(len(a), toA+20)], b[max(0, from-40):min(len(b), toB+20)])
}

func jobOf(data []byte) (*Job, error) {
	j, err := Read("job.yaml", data)
	if j != nil {
		j.Source = Source{}
	}
	return j, err
}

// Every byte outside the value stays.
func TestEveryValueCanBeSetAndReadBack(t *testing.T) {
	for name, data := range texts(t) {
		text := parsed(t, data)
		count := 0
		walk(text.top, root, nil, func(n *node, s *spec, p Path) {
			if s.ofFields() {
				return // foam: 1
			}
			count++
			for i, typed := range []string{"a #b: {c", n.text} {
				if i > 0 && strings.Contains(name, ",") {
					continue // enough of the same
				}
				next, err := text.Set(p, typed)
				require.NoError(t, err, "%s in %s", p, name)
				got, _ := next.Value(p)
				require.Equal(t, typed, got, "%s in %s", p, name)
				from, to, _ := difference(data, next.data)
				if !bytes.Equal(data, next.data) {
					require.GreaterOrEqual(t, from, n.span.from, "%s in %s", p, name)
					require.LessOrEqual(t, to, n.span.to, "%s in %s", p, name)
				}
			}
		})
		assert.Positive(t, count, name)
	}
}

// The same text comes out: in place, with its comment.
func TestARemovedFieldComesBackInItsPlace(t *testing.T) {
	for name, data := range texts(t) {
		text := parsed(t, data)
		walk(text.top, root, nil, func(n *node, s *spec, p Path) {
			f, ok := FieldAt(p)
			if !ok || f.Required || s.ofFields() || p[len(p)-1].Key != f.Name() {
				return
			}
			typed, _ := text.Value(p)
			gone, err := text.Remove(p)
			require.NoError(t, err, "%s in %s", p, name)
			require.False(t, gone.Has(p), "%s in %s", p, name)
			back, err := gone.Set(p, typed)
			require.NoError(t, err, "%s in %s\n%s", p, name, gone.data)
			got, _ := back.Value(p)
			require.Equal(t, typed, got)
			require.True(t, equal(text.top, back.top), "%s in %s", p, name)
			if up, _ := text.find(p.Parent()); !up.span.flow && !text.inBrackets(p.Parent()) && up.kind == group && s.plausible(n) {
				require.Empty(t, changed(data, back.data), "%s in %s", p, name)
			}
		})
	}
}

// What the starter shows in comments is taken in where it stands, and means what is written.
func TestTheStartersCommentsAreTakenIn(t *testing.T) {
	for _, u := range []geom.System{geom.Imperial, geom.Metric} {
		data := Starter(u)
		text := parsed(t, data)
		plainJob, err := jobOf(data)
		require.NoError(t, err)
		for _, s := range everySpec(root) {
			p := path(t, strings.NewReplacer("[]", "[0]", "*", "seat back").Replace(s.Path))
			if text.Has(p) || s.Kind == KindGroup || s.Kind == KindList || strings.HasPrefix(s.Path, "walls[].runs[].height.") || strings.HasPrefix(s.Path, "walls[].runs[].across") {
				continue
			}
			if entry := slices.IndexFunc(p, func(s Step) bool { return s.Key == "" }); entry >= 0 && !text.Has(p[:len(p)-1]) {
				continue // an entry of a list that is commented out is added, not set
			}
			if s.Required && !text.Has(p.Parent()) {
				continue // a place is kept for what a group can't be without
			}
			next, err := text.Set(p, s.sample(u))
			require.NoError(t, err, "%s", p)
			assert.Equal(t, bytes.Count(data, []byte("\n")), bytes.Count(next.data, []byte("\n")), "%s has its line", p)
			if s.Default.Of(u) != "" && s.Path != "walls[].through" && s.Path != "heights.*.deck" {
				shown, err := jobOf(next.data)
				require.NoError(t, err, "%s", p)
				assert.Equal(t, plainJob, shown, "%s shows its default", p)
			}
			gone, err := next.Remove(p)
			require.NoError(t, err, "%s", p)
			again, err := jobOf(gone.data)
			require.NoError(t, err, "%s\n%s", p, gone.data)
			assert.Equal(t, plainJob, again, "without %s its default returns", p)
			assert.Empty(t, changed(data, gone.data), "%s", p)
		}
	}
}

// Every field can be put into a job that has nothing but what it needs.
func TestEveryFieldOfTheTableCanBePutIn(t *testing.T) {
	for name, data := range map[string][]byte{"plain": []byte(plain), "CRLF": bytes.ReplaceAll([]byte(plain), []byte("\n"), []byte("\r\n")), "demo": texts(t)["demo"]} {
		text := parsed(t, data)
		before, err := jobOf(data)
		require.NoError(t, err)
		for _, s := range everySpec(root) {
			p := path(t, strings.NewReplacer("[]", "[0]", "*", "settle").Replace(s.Path))
			if text.Has(p) || s.Kind == KindGroup || s.Kind == KindList || strings.HasPrefix(s.Path, "walls[].runs[].height.") || strings.HasPrefix(s.Path, "walls[].runs[].across[]") {
				continue
			}
			from := text
			for i, step := range p { // entries round it
				if step.Key == "" && !from.Has(p[:i+1]) {
					from, err = from.Add(p[:i+1])
					require.NoError(t, err, "%s", p)
				}
			}
			next, err := from.Set(p, s.sample(geom.Imperial))
			require.NoError(t, err, "%s in %s", p, name)
			got, ok := next.Value(p)
			assert.True(t, ok)
			assert.Equal(t, s.sample(geom.Imperial), got)
			if from == text {
				at, to, _ := difference(data, next.data)
				assert.Equal(t, at, to, "%s: nothing goes for it", p)
			}
			if name == "CRLF" {
				assert.Equal(t, bytes.Count(next.data, []byte("\n")), bytes.Count(next.data, []byte("\r\n")), "%s", p)
			}
			if from == text {
				what := p
				if s.Required {
					what = p.Parent()
				}
				gone, err := next.Remove(what)
				require.NoError(t, err, "%s", p)
				after, err := jobOf(gone.data)
				if assert.NoError(t, err, "%s\n%s", p, gone.data) {
					assert.Equal(t, before, after, "without %s its default returns", p)
				}
			}
		}
	}
}

// hard are values that a file can't hold as they are.
var hard = []string{
	"a #b", "# a", "3/4, x", "null", "Null", "~", "- x", "-", "@x", "`x", "%x", "&x", "*x", "!x", "|", ">", "? x", ": x", "x: y", "x:", "[x", "x]", "{x", "x}",
	`"`, `"x`, `x"y`, `'`, `'x'`, `\`, `a\nb`, `\x41`, "<script>", `"&'`, "true", "yes", "1e9", "0x10", ".5", "1_000", "--- x", "...", "---", "=", "<<", "a,b", ", a", "x # y",
	"שלום", "عرض", "日本", "½", "3′ 4″", "a  b", strings.Repeat("long ", 300) + "end", "key: [a, b]", "a: {b: c}", "+1", "0o7", "2001-01-01", "é́", "12:30", "a\u00a0b",
}

func TestHardValuesReadBackAsTyped(t *testing.T) {
	block := parsed(t, []byte("name: x   # kept\nwalls:\n  - name:\n      below\n    runs:\n      - {name: N, height: \"h\", widths: ['1', 2]}\n"))
	for _, p := range []string{"name", "walls[0].name", "walls[0].runs[0].name", "walls[0].runs[0].height", "walls[0].runs[0].widths[0]", "walls[0].runs[0].widths[1]", "walls[0].lining.gives", "walls[0].runs[0].template"} {
		for _, typed := range hard {
			next, err := block.Set(path(t, p), typed)
			require.NoError(t, err, "%s: %q", p, typed)
			got, _ := next.Value(path(t, p))
			assert.Equal(t, typed, got, p)
			assert.Contains(t, string(next.data), "# kept")
			again, err := next.Set(path(t, p), typed)
			require.NoError(t, err)
			assert.Equal(t, string(next.data), string(again.data), "%s: %q is written as before", p, typed)
		}
	}
}

func TestHardNamesOfBands(t *testing.T) {
	text := parsed(t, []byte(plain))
	for _, name := range append(hard, "a.b", "a[0]", "walls", "seat", "heights") {
		if strings.ContainsRune(name, '\u00a0') {
			continue // the reader trims names as it trims values, and the run could not name it
		}
		next, err := text.Rename(path(t, "heights.settle"), name)
		require.NoError(t, err, "%q", name)
		got, _ := next.Value(path(t, "walls[0].runs[0].height"))
		assert.Equal(t, name, got)
		_, err = jobOf(next.data)
		assert.NoError(t, err, "%q\n%s", name, next.data)
		seat := Path{}.Key("heights").Key(name).Key("seat")
		set, err := next.Set(seat, "17 1/2")
		require.NoError(t, err, "%q", name)
		j, err := jobOf(set.data)
		require.NoError(t, err, "%q", name)
		assert.True(t, j.Bands[0].HasSeat)
		added, err := text.Add(Path{}.Key("heights").Key(name))
		require.NoError(t, err, "%q", name)
		assert.True(t, added.Has(Path{}.Key("heights").Key(name).Key("bottom")))
	}
}

func TestSettingAValueIsOneChange(t *testing.T) {
	for _, row := range []struct{ claim, from, path, typed, want string }{
		{"a comment is kept", "board: {thickness: 1/2}   # birch\n", "board.thickness", "15/32", "board: {thickness: 15/32}   # birch\n"},
		{"double quotes are kept", "name: \"a\" # b\n", "name", "c", "name: \"c\" # b\n"},
		{"single quotes are kept", "name: 'a' # b\n", "name", "it's", "name: 'it''s' # b\n"},
		{"quotes where they must be", "name: a\n", "name", "a #b", "name: \"a #b\"\n"},
		{"a value below its key", "name:\n  a   # b\nunits: in\n", "name", "c", "name:\n  c   # b\nunits: in\n"},
		{"nothing written yet", "board:\n  thickness:   # as measured\n", "board.thickness", "1/2", "board:\n  thickness: 1/2   # as measured\n"},
		{"nothing written yet, in brackets", "board: {thickness: , kerf: 1/8}\n", "board.thickness", "1/2", "board: {thickness: 1/2, kerf: 1/8}\n"},
		{"nothing written yet, tight", "board: {thickness:, kerf: 1/8}\n", "board.thickness", "1/2", "board: {thickness: 1/2, kerf: 1/8}\n"},
		{"null", "board: {thickness: ~}\n", "board.thickness", "1/2", "board: {thickness: 1/2}\n"},
		{"a list", "screws:\n  on hand: [1, 2] # all\n", "screws.on hand", "[1, 1 1/4]", "screws:\n  on hand: [1, 1 1/4] # all\n"},
		{"a list over lines", "screws:\n  on hand: [1, # one\n    2]\nunits: in\n", "screws.on hand[1]", "3", "screws:\n  on hand: [1, # one\n    3]\nunits: in\n"},
		{"a list on lines", "screws:\n  on hand:   # all\n    - 1\n    - 2\n  price: 3\n", "screws.on hand", "[3]", "screws:\n  on hand: [3]   # all\n  price: 3\n"},
		{"an entry of a list on lines", "screws:\n  on hand:   # all\n    - 1 # one\n    - 2\n", "screws.on hand[0]", "3/4", "screws:\n  on hand:   # all\n    - 3/4 # one\n    - 2\n"},
		{"no list at all", "screws:\n  on hand: [1, 2]\n", "screws.on hand", "[1, 2", "screws:\n  on hand: \"[1, 2\"\n"},
		{"a required field is emptied", "board:\n  thickness: 1/2   # birch\n", "board.thickness", "", "board:\n  thickness:    # birch\n"},
		{"a required field is emptied, at the end", "board:\n  thickness: 1/2", "board.thickness", "", "board:\n  thickness:"},
		{"an optional field is commented out", "board:\n  kerf: 1/8   # band saw\n  saw: 1/16\n", "board.kerf", "", "board:\n  # kerf: 1/8   # band saw\n  saw: 1/16\n"},
		{"and taken in", "board:\n  # kerf: 1/8   # band saw\n  saw: 1/16\n", "board.kerf", "3/32", "board:\n  kerf: 3/32   # band saw\n  saw: 1/16\n"},
		{"a remark is no field", "board:\n  # kerf: ask the shop\n  saw: 1/16\n", "board.kerf", "3/32", "board:\n  # kerf: ask the shop\n  kerf: 3/32\n  saw: 1/16\n"},
		{"the table's order", "board:\n  thickness: 1/2\n  price: 3\n", "board.kerf", "3/32", "board:\n  thickness: 1/2\n  kerf: 3/32\n  price: 3\n"},
		{"before the first", "board:\n  price: 3\n", "board.kerf", "3/32", "board:\n  kerf: 3/32\n  price: 3\n"},
		{"in brackets", "board: {thickness: 1/2, price: 3}\n", "board.kerf", "3/32", "board: {thickness: 1/2, kerf: 3/32, price: 3}\n"},
		{"first in brackets", "board: {price: 3}\n", "board.kerf", "3/32", "board: {kerf: 3/32, price: 3}\n"},
		{"in empty brackets with a comment", "clips: { # none\n  }\n", "clips.number", "5", "clips: {number: 5 # none\n  }\n"},
		{"in empty brackets", "clips: {}\n", "clips.number", "5", "clips: {number: 5}\n"},
		{"with its group", "name: a\nwalls: []\n", "clips.number", "5", "name: a\nclips:\n  number: 5\nwalls: []\n"},
		{"with its group, without a last line end", "name: a", "clips.number", "5", "name: a\nclips:\n  number: 5"},
		{"below an empty group", "clips:   # all\nwalls: []\n", "clips.number", "5", "clips:   # all\n  number: 5\nwalls: []\n"},
		{"groups in brackets", "walls: [{name: N}]\n", "walls[0].lining.thickness", "1/2", "walls: [{name: N, lining: {thickness: 1/2}}]\n"},
		{"groups on lines", "walls:\n  - name: N\n    width: 3\n", "walls[0].lining.thickness", "1/2", "walls:\n  - name: N\n    width: 3\n    lining:\n      thickness: 1/2\n"},
		{"a commented group", "units: in\n\n# wrap:   # cover\n#   size: auto\n#   hold: 1   # behind\n", "wrap.hold", "2", "units: in\n\nwrap:   # cover\n#   size: auto\n  hold: 2   # behind\n"},
		{"a commented group in brackets", "units: in\n# framing: {wood: spruce, gravity: 0.42}   # studs\n", "framing.gravity", "0.5", "units: in\nframing: {gravity: 0.5}   # studs\n"},
		{"comments of the group before stay with it", "cover:\n  thickness: 1\n  # price: 3\n\nclip: {}\n", "wrap.hold", "2", "cover:\n  thickness: 1\n  # price: 3\nwrap:\n  hold: 2\n\nclip: {}\n"},
		{"one value for a group", "wrap: 2 1/2 # all\n", "wrap.size", "3", "wrap: 3 # all\n"},
		{"one value for a group gets company", "wrap: 2 1/2 # all\n", "wrap.hold", "1", "wrap: {size: 2 1/2, hold: 1} # all\n"},
		{"one value for a group goes", "name: a\nwrap: 2 1/2 # all\n", "wrap.size", "", "name: a\n# wrap: 2 1/2 # all\n"},
		{"the last field takes its group along", "name: a\nwrap:\n  # size: auto\n  hold: 1\n", "wrap.hold", "", "name: a\n# wrap:\n  # size: auto\n#   hold: 1\n"},
		{"and brings it back", "name: a\n# wrap:\n  # size: auto\n#   hold: 1\n", "wrap.size", "3", "name: a\nwrap:\n  size: 3\n#   hold: 1\n"},
		{"the first field of an entry", "walls:\n  - name: N   # n\n    width: 3\n", "walls[0].corner", "none", "walls:\n  - name: N   # n\n    width: 3\n    corner: none\n"},
		{"a field on the dash's line", "fittings: x\nwalls:\n  - openings:\n      - name: a   # b\n        at: [1, 2]\n", "walls[0].openings[0].name", "", "fittings: x\nwalls:\n  - openings:\n      - # name: a   # b\n        at: [1, 2]\n"},
		{"and back", "walls:\n  - openings:\n      - # name: a   # b\n        at: [1, 2]\n", "walls[0].openings[0].name", "c", "walls:\n  - openings:\n      - name: c   # b\n        at: [1, 2]\n"},
		{"from a name to a band", "walls: [{runs: [{height: back}]}]\n", "walls[0].runs[0].height", "{bottom: 20, top: 44}", "walls: [{runs: [{height: {bottom: 20, top: 44}}]}]\n"},
		{"from a band to a name", "walls:\n- runs:\n  - height:\n      bottom: 20\n      top: 44\n    panels: 2\n", "walls[0].runs[0].height", "back", "walls:\n- runs:\n  - height: back\n    panels: 2\n"},
		{"readings", "walls: [{runs: [{across: [2, 94]}]}]\n", "walls[0].runs[0].across", "[{at: 20, from: 2, to: 94}]", "walls: [{runs: [{across: [{at: 20, from: 2, to: 94}]}]}]\n"},
		{"blanks round it don't count", "name: a\n", "name", "  b ", "name: b\n"},
		{"nothing where nothing is", "name: a\n", "clips.number", " ", "name: a\n"},
	} {
		t.Run(row.claim, func(t *testing.T) {
			next, err := parsed(t, []byte(row.from)).Set(path(t, row.path), row.typed)
			require.NoError(t, err)
			assert.Equal(t, row.want, string(next.data))
		})
	}
}

func TestEditsThatAreRefused(t *testing.T) {
	for _, row := range []struct{ claim, from, path, typed, want string }{
		{"a block of text", "name: |\n  a\n  b\n", "name", "c", "name: it goes over several lines; change it in the file itself"},
		{"a folded block", "name: >-\n  a\n  b\nunits: in\n", "name", "c", "several lines"},
		{"a value over two lines", "name: a\n  b\nunits: in\n", "name", "c", "several lines"},
		{"a quoted value over two lines", "name: \"a\n  b\"\nunits: in\n", "name", "c", "several lines"},
		{"a doubled key", "name: a\nname: b\n", "name", "c", "it is given twice; take one out in the file itself"},
		{"no such field", "name: a\n", "nome", "c", "nome: there is no such field"},
		{"no such entry", "walls: []\n", "walls[0].name", "c", "walls[0].name: there is nothing that it could be a field of"},
		{"a field of a single value", "board: 3\n", "board.kerf", "1", "there is nothing that it could be a field of"},
		{"a field of a band's name", "walls: [{runs: [{height: back}]}]\n", "walls[0].runs[0].height.seat", "1", "there is nothing that it could be a field of"},
		{"one value for a group", "board: {kerf: 1}\n", "board", "3", "it has fields of its own; write those"},
		{"one value for an entry", "walls: [{name: N}]\n", "walls[0]", "N", "it has fields of its own; write those"},
		{"nothing for a group that must be", "board:\n  kerf: 1\n", "board", "", "a job can't be without it"},
		{"a tab", "name: a\n", "name", "b\tc", "a value is one line of letters, digits and signs"},
		{"a line end", "name: a\n", "name", "b\nc", "a value is one line of letters, digits and signs"},
		{"a control character", "name: a\n", "name", "b\x00c", "a value is one line of letters, digits and signs"},
		{"half a letter", "name: a\n", "name", "b\xff", "a value is one line of letters, digits and signs"},
		{"a group with comments inside", "walls:\n- runs:\n  - height:\n      bottom: 20 # low\n      top: 44\n", "walls[0].runs[0].height", "back", "there are comments in it"},
		{"too long a file", "name: a\n", "name", strings.Repeat("x", MaxSize), "could not be read after this change"},
	} {
		t.Run(row.claim, func(t *testing.T) {
			text := parsed(t, []byte(row.from))
			_, err := text.Set(path(t, row.path), row.typed)
			var refusal *EditError
			require.ErrorAs(t, err, &refusal)
			assert.Contains(t, err.Error(), row.want)
			assert.Equal(t, row.from, string(text.data))
		})
	}
}

// An edit whose bytes would do more than they say is found out.
func TestAChangeThatTouchesMoreThanItsValueIsRefused(t *testing.T) {
	text := parsed(t, []byte("name: a\nboard: {kerf: 1, saw: 2}\n"))
	want := text.top.clone()
	want.find(path(t, "board.kerf")).text = "3"
	n, _ := text.find(path(t, "board.kerf"))
	for _, c := range []change{{n.span.from, n.span.to + 1, "3"}, {n.span.from, n.span.to, "3, saw: 4"}, {n.span.from, n.span.to, "3 # x"}, {n.span.from, n.span.to, "3}\nunits: {in: 1"}} {
		next, err := text.splice(nil, c)
		if err == nil {
			_, err = checked(nil, next, want)
		}
		assert.Error(t, err, c.text)
	}
	next, err := text.splice(nil, change{n.span.from, n.span.to, "3"})
	require.NoError(t, err)
	_, err = checked(nil, next, want)
	assert.NoError(t, err)
}
