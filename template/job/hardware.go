package job

import (
	"slices"
	"strconv"
	"strings"

	"rodsheet/geom"
)

func (r *reader) clip(s *section) {
	defer s.close()
	if s.n == nil {
		return
	}
	c := &r.job.Clip
	r.clipKind(s, c)
	board, wall := s.section("board half"), s.section("wall half")
	for _, name := range []string{"base", "flange"} {
		switch {
		case s.has(name):
		case board.n != nil && wall.n != nil:
			board.need(name)
			wall.need(name)
		default:
			s.need(name)
		}
	}
	if s.need("standoff") {
		s.length("standoff", &c.Standoff)
	}
	s.point("offset", &c.Offset)
	s.length("play", &c.Play)
	s.weight("carries", &c.Carries)
	s.price("price", &c.Price)

	common := Half{}
	r.half(s, &common)
	for _, one := range []struct {
		s   *section
		dst *Half
	}{{board, &c.Board}, {wall, &c.Wall}} {
		*one.dst = common
		r.half(one.s, one.dst)
		one.s.close()
		r.holesInside(one.s, s, *one.dst)
	}
}

// clipKind reads how the halves come together, and how far a clip that hooks over must rise.
func (r *reader) clipKind(s *section, c *Clip) {
	word := ""
	if s.need("kind") {
		word = s.choice("kind")
	}
	lifts := s.length("lift", &c.Rise)
	switch word {
	case "press":
		c.Kind = Press
		if c.Rise != 0 {
			s.judge("lift", "a press clip comes straight off, so its lift is 0; write `kind: lift` if the panel must rise by %s", r.show(c.Rise))
		}
	case "lift":
		c.Kind = Lift
		if s.need("lift") && lifts && c.Rise == 0 {
			s.judge("lift", "a lift clip must rise before it lets go; measure how far")
		}
	}
}

// half reads base, holes and flange over what h has.
func (r *reader) half(s *section, h *Half) {
	s.size("base", &h.Base)
	s.length("flange", &h.Flange)
	holes, given := s.points("holes")
	if holes == nil && !given {
		return
	}
	h.Holes = holes
	if len(holes) == 0 {
		s.add("holes", "is an empty list; a half needs at least one screw hole, [[0, 0]] is the middle of the base")
	}
	for i, p := range holes {
		if first := slices.Index(holes, p); first < i {
			path := entry(s.key("holes"), i)
			r.judge(r.problems.Source.Of(path), path, "the same hole is in the list already; each hole once")
		}
	}
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
		path := entry(s.key("holes"), i)
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
	s.count("number", &c.Number)
	s.length("clear", &c.Clear)
	s.length("spacing", &c.Spacing)
	s.length("step", &c.Step)
	c.Studs = s.choice("follow") == "studs"
}

func (r *reader) screws(s *section) {
	defer s.close()
	j := &r.job.Screws
	r.screw(s.section("board"), &j.Board)
	r.screw(s.section("wall"), &j.Wall)
	s.length("marker", &j.Marker)
	if hand, ok := s.lengths("on hand"); ok {
		slices.Sort(hand)
		j.OnHand = slices.Compact(hand)
	}
	s.price("price", &j.Price)
}

func (r *reader) screw(s *section, dst *Screw) {
	if s.n == nil {
		return
	}
	defer s.close()
	if s.need("size") {
		r.screwSize(s, dst)
	}
	s.length("length", &dst.Length)
}

// ScrewDiameter is the shank diameter of a wood screw by its number: 0.060 in + 0.013 in for each number
// (ASME B18.6.1), exact.
func ScrewDiameter(gauge int) geom.Length {
	return geom.Inch * geom.Length(60+13*gauge) / 1000
}

func (r *reader) screwSize(s *section, dst *Screw) {
	s.scalar("size", "a gauge number such as 8 or a diameter such as 4 mm", func(_ *spec, t string) bool {
		number, marked := strings.ToLower(t), false
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
		case err != nil:
			return r.screwDiameter(s, t, dst)
		case !marked && r.units == geom.Metric:
			s.judge("size", "a bare %d may be a gauge number or millimetres; write `%d mm`, or `no %d` for the gauge", gauge, gauge, gauge)
		case gauge < 0 || gauge > 24:
			s.add("size", "there is no wood screw number %d; they run from 0 to 24, and a diameter needs its unit, as in 4 mm", gauge)
		default:
			dst.Gauge, dst.Diameter = gauge, ScrewDiameter(gauge)
			return true
		}
		return false
	})
}

