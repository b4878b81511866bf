package geom

// A Size is the extent of a rectangle.
type Size struct{ W, H Length }

// Turned returns the size with width and height exchanged.
func (s Size) Turned() Size { return Size{s.H, s.W} }

// In returns the size as people of the system read it, `3/4″ × 1 1/2″`; see [Length.In].
func (s Size) In(u System) string { return s.W.In(u) + " × " + s.H.In(u) }

// A Rect is an axis-parallel rectangle; its border belongs to it. It is well-formed when Min.X ≤ Max.X and
// Min.Y ≤ Max.Y.
type Rect struct{ Min, Max Point }

// R returns the rectangle with the given corners, which must be well-formed.
func R(x0, y0, x1, y1 Length) Rect { return Rect{Point{x0, y0}, Point{x1, y1}} }

// W returns the width.
func (r Rect) W() Length { return r.Max.X - r.Min.X }

// H returns the height.
func (r Rect) H() Length { return r.Max.Y - r.Min.Y }

// Size returns the width and height.
func (r Rect) Size() Size { return Size{r.W(), r.H()} }

// Centre returns the middle, rounded down to whole nanometres.
func (r Rect) Centre() Point { return Point{r.Min.X + r.W()/2, r.Min.Y + r.H()/2} }

// Add returns r moved by d.
func (r Rect) Add(d Point) Rect { return Rect{r.Min.Add(d), r.Max.Add(d)} }

// Inset returns r with every edge moved inward by d (outward when d is negative). It may be ill-formed; see
// [Rect.Valid].
func (r Rect) Inset(d Length) Rect {
	return Rect{Point{r.Min.X + d, r.Min.Y + d}, Point{r.Max.X - d, r.Max.Y - d}}
}

// Valid reports whether r is well-formed; a rectangle of no width or height is.
func (r Rect) Valid() bool { return r.Min.X <= r.Max.X && r.Min.Y <= r.Max.Y }

// ContainsPoint reports whether p lies in r or on its border.
func (r Rect) ContainsPoint(p Point) bool {
	return r.Min.X <= p.X && p.X <= r.Max.X && r.Min.Y <= p.Y && p.Y <= r.Max.Y
}

// Contains reports whether all of s lies in r; borders may touch.
func (r Rect) Contains(s Rect) bool { return r.ContainsPoint(s.Min) && r.ContainsPoint(s.Max) }

// Intersects reports whether r and s share a point, if only on their borders.
func (r Rect) Intersects(s Rect) bool {
	return r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}

// InteriorIntersects reports whether the interiors of r and s meet.
func (r Rect) InteriorIntersects(s Rect) bool {
	return r.Min.X < s.Max.X && s.Min.X < r.Max.X && r.Min.Y < s.Max.Y && s.Min.Y < r.Max.Y
}

// Union returns the smallest rectangle that holds both.
func (r Rect) Union(s Rect) Rect {
	return Rect{
		Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}

// Intersection returns what r and s share; ill-formed when they share nothing.
func (r Rect) Intersection(s Rect) Rect {
	return Rect{
		Point{max(r.Min.X, s.Min.X), max(r.Min.Y, s.Min.Y)},
		Point{min(r.Max.X, s.Max.X), min(r.Max.Y, s.Max.Y)},
	}
}

// Polygon returns the rectangle's outline, counter-clockwise from Min where y runs up.
func (r Rect) Polygon() Polygon {
	return Polygon{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}
