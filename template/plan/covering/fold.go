package covering

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// The two ways to turn a corner of the cover.
const (
	Pleat  = "pleat"  // the surplus is cut out, what remains is fanned
	Parcel = "parcel" // wrapped like a parcel, nothing is cut
)

// A Fold is how a square corner of cover and batting is turned. Its lines lie in the flat cover: origin at the corner of
// the board's face, x and y outward along the two edges that meet there; the cover's own corner is at (Size, Size).
type Fold struct {
	Kind string // Pleat or Parcel
	Why  string

	Square geom.Length     // side of the surplus square outside the corner: the wrap
	Remain geom.Length     // pleat: what must remain of the cover, from the corner to the cut, square to it
	Legs   geom.Length     // pleat: legs of the triangle that is cut off the cover's corner
	Notch  geom.Length     // pleat: how far from the board's corner the batting is cut square to the edges; then it slants
	Cuts   [][2]geom.Point // lines the cover is cut on
	Batts  []geom.Point    // line the batting is cut on, point to point
	Folds  [][2]geom.Point // lines that are folded; of a parcel in their order: tip, both sides, the ears under them
	Rim    []geom.Point    // what comes to lie on the corner of the back, from the one edge to the other
}

// parcelLimit is how thick board, foam and batting may be together for a corner to be folded like a parcel (common
// practice; the figure is from memory).
func parcelLimit(u geom.System) geom.Length { return u.Pick(geom.Inch*3/4, 20*geom.Millimetre) }

// fold chooses and lays out the corner of the cover, and works out how high the folds lie behind the board.
//
// Cover lies three deep in either kind of corner: a pleat is three layers, and so are a parcel's tip under its two
// flaps. Batting lies there three deep in a parcel, and once where its surplus has been cut out.
func (p *planner) fold() {
	j, w := p.Job, &p.Wrap
	parcel := 3*j.Cover.Thickness + 3*j.Batt.Pressed + j.Staple.Crown
	pleat := 3*j.Cover.Thickness + j.Batt.Pressed + j.Staple.Crown
	stack := w.Thick + j.Batt.Thickness
	f, limit := &w.Fold, parcelLimit(j.Units)
	read := func(l geom.Length) string { return l.In(j.Units) }
	switch {
	case j.Wrap.Fold == Pleat || j.Wrap.Fold == Parcel:
		f.Kind, f.Why = j.Wrap.Fold, "The job asks for it."
	case stack > limit:
		f.Kind = Pleat
		f.Why = fmt.Sprintf("Board, foam and batting are %s thick, more than %s: folded like a parcel, that much cover and batting would make a lump.", read(stack), read(limit))
	case parcel >= w.Room:
		f.Kind = Pleat
		f.Why = fmt.Sprintf("The panel is thin, but a parcel's folds would lie %s high behind the board, and it stands %s off the wall.", read(parcel), read(w.Room))
	default:
		f.Kind = Parcel
		f.Why = fmt.Sprintf("Board, foam and batting are %s thick, no more than %s: the corner folds flat like a parcel, and nothing needs to be cut.", read(stack), read(limit))
	}
	w.Behind = pleat
	if f.Kind == Parcel {
		w.Behind = parcel
	}
	w.layCorner(j, f)
}

// FoldAs is the corner of a job's wrap turned in the given way, whether or not it suits the panel.
func (w *Wrap) FoldAs(j *job.Job, kind string) Fold {
	f := Fold{Kind: kind}
	w.layCorner(j, &f)
	return f
}

