package layout

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// A Layout is what hangs where. [Make] lays out walls, runs and panels; then come clips, how far runs stand
// off, and the boards that panels share.
type Layout struct {
	Edge   geom.Length // cover thickness + pressed batting: a board's edge lies this far inside the finished edge
	Walls  []Wall      // one for each wall of the job
	Runs   []Run       // wall by wall, in the order of the job
	Panels []Panel     // run by run, from the left
	Boards []Board     // the different boards, in the order of their first panels
}

// SetClips gives panels their clips, one list for each.
func (l *Layout) SetClips(clips [][]Clip) {
	for i := range l.Panels {
		l.Panels[i].Clips = clips[i]
	}
}

// SetStands says how far runs stand off their walls, one after the other.
func (l *Layout) SetStands(stands []Stand) {
	for i := range l.Runs {
		l.Runs[i].Stand = stands[i]
	}
}

// A Wall is a wall with everything on it that matters to a hole.
type Wall struct {
	Job      *job.Wall
	Members  []Member  // studs from the left, then rails from below
	KeepOuts []KeepOut // in the order of the job file, cable zones last
	Runs     []int     // into Layout.Runs
}

// A Member is a stud or a rail behind the lining.
type Member struct {
	Rail   bool
	Centre geom.Length // x of a stud, y of a rail
	Body   geom.Rect   // the wood, over the whole wall
	Safe   geom.Rect   // where a screw may stand: Body less the edge distance across it
	Depth  geom.Length // of the wood behind the lining; 0 when not known
}

// A KeepOutKind is what a keep-out comes from.
type KeepOutKind string

// The kinds.
const (
	AroundFitting KeepOutKind = "fitting"
	AroundOpening KeepOutKind = "opening"
	Given         KeepOutKind = "keep-out" // as the job has it
	Cables        KeepOutKind = "cables"   // a zone in which cables may run: there is no thing to be seen
)

// A KeepOut is where no hole may go.
type KeepOut struct {
	Name string // "socket", "window", "cable zone above socket"
	Kind KeepOutKind
	Body geom.Rect // the thing itself
	Zone geom.Rect // with its margin: no hole circle may reach into it
}

// A Run is a row of panels on a wall.
type Run struct {
	Wall   int // into Layout.Walls
	Job    *job.Run
	Name   string
	Bounds geom.Rect     // of the finished panels with their ends: from across × bottom..top, or the area's bounds
	Gaps   []geom.Length // between neighbouring finished panels, after rounding
	Panels []int         // into Layout.Panels
	Band   *Heights      // nil for areas without a seat

	Stand
}

// A Stand is how far the panels of a run stand off their wall.
type Stand struct {
	Shim     geom.Length // thickness of the pads behind the run's wall halves; 0 for none
	Standing geom.Length // wall face to the back of the board: shim + standoff
	BuildOut geom.Length // wall face to the finished face
}

// Heights is a resolved band: what was measured and what follows from it, all above zero.
type Heights struct {
	Name        string
	Bottom, Top geom.Length // finished; with deck: follow those of the lowest panel
	HasDeck     bool
	Deck        [2]geom.Length // at the left and right end of the run
	Follow      bool
	Cushion     geom.Length
	HasSill     bool
	Sill        geom.Length
	GapBelow    geom.Length // cushion to finished bottom
	GapAbove    geom.Length // finished top to sill, with the slack of saw steps
	Slack       geom.Length // what rounding down to saw steps left at the top
}

// A Panel is one padded panel where it hangs.
type Panel struct {
	Name     string
	Wall     int          // into Layout.Walls
	Run      int          // into Layout.Runs
	Finished geom.Polygon // on the wall, normalized
	Outline  geom.Polygon // of the board, on the wall, normalized
	Clips    []Clip       // rows from below, each from the left
	Board    int          // into Layout.Boards
}

// Origin returns the lower left corner of the board's bounding rectangle on the wall, the origin of board coordinates.
func (p *Panel) Origin() geom.Point { return p.Outline.Bounds().Min }

// Support is what a wall half is screwed to.
type Support string

// The supports.
const (
	OnStud    Support = "stud"
	OnRail    Support = "rail"
	OnLining  Support = "lining"
	OnMasonry Support = "masonry"
)

// Wooden reports whether a screw bites in wood there.
func (s Support) Wooden() bool { return s == OnStud || s == OnRail }

// A Clip is one pair of halves.
type Clip struct {
	Place      string       // "upper left", "middle right", …, as seen from the front
	Board      geom.Point   // middle of the board half, board coordinates
	Wall       geom.Point   // middle of the wall half, wall coordinates
	BoardHoles []geom.Point // board coordinates
	WallHoles  []geom.Point // wall coordinates
	On         Support      // what every screw of the wall half meets
	Member     int          // into the wall's Members; −1 where there is no wood
}

// A Board is one kind of board: panels with the same outline and the same holes share it, and its template.
type Board struct {
	Name    string       // "A", "B", …
	Outline geom.Polygon // board coordinates, normalized
	Size    geom.Size    // of the bounding rectangle
	Clips   []Clip       // as of its first panel; Wall and WallHoles are that panel's
	Panels  []int        // into Layout.Panels
	Twin    int          // into Layout.Boards: an earlier board that is its mirror image; −1 for none
}
