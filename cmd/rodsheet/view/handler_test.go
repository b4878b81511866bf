package view

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/pdf"
	"rodsheet/template/printer"

	work "rodsheet/template"
)

// noPrinters is what is kept of printers: nothing.
type noPrinters struct{}

func (noPrinters) List() ([]printer.Profile, error) { return nil, nil }
func (noPrinters) Load(name string, _ geom.Size) (printer.Profile, error) {
	return printer.Profile{}, &printer.UnknownError{Name: name}
}
func (noPrinters) Save(printer.Profile) error { return errFull }

type tester struct {
	*Server
	t       testing.TB
	disk    *memory
	stopped int
	panics  []string
}

func newPage(t testing.TB, files map[string]string) *tester {
	p := &tester{t: t, disk: newMemory(files)}
	p.Server = New(Config{Disk: p.disk, Printers: noPrinters{}, Stop: func() { p.stopped++ }, Report: func(words string) { p.panics = append(p.panics, words) }})
	t.Cleanup(func() { assert.Empty(t, p.panics) })
	return p
}

// demoPage is the page with the demo job open.
func demoPage(t *testing.T) *tester {
	p := newPage(t, map[string]string{wall: demo()})
	require.NoError(t, p.Open(wall))
	return p
}

func (p *tester) get(path string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	p.ServeHTTP(w, httptest.NewRequest("GET", path, nil))
	return w
}

func (p *tester) post(path string, fields map[string]any) (int, answer) {
	p.t.Helper()
	data, err := json.Marshal(fields)
	require.NoError(p.t, err)
	w := p.send(path, "application/json", bytes.NewReader(data))
	var a answer
	require.NoError(p.t, json.Unmarshal(w.Body.Bytes(), &a), "%s", w.Body)
	return w.Code, a
}

func (p *tester) send(path, kind string, from io.Reader) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", path, from)
	r.Header.Set("Content-Type", kind)
	w := httptest.NewRecorder()
	p.ServeHTTP(w, r)
	return w
}

func TestThePageShowsTheOpenJob(t *testing.T) {
	p := newPage(t, map[string]string{wall: demo()})
	assert.Equal(t, "/start", p.get("/").Header().Get("Location"))
	assert.Contains(t, p.get("/start").Body.String(), "wall.yaml")
	code, a := p.post("/open", map[string]any{"name": wall})
	assert.Equal(t, 200, code)
	assert.True(t, a.Reload)
	w := p.get("/")
	assert.Equal(t, 200, w.Code)
	assert.Equal(t, "text/html; charset=utf-8", w.Header().Get("Content-Type"))
	for _, id := range fragments {
		assert.Contains(t, w.Body.String(), ` id="`+id+`"`)
	}
	assert.Equal(t, 204, p.get("/since?v=1").Code)
}

func TestTextAndUndoAndSaveComeBackAsFragments(t *testing.T) {
	p := demoPage(t)
	code, a := p.post("/text", map[string]any{"v": 1, "text": named("Mine")})
	require.Equal(t, 200, code, a.Error)
	assert.Equal(t, 2, a.Version)
	assert.True(t, a.Unsaved)
	assert.Contains(t, a.Fragments["head"], "Mine")
	assert.NotContains(t, a.Fragments, "printers", "only what is new")
	assert.Equal(t, demo(), p.disk.files[wall])

	var late answer
	w := p.get("/since?v=1")
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &late))
	assert.Equal(t, a.Fragments, late.Fragments, "another window hears the same")

	code, stale := p.post("/text", map[string]any{"v": 1, "text": named("Theirs")})
	assert.Equal(t, 409, code)
	assert.Contains(t, stale.Error, "changed meanwhile")
	assert.Contains(t, stale.Fragments["head"], "Mine")
	code, _ = p.post("/undo", map[string]any{"v": 1})
	assert.Equal(t, 409, code, "of what this window has not seen")

	code, a = p.post("/save", map[string]any{"v": 2})
	require.Equal(t, 200, code)
	assert.False(t, a.Unsaved)
	assert.Equal(t, named("Mine"), p.disk.files[wall])
	code, a = p.post("/undo", map[string]any{"v": 2})
	require.Equal(t, 200, code, "saving changed no text")
	assert.True(t, a.Unsaved)
	assert.Equal(t, "the text as a whole", a.Redo)
	code, _ = p.post("/redo", map[string]any{"v": a.Version})
	assert.Equal(t, 200, code)
	code, a = p.post("/redo", map[string]any{"v": a.Version + 1})
	assert.Equal(t, 422, code)
	assert.NotEmpty(t, a.Error)
}

