package rule

import "slices"

// all is every rule, by topic: those about the wall first, since they weigh most.
func all() []Rule {
	return slices.Concat(onTheWall(), placing(), heights(), screwing(), fixing(), loading(), wrapping(), cutting(), measuring(), slips(), reading())
}

// Where rules come from, when nothing is published.
const (
	practice = "common practice"
	geometry = "geometry of the job as it was measured"
)
