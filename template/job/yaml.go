package job

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// Limits that hold before anything is parsed, so that a broken or hostile file costs neither time nor memory.
const (
	MaxSize  = 1 << 20 // bytes of a job file
	maxDepth = 12      // groups and lists within each other; a job needs eight
	maxKeys  = 2000    // fields of one group; only `heights` has more than two dozen

	// Limits for the whole file, because the parser takes the square of the number of empty ones.
	maxFields  = 60_000
	maxEntries = 30_000 // list entries that begin with a hyphen
	maxBraces  = 30_000 // groups in braces
)

type kind int

const (
	empty kind = iota // a key with nothing after it, or null
	scalar
	group // key: value pairs
	list
)

// A node is a value of the file with its place. Scalars keep their text as written: what `10.50` or `1/4` means is
// decided by the field, not by YAML.
type node struct {
	kind   kind
	text   string
	place  Place
	fields []field // of a group, in the order of the file
	items  []*node // of a list

	parsed ast.Node // as the parser has it
	span   span     // in a Text
}

type field struct {
	name  string
	place Place
	value *node

	twice  bool // the group has the name once more
	parsed *ast.MappingValueNode
	key    span // of the name, in a Text
	colon  int  // the byte behind the colon, in a Text
}

func (n *node) field(name string) (field, bool) {
	for _, f := range n.fields {
		if f.name == name {
			return f, true
		}
	}
	return field{}, false
}

// describe names what stands in the file, for "is …, expected …".
func (n *node) describe() string {
	switch n.kind {
	case scalar:
		return fmt.Sprintf("%q is a single value", shorten(n.text))
	case group:
		return "this is a group of fields"
	case list:
		return "this is a list"
	}
	return "this is empty"
}

func shorten(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// parse reads the text into a tree, or reports why it can't: then the tree is nil.
func (r *reader) parse(data []byte) (*node, token.Tokens) {
	if len(data) > MaxSize {
		r.wholeFile("the file is too long; a job has at most %d bytes: is it the right file?", MaxSize)
		return nil, nil
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	r.problems.Source.Lines = strings.Split(string(data), "\n")
	if !r.plainText(data) {
		return nil, nil
	}
	tokens := lexer.Tokenize(string(data))
	if !r.plainYAML(tokens) {
		return nil, nil
	}
	file, err := parseTokens(tokens)
	if err != nil {
		r.syntax(err, tokens)
		return nil, nil
	}
	var body ast.Node
	for _, doc := range file.Docs {
		if doc.Body == nil {
			continue
		}
		if body != nil {
			r.add(place(doc.Body.GetToken()), "", "a second document begins here; one file holds one job")
			return nil, nil
		}
		body = doc.Body
	}
	if body == nil {
		r.wholeFile("the file is empty; `rodsheet start FILE` writes a job to begin with")
		return nil, nil
	}
	n := r.convert(body, "")
	if n.kind != group {
		r.add(n.place, "", "%s; a job file is made of `field: value` lines, the first of them `rodsheet: 1`", n.describe())
		return nil, nil
	}
	return n, tokens
}

// parseTokens turns a panic of the parser into an error: nothing a person writes may end the program.
func parseTokens(tokens token.Tokens) (file *ast.File, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the parser gave up: %v", p)
		}
	}()
	return parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
}

// plainText refuses what is no text at all, and tabs where YAML counts spaces.
func (r *reader) plainText(data []byte) bool {
	good := true
	for i, line := range r.problems.Source.Lines {
		col := 0
		for j, c := range line {
			col++
			if _, size := utf8.DecodeRuneInString(line[j:]); c == utf8.RuneError && size == 1 {
				r.add(Place{i + 1, col}, "", "the file is not UTF-8 text from here on; save it as UTF-8")
				return false
			}
			if c < ' ' && c != '\t' || c == 0x7f || c == 0x85 || c == 0x2028 || c == 0x2029 {
				r.add(Place{i + 1, col}, "", "there is a control character here (%U); is it a text file?", c)
				return false
			}
		}
		indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
		if n := strings.IndexByte(indent, '\t'); n >= 0 && len(indent) < len(line) && line[len(indent)] != '#' {
			r.add(Place{i + 1, n + 1}, "", "a tab begins this line; YAML indents with spaces only, so replace it with spaces")
			good = false
		}
	}
	return good && utf8.Valid(data)
}

