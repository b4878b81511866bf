package tables

import (
	"fmt"
	"strings"

	"rodsheet/template"
	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
)

// Blocks writes the height blocks and the stock that makes them.
func Blocks(w *template.Work) string {
	if len(w.Plan.Blocks) == 0 {
		return "This job has no height blocks: no band or area of it names the seat that they would stand on.\n"
	}
	r := reader{w.Job.Units}
	tab := blockTable(w.Plan, r)
	words := fmt.Sprintf("%s, height blocks, lengths in %s\n", w.Job.Name, r.unitName()) + tab.Text("  ") +
		Hang("  ", "All blocks of a name must be equal: that counts for more than the height itself. Cut them with one setting.")
	for _, f := range w.Findings {
		if f.ID == "stack-misses" && !f.Accepted {
			words += Hang("  ", f.Text+" "+f.Remedy)
		}
	}
	return words
}

func blockTable(p *plan.Plan, r reader) *Table {
	tab := &Table{Heads: []string{"block", ">number", ">height", ">made", "for", "panels", "stack"}}
	if p.Job.Line > 0 {
		tab.Heads = append(tab.Heads, "top")
	}
	for _, b := range p.Blocks {
		use, stack, made := "hanging", "–", "–"
		if b.Drilling {
			use = "drilling"
		}
		if len(b.Stack) > 0 {
			made = r.of(b.Made)
			stack = strings.Join(finding.Repeated(b.Stack, r.of), " + ")
		}
		row := []string{b.Name, fmt.Sprint(b.Count), r.of(b.Height), made, use, p.PanelNames(b.Panels), stack}
		if p.Job.Line > 0 {
			row = append(row, b.FromLine(p.Job, r.of))
		}
		tab.Add(row...)
	}
	return tab
}
