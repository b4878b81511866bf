package clips

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
	"rodsheet/template/plan/layout"
)

func TestOnMasonryNobodyAsksForStuds(t *testing.T) {
	w := sample.Panelled(nil, 24*inch, 24*inch)
	w.Studs, w.Masonry = job.Members{}, true
	p := placed(t, sample.Clipped(w))
	assert.Equal(t, 8, clipsOn(p, layout.OnMasonry))
	assert.Empty(t, p.Findings)

	w.Rails = job.Members{At: []geom.Length{24 * inch, 40 * inch}, Width: 4 * inch, Given: true} // battens, screwed to the masonry
	assert.Equal(t, 8, clipsOn(placed(t, sample.Clipped(w)), layout.OnRail))
}

// A keep-out's edge is kept by the hole that is drilled, which is wider than the marker.
func TestAPlugsHoleStaysOutOfKeepOuts(t *testing.T) {
	w := sample.Panelled(nil, 24*inch)
	w.Studs, w.Masonry = job.Members{}, true
	w.KeepOuts = []job.KeepOut{{Name: "pipe", Rect: geom.R(2*inch, 0, 11*inch/4, 90*inch)}} // up to the middle of a clip at its clear corner
	j := sample.Clipped(w)
	j.Fixing.Plug.Hole = inch / 2
	p := placed(t, j)
	for _, c := range p.Panels[0].Clips {
		for _, h := range c.WallHoles {
			assert.GreaterOrEqual(t, h.X, 3*inch)
		}
	}
}
