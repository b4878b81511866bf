package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
	"rodsheet/template/typeset"
)

// A rod is a strip with running marks, laid out lying: along a run from the left, or up a height from below.
type rod struct {
	name, title, what string
	start             string // where it starts, in words
	hint              string
	notes             []string // said on the first piece
	marks             []rodMark
	bands             []rodBand // studs, behind the marks
	up                bool      // a height: its right end is up
	fromLine          bool      // marks are read from the marked line too
	high              geom.Length
}

// A rodMark is one line across the strip.
type rodMark struct {
	at   geom.Length // what the tape reads there
	name string
	pen  drawing.Pen
	aids bool // stands beside the run's own marks: it makes the rod no longer
}

// A rodBand is wood behind the lining.
type rodBand struct{ from, to geom.Length }

// The strip: a rule along its lower edge, words above it.
const (
	rodLeast  = 48 * mm // how high: the words about the next piece stand upright past its end
	rodMost   = 66 * mm
	rodLine   = 10 * mm                       // how far a mark goes in from the lower edge
	rodLead   = 4 * mm                        // from there to its words, which stand apart where marks are near each other
	rodTick   = 2 * mm                        // a mark's end at the upper edge
	rodBeside = 6*mm + rodLine + rodLead + mm // what stands above and below a mark's words
	rodWords  = rodMost - rodBeside
	rodPitch  = 4 * mm  // between words
	rodGap    = 6 * mm  // between strips on a page
	rodLap    = 10 * mm // paper past the cut, to lie under the next piece
	rodMargin = 12 * mm // before the first mark and after the last
)

// rods are the strips of every run, and of every different set of heights.
func (m *maker) rods() []drawing.Sheet {
	var rods []rod
	for i := range m.plan.Runs {
		rods = append(rods, m.runRod(&m.plan.Runs[i]))
	}
	seen := map[string]int{}
	runs := map[int][]string{} // of the rods of heights
	for i := range m.plan.Runs {
		r := m.heightRod(&m.plan.Runs[i])
		k := fmt.Sprint(r.marks)
		at, ok := seen[k]
		if !ok {
			at = len(rods)
			seen[k] = at
			rods = append(rods, r)
		}
		runs[at] = append(runs[at], m.plan.Runs[i].Name)
	}
	for at := range rods {
		r, list := &rods[at], runs[at]
		if list == nil {
			continue
		}
		r.what = "run " + list[0]
		if len(list) > 1 {
			r.what = "runs " + strings.Join(finding.Ranges(list), ", ")
		}
		r.title += " of run " + list[0]
		if len(list) > 1 {
			r.title = fmt.Sprintf("Rod of heights of run %s and %d more", list[0], len(list)-1)
		}
		if whole := "Rod of heights of " + r.what; len(whole) < 40 {
			r.title = whole // the strips are cut apart, so each says what it is of
		}
	}
	var out []drawing.Sheet
	for _, r := range rods {
		if len(r.marks) == 0 {
			continue
		}
		out = append(out, m.strip(drawing.Sheet{Kind: Rod, Name: r.name, Title: r.title, For: r.what, Hint: r.hint}, r))
	}
	return out
}

// runRod carries panel edges, clip columns and studs.
func (m *maker) runRod(r *layout.Run) rod {
	w := &m.plan.Walls[r.Wall]
	out := rod{
		name: "rod " + r.Name, title: "Rod of run " + r.Name, what: "wall " + w.Job.Name + ", panels " + m.panelNames(r.Panels),
		start: "reads from " + wallFrom(w.Job.Name),
		hint:  "Hold it level, each mark where the tape reads its number.",
	}
	if !m.options.Whole {
		out.hint += " Cut full lines; leave paper past dashed ends."
	}
	for _, i := range r.Panels {
		p := &m.plan.Panels[i]
		b := p.Finished.Bounds()
		out.add(b.Min.X, p.Name+" left", drawing.Wide)
		out.add(b.Max.X, p.Name+" right", drawing.Wide)
		for _, c := range p.Clips {
			out.add(c.Wall.X, p.Name+" clips", drawing.Centre)
		}
	}
	for _, s := range w.Members {
		if !s.Rail && s.Body.Max.X > r.Bounds.Min.X-rodMargin && s.Body.Min.X < r.Bounds.Max.X+rodMargin {
			out.bands = append(out.bands, rodBand{s.Body.Min.X, s.Body.Max.X})
			for _, x := range []geom.Length{s.Body.Min.X, s.Body.Max.X} {
				out.marks = append(out.marks, rodMark{x, "stud", drawing.Hidden, true})
			}
		}
	}
	out.sort()
	return out
}

