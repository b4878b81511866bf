package job

import (
	"strings"

	"rodsheet/geom"
	"rodsheet/template/paper"
)

// Read reads a job file strictly. The name stands in messages only. The error is a *[Problems] that tells every
// problem of the file, each with its place; then the job is nil.
func Read(file string, data []byte) (*Job, error) {
	r := &reader{job: &Job{}, names: map[string]string{}}
	r.problems.Source = Source{File: file, places: map[string]Place{}}
	if n, _ := r.parse(data); n != nil {
		r.read(&section{r: r, spec: root, n: n})
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
	j := r.job
	j.Units, j.Source = r.units, r.problems.Source
	if top.need("name") {
		top.text("name", &j.Name)
	}
	r.paper(top.section("paper"))
	if top.need("board") {
		r.board(top.section("board"))
	}
	r.foam(top.section("foam"))
	r.batting(top.section("batting"))
	r.cover(top.section("cover"))
	r.wrap(top.section("wrap"))
	r.staples(top.section("staples"))
	if top.need("clip") {
		r.clip(top.section("clip"))
	}
	r.clips(top.section("clips"))
	r.screws(top.section("screws"))
	r.fixings(top.section("fixings"))
	r.shims(top.section("shims"))
	hardboard := top.section("hardboard")
	hardboard.size("sheet", &j.Hardboard)
	hardboard.close()
	r.blocks(top.section("blocks"))
	top.length("level line", &j.Line)
	r.bands(top.section("heights"))
	r.framing(top.section("framing"))
	r.accuracy(top.section("accuracy"))
	r.slivers(top.section("slivers"))
	r.buying(top.section("buying"))
	if top.need("walls") {
		r.walls(top)
	}
	j.Straight = top.choice("cables") == "straight"
	r.accept(top)
}

func (r *reader) version(top *section) {
	if !top.need("rodsheet") {
		return
	}
	top.scalar("rodsheet", "1, the version of this format", func(f *spec, t string) bool {
		if f.word(t) != "" {
			return true
		}
		top.add("rodsheet", "%q is no version this program reads; it reads version 1, so write `rodsheet: 1` or use a newer program", shorten(t))
		return false
	})
}

// unitsFirst reads the units before any length: a bare number means nothing without them.
func (r *reader) unitsFirst(top *section) {
	if !top.need("units") {
		return
	}
	switch top.choice("units") {
	case geom.Imperial.String():
		r.units, r.known = geom.Imperial, true
	case geom.Metric.String():
		r.units, r.known = geom.Metric, true
	}
}

func (r *reader) paper(s *section) {
	defer s.close()
	p := &r.job.Paper
	s.read("size", func(f *spec, n *node, path string) bool {
		if n.kind == scalar && !strings.ContainsAny(n.text, "xX×") {
			format, ok := paper.Named(n.text)
			if !ok {
				s.add("size", "%q is no paper this program knows; write %s or a size such as 12 x 18", shorten(n.text), strings.Join(f.Words, ", "))
				return false
			}
			p.Name, p.Size = strings.ToLower(format.Name), format.Size
			return true
		}
		size, ok := r.sizeOf(n, path, f.limits)
		if ok {
			p.Name, p.Size = "", upright(size)
		}
		return ok
	})
	s.length("margin", &p.Margin)
	s.length("overlap", &p.Overlap)
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

func (r *reader) board(s *section) {
	defer s.close()
	b := &r.job.Board
	if s.need("thickness") {
		s.length("thickness", &b.Thickness)
	}
	if s.length("tolerance", &b.Tolerance) && b.Thickness > 0 && b.Tolerance >= b.Thickness {
		s.judge("tolerance", "%s leaves nothing of a board %s thick; it is how much thinner a board may be", r.show(b.Tolerance), r.show(b.Thickness))
	}
	s.size("sheet", &b.Sheet)
	s.length("kerf", &b.Kerf)
	s.length("saw", &b.Saw)
	if s.choice("grain") == "along" {
		b.Grain = GrainAlong
	}
	s.density("density", &b.Density)
	s.price("price", &b.Price)
}

// foam leaves its values zero when the job has none; so do batting and cover.
func (r *reader) foam(s *section) {
	if s.n == nil {
		return
	}
	defer s.close()
	f := &r.job.Foam
	if s.need("thickness") {
		s.length("thickness", &f.Thickness)
	}
	s.size("sheet", &f.Sheet)
	s.density("density", &f.Density)
	s.price("price", &f.Price)
}

func (r *reader) batting(s *section) {
	if s.n == nil {
		return
	}
	defer s.close()
	b := &r.job.Batt
	if s.need("thickness") {
		s.length("thickness", &b.Thickness)
	}
	s.length("pressed", &b.Pressed)
	if b.Thickness > 0 && b.Pressed > b.Thickness {
		s.judge("pressed", "%s is more than the batting has loose (%s); fold it tight round an edge and measure what is left",
			r.show(b.Pressed), r.show(b.Thickness))
	}
	s.length("roll", &b.Roll)
	s.density("density", &b.Density)
	s.price("price", &b.Price)
}

func (r *reader) cover(s *section) {
	defer s.close()
	c := &r.job.Cover
	c.NapUp = s.choice("nap") == "up"
	if s.n == nil {
		return
	}
	if s.need("thickness") {
		s.length("thickness", &c.Thickness)
	}
	s.length("roll", &c.Roll)
	s.length("repeat", &c.Repeat)
	s.clothWeight("weight", &c.Weight)
	s.price("price", &c.Price)
}

func (r *reader) wrap(s *section) {
	defer s.close()
	w := &r.job.Wrap
	w.Auto = s.word("size") == "auto"
	s.length("size", &w.Size)
	s.length("hold", &w.Hold)
	w.Fold = s.choice("fold")
}

func (r *reader) staples(s *section) {
	defer s.close()
	st := &r.job.Staple
	s.length("length", &st.Length)
	s.length("spacing", &st.Spacing)
	s.length("edge", &st.Edge)
	s.length("crown", &st.Crown)
}

func (r *reader) accept(top *section) {
	for _, s := range top.sections("accept") {
		a := Acceptance{Key: s.path}
		if s.need("finding") {
			s.text("finding", &a.Finding)
		}
		s.text("at", &a.At)
		if s.need("because") {
			s.text("because", &a.Because)
		}
		s.close()
		r.job.Accept = append(r.job.Accept, a)
	}
}
