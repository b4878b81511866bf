package drawing

import "rodsheet/geom"

// A Part is a thing in a picture, kept apart from the others so that a screen can name it, light it up or hide it.
type Part struct {
	Key   string   // what it shows: the path of a value in a file, or a name; "" for nothing in particular
	About []string // further keys that it has to do with
	Class string   // what kind of thing it is, in words with spaces between
	Title string   // it in words; may be empty
	Marks []Mark
}

// A Picture is a drawing in parts, from back to front.
type Picture struct {
	Bounds geom.Rect
	Parts  []Part
}

// Add appends a part whose marks draw makes. A part without marks is left out.
func (p *Picture) Add(part Part, draw func(d *Drawing)) {
	var d Drawing
	draw(&d)
	if part.Marks = append(part.Marks, d.Marks...); len(part.Marks) > 0 {
		p.Parts = append(p.Parts, part)
	}
}

// Drawing returns the picture in one piece.
func (p Picture) Drawing() Drawing {
	d := Drawing{Bounds: p.Bounds}
	for _, part := range p.Parts {
		d.Add(part.Marks...)
	}
	return d
}
