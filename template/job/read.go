package job

import (
	"strings"

	"rodsheet/geom"
	"rodsheet/template/paper"
)

// Limits of a job, generous for a whole building.
const (
	MaxPanels = 5000
	MaxPoints = 10_000 // of one outline
	maxWalls  = 2000
)

// Read reads a job file strictly. The name stands in messages only. The error is a *[Problems] that tells every
// problem of the file, each with its place; then the job is nil.
func Read(file string, data []byte) (*Job, error) {
	r := &reader{job: &Job{}, names: map[string]string{}}
	r.problems.Source = Source{File: file, places: map[string]Place{}}
	if n := r.parse(data); n != nil {
		r.read(&section{r: r, n: n})
	}
	if len(r.problems.List) > 0 {
		r.problems.sort()
		return nil, &r.problems
	}
	return r.job, nil
}

func (r *reader) read(top *section) {
	defer top.close()
	r.version(top)
	r.unitsFirst(top)
	*r.job = defaults(r.units)
	j := r.job
	j.Source = r.problems.Source

	if top.need("name", "the job's name is printed on every sheet, as in `name: Window seat`") {
		top.text("name", &j.Name, 80)
	}
	r.paper(top.section("paper"))
	if top.need("board", "the sheets and templates hang on it; write `board: {thickness: …}` with the thickness as measured with a calliper") {
		r.board(top.section("board"))
	}
	r.padding(top)
	r.wrap(top)
	r.staples(top.section("staples"))
	if top.need("clip", "the pair that holds a panel on the wall; measure one pair and write kind, base, flange and standoff") {
		r.clip(top.section("clip"))
	}
	r.clips(top.section("clips"))
	r.screws(top.section("screws"))
	r.shims(top.section("shims"))
	r.blocks(top.section("blocks"))
	r.bands(top.section("heights"))
	r.framing(top.section("framing"))
	r.accuracy(top.section("accuracy"))
	r.slivers(top.section("slivers"))
	r.buying(top.section("buying"))
	if top.need("walls", "list the walls from left to right as you stand in the room, each with name, width, height and runs") {
		r.walls(top)
	}
	j.Straight = top.choice("cables", "any", "straight") == 1
	r.accept(top)
}

func (r *reader) version(top *section) {
	if !top.need("rodsheet", "write `rodsheet: 1` in the first line; it is the version of this format") {
		return
	}
	t, ok := top.scalar("rodsheet", "1, the version of this format")
	if ok && t != "1" {
		top.add("rodsheet", "%q is no version this program reads; it reads version 1, so write `rodsheet: 1` or use a newer program", shorten(t))
	}
}

// unitsFirst reads the units before any length: a bare number means nothing without them.
func (r *reader) unitsFirst(top *section) {
	if !top.need("units", "write `units: in` or `units: mm`; bare numbers count in it, and no length is judged without it") {
		return
	}
	switch top.choice("units", "in", "mm") {
	case 0:
		r.units, r.known = geom.Imperial, true
	case 1:
		r.units, r.known = geom.Metric, true
	}
}

func (r *reader) paper(s *section) {
	defer s.close()
	p := &r.job.Paper
	if n := s.get("size"); n != nil {
		switch {
		case n.kind == scalar && !strings.ContainsAny(n.text, "xX×"):
			format, ok := paper.Named(n.text)
			if !ok {
				s.add("size", "%q is no paper this program knows; write %s or a size such as 12 x 18", shorten(n.text), strings.Join(paper.Names(), ", "))
				break
			}
			p.Name, p.Size = strings.ToLower(format.Name), format.Size
		default:
			if size, ok := r.sizeOf(n, join(s.path, "size"), between(100*geom.Millimetre, 5*geom.Metre)); ok {
				p.Name, p.Size = "", upright(size)
			}
		}
	}
	s.length("margin", &p.Margin, from0(4*geom.Inch))
	s.length("overlap", &p.Overlap, from0(4*geom.Inch))
	if free := p.Size.W - 2*p.Margin; free <= 2*p.Overlap {
		name := "margin"
		if !s.has("margin") {
			name = "overlap"
		}
		s.judge(name, "twice the margin (%s) and twice the overlap (%s) leave nothing of a page %s wide; make them smaller",
			r.show(p.Margin), r.show(p.Overlap), r.show(p.Size.W))
	}
}

// upright turns a sheet so that it is at least as high as wide.
func upright(s geom.Size) geom.Size {
	if s.W > s.H {
		return s.Turned()
	}
	return s
}

const stockSide = 20 * geom.Metre

