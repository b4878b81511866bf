package tables

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rodsheet/template/job"
	"rodsheet/template/rule"
)

// Rules writes rules with what each asks for, why, and its source.
func Rules(rules []rule.Rule) string {
	var b strings.Builder
	for i, r := range rules {
		if i > 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s: a %s\n", r.ID, r.Level)
		b.WriteString(Hang("  Rule    ", r.What))
		if r.Why != "" {
			b.WriteString(Hang("  Why     ", r.Why))
		}
		b.WriteString(Hang("  Source  ", r.Source))
	}
	return b.String()
}

// Check writes findings worst first, each thing once, with what to do, and the usual cautions.
func Check(j *job.Job, findings []rule.Finding) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n", j.Name, Tally(findings))
	for _, part := range []struct {
		head  string
		level rule.Level
	}{
		{"STOPS. Mend these, or accept them with a reason; until then no drill template is printed.", rule.Stop},
		{"CAUTIONS. Work or hold may suffer.", rule.Caution},
		{"NOTES. Good to know.", rule.Note},
	} {
		writeGroups(&b, j, part.head, slices.DeleteFunc(slices.Clone(findings), func(f rule.Finding) bool {
			return f.Level != part.level || f.Accepted
		}))
	}
	writeGroups(&b, j, "ACCEPTED. You have dealt with these.", slices.DeleteFunc(slices.Clone(findings), func(f rule.Finding) bool {
		return !f.Accepted
	}))
	b.WriteString("\nBEFORE YOU DRILL, on any wall:\n")
	for _, c := range rule.Cautions() {
		b.WriteString(Hang("  · ", c))
	}
	return b.String()
}

// Tally counts findings in words, each thing once.
func Tally(findings []rule.Finding) string {
	var counts [3]int
	accepted := 0
	for _, f := range rule.Grouped(findings) {
		if f.Accepted {
			accepted++
		} else {
			counts[f.Level]++
		}
	}
	var parts []string
	for level, n := range counts {
		if n > 0 {
			parts = append(parts, Count(n, rule.Level(level).String()))
		}
	}
	if accepted > 0 {
		parts = append(parts, fmt.Sprintf("%d accepted", accepted))
	}
	if len(parts) == 0 {
		return "nothing stands out in the numbers. They know only what you measured."
	}
	return strings.Join(parts, ", ")
}

// writeGroups writes findings of one rule together, and those in the same words as one.
func writeGroups(b *strings.Builder, j *job.Job, head string, findings []rule.Finding) {
	if len(findings) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s\n", head)
	findings = rule.Grouped(findings)
	for len(findings) > 0 {
		first := findings[0]
		var group, rest []rule.Finding
		for _, f := range findings {
			if f.ID == first.ID && f.Why == first.Why {
				group = append(group, f)
			} else {
				rest = append(rest, f)
			}
		}
		findings = rest
		fmt.Fprintf(b, "\n  %s\n", first.ID)
		oneRemedy := !slices.ContainsFunc(group, func(f rule.Finding) bool { return f.Remedy != first.Remedy })
		for _, f := range group {
			b.WriteString(Hang("    ", f.Words()))
			if !oneRemedy && f.Remedy != "" {
				b.WriteString(Hang("    Do      ", f.Remedy))
			}
			if f.Accepted {
				b.WriteString(Hang("    Because ", f.Because))
			}
			if line := lineOf(j, f.Place); line != "" {
				fmt.Fprintf(b, "    Job     %s\n", line)
			}
		}
		if oneRemedy && first.Remedy != "" {
			b.WriteString(Hang("    Do      ", first.Remedy))
		}
		if first.Why != "" {
			b.WriteString(Hang("    Why     ", first.Why))
		}
		b.WriteString(Hang("    Source  ", first.Source))
	}
}

// lineOf shows the line of the job file, cut to the page's width; "" when the finding comes from no line.
func lineOf(j *job.Job, at job.Place) string {
	if at.Line < 1 || at.Line > len(j.Source.Lines) {
		return ""
	}
	place := fmt.Sprintf("%s:%d  ", j.Source.File, at.Line)
	text := []rune(printable(strings.TrimSpace(j.Source.Lines[at.Line-1])))
	if room := Width - 12 - len([]rune(place)); len(text) > max(room, 20) {
		text = append(text[:max(room, 20)-1], '…')
	}
	return place + string(text)
}

// Stops names the stops that a print was refused for, and how to accept one.
func Stops(stops []rule.Finding) string {
	var b strings.Builder
	told, are := rule.Grouped(stops), "are"
	if len(told) == 1 {
		are = "is"
	}
	fmt.Fprintf(&b, "rodsheet: no drill template is printed before %s %s mended or accepted:\n", Count(len(told), "stop"), are)
	for _, f := range told {
		lead := "  " + f.ID
		if f.At != "" {
			lead += " at " + f.At
		}
		b.WriteString(Hang("  ", lead[2:]+": "+f.Text))
	}
	b.WriteString("rodsheet check tells what to do. To accept one, write into the job file:\n")
	f := stops[0]
	fmt.Fprintf(&b, "  accept:\n    - {finding: %s, at: %s, because: YOUR REASON}\n", f.ID, orAll(f.At))
	b.WriteString("Sheets that nothing is drilled by still print, as with --only scale,overview\n")
	return b.String()
}

// orAll is a place as YAML takes it; an empty one accepts the finding everywhere.
func orAll(name string) string {
	if name == "" || strings.ContainsAny(name, ",:{}[]#&*!|>'\"%@`") {
		return strconv.Quote(name)
	}
	return name
}
