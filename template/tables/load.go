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
	t.fixings()
	t.holds()
	if len(assumed) > 0 {
		t.words("Taken for granted, since the job doesn't say: " + strings.Join(assumed, ", ") + ".")
	}
}

// fixings says what plugs and anchors that are used carry, where that is known.
func (t *tables) fixings() {
	told := map[fastening.FixingKind]bool{}
	for _, s := range t.p.Screws.Wall {
		f := s.Fixing
		if f.Carries == 0 || told[f.Kind] {
			continue
		}
		told[f.Kind] = true
		each := ""
		if n := len(t.p.Job.Clip.Wall.Holes); n > 1 {
			each = fmt.Sprintf(", %d of them %s", n, (f.Carries * job.Weight(n)).In(t.r.units))
		}
		t.words(fmt.Sprintf("One %s carries %s by its maker's sheet%s.", f.Kind, f.Carries.In(t.r.units), each))
	}
}

// holds says what the weakest wall screws in wood hold, where that is known.
func (t *tables) holds() {
	var least fastening.Holds
	worst := job.Weight(0)
	for _, l := range t.p.Loads {
		if h := l.Holds; h != (fastening.Holds{}) && (least == (fastening.Holds{}) || h.Top < least.Top) {
			least, worst = h, l.Worst
		}
	}
	if least == (fastening.Holds{}) {
		return
	}
	of := func(w job.Weight) string { return w.In(t.r.units) }
	text := fmt.Sprintf("Reference values, permanent load (NDS 2018, C_D 0.9), of the weakest wall screw in framing of gravity %.2f: withdrawal %s (12.2.2)", t.p.Job.Framing.Gravity, of(least.Withdrawal))
	if least.Lateral == 0 {
		t.words(text + "; lateral none, with less than 6 diameters in the wood (12.1.5.6). Nothing of the kind is worked out for linings or plywood.")
		return
	}
	text += fmt.Sprintf(", lateral %s. No table covers a clip that stands off the wood; that is by the yield equations of chapter 12 with lining and pad as a gap.", of(least.Lateral))
	if least.Depth < least.TenD {
		text += fmt.Sprintf(" Tables assume 10 diameters in the wood, %s; %s are there, and the value is reduced in proportion.", least.TenD.In(t.r.units), least.Depth.In(t.r.units))
	}
	if least.Top > 0 {
		text += fmt.Sprintf(" Pulled and loaded across as here the screws of a top clip come to %s (12.4.1), against %s that hang on it.", of(least.Top), of(worst))
	}
	t.words(text + " Nothing of the kind is worked out for linings or plywood.")
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
