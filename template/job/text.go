package job

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"rodsheet/geom"
)

// A Text is a job file as a person wrote it: every byte of it, with the places of names and values. It is never
// changed; an edit returns another Text.
//
// A Text need not be a job: it may lack fields or hold wrong ones. It only has to be readable, see [ParseText].
type Text struct {
	data     []byte
	top      *node
	lines    []line
	commas   []int // between entries and fields in brackets
	comments []int
}

// A span is a part of the text, [from, to) in bytes.
type span struct {
	from, to int
	behind   int    // the byte behind the colon or dash before it
	flow     bool   // a group or list in brackets
	fixed    string // why the value can't be edited
}

// A line is a line of the text, [from, to) in bytes without its end and without a byte order mark; next is where the
// next one begins.
type line struct{ from, to, next int }

// ParseText reads a job file as text. The error is a *[Problems] that says why the file can't be read as fields and
// values; whether these make a job only [Read] tells.
func ParseText(data []byte) (*Text, error) {
	r := &reader{}
	r.problems.Source.places = map[string]Place{}
	top, tokens := r.parse(data)
	if top == nil {
		return nil, &r.problems
	}
	t := &Text{data: bytes.Clone(data), top: top, lines: linesOf(data)}
	at := locator{t: t}
	for _, one := range tokens {
		switch one.Type {
		case token.CollectEntryType:
			t.commas = append(t.commas, at.offset(one))
		case token.CommentType:
			t.comments = append(t.comments, at.offset(one))
		}
	}
	at = locator{t: t}
	at.value(top, 0)
	return t, nil
}

// linesOf splits at \n, \r\n and \r, as the reader does.
func linesOf(data []byte) []line {
	var out []line
	from := len(data) - len(bytes.TrimPrefix(data, []byte("\ufeff")))
	for i := from; i < len(data); i++ {
		next := i + 1
		switch {
		case data[i] == '\r' && next < len(data) && data[next] == '\n':
			next++
		case data[i] != '\n' && data[i] != '\r':
			continue
		}
		out = append(out, line{from, i, next})
		from, i = next, next-1
	}
	return append(out, line{from, len(data), len(data)})
}

// lineOf is the index of the line that holds the byte.
func (t *Text) lineOf(offset int) int {
	i, _ := slices.BinarySearchFunc(t.lines, offset, func(l line, at int) int {
		if l.next <= at && l.next > l.from {
			return -1
		}
		return 1
	})
	return min(i, len(t.lines)-1)
}

// column is how far into its line the byte stands, in bytes from 0.
func (t *Text) column(offset int) int { return offset - t.lines[t.lineOf(offset)].from }

// words is a line without the blanks before it.
func (t *Text) words(i int) string {
	return strings.TrimLeft(string(t.data[t.lines[i].from:t.lines[i].to]), " \t")
}

// empty reports whether a line holds neither names nor values.
func (t *Text) empty(i int) bool {
	w := t.words(i)
	return w == "" || w[0] == '#'
}

// A locator finds the bytes of what the parser names by line and column. It is quick where these only grow.
type locator struct {
	t                 *Text
	line, column, off int
}

// offset is where a token begins. The parser counts characters.
func (l *locator) offset(t *token.Token) int {
	p := place(t)
	if p.Line > len(l.t.lines) {
		return len(l.t.data)
	}
	at := l.t.lines[p.Line-1]
	if l.line != p.Line || l.column > p.Col {
		l.line, l.column, l.off = p.Line, 1, at.from
	}
	for ; l.column < p.Col && l.off < at.to; l.column++ {
		_, size := utf8.DecodeRune(l.t.data[l.off:at.to])
		l.off += size
	}
	return l.off
}

const (
	fixedLines = "it goes over several lines; change it in the file itself"
	fixedTwice = "it is given twice; take one out in the file itself"
)

func (l *locator) group(n *node) {
	for i := range n.fields {
		f := &n.fields[i]
		key := f.parsed.Key.GetToken()
		from := l.offset(key)
		end, ok := l.t.scalarEnd(from, key)
		f.colon = l.offset(f.parsed.Start) + 1
		f.key = span{from: from, to: end}
		l.value(f.value, f.colon)
		switch {
		case !ok || f.colon > len(l.t.data) || l.t.data[f.colon-1] != ':':
			f.key.fixed, f.value.span.fixed = fixedLines, fixedLines
		case f.twice:
			f.key.fixed, f.value.span.fixed = fixedTwice, fixedTwice
		}
	}
}

// value finds the bytes of a value. An empty one stands behind the colon or the dash.
func (l *locator) value(n *node, behind int) {
	s := span{from: behind, to: behind, behind: behind}
	switch a := n.parsed.(type) {
	case *ast.NullNode:
		if t := a.GetToken(); t.Type == token.NullType {
			s.from = l.offset(t)
			s.to = s.from + len(t.Value)
		}
	case *ast.MappingNode:
		if a.IsFlowStyle {
			s.from, s.flow = l.offset(a.Start), true
		}
		l.group(n)
		if a.IsFlowStyle {
			s.to = l.offset(a.End) + 1
		} else {
			s.from, s.to = n.fields[0].key.from, n.end(behind)
		}
	case *ast.MappingValueNode:
		l.group(n)
		s.from, s.to = n.fields[0].key.from, n.end(behind)
	case *ast.SequenceNode:
		if a.IsFlowStyle {
			s.from, s.flow = l.offset(a.Start), true
		}
		for i, item := range n.items {
			at := behind
			if !a.IsFlowStyle {
				at = l.offset(a.Entries[i].Start) + 1
				if i == 0 {
					s.from = at - 1
				}
			}
			l.value(item, at)
		}
		if a.IsFlowStyle {
			s.to = l.offset(a.End) + 1
		} else {
			s.to = n.end(behind)
		}
	case *ast.LiteralNode:
		s.from, s.fixed = l.offset(a.Start), fixedLines
		s.to = l.t.lines[min(len(l.t.lines)-1, place(a.Start).Line)].to
	default:
		s.from = l.offset(a.GetToken())
		var ok bool
		if s.to, ok = l.t.scalarEnd(s.from, a.GetToken()); !ok {
			s.fixed = fixedLines
		}
	}
	n.span = s
}

