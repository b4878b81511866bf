//go:build !js

package view

import (
	"context"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/printer"
)

// Tests that drive a browser are not for a program that runs in one: the driver does not build there.

// chromium is the one browser of this package's tests. It ends with them.
var chromium struct {
	once sync.Once
	ctx  context.Context
	stop context.CancelFunc
	err  error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if chromium.stop != nil {
		chromium.stop()
	}
	os.Exit(code)
}

// browserOf returns the browser. A test that finds none is skipped and says so; where CI=true is set it fails.
func browserOf(t testing.TB) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("skipped: a browser takes its time")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("chromium is missing; it comes with the package chromium, and CI=true forbids to skip this test")
		}
		t.Skip("skipped: chromium is missing; it comes with the package chromium")
	}
	chromium.once.Do(func() {
		options := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
			chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		)
		allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
		chromium.ctx, _ = chromedp.NewContext(allocator)
		chromium.stop = stop
		chromium.err = chromedp.Do(chromium.ctx) // starts it
	})
	require.NoError(t, chromium.err)
	return chromium.ctx
}

// A window is a tab of the browser on a page that is served as it is to people: over a socket, with its cookie and its policy.
type window struct {
	*tester
	ctx     context.Context
	address string
	store   printer.Store
}

// openWindow serves a job of a folder in memory and opens it in a window so wide and high. At the end of the test nothing may
// have gone wrong in the window that only a browser's console would tell.
func openWindow(t testing.TB, width, height int64, job string, files map[string]string) *window {
	t.Helper()
	browser := browserOf(t)
	w := &window{tester: newPage(t, maps.Clone(files)), store: printer.Store{Dir: t.TempDir()}}
	w.Printers = w.store
	require.NoError(t, w.Open(job))
	ctx, stop := context.WithCancel(context.Background())
	ready, served := make(chan string, 1), make(chan error, 1)
	go func() { served <- Serve(ctx, w, Options{Ready: func(address string) { ready <- address }}) }()
	t.Cleanup(func() {
		stop()
		assert.NoError(t, <-served)
	})
	w.address = <-ready
	var mu sync.Mutex
	var wrong []string
	tab, shut := chromedp.NewContext(browser, chromedp.WithListener(func(event any) {
		mu.Lock()
		defer mu.Unlock()
		switch e := event.(type) {
		case *runtime.EventExceptionThrown:
			wrong = append(wrong, fmt.Sprint(e.ExceptionDetails.Text, e.ExceptionDetails.Exception))
		case *log.EventEntryAdded:
			if e.Entry.Level == log.EntryLevelError && e.Entry.Source != log.EntrySourceNetwork { // answers of 409 and 422 are no fault
				wrong = append(wrong, e.Entry.Text)
			}
		}
	}))
	w.ctx = tab
	t.Cleanup(shut) // before the server ends
	t.Cleanup(func() {
		mu.Lock()
		defer mu.Unlock()
		assert.Empty(t, wrong)
	})
	require.NoError(t, chromedp.Do(tab)) // opens it; what ends the first call's context would shut it
	w.seen(emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{still}})
	w.do(chromedp.EmulateViewport(width, height), chromedp.Navigate(w.address))
	w.until(`document.readyState === "complete" && !!document.getElementById("stage")`)
	return w
}

// demoWindow shows the demo job.
func demoWindow(t *testing.T) *window {
	t.Helper()
	return openWindow(t, 1280, 900, wall, map[string]string{wall: demo()})
}

func (w *window) do(actions ...chromedp.Action[chromedp.Void]) {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.ctx, time.Minute)
	defer cancel()
	require.NoError(w.t, chromedp.Do(ctx, actions...))
}

// click presses what a selector finds first, as a mouse does; key presses keys where the focus is.
func (w *window) click(selector string) { w.t.Helper(); w.do(chromedp.Click(chromedp.CSS(selector))) }
func (w *window) key(keys string)       { w.t.Helper(); w.do(chromedp.KeyEvent(keys)) }

// choose chooses an entry of a list.
func (w *window) choose(selector, value string) {
	w.t.Helper()
	w.run(`{ const e = document.querySelector(%s); e.value = %s; e.dispatchEvent(new Event("change", { bubbles: true })); }`, quote(selector), quote(value))
}

// mouse does something with the left button, or with none of them.
func (w *window) mouse(what input.DispatchMouseEventType, x, y float64, options ...chromedp.MouseOption) {
	w.t.Helper()
	w.do(chromedp.MouseEvent(what, x, y, options...))
}

// run runs a script in the window.
func (w *window) run(format string, args ...any) {
	w.t.Helper()
	_ = look[bool](w, "%s; true", fmt.Sprintf(format, args...))
}

// until waits until an expression is true in the window. (The driver's own way needs eval, which the page's policy forbids, and ends
// when the page leads on.)
func (w *window) until(format string, args ...any) {
	w.t.Helper()
	expression := fmt.Sprintf(format, args...)
	ctx, cancel := context.WithTimeout(w.ctx, 20*time.Second)
	defer cancel()
	for {
		is, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+expression+")"))
		if is && err == nil {
			return
		}
		select {
		case <-time.After(10 * time.Millisecond):
		case <-ctx.Done():
			w.t.Fatalf("never: %s (%v)", expression, err)
		}
	}
}

// look returns what an expression is in a window.
func look[T any](w *window, format string, args ...any) T {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.ctx, time.Minute)
	defer cancel()
	expression := fmt.Sprintf(format, args...)
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(w.t, err, expression)
	return value
}

// dark shows the page to somebody who likes it dark; onPaper as it would be printed.
func (w *window) dark() {
	w.seen(emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{still, {Name: "prefers-color-scheme", Value: "dark"}}})
}

// still keeps the page from scrolling gently: a click would land where its target was when the scrolling began.
var still = &emulation.MediaFeature{Name: "prefers-reduced-motion", Value: "reduce"}

func (w *window) onPaper() { w.seen(emulation.SetEmulatedMediaParams{Media: "print"}) }

func (w *window) seen(how emulation.SetEmulatedMediaParams) {
	w.t.Helper()
	w.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, how)
		return err
	}))
}

// barriers are what axe-core finds that would keep somebody out: each as "impact rule: elements".
func (w *window) barriers() []string {
	w.t.Helper()
	path := os.Getenv("AXE_CORE")
	source, err := os.ReadFile(path)
	if err != nil {
		if os.Getenv("CI") == "true" {
			w.t.Fatalf("axe-core is missing: AXE_CORE is %q", path)
		}
		w.t.Skip("skipped: axe-core is missing; AXE_CORE names its script")
	}
	w.run("%s", source)
	return look[[]string](w, `axe.run().then(r => r.violations.filter(v => v.impact === "serious" || v.impact === "critical")
		.map(v => v.impact + " " + v.id + ": " + v.nodes.slice(0, 3).map(n => n.target + " " + (n.any[0] || {}).message).join(", ")))`)
}

// quote makes a text a script's.
func quote(s string) string { return "`" + strings.ReplaceAll(s, "`", "\\`") + "`" }
