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

// groupByRole puts the page's items in groups by role, in as few passes over the four groups as keep the picture the
// same. Black lines may be painted in any order; only an opaque item (a fill, a halo) must keep its order with all that it
// overlaps. Each item goes to the earliest pass that does so.
func groupByRole(layers []render.Layer) [][4][]placed {
	passes := make([][4][]placed, 1)
	var before, opaque []placed
	for i, l := range layers {
		for _, item := range l.Items {
			p := placed{Item: item, layer: i, key: int(item.Role)}
			conflicting := opaque
			if item.Opaque() {
				conflicting = before
			}
			for _, r := range conflicting {
				if r.key > p.key && r.Box.InteriorIntersects(p.Box) {
					p.key += (r.key - p.key + roles - 1) / roles * roles
				}
			}
			before = append(before, p)
			if item.Opaque() {
				opaque = append(opaque, p)
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