// plainYAML refuses the parts of YAML a job has no use for, and depths no job has, by a walk over the tokens that
// takes linear time.
func (r *reader) plainYAML(tokens token.Tokens) bool {
	type level struct{ col, keys int }
	var block, flow []level
	refuse := func(t *token.Token, text string, args ...any) bool {
		r.add(place(t), "", text, args...)
		return false
	}
	open := func(col int, key bool) bool {
		for len(block) > 0 && block[len(block)-1].col > col {
			block = block[:len(block)-1]
		}
		if len(block) == 0 || block[len(block)-1].col < col {
			block = append(block, level{col: col})
		}
		if key {
			block[len(block)-1].keys++
		}
		return len(block)+len(flow) <= maxDepth && block[len(block)-1].keys <= maxKeys
	}
	const tooDeep = "too many groups within each other, or too many fields in one; a job has at most %d levels and %d fields"
	var before *token.Token
	count := map[token.Type]int{}
	for _, t := range tokens {
		count[t.Type]++
		if count[token.MappingValueType] > maxFields || count[token.SequenceEntryType] > maxEntries || count[token.MappingStartType] > maxBraces {
			return refuse(t, "the file has too many values; divide the job")
		}
		fits := true
		switch t.Type {
		case token.AnchorType, token.AliasType, token.MergeKeyType:
			return refuse(t, "anchors and aliases (& * <<) are not used in a job file; write the value out, or in quotes if the sign is meant")
		case token.TagType:
			return refuse(t, "tags (!) are not used in a job file; put the text in quotes if the sign is meant")
		case token.DirectiveType:
			return refuse(t, "directives (%%) are not used in a job file")
		case token.MappingKeyType:
			return refuse(t, "the `?` form of a field is not used in a job file; write `field: value`")
		case token.SequenceStartType, token.MappingStartType:
			flow = append(flow, level{})
			fits = len(block)+len(flow) <= maxDepth
		case token.SequenceEndType, token.MappingEndType:
			if len(flow) > 0 {
				flow = flow[:len(flow)-1]
			}
		case token.SequenceEntryType:
			if len(flow) == 0 {
				fits = open(t.Position.Column, false)
			}
		case token.MappingValueType:
			switch {
			case len(flow) > 0:
				flow[len(flow)-1].keys++
				fits = flow[len(flow)-1].keys <= maxKeys
			case before != nil:
				fits = open(before.Position.Column, true)
			}
		}
		if !fits {
			return refuse(t, tooDeep, maxDepth, maxKeys)
		}
		before = t
	}
	return true
}

// syntax reports what the parser could not take, in words for someone who doesn't know YAML's. What is wrong is judged
// by the tokens, not by the parser's message.
func (r *reader) syntax(err error, tokens token.Tokens) {
	var e yaml.Error
	if !errors.As(err, &e) || e.GetToken() == nil {
		r.wholeFile("the file can't be read as YAML: %v", err)
		return
	}
	t := e.GetToken()
	at := place(t)
	text := "this does not fit where it stands; write `field: value`, and begin the fields of a group in one column"
	switch brackets, colons := countSigns(tokens, at.Line); {
	case t.Type == token.InvalidType && strings.HasPrefix(strings.TrimLeft(t.Origin, " \n"), `"`),
		t.Type == token.InvalidType && strings.HasPrefix(strings.TrimLeft(t.Origin, " \n"), "'"):
		text = "a quote is opened here and not closed; an inch sign at the beginning of a value needs quotes round it"
	case t.Type == token.InvalidType:
		text = "a value can't begin with this sign; put it in quotes"
	case brackets:
		text = "this does not fit where it stands; close every [ and { before it, with commas between what is in them"
	case colons > 1:
		text = "there is a second `:` in one value, or a line further in than the one before; " +
			"put a text with a colon in quotes, and begin the fields of a group in one column"
	}
	r.add(at, "", "%s", text)
}

