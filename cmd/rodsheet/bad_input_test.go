package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func hall(t *testing.T, old, changed string) string {
	t.Helper()
	data, err := os.ReadFile("testdata/hall.yaml")
	require.NoError(t, err)
	require.Contains(t, string(data), old)
	return strings.Replace(string(data), old, changed, 1)
}

// Every item of what people get wrong: one clear message, and never half a file.
func TestBadJobsGetOneClearMessage(t *testing.T) {
	for _, row := range []struct {
		name, job string
		code      exit
		says      string
	}{
		{"text that is not YAML", "walls: [\x00", misunderstood, "job.yaml:"},
		{"a picture", "\x89PNG\r\n\x1a\n\x00\x00", misunderstood, "job.yaml:"},
		{"an empty file", "", misunderstood, "job.yaml:1:1: "},
		{"an unknown field", hall(t, "clip: {kind", "clipp: {kind"), misunderstood, "clip"},
		{"a missing field", hall(t, "thickness: 12,", ""), misunderstood, "board.thickness"},
		{"a negative length", hall(t, "width: 1200", "width: -1200"), misunderstood, "negative"},
		{"a zero length", hall(t, "width: 1200", "width: 0"), misunderstood, "0 mm is less than the 25 mm that is sensible here"},
		{"an absurd length", hall(t, "width: 1200", "width: 1e9"), misunderstood, `"1e9" is no length`},
		{"a length in the wrong unit", hall(t, "width: 1200", "width: 1200 m"), misunderstood, "is the unit right?"},
		{"a zero under the stroke", hall(t, "width: 1200", "width: 10 1/0 in"), misunderstood, "a fraction can't have a zero under its stroke"},
		{"a comma", hall(t, "width: 1200", "width: 5,5"), misunderstood, "write a point, as in 5.5"},
		{"other digits", hall(t, "width: 1200", "width: ٣ in"), misunderstood, `"٣ in" is no length`},
		{"more panels than fit", hall(t, "panels: 2, gap: 5", "panels: 300, gap: 5"), misunderstood, "walls[0].runs[0]"},
		{"clips that fit on no board", hall(t, "panels: 2, gap: 5", "panels: 8, gap: 5"), refused, "no-place at H1–H8: The board of each of H1–H8 is"},
		{"a length in two units", hall(t, "width: 1200", "width: 120 mm in"), misunderstood, `"in" is left over`},
		{"a page smaller than its margin and overlap", hall(t, "{size: a4}", "{size: 100 x 150, margin: 30, overlap: 25}"), misunderstood, "twice the margin"},
		{"a page too small for its check lines", hall(t, "{size: a4}", "{size: 105 x 148}"), misunderstood, "is the least: take larger paper"},
		{"deep nesting", strings.Repeat("[", 100_000), misunderstood, "job.yaml:"},
		{"an alias bomb", bomb(), misunderstood, "job.yaml:"},
		{"a long line", "name: " + strings.Repeat("x", 500_000), misunderstood, "job.yaml:"},
		{"a huge file", strings.Repeat("# nothing\n", 200_000), misunderstood, "is it the right file?"},
	} {
		t.Run(row.name, func(t *testing.T) {
			dir := t.TempDir()
			file := filepath.Join(dir, "job.yaml")
			require.NoError(t, os.WriteFile(file, []byte(row.job), 0o644))
			got := command(t, nil, "print", file, "-o", filepath.Join(dir, "out.pdf"))
			assert.Equal(t, row.code, got.code, got.err)
			assert.Contains(t, got.err, row.says)
			assert.Empty(t, got.out)
			assert.NotContains(t, got.err, "Usage:", "only a misused command line prints the usage")
			assert.Less(t, len(got.err), 40_000)
			left, err := os.ReadDir(dir)
			require.NoError(t, err)
			assert.Len(t, left, 1, "no half file")
		})
	}
}

