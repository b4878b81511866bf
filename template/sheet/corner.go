package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/lettering"
	"rodsheet/template/plan"
)

// Where a corner jig's corner stands on its page: the flap left of fold b, and the strip between the field's foot and
// fold a (the footer below it folds away with it).
const (
	flap     = 15 * mm
	foldFoot = 5 * mm
	// leastEdge is how much of each edge a jig must show to lie steady against the board.
	leastEdge = 80 * mm
	// jigWords is the least room for the words, above the holes or beside them.
	jigWordsHigh = 78 * mm
	jigWordsWide = 78 * mm
)

// A corner is one corner of one board as seen, with the clips that are drilled from it. Clips that no corner reaches
// are drilled from one edge: then line b takes the place of fold b, and is set by tape.
type corner struct {
	board int         // into Plan.Boards
	name  string      // "lower left"; the end of the edge that line b is measured from
	a, b  string      // names of the edges that folds a and b lie on; b "" for an edge
	no    string      // numbers of the corner, or of the edge's ends, as the board is marked out by; "" on rectangles
	along geom.Length // of line b from that end
	theta float64
	clips []jigClip
	at    int          // the corner's index in the outline as seen, or that of the edge's beginning
	seen  []geom.Point // middles of the clips, as seen
}

func (c corner) onEdge() bool { return c.b == "" }

// A jigClip is a clip in a jig's own frame: the corner at the origin, edge a along x.
type jigClip struct{ base, holes geom.Polygon }

func (jc jigClip) mapped(to geom.Affine) jigClip { return jigClip{jc.base.Map(to), jc.holes.Map(to)} }

// clipOf is a clip's board half in the view's frame.
func (m *maker) clipOf(v view, c *plan.Clip) jigClip {
	return jigClip{v.base(m.plan, c).Polygon(), geom.Polygon(c.BoardHoles).Map(v.to)}
}

// A jig is a page that serves every corner with the same holes.
type jig struct {
	key     string
	corners []corner
}

// corners are the jigs of all boards, and for each board whether they reach all of its holes.
func (m *maker) corners() ([]Sheet, []bool) {
	side := m.boardSide()
	covered := make([]bool, len(m.plan.Boards))
	var jigs []jig
	for i := range m.plan.Boards {
		if m.template(i) == job.WholeTemplate {
			continue
		}
		list, all := m.boardCorners(i, side)
		if !all {
			continue
		}
		covered[i] = true
		for _, c := range list {
			key := c.key()
			at := slices.IndexFunc(jigs, func(j jig) bool { return j.key == key })
			if at < 0 {
				jigs = append(jigs, jig{key: key})
				at = len(jigs) - 1
			}
			jigs[at].corners = append(jigs[at].corners, c)
		}
	}
	var out []Sheet
	for n := range jigs {
		out = append(out, m.jigSheet(jigs, n, side))
	}
	return out, covered
}

// template is what the person wants for a board: that of the first run that uses it and says so.
func (m *maker) template(board int) job.TemplateKind {
	for _, i := range m.plan.Boards[board].Panels {
		if t := m.plan.Runs[m.plan.Panels[i].Run].Job.Template; t != job.AutoTemplate {
			return t
		}
	}
	return job.AutoTemplate
}

// boardCorners gives every clip of a board to the nearest corner whose page reaches it; all is false when some clip
// has none.
func (m *maker) boardCorners(index int, side Side) (list []corner, all bool) {
	b := &m.plan.Boards[index]
	v := viewOf(b, side)
	n := len(v.outline)
	frames := make([]geom.Affine, n)
	corners, free := make([]corner, n), make([]bool, n)
	var edges []corner
	for i, at := range v.outline {
		next, before := v.outline[(i+1)%n], v.outline[(i+n-1)%n]
		corners[i] = corner{board: index, name: m.cornerName(v, i), a: edgeName(at, next), b: edgeName(before, at), no: v.number(i), theta: interior(before, at, next), at: i}
		frames[i] = jigFrame(at, next)
		free[i] = m.freeCorner(v.outline, i)
	}
	for k := range b.Clips {
		c := &b.Clips[k]
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		seen := v.to.Apply(c.Board)
		slices.SortStableFunc(order, func(i, j int) int {
			return cmp.Compare(v.outline[i].Distance(seen), v.outline[j].Distance(seen))
		})
		found := false
		for _, i := range order {
			if !free[i] {
				continue
			}
			trial := corners[i]
			trial.clips = append(slices.Clone(trial.clips), m.clipOf(v, c).mapped(frames[i]))
			trial.seen = append(slices.Clone(trial.seen), seen)
			if _, ok := m.jigPage(trial); ok {
				corners[i] = trial
				found = true
				break
			}
		}
		if !found {
			e, ok := m.edgeCorner(v, index, c)
			if !ok {
				return nil, false
			}
			edges = append(edges, e)
		}
	}
	for _, c := range corners {
		if len(c.clips) > 0 {
			list = append(list, c)
		}
	}
	return append(list, edges...), true
}

