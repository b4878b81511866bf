package sheet

import (
	"fmt"
	"math"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan/layout"
)

// Room round an elevation for its dimensions.
const (
	elevationBottom = 18 * mm
	elevationTop    = 7 * mm
	elevationRight  = 6 * mm
	nameOff         = 2 * mm // from a small keep-out to the middle of its name
	mostNameOff     = 6 * mm
)

// levelLine is the field of the marked line's height.
const levelLine = "level line"

// linePen draws zero and the marked line.
var linePen = drawing.Pen{Width: drawing.NarrowWidth, Style: drawing.Chain}

// elevations show all walls to one whole scale, the largest that fits: under each other, or side by side as one walks
// along them.
//
// Side by side, a wall whose heights are those of the wall before leaves their words to it.
func (m *maker) elevations(most geom.Size) []drawing.Drawing {
	stacked, row := 1.0, 1.0
	wide, high, beside := geom.Length(0), geom.Length(0), geom.Length(0)
	count := geom.Length(len(m.plan.Walls))
	var words, rest [][]heightLabel // of each wall, and without those said before
	for i := range m.plan.Walls {
		b := m.extent(&m.plan.Walls[i])
		labels := m.heightLabels(&m.plan.Walls[i])
		words, rest = append(words, labels), append(rest, labels)
		if i > 0 && sameHeights(words[i-1], labels) {
			rest[i] = nil
		}
		wide, high, beside = wide+b.W(), max(high, b.H()), beside+heightRoom(rest[i])+elevationRight
		stacked = max(stacked,
			float64(b.W())/float64(most.W-heightRoom(labels)-elevationRight),
			float64(b.H())/float64(most.H/count-elevationBottom-elevationTop))
	}
	row = max(row,
		float64(wide)/float64(most.W-beside),
		float64(high)/float64(most.H-elevationBottom-elevationTop))
	if wide <= 0 || most.W <= beside || row >= stacked {
		var out []drawing.Drawing
		for i := range m.plan.Walls {
			out = append(out, m.elevation(i, math.Ceil(stacked), words[i], false).Drawing())
		}
		return out
	}
	var all drawing.Drawing
	x := geom.Length(0)
	for i := range m.plan.Walls {
		d := m.elevation(i, math.Ceil(row), rest[i], false).Drawing()
		move := geom.Pt(x-d.Bounds.Min.X, 0)
		for _, mark := range d.Marks {
			all.Add(drawing.Moved(mark, move))
		}
		if i == 0 {
			all.Bounds = d.Bounds.Add(move)
		}
		all.Bounds = all.Bounds.Union(d.Bounds.Add(move))
		x += d.Bounds.W()
	}
	return []drawing.Drawing{all}
}

// extent is a wall with those of its panels that go past an outside corner.
func (m *maker) extent(w *layout.Wall) geom.Rect {
	out := w.Job.Outline.Bounds()
	for _, ri := range w.Runs {
		if r := &m.plan.Runs[ri]; len(r.Panels) > 0 {
			out.Min.X, out.Max.X = min(out.Min.X, r.Bounds.Min.X), max(out.Max.X, r.Bounds.Max.X)
		}
	}
	return out
}