// layCorner draws the lines of the corner. Whatever lies as far from the face's corner as board and foam are thick
// comes to lie on the corner of the back, whichever way it goes there: up the upright edge, no way is shorter.
func (w *Wrap) layCorner(j *job.Job, f *Fold) {
	size, thick := w.Size, min(w.Thick, w.Size)
	land := size - thick
	f.Square = size
	if f.Kind == Parcel {
		// The tip is folded over the corner of the back first. Each side then folds on the board's edges, and the ear that
		// stands out beyond the upright edge folds in half under it.
		half, tip := thick.Times(math.Sqrt2-1), thick.Times(math.Sqrt2) // half = thick · tan 22.5°
		f.Rim = []geom.Point{{Y: thick}, {X: half, Y: thick}, {X: thick, Y: half}, {X: thick}}
		f.Folds = [][2]geom.Point{
			{geom.Pt(tip-size, size), geom.Pt(size, tip-size)},
			{{}, f.Rim[0]}, {{}, f.Rim[3]}, {{}, f.Rim[1]}, {{}, f.Rim[2]},
		}
		return
	}
	f.Folds = [][2]geom.Point{{{}, {Y: size}}, {{}, {X: size}}}
	const steps = 24
	for i := range geom.Length(steps + 1) {
		sin, cos := math.Sincos(float64(i) * math.Pi / (2 * steps))
		f.Rim = append(f.Rim, geom.Pt(thick.Times(sin), thick.Times(cos)))
	}
	// The cut stands square to the diagonal. There the cover must reach the row of staples where its two lines meet, and no
	// less than it does over an edge.
	staple := j.Staple.Edge.Times(math.Sqrt2)
	f.Remain = min(max(size, thick+staple+beyondStaple(j.Units)), size.Times(math.Sqrt2))
	f.Legs = 2*size - f.Remain.Times(math.Sqrt2)
	f.Cuts = [][2]geom.Point{{geom.Pt(size-f.Legs, size), geom.Pt(size, size-f.Legs)}}
	// Over the edges the batting is cut square, so that it meets on the upright edge; on the back it is mitred, so that it
	// meets on the diagonal and nowhere lies twice.
	f.Notch = thick
	f.Batts = []geom.Point{geom.Pt(-land, size), geom.Pt(0, thick), {}, geom.Pt(thick, 0), geom.Pt(size, -land)}
}

// tipReach is how far the tip of a parcel lies in from both edges of a corner of the back, when it has been pulled
// tight.
func (w *Wrap) tipReach() geom.Length { return max(0, w.Size-w.Thick.Times(math.Sqrt2/2)) }

// A Relief is a slit in the cover at an inner corner of a board, where it must open to go round. From is at the edge
// of the cover, To short of the corner of the face; board coordinates.
type Relief struct{ Corner, From, To geom.Point }

// Reliefs are the slits at the inner corners of a board's outline, in the order of its corners.
func (w *Wrap) Reliefs(outline geom.Polygon, u geom.System) []Relief {
	var reliefs []Relief
	for i, at := range outline {
		before, after := outline[(i+len(outline)-1)%len(outline)], outline[(i+1)%len(outline)]
		if geom.Orientation(before, at, after) >= 0 {
			continue
		}
		// The parallels of both edges meet at the corner + wrap · (n1 + n2) / (1 + n1·n2).
		n1X, n1Y := outward(before, at)
		n2X, n2Y := outward(at, after)
		scale := 1 + n1X*n2X + n1Y*n2Y
		toX, toY := (n1X+n2X)/scale, (n1Y+n2Y)/scale
		short := float64(u.Pick(geom.Inch/8, 3*geom.Millimetre)) / math.Hypot(toX, toY)
		step := func(d float64) geom.Point {
			return at.Add(geom.Pt(geom.Length(math.Round(toX*d)), geom.Length(math.Round(toY*d))))
		}
		reliefs = append(reliefs, Relief{Corner: at, From: step(float64(w.Size)), To: step(short)})
	}
	return reliefs
}

// outward is the unit normal of the edge a→b of a counter-clockwise outline, away from the board.
func outward(a, b geom.Point) (x, y float64) {
	dx, dy := direction(a, b)
	return dy, -dx
}

// A Staple is one staple on the back of a board, in the order they are driven.
type Staple struct {
	At   geom.Point // board coordinates, seen from the face
	Step int        // 1 middles of the long sides, 2 along them, 3 middles of the short ends, 4 along them, 5 corners
}

// Staples are the places of the staples of a board with that outline: never further apart than the job's spacing along an edge, room left at
// the corners until the last, three staples in each. The long sides are those of the direction that most of the outline
// runs in.
func Staples(j *job.Job, outline geom.Polygon) []Staple {
	edge := j.Staple.Edge
	long := longDirection(outline)
	var staples []Staple
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		step := 3
		if geom.Cross(b.Sub(a), long).Sign() == 0 {
			step = 1
		}
		for n, at := range alongEdge(j, a, b) {
			if n == 1 {
				step++
			}
			staples = append(staples, Staple{at, step})
		}
	}
	inside, err := outline.Offset(-edge, geom.DefaultMitre)
	if err == nil {
		for _, piece := range inside {
			for i, at := range piece {
				before, after := piece[(i+len(piece)-1)%len(piece)], piece[(i+1)%len(piece)]
				if geom.Orientation(before, at, after) > 0 {
					staples = append(staples, cornerStaples(before, at, after, edge)...)
				}
			}
		}
	}
	slices.SortStableFunc(staples, func(s, t Staple) int { return cmp.Compare(s.Step, t.Step) })
	return staples
}

