package sheet

import (
	"cmp"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/typeset"
)

// Heights beside an elevation.
const (
	heightPitch = 36 * mm / 10 // between their words
	heightLead  = 3 * mm       // from the wall to where the words' lines begin
	heightBare  = 10 * mm      // room left of a wall without words
)

// A heightLabel is a height of one or more runs on a wall, in words.
type heightLabel struct {
	at   geom.Length
	name string // "sill"
	runs []string
	to   geom.Length // where the nearest of the runs begins
	text string
	edge bool   // of the panels themselves
	key  string // path of the value in the job file that says so
}

// heightLabels are the heights of all runs on a wall, from below: deck, cushion, panels' bottom and top, sill. The
// runs are named where not all of them have that height.
func (m *maker) heightLabels(w *layout.Wall) []heightLabel {
	var out []heightLabel
	for _, ri := range w.Runs {
		r := &m.plan.Runs[ri]
		if len(r.Panels) == 0 {
			continue
		}
		add := func(at geom.Length, name, text string, edge bool, key string) {
			k := slices.IndexFunc(out, func(l heightLabel) bool { return l.at == at && l.name == name && l.text == text })
			if k < 0 {
				k = len(out)
				out = append(out, heightLabel{at: at, name: name, text: text, to: r.Bounds.Min.X, edge: edge, key: key})
			}
			out[k].runs = append(out[k].runs, r.Name)
			out[k].to = min(out[k].to, r.Bounds.Min.X)
		}
		if h := r.Band; h != nil {
			if h.HasDeck {
				add(h.Deck[0], "deck", m.bothWays(h.Deck[0], h.Deck[1]), false, r.Job.Band.Key+".seat")
				if h.Cushion > 0 {
					add(h.Deck[0]+h.Cushion, "cushion", m.bothWays(h.Deck[0]+h.Cushion, h.Deck[1]+h.Cushion), false, r.Job.Band.Key+".cushion")
				}
			}
			if h.HasSill {
				add(h.Sill, "sill", m.bothWays(h.Sill, h.Sill), false, r.Job.Band.Key+".sill")
			}
		}
		bottom := layout.ExtentField(r.Job)
		if r.Band != nil {
			bottom = layout.BottomField(r.Job)
		}
		add(r.Bounds.Min.Y, "bottom", m.bothWays(r.Bounds.Min.Y, r.Bounds.Min.Y), true, bottom)
		add(r.Bounds.Max.Y, "top", m.bothWays(r.Bounds.Max.Y, r.Bounds.Max.Y), true, layout.TopField(r.Job))
	}
	if line := m.plan.Job.Line; line > 0 && line < w.Job.Height {
		out = append(out, heightLabel{at: line, name: "the marked line", runs: make([]string, len(w.Runs)), text: m.read(line), edge: true, key: levelLine})
	}
	slices.SortStableFunc(out, func(a, b heightLabel) int { return cmp.Compare(a.at, b.at) })
	for i := range out {
		l := &out[i]
		l.text = l.name + " " + l.text
		if len(l.runs) < len(w.Runs) {
			l.text = strings.Join(finding.Ranges(l.runs), ", ") + " " + l.text
		}
	}
	return out
}

// pair writes the lengths at the left and the right end of a run, or one of them where both read the same.
func (m *maker) pair(left, right geom.Length) string {
	if !m.differ(left, right) {
		return m.read(left)
	}
	return m.read(left) + ", " + m.read(right)
}

// pairFromLine is pair with the lengths read from the marked line; "" when none is marked.
func (m *maker) pairFromLine(left, right geom.Length) string {
	if m.plan.Job.Line == 0 || !m.differ(left, right) {
		return m.fromLine(left)
	}
	return m.fromLine(left) + ", " + m.fromLine(right)
}

// bothWays is pair, and what it is from the marked line where there is one: a picture that names the line says "below".
func (m *maker) bothWays(left, right geom.Length) string {
	if line := m.pairFromLine(left, right); line != "" {
		return m.pair(left, right) + ", " + strings.ReplaceAll(line, " the line", "")
	}
	return m.pair(left, right)
}

