package view

import (
	"bytes"
	"context"
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/page"
	"rodsheet/template/pdf"
)

func pdfOf(t testing.TB, set page.Set) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, set))
	return b.Bytes()
}

// stoppedPage is the demo job with a stop: the panels begin below the deck.
func stoppedPage(t *testing.T) *tester {
	p := newPage(t, map[string]string{wall: strings.Replace(demo(), "seat: 17 1/4", "seat: 25", 1)})
	require.NoError(t, p.Open(wall))
	require.NotEmpty(t, p.current.Load().Stops(), "%v", p.current.Load().Problems)
	return p
}

func TestPagesThatAStopForbidsAreNamedWithItAndTheOthersPrint(t *testing.T) {
	p := stoppedPage(t)
	html := p.get("/").Body.String()
	assert.Contains(t, html, "no drill template is printed before")
	assert.Contains(t, html, "PDF without drill templates")
	assert.Equal(t, 409, p.get("/download/sheets.pdf").Code)
	list := p.get("/sheets").Body.String()
	assert.Contains(t, list, "Not printed before the stops are mended")
	assert.Contains(t, list, "<li>Wall template")
	assert.Contains(t, list, "/1?drill=no")
	assert.NotContains(t, list, "<h3>Wall template")
	assert.Equal(t, 200, p.get("/sheets/1/1?drill=no").Code)
	rest := p.print(func(c *choice) { c.undrill = true })
	assert.Equal(t, rest, p.get("/download/sheets.pdf?drill=no").Body.Bytes())

	list = p.get("/sheets?only=board").Body.String()
	assert.Contains(t, list, "<li>Board template A")
	assert.NotContains(t, list, "<img")
}

// print is the PDF of a choice, made without the page.
func (p *tester) print(change func(*choice)) []byte {
	c := choice{}
	change(&c)
	now := p.current.Load()
	made, err := c.print(now, p.Printers)
	require.NoError(p.t, err)
	set, _, err := now.Work.Pages(made)
	require.NoError(p.t, err)
	return pdfOf(p.t, set)
}

func TestWhatChangedSinceTheLastPDFIsTold(t *testing.T) {
	p := demoPage(t)
	require.Equal(t, 200, p.get("/download/sheets.pdf?only=scale").Code)
	_, a := p.edit(map[string]any{"op": "set", "path": "walls[0].runs[0].gap", "was": p.value("walls[0].runs[0].gap"), "value": "1/2"})
	assert.NotContains(t, a.Fragments["sheets"], "since your last PDF", "no template has been printed")
	require.Equal(t, 200, p.get("/download/sheets.pdf").Code)
	_, a = p.edit(map[string]any{"op": "set", "path": "name", "was": p.value("name"), "value": "Another"})
	assert.NotContains(t, p.get("/").Body.String(), "since your last PDF", "the templates are the same")
	_, a = p.edit(map[string]any{"op": "set", "path": "walls[0].runs[0].panels", "was": p.value("walls[0].runs[0].panels"), "value": "5"})
	assert.Contains(t, a.Fragments["sheets"], "Changed since your last PDF:</b> board A; the wall templates of run L")
	_, a = p.post("/undo", map[string]any{"v": a.Version})
	assert.NotContains(t, a.Fragments["sheets"], "since your last PDF", "they are as they were printed")
	_, a = p.post("/redo", map[string]any{"v": a.Version})
	require.Equal(t, 200, p.get("/download/sheets.pdf").Code)
	assert.NotContains(t, p.get("/").Body.String(), "since your last PDF")
	assert.Equal(t, 200, p.get(fmt.Sprintf("/since?v=%d", a.Version)).Code, "and every window hears of it")
}

func TestALayoutThatNobodyWaitsForIsGivenUp(t *testing.T) {
	p := demoPage(t)
	p.sheets.busy.Lock() // so that it is not ready at once
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() {
		defer close(done)
		p.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest("GET", "/sheets", nil).WithContext(ctx))
	}()
	require.Eventually(t, func() bool {
		p.sheets.mu.Lock()
		defer p.sheets.mu.Unlock()
		return len(p.sheets.kept) == 1
	}, 10*time.Second, time.Millisecond)
	p.sheets.mu.Lock()
	one := p.sheets.kept[0]
	p.sheets.mu.Unlock()
	cancel()
	<-done
	p.sheets.busy.Unlock()
	<-one.ready
	assert.ErrorContains(t, one.err, "asked for meanwhile")
	assert.Empty(t, p.sheets.kept)
	assert.Contains(t, p.get("/sheets").Body.String(), "<img", "and can be asked for again")
}
