// Package drawing has what is drawn before it lies on any page: shapes, pens and text in real lengths.
//
// A [Drawing] is plain data, recorded once and replayed into any writer. Its axes are x right, y up; what it shows (a
// board's back, a wall) is the business of whoever makes it. A [Sheet] is drawings under one title and how they go on
// paper; a [Picture] keeps the things in it apart, for a screen. The package knows nothing of panels, nor of the sizes
// of pages.
//
// The set of marks is sealed: [Line], [Path], [Circle], [Arc], [Text] and [Ref] are all there are, so a writer's type
// switch is complete.
package drawing

import "rodsheet/geom"

// A Role says what a mark is for, so that a laser, a router or a reader can tell them apart.
type Role int

// The roles, in the order of the groups of a file that has groups.
const (
	Note  Role = iota // words, dimensions, tints
	Guide             // outlines, edges, centre lines, fold lines to mark or to lay on
	Cut               // where to cut
	Drill             // hole crosses and drill circles
)

// String returns the role's name in files: "note", "mark", "cut" or "drill".
func (r Role) String() string { return [...]string{"note", "mark", "cut", "drill"}[r] }

// A Style is a line type of ISO 128-2; dash lengths follow from the pen's width.
type Style int

// The line styles.
const (
	Continuous  Style = iota // visible outlines, dimension lines
	Dashed                   // hidden outlines: 12d dash, 3d gap
	Chain                    // centre lines: 24d, 3d, 0.5d, 3d
	DoubleChain              // outlines of neighbouring parts: 24d, 3d, 0.5d, 3d, 0.5d, 3d
	Dotted                   // 0.5d, 3d
)

// Dash returns the pattern of the style for a line of width d, on and off in turn; nil for a continuous line.
func (s Style) Dash(d geom.Length) []geom.Length {
	switch s {
	case Dashed:
		return []geom.Length{12 * d, 3 * d}
	case Chain:
		return []geom.Length{24 * d, 3 * d, d / 2, 3 * d}
	case DoubleChain:
		return []geom.Length{24 * d, 3 * d, d / 2, 3 * d, d / 2, 3 * d}
	case Dotted:
		return []geom.Length{d / 2, 3 * d}
	}
	return nil
}

// A Pen draws a line. A pen of width 0 draws nothing.
type Pen struct {
	Width geom.Length
	Style Style
	Grey  bool // a mid grey for what must not catch the eye; meaning never hangs on it
}

// Widths of ISO 128-2: wide to narrow is 2:1, and Hair for crosses whose middle must be read finely.
const (
	WideWidth   = geom.Millimetre / 2
	NarrowWidth = geom.Millimetre / 4
	HairWidth   = geom.Millimetre / 8
)

// The pens of a sheet.
var (
	Wide      = Pen{Width: WideWidth}                       // visible outlines
	Narrow    = Pen{Width: NarrowWidth}                     // dimensions, hatching
	Hair      = Pen{Width: HairWidth}                       // hole crosses, check lines
	Hidden    = Pen{Width: NarrowWidth, Style: Dashed}      // hidden outlines, fold lines
	Centre    = Pen{Width: HairWidth, Style: Chain}         // centre lines
	Neighbour = Pen{Width: NarrowWidth, Style: DoubleChain} // what lies beside
	Faint     = Pen{Width: HairWidth, Grey: true}           // help lines
	NoPen     = Pen{}
)

// A Fill is the tint of a closed shape.
type Fill int

// The fills.
const (
	NoFill Fill = iota
	White       // hides what was drawn before
	Pale        // about 8 % grey
	Tint        // about 18 % grey
	Black
)

// Grey returns the fill as a share of white, 0 (black) to 1; ok is false for NoFill.
func (f Fill) Grey() (level float64, ok bool) {
	switch f {
	case White:
		return 1, true
	case Pale:
		return 0.92, true
	case Tint:
		return 0.82, true
	case Black:
		return 0, true
	}
	return 0, false
}

// A Mark is one thing drawn.
type Mark interface {
	// Bounds returns the smallest rectangle that holds the mark's geometry, without its pen's width. For text it holds
	// the letters.
	Bounds() geom.Rect
	sealed()
}

