package rule

import (
	"slices"
	"strings"
	"unicode/utf8"

	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
)

// AcceptUnknown: an acceptance meets no finding of the job.
type AcceptUnknown struct {
	Finding string
	At      string
	Known   bool   // there is a rule of that ID
	Found   string // what the job's findings of that ID are about, as At takes it
}

// ID implements [finding.Params].
func (AcceptUnknown) ID() string { return "accept-unknown" }

func acceptUnknown(s *speech, f AcceptUnknown) (text, remedy string) {
	switch {
	case !f.Known:
		return s.sprintf("No finding is called %q, so nothing is accepted.", f.Finding),
			"See rodsheet check for the findings of this job, rodsheet check --explain all for every one there is."
	case f.Found != "":
		return s.sprintf("%s is not found at %q but at %s.", f.Finding, f.At, f.Found),
			s.sprintf("Write at: %q, or leave at out to accept it everywhere.", f.Found)
	}
	return s.sprintf("This job has no finding %s to accept.", f.Finding),
		"Take the acceptance out, so that it can't silence a later one unread."
}

// unmet lists acceptances that no finding asks for, so that a misspelt or an outlived one is noticed.
func unmet(p *plan.Plan) finding.List {
	own := AcceptUnknown{}.ID()
	if len(p.Job.Accept) == 0 {
		return nil
	}
	found := check(p, slices.DeleteFunc(all(), func(r Rule) bool { return r.ID == own }))
	var out finding.List
	for _, a := range p.Job.Accept {
		if a.Finding == own || slices.ContainsFunc(found, func(f Finding) bool { return covers(a, f) }) {
			continue
		}
		f := AcceptUnknown{Finding: a.Finding, At: a.At}
		_, f.Known = Of(a.Finding)
		var about finding.Subject
		for _, other := range found {
			if other.ID == a.Finding && other.At != "" {
				about.Kind, about.Names = other.Subject.Kind, union(about.Names, other.Subject.Names)
			}
		}
		field := a.Key + ".finding"
		if f.Found = about.List(); f.Found != "" {
			field = a.Key + ".at"
		}
		out.Add(finding.Subject{Kind: finding.Acceptance, Key: a.Key}, field, f)
	}
	return out
}

// covers reports whether an acceptance silences a finding: one without a place does so everywhere, one with places
// wherever a finding is about no other.
func covers(a job.Acceptance, f Finding) bool {
	if a.Finding != f.ID {
		return false
	}
	if a.At == "" || a.At == f.At {
		return true
	}
	list := placesIn(a.At)
	for _, name := range f.Subject.Names {
		if !slices.ContainsFunc(list, func(p place) bool { return p.holds(f.Subject.Kind, name) }) {
			return false
		}
	}
	return len(f.Subject.Names) > 0
}

// A place is what a person wrote into `at`, or one of several things there.
type place struct {
	kind finding.Kind
	name string // or a range of names, "N1–N4"
}

// placesIn reads a list as in "N1–N4, N6", "N1 and N2", "boards A, C" or "run N, run M".
func placesIn(at string) []place {
	var out []place
	kind := finding.Panel
	for _, k := range finding.Kinds() {
		if rest, several := strings.CutPrefix(at, string(k)+"s "); several {
			kind, at = k, rest
			break
		}
	}
	for _, name := range strings.Split(strings.ReplaceAll(at, " and ", ","), ",") {
		one := place{kind, strings.TrimSpace(name)}
		for _, k := range finding.Kinds() {
			if rest, ok := strings.CutPrefix(one.name, string(k)+" "); ok {
				one = place{k, rest}
				break
			}
		}
		out = append(out, one)
	}
	return out
}

// holds reports whether the thing of that kind and name is meant.
func (p place) holds(kind finding.Kind, name string) bool {
	if p.kind != kind {
		return false
	}
	if p.name == name {
		return true
	}
	stem, n, ok := finding.SplitName(name)
	for i, r := range p.name { // a dash may be a part of the names
		if ok && (r == '–' || r == '-') {
			from, first, starts := finding.SplitName(p.name[:i])
			to, last, ends := finding.SplitName(p.name[i+utf8.RuneLen(r):])
			if starts && ends && from == stem && to == stem && first <= n && n <= last {
				return true
			}
		}
	}
	return false
}
