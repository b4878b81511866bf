package pack

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A placing is a walk over the ways to lay a set on one page. Parts are laid from the lower left: each at a corner of
// the stairs that bound what lies left of or below any part laid before.
type placing struct {
	*search
	left  set
	laid  []laid
	area  float64 // of what is left
	steps int     // for this set
}

// A laid part takes a rectangle of the page.
type laid struct {
	size int
	at   geom.Rect
}

// place decides whether a set fits on a page, and how.
func (s *search) place(n set) verdict {
	if pages(s.weights, n) > 1 {
		return verdict{sure: true}
	}
	p := &placing{search: s, left: slices.Clone(n)}
	for i, k := range n {
		p.area += float64(k) * area(s.sizes[i])
	}
	fits := p.next()
	v := verdict{fits: fits, sure: fits || !p.exhausted()}
	if fits {
		slices.SortStableFunc(p.laid, func(a, b laid) int { return cmp.Compare(a.size, b.size) })
		for _, l := range p.laid {
			// From the top down, so that what stays free lies at the foot; the gap on a part's upper side is then below it.
			v.at = append(v.at, geom.Pt(l.at.Min.X, s.page.H-l.at.Max.Y))
		}
	}
	return v
}

func area(s geom.Size) float64 { return float64(s.W) * float64(s.H) }

// next lays one more part; it reports whether all that is left could be laid.
func (p *placing) next() bool {
	p.steps++
	p.search.steps++
	if p.exhausted() {
		return false
	}
	corners, covered := p.stairs()
	if !slices.ContainsFunc(p.left, func(k int) bool { return k > 0 }) {
		return true
	}
	// Nothing can be laid any more left of or below the stairs.
	if free := area(p.page) - covered; p.area > free*(1+rounding) {
		return false
	}
	for _, c := range corners {
		for i, k := range p.left {
			size := p.sizes[i]
			if k == 0 || c.X+size.W > p.page.W || c.Y+size.H > p.page.H {
				continue
			}
			p.left[i]--
			p.area -= area(size)
			p.laid = append(p.laid, laid{i, geom.R(c.X, c.Y, c.X+size.W, c.Y+size.H)})
			if p.next() {
				return true
			}
			p.left[i]++
			p.area += area(size)
			p.laid = p.laid[:len(p.laid)-1]
			if p.exhausted() {
				return false
			}
		}
	}
	return false
}

func (p *placing) exhausted() bool { return p.steps > maxPlacings || p.search.steps > maxSteps }

// stairs returns the corners at which a part can be laid next, and the area on their lower left. A point is under the
// stairs when a laid part reaches both farther right and farther up.
func (p *placing) stairs() (corners []geom.Point, covered float64) {
	steps := make([]geom.Point, len(p.laid)) // upper right corners, the highest first, of equal ones the farthest right
	for i, l := range p.laid {
		steps[i] = l.at.Max
	}
	slices.SortFunc(steps, func(a, b geom.Point) int { return cmp.Or(cmp.Compare(b.Y, a.Y), cmp.Compare(b.X, a.X)) })
	x, top := geom.Length(0), p.page.H
	for _, s := range steps {
		if s.X <= x {
			continue
		}
		if s.Y < top {
			corners = append(corners, geom.Pt(x, s.Y))
		}
		covered += float64(s.X-x) * float64(s.Y)
		x, top = s.X, s.Y
	}
	if top > 0 {
		corners = append(corners, geom.Pt(x, 0))
	}
	return corners, covered
}