// differ reports whether two lengths read differently.
func (m *maker) differ(a, b geom.Length) bool { return m.read(a) != m.read(b) }

// heightRoom is how much the words of heights take left of a wall.
func heightRoom(labels []heightLabel) geom.Length {
	widest := geom.Length(0)
	for _, l := range labels {
		widest = max(widest, font.Width(l.text, small, false))
	}
	return max(widest+heightLead+2*mm, heightBare)
}

// sameHeights reports whether the labels of two walls are the same.
func sameHeights(a, b []heightLabel) bool {
	return slices.EqualFunc(a, b, func(x, y heightLabel) bool { return x.at == y.at && x.text == y.text })
}

// elevationHeights writes heights above zero left of a wall whose upper left end is at corner. Where there is
// no room for all of them, the others stay out before those of the panels; all are in the table of heights.
func (m *maker) elevationHeights(pic *drawing.Picture, labels []heightLabel, to geom.Affine, corner geom.Point) {
	top := corner.Y
	most := int((top + heightPitch) / heightPitch)
	for _, edge := range []bool{false, true} {
		for i := len(labels) - 1; i >= 0 && len(labels) > most; i-- {
			if labels[i].edge == edge {
				labels = slices.Delete(slices.Clone(labels), i, i+1)
			}
		}
	}
	places := make([]geom.Length, len(labels))
	for i, l := range labels {
		places[i] = to.Apply(geom.Pt(0, l.at)).Y
	}
	for i, y := range typeset.Spread(places, heightPitch, 0, top+heightPitch/2) {
		l := labels[i]
		at := to.Apply(geom.Pt(l.to, l.at))
		pic.Add(drawing.Part{Key: l.key, Class: "height"}, func(d *drawing.Drawing) {
			d.Add(
				drawing.Path{Points: []geom.Point{{X: corner.X - heightLead, Y: y}, {X: corner.X - mm, Y: at.Y}, at}, Pen: drawing.Hair},
				drawing.Text{At: geom.Pt(corner.X-heightLead-mm, y), String: l.text, Height: small, Anchor: drawing.Right, Level: drawing.Halfway},
			)
		})
	}
}

// elevationBand draws deck, cushion and sill along a run.
func (m *maker) elevationBand(pic *drawing.Picture, r *layout.Run, to geom.Affine) {
	h := r.Band
	if h == nil {
		return
	}
	along := func(name, field string, left, right geom.Length, pen drawing.Pen) {
		part := drawing.Part{
			Key: r.Job.Band.Key + "." + field, About: []string{r.Job.Key}, Class: "band " + name,
			Title: name + " of run " + r.Name + ", " + m.pair(left, right),
		}
		pic.Add(part, func(d *drawing.Drawing) {
			d.Add(drawing.Line{From: to.Apply(geom.Pt(r.Bounds.Min.X, left)), To: to.Apply(geom.Pt(r.Bounds.Max.X, right)), Pen: pen})
		})
	}
	if h.HasDeck {
		along("deck", "seat", h.Deck[0], h.Deck[1], drawing.Narrow)
		if h.Cushion > 0 {
			along("cushion", "cushion", h.Deck[0]+h.Cushion, h.Deck[1]+h.Cushion, drawing.Hair)
		}
	}
	if h.HasSill {
		along("sill", "sill", h.Sill, h.Sill, drawing.Narrow)
	}
}

// heightTable has a line for every band, from the deck up; nothing where no run has one.
func (m *maker) heightTable() []typeset.Block {
	t := typeset.Table{Columns: []typeset.Column{
		{Head: "runs", Wrap: true}, {Head: "deck", Right: true}, {Head: "cushion", Right: true}, {Head: "gap below", Right: true},
		{Head: "panels", Right: true}, {Head: "gap above", Right: true}, {Head: "sill", Right: true},
	}}
	var rows, runs [][]string
	anyPair := false
	for i := range m.plan.Runs {
		r := &m.plan.Runs[i]
		if r.Band == nil || len(r.Panels) == 0 {
			continue
		}
		row, hasPair := m.heightRow(r)
		anyPair = anyPair || hasPair
		k := slices.IndexFunc(rows, func(other []string) bool { return slices.Equal(other, row) })
		if k < 0 {
			k = len(rows)
			rows, runs = append(rows, row), append(runs, nil)
		}
		runs[k] = append(runs[k], r.Name)
	}
	if len(rows) == 0 {
		return nil
	}
	for i, row := range rows {
		t.Rows = append(t.Rows, typeset.Cells(append([]string{strings.Join(finding.Ranges(runs[i]), ", ")}, row...)...))
	}
	out := append([]typeset.Block{typeset.Heading{Text: "Heights above zero"}, t}, m.lineTable()...)
	if anyPair {
		out = append(out, typeset.Para{Text: "Of two figures the first is that at the left end of the run, the other that at its right end."})
	}
	return out
}

