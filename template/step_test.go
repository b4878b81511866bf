package template_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// A tread is a step that a cut block is held against: its height over the foot below it.
type tread struct {
	word       string
	high, foot float64
	at         reader.Point
}

// treads reads the checking steps of a page: under each word lies its tread, a hair line, and below that the foot, a
// wide one.
func treads(p reader.Page) []tread {
	var out []tread
	for _, word := range []string{"too low", "right", "too high"} {
		for _, w := range p.FindText(word) {
			if w.Turn != 0 {
				continue
			}
			x, top, foot := middle(w).X, 0.0, 0.0
			for _, s := range p.Segments() {
				if !s.Level() || min(s.From.X, s.To.X) > x || max(s.From.X, s.To.X) < x || s.From.Y <= w.Y {
					continue
				}
				if s.WidthMM < 0.2 && (top == 0 || s.From.Y < top) {
					top = s.From.Y
				}
				if s.WidthMM > 0.4 && (foot == 0 || s.From.Y < foot) {
					foot = s.From.Y
				}
			}
			out = append(out, tread{word, foot - top, foot, reader.Point{X: x, Y: top}})
		}
	}
	return out
}

// The word over the lower step is "too low", over the higher one "too high", and each is off by what the words under
// them call one step.
func TestTheWordsOfACheckingStepStandOnTheirTreads(t *testing.T) {
	for _, name := range []string{"settle", "bay"} {
		t.Run(name, func(t *testing.T) {
			p := onPaper(t, name, everything())
			steps := 0
			for _, c := range p.of(sheet.Block) {
				for _, i := range p.pagesOf(c) {
					page := p.read[i]
					all := treads(page)
					for _, right := range all {
						if right.word != "right" {
							continue
						}
						steps++
						var one float64 // what the words of this step call one
						for _, w := range page.Containing("one step is ") {
							if abs(w.Y-right.foot) < 10 {
								one, _ = lengthIn(t, w.String, "one step is ", "", p.Job.Units)
							}
						}
						require.Positive(t, one, "page %d: how high is one step?", i+1)
						for word, off := range map[string]float64{"too low": -one, "too high": one} {
							k := slices.IndexFunc(all, func(t tread) bool { return t.word == word && t.foot == right.foot })
							require.GreaterOrEqual(t, k, 0, "page %d: no %q", i+1, word)
							assert.InDelta(t, right.high+off, all[k].high, p.Job.Units.Fine().Millimetres()/2+reader.Within, "page %d: %q", i+1, word)
						}
					}
				}
			}
			assert.Equal(t, len(p.Plan.Blocks), steps)
		})
	}
}

// tallBlocks is a job whose panels stand on blocks taller than a page.
const tallBlocks = `rodsheet: 1
name: High row
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20}
batting: {thickness: 10, pressed: 1.5}
cover: {thickness: 1.5}
clip: {kind: press, base: 40 x 40, flange: 2.5, standoff: 10}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 3}
heights:
  high: {seat: 200, bottom: 897, top: 1297}
walls:
  - name: W
    width: 1000
    height: 2400
    lining: {thickness: 12.5}
    depth: 120
    runs: [{name: H, across: [50, 450], height: high, panels: 1}]
`

// A block taller than a page is a rod: its marks read upward from the deck, "too low" before the block's own height and
// "too high" after it, as far as the words say. The board hangs 3 mm above its finished foot (pressed batting and cover
// 1.5 mm each), so the block for drilling is 897 + 3 − 200 high.
func TestTheWordsOfATallBlocksStepStandAtTheirMarks(t *testing.T) {
	w, err := template.Open("high.yaml", []byte(tallBlocks))
	require.NoError(t, err)
	p := read(t, w, template.Print{Only: []drawing.Kind{sheet.Block}})
	require.Len(t, w.Plan.Blocks, 1)
	// Pieces begin where the one before ends, so places are told by the numbers of the graduation.
	found := map[string]float64{}
	for i, page := range p.read {
		for _, s := range strips(page) {
			scale := s.scale(t, w.Job.Units)
			for _, text := range page.Texts {
				reads, name, ok := rodWords(text, w.Job.Units)
				if !ok || !s.Has(reader.Point{X: text.X, Y: text.Y}) {
					continue
				}
				foot, ok := besideLine(page, text)
				require.True(t, ok, "page %d: %q has no mark", i+1, text.String)
				found[name] = scale(foot.X)
				assert.InDelta(t, reads, found[name], 0.3, "page %d: %q", i+1, text.String)
			}
		}
	}
	require.Len(t, found, 4, "deck, too low, the block, too high: %v", found)
	const high = 897 + 3 - 200
	block := found["block "+w.Plan.Blocks[0].Name]
	assert.InDelta(t, 0, found["stands on the deck"], 2*reader.Within)
	assert.InDelta(t, high, block, 2*reader.Within)
	assert.Less(t, found["too low"], block-0.4)
	assert.InDelta(t, block-found["too low"], found["too high"]-block, 2*reader.Within)
}
