package report

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template"
	"rodsheet/template/job"
	"rodsheet/template/page"
)

// compiled is a schema as an independent validator of draft 2020-12 takes it.
func compiled(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	text, err := Schema(name)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource(name+".json", doc))
	s, err := c.Compile(name + ".json")
	require.NoError(t, err)
	return s
}

func check(t *testing.T, s *jsonschema.Schema, text string) error {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	require.NoError(t, err)
	return s.Validate(v)
}

func TestWhatIsWrittenFitsItsSchema(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	jobs := map[string][]byte{}
	name, data := job.Demo()
	jobs[name] = data
	for _, file := range append(files, "../job/testdata/every-field.yaml") {
		jobs[file], err = os.ReadFile(file)
		require.NoError(t, err)
	}
	plan, findings, blocks, lists := compiled(t, "plan"), compiled(t, "check"), compiled(t, "blocks"), compiled(t, "list")
	for name, data := range jobs {
		w, err := template.Open(name, data)
		require.NoError(t, err)
		for _, counts := range [][]page.Count{nil, {{Sheet: "scale", Kind: "scale", First: 1, Pages: 1}}} {
			text, err := Plan(w.Plan, w.Findings, counts)
			require.NoError(t, err)
			assert.NoError(t, check(t, plan, text), name)
		}
		text, err := Findings(w.Job, w.Findings)
		require.NoError(t, err)
		assert.NoError(t, check(t, findings, text), name)
		text, err = Blocks(w.Plan)
		require.NoError(t, err)
		assert.NoError(t, check(t, blocks, text), name)
		text, err = Lists(w.Plan)
		require.NoError(t, err)
		assert.NoError(t, check(t, lists, text), name)
	}
}

func TestASchemaRefusesOtherKeysAndValues(t *testing.T) {
	s := compiled(t, "blocks")
	text, err := Blocks(demo(t).Plan)
	require.NoError(t, err)
	require.NoError(t, check(t, s, text))
	for claim, change := range map[string][2]string{
		"an unknown key":     {`"job":`, `"jobs": 1, "job":`},
		"a missing key":      {`"count":`, `"counts":`},
		"another type":       {`"job": "`, `"job": 1, "x": "`},
		"an unknown word":    {`"for": "drilling"`, `"for": "sanding"`},
		"words for a length": {`"height_mm": `, `"height_mm": "high", "y": `},
	} {
		bad := strings.Replace(text, change[0], change[1], 1)
		require.NotEqual(t, text, bad, claim)
		assert.Error(t, check(t, s, bad), claim)
	}
	data, err := os.ReadFile("../job/testdata/every-field.yaml")
	require.NoError(t, err)
	w, err := template.Open("every-field.yaml", data)
	require.NoError(t, err)
	text, err = Findings(w.Job, w.Findings)
	require.NoError(t, err)
	bad := strings.Replace(text, `"params": {`, `"params": {"nobody": 1, `, 1)
	bad = strings.Replace(bad, `"nobody": 1, }`, `"nobody": 1}`, 1)
	require.NotEqual(t, text, bad)
	assert.Error(t, check(t, compiled(t, "check"), bad), "params of another finding")
	_, err = Schema("wall")
	assert.EqualError(t, err, `there is no schema of "wall"; choose one of plan, check, blocks, list`)
}
