package job

import (
	"slices"
	"strings"

	"rodsheet/geom"
)

// A Field describes one field of the job file. [Fields] lists them all.
type Field struct {
	// Path is a pattern: [] stands for any entry of a list, * for a name that the person chooses, as in
	// "walls[].runs[].gap" and "heights.*.seat". The row of a list or of named groups describes their entries too.
	Path  string
	Kind  Kind
	Words []string // the choices of a KindChoice; words that other kinds take too
	Topic Topic    // in the table: a row without one has that of the row before

	Required bool   // in its group; see OneOf for fields of which one is required
	Default  Each   // as it would be written; "" where there is no fixed one
	Without  string // what holds without the field, where Default is ""
	How      string // what it is and how to measure it: one line that begins in lower case
	Example  Each   // of the starter job; Default where it is ""; the name of an entry for a KindNamed
	Starter  bool   // written in the starter job, not commented out there

	Short string  // for a KindGroup: a single value stands for this field of it
	Of    string  // for a KindGroup: a single value is the name of an entry of this KindNamed field
	OneOf []OneOf // for a group or the entries of a list

	limits      bounds // of lengths
	least, most int    // of numbers, kg/m³, characters and entries; 0: of its kind
}

// Kind is what a field holds.
type Kind int

// The kinds of field.
const (
	KindGroup    Kind = iota // fields of its own
	KindList                 // a list of groups
	KindNamed                // groups under names that the person chooses
	KindText                 // words that are printed
	KindChoice               // one of its Words
	KindTruth                // true or false
	KindCount                // a whole number
	KindNumber               // a plain number
	KindPrice                // a plain number, in the person's own money
	KindScrew                // a gauge number, or a diameter with its unit
	KindDensity              // weight of a volume, with its unit
	KindWeight               // with its unit
	KindCloth                // weight of an area, with its unit
	KindShares               // two parts of a length, as decimals or per cent, in brackets
	KindLength               // a bare number is in the job's units
	KindEnds                 // a length, or two in brackets: at the left and right end
	KindLengths              // a list of lengths
	KindSize                 // two lengths, width x height
	KindPoint                // two lengths in brackets, [across, up]
	KindPoints               // a list of points
	KindReadings             // [from, to], or a list of such pairs, or of groups with the fields below it
)

var kindNames = [...]string{
	"fields", "list of entries", "entries by name", "words", "one of", "true or false", "whole number", "number", "price",
	"gauge or diameter", "density", "weight", "weight of cloth", "two shares", "length", "length or [left, right]",
	"[length, …]", "width x height", "[across, up]", "[[across, up], …]", "[from, to] or readings",
}

// String returns in a few words what is written for a field of the kind.
func (k Kind) String() string { return kindNames[k] }

const lengthUnit = "in or mm"

// Unit returns what values of the kind are measured in: "in or mm", "" for plain words and numbers.
func (k Kind) Unit() string {
	switch k {
	case KindLength, KindEnds, KindLengths, KindSize, KindPoint, KindPoints, KindReadings:
		return lengthUnit
	case KindScrew:
		return "no unit for a gauge, else in or mm"
	case KindDensity:
		return "lb/ft3 or kg/m3"
	case KindWeight:
		return "lb, oz, kg or g"
	case KindCloth:
		return "oz/yd2 or g/m2"
	}
	return ""
}

// Topic groups fields that are measured together.
type Topic string

// The topics, in the order in which a person measures.
const (
	TopicJob     Topic = "the job"
	TopicWall    Topic = "the wall"
	TopicOnWall  Topic = "on the wall and in it"
	TopicRuns    Topic = "runs and heights"
	TopicBoard   Topic = "board and cover"
	TopicClip    Topic = "clips and screws"
	TopicBlocks  Topic = "blocks and pads"
	TopicPaper   Topic = "paper"
	TopicAssumed Topic = "taken for granted"
)

// Topics returns all topics in their order.
func Topics() []Topic {
	return []Topic{TopicJob, TopicWall, TopicOnWall, TopicRuns, TopicBoard, TopicClip, TopicBlocks, TopicPaper, TopicAssumed}
}

// Each is a text for each of the two systems of units.
type Each struct{ In, MM string }

// Of returns the text for a system.
func (e Each) Of(s geom.System) string {
	if s == geom.Imperial {
		return e.In
	}
	return e.MM
}

// same is a text that both systems share.
func same(text string) Each { return Each{text, text} }

// OneOf says that a group holds the fields of just one of several ways to write a thing.
type OneOf struct {
	Ways []Way
	Why  string // and what to do
}

// Way is one of them.
type Way struct {
	Needs []string // required when the group is written this way
	Takes []string // optional then; neither may stand beside those of another way
}

func (w Way) names() []string { return slices.Concat(w.Needs, w.Takes) }

// Name returns the last name of the path.
func (f Field) Name() string { return f.Path[strings.LastIndex(f.Path, ".")+1:] }

// Written returns what a field holds, in words: its kind, or its words.
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

// Absent returns what holds when the field is left out.
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

// Instead returns the names of the fields that may be written in place of the field, "" when there are none.
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

// Fields returns all fields of the job file, in the order in which a file has them.
func Fields() []Field { return slices.Clone(fields) }

// FieldAt returns the field that a path leads to. An entry, or a part of a value such as a coordinate, is part of its
// field.
func FieldAt(p Path) (Field, bool) {
	s, ok := root.at(p)
	if !ok || s == root {
		return Field{}, false
	}
	return s.Field, true
}

// A spec is a field with those under it: the table as a tree.
type spec struct {
	Field
	fields []*spec
	byName map[string]*spec
	preset [2]*node // the default as a file would have it, by system; nil where there is none
}

var (
	fields = withTopics(table)
	root   = newSpec(fields) // the group of the whole file
)

// withTopics fills in the topics.
func withTopics(table []Field) []Field {
	out := slices.Clone(table)
	for i := 1; i < len(out); i++ {
		if out[i].Topic == "" {
			out[i].Topic = out[i-1].Topic
		}
	}
	return out
}

// newSpec panics on a table that has no row for a group.
func newSpec(list []Field) *spec {
	top := &spec{byName: map[string]*spec{}}
	groups := map[string]*spec{"": top}
	for _, f := range list {
		s := &spec{Field: f, byName: map[string]*spec{}}
		for _, u := range []geom.System{geom.Imperial, geom.Metric} {
			if text := s.Default.Of(u); text != "" {
				s.preset[u] = presetNode(text)
			}
		}
		parent, ok := groups[strings.TrimSuffix(f.Path, f.Name())]
		if !ok {
			panic("job: the table has no row round " + f.Path)
		}
		parent.fields = append(parent.fields, s)
		parent.byName[f.Name()] = s
		switch f.Kind {
		case KindGroup:
			groups[f.Path+"."] = s
		case KindList, KindReadings:
			groups[f.Path+"[]."] = s
		case KindNamed:
			groups[f.Path+".*."] = s
		}
	}
	return top
}

// names are those of the fields under s, in order.
func (s *spec) names() []string {
	out := make([]string, len(s.fields))
	for i, f := range s.fields {
		out[i] = f.Name()
	}
	return out
}

// at follows a path from s.
func (s *spec) at(p Path) (*spec, bool) {
	named := false // the last step went to a field whose entries have names
	for _, step := range p {
		switch {
		case named:
			named = false
		case step.Key == "":
		default:
			next, ok := s.byName[step.Key]
			if !ok {
				return nil, false
			}
			s, named = next, next.Kind == KindNamed
		}
	}
	return s, true
}
