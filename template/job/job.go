// Package job reads and edits job files. A [Job] is what the person wrote: one wall job as plain values, every default
// filled in, every value with its place in the file.
//
// [Read] takes the YAML of a file strictly and reports all of its problems in one go. A [Text] is the same file byte by
// byte; its methods make of it another in which just one thing differs. One table, [Fields], describes every field for
// both, and for the starter job, the JSON Schema and the documentation. The package knows nothing of where clips go;
// what follows from a job is worked out by package plan.
package job

import (
	"fmt"

	"rodsheet/geom"
)

// A Job is one job file. Lengths are exact; optional values that were left out hold their default, or the zero value
// where the comment says so.
type Job struct {
	Name      string
	Units     geom.System // bare numbers, and what people read on the sheets
	Paper     Paper
	Board     Board
	Foam      Foam
	Batt      Batting
	Cover     Cover
	Wrap      Wrap
	Staple    Staple
	Clip      Clip
	Clips     Clips
	Screws    Screws
	Fixing    Fixings
	Shims     Shims
	Hardboard geom.Size // sheet that pads are cut from; zero when not given
	Blocks    Blocks
	Line      geom.Length // `level line`: the marked line above zero; 0 when none is marked
	Bands     []Band      // in the order of the file
	Walls     []Wall      // in order round the room, left to right; at least one

	Framing  Framing
	Accuracy Accuracy
	Slivers  Slivers
	Buying   Buying
	Straight bool // cables: straight
	Accept   []Acceptance

	Source Source // where each value stands in the file
}

// Paper is what the sheets are printed on, upright.
type Paper struct {
	Name    string // "letter", "a4", …; "" when given as width x height
	Size    geom.Size
	Margin  geom.Length // strip the printer cannot reach
	Overlap geom.Length // how far neighbouring pages lie over each other
}

// Grain says whether parts of a sheet may be turned when they are cut.
type Grain int

// The grains of `board.grain`.
const (
	GrainFree Grain = iota
	GrainAlong
)

// Board is the stiff back of a panel and the sheets it is cut from.
type Board struct {
	Thickness geom.Length // as measured
	Tolerance geom.Length // thinnest it may be, below Thickness
	Sheet     geom.Size   // stock size; zero when not given
	Kerf, Saw geom.Length
	Grain     Grain
	Density   Density // 0 when not given
	Price     float64 // of one stock sheet; 0 when not given
}

// Foam lies on the face of the board and has the board's size. A job without foam has Thickness 0.
type Foam struct {
	Thickness geom.Length
	Sheet     geom.Size // zero when not given
	Density   Density
	Price     float64 // of one sheet
}

// Batting lies over foam and edges, cut like the cover. A job without batting has Thickness 0 and Pressed 0.
type Batting struct {
	Thickness, Pressed geom.Length // Pressed: what is left of it round a tight edge
	Roll               geom.Length // usable width; 0 when not given
	Density            Density
	Price              float64 // of a yard (in) or metre (mm) of the roll
}

// Cover is the stretched cloth or hide.
type Cover struct {
	Thickness geom.Length
	Roll      geom.Length // usable width; 0 when not given
	NapUp     bool        // all pieces the same way up
	Repeat    geom.Length // pattern repeat along the roll; 0 for plain
	Weight    float64     // kg per square metre; 0 when not given
	Price     float64     // of a yard (in) or metre (mm) of the roll
}

// Wrap is what the cover has over the board on each side.
type Wrap struct {
	Auto bool        // board + foam + Hold, rounded up to 1/2 in or 10 mm
	Size geom.Length // when not Auto
	Hold geom.Length // what lies on the back, default 1 in or 25 mm
	Fold string      // corner of the cover: "auto", "pleat" or "parcel"
}

// Staple holds the cover on the back of the board.
type Staple struct {
	Length  geom.Length // leg; 0 when not given
	Spacing geom.Length // default 1 1/2 in or 40 mm
	Edge    geom.Length // from the board's edge to the row of staples, default 3/4 in or 20 mm
	Crown   geom.Length // thickness of a crown on the back, default 1/32 in or 1 mm
}

