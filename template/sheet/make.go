package sheet

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan"
	"rodsheet/template/rule"
)

// A maker draws the sheets of one plan.
type maker struct {
	plan     *plan.Plan
	findings []rule.Finding
	options  Options
}

// Of makes the sheets that a plan needs, in the order of the set; Options.Only narrows the kinds. Without Only, boards
// whose every hole a corner jig reaches get no board template.
func Of(p *plan.Plan, findings []rule.Finding, o Options) []drawing.Sheet {
	m := &maker{plan: p, findings: findings, options: o}
	wanted := func(k drawing.Kind) bool { return len(o.Only) == 0 || slices.Contains(o.Only, k) }
	var work []drawing.Sheet
	add := func(k drawing.Kind, make func() []drawing.Sheet) {
		if wanted(k) {
			work = append(work, make()...)
		}
	}
	corners, covered := m.corners()
	add(Corner, func() []drawing.Sheet { return corners })
	add(Board, func() []drawing.Sheet {
		boards := m.boards()
		if len(o.Only) > 0 {
			return boards
		}
		var out []drawing.Sheet
		for i, s := range boards {
			if !covered[i] {
				out = append(out, s)
			}
		}
		return out
	})
	add(Wall, m.walls)
	add(Rod, m.rods)
	add(Block, m.blocks)
	add(Shim, m.shims)
	add(Fold, m.folds)
	add(Cutting, m.cuttings)

	var out []drawing.Sheet
	if wanted(Scale) {
		out = append(out, ScaleSheet(o, p.Job, m.budget()...))
	}
	if wanted(Overview) {
		out = append(out, m.overview(append(slices.Clone(out), work...)))
	}
	return append(out, work...)
}

// read writes a length as the job's people read it.
func (m *maker) read(l geom.Length) string { return l.In(m.plan.Job.Units) }

// sizeOf writes a size as the job's people read it.
func (m *maker) sizeOf(s geom.Size) string { return s.In(m.plan.Job.Units) }

// marker is the diameter of the bit that marks and drills holes.
func (m *maker) marker() geom.Length { return m.plan.Job.Screws.Marker }

// boardDrill is how a board's holes are drilled.
func (m *maker) boardDrill() string { return m.plan.Screws.Board.Hole.Text(m.plan.Job.Units) }

// fromLine is a height as it is read from the marked line; "" when none is marked.
func (m *maker) fromLine(height geom.Length) string { return m.plan.Job.FromLine(height, m.read) }
