package job

import (
	"fmt"
	"strings"

	"rodsheet/geom"
)

func (r *reader) bands(s *section) {
	// The names of bands are the person's own, so nothing here is an unknown field.
	if s.n == nil {
		return
	}
	for _, f := range s.n.fields {
		if f.name == "" {
			r.add(f.place, s.path, "a band needs a name, as in `settle: {bottom: 20, top: 44}`")
			continue
		}
		in := s.section(f.name)
		if in.n == nil {
			continue
		}
		b := r.band(in)
		b.Name = f.name
		r.job.Bands = append(r.job.Bands, b)
	}
}

const bandForms = "{bottom: 20, top: 44} or {seat: 17 1/2, cushion: 3 3/4, sill: 33, panel: 8, gap: even}"

func (r *reader) band(s *section) Band {
	defer s.close()
	b := Band{Direct: s.has("bottom") || s.has("top")}
	r.seat(s, &b)
	high := from0(tallest)
	if b.Direct {
		for _, name := range []string{"cushion", "sill", "panel", "gap"} {
			for _, direct := range []string{"bottom", "top"} {
				if s.has(direct) && !s.apart(direct, name, "write "+bandForms) {
					break
				}
			}
			s.get(name)
		}
		lower := s.need("bottom", "measure from the floor to where the finished panel begins") && s.length("bottom", &b.Bottom, high)
		upper := s.need("top", "measure from the floor to where the finished panel ends") && s.length("top", &b.Top, high)
		if lower && upper && b.Top <= b.Bottom {
			s.judge("top", "%s is not above the bottom, %s", r.show(b.Top), r.show(b.Bottom))
		}
		return b
	}
	s.get("bottom")
	s.get("top")
	if !s.has("seat") && !s.has("sill") {
		r.add(s.n.place, s.path, "says not where the band is; write %s", bandForms)
		for _, name := range []string{"cushion", "sill", "panel", "gap"} {
			s.get(name)
		}
		return b
	}
	s.need("seat", "measure from the floor to the hard deck, without the cushion")
	lies := s.need("cushion", "measure how thick the cushion is as it lies; write 0 when there is none") && s.length("cushion", &b.Cushion, from0(geom.Metre))
	under := s.length("sill", &b.Sill, high)
	if deck := max(b.Seat[0], b.Seat[1]); b.HasSeat && lies && under && b.Sill <= deck+b.Cushion {
		s.judge("sill", "%s is not above the cushion, which ends at %s (%s + %s)", r.show(b.Sill), r.show(deck+b.Cushion), r.show(deck), r.show(b.Cushion))
	}
	s.length("panel", &b.Panel, over0(tallest))
	if n := s.get("gap"); n != nil {
		if n.kind == scalar && strings.EqualFold(strings.TrimSpace(n.text), "even") {
			b.EvenGap = true
		} else {
			b.HasGap = s.length("gap", &b.Gap, from0(geom.Metre))
		}
	}
	if !s.has("sill") && (!s.has("panel") || !s.has("gap") || b.EvenGap) {
		s.need("sill", "measure from the floor to the underside of what is above the panels; or give panel and gap as lengths")
	}
	switch {
	case !s.has("panel") && !s.has("gap"):
		s.need("panel", "give the panel's height, or the gap above the cushion; the other is worked out")
	case !s.has("panel") && b.EvenGap:
		s.need("panel", "`gap: even` works the gap out from the panel's height, so give it, or write the gap as a length")
	case !s.has("gap"):
		b.EvenGap = true
	}
	return b
}

func (r *reader) seat(s *section, b *Band) {
	b.Follow = s.choice("deck", "level", "follow") == 1
	if s.has("deck") && !s.has("seat") {
		s.add("deck", "says nothing without `seat`; give the seat's height, or two readings [left, right]")
	}
	n := s.get("seat")
	if n == nil {
		return
	}
	path := join(s.path, "seat")
	if n.kind != list {
		l, ok := r.lengthOf(n, path, from0(tallest))
		b.HasSeat, b.Seat = ok, [2]geom.Length{l, l}
		return
	}
	pair, ok := r.pairOf(n, path, from0(tallest), "expected one height, or two readings at the left and right end, as in [17 1/2, 17 5/8]")
	b.HasSeat, b.Seat = ok, pair
	if most := 2 * geom.Inch; ok && (pair[1]-pair[0]).Abs() > most {
		s.judge("seat", "the two ends of the deck differ by %s; more than %s is a wrong reading or two decks, each with a band of its own",
			r.show((pair[1] - pair[0]).Abs()), r.show(most))
	}
}

