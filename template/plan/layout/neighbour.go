package layout

import (
	"cmp"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/plan/finding"
)

// RunsOverlap: finished panels of two runs of a wall lie over each other.
type RunsOverlap struct {
	Runs   [2]string
	Across geom.Span // bounds of what both cover
	Up     geom.Span
}

// ID implements [finding.Params].
func (RunsOverlap) ID() string { return "runs-overlap" }

// RunsNear: finished panels of two runs of a wall are nearer to each other than the gap.
type RunsNear struct {
	Runs   [2]string
	Stands geom.Length
	Gap    geom.Length // the larger one of the two runs
}

// ID implements [finding.Params].
func (RunsNear) ID() string { return "runs-near" }

// EdgesUneven: tops, or bottoms, of neighbouring runs are nearly level.
type EdgesUneven struct {
	Edge string // "top" or "bottom"
	Runs [2]string
	At   [2]geom.Length // where the runs come nearest to each other
	Off  geom.Length
}

// ID implements [finding.Params].
func (EdgesUneven) ID() string { return "edges-uneven" }

// checkNeighbours reports runs of a wall that lie over each other or too near, and neighbouring runs, also round a
// corner, whose edges are nearly level. Its price is the square of a wall's runs and panels.
func (p *planner) checkNeighbours() {
	rows := make([][]flanked, len(p.Walls))
	for w := range p.Walls {
		for k, i := range p.Walls[w].Runs {
			for _, other := range p.Walls[w].Runs[:k] {
				p.checkApart(&p.Runs[other], &p.Runs[i])
			}
			if len(p.Runs[i].Panels) > 0 {
				rows[w] = append(rows[w], p.flanked(&p.Runs[i]))
			}
		}
	}
	for w, row := range rows {
		for _, a := range row {
			for _, b := range a.nextIn(row) {
				p.checkLevel(a, b)
			}
		}
		next, ok := p.afterCorner(w)
		if !ok {
			continue
		}
		for _, a := range last(row) {
			for _, b := range first(rows[next]) {
				if a.right.faces(b.left) {
					p.checkLevel(a, b)
				}
			}
		}
	}
}

// checkApart holds the finished panels of two runs of a wall against each other.
func (p *planner) checkApart(a, b *Run) {
	gap := max(a.Job.Gap, b.Job.Gap)
	var over geom.Rect // bounds of what both cover
	var under, near []int
	least := gap
	for _, i := range a.Panels {
		for _, k := range b.Panels {
			first, second := p.Panels[i].Finished, p.Panels[k].Finished
			if !first.Bounds().Inset(-gap).InteriorIntersects(second.Bounds()) {
				continue
			}
			if first.InteriorIntersects(second) {
				box := first.Bounds().Intersection(second.Bounds())
				if len(under) > 0 {
					box = box.Union(over)
				}
				over, under = box, append(under, i, k)
			} else if d := first.DistanceToPolygon(second); d < gap {
				least, near = min(least, d), append(near, i, k)
			}
		}
	}
	runs := [2]string{a.Name, b.Name}
	switch {
	case len(under) > 0:
		p.found.Add(p.bothRuns(a, b, under), ExtentField(b.Job), RunsOverlap{
			Runs: runs, Across: geom.Span{From: over.Min.X, To: over.Max.X}, Up: geom.Span{From: over.Min.Y, To: over.Max.Y},
		})
	case len(near) > 0:
		p.found.Add(p.bothRuns(a, b, near), ExtentField(b.Job), RunsNear{Runs: runs, Stands: least, Gap: gap})
	}
}

// bothRuns are two runs, with some of their panels. It stands in the job file where the second does.
func (p *planner) bothRuns(a, b *Run, panels []int) finding.Subject {
	slices.Sort(panels)
	return finding.Subject{Kind: finding.Run, Names: []string{a.Name, b.Name}, Panels: p.NamesOf(slices.Compact(panels)), Key: b.Job.Key}
}

// A flanked run is a run with the left and right ends of its panels.
type flanked struct {
	run         *Run
	left, right flank
}

// A flank is where panels end.
type flank struct {
	at          geom.Length
	bottom, top geom.Length // of the edges there
}

// faces reports whether two flanks have a height in common.
func (f flank) faces(g flank) bool { return f.bottom < g.top && g.bottom < f.top }

func (p *planner) flanked(run *Run) flanked {
	f := flanked{run: run}
	for n, i := range run.Panels {
		b := p.Panels[i].Finished.Bounds()
		if n == 0 || b.Min.X < f.left.at {
			f.left.at = b.Min.X
		}
		if n == 0 || b.Max.X > f.right.at {
			f.right.at = b.Max.X
		}
	}
	for _, end := range []*flank{&f.left, &f.right} {
		met := false
		for _, i := range run.Panels {
			for _, q := range p.Panels[i].Finished {
				if q.X != end.at {
					continue
				}
				if !met {
					end.bottom, end.top, met = q.Y, q.Y, true
				}
				end.bottom, end.top = min(end.bottom, q.Y), max(end.top, q.Y)
			}
		}
	}
	return f
}

// nextIn are the runs of a wall's row that stand next to the right of one, with none between.
func (f flanked) nextIn(row []flanked) (out []flanked) {
	facing := slices.DeleteFunc(slices.Clone(row), func(g flanked) bool { return g.left.at < f.right.at || !g.left.faces(f.right) })
	if len(facing) == 0 {
		return nil
	}
	ends := slices.MinFunc(facing, func(g, h flanked) int { return cmp.Compare(g.right.at, h.right.at) }).right.at
	return slices.DeleteFunc(facing, func(g flanked) bool { return g.left.at >= ends })
}

// last are the runs of a row with nothing to their right, first those with nothing to their left.
func last(row []flanked) []flanked {
	return slices.DeleteFunc(slices.Clone(row), func(f flanked) bool {
		return slices.ContainsFunc(row, func(g flanked) bool { return g.left.at >= f.right.at && g.left.faces(f.right) })
	})
}

func first(row []flanked) []flanked {
	return slices.DeleteFunc(slices.Clone(row), func(f flanked) bool {
		return slices.ContainsFunc(row, func(g flanked) bool { return g.right.at <= f.left.at && g.right.faces(f.left) })
	})
}

// checkLevel reports tops and bottoms that are nearly level where a run ends and its neighbour begins: apart by less than
// looks meant, and by more than sawing to whole steps explains.
func (p *planner) checkLevel(a, b flanked) {
	units := p.Job.Units
	check := func(edge, field string, first, second geom.Length) {
		off := (first - second).Abs()
		if off <= max(units.Pick(geom.Inch/16, 3*geom.Millimetre/2), p.sawStep()) || off >= units.Pick(geom.Inch, 25*geom.Millimetre) {
			return
		}
		p.found.Add(p.bothRuns(a.run, b.run, nil), field,
			EdgesUneven{Edge: edge, Runs: [2]string{a.run.Name, b.run.Name}, At: [2]geom.Length{first, second}, Off: off})
	}
	check("top", TopField(b.run.Job), a.right.top, b.left.top)
	check("bottom", BottomField(b.run.Job), a.right.bottom, b.left.bottom)
}