func TestTheTextBoxKeepsLineEndsAndMark(t *testing.T) {
	crlf := "\ufeff" + strings.ReplaceAll(demo(), "\n", "\r\n")
	p := newPage(t, map[string]string{wall: crlf})
	require.NoError(t, p.Open(wall))
	_, a := p.post("/text", map[string]any{"v": 1, "text": demo()})
	assert.False(t, a.Unsaved, "a text box knows line feeds alone")
}

func TestAnotherJobMakesOlderWindowsLoadAnew(t *testing.T) {
	p := newPage(t, map[string]string{wall: demo(), "other.yaml": named("Other")})
	require.NoError(t, p.Open(wall))
	code, a := p.post("/open", map[string]any{"name": "other.yaml"})
	require.Equal(t, 200, code)
	assert.Greater(t, a.Version, 1)
	w := p.get("/since?v=1")
	var late answer
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &late))
	assert.True(t, late.Reload)
	code, _ = p.post("/text", map[string]any{"v": 1, "text": demo()})
	assert.Equal(t, 409, code)
	assert.Equal(t, named("Other"), p.disk.files["other.yaml"])
}

func TestAJobWithChangesThatNoDraftHoldsIsNotLeft(t *testing.T) {
	p := newPage(t, map[string]string{wall: demo(), "other.yaml": demo()})
	require.NoError(t, p.Open(wall))
	p.disk.full = errFull
	p.post("/text", map[string]any{"v": 1, "text": named("Mine")})
	code, a := p.post("/open", map[string]any{"name": "other.yaml"})
	assert.Equal(t, 422, code)
	assert.Contains(t, a.Error, "Save wall.yaml first")
	p.disk.full = nil
	p.post("/text", map[string]any{"v": 2, "text": named("Mine too")})
	code, _ = p.post("/open", map[string]any{"name": "other.yaml"})
	assert.Equal(t, 200, code)
}

func TestClashAndDraftAreAnsweredFromThePage(t *testing.T) {
	p := demoPage(t)
	p.post("/text", map[string]any{"v": 1, "text": named("Mine")})
	p.disk.files[wall] = named("Theirs")
	code, a := p.post("/save", map[string]any{"v": 2})
	assert.Equal(t, 409, code)
	assert.Contains(t, a.Error, "changed by another program")
	assert.Contains(t, a.Fragments["notices"], "Take the one on the disk")
	code, a = p.post("/resolve", map[string]any{"v": a.Version, "take": "theirs"})
	require.Equal(t, 200, code)
	assert.Contains(t, a.Words, "wall-other.yaml")
	assert.Equal(t, named("Mine"), p.disk.files["wall-other.yaml"])

	p.post("/text", map[string]any{"v": a.Version, "text": named("Draft")})
	again := newPage(t, nil)
	again.disk = p.disk
	again.Disk = p.disk
	require.NoError(t, again.Open(wall))
	assert.Contains(t, again.get("/").Body.String(), "never saved")
	code, a = again.post("/draft", map[string]any{"v": 1, "id": "1", "take": true})
	require.Equal(t, 200, code)
	assert.Contains(t, a.Fragments["head"], "Draft")
}

func TestNewJobsDemosAndDroppedFilesNeverReplaceAFile(t *testing.T) {
	p := newPage(t, map[string]string{"settle.yaml": "mine", "wall.yaml": "mine"})
	code, a := p.post("/demo", nil)
	require.Equal(t, 200, code, a.Error)
	assert.Equal(t, "settle-2.yaml", a.Name)
	assert.Equal(t, demo(), p.disk.files["settle-2.yaml"])

	w := p.send("/drop?name=wall.yaml", "application/octet-stream", strings.NewReader(demo()))
	require.Equal(t, 200, w.Code, w.Body.String())
	assert.Equal(t, demo(), p.disk.files["wall-2.yaml"])
	for path, from := range map[string]io.Reader{
		"/drop?name=../x.yaml": strings.NewReader(demo()), "/drop?name=": strings.NewReader(demo()), "/drop?name=x.yaml": strings.NewReader("\xff\x00"),
	} {
		assert.Equal(t, 422, p.send(path, "application/octet-stream", from).Code, path)
	}

	begin := map[string]any{"name": "Attic", "units": "mm", "paper": "a3", "walls": 2}
	code, a = p.post("/new", begin)
	require.Equal(t, 200, code, a.Error)
	assert.Equal(t, "Attic.yaml", a.Name)
	code, a = p.post("/new", begin)
	assert.Equal(t, 422, code)
	assert.Contains(t, a.Error, "is there already")
	for field, bad := range map[string]any{"name": "../x", "units": "ell", "walls": 0, "paper": "a9\nb"} {
		wrong := map[string]any{"name": "Cellar", "units": "in", "paper": "", "walls": 1}
		wrong[field] = bad
		code, _ = p.post("/new", wrong)
		assert.Equal(t, 422, code, field)
	}
	assert.Len(t, p.disk.files, 5)
	assert.Equal(t, "mine", p.disk.files["settle.yaml"])
}

