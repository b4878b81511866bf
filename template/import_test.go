package template_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "rodsheet"

// arrows are the packages that a package may import; "a/..." stands for a and all below it. Nothing may look back along
// the way of the data: cmd → template → geom.
var arrows = map[string][]string{
	"geom":                          {},
	"geom/cover":                    {"geom"},
	"geom/pack":                     {"geom"},
	"geom/stack":                    {"geom"},
	"geom/cutting":                  {"geom"},
	"template/paper":                {"geom"},
	"template/job":                  {"geom", "template/paper", "template/internal/schema"},
	"template/plan":                 {"geom", "template/job", "template/plan/..."},
	"template/rule":                 {"geom", "template/job", "template/plan/..."},
	"template/plan/finding":         {},
	"template/plan/placement":       {"geom"},
	"template/plan/tolerance":       {"geom", "template/job", "template/plan/finding"},
	"template/plan/layout":          {"geom", "template/job", "template/plan/finding"},
	"template/plan/clips":           {"geom", "template/job", "template/plan/finding", "template/plan/layout", "template/plan/placement"},
	"template/plan/access":          {"geom", "template/job", "template/plan/finding", "template/plan/layout"},
	"template/plan/hanging":         {"geom", "template/job", "template/plan/finding", "template/plan/layout"},
	"template/plan/blocks":          {"geom", "geom/stack", "template/job", "template/plan/finding", "template/plan/layout"},
	"template/plan/fastening":       {"geom", "template/job", "template/plan/finding", "template/plan/layout"},
	"template/plan/covering":        {"geom", "template/job", "template/plan/finding", "template/plan/layout", "template/plan/fastening"},
	"template/plan/stock":           {"geom", "geom/cutting", "template/job", "template/plan/finding", "template/plan/layout", "template/plan/fastening", "template/plan/covering"},
	"template/plan/internal/sample": {"geom", "template/job", "template/plan/finding"},
	"template/plan/internal/hung":   {"geom", "template/job", "template/plan/layout"},
	"template/printer":              {"geom", "template/paper", "template/atomicfile"},

	"template/atomicfile":      {},
	"template/internal/schema": {},

	"template/font":    {"geom"},
	"template/drawing": {"geom", "template/font"},
	"template/typeset": {"geom", "template/drawing", "template/font"},
	"template/sheet":   {"geom", "geom/cutting", "template/job", "template/paper", "template/plan/...", "template/rule", "template/drawing", "template/typeset", "template/font"},
	"template/page":    {"geom", "geom/cover", "geom/pack", "template/drawing", "template/typeset", "template/font"},

	"template/internal/render":   {"geom", "template/drawing", "template/font", "template/page"},
	"template/internal/reader":   {"geom", "template/drawing", "template/font", "template/page"},
	"template/internal/specimen": {"geom", "template/drawing", "template/page", "template/paper"},
	"template/pdf":               {"geom", "template/drawing", "template/font", "template/page", "template/internal/render"},
	"template/svg":               {"geom", "template/drawing", "template/font", "template/page", "template/internal/render"},

	"template":        {"geom", "template/job", "template/plan/...", "template/rule", "template/drawing", "template/sheet", "template/page"},
	"template/tables": {"geom", "template", "template/job", "template/plan/...", "template/rule", "template/page"},
	"template/report": {"geom", "template", "template/job", "template/plan/...", "template/rule", "template/page", "template/internal/schema"},
}

// testOnly are packages that tests share: none but tests may import them.
var testOnly = []string{"template/internal/reader", "template/internal/specimen", "template/plan/internal/sample", "template/plan/internal/hung"}

// trade are the packages that know panels, clips and walls. What draws, lays out and writes pages reaches none of them.
var (
	trade = []string{"template/job", "template/plan", "template/rule", "template/sheet"}
	drawn = []string{"template/drawing", "template/page", "template/pdf", "template/svg", "template/typeset", "template/font"}
)

// keepers are libraries that few packages may import, so that they can be exchanged there.
var keepers = map[string][]string{
	"github.com/jung-kurt/gofpdf":  {"template/pdf"},
	"github.com/ajstarks/svgo":     {"template/svg"},
	"github.com/goccy/go-yaml":     {"template/job", "template/printer"}, // the two kinds of file that people write
	"github.com/spf13/cobra":       {"cmd/rodsheet"},
	"github.com/go-fonts/dejavu":   {"template/font"},
	"golang.org/x/image/font/sfnt": {"template/font"},
}