// elevation is a wall as a person who faces it sees it, to the scale 1 : n, with words for its heights. On a screen, which
// can be looked at more closely, clips are as large as they are.
func (m *maker) elevation(index int, n float64, heights []heightLabel, screen bool) drawing.Picture {
	w := &m.plan.Walls[index]
	wall := w.Job.Outline.Bounds()
	to := geom.Scale(1/n, 1/n)
	var pic drawing.Picture
	right, top := to.Apply(wall.Max).X, to.Apply(wall.Max).Y
	all := m.extent(w)
	edge, past := to.Apply(all.Min).X, to.Apply(all.Max).X
	left := heightRoom(heights) - edge
	pic.Bounds = geom.R(-left, -elevationBottom, past+elevationRight, top+elevationTop)

	for i := range w.Members {
		s := &w.Members[i]
		pic.Add(m.member(w, s), func(d *drawing.Drawing) {
			d.Add(drawing.Path{Points: s.Body.Polygon().Map(to), Closed: true, Fill: drawing.Pale})
		})
	}
	for i, k := range w.KeepOuts {
		zone := k.Zone.Polygon().Map(to).Bounds().Intersection(geom.R(0, 0, right, top))
		if !zone.Valid() {
			continue
		}
		pic.Add(m.keepOut(w, i), func(d *drawing.Drawing) {
			hatch(d, zone, 18*mm/10)
			if k.Kind != layout.Cables {
				d.Add(drawing.Path{Points: k.Body.Polygon().Map(to), Closed: true, Pen: drawing.Narrow, Fill: drawing.White})
			}
		})
	}
	pic.Add(drawing.Part{Key: w.Job.Key, Class: "wall-outline"}, func(d *drawing.Drawing) {
		d.Add(outline(w.Job.Outline.Map(to), drawing.Wide, drawing.Guide))
	})
	if y := to.Apply(geom.Pt(0, m.plan.Job.Line)).Y; y > 0 && y < top {
		pic.Add(drawing.Part{Key: levelLine, Class: "marked-line", Title: "the marked line, " + m.read(m.plan.Job.Line) + " above zero"}, func(d *drawing.Drawing) {
			d.Add(drawing.Line{From: geom.Pt(-2*mm, y), To: geom.Pt(right+2*mm, y), Pen: linePen})
		})
	}
	for _, ri := range w.Runs {
		r := &m.plan.Runs[ri]
		m.elevationPanels(&pic, r, to, screen)
		m.elevationBand(&pic, r, to)
	}
	m.elevationHeights(&pic, heights, to, geom.Pt(edge, top))
	var words []geom.Rect
	for _, mark := range pic.Drawing().Marks {
		if text, ok := mark.(drawing.Text); ok {
			words = append(words, text.Bounds())
		}
	}
	for i, k := range w.KeepOuts {
		if k.Kind == layout.Cables {
			continue
		}
		part := m.keepOut(w, i)
		part.Class += " name"
		name := m.keepOutName(w, &w.KeepOuts[i], to, geom.Pt(right, top), words)
		words = append(words, name.Bounds())
		pic.Add(part, func(d *drawing.Drawing) { d.Add(name) })
	}
	// Zero with its datum, and the wall's name and scale; over a narrow wall they begin further left.
	name, scale := "Wall "+w.Job.Name, fmt.Sprintf("1 : %.0f", n)
	if w.Job.Masonry {
		scale += ", masonry"
	}
	nameWide := font.Width(name, medium, true) + 3*mm
	nameAt := max(-left, min(0, pic.Bounds.Max.X-nameWide-font.Width(scale, small, false)))
	pic.Add(drawing.Part{Class: "level", Title: "zero, from which all heights are measured"}, func(d *drawing.Drawing) {
		d.Add(
			drawing.Path{Points: []geom.Point{{}, {X: -2 * mm, Y: 3 * mm}, {X: 2 * mm, Y: 3 * mm}}, Closed: true, Fill: drawing.Black},
			drawing.Line{From: geom.Pt(-6*mm, 0), To: geom.Pt(right+4*mm, 0), Pen: linePen},
		)
	})
	pic.Add(drawing.Part{Key: w.Job.Key, Class: "wall-name"}, func(d *drawing.Drawing) {
		d.Add(drawing.Text{At: geom.Pt(nameAt, top+3*mm), String: name, Height: medium, Bold: true})
	})
	if !screen {
		pic.Add(drawing.Part{}, func(d *drawing.Drawing) {
			d.Add(drawing.Text{At: geom.Pt(nameAt+nameWide, top+3*mm), String: scale, Height: small})
		})
	}
	m.elevationWidths(&pic, w, to, right)
	return pic
}

// keepOutName is the name of a keep-out: in it where it is wide enough, else as near above or below it as it covers no
// panel and none of the words that are there, and on its wall where it can be.
func (m *maker) keepOutName(w *layout.Wall, k *layout.KeepOut, to geom.Affine, corner geom.Point, there []geom.Rect) drawing.Text {
	body := k.Body.Polygon().Map(to).Bounds()
	name := drawing.Text{At: body.Centre(), String: k.Name, Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true}
	wide := font.Width(k.Name, small, false)
	if wide <= body.W() {
		return name
	}
	free := func(box geom.Rect) bool {
		for _, ri := range w.Runs {
			for _, pi := range m.plan.Runs[ri].Panels {
				if m.plan.Panels[pi].Finished.Map(to).InteriorIntersects(box.Polygon()) {
					return false
				}
			}
		}
		return !slices.ContainsFunc(there, box.InteriorIntersects)
	}
	at := func(x, off geom.Length) []geom.Point {
		return []geom.Point{{X: x, Y: min(body.Max.Y+off, corner.Y-25*mm/10)}, {X: x, Y: body.Min.Y - off}} // off the wall's own name
	}
	onWall := min(max(name.At.X, wide/2+mm), corner.X-wide/2-mm)
	first := at(onWall, nameOff)[0]
	for off := nameOff; off <= mostNameOff; off += mm {
		for _, x := range []geom.Length{onWall, name.At.X, body.Max.X - wide/2, body.Min.X + wide/2} {
			for _, name.At = range at(x, off) {
				if free(name.Bounds()) {
					return name
				}
			}
		}
	}
	name.At = first
	return name
}

