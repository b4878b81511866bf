package job

import (
	"fmt"
	"strings"
)

// A Problem is one thing wrong in a job file.
type Problem struct {
	Place Place
	Field string // path as people write it: "walls: North: runs: N: panels"
	Text  string // what is wrong, what would be right
}

// Problems is all that is wrong in a job file, in the order of the file. Commands take it for bad input.
type Problems struct {
	Source Source
	List   []Problem
}

// Add appends a problem at the value with that path; see [Source.Of].
func (p *Problems) Add(key, format string, args ...any) {
	p.List = append(p.List, Problem{Place: p.Source.Of(key), Field: key, Text: fmt.Sprintf(format, args...)})
}

// Error prints every problem with its place, the lines round it and a mark under it.
func (p *Problems) Error() string {
	var b strings.Builder
	for _, q := range p.List {
		fmt.Fprintf(&b, "%s:%d:%d: %s: %s\n", p.Source.File, q.Place.Line, q.Place.Col, q.Field, q.Text)
	}
	return strings.TrimSuffix(b.String(), "\n")
}
