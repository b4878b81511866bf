package plan

import (
	"rodsheet/geom"
)

// Shims are the pads behind wall halves.
type Shims struct {
	Thickness geom.Length // 0 for none
	Size      geom.Size
	Count     int // needed, without spares
	Spares    int
}

// LiningGives: clips are held by a lining that gives, and so all of the wall's get pads.
type LiningGives struct {
	Clips int // of the wall
	Bare  int // of them, held by the lining alone
	Pad   geom.Length
}

// ID implements [finding.Params].
func (LiningGives) ID() string { return "lining-gives" }

// spareShims are cut beside those needed: a thin pad splits easily (common practice).
const spareShims = 2

// pad decides which runs get shims, and how far each stands off its wall. Where the lining gives and some clip is held
// by it alone, all clips of all runs on that wall get a pad, so that the panels stand in one plane.
func (p *Plan) pad() {
	for w := range p.Walls {
		wall := &p.Walls[w]
		bare, all := 0, 0
		for _, r := range wall.Runs {
			for _, i := range p.Runs[r].Panels {
				for _, c := range p.Panels[i].Clips {
					all++
					if c.On == OnLining {
						bare++
					}
				}
			}
		}
		var shim geom.Length
		if wall.Job.Lining.Gives && bare > 0 {
			shim = p.Job.Shims.Stock
			p.Shims.Thickness = shim
			p.Shims.Count += all
			p.report(wallSubject(wall.Job, ".lining"), wall.Job.Key+".lining", LiningGives{Clips: all, Bare: bare, Pad: shim})
		}
		for _, r := range wall.Runs {
			run := &p.Runs[r]
			run.Shim = shim
			run.Standing = shim + p.Job.Clip.Standoff
			run.BuildOut = run.Standing + p.Job.Board.Thickness + p.Job.Foam.Thickness + p.Job.Batt.Pressed + p.Job.Cover.Thickness
		}
	}
	if p.Shims.Count > 0 {
		p.Shims.Size = p.padSize()
		p.Shims.Spares = spareShims
	}
}

// padSize is what the job says, or the base of the wall half and at least 1/8 in or 2.5 mm more on every side, in whole
// quarter inches or 5 mm.
func (p *Plan) padSize() geom.Size {
	if s := p.Job.Shims.Size; s.W > 0 && s.H > 0 {
		return s
	}
	grid := p.pick(geom.Inch/4, 5*geom.Millimetre)
	base := p.Job.Clip.Wall.Base
	return geom.Size{W: (base.W + grid).Ceil(grid), H: (base.H + grid).Ceil(grid)}
}
