package sheet

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/plan"
	"rodsheet/template/plan/layout"
)

// Room that pictures for a screen would fill on paper, so that their letters stand in proportion: each wall of it, and all
// of them beside each other.
var (
	pictureField = geom.Size{W: 180 * mm, H: 130 * mm}
	pictureRow   = 260 * mm
)

// Pictures are the walls of a plan for a screen, in their order round the room, as a person who faces them sees them: all
// to one scale and equally high, clips as large as they are. Parts have these classes: "stud" and "rail"; "fitting",
// "opening", "keep-out" and "cables"; "wall-outline" and "wall-name"; "panel" with "clip on-wood" and "clip on-lining"; "band"
// with "deck", "cushion" and "sill"; "height", "level" and "width"; words in a part of their own are a "name" too.
func Pictures(p *plan.Plan) []drawing.Picture {
	m := &maker{plan: p}
	var labels [][]heightLabel
	wide, beside, n := geom.Length(0), geom.Length(0), 0.0
	for i := range p.Walls {
		labels = append(labels, m.heightLabels(&p.Walls[i]))
		size := m.extent(&p.Walls[i]).Size()
		n = max(n, float64(size.W)/float64(pictureField.W), float64(size.H)/float64(pictureField.H))
		wide, beside = wide+size.W, beside+heightRoom(labels[i])+elevationRight
	}
	// A row of many walls is longer: else words would be larger than what they are about.
	n = min(3*n, max(n, float64(wide)/float64(max(pictureRow-beside, pictureRow/2))))
	var all []drawing.Picture
	top := geom.Length(0)
	for i := range p.Walls {
		pic := m.elevation(i, n, labels[i], true)
		all, top = append(all, pic), max(top, pic.Bounds.Max.Y)
	}
	for i := range all {
		all[i].Bounds.Max.Y = top
	}
	return all
}

// BoardPicture is a board for a screen, seen from a side: its outline, the land that stays free for staples and every clip
// base with its holes. Parts have the classes "board", "land", "clip" and "name".
func BoardPicture(p *plan.Plan, b *layout.Board, side Side) drawing.Picture {
	m := &maker{plan: p}
	v := viewOf(b, side)
	n := max(float64(b.Size.W), float64(b.Size.H)) / float64(pictureField.H/2)
	to := geom.Scale(1/n, 1/n)
	var pic drawing.Picture
	pic.Bounds = v.outline.Map(to).Bounds().Inset(-3 * mm)
	pic.Add(drawing.Part{Class: "board"}, func(d *drawing.Drawing) {
		path := outline(v.outline.Map(to), drawing.Wide, drawing.Cut)
		path.Fill = drawing.White
		d.Add(path)
	})
	pic.Add(drawing.Part{Key: "staples", Class: "land", Title: "staple land, " + m.read(p.Wrap.Land) + " wide: no clip on it"}, func(d *drawing.Drawing) {
		for _, inner := range m.land(v.outline) {
			d.Add(outline(inner.Map(to), drawing.Faint, drawing.Note))
		}
	})
	for i := range b.Clips {
		c := &b.Clips[i]
		pic.Add(drawing.Part{Key: "clip", Class: "clip", Title: c.Place + " clip"}, func(d *drawing.Drawing) {
			d.Add(outline(v.base(p, c).Polygon().Map(to), drawing.Narrow, drawing.Guide))
			for _, h := range c.BoardHoles {
				at := to.Apply(v.to.Apply(h))
				arm := 15 * mm / 10
				d.Add(
					drawing.Line{From: at.Sub(geom.Pt(arm, 0)), To: at.Add(geom.Pt(arm, 0)), Pen: drawing.Hair, Role: drawing.Drill},
					drawing.Line{From: at.Sub(geom.Pt(0, arm)), To: at.Add(geom.Pt(0, arm)), Pen: drawing.Hair, Role: drawing.Drill},
				)
			}
		})
	}
	pic.Add(drawing.Part{Class: "name"}, func(d *drawing.Drawing) {
		at := to.Apply(v.bounds.Centre())
		d.Add(
			drawing.Text{At: at.Add(geom.Pt(0, mm)), String: string(side), Height: medium, Bold: true, Anchor: drawing.Middle, Halo: true},
			drawing.Text{At: at.Sub(geom.Pt(0, 35*mm/10)), String: "UP ↑", Height: small, Anchor: drawing.Middle, Halo: true},
		)
	})
	return pic
}

// A HolePlace is a hole of a board as a tape finds it, on the side that is drilled.
type HolePlace struct {
	Clip       string // "upper left", as seen from the front
	Across, Up string // "3 1/2″ from left"
}

// HolePlaces are all holes of a board, each by its distances from two edges, as a side of it is seen.
func HolePlaces(p *plan.Plan, b *layout.Board, side Side) []HolePlace {
	m := &maker{plan: p}
	v := viewOf(b, side)
	var all []HolePlace
	for _, c := range b.Clips {
		for _, h := range c.BoardHoles {
			across, up := m.reach(v, v.to.Apply(h))
			all = append(all, HolePlace{c.Place, across, up})
		}
	}
	return all
}
