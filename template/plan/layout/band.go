package layout

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// BandTooLow: the panels are higher than the room between cushion and sill.
type BandTooLow struct{ Panel, Room geom.Length }

// ID implements [finding.Params].
func (BandTooLow) ID() string { return "band-too-low" }

// DeckFarOut: the two readings of a deck are further apart than decks are.
type DeckFarOut struct {
	Off    geom.Length
	Higher string // the end, "left" or "right"
	Most   geom.Length
}

// ID implements [finding.Params].
func (DeckFarOut) ID() string { return "deck-far-out" }

// DeckSlopes: the two readings of a deck differ, and gaps or panels with them.
type DeckSlopes struct {
	Off      geom.Length
	Higher   string    // the end, "left" or "right"
	Follow   bool      // each panel stands at its own height; else they stay level
	GapBelow geom.Span // level: at the higher end and at the other
	Stand    geom.Span // following: the lowest and the highest foot, above zero
	HasSill  bool      // following
	GapAbove geom.Span // following: the least and the greatest under the sill
}

// ID implements [finding.Params].
func (DeckSlopes) ID() string { return "deck-slopes" }

// DeckRestarts: runs on several walls share the two readings of a deck out of level.
type DeckRestarts struct {
	Runs        []string
	Left, Right geom.Length
}

// ID implements [finding.Params].
func (DeckRestarts) ID() string { return "deck-restarts" }

// farOut is how much a deck may be out of level before a slip of the tape is the likelier reason.
func (p *planner) farOut() geom.Length { return p.Job.Units.Pick(2*geom.Inch, 50*geom.Millimetre) }

// measure works out how a run's band stands. On a deck that is out of level its higher end counts, so that the gap
// above the cushion is nowhere less than it was meant to be.
func (p *planner) measure(r *job.Run, problems *job.Problems) (*Heights, bool) {
	b := &r.Band
	h := &Heights{Name: b.Name, HasDeck: b.HasSeat || !b.Direct, Deck: b.Seat, Cushion: b.Cushion}
	h.Follow = b.Follow && h.Deck[0] != h.Deck[1]
	bottom, top := b.Bottom, b.Top
	if b.Direct {
		if top <= bottom {
			problems.Add(r.Band.Key, "the top, %s, must lie above the bottom, %s", p.read(top), p.read(bottom))
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
		problems.Add(r.Band.Key, "a panel %s high leaves no board inside its cover; it must be at least %s",
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
func (p *planner) share(r *job.Run, problems *job.Problems) (gap, panel geom.Length, ok bool) {
	b := &r.Band
	low := max(b.Seat[0], b.Seat[1]) + b.Cushion
	room := b.Sill - low
	fixed := b.HasGap && !b.EvenGap
	switch {
	case b.Sill == 0 && b.Panel > 0 && fixed:
		return b.Gap, b.Panel, true
	case b.Sill == 0:
		problems.Add(r.Band.Key, "the band has no sill; give the sill, or panel and gap both")
		return 0, 0, false
	case room <= 0:
		problems.Add(r.Band.Key, "the sill, %s, must lie above the cushion, whose top is at %s (seat %s + cushion %s)",
			p.read(b.Sill), p.read(low), p.read(low-b.Cushion), p.read(b.Cushion))
		return 0, 0, false
	case b.Panel > 0 && fixed:
		if b.Panel+2*b.Gap != room {
			problems.Add(r.Band.Key, "panel %s with two gaps of %s makes %s, but between cushion and sill are %s; leave out one, or write panel: %s or gap: even",
				p.read(b.Panel), p.read(b.Gap), p.read(b.Panel+2*b.Gap), p.read(room), p.read(max(room-2*b.Gap, 0)))
			return 0, 0, false
		}
		return b.Gap, b.Panel, true
	case b.Panel > 0:
		if b.Panel > room {
			p.found.Add(finding.OfRun(r.Band.Key, r.Name), r.Band.Key+".panel", BandTooLow{Panel: b.Panel, Room: room})
			return 0, b.Panel, true
		}
		return (room - b.Panel) / 2, b.Panel, true
	case fixed:
		if 2*b.Gap >= room {
			problems.Add(r.Band.Key, "two gaps of %s leave no panel between cushion and sill, where there are %s",
				p.read(b.Gap), p.read(room))
			return 0, 0, false
		}
		return b.Gap, room - 2*b.Gap, true
	}
	problems.Add(r.Band.Key, "an even gap needs a panel height; give panel, or gap as a length (there are %s between cushion and sill)", p.read(room))
	return 0, 0, false
}

// high is the higher end of the deck.
func (h *Heights) high() geom.Length { return max(h.Deck[0], h.Deck[1]) }

// DeckAt is the height of the deck under the run at x, straight between the readings at its two ends; the run must have
// a deck.
func (r *Run) DeckAt(x geom.Length) geom.Length {
	return r.Band.deckAt(x, r.Bounds.Min.X, r.Bounds.Max.X)
}

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

// checkDeck reports how far a deck is out of level and what that does to the panels.
func (p *planner) checkDeck(run *Run) {
	h := run.Band
	off := (h.Deck[1] - h.Deck[0]).Abs()
	if !h.HasDeck || off == 0 {
		return
	}
	key := run.Job.Band.Key
	at := finding.OfRun(key, run.Name)
	higher := "left"
	if h.Deck[1] > h.Deck[0] {
		higher = "right"
	}
	if off > p.farOut() {
		p.found.Add(at, key+".seat", DeckFarOut{Off: off, Higher: higher, Most: p.farOut()})
	}
	if !h.Follow {
		p.found.Add(at, key+".seat", DeckSlopes{Off: off, Higher: higher, GapBelow: geom.Span{From: h.GapBelow, To: h.GapBelow + off}})
		return
	}
	f := DeckSlopes{Off: off, Higher: higher, Follow: true, Stand: geom.Span{From: run.Bounds.Min.Y, To: run.Bounds.Max.Y - h.Top + h.Bottom}}
	if h.HasSill {
		f.HasSill, f.GapAbove = true, geom.Span{From: h.Sill - run.Bounds.Max.Y, To: h.Sill - h.Top}
	}
	p.found.Add(at, key+".deck", f)
}

// checkSharedDecks reports a deck out of level that runs on several walls share: its two readings are the ends of
// every one of those runs, which no bench round a corner has.
func (p *planner) checkSharedDecks() {
	for _, band := range p.Decked() {
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
		key := first.Job.Band.Key
		p.found.Add(finding.OfOne(finding.Band, key, first.Band.Name), key+".seat", DeckRestarts{Runs: runs, Left: deck[0], Right: deck[1]})
	}
}

// Decked are the runs that stand over a deck, those of one band together, in the order of the job.
func (l *Layout) Decked() (bands [][]int) {
	at := map[string]int{}
	for i := range l.Runs {
		h := l.Runs[i].Band
		if h == nil || !h.HasDeck {
			continue
		}
		k, known := at[h.Name]
		if !known || h.Name == "" {
			k = len(bands)
			at[h.Name] = k
			bands = append(bands, nil)
		}
		bands[k] = append(bands[k], i)
	}
	return bands
}
