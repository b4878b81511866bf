package sheet

import (
	"fmt"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/plan/blocks"
	"rodsheet/template/plan/finding"
	"rodsheet/template/plan/tolerance"
)

// Room of a block on a page: words above it, the checking step beside it.
const (
	blockHead = 12 * mm // to the first line of words
	blockFoot = 6 * mm  // from the last one to the block
	tread     = 24 * mm
	stepWide  = 3*tread + 6*mm
)

// blocks are the height blocks at actual size, each with a step to check the cut ones against. A block taller than a
// page is printed as a rod.
func (m *maker) blocks() []drawing.Sheet {
	field := m.options.Field
	out := drawing.Sheet{
		Kind: Block, Name: "blocks", Title: "Height blocks", Layout: drawing.Packed,
		Hint: "All blocks equal matters more than the height itself: cut them with one setting.",
	}
	var names []string
	var tall []drawing.Sheet
	for i := range m.plan.Blocks {
		b := &m.plan.Blocks[i]
		words := m.blockLines(b)
		need := b.Height + blockHead + geom.Length(len(words))*linePitch + blockFoot
		if need > field.H {
			tall = append(tall, m.tallBlock(b))
			continue
		}
		names = append(names, b.Name)
		d := drawing.Drawing{Bounds: geom.R(0, 0, field.W, need)}
		m.block(&d, b, words)
		out.Drawings = append(out.Drawings, d)
	}
	out.For = strings.Join(names, ", ")
	if len(names) > 4 {
		out.For = fmt.Sprintf("%d blocks, each by its name", len(names))
	}
	if m.blocksDiffer() {
		out.Hint = "Heights differ: write its name on every block; left and right as you face the wall. Equal names, one setting."
	}
	if len(out.Drawings) == 0 {
		return tall
	}
	return append([]drawing.Sheet{out}, tall...)
}

// blocksDiffer reports whether one band needs blocks of several heights, so that they can be mixed up.
func (m *maker) blocksDiffer() bool {
	blocks := m.plan.Blocks
	for i := range blocks {
		for _, b := range blocks[i+1:] {
			if b.Band == blocks[i].Band && b.Height != blocks[i].Height {
				return true
			}
		}
	}
	return false
}

// heightUncertainty is how far the printed height itself may be off: the tape it is checked with, the paper, the line, and the seams
// where a height too tall for a page is taped together. A step is never finer than that, nor than an eye can read.
func (m *maker) heightUncertainty(height geom.Length) geom.Length {
	acc := m.plan.Job.Accuracy
	sum := tolerance.TapeError(acc.Tape, height) + height.Times(max(acc.Growth[0], acc.Growth[1])) + drawing.HairWidth
	if !m.options.Whole && height+blockHead+3*linePitch+blockFoot > m.options.Field.H {
		sum += (height + 2*rodMargin) / (m.options.Field.W - rodLap) * acc.Seam
	}
	return max(sum, mm/2).Ceil(m.finestStep())
}

// finestStep is the finest step that blocks are given to: 1/64 in or 0.1 mm.
func (m *maker) finestStep() geom.Length {
	if m.plan.Job.Units == geom.Imperial {
		return geom.SixtyFourth
	}
	return mm / 10
}

// block draws one block at the foot of the drawing, its words above it.
func (m *maker) block(d *drawing.Drawing, b *blocks.Block, words []string) {
	top := d.Bounds.Max.Y
	body := geom.R(0, 0, min(b.Foot, m.options.Field.W-stepWide-10*mm), b.Height).Add(geom.Pt(mm, 0)) // off the edge of what prints
	d.Add(outline(body.Polygon(), drawing.Wide, drawing.Cut))
	d.Add(drawing.Text{At: geom.Pt(0, top-6*mm), String: "Block " + b.Name, Height: large, Bold: true})
	for i, l := range words {
		d.Add(drawing.Text{At: geom.Pt(0, top-blockHead-geom.Length(i)*linePitch), String: l, Height: small})
	}
	if b.Height > 12*mm {
		d.Add(
			drawing.Text{At: geom.Pt(body.Centre().X, 2*mm), String: "this edge stands on the deck", Height: small, Anchor: drawing.Middle},
			drawing.Text{At: geom.Pt(body.Centre().X, body.Max.Y-2*mm), String: m.read(b.Height), Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Top},
		)
	}
	m.checkingStep(d, b, geom.Pt(m.options.Field.W-stepWide, 0))
}

