package fastening

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// Densities and weights that count where the job gives none. Each is named in Load.Assumed when it is used.
const (
	// plywoodDensity is 3 lb/ft² for each inch of thickness, ±15 % by species (common practice for softwood
	// plywood).
	plywoodDensity = 36 * poundPerCubicFoot
	// foamDensity is 1.8 lb/ft³, the lower end for seats (common practice).
	foamDensity = 1.8 * poundPerCubicFoot
	// battingWeight is 1 oz/ft², in kg/m² (common practice, from memory).
	battingWeight = poundPerSquareFoot / 16
	// coverWeight is 30 oz for a yard of 54 in, as upholstery vinyl has it, in kg/m² (common practice).
	coverWeight = poundPerSquareFoot * 30. / 16 / 13.5

	poundPerCubicFoot  = 0.45359237 / (0.3048 * 0.3048 * 0.3048) // kg/m³
	poundPerSquareFoot = 0.45359237 / (0.3048 * 0.3048)          // kg/m²
)

// heavyBoard is the density above which a board is heavier than usual: the rule for plywood and its 15 %.
const heavyBoard job.Density = plywoodDensity * 1.15

// Load is a panel's weight and what it asks of its clips. It is arithmetic, not a licence: nobody has looked at the
// wall. Forces are given as the weights that would pull as hard.
type Load struct {
	Board, Foam, Batting, Cover, Total job.Weight

	Assumed []string // densities that were not given, in words

	Centre geom.Point  // of gravity, on the wall
	Off    geom.Length // of the centre of gravity from the wall's face
	Share  job.Weight  // Total over the number of clips
	Most   job.Weight  // on the clip that carries most, when the clips don't stand evenly round the centre of gravity
	Arm    geom.Length // between the clips that pull and what the panel bears on below
	Bears  string      // "bottom clips" or "bottom edge"
	Pull   job.Weight  // on each of the top clips, outward from the wall
	TopRow int         // number of those
	Worst  job.Weight  // Most and Pull together, at right angles: what is held against the clip's `carries`
	Holds  Holds       // by the weakest place of its wall halves in wood
}

// Holds are reference values of wall screws in wood for a permanent load, after NDS 2018; 0 when not known.
type Holds struct {
	Withdrawal job.Weight // of one screw, its thread in the wood (12.2.2)
	Lateral    job.Weight // of one screw; see lateral
	Top        job.Weight // of the screws of one wall half at the top, pulled and loaded across as the panel does (12.4.1)
	Depth      geom.Length
	TenD       geom.Length // depth that lateral values are full from
}

// ScrewsOver: the wall screws of a top clip have to hold more than their reference value for a permanent load.
type ScrewsOver struct {
	Holds job.Weight // the load on the clip
	Value job.Weight // of its screws together
	Depth geom.Length
}

// ID implements [finding.Params].
func (ScrewsOver) ID() string { return "screws-over" }

// LoadOver: a clip has to hold more than its maker lets it carry.
type LoadOver struct {
	Holds, Weight, Pull job.Weight // Holds is Weight and Pull together, at right angles
	Carries             job.Weight
	Clips               int      // that would be enough
	Assumed             []string // as in Load
}

// ID implements [finding.Params].
func (LoadOver) ID() string { return "load-over" }

// CarriesUnknown: what a clip carries is not given.
type CarriesUnknown struct{}

// ID implements [finding.Params].
func (CarriesUnknown) ID() string { return "carries-unknown" }

// HeavyBoard: the board's density is above what is usual.
type HeavyBoard struct{ Density, Usual job.Density }

// ID implements [finding.Params].
func (HeavyBoard) ID() string { return "heavy-board" }

// A weigher is a layout whose loads are worked out.
type weigher struct {
	Job *job.Job
	*layout.Layout
	screws *Screws
	wrap   geom.Length // of cover and batting over the board's edge
	found  finding.List
}

// Weigh works out weights and loads, one for each panel; wrap is how far cover and batting go over a board's edge.
func Weigh(j *job.Job, l *layout.Layout, screws *Screws, wrap geom.Length) ([]Load, finding.List) {
	p := &weigher{Job: j, Layout: l, screws: screws, wrap: wrap}
	loads := make([]Load, len(p.Panels))
	for i := range p.Panels {
		l := p.weight(&p.Panels[i])
		p.hang(i, &l)
		loads[i] = l
		p.checkLoad(i, l)
		p.checkFixings(i, l)
	}
	if j.Clip.Carries == 0 && len(p.Panels) > 0 {
		p.found.Add(finding.OfJob("clip"), "clip.carries", CarriesUnknown{})
	}
	p.checkFixingsKnown()
	if j.Board.Density > heavyBoard {
		p.found.Add(finding.OfJob("board.density"), "board.density", HeavyBoard{j.Board.Density, plywoodDensity})
	}
	return loads, p.found
}

