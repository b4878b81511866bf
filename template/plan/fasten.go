package plan

import (
	"fmt"
	"strings"

	"rodsheet/geom"
)

// panelSpot is what a trouble with one panel is about.
func (p *Plan) panelSpot(panel int) Spot {
	spot := Spot{Name: p.Panels[panel].Name}
	if run := p.Runs[p.Panels[panel].Run].Job; run != nil {
		spot.Key = run.Key
	}
	return spot
}

// judgeBoardScrew tells each panel what the board screw does to it, in the same words, so that they can be read as one.
func (p *Plan) judgeBoardScrew() {
	b := p.Screws.Board
	if b.Count == 0 {
		return
	}
	var id, text string
	screw := p.screwName(b.Screw.Gauge, b.Screw.Diameter, b.Screw.Length)
	switch {
	case b.Out > 0:
		id = "screw-through"
		text = fmt.Sprintf("The %s comes out through the face by %s: it is %s long, the clip takes %s of it, and the board may be as thin as %s.",
			screw, p.read(b.Out), p.read(b.Screw.Length), p.read(p.Job.Clip.Board.Flange), p.read(b.Thin))
	case b.InBoard < p.leastThread():
		id = "screw-short"
		text = fmt.Sprintf("The %s has only %s of thread in the board; %s is the least that holds.",
			screw, p.read(max(0, b.InBoard)), p.read(p.leastThread()))
	case !b.Fits:
		id = "screw-near-face"
		text = fmt.Sprintf("The tip of the %s stops %s short of the face; with less than %s it can lift the face or be felt.",
			screw, p.read(-b.Out), p.read(p.shortOfFace()))
	}
	for i := range p.Panels {
		if id != "" && len(p.Panels[i].Clips) > 0 {
			p.trouble(id, p.panelSpot(i), text, p.boardScrewRemedy())
		}
	}
	if b.Root > 0 && p.Job.Screws.Marker > b.Root {
		p.trouble("marker-wide", Spot{Key: "screws.marker"},
			fmt.Sprintf("The %s marker bit is thicker than the root of the board screw, %s: the thread would have little to bite on in the board.",
				p.read(p.Job.Screws.Marker), p.read(b.Root)),
			fmt.Sprintf("Take a bit of %s or less.", p.read(DrillsNear(b.Root, p.Job.Units).Below)))
	}
}

func (p *Plan) boardScrewRemedy() string {
	b := p.Screws.Board
	least := p.Job.Clip.Board.Flange + p.leastThread()
	most := p.Job.Clip.Board.Flange + b.Thin - p.shortOfFace()
	ground := ""
	if b.Out > 0 {
		ground = " Or grind the tips flush, with eye protection, before the foam goes on."
	}
	switch {
	case len(b.OnHand) > 0:
		return fmt.Sprintf("Use the %s screws you have.%s", p.read(b.OnHand[len(b.OnHand)-1]), ground)
	case least > most:
		return fmt.Sprintf("No screw fits this board; a thicker board would: %s for the shortest screw that holds.%s", p.read(p.boardFor(0)), ground)
	case len(p.Job.Screws.OnHand) > 0:
		board, screw := b.Board, "this one"
		for _, l := range p.Job.Screws.OnHand {
			if needs := p.boardFor(l); needs < board && l-p.Job.Clip.Board.Flange >= p.leastThread() {
				board, screw = needs, "the "+p.read(l)+" screws you have"
			}
		}
		return fmt.Sprintf("None of the lengths on hand fits: a screw from %s to %s would, or a board of %s for %s.%s",
			p.atLeast(least), p.atMost(most), p.read(board), screw, ground)
	}
	return fmt.Sprintf("Take a screw from %s to %s long, or a board of %s.%s", p.atLeast(least), p.atMost(most), p.read(b.Board), ground)
}

// screwName is a screw as people ask for it: `#8 × 1 1/4″ screw`, `4 × 30 mm screw`.
func (p *Plan) screwName(gauge int, diameter, length geom.Length) string {
	if gauge > 0 {
		return fmt.Sprintf("#%d × %s screw", gauge, p.read(length))
	}
	return fmt.Sprintf("%s × %s screw", diameter.Bare(p.Job.Units), p.read(length))
}

// atMost and atLeast write limits: what lies on no mark of the rule goes to the mark on the side that keeps the limit.
func (p *Plan) atMost(l geom.Length) string { return p.read(markBelow(l, p.Job.Units)) }

func (p *Plan) atLeast(l geom.Length) string { return p.read(-markBelow(-l, p.Job.Units)) }

// markBelow is the greatest length on a mark of the rule that is not above l.
func markBelow(l geom.Length, s geom.System) geom.Length {
	if s == geom.Imperial {
		return l.Floor(geom.SixtyFourth)
	}
	return l.Floor(s.Fine())
}

// judgeWalls tells what isn't known of each wall that screws go into.
func (p *Plan) judgeWalls() {
	for w := range p.Walls {
		used, unknown := false, false
		for _, s := range p.Screws.Wall {
			if s.Wall == w {
				used = true
				unknown = unknown || !s.HasLeft
			}
		}
		wall := p.Walls[w].Job
		at := func(field string) Spot { return Spot{"wall " + wall.Name, wall.Key + field} }
		if !used {
			continue
		}
		if unknown {
			p.trouble("depth-unknown", at(".depth"),
				"Nobody has said how deep the wall is, nor how deep its studs or rails are: whether a screw comes out of the far side can't be told.",
				"Measure at a doorway, a box or a small test hole, and give `depth`.")
		}
		if !wall.Lining.Given {
			p.trouble("lining-unknown", at(".lining"),
				"The thickness of the lining is not given; the screws are worked out as if there were none, so they may reach less deep into the wood than shown.",
				"Measure it at a socket box or a small test hole, and give `lining`.")
		}
	}
}

