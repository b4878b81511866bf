//go:build !js

package view

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// another opens one more window on what a window shows.
func (w *window) another() *window {
	w.t.Helper()
	two := *w
	tab, shut := chromedp.NewContext(browserOf(w.t))
	two.ctx = tab
	w.t.Cleanup(shut)
	require.NoError(w.t, chromedp.Do(tab)) // opens it
	two.seen(emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{still}})
	two.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(w.address))
	two.until(`document.readyState === "complete" && !!document.getElementById("words") && location.pathname === "/"`)
	return &two
}

// field is a measure of the form, as a script's element.
func field(key string) string {
	return `document.querySelector('#measures [data-key="' + CSS.escape(` + quote(key) + `) + '"]')`
}

// press presses a button wherever the page has scrolled to.
func (w *window) press(selector string) {
	w.t.Helper()
	w.run(`{ const e = document.querySelector(%s); e.focus(); e.click(); }`, quote(selector))
}

// enter presses Enter as a keyboard does: one key, whose letter comes only if the page leaves it the key.
func (w *window) enter() {
	w.t.Helper()
	w.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		for _, what := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeKeyDown, input.DispatchKeyEventTypeKeyUp} {
			p := input.DispatchKeyEventParams{Type: what, Key: "Enter", Code: "Enter", WindowsVirtualKeyCode: 13}
			if what == input.DispatchKeyEventTypeKeyDown {
				p.Text = "\r"
			}
			if _, err := chromedp.Call(ctx, input.DispatchKeyEvent, p); err != nil {
				return err
			}
		}
		return nil
	}))
}

// fill types into a measure, as somebody does who comes to it by its jump; with Enter it is taken.
func (w *window) fill(key, value string) {
	w.t.Helper()
	w.run(`goTo(%s); document.activeElement.select && document.activeElement.select()`, quote(key))
	require.Equal(w.t, key, look[string](w, `document.activeElement.dataset.key || document.activeElement.tagName`))
	w.key(value)
}

// take leaves a measure by Enter and waits until the page has what the job is then.
func (w *window) take() {
	w.t.Helper()
	was := w.current.Load().Version
	w.enter()
	w.until(`version > %d`, was)
}

// level waits until a window shows what the job is.
func (w *window) level() {
	w.t.Helper()
	w.until(`version === %d`, w.current.Load().Version)
}

func TestAMeasureIsTypedAndPanelsFollowAndOnlyItIsSaved(t *testing.T) {
	w := demoWindow(t)
	w.fill("walls[0].runs[0].panels", "5")
	w.until(`document.querySelectorAll("#stage .panel:not(.name)").length === 5`)
	assert.Equal(t, 1, w.current.Load().Version, "until it is left, it is looked at alone")
	w.take()
	w.until(`document.activeElement.dataset.key === "walls[0].runs[0].gap"`)
	assert.Equal(t, "5", w.value("walls[0].runs[0].panels"))
	assert.Contains(t, look[string](w, `document.querySelector(".text mark").textContent`), "panels: 5")

	w.fill("walls[0].runs[0].gap", "")
	w.key("1/4")
	w.do(chromedp.KeyEvent("s", chromedp.KeyModifiers(2)))
	w.until(`document.getElementById("words").textContent === "wall.yaml is saved."`)
	want := strings.Replace(strings.Replace(demo(), "panels: 6", "panels: 5", 1), "gap: 1/8", "gap: 1/4", 1)
	require.NotEqual(t, demo(), want)
	assert.Equal(t, want, w.disk.files[wall])
	assert.Zero(t, look[int](w, `document.querySelectorAll(".text mark").length`))
}

func TestNonsenseStandsBesideItsMeasureAndItsJumpMendsIt(t *testing.T) {
	w := demoWindow(t)
	w.fill("walls[0].width", "wide")
	w.take()
	assert.Contains(t, look[string](w, `%s.closest(".measure").innerText`, field("walls[0].width")), "wide")
	assert.Equal(t, "true", look[string](w, `%s.getAttribute("aria-invalid")`, field("walls[0].width")))
	assert.Contains(t, look[string](w, `document.getElementById("wall").innerText`), "As it was before your change")
	assert.Equal(t, "1 to mend", look[string](w, `document.querySelector('[data-key="topic the wall"] > summary .wrong').textContent`))
	w.run(`document.querySelector('[data-key="topic the wall"]').open = false`)
	w.press("#findings [data-go]")
	w.until(`document.activeElement.dataset.key === "walls[0].width"`)
	w.run(`document.activeElement.select()`)
	w.key("118 1/2")
	w.take()
	assert.Equal(t, sound, w.current.Load().Condition)
	assert.Equal(t, demo(), w.current.Load().Source)
}

