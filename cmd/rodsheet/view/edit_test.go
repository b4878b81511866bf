package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/job"
)

// value is a value of the open job's text.
func (p *tester) value(path string) string {
	p.t.Helper()
	at, err := job.ParsePath(path)
	require.NoError(p.t, err)
	v, _ := p.current.Load().Text.Value(at)
	return v
}

func (p *tester) edit(fields map[string]any) (int, answer) {
	p.t.Helper()
	if _, given := fields["v"]; !given {
		fields["v"] = p.current.Load().Version
	}
	return p.post("/edit", fields)
}

func TestAnEditChangesItsValueAndNothingElse(t *testing.T) {
	p := demoPage(t)
	was := p.value("walls[0].width")
	code, a := p.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": was, "value": "12' 3\""})
	require.Equal(t, 200, code, a.Error)
	name := p.value("walls[0].name")
	assert.Equal(t, "the width of wall "+name, a.Undo)
	assert.Equal(t, `12' 3"`, p.value("walls[0].width"))
	before, after := strings.Split(demo(), "\n"), strings.Split(p.current.Load().Source, "\n")
	require.Len(t, after, len(before))
	changed := 0
	for i := range before {
		if before[i] != after[i] {
			changed++
		}
	}
	assert.Equal(t, 1, changed)
	code, a = p.post("/undo", map[string]any{"v": a.Version})
	require.Equal(t, 200, code)
	assert.Equal(t, demo(), p.current.Load().Source)
	assert.False(t, a.Unsaved)
}

func TestAValueThatCannotBeSoIsToldBesideItsFieldAndCanBeUndone(t *testing.T) {
	p := demoPage(t)
	was := p.value("walls[0].width")
	code, a := p.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": was, "value": "wide"})
	require.Equal(t, 200, code, "it is what was typed, and the page says what is wrong")
	assert.Equal(t, invalid, a.Condition)
	now := p.current.Load()
	assert.Equal(t, "walls[0].width", now.Problems.List[0].Field)
	assert.NotNil(t, now.Work)
	assert.Contains(t, a.Fragments["wall"], "As it was before your change to the width of wall")
	_, a = p.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": "wide", "value": was})
	assert.Equal(t, sound, a.Condition)
	assert.Equal(t, demo(), p.current.Load().Source)
}

func TestAnEditOfAnOlderPagePassesWhereItMeansTheSame(t *testing.T) {
	p := demoPage(t)
	width, height := p.value("walls[0].width"), p.value("walls[0].height")
	_, a := p.edit(map[string]any{"op": "set", "path": "walls[0].width", "was": width, "value": "150"})
	require.Empty(t, a.Error)

	code, _ := p.edit(map[string]any{"v": 1, "op": "set", "path": "walls[0].height", "was": height, "value": "97"})
	assert.Equal(t, 200, code, "another value, and no list was changed")
	code, a = p.edit(map[string]any{"v": 1, "op": "set", "path": "walls[0].width", "was": width, "value": "151"})
	assert.Equal(t, 409, code)
	assert.Equal(t, &conflict{Path: "walls[0].width", Yours: "151", Theirs: "150"}, a.Conflict)
	assert.Contains(t, a.Error, "“150”")
	assert.Equal(t, "150", p.value("walls[0].width"))

	for _, op := range []map[string]any{
		{"op": "add", "path": "walls[1]"}, {"op": "remove", "path": "walls[0].height"}, {"op": "rename", "path": "walls[0]", "value": "x"},
		{"op": "move", "path": "walls[0].runs[0]", "to": 1}, {"op": "units", "value": "mm", "keep": true}, {"op": "accept", "value": "x", "because": "y"},
	} {
		op["v"] = 1
		code, a = p.edit(op)
		assert.Equal(t, 409, code, op["op"])
		assert.Contains(t, a.Error, "ask again", op["op"])
	}

	code, a = p.edit(map[string]any{"op": "add", "path": "walls[1]"})
	require.Equal(t, 200, code, a.Error)
	code, a = p.edit(map[string]any{"v": a.Version - 1, "op": "set", "path": "walls[0].width", "was": "150", "value": "152"})
	assert.Equal(t, 409, code, "since then a list was changed")
	assert.NotNil(t, a.Conflict)
}

