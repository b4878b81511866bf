package view

import (
	"strings"

	"rodsheet/template/rule"
)

// about are the keys of what a finding is about, a line each: its panels, or else where its subject stands in the job file.
func about(f rule.Finding) string {
	if panels := f.Subject.AllPanels(); len(panels) > 0 {
		return strings.Join(panels, "\n")
	}
	return f.Subject.Key
}
