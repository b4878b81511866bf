package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rodsheet/geom"
)

const maxHoles = 32 // screw holes of one clip half

func (r *reader) clip(s *section) {
	defer s.close()
	if s.n == nil {
		return
	}
	c := &r.job.Clip
	kind := -1
	if s.need("kind", "write press when the panel goes straight on, lift when it hooks over and comes down") {
		kind = s.choice("kind", "press", "lift")
		c.Kind = ClipKind(max(0, kind))
	}
	both := s.has("board half") && s.has("wall half")
	common := r.half(s, Half{Holes: []geom.Point{{}}}, !both)
	if s.need("standoff", "hook a pair together and measure from the wall side of one to the board side of the other") {
		s.length("standoff", &c.Standoff, from0(4*geom.Inch))
	}
	s.length("lift", &c.Rise, from0(6*geom.Inch))
	switch {
	case kind < 0:
	case c.Kind == Press && c.Rise != 0:
		s.judge("lift", "a press clip comes straight off, so its lift is 0; write `kind: lift` if the panel must rise by %s", r.show(c.Rise))
	case c.Kind == Lift && !s.has("lift"):
		s.need("lift", "measure how far the panel must rise before the hooks let go; room is kept above it")
	case c.Kind == Lift && s.get("lift") != nil && c.Rise == 0:
		s.judge("lift", "a lift clip must rise before it lets go; measure how far")
	}
	s.point("offset", &c.Offset, eitherWay(6*geom.Inch))
	s.length("play", &c.Play, from0(geom.Inch))
	s.weight("carries", &c.Carries)
	s.price("price", &c.Price)

	board, wall := s.section("board half"), s.section("wall half")
	c.Board, c.Wall = r.half(board, common, false), r.half(wall, common, false)
	board.close()
	wall.close()
	r.holesInside(board, s, c.Board)
	r.holesInside(wall, s, c.Wall)
	if both {
		for _, h := range []struct {
			s    *section
			half Half
		}{{board, c.Board}, {wall, c.Wall}} {
			if h.s.n == nil {
				continue
			}
			if !s.has("base") {
				h.s.need("base", "measure the outline of this half, width x height")
			}
			if !s.has("flange") {
				h.s.need("flange", "measure the thickness of the clip under the screw head")
			}
		}
	}
}

// half reads base, holes and flange over what both halves share.
func (r *reader) half(s *section, h Half, required bool) Half {
	h.Holes = slices.Clone(h.Holes)
	if !required || s.need("base", "measure the outline of one half of the clip, width x height as it hangs") {
		s.size("base", &h.Base, over0(12*geom.Inch))
	}
	if !required || s.need("flange", "measure the thickness of the clip under the screw head with a calliper") {
		s.length("flange", &h.Flange, over0(geom.Inch))
	}
	n := s.get("holes")
	if n == nil {
		return h
	}
	holes, ok := s.points("holes", eitherWay(12*geom.Inch), maxHoles)
	if !ok {
		return h
	}
	if len(holes) == 0 {
		s.add("holes", "is an empty list; a half needs at least one screw hole, [[0, 0]] is the middle of the base")
		return h
	}
	for i, p := range holes {
		if first := slices.Index(holes, p); first < i {
			path := join(s.path, fmt.Sprintf("holes[%d]", i))
			r.judge(r.problems.Source.Of(path), path, "the same hole is in the list already; each hole once")
		}
	}
	h.Holes = holes
	return h
}

// holesInside reports screw holes beyond the base. The place is in the half when it has holes or a base of its own,
// otherwise in what both share.
func (r *reader) holesInside(s, common *section, h Half) {
	if !s.has("holes") && !s.has("base") {
		s = common
	}
	if h.Base.W == 0 || h.Base.H == 0 || s.n == nil {
		return
	}
	for i, p := range h.Holes {
		if 2*p.X.Abs() < h.Base.W && 2*p.Y.Abs() < h.Base.H {
			continue
		}
		path := join(s.path, fmt.Sprintf("holes[%d]", i))
		if slices.ContainsFunc(r.problems.List, func(p Problem) bool { return p.Field == path }) {
			continue
		}
		r.judge(r.problems.Source.Of(path), path, "the hole [%s, %s] is not inside the base of %s x %s; holes count from the middle of the base",
			p.X.Bare(r.units), p.Y.Bare(r.units), r.show(h.Base.W), r.show(h.Base.H))
	}
}

func (r *reader) clips(s *section) {
	defer s.close()
	c := &r.job.Clips
	s.count("number", &c.Number, 2, 100)
	s.length("clear", &c.Clear, from0(24*geom.Inch))
	s.length("spacing", &c.Spacing, between(geom.Inch, 10*geom.Metre))
	s.length("step", &c.Step, over0(6*geom.Inch))
	c.Studs = s.choice("follow", "same", "studs") == 1
}

func (r *reader) screws(s *section) {
	defer s.close()
	j := &r.job.Screws
	for _, one := range []struct {
		name string
		dst  *Screw
	}{{"board", &j.Board}, {"wall", &j.Wall}} {
		in := s.section(one.name)
		if in.n != nil && in.need("size", "write the gauge number, as in 8, or the diameter with its unit, as in 4 mm") {
			r.screwSize(in, one.dst)
		} else {
			in.get("size")
		}
		in.length("length", &one.dst.Length, over0(12*geom.Inch))
		in.close()
	}
	s.length("marker", &j.Marker, over0(geom.Inch/2))
	if hand, ok := s.lengths("on hand", over0(12*geom.Inch), 100); ok {
		slices.Sort(hand)
		j.OnHand = slices.Compact(hand)
	}
	s.price("price", &j.Price)
}

