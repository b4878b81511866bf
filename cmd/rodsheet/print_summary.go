package main

import (
	"fmt"
	"strings"

	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/page"
	"rodsheet/template/sheet"
	"rodsheet/template/tables"
)

// summary says what was printed, with how few pages, and what to do with it.
func (o *printOptions) summary(w *template.Work, p template.Print, counts []page.Count, set page.Set, total int) string {
	var b strings.Builder
	where := o.output
	if where == "-" {
		where = "standard output"
	}
	fmt.Fprintf(&b, "%s: %s to %s, %s\n", w.Job.Name, tables.Count(len(set.Pages), "page"), where, o.onWhat(w, p))
	if len(o.pages) > 0 {
		fmt.Fprintf(&b, "They are out of a set of %s; every mark stands where it does in the full set.\n", tables.Count(total, "page"))
		counts = touched(counts, set)
	}
	t := tables.Table{Heads: []string{"sheet", ">pages", "numbers", "how few", "use"}}
	for _, c := range counts {
		t.Add(c.Title, fmt.Sprint(c.Pages), c.Numbers(), tables.Fewest(c), tables.Uses(c))
	}
	b.WriteString(t.Text("  "))
	if p.Printer != "" {
		fmt.Fprintf(&b, "Corrected for the printer %s: print on no other.\n", p.Printer)
	}
	b.WriteString("Next:\n")
	steps := []string{
		"Print with scaling off: “actual size” or 100 %, on the paper named above.",
		"Measure the check lines on every page before the page is used; if one is off, don't drill.",
	}
	if o.whole {
		steps[0] = "Have each page printed at its own size, scaling off: 100 %."
	}
	if hasKind(counts, sheet.Overview) {
		steps = append(steps, "Read the overview: what to know first, and the order of work.")
	}
	if text := tables.Tally(w.Findings); len(w.Findings) > 0 {
		steps = append(steps, fmt.Sprintf("This job has %s: rodsheet check %s tells them.", text, o.job.as()))
	}
	for i, s := range steps {
		b.WriteString(tables.Hang(fmt.Sprintf("  %d. ", i+1), s))
	}
	return b.String()
}

func (o *printOptions) onWhat(w *template.Work, p template.Print) string {
	if o.whole {
		return "each drawing whole"
	}
	return "on " + tables.Paper(p.Paper, w.Job.Units)
}

func hasKind(counts []page.Count, k drawing.Kind) bool {
	for _, c := range counts {
		if c.Kind == k && c.Pages > 0 {
			return true
		}
	}
	return false
}

// touched returns the counts of sheets that have a page in the set.
func touched(counts []page.Count, set page.Set) []page.Count {
	var out []page.Count
	for _, c := range counts {
		for _, p := range set.Pages {
			if p.Number >= c.First && p.Number < c.First+c.Pages {
				out = append(out, c)
				break
			}
		}
	}
	return out
}
