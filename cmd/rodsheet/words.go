package main

import (
	"strings"
	"unicode"

	"rodsheet/geom"
)

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