// judgeWallScrews tells a panel what the wall screws do behind it.
func (p *Plan) judgeWallScrews(panel int) {
	uses := map[int]bool{} // into Screws.Wall
	for _, c := range p.Panels[panel].Clips {
		uses[p.wallScrewAt(panel, c)] = true
	}
	spot := p.panelSpot(panel)
	for i, s := range p.Screws.Wall {
		if !uses[i] {
			continue
		}
		p.judgeFarSide(spot, s)
		if s.On == OnLining {
			continue // told once a run, with the clips' places
		}
		p.judgeDepth(spot, s)
		if p.Screws.DrillThrough && p.Job.Screws.Marker > s.Root {
			p.trouble("marker-wide", spot,
				fmt.Sprintf("The %s marker bit is thicker than the root of the wall screw, %s: where it goes on into the %s the thread would have little to bite on.",
					p.read(p.Job.Screws.Marker), p.read(s.Root), s.On),
				fmt.Sprintf("Mark through the board only as deep as the lining, then drill on with %s.", p.read(s.Hole.Bit)))
		}
	}
}

func (p *Plan) judgeFarSide(spot Spot, s WallScrew) {
	if !s.HasLeft || s.Left >= farSide {
		return
	}
	what := fmt.Sprintf("leaves only %s of it", p.read(s.Left))
	switch {
	case s.Left < 0:
		what = fmt.Sprintf("comes out of the far side by %s", p.read(-s.Left))
	case s.Left == 0:
		what = "reaches the far side"
	}
	most := s.Screw.Length + s.Left - farSide
	remedy := fmt.Sprintf("Take a screw no longer than %s.", p.atMost(most))
	if len(s.OnHand) > 0 {
		remedy = fmt.Sprintf("Use the %s screws you have.", p.read(s.OnHand[len(s.OnHand)-1]))
	} else if s.On != OnLining && s.Least > most {
		remedy = fmt.Sprintf("There is not depth enough for a screw that holds: %s long at most, and %s are wanted. A thinner screw, or a rail fixed across the studs, would do.",
			p.atMost(most), p.atLeast(s.Least))
	}
	p.trouble("screw-far-side", spot,
		fmt.Sprintf("The %s goes %s into a wall that is %s deep there and %s; %s must remain.",
			p.screwName(s.Screw.Gauge, s.Screw.Diameter, s.Screw.Length), p.read(s.Tip), p.read(s.Tip+s.Left), what, p.read(farSide)), remedy)
}

// judgeDepth holds a wall screw in wood against 6 D and the guarded depth.
func (p *Plan) judgeDepth(spot Spot, s WallScrew) {
	sixD := 6 * s.Screw.Diameter
	screw := p.screwName(s.Screw.Gauge, s.Screw.Diameter, s.Screw.Length)
	switch {
	case s.InWood > GuardedDepth:
		p.trouble("screw-deep", spot,
			fmt.Sprintf("The %s goes %s into the %s. Cables in wood are kept at least %s behind its face, or behind a steel plate; deeper than that a screw may meet one.",
				screw, p.read(s.InWood), s.On, p.read(GuardedDepth)), p.wallScrewRemedy(s))
	case s.InWood < sixD && sixD > GuardedDepth:
		p.trouble("screw-depth-limit", spot,
			fmt.Sprintf("A screw of this diameter wants %s in the %s (6 diameters), but no screw should go deeper than %s; the depth limit stands. The %s has %s.",
				p.read(sixD), s.On, p.read(GuardedDepth), screw, p.read(max(0, s.InWood))),
			"Take a thinner screw and more of them, or a screw as long as the depth limit lets.")
	case s.InWood < sixD:
		p.trouble("screw-shallow", spot,
			fmt.Sprintf("The %s has only %s in the %s behind clip, shim and lining; it wants %s (6 diameters).",
				screw, p.read(max(0, s.InWood)), s.On, p.read(sixD)), p.wallScrewRemedy(s))
	}
}

func (p *Plan) wallScrewRemedy(s WallScrew) string {
	parts := []string{p.read(p.Job.Clip.Wall.Flange) + " clip"}
	if s.Shim > 0 {
		parts = append(parts, p.read(s.Shim)+" shim")
	}
	if s.Lining > 0 {
		parts = append(parts, p.read(s.Lining)+" lining")
	}
	sum := strings.Join(parts, " + ")
	switch {
	case len(s.OnHand) > 0:
		return fmt.Sprintf("Use the %s screws you have (%s + the wood).", p.read(s.OnHand[len(s.OnHand)-1]), sum)
	case s.Least > s.Most:
		return fmt.Sprintf("Take a screw no longer than %s, and a thinner one: 6 diameters of this one don't fit (%s + the wood).", p.atMost(s.Most), sum)
	}
	return fmt.Sprintf("Take a screw from %s to %s long (%s + the wood).", p.atLeast(s.Least), p.atMost(s.Most), sum)
}
