package plan

import (
	"fmt"

	"rodsheet/geom"
)

// Shims are the pads behind wall halves.
type Shims struct {
	Thickness geom.Length // 0 for none
	Size      geom.Size
	Count     int // needed, without spares
	Spares    int
}

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
			p.trouble("lining-gives", Spot{"wall " + wall.Job.Name, wall.Job.Key + ".lining"},
				fmt.Sprintf("The lining of wall %s gives, and %d of its %d clips are held by it alone: they would pull back and not engage.", wall.Job.Name, bare, all),
				fmt.Sprintf("Put a pad %s thick behind every wall half on this wall, on wood too, so that the panels stand in one plane; the plan counts them.", p.read(shim)))
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
