//go:build unix

package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/cmd/rodsheet/view"
	"rodsheet/template/job"
)

// TestMain lets the test's own binary be the program, so that tests can start and kill it.
func TestMain(m *testing.M) {
	if os.Getenv("RODSHEET_TEST_RUN") != "" {
		main()
	}
	os.Exit(m.Run())
}

// A viewer is the program as view, in a process of its own, and a browser on it.
type viewer struct {
	t       *testing.T
	cmd     *exec.Cmd
	said    *bufio.Reader
	errs    bytes.Buffer
	browser http.Client
	base    string
}

func startView(t *testing.T, state string, args ...string) *viewer {
	t.Helper()
	v := &viewer{t: t, cmd: exec.Command(os.Args[0], append([]string{"view", "--no-open"}, args...)...)}
	v.cmd.Env = append(os.Environ(), "RODSHEET_TEST_RUN=1", "XDG_STATE_HOME="+state, "XDG_CONFIG_HOME="+state, "HOME="+state)
	v.cmd.Stderr = &v.errs
	out, err := v.cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, v.cmd.Start())
	t.Cleanup(func() { _ = v.cmd.Process.Kill() })
	v.said = bufio.NewReader(out)
	address := ""
	for !strings.HasPrefix(address, "http://") {
		line, err := v.said.ReadString('\n')
		require.NoError(t, err, v.errs.String())
		address = strings.TrimSuffix(line, "\n")
	}
	v.browser.Jar, err = cookiejar.New(nil)
	require.NoError(t, err)
	r, err := v.browser.Get(address)
	require.NoError(t, err)
	r.Body.Close()
	v.base, _, _ = strings.Cut(address, "/enter/")
	return v
}

func (v *viewer) get(path string) string {
	v.t.Helper()
	r, err := v.browser.Get(v.base + path)
	require.NoError(v.t, err)
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	require.NoError(v.t, err)
	require.Equal(v.t, 200, r.StatusCode, "%s: %s", path, data)
	return string(data)
}

func (v *viewer) post(path string, fields map[string]any) {
	v.t.Helper()
	data, err := json.Marshal(fields)
	require.NoError(v.t, err)
	r, err := v.browser.Post(v.base+path, "application/json", bytes.NewReader(data))
	require.NoError(v.t, err)
	defer r.Body.Close()
	text, _ := io.ReadAll(r.Body)
	require.Equal(v.t, 200, r.StatusCode, "%s", text)
}

// ended waits for the program and returns what it said at last.
func (v *viewer) ended() string {
	v.t.Helper()
	rest, err := io.ReadAll(v.said)
	require.NoError(v.t, err)
	require.NoError(v.t, v.cmd.Wait(), v.errs.String())
	assert.Empty(v.t, v.errs.String())
	return string(rest)
}

func demoFile(t *testing.T) (file, text string) {
	t.Helper()
	name, data := job.Demo()
	file = filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, data, 0o640))
	return file, string(data)
}

func renamed(text, name string) string {
	return strings.Replace(text, "name: Reading-room settle", "name: "+name, 1)
}

func TestViewEndsBySignalAndFromThePage(t *testing.T) {
	file, _ := demoFile(t)
	for name, end := range map[string]func(*viewer){
		"Ctrl-C":   func(v *viewer) { require.NoError(t, v.cmd.Process.Signal(os.Interrupt)) },
		"SIGTERM":  func(v *viewer) { require.NoError(t, v.cmd.Process.Signal(syscall.SIGTERM)) },
		"the page": func(v *viewer) { v.post("/stop", nil) },
	} {
		v := startView(t, t.TempDir(), file)
		end(v)
		assert.NotContains(t, v.ended(), "draft", name)
	}
}

