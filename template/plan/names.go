package plan

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// Repeated writes lengths one by one, neighbours that read the same once: "5 × 1/8".
func Repeated(lengths []geom.Length, read func(geom.Length) string) []string {
	var out []string
	for i := 0; i < len(lengths); {
		text, end := read(lengths[i]), i+1
		for end < len(lengths) && read(lengths[end]) == text {
			end++
		}
		if n := end - i; n > 1 {
			text = fmt.Sprintf("%d × %s", n, text)
		}
		out = append(out, text)
		i = end
	}
	return out
}

// PanelNames lists panels as people would: "L1–L4, M2".
func (p *Plan) PanelNames(panels []int) string {
	return strings.Join(finding.Ranges(p.namesOf(panels)), ", ")
}

func (p *Plan) namesOf(panels []int) []string {
	all := make([]string, len(panels))
	for i, k := range panels {
		all[i] = p.Panels[k].Name
	}
	return all
}

// extentField is the field that says how far a run reaches across, divisionField how it is divided, topField and
// bottomField how high it hangs.
func extentField(r *job.Run) string {
	if len(r.Area) > 0 {
		return r.Key + ".area"
	}
	return r.Key + ".across"
}

func divisionField(r *job.Run) string {
	if len(r.Widths) > 0 {
		return r.Key + ".widths"
	}
	return r.Key + ".panels"
}

func topField(r *job.Run) string {
	switch {
	case len(r.Area) > 0:
		return r.Key + ".area"
	case r.Band.Direct:
		return bandKey(r) + ".top"
	case r.Band.Panel > 0:
		return bandKey(r) + ".panel"
	}
	return bandKey(r) + ".gap"
}

func bottomField(r *job.Run) string {
	if r.Band.Direct {
		return bandKey(r) + ".bottom"
	}
	return bandKey(r) + ".gap"
}

// names are the names of some panels.
func names(panels []*Panel) []string {
	all := make([]string, len(panels))
	for i, panel := range panels {
		all[i] = panel.Name
	}
	return all
}