// A Line is one unbroken stroke.
type Line struct {
	From, To geom.Point
	Pen      Pen
	Role     Role
}

// A Path is a polyline, or an outline when Closed; only closed paths are filled.
type Path struct {
	Points []geom.Point
	Closed bool
	Pen    Pen
	Fill   Fill
	Role   Role
}

// A Circle is drawn about its centre.
type Circle struct {
	Centre geom.Point
	Radius geom.Length
	Pen    Pen
	Fill   Fill
	Role   Role
}

// An Arc runs counter-clockwise from angle Start over Sweep, both in degrees, 0 to the right.
type Arc struct {
	Centre       geom.Point
	Radius       geom.Length
	Start, Sweep float64
	Pen          Pen
	Role         Role
}

// Anchor says which part of a text stands at its point.
type Anchor int

// Anchors along the line of text.
const (
	Left Anchor = iota
	Middle
	Right
)

// Level says which height of a text stands at its point.
type Level int

// Levels across the line of text.
const (
	Baseline Level = iota
	Halfway        // half the height of the capitals
	Top            // top of the capitals
)

// Text is one line of lettering. Height is the height of its capitals (of ISO 3098: 2.5, 3.5, 5, 7 mm).
type Text struct {
	At     geom.Point
	String string
	Height geom.Length
	Bold   bool
	Anchor Anchor
	Level  Level
	Turn   float64 // degrees counter-clockwise
	Halo   bool    // white behind the letters, so that a line under them doesn't spoil them
}

// A Ref is the number of the first page of a sheet, or of all of them ("7–9"), written and linked once pages are
// numbered.
type Ref struct {
	Text         // String is ignored
	Sheet string // the sheet's name
	Span  bool   // "7–9" in place of "7"
}

func (Line) sealed()   {}
func (Path) sealed()   {}
func (Circle) sealed() {}
func (Arc) sealed()    {}
func (Text) sealed()   {}

// A Hole is a place to drill. It is not drawn by itself (see [Drawing.Drill]); pages keep their seams clear of it.
type Hole struct {
	At     geom.Point
	Radius geom.Length // of the drill circle
	Name   string      // "N3 upper left"
}

// A Station is a named coordinate that pages mark on their edges with its running distance from the datum, so that a
// page can be placed and checked by tape measure alone.
type Station struct {
	Upright bool        // a line x = At; else a level line y = At
	At      geom.Length // in the drawing
	Reads   geom.Length // what the tape reads there
	Also    string      // what it reads from another datum, in words; "" for none
	Name    string      // "N3 left edge"; "" for the bare number
	Along   geom.Span   // where along the line it is of use; the zero value: everywhere
}

// A Callout is a few words about a part of the drawing. Where they stand is left to the page, which knows what room it
// has: beside the part, above or below it, whole on the page and over nothing that matters.
type Callout struct {
	About geom.Rect // the part, whole on a page that has the words
	Lines []string  // the first is bold, or the first Heads
	Heads int
	Long  bool // the part runs over pages: each that shows some of it has the words, inside it where it is wide enough
}

// A Group is marks that must be seen together. Where pages would part them the group moves as little as makes it whole on
// one of them: any way, or along a segment, no farther than it has room between the ends.
type Group struct {
	Marks []Mark
	Along geom.Segment // through the middle of the group; the zero segment: it moves any way
}

// Bounds returns the smallest rectangle that holds the group's marks.
func (g Group) Bounds() geom.Rect {
	box := g.Marks[0].Bounds()
	for _, m := range g.Marks[1:] {
		box = box.Union(m.Bounds())
	}
	return box
}

// A Drawing is a picture and what pages need to know of it.
type Drawing struct {
	Bounds   geom.Rect    // what must be printed
	Shape    geom.Polygon // pages that show nothing of it are left out; nil: all of Bounds
	Marks    []Mark
	Holes    []Hole
	Callouts []Callout
	Groups   []Group // of tiled drawings alone
	Stations []Station
	From     [2]string // what stations read from: across ("left end of the wall") and up ("zero")
}

// Add appends marks.
func (d *Drawing) Add(marks ...Mark) { d.Marks = append(d.Marks, marks...) }