func TestEveryAcceptedEditOutlivesAKill(t *testing.T) {
	file, text := demoFile(t)
	state := t.TempDir()
	v := startView(t, state, file)
	for i := range 3 {
		v.post("/text", map[string]any{"v": i + 1, "text": renamed(text, fmt.Sprint("Mine ", i))})
	}
	require.NoError(t, v.cmd.Process.Kill())
	_ = v.cmd.Wait()
	on, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, text, string(on), "nothing is saved unasked")

	v = startView(t, state, file)
	assert.True(t, strings.Contains(v.get("/"), "never saved"))
	v.post("/draft", map[string]any{"v": 1, "id": "1", "take": true})
	assert.True(t, strings.Contains(v.get("/"), "<h1>Mine 2</h1>"))
	require.NoError(t, v.cmd.Process.Signal(syscall.SIGTERM))
	assert.Contains(t, v.ended(), "rodsheet view "+file+" offers it")

	v = startView(t, state, file)
	v.post("/draft", map[string]any{"v": 1, "id": "2", "take": true})
	v.post("/save", map[string]any{"v": 2})
	on, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, renamed(text, "Mine 2"), string(on))
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "permissions are kept")
	left, err := filepath.Glob(filepath.Join(state, "rodsheet", "drafts", "*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestALinkIsFollowedAndLineEndsStay(t *testing.T) {
	file, text := demoFile(t)
	text = strings.ReplaceAll(text, "\n", "\r\n")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o640))
	link := filepath.Join(t.TempDir(), "link.yaml")
	require.NoError(t, os.Symlink(file, link))
	v := startView(t, t.TempDir(), link)
	v.post("/edit", map[string]any{"v": 1, "op": "set", "path": "name", "was": "Reading-room settle", "value": "Mine"})
	v.post("/save", map[string]any{"v": 2})
	on, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, renamed(text, "Mine"), string(on), "every other byte, the line ends too")
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link is still one")
}

func TestWhatHappensToTheFileMeanwhileIsToldAndNothingTypedIsLost(t *testing.T) {
	for name, row := range map[string]struct {
		happens func(file string) error
		says    string // on the page
		saves   string // what saving answers; "" when it is done
	}{
		"deleted":  {os.Remove, "is gone", ""},
		"a folder": {func(file string) error { return errors.Join(os.Remove(file), os.Mkdir(file, 0o755)) }, "is a folder", "is a folder"},
		"emptied":  {func(file string) error { return os.Truncate(file, 0) }, "Another program has changed", "changed by another program"},
		"broken":   {func(file string) error { return os.WriteFile(file, []byte("a: &b [c"), 0o644) }, "Another program has changed", "changed by another program"},
	} {
		t.Run(name, func(t *testing.T) {
			file, _ := demoFile(t)
			v := startView(t, t.TempDir(), file)
			v.post("/edit", map[string]any{"v": 1, "op": "set", "path": "name", "was": "Reading-room settle", "value": "Mine"})
			require.NoError(t, row.happens(file))
			page := v.get("/")
			assert.True(t, strings.Contains(page, row.says))
			assert.True(t, strings.Contains(page, "<h1>Mine</h1>"))
			r, err := v.browser.Post(v.base+"/save", "application/json", strings.NewReader(`{"v": 9}`))
			require.NoError(t, err)
			text, err := io.ReadAll(r.Body)
			require.NoError(t, err)
			r.Body.Close()
			if row.saves == "" {
				assert.Equal(t, 200, r.StatusCode, "%s", text)
			} else {
				assert.GreaterOrEqual(t, r.StatusCode, 409)
				assert.Contains(t, string(text), row.saves)
			}
			assert.True(t, strings.Contains(v.get("/"), "<h1>Mine</h1>"))
		})
	}
}

func TestARequestCutShortChangesNothing(t *testing.T) {
	file, _ := demoFile(t)
	v := startView(t, t.TempDir(), file)
	page, err := url.Parse(v.base)
	require.NoError(t, err)
	c, err := net.Dial("tcp", page.Host)
	require.NoError(t, err)
	cookie := v.browser.Jar.Cookies(page)[0]
	_, err = fmt.Fprintf(c, "POST /edit HTTP/1.1\r\nHost: %s\r\nCookie: %s\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{\"v\": 1, \"op\": \"set\"", page.Host, cookie)
	require.NoError(t, err)
	require.NoError(t, c.(*net.TCPConn).CloseWrite())
	answer, err := io.ReadAll(c)
	require.NoError(t, err)
	c.Close()
	assert.Contains(t, string(answer), "400 Bad Request")
	assert.Contains(t, string(answer), "cut short")
	v.get("/")
	require.NoError(t, v.cmd.Process.Signal(os.Interrupt))
	v.ended() // with nothing in its log
}

func TestDownloadsAreTheCommandsBytes(t *testing.T) {
	file, _ := demoFile(t)
	t.Chdir(filepath.Dir(file))
	v := startView(t, t.TempDir(), "settle.yaml")
	print := func(args ...string) string {
		got := command(t, nil, append([]string{"print", "settle.yaml", "-o", "-"}, args...)...)
		require.Equal(t, done, got.code, got.err)
		return got.out
	}
	assert.True(t, print() == v.get("/download/sheets.pdf"))
	assert.True(t, print("--only", "board,rod", "--face", "--paper", "a3") == v.get("/download/sheets.pdf?only=board&only=rod&faces=on&paper=a3"))
	assert.True(t, print("--whole", "--only", "wall") == v.get("/download/sheets.pdf?whole=on&only=wall"))
	for what, args := range map[string][]string{
		"list.txt": {"list"}, "list.csv": {"list", "--csv"}, "list.json": {"list", "--json"}, "plan.txt": {"plan"}, "plan.json": {"plan", "--json"},
		"check.txt": {"check"}, "check.json": {"check", "--json"}, "blocks.txt": {"blocks"}, "blocks.json": {"blocks", "--json"},
	} {
		got := command(t, nil, append([]string{args[0], "settle.yaml"}, args[1:]...)...)
		require.Equal(t, done, got.code, got.err)
		assert.Equal(t, got.out, v.get("/download/"+what), what)
	}
}

