package job

import (
	"slices"
	"strings"

	"rodsheet/geom"
)

// put writes a field that the text lacks, and the groups round it that it lacks too.
func (t *Text) put(p Path, v value) (*Text, error) {
	want := t.top.clone()
	if !want.put(root, p, v.node()) {
		return nil, refused(p, "there is nothing that it could be a field of")
	}
	next, err := t.insert(p, v)
	if err != nil {
		return nil, err
	}
	return checked(p, next, want)
}

// put puts a value into a tree and makes the groups round it.
func (n *node) put(s *spec, p Path, v *node) bool {
	for i, step := range p {
		switch {
		case step.Key == "":
			if n.kind != list || step.Index >= len(n.items) {
				return false
			}
			n = n.items[step.Index]
			continue
		case n.kind == empty:
			n.kind = group
		case n.kind != group && s.Short != "":
			*n = node{kind: group, fields: []field{{name: s.Short, value: n.clone()}}}
		case n.kind != group:
			return false
		}
		if _, ok := n.field(step.Key); !ok {
			n.fields = append(n.fields, field{name: step.Key, value: &node{}})
		}
		n = n.fields[slices.IndexFunc(n.fields, func(f field) bool { return f.name == step.Key })].value
		s, _ = root.at(p[:i+1])
	}
	*n = *v
	return true
}

// insert writes a field behind the last field before it in the table, or takes it in where it is commented out.
func (t *Text) insert(p Path, v value) (*Text, error) {
	depth := len(p) - 1
	for ; depth > 0; depth-- {
		if n, _ := t.find(p[:depth]); n != nil {
			break
		}
	}
	at, rest := p[:depth], p[depth:]
	if slices.ContainsFunc(rest, func(s Step) bool { return s.Key == "" }) {
		return nil, refused(p, "there is no such entry")
	}
	n, f := t.find(at)
	if why := n.span.fixed; why != "" {
		return nil, refused(p, "%s", why)
	}
	s, ok := root.at(at)
	if !ok {
		return nil, refused(p, "there is no such field")
	}
	switch inside := nested(rest, v); {
	case n.kind == scalar && s.Of != "":
		return nil, refused(p, "%q is the name of a band; choose another, or write the band here", n.text)
	case n.kind != group && n.kind != empty && s.Short != "":
		old := string(t.data[n.span.from:n.span.to])
		if n.kind == scalar && old == n.text {
			old = flowScalar(old)
		}
		return t.splice(p, change{n.span.from, n.span.to, "{" + s.Short + ": " + old + ", " + inside + "}"})
	case n.kind == scalar || n.kind == list:
		return nil, refused(p, "%s, so it has no fields", n.describe())
	case n.kind == group && n.span.flow:
		return t.splice(p, t.intoBrackets(n, s, rest[0].Key, inside))
	case n.kind == empty && t.inBrackets(at):
		return t.splice(p, change{n.span.from, n.span.to, " {" + inside + "}"})
	case n.kind == empty && f == nil:
		return t.splice(p, change{n.span.from, n.span.to, " " + inside})
	}
	return t.insertLine(p, depth, v)
}

// nested is a field as it is written between brackets, in the groups that it needs.
func nested(keys Path, v value) string {
	text := v.in(true)
	for i := len(keys) - 1; i >= 0; i-- {
		if i < len(keys)-1 {
			text = "{" + text + "}"
		}
		text = flowKey(keys[i].Key) + ": " + text
	}
	return text
}

// anchor is the index of the field that a new one is written behind, −1 when it comes first.
func (n *node) anchor(s *spec, name string) int {
	names := s.names()
	order := slices.Index(names, name)
	best := -1
	for i, f := range n.fields {
		if own := slices.Index(names, f.name); (order < 0 || own < order) && (best < 0 || own >= slices.Index(names, n.fields[best].name)) {
			best = i
		}
	}
	return best
}

// intoBrackets writes a field into a group in brackets.
func (t *Text) intoBrackets(n *node, s *spec, name, text string) change {
	if len(n.fields) == 0 {
		return t.inEmptyBrackets(n, text)
	}
	i := n.anchor(s, name)
	if i < 0 {
		from := n.fields[0].key.from
		return change{from, from, text + ", "}
	}
	end := n.fields[i].end()
	return change{end, end, ", " + text}
}

