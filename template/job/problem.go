package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// A Problem is one thing in a job file that can't be understood or can't be so.
type Problem struct {
	File      string
	Line, Col int    // from 1; columns count characters
	Field     string // path as in [Source], "" for the file as a whole
	Text      string // what is wrong, what would be right
	Excerpt   string // the lines round the place, a caret under it; "" when the file can't be shown
}

func (p Problem) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: ", p.File, p.Line, p.Col)
	if p.Field != "" {
		b.WriteString(p.Field + ": ")
	}
	b.WriteString(p.Text)
	if p.Excerpt != "" {
		b.WriteString("\n" + p.Excerpt)
	}
	return b.String()
}

// mostProblems is how many problems are kept: a person mends the first ones and reads the file again.
const mostProblems = 100

// Problems is the error of [Read]: all problems of a file, in the order of their places. A command that meets it
// ends with exit code 2.
//
// A later step that finds a job impossible reports it with [Problems.Add] under the same type.
type Problems struct {
	Source Source
	List   []Problem // at least one
	More   int       // problems beyond the first hundred, which are not kept
}

// Add appends a problem at the value with that path; see [Source.Of].
func (p *Problems) Add(key, format string, args ...any) {
	p.add(p.Source.Of(key), key, fmt.Sprintf(format, args...))
}

func (p *Problems) add(at Place, field, text string) {
	if len(p.List) >= mostProblems {
		p.More++
		return
	}
	one := Problem{
		File: p.Source.File, Line: at.Line, Col: at.Col, Field: field, Text: text, Excerpt: excerpt(p.Source.Lines, at),
	}
	if !slices.Contains(p.List, one) { // both sides of a square are as wrong
		p.List = append(p.List, one)
	}
}

// Error prints every problem with its place and excerpt.
func (p *Problems) Error() string {
	parts := make([]string, 0, len(p.List)+1)
	for _, one := range p.List {
		parts = append(parts, one.String())
	}
	if p.More > 0 {
		parts = append(parts, fmt.Sprintf("and %d more; mend these first", p.More))
	}
	return strings.Join(parts, "\n")
}

func (p *Problems) sort() {
	slices.SortStableFunc(p.List, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
}

// excerptWidth is the most of a line that is shown; of a longer one the part round the place.
const excerptWidth = 100

// excerpt shows the line before, the line itself with a caret under the place, and the line after.
func excerpt(lines []string, at Place) string {
	if at.Line < 1 || at.Line > len(lines) {
		return ""
	}
	cut := 0
	if at.Col > excerptWidth*3/4 {
		cut = at.Col - excerptWidth/2
	}
	var b strings.Builder
	digits := len(fmt.Sprint(min(at.Line+1, len(lines))))
	for n := max(1, at.Line-1); n <= min(at.Line+1, len(lines)); n++ {
		if n == len(lines) && lines[n-1] == "" && n != at.Line {
			break
		}
		fmt.Fprintf(&b, "%s\n", strings.TrimRight(fmt.Sprintf("  %*d | %s", digits, n, window(lines[n-1], cut)), " "))
		if n == at.Line {
			fmt.Fprintf(&b, "  %*s | %s^\n", digits, "", strings.Repeat(" ", max(0, at.Col-1-cut)))
		}
	}
	return strings.TrimRight(b.String(), "\n")
}

// window is at most excerptWidth characters of a line from the cut on, safe to show on a terminal.
func window(line string, cut int) string {
	var b strings.Builder
	n := 0
	for _, r := range line {
		n++
		switch {
		case n <= cut:
			continue
		case n == cut+1 && cut > 0:
			r = '…'
		case n > cut+excerptWidth:
			return b.String() + "…"
		case r == '\t':
			r = ' '
		case !unicode.IsPrint(r):
			r = '·'
		}
		b.WriteRune(r)
	}
	return b.String()
}
