package job

import (
	"slices"
	"strings"
	"unicode/utf8"

	"rodsheet/geom"
)

// commentColumn is where the starter's comments begin, where the field before leaves room.
const commentColumn = 34

const starterHead = `# A job for rodsheet: one file for one wall or a whole room. Change the numbers to your own measures.
# Try it:   rodsheet check FILE    rodsheet plan FILE    rodsheet print FILE -o sheets.pdf
#
# A bare number counts in the unit of ` + "`units`" + `. Any length may carry its own: 10 1/2 in, 10-1/2", 3' 4 1/2", 267 mm,
# 26.7 cm, 1.2 m. Lines that begin with # are read by people only. Fields that are commented out show their default, or
# how they are written; take the # away and keep the column to use one.
`

// Starter returns a job to begin with: a wall of our invention that can be planned and printed as it is, with every field
// of the table explained, in the person's units.
func Starter(units geom.System) []byte {
	w := starterWriter{units: units}
	w.b.WriteString(starterHead)
	for i, s := range root.fields {
		if i == 0 || len(s.fields) > 0 {
			w.b.WriteString("\n")
		}
		w.field(s, 0, false, -1)
	}
	return []byte(w.b.String())
}

// inStarter reports whether the field, or one below it, is written in the starter.
func (s *spec) inStarter() bool {
	return s.Starter || slices.ContainsFunc(s.fields, (*spec).inStarter)
}

type starterWriter struct {
	b     strings.Builder
	units geom.System
}

// field writes a field and those below it. The column is that of its name, or of the dash that begins an entry of a
// list. From hash on, where it is not negative, the lines are commented out: without "# " all are in their columns.
func (w *starterWriter) field(s *spec, column int, dash bool, hash int) {
	if hash < 0 && !s.inStarter() {
		hash = column
	}
	text := s.Name() + ":"
	if s.single() {
		text += " " + s.sample(w.units)
	}
	if dash {
		w.line(column, hash, "- "+text, s.How)
		column += 2
	} else {
		w.line(column, hash, text, s.How)
	}
	if s.single() {
		return
	}
	column += 2
	if s.Kind == KindNamed {
		w.line(column, hash, s.Example.Of(w.units)+":", "")
		column += 2
	}
	for i, f := range s.fields {
		switch {
		case s.Kind != KindList:
			w.field(f, column, false, hash)
		case i == 0:
			w.field(f, column, true, hash)
		default:
			w.field(f, column+2, false, hash)
		}
	}
}

func (w *starterWriter) line(column, hash int, text, comment string) {
	line := strings.Repeat(" ", column) + text
	if hash >= 0 {
		line = line[:hash] + "# " + line[hash:]
	}
	if comment != "" {
		line += strings.Repeat(" ", max(2, commentColumn-utf8.RuneCountInString(line))) + "# " + comment
	}
	w.b.WriteString(line + "\n")
}

// single reports whether the field is written as one value: alone, or in place of the fields below it.
func (s *spec) single() bool {
	return len(s.fields) == 0 || s.Kind != KindNamed && s.Example != Each{}
}

// sample is a value of the field: its example in the starter, its default where it is commented out and has one.
func (s *spec) sample(u geom.System) string {
	if !s.Starter && s.Default.Of(u) != "" || s.Example.Of(u) == "" {
		return s.Default.Of(u)
	}
	return s.Example.Of(u)
}

// example is an entry of a list as it may be written, with the fields it needs.
func (s *spec) example(u geom.System) string {
	var names []string
	for _, f := range s.fields {
		needed := slices.ContainsFunc(s.OneOf, func(o OneOf) bool { return slices.Contains(o.Ways[0].Needs, f.Name()) })
		if f.Required || needed {
			names = append(names, f.Name())
		}
	}
	return s.exampleOf(u, names...)
}

// exampleOf is a group with these fields.
func (s *spec) exampleOf(u geom.System, names ...string) string {
	parts := make([]string, len(names))
	for i, name := range names {
		parts[i] = name + ": " + s.byName[name].sample(u)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}