// lineTable has the heights of every band as they are read from the marked line; nothing where none is marked.
func (m *maker) lineTable() []typeset.Block {
	if m.plan.Job.Line == 0 {
		return nil
	}
	t := typeset.Table{Columns: []typeset.Column{
		{Head: "runs", Wrap: true}, {Head: "deck", Right: true}, {Head: "panels begin", Right: true}, {Head: "panels end", Right: true}, {Head: "sill", Right: true},
	}}
	var rows, runs [][]string
	for i := range m.plan.Runs {
		r := &m.plan.Runs[i]
		if len(r.Panels) == 0 {
			continue
		}
		row := []string{"–", m.fromLine(r.Bounds.Min.Y), m.fromLine(r.Bounds.Max.Y), "–"}
		if h := r.Band; h != nil && h.HasDeck {
			row[0] = m.pairFromLine(h.Deck[0], h.Deck[1])
		}
		if h := r.Band; h != nil && h.HasSill {
			row[3] = m.fromLine(h.Sill)
		}
		k := slices.IndexFunc(rows, func(other []string) bool { return slices.Equal(other, row) })
		if k < 0 {
			k = len(rows)
			rows, runs = append(rows, row), append(runs, nil)
		}
		runs[k] = append(runs[k], r.Name)
	}
	for i, row := range rows {
		t.Rows = append(t.Rows, typeset.Cells(append([]string{strings.Join(finding.Ranges(runs[i]), ", ")}, row...)...))
	}
	return []typeset.Block{typeset.Heading{Text: "Heights from the marked line"}, t}
}

// heightRow returns a run's band from the deck up. A height that changes along the run has its two ends; hasPair reports
// whether there is one.
func (m *maker) heightRow(r *layout.Run) (row []string, hasPair bool) {
	h := r.Band
	pair := func(left, right geom.Length) string {
		hasPair = hasPair || m.differ(left, right)
		return m.pair(left, right)
	}
	deck, cushion, below, above, sill := "–", "–", "–", "–", "–"
	if h.HasDeck {
		deck = pair(h.Deck[0], h.Deck[1])
		below = m.read(h.GapBelow)
		if !h.Follow {
			high := max(h.Deck[0], h.Deck[1])
			below = pair(h.GapBelow+high-h.Deck[0], h.GapBelow+high-h.Deck[1])
		}
		if h.Cushion > 0 {
			cushion = m.read(h.Cushion) + " thick"
		}
	}
	panels := m.read(r.Bounds.Min.Y) + " to " + m.read(r.Bounds.Max.Y)
	if h.HasSill {
		sill = m.read(h.Sill)
		first, last := m.plan.Panels[r.Panels[0]].Finished.Bounds(), m.plan.Panels[r.Panels[len(r.Panels)-1]].Finished.Bounds()
		above = pair(h.Sill-first.Max.Y, h.Sill-last.Max.Y)
	}
	return []string{deck, cushion, below, panels, above, sill}, hasPair
}

// blockStep is the height blocks' place in the order of work: what stands on them.
func (m *maker) blockStep() string {
	step := "Cut the height blocks and hold them against the checking step; "
	switch m.plan.Job.Blocks.For {
	case job.ForHanging:
		return step + "each finished panel stands on two of them as it is hung."
	case job.ForBoth:
		return step + "stand the bare boards on those for drilling, each finished panel on those for hanging."
	}
	return step + "stand the bare boards on them."
}
