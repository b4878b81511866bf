package cover

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A WindowProblem asks for the fewest page windows, anywhere, so that every mark lies whole in one of them. The
// windows need neither meet nor keep apart.
type WindowProblem struct {
	Marks  []Mark
	Window geom.Size   // what one page can show, upright
	Turn   bool        // each page may be turned for itself
	Clear  geom.Length // each mark's circle is at least this far inside its window
}

// A Window is one page of a [Windows].
type Window struct {
	geom.Rect       // what the page shows, always a whole page
	Turned    bool  // the page lies on its side
	Marks     []int // the marks that this page is for; they may show on others too
}

// Windows is the answer to a [WindowProblem].
type Windows struct {
	Windows []Window // from left to right, then from the bottom up
	Bound   int      // no fewer windows can do
	Proved  bool     // the windows are as few as the bound
}

// Solve finds few windows, the fewest if Proved. Each mark belongs to exactly one, and each window is slid so that
// its marks stand in its middle. It returns an [*InputError] for a problem that makes no sense, and a [*TooLargeError]
// for a mark that fits on no page.
func (p WindowProblem) Solve() (Windows, error) {
	if err := p.check(); err != nil {
		return Windows{}, err
	}
	if len(p.Marks) == 0 {
		return Windows{Proved: true}, nil
	}
	sheets := p.sheets()
	sets := make([]bits, len(sheets))
	for i, s := range sheets {
		sets[i] = newBits(len(p.Marks))
		for _, k := range s.marks {
			sets[i].set(k)
		}
	}
	chosen, bound := choose(len(p.Marks), sets)
	w := Windows{Bound: bound, Proved: len(chosen) == bound}
	boxes := make([]geom.Rect, len(chosen))
	for i, c := range chosen {
		boxes[i] = sheets[c].box
		w.Windows = append(w.Windows, Window{})
	}
	for k, m := range p.Marks {
		best := -1
		var far geom.Length
		for i, c := range chosen {
			if !sets[c].has(k) {
				continue
			}
			// The nearer the middle of what the page can hold, the more room will be left around the mark.
			d := m.At.Sub(boxes[i].Centre())
			if off := max(d.X.Abs(), d.Y.Abs()); best < 0 || off < far {
				best, far = i, off
			}
		}
		w.Windows[best].Marks = append(w.Windows[best].Marks, k)
	}
	for i := range w.Windows {
		p.slide(&w.Windows[i])
	}
	slices.SortFunc(w.Windows, func(s, t Window) int {
		return cmp.Or(cmp.Compare(s.Min.X, t.Min.X), cmp.Compare(s.Min.Y, t.Min.Y), cmp.Compare(s.Marks[0], t.Marks[0]))
	})
	return w, nil
}

func (p WindowProblem) check() error {
	if err := checkWindow(p.Window, p.Clear); err != nil {
		return err
	}
	if err := checkMarks(p.Marks); err != nil {
		return err
	}
	for i, m := range p.Marks {
		if !p.fits(m.box(p.Clear)) {
			return &TooLargeError{Mark: i, R: m.R, Clear: p.Clear, Window: p.Window}
		}
	}
	return nil
}

func holds(w geom.Size, r geom.Rect) bool { return r.W() <= w.W && r.H() <= w.H }

// fits reports whether some page can hold r.
func (p WindowProblem) fits(r geom.Rect) bool {
	return holds(p.Window, r) || p.Turn && holds(p.Window.Turned(), r)
}

// slide puts the window's marks in its middle, on the page way up that leaves more room.
func (p WindowProblem) slide(w *Window) {
	box := p.Marks[w.Marks[0]].box(p.Clear)
	for _, k := range w.Marks {
		box = box.Union(p.Marks[k].box(p.Clear))
	}
	room := func(s geom.Size) geom.Length { return min(s.W-box.W(), s.H-box.H()) }
	size := p.Window
	if t := size.Turned(); p.Turn && room(t) > room(size) {
		size, w.Turned = t, true
	}
	w.Min = geom.Pt(box.Min.X-(size.W-box.W())/2, box.Min.Y-(size.H-box.H())/2)
	w.Max = w.Min.Add(geom.Pt(size.W, size.H))
}

// A sheet is a set of marks that one page can hold, and their box.
type sheet struct {
	marks []int
	box   geom.Rect
}

// sheets returns the sets that a page can hold and that no further mark can join. Any window can be slid up and right
// until its left and lower edges touch marks and lose none, so only such windows are looked at. Order is by marks.
func (p WindowProblem) sheets() []sheet {
	boxes := make([]geom.Rect, len(p.Marks))
	order := make([]int, len(p.Marks))
	var widest geom.Length
	for i, m := range p.Marks {
		boxes[i], order[i] = m.box(p.Clear), i
		widest = max(widest, boxes[i].W())
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(boxes[i].Min.X, boxes[j].Min.X), cmp.Compare(boxes[i].Min.Y, boxes[j].Min.Y), cmp.Compare(i, j))
	})
	long := max(p.Window.W, p.Window.H)
	after := func(x geom.Length) int { // the first in order whose left edge is at x or beyond
		i, _ := slices.BinarySearchFunc(order, x, func(k int, x geom.Length) int { return cmp.Compare(boxes[k].Min.X, x) })
		return i
	}
	var out []sheet
	sizes := []geom.Size{p.Window}
	if p.Turn && p.Window.W != p.Window.H {
		sizes = append(sizes, p.Window.Turned())
	}
	for _, size := range sizes {
		for at, first := range order {
			left := boxes[first]
			if !holds(size, left) || at > 0 && boxes[order[at-1]] == left {
				continue
			}
			var in []int // what may share the page with first, when first touches its left edge
			for _, k := range order[after(left.Min.X):] {
				if boxes[k].Min.X > left.Min.X+size.W {
					break
				}
				if holds(size, left.Union(boxes[k])) {
					in = append(in, k)
				}
			}
			slices.SortFunc(in, func(i, j int) int { return cmp.Or(cmp.Compare(boxes[i].Min.Y, boxes[j].Min.Y), cmp.Compare(i, j)) })
			for n, low := range in {
				bottom := boxes[low].Min.Y
				if bottom > left.Min.Y {
					break
				}
				if n > 0 && boxes[in[n-1]].Min.Y == bottom {
					continue
				}
				s := sheet{box: left}
				for _, k := range in[n:] {
					if boxes[k].Max.Y <= bottom+size.H {
						s.marks, s.box = append(s.marks, k), s.box.Union(boxes[k])
					}
				}
				if s.box.Max.Y > bottom+size.H {
					continue // first itself sticks out
				}
				slices.Sort(s.marks)
				grows := false
				for _, k := range order[after(s.box.Max.X-long-widest):] {
					if boxes[k].Min.X > s.box.Min.X+long {
						break
					}
					if _, is := slices.BinarySearch(s.marks, k); !is && p.fits(s.box.Union(boxes[k])) {
						grows = true
						break
					}
				}
				if !grows {
					out = append(out, s)
				}
			}
		}
	}
	slices.SortFunc(out, func(s, t sheet) int { return slices.Compare(s.marks, t.marks) })
	return slices.CompactFunc(out, func(s, t sheet) bool { return slices.Equal(s.marks, t.marks) })
}
