package plan

import "rodsheet/template/plan/tolerance"

// Estimate works out the tolerance budget for a print.
func (p *Plan) Estimate(print tolerance.Print) tolerance.Budget {
	return tolerance.Estimate(p.Job, p.drilled(), p.Screws.DrillThrough, print)
}

// Judge works out the tolerance budget for the usual print, and notes what of it is to be known before drilling.
func (p *Plan) Judge(print tolerance.Print) {
	p.Budget = p.Estimate(print)
	p.Findings = append(p.Findings, tolerance.Check(p.Job, p.drilled(), print, p.Budget)...)
}

// drilled are the boards as the tolerance budget sees them.
func (p *Plan) drilled() []tolerance.Board {
	boards := make([]tolerance.Board, len(p.Boards))
	for i, b := range p.Boards {
		boards[i] = tolerance.Board{Name: b.Name, Panels: p.NamesOf(b.Panels), Size: b.Size}
		for _, c := range b.Clips {
			boards[i].Holes = append(boards[i].Holes, c.BoardHoles...)
		}
	}
	return boards
}
