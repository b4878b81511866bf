package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// The fold sheet draws each kind of inner corner once, at actual size: the slit is as long there as the plan has it, and
// stops as short of the board's corner.
func TestInnerCornersAreDrawnAtActualSize(t *testing.T) {
	for name, text := range map[string]string{"slopes": slopes, "loft": stored(t, "loft")} {
		t.Run(name, func(t *testing.T) {
			m := makerOf(t, text)
			notches := m.notches()
			require.NotEmpty(t, notches)
			leaves := m.reliefDrawings()
			require.Len(t, leaves, len(notches))
			told := 0
			for i := range m.plan.Boards {
				b := &m.plan.Boards[i]
				reliefs := m.plan.Wrap.Reliefs(m.plan.Boards[i].Outline, m.plan.Job.Units)
				for _, r := range reliefs {
					k := -1
					for at, n := range notches {
						for corner, p := range b.Outline {
							if p == r.Corner && fmt.Sprintf("%.1f", 360-b.Outline.Angle(corner)) == fmt.Sprintf("%.1f", float64(n.tenths)/10) {
								k = at
							}
						}
					}
					require.GreaterOrEqual(t, k, 0, "no page for an inner corner of board %s", b.Name)
					assert.Contains(t, notches[k].boards, b.Name)
					words := ""
					drawn := map[geom.Length]bool{}
					for _, mark := range leaves[k].Marks {
						switch v := mark.(type) {
						case drawing.Text:
							words += " " + v.String
						case drawing.Line:
							if v.Role == drawing.Cut {
								drawn[v.From.Distance(v.To).Round(geom.Micrometre*100)] = true
							}
						}
					}
					assert.True(t, drawn[r.From.Distance(r.To).Round(geom.Micrometre*100)], "board %s: %v is not among the slits %v", b.Name, r.From.Distance(r.To), drawn)
					assert.Contains(t, strings.Join(strings.Fields(words), " "), m.read(r.From.Distance(r.To)))
					told++
				}
			}
			assert.NotZero(t, told)
		})
	}
	assert.Empty(t, makerOf(t, demo(t)).reliefDrawings(), "rectangles have no inner corners")
}