// edgeCorner finds the nearest edge that a clip can be drilled from, line b through the middle of its base.
func (m *maker) edgeCorner(v view, index int, c *plan.Clip) (best corner, ok bool) {
	seen := v.to.Apply(c.Board)
	nearest := geom.Length(math.MaxInt64)
	n := len(v.outline)
	for i, at := range v.outline {
		next := v.outline[(i+1)%n]
		frame := jigFrame(at, next)
		foot := frame.Apply(seen)
		length := at.Distance(next)
		if foot.Y < 0 || foot.Y >= nearest || foot.X < leastEdge/2 || foot.X > length-leastEdge/2 {
			continue
		}
		shift := geom.Move(geom.Pt(-foot.X, 0))
		trial := corner{board: index, a: edgeName(at, next), theta: 90, name: m.cornerName(v, i), along: foot.X, at: i, seen: []geom.Point{seen}}
		trial.no = v.number(i, (i+1)%n)
		if next.Y < at.Y || next.Y == at.Y && next.X < at.X { // measured from the lower end, of level edges from the left
			trial.name, trial.along = m.cornerName(v, (i+1)%n), length-foot.X
			trial.no = v.number((i+1)%n, i)
		}
		trial.clips = []jigClip{m.clipOf(v, c).mapped(frame).mapped(shift)}
		page, fits := m.jigPage(trial)
		if fits && freeFold(v.outline, at, next, foot.X-page.origin.X, foot.X+page.size.W-page.origin.X) {
			best, nearest, ok = trial, foot.Y, true
		}
	}
	return best, ok
}

// jigFrame maps the view so that at becomes the origin and the edge at→next runs along x; exact for edges that lie
// level or upright.
func jigFrame(at, next geom.Point) geom.Affine {
	move := geom.Move(geom.Point{X: -at.X, Y: -at.Y})
	d := next.Sub(at)
	var turn geom.Affine
	switch {
	case d.Y == 0 && d.X > 0:
		turn = geom.Identity()
	case d.Y == 0:
		turn = geom.Affine{A: -1, D: -1}
	case d.X == 0 && d.Y > 0:
		turn = geom.Affine{B: 1, C: -1}
	case d.X == 0:
		turn = geom.Affine{B: -1, C: 1}
	default:
		l := math.Hypot(float64(d.X), float64(d.Y))
		cos, sin := float64(d.X)/l, float64(d.Y)/l
		turn = geom.Affine{A: cos, B: sin, C: -sin, D: cos}
	}
	return move.Then(turn)
}

// interior is the angle at a corner of a counter-clockwise outline, in degrees.
func interior(before, at, next geom.Point) float64 {
	in := math.Atan2(float64(before.Y-at.Y), float64(before.X-at.X))
	out := math.Atan2(float64(next.Y-at.Y), float64(next.X-at.X))
	return math.Mod((in-out)*180/math.Pi+720, 360)
}

// key is equal for corners that one page serves, to a micrometre.
func (c corner) key() string {
	list := make([]string, len(c.clips))
	for i, jc := range c.clips {
		holes, base := slices.Clone(jc.holes), slices.Clone(jc.base)
		for _, points := range []geom.Polygon{holes, base} {
			for k := range points {
				points[k] = geom.Pt(points[k].X.Round(geom.Micrometre), points[k].Y.Round(geom.Micrometre))
			}
			slices.SortFunc(points, func(p, q geom.Point) int { return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y)) })
		}
		list[i] = fmt.Sprint(holes, base)
	}
	slices.Sort(list)
	return fmt.Sprintf("%v %.4f %s", c.onEdge(), c.theta, strings.Join(list, " "))
}

// mirrored is the corner as a mirror shows it: folds a and b change places.
func (c corner) mirrored() corner {
	l := c.theta * math.Pi / 180
	flip := geom.Affine{A: math.Cos(l), B: math.Sin(l), C: math.Sin(l), D: -math.Cos(l)}
	switch {
	case c.onEdge():
		flip = geom.Affine{A: -1, D: 1}
	case c.theta == 90:
		flip = geom.Affine{B: 1, C: 1}
	}
	out := c
	out.clips = nil
	for _, jc := range c.clips {
		out.clips = append(out.clips, jc.mapped(flip))
	}
	return out
}

