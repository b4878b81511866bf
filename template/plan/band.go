package plan

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/job"
)

// farOut is how much a deck may be out of level before a slip of the tape is the likelier reason.
func (p *Plan) farOut() geom.Length { return p.pick(2*geom.Inch, 50*geom.Millimetre) }

// bandKey is where a run's band stands in the job file.
func bandKey(r *job.Run) string {
	if r.Band.Name != "" {
		return "heights." + r.Band.Name
	}
	return r.Key + ".height"
}

// measure works out how a run's band stands. On a deck that is out of level its higher end counts, so that the gap
// above the cushion is nowhere less than it was meant to be.
func (p *Plan) measure(r *job.Run, problems *job.Problems) (*Heights, bool) {
	b := &r.Band
	h := &Heights{Name: b.Name, HasDeck: b.HasSeat || !b.Direct, Deck: b.Seat, Cushion: b.Cushion}
	h.Follow = b.Follow && h.Deck[0] != h.Deck[1]
	bottom, top := b.Bottom, b.Top
	if b.Direct {
		if top <= bottom {
			problems.Add(bandKey(r), "the top, %s, must lie above the bottom, %s", p.read(top), p.read(bottom))
			return nil, false
		}
	} else {
		gap, panel, ok := p.share(r, problems)
		if !ok {
			return nil, false
		}
		bottom = h.high() + b.Cushion + gap
		top = bottom + panel
	}
	board := (top - bottom - 2*p.Edge).Floor(p.sawStep())
	if board <= 0 {
		problems.Add(bandKey(r), "a panel %s high leaves no board inside its cover; it must be at least %s",
			p.read(top-bottom), p.read(p.sawStep()+2*p.Edge))
		return nil, false
	}
	h.Bottom, h.Top = bottom, bottom+board+2*p.Edge
	h.Slack = top - h.Top
	if h.HasDeck {
		h.GapBelow = bottom - h.high() - b.Cushion
	}
	if b.Sill > 0 {
		h.HasSill, h.Sill, h.GapAbove = true, b.Sill, b.Sill-h.Top
	}
	return h, true
}

// share works out gap and panel height of a band between cushion and sill.
func (p *Plan) share(r *job.Run, problems *job.Problems) (gap, panel geom.Length, ok bool) {
	b := &r.Band
	low := max(b.Seat[0], b.Seat[1]) + b.Cushion
	room := b.Sill - low
	fixed := b.HasGap && !b.EvenGap
	switch {
	case b.Sill == 0 && b.Panel > 0 && fixed:
		return b.Gap, b.Panel, true
	case b.Sill == 0:
		problems.Add(bandKey(r), "the band has no sill; give the sill, or panel and gap both")
		return 0, 0, false
	case room <= 0:
		problems.Add(bandKey(r), "the sill, %s, must lie above the cushion, whose top is at %s (seat %s + cushion %s)",
			p.read(b.Sill), p.read(low), p.read(low-b.Cushion), p.read(b.Cushion))
		return 0, 0, false
	case b.Panel > 0 && fixed:
		if b.Panel+2*b.Gap != room {
			problems.Add(bandKey(r), "panel %s with two gaps of %s makes %s, but between cushion and sill are %s; leave out one, or write panel: %s or gap: even",
				p.read(b.Panel), p.read(b.Gap), p.read(b.Panel+2*b.Gap), p.read(room), p.read(max(room-2*b.Gap, 0)))
			return 0, 0, false
		}
		return b.Gap, b.Panel, true
	case b.Panel > 0:
		if b.Panel > room {
			p.trouble("band-too-low", Spot{"run " + r.Name, bandKey(r)},
				fmt.Sprintf("Panels %s high don't go between cushion and sill, where there are %s.", p.read(b.Panel), p.read(room)),
				fmt.Sprintf("Make them at most %s high.", p.read(room)))
			return 0, b.Panel, true
		}
		return (room - b.Panel) / 2, b.Panel, true
	case fixed:
		if 2*b.Gap >= room {
			problems.Add(bandKey(r), "two gaps of %s leave no panel between cushion and sill, where there are %s",
				p.read(b.Gap), p.read(room))
			return 0, 0, false
		}
		return b.Gap, room - 2*b.Gap, true
	}
	problems.Add(bandKey(r), "an even gap needs a panel height; give panel, or gap as a length (there are %s between cushion and sill)", p.read(room))
	return 0, 0, false
}

