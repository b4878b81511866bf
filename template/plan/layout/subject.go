package layout

import (
	"strings"

	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// PanelNames lists panels as people would: "L1–L4, M2".
func (l *Layout) PanelNames(panels []int) string {
	return strings.Join(finding.Ranges(l.NamesOf(panels)), ", ")
}

// NamesOf are the names of some panels.
func (l *Layout) NamesOf(panels []int) []string {
	all := make([]string, len(panels))
	for i, k := range panels {
		all[i] = l.Panels[k].Name
	}
	return all
}

// ExtentField is the field that says how far a run reaches across.
func ExtentField(r *job.Run) string {
	if len(r.Area) > 0 {
		return r.Key + ".area"
	}
	return r.Key + ".across"
}

// DivisionField is the field that says how a run is divided.
func DivisionField(r *job.Run) string {
	if len(r.Widths) > 0 {
		return r.Key + ".widths"
	}
	return r.Key + ".panels"
}

// TopField is the field that says how high the top of a run is.
func TopField(r *job.Run) string {
	switch {
	case len(r.Area) > 0:
		return r.Key + ".area"
	case r.Band.Direct:
		return r.Band.Key + ".top"
	case r.Band.Panel > 0:
		return r.Band.Key + ".panel"
	}
	return r.Band.Key + ".gap"
}

// BottomField is the field that says how high the bottom of a run is.
func BottomField(r *job.Run) string {
	switch {
	case len(r.Area) > 0:
		return r.Key + ".area"
	case r.Band.Direct:
		return r.Band.Key + ".bottom"
	}
	return r.Band.Key + ".gap"
}

// Names are the names of panels.
func Names(panels []*Panel) []string {
	all := make([]string, len(panels))
	for i, panel := range panels {
		all[i] = panel.Name
	}
	return all
}

// PanelSubject is one panel, in the run that the job file gives it in.
func (l *Layout) PanelSubject(panel int) finding.Subject {
	return finding.OfPanels(l.Runs[l.Panels[panel].Run].Job.Key, l.Panels[panel].Name)
}

// Subject is the run, or some panels in it.
func (r *Run) Subject(panels ...*Panel) finding.Subject {
	return finding.OfRun(r.Job.Key, r.Name, Names(panels)...)
}

// Subject is the wall, with what it gives in a field of its own.
func (w *Wall) Subject(field string) finding.Subject {
	return finding.OfOne(finding.Wall, w.Job.Key+field, w.Job.Name)
}
