package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/plan/tolerance"
	"rodsheet/template/typeset"
)

// budget says how far a hole may be off before the drill turns, for the print as it is: with these check lines, and
// corner jigs where there are any.
func (m *maker) budget() []typeset.Block {
	b := m.plan.Estimate(m.print())
	if b.Board < 0 {
		return nil
	}
	about := func(l geom.Length) string { return "± " + l.Roughly(m.plan.Job.Units) }
	how := "with the taped board template"
	if b.Jigs {
		how = "with corner jigs"
	}
	table := typeset.Table{
		Columns: []typeset.Column{{Head: "How far a hole may be off", Wrap: true}, {Head: "likely", Right: true}, {Head: "at worst", Right: true}},
		Rows: [][]typeset.Cell{
			typeset.Cells(fmt.Sprintf("hole to hole on board %s, %s", m.plan.Boards[b.Board].Name, how), about(b.HoleToHole.Expanded), about(b.HoleToHole.Worst)),
			typeset.Cells("board half to wall half", about(b.BoardToWall.Expanded), about(b.BoardToWall.Worst)),
		},
	}
	if b.Play > 0 {
		table.Rows = append(table.Rows, typeset.Cells("the clip lets the halves miss each other by", about(b.Play), ""))
	}
	text := "“Likely” holds about 95 times in 100 (errors added as squares, JCGM 100). The most comes from "
	var most tolerance.Contribution
	for _, t := range b.Contributions {
		if t.Worst > most.Worst {
			most = t
		}
	}
	text += fmt.Sprintf("%s (%s at worst).", most.Name, about(most.Worst))
	if len(b.Helps) > 0 {
		text += fmt.Sprintf(" What would help most: %s; %s would be left.", b.Helps[0].What, about(b.Helps[0].Expanded))
	}
	return []typeset.Block{typeset.Space{Height: 2 * mm}, table, typeset.Para{Text: text}}
}
