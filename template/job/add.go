package job

import (
	"slices"
	"strings"
)

// needed are the fields that a new group or entry has: those that are required, and those of the first of several ways.
func (s *spec) needed() []string {
	var out []string
	for _, f := range s.fields {
		way := slices.ContainsFunc(s.OneOf, func(o OneOf) bool { return slices.Contains(o.Ways[0].Needs, f.Name()) })
		if f.Required || way {
			out = append(out, f.Name())
		}
	}
	return out
}

// blank is a new group with its needed fields, empty.
func (s *spec) blank() value {
	v := value{tree: &node{kind: group}}
	var parts []string
	for _, name := range s.needed() {
		v.tree.fields = append(v.tree.fields, field{name: name, value: &node{}})
		parts = append(parts, flowKey(name)+": ")
	}
	v.text = "{" + strings.Join(parts, ", ") + "}"
	return v
}

// Add makes a new entry of a list (walls[2], with an index up to the number of entries), a new band (heights.NAME) or a
// group that the text lacks (foam). Its required fields come with it, empty; groups and lists round it are made too.
func (t *Text) Add(p Path) (*Text, error) {
	of, ok := root.at(p)
	if !ok || of == root || len(p) == 0 {
		return nil, refused(p, "there is no such field")
	}
	last := p[len(p)-1]
	if last.Key != "" && t.Has(p) {
		return nil, refused(p, "it is in the file already")
	}
	switch {
	case last.Key == "" && of.Kind != KindList && of.Kind != KindReadings:
		return nil, refused(p, "there are no such entries")
	case last.Key == "", isEntry(p) && of.Kind == KindNamed:
		return t.addEntry(p, of)
	case of.Kind == KindList:
		return t.put(p, value{"[]", &node{kind: list}})
	case of.Kind == KindNamed:
		return t.put(p, value{"{}", &node{kind: group}})
	case of.Kind == KindGroup:
		return t.addGroup(p, of)
	}
	return nil, refused(p, "it is a single value; write it")
}

func (t *Text) addGroup(p Path, of *spec) (*Text, error) {
	blank := of.blank()
	if len(blank.tree.fields) == 0 || t.inBrackets(p) {
		return t.put(p, blank)
	}
	want := t.top.clone()
	if !want.put(root, p, blank.tree) {
		return nil, refused(p, "there is nothing that it could be a field of")
	}
	next := t
	for _, name := range of.needed() {
		var err error
		if next, err = next.insert(p.Key(name), value{}); err != nil {
			return nil, err
		}
	}
	return checked(p, next, want)
}

func (t *Text) addEntry(p Path, of *spec) (*Text, error) {
	at, last := p.Parent(), p[len(p)-1]
	n, f := t.find(at)
	none := value{"[]", &node{kind: list}}
	if of.Kind == KindNamed {
		none = value{"{}", &node{kind: group}}
	}
	if n == nil {
		next, err := t.put(at, none)
		if err != nil {
			return nil, err
		}
		return next.addEntry(p, of)
	}
	count := n.parts()
	i := last.Index
	if of.Kind == KindNamed {
		i = count
	}
	switch {
	case i < 0 || i > count:
		return nil, refused(p, "there are %d entries; the new one can't be number %d", count, i+1)
	case n.kind != empty && n.kind != none.tree.kind:
		return nil, refused(p, "%s; change it in the file itself", n.describe())
	case of.Kind == KindReadings && count > 0 && n.items[0].kind == scalar:
		return nil, refused(p, "it is one reading; write it as a list of readings first")
	case n.span.fixed != "":
		return nil, refused(p, "%s", n.span.fixed)
	}
	blank := of.blank()
	want := t.top.clone()
	list := want.find(at)
	list.kind = none.tree.kind
	if of.Kind == KindNamed {
		list.fields = append(list.fields, field{name: last.Key, value: blank.tree})
	} else {
		list.items = slices.Insert(list.items, i, blank.tree)
	}
	next, err := t.splice(p, t.newEntry(n, f, of, i, last.Key, t.inBrackets(at))...)
	if err != nil {
		return nil, err
	}
	return checked(p, next, want)
}

