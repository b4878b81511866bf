// Package typeset sets words, tables and figures into drawings of a given size, one after the other, as many drawings
// as it takes. It knows nothing of what they say.
//
// A block falls into boxes that are never broken; boxes fill a drawing from the top, and a heading stays with what
// follows it.
package typeset

import (
	"strconv"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

const mm = geom.Millimetre

// pitch is the distance of lines of text.
func pitch(height geom.Length) geom.Length { return height * 17 / 10 }

// A Block is a piece of text, a table or a figure.
type Block interface {
	boxes(width geom.Length) []box
}

// box is an unbreakable piece; its marks hang from the origin downwards.
type box struct {
	before geom.Length // space above, dropped at the top of a drawing
	height geom.Length
	keep   bool // stays with the next box
	marks  []drawing.Mark
}

// Set sets blocks into drawings of the given size, their upper left corners at (0, size.H). A box higher than a whole
// drawing overflows it; figures must be made to fit.
func Set(size geom.Size, blocks ...Block) []drawing.Drawing {
	var all []box
	for _, b := range blocks {
		all = append(all, b.boxes(size.W)...)
	}
	var out []drawing.Drawing
	bounds := geom.Rect{Max: geom.Pt(size.W, size.H)}
	current := drawing.Drawing{Bounds: bounds}
	y := size.H
	for i := 0; i < len(all); {
		// A group is a box with all that must stay with it.
		j, need := i, geom.Length(0)
		for {
			if j > i || y < size.H {
				need += all[j].before
			}
			need += all[j].height
			if !all[j].keep || j+1 == len(all) || need+all[j+1].before+all[j+1].height > size.H {
				break
			}
			j++
		}
		if need > y && y < size.H {
			out = append(out, current)
			current, y = drawing.Drawing{Bounds: bounds}, size.H
			continue
		}
		for ; i <= j; i++ {
			if y < size.H {
				y -= all[i].before
			}
			for _, m := range all[i].marks {
				current.Add(drawing.Moved(m, geom.Pt(0, y)))
			}
			y -= all[i].height
		}
	}
	if len(current.Marks) > 0 || len(out) == 0 {
		out = append(out, current)
	}
	return out
}

// Title opens a sheet.
type Title struct{ Text string }

func (b Title) boxes(width geom.Length) []box {
	out := lines(b.Text, font.Large, true, 0, width)
	for _, line := range out { // round letters stand above the flat ones, and a page ends where the title begins
		for i, m := range line.marks {
			line.marks[i] = drawing.Moved(m, geom.Pt(0, -font.Large/25))
		}
	}
	return keepTogether(out, 0, true)
}

// Heading opens a section.
type Heading struct{ Text string }

func (b Heading) boxes(width geom.Length) []box {
	out := lines(b.Text, font.Medium, true, 0, width)
	return keepTogether(out, 5*mm, true)
}

// Para is a paragraph.
type Para struct {
	Text string
	Bold bool
}

func (b Para) boxes(width geom.Length) []box {
	return keepTogether(lines(b.Text, font.Small, b.Bold, 0, width), 2*mm, false)
}

// Item is a paragraph with a label hung on its left: a number, a mark, a level.
type Item struct {
	Label string
	Text  string
	Hang  geom.Length // width kept for the label; 0: 7 mm
}

func (b Item) boxes(width geom.Length) []box {
	hang := b.Hang
	if hang == 0 {
		hang = 7 * mm
	}
	out := lines(b.Text, font.Small, false, hang, width)
	if len(out) == 0 {
		return nil
	}
	out[0].marks = append(out[0].marks, drawing.Text{At: geom.Pt(0, -font.Small), String: b.Label, Height: font.Small, Bold: true})
	out = keepTogether(out, 12*mm/10, false)
	out[0].keep = len(out) > 1
	return out
}

// Steps are items numbered from 1.
func Steps(texts ...string) []Block {
	out := make([]Block, len(texts))
	for i, text := range texts {
		out[i] = Item{Label: strconv.Itoa(i + 1), Text: text}
	}
	return out
}

// Keep holds blocks together on one drawing, as a heading with its table and picture, where one drawing can hold them.
type Keep struct{ Blocks []Block }

func (b Keep) boxes(width geom.Length) []box {
	var out []box
	for _, block := range b.Blocks {
		out = append(out, block.boxes(width)...)
	}
	for i := range out[:max(0, len(out)-1)] {
		out[i].keep = true
	}
	return out
}

// Space is empty.
type Space struct{ Height geom.Length }

func (b Space) boxes(geom.Length) []box { return []box{{height: b.Height}} }

// Figure is a drawing at its own size, in the middle.
type Figure struct{ Drawing drawing.Drawing }

func (b Figure) boxes(width geom.Length) []box {
	d := b.Drawing
	to := geom.Point{X: (width-d.Bounds.W())/2 - d.Bounds.Min.X, Y: -d.Bounds.Max.Y}
	out := box{before: 3 * mm, height: d.Bounds.H()}
	for _, m := range d.Marks {
		out.marks = append(out.marks, drawing.Moved(m, to))
	}
	return []box{out}
}

// Columns sets blocks side by side in columns of equal width, never broken over drawings.
type Columns struct{ Blocks [][]Block }

func (b Columns) boxes(width geom.Length) []box {
	const gutter = 8 * mm
	n := geom.Length(len(b.Blocks))
	each := (width - (n-1)*gutter) / n
	out := box{before: 3 * mm}
	for i, blocks := range b.Blocks {
		x, y := geom.Length(i)*(each+gutter), geom.Length(0)
		for j, block := range blocks {
			for k, bx := range block.boxes(each) {
				if j > 0 || k > 0 {
					y -= bx.before
				}
				for _, m := range bx.marks {
					out.marks = append(out.marks, drawing.Moved(m, geom.Pt(x, y)))
				}
				y -= bx.height
			}
		}
		out.height = max(out.height, -y)
	}
	return []box{out}
}

// lines sets text in lines from x = indent, each a box.
func lines(text string, height geom.Length, bold bool, indent, width geom.Length) []box {
	var out []box
	for _, line := range font.Wrap(text, height, bold, width-indent) {
		out = append(out, box{height: pitch(height), marks: []drawing.Mark{
			drawing.Text{At: geom.Pt(indent, -height), String: line, Height: height, Bold: bold}}})
	}
	return out
}

// keepTogether puts space before the first box and keeps short paragraphs whole; with next, the last box stays with what
// follows.
func keepTogether(boxes []box, before geom.Length, next bool) []box {
	if len(boxes) == 0 {
		return boxes
	}
	boxes[0].before = before
	for i := range boxes[:len(boxes)-1] {
		boxes[i].keep = next || len(boxes) <= 4 || i == 0 || i == len(boxes)-2
	}
	boxes[len(boxes)-1].keep = next
	return boxes
}