func TestAStopIsMendedByItsJumpAndAnotherIsDealtWith(t *testing.T) {
	w := demoWindow(t)
	require.Empty(t, w.current.Load().Stops())
	w.fill("screws.board.length", "2")
	w.take()
	require.NotEmpty(t, w.current.Load().Stops(), "screws come through")
	key := look[string](w, `document.querySelector("#findings .stop [data-go]").dataset.go`)
	w.press("#findings .stop [data-go]")
	w.until(`(document.activeElement.dataset.key || "").startsWith(%s)`, quote(key))
	w.fill("screws.board.length", "1/2")
	w.take()
	require.Empty(t, w.current.Load().Stops())

	w.fill("screws.board.length", "2")
	w.take()
	w.press("#findings .stop summary[data-key^=deal]")
	w.run(`document.querySelector("#findings .stop [name=because]").focus()`)
	w.key("tips are ground flush")
	w.take()
	assert.Empty(t, w.current.Load().Stops())
	assert.Contains(t, look[string](w, `document.querySelector("#findings .accepted").innerText`), "tips are ground flush")
	assert.Contains(t, w.current.Load().Source, "tips are ground flush")
	w.run(`goTo("accept[0].because")`)
	assert.Equal(t, "tips are ground flush", look[string](w, `document.activeElement.value`))
}

func TestTheFileChangedOutsideIsFollowedOrClashes(t *testing.T) {
	w := demoWindow(t)
	w.disk.files[wall] = named("From outside")
	w.run(`document.dispatchEvent(new Event("visibilitychange"))`)
	w.until(`document.querySelector("h1").textContent === "From outside"`)
	assert.Equal(t, "From outside", look[string](w, "%s.value", field("name")))

	w.fill("name", "Mine")
	w.take()
	w.disk.files[wall] = named("Theirs")
	w.run(`document.dispatchEvent(new Event("visibilitychange"))`)
	w.until(`document.getElementById("notices").innerText.includes("Another program has changed")`)
	assert.Equal(t, "Mine", look[string](w, "%s.value", field("name")))
	w.run(`[...document.querySelectorAll("#notices button")].find(b => b.textContent === "Take the one on the disk").click()`)
	w.until(`document.querySelector("h1").textContent === "Theirs"`)
	var kept []string
	for _, text := range w.disk.files {
		kept = append(kept, text)
	}
	assert.True(t, slices.ContainsFunc(kept, func(text string) bool { return strings.Contains(text, "Mine") }), "mine is kept beside")
}

func TestUndoGoesBackToTheBeginningAndForthAgain(t *testing.T) {
	w := demoWindow(t)
	shown := func() []string {
		return look[[]string](w, `[...document.querySelectorAll("#measures [data-op]")].map(e => e.dataset.key + "=" + e.value)`)
	}
	begin := shown()
	w.fill("walls[0].runs[0].panels", "4")
	w.take()
	for key, value := range map[string]string{"clip.kind": "lift", "walls[0].lining.gives": "true"} {
		w.run(`goTo(%s)`, quote(key))
		was := w.current.Load().Version
		w.choose(fmt.Sprintf(`#measures [data-key="%s"]`, key), value)
		w.until(`version > %d`, was)
	}
	w.fill("walls[0].width", "119")
	w.take()
	end := shown()
	require.NotEqual(t, begin, end)
	for range 4 {
		was := w.current.Load().Version
		w.press(`[data-key="undo"]`)
		w.until(`version > %d`, was)
	}
	assert.Equal(t, begin, shown())
	assert.True(t, look[bool](w, `document.querySelector('[data-key="undo"]').disabled`))
	assert.Equal(t, demo(), w.current.Load().Source)
	for range 4 {
		was := w.current.Load().Version
		w.run(`document.activeElement.blur()`)
		w.do(chromedp.KeyEvent("y", chromedp.KeyModifiers(2)))
		w.until(`version > %d`, was)
	}
	assert.Equal(t, end, shown())
}

