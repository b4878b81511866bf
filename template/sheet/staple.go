package sheet

import (
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan/covering"
	"rodsheet/template/typeset"
)

// stapleDrawings show each board's back with its staples, numbered by the step in which they are driven, and where the
// cover is relieved at inner corners. Many boards stand in two columns.
func (m *maker) stapleDrawings() []drawing.Drawing {
	return m.fewest(cutShares, func(high geom.Length) []drawing.Drawing { return typeset.Set(m.options.Field, m.stapleBlocks(high)...) })
}

func (m *maker) stapleBlocks(high geom.Length) []typeset.Block {
	field := m.options.Field
	blocks := []typeset.Block{
		typeset.Title{Text: "Staples, in their order"},
		typeset.Para{Text: "Backs, not to scale; a dot is a staple of the same number as its neighbours. 1 middles of the long sides, 2 along them, 3 middles of the short ends, 4 along them, 5 corners: one on the diagonal, then the folds on either side."},
	}
	boards := m.plan.Boards
	across := 1
	if len(boards) > 2 {
		across = 2
	}
	for first := 0; first < len(boards); first += across {
		row := make([][]typeset.Block, across)
		for k := range row {
			if i := first + k; i < len(boards) {
				row[k] = m.stapled(i, geom.Size{W: field.W * 8 / 10 / geom.Length(across), H: high})
			}
		}
		blocks = append(blocks, typeset.Columns{Blocks: row}, typeset.Space{Height: 3 * mm})
	}
	return blocks
}

// stapled is a board's picture with its name and what to do at its inner corners.
func (m *maker) stapled(i int, most geom.Size) []typeset.Block {
	b := &m.plan.Boards[i]
	blocks := []typeset.Block{
		typeset.Heading{Text: "Board " + b.Name}, typeset.Para{Text: m.panelNames(b.Panels)},
		typeset.Figure{Drawing: m.staples(i, most)},
	}
	for n, r := range m.plan.Wrap.Reliefs(m.plan.Boards[i].Outline, m.plan.Job.Units) {
		v := geom.FlipX(b.Size.W)
		c := v.Apply(r.Corner)
		blocks = append(blocks, typeset.Item{Label: fmt.Sprintf("R%d", n+1), Hang: 9 * mm, Text: fmt.Sprintf(
			"Inner corner at %s from the left, %s up, as the back is seen: trim the cover in the notch to %s from the board's edges, slit it from there towards the corner, %s long, and stop %s short of it. The slit opens; put a dab of glue at its end.",
			m.read(c.X), m.read(c.Y), m.read(m.plan.Wrap.Size), m.read(r.From.Distance(r.To)), m.read(r.To.Distance(r.Corner)))})
	}
	return blocks
}

// staples draws a board's back with its staples, to the scale that fits.
func (m *maker) staples(index int, most geom.Size) drawing.Drawing {
	b := &m.plan.Boards[index]
	wrap := m.plan.Wrap.Size
	k := min(1, float64(most.W)/float64(b.Size.W+2*wrap), float64(most.H)/float64(b.Size.H+2*wrap))
	to := geom.FlipX(b.Size.W).Then(geom.Scale(k, k))
	shape := b.Outline.Map(to)
	d := drawing.Drawing{Bounds: shape.Bounds()}
	d.Add(outline(shape, drawing.Wide, drawing.Note))
	// A number where it has room, first of all those that begin a step; else a dot.
	var labelled []geom.Rect
	rank := map[int]int{1: 0, 3: 0, 5: 1, 2: 2, 4: 2}
	for pass := range 3 {
		for _, s := range covering.Staples(m.plan.Job, m.plan.Boards[index].Outline) {
			if rank[s.Step] != pass {
				continue
			}
			at, n := to.Apply(s.At), fmt.Sprint(s.Step)
			w := font.Width(n, small, false)
			box := geom.R(at.X-w/2, at.Y-small/2, at.X+w-w/2, at.Y+small-small/2).Inset(-4 * mm / 10)
			if slices.ContainsFunc(labelled, box.InteriorIntersects) {
				d.Add(drawing.Circle{Centre: at, Radius: mm * 3 / 10, Fill: drawing.Black})
				continue
			}
			labelled = append(labelled, box)
			d.Add(drawing.Text{At: at, String: n, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway})
		}
	}
	for n, r := range m.plan.Wrap.Reliefs(m.plan.Boards[index].Outline, m.plan.Job.Units) {
		a, c := to.Apply(r.From), to.Apply(r.To)
		d.Bounds = d.Bounds.Union(geom.Polygon{a, c}.Bounds())
		d.Add(
			drawing.Line{From: a, To: c, Pen: drawing.Wide, Role: drawing.Cut},
			drawing.Text{At: a, String: fmt.Sprintf("R%d", n+1), Height: small, Bold: true, Anchor: drawing.Middle, Halo: true},
		)
	}
	d.Bounds = d.Bounds.Inset(-2 * mm)
	return d
}
