package plan

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"rodsheet/geom"
)

// numberedName is letters and a number: "N3".
var numberedName = regexp.MustCompile(`^(.*?)(\d{1,6})$`)

// SplitName takes the number off the end of a name; ok is false when there is none.
func SplitName(name string) (stem string, n int, ok bool) {
	m := numberedName.FindStringSubmatch(name)
	if m == nil {
		return name, 0, false
	}
	n, err := strconv.Atoi(m[2])
	return m[1], n, err == nil
}

// Ranges draws three and more names with following numbers together: N1, N2, N3, N5 become N1–N3, N5.
func Ranges(names []string) []string {
	var out []string
	for i := 0; i < len(names); {
		end := i + 1
		if stem, n, ok := SplitName(names[i]); ok {
			for end < len(names) && names[end] == fmt.Sprint(stem, n+end-i) {
				end++
			}
		}
		if end-i < 3 {
			end = i + 1
			out = append(out, names[i])
		} else {
			out = append(out, names[i]+"–"+names[end-1])
		}
		i = end
	}
	return out
}

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
	all := make([]string, len(panels))
	for i, k := range panels {
		all[i] = p.Panels[k].Name
	}
	return strings.Join(Ranges(all), ", ")
}

// names are the names of some panels: "N3", "N3 and N4", "N1, N2 and N5".
func names(panels []*Panel) string {
	all := make([]string, len(panels))
	for i, panel := range panels {
		all[i] = panel.Name
	}
	return Listed(all)
}

// Listed is names as a sentence takes them: "N1, N2 and N5".
func Listed(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	last := len(all) - 1
	return strings.Join(all[:last], ", ") + " and " + all[last]
}