// high is the higher end of the deck.
func (h *Heights) high() geom.Length { return max(h.Deck[0], h.Deck[1]) }

// deckAt is the height of the deck at x, straight between the readings at the two ends of the run.
func (h *Heights) deckAt(x, from, to geom.Length) geom.Length {
	if h.Deck[0] == h.Deck[1] || to <= from {
		return h.Deck[0]
	}
	return h.Deck[0] + (h.Deck[1] - h.Deck[0]).Times(float64(x-from)/float64(to-from))
}

// drop is how much lower than on the high end of the deck a panel with its middle at x stands.
func (h *Heights) drop(x, from, to geom.Length) geom.Length {
	if !h.Follow {
		return 0
	}
	return h.high() - h.deckAt(x, from, to)
}

// watchDeck tells how far a deck is out of level and what that does to the panels.
func (p *Plan) watchDeck(run *Run) {
	h := run.Band
	off := (h.Deck[1] - h.Deck[0]).Abs()
	if !h.HasDeck || off == 0 {
		return
	}
	at := Spot{"run " + run.Name, bandKey(run.Job)}
	higher := "left"
	if h.Deck[1] > h.Deck[0] {
		higher = "right"
	}
	if off > p.farOut() {
		p.trouble("deck-far-out", at,
			fmt.Sprintf("The deck is %s higher at the %s end than at the other: more than %s over the run.", p.read(off), higher, p.read(p.farOut())),
			"Measure both ends again from the level line; was the second reading taken from the floor?")
	}
	if !h.Follow {
		p.trouble("deck-slopes", at,
			fmt.Sprintf("The deck is %s higher at the %s end; the panels stay level, so the gap below them is %s there and %s at the other end.",
				p.read(off), higher, p.read(h.GapBelow), p.read(h.GapBelow+off)),
			"Mark every block with its panel and its end: the heights differ.")
		return
	}
	text := fmt.Sprintf("The deck is %s higher at the %s end; each panel stands at its own height on it, from %s to %s above the level line",
		p.read(off), higher, p.read(run.Bounds.Min.Y), p.read(run.Bounds.Max.Y-h.Top+h.Bottom))
	if h.HasSill {
		text += fmt.Sprintf("; the gap under the sill goes from %s to %s", p.read(h.Sill-run.Bounds.Max.Y), p.read(h.Sill-h.Top))
	}
	p.trouble("deck-slopes", at, text+".", "Write deck: level to keep the panels in one line.")
}

// watchSharedDecks tells of a deck out of level that runs on several walls share: its two readings are the ends of
// every one of those runs, which no bench round a corner has.
func (p *Plan) watchSharedDecks() {
	for _, band := range p.decked() {
		first := &p.Runs[band[0]]
		deck := first.Band.Deck
		walls, runs := map[int]bool{}, []string{}
		for _, i := range band {
			walls[p.Runs[i].Wall] = true
			runs = append(runs, p.Runs[i].Name)
		}
		if deck[0] == deck[1] || len(walls) < 2 {
			continue
		}
		p.trouble("deck-restarts", Spot{"band " + first.Band.Name, bandKey(first.Job)},
			fmt.Sprintf("Runs %s stand on several walls and share the two seat readings of band %s: on each of them the deck is taken to go from %s at its left end to %s at its right.",
				Listed(runs), first.Band.Name, p.read(deck[0]), p.read(deck[1])),
			"Give every run on a deck out of level a band of its own, with the readings at its own two ends.")
	}
}