// newEntry writes an entry before the one with the index, in the way its neighbour is written.
func (t *Text) newEntry(n *node, f *field, of *spec, i int, name string, inside bool) []change {
	flow := of.blank().text
	if name != "" {
		flow = flowKey(name) + ": " + flow
	}
	commented := slices.ContainsFunc(t.comments, func(c int) bool { return n.span.from < c && c < n.span.to })
	switch {
	case n.parts() == 0 && n.kind != empty && (inside || commented):
		return []change{t.inEmptyBrackets(n, flow)}
	case n.parts() == 0 && inside && name != "":
		return []change{{n.span.from, n.span.to, " {" + flow + "}"}}
	case n.parts() == 0 && inside:
		return []change{{n.span.from, n.span.to, " [" + flow + "]"}}
	case n.parts() == 0: // on lines below
		from := n.span.from
		for from > f.colon && t.data[from-1] == ' ' {
			from--
		}
		text := t.entryLines(of, t.column(f.key.from)+2, name, false)
		return []change{{from, n.span.to, ""}, t.lineBehind(t.lineOf(n.span.to), text)}
	case n.span.flow && i == 0:
		from, _ := n.bounds(0)
		return []change{{from, from, flow + ", "}}
	case n.span.flow:
		_, to := n.bounds(i - 1)
		return []change{{to, to, ", " + flow}}
	}
	neighbour := max(0, i-1)
	c := t.chunk(n, neighbour)
	from, _ := n.bounds(neighbour)
	if n.kind == list {
		from = n.items[neighbour].span.behind - 1
	}
	text := t.entryLines(of, t.column(from), name, n.value(neighbour).span.flow)
	if i == 0 {
		return []change{{c.from, c.from, text + t.lineEnd()}}
	}
	return []change{t.lineBehind(t.lineOf(c.to), text)}
}

// value is the value of a part of a group or list.
func (n *node) value(i int) *node {
	if n.kind == list {
		return n.items[i]
	}
	return n.fields[i].value
}

// entryLines is an entry on lines of its own, without the last line end.
func (t *Text) entryLines(of *spec, column int, name string, flow bool) string {
	indent := strings.Repeat(" ", column)
	needed := of.needed()
	if flow || len(needed) == 0 {
		if name != "" {
			return indent + blockKey(name) + ": " + of.blank().text
		}
		return indent + "- " + of.blank().text
	}
	var lines []string
	if name != "" {
		lines = append(lines, indent+blockKey(name)+":")
	}
	for i, f := range needed {
		dash := "  "
		if name == "" && i == 0 {
			dash = "- "
		}
		lines = append(lines, indent+dash+f+":")
	}
	return strings.Join(lines, t.lineEnd())
}

// Choose writes a group in the way that has the field: Choose(walls[0].runs[0], "widths") takes panels out and puts widths
// in, empty. Fields that both ways have stay.
func (t *Text) Choose(p Path, field string) (*Text, error) {
	s, ok := root.at(p)
	if !ok {
		return nil, refused(p, "there is no such field")
	}
	for _, one := range s.OneOf {
		own := slices.IndexFunc(one.Ways, func(w Way) bool { return slices.Contains(w.names(), field) })
		if own < 0 {
			continue
		}
		next := t
		var err error
		for _, name := range append([]string{field}, one.Ways[own].Needs...) {
			if next.Has(p.Key(name)) {
				continue
			}
			if next, err = next.put(p.Key(name), value{}); err != nil {
				return nil, err
			}
		}
		for i, way := range one.Ways {
			for _, name := range way.names() {
				if i == own || !next.Has(p.Key(name)) {
					continue
				}
				if next, err = next.takeOut(p.Key(name)); err != nil {
					return nil, err
				}
			}
		}
		return next, nil
	}
	return nil, refused(p.Key(field), "there is no other way to write it")
}
