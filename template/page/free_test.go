package page

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// wall is a free sheet with 4 mm holes, whose pages may be turned.
func wall(holes ...geom.Point) drawing.Sheet {
	d := drawing.Drawing{Bounds: geom.Polygon(holes).Bounds().Inset(-50 * mm)}
	for _, h := range holes {
		d.Holes = append(d.Holes, drawing.Hole{At: h, Radius: 2 * mm})
		d.Stations = append(d.Stations, drawing.Station{At: h.Y, Reads: h.Y}, drawing.Station{Upright: true, At: h.X, Reads: h.X})
	}
	return drawing.Sheet{Name: "wall W", Layout: drawing.Free, Landscape: true, Drawings: []drawing.Drawing{d}}
}

// windows are what pages show of the drawing: on the first layer, in true lengths.
func windows(pages []spec) (out []geom.Rect) {
	for _, p := range pages {
		l := p.layers[0]
		inverse, _ := l.ToPage.Inverse()
		out = append(out, l.Clip.Polygon().Map(inverse).Bounds())
	}
	return out
}

func TestFreePagesAreTurnedOneByOne(t *testing.T) {
	// A pair side by side that only a page on its side shows, and a pair over each other that only an upright one does.
	s := wall(geom.Pt(0, 0), geom.Pt(210*mm, 0), geom.Pt(1000*mm, 0), geom.Pt(1000*mm, 210*mm))
	pages, count, err := a4().free(&s)
	require.NoError(t, err)
	require.Len(t, pages, 2)
	assert.True(t, count.Proved)
	papers := []geom.Size{pages[0].frame.paper, pages[1].frame.paper}
	assert.Equal(t, []geom.Size{{W: 210 * mm, H: 297 * mm}, {W: 297 * mm, H: 210 * mm}}, papers, "read from the top")
	for i, w := range windows(pages) {
		assert.Equal(t, papers[i].W > papers[i].H, w.W() > w.H(), "the window lies as its page does")
	}
	s.Landscape = false
	pages, _, err = a4().free(&s)
	require.NoError(t, err)
	assert.Len(t, pages, 3)
}

func TestFreePagesAreAsFewAsBruteForceFinds(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	o := a4()
	mixed := 0
	for range 300 {
		var holes []geom.Point
		for range 1 + rng.IntN(9) {
			holes = append(holes, geom.Pt(geom.Length(rng.IntN(900))*mm, geom.Length(rng.IntN(600))*mm))
		}
		s := wall(holes...)
		pages, count, err := o.free(&s)
		require.NoError(t, err)
		room := o.stationRoom(&s.Drawings[0])
		var sizes []geom.Size
		for _, turned := range []bool{false, true} {
			field := o.frame(o.Paper.Size, turned).field.Size()
			sizes = append(sizes, geom.Size{W: field.W - room.W, H: field.H - room.H})
		}
		require.Equal(t, fewestWindows(holes, sizes), len(pages), "%v", holes)
		require.True(t, count.Proved)
		seen := windows(pages)
		for _, h := range holes {
			require.True(t, slices.ContainsFunc(seen, func(w geom.Rect) bool { return w.Inset(7*mm - 2).ContainsPoint(h) }), "%v is whole on no page", h)
		}
		if slices.ContainsFunc(pages, func(p spec) bool { return p.frame.paper != pages[0].frame.paper }) {
			mixed++
			require.Greater(t, min(fewestWindows(holes, sizes[:1]), fewestWindows(holes, sizes[1:])), len(pages), "pages lie both ways for nothing")
		}
	}
	t.Log(mixed)
	assert.Greater(t, mixed, 10)
}

// fewestWindows is the least number over all ways to share out the holes, 7 mm from a window's edge.
func fewestWindows(holes []geom.Point, sizes []geom.Size) int {
	best := len(holes)
	var groups []geom.Rect
	var share func(k int)
	share = func(k int) {
		if len(groups) >= best {
			return
		}
		if k == len(holes) {
			best = len(groups)
			return
		}
		at := geom.Rect{Min: holes[k], Max: holes[k]}.Inset(-7 * mm)
		for i, g := range groups {
			u := g.Union(at)
			if slices.ContainsFunc(sizes, func(s geom.Size) bool { return u.W() <= s.W && u.H() <= s.H }) {
				groups[i] = u
				share(k + 1)
				groups[i] = g
			}
		}
		groups = append(groups, at)
		share(k + 1)
		groups = groups[:len(groups)-1]
	}
	share(0)
	return best
}
