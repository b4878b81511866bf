package clips

import "rodsheet/template/plan/layout"

// StudsUnknown: nobody said where the studs or rails of a wall with panels are.
type StudsUnknown struct{}

// ID implements [finding.Params].
func (StudsUnknown) ID() string { return "studs-unknown" }

// HeldByLining: clips of a run are held by the lining alone.
type HeldByLining struct {
	Clips  int            // of the run
	Bare   int            // of them, held by the lining alone
	Whole  []string       // panels with all of their clips on the lining
	Some   []LiningPlaces // the others with some
	Follow bool           // panels could seek wood for themselves, and don't
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
	if len(w.Runs) == 0 {
		return
	}
	if !w.Job.Studs.Given && !w.Job.Rails.Given {
		p.found.Add(w.Subject(".studs"), w.Job.Key+".studs", StudsUnknown{})
		return
	}
	for _, r := range w.Runs {
		run := &p.Runs[r]
		f := HeldByLining{Follow: !p.Job.Clips.Studs && len(w.Members) > 0}
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
		field := w.Job.Key + ".studs"
		if f.Follow {
			field = "clips.follow"
		}
		p.found.Add(run.Subject(panels...), field, f)
	}
}
