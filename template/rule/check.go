package rule

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/template/plan"
)

// A Rule is one fact of the trade. What it finds is either a trouble that the plan ran into under the rule's ID, or
// what Find answers.
type Rule struct {
	ID     string
	Level  Level
	Why    string // what it leads to when it is not minded
	Source string // where it comes from; "common practice" where nothing is published
	// Find looks for what no step of the plan runs into; nil when troubles are all there is.
	Find func(*plan.Plan) []plan.Trouble
}

// Rules lists every rule, in the order of their IDs.
func Rules() []Rule {
	list := slices.Clone(rules)
	slices.SortFunc(list, func(a, b Rule) int { return cmp.Compare(a.ID, b.ID) })
	return list
}

// Of is the rule with the ID.
func Of(id string) (Rule, bool) {
	i := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == id })
	if i < 0 {
		return Rule{}, false
	}
	return rules[i], true
}

// Check answers all findings about a plan, worst first, in the order of the rules and, within a rule, of the plan.
func Check(p *plan.Plan) []Finding {
	var out []Finding
	for _, r := range rules {
		for _, t := range p.Troubles {
			if t.ID == r.ID {
				out = append(out, r.finding(p, t))
			}
		}
		if r.Find == nil {
			continue
		}
		for _, t := range r.Find(p) {
			out = append(out, r.finding(p, t))
		}
	}
	for _, t := range p.Troubles { // a trouble without a rule must not get lost
		if _, ok := Of(t.ID); !ok {
			out = append(out, Rule{ID: t.ID, Level: Caution, Source: "worked out from the job"}.finding(p, t))
		}
	}
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(a.Level, b.Level) })
	return out
}

func (r Rule) finding(p *plan.Plan, t plan.Trouble) Finding {
	f := Finding{ID: r.ID, Level: r.Level, At: t.At, Text: t.Text, Why: r.Why, Remedy: t.Remedy, Source: r.Source}
	f.Place = p.Job.Source.Of(t.At.Key)
	for _, a := range p.Job.Accept {
		if a.Finding == f.ID && (a.At == "" || a.At == f.At.Name) {
			f.Accepted, f.Because = true, a.Because
		}
	}
	return f
}

// unmet lists acceptances that no finding asks for, so that a misspelt one is noticed.
func unmet(p *plan.Plan) []plan.Trouble {
	var out []plan.Trouble
	for _, a := range p.Job.Accept {
		if _, ok := Of(a.Finding); ok {
			continue
		}
		out = append(out, plan.Trouble{
			At:     plan.Spot{Name: "accept", Key: a.Key},
			Text:   fmt.Sprintf("there is no finding %q to accept.", a.Finding),
			Remedy: "rodsheet check names the findings of this job; rodsheet check --explain all lists every one.",
		})
	}
	return out
}
