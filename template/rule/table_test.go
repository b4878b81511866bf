package rule

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The levels as the design lays them down, a row for each thing it names.
func TestLevelsAreThoseOfTheTable(t *testing.T) {
	for _, row := range []struct {
		says  string
		id    string
		level Level
	}{
		{"panel over an electrical box", "over-box", Stop},
		{"hole in a keep-out that can't be avoided; no place for a clip", "no-place", Stop},
		{"runs that collide", "corner-collision", Stop},
		{"lift-on panel that can't be lifted", "cannot-lift", Stop},
		{"screw out of the far side of the wall", "screw-far-side", Stop},
		{"a hole out of the far side of masonry", "hole-far-side", Stop},
		{"panel taller than its band", "band-too-low", Stop},
		{"panels of two runs over each other", "runs-overlap", Stop},
		{"no order of hanging", "no-order", Stop},
		{"panels of two runs nearer than their gaps", "runs-near", Caution},
		{"tops or bottoms of neighbouring runs apart by a little", "edges-uneven", Caution},
		{"a board screw through the face by more than half the foam", "screw-pierces", Stop},
		{"screw through the face", "screw-through", Caution},
		{"screw deeper than 1 1/4 in into a stud", "screw-deep", Caution},
		{"clip on lining alone", "on-lining", Caution},
		{"clips nearer than the stance floor", "narrow-stance", Caution},
		{"no studs given", "studs-unknown", Caution},
		{"wall depth unknown", "depth-unknown", Caution},
		{"lining gives", "lining-gives", Caution},
		{"likely error over the play", "error-over-play", Caution},
		{"stack misses its height", "stack-misses", Caution},
		{"wrap too small", "wrap-short", Caution},
		{"load over carries", "load-over", Caution},
		{"near a heater", "near-heater", Caution},
		{"corner jig on a board whose saw error passes half the play", "jig-saw-error", Caution},
		{"carries unknown", "carries-unknown", Note},
		{"field read but not acted on", "not-acted-on", Note},
		{"overlapping fittings", "fittings-overlap", Note},
		{"press panel with no finger room", "shut-in", Note},
		{"board heavier than usual", "heavy-board", Note},
	} {
		r, ok := Of(row.id)
		require.True(t, ok, row.says)
		assert.Equal(t, row.level, r.Level, row.says)
	}
}

// paramsTypes are the types with an ID in the source of the plan and of this package.
func paramsTypes(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, folder := range []string{".", "../plan/..."} {
		for _, file := range sources(t, folder) {
			for _, d := range file.Decls {
				if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil && f.Name.Name == "ID" {
					out = append(out, f.Recv.List[0].Type.(*ast.Ident).Name)
				}
			}
		}
	}
	return out
}

// sources are the parsed files of a folder without its tests; "/..." at its end adds the folders in it.
func sources(t *testing.T, folder string) []*ast.File {
	t.Helper()
	folder, deep := strings.CutSuffix(folder, "/...")
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	require.NoError(t, err)
	if deep {
		below, err := filepath.Glob(filepath.Join(folder, "*", "*.go"))
		require.NoError(t, err)
		names = append(names, below...)
	}
	require.NotEmpty(t, names, folder)
	var out []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		out = append(out, file)
	}
	return out
}

// Rules that share a type of params, as those of all stocks do, have its cases told apart by ID.
func TestEveryTypeOfParamsHasWordsInARuleAndEveryRuleHasATypeOfParams(t *testing.T) {
	types := paramsTypes(t)
	assert.Greater(t, len(types), 40)
	var spoken []string
	for _, r := range Rules() {
		if assert.NotNil(t, r.Params(), r.ID) {
			spoken = append(spoken, reflect.TypeOf(r.Params()).Name())
		}
	}
	slices.Sort(types)
	slices.Sort(spoken)
	assert.Equal(t, types, slices.Compact(spoken))
}

func TestEveryRuleSaysWhyAndWhereItComesFrom(t *testing.T) {
	seen := map[string]bool{}
	sentence := regexp.MustCompile(`^[A-Z].*[^.]\.$`)
	for _, r := range Rules() {
		assert.False(t, seen[r.ID], "%s twice", r.ID)
		seen[r.ID] = true
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, r.ID)
		assert.Regexp(t, sentence, r.Why, r.ID)
		assert.NotEmpty(t, r.Source, r.ID)
		assert.NotRegexp(t, `\.$`, r.Source, r.ID)
	}
}

func TestCautionsNameWhatCanHurtAndDeferToTheCode(t *testing.T) {
	all := strings.ToLower(strings.Join(Cautions(), "\n"))
	for _, word := range []string{
		"cables", "pipes", "dust", "old paint", "linings", "lead", "asbestos", "eye protection", "solvents", "fire rules",
		"open to the public", "overhead", "local codes", "licensed",
	} {
		assert.Contains(t, all, word)
	}
}

