package sheet

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/lettering"
	"rodsheet/template/plan"
)

// A rod is a strip with running marks, laid out lying: along a run from the left, or up a height from below.
type rod struct {
	name, title, what string
	start             string // where it starts, in words
	hint              string
	marks             []rodMark
	bands             []rodBand // studs and rails, behind the marks
	up                bool      // a height: its right end is up
}

// A rodMark is one line across the strip.
type rodMark struct {
	at   geom.Length // what the tape reads there
	name string
	pen  drawing.Pen
}

// A rodBand is wood behind the lining.
type rodBand struct{ from, to geom.Length }

// The strip: a rule along its lower edge, words above it.
const (
	rodHigh   = 66 * mm
	rodRule   = 9 * mm
	rodGap    = 8 * mm  // between strips on a leaf
	rodLap    = 10 * mm // paper past the cut, to lie under the next piece
	rodMargin = 12 * mm // before the first mark and after the last
)

// rods are the strips of every run, and of every different set of heights.
func (m *maker) rods() []Sheet {
	var rods []rod
	for i := range m.plan.Runs {
		rods = append(rods, m.runRod(&m.plan.Runs[i]))
	}
	seen := map[string]int{}
	for i := range m.plan.Runs {
		r := m.heightRod(&m.plan.Runs[i])
		k := fmt.Sprint(r.marks)
		if at, ok := seen[k]; ok {
			rods[at].what += ", " + m.plan.Runs[i].Name
			continue
		}
		seen[k] = len(rods)
		rods = append(rods, r)
	}
	var out []Sheet
	for _, r := range rods {
		if len(r.marks) == 0 {
			continue
		}
		out = append(out, Sheet{
			Kind: Rod, Name: r.name, Title: r.title, For: r.what, Lay: Leaf, Side: NoSide, Hint: r.hint,
			Drawings: m.rodLeaves(r),
		})
	}
	return out
}

// runRod carries panel edges, clip columns and studs.
func (m *maker) runRod(r *plan.Run) rod {
	w := &m.plan.Walls[r.Wall]
	out := rod{
		name: "rod " + r.Name, title: "Rod of run " + r.Name, what: "wall " + w.Job.Name + ", panels " + m.panelNames(r.Panels),
		start: "reads from " + wallFrom(w.Job.Name),
		hint:  "Hold it level on the wall, a mark where the tape reads its number. Cut on the lines; each piece can be set by measure alone.",
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
		if !s.Rail && s.Body.Max.X > r.Bounds.Min.X && s.Body.Min.X < r.Bounds.Max.X {
			out.bands = append(out.bands, rodBand{s.Body.Min.X, s.Body.Max.X})
		}
	}
	out.sort()
	return out
}

