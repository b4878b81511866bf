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

// A section is a group of fields while it is read. What was asked for is what is known: whatever else the file has in
// the group is reported by close.
type section struct {
	r     *reader
	n     *node // nil when the file does not have the group
	path  string
	asked []string
}

// close reports the fields nobody asked for.
func (s *section) close() {
	if s.n == nil {
		return
	}
	for _, f := range s.n.fields {
		if slices.Contains(s.asked, f.name) {
			continue
		}
		text := "there is no such field"
		if near := nearest(f.name, s.asked); near != "" {
			text += "; did you mean `" + near + "`?"
			// A field that is there but misspelt is one problem, not two.
			s.r.problems.List = slices.DeleteFunc(s.r.problems.List, func(p Problem) bool {
				return p.Field == join(s.path, near) && strings.HasPrefix(p.Text, missing)
			})
		} else {
			text += " here; the fields are " + strings.Join(s.asked, ", ")
		}
		s.r.add(f.place, join(s.path, f.name), "%s", text)
	}
}

// has tells whether the file names the field, empty or not.
func (s *section) has(name string) bool {
	if s.n == nil {
		return false
	}
	_, ok := s.n.field(name)
	return ok
}

// get is the value of a field, nil when it is left out. An empty value is a problem: the person meant to write one.
func (s *section) get(name string) *node {
	if !slices.Contains(s.asked, name) {
		s.asked = append(s.asked, name)
	}
	if s.n == nil {
		return nil
	}
	f, ok := s.n.field(name)
	if !ok {
		return nil
	}
	if f.value.kind == empty {
		s.add(name, "nothing is written here; give a value or take the line out")
		return nil
	}
	return f.value
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
	s.r.add(s.at(name), join(s.path, name), text, args...)
}

func (s *section) judge(name, text string, args ...any) {
	s.r.judge(s.at(name), join(s.path, name), text, args...)
}

const missing = "is missing: "

// need reports a field that is left out, with what to measure and how.
func (s *section) need(name, how string) bool {
	if !slices.Contains(s.asked, name) {
		s.asked = append(s.asked, name)
	}
	if s.has(name) {
		return true
	}
	s.add(name, "%s", missing+how)
	return false
}

// apart reports fields that contradict each other.
func (s *section) apart(a, b, why string) bool {
	if s.has(a) && s.has(b) {
		s.add(b, "can't stand beside `%s`: %s", a, why)
		return false
	}
	return true
}

// section opens a group within the group. It is usable, and empty, when the file leaves it out.
func (s *section) section(name string) *section {
	in := &section{r: s.r, path: join(s.path, name)}
	n := s.get(name)
	if n == nil {
		return in
	}
	if n.kind != group {
		s.add(name, "%s; expected fields of its own, as in %s: {field: value, …}", n.describe(), name)
		return in
	}
	in.n = n
	return in
}

// groups opens a list of groups.
func (s *section) groups(name, example string) []*section {
	n := s.get(name)
	if n == nil {
		return nil
	}
	if n.kind != list {
		s.add(name, "%s; expected a list, each entry beginning with `- `, as in `- %s`", n.describe(), example)
		return nil
	}
	var out []*section
	for i, item := range n.items {
		path := fmt.Sprintf("%s[%d]", join(s.path, name), i)
		if item.kind != group {
			s.r.add(item.place, path, "%s; expected fields, as in `- %s`", item.describe(), example)
			continue
		}
		out = append(out, &section{r: s.r, n: item, path: path})
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
