package plan

import (
	"math"

	"rodsheet/geom"
	"rodsheet/template/plan/finding"
)

// Wrap is how cover and batting go round a board.
type Wrap struct {
	Size geom.Length // over the board's edge on each side
	Land geom.Length // staple land on the back: what lies there, from the board's edge inward; not below 0

	Thick  geom.Length // board and foam: what the wrap goes down before it reaches the back
	Least  geom.Length // smallest wrap that can be stapled: Thick + staple edge + a little beyond
	Behind geom.Length // greatest height behind the board: cover and batting in their folds, and a staple crown
	Room   geom.Length // least distance between wall and back of a board: Behind must be lower
	Leg    geom.Length // longest staple leg that stays inside the board
	Fold   Fold
}

// beyondStaple is what must lie on the back beyond the row of staples (common practice, from memory).
func (p *Plan) beyondStaple() geom.Length { return p.pick(geom.Inch*3/16, 5*geom.Millimetre) }

// wrap decides how much the cover has over the board.
//
// The foam's edge rounds over under the cover, which gives back about what the batting takes; so the way round an edge
// counts as board and foam.
func (p *Plan) wrap() {
	j := p.Job
	w := Wrap{Thick: j.Board.Thickness + j.Foam.Thickness, Size: j.Wrap.Size}
	w.Least = w.Thick + j.Staple.Edge + p.beyondStaple()
	if j.Wrap.Auto {
		w.Size = (w.Thick + j.Wrap.Hold).Ceil(p.pick(geom.Inch/2, 10*geom.Millimetre))
	}
	w.Land = max(0, w.Size-w.Thick)
	w.Room = p.leastRoom()
	w.Leg = max(0, j.Board.Thickness-j.Board.Tolerance-p.shortOfFace())
	p.Wrap = w
	p.fold()
	p.checkWrap()
	p.checkLand()
	p.checkTips()
	p.checkNotches()
}

// StapleLeg is the longest staple that can be bought, in steps of 1/16 in or 1 mm, and stays inside the board.
func (p *Plan) StapleLeg() geom.Length {
	return p.Wrap.Leg.Floor(p.pick(geom.Inch/16, geom.Millimetre))
}

// leastRoom is the least distance between wall and board of all runs.
func (p *Plan) leastRoom() geom.Length {
	room := p.Job.Clip.Standoff
	for i, r := range p.Runs {
		if stands := max(r.Standing, p.Job.Clip.Standoff); i == 0 || stands < room {
			room = stands
		}
	}
	return room
}

// WrapShort: the wrap doesn't reach the staples.
type WrapShort struct {
	Wrap    geom.Length
	Thick   geom.Length // board and foam
	Staples geom.Length // from the board's edge
	Beyond  geom.Length // what must lie beyond the staples
	Least   geom.Length // that would do
}

// ID implements [finding.Params].
func (WrapShort) ID() string { return "wrap-short" }

// BehindHigh: what is behind the board is as high as the panels stand off the wall, or higher.
type BehindHigh struct {
	Behind, Room geom.Length
	Parcel       bool // the corners are folded as parcels
}

// ID implements [finding.Params].
func (BehindHigh) ID() string { return "behind-high" }

// StapleThrough: staples come through the thinnest the board may be, or too near to its face.
type StapleThrough struct{ Staple, Thin, Most geom.Length }

// ID implements [finding.Params].
func (StapleThrough) ID() string { return "staple-through" }

// WrapUnderClips: a clip would stand on what is turned over to the back.
type WrapUnderClips struct {
	Tip    bool        // the folded tips at the corners, else the land along the edges
	Reach  geom.Length // from the board's edge; of a tip, from both edges
	Clip   string      // its place
	Begins geom.Length // as far in
	Wrap   geom.Length // a wrap that ends there; 0 for a tip
}

// ID implements [finding.Params].
func (WrapUnderClips) ID() string { return "wrap-under-clips" }

// StaplesUnderClips: the row of staples stands where a clip does.
type StaplesUnderClips struct {
	Staples geom.Length // from the board's edge
	Clip    string      // its place
	Begins  geom.Length // as far in
	Clear   geom.Length // how far in it would have to begin
}

// ID implements [finding.Params].
func (StaplesUnderClips) ID() string { return "staples-under-clips" }

func (p *Plan) checkWrap() {
	j, w := p.Job, p.Wrap
	if w.Size < w.Least {
		p.report(finding.OfJob("wrap"), "wrap.size",
			WrapShort{Wrap: w.Size, Thick: w.Thick, Staples: j.Staple.Edge, Beyond: p.beyondStaple(), Least: w.Least})
	}
	if w.Behind >= w.Room {
		p.report(finding.OfJob("clip.standoff"), "clip.standoff", BehindHigh{Behind: w.Behind, Room: w.Room, Parcel: w.Fold.Kind == Parcel})
	}
	if j.Staple.Length > w.Leg {
		p.report(finding.OfJob("staples.length"), "staples.length",
			StapleThrough{Staple: j.Staple.Length, Thin: j.Board.Thickness - j.Board.Tolerance, Most: p.StapleLeg()})
	}
}

