package pack

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

const (
	maxSteps    = 60_000 // of the whole search: sets looked at and parts laid; about 0.1 s
	maxPlacings = 20_000 // parts laid in deciding whether one set fits
	keptWeights = 12     // looked at in the search, of those that bound best at its root
)

// A set says how many parts there are of each size.
type set []int

// A search looks for the fewest pages. Sizes include the gap on their right and upper side, and so does the page.
type search struct {
	page    geom.Size
	sizes   []geom.Size // different ones, the largest area first
	of      [][]int     // the parts of each size, ascending
	weights []weights
	known   map[string]verdict

	steps int
	seen  map[string]int // what was left, and on how few pages the rest stood
	best  []set
	floor int
}

// A verdict says whether a set fits on a page, as far as that is known.
type verdict struct {
	fits, sure bool
	at         []geom.Point // where its parts lie, size by size
}

func newSearch(p Problem) *search {
	s := &search{page: geom.Size{W: p.Page.W + p.Gap, H: p.Page.H + p.Gap}, known: map[string]verdict{}, seen: map[string]int{}}
	byIndex := make([]int, len(p.Parts))
	for i := range byIndex {
		byIndex[i] = i
	}
	slices.SortStableFunc(byIndex, func(i, j int) int { return compareSizes(p.Parts[i], p.Parts[j]) })
	for n, i := range byIndex {
		if n == 0 || p.Parts[i] != p.Parts[byIndex[n-1]] {
			s.sizes = append(s.sizes, geom.Size{W: p.Parts[i].W + p.Gap, H: p.Parts[i].H + p.Gap})
			s.of = append(s.of, nil)
		}
		s.of[len(s.of)-1] = append(s.of[len(s.of)-1], i)
	}
	s.weights = boundWeights(s.sizes, s.page, s.all())
	return s
}

// compareSizes puts the larger area first, then the higher.
func compareSizes(a, b geom.Size) int {
	area := geom.Cross(geom.Pt(b.W, 0), geom.Pt(0, b.H)).Cmp(geom.Cross(geom.Pt(a.W, 0), geom.Pt(0, a.H)))
	return cmp.Or(area, cmp.Compare(b.H, a.H))
}

// all returns the set of all parts.
func (s *search) all() set {
	n := make(set, len(s.of))
	for i, list := range s.of {
		n[i] = len(list)
	}
	return n
}

// bound returns a number of pages that the set can't do with less of.
func (s *search) bound(n set) int { return pages(s.weights, n) }

// fewest looks for the sets of fewer pages than upper, down to floor. It returns nil when it finds none; complete tells
// that there are none with fewer pages than it returned, or than upper.
func (s *search) fewest(upper, floor int) (best []set, complete bool) {
	s.floor = floor
	s.weights = s.weights[:min(len(s.weights), keptWeights)]
	complete = s.fill(s.all(), nil, upper)
	return s.best, complete || len(s.best) == floor
}

// fill packs what is left on pages after those done, fewer than upper in all; it reports whether it could look at
// everything that mattered.
func (s *search) fill(left set, done []set, upper int) bool {
	if s.best != nil {
		upper = min(upper, len(s.best))
	}
	first := slices.IndexFunc(left, func(k int) bool { return k > 0 })
	if first < 0 {
		s.best = slices.Clone(done)
		return true
	}
	if len(done)+pages(s.weights, left) >= upper {
		return true
	}
	if n, ok := s.seen[left.key()]; ok && n <= len(done) {
		return true
	}
	s.seen[left.key()] = len(done)
	complete := true
	on := make(set, len(left))
	on[first] = 1
	s.fillings(left, on, first, func() bool {
		rest := slices.Clone(left)
		for i, k := range on {
			rest[i] -= k
		}
		complete = s.fill(rest, append(done, slices.Clone(on)), upper) && complete
		return s.steps <= maxSteps && (s.best == nil || len(s.best) > s.floor)
	}, &complete)
	return complete && s.steps <= maxSteps
}

// fillings calls visit with on as each set that holds it, fits on a page, and leaves no room for more of what is left,
// until visit returns false; sizes before from stay as they are. It clears complete where it can't tell what fits.
func (s *search) fillings(left, on set, from int, visit func() bool, complete *bool) bool {
	if from == len(left) {
		if s.steps++; s.steps > maxSteps {
			return false
		}
		for i := range left {
			if on[i] < left[i] {
				on[i]++
				fits := s.fits(on, complete)
				on[i]--
				if fits {
					return true // another filling has it too
				}
			}
		}
		return visit()
	}
	least := on[from]
	defer func() { on[from] = least }()
	for on[from] < left[from] {
		on[from]++
		if !s.fits(on, complete) {
			on[from]--
			break
		}
	}
	for ; ; on[from]-- {
		if !s.fillings(left, on, from+1, visit, complete) {
			return false
		}
		if on[from] == least {
			return true
		}
	}
}

// fits reports whether a set fits on one page; where the steps run out it takes no for an answer and clears complete.
func (s *search) fits(n set, complete *bool) bool {
	v := s.decide(n)
	if !v.sure {
		*complete = false
	}
	return v.fits
}

func (s *search) decide(n set) verdict {
	key := n.key()
	v, ok := s.known[key]
	if !ok {
		v = s.place(n)
		s.known[key] = v
	}
	return v
}

// key returns the same text for equal sets alone.
func (n set) key() string {
	key := make([]byte, 0, 2*len(n))
	for _, k := range n {
		key = append(key, byte(k), byte(k>>8))
	}
	return string(key)
}

// parts gives the parts to the sets, those of one size in their order.
func (s *search) parts(sets []set) [][]int {
	next := make([]int, len(s.of))
	out := make([][]int, len(sets))
	for i, n := range sets {
		for size, k := range n {
			out[i] = append(out[i], s.of[size][next[size]:next[size]+k]...)
			next[size] += k
		}
		slices.Sort(out[i])
	}
	return out
}

// layout returns where parts that fit on a page lie, one for each, from the page's lower left corner.
func (s *search) layout(parts []int) []geom.Point {
	n := make(set, len(s.of))
	index := map[int]int{}
	for _, k := range parts {
		for size, list := range s.of {
			if _, in := slices.BinarySearch(list, k); in {
				index[k] = size
				n[size]++
			}
		}
	}
	at := s.decide(n).at
	first := make([]int, len(n)) // of each size in at
	for i := 1; i < len(n); i++ {
		first[i] = first[i-1] + n[i-1]
	}
	out := make([]geom.Point, len(parts))
	for i, k := range parts {
		size := index[k]
		out[i] = at[first[size]]
		first[size]++
	}
	return out
}
