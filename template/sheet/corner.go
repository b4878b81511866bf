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
	"rodsheet/template/plan/layout"
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
	of    []int // the clips' indexes in the board's Clips
	at    int   // the corner's index in the outline as seen, or that of the edge's beginning
	// fromNext: line b is measured from the end of the edge, not from its beginning.
	fromNext bool
	seen     []geom.Point // middles of the clips, as seen
	turn     float64      // degrees that the page is turned counter-clockwise where it lies on the board, top up
	wall     []string     // of each clip, the place of its wall half as seen from the front: "lower right"
}

func (c corner) onEdge() bool { return c.b == "" }

// A jigClip is a clip in a jig's own frame: the corner at the origin, edge a along x.
type jigClip struct{ base, holes geom.Polygon }

func (jc jigClip) mapped(to geom.Affine) jigClip { return jigClip{jc.base.Map(to), jc.holes.Map(to)} }

// clipOf is a clip's board half in the view's frame.
func (m *maker) clipOf(v view, c *layout.Clip) jigClip {
	return jigClip{v.base(m.plan, c).Polygon(), geom.Polygon(c.BoardHoles).Map(v.to)}
}

// A jig is a page that serves every corner with the same holes.
type jig struct {
	key     string
	corners []corner
}

// corners are the jigs of all boards, and for each board whether they reach all of its holes.
func (m *maker) corners() ([]drawing.Sheet, []bool) {
	side := m.boardSide()
	covered := make([]bool, len(m.plan.Boards))
	var jigs []jig
	for i, list := range m.allCorners() {
		covered[i] = list != nil
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
	var out []drawing.Sheet
	for n := range jigs {
		out = append(out, m.jigSheet(jigs, n, side))
	}
	return out, covered
}

// allCorners returns the corners and edges that each board is drilled from with jigs; nil where jigs are not wanted, or
// don't reach all of its holes.
func (m *maker) allCorners() [][]corner {
	all := make([][]corner, len(m.plan.Boards))
	for i := range m.plan.Boards {
		if m.template(i) == job.WholeTemplate {
			continue
		}
		if list, ok := m.boardCorners(i, m.boardSide()); ok {
			all[i] = append([]corner{}, list...)
		}
	}
	return all
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

// A cornerSite is a corner of a board that clips may be given to.
type cornerSite struct {
	corner
	toJig geom.Affine // from the view to the jig's frame
	free  bool        // a jig can lie here
}

// boardCorners gives every clip of a board to the nearest corner whose page reaches it, or else to an edge; all is false
// when some clip has neither.
func (m *maker) boardCorners(index int, side Side) (list []corner, all bool) {
	b := &m.plan.Boards[index]
	v := viewOf(b, side)
	sites := m.cornerSites(v, index)
	var edges []corner
	for k := range b.Clips {
		c := &b.Clips[k]
		if m.giveToCorner(sites, v, k, c) {
			continue
		}
		e, ok := m.edgeCorner(v, index, c)
		if !ok {
			return nil, false
		}
		e.of = []int{k}
		edges = append(edges, e)
	}
	for _, s := range sites {
		if len(s.clips) > 0 {
			list = append(list, s.corner)
		}
	}
	return append(list, edges...), true
}

// cornerSites returns the corners of a board in the order of its outline, without clips.
func (m *maker) cornerSites(v view, index int) []cornerSite {
	n := len(v.outline)
	sites := make([]cornerSite, n)
	for i, at := range v.outline {
		next, before := v.outline[(i+1)%n], v.outline[(i+n-1)%n]
		sites[i] = cornerSite{
			corner: corner{board: index, name: m.cornerName(v, i), a: edgeName(at, next), b: edgeName(before, at), no: v.number(i), theta: interior(before, at, next), at: i, turn: heading(at, next)},
			toJig:  jigFrame(at, next),
			free:   m.freeCorner(v.outline, i),
		}
	}
	return sites
}

// giveToCorner adds clip k of a board to the nearest free corner whose page reaches it, and reports whether there is one.
func (m *maker) giveToCorner(sites []cornerSite, v view, k int, c *layout.Clip) bool {
	seen := v.to.Apply(c.Board)
	nearest := make([]int, len(sites))
	for i := range nearest {
		nearest[i] = i
	}
	slices.SortStableFunc(nearest, func(i, j int) int {
		return cmp.Compare(v.outline[i].Distance(seen), v.outline[j].Distance(seen))
	})
	for _, i := range nearest {
		if !sites[i].free {
			continue
		}
		trial := sites[i].corner
		trial.clips = append(slices.Clone(trial.clips), m.clipOf(v, c).mapped(sites[i].toJig))
		trial.seen = append(slices.Clone(trial.seen), seen)
		trial.of = append(slices.Clone(trial.of), k)
		trial.wall = append(slices.Clone(trial.wall), c.Place)
		if _, ok := m.jigPage(trial); ok {
			sites[i].corner = trial
			return true
		}
	}
	return false
}

// edgeCorner finds the nearest edge that a clip can be drilled from, line b through the middle of its base.
func (m *maker) edgeCorner(v view, index int, c *layout.Clip) (best corner, ok bool) {
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
		shift := geom.Translate(geom.Pt(-foot.X, 0))
		trial := corner{board: index, a: edgeName(at, next), theta: 90, name: m.cornerName(v, i), along: foot.X, at: i, seen: []geom.Point{seen}, turn: heading(at, next), wall: []string{c.Place}}
		trial.no = v.number(i, (i+1)%n)
		if next.Y < at.Y || next.Y == at.Y && next.X < at.X { // measured from the lower end, of level edges from the left
			trial.name, trial.along, trial.fromNext = m.cornerName(v, (i+1)%n), length-foot.X, true
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
	move := geom.Translate(geom.Point{X: -at.X, Y: -at.Y})
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

// heading is the direction from at to next, degrees counter-clockwise from the right.
func heading(at, next geom.Point) float64 {
	return math.Atan2(float64(next.Y-at.Y), float64(next.X-at.X)) * 180 / math.Pi
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