// inEmptyBrackets writes between brackets that hold nothing, or a comment alone.
func (t *Text) inEmptyBrackets(n *node, text string) change {
	inside := span{from: n.span.from + 1, to: n.span.to - 1}
	if strings.TrimSpace(string(t.data[inside.from:inside.to])) != "" {
		inside.to = inside.from
	}
	return change{inside.from, inside.to, text}
}

// end is where the field ends.
func (f *field) end() int { return max(f.colon, f.value.span.to) }

// insertLine writes the first field of the rest of a path on a line of its own, and what lies below it after that.
func (t *Text) insertLine(p Path, depth int, v value) (*Text, error) {
	at, name := p[:depth], p[depth].Key
	n, f := t.find(at)
	below := depth+1 < len(p)
	s, _ := root.at(at)
	of, ok := root.at(p[:depth+1])
	if !ok {
		return nil, refused(p, "there is no such field")
	}
	changes := t.uncomment(n, f, of, name, v, p[depth+1:])
	if changes == nil {
		text := blockKey(name) + ":"
		if value := v.in(false); !below && value != "" {
			text += " " + value
		}
		changes = []change{t.newLine(n, f, s, name, text)}
	}
	next, err := t.splice(p, changes...)
	if err != nil || !below || next.Has(p) {
		return next, err
	}
	if !next.Has(p[:depth+1]) {
		return nil, refused(p, "the change would touch something else; change it in the file itself")
	}
	return next.insert(p, v)
}

// newLine is a line in a group, behind the last field before it in the table.
func (t *Text) newLine(n *node, f *field, s *spec, name, text string) change {
	if n.kind == empty {
		return t.lineBehind(t.lineOf(f.colon), strings.Repeat(" ", t.column(f.key.from)+2)+text)
	}
	column := t.column(n.fields[0].key.from)
	text = strings.Repeat(" ", column) + text
	i := n.anchor(s, name)
	first := t.lines[t.lineOf(n.fields[0].key.from)]
	if i < 0 && strings.Trim(string(t.data[first.from:n.fields[0].key.from]), " ") == "" {
		return change{first.from, first.from, text + t.lineEnd()}
	}
	return t.lineBehind(t.lastLine(&n.fields[max(0, i)], column), text)
}

// lineBehind is a line behind another.
func (t *Text) lineBehind(i int, text string) change {
	l := t.lines[i]
	if l.next == l.to {
		return change{l.to, l.to, t.lineEnd() + text}
	}
	return change{l.next, l.next, text + t.lineEnd()}
}

// lineEnd is how the text ends its lines.
func (t *Text) lineEnd() string {
	if l := t.lines[0]; l.next > l.to {
		return string(t.data[l.to:l.next])
	}
	return "\n"
}

// lastLine is the last line of a field, with comments below it that stand farther in: fields of its own that are
// commented out.
func (t *Text) lastLine(f *field, column int) int { return t.commentsBelow(t.lineOf(f.end()), column) }

func (t *Text) commentsBelow(last, column int) int {
	for last+1 < len(t.lines) {
		c, ok := t.comment(last + 1)
		if !ok || c.column <= column {
			break
		}
		last++
	}
	return last
}

// A commented is a line that is a comment, as it would be without its # and the blank behind it.
type commented struct {
	from, to int // the # and the blank
	column   int // of the first word
}

// comment takes a line as a comment; the dash of an entry may stand before it.
func (t *Text) comment(i int) (c commented, ok bool) {
	l := t.lines[i]
	text := string(t.data[l.from:l.to])
	before := len(text) - len(strings.TrimLeft(text, " "))
	if strings.HasPrefix(text[before:], "- ") {
		before = len(text) - len(strings.TrimLeft(text[before+1:], " "))
	}
	if before >= len(text) || text[before] != '#' {
		return commented{}, false
	}
	c = commented{from: l.from + before, to: l.from + before + 1, column: before}
	if behind := text[before+1:]; strings.HasPrefix(behind, " ") {
		c.to++
		c.column += len(behind) - len(strings.TrimLeft(behind, " ")) - 1
	}
	return c, true
}