// member is a stud or a rail as a part without its marks.
func (m *maker) member(w *layout.Wall, s *layout.Member) drawing.Part {
	if s.Rail {
		return drawing.Part{Key: w.Job.Key + ".rails", Class: "rail", Title: "rail, middle at " + m.read(s.Centre)}
	}
	return drawing.Part{Key: w.Job.Key + ".studs", Class: "stud", Title: "stud, middle at " + m.read(s.Centre)}
}

// keepOut is a wall's i-th keep-out as a part without its marks.
func (m *maker) keepOut(w *layout.Wall, i int) drawing.Part {
	k := &w.KeepOuts[i]
	part := drawing.Part{Class: string(k.Kind), Title: k.Name}
	fittings, openings := len(w.Job.Fittings), len(w.Job.Openings)
	switch k.Kind { // keep-outs are in the order of the job file
	case layout.AroundFitting:
		part.Key = w.Job.Fittings[i].Key
	case layout.AroundOpening:
		part.Key = w.Job.Openings[i-fittings].Key
	case layout.Given:
		part.Key = w.Job.KeepOuts[i-fittings-openings].Key
	case layout.Cables:
		part.Key = "cables"
		return part
	}
	part.Title += fmt.Sprintf(", %s, at %s from the left and %s up", m.sizeOf(k.Body.Size()), m.read(k.Body.Min.X), m.read(k.Body.Min.Y))
	return part
}

// elevationPanels draws a run's panels with their clips, and over all of them their names.
func (m *maker) elevationPanels(pic *drawing.Picture, r *layout.Run, to geom.Affine, screen bool) {
	clip := clipDot
	if screen {
		clip = m.clipBase
	}
	for _, pi := range r.Panels {
		p := &m.plan.Panels[pi]
		pic.Add(m.panel(r, p, "panel"), func(d *drawing.Drawing) {
			d.Add(drawing.Path{Points: p.Finished.Map(to), Closed: true, Pen: drawing.Narrow})
		})
		for i := range p.Clips {
			c := &p.Clips[i]
			part := drawing.Part{Key: p.Name, About: []string{"clip"}, Class: "clip on-wood", Title: c.Place + " clip of " + p.Name + ", on a " + string(c.On)}
			if c.On == layout.OnLining {
				part.Class, part.Title = "clip on-lining", c.Place+" clip of "+p.Name+", on the lining"
			}
			pic.Add(part, func(d *drawing.Drawing) { clip(d, c, to) })
		}
	}
	for _, pi := range r.Panels {
		p := &m.plan.Panels[pi]
		b := p.Finished.Map(to).Bounds()
		t := drawing.Text{At: to.Apply(p.Finished.Centroid()), String: p.Name, Height: medium, Bold: true, Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true}
		if font.Width(p.Name, medium, true) > b.W()-mm {
			t.Height = small
		}
		if font.Width(p.Name, t.Height, true) > b.W()-mm && b.H() > b.W() {
			t.Turn = 90
		}
		t = besideClips(t, p, func(c *layout.Clip) geom.Rect {
			if screen {
				return m.wallHalf(c).Polygon().Map(to).Bounds()
			}
			at := to.Apply(c.Wall)
			return geom.R(at.X-clipDotSize, at.Y-clipDotSize, at.X+clipDotSize, at.Y+clipDotSize)
		}, to)
		pic.Add(m.panel(r, p, "panel name"), func(d *drawing.Drawing) { d.Add(t) })
	}
}

// panel is a panel as a part without its marks.
func (m *maker) panel(r *layout.Run, p *layout.Panel, class string) drawing.Part {
	title := p.Name + ", " + m.sizeOf(p.Finished.Bounds().Size())
	if p.Board >= 0 {
		title += ", board " + m.plan.Boards[p.Board].Name
	}
	return drawing.Part{Key: p.Name, About: []string{r.Job.Key}, Class: class, Title: title}
}

