package tables

import (
	"strings"
	"unicode/utf8"
)

// A Table sets cells in columns that are as wide as their widest cell. Where that is more than the page holds, the widest
// columns of words wrap.
type Table struct {
	Heads []string // ">" before a head sets its column to the right
	rows  [][]string
}

// Add adds a row.
func (t *Table) Add(cells ...string) { t.rows = append(t.rows, cells) }

// narrowest is what a column of words is wrapped to at most.
const narrowest = 12

// Text is the table with every line indented; "" without rows.
func (t *Table) Text(indent string) string {
	if len(t.rows) == 0 {
		return ""
	}
	rows := [][]string{make([]string, len(t.Heads))}
	right := make([]bool, len(t.Heads))
	for i, h := range t.Heads {
		rows[0][i], right[i] = strings.CutPrefix(h, ">")
	}
	rows = append(rows, t.rows...)
	wide := t.widths(rows, right, Width-utf8.RuneCountInString(indent))
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

func (t *Table) widths(rows [][]string, right []bool, room int) []int {
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
