package tables

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/tolerance"
)

// loads lists weights and pulls, panels with the same figures in one row.
func (t *tables) loads() {
	if len(t.p.Loads) != len(t.p.Panels) || len(t.p.Panels) == 0 {
		return
	}
	var rows [][]string
	var panels [][]int
	var assumed []string
	for i, l := range t.p.Loads {
		var row []string
		for _, w := range []job.Weight{l.Board, l.Foam, l.Batting, l.Cover, l.Total, l.Most, l.Pull} {
			row = append(row, w.Bare(t.r.units))
		}
		at := slices.IndexFunc(rows, func(other []string) bool { return slices.Equal(other, row) })
		if at < 0 {
			at, rows, panels = len(rows), append(rows, row), append(panels, nil)
		}
		panels[at] = append(panels[at], i)
		for _, a := range l.Assumed {
			if !slices.Contains(assumed, a) {
				assumed = append(assumed, a)
			}
		}
	}
	unit := "kg"
	if t.r.units == geom.Imperial {
		unit = "lb"
	}
	t.head("WEIGHTS in %s; this is arithmetic, not a licence", unit)
	tab := Table{Heads: []string{">board", ">foam", ">batting", ">cover", ">panel", ">most on a clip", ">pull on a top clip", "panels"}}
	for i, row := range rows {
		tab.Add(append(row, t.p.PanelNames(panels[i]))...)
	}
	t.table(&tab)
	if c := t.p.Job.Clip.Carries; c > 0 {
		t.words(fmt.Sprintf("A clip carries %s by its maker's sheet.", c.In(t.r.units)))
	}
	if least := withdrawal(t.p.Loads); least > 0 {
		t.words(fmt.Sprintf("A wall screw in framing of gravity %.2f holds at least %s against a straight pull (NDS 12.2); nothing of the kind is worked out for linings or plywood.",
			t.p.Job.Framing.Gravity, least.In(t.r.units)))
	}
	if len(assumed) > 0 {
		t.words("Taken for granted, since the job doesn't say: " + strings.Join(assumed, ", ") + ".")
	}
}

// withdrawal is the least that a wall screw in wood holds; 0 where none is in wood of known gravity.
func withdrawal(loads []fastening.Load) (least job.Weight) {
	for _, l := range loads {
		if l.PullOut > 0 && (least == 0 || l.PullOut < least) {
			least = l.PullOut
		}
	}
	return least
}

// budget lists how far holes may be off.
func (t *tables) budget() {
	b := t.p.Budget
	if b.Board < 0 || b.Board >= len(t.p.Boards) || b.HoleToHole == (tolerance.Uncertainty{}) {
		return
	}
	t.head("HOW FAR HOLES MAY BE OFF, against a play of %s in the clip", b.Play.Roughly(t.r.units))
	tab := Table{Heads: []string{"", ">likely, 95 in 100", ">at the worst"}}
	rough := func(l geom.Length) string { return l.Roughly(t.r.units) }
	tab.Add(fmt.Sprintf("two holes of board %s", t.p.Boards[b.Board].Name), rough(b.HoleToHole.Expanded), rough(b.HoleToHole.Worst))
	tab.Add("board to wall", rough(b.BoardToWall.Expanded), rough(b.BoardToWall.Worst))
	t.table(&tab)
	if len(b.Contributions) > 0 {
		var parts []string
		for _, term := range b.Contributions {
			if term.Worst >= geom.Millimetre/20 {
				parts = append(parts, term.Name+" "+rough(term.Worst))
			}
		}
		t.words("At the worst, between two holes: " + strings.Join(parts, ", ") + ".")
	}
	if len(b.Helps) > 0 {
		t.words(fmt.Sprintf("Most would help to %s; that leaves %s.", b.Helps[0].What, rough(b.Helps[0].Expanded)))
	}
}
