package sheet

import (
	"rodsheet/geom"
	"rodsheet/template/plan"
	"rodsheet/template/plan/tolerance"
)

// Print returns what a print of a plan's sheets means for how far holes may be off.
func Print(p *plan.Plan, o Options) tolerance.Print {
	m := &maker{plan: p, options: o}
	return m.print()
}

func (m *maker) print() tolerance.Print {
	long := LongLines(m.options.Printable, m.plan.Job.Units)
	out := tolerance.Print{Line: [2]geom.Length{long.Across, long.Down}, Page: m.options.Field, Jigs: make([][]tolerance.SetOut, len(m.plan.Boards))}
	side := m.boardSide()
	for i, corners := range m.allCorners() {
		if corners != nil {
			out.Jigs[i] = m.setOut(i, corners, side)
		}
	}
	return out
}

// setOut tells how the jigs of a board set its holes out, in the order of clips and their holes.
func (m *maker) setOut(board int, corners []corner, side Side) []tolerance.SetOut {
	b := &m.plan.Boards[board]
	v := viewOf(b, side)
	n := len(v.outline)
	byClip := make([]tolerance.SetOut, len(b.Clips))
	for page, c := range corners {
		// A view is its own way back.
		at, next := v.to.Apply(v.outline[c.at]), v.to.Apply(v.outline[(c.at+1)%n])
		for _, k := range c.of {
			set := tolerance.SetOut{Page: page, Settings: [2]tolerance.Setting{{Edge: at.X, From: at.X}, {Edge: at.Y, From: at.Y}}}
			if c.onEdge() {
				along, end := 0, at
				if (next.Y - at.Y).Abs() > (next.X - at.X).Abs() {
					along = 1
				}
				if c.fromNext {
					end = next
				}
				set.Settings[along] = tolerance.Setting{Edge: [2]geom.Length{end.X, end.Y}[along], From: [2]geom.Length{b.Clips[k].Board.X, b.Clips[k].Board.Y}[along]}
			}
			byClip[k] = set
		}
	}
	var out []tolerance.SetOut
	for k, c := range b.Clips {
		for range c.BoardHoles {
			out = append(out, byClip[k])
		}
	}
	return out
}
