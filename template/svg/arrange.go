package svg

import (
	"rodsheet/template/drawing"
	"rodsheet/template/internal/render"
)

// placed is an item and the layer whose window it is seen through.
type placed struct {
	render.Item
	layer int
	key   int // pass × 4 + role: where it is painted
}

// arrange puts the page's items in groups by role, and in as few passes over the four groups as keep the picture the
// same. Black lines may be painted in any order; only what hides something (a fill, a halo) must keep its turn with
// whatever it meets. Each item goes to the earliest pass that does so.
func arrange(layers []render.Layer) [][4][]placed {
	passes := make([][4][]placed, 1)
	var before, hiders []placed
	for i, l := range layers {
		for _, item := range l.Items {
			p := placed{Item: item, layer: i, key: int(item.Role)}
			rivals := hiders
			if item.Hides() {
				rivals = before
			}
			for _, r := range rivals {
				if r.key > p.key && r.Box.Meets(p.Box) {
					p.key += (r.key - p.key + roles - 1) / roles * roles
				}
			}
			before = append(before, p)
			if item.Hides() {
				hiders = append(hiders, p)
			}
			for len(passes) <= p.key/roles {
				passes = append(passes, [4][]placed{})
			}
			group := &passes[p.key/roles][item.Role]
			*group = append(*group, p)
		}
	}
	return passes
}

// roles is how many groups there are.
const roles = int(drawing.Drill) + 1