func bomb() string {
	var b strings.Builder
	b.WriteString("a0: &a0 [x, x, x, x, x, x, x, x, x]\n")
	for i := 1; i < 12; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [*a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d]\n", i, i, i-1, i-1, i-1, i-1, i-1, i-1, i-1, i-1, i-1)
	}
	return b.String()
}

func TestEveryProblemOfAJobIsToldWithItsPlace(t *testing.T) {
	job := strings.Replace(hall(t, "width: 1200", "width: -1200"), "gap: 5", "gaps: 5", 1)
	got := command(t, strings.NewReader(job), "check", "-")
	assert.Equal(t, misunderstood, got.code)
	assert.Contains(t, got.err, "standard input:16:12: walls[0].width: ")
	assert.Contains(t, got.err, "16 |     width: -1200\n")
	assert.Contains(t, got.err, "standard input:22:")
	assert.Contains(t, got.err, "gaps")
}

func TestNoProblemIsToldTwice(t *testing.T) {
	got := command(t, strings.NewReader(hall(t, "{size: a4}", "{size: 5 x 5}")), "check", "-")
	assert.Equal(t, misunderstood, got.code)
	assert.Equal(t, 1, strings.Count(got.err, "is less than"), "both sides are short, at one place: %s", got.err)
}

// endless is a file that never ends.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	e.read += len(p)
	for i := range p {
		p[i] = '#'
	}
	return len(p), nil
}

func TestAHugeFileIsNotReadToItsEnd(t *testing.T) {
	in := &endless{}
	got := command(t, in, "plan", "-")
	assert.Equal(t, misunderstood, got.code)
	assert.Contains(t, got.err, "is it the right file?")
	assert.Less(t, in.read, 4<<20)
}

func TestFilesThatCannotBeReadOrWritten(t *testing.T) {
	dir := t.TempDir()
	plain := filepath.Join(dir, "plain")
	require.NoError(t, os.WriteFile(plain, []byte("mine"), 0o644))
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), filepath.Join(dir, "dangling")))
	for _, row := range []struct {
		name string
		args []string
		says string
	}{
		{"no such job", []string{"plan", filepath.Join(dir, "none.yaml")}, "no such file"},
		{"a folder for a job", []string{"plan", dir}, "is a directory"},
		{"a folder for a PDF", []string{"print", "--demo", "-o", dir}, "is a folder; name a file in it"},
		{"a missing folder", []string{"print", "--demo", "-o", filepath.Join(dir, "none", "a.pdf")}, "no such file or directory"},
		{"a file for a folder", []string{"print", "--demo", "-o", filepath.Join(plain, "a.pdf")}, "not a directory"},
		{"a name that ends as a folder's", []string{"print", "--demo", "-o", dir + "/new/"}, "name a file"},
		{"a link that leads nowhere", []string{"print", "--demo", "-o", filepath.Join(dir, "dangling")}, "leads nowhere"},
		{"a full device", []string{"print", "--demo", "-o", "/dev/full"}, "no space left on device"},
		{"a file for SVG", []string{"print", "--demo", "--format", "svg", "-o", plain}, "is a file; name a folder"},
		{"a folder that starts a job", []string{"start", dir, "--force"}, "is a folder"},
		{"an unknown printer", []string{"print", "--demo", "-o", filepath.Join(dir, "a.pdf"), "--printer", "den"}, `no printer "den" is known`},
	} {
		t.Run(row.name, func(t *testing.T) {
			if strings.HasPrefix(row.args[len(row.args)-1], "/dev/full") {
				if _, err := os.Stat("/dev/full"); err != nil {
					t.Skip("this system has no device that is always full")
				}
			}
			got := command(t, nil, row.args...)
			assert.Equal(t, refused, got.code, got.err)
			assert.Contains(t, got.err, row.says)
			assert.Equal(t, 1, strings.Count(got.err, "\n"), "one line: %s", got.err)
		})
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 2, "no half file")
	data, err := os.ReadFile(plain)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(data))
}