func TestDownloadsAreNamedAndSentAsAttachments(t *testing.T) {
	p := demoPage(t)
	for what, kind := range map[string]string{
		"sheets.pdf": "application/pdf", "svg.zip": "application/zip", "list.csv": "text/csv; charset=utf-8", "list.txt": "text/plain; charset=utf-8",
		"list.json": "application/json", "plan.txt": "text/plain; charset=utf-8", "plan.json": "application/json", "check.txt": "text/plain; charset=utf-8",
		"check.json": "application/json", "blocks.txt": "text/plain; charset=utf-8", "blocks.json": "application/json", "job.yaml": "text/plain; charset=utf-8",
	} {
		w := p.get("/download/" + what)
		require.Equal(t, 200, w.Code, what)
		assert.Equal(t, kind, w.Header().Get("Content-Type"), what)
		assert.Contains(t, w.Header().Get("Content-Disposition"), "attachment; filename=wall", what)
		assert.NotEmpty(t, w.Body.Bytes(), what)
	}
	assert.Equal(t, "attachment; filename=wall.pdf", p.get("/download/sheets.pdf").Header().Get("Content-Disposition"))
	assert.Equal(t, 404, p.get("/download/other").Code)

	w, err := work.Open(wall, []byte(demo()))
	require.NoError(t, err)
	set, _, err := w.Pages(work.Print{})
	require.NoError(t, err)
	var want bytes.Buffer
	require.NoError(t, pdf.Write(&want, set))
	assert.True(t, bytes.Equal(want.Bytes(), p.get("/download/sheets.pdf").Body.Bytes()))

	packed := p.get("/download/svg.zip?only=board").Body.Bytes()
	z, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	require.NotEmpty(t, z.File)
	assert.Equal(t, "01-board-A-a1.svg", z.File[0].Name)
	assert.True(t, bytes.Equal(packed, p.get("/download/svg.zip?only=board").Body.Bytes()))
}

func TestWhatCannotBePrintedIsToldInWords(t *testing.T) {
	p := demoPage(t)
	for query, words := range map[string]string{
		"only=boards": "no sheet of the kind", "paper=a9": "is no paper", "printer=attic": "is known", "only=shim": "nothing to print", "paper=" + "1+x+2": "not sensible",
	} {
		w := p.get("/download/sheets.pdf?" + query)
		assert.Equal(t, 409, w.Code, query)
		assert.Contains(t, w.Body.String(), words, query)
	}
	p.post("/text", map[string]any{"v": 1, "text": strings.Replace(demo(), "units: in", "units: ell", 1)})
	w := p.get("/download/sheets.pdf")
	assert.Equal(t, 409, w.Code)
	assert.Contains(t, w.Body.String(), "mend them first")
	assert.Equal(t, 409, newPage(t, nil).get("/download/sheets.pdf").Code)
}

func TestSheetsAreThePagesThatPrint(t *testing.T) {
	p := demoPage(t)
	list := p.get("/sheets?only=board").Body.String()
	assert.Contains(t, list, `src="/sheets/1/1?only=board"`)
	w := p.get("/sheets/1/1?only=board")
	require.Equal(t, 200, w.Code)
	assert.Equal(t, "image/svg+xml", w.Header().Get("Content-Type"))
	assert.Contains(t, w.Body.String(), "<svg")
	assert.Equal(t, 404, p.get("/sheets/1/0?only=board").Code)
	assert.Equal(t, 404, p.get("/sheets/1/9999?only=board").Code)
	p.post("/text", map[string]any{"v": 1, "text": named("Mine")})
	assert.Equal(t, 409, p.get("/sheets/1/1?only=board").Code, "they were of another text")
	assert.Contains(t, p.get("/sheets/2/1?only=board").Body.String(), "Mine")
}

