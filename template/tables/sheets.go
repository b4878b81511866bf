package tables

import (
	"fmt"
	"slices"
	"strings"

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
	tab := Table{Heads: []string{"sheet", "kind", ">pages", "numbers", "use"}}
	for _, c := range counts {
		total += c.Pages
		tab.Add(c.Title, string(c.Kind), fmt.Sprint(c.Pages), c.Numbers(), Uses(c))
	}
	t.head("SHEETS: %s on %s", Count(total, "page"), Paper(t.p.Job.Paper, t.r.units))
	t.table(&tab)
	t.b.WriteString(Fewest("  ", counts))
}

func (t *tables) findings(list []rule.Finding, jobName string) {
	if len(list) > 0 {
		t.b.WriteString("\n" + Hang("", fmt.Sprintf("Know before you drill: %s; rodsheet check %s tells them.", Tally(list), jobName)))
	}
}

// Fewest says how the numbers of pages stand to the least possible, one line each: of the kinds of sheets that are laid
// out to take few. It is "" where there are none.
func Fewest(indent string, counts []page.Count) string {
	var proved, open []string // kinds
	var lines []string
	note := func(list *[]string, k string) {
		if !slices.Contains(*list, k) {
			*list = append(*list, k)
		}
	}
	for _, c := range counts {
		if !c.Solved {
			continue
		}
		what := ""
		switch {
		case c.Pages == 0:
			what = "nothing to drill, no page"
		case !c.Proved:
			note(&open, string(c.Kind))
			what = fmt.Sprintf("at most %s more than the fewest possible", Count(c.Pages-c.Bound, "page"))
		default:
			note(&proved, string(c.Kind))
		}
		if what != "" {
			lines = append(lines, c.Title+": "+what+".")
		}
		if c.OnSeam > 0 {
			lines = append(lines, fmt.Sprintf("%s: %s on a seam, whole on both pages.", c.Title, Count(c.OnSeam, "hole")))
		}
	}
	proved = slices.DeleteFunc(proved, func(k string) bool { return slices.Contains(open, k) })
	if len(proved) > 0 {
		lines = slices.Insert(lines, 0, fmt.Sprintf("No layout of the %s sheets takes fewer pages.", inWords(proved)))
	}
	text := ""
	for _, l := range lines {
		text += Hang(indent, l)
	}
	return text
}

// inWords lists names as people do: "a", "a and b", "a, b and c".
func inWords(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
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
