package job

import (
	"strconv"

	"rodsheet/template/internal/schema"
)

// Schema describes the job file as a JSON Schema, draft 2020-12, for editors that check and complete as one types. It
// comes from the table of fields.
//
// It accepts what the reader accepts, where words are spelt as in the table, and refuses unknown fields, wrong kinds
// and missing fields. What hangs on numbers (a run beyond the wall, a hole beyond the base) only the reader sees.
func Schema() (string, error) {
	s := groupSchema(root)
	s.Schema, s.Title = schema.Draft, "Job file of rodsheet"
	s.Description = "The measurements of a wall, and what hangs on it. Bare numbers count in `units`; any length may carry its own unit."
	s.Defs = schema.Members{
		{Name: "length", Schema: &schema.Schema{Type: schema.Types{"number", "string"}, Minimum: new(0), Pattern: `^\s*\+?\s*` + lengthPattern + `\s*$`}},
		{Name: "coordinate", Schema: &schema.Schema{Type: schema.Types{"number", "string"}, Pattern: `^\s*[-−+]?\s*` + lengthPattern + `\s*$`}},
		{Name: "point", Schema: schema.Pair(ref("coordinate"))},
		{Name: "size", Schema: &schema.Schema{AnyOf: []*schema.Schema{
			{Type: schema.Types{"string"}, Pattern: `^\s*` + lengthPattern + `\s*[xX×]\s*` + lengthPattern + `\s*$`}, schema.Pair(ref("length")),
		}}},
	}
	return s.Write()
}

// The forms of geom.ParseLength as a regular expression of both ECMA 262 and RE2.
const (
	fractionPattern = `[½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚]`
	numberPattern   = `([0-9]+\.[0-9]+|[0-9]+[/⁄][0-9]+|[0-9]+[ -]*` + fractionPattern + `|[0-9]+[ -]+[0-9]+[/⁄][0-9]+|[0-9]+|` + fractionPattern + `)`
	inchPattern     = `(inches|inch|in\.?|"|″|”|'')`
	lengthPattern   = numberPattern + `\s*(` + inchPattern + `|mm|cm|m|(feet|foot|ft\.?|'|′|’)\s*(-?\s*` + numberPattern + `\s*` + inchPattern + `?)?)?`
)

func ref(name string) *schema.Schema { return &schema.Schema{Ref: "#/$defs/" + name} }

// groupSchema describes the fields under s.
func groupSchema(s *spec) *schema.Schema {
	var members schema.Members
	var required []string
	for _, f := range s.fields {
		members = append(members, schema.Member{Name: f.Name(), Schema: fieldSchema(f)})
		if f.Required {
			required = append(required, f.Name())
		}
	}
	out := schema.Object(members, required)
	for _, one := range s.OneOf {
		out.AllOf = append(out.AllOf, oneOfSchema(one))
	}
	return out
}

// oneOfSchema asks for all fields that one of the ways needs, and none of another way.
func oneOfSchema(one OneOf) *schema.Schema {
	out := &schema.Schema{}
	for i, way := range one.Ways {
		this := &schema.Schema{Required: way.Needs, Not: &schema.Schema{}}
		for k, other := range one.Ways {
			if k == i {
				continue
			}
			for _, name := range other.names() {
				this.Not.AnyOf = append(this.Not.AnyOf, &schema.Schema{Required: []string{name}})
			}
		}
		out.AnyOf = append(out.AnyOf, this)
	}
	return out
}

// fieldSchema describes a field with what is said of it.
func fieldSchema(f *spec) *schema.Schema {
	out := valueSchema(f)
	if len(f.Words) > 0 && f.Kind != KindChoice {
		out = &schema.Schema{AnyOf: []*schema.Schema{out, words(f.Words)}}
	}
	out.Description = f.How
	switch d := f.Default; {
	case d == Each{} && f.Without != "":
		out.Description += ". Without it: " + f.Without
	case d == Each{}:
	case d.In == d.MM:
		out.Description += ". Default: " + d.In
	default:
		out.Description += ". Default: " + d.In + " where units are in, " + d.MM + " where they are mm"
	}
	if e := f.Example; e != (Each{}) && len(f.fields) == 0 {
		out.Example = []any{plainValue(e.In)}
		if e.MM != e.In {
			out.Example = append(out.Example, plainValue(e.MM))
		}
	}
	return out
}

