//go:build !js

package view

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
)

// download presses what a selector finds and returns the file that comes of it.
func (w *window) download(selector string) []byte {
	w.t.Helper()
	dir, yes := w.t.TempDir(), true
	progress := chromedp.Events(w.ctx, browser.DownloadProgress)
	w.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
			Behavior: browser.SetDownloadBehaviorBehaviorAllowAndName, DownloadPath: dir, EventsEnabled: &yes,
		})
		return err
	}))
	w.run(`document.querySelector(%s).click()`, quote(selector))
	for event, err := range progress {
		require.NoError(w.t, err)
		if event.State == browser.DownloadProgressStateCompleted {
			data, err := os.ReadFile(filepath.Join(dir, event.GUID))
			require.NoError(w.t, err)
			return data
		}
		require.NotEqual(w.t, browser.DownloadProgressStateCanceled, event.State)
	}
	w.t.Fatal("no file came")
	return nil
}

func TestTheSheetsOnThePageAreThoseOfThePDF(t *testing.T) {
	w := demoWindow(t)
	w.click("[data-pages]")
	w.until(`!!document.querySelector("#pages img")`)
	now := w.current.Load()
	set, _, err := w.sheets.lay(t.Context(), now, w.Printers, choice{})
	require.NoError(t, err)
	assert.Equal(t, len(set.Pages), look[int](w, `document.querySelectorAll("#pages img").length`))
	w.until(`document.querySelector("#pages img").naturalWidth > 0`)
	assert.Less(t, look[int](w, `[...document.querySelectorAll("#pages img")].filter(e => e.complete && e.naturalWidth).length`), len(set.Pages), "those far below wait until they are looked at")
	assert.Equal(t, pdfOf(t, set), w.download("#sheets .first"))

	// What is chosen prints, and is shown.
	w.run(`document.querySelector("#prints").closest("details").open = true`)
	w.click(`#prints [value="rod"]`)
	w.click(`#prints [name="whole"]`)
	w.choose(`#prints [name="paper"]`, "a3")
	want := w.print(func(c *choice) { c.only, c.whole, c.paper = "rod", true, "a3" })
	assert.Equal(t, want, w.download("#sheets .first"))
	w.click("[data-pages]")
	w.until(`document.querySelectorAll("#pages img").length < 10 && document.querySelector("#pages h3").innerText.startsWith("Rod")`)

	// They are kept, and told to be old, when the job has changed.
	w.edit(map[string]any{"op": "set", "path": "walls[0].runs[0].panels", "was": w.value("walls[0].runs[0].panels"), "value": "5"})
	w.until(`document.getElementById("pages").matches(".old") && document.querySelector("#pages .was").getClientRects().length > 0`)
	assert.Contains(t, look[string](w, `document.getElementById("sheets").innerText`), "Changed since your last PDF: board A")
	w.click("#pages .was [data-pages]")
	w.until(`!document.getElementById("pages").matches(".old") && !!document.querySelector("#pages img")`)
	w.click(`#pages [data-close]`)
	w.until(`document.getElementById("pages").innerText === ""`)
}

func TestLayingSheetsOutCanBeStoppedAndHoldsNothingUp(t *testing.T) {
	w := demoWindow(t)
	w.sheets.busy.Lock()
	w.click("[data-pages]")
	w.until(`document.getElementById("pages").innerText.includes("being laid out")`)
	w.run(`goTo("name")`)
	w.until(`document.activeElement.dataset.key === "name"`)
	w.key("x\r")
	w.until(`version === 2`)
	w.click(`#pages [data-close]`)
	w.until(`document.getElementById("pages").innerText === ""`)
	w.sheets.busy.Unlock()
	w.click("[data-pages]")
	w.until(`!!document.querySelector("#pages img")`)
}

func TestAPrinterIsCheckedInStepsAndKept(t *testing.T) {
	w := demoWindow(t)
	w.click("#printer summary")
	sheet := w.download(`#printer [data-get$="check-sheet.pdf"]`)
	assert.Equal(t, w.get("/download/check-sheet.pdf").Body.Bytes(), sheet)
	// The lines of the sheet on letter paper with this job's margin are 7 7/8 in and 10 3/8 in; it is said along them.
	fill := func(name, value string) {
		w.run(`document.querySelector('#printer [name="%s"]').focus()`, name)
		w.key(value)
	}
	for name, value := range map[string]string{"across": "201 mm", "across2": "201 mm", "down": "10 3/8", "down2": "10 3/8"} {
		fill(name, value)
	}
	w.key("\r")
	w.until(`document.getElementById("verdict").innerText.includes("too long")`)
	assert.Empty(t, look[[]string](w, `[...document.querySelectorAll("#printers option")].map(e => e.value).slice(1)`))
	fill("name", "den")
	w.click(`#printer [formaction="/printer/keep"]`)
	w.until(`[...document.querySelectorAll("#printers option")].some(e => e.value === "den")`)
	kept, err := w.store.Load("den", geom.Size{W: 17 * geom.Inch / 2, H: 11 * geom.Inch})
	require.NoError(t, err)
	assert.InDelta(t, 201/200.025, kept.Across, 0.001)
	assert.Equal(t, "201 mm", look[string](w, `document.querySelector('#printer [name="across"]').value`), "what was typed stays")

	w.choose(`#printers select`, "den")
	want := w.print(func(c *choice) { c.printer = "den" })
	assert.Equal(t, want, w.download("#sheets .first"))
}

func TestFindingsAreDealtWithOnThePage(t *testing.T) {
	w := demoWindow(t)
	f := w.current.Load().Findings[0]
	w.click("#findings [data-key='deal 0']")
	w.run(`document.querySelector('#findings [name="because"]').focus()`)
	w.key("tried on one panel\r")
	w.until(`document.getElementById("findings").innerText.includes("Dealt with: tried on one panel")`)
	accepted := w.current.Load().Work.Job.Accept
	require.Len(t, accepted, 1)
	assert.Equal(t, []string{f.ID, f.At, "tried on one panel"}, []string{accepted[0].Finding, accepted[0].At, accepted[0].Because})
}
