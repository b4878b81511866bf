package typeset

import (
	"slices"

	"rodsheet/geom"
)

// Spread moves ascending places apart to at least pitch, within lo..hi as far as they fit, each staying near its own.
func Spread(at []geom.Length, pitch, lo, hi geom.Length) []geom.Length {
	out := slices.Clone(at)
	for i := range out {
		out[i] = max(out[i], lo)
		if i > 0 {
			out[i] = max(out[i], out[i-1]+pitch)
		}
	}
	for i := len(out) - 1; i >= 0; i-- {
		limit := hi
		if i+1 < len(out) {
			limit = out[i+1] - pitch
		}
		out[i] = min(out[i], limit)
	}
	return out
}