// ClipKind tells how the two halves of a clip come together.
type ClipKind int

// The kinds of clip.
const (
	Press ClipKind = iota // straight on
	Lift                  // hooks over: the panel comes down onto it
)

// Half is one half of a clip: its outline and screw holes about the middle of the base, as seen from the front of the
// wall.
type Half struct {
	Base   geom.Size
	Holes  []geom.Point
	Flange geom.Length // thickness under the screw head
}

// Clip is the interlocking pair that holds a panel on the wall.
type Clip struct {
	Kind     ClipKind
	Board    Half // the half on the board, seen through the board from the front
	Wall     Half
	Standoff geom.Length // between wall and board when engaged
	Rise     geom.Length // `lift`: how far the panel rises to come off
	Offset   geom.Point  // middle of the board half less middle of the wall half when engaged
	Play     geom.Length // how far the halves may miss each other
	Carries  Weight      // 0 when not given
	Price    float64     // of a pair
}

// Clips are the wishes for clip places.
type Clips struct {
	Number  int         // at least, for each panel
	Clear   geom.Length // board edge to clip base
	Spacing geom.Length // at most, between clips of one row and between rows
	Step    geom.Length // positions are whole steps of this
	Studs   bool        // follow: studs
}

// Screw is a wood screw by diameter and length.
type Screw struct {
	Gauge    int         // screw number; 0 when a diameter was given
	Diameter geom.Length // of the shank
	Length   geom.Length
}

// In is a screw as people ask for it, "#8 × 1 1/4″" or "4 × 30 mm".
func (s Screw) In(u geom.System) string {
	if s.Gauge > 0 {
		return fmt.Sprintf("#%d × %s", s.Gauge, s.Length.In(u))
	}
	return fmt.Sprintf("%s × %s", s.Diameter.Bare(u), s.Length.In(u))
}

// Screws are the screws on the list and what the person can get.
type Screws struct {
	Board, Wall Screw
	Marker      geom.Length   // bit for the hole through board and lining
	OnHand      []geom.Length // ascending; empty when not given
	Price       float64       // of a hundred
}

// Fixings are what holds wall halves where there is no wood.
type Fixings struct {
	Plug   Plug   // in masonry; Hole is 0 when not given
	Anchor Anchor // in the lining alone; Hole is 0 when not given
}

// Plug takes the screw in masonry. It stands flush with the masonry's face.
type Plug struct {
	Hole, Length geom.Length
	Carries      Weight  // of one; 0 when not given
	Price        float64 // of one
}

// Anchor is a fixing made for a lining, with a screw of its own.
type Anchor struct {
	Hole    geom.Length
	Reach   geom.Length // thickest lining that it takes; 0 when not given
	Carries Weight      // of one; 0 when not given
	Price   float64     // of one
}

// WidestHole is the diameter of the widest hole that a wall half may need on the wall.
func (j *Job) WidestHole(w *Wall) geom.Length {
	if w.Masonry {
		return max(j.Screws.Marker, j.Fixing.Plug.Hole)
	}
	return max(j.Screws.Marker, j.Fixing.Anchor.Hole)
}

// FromLine is a height as it is read from the marked line, "350 mm below the line", with lengths as read writes them; ""
// when no line is marked.
func (j *Job) FromLine(height geom.Length, read func(geom.Length) string) string {
	switch d := height - j.Line; {
	case j.Line == 0:
		return ""
	case d < 0:
		return read(-d) + " below the line"
	case d > 0:
		return read(d) + " above the line"
	}
	return "on the line"
}

// Shims are pads behind wall halves.
type Shims struct {
	Stock geom.Length // thickness of the pad; default 1/8 in or 3 mm
	Size  geom.Size   // of the pad; zero: the clip's wall base, a little larger
}

// BlocksFor says which panels the blocks carry.
type BlocksFor int

// The choices of `blocks.for`.
const (
	ForDrilling BlocksFor = iota // bare boards
	ForHanging                   // finished panels
	ForBoth
)

