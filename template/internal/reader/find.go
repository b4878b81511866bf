package reader

import (
	"math"
	"slices"
	"strings"
)

// A Segment is one straight piece of a stroke.
type Segment struct {
	From, To Point
	*Stroke
}

// Segments lists the straight pieces of every stroke that has no curves; the closing one of a closed stroke comes last.
func (p Page) Segments() []Segment {
	var found []Segment
	for i := range p.Strokes {
		s := &p.Strokes[i]
		if s.Curved {
			continue
		}
		for k := 1; k < len(s.Points); k++ {
			found = append(found, Segment{s.Points[k-1], s.Points[k], s})
		}
		if n := len(s.Points); s.Closed && n > 2 {
			found = append(found, Segment{s.Points[n-1], s.Points[0], s})
		}
	}
	return found
}

// Length is the segment's length in millimetres.
func (s Segment) Length() float64 { return s.From.Distance(s.To) }

// Level reports whether the segment runs level.
func (s Segment) Level() bool { return math.Abs(s.From.Y-s.To.Y) < 0.001 }

// Upright reports whether the segment runs upright.
func (s Segment) Upright() bool { return math.Abs(s.From.X-s.To.X) < 0.001 }

// Distance is how far p is from the segment in millimetres.
func (s Segment) Distance(p Point) float64 {
	dx, dy := s.To.X-s.From.X, s.To.Y-s.From.Y
	along := 0.0
	if square := dx*dx + dy*dy; square > 0 {
		along = max(0, min(1, ((p.X-s.From.X)*dx+(p.Y-s.From.Y)*dy)/square))
	}
	return p.Distance(Point{s.From.X + along*dx, s.From.Y + along*dy})
}

// Covers reports whether the segment is seen from a to b, off neither by more than tolerance mm.
func (s Segment) Covers(a, b Point, tolerance float64) bool {
	return s.Distance(a) <= tolerance && s.Distance(b) <= tolerance && s.Clip.Has(a) && s.Clip.Has(b)
}

// Containing lists the texts that have the words in them.
func (p Page) Containing(words string) []Text {
	var found []Text
	for _, t := range p.Texts {
		if strings.Contains(t.String, words) {
			found = append(found, t)
		}
	}
	return found
}

// Bounds is the smallest upright rectangle that holds the outline.
func (o Outline) Bounds() Rect { return bounds(o.Points) }

// Box reports whether the outline is an upright rectangle.
func (o Outline) Box() bool {
	if !o.Closed || o.Curved || len(o.Points) != 4 {
		return false
	}
	b := o.Bounds()
	corners := []Point{b.Min, b.Max, {b.Min.X, b.Max.Y}, {b.Max.X, b.Min.Y}}
	for _, p := range o.Points {
		if !slices.ContainsFunc(corners, func(c Point) bool { return c.Distance(p) < 0.001 }) {
			return false
		}
	}
	return true
}

// Centre is the middle of the rectangle.
func (r Rect) Centre() Point { return Point{(r.Min.X + r.Max.X) / 2, (r.Min.Y + r.Max.Y) / 2} }

// Distance is how far p is from the rectangle; 0 inside.
func (r Rect) Distance(p Point) float64 {
	return math.Hypot(max(r.Min.X-p.X, 0, p.X-r.Max.X), max(r.Min.Y-p.Y, 0, p.Y-r.Max.Y))
}

// Gap is how far two rectangles are apart; 0 where they touch or overlap.
func (r Rect) Gap(s Rect) float64 {
	return math.Hypot(max(r.Min.X-s.Max.X, 0, s.Min.X-r.Max.X), max(r.Min.Y-s.Max.Y, 0, s.Min.Y-r.Max.Y))
}

// An Arrowhead is a black triangle with two sides of one length: its tip lies between them.
type Arrowhead struct{ Tip, Foot Point }

// Arrowheads lists the arrowheads whose tips are seen.
func (p Page) Arrowheads() []Arrowhead {
	var found []Arrowhead
	for _, f := range p.Fills {
		if f.Curved || !f.Closed || len(f.Points) != 3 || f.Grey != 0 {
			continue
		}
		for i, tip := range f.Points {
			a, b := f.Points[(i+1)%3], f.Points[(i+2)%3]
			if math.Abs(tip.Distance(a)-tip.Distance(b)) < 0.01 && f.Clip.Has(tip) {
				found = append(found, Arrowhead{tip, Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}})
				break
			}
		}
	}
	return found
}

// Dots lists the middles of small black discs, of at most the given radius in mm, that are seen.
func (p Page) Dots(most float64) []Point {
	var found []Point
	for _, f := range p.Fills {
		if !f.Curved || !f.Closed || f.Grey != 0 {
			continue
		}
		if at, radius, off := f.Round(); off < 0.01 && radius <= most && f.Clip.Has(at) {
			found = append(found, at)
		}
	}
	return found
}

// Paragraph is a text with the lines that go on under it: they begin at the same place across, in the same letters, each
// less than two of their heights below the one before.
func (p Page) Paragraph(first Text) string {
	words, last := first.String, first
	for {
		next := slices.IndexFunc(p.Texts, func(t Text) bool {
			return math.Abs(t.X-last.X) < 0.1 && t.Y > last.Y+0.1 && t.Y < last.Y+2*last.SizeMM &&
				t.SizeMM == last.SizeMM && t.Bold == last.Bold && t.Turn == last.Turn
		})
		if next < 0 {
			return words
		}
		last = p.Texts[next]
		words += " " + last.String
	}
}
