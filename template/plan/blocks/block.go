// Package blocks works out height blocks: what stands on a deck and carries a board while it is drilled, or a panel while
// it is hung, made up from the stock at hand by package stack.
package blocks

import (
	"slices"

	"rodsheet/geom"
	"rodsheet/geom/stack"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/layout"
)

// A Block is a height block: it stands on the deck and carries a board or a finished panel.
type Block struct {
	Name     string        // "settle", "bay left", "bay N3 right"
	Band     string        // the band's name, or the run's where the band has none
	Height   geom.Length   // exact, of the first place
	Heights  []geom.Length // exact, of every place that differs, ascending: none farther than apart from Height
	Tops     geom.Span     // the lowest and highest edge that stands on it, on the wall
	Foot     geom.Length
	Drilling bool          // carries bare boards; else finished panels
	Stack    []geom.Length // thickest first, from the stock, as near to Height as it comes; nil when no stock was given
	Made     geom.Length   // sum of Stack
	Count    int
	Panels   []int // into Layout.Panels
}

// apart is how much two heights must differ to need two blocks. On a deck a little out of level the right end of a panel
// and the left end of the next differ by what the deck rises over the gap between them, which no saw can tell.
const apart = 100 * geom.Micrometre

// A side is the end of a panel that a block stands under.
type side int

const (
	leftEnd side = 1 << iota
	rightEnd
)

// A planner is a layout on the way to its blocks.
type planner struct {
	Job *job.Job
	*layout.Layout
	blocks []Block
	found  finding.List
}

// Of works out the height blocks: for every panel over a deck how high its board (for drilling) or its finished edge
// (for hanging) lies over the deck at its two ends. Panels of one band share the blocks of equal height.
func Of(j *job.Job, l *layout.Layout) ([]Block, finding.List) {
	p := &planner{Job: j, Layout: l}
	use := p.Job.Blocks.For
	for _, drilling := range []bool{true, false} {
		if drilling && use == job.ForHanging || !drilling && use == job.ForDrilling {
			continue
		}
		for _, band := range p.Decked() {
			p.stackBand(band, drilling)
		}
	}
	return p.blocks, p.found
}

func (p *planner) stackBand(runs []int, drilling bool) {
	name := p.Runs[runs[0]].Band.Name
	if name == "" {
		name = p.Runs[runs[0]].Name
	}
	var blocks []Block
	var sides [][]side // beside Block.Panels
	for _, r := range runs {
		run := &p.Runs[r]
		for _, i := range run.Panels {
			foot, stands := p.foot(run, i)
			if !stands {
				continue
			}
			bottom := p.Panels[i].Finished.Bounds().Min.Y
			if drilling {
				bottom = p.Panels[i].Outline.Bounds().Min.Y
			}
			for _, end := range []side{leftEnd, rightEnd} {
				x := foot.From
				if end == rightEnd {
					x = foot.To
				}
				height := bottom - run.DeckAt(x)
				if height <= 0 {
					p.checkAboveDeck(run, i, height, drilling)
					continue
				}
				k := slices.IndexFunc(blocks, func(b Block) bool { return (b.Height - height).Abs() < apart })
				if k < 0 {
					k = len(blocks)
					blocks = append(blocks, Block{Band: name, Height: height, Tops: geom.Span{From: bottom, To: bottom}, Foot: p.Job.Blocks.Foot, Drilling: drilling})
					sides = append(sides, nil)
				}
				blocks[k].stand(height, bottom)
				if n := len(blocks[k].Panels); n > 0 && blocks[k].Panels[n-1] == i {
					sides[k][n-1] |= end
					continue
				}
				blocks[k].Panels = append(blocks[k].Panels, i)
				sides[k] = append(sides[k], end)
			}
		}
	}
	p.nameBlocks(blocks, sides)
	for i := range blocks {
		p.build(&blocks[i])
	}
	p.blocks = append(p.blocks, blocks...)
}

// stand counts a place of the given height, under an edge at the given height on the wall.
func (b *Block) stand(height, edge geom.Length) {
	if i, has := slices.BinarySearch(b.Heights, height); !has {
		b.Heights = slices.Insert(b.Heights, i, height)
	}
	b.Tops = geom.Span{From: min(b.Tops.From, edge), To: max(b.Tops.To, edge)}
}

// Spread is how much the heights differ that the block serves as one; 0 where all are equal.
func (b *Block) Spread() geom.Length { return b.Heights[len(b.Heights)-1] - b.Heights[0] }

// FromLine is where the block's top stands, as it is read from the marked line; "" when none is marked.
func (b *Block) FromLine(j *job.Job, read func(geom.Length) string) string {
	from, to := j.FromLine(b.Tops.From, read), j.FromLine(b.Tops.To, read)
	if from == to {
		return from
	}
	return from + " to " + to
}

