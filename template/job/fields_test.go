package job

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// leading reports whether a field is on the way to the target or the target itself.
func leading(f, target *spec) bool {
	return f == target || slices.ContainsFunc(f.fields, func(g *spec) bool { return leading(g, target) })
}

// sampleTree is a job with every field of the table, written as its example; where fields exclude each other, those of
// the target's way. The target gets the value given.
func sampleTree(s, target *spec, u geom.System, value *node) *node {
	out := &node{kind: group, place: Place{1, 1}}
	out.fields = sampleFields(s, target, u, value)
	return out
}

func sampleFields(s, target *spec, u geom.System, value *node) (out []field) {
	for _, f := range s.fields {
		excluded := slices.ContainsFunc(s.OneOf, func(one OneOf) bool {
			own := slices.IndexFunc(one.Ways, func(w Way) bool { return slices.Contains(w.names(), f.Name()) })
			wanted := slices.IndexFunc(one.Ways, func(w Way) bool {
				return slices.ContainsFunc(w.names(), func(name string) bool { return leading(s.byName[name], target) })
			})
			return own >= 0 && own != max(0, wanted)
		})
		if excluded {
			continue
		}
		out = append(out, field{name: f.Name(), place: Place{1, 1}, value: sampleValue(f, target, u, value)})
	}
	return out
}

func sampleValue(f, target *spec, u geom.System, value *node) *node {
	switch {
	case f == target:
		return value
	case f.Kind == KindNamed:
		name := f.Example.Of(u)
		return &node{kind: group, place: Place{1, 1}, fields: []field{{name: name, place: Place{1, 1}, value: sampleTree(f, target, u, value)}}}
	case f.Kind == KindList, f.Kind == KindReadings && leading(f, target):
		return &node{kind: list, place: Place{1, 1}, items: []*node{sampleTree(f, target, u, value)}}
	case f.Kind == KindGroup && (f.Example == Each{} || leading(f, target)):
		return sampleTree(f, target, u, value)
	}
	n := *presetNode(f.sample(u))
	n.place = Place{1, 1}
	return &n
}

// patternOf is a path of the sample with the names and indices taken out.
func patternOf(path string) string {
	return strings.NewReplacer("[0]", "[]", `heights.seat back`, "heights.*").Replace(path)
}

func readSample(target *spec, u geom.System, value *node) []Problem {
	r := &reader{job: &Job{}, names: map[string]string{}}
	r.problems.Source = Source{File: "sample", places: map[string]Place{}}
	r.read(&section{r: r, spec: root, n: sampleTree(root, target, u, value)})
	return r.problems.List
}

func everySpec(s *spec) (out []*spec) {
	for _, f := range s.fields {
		out = append(append(out, f), everySpec(f)...)
	}
	return out
}

// A value of the wrong kind in a field makes the reader complain of that field: so the reader reads it.
func TestTheReaderReadsEveryFieldOfTheTable(t *testing.T) {
	for _, f := range everySpec(root) {
		wrong := &node{kind: group, place: Place{1, 1}, fields: []field{{name: "qqqqqqqqqqqq", place: Place{1, 1}, value: &node{kind: scalar, text: "1"}}}}
		if f.Kind == KindGroup || f.Kind == KindNamed {
			wrong = &node{kind: list, place: Place{1, 1}}
		}
		found := slices.ContainsFunc(readSample(f, geom.Imperial, wrong), func(p Problem) bool { return patternOf(p.Field) == f.Path })
		assert.True(t, found, "%s may hold anything: nobody reads it", f.Path)
	}
}

