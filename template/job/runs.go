package job

import (
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
)

func (r *reader) bands(s *section) {
	if s.n == nil {
		return
	}
	for _, f := range s.n.fields {
		switch {
		case f.name == "":
			r.add(f.place, s.path, "a band needs a name, as in `settle: {bottom: 20, top: 44}`")
		case f.value.kind == empty:
			r.add(f.place, join(s.path, f.name), "nothing is written here; give a value or take the line out")
		case f.value.kind != group:
			r.add(f.value.place, join(s.path, f.name), "%s; expected fields of its own, as in %s", f.value.describe(), r.bandForms())
		default:
			b := r.band(&section{r: r, spec: s.spec, n: f.value, path: join(s.path, f.name)})
			b.Name = f.name
			r.job.Bands = append(r.job.Bands, b)
		}
	}
}

// bandForms shows the ways to write a band.
func (r *reader) bandForms() string {
	band := root.byName["heights"]
	return band.exampleOf(r.units, "bottom", "top") + " or " + band.exampleOf(r.units, "seat", "cushion", "sill", "panel", "gap")
}

func (r *reader) band(s *section) Band {
	defer s.close()
	b := Band{Direct: s.has("bottom") || s.has("top"), Key: s.path}
	r.seat(s, &b)
	switch {
	case b.Direct:
		lower := s.need("bottom") && s.length("bottom", &b.Bottom)
		upper := s.need("top") && s.length("top", &b.Top)
		if lower && upper && b.Top <= b.Bottom {
			s.judge("top", "%s is not above the bottom, %s", r.show(b.Top), r.show(b.Bottom))
		}
	case s.has("seat") || s.has("sill"):
		r.bandOverSeat(s, &b)
	default:
		r.add(s.n.place, s.path, "says not where the band is; write %s", r.bandForms())
	}
	return b
}

// bandOverSeat reads a band that is worked out from the deck, the cushion and what is above.
func (r *reader) bandOverSeat(s *section, b *Band) {
	s.need("seat")
	lies := s.need("cushion") && s.length("cushion", &b.Cushion)
	under := s.length("sill", &b.Sill)
	if deck := max(b.Seat[0], b.Seat[1]); b.HasSeat && lies && under && b.Sill <= deck+b.Cushion {
		s.judge("sill", "%s is not above the cushion, which ends at %s (%s + %s)", r.show(b.Sill), r.show(deck+b.Cushion), r.show(deck), r.show(b.Cushion))
	}
	s.length("panel", &b.Panel)
	b.HasGap = s.length("gap", &b.Gap)
	b.EvenGap = s.word("gap") == "even" || !s.has("gap") && s.has("panel")
	if !s.has("sill") && (!s.has("panel") || !s.has("gap") || b.EvenGap) {
		s.need("sill")
	}
	switch {
	case s.has("panel"):
	case b.EvenGap:
		s.needs("panel", "`gap: even` works the gap out from the panel's height, so give it, or write the gap as a length")
	case !s.has("gap"):
		s.need("panel")
	}
}

func (r *reader) seat(s *section, b *Band) {
	b.Follow = s.choice("deck") == "follow"
	if s.has("deck") && !s.has("seat") {
		s.add("deck", "says nothing without `seat`; give the seat's height, or two readings [left, right]")
	}
	b.Seat, b.HasSeat = r.deck(s)
}

// deck reads the height of a deck, at its two ends where there are two readings.
func (r *reader) deck(s *section) (at [2]geom.Length, given bool) {
	given = s.read("seat", func(f *spec, n *node, path string) (ok bool) {
		if n.kind != list {
			l, ok := r.lengthOf(n, path, f.limits)
			at = [2]geom.Length{l, l}
			return ok
		}
		at, ok = r.pairOf(n, path, f.limits, "expected one height, or two readings at the left and right end, as in [17 1/2, 17 5/8]")
		return ok
	})
	return at, given
}

func (r *reader) run(s *section, w *Wall) Run {
	defer s.close()
	run := Run{Key: s.path}
	if s.need("name") && s.text("name", &run.Name) {
		if line, twice := r.names[run.Name]; twice {
			s.add("name", "a run %q stands already %s; panels are named by their run, so each needs a name of its own", run.Name, line)
		} else {
			r.names[run.Name] = fmt.Sprintf("in line %d", s.at("name").Line)
		}
	}
	if s.has("area") {
		r.area(s, w, &run)
		run.Band = Band{Key: s.path}
		run.Band.Seat, run.Band.HasSeat = r.deck(s)
	} else {
		if s.need("across") {
			r.across(s, w, &run)
		}
		r.runBand(s, w, &run)
	}
	r.dividing(s, &run)
	s.length("gap", &run.Gap)
	s.length("ends", &run.Ends)
	switch s.choice("template") {
	case "corners":
		run.Template = CornerTemplate
	case "whole":
		run.Template = WholeTemplate
	}
	return run
}

func (r *reader) dividing(s *section, run *Run) {
	if !s.has("widths") && s.need("panels") {
		s.count("panels", &run.Panels)
	}
	widths, ok := s.lengths("widths")
	if ok && len(widths) == 0 {
		s.add("widths", "is an empty list; give at least one width")
	}
	if ok {
		run.Widths = widths
	}
}

// acrossForms shows the ways to say where a run begins and ends.
func (r *reader) acrossForms(f *spec) string {
	return fmt.Sprintf("expected where the run begins and ends, as in %s, or several readings, as in [%s, …]",
		f.Example.Of(r.units), f.exampleOf(r.units, "at", "from", "to"))
}

