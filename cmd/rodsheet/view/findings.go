package view

import (
	"strings"

	"rodsheet/template/rule"
)

// about are the keys of what a finding is about, a line each: its panels, and where it stands in the job file.
func about(f rule.Finding) string {
	keys := f.Subject.AllPanels()
	if f.Subject.Key != "" {
		keys = append(keys[:len(keys):len(keys)], f.Subject.Key)
	}
	return strings.Join(keys, "\n")
}
