package view

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small is a job of one panel.
const small = `rodsheet: 1
name: One panel
units: mm
board: {thickness: 12}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 10}
walls:
  - name: W
    width: 1000
    height: 2400
    runs:
      - {name: P, across: [100, 700], height: {bottom: 500, top: 1100}, panels: 1}
`

// held is what the process holds: goroutines, open files, bytes.
func held(t *testing.T) (goroutines, files int, bytes uint64) {
	t.Helper()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	open, err := os.ReadDir("/proc/self/fd")
	if err != nil {
		open = nil // only Linux tells so
	}
	return runtime.NumGoroutine(), len(open), m.HeapAlloc
}

func TestAThousandQuickEditsLeaveNothingBehind(t *testing.T) {
	s := New(Config{Disk: newMemory(map[string]string{wall: small}), Printers: noPrinters{}, Report: func(words string) { t.Error(words) }})
	require.NoError(t, s.Open(wall))
	ctx, cancel := context.WithCancel(t.Context())
	address, stopped := serving(t, ctx, s, time.Minute)
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	base, _, _ := strings.Cut(address, "/enter/")
	browser := &http.Client{Jar: jar, Transport: &http.Transport{}}
	ask := func(r *http.Request, err error) {
		require.NoError(t, err)
		answer, err := browser.Do(r)
		if r.Context().Err() != nil {
			return
		}
		require.NoError(t, err)
		text, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		require.NoError(t, err)
		require.Equal(t, 200, answer.StatusCode, "%s", text)
	}
	ask(http.NewRequest("GET", address, nil))
	edits := func(from, to int) {
		for i := from; i < to; i++ {
			body := fmt.Sprintf(`{"v": %d, "op": "set", "path": "walls[0].width", "was": "%d", "value": "%d"}`, s.current.Load().Version, 1000+i, 1001+i)
			r, err := http.NewRequest("POST", base+"/edit", strings.NewReader(body))
			r.Header.Set("Content-Type", "application/json")
			ask(r, err)
			if i%50 == 0 { // sheets that nobody waits for
				brief, done := context.WithTimeout(ctx, time.Millisecond)
				ask(http.NewRequestWithContext(brief, "GET", base+"/sheets", nil))
				done()
			}
		}
	}
	edits(0, maxSteps+50) // until the history is full
	settled := func() (int, int, uint64) {
		browser.CloseIdleConnections()
		s.sheets.busy.Lock() // what was begun has ended
		defer s.sheets.busy.Unlock()
		time.Sleep(50 * time.Millisecond)
		return held(t)
	}
	goroutines, files, bytes := settled()
	edits(maxSteps+50, maxSteps+1050)
	goroutines2, files2, bytes2 := settled()
	assert.LessOrEqual(t, goroutines2, goroutines+2)
	assert.LessOrEqual(t, files2, files+2)
	assert.Less(t, bytes2, bytes+2<<20)
	cancel()
	require.NoError(t, <-stopped)
}
