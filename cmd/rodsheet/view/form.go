package view

import (
	"cmp"
	"fmt"
	"net/url"
	"slices"
	"strings"
	"unicode"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// A topic is a part of the form: the measures that are taken together.
type topic struct {
	Name   job.Topic
	Pieces []piece
}

// A partKind is how a part of the form is shown.
type partKind string

const (
	measure partKind = "measure" // a value to type or choose
	units   partKind = "units"   // that of the units, which change every other
	group   partKind = "group"   // parts under a heading
	list    partKind = "list"    // entries, which can be added to
	entry   partKind = "entry"   // one of them
	ways    partKind = "ways"    // a choice of how to write the group it stands in
)

// A part is a row of the form, or parts under a heading.
type part struct {
	Kind  partKind
	Key   string // path in the job file
	Label string
	Note  string // beside the label of a group: what holds while it is left out
	How   string
	Parts []part
	Wrong []string // problems of this very place

	// Of a measure.
	Op      string // the edit that a change asks for
	Target  string // and its path
	Value   string
	Was     string // what the edit is held against
	Choices []option
	Words   []string // offered, where others may be typed too
	Hint    string   // shown in the empty field
	Long    bool     // typed in a box of several lines
	Fixed   string   // why it is shown and not edited
	Needed  bool     // required, and empty
	Unit    string
	Picture string // what to measure

	// Of groups, lists and entries.
	Folds    bool // it can be folded away
	Open     bool // until the person folds it
	Removes  bool // it can be taken out
	New      string
	NewName  string
	First    bool
	Last     bool
	Position int
}

// ID is the part's in the page: its key without spaces, which part the IDs of an attribute.
func (p part) ID() string { return "f-" + url.PathEscape(p.Key) }

// An option is a word to choose and what it is called.
type option struct{ Value, Label string }

// A formBuilder makes the parts of one text.
type formBuilder struct {
	text     *job.Text
	units    geom.System
	problems map[string][]string
	below    map[string][]job.Field // fields by the pattern of the group they stand in, "" for the file
	topics   map[string][]job.Topic // topics of a field and of all below it
	begins   bool                   // the job has never been whole: what is usually measured stands open
}

// Measures are the topics of the form, in the order in which a person measures. There are none while the text is
// unreadable.
func (s *state) Measures() []topic {
	if s.Text == nil {
		return nil
	}
	b := formBuilder{text: s.Text, begins: s.Work == nil, problems: map[string][]string{}, below: map[string][]job.Field{}, topics: map[string][]job.Topic{}}
	b.units, _ = s.Text.Units()
	if s.Problems != nil {
		for _, p := range s.Problems.List {
			b.problems[p.Field] = append(b.problems[p.Field], p.Text)
		}
	}
	for _, f := range job.Fields() {
		around := strings.TrimSuffix(strings.TrimSuffix(f.Path, f.Name()), ".")
		b.below[around] = append(b.below[around], f)
		for path := f.Path; path != ""; path = path[:max(0, strings.LastIndex(path, "."))] {
			for _, p := range []string{path, strings.TrimSuffix(path, "[]"), strings.TrimSuffix(path, ".*")} {
				if !slices.Contains(b.topics[p], f.Topic) {
					b.topics[p] = append(b.topics[p], f.Topic)
				}
			}
		}
	}
	var out []topic
	for _, name := range job.Topics() {
		out = append(out, topic{Name: name, Pieces: pieces(string(name), b.parts("", nil, name))})
	}
	return out
}

// parts are the fields of a group, as far as they belong to the topic.
func (b *formBuilder) parts(pattern string, at job.Path, name job.Topic) []part {
	var out []part
	var skipped []string
	asked := map[string]part{} // the choices that stand before the first field of their ways
	if f, ok := b.fieldOf(pattern); ok && f.Topic == name {
		for _, one := range f.OneOf {
			way := b.wayOf(one, at)
			for i, other := range one.Ways {
				if i != way {
					skipped = append(skipped, slices.Concat(other.Needs, other.Takes)...)
				}
			}
			asked[one.Ways[0].Needs[0]] = b.waysPart(one, way, at)
		}
	}
	for _, f := range b.below[pattern] {
		if choice, ok := asked[f.Name()]; ok {
			out = append(out, choice)
		}
		if f.Path == "rodsheet" || slices.Contains(skipped, f.Name()) || !slices.Contains(b.topics[f.Path], name) {
			continue
		}
		p := at.Key(f.Name())
		switch f.Kind {
		case job.KindGroup:
			out = append(out, b.group(f, p, name)...)
		case job.KindList, job.KindNamed:
			out = append(out, b.list(f, p, name))
		default:
			out = append(out, b.measure(f, p))
		}
	}
	return out
}

// fieldOf is the row of the table whose group, or entries, have the pattern.
func (b *formBuilder) fieldOf(pattern string) (job.Field, bool) {
	path := strings.TrimSuffix(strings.TrimSuffix(pattern, "[]"), ".*")
	for _, f := range b.below[strings.TrimSuffix(path[:strings.LastIndex(path, ".")+1], ".")] {
		if f.Path == path {
			return f, true
		}
	}
	return job.Field{}, false
}

// wayOf is the way in which the text writes a group; the first while it has none of its fields.
func (b *formBuilder) wayOf(one job.OneOf, at job.Path) int {
	for _, needed := range []bool{true, false} {
		for i, way := range one.Ways {
			names := way.Takes
			if needed {
				names = way.Needs
			}
			if slices.ContainsFunc(names, func(name string) bool { return b.text.Has(at.Key(name)) }) {
				return i
			}
		}
	}
	return 0
}

func (b *formBuilder) waysPart(one job.OneOf, way int, at job.Path) part {
	p := part{Kind: ways, Key: at.String() + " by", Target: at.String(), Op: "choose", Label: wayLabels[one.Ways[0].Needs[0]], Value: one.Ways[way].Needs[0], How: one.Why}
	p.Was = p.Value
	for _, w := range one.Ways {
		p.Key += " " + w.Needs[0]
		p.Choices = append(p.Choices, option{w.Needs[0], wayWords[w.Needs[0]]})
	}
	return p
}

// group is a group under its heading; one that stands for a name has the names to choose from before it.
func (b *formBuilder) group(f job.Field, at job.Path, name job.Topic) []part {
	has := b.text.Has(at)
	g := part{
		Kind: group, Key: at.String(), Label: labelOf(f), How: f.How, Wrong: b.problems[at.String()], Removes: !f.Required && has,
		Folds: !f.Required, Open: has || b.begins && b.usual(f), Picture: pictureAt(f.Path),
	}
	switch {
	case has:
	case f.Without != "":
		g.Note = f.Without
	default:
		g.Note = "as usual"
	}
	if f.Of != "" {
		choice := b.measure(f, at)
		choice.Value, _ = b.text.Value(at)
		choice.Was = choice.Value
		for _, band := range b.text.Entries(job.Path{}.Key(f.Of)) {
			word := band[len(band)-1].Key
			choice.Choices = append(choice.Choices, option{word, word})
		}
		own := len(b.text.Entries(at)) > 0
		if own {
			choice.Choices = append(choice.Choices, option{choice.Value, "heights of its own"})
		} else {
			choice.Choices = append(choice.Choices, option{"{bottom: , top: }", "heights of its own"})
		}
		if choice.Value == "" || !slices.ContainsFunc(choice.Choices, func(c option) bool { return c.Value == choice.Value }) {
			choice.Choices = slices.Insert(choice.Choices, 0, option{choice.Value, choice.Value})
		}
		if !own {
			return []part{choice}
		}
		g.Parts, g.Label, g.Folds, g.Removes = b.parts(f.Path, at, name), "heights of its own", false, false
		return []part{choice, g}
	}
	if f.Short != "" && b.text.Has(at) && len(b.text.Entries(at)) == 0 {
		short := b.measure(f, at) // a single value stands for the group
		short.Label = labelOf(f)
		return []part{short}
	}
	g.Parts = b.parts(f.Path, at, name)
	if len(g.Parts) == 0 {
		return nil
	}
	return []part{g}
}

// usual reports whether fields of a group stand in the job that people begin with.
func (b *formBuilder) usual(group job.Field) bool {
	return slices.ContainsFunc(b.below[group.Path], func(f job.Field) bool { return f.Starter })
}

// list is a list with its entries.
func (b *formBuilder) list(f job.Field, at job.Path, name job.Topic) part {
	l := part{Kind: list, Key: at.String(), Label: labelOf(f), How: f.How, NewName: entryNames[f.Name()], Wrong: b.problems[at.String()]}
	own := f.Topic == name
	entries := b.text.Entries(at)
	pattern := f.Path + "[]"
	if f.Kind == job.KindNamed {
		pattern = f.Path + ".*"
	}
	for i, e := range entries {
		one := part{
			Kind: entry, Key: e.String(), Label: b.called(f, e, i), Wrong: b.problems[e.String()], Removes: own, Position: i, Folds: true, Picture: pictureAt(pattern),
			First: !own || f.Kind == job.KindNamed || i == 0, Last: !own || f.Kind == job.KindNamed || i == len(entries)-1,
		}
		if f.Kind == job.KindNamed && own {
			word := e[len(e)-1].Key
			one.Parts = append(one.Parts, part{
				Kind: measure, Key: e.String() + " name", Label: "name", Op: "rename", Target: e.String(), Value: word, Was: word,
				How: "what runs choose it by",
			})
		}
		one.Parts = append(one.Parts, b.parts(pattern, e, name)...)
		one.Open = len(entries) <= manyEntries || wrong([]part{one}) > 0
		l.Parts = append(l.Parts, one)
	}
	switch {
	case !own, f.Path == "accept": // findings are accepted where they are told
	case f.Kind == job.KindNamed:
		for n := len(entries) + 1; l.New == "" || b.text.Has(at.Key(fmt.Sprint("band ", n-1))); n++ {
			l.New = at.Key(fmt.Sprint("band ", n)).String()
		}
	default:
		l.New = at.Index(len(entries)).String()
	}
	return l
}

// called is what an entry of a list is called: by its name, else by its number.
func (b *formBuilder) called(f job.Field, e job.Path, i int) string {
	if f.Kind == job.KindNamed {
		return e[len(e)-1].Key
	}
	for _, field := range []string{"name", "finding", "kind"} {
		if name, _ := b.text.Value(e.Key(field)); name != "" {
			return name
		}
	}
	return fmt.Sprint(i + 1)
}

// measure is one value.
func (b *formBuilder) measure(f job.Field, at job.Path) part {
	p := part{
		Kind: measure, Key: at.String(), Target: at.String(), Op: "set", Label: labelOf(f), How: sentence(strings.ReplaceAll(f.How, "`", "")), Wrong: b.problems[at.String()],
		Fixed: b.text.Fixed(at), Hint: f.Default.Of(b.units),
	}
	p.Value, _ = b.text.Value(at)
	p.Was = p.Value
	p.Needed = f.Required && p.Value == "" && (len(at) == 1 || b.text.Has(at.Parent()))
	switch f.Kind {
	case job.KindChoice, job.KindTruth:
		p.Choices = b.choices(f, p)
	case job.KindPoints, job.KindReadings:
		p.Long = true
	default:
		p.Words = f.Words
	}
	if len(p.Choices) == 0 && !f.Required {
		switch {
		case p.Hint != "":
			p.How += " Left out: " + p.Hint + "."
		case f.Without != "":
			p.How += " Left out: " + f.Without + "."
		}
	}
	switch unit := f.Kind.Unit(); {
	case unit == job.KindLength.Unit():
		if p.Unit = "mm"; b.units == geom.Imperial {
			p.Unit = "in"
		}
		if shown := cmp.Or(p.Value, p.Hint); strings.ContainsFunc(shown, unicode.IsLetter) {
			p.Unit = "" // it has its own, or is a word
		}
	case unit != "":
		p.How += " In " + unit + "."
	}
	switch {
	case f.Path == "units":
		p.Kind = units
	case p.Value != "" && (f.Path == "walls[].name" || f.Path == "walls[].runs[].name"):
		p.Op, p.Target = "rename", at.Parent().String()
	}
	return p
}

// choices are the words of a choice, with what holds without one first; a word that is none of them stays to be seen.
func (b *formBuilder) choices(f job.Field, p part) []option {
	words := f.Words
	if f.Kind == job.KindTruth {
		words = []string{"true", "false"}
	}
	var out []option
	switch {
	case f.Required && p.Value != "":
	case f.Required:
		out = append(out, option{"", "choose one"})
	case p.Hint != "":
		out = append(out, option{"", choiceLabel(f, p.Hint) + " (usual)"})
	default:
		out = append(out, option{"", "not said: " + f.Without})
	}
	if p.Value != "" && !slices.Contains(words, p.Value) {
		out = append(out, option{p.Value, p.Value})
	}
	for _, w := range words {
		out = append(out, option{w, choiceLabel(f, w)})
	}
	return out
}

// manyEntries is the number of entries beyond which they begin folded.
const manyEntries = 3

// A move is where an entry goes.
type move struct {
	Key, Label, Word string
	To               int
}

// moved is an entry's move by one place up or down its list.
func moved(p part, by int) move {
	return move{Key: p.Key, Label: p.Label, To: p.Position + by, Word: map[int]string{-1: "up", 1: "down"}[by]}
}