func TestListsNamesAndUnitsAreEdited(t *testing.T) {
	p := demoPage(t)
	walls := len(p.current.Load().Text.Entries(job.Path{}.Key("walls")))
	_, a := p.edit(map[string]any{"op": "add", "path": "walls[1]"})
	require.Empty(t, a.Error)
	assert.Len(t, p.current.Load().Text.Entries(job.Path{}.Key("walls")), walls+1)
	assert.Equal(t, invalid, a.Condition, "its measures are empty")
	_, a = p.edit(map[string]any{"op": "remove", "path": "walls[1]"})
	require.Empty(t, a.Error)
	assert.Equal(t, demo(), p.current.Load().Source)

	run := p.value("walls[0].runs[0].name")
	_, a = p.edit(map[string]any{"op": "rename", "path": "walls[0].runs[0]", "value": "Q"})
	require.Empty(t, a.Error)
	assert.Equal(t, "the name of run "+run+" of wall "+p.value("walls[0].name"), a.Undo)
	assert.Equal(t, "Q", p.value("walls[0].runs[0].name"))

	_, a = p.edit(map[string]any{"op": "units", "value": "mm", "keep": true})
	require.Empty(t, a.Error)
	assert.Equal(t, "mm", p.value("units"))
	assert.Equal(t, sound, a.Condition)
	code, _ := p.edit(map[string]any{"op": "units", "value": "ell"})
	assert.Equal(t, 422, code)
	code, _ = p.edit(map[string]any{"op": "paint", "path": "name"})
	assert.Equal(t, 422, code)
	code, _ = p.edit(map[string]any{"op": "set", "path": "walls[", "value": "x"})
	assert.Equal(t, 422, code)
	code, _ = p.edit(map[string]any{"op": "set", "path": "walls[99].width", "value": "x"})
	assert.Equal(t, 422, code)
}

func TestAFindingIsDealtWithForAReason(t *testing.T) {
	p := newPage(t, map[string]string{wall: demo() + "\n"})
	require.NoError(t, p.Open(wall))
	code, a := p.edit(map[string]any{"op": "accept", "value": "on-lining", "at": "L1", "because": " "})
	assert.Equal(t, 422, code)
	assert.Contains(t, a.Error, "what you have done")
	for _, because := range []string{"toggles carry it", "anchors: carry, it"} {
		code, a = p.edit(map[string]any{"op": "accept", "value": "on-lining", "at": "L1", "because": because})
		require.Equal(t, 200, code, a.Error)
		assert.Len(t, p.current.Load().Text.Entries(job.Path{}.Key("accept")), 1, "the same finding is noted once")
		assert.Equal(t, because, p.value("accept[0].because"))
		assert.Equal(t, "L1", p.value("accept[0].at"))
	}
}

func TestAPreviewChangesNothing(t *testing.T) {
	p := demoPage(t)
	code, a := p.post("/preview", map[string]any{"v": 1, "op": "set", "path": "walls[0].runs[0].panels", "was": "", "value": "3"})
	require.Equal(t, 200, code, a.Error)
	assert.Equal(t, 1, a.Version)
	assert.NotEmpty(t, a.Fragments["wall"])
	assert.Equal(t, demo(), p.current.Load().Source)
	assert.Empty(t, p.disk.drafts)
	code, _ = p.post("/preview", map[string]any{"v": 0, "op": "set", "path": "name", "value": "x"})
	assert.Equal(t, 409, code)
	code, a = p.post("/preview", map[string]any{"v": 1, "op": "set", "path": "walls[0].width", "value": "wide"})
	require.Equal(t, 200, code)
	assert.Equal(t, invalid, a.Condition)
	code, _ = p.post("/preview", map[string]any{"v": 1, "op": "set", "path": "nothing", "value": "x"})
	assert.Equal(t, 422, code)
}

func TestAFileThatCannotBeReadAsFieldsIsMendedAsText(t *testing.T) {
	p := newPage(t, map[string]string{wall: "a: &b [c\n"})
	require.NoError(t, p.Open(wall))
	assert.Equal(t, unreadable, p.current.Load().Condition)
	code, a := p.edit(map[string]any{"op": "set", "path": "name", "value": "x"})
	assert.Equal(t, 422, code)
	assert.Contains(t, a.Error, "mend its text")
	code, _ = p.post("/preview", map[string]any{"v": 1, "op": "set", "path": "name", "value": "x"})
	assert.Equal(t, 409, code)
	_, a = p.post("/text", map[string]any{"v": 1, "text": demo()})
	assert.Equal(t, sound, a.Condition)
}

func TestANewJobAsksForEveryMeasure(t *testing.T) {
	p := newPage(t, nil)
	code, _ := p.post("/new", map[string]any{"name": "Dad's: den", "units": "in", "paper": "", "walls": 1})
	assert.Equal(t, 422, code, "a colon is in the name")
	code, a := p.post("/new", map[string]any{"name": "Dad's den", "units": "mm", "paper": "a3", "walls": 2})
	require.Equal(t, 200, code, a.Error)
	assert.Equal(t, "Dad's den", p.value("name"))
	assert.Equal(t, "a3", p.value("paper.size"))
	assert.Equal(t, "mm", p.value("units"))
	assert.Equal(t, "wall 2", p.value("walls[1].name"))
	now := p.current.Load()
	assert.Equal(t, invalid, now.Condition)
	assert.Equal(t, "", p.value("walls[0].width"), "no invented measure could be drilled by")
}
