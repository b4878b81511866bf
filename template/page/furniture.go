package page

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

const mm = geom.Millimetre

// Lettering heights, by their names here.
const (
	small  = font.Small
	medium = font.Medium
	huge   = font.Huge
)

// A position is where a page stands in its sheet.
type position struct {
	ref  string      // grid reference, "" on single pages
	maps []geom.Rect // every page's window on the drawing
	here int         // this one
}

// furniture draws what stands on every page, outside the field.
func (o Options) furniture(f frame, s *drawing.Sheet, at position, number string) []drawing.Mark {
	var d drawing.Drawing
	left, right, base := f.inner.Min.X, f.inner.Max.X, f.inner.Min.Y

	o.checkLines(&d, f)

	text := func(x, y geom.Length, anchor drawing.Anchor, h geom.Length, bold bool, words string) {
		d.Add(drawing.Text{At: geom.Pt(x, y), String: words, Height: h, Bold: bold, Anchor: anchor})
	}
	d.Add(drawing.Line{From: geom.Pt(left, base+footer), To: geom.Pt(right, base+footer), Pen: drawing.Faint})
	words := left
	if at.ref != "" {
		text(left, base+135*mm/10, drawing.Left, huge, true, at.ref)
		mapAt := left + font.Width(at.ref, huge, true) + 4*mm
		box := geom.R(mapAt, base+95*mm/10, mapAt+24*mm, base+footer-15*mm/10)
		words = o.keyMap(&d, box, at) + 4*mm
	}
	// First line: what it is and which side it lies on; the page's number on the right.
	y := base + 178*mm/10
	text(right, y, drawing.Right, small, true, number)
	title := font.Truncate(s.Title, medium, true, right-words-font.Width(number, small, true)-30*mm)
	text(words, y, drawing.Left, medium, true, title)
	if s.Side != "" {
		x := words + font.Width(title, medium, true) + 4*mm
		w := font.Width(s.Side, medium, true)
		box := geom.R(x-15*mm/10, y-1*mm, x+w+15*mm/10, y+medium+1*mm)
		d.Add(drawing.Path{Points: box.Polygon(), Closed: true, Pen: drawing.Wide})
		text(x, y, drawing.Left, medium, true, s.Side)
	}
	// Second line: which panels, how often, the job.
	y = base + 13*mm
	job := font.Truncate(o.Job, small, false, (right-words)/2)
	text(right, y, drawing.Right, small, false, job)
	what := s.For
	if s.Use > 1 {
		what = join(what, fmt.Sprintf("use it %d times", s.Use))
	} else if s.Use == 1 {
		what = join(what, "use it once")
	}
	text(words, y, drawing.Left, small, false, font.Truncate(what, small, false, right-words-font.Width(job, small, false)-3*mm))
	// Third line: what to do with it.
	text(words, base+89*mm/10, drawing.Left, small, false, font.Truncate(s.Hint, small, false, right-words))

	if s.Upright {
		x, top := right-sideStrip/2, f.inner.Max.Y
		d.Add(
			drawing.Path{Points: []geom.Point{{X: x, Y: top}, {X: x + 3*mm, Y: top - 6*mm}, {X: x - 3*mm, Y: top - 6*mm}}, Closed: true, Fill: drawing.Black},
			drawing.Line{From: geom.Pt(x, top-6*mm), To: geom.Pt(x, top-12*mm), Pen: drawing.Pen{Width: mm}},
			drawing.Text{At: geom.Pt(x, top-17*mm), String: "UP", Height: medium, Bold: true, Anchor: drawing.Middle},
		)
	}
	return d.Marks
}

// checkLines draws the check lines, each one unbroken stroke. They are on every page, since the scale may change between
// pages.
func (o Options) checkLines(d *drawing.Drawing, f frame) {
	lengths := []struct {
		l    geom.Length
		name string
	}{{100 * mm, "100 mm"}}
	if o.Units == geom.Imperial {
		lengths = append(lengths, struct {
			l    geom.Length
			name string
		}{4 * geom.Inch, "4 in"})
	}
	left, right, base := f.inner.Min.X, f.inner.Max.X, f.inner.Min.Y
	left += mm // so that the margin does not halve the ends' ticks
	room := right - left - 122*mm
	notes := font.Wrap("Measure these first: if they are off, don't drill.", small, false, room)
	if o.Printer != "" {
		notes = []string{font.Truncate("Corrected for printer "+o.Printer, small, false, room), font.Truncate("Measure these lines first.", small, false, room)}
	}
	for i, line := range notes {
		d.Add(drawing.Text{At: geom.Pt(right, base+5*mm-geom.Length(i)*4*mm), String: line, Height: small, Anchor: drawing.Right})
	}
	for i, c := range lengths {
		y := base + 15*mm/10 + geom.Length(i)*4*mm
		d.Add(
			drawing.Line{From: geom.Pt(left, y), To: geom.Pt(left+c.l, y), Pen: drawing.Hair, Role: drawing.Guide},
			tick(geom.Pt(left, y), true), tick(geom.Pt(left+c.l, y), true),
			drawing.Text{At: geom.Pt(left+c.l+2*mm, y), String: c.name, Height: small, Level: drawing.Halfway},
		)
		x, foot := right-15*mm/10-geom.Length(i)*4*mm, base+footer+air
		d.Add(
			drawing.Line{From: geom.Pt(x, foot), To: geom.Pt(x, foot+c.l), Pen: drawing.Hair, Role: drawing.Guide},
			tick(geom.Pt(x, foot), false), tick(geom.Pt(x, foot+c.l), false),
			drawing.Text{At: geom.Pt(x, foot+c.l+2*mm), String: c.name, Height: small, Level: drawing.Halfway, Turn: 90},
		)
	}
}

// tick is the end of a check line, across it.
func tick(at geom.Point, upright bool) drawing.Line {
	half := geom.Pt(15*mm/10, 0)
	if upright {
		half = geom.Pt(0, 15*mm/10)
	}
	return drawing.Line{From: at.Sub(half), To: at.Add(half), Pen: drawing.Hair}
}

// keyMap draws every page's window on the drawing, this one black, and returns where it ends on the right.
func (o Options) keyMap(d *drawing.Drawing, box geom.Rect, at position) geom.Length {
	all := at.maps[0]
	for _, r := range at.maps[1:] {
		all = all.Union(r)
	}
	k := min(float64(box.W())/float64(all.W()), float64(box.H())/float64(all.H()))
	to := geom.Translate(geom.Point{X: -all.Min.X, Y: -all.Min.Y}).Then(geom.Scale(k, k)).Then(geom.Translate(box.Min))
	const most = 150 // cells that a map this small can show, and that a large set can afford on each page
	for i, r := range at.maps {
		if len(at.maps) > most && i != at.here {
			continue
		}
		cell := geom.Rect{Min: to.Apply(r.Min), Max: to.Apply(r.Max)}
		path := drawing.Path{Points: cell.Polygon(), Closed: true, Pen: drawing.Hair}
		if i == at.here {
			path.Fill = drawing.Black
		}
		d.Add(path)
	}
	if len(at.maps) > most {
		d.Add(drawing.Path{Points: geom.Rect{Min: box.Min, Max: to.Apply(all.Max)}.Polygon(), Closed: true, Pen: drawing.Hair})
	}
	return to.Apply(all.Max).X
}

func join(parts ...string) string {
	out := ""
	for _, p := range parts {
		switch {
		case p == "":
		case out == "":
			out = p
		default:
			out += " · " + p
		}
	}
	return out
}
