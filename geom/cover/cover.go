// Package cover lays page windows over a drawing so that few pages do, and no seam comes near a mark.
//
// It solves two problems. [GridProblem]: the whole drawing is laid over pages in a grid of columns and rows, taped
// together on seams. [WindowProblem]: each page stands for itself, placed by measure, so that only the marks must lie
// on some page. It knows nothing of what the marks mean, nor of margins and printers.
//
// Grid. The columns' seams and the rows' seams don't bear on each other, so each axis is solved alone: the fewest
// windows come from pushing every seam as far as it will go, which no other choice can outrun; whether a grid of
// equal steps does as well is decided on the offsets that the marks leave free. Sorting the marks is the price,
// O(m log m).
//
// Windows. Covering points with the fewest equal rectangles is NP-hard (Fowler, Paterson & Tanimoto, "Optimal
// packing and covering in the plane are NP-complete", 1981). The largest sets of marks that one page can hold are
// listed, reduced by dominance, split into components that share no page, and searched by branch and bound under an
// independent-set bound; the search is limited by steps, and the bound that was reached is told.
//
// All lengths are exact; the same problem gives the same answer.
package cover

import (
	"fmt"

	"rodsheet/geom"
)

// A Mark is something that must not be cut by a seam: a circle of radius R about At. The clearance around it is the
// problem's.
type Mark struct {
	At geom.Point
	R  geom.Length
}

// An InputError says what is wrong with a problem, and what would be right.
type InputError struct{ Reason string }

func (e *InputError) Error() string { return e.Reason }

func refuse(format string, args ...any) error { return &InputError{fmt.Sprintf(format, args...)} }

// A TooLargeError tells of a mark that no page can hold, or that leaves no place for a seam beside it.
type TooLargeError struct {
	Mark   int         // its index in the problem's marks
	R      geom.Length // its radius
	Clear  geom.Length // the clearance asked for
	Window geom.Size   // the first of the sizes that a page can show
}

func (e *TooLargeError) Error() string {
	return fmt.Sprintf("mark %d, %v across with %v clear around it, is too large for a page that shows %v × %v: take larger paper or less clearance",
		e.Mark, 2*e.R, e.Clear, e.Window.W, e.Window.H)
}

// farthest is the largest coordinate taken, either way: small enough that no sum here can overflow.
const farthest = 1000 * geom.Longest

func checkMarks(marks []Mark) error {
	for i, m := range marks {
		if m.R < 0 {
			return refuse("mark %d has the radius %v: it must not be negative", i, m.R)
		}
		if m.R > farthest || m.At.X.Abs() > farthest || m.At.Y.Abs() > farthest {
			return refuse("mark %d at %v, %v lies beyond what can be laid out, ±%v", i, m.At.X, m.At.Y, farthest)
		}
	}
	return nil
}

func checkWindows(sizes []geom.Size, clear geom.Length) error {
	if len(sizes) == 0 {
		return refuse("no page to lay out: give at least one size that a page can show")
	}
	for _, w := range sizes {
		if w.W <= 0 || w.H <= 0 || w.W > farthest || w.H > farthest {
			return refuse("a page that shows %v × %v can show no drawing: both must be more than nothing", w.W, w.H)
		}
	}
	if clear < 0 || clear > farthest {
		return refuse("the clearance %v must be 0 or more, and less than the page", clear)
	}
	return nil
}

// box returns the mark's circle with clearance, as a square.
func (m Mark) box(clear geom.Length) geom.Rect {
	return geom.Rect{Min: m.At, Max: m.At}.Inset(-m.R - clear)
}