// heightRod carries deck, cushion, panel edges, clip rows and sill.
func (m *maker) heightRod(r *plan.Run) rod {
	out := rod{
		name: "rod height " + r.Name, title: "Rod of heights", what: "run " + r.Name, up: true,
		start: "reads from the level line",
		hint:  "Stand it plumb, right end up, a mark where the tape reads its number above the level line.",
	}
	if h := r.Band; h != nil {
		if h.HasDeck {
			out.add(h.Deck[0], "deck", drawing.Wide)
			if h.Deck[1] != h.Deck[0] {
				out.add(h.Deck[1], "deck, right end", drawing.Wide)
			}
			if h.Cushion > 0 {
				out.add(h.Deck[0]+h.Cushion, "cushion", drawing.Narrow)
			}
		}
		if h.HasSill {
			out.add(h.Sill, "sill", drawing.Wide)
		}
	}
	for _, i := range r.Panels {
		p := &m.plan.Panels[i]
		b := p.Finished.Bounds()
		out.add(b.Min.Y, "panel bottom", drawing.Wide)
		out.add(b.Max.Y, "panel top", drawing.Wide)
		for _, c := range p.Clips {
			out.add(c.Wall.Y, "clips", drawing.Centre)
		}
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
	r.marks = append(r.marks, rodMark{at, name, pen})
}

func (r *rod) sort() {
	slices.SortStableFunc(r.marks, func(a, b rodMark) int { return cmp.Compare(a.at, b.at) })
}

// rodLeaves cuts a rod into pieces as long as a leaf is wide and stacks them. Cuts keep off the marks where they can.
func (m *maker) rodLeaves(r rod) []drawing.Drawing {
	field := m.options.Field
	long := field.W - rodLap
	from, end := r.marks[0].at-rodMargin, r.marks[len(r.marks)-1].at+rodMargin
	type piece struct{ from, to geom.Length }
	var pieces []piece
	for from < end {
		to := end
		if n := (end - from + long - 1) / long; n > 1 { // as many pieces as must be, of about one length
			to = r.cut(from, from+min(long, (end-from)/n+12*mm))
		}
		pieces = append(pieces, piece{from, to})
		from = to
	}
	each := max(1, int((field.H+rodGap)/(rodHigh+rodGap)))
	var out []drawing.Drawing
	for i, pc := range pieces {
		if i%each == 0 {
			out = append(out, drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(field.W, field.H)}})
		}
		d := &out[len(out)-1]
		y := field.H - geom.Length(i%each)*(rodHigh+rodGap) - rodHigh
		m.rodPiece(d, r, geom.Pt(-pc.from, y), pc.from, pc.to, i+1, len(pieces))
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

// rodPiece draws the strip from..to; o moves readings to the leaf.
func (m *maker) rodPiece(d *drawing.Drawing, r rod, o geom.Point, from, to geom.Length, n, of int) {
	at := func(x, y geom.Length) geom.Point { return geom.Pt(x, y).Add(o) }
	for _, b := range r.bands {
		lo, hi := max(b.from, from), min(b.to, to)
		if lo >= hi {
			continue
		}
		d.Add(drawing.Path{Points: geom.R(lo, 0, hi, rodHigh).Add(o).Polygon(), Closed: true, Fill: drawing.Pale})
		for _, x := range []geom.Length{b.from, b.to} {
			if x >= from && x <= to {
				d.Add(drawing.Line{From: at(x, 0), To: at(x, rodHigh), Pen: drawing.Hidden, Role: drawing.Guide})
			}
		}
		if hi-lo > 8*mm {
			d.Add(drawing.Text{At: at((lo+hi)/2, rodRule+3*mm), String: "stud", Height: small, Anchor: drawing.Middle, Halo: true})
		}
	}
	m.rodRule(d, o, from, to)
	// The strip's edges: cut on both ends, except at the rod's own.
	d.Add(
		drawing.Line{From: at(from, 0), To: at(to, 0), Pen: drawing.Narrow, Role: drawing.Cut},
		drawing.Line{From: at(from, rodHigh), To: at(to, rodHigh), Pen: drawing.Narrow, Role: drawing.Cut},
		drawing.Line{From: at(from, 0), To: at(from, rodHigh), Pen: drawing.Narrow, Role: drawing.Cut},
		drawing.Line{From: at(to, 0), To: at(to, rodHigh), Pen: drawing.Hidden, Role: drawing.Guide},
	)
	words := fmt.Sprintf("%s · piece %d of %d · %s", r.title, n, of, r.start)
	if r.up {
		words += " · UP →"
	}
	d.Add(drawing.Text{At: at(from+3*mm, rodHigh-5*mm), String: words, Height: small, Halo: true})
	if n < of {
		d.Add(drawing.Text{At: at(to+4*mm, rodHigh/2), String: fmt.Sprintf("piece %d on top", n+1), Height: small, Anchor: drawing.Middle, Turn: 90})
	}
	var in []rodMark
	for _, mark := range r.marks {
		if mark.at >= from && mark.at < to {
			in = append(in, mark)
		}
	}
	for i, mark := range in {
		d.Add(drawing.Line{From: at(mark.at, 0), To: at(mark.at, rodHigh-8*mm), Pen: mark.pen, Role: drawing.Guide})
		// The words stand on the right of their line, on the left when the next line is too near.
		off := 35 * mm / 10
		if i+1 < len(in) && in[i+1].at-mark.at < 5*mm || mark.at+5*mm > to {
			off = -1 * mm
		}
		d.Add(drawing.Text{At: at(mark.at+off, rodRule+7*mm), String: m.read(mark.at) + " " + mark.name, Height: small, Bold: mark.pen == drawing.Wide, Turn: 90, Halo: true})
	}
}

// rodRule is the graduated lower edge.
func (m *maker) rodRule(d *drawing.Drawing, o geom.Point, from, to geom.Length) {
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
			half := lettering.Width(number, small, false)/2 + mm/2
			at := max(from+half, min(x, to-half)) // whole, also at the strip's ends
			d.Add(drawing.Text{At: geom.Pt(at, 6*mm).Add(o), String: number, Height: small, Anchor: drawing.Middle})
		}
		d.Add(drawing.Line{From: geom.Pt(x, 0).Add(o), To: geom.Pt(x, h).Add(o), Pen: drawing.Hair, Role: drawing.Guide})
	}
}
