package tolerance

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// TapeError is the greatest permissible error of a tape or rule between two of its marks.
//
// Of an accuracy class it is ±(a + b·L) mm with L in metres, rounded up to the next whole metre (EU 2014/32/EU, Annex X,
// chapter 1, Table 1). Of a tape in inches it is ±1/32 in up to 6 ft and ±1/16 in up to 30 ft (NIST Handbook 44, 5.52, metal
// tapes), then 1/16 in more for every 25 ft (the same table, from memory).
func TapeError(tape job.Tape, length geom.Length) geom.Length {
	length = length.Abs()
	if tape == job.InchTape {
		switch {
		case length <= 6*geom.Foot:
			return geom.Inch / 32
		case length <= 30*geom.Foot:
			return geom.Inch / 16
		}
		return geom.Inch / 16 * (1 + (length-30*geom.Foot).Ceil(25*geom.Foot)/(25*geom.Foot))
	}
	a, b := 300*geom.Micrometre, 200*geom.Micrometre
	switch tape {
	case job.TapeI:
		a, b = 100*geom.Micrometre, 100*geom.Micrometre
	case job.TapeIII:
		a, b = 600*geom.Micrometre, 400*geom.Micrometre
	}
	return a + b*(length.Ceil(geom.Metre)/geom.Metre)
}

// HookedError is the greatest permissible error of a mark that is measured from the tape's end, its hook or its butt:
// classes allow that end 0.1, 0.2 or 0.3 mm more (EU 2014/32/EU, Annex X, chapter 1, 3); NIST Handbook 44 has no such term.
func HookedError(tape job.Tape, length geom.Length) geom.Length {
	end := geom.Length(0)
	switch tape {
	case job.TapeI:
		end = 100 * geom.Micrometre
	case job.TapeII:
		end = 200 * geom.Micrometre
	case job.TapeIII:
		end = 300 * geom.Micrometre
	}
	return TapeError(tape, length) + end
}