// heightRod carries deck, cushion, panel edges, clip rows and sill.
func (m *maker) heightRod(r *layout.Run) rod {
	out := rod{
		name: "rod height " + r.Name, title: "Rod of heights", what: "run " + r.Name, up: true,
		start: "reads from zero", fromLine: m.plan.Job.Line > 0,
		hint: "Stand it plumb, right end up, a mark where the tape reads its number above zero.",
	}
	if out.fromLine {
		out.hint = "Stand it plumb, right end up, each mark at its height above zero, or by the marked line."
		out.marks = append(out.marks, rodMark{m.plan.Job.Line, "the marked line", drawing.Centre, true})
	}
	if h := r.Band; h != nil {
		if h.HasDeck {
			ends := []string{"", ""}
			if h.Deck[1] != h.Deck[0] {
				ends = []string{", left", ", right"}
			}
			for i, end := range ends {
				out.add(h.Deck[i], "deck"+end, drawing.Wide)
				if h.Cushion > 0 {
					out.add(h.Deck[i]+h.Cushion, "cushion"+end, drawing.Narrow)
				}
			}
		}
		if h.HasSill {
			out.add(h.Sill, "sill", drawing.Wide)
		}
	}
	// Marks that all panels of the run share don't name them.
	sharing := map[rodMark][]int{}
	var order []rodMark
	share := func(panel int, at geom.Length, name string, pen drawing.Pen) {
		k := rodMark{at: at, name: name, pen: pen}
		if sharing[k] == nil {
			order = append(order, k)
		}
		if !slices.Contains(sharing[k], panel) {
			sharing[k] = append(sharing[k], panel)
		}
	}
	for _, i := range r.Panels {
		p := &m.plan.Panels[i]
		b := p.Finished.Bounds()
		share(i, b.Min.Y, "bottom", drawing.Wide)
		share(i, b.Max.Y, "top", drawing.Wide)
		for _, c := range p.Clips {
			share(i, c.Wall.Y, "clips", drawing.Centre)
		}
	}
	for _, k := range order {
		name := k.name + " " + m.plan.PanelNames(sharing[k])
		switch {
		case len(sharing[k]) < len(r.Panels):
		case k.name == "clips":
			name = "clips"
		default:
			name = "panel " + k.name
		}
		out.add(k.at, name, k.pen)
	}
	out.sort()
	return out
}

// add puts a mark on, once for each place and name.
func (r *rod) add(at geom.Length, name string, pen drawing.Pen) {
	for _, m := range r.marks {
		if m.at == at && m.name == name {
			return
		}
	}
	r.marks = append(r.marks, rodMark{at: at, name: name, pen: pen})
}

// ends are where the strip begins and ends.
func (r *rod) ends() (from, to geom.Length) {
	first := true
	for _, m := range r.marks {
		if m.aids {
			continue
		}
		if first {
			from, to, first = m.at, m.at, false
		}
		from, to = min(from, m.at), max(to, m.at)
	}
	return from - rodMargin, to + rodMargin
}

func (r *rod) sort() {
	slices.SortStableFunc(r.marks, func(a, b rodMark) int { return cmp.Compare(a.at, b.at) })
}

// highRod is how high a rod must be for the words of its marks, so that a page holds as many pieces as it can.
func (m *maker) highRod(r rod) geom.Length {
	if len(r.notes) > 0 {
		return rodMost
	}
	longest := geom.Length(0)
	for _, mark := range r.marks {
		longest = max(longest, font.Width(m.markWords(mark), small, mark.pen == drawing.Wide))
	}
	return min(rodMost, max(rodLeast, longest+mm+rodBeside))
}

