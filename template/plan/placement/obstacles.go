package placement

import "rodsheet/geom"

// open reports whether a clip's middle may be at the place.
func (b *Obstacles) open(at geom.Point) bool { return b.forbids(at) == nil }

// forbids is the first forbidden rectangle that the place lies in; nil for none.
func (b *Obstacles) forbids(at geom.Point) *geom.Rect {
	for i, r := range b.Forbidden {
		if r.Min.X < at.X && at.X < r.Max.X && r.Min.Y < at.Y && at.Y < r.Max.Y {
			return &b.Forbidden[i]
		}
	}
	return nil
}

// meets reports whether some interval holds the place along its axis, and how far the place is from the nearest centre
// line of those that do.
func meets(intervals []Interval, at geom.Length) (off geom.Length, ok bool) {
	for _, t := range intervals {
		if t.Low <= at && at <= t.High {
			if d := (at - t.Centre).Abs(); !ok || d < off {
				off, ok = d, true
			}
		}
	}
	return off, ok
}