// Blocks are height blocks made up from stock.
type Blocks struct {
	Stock  []geom.Length // thicknesses as measured; empty when not given
	Within geom.Length   // how near a stack must come
	Foot   geom.Length   // length of a block along the deck, default 4 in or 100 mm
	For    BlocksFor
	Count  int // how many of each; 0: two a panel that is set at a time
}

// Band is a height that runs share. Either Bottom and Top are given, or Seat, Cushion, Sill and one of Panel and Gap.
type Band struct {
	Name        string // "" for a band written in the run itself
	Direct      bool   // bottom and top given
	Bottom, Top geom.Length

	HasSeat bool           // direct bands may name a seat too, as the deck blocks stand on
	Seat    [2]geom.Length // left and right end of the run, equal when one reading was given
	Cushion geom.Length
	Sill    geom.Length
	Panel   geom.Length // 0: worked out from Gap
	Gap     geom.Length // above the cushion, and under the sill when even; meaningless when EvenGap with Panel
	HasGap  bool
	EvenGap bool // gap: even
	Follow  bool // deck: follow
	Key     string
}

// CornerKind tells how a wall joins the next one.
type CornerKind int

// The corners.
const (
	NoCorner CornerKind = iota
	Inside
	Outside
)

// Wall is one wall as the person faces it: origin at its left end, level with the floor at the left end of
// the first wall.
type Wall struct {
	Name        string
	Width       geom.Length
	Height      geom.Length  // greatest height of the outline
	Outline     geom.Polygon // normalized; a rectangle when `height` was given
	Masonry     bool         // build: masonry
	Lining      Lining
	Depth       geom.Length // face to far face; 0 when not given
	Studs       Members     // upright
	Rails       Members     // level
	Fittings    []Fitting
	Openings    []Opening
	KeepOuts    []KeepOut
	Corner      CornerKind
	ThroughNext bool // the next wall's run goes into the corner
	Runs        []Run
	Key         string // path of the wall in the file, as in Source
}

// Lining is what covers the studs or the masonry.
type Lining struct {
	Thickness geom.Length // 0 when not given
	Given     bool
	Gives     bool // yields under the thumb between the studs
}

// Members are studs or rails: centre lines, ascending.
type Members struct {
	At     []geom.Length
	Every  geom.Length // as it was given; 0 where each centre line was
	Width  geom.Length // across the face, default 1 1/2 in or 38 mm
	Depth  geom.Length // of the wood behind the lining; 0 when not given
	Margin geom.Length // least distance of a screw from the edge, default 3/8 in or 10 mm
	Given  bool        // false: nobody said where they are
}

// FittingKind tells what a fitting is.
type FittingKind string

// The kinds of fitting.
const (
	Electrical FittingKind = "electrical"
	Pipe       FittingKind = "pipe"
	Vent       FittingKind = "vent"
	Heater     FittingKind = "heater"
	Valve      FittingKind = "valve"
	Other      FittingKind = "other"
)

// HeaterKind tells what kind of heater a fitting is.
type HeaterKind string

// The kinds of heater.
const (
	AnyHeater HeaterKind = ""
	Baseboard HeaterKind = "baseboard"
	Radiator  HeaterKind = "radiator"
	Stove     HeaterKind = "stove" // for solid fuel
	Portable  HeaterKind = "portable"
)

// Fitting is a thing on the wall; its rectangle is on the wall.
type Fitting struct {
	Name   string
	Kind   FittingKind
	Heater HeaterKind  // of a heater
	Plate  geom.Length // distance that a heater's plate asks for; 0 when not given
	Far    bool        // on the other side of the wall: only its cables count
	Rect   geom.Rect
	Margin geom.Length // default 1 in or 25 mm
	Key    string
}

// OpeningKind tells what an opening is.
type OpeningKind string

// The kinds of opening.
const (
	Window OpeningKind = "window"
	Door   OpeningKind = "door"
	Hole   OpeningKind = "opening"
)

