// Package plan works out what follows from a job: panels, boards, clip places, heights, shims, screws, weights, stock.
// Every place is exact and on the wall; nothing here knows of paper or pens.
//
// What each measure means is laid down once: finished sizes are outsides of the cover; a board is its finished panel
// less cover and pressed batting on every edge; clip places are middles of bases. Wall coordinates are seen by a person
// who faces the wall, origin at its left end on the level line; board coordinates are seen from the face, origin at the
// lower left corner of the board's bounding rectangle.
//
// [Make] fills a [Plan] step by step, each step in a file of its own; a later step reads what earlier ones have set and
// changes nothing of it.
package plan

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/tolerance"
)

// A Plan is all that follows from a job.
type Plan struct {
	Job  *job.Job
	Edge geom.Length // cover thickness + pressed batting: a board's edge lies this far inside the finished edge

	Walls  []Wall  // one for each wall of the job
	Runs   []Run   // wall by wall, in the order of the job
	Panels []Panel // run by run, from the left
	Boards []Board // the different boards, in the order of their first panels

	Corners []Corner
	Blocks  []Block
	Shims   Shims
	Screws  Screws
	Loads   []Load // one for each panel
	Wrap    Wrap
	Stock   Stock
	Budget  tolerance.Budget

	Findings finding.List // what could not be done, or not well; package rule gives it words and a level
}

// A Wall is a wall with everything on it that matters to a hole.
type Wall struct {
	Job      *job.Wall
	Members  []Member  // studs from the left, then rails from below
	KeepOuts []KeepOut // in the order of the job file, cable zones last
	Runs     []int     // into Plan.Runs
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
	Key  string
}

// A Run is a row of panels on a wall.
type Run struct {
	Wall   int // into Plan.Walls
	Job    *job.Run
	Name   string
	Bounds geom.Rect     // of the finished panels with their ends: from across × bottom..top, or the area's bounds
	Gaps   []geom.Length // between neighbouring finished panels, after rounding
	Panels []int         // into Plan.Panels
	Band   *Heights      // nil for areas

	Shim     geom.Length // thickness of the pads behind the run's wall halves; 0 for none
	Standing geom.Length // wall face to the back of the board: shim + standoff
	BuildOut geom.Length // wall face to the finished face
}

// Heights is how a band comes to stand: what the person measured and what follows, all above the level line.
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
	Wall     int          // into Plan.Walls
	Run      int          // into Plan.Runs
	Finished geom.Polygon // on the wall, normalized
	Outline  geom.Polygon // of the board, on the wall, normalized
	Clips    []Clip       // rows from below, each from the left
	Board    int          // into Plan.Boards
}

// Corner0 is the lower left corner of the board's bounding rectangle on the wall: the origin of board coordinates.
func (p *Panel) Corner0() geom.Point { return p.Outline.Bounds().Min }

// Support is what a wall half is screwed to.
type Support string

// The supports.
const (
	OnStud   Support = "stud"
	OnRail   Support = "rail"
	OnLining Support = "lining"
)

// A Clip is one pair of halves.
type Clip struct {
	Place      string       // "upper left", "middle right", …, as seen from the front
	Board      geom.Point   // middle of the board half, board coordinates
	Wall       geom.Point   // middle of the wall half, wall coordinates
	BoardHoles []geom.Point // board coordinates
	WallHoles  []geom.Point // wall coordinates
	On         Support      // what every screw of the wall half meets
	Member     int          // into the wall's Members; −1 on lining
}

// A Board is one kind of board: panels with the same outline and the same holes share it, and its template.
type Board struct {
	Name    string       // "A", "B", …
	Outline geom.Polygon // board coordinates, normalized
	Size    geom.Size    // of the bounding rectangle
	Clips   []Clip       // as of its first panel; Wall and WallHoles are that panel's
	Panels  []int        // into Plan.Panels
	Twin    int          // into Plan.Boards: an earlier board that is its mirror image; −1 for none
}

// Make works a job out. The error is a *job.Problems when the job contradicts itself, as when panels don't fit their
// run; what can be planned but not well becomes a finding.
func Make(j *job.Job) (*Plan, error) {
	p := &Plan{Job: j, Edge: j.Cover.Thickness + j.Batt.Pressed}
	if err := p.lay(); err != nil {
		return nil, err
	}
	p.place()
	p.pad()
	p.group()
	p.join()
	p.stack()
	p.wrap()
	p.screw()
	p.weigh()
	p.cut()
	p.estimate()
	return p, nil
}

// report adds a finding; see [finding.List.Add].
func (p *Plan) report(subject finding.Subject, field string, params finding.Params) {
	p.Findings.Add(subject, field, params)
}

// panelSubject is one panel, in the run that the job file gives it in.
func (p *Plan) panelSubject(panel int) finding.Subject {
	key := ""
	if run := p.Runs[p.Panels[panel].Run].Job; run != nil {
		key = run.Key
	}
	return finding.OfPanels(key, p.Panels[panel].Name)
}

// runSubject is a run, or some panels in it.
func runSubject(run *Run, panels ...*Panel) finding.Subject {
	return finding.OfRun(run.Job.Key, run.Name, names(panels)...)
}

// wallSubject is a wall, with what it gives in a field of its own.
func wallSubject(w *job.Wall, field string) finding.Subject {
	return finding.OfOne(finding.Wall, w.Key+field, w.Name)
}

// read writes a length as the job's people read it.
func (p *Plan) read(l geom.Length) string { return l.In(p.Job.Units) }

// pick is the imperial or the metric figure of a rule that has both.
func (p *Plan) pick(imperial, metric geom.Length) geom.Length {
	return p.Job.Units.Pick(imperial, metric)
}
