package rule

import (
	"fmt"
	"slices"

	"rodsheet/template/job"
	"rodsheet/template/plan"
)

// covers tells whether an acceptance silences a finding: one without a place does so everywhere, one with several
// places wherever a finding is about no other.
func covers(a job.Acceptance, f Finding) bool {
	if a.Finding != f.ID {
		return false
	}
	if a.At == "" || a.At == f.At.Name {
		return true
	}
	given, asked := places(a.At), places(f.At.Name)
	for _, name := range asked {
		if !slices.Contains(given, name) {
			return false
		}
	}
	return len(asked) > 0
}

// unmet lists acceptances that no finding asks for, so that a misspelt or an outlived one is noticed.
func unmet(p *plan.Plan) []plan.Trouble {
	const own = "accept-unknown"
	if len(p.Job.Accept) == 0 {
		return nil
	}
	found := judge(p, slices.DeleteFunc(all(), func(r Rule) bool { return r.ID == own }))
	var out []plan.Trouble
	for _, a := range p.Job.Accept {
		if a.Finding == own || slices.ContainsFunc(found, func(f Finding) bool { return covers(a, f) }) {
			continue
		}
		var at []string
		for _, f := range found {
			if f.ID == a.Finding && f.At.Name != "" {
				at = append(at, f.At.Name)
			}
		}
		t := plan.Trouble{ID: own, At: plan.Spot{Name: "accept", Key: a.Key}}
		_, known := Of(a.Finding)
		switch {
		case !known:
			t.Text = fmt.Sprintf("No finding is called %q, so nothing is accepted.", a.Finding)
			t.Remedy = "See rodsheet check for the findings of this job, rodsheet check --explain all for every one there is."
		case len(at) > 0:
			t.Text = fmt.Sprintf("%s is not found at %q but at %s.", a.Finding, a.At, joined(at))
			t.Remedy = fmt.Sprintf("Write at: %q, or leave at out to accept it everywhere.", joined(at))
		default:
			t.Text = fmt.Sprintf("This job has no finding %s to accept.", a.Finding)
			t.Remedy = "Take the acceptance out, so that it can't silence a later one unread."
		}
		out = append(out, t)
	}
	return out
}
