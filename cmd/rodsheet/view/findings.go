package view

import (
	"strings"

	"rodsheet/template/job"
	"rodsheet/template/rule"
)

// What says what a path of the job file leads to, at the beginning of a sentence.
func (s *state) What(path string) string {
	if path == "" {
		return "The file"
	}
	p, err := job.ParsePath(path)
	if err != nil || s.Text == nil {
		return path
	}
	words := describe(s.Text, p)
	return strings.ToUpper(words[:1]) + words[1:]
}

// about are the keys of what a finding is about, a line each: its panels, or else where its subject stands in the job file.
func about(f rule.Finding) string {
	if panels := f.Subject.AllPanels(); len(panels) > 0 {
		return strings.Join(panels, "\n")
	}
	return f.Subject.Key
}