func TestOneWindowTakesOutAWallAndTheOtherTypesIntoIt(t *testing.T) {
	w := demoWindow(t)
	w.press(`[data-key="topic the wall"] > summary`)
	w.press(`[data-key="add walls"]`)
	w.until(`document.activeElement.dataset.key === "walls[1].name"`)
	w.key("Bay")
	w.take()
	two := w.another()
	two.fill("walls[1].width", "77")
	w.run(`document.querySelector('[data-key="walls[1] remove"]').click()`)
	w.until(`!%s`, field("walls[1].width"))
	two.enter()
	two.until(`document.getElementById("words").textContent.includes("“77” was not taken")`)
	assert.NotContains(t, w.current.Load().Source, "77")
	two.level()

	// What both change: the later one keeps what was typed, and is told.
	w.fill("walls[0].width", "120")
	two.fill("walls[0].width", "121")
	w.take()
	two.enter()
	two.until(`document.querySelector("#measures .refused") !== null`)
	assert.Equal(t, "121", look[string](two, "%s.value", field("walls[0].width")))
	assert.Contains(t, look[string](two, `document.querySelector("#measures .refused").textContent`), "120")
	assert.Equal(t, "120", w.value("walls[0].width"))
}

func TestAWholeNewJobIsTypedByKeyboardAloneUntilItsPDF(t *testing.T) {
	w := demoWindow(t)
	w.do(chromedp.Navigate(strings.Split(w.address, "/enter")[0] + "/start"))
	w.until(`document.readyState === "complete" && !!document.querySelector("[name=walls]")`)
	w.key("Headboard" + kb.Tab + "i" + kb.Tab + kb.Tab + kb.Enter)
	w.until(`location.pathname === "/" && document.readyState === "complete" && document.title === "Headboard.yaml"`)
	// Tab to the first measure, then Enter from one to the next; those not named here are left as they are.
	typed := map[string]string{
		"walls[0].width": "78", "walls[0].height": "96", "walls[0].lining.thickness": "1/2", "walls[0].studs.from": "7", "walls[0].studs.every": "16",
		"walls[0].studs.depth": "3 1/2", "walls[0].runs[0].across": "[0, 78]", "walls[0].runs[0].height.bottom": "20",
		"walls[0].runs[0].height.top": "44", "walls[0].runs[0].panels": "5", "walls[0].runs[0].gap": "1/8", "board.thickness": "15/32", "clip.kind": "p",
		"clip.base": "1 1/2 x 2", "clip.holes": "[[0, 3/4], [0, -3/4]]", "clip.flange": "3/32", "clip.standoff": "5/16",
	}
	order := look[[]string](w, `(document.querySelector('[data-key="name"]').focus(), ["name"])`)
	actions := 0
	for {
		key := look[string](w, `document.activeElement.dataset.key || ""`)
		was := w.current.Load().Version
		if value, ok := typed[key]; ok && value != "" {
			delete(typed, key)
			w.key(value)
			actions++
			was++ // and then it is taken
		}
		w.enter()
		actions++
		w.until(`version >= %d`, was)
		next := look[string](w, `document.activeElement.dataset.key || ""`)
		if next == key || slices.Contains(order, next) || len(order) > 300 {
			break
		}
		order = append(order, next)
	}
	t.Log(len(order), "measures,", actions, "actions")
	assert.Empty(t, typed, "never came by these: %s", order)
	now := w.current.Load()
	require.Equal(t, sound, now.Condition, "%v", now.Problems)
	assert.Len(t, now.Work.Plan.Panels, 5)
	head := look[string](w, `fetch("/download/sheets.pdf").then(r => r.text()).then(text => text.slice(0, 5))`)
	assert.Equal(t, "%PDF-", head)
}

func TestOddNamesAreShownAsTheyAre(t *testing.T) {
	w := demoWindow(t)
	for _, name := range []string{`<script>alert(1)</script>`, `"&'`, "قاعة القراءة", strings.Repeat("long ", 15)} {
		w.fill("name", name)
		w.take()
		name = strings.TrimSpace(name)
		assert.Equal(t, name, look[string](w, `document.querySelector("h1").textContent`))
		assert.Equal(t, name, look[string](w, "%s.value", field("name")))
		assert.Equal(t, name, w.value("name"))
		w.fill("walls[0].name", name[:min(len(name), 36)])
		w.take()
		assert.LessOrEqual(t, look[int](w, `document.documentElement.scrollWidth`), 1280)
	}
	assert.Zero(t, look[int](w, `document.querySelectorAll("main script").length`))
}