// checkingStep is what cut blocks are held against: foot on the line, the top beside the middle step.
func (m *maker) checkingStep(d *drawing.Drawing, b *blocks.Block, o geom.Point) {
	s := m.heightUncertainty(b.Height)
	d.Add(drawing.Line{From: o, To: o.Add(geom.Pt(stepWide, 0)), Pen: drawing.Wide, Role: drawing.Guide})
	x := o.X + 3*mm
	for i, t := range []struct {
		at   geom.Length
		name string
	}{{b.Height - s, "too low"}, {b.Height, "right"}, {b.Height + s, "too high"}} {
		from := geom.Pt(x+geom.Length(i)*tread, o.Y+t.at)
		d.Add(
			drawing.Line{From: from, To: from.Add(geom.Pt(tread, 0)), Pen: drawing.Hair, Role: drawing.Guide},
			drawing.Text{At: from.Add(geom.Pt(tread/2, 2*mm)), String: t.name, Height: small, Bold: i == 1, Anchor: drawing.Middle},
		)
		if i > 0 { // the riser
			d.Add(drawing.Line{From: geom.Pt(from.X, o.Y+t.at-s), To: from, Pen: drawing.Hair, Role: drawing.Guide})
		}
	}
	if b.Height > 22*mm {
		d.Add(
			drawing.Text{At: o.Add(geom.Pt(stepWide/2, 6*mm)), String: "foot of the block on this line", Height: small, Anchor: drawing.Middle},
			drawing.Text{At: o.Add(geom.Pt(stepWide/2, 2*mm)), String: "one step is " + m.read(s), Height: small, Anchor: drawing.Middle},
		)
	} else {
		d.Add(drawing.Text{At: o.Add(geom.Pt(stepWide/2, -4*mm)), String: "foot on this line; one step is " + m.read(s), Height: small, Anchor: drawing.Middle})
	}
}

// blockWords say how high, how many, of what.
func (m *maker) blockWords(b *blocks.Block) []string {
	carries := "finished panels, for hanging"
	if b.Drilling {
		carries = "bare boards, for drilling"
	}
	out := []string{fmt.Sprintf("Cut %d, %s high. It carries %s: %s.", b.Count, m.read(b.Height), carries, m.panelNames(b.Panels))}
	rip := "rip all of them from one piece, with one setting."
	if b.Count == 1 {
		rip = "rip it from one piece."
	}
	if len(b.Stack) > 0 {
		out = append(out, fmt.Sprintf("Stack: %s = %s%s. Or %s", m.stack(b.Stack), m.read(b.Made), m.stackError(b), rip))
	} else {
		out = append(out, strings.ToUpper(rip[:1])+rip[1:])
	}
	if spread := b.Spread(); spread > 0 {
		out = append(out, "Its places differ by "+m.spread(spread)+", which no saw can tell: one height serves them all.")
	}
	if top := b.FromLine(m.plan.Job, m.read); top != "" {
		out = append(out, "On the deck its top is "+top+".")
	}
	return append(out, fmt.Sprintf("The step is as fine as line, paper, seams and measuring tape allow: %s.", m.read(m.heightUncertainty(b.Height))))
}

// spread writes a difference that is finer than any rule.
func (m *maker) spread(l geom.Length) string {
	const least = 10 * geom.Micrometre
	if l = l.Ceil(least); m.plan.Job.Units == geom.Imperial {
		return fmt.Sprintf("%.4f″", l.Inches())
	}
	return fmt.Sprintf("%.2f mm", l.Millimetres())
}

// blockLines are a block's words as lines of the page.
func (m *maker) blockLines(b *blocks.Block) []string {
	var out []string
	for _, w := range m.blockWords(b) {
		out = append(out, font.Wrap(w, small, false, m.options.Field.W)...)
	}
	return out
}

// stackError says how far a stack is from its block's height.
func (m *maker) stackError(b *blocks.Block) string {
	off, word := b.Made-b.Height, "more"
	if off < 0 {
		word = "less"
	}
	within := m.plan.Job.Blocks.Within
	switch shown := off.Abs().Round(m.finestStep()); {
	case off.Abs() > within:
		return fmt.Sprintf(", %s %s than the height, and you allow %s", m.read(off.Abs()), word, m.read(within))
	case shown > 0:
		return fmt.Sprintf(", %s %s than the height, within the %s that you allow", m.read(shown), word, m.read(within))
	}
	return ""
}

// stack writes pieces with their counts: "2 × 3/4″ + 1/8″".
func (m *maker) stack(pieces []geom.Length) string {
	return strings.Join(finding.Repeated(pieces, m.read), " + ")
}

// tallBlock prints a block's height as a rod, with the checking step as three marks.
func (m *maker) tallBlock(b *blocks.Block) drawing.Sheet {
	s := m.heightUncertainty(b.Height)
	r := rod{
		title: "Block " + b.Name, up: true, start: "reads from the deck", notes: m.blockWords(b),
	}
	r.add(0, "stands on the deck", drawing.Wide)
	r.add(b.Height-s, "too low", drawing.Narrow)
	r.add(b.Height, "block "+b.Name, drawing.Wide)
	r.add(b.Height+s, "too high", drawing.Narrow)
	return m.strip(drawing.Sheet{
		Kind: Block, Name: "block " + b.Name, Title: "Height block " + b.Name, For: m.blockWords(b)[0],
		Hint: "Too tall for a page: tape the pieces, mark the blocks from them, cut all with one setting.",
	}, r)
}
