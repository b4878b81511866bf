package report

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"unicode"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// params writes the names and numbers of a finding, in the order of their fields: a key is the field's name in small
// letters, with its unit behind it.
type params struct{ of any }

func (p params) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	if p.of != nil {
		if err := writeFields(&b, reflect.ValueOf(p.of)); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// writeFields writes the fields of a struct, those of an embedded one as if they were its own.
func writeFields(b *bytes.Buffer, v reflect.Value) error {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if f.Anonymous {
			if err := writeFields(b, v.Field(i)); err != nil {
				return err
			}
			continue
		}
		if b.Bytes()[b.Len()-1] != '{' {
			b.WriteByte(',')
		}
		b.WriteString(`"` + snake(f.Name) + unitOf(f.Type) + `":`)
		e := json.NewEncoder(b)
		e.SetEscapeHTML(false)
		if err := e.Encode(measured(v.Field(i))); err != nil {
			return err
		}
	}
	return nil
}

// unitOf is the end of the key of values of a type.
func unitOf(t reflect.Type) string {
	switch t {
	case reflect.TypeFor[geom.Length](), reflect.TypeFor[geom.Point](), reflect.TypeFor[geom.Size](), reflect.TypeFor[geom.Span]():
		return "_mm"
	case reflect.TypeFor[job.Weight]():
		return "_kg"
	case reflect.TypeFor[job.Density]():
		return "_kg_m3"
	}
	if t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
		return unitOf(t.Elem())
	}
	return ""
}

// measured is what is written for a value.
func measured(v reflect.Value) any {
	switch x := v.Interface().(type) {
	case geom.Length:
		return length(x)
	case geom.Point:
		return pointOf(x)
	case geom.Size:
		return sizeOf(x)
	case geom.Span:
		return pair{length(x.From), length(x.To)}
	case job.Weight:
		return weight(x)
	case job.Density:
		return number(x)
	}
	switch v.Kind() {
	case reflect.Struct:
		return params{v.Interface()}
	case reflect.Slice, reflect.Array:
		list := make([]any, v.Len())
		for i := range list {
			list[i] = measured(v.Index(i))
		}
		return list
	}
	return v.Interface()
}

// keysOf are the keys that are written for a type, with their way from outside.
func keysOf(from string, t reflect.Type) []string {
	keys := []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		inner, key := f.Type, from+snake(f.Name)+unitOf(f.Type)
		if inner.Kind() == reflect.Slice || inner.Kind() == reflect.Array {
			inner, key = inner.Elem(), key+"[]"
		}
		switch {
		case f.Anonymous:
			keys = append(keys, keysOf(from, inner)...)
		case inner.Kind() == reflect.Struct && unitOf(inner) == "":
			keys = append(keys, keysOf(key+".", inner)...)
		default:
			keys = append(keys, key)
		}
	}
	return keys
}

// snake is a Go name as keys are written: BuildOut becomes build_out.
func snake(name string) string {
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
