package placement

import (
	"slices"

	"rodsheet/geom"
)

// HasRoom reports whether every corner of a board has a place for a clip.
func HasRoom(outline geom.Polygon, behind Obstacles, preferences Preferences) bool {
	p := newPlacer(outline, behind, preferences)
	corners := p.corners()
	for _, c := range corners {
		if c == nil {
			continue
		}
		xs, ys := p.steps(c)
		if p.outline.IsRectangle() {
			xs, ys = p.edges(xs, false), p.edges(ys, true)
		}
		if !slices.ContainsFunc(ys, func(v geom.Length) bool {
			return slices.ContainsFunc(xs, func(u geom.Length) bool {
				return near(geom.Pt(u, v), c, corners) && p.free(geom.Pt(u, v))
			})
		}) {
			return false
		}
	}
	return true
}

// edges are the steps that are enough to find a free one on a rectangular board: the first, those at the middle, and
// those at each edge of what is forbidden.
func (p *placer) edges(steps []geom.Length, up bool) []geom.Length {
	if len(steps) == 0 {
		return nil
	}
	keep := []geom.Length{steps[0]}
	middle := p.size.W / 2
	if up {
		middle = p.size.H / 2
	}
	for _, s := range steps {
		if (s - middle).Abs() < p.Step {
			keep = append(keep, s)
		}
	}
	for _, b := range p.Forbidden {
		low, high := b.Min.X, b.Max.X
		if up {
			low, high = b.Min.Y, b.Max.Y
		}
		for _, s := range steps {
			if (s-low).Abs() < p.Step || (s-high).Abs() < p.Step || s == low || s == high {
				keep = append(keep, s)
			}
		}
	}
	return keep
}
