package placement

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A Shortfall is by how much clips miss the stance floor, which only forbidden places make them do. The zero Shortfall is
// none.
type Shortfall struct {
	Across, Up geom.Length // the outermost clips of a row, or of a column, are nearer to each other than the floor
	Edge       geom.Length // an edge of a rectangular board is farther than half of Spacing from its nearest column or row
	Centre     geom.Length // the board's centre of gravity is outside the hull of the clips
}

func (s Shortfall) sum() geom.Length { return s.Across + s.Up + s.Edge + s.Centre }

// shortfall measures clips against the floor.
func (p Preferences) shortfall(outline geom.Polygon, all []Position) (s Shortfall) {
	if len(all) == 0 {
		return s
	}
	columns, rows := map[int][]Position{}, map[int][]Position{}
	for _, q := range all {
		columns[q.Column] = append(columns[q.Column], q)
		rows[q.Row] = append(rows[q.Row], q)
	}
	for _, row := range rows {
		s.Across = max(s.Across, p.lacks(outline, row, false))
	}
	for _, column := range columns {
		s.Up = max(s.Up, p.lacks(outline, column, true))
	}
	// A board that has no room for two columns has no floor across, one without room for two rows none up.
	x, y := p.axes(outline.Bounds().Size())
	rectangle := outline.IsRectangle()
	across, up := !rectangle || x.fits(2), !rectangle || y.fits(2)
	left, right := ends(all, false)
	low, high := ends(all, true)
	if rectangle && across {
		s.Edge = max(s.Edge, x.beyond(p.Spacing, left.X, right.X))
	}
	if rectangle && up {
		s.Edge = max(s.Edge, y.beyond(p.Spacing, low.Y, high.Y))
	}
	var middles []geom.Point
	for _, q := range all {
		middles = append(middles, q.At)
	}
	centre, hull := outline.Centroid(), geom.Hull(middles)
	switch {
	case across && up:
		if !hull.ContainsPoint(centre) {
			s.Centre = hull.DistanceTo(centre)
		}
	case across:
		s.Centre = max(0, left.X-centre.X, centre.X-right.X)
	case up:
		s.Centre = max(0, low.Y-centre.Y, centre.Y-high.Y)
	}
	return s
}

// beyond is how much farther than half of spacing an end is from the nearest clip.
func (a axis) beyond(spacing, first, last geom.Length) geom.Length {
	most := max(spacing/2, a.near)
	return max(first-most, a.length-last-most)
}

func (p Preferences) axes(size geom.Size) (x, y axis) {
	return newAxis(size.W, p.Clear, p.Base.W, p.Apart.W, p.Step), newAxis(size.H, p.Clear, p.Base.H, p.Apart.H, p.Step)
}

// lacks is how much nearer to each other than the floor the outermost clips of a row, or of a column, stand.
func (p Preferences) lacks(outline geom.Polygon, row []Position, up bool) geom.Length {
	a, b := ends(row, up)
	if len(row) < 2 {
		return 0
	}
	apart := b.X - a.X
	if up {
		apart = b.Y - a.Y
	}
	return max(0, min(p.floor(outline, a, up), p.floor(outline, b, up))-apart)
}

// ends are the leftmost and the rightmost middle, or the lowest and the highest.
func ends(all []Position, up bool) (first, last geom.Point) {
	order := func(a, b Position) int {
		if up {
			return cmp.Compare(a.At.Y, b.At.Y)
		}
		return cmp.Compare(a.At.X, b.At.X)
	}
	return slices.MinFunc(all, order).At, slices.MaxFunc(all, order).At
}

// floor is how far the outermost clips of the row, or of the column, through a place stand from each other at least: two
// fifths of the board there, or what there is between its clear edges.
func (p Preferences) floor(outline geom.Polygon, at geom.Point, up bool) geom.Length {
	length, base, other := outline.Bounds().W(), p.Base.W, p.Base.H
	low, high := chord(outline, at, up)
	if up {
		length, base, other = outline.Bounds().H(), p.Base.H, p.Base.W
	}
	a := axis{length: high - low, near: p.Clear + (base+1)/2}
	if outline.IsRectangle() {
		a = newAxis(length, p.Clear, base, base, p.Step)
	} else { // the base is clear of a sloping edge with all of its width
		for _, d := range [2]geom.Length{-other / 2, other / 2} {
			by := geom.Pt(0, d)
			if up {
				by = geom.Pt(d, 0)
			}
			from, to := chord(outline, at.Add(by), up)
			low, high = max(low, from), min(high, to)
		}
	}
	return max(0, min(a.stanceFloor(), high-low-2*a.near))
}

// chord is the part of an outline on the level line, or the plumb one, through a place, that holds the place.
func chord(outline geom.Polygon, at geom.Point, up bool) (low, high geom.Length) {
	spans, on := outline.SpansAtY(at.Y), at.X
	if up {
		spans, on = outline.SpansAtX(at.X), at.Y
	}
	for _, s := range spans {
		if s.Contains(on) {
			return s.From, s.To
		}
	}
	return on, on
}