// A jigPage is where a jig lies on a leaf.
type jigPage struct {
	size   geom.Size  // of the leaf
	origin geom.Point // of the corner in the leaf
	reach  geom.Rect  // of bases and holes, in the leaf
	words  geom.Rect  // room for words
}

// jigPage lays a corner on a leaf; ok is false when it does not fit.
func (m *maker) jigPage(c corner) (jigPage, bool) {
	first := true
	var reach geom.Rect
	grow := func(r geom.Rect) {
		if first {
			reach, first = r, false
			return
		}
		reach = reach.Union(r)
	}
	for _, jc := range c.clips {
		grow(jc.base.Bounds())
		for _, h := range jc.holes {
			grow(geom.Rect{Min: h, Max: h}.Inset(-m.marker()/2 - 5*mm))
		}
	}
	if first {
		return jigPage{}, false
	}
	sin, cos := math.Sincos(c.theta * math.Pi / 180)
	edgeB := geom.Pt(leastEdge.Times(cos), leastEdge.Times(sin))
	left := min(0, edgeB.X, reach.Min.X)
	if reach.Min.Y < -foldFoot {
		return jigPage{}, false
	}
	size := m.options.Field
	origin := geom.Pt(flap-left, foldFoot)
	if c.onEdge() {
		origin.X = size.W / 2
	}
	r := reach.Add(origin)
	above := geom.R(origin.X+8*mm, r.Max.Y+6*mm, size.W, size.H)
	if c.onEdge() {
		above.Min = geom.Pt(8*mm, r.Max.Y+12*mm)
		if above.H() < jigWordsHigh { // line b moves left, and the words go beside
			shift := origin.X + left - 8*mm - leastEdge/4
			origin.X -= shift
			r = r.Add(geom.Pt(-shift, 0))
		}
	}
	if r.Min.X < 0 || r.Max.X > size.W || r.Max.Y > size.H || origin.X+leastEdge > size.W || origin.Y+edgeB.Y > size.H {
		return jigPage{}, false
	}
	beside := geom.R(r.Max.X+8*mm, origin.Y+12*mm, size.W, size.H)
	words := above
	switch {
	case above.H() >= jigWordsHigh:
	case beside.W() >= jigWordsWide:
		words = beside
	default:
		return jigPage{}, false
	}
	if c.theta < 90 { // fold b leans over the room above
		words.Min.X = max(words.Min.X, origin.X+(words.Max.Y-origin.Y).Times(cos/sin)+8*mm)
		if words.W() < jigWordsWide {
			words = beside
			words.Min.X = max(words.Min.X, origin.X+(words.Max.Y-origin.Y).Times(cos/sin)+8*mm)
		}
		if words.W() < jigWordsWide {
			return jigPage{}, false
		}
	}
	return jigPage{size: size, origin: origin, reach: r, words: words}, true
}

// jigSheet draws jig n.
func (m *maker) jigSheet(jigs []jig, n int, side Side) Sheet {
	j := jigs[n]
	c := j.corners[0]
	page, _ := m.jigPage(c)
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(page.size.W, page.size.H)}}
	if c.onEdge() {
		m.drawEdge(&d, page)
	} else {
		m.drawCorner(&d, page, c.theta)
	}
	for _, jc := range c.clips {
		m.jigClip(&d, page, c, jc)
	}
	more := m.jigText(&d, page, jigs, n, side)

	use := 0
	var boards []string
	for _, c := range j.corners {
		use += len(m.plan.Boards[c.board].Panels)
		if name := m.plan.Boards[c.board].Name; !slices.Contains(boards, name) {
			boards = append(boards, name)
		}
	}
	what := "board "
	if len(boards) > 1 {
		what = "boards "
	}
	hint := "Measure the board, fold both flaps back, push the folds against its edges, drill."
	if c.onEdge() {
		hint = "Fold the flap back, push the fold against the board's edge, line b on its mark, drill."
	}
	hint = m.keepApart("into the wall") + hint
	return Sheet{
		Kind: Corner, Name: fmt.Sprintf("corner %d", n+1), Title: jigTitle(j, n), For: what + strings.Join(boards, ", "),
		Side: side, Use: use, Hint: hint, Lay: Leaf, Drawings: append([]drawing.Drawing{d}, more...),
	}
}