// markWords are what stands at a mark.
func (m *maker) markWords(mark rodMark) string { return m.read(mark.at) + " " + mark.name }

// lineWords are what a mark reads from the marked line; "" on rods that don't say, and for the line itself.
func (m *maker) lineWords(r rod, mark rodMark) string {
	if !r.fromLine || mark.at == m.plan.Job.Line {
		return ""
	}
	return m.fromLine(mark.at)
}

// rodPages cuts a rod into pieces as long as a page is wide and stacks them. Cuts keep off the marks where they can.
func (m *maker) rodPages(r rod) []drawing.Drawing {
	field := m.options.Field
	r.high = m.highRod(r)
	long := field.W - rodLap
	from, end := r.ends()
	var pieces []geom.Span
	for from < end {
		to := end
		if n := (end - from + long - 1) / long; n > 1 { // as many pieces as must be, of about one length
			to = r.cut(from, from+min(long, (end-from)/n+12*mm))
		}
		if pc := (geom.Span{From: from, To: to}); len(r.on(pc)) > 0 {
			pieces = append(pieces, pc)
		}
		from = to
	}
	each := max(1, int((field.H+rodGap)/(r.high+rodGap)))
	var out []drawing.Drawing
	for i := range pieces {
		if i%each == 0 {
			out = append(out, drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(field.W, field.H)}})
		}
		d := &out[len(out)-1]
		y := field.H - geom.Length(i%each)*(r.high+rodGap) - r.high
		m.rodPiece(d, r, geom.Pt(-pieces[i].From, y), pieces, i)
	}
	return out
}

// cut moves a cut down to a place at least 6 mm from every mark, if there is one in the upper half of the piece.
func (r rod) cut(from, to geom.Length) geom.Length {
	const off = 6 * mm
	for at := to; at > (from+to)/2; {
		near := slices.IndexFunc(r.marks, func(m rodMark) bool { return (m.at - at).Abs() < off })
		if near < 0 {
			return at
		}
		at = r.marks[near].at - off
	}
	return to
}

// on are the marks that stand on a piece.
func (r rod) on(piece geom.Span) (in []rodMark) {
	for _, mark := range r.marks {
		if mark.at >= piece.From && mark.at < piece.To {
			in = append(in, mark)
		}
	}
	return in
}

// rodPiece draws one of the pieces of a rod; o moves readings to the page. Where a stretch without a mark is left out, no
// paper joins the pieces: the tape says where the next one begins.
func (m *maker) rodPiece(d *drawing.Drawing, r rod, o geom.Point, pieces []geom.Span, i int) {
	from, to := pieces[i].From, pieces[i].To
	n, of := i+1, len(pieces)
	joined := n < of && pieces[n].From == to
	at := func(x, y geom.Length) geom.Point { return geom.Pt(x, y).Add(o) }
	for _, b := range r.bands {
		lo, hi := max(b.from, from), min(b.to, to)
		if lo >= hi {
			continue
		}
		d.Add(drawing.Path{Points: geom.R(lo, 0, hi, r.high).Add(o).Polygon(), Closed: true, Fill: drawing.Pale})
	}
	in := r.on(pieces[i])
	m.rodRule(d, o, from, to, in)
	// The strip's edges are cut; paper is left past an end that the next piece lies on.
	right := drawing.Line{From: at(to, 0), To: at(to, r.high), Pen: drawing.Hidden, Role: drawing.Guide}
	if !joined {
		right.Pen, right.Role = drawing.Narrow, drawing.Cut
	}
	d.Add(
		drawing.Line{From: at(from, 0), To: at(to, 0), Pen: drawing.Narrow, Role: drawing.Cut},
		drawing.Line{From: at(from, r.high), To: at(to, r.high), Pen: drawing.Narrow, Role: drawing.Cut},
		drawing.Line{From: at(from, 0), To: at(from, r.high), Pen: drawing.Narrow, Role: drawing.Cut},
		right,
	)
	words := r.title + " · " + r.start
	if of > 1 {
		words = fmt.Sprintf("%s · piece %d of %d · %s", r.title, n, of, r.start)
	}
	if r.up {
		words += " · UP →"
	}
	d.Add(drawing.Text{At: at(from+3*mm, r.high-5*mm), String: words, Height: small, Halo: true})
	switch {
	case joined:
		d.Add(drawing.Text{At: at(to+4*mm, r.high/2), String: fmt.Sprintf("leave this: piece %d lies on it", n+1), Height: small, Anchor: drawing.Middle, Turn: 90})
	case n < of:
		d.Add(drawing.Text{At: at(to+4*mm, r.high/2), String: fmt.Sprintf("piece %d begins at %s", n+1, m.read(pieces[n].From)), Height: small, Anchor: drawing.Middle, Turn: 90})
	}
	m.rodMarks(d, r, o, from, to, in)
	if n > 1 {
		return
	}
	y := r.high - 10*mm
	for _, note := range r.notes {
		x := from + rodMargin + 12*mm
		for _, line := range font.Wrap(note, small, false, to-x-2*mm) {
			d.Add(drawing.Text{At: at(x, y), String: line, Height: small, Halo: true})
			y -= linePitch
		}
	}
}

