package tables

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"rodsheet/geom"
)

// Width is how many columns a text takes.
const Width = 100

// A reader writes lengths bare, in its units.
type reader struct{ units geom.System }

func (r reader) of(l geom.Length) string { return l.Bare(r.units) }

func (r reader) unitName() string {
	if r.units == geom.Imperial {
		return "inches"
	}
	return "mm"
}

func (r reader) size(s geom.Size) string { return r.of(s.W) + " × " + r.of(s.H) }

func (r reader) point(p geom.Point) string {
	return strings.ReplaceAll("("+r.of(p.X)+", "+r.of(p.Y)+")", " ", noBreak)
}

func (r reader) points(ps []geom.Point) string {
	parts := make([]string, len(ps))
	for i, p := range ps {
		parts[i] = r.point(p)
	}
	return strings.Join(parts, " ")
}

// printable takes out what could move a terminal's cursor.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case !unicode.IsPrint(r):
			return '·'
		}
		return r
	}, s)
}

// Count is a number of things, each by its singular.
func Count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// noBreak is a space that no line ends at.
const noBreak = "\u00a0"

// wrap breaks a text at spaces into lines of at most the given number of characters; a longer word stands alone.
func wrap(text string, most int) []string {
	var lines []string
	line, n := "", 0
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' }) {
		word = strings.ReplaceAll(word, noBreak, " ")
		w := utf8.RuneCountInString(word)
		if n > 0 && n+1+w > most {
			lines = append(lines, line)
			line, n = "", 0
		}
		if n > 0 {
			line, n = line+" ", n+1
		}
		line, n = line+word, n+w
	}
	return append(lines, line)
}

// Hang sets a text with its first line after lead and the others under it.
func Hang(lead, text string) string {
	air := strings.Repeat(" ", utf8.RuneCountInString(lead))
	return strings.TrimRight(lead+strings.Join(wrap(text, Width-len(air)), "\n"+air), " ") + "\n"
}
