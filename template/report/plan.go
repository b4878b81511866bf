package report

import (
	"rodsheet/geom"
	"rodsheet/template/page"
	"rodsheet/template/plan"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/rule"
)

type document struct {
	Job      string         `json:"job"`
	Units    string         `json:"units"`
	Panels   []panel        `json:"panels"`
	Hanging  []hung         `json:"hanging" null:"true" doc:"in the order in which the panels are hung; null when there is none"`
	Blocks   []block        `json:"blocks"`
	Shims    shims          `json:"shims"`
	Sheets   []paper        `json:"sheets" null:"true" doc:"null when they could not be laid out"`
	Pages    *int           `json:"pages"`
	Screws   screws         `json:"screws"`
	Cutting  cuttingLists   `json:"cutting"`
	Budget   *budget        `json:"budget"`
	Findings []findingEntry `json:"findings"`
	Line     *length        `json:"level_line_mm" doc:"the marked line above zero; null when none is marked"`
}

type panel struct {
	Name     string  `json:"name"`
	Wall     string  `json:"wall"`
	Run      string  `json:"run"`
	Finished pair    `json:"finished_mm"`
	Board    pair    `json:"board_mm"`
	Outline  []pair  `json:"outline_mm"`
	Template string  `json:"template" doc:"the board's letter"`
	Clips    []clip  `json:"clips"`
	Cover    *pair   `json:"cover_mm"`
	Batting  *pair   `json:"batting_mm"`
	Foam     *pair   `json:"foam_mm"`
	Weight   *weight `json:"weight_kg"`
	Load     *load   `json:"load"`
	SameAs   *string `json:"same_as" doc:"the first panel with an equal board; null for that one itself"`
}

type hung struct {
	Panel string   `json:"panel"`
	After []before `json:"after" doc:"what must hang before it"`
}

type before struct {
	Panel  string `json:"panel"`
	Reason string `json:"reason" words:"corner,rise" doc:"corner: it goes into a corner behind this one's place; rise: it must rise into this one's place"`
}

type clip struct {
	Place string `json:"place"`
	Board pair   `json:"board_mm"`
	Wall  pair   `json:"wall_mm"`
	Holes holes  `json:"holes_mm"`
	On    string `json:"on"`
	Shim  length `json:"shim_mm"`
}

type holes struct {
	Board []pair `json:"board"`
	Wall  []pair `json:"wall"`
}

type block struct {
	Name   string   `json:"name"`
	Height length   `json:"height_mm"`
	Stack  []length `json:"stack_mm"`
	Made   *length  `json:"made_mm"`
	Count  int      `json:"count"`
	For    string   `json:"for" words:"drilling,hanging"`
	Panels []string `json:"panels"`
	All    []length `json:"heights_mm" doc:"of every place that differs: less than 0.1 mm apart they share a block"`
}

type shims struct {
	Thickness length `json:"thickness_mm"`
	Count     int    `json:"count"`
	Spares    int    `json:"spares"`
	Size      *pair  `json:"size_mm"`
}

type paper struct {
	Kind   string `json:"kind"`
	Name   string `json:"name"`
	Pages  int    `json:"pages"`
	Copies int    `json:"copies"`
	First  int    `json:"first"`
	Bound  *int   `json:"bound" doc:"no layout has fewer pages; null where few were not sought"`
}

// Plan writes a plan. The counts are of its sheets; nil when they could not be laid out.
func Plan(p *plan.Plan, findings []rule.Finding, counts []page.Count) (string, error) {
	d := document{
		Job: p.Job.Name, Units: p.Job.Units.String(), Panels: make([]panel, 0, len(p.Panels)),
		Hanging: hangingOf(p), Blocks: blocksOf(p), Shims: shimsOf(p.Shims),
		Screws: screwsOf(p), Cutting: cuttingOf(p), Budget: budgetOf(p), Findings: findingsOf(findings), Line: optional(p.Job.Line),
	}
	for i := range p.Panels {
		d.Panels = append(d.Panels, panelOf(p, i))
	}
	if counts != nil {
		total := 0
		d.Pages = &total
		for _, c := range counts {
			total += c.Pages
			s := paper{Kind: string(c.Kind), Name: c.Sheet, Pages: c.Pages, Copies: c.Use, First: c.First}
			if c.Solved {
				s.Bound = new(c.Bound)
			}
			d.Sheets = append(d.Sheets, s)
		}
	}
	return write(d)
}

func panelOf(p *plan.Plan, i int) panel {
	at := &p.Panels[i]
	run, b := &p.Runs[at.Run], &p.Boards[at.Board]
	out := panel{
		Name: at.Name, Wall: p.Walls[at.Wall].Job.Name, Run: run.Name,
		Finished: sizeOf(at.Finished.Bounds().Size()), Board: sizeOf(at.Outline.Bounds().Size()),
		Outline: pointsOf(at.Outline), Template: b.Name, Clips: make([]clip, 0, len(at.Clips)),
	}
	for _, c := range at.Clips {
		out.Clips = append(out.Clips, clip{
			Place: c.Place, Board: pointOf(c.Board), Wall: pointOf(c.Wall),
			Holes: holes{pointsOf(c.BoardHoles), pointsOf(c.WallHoles)}, On: string(c.On), Shim: length(run.Shim),
		})
	}
	board := at.Outline.Bounds().Size()
	cloth := geom.Size{W: board.W + 2*p.Wrap.Size, H: board.H + 2*p.Wrap.Size}
	out.Cover, out.Batting = sized(p.Job.Cover.Thickness > 0, cloth), sized(p.Job.Batt.Thickness > 0, cloth)
	out.Foam = sized(p.Job.Foam.Thickness > 0, board)
	if i < len(p.Loads) {
		out.Weight, out.Load = new(weight(p.Loads[i].Total)), loadOf(p.Loads[i])
	}
	if first := b.Panels[0]; first != i {
		out.SameAs = &p.Panels[first].Name
	}
	return out
}

func hangingOf(p *plan.Plan) []hung {
	if p.Hanging.Panels == nil {
		return nil
	}
	out := make([]hung, 0, len(p.Hanging.Panels))
	for _, i := range p.Hanging.Panels {
		one := hung{Panel: p.Panels[i].Name, After: []before{}}
		for _, b := range p.Hanging.After(i) {
			one.After = append(one.After, before{p.Panels[b.First].Name, string(b.Reason)})
		}
		out = append(out, one)
	}
	return out
}

func shimsOf(s fastening.Shims) shims {
	return shims{Thickness: length(s.Thickness), Count: s.Count, Spares: s.Spares, Size: sized(s.Count > 0, s.Size)}
}

type blocksDocument struct {
	Job    string  `json:"job"`
	Blocks []block `json:"blocks"`
	Line   *length `json:"level_line_mm" doc:"the marked line above zero; null when none is marked"`
}

// Blocks writes the height blocks alone: {job, blocks}.
func Blocks(p *plan.Plan) (string, error) {
	return write(blocksDocument{p.Job.Name, blocksOf(p), optional(p.Job.Line)})
}

func blocksOf(p *plan.Plan) []block {
	out := make([]block, 0, len(p.Blocks))
	for _, b := range p.Blocks {
		one := block{
			Name: b.Name, Height: length(b.Height), Stack: lengthsOf(b.Stack), Made: optional(b.Made), Count: b.Count, For: "hanging",
			Panels: namesOf(p, b.Panels), All: lengthsOf(b.Heights),
		}
		if b.Drilling {
			one.For = "drilling"
		}
		out = append(out, one)
	}
	return out
}
