package page

import (
	"fmt"
	"math"

	"rodsheet/geom"
)

// Paper is what pages are printed on, upright.
type Paper struct {
	Size    geom.Size
	Margin  geom.Length // strip the printer cannot reach
	Overlap geom.Length // how far neighbouring pages lie over each other
}

// Options say how sheets go on paper.
type Options struct {
	Paper      Paper
	Units      geom.System
	Job        string       // the job's name, on every page
	Printer    string       // name of the printer the pages are corrected for; "" for none
	Correction geom.Affine  // what undoes the printer's error, without a move; the zero value corrects nothing
	Whole      bool         // each tiled or free drawing on one page of its own size
	Most       int          // refuse to lay out more pages than this; 0 for no limit
	Check      func() error // asked before each sheet, so that what is no longer wanted can end; nil for never
}

// Furniture stands outside the field: a footer, and a strip on the right for the upright check line.
const (
	footer    = 23 * geom.Millimetre
	sideStrip = 10 * geom.Millimetre
	air       = 2 * geom.Millimetre // between furniture and field
)

// Least paper that the furniture and its 4 in check lines fit on.
const (
	leastFieldWidth  = 125 * geom.Millimetre
	leastFieldHeight = 115 * geom.Millimetre
)

// A PaperError reports that the paper is too small for what must stand on every page.
type PaperError struct{ Reason string }

func (e *PaperError) Error() string { return e.Reason }

// Printable returns the size that a page can be printed on, upright: the paper less margins and what the printer's
// correction takes.
func (o Options) Printable() geom.Size { return o.frame(o.Paper.Size, false).printable.Size() }

// Field returns the size that a page offers a drawing, upright: the paper less margins, furniture and what the printer's
// correction takes. The error is a *[PaperError].
func (o Options) Field() (geom.Size, error) {
	f := o.frame(o.Paper.Size, false)
	size := f.field.Size()
	if least := 2 * (o.Paper.Margin + o.Paper.Overlap); o.Paper.Size.W <= least || o.Paper.Size.H <= least {
		return geom.Size{}, &PaperError{fmt.Sprintf("paper %s is smaller than twice its margin and overlap (%s): take larger paper or a smaller margin",
			o.Paper.Size.In(o.Units), least.In(o.Units))}
	}
	if size.W < leastFieldWidth || size.H < leastFieldHeight || size.W < leastFieldHeight {
		return geom.Size{}, &PaperError{fmt.Sprintf("paper %s leaves %s beside the margins and the check lines; %s is the least: take larger paper (A4 and Letter do) or a smaller margin",
			o.Paper.Size.In(o.Units), size.In(o.Units), geom.Size{W: leastFieldWidth, H: leastFieldHeight}.In(o.Units))}
	}
	return size, nil
}

// A frame is one page's geometry in true lengths: origin at the paper's lower left corner, y up.
type frame struct {
	paper     geom.Size // as read
	printable geom.Rect
	inner     geom.Rect   // where furniture and field go: printable less the sheet's rim
	field     geom.Rect   // where the drawing goes
	toPage    geom.Affine // from true lengths to the page, through the printer's correction
}

// frame lays out paper of the given size, upright or turned on its side.
func (o Options) frame(upright geom.Size, turned bool) frame {
	k := o.Correction
	if k == (geom.Affine{}) {
		k = geom.Identity()
	}
	paper := upright
	if turned { // the sheet goes through the printer upright all the same
		paper = upright.Turned()
		k = geom.Affine{A: k.D, B: -k.C, C: -k.B, D: k.A}
	}
	centre := geom.Pt(paper.W/2, paper.H/2)
	about := geom.Translate(geom.Point{X: -centre.X, Y: -centre.Y}).Then(k).Then(geom.Translate(centre))
	if k == geom.Identity() {
		about = k
	}
	p := geom.Rect{Max: geom.Pt(paper.W, paper.H)}.Inset(o.Paper.Margin)
	// What the correction enlarges must still end inside the printable rectangle.
	w, h := float64(p.W()), float64(p.H())
	shrink := math.Max(1, math.Max((math.Abs(k.A)*w+math.Abs(k.B)*h)/w, (math.Abs(k.C)*w+math.Abs(k.D)*h)/h))
	if shrink > 1 {
		dx, dy := p.W()-geom.Length(w/shrink), p.H()-geom.Length(h/shrink)
		p = geom.R(p.Min.X+dx/2, p.Min.Y+dy/2, p.Max.X-dx/2, p.Max.Y-dy/2)
	}
	return frame{
		paper:     paper,
		printable: p,
		inner:     p,
		field:     geom.R(p.Min.X, p.Min.Y+footer+air, p.Max.X-sideStrip-air, p.Max.Y),
		toPage:    about.Then(geom.FlipY(paper.H)),
	}
}

// withRim keeps a strip inside the printable rectangle free of furniture and field.
func (f frame) withRim(rim geom.Length) frame {
	f.inner, f.field = f.printable.Inset(rim), f.field.Inset(rim)
	return f
}

// window is the page's rectangle round r, a rectangle in true lengths.
func (f frame) window(r geom.Rect) geom.Rect { return r.Polygon().Map(f.toPage).Bounds() }
