package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// An EditError says why an edit is not done. The text stays as it was.
type EditError struct {
	Path Path
	Text string // what is in the way, in words for a person
}

func (e *EditError) Error() string { return fmt.Sprintf("%s: %s", e.Path, e.Text) }

func refused(p Path, format string, args ...any) error {
	return &EditError{Path: p, Text: fmt.Sprintf(format, args...)}
}

// A change replaces the bytes [from, to) of a text.
type change struct {
	from, to int
	text     string
}

// splice makes changes that don't overlap. What comes out must be readable, but nothing else is asked of it.
func (t *Text) splice(p Path, changes ...change) (*Text, error) {
	slices.SortStableFunc(changes, func(a, b change) int { return cmp.Compare(a.from, b.from) })
	var out []byte
	at := 0
	for _, c := range changes {
		if c.from < at || c.to < c.from {
			return nil, refused(p, "the change would touch something else")
		}
		out = append(append(out, t.data[at:c.from]...), c.text...)
		at = c.to
	}
	next, err := ParseText(append(out, t.data[at:]...))
	if err != nil {
		return nil, refused(p, "the file could not be read after this change; change it in the file itself")
	}
	return next, nil
}

// checked is the end of every edit: next must hold what want holds, and nothing else.
func checked(p Path, next *Text, want *node) (*Text, error) {
	if !equal(next.top, want) {
		return nil, refused(p, "the change would touch something else; change it in the file itself")
	}
	return next, nil
}

// equal compares what two trees hold. The order of fields in a group tells nothing.
func equal(a, b *node) bool {
	if a.kind != b.kind || a.text != b.text || len(a.items) != len(b.items) || len(a.fields) != len(b.fields) {
		return false
	}
	for i := range a.items {
		if !equal(a.items[i], b.items[i]) {
			return false
		}
	}
	for i, f := range a.fields {
		g := b.fields[i]
		if g.name != f.name {
			var ok bool
			if g, ok = b.field(f.name); !ok {
				return false
			}
		}
		if f.twice != g.twice || !equal(f.value, g.value) {
			return false
		}
	}
	return true
}

// A value to write: a single value, or a list or group as the file has it.
type value struct {
	text string
	tree *node // nil: text is a single value
}

// node is what the value reads back as.
func (v value) node() *node {
	switch {
	case v.tree != nil:
		return v.tree
	case v.text == "":
		return &node{}
	}
	return &node{kind: scalar, text: v.text}
}

// in is the value as written, between brackets or not.
func (v value) in(flow bool) string {
	switch {
	case v.tree != nil || v.text == "":
		return v.text
	case flow:
		return flowScalar(v.text)
	}
	return blockScalar(v.text)
}

// ofFields reports whether the field holds fields or entries and can't be one value.
func (s *spec) ofFields() bool {
	return s.Kind == KindList || s.Kind == KindNamed || s.Kind == KindGroup && s.Short == "" && s.Of == ""
}

// typedValue understands what a person typed into a field: a list, point, reading or group in the file's own notation where
// the field may hold one, else a single value.
func typedValue(p Path, of *spec, typed string) (value, error) {
	typed = strings.TrimSpace(typed)
	for _, c := range typed {
		if !unicode.IsPrint(c) && !unicode.Is(unicode.Zs, c) || c == utf8.RuneError {
			return value{}, refused(p, "a value is one line of letters, digits and signs")
		}
	}
	if len(typed) > MaxSize {
		return value{}, refused(p, "this is too long")
	}
	single := []Kind{KindText, KindChoice, KindTruth, KindCount, KindNumber, KindPrice, KindScrew, KindDensity, KindWeight, KindCloth, KindLength}
	if typed == "" || typed[0] != '[' && typed[0] != '{' || slices.Contains(single, of.Kind) {
		return value{text: typed}, nil
	}
	t, err := ParseText([]byte("k: " + typed + "\n"))
	if err != nil || len(t.top.fields) != 1 || len(t.comments) > 0 {
		return value{text: typed}, nil // it reads back as typed, and the reader says what is wrong with it
	}
	n := t.top.fields[0].value
	if n.kind != list && n.kind != group || n.span.to != len("k: "+typed) || n.fixed() != "" {
		return value{text: typed}, nil
	}
	return value{text: typed, tree: n}, nil
}

