package cutting

import "rodsheet/geom"

// Excess returns by how much a part does not fit the usable stock in any way that its grain permits; nil when it fits.
func Excess(size, stock geom.Size, g Grain) *TooLargeError {
	excess := func(s geom.Size) geom.Size { return geom.Size{W: max(0, s.W-stock.W), H: max(0, s.H-stock.H)} }
	over, turned := excess(size), excess(size.Turned())
	if over == (geom.Size{}) || g == Free && turned == (geom.Size{}) {
		return nil
	}
	e := &TooLargeError{Size: size, Stock: stock, Over: over}
	switch {
	case g == Along:
		e.Fixed = turned == geom.Size{}
	case turned.W+turned.H < over.W+over.H:
		e.Over, e.Turned = turned, true
	}
	return e
}
