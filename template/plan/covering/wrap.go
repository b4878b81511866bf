// Package covering works out how cover and batting go round a board: how far, how their corners are turned, where they are
// slit and where each staple goes.
package covering

import (
	"math"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
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
func beyondStaple(u geom.System) geom.Length { return u.Pick(geom.Inch*3/16, 5*geom.Millimetre) }

// A planner is a layout whose cover is worked out.
type planner struct {
	Job *job.Job
	*layout.Layout
	Wrap  Wrap
	found finding.List
}

// Of decides how much the cover of a layout, with its boards and stands, has over each board, and how its corners are
// turned.
//
// The foam's edge rounds over under the cover, which gives back about what the batting takes; so the way round an edge
// counts as board and foam.
func Of(j *job.Job, l *layout.Layout) (Wrap, finding.List) {
	p := &planner{Job: j, Layout: l}
	w := Wrap{Thick: j.Board.Thickness + j.Foam.Thickness, Size: j.Wrap.Size}
	w.Least = w.Thick + j.Staple.Edge + beyondStaple(p.Job.Units)
	if j.Wrap.Auto {
		w.Size = (w.Thick + j.Wrap.Hold).Ceil(p.Job.Units.Pick(geom.Inch/2, 10*geom.Millimetre))
	}
	w.Land = max(0, w.Size-w.Thick)
	w.Room = p.leastRoom()
	w.Leg = max(0, j.Board.Thickness-j.Board.Tolerance-fastening.ShortOfFace(p.Job.Units))
	p.Wrap = w
	p.fold()
	p.checkWrap()
	p.checkLand()
	p.checkTips()
	p.checkNotches()
	return p.Wrap, p.found
}

// StapleLeg is the longest staple that can be bought, in steps of 1/16 in or 1 mm, and stays inside the board.
func (w *Wrap) StapleLeg(u geom.System) geom.Length {
	return w.Leg.Floor(u.Pick(geom.Inch/16, geom.Millimetre))
}

// leastRoom is the least distance between wall and board of all runs.
func (p *planner) leastRoom() geom.Length {
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

func (p *planner) checkWrap() {
	j, w := p.Job, p.Wrap
	if w.Size < w.Least {
		p.found.Add(finding.OfJob("wrap"), "wrap.size",
			WrapShort{Wrap: w.Size, Thick: w.Thick, Staples: j.Staple.Edge, Beyond: beyondStaple(p.Job.Units), Least: w.Least})
	}
	if w.Behind >= w.Room {
		p.found.Add(finding.OfJob("clip.standoff"), "clip.standoff", BehindHigh{Behind: w.Behind, Room: w.Room, Parcel: w.Fold.Kind == Parcel})
	}
	if j.Staple.Length > w.Leg {
		p.found.Add(finding.OfJob("staples.length"), "staples.length",
			StapleThrough{Staple: j.Staple.Length, Thin: j.Board.Thickness - j.Board.Tolerance, Most: w.StapleLeg(j.Units)})
	}
}

// checkLand holds the land against the bases of each board's clips.
func (p *planner) checkLand() {
	edge := p.Job.Staple.Edge
	for i := range p.Boards {
		room, place := p.roomToClips(&p.Boards[i])
		if place == "" && room == 0 || p.Wrap.Land <= room && edge < room {
			continue
		}
		field, params := "wrap.size", finding.Params(WrapUnderClips{Reach: p.Wrap.Land, Clip: place, Begins: room, Wrap: p.Wrap.Thick + room})
		if edge >= room {
			field, params = "staples.edge", StaplesUnderClips{Staples: edge, Clip: place, Begins: room, Clear: max(p.Wrap.Land, edge+beyondStaple(p.Job.Units))}
		}
		for _, panel := range p.Boards[i].Panels {
			p.found.Add(p.PanelSubject(panel), field, params)
		}
	}
}

// checkTips holds the tip of a parcel, which reaches further in than the land beside it, against the clips of each board.
func (p *planner) checkTips() {
	reach := p.Wrap.tipReach()
	if p.Wrap.Fold.Kind != Parcel {
		return
	}
	for i := range p.Boards {
		room, place := p.roomToTips(&p.Boards[i])
		if place == "" || reach <= room || p.Wrap.Land > room {
			continue // the land itself has been reported
		}
		for _, panel := range p.Boards[i].Panels {
			p.found.Add(p.PanelSubject(panel), "clips.clear", WrapUnderClips{Tip: true, Reach: reach, Clip: place, Begins: room})
		}
	}
}

// roomToTips is how far a tip may reach in from both edges of a square corner before it meets a clip, rounded down, and
// which clip that is; "" where there is none.
func (p *planner) roomToTips(b *layout.Board) (room geom.Length, place string) {
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

// roomToClips is how far the nearest clip base stands from the board's outline, and which clip it is; ""
// and 0 for a board without clips.
func (p *planner) roomToClips(b *layout.Board) (room geom.Length, place string) {
	base := p.Job.Clip.Board.Base
	for i, c := range b.Clips {
		r := geom.R(-base.W/2, -base.H/2, base.W-base.W/2, base.H-base.H/2).Add(c.Board)
		if d := b.Outline.DistanceToRect(r); i == 0 || d < room {
			room, place = d, c.Place
		}
	}
	if len(b.Clips) > 0 && place == "" {
		place = "nearest"
	}
	return room, place
}

// HasCover reports whether the job has a cover at all.
func HasCover(j *job.Job) bool { return j.Cover.Thickness > 0 || j.Cover.Roll > 0 }

// TurnsOver reports whether anything is turned over to the back of the boards: cover or batting.
func TurnsOver(j *job.Job) bool { return HasCover(j) || j.Batt.Thickness > 0 }