func (r *reader) screwDiameter(s *section, t string, dst *Screw) bool {
	inches, err1 := geom.ParseLength(t, geom.Imperial)
	metric, err2 := geom.ParseLength(t, geom.Metric)
	switch {
	case err1 != nil || err2 != nil:
		s.add("size", "%q is neither a gauge number such as 8 nor a diameter such as 4 mm", shorten(t))
	case inches != metric:
		s.add("size", "%q needs its unit, as in 4.5 mm or 3/16 in; only a gauge number stands alone, and it is whole", shorten(t))
	case r.fits(inches, between(geom.Millimetre/2, geom.Inch/2), s.at("size"), s.key("size")):
		dst.Diameter = inches
		return true
	}
	return false
}

func (r *reader) fixings(s *section) {
	defer s.close()
	plug, anchor := &r.job.Fixing.Plug, &r.job.Fixing.Anchor
	if in := s.section("plug"); in.n != nil {
		if in.need("hole") {
			in.length("hole", &plug.Hole)
		}
		if in.need("length") {
			in.length("length", &plug.Length)
		}
		in.weight("carries", &plug.Carries)
		in.price("price", &plug.Price)
		in.close()
	}
	if in := s.section("anchor"); in.n != nil {
		if in.need("hole") {
			in.length("hole", &anchor.Hole)
		}
		in.length("reach", &anchor.Reach)
		in.weight("carries", &anchor.Carries)
		in.price("price", &anchor.Price)
		in.close()
	}
}

func (r *reader) shims(s *section) {
	defer s.close()
	s.length("stock", &r.job.Shims.Stock)
	s.size("size", &r.job.Shims.Size)
}

func (r *reader) blocks(s *section) {
	defer s.close()
	b := &r.job.Blocks
	b.Stock, _ = s.lengths("stock")
	s.length("within", &b.Within)
	s.length("foot", &b.Foot)
	switch s.choice("for") {
	case "hanging":
		b.For = ForHanging
	case "both":
		b.For = ForBoth
	}
	s.count("count", &b.Count)
}

func (r *reader) framing(s *section) {
	defer s.close()
	f := &r.job.Framing
	s.text("wood", &f.Wood)
	s.scalar("gravity", "a number such as 0.42", func(_ *spec, t string) bool {
		g, ok := decimal(t)
		if !ok || g < 0.2 || g > 1.3 {
			s.add("gravity", "%q is no specific gravity of wood; it is a plain number from 0.2 to 1.3, as in 0.42", shorten(t))
			return false
		}
		f.Gravity = g
		return true
	})
}

func (r *reader) accuracy(s *section) {
	defer s.close()
	a := &r.job.Accuracy
	a.Squared = r.job.Board.Saw / 2
	a.Tape = map[string]Tape{"1": TapeI, "2": TapeII, "3": TapeIII, "I": TapeI, "II": TapeII, "III": TapeIII, "inch": InchTape}[s.choice("tape")]
	s.length("reading", &a.Reading)
	s.length("seam", &a.Seam)
	s.length("wander", &a.Wander)
	s.length("squared", &a.Squared)
	s.read("growth", func(_ *spec, n *node, path string) bool {
		const form = "expected two parts of the length, along and across the grain of the paper, as in [0.15 %, 0.3 %] or [0.0015, 0.003]"
		if n.kind != list || len(n.items) != 2 {
			s.add("growth", "%s", form)
			return false
		}
		for i, item := range n.items {
			text, percent := strings.CutSuffix(strings.TrimSpace(item.text), "%")
			f, ok := decimal(strings.TrimSpace(text))
			if percent {
				f /= 100
			}
			if item.kind != scalar || !ok || f > 0.03 {
				r.add(item.place, entry(path, i), "%q is no such part; %s, at most 3 %%", shorten(item.text), form)
				return false
			}
			a.Growth[i] = f
		}
		return true
	})
}

func (r *reader) slivers(s *section) {
	defer s.close()
	l := &r.job.Slivers
	s.length("width", &l.Width)
	s.size("area", &l.Area)
	s.truth("merge", &l.Merge)
}

func (r *reader) buying(s *section) {
	defer s.close()
	s.count("spares", &r.job.Buying.Spares)
	s.count("pack", &r.job.Buying.ScrewPack)
}
