package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/flow"
	"rodsheet/template/plan"
)

// folds show how the corners of the cover are turned: at actual size as it suits this panel, then the other way, then
// the order of the staples on each board.
func (m *maker) folds() []Sheet {
	fold := m.plan.Wrap.Fold
	if fold.Kind == "" || len(m.plan.Boards) == 0 {
		return nil
	}
	other := plan.Pleat
	if fold.Kind == plan.Pleat {
		other = plan.Parcel
	}
	out := []Sheet{{
		Kind: Fold, Name: "fold", Title: "Corners of the cover", For: "all boards", Lay: Leaf,
		Hint: "The corner lies flat as you see it, the panel's face down. Lay it under the cover to mark the lines.",
		Drawings: []drawing.Drawing{
			m.fold(fold, fold.Why, true),
			m.fold(m.plan.FoldAs(other), "Not for this panel: "+fold.Why, false),
		},
	}}
	out[0].Drawings = append(out[0].Drawings, m.stapleLeaves()...)
	return out
}

// fold draws one corner at actual size, with its steps.
func (m *maker) fold(f plan.Fold, why string, chosen bool) drawing.Drawing {
	field := m.options.Field
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(field.W, field.H)}}
	title := "Pleated corner"
	if f.Kind == plan.Parcel {
		title = "Folded corner"
	}
	if chosen {
		title += ": this panel's"
	}
	wrap := f.Square
	inward := min(60*mm, field.W-wrap-20*mm)
	// The corner of the board's face, so that the cover's corner stands near the upper right.
	o := geom.Pt(inward+4*mm, field.H-34*mm-wrap)
	at := func(p geom.Point) geom.Point { return p.Add(o) }

	place(&d, geom.R(0, field.H-26*mm, field.W, field.H), flow.Title{Text: title}, flow.Para{Text: why})
	// The cover, its surplus, and the board under it.
	cover := []geom.Point{{X: -inward, Y: wrap}, {X: wrap, Y: wrap}, {X: wrap, Y: -inward}}
	board := geom.R(-inward, -inward, 0, 0)
	d.Add(drawing.Path{Points: board.Add(o).Polygon(), Closed: true, Fill: drawing.Pale})
	if len(f.Cuts) > 0 {
		c := f.Cuts[0]
		d.Add(
			drawing.Path{Points: []geom.Point{at(c[0]), at(geom.Pt(wrap, wrap)), at(c[1])}, Closed: true, Fill: drawing.Tint},
		)
	}
	d.Add(drawing.Path{Points: []geom.Point{at(cover[0]), at(cover[1]), at(cover[2])}, Pen: drawing.Wide, Role: drawing.Guide})
	for _, l := range f.Folds {
		d.Add(drawing.Line{From: at(l[0]), To: at(l[1]), Pen: drawing.Hidden, Role: drawing.Guide})
	}
	d.Add(
		drawing.Line{From: at(geom.Pt(-inward, 0)), To: at(geom.Pt(0, 0)), Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Line{From: at(geom.Pt(0, -inward)), To: at(geom.Pt(0, 0)), Pen: drawing.Hidden, Role: drawing.Guide},
	)
	for _, l := range f.Cuts {
		d.Add(drawing.Line{From: at(l[0]), To: at(l[1]), Pen: drawing.Wide, Role: drawing.Cut})
		d.Add(drawing.Text{At: at(geom.Pt((l[0].X+l[1].X)/2-mm, (l[0].Y+l[1].Y)/2-mm)), String: "cut the cover here", Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Top, Turn: -45, Halo: true})
	}
	for _, l := range f.Batts {
		d.Add(drawing.Line{From: at(l[0]), To: at(l[1]), Pen: drawing.Pen{Width: drawing.WideWidth, Style: drawing.Chain}, Role: drawing.Cut})
	}
	text := func(x, y geom.Length, words string) {
		d.Add(drawing.Text{At: at(geom.Pt(x, y)), String: words, Height: small, Halo: true})
	}
	text(-inward+2*mm, -6*mm, "face of the board, under the cover")
	text(-inward+2*mm, m.plan.Wrap.Thick/2-small/2, "edge of the panel, "+m.read(m.plan.Wrap.Thick))
	if m.plan.Wrap.Land > 5*mm {
		text(-inward+2*mm, m.plan.Wrap.Thick+m.plan.Wrap.Land/2-small/2, "lies on the back, "+m.read(m.plan.Wrap.Land))
	}
	dimension(&d, at(geom.Pt(0, wrap)), at(geom.Pt(wrap, wrap)), 4*mm, "wrap "+m.read(wrap))
	if f.Remain > 0 {
		end := geom.Pt(f.Remain.Times(0.70710678), f.Remain.Times(0.70710678))
		d.Add(drawing.Line{From: at(geom.Point{}), To: at(end), Pen: drawing.Hair})
		d.Add(drawing.Text{At: at(geom.Pt(end.X/2, end.Y/2)), String: m.read(f.Remain) + " must remain", Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Turn: 45, Halo: true})
	}
	place(&d, geom.R(0, 0, field.W, o.Y-inward-4*mm), m.foldSteps(f)...)
	return d
}

