package view

import (
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	plan "rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
	"rodsheet/template/svg"

	work "rodsheet/template"
)

// A picture is a drawing as an SVG element, and how large it is in its own units.
type picture struct {
	Name string
	SVG  template.HTML
	W, H float64
}

func pictureOf(p drawing.Picture, name, label string) picture {
	var b strings.Builder
	if err := svg.WritePicture(&b, p, label); err != nil {
		panic(err) // a plan that was made can be drawn
	}
	size := p.Bounds.Size()
	return picture{name, template.HTML(b.String()), size.W.Millimetres(), size.H.Millimetres()}
}

// walls are the pictures of a job's walls, beside each other. A change that leaves the walls' number and size as they were
// sends those alone that look different.
type walls struct {
	Each  []wallPicture
	W, H  float64 // of all of them
	work  *work.Work
	frame string // what there is besides the pictures
	since int    // version since which it is that
}

// A wallPicture is a part of the page that is replaced on its own.
type wallPicture struct {
	picture
	Index int
	ID    string
	since int
}

// newWalls makes the walls of a state, as they were when the text was sound. Pictures that are as they were in the last
// walls are taken from there.
func newWalls(s *state, last *walls) *walls {
	all := &walls{work: s.Work, since: s.Version}
	if last != nil && last.work == s.Work {
		all.Each = last.Each
	} else if s.Work != nil {
		for i, p := range sheet.Pictures(s.Work.Plan) {
			w := &s.Work.Plan.Walls[i]
			pic := wallPicture{pictureOf(p, w.Job.Name, "Wall "+w.Job.Name+", seen by somebody who faces it"), i, fmt.Sprintf("wall-%d", i), s.Version}
			if last != nil && i < len(last.Each) && last.Each[i].SVG == pic.SVG {
				pic.since = last.Each[i].since
			}
			all.Each = append(all.Each, pic)
		}
	}
	frame := []any{s.Since, s.Work == nil}
	for _, p := range all.Each {
		all.W, all.H = all.W+p.W, max(all.H, p.H)
		frame = append(frame, p.W, p.H)
	}
	if all.frame = fmt.Sprint(frame...); last != nil && last.frame == all.frame {
		all.since = last.since
	}
	return all
}

// news adds what is new since a version to an answer's fragments.
func (w *walls) news(s *state, v int, fragments map[string]string) {
	if w.since > v {
		fragments["wall"] = render("wall", s)
		return
	}
	for _, p := range w.Each {
		if p.since > v {
			fragments[p.ID] = render("wall-picture", p)
		}
	}
}

// A boardView is the board of a panel, as the page shows it.
type boardView struct {
	Panel      string
	Board      *plan.Board
	Finished   string
	Cut        string
	Shared     string // the panels that have such a board
	Run        string // path of the panel's run
	Back, Face picture
	Holes      []sheet.HolePlace // as the back is seen
	Hole       string            // how they are drilled
}

// showBoard is the board of a panel, back and face.
func (s *Server) showBoard(w http.ResponseWriter, r *http.Request) {
	now := s.current.Load()
	if now == nil || now.Work == nil {
		writePage(w, http.StatusConflict, "", "There is no picture of this job yet.")
		return
	}
	p, name := now.Work.Plan, r.URL.Query().Get("panel")
	i := slices.IndexFunc(p.Panels, func(panel plan.Panel) bool { return panel.Name == name })
	if i < 0 || p.Panels[i].Board < 0 {
		writePage(w, http.StatusNotFound, "", "There is no panel of that name any more.")
		return
	}
	panel := &p.Panels[i]
	b := &p.Boards[panel.Board]
	size := func(s geom.Size) string { return s.In(p.Job.Units) }
	write(w, http.StatusOK, "board", boardView{
		Panel: name, Board: b, Finished: size(panel.Finished.Bounds().Size()), Cut: size(b.Size),
		Shared: p.PanelNames(b.Panels), Run: p.Runs[panel.Run].Job.Key,
		Back:  pictureOf(sheet.BoardPicture(p, b, sheet.Back), "back", "Board "+b.Name+" from its back"),
		Face:  pictureOf(sheet.BoardPicture(p, b, sheet.Face), "face", "Board "+b.Name+" from its face"),
		Holes: sheet.HolePlaces(p, b, sheet.Back), Hole: p.Screws.Board.Hole.Text(p.Job.Units),
	})
}