// foot is the level lower edge by which a panel can stand on blocks. In an area only the pieces along its lower side do:
// ok is false for one over an opening, and for one whose lower edge slopes.
func (p *planner) foot(run *layout.Run, panel int) (foot geom.Span, ok bool) {
	finished := p.Panels[panel].Finished
	b := finished.Bounds()
	if len(run.Job.Area) == 0 {
		return geom.Span{From: b.Min.X, To: b.Max.X}, true
	}
	for _, e := range finished.BottomEdges() {
		if e.A.Y != b.Min.Y || e.B.Y != b.Min.Y {
			continue
		}
		if !ok {
			foot = geom.Span{From: e.A.X, To: e.B.X}
		}
		foot.From, foot.To, ok = min(foot.From, e.A.X), max(foot.To, e.B.X), true
	}
	return foot, ok && slices.ContainsFunc(run.Job.Area.SpansAtX(foot.From+foot.Length()/2), func(s geom.Span) bool {
		return s.From+run.Job.Ends == b.Min.Y
	})
}

// nameBlocks names the blocks of one band, and counts them: a panel stands on two at a time, two equal ones or one of
// each height.
func (p *planner) nameBlocks(blocks []Block, sides [][]side) {
	taken := map[string]bool{}
	for i := range blocks {
		b := &blocks[i]
		all := side(0)
		b.Count = 1
		for _, s := range sides[i] {
			all |= s
			if s == leftEnd|rightEnd {
				b.Count = 2
			}
		}
		if p.Job.Blocks.Count > 0 {
			b.Count = p.Job.Blocks.Count
		}
		suffix, first := endName(all), " "+p.Panels[b.Panels[0]].Name
		switch {
		case len(blocks) == 1:
			suffix = ""
		case len(b.Panels) == 1:
			suffix = first + suffix
		case suffix == "" || taken[suffix]:
			suffix = first + endName(sides[i][0])
		}
		taken[suffix] = true
		b.Name = b.Band + suffix
		if p.Job.Blocks.For == job.ForBoth {
			b.Name += map[bool]string{true: " drilling", false: " hanging"}[b.Drilling]
		}
	}
}

func endName(s side) string {
	switch s {
	case leftEnd:
		return " left"
	case rightEnd:
		return " right"
	}
	return ""
}

// BelowDeck: a panel would begin below the deck it stands over.
type BelowDeck struct {
	By       geom.Length
	Drilling bool // the board's edge, not the finished one
}

// ID implements [finding.Params].
func (BelowDeck) ID() string { return "below-deck" }

// StackMisses: no stack of the stock at hand comes near enough to a block's height.
type StackMisses struct {
	Block  string
	Height geom.Length
	Count  int         // of the blocks
	Within geom.Length // how near is near enough
	Below  geom.Length // the nearest stack that is too low; 0: every piece is thicker
	Above  geom.Length // the nearest that is too high; 0 for none
	Reason string      // why no stack could be looked for; "" when one was
}

// ID implements [finding.Params].
func (StackMisses) ID() string { return "stack-misses" }

// checkAboveDeck reports a panel that would begin below the deck. One that begins on it needs no block.
func (p *planner) checkAboveDeck(run *layout.Run, panel int, height geom.Length, drilling bool) {
	if height == 0 {
		return
	}
	p.found.Add(finding.OfPanels(run.Job.Band.Key, p.Panels[panel].Name), layout.BottomField(run.Job), BelowDeck{By: -height, Drilling: drilling})
}

// build makes a block up from the stock.
func (p *planner) build(b *Block) {
	stock := slices.Clone(p.Job.Blocks.Stock)
	if len(stock) == 0 {
		return
	}
	slices.Sort(stock)
	within := p.Job.Blocks.Within
	found, err := stack.Find(b.Height, min(within, b.Height-1), slices.Compact(stock))
	misses := StackMisses{Block: b.Name, Height: b.Height, Count: b.Count, Within: within}
	report := func() {
		p.found.Add(finding.OfOne(finding.Block, "blocks.stock", b.Name, p.NamesOf(b.Panels)...), "blocks.stock", misses)
	}
	if err != nil {
		misses.Reason = err.Error()
		report()
		return
	}
	if found.OK {
		b.Stack, b.Made = found.Pieces, found.Made
		return
	}
	if found.Below != nil {
		misses.Below = found.Below.Made
	}
	if found.Above != nil {
		misses.Above = found.Above.Made
	}
	if found.Below == nil || found.Above != nil && b.Height-found.Below.Made > found.Above.Made-b.Height {
		b.Stack, b.Made = found.Above.Pieces, found.Above.Made
	} else {
		b.Stack, b.Made = found.Below.Pieces, found.Below.Made
	}
	report()
}
