package main

import (
	"strings"
	"unicode/utf8"
)

// pageWidth is how many columns the words of a command take.
const pageWidth = 100

// A table sets cells in columns that are as wide as their widest cell. Where that is more than the page holds, the widest
// columns of words wrap.
type table struct {
	heads []string // ">" before a head sets its column to the right
	rows  [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// narrowest is what a column of words is wrapped to at most.
const narrowest = 12

func (t *table) text(indent string) string {
	if len(t.rows) == 0 {
		return ""
	}
	rows := [][]string{make([]string, len(t.heads))}
	right := make([]bool, len(t.heads))
	for i, h := range t.heads {
		rows[0][i], right[i] = strings.CutPrefix(h, ">")
	}
	rows = append(rows, t.rows...)
	wide := t.widths(rows, right, pageWidth-utf8.RuneCountInString(indent))
	var b strings.Builder
	for _, row := range rows {
		var cells [][]string
		high := 1
		for i, c := range row {
			lines := []string{c}
			if !right[i] {
				lines = wrap(c, wide[i])
			}
			cells, high = append(cells, lines), max(high, len(lines))
		}
		for k := range high {
			line := indent
			for i, lines := range cells {
				part := ""
				if k < len(lines) {
					part = lines[k]
				}
				line += pad(part, wide[i], right[i]) + "  "
			}
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	return b.String()
}

func (t *table) widths(rows [][]string, right []bool, room int) []int {
	wide := make([]int, len(right))
	sum := 2 * (len(wide) - 1)
	for i := range wide {
		for _, row := range rows {
			wide[i] = max(wide[i], utf8.RuneCountInString(row[i]))
		}
		sum += wide[i]
	}
	for ; sum > room; sum-- {
		widest := -1
		for i, w := range wide {
			if !right[i] && w > narrowest && (widest < 0 || w > wide[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		wide[widest]--
	}
	return wide
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
