package sheet

import (
	"fmt"
	"math"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan/covering"
	"rodsheet/template/typeset"
)

// folds show how the corners of the cover are turned: at actual size as it suits this panel, then the other way, then
// the order of the staples on each board.
func (m *maker) folds() []drawing.Sheet {
	fold := m.plan.Wrap.Fold
	if fold.Kind == "" || len(m.plan.Boards) == 0 || !covering.TurnsOver(m.plan.Job) {
		return nil
	}
	other := covering.Pleat
	if fold.Kind == covering.Pleat {
		other = covering.Parcel
	}
	out := []drawing.Sheet{{
		Kind: Fold, Name: "fold", Title: "Corners of the cover", For: "all boards", Layout: drawing.SinglePage,
		Hint:     "The corner lies flat as you see it, the panel's face down. Lay it under the cover to mark the lines.",
		Drawings: append(m.fold(fold, fold.Why, true), m.fold(m.plan.Wrap.FoldAs(m.plan.Job, other), fold.Why, false)...),
	}}
	out[0].Drawings = append(out[0].Drawings, m.reliefDrawings()...)
	out[0].Drawings = append(out[0].Drawings, m.stapleDrawings()...)
	return out
}

// fold draws one corner at actual size, with its steps: below it, or on pages of their own where there is no room.
func (m *maker) fold(f covering.Fold, why string, chosen bool) []drawing.Drawing {
	field := m.options.Field
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(field.W, field.H)}}
	title := "Pleated corner"
	if f.Kind == covering.Parcel {
		title = "Folded corner"
	}
	if chosen {
		title += ": for these panels"
	} else {
		title += ": not for these panels"
		if m.plan.Job.Wrap.Fold == m.plan.Wrap.Fold.Kind {
			why = "The job asks for the other one."
		}
	}
	wrap := f.Square
	inward := min(60*mm, field.W-wrap-20*mm, field.H-wrap-44*mm)
	if inward < 10*mm {
		return typeset.Set(field, append([]typeset.Block{typeset.Title{Text: title}, typeset.Para{Text: why},
			typeset.Para{Text: "The corner is larger than this paper: set it out on the cover itself, by the measures below."}}, m.foldSteps(f)...)...)
	}
	// The corner of the board's face, so that the cover's corner stands near the upper right.
	o := geom.Pt(inward+4*mm, field.H-34*mm-wrap)
	more := setWords(&d, geom.R(0, field.H-26*mm, field.W, field.H), typeset.Title{Text: title}, typeset.Para{Text: why})
	m.drawFold(&d, f, o, inward)
	steps, below := m.foldSteps(f), geom.R(0, 0, field.W, o.Y-inward-4*mm)
	if below.H() > 20*mm && len(typeset.Set(below.Size(), steps...)) == 1 {
		setWords(&d, below, steps...)
		return append([]drawing.Drawing{d}, more...)
	}
	more = append(more, typeset.Set(field, append([]typeset.Block{typeset.Title{Text: title + ", continued"}}, steps...)...)...)
	return append([]drawing.Drawing{d}, more...)
}

// drawFold draws the cover's corner as it lies flat, o the corner of the board's face, inward as much of the board as is
// shown on both sides of it.
func (m *maker) drawFold(d *drawing.Drawing, f covering.Fold, o geom.Point, inward geom.Length) {
	wrap, thick := f.Square, m.plan.Wrap.Thick
	at := func(p geom.Point) geom.Point { return p.Add(o) }
	shown := geom.R(-inward, -inward, wrap, wrap)
	line := func(a, b geom.Point, pen drawing.Pen, role drawing.Role) {
		if part, ok := (geom.Segment{A: a, B: b}).Clip(shown); ok && part.A != part.B {
			d.Add(drawing.Line{From: at(part.A), To: at(part.B), Pen: pen, Role: role})
		}
	}
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
		line(l[0], l[1], drawing.Hidden, drawing.Guide)
	}
	line(geom.Pt(-inward, 0), geom.Pt(0, 0), drawing.Hidden, drawing.Guide)
	line(geom.Pt(0, -inward), geom.Pt(0, 0), drawing.Hidden, drawing.Guide)
	if thick < wrap { // the edge of the back, along both sides and round the corner
		rim := append(append([]geom.Point{{X: -inward, Y: thick}}, f.Rim...), geom.Pt(thick, -inward))
		for i := range rim {
			rim[i] = at(rim[i])
		}
		d.Add(drawing.Path{Points: rim, Pen: drawing.Hair, Role: drawing.Guide})
	}
	for _, l := range f.Cuts {
		line(l[0], l[1], drawing.Wide, drawing.Cut)
		m.cutWords(d, at(l[0]), at(l[1]))
	}
	if m.plan.Job.Batt.Thickness > 0 {
		for i := 1; i < len(f.Batts); i++ {
			line(f.Batts[i-1], f.Batts[i], drawing.Pen{Width: drawing.WideWidth, Style: drawing.Chain}, drawing.Cut)
		}
	}
	text := func(x, y geom.Length, words string) {
		d.Add(drawing.Text{At: at(geom.Pt(x, y)), String: words, Height: small, Halo: true})
	}
	text(-inward+2*mm, -6*mm, "face of the board, under the cover")
	text(-inward+2*mm, thick/2-small/2, "edge of the panel, "+m.read(thick))
	if m.plan.Wrap.Land > 5*mm {
		// Low, where the slanting lines are farthest off.
		text(-inward+2*mm, thick+max(3*mm/2, m.plan.Wrap.Land/4-small/2), "lies on the back, "+m.read(m.plan.Wrap.Land))
	}
	dimension(d, at(geom.Pt(0, wrap)), at(geom.Pt(wrap, wrap)), 4*mm, "wrap "+m.read(wrap))
	if f.Remain > 0 {
		end := geom.Pt(f.Remain.Times(math.Sqrt2/2), f.Remain.Times(math.Sqrt2/2))
		line(geom.Point{}, end, drawing.Hair, drawing.Guide)
		d.Add(drawing.Text{At: at(geom.Pt(end.X/2, end.Y/2)), String: m.read(f.Remain) + " must remain", Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Turn: 45, Halo: true})
	}
}

