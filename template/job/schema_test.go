package job

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

// The schema is judged by an independent validator of draft 2020-12.
func jobSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	text, err := Schema()
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("job.json", doc))
	s, err := c.Compile("job.json")
	require.NoError(t, err)
	return s
}

// valid is what the schema says of a job file, as YAML's own rules read it.
func valid(t *testing.T, s *jsonschema.Schema, data []byte) error {
	t.Helper()
	var v any
	require.NoError(t, yaml.UnmarshalWithOptions(bytes.TrimPrefix(data, []byte("\ufeff")), &v, yaml.AllowDuplicateMapKey()))
	raw, err := json.Marshal(v)
	require.NoError(t, err)
	v, err = jsonschema.UnmarshalJSON(bytes.NewReader(raw))
	require.NoError(t, err)
	return s.Validate(v)
}

func TestTheSchemaAcceptsWhatTheReaderAccepts(t *testing.T) {
	s := jobSchema(t)
	files, err := filepath.Glob("../../testdata/jobs/*.yaml")
	require.NoError(t, err)
	jobs := map[string][]byte{"plain": []byte(plain), "bare": []byte(bare), "starter in": Starter(geom.Imperial), "starter mm": Starter(geom.Metric)}
	_, jobs["demo"] = Demo()
	for _, file := range append(files, "testdata/every-field.yaml") {
		jobs[file], err = os.ReadFile(file)
		require.NoError(t, err)
	}
	for _, c := range waysToWriteTheSame {
		jobs[c.claim] = []byte(strings.Replace(plain, c.old, c.new, 1))
	}
	for _, length := range []string{
		"96", "96.0", "96 in", `96"`, "96″", "96 inches", "8'", "8 ft", "8 ft 0 in", `7' 12/2"`, `7'-11 1/2"`, `7' 11-1/2"`, "95 1/2", "95-1/2", "95½", "191/2",
		"2438.4 mm", "243.84 cm", "2.4384 m", "+96", "95 ½ in.", "8 foot",
	} {
		_, err := geom.ParseLength(length, geom.Imperial)
		require.NoError(t, err, length)
		quoted, err := json.Marshal(length)
		require.NoError(t, err)
		jobs["length "+length] = []byte(strings.Replace(plain, "width: 96", "width: "+string(quoted), 1))
	}
	for name, data := range jobs {
		_, err := Read(name, data)
		if !strings.HasPrefix(name, "length ") { // some are too short for the run
			require.NoError(t, err, name)
		}
		assert.NoError(t, valid(t, s, data), name)
	}
}

func TestTheSchemaRefusesTheBadFiles(t *testing.T) {
	s := jobSchema(t)
	files, err := filepath.Glob("testdata/bad/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Error(t, valid(t, s, data), file)
	}
}

// Of the reader's own bad cases the schema sees those of form; the others hang on numbers and on other fields.
func TestTheSchemaSeesSlipsOfForm(t *testing.T) {
	s := jobSchema(t)
	for _, c := range []struct{ claim, old, new string }{
		{"an unknown field", "height: 90", "heihgt: 90"},
		{"an unknown field in a list", "panels: 6", "panels: 6, pannels: 6"},
		{"a missing field", "name: Nook\n", ""},
		{"nothing written", "width: 96", "width:"},
		{"a list for a length", "width: 96", "width: [96]"},
		{"a truth for a length", "width: 96", "width: true"},
		{"a negative length", "width: 96", "width: -96"},
		{"words for a length", "width: 96", "width: wide"},
		{"a decimal comma", "width: 96", `width: "96,5"`},
		{"an unknown choice", "kind: press", "kind: snap"},
		{"a size of one number", "base: 1 1/2 x 1 1/2", "base: 1 1/2"},
		{"one clip", "heights:", "clips: {number: 1}\nheights:"},
		{"half a clip", "heights:", "clips: {number: 4.5}\nheights:"},
		{"a density without a unit", "thickness: 1/2", "thickness: 1/2, density: 36"},
		{"a density in another unit", "thickness: 1/2", "thickness: 1/2, density: 36 lb/ft2"},
		{"a price with its sign", "thickness: 1/2", "thickness: 1/2, price: 42 EUR"},
		{"panels and widths", "panels: 6", "panels: 6, widths: [18, 24]"},
		{"neither panels nor widths", ", panels: 6", ""},
		{"across and area", ", height: settle", ", area: [[2, 20], [94, 20], [94, 44]]"},
		{"height and outline", "height: 90", "height: 90\n    outline: [[0, 0], [96, 0], [96, 90], [0, 90]]"},
		{"neither height nor outline", "    height: 90\n", ""},
		{"a band of two kinds", "bottom: 20, top: 44", "bottom: 20, top: 44, sill: 50"},
		{"another version", "rodsheet: 1", "rodsheet: 2"},
		{"holes without brackets of their own", "flange: 3/32", "flange: 3/32, holes: [0, 0]"},
		{"a point of three numbers", "flange: 3/32", "flange: 3/32, offset: [0, 0, 0]"},
		{"no walls", "walls:", "walls: []\nxwalls:"},
		{"unknown paper", "heights:", "paper: {size: a7}\nheights:"},
	} {
		text := strings.Replace(plain, c.old, c.new, 1)
		require.NotEqual(t, plain, text, c.claim)
		require.NotEmpty(t, problemsOf(t, text), c.claim)
		assert.Error(t, valid(t, s, []byte(text)), c.claim)
	}
}
