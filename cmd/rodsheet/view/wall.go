package view

import (
	"html/template"
	"net/http"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	plan "rodsheet/template/plan/layout"
	"rodsheet/template/sheet"
	"rodsheet/template/svg"
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

// walls are the pictures of a job's walls, and the size of all of them beside each other.
type walls struct {
	Each []picture
	W, H float64
}

// Walls are the walls as they were when the text was sound.
func (s *state) Walls() walls {
	var all walls
	for i, p := range sheet.Pictures(s.Work.Plan) {
		w := &s.Work.Plan.Walls[i]
		pic := pictureOf(p, w.Job.Name, "Wall "+w.Job.Name+", seen by somebody who faces it")
		all.Each = append(all.Each, pic)
		all.W, all.H = all.W+pic.W, max(all.H, pic.H)
	}
	return all
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
