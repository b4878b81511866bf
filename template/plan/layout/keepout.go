package layout

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// thinWall is the thickness up to which cables on one side of a wall make zones on the other (BS 7671:2018, 522.6.202).
const thinWall = 100 * geom.Millimetre

// cableZone is how far cables may run along the top of a wall and beside the corner of two walls (BS 7671:2018,
// 522.6.202).
const cableZone = 150 * geom.Millimetre

// slopeSlice is how wide the upright slices are that a cable zone under a sloped wall top is made of.
const slopeSlice = 100 * geom.Millimetre

// keepOuts are the things on a wall that no hole may meet, in the order of the job file, cable zones last.
func keepOuts(walls []job.Wall, index int, cables bool) []KeepOut {
	w := &walls[index]
	var all []KeepOut
	for _, f := range w.Fittings {
		if f.Far {
			continue
		}
		all = append(all, KeepOut{f.Name, AroundFitting, f.Rect, f.Rect.Inset(-f.Margin)})
	}
	for _, o := range w.Openings {
		all = append(all, KeepOut{o.Name, AroundOpening, o.Rect, o.Rect.Inset(-o.Margin)})
	}
	for _, k := range w.KeepOuts {
		all = append(all, KeepOut{k.Name, Given, k.Rect, k.Rect.Inset(-k.Margin)})
	}
	if cables {
		all = append(all, cableZones(walls, index)...)
	}
	return all
}

// cableZones are where cables run that were laid straight: up, down and sideways from every electrical fitting, as wide
// and as high as it is; along the top of the wall; beside its corners (BS 7671:2018, 522.6.202; the width of the strip:
// IET guidance, from memory). They hold for cables less than 50 mm deep. Fittings of the far side make them too, unless the
// wall is known to be thicker than 100 mm. Under a slope they are upright slices that hold the whole zone.
func cableZones(walls []job.Wall, index int) []KeepOut {
	w := &walls[index]
	bounds := w.Outline.Bounds()
	var all []KeepOut
	zone := func(name string, r geom.Rect) {
		if r = r.Intersection(bounds); r.Valid() && r.W() > 0 && r.H() > 0 {
			all = append(all, KeepOut{name, Cables, r, r})
		}
	}
	for _, f := range w.Fittings {
		if f.Kind != job.Electrical || f.Far && w.Depth > thinWall {
			continue
		}
		r := f.Rect
		zone("cable zone above "+f.Name, geom.R(r.Min.X, r.Max.Y, r.Max.X, max(r.Max.Y, bounds.Max.Y)))
		zone("cable zone below "+f.Name, geom.R(r.Min.X, min(r.Min.Y, bounds.Min.Y), r.Max.X, r.Min.Y))
		zone("cable zone left of "+f.Name, geom.R(min(r.Min.X, bounds.Min.X), r.Min.Y, r.Min.X, r.Max.Y))
		zone("cable zone right of "+f.Name, geom.R(r.Max.X, r.Min.Y, max(r.Max.X, bounds.Max.X), r.Max.Y))
	}
	for i, a := range w.Outline {
		b := w.Outline[(i+1)%len(w.Outline)]
		if b.X >= a.X { // counter-clockwise: tops run from right to left
			continue
		}
		a, b = b, a
		if a.Y == b.Y {
			zone("cable zone along the wall top", geom.R(a.X, a.Y-cableZone, b.X, a.Y))
			continue
		}
		drop := cableZone.Times(float64(a.Distance(b)) / float64(b.X-a.X))
		top := geom.Segment{A: a, B: b}
		for x := a.X; x < b.X; x += slopeSlice {
			end := min(x+slopeSlice, b.X)
			y0, y1 := top.YAt(x), top.YAt(end)
			zone("cable zone along the wall top", geom.R(x, min(y0, y1)-drop, end, max(y0, y1)))
		}
	}
	if before := (index + len(walls) - 1) % len(walls); before != index && walls[before].Corner != job.NoCorner {
		zone("cable zone along the left corner", geom.R(bounds.Min.X, bounds.Min.Y, bounds.Min.X+cableZone, bounds.Max.Y))
	}
	if w.Corner != job.NoCorner {
		zone("cable zone along the right corner", geom.R(bounds.Max.X-cableZone, bounds.Min.Y, bounds.Max.X, bounds.Max.Y))
	}
	return all
}
