package tolerance

import "rodsheet/geom"

// A Setting is how a hole is set out along one axis, in board coordinates: the paper is laid on From, which is an edge of the
// board or else a mark made by tape from Edge.
type Setting struct{ Edge, From geom.Length }

// A SetOut is how a hole is set out along both axes, by a jig that is laid on the board by itself.
type SetOut struct {
	Page     int // holes of one page are printed together
	Settings [2]Setting
}

// Corners sets every hole out from the nearest corner of a rectangular board.
func Corners(size geom.Size, holes []geom.Point) []SetOut {
	nearest := func(at, length geom.Length) (Setting, int) {
		if at <= length-at {
			return Setting{0, 0}, 0
		}
		return Setting{length, length}, 1
	}
	out := make([]SetOut, len(holes))
	for i, h := range holes {
		x, right := nearest(h.X, size.W)
		y, upper := nearest(h.Y, size.H)
		out[i] = SetOut{Page: right + 2*upper, Settings: [2]Setting{x, y}}
	}
	return out
}
