//go:build !js

package view

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const panelBox = `document.querySelector('#stage .panel[data-key="L3"]').getBoundingClientRect()`

func TestThePictureGrowsByButtonsKeysWheelAndPanel(t *testing.T) {
	w := demoWindow(t)
	width := func() float64 { return look[float64](w, "%s.width", panelBox) }
	whole := width()
	w.click(`[data-zoom="1.5"]`)
	assert.InDelta(t, 1.5*whole, width(), 1)
	w.click(`[data-zoom="0"]`)
	assert.InDelta(t, whole, width(), 1)
	w.run(`stage.focus()`)
	w.key("++-")
	assert.InDelta(t, 1.5*whole, width(), 1)
	was := look[float64](w, `stage.scrollLeft`)
	w.key(kb.ArrowRight)
	w.until(`stage.scrollLeft === %f`, was+40) // what a browser scrolls by, which takes it a moment
	w.key("0")
	assert.InDelta(t, whole, width(), 1)

	// Under the wheel, what is pointed at stays where it is.
	x, y := look[float64](w, "%s.left + 5", panelBox), look[float64](w, "%s.top + 5", panelBox)
	w.mouse(input.DispatchMouseEventTypeMouseWheel, x, y, func(p *input.DispatchMouseEventParams) { p.DeltaX, p.DeltaY, p.Modifiers = 0.01, -300, 2 })
	w.until("%s.width > %f", panelBox, 2*whole)
	assert.InDelta(t, x, look[float64](w, "%s.left", panelBox)+5*width()/whole, 3)
	assert.InDelta(t, y, look[float64](w, "%s.top", panelBox)+5*width()/whole, 3)

	// Dragging takes the picture along, and is no click.
	left := look[float64](w, "%s.left", panelBox)
	held := func(p *input.DispatchMouseEventParams) {
		p.Button, p.Buttons, p.ClickCount = input.MouseButtonLeft, 1, 1
	}
	w.mouse(chromedp.MousePressed, x, y, held)
	w.mouse(chromedp.MouseMoved, x-20, y, held)
	w.mouse(chromedp.MouseMoved, x-40, y, held)
	w.mouse(chromedp.MouseReleased, x-40, y, chromedp.ButtonLeft, chromedp.ClickCount(1))
	assert.InDelta(t, left-40, look[float64](w, "%s.left", panelBox), 2)
	assert.Empty(t, look[string](w, `document.getElementById("board").innerText`))

	// A panel that is chosen stands in the middle, as large as there is room for.
	w.choose("#panel", "L3")
	w.until(`document.getElementById("board").innerText.includes("Panel L3: board A")`)
	assert.True(t, look[bool](w, `(() => { const p = %s, s = document.getElementById("stage").getBoundingClientRect();
		return Math.abs(p.left + p.width / 2 - s.left - s.width / 2) < 3 && p.left > s.left && p.top > s.top && Math.max(p.width / s.width, p.height / s.height) > 0.6; })()`, panelBox))

	// What was chosen outlives a change.
	grown := width()
	w.edit(map[string]any{"op": "set", "path": "walls[0].fittings[0].margin", "was": w.value("walls[0].fittings[0].margin"), "value": "3"})
	w.until(`version === 2 && document.querySelector("#stage .chosen.panel").dataset.key === "L3" && document.getElementById("board").innerText.includes("Panel L3")`)
	assert.InDelta(t, grown, width(), 1)
}

func TestAClickOnAPanelShowsItsBoardAndAThingLeadsToItsMeasure(t *testing.T) {
	w := demoWindow(t)
	w.click(`#stage .panel[data-key="L2"] path`)
	w.until(`document.getElementById("board").innerText.includes("Panel L2: board A")`)
	assert.Equal(t, 2, look[int](w, `document.querySelectorAll("#board svg").length`))
	assert.Equal(t, 8, look[int](w, `document.querySelectorAll("#board svg .clip").length`), "four clips on each side")
	assert.Equal(t, "L2", look[string](w, `document.getElementById("panel").value`))
	w.click(`#board [data-close]`)
	w.until(`document.getElementById("board").innerText === ""`)

	w.click(`#stage .fitting path`)
	w.until(`(document.activeElement.dataset.key || "").startsWith("walls[0].fittings[0]")`)
	w.click(`#findings [data-go]`)
	field := w.current.Load().Findings[0].Field
	w.until(`(document.activeElement.dataset.key || "").startsWith(%s)`, quote(field))
}

func TestThingsFieldsAndFindingsLightEachOtherUp(t *testing.T) {
	w := openWindow(t, 1280, 900, wall, map[string]string{wall: strings.Replace(demo(), "at: [54, 47]", "at: [54, 40]", 1)})
	stops := w.current.Load().Stops()
	require.NotEmpty(t, stops, "the lamp socket lies behind a panel")
	lit := func(selector string) []string {
		return look[[]string](w, `[...document.querySelectorAll(%s)].map(e => e.dataset.key)`, quote(selector))
	}
	w.run(`document.querySelector("#findings .stop").dispatchEvent(new Event("pointerover", {bubbles: true}))`)
	assert.Equal(t, stops[0].Subject.AllPanels(), lit("#stage .panel.lit:not(.name)"))
	w.run(`goTo("walls[0].fittings[0].at")`)
	assert.Contains(t, lit("#stage .lit"), "walls[0].fittings[0]")
	assert.Equal(t, []string{"walls[0].fittings[0].at"}, lit("#measures .lit"))
	w.run(`document.querySelector("#stage .fitting").dispatchEvent(new Event("pointerover", {bubbles: true}))`)
	assert.Contains(t, lit("#measures .lit"), "walls[0].fittings[0].size")
	w.run(`goTo("walls[0].runs[0].gap")`)
	assert.Len(t, lit("#stage .panel.lit:not(.name)"), 6)
	w.run(`document.querySelector('#stage .panel[data-key="L1"]').dispatchEvent(new Event("pointerover", {bubbles: true}))`)
	assert.Equal(t, []string{"L1"}, lit("#stage .panel.lit:not(.name)"))
	w.run(`document.querySelector("h1").dispatchEvent(new Event("pointerover", {bubbles: true}))`)
	assert.Empty(t, lit(".lit"))
}

