// Package pack puts rectangles of various sizes on as few equal pages as possible, upright, with a gap between them.
// It knows nothing of what the rectangles are.
//
// This is two-dimensional bin packing, which is strongly NP-hard. Rectangles are few here, or many alike, so it is
// solved by search, and the bound that was reached is told.
//
// Bound. Widths and heights are mapped by dual feasible functions, which keep what fits on a page fitting; then the
// area of the mapped rectangles is a bound (Fekete & Schepers, "A general framework for bounds for higher-dimensional
// orthogonal packing problems", 2004; Carlier, Clautiaux & Moukrim, "New reduction procedures and lower bounds for the
// two-dimensional bin packing problem with fixed orientation", 2007). All pairs of functions are tried.
//
// Search. Pages are filled one after another: the largest rectangle left is given every set of others that fits beside
// it and leaves no room for more (bin completion, Korf 2002). Whether a set fits is decided by placing its rectangles
// at the corners of the outline of those placed before (Martello, Pisinger & Vigo, "The three-dimensional bin packing
// problem", 2000); in the plane that reaches every packing. Both searches are limited in steps.
//
// The price is that of the search: microseconds where reading order is as good as the bound, tens of milliseconds at
// worst. All lengths are exact; the same problem gives the same answer.
package pack

import (
	"fmt"
	"slices"

	"rodsheet/geom"
)

// MaxParts is how many rectangles [Problem.Solve] takes at most.
const MaxParts = 10_000

// A Problem asks for the fewest pages that hold all parts.
type Problem struct {
	Parts []geom.Size // in the order in which people want to read them
	Page  geom.Size   // what one page can hold
	Gap   geom.Length // between two parts; none is needed to the border
}

// A Place is where a part lies.
type Place struct {
	Page int        // counted from 0
	At   geom.Point // its lower left corner; the page's is the origin, y runs up
}

// A Packing is the answer to a [Problem].
type Packing struct {
	Places []Place // one for each part
	Pages  int
	Bound  int  // no packing has fewer pages
	Proved bool // Pages equals Bound
}

// An InputError says what is wrong with a problem, and what would be right.
type InputError struct{ Reason string }

func (e *InputError) Error() string { return e.Reason }

// A TooLargeError tells of a part that no page can hold.
type TooLargeError struct {
	Part int // its index in the problem's parts
	Size geom.Size
	Page geom.Size
}

func (e *TooLargeError) Error() string {
	return fmt.Sprintf("part %d, %v × %v, is too large for a page that holds %v × %v", e.Part, e.Size.W, e.Size.H, e.Page.W, e.Page.H)
}

// Solve finds few pages, the fewest if Proved. Parts stay in their order, in rows from the top of the first page,
// where that takes no more pages; else pages come in the order of their first parts. It returns an [*InputError] for a
// problem that makes no sense, and a [*TooLargeError] for a part that no page can hold.
func (p Problem) Solve() (Packing, error) {
	if err := p.check(); err != nil {
		return Packing{}, err
	}
	if len(p.Parts) == 0 {
		return Packing{Proved: true}, nil
	}
	s := newSearch(p)
	places, pages := p.inOrder()
	bound := s.bound(s.all())
	if pages > bound {
		found, complete := s.fewest(pages, bound)
		if found != nil {
			places, pages = p.arrange(s, found), len(found)
		}
		if complete {
			bound = pages
		}
	}
	return Packing{Places: places, Pages: pages, Bound: bound, Proved: pages == bound}, nil
}

func (p Problem) check() error {
	switch {
	case p.Page.W <= 0 || p.Page.H <= 0 || p.Page.W > geom.Longest || p.Page.H > geom.Longest:
		return &InputError{fmt.Sprintf("a page of %v × %v can hold nothing: both must be more than nothing", p.Page.W, p.Page.H)}
	case p.Gap < 0 || p.Gap > geom.Longest:
		return &InputError{fmt.Sprintf("a gap of %v makes no sense: it must be 0 or more", p.Gap)}
	case len(p.Parts) > MaxParts:
		return &InputError{fmt.Sprintf("%d parts are more than the %d that can be packed", len(p.Parts), MaxParts)}
	}
	for i, s := range p.Parts {
		if s.W <= 0 || s.H <= 0 {
			return &InputError{fmt.Sprintf("part %d is %v × %v: both must be more than nothing", i, s.W, s.H)}
		}
		if s.W > p.Page.W || s.H > p.Page.H {
			return &TooLargeError{Part: i, Size: s, Page: p.Page}
		}
	}
	return nil
}

// inOrder lays the parts in rows, in their order, on page after page.
func (p Problem) inOrder() (places []Place, pages int) {
	for from := 0; from < len(p.Parts); pages++ {
		row := p.rows(p.Parts[from:])
		for _, at := range row {
			places = append(places, Place{pages, at})
		}
		from += len(row)
	}
	return places, pages
}

// rows lays parts in rows from the top of a page, in their order, until one does not fit, and returns where they lie.
func (p Problem) rows(parts []geom.Size) []geom.Point {
	var out []geom.Point
	top, high := p.Page.H, geom.Length(0) // of the row
	x := geom.Length(0)
	for _, s := range parts {
		if x+s.W > p.Page.W {
			top, high, x = top-high-p.Gap, 0, 0
		}
		if s.H > top {
			break
		}
		out = append(out, geom.Pt(x, top-s.H))
		x, high = x+s.W+p.Gap, max(high, s.H)
	}
	return out
}

// arrange gives the parts their places for the sets of sizes that share pages.
func (p Problem) arrange(s *search, sets []set) []Place {
	parts := s.parts(sets)
	slices.SortFunc(parts, func(a, b []int) int { return a[0] - b[0] })
	places := make([]Place, len(p.Parts))
	for page, list := range parts {
		sizes := make([]geom.Size, len(list))
		for i, k := range list {
			sizes[i] = p.Parts[k]
		}
		at := p.rows(sizes)
		if len(at) < len(list) {
			at = s.layout(list)
		}
		for i, k := range list {
			places[k] = Place{page, at[i]}
		}
	}
	return places
}
