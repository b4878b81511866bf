package view

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheWallShowsEveryPanelAndFollows(t *testing.T) {
	p := demoPage(t)
	html := p.get("/").Body.String()
	for _, panel := range p.current.Load().Work.Plan.Panels {
		assert.Contains(t, html, `<option>`+panel.Name+`</option>`)
		assert.Contains(t, html, `data-key="`+panel.Name+`" data-about="walls[0].runs[0]"`)
	}
	assert.NotContains(t, html, "style=")
	assert.NotContains(t, html, `class="old"`)
	_, a := p.edit(map[string]any{"op": "set", "path": "walls[0].runs[0].panels", "was": p.value("walls[0].runs[0].panels"), "value": "4"})
	assert.Equal(t, 4, strings.Count(a.Fragments["wall-0"], `<g class="panel" `))
	assert.NotContains(t, a.Fragments, "wall", "the picture alone is new")
	assert.Contains(t, a.Fragments, "views")
	_, a = p.edit(map[string]any{"op": "set", "path": "walls[0].runs[0].panels", "was": "4", "value": "none"})
	assert.Equal(t, 4, strings.Count(a.Fragments["wall"], `<g class="panel" `), "the last sound picture stays")
	assert.Contains(t, a.Fragments["wall"], `class="old"`)
	assert.Contains(t, a.Fragments["wall"], "As it was before your change to the panels of run L")
	assert.NotContains(t, a.Fragments, "views")
}

func TestAChangeSendsThePicturesOfTheWallsThatItChanges(t *testing.T) {
	second := "  - {name: East, width: 40, height: 90, lining: {thickness: 1/2}, runs: [{name: E, across: [2, 36], height: settle, panels: 2}]}\n"
	p := newPage(t, map[string]string{wall: demo() + second})
	require.NoError(t, p.Open(wall))
	require.Equal(t, sound, p.current.Load().Condition, "%v", p.current.Load().Problems)
	_, a := p.edit(map[string]any{"op": "set", "path": "walls[1].runs[0].panels", "was": "2", "value": "1"})
	assert.Contains(t, a.Fragments, "wall-1")
	assert.NotContains(t, a.Fragments, "wall-0")
	assert.NotContains(t, a.Fragments, "wall")
	var late answer
	require.NoError(t, json.Unmarshal(p.get("/since?v=1").Body.Bytes(), &late))
	assert.Equal(t, a.Fragments["wall-1"], late.Fragments["wall-1"])
	_, a = p.edit(map[string]any{"op": "set", "path": "walls[1].width", "was": "40", "value": "50"})
	assert.Contains(t, a.Fragments, "wall", "there is less room for the other")
	_, a = p.edit(map[string]any{"op": "set", "path": "name", "was": p.value("name"), "value": "Another"})
	assert.NotContains(t, a.Fragments, "wall-1")
	// What was refused may have been looked at before.
	code, a := p.edit(map[string]any{"op": "set", "path": "walls[1].width", "was": "40", "value": "60"})
	assert.Equal(t, 409, code)
	assert.Equal(t, string(p.current.Load().Fragment("wall")), a.Fragments["wall"])
}

func TestABrokenJobHasNoPictureYet(t *testing.T) {
	p := newPage(t, map[string]string{wall: strings.Replace(demo(), "width:", "wide:", 1)})
	require.NoError(t, p.Open(wall))
	html := p.get("/").Body.String()
	assert.Contains(t, html, "There is no picture yet")
	assert.Equal(t, 409, p.get("/board?panel=L1").Code)
}

func TestAPanelsBoardIsShownFromBothSides(t *testing.T) {
	p := demoPage(t)
	w := p.get("/board?panel=L2")
	require.Equal(t, 200, w.Code)
	for _, words := range []string{"Panel L2: board A", "Board A from its back", "Board A from its face", "from left", `data-go="walls[0].runs[0]"`} {
		assert.Contains(t, w.Body.String(), words)
	}
	assert.Equal(t, 404, p.get("/board?panel=L9").Code)
	assert.Equal(t, 404, p.get("/board").Code)
}

func TestNamesInPicturesStayWords(t *testing.T) {
	evil := `<script>"&'`
	p := newPage(t, map[string]string{wall: strings.ReplaceAll(demo(), "name: L,", "name: '"+strings.ReplaceAll(evil, "'", "''")+"',")})
	require.NoError(t, p.Open(wall))
	require.Equal(t, sound, p.current.Load().Condition, "%v", p.current.Load().Problems)
	for _, path := range []string{"/", "/board?panel=" + url.QueryEscape(evil+"1")} {
		w := p.get(path)
		assert.Equal(t, 200, w.Code)
		assert.NotContains(t, w.Body.String(), evil[:8])
	}
}

func TestFindingsNameWhatTheyAreAboutAndLeadToTheirMeasure(t *testing.T) {
	p := demoPage(t)
	html := p.get("/").Body.String()
	f := p.current.Load().Findings[0]
	assert.Contains(t, html, `data-go="`+f.Field+`"`)
	code, a := p.edit(map[string]any{"op": "accept", "value": f.ID, "at": f.At, "because": "tried on one panel"})
	require.Equal(t, 200, code, a.Error)
	assert.Contains(t, a.Fragments["findings"], "Dealt with: tried on one panel")
	assert.True(t, p.current.Load().Findings[len(p.current.Load().Findings)-1].Accepted)
}