// drawCorner draws two folds, to the leaf's border; the small square is cut out so that both flaps fold.
func (m *maker) drawCorner(d *drawing.Drawing, page jigPage, theta float64) {
	o := page.origin
	sin, cos := math.Sincos(theta * math.Pi / 180)
	aEnd := geom.Pt(page.size.W, o.Y)
	reachB := (page.size.H - o.Y).Times(1 / sin)
	if cos < 0 { // fold b leaves the leaf on the left, else on the right or at the top
		reachB = min(reachB, o.X.Times(-1/cos))
	} else if cos > 0.001 {
		reachB = min(reachB, (page.size.W - o.X).Times(1/cos))
	}
	bEnd := geom.Pt(o.X+reachB.Times(cos), o.Y+reachB.Times(sin))
	d.Add(
		drawing.Line{From: o, To: aEnd, Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Line{From: o, To: bEnd, Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Path{Points: []geom.Point{{}, {X: o.X}, o, {Y: o.Y}}, Closed: true, Pen: drawing.Narrow, Fill: drawing.Tint, Role: drawing.Cut},
		drawing.Text{At: geom.Pt(page.size.W-4*mm, o.Y-4*mm), String: "fold a: back, along the board's edge", Height: small, Bold: true, Anchor: drawing.Right},
		alongFoldB(o, bEnd),
	)
}

// jigClip draws a base with its holes, and their distances from the folds below it, or above it where there is no room.
func (m *maker) jigClip(d *drawing.Drawing, page jigPage, c corner, jc jigClip) {
	o := page.origin
	sin, cos := math.Sincos(c.theta * math.Pi / 180)
	base := jc.base.Add(o)
	d.Add(outline(base, drawing.Narrow, drawing.Guide))
	box := base.Bounds()
	var lines []string
	for i, h := range jc.holes {
		hole(d, h.Add(o), m.marker()/2, "")
		text := m.read(h.Y) + " from fold a"
		if fromB := geom.Length(math.Round(float64(h.X)*sin - float64(h.Y)*cos)); !c.onEdge() {
			text += ", " + m.read(fromB) + " from fold b"
		} else if h.X != 0 {
			text += ", " + m.read(h.X.Abs()) + " from line b"
		}
		if len(jc.holes) > 1 {
			d.Add(label(h.Add(o).Add(geom.Pt(m.marker()/2+mm, m.marker()/2+mm)), small, drawing.Left, fmt.Sprint(i+1)))
			text = fmt.Sprintf("%d: ", i+1) + text
		}
		lines = append(lines, text)
	}
	y, high := box.Min.Y-5*mm, linePitch*geom.Length(len(lines))
	if y-high < o.Y {
		y = box.Max.Y + high - small/2
	}
	for i, line := range lines {
		half := lettering.Width(line, small, false)/2 + mm
		x := max(half, min(box.Centre().X, page.size.W-half))
		d.Add(drawing.Text{At: geom.Pt(x, y-linePitch*geom.Length(i)), String: line, Height: small, Anchor: drawing.Middle, Halo: true})
	}
}

// drawEdge draws one fold, and line b that is set by tape.
func (m *maker) drawEdge(d *drawing.Drawing, page jigPage) {
	o := page.origin
	d.Add(
		drawing.Line{From: geom.Pt(0, o.Y), To: geom.Pt(page.size.W, o.Y), Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Line{From: o, To: geom.Pt(o.X, page.reach.Max.Y+8*mm), Pen: drawing.Centre, Role: drawing.Guide},
		drawing.Line{From: o, To: geom.Pt(o.X, o.Y+12*mm), Pen: drawing.Narrow, Role: drawing.Guide},
		drawing.Text{At: geom.Pt(page.size.W-4*mm, o.Y-4*mm), String: "fold a: back, along the board's edge", Height: small, Bold: true, Anchor: drawing.Right},
		drawing.Text{At: geom.Pt(o.X-3*mm, o.Y+5*mm), String: "line b", Height: medium, Bold: true, Anchor: drawing.Right},
	)
}

func jigTitle(j jig, n int) string {
	if j.corners[0].onEdge() {
		return fmt.Sprintf("Edge jig %d", n+1)
	}
	return fmt.Sprintf("Corner jig %d", n+1)
}

// alongFoldB writes along fold b, on its flap.
func alongFoldB(o, end geom.Point) drawing.Text {
	dx, dy := float64(end.X-o.X), float64(end.Y-o.Y)
	l := math.Hypot(dx, dy)
	turn := math.Atan2(dy, dx) * 180 / math.Pi
	const off = 3 * mm
	at := geom.Pt((o.X+end.X)/2+off.Times(-dy/l), (o.Y+end.Y)/2+off.Times(dx/l))
	level := drawing.Baseline
	if turn > 90 {
		turn, level = turn-180, drawing.Top
	}
	return drawing.Text{At: at, String: "fold b: back, along the board's edge", Height: small, Bold: true, Anchor: drawing.Middle, Level: level, Turn: turn}
}
