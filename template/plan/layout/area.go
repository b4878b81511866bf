package layout

import (
	"cmp"
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// A piece is what will be one panel of an area: its finished outline, and the first and last column that it covers.
type piece struct {
	outline     geom.Polygon
	first, last int
}

// An area is a run's polygon on the way to its panels.
type area struct {
	covers  []geom.Polygon // the area less the ends all round
	columns []column
	cut     []geom.Rect // openings and fittings with the gap round them
	gap     geom.Length
}

// layArea makes the panels of a run that covers a polygon. The area, less the ends all round, is divided by upright
// strips, one in each gap of a row of the same span; then openings and fittings that reach into it are taken out with
// the run's gap round them. So only widths between divisions come to whole saw steps, all other edges are exact.
func (p *planner) layArea(run *Run, problems *job.Problems) []Panel {
	r := run.Job
	run.Bounds = r.Area.Bounds()
	columns, gaps, ok := p.divide(r, run.Bounds.Min.X, run.Bounds.Max.X, problems)
	if !ok {
		return nil
	}
	run.Gaps = gaps
	a := area{covers: []geom.Polygon{r.Area}, columns: columns, cut: p.inside(r, p.Walls[len(p.Walls)-1].Job), gap: r.Gap}
	if r.Ends > 0 {
		inner, err := r.Area.Offset(-r.Ends, geom.DefaultMitre)
		if err != nil || len(inner) == 0 {
			problems.Add(r.Key+".ends", "ends of %s leave nothing of the area, which is %s wide and %s high",
				p.read(r.Ends), p.read(run.Bounds.W()), p.read(run.Bounds.H()))
			return nil
		}
		a.covers = inner
	}
	var pieces []piece
	for i := range columns {
		for _, q := range a.between(i, i) {
			pieces = append(pieces, piece{q, i, i})
		}
	}
	if p.Job.Slivers.Merge {
		pieces = p.mergeSlivers(&a, pieces)
	}
	panels := p.panelsOf(run, pieces)
	if len(panels) == 0 {
		problems.Add(r.Key+".area", "openings, gaps and the cover on each edge leave nothing of the area that could be a panel")
	}
	p.seatArea(run, panels)
	return panels
}

// seatArea gives an area the deck that its blocks stand on.
func (p *planner) seatArea(run *Run, panels []Panel) {
	if !run.Job.Band.HasSeat || len(panels) == 0 {
		return
	}
	h := &Heights{HasDeck: true, Deck: run.Job.Band.Seat}
	for i := range panels {
		b := panels[i].Finished.Bounds()
		if i == 0 {
			h.Bottom, h.Top = b.Min.Y, b.Max.Y
		}
		h.Bottom, h.Top = min(h.Bottom, b.Min.Y), max(h.Top, b.Max.Y)
	}
	h.GapBelow = h.Bottom - h.high()
	run.Band = h
	p.checkDeck(run)
}

// inside are the openings and fittings that reach into the run's area, with its gap round each.
func (p *planner) inside(r *job.Run, wall *job.Wall) (cut []geom.Rect) {
	bounds := r.Area.Bounds()
	add := func(body geom.Rect) {
		if bounds.InteriorIntersects(body) && len(r.Area.Clip(body)) > 0 {
			cut = append(cut, body.Inset(-r.Gap))
		}
	}
	for i := range wall.Openings {
		add(wall.Openings[i].Rect)
	}
	for i := range wall.Fittings {
		add(wall.Fittings[i].Rect)
	}
	return cut
}

// between is what the area has from one column to another, in pieces without holes.
func (a *area) between(first, last int) (pieces []geom.Polygon) {
	for _, q := range a.covers {
		parts := []geom.Polygon{q}
		if first > 0 {
			parts = each(parts, func(q geom.Polygon) []geom.Polygon { return q.RightOf(a.columns[first].left) })
		}
		if last < len(a.columns)-1 {
			parts = each(parts, func(q geom.Polygon) []geom.Polygon { return q.LeftOf(a.columns[last].right) })
		}
		pieces = append(pieces, parts...)
	}
	return each(pieces, func(q geom.Polygon) []geom.Polygon { return q.Without(a.gap, a.cut...) })
}

func each(pieces []geom.Polygon, do func(geom.Polygon) []geom.Polygon) (out []geom.Polygon) {
	for _, q := range pieces {
		out = append(out, do(q)...)
	}
	return out
}

// small reports whether a piece is narrower or lower than the least that is to be made, or covers less.
func (p *planner) small(q geom.Polygon) bool { return p.narrow(q) || p.scant(q) }

func (p *planner) narrow(q geom.Polygon) bool {
	b := q.Bounds()
	return min(b.W(), b.H()) < p.Job.Slivers.Width
}

func (p *planner) scant(q geom.Polygon) bool {
	least := p.Job.Slivers.Area
	return q.TwiceArea().Cmp(geom.Cross(geom.Pt(2*least.W, 0), geom.Pt(0, least.H))) < 0
}

// mergeSlivers joins pieces that are too small with what stands beside them, left before right. A piece that can't be
// joined, as one over an opening, stays.
func (p *planner) mergeSlivers(a *area, pieces []piece) []piece {
	for i := 0; i < len(pieces); {
		next, merged := pieces, false
		if p.small(pieces[i].outline) {
			next, merged = p.mergeSliver(a, pieces, i)
		}
		if pieces = next; merged {
			i = 0
			continue
		}
		i++
	}
	return pieces
}

func (p *planner) mergeSliver(a *area, pieces []piece, sliver int) ([]piece, bool) {
	s := pieces[sliver]
	for _, step := range []int{-1, 1} {
		for k := range pieces {
			n := pieces[k]
			if step < 0 && n.last != s.first-1 || step > 0 && n.first != s.last+1 {
				continue
			}
			first, last := min(s.first, n.first), max(s.last, n.last)
			for _, whole := range a.between(first, last) {
				if !holds(whole, s.outline) || !holds(whole, n.outline) {
					continue
				}
				if rest, ok := a.replace(pieces, piece{p.toSawStep(a, whole, first, last), first, last}, whole); ok {
					return rest, true
				}
			}
		}
	}
	return pieces, false
}

// replace puts a merged piece in place of all that it holds. It declines when the merged piece also reaches into
// some piece that it does not hold.
func (a *area) replace(pieces []piece, merged piece, whole geom.Polygon) (rest []piece, ok bool) {
	left := whole.Area()
	for _, q := range pieces {
		if merged.first <= q.first && q.last <= merged.last && holds(whole, q.outline) {
			left -= q.outline.Area()
			continue
		}
		rest = append(rest, q)
	}
	for i := merged.first; i < merged.last; i++ {
		strip := geom.R(a.columns[i].right, whole.Bounds().Min.Y, a.columns[i+1].left, whole.Bounds().Max.Y)
		for _, q := range whole.Clip(strip) {
			left -= q.Area()
		}
	}
	if left > 1e-6*whole.Area() {
		return pieces, false
	}
	at, _ := slices.BinarySearchFunc(rest, merged, func(x, y piece) int { return cmp.Compare(x.first, y.first) })
	return slices.Insert(rest, at, merged), true
}

// Holds reports whether q lies in p, give or take the rounding of cuts on sloped edges.
func holds(p, q geom.Polygon) bool {
	for _, pt := range q {
		if !p.ContainsPoint(pt) && p.DistanceTo(pt) > 2 {
			return false
		}
	}
	return true
}

// toSawStep takes as much off the right of a merged piece between two divisions as makes its board whole saw steps
// wide; the gap there grows by it.
func (p *planner) toSawStep(a *area, q geom.Polygon, first, last int) geom.Polygon {
	if first == 0 || last == len(a.columns)-1 {
		return q
	}
	width := a.columns[last].right - a.columns[first].left
	over := (width - 2*p.Edge) % p.sawStep()
	return one(q.LeftOf(a.columns[last].right-over), q)
}

// Sliver: a finished panel is narrower, or covers less, than slivers.
type Sliver struct {
	Panel geom.Size
	Width geom.Length // it is narrower than this
	Area  geom.Size   // it covers less than this, where it is not too narrow
}

// ID implements [finding.Params].
func (Sliver) ID() string { return "sliver" }

// NoBoard: a piece of an area is too small for a board.
type NoBoard struct {
	Piece
	Edge geom.Length // of cover on each side
}

// ID implements [finding.Params].
func (NoBoard) ID() string { return "no-board" }

// BoardParts: the board of a piece falls apart.
type BoardParts struct {
	Piece
	Neck  geom.Length // where the piece is narrower than this
	Parts int
}

// ID implements [finding.Params].
func (BoardParts) ID() string { return "board-parts" }

// A Piece is where a piece of an area is on its wall.
type Piece struct{ Across, Up geom.Span }

// panelsOf names the pieces and gives them their boards. Pieces of one column are a, b, … from below; columns are
// counted from the left as far as they hold a panel.
func (p *planner) panelsOf(run *Run, pieces []piece) (panels []Panel) {
	slices.SortStableFunc(pieces, func(x, y piece) int {
		return cmp.Or(cmp.Compare(x.first, y.first), cmp.Compare(x.outline[0].Y, y.outline[0].Y), cmp.Compare(x.outline[0].X, y.outline[0].X))
	})
	var boards []geom.Polygon
	kept := pieces[:0:0]
	for _, q := range pieces {
		if board := p.boardIn(run, q.outline); board != nil {
			kept, boards = append(kept, q), append(boards, board)
		}
	}
	number, letter := 0, 0
	for i, q := range kept {
		starts := i == 0 || kept[i-1].first != q.first
		alone := starts && (i+1 == len(kept) || kept[i+1].first != q.first)
		if letter++; starts {
			number, letter = number+1, 0
		}
		name := fmt.Sprint(run.Name, number)
		if !alone {
			name += letters(letter, 'a')
		}
		panels = append(panels, Panel{Name: name, Finished: q.outline, Outline: boards[i], Board: -1})
		if b := q.outline.Bounds(); p.small(q.outline) {
			f := Sliver{Panel: b.Size(), Width: p.Job.Slivers.Width}
			if !p.narrow(q.outline) {
				f.Width, f.Area = 0, p.Job.Slivers.Area
			}
			p.found.Add(finding.OfPanels(run.Job.Key, name), DivisionField(run.Job), f)
		}
	}
	return panels
}

// boardIn is the board of a finished outline: the cover inside it on every edge; nil when the cover leaves none.
func (p *planner) boardIn(run *Run, finished geom.Polygon) geom.Polygon {
	if p.Edge == 0 {
		return finished
	}
	parts, err := finished.Offset(-p.Edge, geom.DefaultMitre)
	if err == nil && len(parts) == 1 {
		return parts[0]
	}
	b := finished.Bounds()
	piece := Piece{Across: geom.Span{From: b.Min.X, To: b.Max.X}, Up: geom.Span{From: b.Min.Y, To: b.Max.Y}}
	if err != nil || len(parts) == 0 {
		p.found.Add(run.Subject(), DivisionField(run.Job), NoBoard{piece, p.Edge})
		return nil
	}
	slices.SortStableFunc(parts, func(x, y geom.Polygon) int { return y.TwiceArea().Cmp(x.TwiceArea()) })
	p.found.Add(run.Subject(), run.Job.Key+".area", BoardParts{piece, 2 * p.Edge, len(parts)})
	return parts[0]
}
