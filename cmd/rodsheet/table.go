package main

import (
	"strings"
	"unicode/utf8"
)

// pageWidth is how many columns the words of a command take.
const pageWidth = 100

// A table sets cells in columns that are as wide as their widest cell. What does not fit the page's width wraps in the
// last column.
type table struct {
	heads []string // ">" before a head sets its column to the right
	rows  [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

func (t *table) text(indent string) string {
	if len(t.rows) == 0 {
		return ""
	}
	heads := make([]string, len(t.heads))
	right := make([]bool, len(t.heads))
	for i, h := range t.heads {
		heads[i], right[i] = strings.CutPrefix(h, ">")
	}
	wide := make([]int, len(heads))
	for _, row := range append([][]string{heads}, t.rows...) {
		for i, c := range row {
			wide[i] = max(wide[i], utf8.RuneCountInString(c))
		}
	}
	last := len(heads) - 1
	before := utf8.RuneCountInString(indent)
	for _, w := range wide[:last] {
		before += w + 2
	}
	var b strings.Builder
	for _, row := range append([][]string{heads}, t.rows...) {
		line := indent
		for i, c := range row[:last] {
			line += pad(c, wide[i], right[i]) + "  "
		}
		for i, part := range wrap(row[last], max(20, pageWidth-before)) {
			if i > 0 {
				line = strings.Repeat(" ", before)
			}
			if right[last] {
				part = pad(part, wide[last], true)
			}
			b.WriteString(strings.TrimRight(line+part, " ") + "\n")
		}
	}
	return b.String()
}

func pad(s string, to int, right bool) string {
	air := strings.Repeat(" ", max(0, to-utf8.RuneCountInString(s)))
	if right {
		return air + s
	}
	return s + air
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

// hang sets a text with its first line after lead and the others under it.
func hang(lead, text string) string {
	air := strings.Repeat(" ", utf8.RuneCountInString(lead))
	return strings.TrimRight(lead+strings.Join(wrap(text, pageWidth-len(air)), "\n"+air), " ") + "\n"
}
