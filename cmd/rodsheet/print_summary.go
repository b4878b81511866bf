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
	}
	t := tables.Table{Heads: []string{"sheet", ">pages", "numbers", "use"}}
	for _, c := range counts {
		switch printed := numbersOf(c, set); {
		case len(o.pages) == 0:
			t.Add(c.Title, fmt.Sprint(c.Pages), c.Numbers(), tables.Uses(c))
		case len(printed) > 0:
			t.Add(c.Title, fmt.Sprint(len(printed)), ranges(printed), tables.Uses(c))
		}
	}
	b.WriteString(t.Text("  "))
	if len(o.pages) == 0 {
		b.WriteString(tables.Fewest("  ", counts))
	}
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

// numbersOf returns the numbers of a sheet's pages that are in the set.
func numbersOf(c page.Count, set page.Set) []int {
	var out []int
	for _, p := range set.Pages {
		if p.Number >= c.First && p.Number < c.First+c.Pages {
			out = append(out, p.Number)
		}
	}
	return out
}

// ranges writes ascending numbers, "5, 7–9".
func ranges(numbers []int) string {
	var parts []string
	for i := 0; i < len(numbers); i++ {
		from := i
		for i+1 < len(numbers) && numbers[i+1] == numbers[i]+1 {
			i++
		}
		text := fmt.Sprint(numbers[from])
		if i > from {
			text += fmt.Sprintf("–%d", numbers[i])
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}