// Nothing that people read promises that a wall is safe.
func TestNoTextPromisesSafety(t *testing.T) {
	promise := regexp.MustCompile(`(?i)\b(safe|safely|safety|guarantee[ds]?|secure|securely|certified|foolproof)\b`)
	read := 0
	for _, folder := range []string{".", "../plan/...", "../job", "../sheet", "../page", "../report", "../../cmd/rodsheet"} {
		for _, file := range sources(t, folder) {
			ast.Inspect(file, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					read++
					assert.NotRegexp(t, promise, lit.Value)
				}
				return true
			})
		}
	}
	assert.Greater(t, read, 1000)
}

// unread are the fields of a job that no later step looks at, by what would show one that does. Other things are called
// wood too.
var unread = map[string]string{
	"Bands": "Bands",        // runs hold their band; one that no run names is told
	"Wood":  "Framing.Wood", // told where gravity is missing
	"HasAt": "HasAt",        // told
	"Every": "Every",        // every centre line is in At; asked about where it looks like a slip
}

// A field that only this package reads has been looked at by no step: a new one must be acted on or told.
func TestFieldsOfTheJobAreActedOnOrTold(t *testing.T) {
	looked := map[string]bool{}
	for _, folder := range []string{"../plan/...", "../sheet", "../page", "../report", ".."} {
		for _, file := range sources(t, folder) {
			ast.Inspect(file, func(n ast.Node) bool {
				s, ok := n.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				looked[s.Sel.Name] = true
				if from, ok := s.X.(*ast.SelectorExpr); ok {
					looked[from.Sel.Name+"."+s.Sel.Name] = true
				}
				return true
			})
		}
	}
	checked := 0
	file, err := parser.ParseFile(token.NewFileSet(), "../job/job.go", nil, 0)
	require.NoError(t, err)
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.TypeSpec)
		if !ok || !spec.Name.IsExported() || spec.Name.Name == "Acceptance" {
			return true
		}
		s, ok := spec.Type.(*ast.StructType)
		if !ok {
			return true
		}
		for _, f := range s.Fields.List {
			for _, name := range f.Names {
				checked++
				use, told := unread[name.Name]
				switch {
				case told:
					assert.False(t, looked[use], "%s.%s is acted on now: take it out of the list", spec.Name.Name, name.Name)
				case name.Name != "Accept":
					assert.True(t, looked[name.Name], "%s.%s is acted on by nothing: tell it as not-acted-on", spec.Name.Name, name.Name)
				}
			}
		}
		return true
	})
	assert.Greater(t, checked, 100)
}

func TestWhatIsNotCountedIsNamed(t *testing.T) {
	for _, c := range []struct {
		says  string
		edits []string
	}{
		{"framing.wood (fir)", []string{"# job", "framing: {wood: fir}"}},
		{"The heights at which run N", []string{"across: [10, 60]", "across: [{at: 24, from: 10, to: 60}, {at: 48, from: 10, to: 60}]"}},
		{"No run hangs at the height other.", []string{"# job", "  other: {bottom: 20, top: 30}"}},
		{"No blocks are made", []string{"# job", "blocks: {stock: [3/4]}"}},
		{"wrap.hold is not counted", []string{"# job", "wrap: {size: 2 1/2, hold: 1}"}},
		{"repeat of the cover's pattern", []string{"roll: 54", "repeat: 12"}},
		{"screws that fit the plug, #8 × 2 1/2″", onBrick("size: 8}", "size: 8, length: 1 5/8}")},
		{"The plugs are not counted", []string{"# job", "fixings: {plug: {hole: 1/4, length: 1 1/2}}"}},
		{"The sheet of hardboard is not counted", []string{"# job", "hardboard: {sheet: 24 x 48}"}},
		{"The anchors are not counted", []string{"# job", "fixings: {anchor: {hole: 1/4}}"}},
		{"grain of the boards", []string{"{thickness: 1/2, sheet: 48 x 96", "{thickness: 1/2, grain: along"}},
	} {
		found := ofID(findings(t, c.edits...), "not-acted-on")
		require.Len(t, found, 1, c.says)
		assert.Contains(t, found[0].Text, c.says)
	}
	for _, edits := range [][]string{
		{"# job", "framing: {wood: fir, gravity: 0.5}"},
		{band, "{bottom: 24, top: 48, seat: 21}", "# job", "blocks: {stock: [1 1/2]}"},
		{"# job", "wrap: {hold: 1}"},
		onBrick(),
		onBrick("size: 8}", "size: 8, length: 2 1/2}"),
		anchored("{hole: 1/4, carries: 20 lb}"),
		{"roll: 54", "roll: 54, repeat: 12"},
		{"{thickness: 1/2, sheet: 48 x 96", "{thickness: 1/2, sheet: 48 x 96, grain: along"},
	} {
		assert.Empty(t, ofID(findings(t, edits...), "not-acted-on"), edits)
	}
}
