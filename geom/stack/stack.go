// Package stack finds the fewest pieces of stock whose thicknesses add up to a height. It knows nothing of what the
// stack is for, and takes every thickness as measured: a 3/4 in board is 23/32 in, and its user's business.
//
// The kinds of stock are split in two groups. For each group all sums up to the height are listed in order, each
// with its fewest pieces; then the two lists are run against each other, one upwards and one downwards. That is exact
// for any thicknesses, and its price is the length of the lists. Kinds that share a coarse measure (inches in
// sixty-fourths, millimetres in tenths) have few different sums however many pieces they take, so the split is the
// one with the shortest lists: for inches and millimetres mixed, whose common measure is a few nanometres,
// it keeps the two apart. With k kinds of no common measure, a list holds about H^m / (m!·t₁·…·tₘ) sums, m = k/2.
package stack

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/geom"
)

// MaxKinds is how many different thicknesses [Find] takes at most.
const MaxKinds = 16

const (
	maxPieces = 500       // that could stand in the height, of the thickest kind
	maxSums   = 1_000_000 // in the lists of one group; about 60 ms
)

// A Stack is some pieces on top of each other.
type Stack struct {
	Pieces []geom.Length // thickest first
	Made   geom.Length   // their sum
}

// A Result is what stock can do for a height.
type Result struct {
	Stack // the stack that makes the height, when OK
	OK    bool

	// When not OK: the nearest stacks on both sides, of equal ones that with the fewest pieces. Below is nil when
	// every piece is too thick. Missing is what must be put on Below, or under the one above, to make the height.
	Below, Above *Stack
	Missing      geom.Length
}

// An InputError says what is wrong with a question, and what would be right.
type InputError struct{ Reason string }

func (e *InputError) Error() string { return e.Reason }

func refuse(format string, args ...any) error { return &InputError{fmt.Sprintf(format, args...)} }

// Find looks for the fewest pieces, any number of each thickness, whose sum is within the given tolerance of height;
// of equally few, the nearest to height, then the one with thicker pieces first. It returns an [*InputError] for
// thicknesses or lengths that make no sense, and where thin stock has too many sums to look through.
func Find(height, within geom.Length, stock []geom.Length) (Result, error) {
	kinds, err := validate(height, within, stock)
	if err != nil {
		return Result{}, err
	}
	thinnest := kinds[len(kinds)-1]
	top := height + within + thinnest // the nearest sum above the tolerance is no higher than that
	one, two := split(kinds, top)
	a, err := newGroup(one, top)
	if err != nil {
		return Result{}, err
	}
	b, err := newGroup(two, top)
	if err != nil {
		return Result{}, err
	}
	p := pair{a, b}
	if n, ok := p.fewest(height-within, height+within); ok {
		off := p.nearest(height, n)
		s := p.best(height-off, n)
		if t := p.best(height+off, n); s == nil || t != nil && slices.Compare(t.Pieces, s.Pieces) > 0 {
			s = t
		}
		return Result{Stack: *s, OK: true}, nil
	}
	under, over := p.neighbours(height)
	r := Result{Missing: height, Above: p.best(over, 0)}
	if under > 0 {
		r.Below, r.Missing = p.best(under, 0), height-under
	}
	return r, nil
}

// validate returns the thicknesses, thickest first.
func validate(height, within geom.Length, stock []geom.Length) ([]geom.Length, error) {
	switch {
	case height <= 0 || height > geom.Longest:
		return nil, refuse("a stack can't be %v high: give a height of more than nothing", height)
	case within < 0 || within >= height:
		return nil, refuse("a tolerance of %v does not go with a height of %v: it must be 0 or more, and less than the height", within, height)
	case len(stock) == 0:
		return nil, refuse("no stock to stack: give the thickness of at least one piece, as measured")
	case len(stock) > MaxKinds:
		return nil, refuse("%d thicknesses are more than the %d that can be looked through: leave out those that are hard to come by", len(stock), MaxKinds)
	}
	kinds := slices.Clone(stock)
	slices.SortFunc(kinds, func(s, t geom.Length) int { return cmp.Compare(t, s) })
	for i, t := range kinds {
		switch {
		case t <= 0 || t > geom.Longest:
			return nil, refuse("stock can't be %v thick: give the thickness as measured", t)
		case i > 0 && t == kinds[i-1]:
			return nil, refuse("the thickness %v is given twice: give each once", t)
		}
	}
	if n := (height - within + kinds[0] - 1) / kinds[0]; n > maxPieces {
		return nil, refuse("a height of %v takes %d pieces even of the thickest stock, %v: more than %d make no sound stack, so give thicker stock",
			height, n, kinds[0], maxPieces)
	}
	return kinds, nil
}

// split puts the kinds, thickest first, in two groups that have few sums up to top. Where all together have few, it
// saves itself the search.
func split(kinds []geom.Length, top geom.Length) (one, two []geom.Length) {
	const few = 5000
	if sumsAtMost(kinds, top) <= few {
		return nil, kinds
	}
	best := -1.0
	for set := range 1 << (len(kinds) - 1) { // the last kind always goes into the second group
		var a, b []geom.Length
		for i, t := range kinds {
			if set>>i&1 == 1 {
				a = append(a, t)
			} else {
				b = append(b, t)
			}
		}
		if n := sumsAtMost(a, top) + sumsAtMost(b, top); best < 0 || n < best {
			best, one, two = n, a, b
		}
	}
	return one, two
}

// sumsAtMost returns a number that the different sums of the kinds up to top don't exceed: the steps of their common
// measure, or the volume of a simplex that holds a unit cube for each choice of pieces.
func sumsAtMost(kinds []geom.Length, top geom.Length) float64 {
	if len(kinds) == 0 {
		return 1
	}
	var measure geom.Length
	sum, volume := float64(top), 1.0
	for i, t := range kinds {
		for b := t; b != 0; {
			measure, b = b, measure%b
		}
		sum += float64(t)
		volume /= float64(i+1) * float64(t)
	}
	for range kinds {
		volume *= sum
	}
	return min(volume, float64(top/measure+1))
}
