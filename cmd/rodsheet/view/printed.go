package view

import (
	"reflect"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/plan/finding"
	plan "rodsheet/template/plan/layout"
	"rodsheet/template/sheet"

	work "rodsheet/template"
)

// drills reports whether drill templates are among what is printed.
func drills(p work.Print) bool { return len(p.Only) == 0 || slices.ContainsFunc(p.Only, sheet.Drills) }

// notePrinted keeps what the last PDF with drill templates showed of the open job.
func (s *Server) notePrinted(now *state) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.job == nil || s.job.work != now.Work {
		return // another text by now
	}
	s.job.printed = now.Work
	if len(now.Reprint) > 0 {
		s.job.version++
		s.publish()
	}
}

// reprint says which drill templates are other than they were in an earlier print.
func reprint(was, now *work.Work) []string {
	if was == nil || now == nil || was == now {
		return nil
	}
	var boards, runs []string
	old := map[string]*plan.Board{}
	for i := range was.Plan.Boards {
		old[was.Plan.Boards[i].Name] = &was.Plan.Boards[i]
	}
	for i := range now.Plan.Boards {
		b := &now.Plan.Boards[i]
		if o := old[b.Name]; o == nil || !slices.Equal(o.Outline, b.Outline) || !reflect.DeepEqual(boardHoles(o), boardHoles(b)) {
			boards = append(boards, b.Name)
		}
	}
	before := map[string][]geom.Point{}
	for i := range was.Plan.Runs {
		r := &was.Plan.Runs[i]
		before[r.Name] = wallHoles(was, r)
	}
	for i := range now.Plan.Runs {
		r := &now.Plan.Runs[i]
		if o, there := before[r.Name]; !there || !slices.Equal(o, wallHoles(now, r)) {
			runs = append(runs, r.Name)
		}
	}
	var out []string
	if len(boards) > 0 {
		out = append(out, (finding.Subject{Kind: finding.Board, Names: boards}).List())
	}
	if len(runs) > 0 {
		out = append(out, "the wall templates of "+(finding.Subject{Kind: finding.Run, Names: runs}).List())
	}
	return out
}

func boardHoles(b *plan.Board) (all []geom.Point) {
	for _, c := range b.Clips {
		all = append(all, c.BoardHoles...)
	}
	return all
}

// wallHoles are the holes of a run in its wall, and the corners of its panels there.
func wallHoles(w *work.Work, r *plan.Run) (all []geom.Point) {
	for _, i := range r.Panels {
		p := &w.Plan.Panels[i]
		all = append(all, p.Finished...)
		for _, c := range p.Clips {
			all = append(all, c.WallHoles...)
		}
	}
	return all
}