// end is where the last value in a group or list ends.
func (n *node) end(behind int) int {
	for _, f := range n.fields {
		behind = max(behind, f.value.span.to, f.colon)
	}
	for _, item := range n.items {
		behind = max(behind, item.span.to)
	}
	return behind
}

// scalarEnd is where a single value or name ends that begins at the byte; ok is false when it isn't all on that line.
func (t *Text) scalarEnd(from int, of *token.Token) (end int, ok bool) {
	rest := t.data[from:t.lines[t.lineOf(from)].to]
	switch of.Type {
	case token.DoubleQuoteType, token.SingleQuoteType:
		for i := 1; i < len(rest); i++ {
			switch {
			case rest[0] == '"' && rest[i] == '\\':
				i++
			case rest[i] != rest[0]:
			case rest[0] == '\'' && i+1 < len(rest) && rest[i+1] == '\'':
				i++
			default:
				return from + i + 1, rest[0] == '"' || rest[0] == '\''
			}
		}
		return from + len(rest), false
	}
	return from + min(len(of.Value), len(rest)), of.Value != "" && bytes.HasPrefix(rest, []byte(of.Value))
}

// Bytes returns the whole text. The slice is the caller's.
func (t *Text) Bytes() []byte { return bytes.Clone(t.data) }

// find is the value at a path, with the field it is the value of where the last step goes to one.
func (t *Text) find(p Path) (*node, *field) {
	n := t.top
	var last *field
	for i, step := range p {
		if step.Key == "" {
			if n.kind != list || step.Index < 0 || step.Index >= len(n.items) {
				return nil, nil
			}
			n, last = n.items[step.Index], nil
			continue
		}
		k := slices.IndexFunc(n.fields, func(f field) bool { return f.name == step.Key })
		if k < 0 {
			if at, known := root.at(p[:i]); known && at.Short == step.Key && (n.kind == scalar || n.kind == list) && i == len(p)-1 {
				return n, last // one value for the group
			}
			return nil, nil
		}
		last = &n.fields[k]
		n = last.value
	}
	return n, last
}

// Has reports whether the text holds the field or entry, empty or not.
func (t *Text) Has(p Path) bool {
	n, _ := t.find(p)
	return n != nil
}

// Value returns a value as one types it: a single value without quotes, a list or group in brackets, "" where nothing is
// written. It reports false where the text doesn't hold the field or entry.
func (t *Text) Value(p Path) (string, bool) {
	n, _ := t.find(p)
	if n == nil {
		return "", false
	}
	return t.typed(n), true
}

func (t *Text) typed(n *node) string {
	switch {
	case n.kind == empty:
		return ""
	case n.kind == scalar:
		return n.text
	case n.span.flow && t.lineOf(n.span.from) == t.lineOf(n.span.to):
		return string(t.data[n.span.from:n.span.to])
	}
	var parts []string
	inside := func(n *node) string {
		if n.kind == scalar {
			return flowScalar(n.text)
		}
		return t.typed(n)
	}
	for _, item := range n.items {
		parts = append(parts, inside(item))
	}
	for _, f := range n.fields {
		parts = append(parts, strings.TrimRight(flowScalar(f.name)+": "+inside(f.value), " "))
	}
	if n.kind == list {
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// Entries returns the paths of the entries of a list, or of the fields of a group, in the order of the text.
func (t *Text) Entries(p Path) []Path {
	n, _ := t.find(p)
	if n == nil {
		return nil
	}
	var out []Path
	for i := range n.items {
		out = append(out, p.Index(i))
	}
	for _, f := range n.fields {
		if f.name != "" {
			out = append(out, p.Key(f.name))
		}
	}
	return out
}

// Fixed returns why a value can be shown and not edited, "" when it can be edited.
func (t *Text) Fixed(p Path) string {
	n, _ := t.find(p)
	if n == nil {
		return ""
	}
	return n.fixed()
}

func (n *node) fixed() string {
	if n.span.fixed != "" {
		return n.span.fixed
	}
	for _, f := range n.fields {
		if why := f.value.fixed(); why != "" {
			return why
		}
	}
	for _, item := range n.items {
		if why := item.fixed(); why != "" {
			return why
		}
	}
	return ""
}

// Place returns where a value stands, or the nearest thing round it.
func (t *Text) Place(p Path) Place {
	for ; ; p = p.Parent() {
		if n, _ := t.find(p); n != nil || len(p) == 0 {
			return n.place
		}
	}
}

// Units returns the units that the text names; false when it names none.
func (t *Text) Units() (geom.System, bool) {
	text, _ := t.Value(Path{}.Key("units"))
	for _, u := range []geom.System{geom.Imperial, geom.Metric} {
		if strings.EqualFold(strings.TrimSpace(text), u.String()) {
			return u, true
		}
	}
	return geom.Metric, false
}
