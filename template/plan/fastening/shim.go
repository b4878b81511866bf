// Package fastening works out what holds panels to their wall: pads behind wall halves, screws and the holes drilled for
// them, and the load on each clip. Figures of screws are those of the standards named beside them.
package fastening

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// Shims are the pads behind wall halves.
type Shims struct {
	Thickness geom.Length // 0 for none
	Size      geom.Size
	Count     int // needed, without spares
	Spares    int
}

// LiningGives: clips are held by a lining that gives, or screwed through it into masonry, and so all of the wall's get pads.
type LiningGives struct {
	Clips int // of the wall
	Bare  int // of them, with no wood behind the lining
	Pad   geom.Length

	Masonry bool // is behind the lining
}

// ID implements [finding.Params].
func (LiningGives) ID() string { return "lining-gives" }

// spareShims are cut beside those needed: a thin pad splits easily (common practice).
const spareShims = 2

// Pads decides which runs get shims, and says of each run how far it stands off its wall. Where the lining gives and some
// clip has no wood behind it, all clips of all runs on that wall get a pad, so that the panels stand in one plane.
func Pads(j *job.Job, l *layout.Layout) (shims Shims, stands []layout.Stand, found finding.List) {
	stands = make([]layout.Stand, len(l.Runs))
	for w := range l.Walls {
		wall := &l.Walls[w]
		bare, all := 0, 0
		for _, r := range wall.Runs {
			for _, i := range l.Runs[r].Panels {
				for _, c := range l.Panels[i].Clips {
					all++
					if !c.On.Wooden() {
						bare++
					}
				}
			}
		}
		var shim geom.Length
		if wall.Job.Lining.Gives && bare > 0 {
			shim = j.Shims.Stock
			shims.Thickness = shim
			shims.Count += all
			found.Add(wall.Subject(".lining"), wall.Job.Key+".lining", LiningGives{Clips: all, Bare: bare, Pad: shim, Masonry: wall.Job.Masonry})
		}
		for _, r := range wall.Runs {
			stands[r] = layout.Stand{Shim: shim, Standing: shim + j.Clip.Standoff}
			stands[r].BuildOut = stands[r].Standing + j.Board.Thickness + j.Foam.Thickness + j.Batt.Pressed + j.Cover.Thickness
		}
	}
	if shims.Count > 0 {
		shims.Size = padSize(j)
		shims.Spares = spareShims
	}
	return shims, stands, found
}

// padSize is what the job says, or the base of the wall half and at least 1/8 in or 2.5 mm more on every side, in whole
// quarter inches or 5 mm.
func padSize(j *job.Job) geom.Size {
	if s := j.Shims.Size; s.W > 0 && s.H > 0 {
		return s
	}
	grid := j.Units.Pick(geom.Inch/4, 5*geom.Millimetre)
	base := j.Clip.Wall.Base
	return geom.Size{W: (base.W + grid).Ceil(grid), H: (base.H + grid).Ceil(grid)}
}
