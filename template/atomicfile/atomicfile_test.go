//go:build unix

package atomicfile

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAFileIsReplacedWholeAndKeepsItsPermissions(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.pdf")
	require.NoError(t, Create(file, []byte("one"), 0o666))
	info, err := os.Stat(file)
	require.NoError(t, err)
	mask := syscall.Umask(0)
	syscall.Umask(mask)
	assert.Equal(t, fs.FileMode(0o666&^mask), info.Mode().Perm(), "as any program makes files")

	require.NoError(t, os.Chmod(file, 0o640))
	assert.ErrorIs(t, Create(file, []byte("two"), 0o666), fs.ErrExist)
	require.NoError(t, Replace(file, []byte("two"), 0o666))
	info, err = os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o640), info.Mode().Perm())

	link := filepath.Join(dir, "link.pdf")
	require.NoError(t, os.Symlink("a.pdf", link))
	require.NoError(t, Replace(link, []byte("three"), 0o666))
	info, err = os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeSymlink, "the link stays a link")
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "three", string(data))
	held, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, held, 2)
}

func TestPipesAreWrittenTo(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	got := make(chan string)
	go func() {
		data, _ := os.ReadFile(pipe)
		got <- string(data)
	}()
	require.NoError(t, Replace(pipe, []byte("through"), 0o666))
	assert.Equal(t, "through", <-got)
	info, err := os.Stat(pipe)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeNamedPipe, "the pipe is still there")
}

func TestAFolderIsFilledWholeOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	folder := filepath.Join(dir, "sheets")
	good := map[string][]byte{"1.svg": []byte("a")}
	bad := map[string][]byte{"1.svg": []byte("new"), "no/2.svg": []byte("b")}
	require.Error(t, Fill(folder, bad, false))
	held, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, held)

	require.NoError(t, Fill(folder, map[string][]byte{"1.svg": []byte("a"), "2.svg": []byte("b")}, false))
	assert.ErrorIs(t, Fill(folder, good, false), fs.ErrExist)
	require.Error(t, Fill(folder, bad, true))
	data, err := os.ReadFile(filepath.Join(folder, "1.svg"))
	require.NoError(t, err)
	assert.Equal(t, "a", string(data), "nothing is replaced when one file fails")
	held, err = os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, held, 2, "nothing is left behind")
}

func TestANewFileNeverTakesThePlaceOfOneThatAppearsMeanwhile(t *testing.T) {
	dir := t.TempDir()
	mine, theirs := filepath.Join(dir, "mine"), filepath.Join(dir, "theirs")
	require.NoError(t, os.WriteFile(mine, []byte("mine"), 0o600))
	require.NoError(t, os.WriteFile(theirs, []byte("theirs"), 0o600))
	assert.ErrorIs(t, moveToNew(mine, theirs), fs.ErrExist)
	data, err := os.ReadFile(theirs)
	require.NoError(t, err)
	assert.Equal(t, "theirs", string(data))
	require.NoError(t, moveToNew(mine, filepath.Join(dir, "free")))
	held, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, held, 2)
}
