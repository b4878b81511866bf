package cover

import (
	"cmp"
	"slices"

	"rodsheet/geom"
)

// A WindowProblem asks for the fewest page windows, anywhere, so that every mark lies whole in one of them. The
// windows need neither meet nor keep apart.
type WindowProblem struct {
	Marks   []Mark
	Windows []geom.Size // what a page can show, for each way up it may lie; each page lies for itself
	Clear   geom.Length // each mark's circle is at least this far inside its window
}

// A Window is one page of a [Windows].
type Window struct {
	geom.Rect       // what the page shows, always a whole page
	Way       int   // which of the problem's Windows was taken: the first that holds the marks
	Marks     []int // the marks that this page is for; they may show on others too
}

// Windows is the answer to a [WindowProblem].
type Windows struct {
	Windows []Window // from left to right, then from the bottom up
	Bound   int      // no fewer windows can do
	Proved  bool     // the windows are as few as the bound
}

// Solve finds few windows, the fewest if Proved, and of equally few such as lie all the same way if it finds any, the
// first way in Windows before the others. Each mark belongs to exactly one window, and each window is slid so that its
// marks stand in its middle. It returns an [*InputError] for a problem that makes no sense, and a [*TooLargeError] for
// a mark that fits on no page.
func (p WindowProblem) Solve() (Windows, error) {
	if err := p.check(); err != nil {
		return Windows{}, err
	}
	if len(p.Marks) == 0 {
		return Windows{Proved: true}, nil
	}
	best := p.solve()
	for way := len(p.Windows) - 1; way >= 0 && len(p.Windows) > 1; way-- {
		one := p
		one.Windows = p.Windows[way : way+1]
		if one.check() != nil {
			continue
		}
		alike := one.solve()
		if len(alike.Windows) > len(best.Windows) {
			continue
		}
		for i := range alike.Windows {
			alike.Windows[i].Way = way
		}
		best.Windows = alike.Windows
	}
	best.Proved = len(best.Windows) == best.Bound
	return best, nil
}

func (p WindowProblem) check() error {
	if err := checkWindows(p.Windows, p.Clear); err != nil {
		return err
	}
	if err := checkMarks(p.Marks); err != nil {
		return err
	}
	for i, m := range p.Marks {
		if !p.fits(m.box(p.Clear)) {
			return &TooLargeError{Mark: i, R: m.R, Clear: p.Clear, Window: p.Windows[0]}
		}
	}
	return nil
}

func holds(w geom.Size, r geom.Rect) bool { return r.W() <= w.W && r.H() <= w.H }

// fits reports whether some page can hold r.
func (p WindowProblem) fits(r geom.Rect) bool {
	return slices.ContainsFunc(p.Windows, func(w geom.Size) bool { return holds(w, r) })
}

// solve is Solve for a problem that has been checked, with pages that may lie each for itself.
func (p WindowProblem) solve() Windows {
	candidates := p.candidates()
	sets := make([]bits, len(candidates))
	for i, c := range candidates {
		sets[i] = newBits(len(p.Marks))
		for _, k := range c.marks {
			sets[i].set(k)
		}
	}
	chosen, bound := solveSetCover(len(p.Marks), sets)
	w := Windows{Windows: make([]Window, len(chosen)), Bound: bound}
	for k, m := range p.Marks {
		best := -1
		var far geom.Length
		for i, c := range chosen {
			if !sets[c].has(k) {
				continue
			}
			// The nearer the middle of what the page can hold, the more room will be left around the mark.
			d := m.At.Sub(candidates[c].box.Centre())
			if off := max(d.X.Abs(), d.Y.Abs()); best < 0 || off < far {
				best, far = i, off
			}
		}
		w.Windows[best].Marks = append(w.Windows[best].Marks, k)
	}
	for i := range w.Windows {
		p.centre(&w.Windows[i])
	}
	slices.SortFunc(w.Windows, func(s, t Window) int {
		return cmp.Or(cmp.Compare(s.Min.X, t.Min.X), cmp.Compare(s.Min.Y, t.Min.Y), cmp.Compare(s.Marks[0], t.Marks[0]))
	})
	return w
}

// centre puts the window's marks in its middle.
func (p WindowProblem) centre(w *Window) {
	box := p.Marks[w.Marks[0]].box(p.Clear)
	for _, k := range w.Marks {
		box = box.Union(p.Marks[k].box(p.Clear))
	}
	w.Way = slices.IndexFunc(p.Windows, func(s geom.Size) bool { return holds(s, box) })
	size := p.Windows[w.Way]
	w.Min = geom.Pt(box.Min.X-(size.W-box.W())/2, box.Min.Y-(size.H-box.H())/2)
	w.Max = w.Min.Add(geom.Pt(size.W, size.H))
}
