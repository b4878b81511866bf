package tables

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/page"
	"rodsheet/template/rule"
)

func (t *tables) sheets(counts []page.Count, whyNot string) {
	if whyNot != "" {
		t.head("SHEETS")
		t.words("They can't be laid out: " + whyNot)
		return
	}
	total := 0
	tab := Table{Heads: []string{"sheet", "kind", ">pages", "numbers", "how few", "use"}}
	for _, c := range counts {
		total += c.Pages
		tab.Add(c.Title, string(c.Kind), fmt.Sprint(c.Pages), c.Numbers(), Fewest(c), Uses(c))
	}
	t.head("SHEETS: %s on %s", Count(total, "page"), Paper(t.p.Job.Paper, t.r.units))
	t.table(&tab)
}

func (t *tables) findings(list []rule.Finding, jobName string) {
	if len(list) > 0 {
		t.b.WriteString("\n" + Hang("", fmt.Sprintf("Know before you drill: %s; rodsheet check %s tells them.", Tally(list), jobName)))
	}
}

// Fewest says how the number of pages stands to the least possible.
func Fewest(c page.Count) string {
	text := "least possible"
	switch {
	case c.Pages == 0:
		return "nothing to drill"
	case !c.Proved && c.Pages > c.Bound:
		text = fmt.Sprintf("at most %d more than possible", c.Pages-c.Bound)
	}
	if c.OnSeam > 0 {
		text += fmt.Sprintf("; %s on a seam, whole on both pages", Count(c.OnSeam, "hole"))
	}
	return text
}

// Uses says how often a sheet is used.
func Uses(c page.Count) string {
	switch c.Use {
	case 0:
		return ""
	case 1:
		return "once"
	}
	return fmt.Sprintf("%d times", c.Use)
}

// Paper names paper with its size.
func Paper(p job.Paper, units geom.System) string {
	size := reader{units}.size(p.Size) + " " + units.String()
	if p.Name == "" {
		return "paper of " + size
	}
	return fmt.Sprintf("%s paper (%s)", p.Name, size)
}
