package tolerance

import "rodsheet/geom"

// TapeError is the greatest permissible error of a tape or rule of accuracy class 1, 2 or 3 over a length:
// ±(a + b·L) mm with L in metres, rounded up to the next whole metre (EU 2014/32/EU, Annex X, chapter 1, Table 1).
func TapeError(class int, length geom.Length) geom.Length {
	a, b := 300*geom.Micrometre, 200*geom.Micrometre
	switch class {
	case 1:
		a, b = 100*geom.Micrometre, 100*geom.Micrometre
	case 3:
		a, b = 600*geom.Micrometre, 400*geom.Micrometre
	}
	return a + b*(length.Abs().Ceil(geom.Metre)/geom.Metre)
}