func TestNineWindowsAtOnce(t *testing.T) {
	w := demoWindow(t)
	all := []*window{w}
	for range 8 {
		all = append(all, w.another())
	}
	w.fill("name", "Nine")
	w.take()
	for _, one := range all {
		one.run(`look()`) // a browser lets windows behind others wait
		one.until(`document.querySelector("h1").textContent === "Nine"`)
	}
}

func TestAServerKilledInTheMiddleHasEveryEditInItsDraft(t *testing.T) {
	w := demoWindow(t)
	w.fill("walls[0].runs[0].panels", "5")
	w.take()
	w.fill("name", "Before the end")
	w.take()
	again := openWindow(t, 1280, 900, wall, w.disk.files) // another process would find the same on the disk
	again.disk.drafts = w.disk.drafts
	again.job = nil
	require.NoError(t, again.Open(wall))
	again.do(chromedp.Navigate(again.address))
	again.until(`document.readyState === "complete" && document.getElementById("notices").innerText.includes("never saved")`)
	again.run(`[...document.querySelectorAll("#notices button")].find(b => b.textContent === "Take them").click()`)
	again.until(`document.querySelector("h1").textContent === "Before the end"`)
	assert.Equal(t, w.current.Load().Source, again.current.Load().Source)
}

func TestAServerThatIsGoneLeavesWhatIsTyped(t *testing.T) {
	w := demoWindow(t)
	w.run(`window.fetch = () => Promise.reject(new TypeError("gone"))`)
	w.fill("name", "Typed in vain")
	w.enter()
	w.until(`document.getElementById("words").textContent.includes("rodsheet has stopped")`)
	assert.Equal(t, "Typed in vain", look[string](w, "%s.value", field("name")))
	assert.Equal(t, demo(), w.current.Load().Source)
}

func TestThePageHasNoBarriers(t *testing.T) {
	w := demoWindow(t)
	for _, shade := range []string{"light", "dark"} {
		if shade == "dark" {
			w.dark()
		}
		w.run(`document.querySelectorAll("details").forEach(e => { e.open = true })`)
		assert.Empty(t, w.barriers(), shade)
		w.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": w.value("walls[0].width"), "value": "wide"})
		w.level()
		assert.Empty(t, w.barriers(), shade+", invalid")
		w.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": "wide", "value": "118"})
		w.level()
	}
	w.do(chromedp.Navigate(strings.Split(w.address, "/enter")[0] + "/start"))
	w.until(`document.readyState === "complete" && !!document.querySelector("[name=walls]")`)
	assert.Empty(t, w.barriers(), "start")
}

func TestThePageFitsNarrowAndWideWindows(t *testing.T) {
	w := demoWindow(t)
	for _, width := range []int64{360, 800, 1280, 1920, 2560} {
		w.do(chromedp.EmulateViewport(width, 900))
		w.run(`document.querySelectorAll("details").forEach(e => { e.open = true })`)
		assert.LessOrEqual(t, look[int64](w, `document.documentElement.scrollWidth`), width)
	}
}

// BenchmarkEditInABrowser tells what an edit takes from where a measure is left until what follows is on the screen, and
// what 95 of 100 stay under.
func BenchmarkEditInABrowser(b *testing.B) {
	for name, text := range map[string]string{"demo": demo(), "a thousand panels": building()} {
		b.Run(name, func(b *testing.B) {
			w := openWindow(b, 1280, 900, wall, map[string]string{wall: text})
			took := look[[]float64](w, `(async () => {
				const took = [];
				for (let i = 0; i < %d; i++) {
					const e = %s, was = version, from = performance.now();
					e.value = String(%s + i %% 2);
					e.dispatchEvent(new Event("change", { bubbles: true }));
					while (version === was) await new Promise(requestAnimationFrame);
					await new Promise(requestAnimationFrame);
					took.push(performance.now() - from);
				}
				return took.sort((a, b) => a - b);
			})()`, b.N, field("walls[0].height"), map[bool]string{true: "102", false: "2700"}[name == "demo"])
			b.ReportMetric(took[len(took)*95/100], "ms-95%")
		})
	}
}
