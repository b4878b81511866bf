package rule

import (
	"slices"
	"strings"

	"rodsheet/template/plan/finding"
)

// Grouped tells each thing once: findings of one rule that read the same but for whom they are about become one whose
// subject holds all of them, as in "N1–N4, N6". It stands where the first of them stood; accepted and open ones stay
// apart, as do different kinds of subject.
func Grouped(list []Finding) []Finding {
	type kind struct {
		id, kind, text, remedy string
		accepted               bool
		because                string
	}
	rules := map[string]Rule{}
	for _, r := range all() {
		rules[r.ID] = r
	}
	var out []Finding
	at := map[kind]int{}
	more := map[int]bool{} // of out: subjects came to the first one's
	for _, f := range list {
		k := kind{f.ID, string(f.Subject.Kind), f.Text, f.Remedy, f.Accepted, f.Because}
		if f.Params != nil {
			nobody := f.Subject
			nobody.Names = nil
			k.text, k.remedy = rules[f.ID].say.of(&speech{units: f.units, subject: nobody}, f.Params)
		}
		i, seen := at[k]
		if !seen {
			at[k] = len(out)
			out = append(out, f)
			continue
		}
		subject := &out[i].Subject
		was := len(subject.Names)
		subject.Names = union(subject.Names, f.Subject.Names)
		subject.Panels = union(subject.Panels, f.Subject.Panels)
		more[i] = more[i] || len(subject.Names) > was
	}
	for i := range more {
		out[i].retell(rules[out[i].ID])
	}
	return out
}

// retell puts a finding into words again that has come to be about several subjects.
func (f *Finding) retell(r Rule) {
	f.At = f.Subject.List()
	if f.Params != nil {
		s := speech{units: f.units, subject: f.Subject, many: true}
		f.Text, f.Remedy = r.say.of(&s, f.Params)
		f.named = s.named
	}
}

// union is a with what of b it doesn't hold, in a slice of its own.
func union(a, b []string) []string {
	out := slices.Clip(a)
	for _, name := range b {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// Words is the finding's text, after what it is about where the text itself doesn't say so.
func (f Finding) Words() string {
	if f.At == "" || f.named || f.Subject.Kind == finding.Acceptance {
		return f.Text
	}
	text := f.Text
	for _, word := range []string{"The ", "A ", "An ", "No ", "Nobody ", "Each ", "Two ", "All "} {
		if rest, ok := strings.CutPrefix(text, word); ok { // a name at the beginning keeps its capital
			text = strings.ToLower(word) + rest
			break
		}
	}
	return f.At + ": " + text
}