// rodMarks draws the marks with their words. Marks at one place share a line and have their words side by side.
func (m *maker) rodMarks(d *drawing.Drawing, r rod, o geom.Point, from, to geom.Length, in []rodMark) {
	high := r.high
	at := func(x, y geom.Length) geom.Point { return geom.Pt(x, y).Add(o) }
	places := make([]geom.Length, len(in))
	for i, mark := range in {
		places[i] = mark.at
	}
	pitch := rodPitch
	if r.fromLine {
		pitch = 2 * rodPitch
	}
	for i, x := range typeset.Spread(places, pitch, from+pitch/2, to-pitch/2) {
		mark := in[i]
		words := m.markWords(mark)
		bold := mark.pen == drawing.Wide
		d.Add(
			drawing.Line{From: at(mark.at, 0), To: at(mark.at, rodLine), Pen: mark.pen, Role: drawing.Guide},
			drawing.Line{From: at(mark.at, high-rodTick), To: at(mark.at, high), Pen: mark.pen, Role: drawing.Guide},
			drawing.Line{From: at(mark.at, rodLine), To: at(x, rodLine+rodLead), Pen: drawing.Hair},
			drawing.Text{
				At: at(x, rodLine+rodLead+mm), String: font.Truncate(words, small, bold, high-rodBeside), Height: small, Bold: bold,
				Turn: 90, Level: drawing.Halfway, Halo: true,
			},
		)
		if line := m.lineWords(r, mark); line != "" {
			d.Add(drawing.Text{At: at(x+rodPitch, rodLine+rodLead+mm), String: line, Height: small, Turn: 90, Level: drawing.Halfway, Halo: true})
		}
	}
}

// rodRule is the graduated lower edge. A number that a mark would run through is left out: the mark has its own.
func (m *maker) rodRule(d *drawing.Drawing, o geom.Point, from, to geom.Length, marks []rodMark) {
	fine, mid, numbered := 5*mm, 10*mm, 50*mm
	if m.plan.Job.Units == geom.Imperial {
		fine, mid, numbered = geom.Inch/4, geom.Inch/2, geom.Inch
	}
	for x := from.Ceil(fine); x <= to; x += fine {
		h := 2 * mm
		if x%mid == 0 {
			h = 3 * mm
		}
		if x%numbered == 0 {
			h = 5 * mm
			number := x.Bare(m.plan.Job.Units)
			half := font.Width(number, small, false)/2 + mm/2
			at := max(from+half, min(x, to-half)) // whole, also at the strip's ends
			if !slices.ContainsFunc(marks, func(m rodMark) bool { return (m.at - at).Abs() < half }) {
				d.Add(drawing.Text{At: geom.Pt(at, 6*mm).Add(o), String: number, Height: small, Anchor: drawing.Middle})
			}
		}
		d.Add(drawing.Line{From: geom.Pt(x, 0).Add(o), To: geom.Pt(x, h).Add(o), Pen: drawing.Hair, Role: drawing.Guide})
	}
}
