package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A Path leads from the top of a job file to one of its values, step by step.
type Path []Step

// A Step goes to a field of a group, or to an entry of a list.
type Step struct {
	Key   string // of the field; "" for an entry
	Index int    // of the entry, from 0
}

// Key returns the path to a field of the group at p.
func (p Path) Key(name string) Path { return append(slices.Clip(p), Step{Key: name}) }

// Index returns the path to an entry of the list at p, from 0.
func (p Path) Index(i int) Path { return append(slices.Clip(p), Step{Index: i}) }

// Parent returns the path without its last step; the empty path is its own parent.
func (p Path) Parent() Path { return p[:max(0, len(p)-1)] }

// String returns the path as in `walls[0].runs[1].panels`. A name that holds one of . [ ] " is quoted, so that
// different paths are written differently; [ParsePath] reads them back.
func (p Path) String() string {
	text := ""
	for _, s := range p {
		if s.Key != "" {
			text = join(text, s.Key)
		} else {
			text = entry(text, s.Index)
		}
	}
	return text
}

// join is the written path to a field of the group at a written path.
func join(path, name string) string {
	if name == "" || strings.ContainsAny(name, `.[]"`) {
		name = strconv.Quote(name)
	}
	if path == "" {
		return name
	}
	return path + "." + name
}

// entry is the written path to an entry of the list at a written path.
func entry(path string, index int) string { return fmt.Sprintf("%s[%d]", path, index) }

// ParsePath reads what [Path.String] writes.
func ParsePath(text string) (Path, error) {
	var p Path
	fail := func() (Path, error) { return nil, fmt.Errorf("%q is no path such as walls[0].runs[1].panels", text) }
	for rest := text; rest != ""; {
		if index, found := strings.CutPrefix(rest, "["); found {
			digits, after, closed := strings.Cut(index, "]")
			i, err := strconv.Atoi(digits)
			if !closed || err != nil || digits != strconv.Itoa(i) || i < 0 {
				return fail()
			}
			p, rest = append(p, Step{Index: i}), after
			continue
		}
		if len(p) > 0 {
			after, found := strings.CutPrefix(rest, ".")
			if !found {
				return fail()
			}
			rest = after
		}
		var name string
		if strings.HasPrefix(rest, `"`) {
			quoted, err := strconv.QuotedPrefix(rest)
			if err != nil {
				return fail()
			}
			name, _ = strconv.Unquote(quoted)
			rest = rest[len(quoted):]
		} else {
			end := strings.IndexAny(rest, `.[]"`)
			if end < 0 {
				end = len(rest)
			}
			name, rest = rest[:end], rest[end:]
		}
		if name == "" {
			return fail()
		}
		p = append(p, Step{Key: name})
	}
	return p, nil
}
