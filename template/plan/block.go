package plan

import (
	"fmt"
	"slices"

	"rodsheet/geom"
	"rodsheet/geom/stack"
	"rodsheet/template/job"
)

// A Block is a height block: it stands on the deck and carries a board or a finished panel.
type Block struct {
	Name     string      // "settle", "bay left", "bay N3 right"
	Band     string      // the band's name, or the run's where the band has none
	Height   geom.Length // exact
	Foot     geom.Length
	Drilling bool          // carries bare boards; else finished panels
	Stack    []geom.Length // thickest first, from the stock, as near to Height as it comes; nil when no stock was given
	Made     geom.Length   // sum of Stack
	Count    int
	Panels   []int // into Plan.Panels
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

// stack works out the height blocks: for every panel over a deck how high its board (for drilling) or its finished
// edge (for hanging) lies over the deck at its two ends. Panels of one band share the blocks of equal height.
func (p *Plan) stack() {
	use := p.Job.Blocks.For
	for _, drilling := range []bool{true, false} {
		if drilling && use == job.ForHanging || !drilling && use == job.ForDrilling {
			continue
		}
		for _, band := range p.decked() {
			p.stackBand(band, drilling)
		}
	}
}

// decked are the runs that stand over a deck, those of one band together, in the order of the job.
func (p *Plan) decked() (bands [][]int) {
	at := map[string]int{}
	for i := range p.Runs {
		h := p.Runs[i].Band
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

func (p *Plan) stackBand(runs []int, drilling bool) {
	name := p.Runs[runs[0]].Band.Name
	if name == "" {
		name = p.Runs[runs[0]].Name
	}
	var blocks []Block
	var sides [][]side // beside Block.Panels
	for _, r := range runs {
		run := &p.Runs[r]
		for _, i := range run.Panels {
			finished := p.Panels[i].Finished.Bounds()
			bottom := finished.Min.Y
			if drilling {
				bottom = p.Panels[i].Outline.Bounds().Min.Y
			}
			for _, end := range []side{leftEnd, rightEnd} {
				x := finished.Min.X
				if end == rightEnd {
					x = finished.Max.X
				}
				height := bottom - run.Band.deckAt(x, run.Bounds.Min.X, run.Bounds.Max.X)
				if height <= 0 {
					p.watchDeckHeight(run, i, height, drilling)
					continue
				}
				k := slices.IndexFunc(blocks, func(b Block) bool { return (b.Height - height).Abs() < apart })
				if k < 0 {
					k = len(blocks)
					blocks = append(blocks, Block{Band: name, Height: height, Foot: p.Job.Blocks.Foot, Drilling: drilling})
					sides = append(sides, nil)
				}
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
	p.Blocks = append(p.Blocks, blocks...)
}

// nameBlocks names the blocks of one band, and counts them: a panel stands on two at a time, two equal ones or one of
// each height.
func (p *Plan) nameBlocks(blocks []Block, sides [][]side) {
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

// watchDeckHeight tells of a panel that would begin below the deck. One that begins on it needs no block.
func (p *Plan) watchDeckHeight(run *Run, panel int, height geom.Length, drilling bool) {
	if height == 0 {
		return
	}
	name, what := p.Panels[panel].Name, "finished edge"
	if drilling {
		what = "board"
	}
	p.trouble("below-deck", Spot{name, bandKey(run.Job)},
		fmt.Sprintf("The %s of %s begins %s below the deck it should stand over.", what, name, p.read(-height)),
		fmt.Sprintf("Let the band begin %s higher, or take seat out of it.", p.read(-height)))
}

// build makes a block up from the stock.
func (p *Plan) build(b *Block) {
	stock := slices.Clone(p.Job.Blocks.Stock)
	if len(stock) == 0 {
		return
	}
	slices.Sort(stock)
	within := p.Job.Blocks.Within
	found, err := stack.Find(b.Height, min(within, b.Height-1), slices.Compact(stock))
	at := Spot{"block " + b.Name, "blocks.stock"}
	all := fmt.Sprintf("all %d blocks %s high from one piece.", b.Count, p.read(b.Height))
	switch b.Count {
	case 1:
		all = fmt.Sprintf("it %s high from one piece.", p.read(b.Height))
	case 2:
		all = fmt.Sprintf("both blocks %s high from one piece.", p.read(b.Height))
	}
	if err != nil {
		p.trouble("stack-misses", at, fmt.Sprintf("Block %s, %s high, could not be made up from stock: %v.", b.Name, p.read(b.Height), err), "Rip "+all)
		return
	}
	if found.OK {
		b.Stack, b.Made = found.Pieces, found.Made
		return
	}
	remedy := "Rip " + all
	text := fmt.Sprintf("Block %s, %s high: the nearest that the stock makes is", b.Name, p.read(b.Height))
	switch {
	case found.Below == nil:
		b.Stack, b.Made = found.Above.Pieces, found.Above.Made
		text += fmt.Sprintf(" %s, since every piece is thicker", p.read(found.Above.Made))
	case found.Above == nil || b.Height-found.Below.Made <= found.Above.Made-b.Height:
		b.Stack, b.Made = found.Below.Pieces, found.Below.Made
	default:
		b.Stack, b.Made = found.Above.Pieces, found.Above.Made
	}
	if found.Below != nil {
		text += fmt.Sprintf(" %s below", p.read(found.Below.Made))
		if found.Above != nil {
			text += fmt.Sprintf(" and %s above", p.read(found.Above.Made))
		}
		remedy = fmt.Sprintf("Lay %s of veneer, card or paper on the stack of %s, or rip %s", p.read(found.Missing), p.read(found.Below.Made), all)
	}
	p.trouble("stack-misses", at, text+fmt.Sprintf("; it should come within %s.", p.read(within)), remedy)
}
