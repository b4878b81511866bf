package job

import (
	"slices"
	"strings"
)

// Remove takes a field or an entry out. A field on lines of its own is commented out; between brackets it goes with its
// comma; a required field stays, empty. An entry of a list or a band goes with its lines, and the last one leaves [] or
// {}. A group that would be left with nothing in it goes too.
func (t *Text) Remove(p Path) (*Text, error) {
	n, f := t.find(p)
	if n == nil || len(p) == 0 {
		return nil, refused(p, "it is not in the file")
	}
	if last := p[len(p)-1]; last.Key != "" && f.name != last.Key {
		return t.Remove(p.Parent()) // one value stands for the group
	}
	if why := n.fixed(); why != "" {
		return nil, refused(p, "%s", why)
	}
	of, known := root.at(p)
	if known && of.Required && !isEntry(p) {
		return t.overwrite(p, n, f, value{})
	}
	if !isEntry(p) {
		p = t.alone(p)
	}
	return t.takeOut(p)
}

// isEntry reports whether a path leads to an entry of a list or to one of the groups that a person names.
func isEntry(p Path) bool {
	if p[len(p)-1].Key == "" {
		return true
	}
	s, known := root.at(p)
	above, _ := root.at(p.Parent())
	return known && s == above
}

// alone is the outermost group on lines of its own that holds nothing but the field and can go with it.
func (t *Text) alone(p Path) Path {
	for up := p.Parent(); len(up) > 0; up = up.Parent() {
		n, _ := t.find(up)
		s, known := root.at(up)
		if n.span.flow || len(n.fields) != 1 || !known || s.Required || isEntry(up) {
			break
		}
		p = up
	}
	return p
}

// takeOut removes what is at the path, whatever it is.
func (t *Text) takeOut(p Path) (*Text, error) {
	want := t.top.clone()
	up := want.find(p.Parent())
	last := p[len(p)-1]
	i := last.Index
	if last.Key == "" {
		up.items = slices.Delete(up.items, i, i+1)
	} else {
		i = slices.IndexFunc(up.fields, func(f field) bool { return f.name == last.Key })
		up.fields = slices.Delete(up.fields, i, i+1)
	}
	n, f := t.find(p.Parent())
	var changes []change
	switch {
	case n.span.flow:
		changes = t.outOfBrackets(n, i)
	case isEntry(p):
		chunk := t.chunk(n, i)
		if !chunk.whole {
			return nil, refused(p, "it shares a line with something else; change it in the file itself")
		}
		changes = []change{{chunk.from, t.lines[t.lineOf(chunk.to)].next, ""}}
		if n.parts() == 1 && f == nil {
			return nil, refused(p, "nothing would be left; change it in the file itself")
		}
		if n.parts() == 1 {
			brackets := " []"
			if n.kind == group {
				brackets = " {}"
			}
			changes = append(changes, change{f.colon, f.colon, brackets})
		}
	default:
		changes = t.commentOut(&n.fields[i])
		if len(n.fields) == 1 {
			*up = node{}
		}
	}
	next, err := t.splice(p, changes...)
	if err != nil {
		return nil, err
	}
	return checked(p, next, want)
}

// parts is how many fields or entries there are.
func (n *node) parts() int { return len(n.fields) + len(n.items) }

// commentOut puts a # before a field, and before every line of it that is not a comment yet.
func (t *Text) commentOut(f *field) []change {
	column := t.column(f.key.from)
	out := []change{{f.key.from, f.key.from, "# "}}
	for i := t.lineOf(f.key.from) + 1; i <= t.lineOf(f.end()); i++ {
		if t.empty(i) {
			continue
		}
		l := t.lines[i]
		text := string(t.data[l.from:l.to])
		at := l.from + min(column, len(text)-len(strings.TrimLeft(text, " ")))
		out = append(out, change{at, at, "# "})
	}
	return out
}

// bounds are the bytes of a part of a group or list.
func (n *node) bounds(i int) (from, to int) {
	if n.kind == list {
		return n.items[i].span.from, n.items[i].span.to
	}
	return n.fields[i].key.from, n.fields[i].end()
}

// outOfBrackets takes a part out of a group or list in brackets, with one comma.
func (t *Text) outOfBrackets(n *node, i int) []change {
	from, to := n.bounds(i)
	after, _ := slices.BinarySearch(t.commas, to)
	limit := n.span.to
	if i+1 < n.parts() {
		limit, _ = n.bounds(i + 1)
	}
	if after < len(t.commas) && t.commas[after] < limit {
		to = t.commas[after] + 1
		for to < limit && t.data[to] == ' ' {
			to++
		}
		if i+1 == n.parts() || to < len(t.data) && t.data[to] == '#' {
			to = t.commas[after] + 1
		}
		return []change{{from, to, ""}}
	}
	if i > 0 {
		before, _ := slices.BinarySearch(t.commas, from)
		comma := t.commas[before-1]
		if strings.Trim(string(t.data[comma+1:from]), " ") == "" {
			return []change{{comma, to, ""}}
		}
		return []change{{comma, comma + 1, ""}, {from, to, ""}} // there are line ends or comments between
	}
	return []change{{from, to, ""}}
}

// A chunk is the lines of an entry or a band, from its first byte to the end of its last line; whole when nothing else
// stands on them.
type chunk struct {
	from, to int
	whole    bool
}

// chunk finds the lines of a part of a list or a group, with the comments under it that stand farther in.
func (t *Text) chunk(n *node, i int) chunk {
	start, end := n.bounds(i)
	if n.kind == list {
		start = n.items[i].span.behind - 1
		end = max(end, start+1)
	}
	first := t.lines[t.lineOf(start)]
	last := t.commentsBelow(t.lineOf(end), start-first.from)
	return chunk{first.from, t.lines[last].to, strings.Trim(string(t.data[first.from:start]), " ") == ""}
}

// Move puts an entry of a list at another place; it is then the entry with that index, from 0.
func (t *Text) Move(p Path, to int) (*Text, error) {
	n, _ := t.find(p.Parent())
	if len(p) == 0 || n == nil || n.kind != list || p[len(p)-1].Key != "" || p[len(p)-1].Index >= len(n.items) || to < 0 || to >= len(n.items) {
		return nil, refused(p, "there is no such entry")
	}
	from := p[len(p)-1].Index
	if why := n.fixed(); why != "" {
		return nil, refused(p, "%s", why)
	}
	want := t.top.clone()
	items := want.find(p.Parent()).items
	moved := items[from]
	items = slices.Insert(slices.Delete(items, from, from+1), to, moved)
	want.find(p.Parent()).items = items

	order := make([]int, len(n.items)) // by new place: the old one
	for i := range order {
		order[i] = i
	}
	order = slices.Insert(slices.Delete(order, from, from+1), to, from)
	var changes []change
	place := func(i int) (int, int, bool) {
		if n.span.flow {
			a, b := n.bounds(i)
			return a, b, true
		}
		c := t.chunk(n, i)
		return c.from, c.to, c.whole
	}
	for i := min(from, to); i <= max(from, to); i++ {
		a, b, ok := place(i)
		c, d, _ := place(order[i])
		if !ok {
			return nil, refused(p, "it shares a line with something else; change it in the file itself")
		}
		changes = append(changes, change{a, b, string(t.data[c:d])})
	}
	next, err := t.splice(p, changes...)
	if err != nil {
		return nil, err
	}
	return checked(p, next, want)
}
