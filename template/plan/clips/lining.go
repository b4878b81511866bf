package clips

import (
	"cmp"
	"maps"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/plan/layout"
	"rodsheet/template/plan/placement"
)

// StudsUnknown: nobody said where the studs or rails of a wall with panels are.
type StudsUnknown struct{}

// ID implements [finding.Params].
func (StudsUnknown) ID() string { return "studs-unknown" }

// HeldByLining: clips of a run are held by the lining alone.
type HeldByLining struct {
	Clips   int            // of the run
	Bare    int            // of them, held by the lining alone
	Whole   []string       // panels with all of their clips on the lining
	Some    []LiningPlaces // the others with some
	Follow  int            // clips that would be on wood if each panel sought it for itself
	Battens int            // and with level battens, rails with their centre lines at these heights of the wall
	Rails   []geom.Length
}

// ID implements [finding.Params].
func (HeldByLining) ID() string { return "on-lining" }

// LiningPlaces are the clips of a panel that are held by the lining alone.
type LiningPlaces struct {
	Panel  string
	Places []string
	Clips  int // of the panel
}

// checkLining reports which clips are held by the lining alone: once a wall where nobody said what is behind it, else
// once a run.
func (p *planner) checkLining(w *layout.Wall) {
	if len(w.Runs) == 0 || w.Job.Masonry {
		return
	}
	if !w.Job.Studs.Given && !w.Job.Rails.Given {
		p.found.Add(w.Subject(".studs"), w.Job.Key+".studs", StudsUnknown{})
		return
	}
	for _, r := range w.Runs {
		run := &p.Runs[r]
		var f HeldByLining
		var panels []*layout.Panel
		for _, i := range run.Panels {
			panel := &p.Panels[i]
			var places []string
			for _, c := range p.clips[i] {
				f.Clips++
				if c.On == layout.OnLining {
					places = append(places, c.Place)
				}
			}
			if len(places) == 0 {
				continue
			}
			f.Bare += len(places)
			panels = append(panels, panel)
			if len(places) == len(p.clips[i]) {
				f.Whole = append(f.Whole, panel.Name)
			} else {
				f.Some = append(f.Some, LiningPlaces{panel.Name, places, len(p.clips[i])})
			}
		}
		if f.Bare == 0 {
			continue
		}
		f.Follow = p.following(run, f.Clips-f.Bare)
		f.Battens, f.Rails = p.battens(run)
		field := w.Job.Key + ".rails"
		if f.Follow > f.Clips-f.Bare {
			field = "clips.follow"
		}
		p.found.Add(run.Subject(panels...), field, f)
	}
}

// following is how many clips of a run would be on wood if each panel sought it for itself; now is how many are.
func (p *planner) following(run *layout.Run, now int) int {
	if p.Job.Clips.Studs || len(p.Walls[run.Wall].Members) == 0 {
		return now
	}
	preferences := preferences(p.Job)
	preferences.Follow = true
	on := 0
	for _, group := range p.equals(run.Panels) {
		outline, behind := p.behind(group)
		for _, n := range placement.InWood(outline, behind, preferences) {
			on += n
		}
	}
	return on
}

// mostBattens are the rows of a tall board; more battens than that is a wall to be lined anew.
const mostBattens = 4

// battens are the heights, from below, at which rails would take most of a run's clips that are on the lining, and how many
// clips would then be on wood: as many as a panel has clips at different heights there, up to [mostBattens].
func (p *planner) battens(run *layout.Run) (on int, heights []geom.Length) {
	bare := map[geom.Length]int{}
	rows := 0
	for _, i := range run.Panels {
		own := map[geom.Length]bool{}
		for _, c := range p.clips[i] {
			if c.On == layout.OnLining {
				bare[c.Wall.Y]++
				own[c.Wall.Y] = true
			} else {
				on++
			}
		}
		rows = max(rows, len(own))
	}
	heights = slices.SortedFunc(maps.Keys(bare), func(a, b geom.Length) int {
		return cmp.Or(cmp.Compare(bare[b], bare[a]), cmp.Compare(a, b))
	})
	heights = heights[:min(rows, mostBattens)]
	slices.Sort(heights)
	for _, h := range heights {
		on += bare[h]
	}
	return on, heights
}