// Set writes a value as a person types it; blanks round it don't count. A field that the text lacks is put in: one that is
// commented out is taken in where it stands, others get the place that the table of fields gives them, and the
// groups round them are made. "" empties a required field and takes others out, see [Text.Remove].
//
// Lists, points, readings and groups are typed as in the file: `[2, 94]`, `[{at: 20, from: 2, to: 94}]`,
// `{bottom: 20, top: 44}`. Everything else is one value, put in quotes where it must be.
func (t *Text) Set(p Path, typed string) (*Text, error) {
	of, ok := root.at(p)
	if !ok || of == root {
		return nil, refused(p, "there is no such field")
	}
	v, err := typedValue(p, of, typed)
	if err != nil {
		return nil, err
	}
	n, f := t.find(p)
	switch {
	case v.text == "" && (n == nil || n.kind == empty && f != nil):
		return t, nil
	case v.text != "" && v.tree == nil && of.ofFields():
		return nil, refused(p, "it has fields of its own; write those")
	case v.text == "" && !(of.Required && f != nil && f.name == of.Name()):
		return t.Remove(p)
	case n == nil:
		return t.put(p, v)
	}
	return t.overwrite(p, n, f, v)
}

// overwrite changes a value that is there.
func (t *Text) overwrite(p Path, n *node, f *field, v value) (*Text, error) {
	if why := n.fixed(); why != "" {
		return nil, refused(p, "%s", why)
	}
	want := t.top.clone()
	*want.find(p) = *v.node()
	changes, err := t.replacement(p, n, f, v)
	if err != nil {
		return nil, err
	}
	next, err := t.splice(p, changes...)
	if err != nil {
		return nil, err
	}
	return checked(p, next, want)
}

// replacement writes a value over another and keeps the way it is quoted.
func (t *Text) replacement(p Path, n *node, f *field, v value) ([]change, error) {
	text := v.in(t.inBrackets(p))
	block := (n.kind == group || n.kind == list) && !n.span.flow
	switch {
	case v.text == "" && (n.kind == group || n.kind == list):
		return nil, refused(p, "a job can't be without it")
	case block && f == nil:
		return nil, refused(p, "it is written over several lines; change it in the file itself")
	case block:
		// The value goes behind its colon, and the lines that held it go.
		first, last := t.lineOf(n.span.from), t.lineOf(n.span.to)
		for _, c := range t.comments {
			if c > n.span.from && c < t.lines[last].to {
				return nil, refused(p, "there are comments in it; change it in the file itself")
			}
		}
		if first == t.lineOf(f.colon) {
			return nil, refused(p, "it is written over several lines; change it in the file itself")
		}
		return []change{{f.colon, f.colon, " " + text}, {t.lines[first-1].to, t.lines[last].to, ""}}, nil
	case v.text == "":
		from, to := n.span.from, n.span.to
		for from > f.colon && t.data[from-1] == ' ' && (to == len(t.data) || t.data[to] == '\n' || t.data[to] == '\r') {
			from--
		}
		return []change{{from, to, ""}}, nil
	case n.span.from == n.span.to && t.data[n.span.from-1] != ' ':
		text = " " + text
	case n.kind == scalar && v.tree == nil && t.data[n.span.from] == '"':
		text = doubleQuoted(v.text)
	case n.kind == scalar && v.tree == nil && t.data[n.span.from] == '\'':
		text = singleQuoted(v.text)
	}
	to := n.span.to
	if n.span.from == to {
		for to < len(t.data) && t.data[to] == ' ' {
			to++
		}
		switch {
		case to < len(t.data) && strings.IndexByte(",]}", t.data[to]) >= 0: // a blank before a comma held the place
		case to == n.span.to && to < len(t.data) && t.data[to] != '\r' && t.data[to] != '\n':
			text += " "
		default:
			to = n.span.to
		}
	}
	return []change{{n.span.from, to, text}}, nil
}

// inBrackets reports whether the value at a path is in a group or list that is written in brackets.
func (t *Text) inBrackets(p Path) bool {
	for i := range p {
		if n, _ := t.find(p[:i]); n != nil && n.span.flow {
			return true
		}
	}
	return false
}

// clone copies a tree, without its places.
func (n *node) clone() *node {
	out := &node{kind: n.kind, text: n.text}
	for _, f := range n.fields {
		out.fields = append(out.fields, field{name: f.name, twice: f.twice, value: f.value.clone()})
	}
	for _, item := range n.items {
		out.items = append(out.items, item.clone())
	}
	return out
}

// find is the value at a path of a tree, nil where there is none.
func (n *node) find(p Path) *node {
	t := Text{top: n}
	at, _ := t.find(p)
	return at
}
