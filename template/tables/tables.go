// Package tables writes a plan, its findings and its lists as text for people, in tables that fit a hundred columns.
package tables

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/page"
	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/rule"
)

// tables is a text under way.
type tables struct {
	p *plan.Plan
	r reader
	b strings.Builder
}

func (t *tables) head(format string, args ...any) { fmt.Fprintf(&t.b, "\n"+format+"\n", args...) }

// words adds a paragraph under a head.
func (t *tables) words(text string) { t.b.WriteString(Hang("  ", text)) }

func (t *tables) table(tab *Table) { t.b.WriteString(tab.Text("  ")) }

// Plan writes a plan to saw and drill by. The counts are of its sheets; where they could not be laid out, whyNot says why.
// The job is called name on a command line.
func Plan(w *template.Work, counts []page.Count, whyNot, name string) string {
	t := tables{p: w.Plan, r: reader{w.Job.Units}}
	t.all()
	t.sheets(counts, whyNot)
	t.findings(w.Findings, name)
	return strings.TrimLeft(t.b.String(), "\n")
}

func (t *tables) all() {
	j := t.p.Job
	about := "≈ stands before what is rounded to 1/32"
	if j.Units == geom.Metric {
		about = "≈ stands before what is rounded to 0.5"
	}
	fmt.Fprintf(&t.b, "%s, all lengths in %s; %s\n", j.Name, t.r.unitName(), about)
	zero := "Zero is level with the floor at the left end of the first wall"
	if j.Line > 0 {
		zero += "; the marked line is " + t.r.of(j.Line) + " above it"
	}
	t.b.WriteString(Hang("", zero+"."))
	t.panels()
	t.boards()
	t.boardClips()
	t.wallClips()
	t.gaps()
	t.heights()
	t.hanging()
	t.screws()
	t.blocks()
	t.shims()
	t.loads()
	t.budget()
}

func (t *tables) panels() {
	t.head("PANELS, where they hang: from the wall's left end, and above zero")
	tab := Table{Heads: []string{"panel", "wall", ">finished", ">board", "cut as", ">left", ">right", ">bottom", ">top"}}
	for i := range t.p.Panels {
		p := &t.p.Panels[i]
		f := p.Finished.Bounds()
		tab.Add(p.Name, t.p.Walls[p.Wall].Job.Name, t.r.size(f.Size()), t.r.size(p.Outline.Bounds().Size()), t.p.Boards[p.Board].Name,
			t.r.of(f.Min.X), t.r.of(f.Max.X), t.r.of(f.Min.Y), t.r.of(f.Max.Y))
	}
	t.table(&tab)
}

func (t *tables) boards() {
	t.head("BOARDS, bare, to be cut: width × height")
	tab := Table{Heads: []string{"board", ">cut", ">size", ">diagonal", "panels"}}
	for i := range t.p.Boards {
		b := &t.p.Boards[i]
		panels := t.p.PanelNames(b.Panels)
		if b.Twin >= 0 {
			panels += fmt.Sprintf(" (%s seen from the other side)", t.p.Boards[b.Twin].Name)
		}
		tab.Add(b.Name, fmt.Sprint(len(b.Panels)), t.r.size(b.Size), t.diagonals(b), panels)
	}
	t.table(&tab)
	for i := range t.p.Boards {
		b := &t.p.Boards[i]
		if !b.Outline.IsRectangle() {
			fmt.Fprintf(&t.b, "  Board %s, its corners, from the left and from the bottom, seen from the face:\n%s", b.Name, Hang("    ", t.r.points(b.Outline)))
		}
	}
}

// diagonals returns what a tape must show across a board of four corners.
func (t *tables) diagonals(b *layout.Board) string {
	rising, falling, four := b.Outline.Diagonals()
	switch {
	case b.Outline.IsRectangle():
		return t.r.of(rising)
	case four:
		return t.r.of(rising) + ", " + t.r.of(falling)
	}
	return "see corners"
}

func (t *tables) boardClips() {
	t.head("CLIPS ON THE BOARDS: middle of the board half, from the board's edges")
	if slices.ContainsFunc(t.p.Boards, func(b layout.Board) bool { return !b.Outline.IsRectangle() }) {
		t.words("On a board that is no rectangle: from the left end and the bottom end of its whole width and height, as its corners above.")
	}
	if where := t.holes(t.p.Job.Clip.Board.Holes, "seen from the face"); where != "" {
		t.words(where)
	}
	tab := Table{Heads: []string{"board", "clip", ">from the left, on the face", ">from the left, on the back", ">from the bottom"}}
	for i := range t.p.Boards {
		b := &t.p.Boards[i]
		for _, c := range b.Clips {
			tab.Add(b.Name, c.Place, t.r.of(c.Board.X), t.r.of(b.Size.W-c.Board.X), t.r.of(c.Board.Y))
		}
	}
	t.table(&tab)
}

// holes says where the screws of a clip go, unless it is its middle.
func (t *tables) holes(at []geom.Point, seen string) string {
	if len(at) == 0 || len(at) == 1 && at[0] == (geom.Point{}) {
		return ""
	}
	var parts []string
	for _, h := range at {
		parts = append(parts, t.away(h))
	}
	return fmt.Sprintf("Screw holes from that middle, %s: %s.", seen, strings.Join(parts, "; "))
}

