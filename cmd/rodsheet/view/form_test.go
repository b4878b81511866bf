package view

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/job"
)

// inEveryWay are the texts of the demo with one entry of each list, written in each of the ways that there are.
func inEveryWay(t *testing.T) []*job.Text {
	text, err := job.ParseText([]byte(demo()))
	require.NoError(t, err)
	for _, path := range []string{"walls[0].openings[0]", "walls[0].keep-outs[0]"} {
		p, err := job.ParsePath(path)
		require.NoError(t, err)
		text, err = text.Add(p)
		require.NoError(t, err)
	}
	text, err = text.Set(job.Path{}.Key("accept"), "[{finding: a, because: b}]")
	require.NoError(t, err)
	out := []*job.Text{text}
	for _, f := range job.Fields() {
		for _, one := range f.OneOf {
			for _, way := range one.Ways {
				path := strings.NewReplacer("[]", "[0]", "*", "settle").Replace(f.Path)
				switch {
				case f.Kind == job.KindList:
					path += "[0]"
				case f.Kind == job.KindNamed:
					path += ".settle"
				}
				p, err := job.ParsePath(path)
				require.NoError(t, err)
				from := text
				if f.Of != "" {
					from, err = text.Set(p, "{bottom: 1, top: 2}")
					require.NoError(t, err)
				}
				if written, err := from.Choose(p, way.Needs[0]); err == nil {
					out = append(out, written)
				} else {
					out = append(out, from) // it is written so
				}
			}
		}
	}
	return out
}

func TestEveryFieldHasItsPlaceInTheForm(t *testing.T) {
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
	for _, text := range inEveryWay(t) {
		for _, topic := range (&state{Text: text}).Measures() {
			for _, piece := range topic.Pieces {
				walk(piece.Parts)
			}
		}
	}
	for _, f := range job.Fields() {
		if f.Path != "rodsheet" && !strings.Contains(f.Path, ".across[].") { // readings are one text
			assert.True(t, slices.Contains(patterns, f.Path), f.Path)
		}
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