// cutWords name the cut across the cover's corner: along it, or beside it where it is too short for them.
func (m *maker) cutWords(d *drawing.Drawing, a, b geom.Point) {
	const words = "cut the cover here"
	middle := geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2)
	if wide := font.Width(words, small, true); a.Distance(b) >= wide+8*mm || b.X+14*mm+wide > d.Bounds.Max.X {
		d.Add(drawing.Text{At: middle.Add(geom.Pt(mm, mm)), String: words, Height: small, Bold: true, Anchor: drawing.Middle, Turn: -45, Halo: true})
		return
	}
	end := geom.Pt(b.X+8*mm, middle.Y)
	d.Add(
		drawing.Line{From: middle, To: end, Pen: drawing.Hair},
		drawing.Text{At: end.Add(geom.Pt(mm, 0)), String: words, Height: small, Bold: true, Level: drawing.Halfway},
	)
}

// foldSteps are the steps of a corner, after the sides have been stapled.
func (m *maker) foldSteps(f covering.Fold) []typeset.Block {
	steps := []string{
		"Staple the middles of the long sides first, then along them, pulling evenly; then one short end, then the other. Leave the last hand's breadth at every corner loose.",
	}
	if f.Kind == covering.Pleat {
		if m.plan.Job.Batt.Thickness > 0 {
			steps = append(steps, "Cut the batting on the long-dash lines: from the corner of the board's face "+m.read(f.Notch)+
				" square to both edges, so that it meets on the panel's upright edge; then outward at 45°, so that it meets on the back without lying twice.")
		}
		steps = append(steps,
			"Cut the tip off the cover on the full line: "+m.read(f.Legs)+" from its corner on each side. "+m.read(f.Remain)+" must remain from the corner of the board's face; less will not reach the staples.",
			"Pull the cut edge straight over the corner of the board and staple it once, on the diagonal, where the two rows of staples meet.",
			"Fan what stands out on both sides into small even pleats, each towards the diagonal, and staple every pleat.",
		)
	} else {
		steps = append(steps,
			"Nothing is cut. Pull the tip straight over the corner of the board, so that the slanting line comes to lie on the corner of the back, and staple it once, on the diagonal, where the two rows of staples will meet.",
			"Fold one side in over the edge, as with a parcel. Tuck the ear that stands out at the corner in under it, folded on its short slanting line, so that the fold runs exactly along the upright edge. Pull, and staple beside the diagonal.",
			"Do the same with the other side: the two meet on the diagonal.",
		)
	}
	if names := m.slantingCorners(); names != "" {
		text := "Boards with corners that are not square (" + names + "): there too "
		if f.Kind == covering.Pleat {
			text += m.read(f.Remain) + " of cover must remain from the corner of the face, and the batting is cut square to both edges as far as the panel is thick. A blunt corner has less to fan, a sharp one more."
		} else {
			text += "the tip goes over the corner first, and the ears are tucked in by eye."
		}
		steps = append(steps, text)
	}
	steps = append(steps, fmt.Sprintf("Staples: legs no longer than %s, %s apart at most, %s from the edge. Everything behind the board must stay lower than %s, or the panel can't come home.",
		m.read(m.plan.Wrap.StapleLeg(m.plan.Job.Units)), m.read(m.plan.Job.Staple.Spacing), m.read(m.plan.Job.Staple.Edge), m.read(m.plan.Wrap.Room)))
	return append([]typeset.Block{typeset.Heading{Text: "Steps"}}, typeset.Steps(steps...)...)
}

// slantingCorners names the boards that have an outer corner which is not square.
func (m *maker) slantingCorners() string {
	var names []string
	for i := range m.plan.Boards {
		b := &m.plan.Boards[i]
		for k, at := range b.Outline {
			before, after := b.Outline[(k+len(b.Outline)-1)%len(b.Outline)], b.Outline[(k+1)%len(b.Outline)]
			if geom.Orientation(before, at, after) > 0 && geom.Dot(before.Sub(at), after.Sub(at)).Sign() != 0 {
				names = append(names, b.Name)
				break
			}
		}
	}
	return strings.Join(names, ", ")
}