// away says how far and which way a place is from another.
func (t *tables) away(d geom.Point) string {
	var parts []string
	one := func(l geom.Length, more, less string) {
		switch {
		case l > 0:
			parts = append(parts, t.r.of(l)+" "+more)
		case l < 0:
			parts = append(parts, t.r.of(-l)+" "+less)
		}
	}
	one(d.X, "right", "left")
	one(d.Y, "up", "down")
	if len(parts) == 0 {
		return "in the middle"
	}
	return strings.Join(parts, " and ")
}

func (t *tables) wallClips() {
	t.head("CLIPS ON THE WALLS: middle of the wall half, from the wall's left end, above zero")
	if where := t.holes(t.p.Job.Clip.Wall.Holes, "facing the wall"); where != "" {
		t.words(where)
	}
	if d := t.p.Job.Clip.Offset; d != (geom.Point{}) {
		t.words(fmt.Sprintf("The halves stand apart when engaged, the board half %s from the wall half: do not drill through board and wall together.", t.away(d)))
	}
	tab := Table{Heads: []string{"wall", "panel", "clip", ">along", ">up", "on", ">pad"}}
	if t.p.Shims.Count == 0 {
		tab.Heads = tab.Heads[:6]
	}
	line := t.p.Job.Line > 0
	if line {
		tab.Heads = slices.Insert(tab.Heads, 5, ">from the marked line")
	}
	for i := range t.p.Panels {
		p := &t.p.Panels[i]
		for _, c := range p.Clips {
			row := []string{t.p.Walls[p.Wall].Job.Name, p.Name, c.Place, t.r.of(c.Wall.X), t.r.of(c.Wall.Y), string(c.On)}
			if line {
				row = slices.Insert(row, 5, t.p.Job.FromLine(c.Wall.Y, t.r.of))
			}
			if t.p.Shims.Count > 0 {
				row = append(row, t.r.of(t.p.Runs[p.Run].Shim))
			}
			tab.Add(row...)
		}
	}
	t.table(&tab)
}

func (t *tables) gaps() {
	tab := Table{Heads: []string{"run", ">from", ">to", ">build-out", "gaps between finished panels, from the left"}}
	for i := range t.p.Runs {
		r := &t.p.Runs[i]
		tab.Add(r.Name, t.r.of(r.Bounds.Min.X), t.r.of(r.Bounds.Max.X), t.r.of(r.BuildOut), t.gapsOf(r))
	}
	if len(tab.rows) > 0 {
		t.head("RUNS: build-out is from the wall's face to the finished face")
		t.table(&tab)
	}
}

// gapsOf writes a run's gaps; where they don't read exactly their sum does, so that nobody adds up what was rounded.
func (t *tables) gapsOf(r *layout.Run) string {
	text := strings.Join(finding.Repeated(r.Gaps, t.r.of), ", ")
	if len(r.Gaps) > 1 && strings.Contains(text, "≈") {
		sum := geom.Length(0)
		for _, g := range r.Gaps {
			sum += g
		}
		text += ", together " + t.r.of(sum)
	}
	return text
}

func (t *tables) hanging() {
	t.head("ORDER OF HANGING")
	order, why := rule.HangingOrder(t.p)
	if order == "" {
		t.words("None is possible: see the findings.")
		return
	}
	t.words(order + ".")
	for _, reason := range why {
		t.words(reason)
	}
}

func (t *tables) heights() {
	tab := Table{Heads: []string{"run", "band", ">deck", ">cushion", ">gap below", ">bottom", ">top", ">gap above", ">sill"}}
	for i := range t.p.Runs {
		r := &t.p.Runs[i]
		h := r.Band
		if h == nil {
			continue
		}
		deck, cushion, below, above, sill := "", "", "", "", ""
		if h.HasDeck {
			deck = t.r.of(h.Deck[0])
			if h.Deck[1] != h.Deck[0] {
				deck += " to " + t.r.of(h.Deck[1])
			}
			below = t.r.of(h.GapBelow)
			if h.Cushion > 0 {
				cushion = t.r.of(h.Cushion)
			}
		}
		if h.HasSill {
			above, sill = t.r.of(h.GapAbove), t.r.of(h.Sill)
		}
		tab.Add(r.Name, h.Name, deck, cushion, below, t.r.of(h.Bottom), t.r.of(h.Top), above, sill)
		if t.p.Job.Line > 0 {
			tab.Add("", "", t.fromLine(deck, h.Deck[0], h.Deck[1]), "", "", t.fromLine("–", h.Bottom), t.fromLine("–", h.Top), "", t.fromLine(sill, h.Sill))
		}
	}
	if len(tab.rows) > 0 {
		from := ""
		if t.p.Job.Line > 0 {
			from = ", and from the marked line"
		}
		t.head("HEIGHTS above zero%s; finished edges", from)
		t.table(&tab)
	}
}

// fromLine reads heights from the marked line; "" where there is nothing at them.
func (t *tables) fromLine(what string, at ...geom.Length) string {
	if what == "" {
		return ""
	}
	var out []string
	for _, y := range at {
		if words := t.p.Job.FromLine(y, t.r.of); !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return strings.Join(out, " to ")
}