// weight adds up a panel from the true areas of its layers: foam as the board, batting and cover as they are cut.
func (p *weigher) weight(panel *layout.Panel) Load {
	j := p.Job
	var l Load
	area := panel.Outline.Area() / 1e6 // m²
	cut := p.cutArea(panel) / 1e6
	metres := func(t geom.Length) float64 { return float64(t) / float64(geom.Metre) }
	given := func(d job.Density, usual job.Density, what string) float64 {
		if d > 0 {
			return float64(d)
		}
		l.Assumed = append(l.Assumed, fmt.Sprintf("%s of %s", what, usual.In(p.Job.Units)))
		return float64(usual)
	}
	l.Board = job.Weight(area * metres(j.Board.Thickness) * given(j.Board.Density, plywoodDensity, "board"))
	if j.Foam.Thickness > 0 {
		l.Foam = job.Weight(area * metres(j.Foam.Thickness) * given(j.Foam.Density, foamDensity, "foam"))
	}
	perArea := func(w float64, what string) float64 {
		l.Assumed = append(l.Assumed, fmt.Sprintf("%s of %s", what, p.perArea(w)))
		return w
	}
	if j.Batt.Thickness > 0 {
		if j.Batt.Density > 0 {
			l.Batting = job.Weight(cut * metres(j.Batt.Thickness) * float64(j.Batt.Density))
		} else {
			l.Batting = job.Weight(cut * perArea(battingWeight, "batting"))
		}
	}
	if j.Cover.Weight > 0 {
		l.Cover = job.Weight(cut * j.Cover.Weight)
	} else {
		l.Cover = job.Weight(cut * perArea(coverWeight, "cover"))
	}
	l.Total = l.Board + l.Foam + l.Batting + l.Cover
	l.Off = p.centreOff(panel, l)
	l.Centre = panel.Outline.Centroid()
	return l
}

// cutArea is the area of a panel's cover and batting as cut, in square millimetres: the board's outline with the wrap
// all round. Where that closes over a slot, the slot counts as covered.
func (p *weigher) cutArea(panel *layout.Panel) float64 {
	pieces, err := panel.Outline.Offset(p.wrap, geom.DefaultMitre)
	if len(pieces) == 0 || err != nil && pieces == nil {
		return panel.Outline.Area()
	}
	sum := 0.0
	for _, piece := range pieces {
		sum += piece.Area()
	}
	return sum
}

// centreOff is how far from the wall's face a panel's centre of gravity stands. Batting and cover count as if all of
// them lay on the face, which puts it a little too far out, on the careful side.
func (p *weigher) centreOff(panel *layout.Panel, l Load) geom.Length {
	if l.Total == 0 {
		return 0
	}
	j := p.Job
	back := max(p.Runs[panel.Run].Standing, j.Clip.Standoff)
	foam := back + j.Board.Thickness
	batting := foam + j.Foam.Thickness
	cover := batting + j.Batt.Pressed
	moment := float64(l.Board)*float64(back+j.Board.Thickness/2) + float64(l.Foam)*float64(foam+j.Foam.Thickness/2) +
		float64(l.Batting)*float64(batting+j.Batt.Pressed/2) + float64(l.Cover)*float64(cover+j.Cover.Thickness/2)
	return geom.Length(math.Round(moment / float64(l.Total)))
}

