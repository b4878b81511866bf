package main

import (
	"strings"
	"unicode"

	"rodsheet/geom"
	"rodsheet/template/plan"
)

// joinNames lists names as people do: "N1, N2 and N3".
func joinNames(names []string) string {
	switch n := len(names); {
	case n == 0:
		return ""
	case n == 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// panelNames names panels, neighbours of one run together: "L1–L4, M2".
func panelNames(p *plan.Plan, panels []int) string {
	var parts []string
	for i := 0; i < len(panels); {
		k := i
		for k+1 < len(panels) && panels[k+1] == panels[k]+1 && p.Panels[panels[k+1]].Run == p.Panels[panels[i]].Run {
			k++
		}
		first, last := p.Panels[panels[i]].Name, p.Panels[panels[k]].Name
		switch k - i {
		case 0:
			parts = append(parts, first)
		case 1:
			parts = append(parts, first, last)
		default:
			parts = append(parts, first+"–"+last)
		}
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// A reader writes lengths bare, as one of its system reads them.
type reader struct{ units geom.System }

func (r reader) of(l geom.Length) string { return l.Bare(r.units) }

func (r reader) unitName() string {
	if r.units == geom.Imperial {
		return "inches"
	}
	return "mm"
}

func (r reader) size(s geom.Size) string { return r.of(s.W) + " × " + r.of(s.H) }

func (r reader) point(p geom.Point) string {
	return strings.ReplaceAll("("+r.of(p.X)+", "+r.of(p.Y)+")", " ", noBreak)
}

func (r reader) points(ps []geom.Point) string {
	parts := make([]string, len(ps))
	for i, p := range ps {
		parts[i] = r.point(p)
	}
	return strings.Join(parts, " ")
}

// printable takes out what could move a terminal's cursor.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case !unicode.IsPrint(r):
			return '·'
		}
		return r
	}, s)
}
