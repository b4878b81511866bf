package job

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
)

// reader gathers a job and the problems of its file.
type reader struct {
	job      *Job
	problems Problems
	units    geom.System
	known    bool // units are given; without them no length can be judged
	names    map[string]string
	past     [2]bool // the wall that is read ends in an outside corner on its left, its right: a run may go past it
}

func (r *reader) add(at Place, path, text string, args ...any) {
	r.problems.add(at, path, fmt.Sprintf(text, args...))
}

// wholeFile reports a problem that has no place within the file.
func (r *reader) wholeFile(text string, args ...any) { r.add(Place{1, 1}, "", text, args...) }

// judge reports a problem of size or place. It keeps still while the units are unknown, because then every number
// would be judged wrongly.
func (r *reader) judge(at Place, path, text string, args ...any) {
	if r.known {
		r.add(at, path, text, args...)
	}
}

// show is a length for a message.
func (r *reader) show(l geom.Length) string { return l.In(r.units) }

// A section is a group of fields while it is read. It takes the names, kinds, limits and defaults of its fields from
// the table.
type section struct {
	r     *reader
	spec  *spec
	n     *node // nil when the file does not have the group
	path  string
	short bool // the file has a single value for the whole group, see Field.Short
}

// field is the row of a field in the table.
func (s *section) field(name string) *spec {
	f, ok := s.spec.byName[name]
	if !ok {
		panic("job: the table has no field " + join(s.path, name))
	}
	return f
}

// key is the path of a field.
func (s *section) key(name string) string {
	if s.short {
		return s.path
	}
	return join(s.path, name)
}

// close reports fields that the table does not have, fields with nothing in them, and fields that contradict each other.
func (s *section) close() {
	if s.n == nil {
		return
	}
	for _, f := range s.n.fields {
		if s.spec.byName[f.name] == nil {
			s.unknown(f)
		} else if f.value.kind == empty {
			s.add(f.name, "nothing is written here; give a value or take the line out")
		}
	}
	for _, one := range s.spec.OneOf {
		s.oneWay(one)
	}
}

func (s *section) unknown(f field) {
	known := s.spec.names()
	if near := nearest(f.name, known); near != "" {
		s.r.add(f.place, s.key(f.name), "there is no such field; did you mean `%s`?", near)
		return
	}
	s.r.add(f.place, s.key(f.name), "there is no such field here; the fields are %s", strings.Join(known, ", "))
}

// oneWay reports the first field that does not belong to the same way of writing a thing as one before it.
func (s *section) oneWay(one OneOf) {
	first, firstWay := "", -1
	for _, f := range s.n.fields {
		way := slices.IndexFunc(one.Ways, func(w Way) bool { return slices.Contains(w.names(), f.name) })
		switch {
		case way < 0 || way == firstWay:
		case firstWay < 0:
			first, firstWay = f.name, way
		default:
			s.add(f.name, "can't stand beside `%s`: %s", first, one.Why)
			return
		}
	}
}

// has reports whether the file names the field, empty or not.
func (s *section) has(name string) bool {
	s.field(name)
	if s.n == nil {
		return false
	}
	_, ok := s.n.field(name)
	return ok
}

// get is the value of a field in the file, nil when it is left out or empty.
func (s *section) get(name string) *node {
	s.field(name)
	if s.n == nil {
		return nil
	}
	f, ok := s.n.field(name)
	if !ok || f.value.kind == empty {
		return nil
	}
	return f.value
}

// read hands use the field's default, and then its value in the file over it. It reports whether the file has a value
// and use took it.
func (s *section) read(name string, use func(f *spec, n *node, path string) bool) bool {
	f := s.field(name)
	if preset := f.preset[s.r.units]; preset != nil {
		use(f, preset, s.key(name))
	}
	n := s.get(name)
	return n != nil && use(f, n, s.key(name))
}

// at is the place of a field's value, or of the group when the field is left out.
func (s *section) at(name string) Place {
	if s.n == nil {
		return Place{1, 1}
	}
	if f, ok := s.n.field(name); ok {
		return f.value.place
	}
	return s.n.place
}

func (s *section) add(name, text string, args ...any) {
	s.r.add(s.at(name), s.key(name), text, args...)
}

func (s *section) judge(name, text string, args ...any) {
	s.r.judge(s.at(name), s.key(name), text, args...)
}

// need reports a field that is left out, with what to measure and how. A field that is there but misspelt is one
// problem, not two.
func (s *section) need(name string) bool { return s.needs(name, s.field(name).How) }

// needs is need with words of its own.
func (s *section) needs(name, how string) bool {
	if s.has(name) {
		return true
	}
	misspelt := s.n != nil && slices.ContainsFunc(s.n.fields, func(f field) bool {
		return s.spec.byName[f.name] == nil && nearest(f.name, s.spec.names()) == name
	})
	if !misspelt {
		s.add(name, "is missing: %s", how)
	}
	return false
}

// section opens a group within the group. It is usable, and empty, when the file leaves it out.
func (s *section) section(name string) *section {
	in := &section{r: s.r, spec: s.field(name), path: s.key(name)}
	n := s.get(name)
	switch {
	case n == nil:
	case n.kind == group:
		in.n = n
	case in.spec.Short != "":
		in.short = true
		in.n = &node{kind: group, place: n.place, fields: []field{{name: in.spec.Short, place: n.place, value: n}}}
	default:
		s.add(name, "%s; expected fields of its own, as in %s: {field: value, …}", n.describe(), name)
	}
	return in
}

// sections opens a list of groups.
func (s *section) sections(name string) []*section {
	spec, n := s.field(name), s.get(name)
	if n == nil {
		return nil
	}
	example := spec.example(s.r.units)
	if n.kind != list {
		s.add(name, "%s; expected a list, each entry beginning with `- `, as in `- %s`", n.describe(), example)
		return nil
	}
	if len(n.items) > spec.most && spec.most > 0 {
		s.add(name, "has %d entries; at most %d are taken, so divide the job", len(n.items), spec.most)
		return nil
	}
	var out []*section
	for i, item := range n.items {
		path := entry(s.key(name), i)
		if item.kind != group {
			s.r.add(item.place, path, "%s; expected fields, as in `- %s`", item.describe(), example)
			continue
		}
		out = append(out, &section{r: s.r, spec: spec, n: item, path: path})
	}
	return out
}

// nearest is the known name that a person most likely meant, "" when none is near.
func nearest(name string, known []string) string {
	name = strings.ToLower(strings.NewReplacer("_", " ", "-", " ").Replace(name))
	letters := len([]rune(name))
	best, least := "", 1+letters/3
	for _, k := range known {
		plain := strings.ReplaceAll(strings.ToLower(k), "-", " ")
		d := distance(name, plain)
		if letters >= 3 && strings.HasPrefix(plain, name) {
			d = min(d, 1)
		}
		if d < least {
			best, least = k, d
		}
	}
	return best
}

// distance is the least number of letters added, left out, changed or swapped with their neighbour (optimal string
// alignment) that turns a into b.
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 60 {
		return len(s)
	}
	d := make([][]int, len(s)+1)
	for i := range d {
		d[i] = make([]int, len(t)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(s); i++ {
		for j := 1; j <= len(t); j++ {
			change := 1
			if s[i-1] == t[j-1] {
				change = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(s)][len(t)]
}
