package view

import (
	"html/template"
	"sync"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

// pictureAt is the small picture that shows what to measure in a group of fields; "" where words are enough.
func pictureAt(pattern string) string {
	switch pattern {
	case "clip", "wrap":
		return pattern
	case "heights.*", "walls[].runs[].height":
		return "band"
	}
	return ""
}

// smallPictures are drawn once: they show what is measured, to no scale.
var smallPictures = sync.OnceValue(func() map[string]template.HTML {
	return map[string]template.HTML{
		"clip": pictureOf(sketchOf(86, 66, sketchClip), "clip", "A pair of clips seen from the side: the standoff is from the wall to the board, the lift is how far the board rises. "+
			"From the front: the base is the outline of a half, the offset is from the middle of the wall half to the middle of the board half.").SVG,
		"wrap": pictureOf(sketchOf(86, 44, sketchWrap), "wrap", "A panel cut through at its edge: the cover runs over the foam and round the board, and is held on its back.").SVG,
		"band": pictureOf(sketchOf(86, 70, sketchBand), "band", "Heights from the floor: the deck without its cushion, the bottom and the top of the panel, the underside of the sill above.").SVG,
	}
})

func smallPicture(name string) template.HTML { return smallPictures()[name] }

// A sketch is a drawing by whole millimetres.
type sketch struct{ *drawing.Drawing }

func sketchOf(w, h geom.Length, draw func(s sketch)) drawing.Picture {
	p := drawing.Picture{Bounds: geom.Rect{Max: geom.Pt(w*geom.Millimetre, h*geom.Millimetre)}}
	p.Add(drawing.Part{Class: "sketch"}, func(d *drawing.Drawing) { draw(sketch{d}) })
	return p
}

func at(x, y geom.Length) geom.Point { return geom.Pt(x*geom.Millimetre, y*geom.Millimetre) }

func (s sketch) box(x, y, w, h geom.Length, pen drawing.Pen, fill drawing.Fill) {
	s.Add(drawing.Path{Points: []geom.Point{at(x, y), at(x+w, y), at(x+w, y+h), at(x, y+h)}, Closed: true, Pen: pen, Fill: fill})
}

func (s sketch) path(pen drawing.Pen, xy ...geom.Length) {
	var points []geom.Point
	for i := 0; i < len(xy); i += 2 {
		points = append(points, at(xy[i], xy[i+1]))
	}
	s.Add(drawing.Path{Points: points, Pen: pen})
}

func (s sketch) words(x, y geom.Length, anchor drawing.Anchor, text string) {
	s.Add(drawing.Text{At: at(x, y), String: text, Height: font.Small, Anchor: anchor, Level: drawing.Halfway, Halo: true})
}

// across and up are dimensions, with strokes at their ends.
func (s sketch) across(x1, x2, y geom.Length) {
	s.path(drawing.Narrow, x1, y, x2, y)
	for _, x := range []geom.Length{x1, x2} {
		s.path(drawing.Narrow, x-1, y-1, x+1, y+1)
	}
}

func (s sketch) up(x, y1, y2 geom.Length) {
	s.path(drawing.Narrow, x, y1, x, y2)
	for _, y := range []geom.Length{y1, y2} {
		s.path(drawing.Narrow, x-1, y-1, x+1, y+1)
	}
}

func sketchClip(s sketch) {
	// From the side: wall, the two halves hooked, board.
	s.box(2, 8, 6, 44, drawing.Narrow, drawing.Tint)
	s.box(20, 8, 5, 44, drawing.Narrow, drawing.Pale)
	s.path(drawing.Wide, 8, 20, 10, 20, 10, 36, 14, 36, 14, 41, 16, 41)
	s.path(drawing.Wide, 20, 46, 17, 46, 17, 38, 12, 38, 12, 32)
	s.words(5, 4, drawing.Middle, "wall")
	s.words(24, 4, drawing.Middle, "board")
	s.across(8, 20, 55)
	s.words(14, 59, drawing.Middle, "standoff")
	s.up(29, 44, 52)
	s.words(31, 48, drawing.Left, "lift")
	// From the front: the wall half, and the board half above it.
	s.box(48, 12, 18, 22, drawing.Wide, drawing.White)
	s.box(48, 22, 18, 22, drawing.Hidden, drawing.NoFill)
	for _, y := range []geom.Length{23, 33} {
		s.path(drawing.Hair, 55, y, 59, y)
		s.path(drawing.Hair, 57, y-2, 57, y+2)
	}
	s.across(48, 66, 8)
	s.words(57, 4, drawing.Middle, "base")
	s.up(69, 23, 33)
	s.words(71, 28, drawing.Left, "offset")
	s.words(67, 15, drawing.Left, "wall half")
	s.words(67, 41, drawing.Left, "board half")
	s.words(57, 59, drawing.Middle, "from the front")
}

func sketchWrap(s sketch) {
	s.box(14, 14, 60, 7, drawing.Narrow, drawing.Tint)
	s.box(14, 21, 60, 12, drawing.Narrow, drawing.Pale)
	s.path(drawing.Wide, 74, 35, 12, 35, 12, 12, 34, 12)
	s.words(48, 17, drawing.Middle, "board")
	s.words(48, 27, drawing.Middle, "foam")
	s.words(48, 39, drawing.Middle, "cover")
	s.across(14, 34, 7)
	s.words(24, 3, drawing.Middle, "held on the back")
	s.up(8, 12, 35)
	s.words(6, 39, drawing.Middle, "edge")
}

func sketchBand(s sketch) {
	s.path(drawing.Wide, 2, 4, 84, 4)
	s.words(80, 7, drawing.Right, "floor")
	s.box(2, 20, 30, 4, drawing.Narrow, drawing.Tint) // deck
	s.box(2, 24, 28, 7, drawing.Narrow, drawing.Pale)
	s.words(16, 27, drawing.Middle, "cushion")
	s.words(16, 16, drawing.Middle, "deck")
	s.box(6, 36, 24, 18, drawing.Wide, drawing.White)
	s.words(18, 45, drawing.Middle, "panel")
	s.box(2, 60, 34, 4, drawing.Narrow, drawing.Tint)
	s.words(16, 67, drawing.Middle, "what is above")
	for i, d := range []struct {
		high geom.Length
		name string
	}{{24, "deck"}, {36, "bottom"}, {54, "top"}, {60, "sill"}} {
		x := 38 + 12*geom.Length(i)
		s.path(drawing.Hair, 31, d.high, x+2, d.high)
		s.up(x, 4, d.high)
		s.words(x+1, d.high+3, drawing.Left, d.name)
	}
}
