package layout

import (
	"cmp"
	"slices"
	"strconv"

	"rodsheet/geom"
)

// GroupBoards finds the boards that share one template, and mirrored twins. Boards are the same when outlines, middles of
// clips and holes are; in which order holes stand does not matter.
func (l *Layout) GroupBoards() {
	l.Boards = nil
	seen := map[string]int{}
	for i := range l.Panels {
		panel := &l.Panels[i]
		outline := panel.Outline.Add(geom.Pt(-panel.Origin().X, -panel.Origin().Y))
		size := outline.Bounds().Size()
		key := fingerprint(outline, panel.Clips, identity)
		b, known := seen[key]
		if !known {
			b = len(l.Boards)
			seen[key] = b
			l.Boards = append(l.Boards, Board{Name: boardName(b), Outline: outline, Size: size, Clips: panel.Clips, Twin: -1})
			flip := func(q geom.Point) geom.Point { return geom.Pt(size.W-q.X, q.Y) }
			if twin, ok := seen[fingerprint(outline.Mirror(size.W), panel.Clips, flip)]; ok && twin != b {
				l.Boards[b].Twin = twin
			}
		}
		panel.Board = b
		l.Boards[b].Panels = append(l.Boards[b].Panels, i)
	}
}

func identity(q geom.Point) geom.Point { return q }

// fingerprint is a text that two boards share exactly when they are the same, the clips seen through the given map.
func fingerprint(outline geom.Polygon, clips []Clip, view func(geom.Point) geom.Point) string {
	var middles, holes []geom.Point
	for _, c := range clips {
		middles = append(middles, view(c.Board))
		for _, h := range c.BoardHoles {
			holes = append(holes, view(h))
		}
	}
	var text []byte
	for _, list := range [][]geom.Point{outline, sorted(middles), sorted(holes)} {
		for _, q := range list {
			text = strconv.AppendInt(text, int64(q.X), 10)
			text = append(text, ',')
			text = strconv.AppendInt(text, int64(q.Y), 10)
			text = append(text, ' ')
		}
		text = append(text, '|')
	}
	return string(text)
}

func sorted(points []geom.Point) []geom.Point {
	slices.SortFunc(points, func(a, b geom.Point) int {
		if a.Y != b.Y {
			return cmp.Compare(a.Y, b.Y)
		}
		return cmp.Compare(a.X, b.X)
	})
	return points
}

// boardName counts A, B, …, Z, AA, AB, ….
func boardName(i int) string { return letters(i, 'A') }

// letters counts first, its next, …, the 26th, then pairs of them.
func letters(i int, first rune) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(first+rune((i-1)%26)) + name
	}
	return name
}