func TestCommandLinesThatMakeNoSense(t *testing.T) {
	for _, row := range []struct {
		args []string
		says string
	}{
		{[]string{"prnt"}, `there is no command "prnt"; did you mean print?`},
		{[]string{"frobnicate"}, `there is no command "frobnicate"`},
		{[]string{"print", "--demo", "-o", "x.pdf", "--paper", "a9"}, `"a9" is no paper`},
		{[]string{"print", "--demo", "-o", "-", "--pages", "2,400000000"}, "there is no page 400000000: the set has pages 1 to "},
		{[]string{"--nonsense"}, "unknown flag: --nonsense"},
		{[]string{"scale"}, "Say sheet, record, wander, list or forget"},
		{[]string{"scale", "sheets"}, `scale has no "sheets"`},
	} {
		got := command(t, nil, row.args...)
		assert.Equal(t, misunderstood, got.code, "%v", row.args)
		assert.Contains(t, got.err, row.says)
		assert.Contains(t, got.err, "Usage:")
		assert.Empty(t, got.out)
	}
}

func TestAPrintOfThousandsOfPagesIsRefusedUnlessItIsMeant(t *testing.T) {
	// Eighteen boards, each unlike the others and as high as a house, on A4: more than a hundred pages each.
	widths, end := []string{}, 50
	for w := 1000; w < 1072; w += 4 {
		widths, end = append(widths, fmt.Sprint(w)), end+w
	}
	data := strings.NewReplacer("width: 1200", "width: 20000", "height: 2400", "height: 6000", "across: [50, 950]", fmt.Sprintf("across: [50, %d]", end),
		"panels: 2, gap: 5", fmt.Sprintf("template: whole, widths: [%s]", strings.Join(widths, ", ")), "bottom: 500, top: 900", "bottom: 500, top: 5500").Replace(hall(t, "Coat", "Boat"))
	file := filepath.Join(t.TempDir(), "job.yaml")
	require.NoError(t, os.WriteFile(file, []byte(data), 0o644))
	out := filepath.Join(t.TempDir(), "out.pdf")
	got := command(t, nil, "print", file, "-o", out, "--only", "board")
	require.Equal(t, refused, got.code, got.err)
	assert.Contains(t, got.err, "2000 is the limit: are the units right (in for mm)?")
	assert.Contains(t, got.err, "--many")
	_, err := os.Stat(out)
	assert.ErrorIs(t, err, os.ErrNotExist)
	meant := command(t, nil, "print", file, "-o", out, "--only", "board", "--many", "--pages", "1")
	assert.Equal(t, done, meant.code, meant.err)
}

// full is a writer on a disk that is full.
type full struct{ err error }

func (f full) Write([]byte) (int, error) { return 0, f.err }

func TestAReaderWhoHasReadEnoughGetsNoComplaint(t *testing.T) {
	var errs strings.Builder
	code := run([]string{"plan", "--demo"}, env{out: full{syscall.EPIPE}, err: &errs, fs: testFS{}})
	assert.Equal(t, refused, code, "not all was delivered")
	assert.Empty(t, errs.String())
	code = run([]string{"print", "--demo", "-o", "-"}, env{out: full{syscall.EPIPE}, err: &errs, fs: testFS{}})
	assert.Equal(t, refused, code)
	assert.Contains(t, errs.String(), "broken pipe", "half a PDF is worth a word")
}

func TestErrorsOfWritingAreTold(t *testing.T) {
	for _, args := range [][]string{{"plan", "--demo"}, {"check", "--demo"}, {"start", "-"}, {"print", "--demo", "-o", "-"}, {"list", "--demo"}} {
		var errs strings.Builder
		code := run(args, env{out: full{io.ErrShortWrite}, err: &errs, fs: testFS{}})
		assert.Equal(t, refused, code, "%v", args)
		assert.Contains(t, errs.String(), "short write")
	}
}
