package access

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

// Boxes must stay reachable: NEC 2017, 314.29.
func TestAPanelOverABoxOrInAWrongPlaceIsTold(t *testing.T) {
	cases := []struct {
		name string
		set  func(w *job.Wall)
		want []string
	}{
		{"clear of everything", func(*job.Wall) {}, nil},
		{"box", func(w *job.Wall) { w.Fittings = []job.Fitting{sample.Socket(400*mm, 700*mm)} }, []string{"over-box"}},
		{"box beside, touching", func(w *job.Wall) { w.Fittings = []job.Fitting{sample.Socket(1200*mm, 700*mm)} }, nil},
		{"vent", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Vent, Rect: geom.R(100*mm, 700*mm, 200*mm, 800*mm)}}
		}, []string{"over-vent"}},
		{"valve", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Valve, Rect: geom.R(100*mm, 700*mm, 200*mm, 800*mm)}}
		}, []string{"over-valve"}},
		{"heater below", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Heater, Rect: geom.R(100*mm, 0, 800*mm, 250*mm)}}
		}, []string{"near-heater"}},
		{"heater far below", func(w *job.Wall) {
			w.Fittings = []job.Fitting{{Kind: job.Heater, Rect: geom.R(100*mm, 0, 800*mm, 150*mm)}}
		}, nil},
		{"window", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "window", Kind: job.Window, Rect: geom.R(900*mm, 1000*mm, 1500*mm, 1900*mm)}}
		}, []string{"over-opening"}},
		{"door leaf", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "door", Kind: job.Door, Rect: geom.R(1900*mm, 0, 2400*mm, 2000*mm), Swing: 800 * mm}}
		}, []string{"door-swing"}},
		{"short door leaf", func(w *job.Wall) {
			w.Openings = []job.Opening{{Name: "door", Kind: job.Door, Rect: geom.R(1900*mm, 0, 2400*mm, 2000*mm), Swing: 700 * mm}}
		}, nil},
		{"fittings over each other", func(w *job.Wall) {
			w.Fittings = []job.Fitting{sample.Socket(1500*mm, 200*mm), sample.Socket(1550*mm, 200*mm)}
		}, []string{"fittings-overlap"}},
	}
	for _, c := range cases {
		w := sample.WallOf("A", 2500*mm, 2000*mm, sample.Row("A", 0, 1200*mm, 500*mm, 1100*mm, 2, 5*mm))
		c.set(&w)
		p := placed(t, sample.Clipped(w))
		assert.Equal(t, c.want, p.IDs(), c.name)
	}
}
