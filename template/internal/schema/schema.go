// Package schema writes JSON Schemas (draft 2020-12, https://json-schema.org/draft/2020-12/schema): as much of the
// vocabulary as the job file and the reports need, with properties in a given order.
package schema

import (
	"bytes"
	"encoding/json"
)

// A Schema is one schema. Keywords with zero values are left out.
type Schema struct {
	Schema      string  `json:"$schema,omitempty"`
	Title       string  `json:"title,omitempty"`
	Description string  `json:"description,omitempty"`
	Defs        Members `json:"$defs,omitempty"`
	Ref         string  `json:"$ref,omitempty"`

	Type    Types `json:"type,omitempty"`
	Enum    []any `json:"enum,omitempty"`
	Default any   `json:"default,omitempty"`
	Example []any `json:"examples,omitempty"`

	Minimum   *int   `json:"minimum,omitempty"`
	Maximum   *int   `json:"maximum,omitempty"`
	Pattern   string `json:"pattern,omitempty"`
	MinLength int    `json:"minLength,omitempty"`

	PrefixItems []*Schema `json:"prefixItems,omitempty"`
	Items       *Schema   `json:"items,omitempty"`
	MinItems    int       `json:"minItems,omitempty"`
	MaxItems    int       `json:"maxItems,omitempty"`

	Properties Members  `json:"properties,omitempty"`
	Additional *Schema  `json:"additionalProperties,omitempty"`
	Required   []string `json:"required,omitempty"`

	AnyOf []*Schema `json:"anyOf,omitempty"`
	AllOf []*Schema `json:"allOf,omitempty"`
	Not   *Schema   `json:"not,omitempty"`

	never bool
}

// Draft is the value of $schema.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// Nothing is the schema that no value fits, as in additionalProperties: false.
var Nothing = &Schema{never: true}

// MarshalJSON writes the schema, or false for [Nothing].
func (s *Schema) MarshalJSON() ([]byte, error) {
	if s.never {
		return []byte("false"), nil
	}
	type plain Schema
	return marshal((*plain)(s))
}

// Types are the types a value may have.
type Types []string

// MarshalJSON writes one type as a string, several as a list.
func (t Types) MarshalJSON() ([]byte, error) {
	if len(t) == 1 {
		return json.Marshal(t[0])
	}
	return json.Marshal([]string(t))
}

// Members are named schemas in their order.
type Members []Member

// Member is one of them.
type Member struct {
	Name   string
	Schema *Schema
}

// MarshalJSON writes an object.
func (m Members) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, one := range m {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := marshal(one.Name)
		if err != nil {
			return nil, err
		}
		value, err := marshal(one.Schema)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// Object is an object with these members and no others.
func Object(members Members, required []string) *Schema {
	return &Schema{Type: Types{"object"}, Properties: members, Additional: Nothing, Required: required}
}

// Pair is a list of just two values.
func Pair(of *Schema) *Schema {
	return &Schema{Type: Types{"array"}, PrefixItems: []*Schema{of, of}, Items: Nothing, MinItems: 2}
}

// Write is the schema as a file.
func (s *Schema) Write() (string, error) {
	raw, err := marshal(s)
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	err = json.Indent(&b, raw, "", "  ")
	return b.String() + "\n", err
}

// marshal leaves < and > as they are.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}
