package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"rodsheet/template/job"
	"rodsheet/template/report"
	"rodsheet/template/rule"
)

type checkOptions struct {
	env
	job     jobArg
	explain string
	json    bool
}

func newCheck(e env, run func(*checkOptions) error) *cobra.Command {
	o := &checkOptions{env: e}
	cmd := &cobra.Command{
		Use:   "check JOB",
		Short: "Tell what to know before drilling, worst first",
		Long: "Tell what to know before drilling: stops first, then cautions and notes, each with the line of the job\n" +
			"file it comes from. A stop that is neither mended nor accepted ends with exit code 1.",
		RunE: func(*cobra.Command, []string) error { return run(o) },
	}
	o.job.attach(cmd)
	cmd.Args = func(_ *cobra.Command, args []string) error {
		if cmd.Flags().Changed("explain") {
			switch {
			case len(args) > 0 || o.job.demo:
				return usage("--explain tells of a rule and takes no JOB")
			case o.explain == "":
				return usage("which rule? Give --explain its ID as check prints it, or all")
			}
			return nil
		}
		return o.job.take(args)
	}
	cmd.Flags().StringVar(&o.explain, "explain", "", "tell of the rule with this ID, or of all, and where it comes from")
	cmd.Flags().BoolVar(&o.json, "json", false, "write JSON")
	return cmd
}

func runCheck(o *checkOptions) error {
	if o.explain != "" {
		return o.explainRule()
	}
	w, err := o.open(o.job)
	if err != nil {
		return err
	}
	words := checkText(w.Job, w.Findings)
	if o.json {
		if words, err = report.Findings(w.Job, w.Findings); err != nil {
			return err
		}
	}
	if err := o.print(words); err != nil {
		return err
	}
	if len(w.Stops()) > 0 {
		return errReported
	}
	return nil
}

func (o *checkOptions) explainRule() error {
	rules := rule.Rules()
	if o.explain != "all" {
		r, ok := rule.Of(o.explain)
		if !ok {
			var ids []string
			for _, r := range rules {
				ids = append(ids, r.ID)
			}
			return usage("there is no rule %q; the rules are %s", o.explain, strings.Join(ids, ", "))
		}
		rules = []rule.Rule{r}
	}
	if o.json {
		words, err := report.Rules(rules)
		if err != nil {
			return err
		}
		return o.print(words)
	}
	var b strings.Builder
	for i, r := range rules {
		if i > 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s: a %s\n", r.ID, r.Level)
		b.WriteString(hang("  Rule    ", r.What))
		if r.Why != "" {
			b.WriteString(hang("  Why     ", r.Why))
		}
		b.WriteString(hang("  Source  ", r.Source))
	}
	return o.print(b.String())
}

// checkText is advice as one would give it at the bench: worst first, each thing once, with what to do.
func checkText(j *job.Job, findings []rule.Finding) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n", j.Name, tally(findings))
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
		b.WriteString(hang("  · ", c))
	}
	return b.String()
}

// tally counts findings in words.
func tally(findings []rule.Finding) string {
	var counts [3]int
	accepted := 0
	for _, f := range findings {
		if f.Accepted {
			accepted++
		} else {
			counts[f.Level]++
		}
	}
	var parts []string
	for level, n := range counts {
		if n > 0 {
			parts = append(parts, count(n, rule.Level(level).String()))
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
			b.WriteString(hang("    ", f.Words()))
			if !oneRemedy && f.Remedy != "" {
				b.WriteString(hang("    Do      ", f.Remedy))
			}
			if f.Accepted {
				b.WriteString(hang("    Because ", f.Because))
			}
			if line := lineOf(j, f.Place); line != "" {
				fmt.Fprintf(b, "    Job     %s\n", line)
			}
		}
		if oneRemedy && first.Remedy != "" {
			b.WriteString(hang("    Do      ", first.Remedy))
		}
		if first.Why != "" {
			b.WriteString(hang("    Why     ", first.Why))
		}
		b.WriteString(hang("    Source  ", first.Source))
	}
}

// lineOf shows the line of the job file, cut to the page's width; "" when the finding comes from no line.
func lineOf(j *job.Job, at job.Place) string {
	if at.Line < 1 || at.Line > len(j.Source.Lines) {
		return ""
	}
	place := fmt.Sprintf("%s:%d  ", j.Source.File, at.Line)
	text := []rune(printable(strings.TrimSpace(j.Source.Lines[at.Line-1])))
	if room := pageWidth - 12 - len([]rune(place)); len(text) > max(room, 20) {
		text = append(text[:max(room, 20)-1], '…')
	}
	return place + string(text)
}

// stopText names the stops that a print was refused for.
func stopText(stops []rule.Finding) string {
	var b strings.Builder
	are := "are"
	if len(stops) == 1 {
		are = "is"
	}
	fmt.Fprintf(&b, "rodsheet: no drill template is printed before %s %s mended or accepted:\n", count(len(stops), "stop"), are)
	for _, f := range rule.Grouped(stops) {
		lead := "  " + f.ID
		if f.At != "" {
			lead += " at " + f.At
		}
		b.WriteString(hang("  ", lead[2:]+": "+f.Text))
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
