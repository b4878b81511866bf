package view

import "strings"

// lines are lines of the text that stand together, and are all new since the text was saved, or none is.
type lines struct {
	Text string
	New  bool
}

// changedLines takes a text apart by what is not in the saved text: between what both begin and end with, a line that the
// saved text hasn't there.
func changedLines(saved, text string) []lines {
	was, is := strings.SplitAfter(saved, "\n"), strings.SplitAfter(text, "\n")
	from := 0
	for from < min(len(was), len(is)) && was[from] == is[from] {
		from++
	}
	to := 0
	for to < min(len(was), len(is))-from && was[len(was)-1-to] == is[len(is)-1-to] {
		to++
	}
	had := map[string]int{}
	for _, line := range was[from : len(was)-to] {
		had[line]++
	}
	var out []lines
	for i, line := range is {
		fresh := false
		if i >= from && i < len(is)-to {
			had[line]--
			fresh = had[line] < 0
		}
		if n := len(out); n > 0 && out[n-1].New == fresh {
			out[n-1].Text += line
		} else if line != "" {
			out = append(out, lines{line, fresh})
		}
	}
	return out
}