func TestDraftsAreForTheirOwnerAlone(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	dir := t.TempDir()
	disk, err := osFS{}.jobs(dir)
	require.NoError(t, err)
	id, err := disk.PutDraft("wall.yaml", view.Draft{Base: view.Hash{1, 2, 3}, Text: []byte("\ufeffa\r\nb")})
	require.NoError(t, err)
	second, err := disk.PutDraft("wall.yaml", view.Draft{Text: []byte("c")})
	require.NoError(t, err)
	assert.NotEqual(t, id, second)
	files, err := filepath.Glob(filepath.Join(state, "rodsheet", "drafts", "*"))
	require.NoError(t, err)
	require.Len(t, files, 2)
	info, err := os.Stat(files[0])
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	data, err := os.ReadFile(files[0])
	require.NoError(t, err)
	assert.Contains(t, string(data), filepath.Join(dir, "wall.yaml"), "a person can tell what it is")

	drafts, err := disk.Drafts("wall.yaml")
	require.NoError(t, err)
	assert.Equal(t, []view.Draft{{ID: id, Base: view.Hash{1, 2, 3}, Text: []byte("\ufeffa\r\nb")}, {ID: second, Text: []byte("c")}}, drafts)
	other, err := disk.Drafts("other.yaml")
	require.NoError(t, err)
	assert.Empty(t, other)
	require.NoError(t, disk.DropDraft("wall.yaml", id))
	require.NoError(t, disk.DropDraft("wall.yaml", id), "it is gone as wished")
}

func TestAJobFolderHoldsJobFilesAlone(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"a.yaml": "a", "b.YML": "b", "c.txt": "c", ".d.yaml": "d", "e.yaml": strings.Repeat("#\n", job.MaxSize)} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "f.yaml"), 0o755))
	disk, err := osFS{}.jobs(dir)
	require.NoError(t, err)
	names, err := disk.Names()
	require.NoError(t, err)
	assert.Equal(t, []string{"a.yaml", "b.YML", "e.yaml"}, names)
	_, err = disk.Read("e.yaml")
	assert.ErrorContains(t, err, "too long")
	_, err = disk.Read("f.yaml")
	assert.ErrorContains(t, err, "is a folder")
	_, err = disk.Read("g.yaml")
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.ErrorIs(t, disk.Create("a.yaml", nil), os.ErrExist)
}

func TestAProgramStartedWithoutATerminalIsView(t *testing.T) {
	file, _ := demoFile(t)
	home := t.TempDir()
	t.Setenv("HOME", home)
	for _, row := range []struct {
		args     []string
		explorer bool
		want     []string
	}{
		{nil, true, []string{"view", filepath.Join(home, "Documents", "rodsheet")}},
		{nil, false, nil},
		{[]string{file}, true, []string{"view", file}},
		{[]string{file}, false, []string{"view", file}},
		{[]string{"gone.yaml"}, true, []string{"gone.yaml"}},
		{[]string{"check", file}, true, []string{"check", file}},
		{[]string{filepath.Dir(file)}, true, []string{filepath.Dir(file)}},
	} {
		assert.Equal(t, row.want, withoutTerminal(row.args, row.explorer), "%v", row.args)
	}
	assert.DirExists(t, filepath.Join(home, "Documents", "rodsheet"))
}

func TestViewSaysWhatItCannotOpen(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "wall.txt"), nil, 0o644))
	for _, row := range []struct {
		arg, says string
		code      exit
	}{
		{filepath.Join(dir, "gone.yaml"), "there is no file", refused},
		{filepath.Join(dir, "wall.txt"), "must end in .yaml", refused},
		{"", "is empty", misunderstood},
	} {
		got := command(t, nil, "view", "--no-open", row.arg)
		assert.Equal(t, row.code, got.code, row.arg)
		assert.Contains(t, got.err, row.says)
	}
	got := command(t, nil, "view", "--port", "70000")
	assert.Equal(t, misunderstood, got.code)
}
