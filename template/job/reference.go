package job

import (
	"fmt"
	"slices"
	"strings"
)

// Written says what a field holds: its kind, or its words.
func (f Field) Written() string {
	switch {
	case f.Kind == KindChoice:
		return strings.Join(f.Words, ", ")
	case len(f.Words) > 0:
		return f.Kind.String() + ", or " + strings.Join(f.Words, ", ")
	case f.Short != "":
		return f.Kind.String() + ", or " + f.Short + " alone"
	case f.Of != "":
		return f.Kind.String() + ", or a name out of " + f.Of
	}
	if unit := f.Kind.Unit(); unit != "" && unit != lengthUnit {
		return f.Kind.String() + ", " + unit
	}
	return f.Kind.String()
}

// Absent says what holds when the field is left out.
func (f Field) Absent() string {
	switch {
	case f.Required:
		return "required"
	case f.Default.In == f.Default.MM && f.Default.In != "":
		return f.Default.In
	case f.Default != Each{}:
		return f.Default.In + " in, " + f.Default.MM + " mm"
	}
	return f.Without
}

// Instead names the fields that may be written in place of the field, "" when there are none.
func (f Field) Instead() string {
	group := strings.TrimSuffix(f.Path, f.Name())
	for _, suffix := range []string{".", "[]", ".*"} {
		group = strings.TrimSuffix(group, suffix)
	}
	i := slices.IndexFunc(fields, func(g Field) bool { return g.Path == group })
	if i < 0 {
		return ""
	}
	for _, one := range fields[i].OneOf {
		own := slices.IndexFunc(one.Ways, func(w Way) bool { return slices.Contains(w.names(), f.Name()) })
		if own >= 0 {
			return strings.Join(one.Ways[1-own].Needs, " and ")
		}
	}
	return ""
}

// Reference is the table of fields as a document, in Markdown.
func Reference() string {
	var b strings.Builder
	b.WriteString("# The fields of a job file\n\n" +
		"`rodsheet start FILE` writes a job to begin with, `rodsheet help fields` prints this table, and `rodsheet schema` writes it as a JSON\n" +
		"Schema for editors. A bare number is in the job's `units`; any length may carry its own: `10 1/2 in`, `10-1/2\"`, `3' 4 1/2\"`, `267 mm`,\n" +
		"`26.7 cm`, `1.2 m`. `[]` stands for each entry of a list, `*` for a name of your own.\n")
	for _, topic := range Topics() {
		fmt.Fprintf(&b, "\n## %s\n\n| field | written | left out | what it is, how to measure it |\n|---|---|---|---|\n", strings.ToUpper(string(topic[:1]))+string(topic[1:]))
		for _, f := range fields {
			if f.Topic != topic {
				continue
			}
			absent := f.Absent()
			if other := f.Instead(); other != "" {
				absent = strings.TrimPrefix(absent+"; or "+other, "; ")
			}
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Path, f.Written(), absent, f.How)
		}
	}
	return b.String()
}