// imports lists every package of the module with what its own files, without tests, import.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	root := ".."
	_, err := os.Stat(filepath.Join(root, "go.mod"))
	require.NoError(t, err)
	out := map[string][]string{}
	require.NoError(t, filepath.WalkDir(root, func(file string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && (e.Name() == "testdata" || strings.HasPrefix(e.Name(), ".") && e.Name() != "..") {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		dir, err := filepath.Rel(root, filepath.Dir(file))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(dir)
		for _, spec := range f.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			if !slices.Contains(out[pkg], name) {
				out[pkg] = append(out[pkg], name)
			}
		}
		return nil
	}))
	return out
}

func TestPackagesImportOnlyWhatLiesBelowThem(t *testing.T) {
	all := imports(t)
	require.Contains(t, all, "template/page")
	for pkg, list := range all {
		allowed, known := arrows[pkg]
		if strings.HasPrefix(pkg, "cmd/") {
			allowed, known = []string{"geom/...", "template/..."}, true
		}
		assert.True(t, known, "package %s has no place in the architecture: give it its arrows", pkg)
		for _, name := range list {
			own, inside := strings.CutPrefix(name, module+"/")
			if !inside {
				continue
			}
			free := slices.ContainsFunc(allowed, func(a string) bool {
				below, wide := strings.CutSuffix(a, "/...")
				return own == a || wide && (own == below || strings.HasPrefix(own, below+"/"))
			})
			assert.True(t, free || strings.HasPrefix(pkg, "cmd/") && strings.HasPrefix(own, pkg+"/"), "%s must not import %s", pkg, own)
			assert.NotContains(t, testOnly, own, "%s imports what only tests may", pkg)
		}
	}
}

// The arrows above hold each package to its neighbours; this holds however they change.
func TestPicturesAndPaperReachNothingOfTheTrade(t *testing.T) {
	all := imports(t)
	for _, pkg := range drawn {
		require.Contains(t, all, pkg)
		reached := []string{pkg}
		for i := 0; i < len(reached); i++ {
			for _, name := range all[reached[i]] {
				own, inside := strings.CutPrefix(name, module+"/")
				if !inside || slices.Contains(reached, own) {
					continue
				}
				reached = append(reached, own)
				for _, room := range trade {
					assert.False(t, own == room || strings.HasPrefix(own, room+"/"), "%s reaches %s through %s", pkg, own, reached[i])
				}
			}
		}
	}
}

func TestEachLibraryIsImportedByItsOwnPackagesAlone(t *testing.T) {
	seen := map[string]bool{}
	for pkg, list := range imports(t) {
		for _, name := range list {
			for library, few := range keepers {
				if name == library || strings.HasPrefix(name, library+"/") {
					seen[library] = true
					assert.Contains(t, few, pkg, "%s imports %s", pkg, name)
				}
			}
			assert.False(t, strings.HasPrefix(name, "github.com/stretchr/testify"), "%s imports testify outside its tests", pkg)
		}
	}
	assert.True(t, seen["github.com/jung-kurt/gofpdf"] && seen["github.com/ajstarks/svgo"], "the writers use other libraries: mend this test")
}

// Nothing else stands at the top level, but the hidden files of git and CI.
func TestTheTopLevelHoldsOnlyItsRooms(t *testing.T) {
	// What git keeps counts: a person's own jobs and prints may lie beside it.
	kept, err := exec.Command("git", "-C", "..", "ls-files").Output()
	if err != nil {
		if os.Getenv("CI") != "" {
			require.NoError(t, err)
		}
		t.Skipf("this is no git checkout, so what belongs to the project can't be told: %v", err)
	}
	rooms := []string{"cmd", "template", "geom", "testdata", "README.md", "DEVELOPERS.md", "go.mod", "go.sum"}
	for _, file := range strings.Fields(string(kept)) {
		top, _, _ := strings.Cut(file, "/")
		assert.True(t, slices.Contains(rooms, top) || strings.HasPrefix(top, "."), "%s has no place at the top level", top)
	}
}