// foldSteps are the steps of a corner, after the sides have been stapled.
func (m *maker) foldSteps(f plan.Fold) []flow.Block {
	steps := []string{
		"Staple the middles of the long sides first, then along them, pulling evenly; then one short end, then the other. Leave the last hand's breadth at every corner loose.",
	}
	if f.Kind == plan.Pleat {
		steps = append(steps,
			"Cut the surplus square out of the batting on the long-dash lines: its side is "+m.read(f.Notch)+". Under the folds there is then one layer in place of three.",
			"Cut the tip off the cover on the full line: "+m.read(f.Legs)+" from its corner on each side. "+m.read(f.Remain)+" must remain from the corner of the board's face; less will not reach the staples.",
			"Pull the cut edge straight over the corner of the board and staple it once, on the diagonal.",
			"Fan what stands out on both sides into small even pleats, each towards the diagonal, and staple every pleat.",
		)
	} else {
		steps = append(steps,
			"Nothing is cut. Fold the tip over the corner of the back on the slanting line, and staple it once.",
			"Fold one side in on its edge line, as with a parcel, the fold exactly along the board's corner.",
			"Fold the other side over it, pull, and staple. Turn the folds of all corners the same way.",
		)
	}
	steps = append(steps, fmt.Sprintf("Staples: legs no longer than %s, %s apart at most, %s from the edge. Everything behind the board must stay lower than %s, or the panel can't come home.",
		m.read(m.plan.Wrap.Leg), m.read(m.plan.Job.Staple.Spacing), m.read(m.plan.Job.Staple.Edge), m.read(m.plan.Wrap.Room)))
	blocks := []flow.Block{flow.Heading{Text: "Steps"}}
	for i, s := range steps {
		blocks = append(blocks, flow.Item{Label: fmt.Sprint(i + 1), Text: s})
	}
	return blocks
}

// stapleLeaves show each board's back with its staples, numbered by the step in which they are driven, and where the
// cover is relieved at inner corners.
func (m *maker) stapleLeaves() []drawing.Drawing {
	field := m.options.Field
	blocks := []flow.Block{
		flow.Title{Text: "Staples, in their order"},
		flow.Para{Text: "Backs, not to scale. 1 middles of the long sides, 2 along them, 3 middles of the short ends, 4 along them, 5 corners."},
	}
	for i := range m.plan.Boards {
		b := &m.plan.Boards[i]
		blocks = append(blocks, flow.Heading{Text: "Board " + b.Name + ", " + m.panelNames(b.Panels)},
			flow.Figure{Drawing: m.staples(i, geom.Size{W: field.W * 8 / 10, H: field.H * 35 / 100})})
		for n, r := range m.plan.Reliefs(i) {
			v := geom.FlipX(b.Size.W)
			c := v.Apply(r.Corner)
			blocks = append(blocks, flow.Item{Label: fmt.Sprintf("R%d", n+1), Hang: 9 * mm, Text: fmt.Sprintf(
				"Inner corner at %s from the left, %s up, as the back is seen: slit the cover from its edge towards the corner, %s long, and stop %s short of it. The slit opens; put a dab of glue at its end.",
				m.read(c.X), m.read(c.Y), m.read(r.From.Distance(r.To)), m.read(r.To.Distance(r.Corner)))})
		}
	}
	return flow.Set(field, blocks...)
}

// staples draws a board's back with its staples, to the scale that fits.
func (m *maker) staples(index int, most geom.Size) drawing.Drawing {
	b := &m.plan.Boards[index]
	wrap := m.plan.Wrap.Size
	k := min(1, float64(most.W)/float64(b.Size.W+2*wrap), float64(most.H)/float64(b.Size.H+2*wrap))
	to := geom.FlipX(b.Size.W).Then(geom.Scale(k, k))
	points := func(p []geom.Point) []geom.Point {
		out := make([]geom.Point, len(p))
		for i, q := range p {
			out[i] = to.Apply(q)
		}
		return out
	}
	var d drawing.Drawing
	d.Bounds = geom.Polygon(points(b.Outline)).Bounds()
	d.Add(outline(points(b.Outline), drawing.Wide, drawing.Note))
	for _, s := range m.plan.Staples(index) {
		at := to.Apply(s.At)
		d.Add(drawing.Text{At: at, String: fmt.Sprint(s.Step), Height: small, Anchor: drawing.Middle, Level: drawing.Halfway})
	}
	for n, r := range m.plan.Reliefs(index) {
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