func (r *reader) board(s *section) {
	defer s.close()
	b := &r.job.Board
	if s.need("thickness", "measure a sheet with a calliper near an edge; the name on the sheet is usually more than it has") {
		s.length("thickness", &b.Thickness, over0(4*geom.Inch))
	}
	if s.length("tolerance", &b.Tolerance, from0(geom.Inch)) && b.Thickness > 0 && b.Tolerance >= b.Thickness {
		s.judge("tolerance", "%s leaves nothing of a board %s thick; it is how much thinner a board may be", r.show(b.Tolerance), r.show(b.Thickness))
	}
	s.size("sheet", &b.Sheet, between(geom.Inch, stockSide))
	s.length("kerf", &b.Kerf, from0(geom.Inch/2))
	s.length("saw", &b.Saw, over0(geom.Inch))
	if s.choice("grain", "free", "along") == 1 {
		b.Grain = GrainAlong
	}
	s.density("density", &b.Density, 3000)
	s.price("price", &b.Price)
}

func (r *reader) padding(top *section) {
	foam, f := top.section("foam"), &r.job.Foam
	if foam.n != nil && foam.need("thickness", "measure it unpressed with a rule; take the whole `foam` out when there is none") {
		foam.length("thickness", &f.Thickness, over0(12*geom.Inch))
	}
	foam.size("sheet", &f.Sheet, between(geom.Inch, stockSide))
	foam.density("density", &f.Density, 500)
	foam.price("price", &f.Price)
	foam.close()

	batt, b := top.section("batting"), &r.job.Batt
	if batt.n != nil {
		b.Pressed = pick(r.units, geom.Inch/16, 2*geom.Millimetre)
		if batt.need("thickness", "measure it lying loose with a rule; take the whole `batting` out when there is none") {
			batt.length("thickness", &b.Thickness, over0(4*geom.Inch))
		}
	}
	batt.length("pressed", &b.Pressed, from0(4*geom.Inch))
	if batt.n != nil && b.Thickness > 0 && b.Pressed > b.Thickness {
		batt.judge("pressed", "%s is more than the batting has loose (%s); fold it tight round an edge and measure what is left",
			r.show(b.Pressed), r.show(b.Thickness))
	}
	batt.length("roll", &b.Roll, between(geom.Inch, stockSide))
	batt.density("density", &b.Density, 500)
	batt.price("price", &b.Price)
	batt.close()

	cover, c := top.section("cover"), &r.job.Cover
	if cover.n != nil && cover.need("thickness", "fold the cloth to eight layers, measure them lightly pressed and divide by eight") {
		cover.length("thickness", &c.Thickness, from0(geom.Inch/2))
	}
	cover.length("roll", &c.Roll, between(geom.Inch, stockSide))
	if i := cover.choice("nap", "up", "any"); i >= 0 {
		c.NapUp = i == 0
	}
	cover.length("repeat", &c.Repeat, from0(3*geom.Metre))
	cover.clothWeight("weight", &c.Weight)
	cover.price("price", &c.Price)
	cover.close()
}

func (r *reader) wrap(top *section) {
	w := &r.job.Wrap
	n := top.get("wrap")
	if n == nil {
		return
	}
	size := &section{r: r, n: n, path: "wrap"}
	if n.kind != group {
		// `wrap: 2 1/2` is short for `wrap: {size: 2 1/2}`.
		size = &section{r: r, n: &node{kind: group, place: n.place, fields: []field{{"size", n.place, n}}}}
		size.path = ""
		r.wrapSize(size, w, "wrap")
		return
	}
	r.wrapSize(size, w, "wrap.size")
	size.length("hold", &w.Hold, from0(12*geom.Inch))
	if i := size.choice("fold", "auto", "pleat", "parcel"); i >= 0 {
		w.Fold = []string{"auto", "pleat", "parcel"}[i]
	}
	size.close()
}

func (r *reader) wrapSize(s *section, w *Wrap, path string) {
	n := s.get("size")
	if n == nil || n.kind == scalar && strings.EqualFold(strings.TrimSpace(n.text), "auto") {
		return
	}
	if l, ok := r.lengthOf(n, path, over0(24*geom.Inch)); ok {
		w.Auto, w.Size = false, l
	}
}

func (r *reader) staples(s *section) {
	defer s.close()
	st := &r.job.Staple
	s.length("length", &st.Length, between(geom.Millimetre, 2*geom.Inch))
	s.length("spacing", &st.Spacing, between(5*geom.Millimetre, 12*geom.Inch))
	s.length("edge", &st.Edge, from0(6*geom.Inch))
	s.length("crown", &st.Crown, from0(geom.Inch/4))
}

func (r *reader) accept(top *section) {
	for _, s := range top.groups("accept", "{finding: screw-through, at: N3, because: tips ground flush}") {
		a := Acceptance{Key: s.path}
		if s.need("finding", "write the finding's id as `rodsheet check` prints it") {
			s.text("finding", &a.Finding, 80)
		}
		s.text("at", &a.At, 80)
		if s.need("because", "say why it is all right here; the reason is printed on the overview") {
			s.text("because", &a.Because, 300)
		}
		s.close()
		r.job.Accept = append(r.job.Accept, a)
	}
}