// Whatever name the reader's code asks for is a field's: the other direction.
func TestTheTableHasEveryFieldThatTheReaderReads(t *testing.T) {
	known := map[string]bool{}
	for _, f := range fields {
		known[f.Name()] = true
	}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	asked := map[string]bool{}
	readers := []string{"has", "get", "read", "at", "need", "needs", "section", "sections", "length", "lengths", "word", "size", "point", "points",
		"scalar", "text", "choice", "truth", "count", "price", "density", "weight", "clothWeight", "field", "key", "add", "judge"}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		ast.Inspect(tree, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			method, ok := call.Fun.(*ast.SelectorExpr)
			lit, isLit := call.Args[0].(*ast.BasicLit)
			if ok && isLit && lit.Kind == token.STRING && slices.Contains(readers, method.Sel.Name) {
				name, err := strconv.Unquote(lit.Value)
				require.NoError(t, err)
				asked[name] = true
			}
			return true
		})
	}
	require.Greater(t, len(asked), 70)
	for name := range asked {
		assert.True(t, known[name], "the reader asks for a field %q, which the table does not have", name)
	}
}

// Examples and defaults are values of their field in both systems of units.
func TestEveryExampleAndDefaultIsRead(t *testing.T) {
	for _, u := range []geom.System{geom.Imperial, geom.Metric} {
		for _, f := range everySpec(root) {
			for _, text := range []string{f.Example.Of(u), f.Default.Of(u)} {
				if text == "" || f.Kind == KindNamed {
					continue
				}
				value := *presetNode(text)
				value.place = Place{1, 1}
				for _, p := range readSample(f, u, &value) {
					// The sample has all fields, and a few contradict each other.
					sampled := strings.HasPrefix(p.Text, "a press clip") || strings.HasPrefix(p.Text, "says nothing without a corner") || strings.HasPrefix(p.Text, "only a heater has one")
					assert.False(t, patternOf(p.Field) == f.Path && !sampled, "%s: %s in %v: %s", f.Path, text, u, p.Text)
				}
			}
		}
	}
}

func TestEveryRowOfTheTableIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Fields() {
		assert.False(t, seen[f.Path], "%s stands twice", f.Path)
		seen[f.Path] = true
		assert.Contains(t, Topics(), f.Topic, f.Path)
		assert.NotEmpty(t, f.How, f.Path)
		assert.LessOrEqual(t, utf8.RuneCountInString(f.How), 104, "%s: one line is enough", f.Path)
		first, _ := utf8.DecodeRuneInString(f.How)
		assert.False(t, unicode.IsUpper(first) || strings.HasSuffix(f.How, "."), "%s: %s", f.Path, f.How)
		group := f.Kind == KindGroup || f.Kind == KindList
		assert.True(t, group || f.Default != Each{} || f.Example != Each{}, "%s has nothing to show", f.Path)
		assert.False(t, f.Required && f.Default != Each{}, "%s is required and has a default", f.Path)
		assert.False(t, f.Default != Each{} && f.Without != "", "%s has a default and says what holds without", f.Path)
		clean := f.Required || f.Default != Each{} || f.Without != "" || f.Instead() != "" || group || f.Kind == KindNamed
		assert.True(t, clean || f.Path == "clip.base" || f.Path == "clip.flange", "%s: what holds when it is left out?", f.Path)
	}
}

func TestFieldAtFollowsPaths(t *testing.T) {
	for path, want := range map[string]string{
		"board.thickness":                 "board.thickness",
		"walls[3].runs[0].across[1].from": "walls[].runs[].across[].from",
		"walls[0]":                        "walls",
		"heights.seat back":               "heights",
		`heights."a.b".seat[1]`:           "heights.*.seat",
		"heights.walls.top":               "heights.*.top",
		"walls[0].runs[0].height.bottom":  "walls[].runs[].height.bottom",
		"clip.wall half.holes[1][0]":      "clip.wall half.holes",
		"walls[0].studs.every":            "walls[].studs.every",
		"walls[0].fittings[12].margin":    "walls[].fittings[].margin",
		"walls[0].runs[1].area[2][0]":     "walls[].runs[].area",
		"accuracy.growth[1]":              "accuracy.growth",
		"walls[0].runs[0].across[0][1]":   "walls[].runs[].across",
		"walls[0].keep-outs[0].size":      "walls[].keep-outs[].size",
		"heights.heights.deck":            "heights.*.deck",
	} {
		p, err := ParsePath(path)
		require.NoError(t, err)
		assert.Equal(t, path, p.String())
		f, ok := FieldAt(p)
		assert.True(t, ok, path)
		assert.Equal(t, want, f.Path)
	}
	for _, path := range []string{"", "bord", "walls[0].run", "heights.a.b"} {
		p, err := ParsePath(path)
		require.NoError(t, err)
		_, ok := FieldAt(p)
		assert.False(t, ok, path)
	}
}

