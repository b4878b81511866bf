package printer

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/paper"
)

func profile(t *testing.T, name string) Profile {
	t.Helper()
	p, _, err := Correct(name, a4, synthetic{1.004, 0.993, 0.006, 0}.fine(t), false)
	require.NoError(t, err)
	return p
}

func TestProfilesComeBackAsTheyWereSaved(t *testing.T) {
	s := Store{filepath.Join(t.TempDir(), "rodsheet", "printers")}
	want := profile(t, "Laser upstairs")
	require.NoError(t, s.Save(want))
	got, err := s.Load("laser UPSTAIRS", a4)
	require.NoError(t, err)
	assert.Equal(t, want, got)

	plain, _, err := Correct("Tintenstrahler, Büro", paper.Letter.Size, Readings{Across: Line{7 * geom.Inch, 7 * geom.Inch, mm / 2}, Down: Line{9 * geom.Inch, 9*geom.Inch + geom.Inch/16, mm / 2}, Units: geom.Imperial}, false)
	require.NoError(t, err)
	require.NoError(t, s.Save(plain))
	got, err = s.Load("Tintenstrahler, Büro", a4)
	require.NoError(t, err)
	assert.Equal(t, plain, got)
}

func TestFileCanBeReadByPeople(t *testing.T) {
	s := Store{t.TempDir()}
	require.NoError(t, s.Save(profile(t, "Laser upstairs")))
	text, err := os.ReadFile(filepath.Join(s.Dir, "printer-laser_upstairs.yaml"))
	require.NoError(t, err)
	for _, want := range []string{"printer: Laser upstairs", "drawn: 196 mm", "read: 196.786597 mm", "complete: true"} {
		assert.Contains(t, string(text), want)
	}
	again := Store{t.TempDir()}
	require.NoError(t, again.Save(profile(t, "Laser upstairs")))
	other, err := os.ReadFile(filepath.Join(again.Dir, "printer-laser_upstairs.yaml"))
	require.NoError(t, err)
	assert.Equal(t, text, other, "same readings, same bytes")
}

func TestListIsInOrderAndForgetForgets(t *testing.T) {
	s := Store{t.TempDir()}
	none, err := Store{filepath.Join(s.Dir, "nowhere")}.List()
	require.NoError(t, err)
	assert.Empty(t, none)
	for _, name := range []string{"hall", "attic", "Cellar"} {
		require.NoError(t, s.Save(profile(t, name)))
	}
	list, err := s.List()
	require.NoError(t, err)
	require.Len(t, list, 3)
	assert.Equal(t, []string{"attic", "Cellar", "hall"}, []string{list[0].Name, list[1].Name, list[2].Name})

	require.NoError(t, s.Forget("hall"))
	_, err = s.Load("hall", a4)
	var unknown *UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, `no printer "hall" is known; known are: attic, Cellar`, err.Error())
	require.ErrorAs(t, s.Forget("hall"), &unknown)
	_, err = Store{t.TempDir()}.Load("hall", a4)
	assert.ErrorContains(t, err, "record one first")
}