func TestLayersCanBeHidden(t *testing.T) {
	w := demoWindow(t)
	shown := func(selector string) int {
		return look[int](w, `[...document.querySelectorAll(%s)].filter(e => e.getClientRects().length).length`, quote(selector))
	}
	w.click(".layers summary")
	for id, things := range map[string]string{
		"wood": "#stage .stud, #stage .rail", "clips": "#stage .clip", "things": "#stage .fitting", "zones": "#stage .fitting .grey",
		"heights": "#stage .height, #stage .band", "widths": "#stage .width", "names": "#stage .panel.name",
	} {
		require.Positive(t, shown(things), things)
		w.click("#layer-" + id)
		assert.Zero(t, shown(things), things)
		assert.Equal(t, 6, shown("#stage .panel:not(.name)"))
		w.click("#layer-" + id)
		assert.Positive(t, shown(things), things)
	}
}

func TestOneWallOrAllRoundTheRoom(t *testing.T) {
	const rooms = `rodsheet: 1
name: Two walls
units: mm
board: {thickness: 12}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 10}
walls:
  - {name: Left, width: 1000, height: 2400, lining: {thickness: 12}, runs: [{name: L, across: [100, 700], height: {bottom: 500, top: 1100}, panels: 1}]}
  - {name: Right, width: 2000, height: 2000, lining: {thickness: 12}, runs: [{name: R, across: [100, 1700], height: {bottom: 500, top: 1100}, panels: 2}]}
`
	w := openWindow(t, 1280, 900, wall, map[string]string{wall: rooms})
	box := `document.querySelector('#stage .panel[data-key="R1"]').getBoundingClientRect()`
	all := look[float64](w, "%s.width", box)
	foot := func(panel string) float64 {
		return look[float64](w, `document.querySelector('#stage .panel[data-key="%s"]').getBoundingClientRect().bottom`, panel)
	}
	assert.InDelta(t, foot("L1"), foot("R1"), 0.5, "walls stand on one level line")
	assert.Less(t, foot("L1"), look[float64](w, `document.getElementById("stage").getBoundingClientRect().bottom`))
	w.choose("#look", "1")
	assert.Zero(t, look[int](w, `document.querySelector('#stage .panel[data-key="L1"]').getClientRects().length`))
	assert.Greater(t, look[float64](w, "%s.width", box), all)
	w.choose("#look", "all")
	assert.InDelta(t, all, look[float64](w, "%s.width", box), 0.5)
	assert.Contains(t, look[string](w, `document.querySelector("#stage .on-lining title").textContent`), "on the lining")
}

func TestTheLastSoundPictureStaysGreyWhileTheJobIsInvalid(t *testing.T) {
	w := demoWindow(t)
	w.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": w.value("walls[0].width"), "value": "wide"})
	w.until(`version === 2`)
	assert.Contains(t, look[string](w, `document.querySelector("#stage .was").innerText`), "As it was before your change to the width of wall")
	assert.Equal(t, 6, look[int](w, `document.querySelectorAll("#stage .panel:not(.name)").length`))
	assert.Less(t, look[float64](w, `Number(getComputedStyle(document.querySelector("#stage .walls")).opacity)`), 0.5)
	assert.Contains(t, look[string](w, `document.getElementById("sheets").innerText`), "Nothing is printed")
	w.click(`#findings [data-go="walls[0].width"]`)
	w.until(`document.activeElement.dataset.key === "walls[0].width"`)
}

func TestNothingKeepsAnybodyOutInLightOrDark(t *testing.T) {
	w := openWindow(t, 1280, 900, wall, map[string]string{wall: strings.Replace(demo(), "at: [54, 47]", "at: [54, 40]", 1)})
	w.run(`for (const e of document.querySelectorAll("details")) e.open = true; showBoard("L1"); showPages()`)
	w.until(`document.querySelectorAll("#board svg").length === 2 && !!document.querySelector("#pages img")`)
	assert.Empty(t, w.barriers())
	w.dark()
	assert.Empty(t, w.barriers())
	w.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": w.value("walls[0].width"), "value": "wide"})
	w.until(`!!document.querySelector("#wall.old")`)
	assert.Empty(t, w.barriers())
	w.run(`location.assign("/start")`)
	w.until(`location.pathname === "/start" && document.readyState === "complete"`)
	assert.Empty(t, w.barriers())
}

func TestThePageItselfIsNotPrinted(t *testing.T) {
	w := demoWindow(t)
	assert.NotContains(t, look[string](w, `document.body.innerText`), "measure the check line.")
	w.onPaper()
	assert.Equal(t, "Print the PDF at 100 %, then measure the check line.", strings.TrimSpace(look[string](w, `document.body.innerText`)))
}
