package main

import (
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/job"
	"rodsheet/template/report"
)

func TestTheGoldenJSONFitsTheSchemaThatTheCommandWrites(t *testing.T) {
	for _, name := range report.Schemas() {
		got := command(t, nil, "schema", "--of", name)
		require.Equal(t, done, got.code, got.err)
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(got.out))
		require.NoError(t, err)
		c := jsonschema.NewCompiler()
		require.NoError(t, c.AddResource("schema.json", doc))
		s, err := c.Compile("schema.json")
		require.NoError(t, err)
		golden, err := os.Open("testdata/golden/" + name + ".json")
		require.NoError(t, err)
		defer golden.Close()
		v, err := jsonschema.UnmarshalJSON(golden)
		require.NoError(t, err)
		assert.NoError(t, s.Validate(v), name)
	}
}

func TestTheSchemaOfTheJobFileIsWrittenWhenNothingElseIsAskedFor(t *testing.T) {
	got := command(t, nil, "schema")
	require.Equal(t, done, got.code, got.err)
	assert.Contains(t, got.out, `"title": "Job file of rodsheet"`)
	for _, row := range []struct {
		args []string
		want string
	}{
		{[]string{"schema", "--of", "wall"}, `--of takes plan, check, blocks, list, not "wall"`},
		{[]string{"schema", "plan"}, `schema takes no "plan"; say --of plan, check, blocks, list for what comes back`},
	} {
		got := command(t, nil, row.args...)
		assert.Equal(t, misunderstood, got.code)
		assert.Contains(t, got.err, row.want)
	}
}

func TestHelpNamesEveryField(t *testing.T) {
	got := command(t, nil, "help", "fields")
	require.Equal(t, done, got.code, got.err)
	for _, f := range job.Fields() {
		assert.Contains(t, got.out, "\n  "+f.Path+"  (")
		assert.Contains(t, strings.Join(strings.Fields(got.out), " "), f.How)
	}
}
