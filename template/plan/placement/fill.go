package placement

import (
	"slices"

	"rodsheet/geom"
)

// fill puts clips between those of the corners where they stand further apart than spacing allows, and more where
// number asks for more: along the sides of the stance, and in rows inside it where all four corners have a clip.
// Each takes the step nearest to even spacing that is free. Where a corner is missing, number asks for one clip less,
// down to three.
func (p *placer) fill(c *choice, all []Position) []Position {
	number := p.Number
	for range len(c.at) - c.count {
		number = max(number-1, min(number, 3))
	}
	cols := max(p.parts(c.at[0], c.at[1], false), p.parts(c.at[2], c.at[3], false))
	rows := max(p.parts(c.at[0], c.at[2], true), p.parts(c.at[1], c.at[3], true))
	if c.count == 3 { // the long side is the way over the missing corner
		cols = max(cols, p.parts(c.at[0], c.at[3], false), p.parts(c.at[1], c.at[2], false))
		rows = max(rows, p.parts(c.at[0], c.at[3], true), p.parts(c.at[1], c.at[2], true))
	}
	for tries := 0; ; tries++ {
		more := p.between(c, all, cols, rows)
		if len(more) >= number || tries >= number {
			return more
		}
		if p.size.W*geom.Length(rows) >= p.size.H*geom.Length(cols) {
			cols++
		} else {
			rows++
		}
	}
}

// parts is into how many parts the way between two clips must be cut to keep the spacing.
func (p *placer) parts(a, b *option, up bool) int {
	if a == nil || b == nil || p.Spacing <= 0 {
		return 1
	}
	d := (b.at.X - a.at.X).Abs()
	if up {
		d = (b.at.Y - a.at.Y).Abs()
	}
	return max(1, int((d+p.Spacing-1)/p.Spacing))
}

// between adds the clips between the corners when the stance is cut into columns and rows of parts.
func (p *placer) between(c *choice, corners []Position, cols, rows int) []Position {
	all := slices.Clone(corners)
	add := func(at geom.Point, z zone) {
		if at, ok := p.nearestFree(at, all); ok {
			q := z.position(at)
			taken := func(o Position) bool { return o.Column == q.Column && o.Row == q.Row && o.Nth == q.Nth }
			for slices.ContainsFunc(all, taken) {
				q.Nth++
			}
			all = append(all, q)
		}
	}
	side := func(a, b *option, parts int, z zone) {
		if a == nil || b == nil {
			return
		}
		for i := 1; i < parts; i++ {
			add(part(a.at, b.at, i, parts), z)
		}
	}
	side(c.at[0], c.at[1], cols, lowerMiddle)
	side(c.at[0], c.at[2], rows, middleLeft)
	if c.count < 4 {
		if c.at[3] == nil {
			side(c.at[1], c.at[2], max(cols, rows), middle)
		}
		if c.at[0] == nil {
			side(c.at[1], c.at[2], max(cols, rows), middle)
		}
		if c.at[1] == nil || c.at[2] == nil {
			side(c.at[0], c.at[3], max(cols, rows), middle)
		}
	} else {
		for r := 1; r < rows; r++ {
			left, right := part(c.at[0].at, c.at[2].at, r, rows), part(c.at[1].at, c.at[3].at, r, rows)
			for i := 1; i < cols; i++ {
				add(part(left, right, i, cols), middle)
			}
		}
	}
	side(c.at[1], c.at[3], rows, middleRight)
	side(c.at[2], c.at[3], cols, upperMiddle)
	return all
}

// part is the point i parts of the way from a to b.
func part(a, b geom.Point, i, parts int) geom.Point {
	d := b.Sub(a)
	return geom.Pt(a.X+d.X*geom.Length(i)/geom.Length(parts), a.Y+d.Y*geom.Length(i)/geom.Length(parts))
}

// nearestFree is the whole step from the left and bottom edge nearest to a place where a clip may stand beside those
// there are; no further away than half the spacing.
func (p *placer) nearestFree(at geom.Point, there []Position) (geom.Point, bool) {
	home := geom.Pt(nearest(at.X, 1, p.Step), nearest(at.Y, 1, p.Step))
	reach := min(int(p.Spacing/p.Step/2), 400)
	var best geom.Point
	var far geom.Product
	found := false
	for ring := 0; ring <= reach; ring++ {
		for i := -ring; i <= ring; i++ {
			for j := -ring; j <= ring; j++ {
				if max(i, -i, j, -j) != ring {
					continue
				}
				q := home.Add(geom.Pt(geom.Length(i)*p.Step, geom.Length(j)*p.Step))
				d := geom.Dot(q.Sub(at), q.Sub(at))
				if found && d.Cmp(far) >= 0 || !p.free(q) ||
					slices.ContainsFunc(there, func(o Position) bool { return p.overlap(o.At, q) }) {
					continue
				}
				best, far, found = q, d, true
			}
		}
		if found && far.Cmp(geom.Dot(geom.Pt(geom.Length(ring)*p.Step, 0), geom.Pt(geom.Length(ring)*p.Step, 0))) <= 0 {
			break // nothing in a wider ring can be nearer
		}
	}
	return best, found
}