// checkLand holds the land against the bases of each board's clips.
func (p *Plan) checkLand() {
	edge := p.Job.Staple.Edge
	for i := range p.Boards {
		room, place := p.roomToClips(&p.Boards[i])
		if place == "" && room == 0 || p.Wrap.Land <= room && edge < room {
			continue
		}
		field, params := "wrap.size", finding.Params(WrapUnderClips{Reach: p.Wrap.Land, Clip: place, Begins: room, Wrap: p.Wrap.Thick + room})
		if edge >= room {
			field, params = "staples.edge", StaplesUnderClips{Staples: edge, Clip: place, Begins: room, Clear: max(p.Wrap.Land, edge+p.beyondStaple())}
		}
		for _, panel := range p.Boards[i].Panels {
			p.report(p.panelSubject(panel), field, params)
		}
	}
}

// checkTips holds the tip of a parcel, which reaches further in than the land beside it, against the clips of each board.
func (p *Plan) checkTips() {
	reach := p.Wrap.tipReach()
	if p.Wrap.Fold.Kind != Parcel {
		return
	}
	for i := range p.Boards {
		room, place := p.roomToTips(&p.Boards[i])
		if place == "" || reach <= room || p.Wrap.Land > room {
			continue // the land itself has been told
		}
		for _, panel := range p.Boards[i].Panels {
			p.report(p.panelSubject(panel), "clips.clear", WrapUnderClips{Tip: true, Reach: reach, Clip: place, Begins: room})
		}
	}
}

// roomToTips is how far a tip may reach in from both edges of a square corner before it meets a clip, rounded down, and
// which clip that is; "" where there is none.
func (p *Plan) roomToTips(b *Board) (room geom.Length, place string) {
	base := p.Job.Clip.Board.Base
	least := math.Inf(1)
	for i, at := range b.Outline {
		before, after := b.Outline[(i+len(b.Outline)-1)%len(b.Outline)], b.Outline[(i+1)%len(b.Outline)]
		if geom.Orientation(before, at, after) <= 0 || geom.Dot(before.Sub(at), after.Sub(at)).Sign() != 0 {
			continue
		}
		aX, aY := direction(at, before)
		bX, bY := direction(at, after)
		for _, c := range b.Clips {
			r := geom.R(-base.W/2, -base.H/2, base.W-base.W/2, base.H-base.H/2).Add(c.Board.Sub(at))
			for _, q := range r.Polygon() {
				x, y := float64(q.X), float64(q.Y)
				if in := max(x*aX+y*aY, x*bX+y*bY); in < least {
					least, place = in, c.Place
				}
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0, ""
	}
	if place == "" {
		place = "nearest"
	}
	return geom.Length(least), place
}

// roomToClips is how far the nearest clip base stands from the board's outline, rounded down, and which clip it is; ""
// and 0 for a board without clips.
func (p *Plan) roomToClips(b *Board) (room geom.Length, place string) {
	base := p.Job.Clip.Board.Base
	least := math.Inf(1)
	for _, c := range b.Clips {
		r := geom.R(-base.W/2, -base.H/2, base.W-base.W/2, base.H-base.H/2).Add(c.Board)
		for i, a := range b.Outline {
			if d := edgeToRect(a, b.Outline[(i+1)%len(b.Outline)], r); d < least {
				least, place = d, c.Place
			}
		}
	}
	if len(b.Clips) == 0 || len(b.Outline) == 0 {
		return 0, ""
	}
	if place == "" {
		place = "nearest"
	}
	return geom.Length(least), place
}

// edgeToRect is the distance in nanometres between the segment a–b and a rectangle that it does not cross.
func edgeToRect(a, b geom.Point, r geom.Rect) float64 {
	least := math.Inf(1)
	for _, corner := range r.Polygon() {
		least = min(least, toSegment(corner, a, b))
	}
	for _, end := range []geom.Point{a, b} {
		inside := geom.Pt(min(max(end.X, r.Min.X), r.Max.X), min(max(end.Y, r.Min.Y), r.Max.Y))
		least = min(least, math.Hypot(float64(end.X-inside.X), float64(end.Y-inside.Y)))
	}
	return least
}

func toSegment(q, a, b geom.Point) float64 {
	abX, abY := float64(b.X-a.X), float64(b.Y-a.Y)
	aqX, aqY := float64(q.X-a.X), float64(q.Y-a.Y)
	along := 0.0
	if square := abX*abX + abY*abY; square > 0 {
		along = min(1, max(0, (aqX*abX+aqY*abY)/square))
	}
	return math.Hypot(aqX-along*abX, aqY-along*abY)
}
