package rule

import (
	"cmp"
	"slices"

	"rodsheet/template/plan"
)

// A Rule is one fact of the trade. What it finds is either a trouble that the plan ran into under the rule's ID, or
// what Find answers.
type Rule struct {
	ID     string
	Level  Level
	What   string // the rule itself: how things are when nothing is found
	Why    string // what it leads to when it is not minded
	Source string // where it comes from; "common practice" where nothing is published
	// Find looks for what no step of the plan runs into; nil when troubles are all there is.
	Find func(*plan.Plan) []plan.Trouble
}

// Rules lists every rule, in the order of their IDs.
func Rules() []Rule {
	list := all()
	slices.SortFunc(list, func(a, b Rule) int { return cmp.Compare(a.ID, b.ID) })
	return list
}

// Of is the rule with the ID.
func Of(id string) (Rule, bool) {
	rules := all()
	i := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == id })
	if i < 0 {
		return Rule{}, false
	}
	return rules[i], true
}

// Check answers all findings about a plan, worst first, in the order of the rules and, within a rule, of the plan. A
// finding about several panels by themselves comes once for each, so that each can be accepted; see [Grouped].
func Check(p *plan.Plan) []Finding { return judge(p, all()) }

// judge answers what the rules find. A trouble under an ID without a rule must not get lost: it comes as a caution.
func judge(p *plan.Plan, rules []Rule) []Finding {
	troubles := map[string][]plan.Trouble{}
	for _, t := range p.Troubles {
		troubles[t.ID] = append(troubles[t.ID], t)
	}
	var out []Finding
	for _, r := range rules {
		found := troubles[r.ID]
		delete(troubles, r.ID)
		if r.Find != nil {
			found = append(found, r.Find(p)...)
		}
		for _, t := range found {
			out = append(out, r.finding(p, t))
		}
	}
	for _, t := range p.Troubles {
		if _, stray := troubles[t.ID]; stray {
			out = append(out, Rule{ID: t.ID, Level: Caution, Source: geometry}.finding(p, t))
		}
	}
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(a.Level, b.Level) })
	return out
}

func (r Rule) finding(p *plan.Plan, t plan.Trouble) Finding {
	f := Finding{ID: r.ID, Level: r.Level, At: t.At, Text: t.Text, Why: r.Why, Remedy: t.Remedy, Source: r.Source}
	f.Place = p.Job.Source.Of(t.At.Key)
	for _, a := range p.Job.Accept {
		if covers(a, f) {
			f.Accepted, f.Because = true, a.Because
			break
		}
	}
	return f
}