// hang shares a panel's weight out to its clips. The weight, out in front of the wall, would turn the panel about its
// bottom clips (about its bottom edge, where it has one row); the top row alone is counted as holding against that. A
// centre of gravity beside the middle of the clips turns the panel in the wall's plane too, which is shared out as to a
// group of fasteners: in proportion to each one's distance from their middle.
func (p *weigher) hang(panel int, l *Load) {
	clips := p.Panels[panel].Clips
	n := len(clips)
	if n == 0 {
		return
	}
	var middleX, middleY float64
	top := p.onWall(panel, clips[0]).Y
	bottom := top
	for _, c := range clips {
		at := p.onWall(panel, c)
		middleX += float64(at.X) / float64(n)
		middleY += float64(at.Y) / float64(n)
		top, bottom = max(top, at.Y), min(bottom, at.Y)
	}
	l.Share = l.Total / job.Weight(n)
	polar := 0.0
	for _, c := range clips {
		at := p.onWall(panel, c)
		polar += square(float64(at.X)-middleX) + square(float64(at.Y)-middleY)
		if at.Y == top {
			l.TopRow++
		}
	}
	turning := float64(l.Total) * (float64(l.Centre.X) - middleX)
	for _, c := range clips {
		at := p.onWall(panel, c)
		down, across := float64(l.Share), 0.0
		if polar > 0 {
			down += turning * (float64(at.X) - middleX) / polar
			across = turning * (float64(at.Y) - middleY) / polar
		}
		l.Most = max(l.Most, job.Weight(math.Hypot(down, across)))
	}
	l.Arm, l.Bears = top-bottom, "bottom clips"
	if top == bottom {
		l.Arm, l.Bears = top-p.Panels[panel].Outline.Bounds().Min.Y, "bottom edge"
	}
	if l.Arm > 0 {
		l.Pull = l.Total * job.Weight(float64(l.Off)/float64(l.Arm)) / job.Weight(l.TopRow)
	}
	l.Worst = job.Weight(math.Hypot(float64(l.Most), float64(l.Pull)))
	l.Holds = p.holds(panel, l)
}

// onWall is where the board half of a clip stands on the wall.
func (p *weigher) onWall(panel int, c layout.Clip) geom.Point {
	return p.Panels[panel].Origin().Add(c.Board)
}

func square(x float64) float64 { return x * x }

// holds returns what the weakest place of a panel's wall halves in wood holds. A screw's thread is at most two-thirds of it
// (ASME B18.6.1, from memory). The load comes at the middle of the clip's flange, past pad and lining. Nothing is known
// without a gravity, or without wood.
func (p *weigher) holds(panel int, l *Load) (least Holds) {
	gravity := p.Job.Framing.Gravity
	if gravity <= 0 {
		return Holds{}
	}
	for _, c := range p.Panels[panel].Clips {
		if !c.On.Wooden() || p.screws.index(p.Layout, panel, c) < 0 {
			continue
		}
		s := p.screws.At(p.Layout, panel, c)
		depth := max(0, s.InWood)
		thread := min(depth, s.Screw.Length*2/3)
		value := func(pounds float64) job.Weight { return job.Weight(permanent*pounds) * job.Pound }
		h := Holds{
			Withdrawal: value(withdrawal(s.Screw.Diameter, gravity) * thread.Inches()),
			Lateral:    value(lateral(s.Screw.Diameter, depth, p.Job.Clip.Wall.Flange/2+s.Shim+s.Lining, gravity)),
			Depth:      depth, TenD: 10 * s.Screw.Diameter,
		}
		h.Top = job.Weight(combined(float64(h.Withdrawal), float64(h.Lateral), float64(l.Pull), float64(l.Most))) * job.Weight(len(p.Job.Clip.Wall.Holes))
		if least == (Holds{}) || h.Top < least.Top || h.Top == least.Top && h.Withdrawal < least.Withdrawal {
			least = h
		}
	}
	return least
}

func (p *weigher) checkLoad(panel int, l Load) {
	clips := p.Panels[panel].Clips
	if h := l.Holds; h.Top > 0 && l.Worst > h.Top {
		p.found.Add(p.PanelSubject(panel), "screws.wall", ScrewsOver{Holds: l.Worst, Value: h.Top, Depth: h.Depth})
	}
	carries := p.Job.Clip.Carries
	if len(clips) == 0 || carries == 0 || l.Worst <= carries {
		return
	}
	p.found.Add(p.PanelSubject(panel), "clips.number",
		LoadOver{Holds: l.Worst, Weight: l.Most, Pull: l.Pull, Carries: carries, Clips: enough(len(clips), l.Worst, carries), Assumed: l.Assumed})
}

// enough is how many clips would be, where n of them have to hold more than each may.
func enough(n int, holds, may job.Weight) int {
	return int(math.Ceil(float64(n) * float64(holds) / float64(may)))
}

func (p *weigher) perArea(w float64) string {
	if p.Job.Units == geom.Imperial {
		return fmt.Sprintf("%.2f lb/ft²", w/poundPerSquareFoot)
	}
	return fmt.Sprintf("%.2f kg/m²", w)
}