func (r *reader) run(s *section, w *Wall) Run {
	defer s.close()
	run := Run{Key: s.path}
	if s.need("name", "panels are named by it, N1, N2, … from the left") && s.text("name", &run.Name, 20) {
		if line, twice := r.names[run.Name]; twice {
			s.add("name", "a run %q stands already %s; panels are named by their run, so each needs a name of its own", run.Name, line)
		} else {
			r.names[run.Name] = fmt.Sprintf("in line %d", s.at("name").Line)
		}
	}
	s.apart("across", "area", "a run is a row between two ends or an area; keep one")
	s.apart("height", "area", "the area has its height; keep one")
	switch {
	case s.has("area"):
		r.area(s, w, &run)
	case s.need("across", "measure where the run begins and ends, from the left end of the wall, as in [2, 94]; or give an `area`"):
		r.across(s, w, &run)
	}
	s.get("across")
	s.get("area")
	r.runBand(s, w, &run)
	r.dividing(s, &run)
	s.length("gap", &run.Gap, from0(12*geom.Inch))
	s.length("ends", &run.Ends, from0(widest))
	run.Template = TemplateKind(max(0, s.choice("template", "auto", "corners", "whole")))
	return run
}

func (r *reader) dividing(s *section, run *Run) {
	s.apart("panels", "widths", "equal panels or given widths; keep one")
	if !s.has("widths") && s.need("panels", "say how many equal panels, or give their `widths`") {
		s.count("panels", &run.Panels, 1, MaxPanels)
	}
	s.get("panels")
	widths, ok := s.lengths("widths", over0(widest), MaxPanels)
	if s.get("widths") != nil && ok && len(widths) == 0 {
		s.add("widths", "is an empty list; give at least one width")
	}
	if ok {
		run.Widths = widths
	}
}

const acrossForm = "expected where the run begins and ends, as in [2, 94], or several readings, as in " +
	"[{at: 20, from: 2, to: 94}, {at: 40, from: 2, to: 93 7/8}]"

func (r *reader) across(s *section, w *Wall, run *Run) {
	n := s.get("across")
	if n == nil {
		return
	}
	path := join(s.path, "across")
	if n.kind != list || len(n.items) == 0 || len(n.items) > most {
		s.add("across", "%s", acrossForm)
		return
	}
	if n.items[0].kind == scalar {
		if span, ok := r.span(n, path, w); ok {
			run.Across = []Span{span}
		}
		return
	}
	var spans []Span
	good := true
	for i, item := range n.items {
		span, ok := r.span(item, fmt.Sprintf("%s[%d]", path, i), w)
		good = good && ok
		spans = append(spans, span)
	}
	if !good {
		return
	}
	from, to := spans[0].From, spans[0].To
	for _, span := range spans {
		from, to = max(from, span.From), min(to, span.To)
	}
	if from >= to {
		s.judge("across", "the readings leave nothing between them: the last beginning is %s, the first end %s", r.show(from), r.show(to))
		return
	}
	run.Across = spans
}

func (r *reader) span(n *node, path string, w *Wall) (Span, bool) {
	var span Span
	switch n.kind {
	case list:
		pair, ok := r.pairOf(n, path, eitherWay(widest), acrossForm)
		if !ok {
			return span, false
		}
		span.From, span.To = pair[0], pair[1]
	case group:
		s := &section{r: r, n: n, path: path}
		from := s.need("from", "measure where the run begins at this height") && s.length("from", &span.From, eitherWay(widest))
		to := s.need("to", "measure where the run ends at this height") && s.length("to", &span.To, eitherWay(widest))
		span.HasAt = s.length("at", &span.At, from0(tallest))
		s.close()
		if !from || !to {
			return span, false
		}
	default:
		r.add(n.place, path, "%s", acrossForm)
		return span, false
	}
	switch {
	case span.To <= span.From:
		r.judge(n.place, path, "ends at %s, which is not to the right of its beginning, %s", r.show(span.To), r.show(span.From))
		return span, false
	case w.Width > 0 && (span.From < r.reach(0, 0) || span.To > r.reach(1, w.Width) || span.From >= w.Width || span.To <= 0):
		r.judge(n.place, path, "%s to %s is outside the wall, which is %s wide", r.show(span.From), r.show(span.To), r.show(w.Width))
		return span, false
	}
	return span, true
}

