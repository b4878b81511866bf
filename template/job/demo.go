package job

import (
	_ "embed" // the demo and the starter travel inside the program
	"strings"

	"rodsheet/geom"
)

//go:embed demo/settle.yaml
var settle []byte

//go:embed starter.yaml
var starter string

// Demo is a job that shows the whole way without a file of one's own. The slice is the caller's.
func Demo() (name string, data []byte) {
	return "settle.yaml", append([]byte(nil), settle...)
}

// commentColumn is where the starter's comments begin, where the field before leaves room.
const commentColumn = 34

// Starter is a job to begin with: a wall of our invention that can be planned and printed as it is, with every field
// of the format explained, in the person's units.
func Starter(units geom.System) []byte {
	var b strings.Builder
	for line := range strings.Lines(starter) {
		b.WriteString(starterLine(strings.TrimSuffix(line, "\n"), units) + "\n")
	}
	return []byte(b.String())
}

// starterLine chooses from every «in|mm» of the line the first for an inch job and the second for a metric one, and
// brings the comment after a field to its column.
func starterLine(line string, units geom.System) string {
	for {
		before, after, found := strings.Cut(line, "«")
		if !found {
			break
		}
		both, tail, _ := strings.Cut(after, "»")
		chosen, metric, _ := strings.Cut(both, "|")
		if units == geom.Metric {
			chosen = metric
		}
		line = before + chosen + tail
	}
	text := strings.TrimLeft(line, " #")
	field, comment, found := strings.Cut(text, "  # ")
	if !found || text == "" {
		return line
	}
	field = line[:len(line)-len(text)] + strings.TrimRight(field, " ")
	return field + strings.Repeat(" ", max(2, commentColumn-len(field))) + "# " + strings.TrimLeft(comment, " ")
}
