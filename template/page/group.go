package page

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
)

// groupStep is how finely a place is sought for a group.
const groupStep = 5 * mm

// withGroups returns the drawing with the marks of its groups among its own, each group whole in one of the windows, as
// near to its place as there is room off holes, off parts that have words of their own and off each other.
func withGroups(d *drawing.Drawing, windows []geom.Rect) *drawing.Drawing {
	out := *d
	out.Marks = slices.Clone(d.Marks)
	var taken []geom.Rect
	for _, h := range d.Holes {
		taken = append(taken, geom.Rect{Min: h.At, Max: h.At}.Inset(-h.Radius-5*mm))
	}
	for _, c := range d.Callouts {
		if !c.Long {
			taken = append(taken, c.About)
		}
	}
	for _, g := range d.Groups {
		box := g.Bounds()
		move := groupMove(d, g, box, windows, taken)
		for _, m := range g.Marks {
			out.Marks = append(out.Marks, drawing.Moved(m, move))
		}
		taken = append(taken, box.Add(move))
	}
	return &out
}

// groupMove is the shortest way to a place where a group is whole; none where it is so already, or nowhere.
func groupMove(d *drawing.Drawing, g drawing.Group, box geom.Rect, windows, taken []geom.Rect) geom.Point {
	whole := func(r geom.Rect) bool {
		return slices.ContainsFunc(windows, func(w geom.Rect) bool { return w.Contains(r) })
	}
	if whole(box) {
		return geom.Point{}
	}
	ways := slides(g, box)
	if g.Along == (geom.Segment{}) {
		ways = nil
		for _, w := range windows {
			ways = append(ways, placesIn(w, box)...)
		}
	}
	slices.SortStableFunc(ways, func(a, b geom.Point) int { return geom.Dot(a, a).Cmp(geom.Dot(b, b)) })
	free := func(p geom.Point) bool {
		r := box.Add(p)
		return whole(r) && !slices.ContainsFunc(taken, r.InteriorIntersects) && (d.Shape == nil || d.Shape.ContainsRect(r))
	}
	if i := slices.IndexFunc(ways, free); i >= 0 {
		return ways[i]
	}
	if i := slices.IndexFunc(ways, func(p geom.Point) bool { return whole(box.Add(p)) }); i >= 0 {
		return ways[i]
	}
	return geom.Point{}
}

// slides are the ways of a group along its segment, as far as it stays between the ends.
func slides(g drawing.Group, box geom.Rect) (ways []geom.Point) {
	long := g.Along.A.Distance(g.Along.B)
	room := (long - max(box.W(), box.H())) / 2
	for far := groupStep; far <= room; far += groupStep {
		part := float64(far) / float64(long)
		v := g.Along.B.Sub(g.Along.A)
		way := geom.Pt(v.X.Times(part), v.Y.Times(part))
		ways = append(ways, way, geom.Point{}.Sub(way))
	}
	return ways
}

// placesIn are the ways of a box to the places of a raster in a window, and to the nearest place in it.
func placesIn(w, box geom.Rect) (ways []geom.Point) {
	least, most := w.Min.Sub(box.Min), w.Max.Sub(box.Max)
	if least.X > most.X || least.Y > most.Y {
		return nil
	}
	along := func(lo, hi geom.Length) []geom.Length {
		at := []geom.Length{max(lo, min(0, hi))}
		for x := lo; x <= hi; x += groupStep {
			at = append(at, x)
		}
		return at
	}
	for _, y := range along(least.Y, most.Y) {
		for _, x := range along(least.X, most.X) {
			ways = append(ways, geom.Pt(x, y))
		}
	}
	return ways
}