// reach is how far to its left (0) or right (1) a run may go that ends at a wall's end: past an outside corner it covers
// the edges of the other run.
func (r *reader) reach(side int, end geom.Length) geom.Length {
	switch {
	case !r.past[side]:
		return end
	case side == 0:
		return end - farPast
	}
	return end + farPast
}

func (r *reader) runBand(s *section, w *Wall, run *Run) {
	n := s.get("height")
	if s.has("area") {
		return
	}
	if n == nil {
		s.need("height", "name a band of `heights`, or write "+bandForms)
		return
	}
	switch n.kind {
	case group:
		run.Band = r.band(&section{r: r, n: n, path: join(s.path, "height")})
	case scalar:
		found := false
		var known []string
		for _, b := range r.job.Bands {
			known = append(known, b.Name)
			if b.Name == strings.TrimSpace(n.text) {
				run.Band, found = b, true
			}
		}
		if !found {
			r.unknownBand(s, n.text, known)
			return
		}
	default:
		s.add("height", "%s; expected the name of a band, or %s", n.describe(), bandForms)
		return
	}
	upper := max(run.Band.Top, run.Band.Sill)
	if w.Height > 0 && upper > w.Height {
		s.judge("height", "the band goes up to %s, but the wall is %s high", r.show(upper), r.show(w.Height))
		return
	}
	if run.Band.Direct && len(run.Across) > 0 && w.Outline != nil && !w.Outline.IsRectangle() {
		from, to := run.Across[0].From, run.Across[0].To
		for _, span := range run.Across {
			from, to = max(from, span.From), min(to, span.To)
		}
		for _, p := range geom.R(from, run.Band.Bottom, to, run.Band.Top).Polygon() {
			if !w.Outline.ContainsPoint(p) {
				s.judge("height", "the corner [%s, %s] of the run is outside the wall's outline; an `area` can follow a slope",
					p.X.Bare(r.units), p.Y.Bare(r.units))
				return
			}
		}
	}
}

func (r *reader) unknownBand(s *section, name string, known []string) {
	if s.r.bandBroken(strings.TrimSpace(name)) {
		return
	}
	switch near := nearest(name, known); {
	case len(known) == 0:
		s.add("height", "there is no band %q, for `heights` is empty; write %s here or name such a band in `heights`", shorten(name), bandForms)
	case near != "":
		s.add("height", "there is no band %q; did you mean %s? The bands are %s", shorten(name), near, strings.Join(known, ", "))
	default:
		s.add("height", "there is no band %q; the bands are %s, or write {bottom: …, top: …} here", shorten(name), strings.Join(known, ", "))
	}
}

// bandBroken tells whether the file has a band of that name that could not be read, which has been reported.
func (r *reader) bandBroken(name string) bool { return r.problems.Source.Has("heights." + name) }

func (r *reader) area(s *section, w *Wall, run *Run) {
	area, ok := r.polygon(s, "area")
	if !ok {
		return
	}
	run.Area = area
	if w.Outline == nil {
		return
	}
	items := s.get("area").items
	outside := false
	for i, item := range items {
		path := fmt.Sprintf("%s.area[%d]", s.path, i)
		p, _ := r.pairOf(item, path, eitherWay(widest), pointForm)
		if at := geom.Pt(p[0], p[1]); !w.Outline.ContainsPoint(at) {
			outside = true
			r.judge(item.place, path, "the point [%s, %s] is outside the wall", at.X.Bare(r.units), at.Y.Bare(r.units))
		}
	}
	if !outside && !w.Outline.ContainsPolygon(area) {
		s.judge("area", "reaches across the wall's outline between its corners")
	}
}

// panelNames reports runs whose panels would get the same name: run N has a panel N11 as its eleventh, run N1 as its
// first.
func (r *reader) panelNames() {
	owner := map[string]string{}
	for _, w := range r.job.Walls {
		for _, run := range w.Runs {
			if run.Name == "" {
				continue
			}
			for i := 1; i <= run.count(); i++ {
				name := fmt.Sprintf("%s%d", run.Name, i)
				if other, taken := owner[name]; taken {
					if other != run.Name {
						r.add(r.problems.Source.Of(run.Key+".name"), run.Key+".name",
							"runs %q and %q would both have a panel %s; choose a name that does not end in a digit", other, run.Name, name)
					}
					break
				}
				owner[name] = run.Name
			}
		}
	}
}
