package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template/drawing"
)

// A rail's fill must not hide the stud behind it, nor the other way round.
func TestAllWoodIsFilledBeforeItsEdgesAreDrawn(t *testing.T) {
	for _, s := range makerOf(t, demo(t)).walls() {
		edges, filled := 0, 0
		for _, mark := range s.Drawings[0].Marks {
			switch m := mark.(type) {
			case drawing.Line:
				if m.Pen == drawing.Hidden {
					edges++
				}
			case drawing.Path:
				if m.Fill == drawing.Pale {
					filled++
					assert.Zero(t, edges, s.Title)
				}
			}
		}
		assert.Equal(t, 2*filled, edges)
		assert.Greater(t, filled, 2)
	}
}

func TestStudsAndZonesAreNamedWithWhatToMind(t *testing.T) {
	text := metric(`cables: straight
walls:
  - name: A
    width: 2000
    height: 2400
    lining: {thickness: 12.5}
    studs: {from: 300, every: 400, width: 45}
    fittings: [{name: socket, kind: electrical, at: [600, 300], size: 86 x 86}]
    keep-outs: [{name: duct, at: [1500, 0], size: 100 x 2400}]
    runs: [{name: N, across: [100, 1900], height: {bottom: 600, top: 1000}, panels: 3}]
`)
	said := map[string]string{}
	for _, c := range makerOf(t, text).walls()[0].Drawings[0].Callouts {
		if c.Long {
			said[c.Lines[0]] = c.Lines[1]
		}
	}
	assert.Equal(t, "probe before you drill", said["stud 700 mm"])
	assert.Equal(t, "no holes here", said["cable zone above socket"])
	assert.Equal(t, "no holes here", said["duct"])
	assert.NotContains(t, said, "cable zone below socket", "it is not behind the run")
}

// Panels that follow a sloping deck have their edges at heights of their own: a page names whose, and those alone.
func TestEdgesAtHeightsOfTheirOwnAreNamedByTheirPanels(t *testing.T) {
	named := func(deck string) map[string]drawing.Station {
		out := map[string]drawing.Station{}
		for _, s := range makerOf(t, room("{seat: [400, 412], cushion: 80, sill: 860, gap: 20, deck: "+deck+"}", "")).walls()[0].Drawings[0].Stations {
			out[s.Name] = s
		}
		return out
	}
	level := named("level")
	assert.Contains(t, level, "panel top")
	assert.Contains(t, level, "panel foot")
	follow := named("follow")
	assert.NotContains(t, follow, "panel top")
	require.Contains(t, follow, "R1 top")
	require.Contains(t, follow, "R6 foot")
	assert.Less(t, follow["R1 top"].Along.To, follow["R6 foot"].Along.From, "of use only where its panel is")
}

// Panels that touch share an edge: the page names both.
func TestTheEdgeOfPanelsWithoutAGapNamesBoth(t *testing.T) {
	var names []string
	for _, s := range makerOf(t, stored(t, "asymmetric-studs")).walls()[0].Drawings[0].Stations {
		names = append(names, s.Name)
	}
	assert.Contains(t, names, "H1 | H2")
	assert.NotContains(t, names, "H1 right")
}