// countSigns reports whether brackets are open at the end of a line or closed that were not open, and counts the colons
// of the line that are outside brackets.
func countSigns(tokens token.Tokens, line int) (brackets bool, colons int) {
	open := []token.Type{}
	for _, t := range tokens {
		if t.Position == nil || t.Position.Line > line {
			break
		}
		switch t.Type {
		case token.SequenceStartType, token.MappingStartType:
			open = append(open, t.Type)
		case token.SequenceEndType, token.MappingEndType:
			start := token.SequenceStartType
			if t.Type == token.MappingEndType {
				start = token.MappingStartType
			}
			if len(open) == 0 || open[len(open)-1] != start {
				return true, 0
			}
			open = open[:len(open)-1]
		case token.MappingValueType:
			if t.Position.Line == line && len(open) == 0 {
				colons++
			}
		}
	}
	return len(open) > 0, colons
}

func place(t *token.Token) Place {
	if t == nil || t.Position == nil {
		return Place{1, 1}
	}
	return Place{max(1, t.Position.Line), max(1, t.Position.Column)}
}

// convert copies a tree of the parser and notes the place of every value in the job's [Source].
func (r *reader) convert(n ast.Node, path string) *node {
	out := &node{place: place(n.GetToken()), parsed: n}
	switch n := n.(type) {
	case *ast.NullNode:
	case *ast.MappingNode:
		r.convertGroup(out, path, n.Values)
		if n.Start != nil && n.Start.Type == token.MappingStartType {
			out.place = place(n.Start)
		}
	case *ast.MappingValueNode:
		r.convertGroup(out, path, []*ast.MappingValueNode{n})
	case *ast.SequenceNode:
		out.kind = list
		for i, item := range n.Values {
			out.items = append(out.items, r.convert(item, entry(path, i)))
		}
	case *ast.LiteralNode:
		out.kind, out.text = scalar, strings.TrimSpace(n.Value.Value)
	case *ast.StringNode:
		out.kind, out.text = scalar, n.Value
	default:
		// Numbers and truth values are taken as written, not as YAML understands them.
		out.kind, out.text = scalar, n.GetToken().Value
	}
	if path != "" {
		r.problems.Source.places[path] = out.place
	}
	return out
}

func (r *reader) convertGroup(out *node, path string, values []*ast.MappingValueNode) {
	out.kind = group
	seen := make(map[string]Place, len(values))
	for i, v := range values {
		key := v.Key.GetToken()
		f := field{name: strings.TrimSpace(key.Value), place: place(key), parsed: v}
		if i == 0 {
			out.place = f.place
		}
		where := join(path, f.name)
		if first, twice := seen[f.name]; twice {
			r.add(f.place, where, "given twice, first in line %d; keep one", first.Line)
			out.fields[slices.IndexFunc(out.fields, func(g field) bool { return g.name == f.name })].twice = true
			continue
		}
		seen[f.name] = f.place
		f.value = r.convert(v.Value, where)
		if f.value.kind == empty || f.value.place.Line > f.place.Line {
			// A group under its key is known by the key; an empty value has no place of its own.
			f.value.place = f.place
			r.problems.Source.places[where] = f.place
		}
		out.fields = append(out.fields, f)
	}
}

// presetNode is a value of the table as a file would have it.
func presetNode(text string) *node {
	if !strings.HasPrefix(text, "[") {
		return &node{kind: scalar, text: text}
	}
	file, err := parseTokens(lexer.Tokenize(text))
	if err != nil {
		panic("job: a default is no YAML: " + text)
	}
	r := &reader{}
	r.problems.Source.places = map[string]Place{}
	return r.convert(file.Docs[0].Body, "")
}