// uncomment takes in a field of the group that is commented out, with the value, where there is such a line; nil when
// there is none. What lies below the field may stand behind it, in brackets.
func (t *Text) uncomment(n *node, f *field, of *spec, name string, v value, below Path) []change {
	column, from := -1, 0
	last := t.lineOf(n.span.to)
	switch {
	case n.kind == empty:
		last = t.lineOf(f.colon)
		from = last + 1
	case f != nil:
		column, from = t.column(n.fields[0].key.from), t.lineOf(f.colon)+1
	case n != t.top:
		column, from = t.column(n.fields[0].key.from), t.lineOf(n.span.behind)
	default:
		column = t.column(n.fields[0].key.from)
	}
	for i := from; i < len(t.lines) && (i <= last || t.empty(i)); i++ {
		c, ok := t.comment(i)
		if !ok {
			continue
		}
		if n.kind == empty && column < 0 && c.column > t.column(f.key.from) {
			column = c.column
		}
		text := string(t.data[c.to:t.lines[i].to])
		bare := strings.TrimLeft(text, " ")
		if i > last && c.column < column && strings.Contains(bare, ":") || column < 0 {
			break // a field of a group round this one, commented out
		}
		if c.column != column || !strings.HasPrefix(bare, blockKey(name)+":") {
			continue
		}
		base := c.to + len(text) - len(bare)
		line, err := ParseText([]byte(bare + "\n"))
		if err != nil || len(line.top.fields) != 1 || line.top.fields[0].name != name {
			continue
		}
		was := &line.top.fields[0]
		out := []change{{c.from, c.to, ""}}
		switch {
		case was.value.fixed() != "" || !of.plausible(was.value):
			continue
		case len(below) > 0 && was.value.kind == empty:
			return out // its fields follow on lines of their own
		case len(below) > 0:
			return append(out, change{base + was.value.span.from, base + was.value.span.to, "{" + nested(below, v) + "}"})
		case was.value.kind == empty && v.text == "":
			return out
		case was.value.kind == empty:
			return append(out, change{base + was.colon, base + was.colon, " " + v.in(false)})
		}
		return append(out, change{base + was.value.span.from, base + was.value.span.to, v.in(false)})
	}
	return nil
}

// plausible reports whether a value that is commented out looks like one of the field in any units, and is not a remark
// that begins with the field's name.
func (f *spec) plausible(n *node) bool {
	switch {
	case n.kind == empty || f.Kind == KindText:
		return n.kind != group && n.kind != list
	case n.kind == scalar && f.word(n.text) != "":
		return true
	case f.Kind == KindGroup && n.kind == scalar:
		return f.Of != "" || f.Short != "" && f.byName[f.Short].plausible(n)
	case f.Kind == KindGroup || f.Kind == KindNamed:
		return n.kind == group
	case n.kind == list:
		return slices.Contains([]Kind{KindList, KindShares, KindEnds, KindLengths, KindSize, KindPoint, KindPoints, KindReadings}, f.Kind)
	}
	return slices.ContainsFunc([]geom.System{geom.Imperial, geom.Metric}, func(u geom.System) bool { return f.reads(n, u) })
}

// reads reports whether the reader takes a single value for the field.
func (f *spec) reads(n *node, u geom.System) bool {
	name := f.Name()
	r := &reader{job: &Job{}, units: u, known: true}
	s := &section{r: r, spec: &spec{byName: map[string]*spec{name: f}}, n: &node{kind: group, fields: []field{{name: name, value: n}}}}
	switch f.Kind {
	case KindTruth:
		s.truth(name, new(bool))
	case KindCount:
		s.count(name, new(int))
	case KindNumber, KindPrice:
		s.price(name, new(float64))
	case KindDensity:
		s.density(name, new(Density))
	case KindWeight:
		s.weight(name, new(Weight))
	case KindCloth:
		s.clothWeight(name, new(float64))
	case KindScrew:
		r.screwSize(s, &Screw{})
	case KindLength, KindEnds:
		r.lengthOf(n, name, eitherWay(geom.Longest))
	case KindSize:
		r.sizeOf(n, name, eitherWay(geom.Longest))
	default:
		return false
	}
	return len(r.problems.List) == 0
}

// blockKey is a name as a field is written on a line of its own, flowKey between brackets.
func blockKey(name string) string { return key(name, "", ": 1\n") }

func flowKey(name string) string { return key(name, "{", ": 1, z: 1}\n") }

func key(name, before, after string) string {
	if plainWord(name) {
		return name
	}
	t, err := ParseText([]byte(before + name + after))
	if err == nil && len(t.top.fields) > 0 && t.top.fields[0].name == name && t.top.fields[0].key.fixed == "" && len(t.comments) == 0 {
		return name
	}
	return doubleQuoted(name)
}
