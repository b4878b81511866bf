package rule

import (
	"cmp"
	"slices"

	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
)

// A Rule is one fact of the trade. What it finds is either what a step of the plan reports under the rule's ID, or what
// Find returns.
type Rule struct {
	ID     string
	Level  Level
	What   string // the rule itself: how things are when nothing is found
	Why    string // what it leads to when it is not minded
	Source string // where it comes from; "common practice" where nothing is published
	// Find looks for what no step of the plan runs into; nil when their findings are all there is.
	Find func(*plan.Plan) finding.List

	say words // of its findings
	// source is that of one finding, where not all of Source has to do with each; nil for Source.
	source func(finding.Params) string
}

// Params are what the rule's findings carry, all of it zero.
func (r Rule) Params() finding.Params { return r.say.zero }

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
func Check(p *plan.Plan) []Finding { return check(p, all()) }

// check returns what the rules find. A finding under an ID without a rule must not get lost: it comes as a caution.
func check(p *plan.Plan, rules []Rule) []Finding {
	reported := map[string]finding.List{}
	for _, f := range p.Findings {
		reported[f.ID()] = append(reported[f.ID()], f)
	}
	var out []Finding
	for _, r := range rules {
		found := reported[r.ID]
		delete(reported, r.ID)
		if r.Find != nil {
			found = append(found, r.Find(p)...)
		}
		for _, f := range found {
			out = append(out, r.finding(p, f))
		}
	}
	for _, f := range p.Findings {
		if _, stray := reported[f.ID()]; stray {
			out = append(out, Rule{ID: f.ID(), Level: Caution, Source: geometry}.finding(p, f))
		}
	}
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(a.Level, b.Level) })
	return out
}

// finding gives words, a level and a place to what was found.
func (r Rule) finding(p *plan.Plan, found finding.Finding) Finding {
	f := Finding{
		ID: r.ID, Level: r.Level, At: found.Subject.String(), Why: r.Why, Source: r.Source,
		Subject: found.Subject, Field: found.Field, Params: found.Params, Place: p.Job.Source.Of(found.Subject.Key), units: p.Job.Units,
	}
	if r.source != nil {
		f.Source = r.source(f.Params)
	}
	s := speech{units: f.units, subject: f.Subject}
	f.Text, f.Remedy = r.say.of(&s, f.Params)
	f.named = s.named
	for _, a := range p.Job.Accept {
		if covers(a, f) {
			f.Accepted, f.Because = true, a.Because
			break
		}
	}
	return f
}
