package plan

import "rodsheet/template/plan/tolerance"

// Estimate works out the tolerance budget for a print.
func (p *Plan) Estimate(print tolerance.Print) tolerance.Budget {
	return tolerance.Estimate(p.Job, p.drilled(), p.Screws.DrillThrough, print)
}

// drilled are the boards as the tolerance budget sees them. Panels of several runs may share a board; the first one's
// run says which template it gets.
func (p *Plan) drilled() []tolerance.Board {
	boards := make([]tolerance.Board, len(p.Boards))
	for i, b := range p.Boards {
		boards[i] = tolerance.Board{Name: b.Name, Panels: p.NamesOf(b.Panels), Outline: b.Outline, Size: b.Size}
		for _, c := range b.Clips {
			boards[i].Holes = append(boards[i].Holes, c.BoardHoles...)
		}
		if len(b.Panels) > 0 {
			boards[i].Template = p.Runs[p.Panels[b.Panels[0]].Run].Job.Template
		}
	}
	return boards
}
