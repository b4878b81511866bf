// Package report writes a job, its plan and its findings for other programs to read: as JSON, and lists as CSV too.
//
// The keys come in a fixed order, and [Schema] describes them; none is renamed or taken away. Lengths are numbers in
// millimetres with up to six decimals, written straight from whole nanometres, so that they are exact; their keys end
// in _mm. Weights are in kilograms, their keys end in _kg.
package report

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/plan"
)

// length is written in millimetres, exactly.
type length geom.Length

func (l length) MarshalJSON() ([]byte, error) {
	sign, n := "", uint64(l)
	if l < 0 {
		sign, n = "-", -n // right for the least int64 too
	}
	const unit = uint64(geom.Millimetre)
	text := sign + strconv.FormatUint(n/unit, 10)
	if rest := n % unit; rest > 0 {
		frac := strconv.FormatUint(unit+rest, 10)[1:]
		text += "." + strings.TrimRight(frac, "0")
	}
	return []byte(text), nil
}

// number is written with at most four decimals.
type number float64

func (n number) MarshalJSON() ([]byte, error) {
	return strconv.AppendFloat(nil, math.Round(float64(n)*1e4)/1e4, 'f', -1, 64), nil
}

// pair is a point or a size: [x, y] or [w, h].
type pair [2]length

func pointOf(p geom.Point) pair { return pair{length(p.X), length(p.Y)} }

func sizeOf(s geom.Size) pair { return pair{length(s.W), length(s.H)} }

func pointsOf(ps []geom.Point) []pair {
	out := make([]pair, len(ps))
	for i, p := range ps {
		out[i] = pointOf(p)
	}
	return out
}

// sized is nil, written as null, for the size of what is not there.
func sized(there bool, s geom.Size) *pair {
	if !there {
		return nil
	}
	return new(sizeOf(s))
}

// namesOf are the names of panels; never nil, so that none are written as [].
func namesOf(p *plan.Plan, panels []int) []string {
	names := make([]string, len(panels))
	for i, panel := range panels {
		names[i] = p.Panels[panel].Name
	}
	return names
}

func lengthsOf(ls []geom.Length) []length {
	out := make([]length, len(ls))
	for i, l := range ls {
		out[i] = length(l)
	}
	return out
}

// optional is nil, written as null, for a length that is not there.
func optional(l geom.Length) *length {
	if l == 0 {
		return nil
	}
	return new(length(l))
}

// brokenPair is a pair of numbers as the indenter breaks it. Inside a string of JSON no line ends.
var brokenPair = regexp.MustCompile(`\[\n\s*(-?[0-9.]+),\n\s*(-?[0-9.]+)\n\s*\]`)

// write is JSON that people can read too: indented, a pair on one line.
func write(v any) (string, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return "", err
	}
	return brokenPair.ReplaceAllString(b.String(), "[$1, $2]"), nil
}