// clipDotSize is the radius of a clip's dot.
const clipDotSize = 6 * mm / 10

// clipDot marks the middle of a clip, to be seen at any scale.
func clipDot(d *drawing.Drawing, c *layout.Clip, to geom.Affine) {
	d.Add(drawing.Circle{Centre: to.Apply(c.Wall), Radius: clipDotSize, Fill: drawing.Black})
}

// clipBase draws a clip's base as large as it is: filled, with its holes left open, where it is screwed into wood; else
// crossed out, since the lining alone holds it.
func (m *maker) clipBase(d *drawing.Drawing, c *layout.Clip, to geom.Affine) {
	base := m.wallHalf(c).Polygon().Map(to)
	path := drawing.Path{Points: base, Closed: true, Pen: drawing.Narrow, Fill: drawing.Black}
	hole := drawing.Circle{Radius: to.Apply(geom.Pt(m.marker()/2, 0)).X, Fill: drawing.White}
	if c.On == layout.OnLining {
		path.Fill, hole.Fill = drawing.White, drawing.Black
	}
	d.Add(path)
	if c.On == layout.OnLining {
		d.Add(drawing.Line{From: base[0], To: base[2], Pen: drawing.Hair}, drawing.Line{From: base[1], To: base[3], Pen: drawing.Hair})
	}
	for _, h := range c.WallHoles {
		hole.Centre = to.Apply(h)
		d.Add(hole)
	}
}

// wallHalf is the base of a clip's half on its wall.
func (m *maker) wallHalf(c *layout.Clip) geom.Rect {
	half := geom.Pt(m.plan.Job.Clip.Wall.Base.W/2, m.plan.Job.Clip.Wall.Base.H/2)
	return geom.Rect{Min: c.Wall.Sub(half), Max: c.Wall.Add(half)}
}

// besideClips moves a panel's name up or down in it, as little as needed, to where no clip is under it; where there is no
// such place the name gets smaller, and else stays.
func besideClips(name drawing.Text, p *layout.Panel, cover func(*layout.Clip) geom.Rect, to geom.Affine) drawing.Text {
	room := p.Finished.Map(to).Bounds()
	var bases []geom.Rect
	for i := range p.Clips {
		bases = append(bases, cover(&p.Clips[i]))
	}
	for _, height := range []geom.Length{name.Height, small} {
		name.Height = height
		for off := geom.Length(0); off < room.H()/2; off += mm {
			for _, dy := range []geom.Length{off, -off} {
				moved := name
				moved.At.Y += dy
				if box := moved.Bounds(); room.Contains(box) && !slices.ContainsFunc(bases, box.InteriorIntersects) {
					return moved
				}
			}
		}
	}
	return name
}

// elevationWidths are the places along the wall: ends of the wall and of its runs.
func (m *maker) elevationWidths(pic *drawing.Picture, w *layout.Wall, to geom.Affine, right geom.Length) {
	at := []geom.Length{0}
	for _, ri := range w.Runs {
		b := m.plan.Runs[ri].Bounds
		for _, x := range []geom.Length{b.Min.X, b.Max.X} {
			if x > at[len(at)-1] && x < w.Job.Width {
				at = append(at, x)
			}
		}
	}
	at = append(at, w.Job.Width)
	pic.Add(drawing.Part{Class: "width"}, func(d *drawing.Drawing) {
		for i := 0; i+1 < len(at); i++ {
			a, b := to.Apply(geom.Pt(at[i], 0)), to.Apply(geom.Pt(at[i+1], 0))
			text := m.read(at[i+1] - at[i])
			if font.Width(text, small, false) < b.X-a.X-2*mm {
				dimension(d, a, b, -7*mm, text)
			}
		}
	})
	pic.Add(drawing.Part{Key: w.Job.Key + ".width", Class: "width"}, func(d *drawing.Drawing) {
		dimension(d, geom.Pt(0, 0), geom.Pt(right, 0), -14*mm, m.wallWidth(w.Job.Width))
	})
}

// wallWidth is a wall's width as the tape reads it, and in feet where people say it so.
func (m *maker) wallWidth(width geom.Length) string {
	text := "wall " + m.read(width)
	if m.plan.Job.Units == geom.Imperial && width >= geom.Foot {
		text += " = " + width.Long(geom.Imperial)
	}
	return text
}
