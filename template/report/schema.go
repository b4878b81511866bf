package report

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/internal/schema"
	"rodsheet/template/job"
	"rodsheet/template/rule"
)

// written are the documents that other programs may read, by the command that writes them with --json.
var written = []struct {
	name string
	of   reflect.Type
}{
	{"plan", reflect.TypeFor[document]()},
	{"check", reflect.TypeFor[findingsDocument]()},
	{"blocks", reflect.TypeFor[blocksDocument]()},
	{"list", reflect.TypeFor[listsDocument]()},
}

// Schemas are the names that [Schema] knows.
func Schemas() []string {
	out := make([]string, len(written))
	for i, w := range written {
		out[i] = w.name
	}
	return out
}

// Schema describes what [Plan], [Findings] ("check"), [Blocks] or [Lists] ("list") writes, as a JSON Schema, draft
// 2020-12. It comes from the types that are written: a key that isn't in them fails it, a key of theirs must be there.
func Schema(name string) (string, error) {
	i := slices.Index(Schemas(), name)
	if i < 0 {
		return "", fmt.Errorf("there is no schema of %q; choose one of %s", name, strings.Join(Schemas(), ", "))
	}
	s := schemaOf(written[i].of)
	s.Schema, s.Title = schema.Draft, fmt.Sprintf("What `rodsheet %s --json` writes", name)
	s.Description = "Lengths are in millimetres, their keys end in _mm; weights are in kilograms, their keys end in _kg. Keys may be added, but none is taken away or renamed."
	return s.Write()
}

// schemaOf describes how a type is written. Tags of fields say more: doc is what the value is, words are all it may be,
// null says that a list may be null.
func schemaOf(t reflect.Type) *schema.Schema {
	switch t {
	case reflect.TypeFor[length](), reflect.TypeFor[weight](), reflect.TypeFor[number]():
		return &schema.Schema{Type: schema.Types{"number"}}
	case reflect.TypeFor[pair]():
		return schema.Pair(schemaOf(reflect.TypeFor[length]()))
	case reflect.TypeFor[params]():
		return &schema.Schema{Type: schema.Types{"object"}} // see findingSchema
	case reflect.TypeFor[findingEntry]():
		return findingSchema(structSchema(t))
	}
	switch t.Kind() {
	case reflect.Pointer:
		return orNull(schemaOf(t.Elem()))
	case reflect.Slice:
		return &schema.Schema{Type: schema.Types{"array"}, Items: schemaOf(t.Elem())}
	case reflect.Map:
		return &schema.Schema{Type: schema.Types{"object"}, Additional: schemaOf(t.Elem())}
	case reflect.Struct:
		return structSchema(t)
	case reflect.String:
		return &schema.Schema{Type: schema.Types{"string"}}
	case reflect.Bool:
		return &schema.Schema{Type: schema.Types{"boolean"}}
	case reflect.Int:
		return &schema.Schema{Type: schema.Types{"integer"}}
	case reflect.Float64:
		return &schema.Schema{Type: schema.Types{"number"}}
	}
	panic("report: no schema of " + t.String())
}

func structSchema(t reflect.Type) *schema.Schema {
	var members schema.Members
	var required []string
	addFields(t, &members, &required)
	return schema.Object(members, required)
}

// findingSchema adds to the schema of a finding which params go with its ID.
func findingSchema(s *schema.Schema) *schema.Schema {
	for _, r := range rule.Rules() {
		s.AnyOf = append(s.AnyOf, &schema.Schema{Properties: schema.Members{
			{Name: "id", Schema: &schema.Schema{Enum: []any{r.ID}}},
			{Name: "params", Schema: paramsSchema(reflect.TypeOf(r.Params()))},
		}})
	}
	return s
}

// paramsSchema describes how [params] writes a type.
func paramsSchema(t reflect.Type) *schema.Schema {
	switch t {
	case reflect.TypeFor[geom.Length](), reflect.TypeFor[job.Weight](), reflect.TypeFor[job.Density]():
		return schemaOf(reflect.TypeFor[number]())
	case reflect.TypeFor[geom.Point](), reflect.TypeFor[geom.Size](), reflect.TypeFor[geom.Span]():
		return schemaOf(reflect.TypeFor[pair]())
	}
	switch t.Kind() {
	case reflect.Slice, reflect.Array:
		return &schema.Schema{Type: schema.Types{"array"}, Items: paramsSchema(t.Elem())}
	case reflect.Struct:
		s := schema.Object(nil, nil)
		addParams(t, s)
		return s
	}
	return schemaOf(t)
}

func addParams(t reflect.Type, s *schema.Schema) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			addParams(f.Type, s)
			continue
		}
		key := snake(f.Name) + unitOf(f.Type)
		s.Properties = append(s.Properties, schema.Member{Name: key, Schema: paramsSchema(f.Type)})
		s.Required = append(s.Required, key)
	}
}

func addFields(t reflect.Type, members *schema.Members, required *[]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous { // encoding/json writes its fields in place
			addFields(f.Type, members, required)
			continue
		}
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		s := schemaOf(f.Type)
		if f.Tag.Get("null") == "true" {
			s = orNull(s)
		}
		s.Description = f.Tag.Get("doc")
		if words := f.Tag.Get("words"); words != "" {
			for _, w := range strings.Split(words, ",") {
				s.Enum = append(s.Enum, w)
			}
		}
		*members = append(*members, schema.Member{Name: name, Schema: s})
		if !strings.Contains(options, "omitempty") {
			*required = append(*required, name)
		}
	}
}

func orNull(s *schema.Schema) *schema.Schema {
	if len(s.Type) > 0 {
		s.Type = append(s.Type, "null")
		return s
	}
	return &schema.Schema{AnyOf: []*schema.Schema{s, {Type: schema.Types{"null"}}}}
}