func TestPathsOfOddNamesReadBack(t *testing.T) {
	for _, name := range []string{"a.b", "a[0]", `say "so"`, "seat back", "ä", "[", "]", "a]b", " x ", `\`, "a\nb", "#1"} {
		p := Path{}.Key("heights").Key(name).Key("seat").Index(1)
		back, err := ParsePath(p.String())
		require.NoError(t, err, name)
		assert.Equal(t, p, back)
	}
	for _, text := range []string{".a", "a.", "a..b", "a[", "a[x]", "a[-1]", "a[01]", "a[0]b", `"a`, `a."`, `""`, `a"b"`, "a]"} {
		_, err := ParsePath(text)
		assert.Error(t, err, text)
	}
}

func TestABandMayBeCalledAnything(t *testing.T) {
	text := strings.Replace(strings.Replace(plain, "settle: {bottom: 20, top: 44}", `"a.b[0]": {bottom: 44, top: 20}`, 1), "height: settle", `height: "a.b[0]"`, 1)
	list := problemsOf(t, text)
	require.Len(t, list, 1)
	assert.Equal(t, `heights."a.b[0]".top`, list[0].Field)
	j, err := Read("nook.yaml", []byte(strings.Replace(text, "bottom: 44, top: 20", "bottom: 20, top: 44", 1)))
	require.NoError(t, err)
	assert.Equal(t, 8, j.Source.Of(`heights."a.b[0]".bottom`).Line)
}

// reference is the table of fields as a document, in Markdown.
func reference() string {
	var b strings.Builder
	b.WriteString("# The fields of a job file\n\n" +
		"`rodsheet start FILE` writes a job to begin with, `rodsheet help fields` prints this table, and `rodsheet schema` writes it as a JSON\n" +
		"Schema for editors. A bare number is in the job's `units`; any length may carry its own: `10 1/2 in`, `10-1/2\"`, `3' 4 1/2\"`, `267 mm`,\n" +
		"`26.7 cm`, `1.2 m`. `[]` stands for each entry of a list, `*` for a name of your own.\n")
	for _, topic := range Topics() {
		fmt.Fprintf(&b, "\n## %s\n\n| field | written | left out | what it is, how to measure it |\n|---|---|---|---|\n", strings.ToUpper(string(topic[:1]))+string(topic[1:]))
		for _, f := range fields {
			if f.Topic != topic {
				continue
			}
			absent := f.Absent()
			if other := f.Instead(); other != "" {
				absent = strings.TrimPrefix(absent+"; or "+other, "; ")
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Path, f.Written(), absent, f.How)
		}
	}
	return b.String()
}

func TestTheDocumentOfFieldsIsThatOfTheTable(t *testing.T) {
	if *update {
		require.NoError(t, os.WriteFile("FIELDS.md", []byte(reference()), 0o644))
	}
	have, err := os.ReadFile("FIELDS.md")
	require.NoError(t, err)
	assert.Equal(t, reference(), string(have), "run go test ./template/job -update")
}

// Every field stands in the starter, in the table's order.
func TestTheStarterNamesEveryField(t *testing.T) {
	for _, u := range []geom.System{geom.Imperial, geom.Metric} {
		lines := strings.Split(string(Starter(u)), "\n")
		for _, s := range everySpec(root) {
			if strings.HasPrefix(s.Path, "walls[].runs[].height.") || strings.HasPrefix(s.Path, "walls[].runs[].across[]") {
				continue // one value stands for them
			}
			i := slices.IndexFunc(lines, func(line string) bool { return strings.HasPrefix(strings.TrimLeft(line, " #-"), s.Name()+":") })
			require.GreaterOrEqual(t, i, 0, "%s in %v", s.Path, u)
			lines = lines[i+1:]
		}
	}
}
