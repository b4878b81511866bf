package template_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"rodsheet/template"
	"rodsheet/template/job"
	"rodsheet/template/pdf"
)

// The reading room's settle from its text to its file.
func BenchmarkSettleFromJobToPDF(b *testing.B) {
	file, data := job.Demo()
	for b.Loop() {
		w, err := template.Open(file, data)
		require.NoError(b, err)
		set, _, err := w.Pages(template.Print{})
		require.NoError(b, err)
		require.NoError(b, pdf.Write(io.Discard, set))
	}
}

func BenchmarkSettlePages(b *testing.B) {
	w := open(b, "settle")
	for b.Loop() {
		_, _, err := w.Pages(template.Print{AllowStops: true})
		require.NoError(b, err)
	}
}

// building is a job of a thousand panels: fifty walls of twenty, no two walls of one width.
func building() []byte {
	var s strings.Builder
	s.WriteString(`rodsheet: 1
name: A building
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20}
batting: {thickness: 10, pressed: 1.5}
cover: {thickness: 1.2}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 10}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 2.5}
clips: {follow: studs}
walls:
`)
	for i := range 50 {
		fmt.Fprintf(&s, `  - name: W%d
    width: %d
    height: 2500
    lining: {thickness: 12.5}
    depth: 120
    studs: {from: %d, every: 400, width: 45, depth: 95}
    runs:
      - {name: R%d-, across: [50, %d], height: {bottom: 500, top: 1000}, panels: 20, gap: 4}
`, i, 9000+17*i, 100+7*i, i, 8950+17*i)
	}
	return []byte(s.String())
}

func BenchmarkPlanOfAThousandPanels(b *testing.B) {
	data := building()
	for b.Loop() {
		w, err := template.Open("building.yaml", data)
		require.NoError(b, err)
		require.Len(b, w.Plan.Panels, 1000)
	}
}