// cornerStaples are one staple on the diagonal of a corner, where the rows along its edges meet at the point at, and
// one in the folds on either side of it, as far from the corner.
func cornerStaples(before, at, after geom.Point, edge geom.Length) []Staple {
	aX, aY := direction(at, before)
	bX, bY := direction(at, after)
	mX, mY := unit(aY-bY, bX-aX) // inward along the diagonal
	sin := math.Abs(aX*mY - aY*mX)
	reach := float64(edge) / sin
	staples := []Staple{{at, 5}}
	for _, side := range [][2]float64{{aX, aY}, {bX, bY}} {
		x, y := unit(side[0]+mX, side[1]+mY)
		staples = append(staples, Staple{at.Add(geom.Pt(geom.Length(math.Round(reach*(x-mX))), geom.Length(math.Round(reach*(y-mY))))), 5})
	}
	return staples
}

// direction is the unit vector from a to b.
func direction(a, b geom.Point) (x, y float64) {
	return unit(float64(b.X-a.X), float64(b.Y-a.Y))
}

func unit(x, y float64) (float64, float64) {
	n := math.Hypot(x, y)
	return x / n, y / n
}

// alongEdge are staples along one edge, the middle one first, then in pairs outward.
func alongEdge(j *job.Job, a, b geom.Point) []geom.Point {
	edge, spacing := j.Staple.Edge, j.Staple.Spacing
	length := a.Distance(b)
	nX, nY := outward(a, b)
	at := func(along geom.Length) geom.Point {
		part := float64(along) / float64(length)
		return a.Add(geom.Pt(
			(b.X-a.X).Times(part)-edge.Times(nX),
			(b.Y-a.Y).Times(part)-edge.Times(nY)))
	}
	places := []geom.Point{at(length / 2)}
	reach := length/2 - max(edge+spacing/2, j.Units.Pick(2*geom.Inch, 50*geom.Millimetre)) // room for the corner's folds
	if reach <= 0 || spacing <= 0 {
		return places
	}
	pairs := (reach + spacing - 1) / spacing
	for k := geom.Length(1); k <= pairs; k++ {
		places = append(places, at(length/2-reach*k/pairs), at(length/2+reach*k/pairs))
	}
	return places
}

// longDirection is the direction that most of the outline's length runs in; the first edge wins a tie.
func longDirection(outline geom.Polygon) geom.Point {
	var long geom.Point
	var most geom.Length
	for i, a := range outline {
		d := outline[(i+1)%len(outline)].Sub(a)
		var sum geom.Length
		for k, c := range outline {
			if e := outline[(k+1)%len(outline)]; geom.Cross(d, e.Sub(c)).Sign() == 0 {
				sum += c.Distance(e)
			}
		}
		if sum > most {
			most, long = sum, d
		}
	}
	return long
}

// NotchNarrow: cut down the middle of a notch, the cover of each side doesn't reach the staples.
type NotchNarrow struct{ Notch, Needs geom.Length } // Needs is for one side

// ID implements [finding.Params].
func (NotchNarrow) ID() string { return "notch-narrow" }

// checkNotches reports where the cloth of a notch is not enough for both of its sides: it is shared down the middle.
func (p *planner) checkNotches() {
	for i := range p.Boards {
		b := &p.Boards[i]
		gap := narrowest(b.Outline)
		if gap == 0 || gap/2 >= p.Wrap.Least {
			continue
		}
		for _, panel := range b.Panels {
			at := p.PanelSubject(panel)
			p.found.Add(at, at.Key+".area", NotchNarrow{Notch: gap, Needs: p.Wrap.Least})
		}
	}
}

// narrowest is the least distance between two parallel edges that face each other across the outside of an outline; 0
// when there are none.
func narrowest(outline geom.Polygon) geom.Length {
	var least geom.Length
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		d := b.Sub(a)
		for k := i + 1; k < len(outline); k++ {
			c, e := outline[k], outline[(k+1)%len(outline)]
			if geom.Cross(d, e.Sub(c)).Sign() != 0 || geom.Dot(d, e.Sub(c)).Sign() > 0 || geom.Orientation(a, b, c) >= 0 {
				continue // not parallel, not facing, or across the board itself
			}
			// Do they lie beside each other, along the direction of the first?
			n := math.Hypot(float64(d.X), float64(d.Y))
			along := func(q geom.Point) float64 {
				return (float64(q.X-a.X)*float64(d.X) + float64(q.Y-a.Y)*float64(d.Y)) / n
			}
			if min(n, along(c)) <= max(0, along(e)) {
				continue
			}
			nX, nY := outward(a, b)
			gap := geom.Length(math.Round(float64(c.X-a.X)*nX + float64(c.Y-a.Y)*nY))
			if least == 0 || gap < least {
				least = gap
			}
		}
	}
	return least
}