func (r *reader) across(s *section, w *Wall, run *Run) {
	n := s.get("across")
	if n == nil {
		return
	}
	spec, path := s.field("across"), s.key("across")
	if n.kind != list || len(n.items) == 0 || len(n.items) > spec.most {
		s.add("across", "%s", r.acrossForms(spec))
		return
	}
	if n.items[0].kind == scalar {
		if span, ok := r.span(spec, n, path); ok && r.onWall(span, n, path, w) {
			run.Across = []Span{span}
		}
		return
	}
	var spans []Span
	good := true
	for i, item := range n.items {
		span, ok := r.span(spec, item, entry(path, i))
		good = good && ok
		spans = append(spans, span)
	}
	if !good {
		return
	}
	from, to := narrowest(spans)
	if from >= to {
		s.judge("across", "the readings leave nothing between them: the last beginning is %s, the first end %s", r.show(from), r.show(to))
		return
	}
	// A wall's width is its least, so between two side walls that aren't plumb readings at other heights may be wider.
	if r.onWall(Span{From: from, To: to}, n, path, w) {
		run.Across = spans
	}
}

// narrowest is what all spans share; there must be one.
func narrowest(spans []Span) (from, to geom.Length) {
	from, to = spans[0].From, spans[0].To
	for _, span := range spans {
		from, to = max(from, span.From), min(to, span.To)
	}
	return from, to
}

func (r *reader) span(spec *spec, n *node, path string) (Span, bool) {
	var span Span
	switch n.kind {
	case list:
		pair, ok := r.pairOf(n, path, spec.limits, r.acrossForms(spec))
		if !ok {
			return span, false
		}
		span.From, span.To = pair[0], pair[1]
	case group:
		s := &section{r: r, spec: spec, n: n, path: path}
		from := s.need("from") && s.length("from", &span.From)
		to := s.need("to") && s.length("to", &span.To)
		span.HasAt = s.length("at", &span.At)
		s.close()
		if !from || !to {
			return span, false
		}
	default:
		r.add(n.place, path, "%s", r.acrossForms(spec))
		return span, false
	}
	if span.To <= span.From {
		r.judge(n.place, path, "ends at %s, which is not to the right of its beginning, %s", r.show(span.To), r.show(span.From))
		return span, false
	}
	return span, true
}

// onWall reports whether a run is on its wall, or goes past its end no farther than it may; else it says so.
func (r *reader) onWall(span Span, n *node, path string, w *Wall) bool {
	if w.Width > 0 && (span.From < r.reach(0, 0) || span.To > r.reach(1, w.Width) || span.From >= w.Width || span.To <= 0) {
		r.judge(n.place, path, "%s to %s is outside the wall, which is %s wide", r.show(span.From), r.show(span.To), r.show(w.Width))
		return false
	}
	return true
}

// reach is how far to its left (0) or right (1) a run may go that ends at a wall's end: past an outside corner it covers
// the edges of the other run.
func (r *reader) reach(side int, end geom.Length) geom.Length {
	switch {
	case !r.past[side]:
		return end
	case side == 0:
		return end - maxPast
	}
	return end + maxPast
}

func (r *reader) runBand(s *section, w *Wall, run *Run) {
	if !s.needs("height", "name a band of `heights`, or write "+r.bandForms()) {
		return
	}
	switch n := s.get("height"); {
	case n == nil:
		return
	case n.kind == group:
		run.Band = r.band(&section{r: r, spec: s.field("height"), n: n, path: s.key("height")})
	case n.kind == scalar:
		name := strings.TrimSpace(n.text)
		i := slices.IndexFunc(r.job.Bands, func(b Band) bool { return b.Name == name })
		if i < 0 {
			r.unknownBand(s, name)
			return
		}
		run.Band = r.job.Bands[i]
	default:
		s.add("height", "%s; expected the name of a band, or %s", n.describe(), r.bandForms())
		return
	}
	r.bandOnWall(s, w, run)
}

// bandOnWall reports a band that the wall has no room for.
func (r *reader) bandOnWall(s *section, w *Wall, run *Run) {
	upper := max(run.Band.Top, run.Band.Sill)
	if w.Height > 0 && upper > w.Height {
		s.judge("height", "the band goes up to %s, but the wall is %s high", r.show(upper), r.show(w.Height))
		return
	}
	if !run.Band.Direct || len(run.Across) == 0 || w.Outline == nil || w.Outline.IsRectangle() {
		return
	}
	from, to := narrowest(run.Across)
	for _, p := range geom.R(from, run.Band.Bottom, to, run.Band.Top).Polygon() {
		if !w.Outline.ContainsPoint(p) {
			s.judge("height", "the corner [%s, %s] of the run is outside the wall's outline; an `area` can follow a slope",
				p.X.Bare(r.units), p.Y.Bare(r.units))
			return
		}
	}
}

func (r *reader) unknownBand(s *section, name string) {
	if r.problems.Source.Has(join("heights", name)) {
		return // it could not be read, which has been reported
	}
	var known []string
	for _, b := range r.job.Bands {
		known = append(known, b.Name)
	}
	switch near := nearest(name, known); {
	case len(known) == 0:
		s.add("height", "there is no band %q, for `heights` is empty; write %s here or name such a band in `heights`", shorten(name), r.bandForms())
	case near != "":
		s.add("height", "there is no band %q; did you mean %s? The bands are %s", shorten(name), near, strings.Join(known, ", "))
	default:
		s.add("height", "there is no band %q; the bands are %s, or write {bottom: …, top: …} here", shorten(name), strings.Join(known, ", "))
	}
}

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
		path := entry(s.key("area"), i)
		p, _ := r.pairOf(item, path, s.field("area").limits, pointForm)
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
