package main

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/tables"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// testFS is the real disk with settings in a folder of the test's own.
type testFS struct {
	osFS
	settings string
}

func (d testFS) config() (string, error) { return d.settings, nil }

type ran struct {
	code     exit
	out, err string
}

// command runs a command line in this process.
func command(t *testing.T, in io.Reader, args ...string) ran {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(args, env{in: in, out: &out, err: &errs, fs: testFS{settings: filepath.Join(t.TempDir(), "settings")}})
	return ran{code, out.String(), errs.String()}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name)
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "go test ./cmd/rodsheet -update rewrites %s", file)
}

func TestWordsForPeopleAndPrograms(t *testing.T) {
	for _, row := range []struct {
		golden string
		args   []string
	}{
		{"plan.txt", []string{"plan", "testdata/hall.yaml"}},
		{"plan.json", []string{"plan", "testdata/hall.yaml", "--json"}},
		{"check.txt", []string{"check", "testdata/hall.yaml"}},
		{"check.json", []string{"check", "testdata/hall.yaml", "--json"}},
		{"blocks.txt", []string{"blocks", "testdata/hall.yaml"}},
		{"blocks.json", []string{"blocks", "testdata/hall.yaml", "--json"}},
		{"list.txt", []string{"list", "testdata/hall.yaml"}},
		{"list.csv", []string{"list", "testdata/hall.yaml", "--csv"}},
		{"list.json", []string{"list", "testdata/hall.yaml", "--json"}},
		{"rules.json", []string{"check", "--explain", "all", "--json"}},
		{"help.txt", nil},
	} {
		t.Run(row.golden, func(t *testing.T) {
			got := command(t, nil, row.args...)
			assert.Equal(t, done, got.code)
			assert.Empty(t, got.err)
			golden(t, row.golden, got.out)
			again := command(t, nil, row.args...)
			assert.Equal(t, got, again, "the same job gives the same words")
		})
	}
}

func TestWordsForPeopleFitAHundredColumns(t *testing.T) {
	for _, args := range [][]string{
		{"plan", "--demo"}, {"check", "--demo"}, {"blocks", "--demo"}, {"list", "--demo"},
		{"plan", "../../testdata/jobs/bay.yaml"}, {"plan", "../../testdata/jobs/loft.yaml"}, {"list", "../../testdata/jobs/bay.yaml"},
		{"check", "../../testdata/jobs/loft.yaml"}, {},
		{"print", "--help"}, {"scale", "--help"},
	} {
		got := command(t, nil, args...)
		for line := range strings.Lines(got.out) {
			assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), tables.Width, "%v: %s", args, line)
		}
	}
}

// A clip's distance from a sloping edge is none: on such boards the words say from where it is told.
func TestThePlanOfSlopedBoardsSaysWhatClipsAreMeasuredFrom(t *testing.T) {
	const words = "On a board that is no rectangle: from the left end and the bottom end of its whole width"
	assert.Contains(t, command(t, nil, "plan", "../../testdata/jobs/loft.yaml").out, words)
	assert.NotContains(t, command(t, nil, "plan", "--demo").out, words)
}

func TestVersionNamesTheGoTools(t *testing.T) {
	got := command(t, nil, "--version")
	assert.Equal(t, done, got.code)
	assert.Regexp(t, `^rodsheet .*, go1\.\S+\n$`, got.out)
}

func TestADemoJobGoesFromFileToPaper(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "settle.pdf")
	first := command(t, nil, "print", "--demo", "-o", file)
	require.Equal(t, done, first.code, first.err)
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(data, []byte("%PDF-1.7")))
	assert.Contains(t, string(data), "/PrintScaling /None")
	assert.Contains(t, first.err, "No layout of the wall and block sheets takes fewer pages.")
	assert.NotContains(t, first.err, "least possible")
	assert.Contains(t, first.err, "“actual size” or 100 %")

	second := command(t, nil, "print", "--demo", "-o", "-")
	require.Equal(t, done, second.code)
	assert.True(t, second.out == string(data), "two runs, a file and a pipe, give the same bytes")

	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing but the file is left behind")
}

func TestSVGPagesGoIntoAFolder(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "sheets")
	got := command(t, nil, "print", "testdata/hall.yaml", "--format", "svg", "-o", folder, "--only", "scale,corner")
	require.Equal(t, done, got.code, got.err)
	files, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.NotEmpty(t, files)
	assert.Equal(t, "01-scale.svg", files[0].Name())
	data, err := os.ReadFile(filepath.Join(folder, "01-scale.svg"))
	require.NoError(t, err)
	assert.Contains(t, string(data), `width="210`)

	again := command(t, nil, "print", "testdata/hall.yaml", "--format", "svg", "-o", folder, "--only", "scale")
	assert.Equal(t, refused, again.code)
	assert.Contains(t, again.err, "is not empty")
	forced := command(t, nil, "print", "testdata/hall.yaml", "--format", "svg", "-o", folder, "--only", "scale", "--force")
	assert.Equal(t, done, forced.code, forced.err)
	after, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, after, len(files))
}

func TestSinglePagesAreAsInTheFullSet(t *testing.T) {
	dir := t.TempDir()
	all, some := filepath.Join(dir, "all"), filepath.Join(dir, "some")
	require.Equal(t, done, command(t, nil, "print", "--demo", "--format", "svg", "-o", all).code)
	got := command(t, nil, "print", "--demo", "--format", "svg", "-o", some, "--pages", "2,4-5")
	require.Equal(t, done, got.code, got.err)
	assert.Regexp(t, `Overview +1  2\n +Corner jig 1 +1  4 +12 times\n +Corner jig 2 +1  5 +12 times\nNext`, got.err, "it tells of what it printed")
	files, err := os.ReadDir(some)
	require.NoError(t, err)
	require.Len(t, files, 3)
	for _, f := range files {
		a, err := os.ReadFile(filepath.Join(all, f.Name()))
		require.NoError(t, err)
		b, err := os.ReadFile(filepath.Join(some, f.Name()))
		require.NoError(t, err)
		assert.Equal(t, string(a), string(b), f.Name())
	}
}

func TestAStartedJobCanBePrinted(t *testing.T) {
	for _, units := range []string{"in", "mm"} {
		file := filepath.Join(t.TempDir(), "wall.yaml")
		got := command(t, nil, "start", file, "--units", units)
		require.Equal(t, done, got.code, got.err)
		again := command(t, nil, "start", file)
		assert.Equal(t, refused, again.code)
		assert.Contains(t, again.err, "is there already")
		assert.Equal(t, done, command(t, nil, "start", file, "--units", units, "--force").code)
		printed := command(t, nil, "print", file, "-o", filepath.Join(t.TempDir(), "wall.pdf"))
		assert.Equal(t, done, printed.code, printed.err)
	}
	piped := command(t, nil, "start", "-")
	assert.Contains(t, piped.out, "units: in")
}

func TestAJobCanComeFromStandardInput(t *testing.T) {
	data, err := os.ReadFile("testdata/hall.yaml")
	require.NoError(t, err)
	piped := command(t, bytes.NewReader(data), "plan", "-", "--json")
	file := command(t, nil, "plan", "testdata/hall.yaml", "--json")
	assert.Equal(t, done, piped.code)
	assert.Equal(t, file.out, piped.out)
}