// Opening is a window or a door.
type Opening struct {
	Name   string
	Kind   OpeningKind
	Rect   geom.Rect
	Margin geom.Length
	Swing  geom.Length // a door leaf that opens against the wall covers this much beside it, on both sides; 0: none
	Key    string
}

// KeepOut is where no hole may go.
type KeepOut struct {
	Name   string
	Rect   geom.Rect
	Margin geom.Length
	Key    string
}

// TemplateKind says which template a board gets.
type TemplateKind int

// The choices of `template`.
const (
	AutoTemplate TemplateKind = iota
	CornerTemplate
	WholeTemplate
)

// Run is a row of panels. Either Across and Band are given, or Area.
type Run struct {
	Name     string
	Across   []Span        // one span, or readings at several heights: the narrowest counts; empty when Area is given
	Band     Band          // when Area is given no more than the seat, for blocks
	Area     geom.Polygon  // normalized, on the wall; nil when Across is given
	Panels   int           // equal panels; 0 when Widths is given
	Widths   []geom.Length // finished
	Gap      geom.Length   // between finished panels
	Ends     geom.Length   // between the ends of the run and the first and last panel
	Template TemplateKind
	Key      string
}

// Span is where a run begins and ends, from the wall's left end, in finished edges.
type Span struct {
	From, To geom.Length
	At       geom.Length // height of the reading; 0 when not given
	HasAt    bool
}

// Framing is the wood behind the lining.
type Framing struct {
	Wood    string  // "" when not given
	Gravity float64 // specific gravity; 0 when not known
}

// A Tape is what a tape's greatest permissible error goes by.
type Tape int

// The tapes: accuracy classes I, II and III of EU 2014/32/EU, Annex X, and tapes in inches, which have no class.
const (
	TapeI Tape = 1 + iota
	TapeII
	TapeIII
	InchTape
)

// Accuracy is what goes into the tolerance budget.
type Accuracy struct {
	Tape    Tape        // default TapeII, with units in inches InchTape
	Reading geom.Length // half-width of what a person misreads a tape by, default 1/64 in or 0.5 mm
	Seam    geom.Length // half-width of the error of a taped seam, default 0.3 mm
	Wander  geom.Length // half-width of drill wander, default 0.5 mm
	Growth  [2]float64  // paper growth, along and across the grain, as a fraction; default 0.0015, 0.003; ISO 8226-1 is how it is measured
	Squared geom.Length // half-width of the board's own saw error; default half a saw step
}

// Slivers are pieces too small to make.
type Slivers struct {
	Width geom.Length // least finished width and height; default 3 in or 75 mm
	Area  geom.Size   // a rectangle that covers as much as the least finished panel; default none
	Merge bool        // merge with a neighbour; else a finding
}

// Buying shapes the buying list.
type Buying struct {
	Spares    int // extra clip pairs; default 2
	ScrewPack int // screws come in packs of this; default 100
}

// Acceptance silences one finding with a reason.
type Acceptance struct {
	Finding, At, Because string
	Key                  string
}

// Density is a weight per volume in kg/m³.
type Density float64

// Weight is in kilograms.
type Weight float64

// Pound is 0.45359237 kg exactly (international yard and pound agreement, 1959).
const Pound Weight = 0.45359237

// In is the weight to a tenth as people of the system read it, "2.3 lb" or "1.0 kg".
func (w Weight) In(s geom.System) string {
	if s == geom.Imperial {
		return w.Bare(s) + " lb"
	}
	return w.Bare(s) + " kg"
}

// In is the density as people of the system read it, "36.0 lb/ft³" or "577 kg/m³".
func (d Density) In(s geom.System) string {
	if s == geom.Imperial {
		const poundPerCubicFoot = float64(Pound) / (0.3048 * 0.3048 * 0.3048)
		return fmt.Sprintf("%.1f lb/ft³", float64(d)/poundPerCubicFoot)
	}
	return fmt.Sprintf("%.0f kg/m³", float64(d))
}

// Bare is In without the unit.
func (w Weight) Bare(s geom.System) string {
	if s == geom.Imperial {
		w /= Pound
	}
	return fmt.Sprintf("%.1f", w)
}
