package plan

import "fmt"

// mostListed is how many clips of a panel are named one by one; the wall sheet shows them all.
const mostListed = 6

// tellLining says which clips are held by the lining alone: once a wall where nobody said what is behind it, else once
// a run.
func (p *Plan) tellLining(w *Wall) {
	if len(w.Runs) == 0 {
		return
	}
	if !w.Job.Studs.Given && !w.Job.Rails.Given {
		p.trouble("studs-unknown", Spot{"wall " + w.Job.Name, w.Job.Key + ".studs"},
			fmt.Sprintf("Nobody said where the studs of wall %s are: every clip on it counts as held by the lining alone.", w.Job.Name),
			"Find the studs (magnet on the screws of the lining, small probing holes where a panel will hide them) and write them down as studs.")
		return
	}
	for _, r := range w.Runs {
		run := &p.Runs[r]
		clips, bare := 0, 0
		var where, whole []string
		for _, i := range run.Panels {
			panel := &p.Panels[i]
			var places []string
			for _, c := range panel.Clips {
				clips++
				if c.On == OnLining {
					bare++
					places = append(places, c.Place)
				}
			}
			switch {
			case len(places) > 0 && len(places) == len(panel.Clips):
				whole = append(whole, panel.Name)
			case len(places) > mostListed:
				where = append(where, fmt.Sprintf("%s %d of %d", panel.Name, len(places), len(panel.Clips)))
			case len(places) > 0:
				where = append(where, panel.Name+" "+Listed(places))
			}
		}
		if bare == 0 {
			continue
		}
		if len(whole) > 0 {
			where = append([]string{"all of " + Listed(whole)}, where...)
		}
		remedy := "Use a fixing made for the lining at those places."
		if !p.Job.Clips.Studs && len(w.Members) > 0 {
			remedy += " With follow: studs each panel seeks wood for itself, at the price of more templates."
		}
		text := fmt.Sprintf("%d of %d clips of run %s are held by the lining alone: ", bare, clips, run.Name)
		for i, s := range where {
			if i > 0 {
				text += "; "
			}
			text += s
		}
		p.trouble("on-lining", Spot{"run " + run.Name, run.Job.Key}, text+".", remedy)
	}
}
