package tolerance

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"rodsheet/geom"
)

// A drill that wanders evenly within ±0.5 mm along either axis is found again, and trials of ten holes scatter as their own
// uncertainty says. (That is of a normal distribution; what wanders within bounds scatters a little less.)
func TestADrillTrialFindsTheWanderAgain(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 13))
	const trials = 20_000
	for name, wander := range map[string]func() float64{
		"within bounds": func() float64 { return 0.5 * (2*r.Float64() - 1) },
		"normal":        func() float64 { return 0.5 / math.Sqrt(3) * r.NormFloat64() },
	} {
		var sum, squares, relative float64
		for range trials {
			holes := make([]geom.Length, 10)
			for i := range holes {
				holes[i] = mm.Times(math.Hypot(wander(), wander()))
			}
			trial := Wander(holes...)
			relative = trial.Relative
			w := trial.Wander.Millimetres()
			sum, squares = sum+w, squares+w*w
		}
		mean := sum / trials
		scatter := math.Sqrt(squares/trials-mean*mean) / mean
		assert.InDelta(t, 0.5, mean, 0.01, name)
		assert.LessOrEqual(t, scatter, relative*1.02, name)
		if name == "normal" {
			assert.InDelta(t, relative, scatter, 0.005)
		}
	}
}

// JCGM 100:2008, Table E.1: the standard deviation of a sample's standard deviation is 24 % of it for 10 observations, which
// have 9 degrees of freedom, 16 % for 20 and 10 % for 50.
func TestTheDeviationOfADeviationIsThatOfTheGuide(t *testing.T) {
	for observations, percent := range map[int]float64{10: 24, 20: 16, 50: 10} {
		degrees := float64(observations - 1)
		perHole := Wander(make([]geom.Length, 1)...).Relative // two degrees of freedom each
		assert.InDelta(t, percent, 100*perHole*math.Sqrt(2/degrees), 0.5, "%d", observations)
	}
}
