package stock

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/plan/finding"
)

// A Join is a part that is glued together, edge to edge, from pieces of its stock.
type Join struct {
	Part          string
	Panels        []int
	Columns, Rows []geom.Length // widths of the pieces from the left as seen from the face, heights from below
}

// mostPieces is how many pieces a part is joined of at most.
const mostPieces = 24

// join divides a part that is larger than its sheet, of the fewest pieces that fit it with every joint off the part's
// middle; of a sheet laid upright and lying the one that takes fewer. ok is false where it would take too many.
func join(part Part, sheet geom.Size, step geom.Length) (j Join, ok bool) {
	for _, most := range []geom.Size{sheet, sheet.Turned()} {
		columns, rows := pieces(part.Size.W, most.W, step), pieces(part.Size.H, most.H, step)
		n := len(columns) * len(rows)
		if n == 0 || n > mostPieces || ok && n >= len(j.Columns)*len(j.Rows) {
			continue
		}
		j, ok = Join{part.Name, part.Panels, columns, rows}, true
	}
	return j, ok
}

// parts are the pieces of a joined part, row by row from below.
func (j Join) parts(of Part) []Part {
	var out []Part
	n := len(j.Columns) * len(j.Rows)
	for _, h := range j.Rows {
		for _, w := range j.Columns {
			out = append(out, Part{of.Board, fmt.Sprintf("%s, %d of %d", of.Name, len(out)+1, n), of.Panels, geom.Size{W: w, H: h}})
		}
	}
	return out
}

// Words say how the pieces lie, with lengths as read writes them.
func (j Join) Words(read func(geom.Length) string) string {
	line := func(list []geom.Length) string { return strings.Join(finding.Repeated(list, read), " + ") }
	text := fmt.Sprintf("Part %s is joined of %d pieces, numbered from the left as you face the panel", j.Part, len(j.Columns)*len(j.Rows))
	if len(j.Rows) > 1 {
		text += " and up"
	}
	text += ": " + line(j.Columns) + " wide"
	if len(j.Rows) > 1 {
		text += ", " + line(j.Rows) + " high"
	}
	return text + "; joints keep off its middle."
}

// pieces divides a length into as few pieces as may be, none longer than most, with joints off its middle: one piece lies
// over the middle and reaches at least a sixth of the length to either side, or a quarter of the longest piece where that
// is less. The pieces on a side are equal to whole steps; nil where there would be too many.
func pieces(length, most, step geom.Length) []geom.Length {
	if length <= most {
		return []geom.Length{length}
	}
	most = most.Floor(step)
	off := min(length/6, most/4)
	for n := geom.Length(2); n <= mostPieces; n++ {
		for right := geom.Length(0); right <= (n-1)/2; right++ {
			left := n - 1 - right
			farthest := func(beside geom.Length) geom.Length { return min(length/2-off, beside*most).Floor(step) }
			a, b := farthest(left), farthest(right) // how long the pieces beside the middle one may be together
			if length-a-b > most {
				continue
			}
			even := (length / n).Floor(step)
			l, r := min(a, left*even), min(b, right*even)
			l = min(a, l+max(0, length-l-r-most).Ceil(step))
			r = min(b, r+max(0, length-l-r-most).Ceil(step))
			return slices.Concat(share(l, left, step), []geom.Length{length - l - r}, share(r, right, step))
		}
	}
	return nil
}

// share divides whole steps into n pieces, of which the first are a step longer where they must.
func share(length, n, step geom.Length) []geom.Length {
	var out []geom.Length
	for ; n > 0; n-- {
		each := ((length + n*step - 1) / n).Floor(step)
		out, length = append(out, each), length-each
	}
	return out
}