// ScrewDiameter is the shank diameter of a wood screw by its number: 0.060 in + 0.013 in for each number
// (ASME B18.6.1), exact.
func ScrewDiameter(gauge int) geom.Length {
	return geom.Inch * geom.Length(60+13*gauge) / 1000
}

func (r *reader) screwSize(s *section, dst *Screw) {
	t, ok := s.scalar("size", "a gauge number such as 8 or a diameter such as 4 mm")
	if !ok {
		return
	}
	number := strings.ToLower(t)
	marked := false
	for _, mark := range []string{"#", "no.", "no", "gauge"} {
		if rest, cut := strings.CutPrefix(number, mark); cut {
			number, marked = strings.TrimSpace(rest), true
			break
		}
	}
	gauge, err := strconv.Atoi(number)
	switch {
	case err != nil && marked:
		s.add("size", "%q is no gauge number; they are whole, from 0 to 24", shorten(t))
	case err == nil && !marked && r.units == geom.Metric:
		s.judge("size", "a bare %d may be a gauge number or millimetres; write `%d mm`, or `no %d` for the gauge", gauge, gauge, gauge)
	case err == nil && (gauge < 0 || gauge > 24):
		s.add("size", "there is no wood screw number %d; they run from 0 to 24, and a diameter needs its unit, as in 4 mm", gauge)
	case err == nil:
		dst.Gauge, dst.Diameter = gauge, ScrewDiameter(gauge)
	default:
		inches, err1 := geom.ParseLength(t, geom.Imperial)
		metric, err2 := geom.ParseLength(t, geom.Metric)
		switch {
		case err1 != nil || err2 != nil:
			s.add("size", "%q is neither a gauge number such as 8 nor a diameter such as 4 mm", shorten(t))
		case inches != metric:
			s.add("size", "%q needs its unit, as in 4.5 mm or 3/16 in; only a gauge number stands alone, and it is whole", shorten(t))
		case r.fits(inches, between(geom.Millimetre/2, geom.Inch/2), s.at("size"), join(s.path, "size")):
			dst.Diameter = inches
		}
	}
}

func (r *reader) shims(s *section) {
	defer s.close()
	s.length("stock", &r.job.Shims.Stock, over0(geom.Inch))
	s.size("size", &r.job.Shims.Size, over0(12*geom.Inch))
}

func (r *reader) blocks(s *section) {
	defer s.close()
	b := &r.job.Blocks
	if stock, ok := s.lengths("stock", over0(12*geom.Inch), 100); ok {
		b.Stock = stock
	}
	s.length("within", &b.Within, from0(geom.Inch))
	s.length("foot", &b.Foot, between(geom.Inch/2, 24*geom.Inch))
	b.For = BlocksFor(max(0, s.choice("for", "drilling", "hanging", "both")))
	s.count("count", &b.Count, 1, 1000)
}

func (r *reader) framing(s *section) {
	defer s.close()
	s.text("wood", &r.job.Framing.Wood, 60)
	if t, ok := s.scalar("gravity", "a number such as 0.42"); ok {
		if g, ok := decimal(t); ok && g >= 0.2 && g <= 1.3 {
			r.job.Framing.Gravity = g
		} else {
			s.add("gravity", "%q is no specific gravity of wood; it is a plain number from 0.2 to 1.3, as in 0.42", shorten(t))
		}
	}
}

func (r *reader) accuracy(s *section) {
	defer s.close()
	a := &r.job.Accuracy
	a.Squared = r.job.Board.Saw / 2
	if i := s.choice("tape", "1", "2", "3", "I", "II", "III"); i >= 0 {
		a.Tape = i%3 + 1
	}
	s.length("seam", &a.Seam, from0(geom.Inch/4))
	s.length("wander", &a.Wander, from0(geom.Inch/4))
	s.length("squared", &a.Squared, from0(geom.Inch))
	n := s.get("growth")
	if n == nil {
		return
	}
	const form = "expected two parts of the length, along and across the grain of the paper, as in [0.1 %, 0.2 %] or [0.001, 0.002]"
	if n.kind != list || len(n.items) != 2 {
		s.add("growth", "%s", form)
		return
	}
	for i, item := range n.items {
		text, percent := strings.CutSuffix(strings.TrimSpace(item.text), "%")
		f, ok := decimal(strings.TrimSpace(text))
		if percent {
			f /= 100
		}
		if item.kind != scalar || !ok || f > 0.03 {
			r.add(item.place, fmt.Sprintf("%s[%d]", join(s.path, "growth"), i), "%q is no such part; %s, at most 3 %%", shorten(item.text), form)
			continue
		}
		a.Growth[i] = f
	}
}

func (r *reader) slivers(s *section) {
	defer s.close()
	s.length("width", &r.job.Slivers.Width, from0(geom.Metre))
	s.size("area", &r.job.Slivers.Area, over0(geom.Metre))
	s.truth("merge", &r.job.Slivers.Merge)
}

func (r *reader) buying(s *section) {
	defer s.close()
	zero := 0
	if s.count("spares", &zero, 0, 10000) {
		r.job.Buying.Spares = zero
	}
	s.count("pack", &r.job.Buying.ScrewPack, 1, 100000)
}