// plainValue is a text as YAML reads it: numbers are numbers, other texts stay.
func plainValue(text string) any {
	if n, err := strconv.Atoi(text); err == nil {
		return n
	}
	if n, ok := decimal(text); ok {
		return n
	}
	return text
}

func words(list []string) *schema.Schema {
	out := &schema.Schema{}
	for _, w := range list {
		if n, err := strconv.Atoi(w); err == nil {
			out.Enum = append(out.Enum, n)
		}
		out.Enum = append(out.Enum, w)
	}
	return out
}

func lengthSchema(b bounds) *schema.Schema {
	if b.min < 0 {
		return ref("coordinate")
	}
	return ref("length")
}

func listOf(items *schema.Schema, most int) *schema.Schema {
	return &schema.Schema{Type: schema.Types{"array"}, Items: items, MaxItems: most}
}

func valueSchema(f *spec) *schema.Schema {
	anyOf := func(list ...*schema.Schema) *schema.Schema { return &schema.Schema{AnyOf: list} }
	patterned := func(pattern string, types ...string) *schema.Schema {
		return &schema.Schema{Type: types, Pattern: pattern}
	}
	length := lengthSchema(f.limits)
	switch f.Kind {
	case KindGroup:
		group := groupSchema(f)
		switch {
		case f.Short != "":
			return anyOf(fieldSchema(f.byName[f.Short]), group)
		case f.Of != "":
			return anyOf(&schema.Schema{Type: schema.Types{"string", "number", "boolean"}}, group)
		}
		return group
	case KindList:
		out := listOf(groupSchema(f), f.most)
		if f.Required {
			out.MinItems = 1
		}
		return out
	case KindNamed:
		return &schema.Schema{Type: schema.Types{"object"}, Additional: groupSchema(f)}
	case KindText:
		return &schema.Schema{Type: schema.Types{"string", "number", "boolean"}, MinLength: 1}
	case KindChoice:
		return words(f.Words)
	case KindTruth:
		return &schema.Schema{Enum: []any{true, false, "yes", "no"}}
	case KindCount:
		out := patterned(`^\s*[0-9]+\s*$`, "integer", "string")
		out.Minimum, out.Maximum = new(f.least), new(f.most)
		return out
	case KindNumber, KindPrice:
		out := patterned(`^\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*$`, "number", "string")
		out.Minimum = new(0)
		return out
	case KindScrew:
		return patterned(`^\s*((#|[Nn][Oo]\.?|[Gg][Aa][Uu][Gg][Ee])?\s*[0-9]+|`+lengthPattern+`)\s*$`, "integer", "string")
	case KindDensity:
		return patterned(`^\s*[0-9][0-9./ ]*(lbs?|kg)\s*/\s*(ft|m)\s*\^?[3³]\s*$`, "string")
	case KindCloth:
		return patterned(`^\s*[0-9][0-9./ ]*(oz|k?g)\s*/\s*(yd|m)\s*\^?[2²]\s*$`, "string")
	case KindWeight:
		return patterned(`^\s*[0-9][0-9./ ]*(lbs?|oz|k?g)\s*$`, "string")
	case KindShares:
		return schema.Pair(patterned(`^\s*[0-9.]+\s*%?\s*$`, "number", "string"))
	case KindEnds:
		return anyOf(length, schema.Pair(length))
	case KindLengths:
		return listOf(length, f.most)
	case KindSize:
		return ref("size")
	case KindPoint:
		return ref("point")
	case KindPoints:
		return listOf(ref("point"), f.most)
	case KindReadings:
		return anyOf(ref("point"), listOf(anyOf(ref("point"), groupSchema(f)), f.most))
	}
	return length // KindLength
}
