package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/job"
)

func TestEveryFieldHasItsPlaceInTheForm(t *testing.T) {
	text, err := job.ParseText([]byte(demo()))
	require.NoError(t, err)
	var patterns []string
	var walk func(parts []part)
	walk = func(parts []part) {
		for _, p := range parts {
			assert.NotEmpty(t, p.Label, p.Key)
			if path, err := job.ParsePath(p.Key); err == nil {
				if f, ok := job.FieldAt(path); ok {
					patterns = append(patterns, f.Path)
				}
			}
			walk(p.Parts)
		}
	}
	for _, topic := range (&state{Text: text}).Measures() {
		for _, piece := range topic.Pieces {
			walk(piece.Parts)
		}
	}
	for _, f := range job.Fields() {
		switch {
		case strings.Contains(f.Path, "openings[]."), strings.Contains(f.Path, "keep-outs[]."), strings.Contains(f.Path, "accept[]."):
			continue // the demo has none of these entries
		case strings.Contains(f.Path, ".across[]."), strings.HasPrefix(f.Path, "walls[].runs[].height."):
			continue // readings are one text; the run's height is a band by name
		case f.Path == "rodsheet":
			continue
		}
		if other := map[string]string{"outline": "height", "area": "across", "widths": "panels", "cushion": "top", "panel": "top", "gap": "top", "sill": "top", "at": "from", "from": "at", "every": "at"}[f.Name()]; other != "" {
			continue // the other way to write it
		}
		assert.Contains(t, patterns, f.Path)
	}
}

func TestLabelsAreOfFields(t *testing.T) {
	for end := range labels {
		found := false
		for _, f := range job.Fields() {
			found = found || f.Path == end || strings.HasSuffix(f.Path, "."+end)
		}
		assert.True(t, found, end)
	}
	for key := range choiceLabels {
		found := false
		for _, f := range job.Fields() {
			for _, w := range append(f.Words, "true", "false") {
				found = found || f.Name()+" "+w == key
			}
		}
		assert.True(t, found, key)
	}
	for _, f := range job.Fields() {
		for _, one := range f.OneOf {
			assert.NotEmpty(t, wayLabels[one.Ways[0].Needs[0]], f.Path)
			for _, way := range one.Ways {
				assert.NotEmpty(t, wayWords[way.Needs[0]], f.Path)
			}
		}
		if f.Kind == job.KindList || f.Kind == job.KindNamed {
			assert.True(t, entryNames[f.Name()] != "" || f.Path == "accept", f.Path)
		}
	}
}

func TestAChangeSendsThePieceItIsInAlone(t *testing.T) {
	p := demoPage(t)
	_, a := p.post("/edit", map[string]any{"v": 1, "op": "add", "path": "walls[1]"})
	require.Contains(t, a.Fragments, "measures", "another wall: the form anew")
	_, a = p.post("/edit", map[string]any{"v": a.Version, "op": "set", "path": "walls[0].width", "was": "118 1/2", "value": "117"})
	require.Empty(t, a.Error)
	var sent []string
	for id := range a.Fragments {
		if strings.HasPrefix(id, "piece-") || id == "measures" {
			sent = append(sent, id)
		}
	}
	require.Len(t, sent, 1)
	assert.Contains(t, a.Fragments[sent[0]], `value="117"`)
	assert.Contains(t, p.get("/").Body.String(), `value="117"`)
}

func TestChangedLines(t *testing.T) {
	for name, row := range map[string]struct {
		saved, text string
		want        []lines
	}{
		"nothing":         {"a\nb\n", "a\nb\n", []lines{{"a\nb\n", false}}},
		"one line":        {"a\nb\nc\n", "a\nx\nc\n", []lines{{"a\n", false}, {"x\n", true}, {"c\n", false}}},
		"one more":        {"a\na\n", "a\na\na\n", []lines{{"a\na\n", false}, {"a\n", true}}},
		"one less":        {"a\nb\nc\n", "a\nc\n", []lines{{"a\nc\n", false}}},
		"two apart":       {"a\nb\nc\nd\n", "x\nb\nc\ny\n", []lines{{"x\n", true}, {"b\nc\n", false}, {"y\n", true}}},
		"all":             {"", "a\n", []lines{{"a\n", true}}},
		"no line end":     {"a\nb", "a\nc", []lines{{"a\n", false}, {"c", true}}},
		"nothing is left": {"a\n", "", nil},
	} {
		assert.Equal(t, row.want, changedLines(row.saved, row.text), name)
	}
}
