package hanging

import (
	"cmp"
	"slices"

	"rodsheet/template/plan/layout"
)

// A graph has what must hang before what.
type graph struct {
	layout *layout.Layout
	before []Before // by Then and First, each pair once
	after  [][]Before
	waits  []int // for so many panels, of each panel that doesn't hang
	hung   []bool
}

func newGraph(l *layout.Layout, before []Before) *graph {
	before = slices.Clone(before)
	slices.SortStableFunc(before, func(a, b Before) int { return cmp.Or(cmp.Compare(a.Then, b.Then), cmp.Compare(a.First, b.First)) })
	before = slices.CompactFunc(before, func(a, b Before) bool { return a.First == b.First && a.Then == b.Then })
	g := &graph{layout: l, before: before, after: make([][]Before, len(l.Panels)), waits: make([]int, len(l.Panels)), hung: make([]bool, len(l.Panels))}
	for _, b := range before {
		g.after[b.First] = append(g.after[b.First], b)
		g.waits[b.Then]++
	}
	return g
}

// sort is an order of all panels, nil when there is none. It goes on along a run as long as the run lets it; then comes
// the first run that can be hung to its end, else the first panel that can be hung.
func (g *graph) sort() []int {
	order := make([]int, 0, len(g.waits))
	hang := func(panel int) {
		order = append(order, panel)
		g.hang(panel, 1)
	}
	for len(order) < len(g.waits) {
		run, first := g.nextRun()
		if first < 0 {
			return nil
		}
		for panel := first; panel >= 0; panel = g.ready(run) {
			hang(panel)
		}
	}
	return order
}

// hang hangs a panel, or takes it off again for a count of −1.
func (g *graph) hang(panel, count int) {
	g.hung[panel] = count > 0
	for _, b := range g.after[panel] {
		g.waits[b.Then] -= count
	}
}

// ready is the leftmost panel of a run that can be hung, −1 for none.
func (g *graph) ready(run int) int {
	for _, i := range g.layout.Runs[run].Panels {
		if !g.hung[i] && g.waits[i] == 0 {
			return i
		}
	}
	return -1
}

// nextRun is the first run that can be hung to its end, with the panel it begins with, else the first that can be begun;
// the panel is −1 when none can.
func (g *graph) nextRun() (run, panel int) {
	run, panel = -1, -1
	for r := range g.layout.Runs {
		first := g.ready(r)
		switch {
		case first < 0:
		case g.complete(r):
			return r, first
		case panel < 0:
			run, panel = r, first
		}
	}
	return run, panel
}

// complete reports whether what is left of a run can be hung one after the other.
func (g *graph) complete(run int) bool {
	var tried []int
	for i := g.ready(run); i >= 0; i = g.ready(run) {
		g.hang(i, 1)
		tried = append(tried, i)
	}
	left := slices.ContainsFunc(g.layout.Runs[run].Panels, func(i int) bool { return !g.hung[i] })
	for _, i := range tried {
		g.hang(i, -1)
	}
	return !left
}

// cycle is a shortest circle of panels that each must hang before the next, from its first panel on, with the reasons. It
// is for a graph that could not be sorted.
func (g *graph) cycle() (panels []int, reasons []Reason) {
	var best []Before
	for start := range g.waits {
		if g.hung[start] {
			continue
		}
		came := map[int]Before{} // by which edge a panel was reached
		queue := []int{start}
		for len(queue) > 0 {
			at := queue[0]
			queue = queue[1:]
			for _, b := range g.after[at] {
				if _, seen := came[b.Then]; !seen {
					came[b.Then] = b
					queue = append(queue, b.Then)
				}
			}
		}
		if _, round := came[start]; !round {
			continue
		}
		var way []Before
		for b := came[start]; ; b = came[b.First] {
			way = append(way, b)
			if b.First == start {
				break
			}
		}
		slices.Reverse(way)
		if best == nil || len(way) < len(best) {
			best = way
		}
	}
	for _, b := range best {
		panels, reasons = append(panels, b.First), append(reasons, b.Reason)
	}
	return panels, reasons
}

// After are the edges that lead to a panel.
func (o *Order) After(panel int) []Before {
	from, _ := slices.BinarySearchFunc(o.Before, panel, func(b Before, panel int) int { return cmp.Compare(b.Then, panel) })
	to, _ := slices.BinarySearchFunc(o.Before, panel+1, func(b Before, panel int) int { return cmp.Compare(b.Then, panel) })
	return o.Before[from:to]
}

// A Group is what runs have in common: some panels of one that hang before some of another, for one reason.
type Group struct {
	First, Then []int // into Layout.Panels, ascending
	Reason      Reason
}

// Groups draws what must hang before what together by runs.
func (o *Order) Groups(l *layout.Layout) []Group {
	type key struct {
		first, then int
		reason      Reason
	}
	var out []Group
	at := map[key]int{}
	for _, b := range o.Before {
		k := key{l.Panels[b.First].Run, l.Panels[b.Then].Run, b.Reason}
		i, known := at[k]
		if !known {
			i = len(out)
			at[k] = i
			out = append(out, Group{Reason: b.Reason})
		}
		out[i].First, out[i].Then = append(out[i].First, b.First), append(out[i].Then, b.Then)
	}
	for i := range out {
		for _, list := range []*[]int{&out[i].First, &out[i].Then} {
			slices.Sort(*list)
			*list = slices.Compact(*list)
		}
	}
	return out
}
