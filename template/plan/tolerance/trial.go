package tolerance

import (
	"math"

	"rodsheet/geom"
)

// A Trial is what the holes of a drill trial say of the drill's wander.
type Trial struct {
	Deviation geom.Length // standard deviation along one axis
	Wander    geom.Length // half-width of a rectangular distribution of that deviation, as Sources count it
	Relative  float64     // standard uncertainty of both, as a share of them
}

// Wander works a drill trial out: off is how far each hole lies from its cross, one at least. With the same variance s² along
// both axes and the cross as the mean the squares of n distances add up to 2n·s² on average (Rayleigh's distribution). That
// sample deviation has ν = 2n degrees of freedom, so that its own relative standard uncertainty is 1/√(2ν) (JCGM 100:2008,
// E.4.3).
func Wander(off ...geom.Length) Trial {
	sum := 0.0
	for _, l := range off {
		sum += float64(l) * float64(l)
	}
	degrees := 2 * float64(len(off))
	s := math.Sqrt(sum / degrees)
	return Trial{
		Deviation: geom.Length(math.Round(s)), Wander: geom.Length(math.Round(s * math.Sqrt(3))),
		Relative: 1 / math.Sqrt(2*degrees),
	}
}