func TestBadRequestsAreAnsweredInWords(t *testing.T) {
	p := demoPage(t)
	for _, row := range []struct {
		path, kind, body string
		code             int
	}{
		{"/text", "application/json", `{"v": 1, "text": "half`, 400},
		{"/text", "application/json", ``, 400},
		{"/text", "application/json", `[]`, 400},
		{"/text", "application/json", `{"v": 1, "texts": ""}`, 400},
		{"/text", "text/plain", `{"v": 1, "text": ""}`, 415},
		{"/text", "application/json", `{"v": 1, "text": "` + strings.Repeat("x", 3*job.MaxSize) + `"}`, 413},
		{"/text", "application/json", `{"v": 1, "text": "` + strings.Repeat("x", job.MaxSize+1) + `"}`, 422},
		{"/drop?name=x.yaml", "text/plain", strings.Repeat("x", 3*job.MaxSize), 413},
		{"/open", "application/json", `{"name": "../../etc/passwd"}`, 422},
		{"/open", "application/json", `{"name": "gone.yaml"}`, 422},
		{"/nothing", "application/json", `{}`, 404},
		{"/download/sheets.pdf", "application/json", `{}`, 404},
		{"/resolve", "application/json", `{"v": 1, "take": "both"}`, 422},
	} {
		w := p.send(row.path, row.kind, strings.NewReader(row.body))
		assert.Equal(t, row.code, w.Code, "%s %.40s", row.path, row.body)
		var a answer
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &a), "%s", w.Body)
		assert.NotEmpty(t, a.Error, "%s %.40s", row.path, row.body)
	}
	for _, path := range []string{"/nothing", "/static/", "/static/../job.html", "/static/x.js", "/sheets/1/x", "/since?v=x", "/text", "/%2e%2e/"} {
		w := p.get(path)
		assert.GreaterOrEqual(t, w.Code, 300, path)
		assert.NotEmpty(t, w.Body.String(), path)
	}
	code, _ := newPage(t, nil).post("/text", map[string]any{"v": 1, "text": ""})
	assert.Equal(t, 410, code, "no job is open")
}

func TestAPanicIsAnsweredAndReportedAndChangesNothing(t *testing.T) {
	p := demoPage(t)
	p.mux.HandleFunc("POST /panic", func(w http.ResponseWriter, r *http.Request) {
		p.change(w, 1, func(*openJob) (string, error) { panic("oh") })
	})
	code, a := p.post("/panic", nil)
	assert.Equal(t, 500, code)
	assert.NotEmpty(t, a.Error)
	require.Len(t, p.panics, 1)
	p.panics = nil
	code, _ = p.post("/text", map[string]any{"v": 1, "text": named("Mine")})
	assert.Equal(t, 200, code, "the lock is free again")
}

func TestStoppingIsAskedForFromThePage(t *testing.T) {
	p := demoPage(t)
	code, a := p.post("/stop", nil)
	assert.Equal(t, 200, code)
	assert.Contains(t, a.Words, "has stopped")
	assert.Equal(t, 1, p.stopped)
}

func TestWhatIsShownNeverBecomesMarkup(t *testing.T) {
	evil := `<script>alert(1)</script>"'&amp;`
	p := newPage(t, map[string]string{wall: strings.Replace(demo(), "name: Reading-room settle", `name: '<script>alert(1)</script>"''&amp;'`, 1), "a'&b.yaml": demo()})
	require.NoError(t, p.Open(wall))
	for _, path := range []string{"/", "/start", "/sheets?only=%22%3E%3Cscript%3E"} {
		assert.NotContains(t, p.get(path).Body.String(), "<script>alert", path)
		assert.NotContains(t, p.get(path).Body.String(), `"><script>`, path)
	}
	assert.Equal(t, evil, p.current.Load().Work.Job.Name)
}

func TestManyWindowsAtOnce(t *testing.T) {
	p := demoPage(t)
	var windows sync.WaitGroup
	for range 9 {
		windows.Go(func() {
			for i := range 20 {
				p.get("/since?v=1")
				p.get("/")
				if i%5 == 0 {
					p.get("/download/list.csv")
					p.post("/text", map[string]any{"v": p.current.Load().Version, "text": named(strings.Repeat("x", 1+i))})
				}
			}
		})
	}
	windows.Wait()
	assert.Equal(t, sound, p.current.Load().Condition)
}