func TestAPrinterHasAProfileForEachPaper(t *testing.T) {
	s := Store{t.TempDir()}
	on := func(size geom.Size, across float64) Profile {
		p, _, err := Correct("den", size, readings(across, 1), false)
		require.NoError(t, err)
		return p
	}
	require.NoError(t, s.Save(on(paper.Letter.Size, 1.006)))
	got, err := s.Load("den", a4)
	require.NoError(t, err)
	assert.Equal(t, paper.Letter.Size, got.Paper, "the only one there is")

	require.NoError(t, s.Save(on(paper.A3.Size, 1.007)))
	require.NoError(t, s.Save(on(a4, 1.008)))
	require.NoError(t, s.Save(on(a4, 1.009)))
	list, err := s.List()
	require.NoError(t, err)
	assert.Equal(t, []Profile{on(a4, 1.009), on(paper.Letter.Size, 1.006), on(paper.A3.Size, 1.007)}, list)
	for _, want := range list {
		got, err := s.Load("den", want.Paper)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	got, err = s.Load("den", geom.Size{W: 216 * mm, H: 280 * mm})
	require.NoError(t, err)
	assert.Equal(t, paper.Letter.Size, got.Paper, "the nearest in size")
}

func TestNamesNeverLeaveTheFolder(t *testing.T) {
	s := Store{filepath.Join(t.TempDir(), "printers")}
	for _, name := range []string{"../../evil", "/etc/passwd", `C:\con`, ".hidden", "con", "a:b*c?", "Büro 2", "100%"} {
		require.NoError(t, s.Save(profile(t, name)), name)
		p, err := s.Load(name, a4)
		require.NoError(t, err, name)
		assert.Equal(t, name, p.Name)
	}
	entries, err := os.ReadDir(filepath.Dir(s.Dir))
	require.NoError(t, err)
	assert.Len(t, entries, 1)
	files, err := os.ReadDir(s.Dir)
	require.NoError(t, err)
	assert.Len(t, files, 8, "one file each, nothing left over")
	for _, bad := range []string{"", " hall", "a\nb", "a\x00b", strings.Repeat("x", 300), "\xff"} {
		assert.Error(t, s.Save(profile(t, bad)), "%q", bad)
	}
}

func TestDifferentNamesGetDifferentFiles(t *testing.T) {
	s := Store{t.TempDir()}
	require.NoError(t, s.Save(profile(t, "a b")))
	require.NoError(t, s.Save(profile(t, "a_b")))
	list, err := s.List()
	require.NoError(t, err)
	assert.Len(t, list, 2)
}

func TestBrokenFileIsAnErrorAndNeverASilentOne(t *testing.T) {
	s := Store{t.TempDir()}
	require.NoError(t, s.Save(profile(t, "hall")))
	file := filepath.Join(s.Dir, "printer-hall.yaml")
	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	broken := func(text string) error {
		t.Helper()
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
		p, err := s.Load("hall", a4)
		var b *BrokenError
		require.ErrorAs(t, err, &b, "%q", text)
		assert.Contains(t, err.Error(), file)
		assert.Zero(t, p)
		return err
	}
	for n := range whole[:len(whole)-1] { // cut short at every byte
		broken(string(whole[:n]))
	}
	text, factor := string(whole), regexp.MustCompile(`across: 1\.\d+`)
	assert.ErrorContains(t, broken(strings.Replace(text, "read: 196.786597 mm", "read: 197.79 mm", 1)), "")
	assert.ErrorContains(t, broken(factor.ReplaceAllString(text, "across: 1.0")), "don't follow")
	assert.ErrorContains(t, broken(factor.ReplaceAllString(text, "across: .nan")), "don't follow")
	assert.ErrorContains(t, broken(strings.Replace(text, "version: 3", "version: 4", 1)), "newer program")
	assert.ErrorContains(t, broken(strings.Replace(text, "version: 3", "version: 2", 1)), "earlier program")
	broken(text + "extra: 1\n")
	broken(strings.Replace(text, "units: mm", "units: ell", 1))
	broken("a: &a [*a, *a]\n")
	broken("\x00\xff")
	broken(strings.Replace(text, "width: 210 mm", "width: 310 mm", 1))
	broken("printer: hall\nversion: 3\npapers: []\ncomplete: true\n")
	broken(strings.Repeat("a", 70<<10))

	_, err = s.List()
	assert.ErrorContains(t, err, "far too large")
	require.NoError(t, s.Forget("hall"), "a broken file can be forgotten")
}

func TestFailedWriteLeavesTheOldFile(t *testing.T) {
	s := Store{t.TempDir()}
	require.NoError(t, s.Save(profile(t, "hall")))
	file := filepath.Join(s.Dir, "printer-attic.yaml")
	require.NoError(t, os.MkdirAll(filepath.Join(file, "in the way"), 0o755)) // a folder can't be replaced by a file
	require.Error(t, s.Save(profile(t, "attic")))
	entries, err := os.ReadDir(s.Dir)
	require.NoError(t, err)
	assert.Len(t, entries, 2, "no half-written file is left")
	_, err = s.Load("hall", a4)
	require.NoError(t, err)
}
