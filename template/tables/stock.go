package tables

import (
	"fmt"

	"rodsheet/template/job"
	"rodsheet/template/plan/layout"
)

func (t *tables) screws() {
	s := &t.p.Screws
	tab := Table{Heads: []string{">number", "screw", "for", "hole"}}
	if s.Board.Count > 0 && s.Board.Screw.Length > 0 {
		tab.Add(fmt.Sprint(s.Board.Count), t.screw(s.Board.Screw), "board halves, from the back", s.Board.Hole.Text(t.r.units))
	}
	for _, w := range s.Wall {
		into := "wall halves on " + t.p.Walls[w.Wall].Job.Name + ", " + string(w.On)
		screw, hole := t.screw(w.Screw), w.Hole.Text(t.r.units)
		switch {
		case w.On == layout.OnLining && w.Fixing.Kind == "": // a wood screw has nothing to hold in there
			screw, hole = "fixing", "made for the lining; hole by its maker"
		case w.On == layout.OnLining:
			screw = "anchor"
		case w.On == layout.OnMasonry:
			hole += "; " + w.Fixing.Text(t.r.units)
		case w.Screw.Length == 0:
			continue
		}
		tab.Add(fmt.Sprint(w.Count), screw, into, hole)
	}
	if len(tab.rows) > 0 {
		t.head("SCREWS AND HOLES")
		t.table(&tab)
	}
}

func (t *tables) screw(s job.Screw) string {
	if s.Gauge > 0 {
		return fmt.Sprintf("#%d × %s", s.Gauge, t.r.of(s.Length))
	}
	return t.r.of(s.Diameter) + " × " + t.r.of(s.Length)
}

func (t *tables) blocks() {
	tab := blockTable(t.p, t.r)
	if len(tab.rows) > 0 {
		t.head("HEIGHT BLOCKS, stood on the deck")
		t.table(tab)
	}
}

func (t *tables) shims() {
	s := t.p.Shims
	if s.Count == 0 {
		return
	}
	spare := ""
	if s.Spares > 0 {
		spare = fmt.Sprintf(" and %d spare", s.Spares)
	}
	t.head("PADS behind the wall halves: %d%s, %s thick, %s", s.Count, spare, t.r.of(s.Thickness), t.r.size(s.Size))
}
