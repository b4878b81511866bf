package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
)

// room is a job of one wall with a deck and the given band and run.
func room(band, more string) string {
	return metric(fmt.Sprintf(`heights:
  bay: %s
walls:
  - name: W
    width: 2400
    height: 2400
    lining: {thickness: 12.5}
    depth: 120
    studs: {from: 200, every: 400, width: 45}
    runs:
      - {name: R, across: [20, 2380], height: bay, panels: 6, gap: 6}
%s`, band, more))
}

// A checking step is no finer than a tape can tell: EU 2014/32/EU Annex X (MI-008) ch. 1 Table 1, a + b·L with L rounded
// up to whole metres, worked for 1, 3 and 5 m; both ends are read at lines, so nothing is added for a hook. To it come
// the paper, the line and the seams, and what is told is what is drawn.
func TestACheckingStepIsAsFineAsLinePaperAndTapeAllow(t *testing.T) {
	for _, row := range []struct {
		class  string
		tape   geom.Length // of a block of 110 mm, mm/10
		height geom.Length
	}{
		{"I", 2, 110 * mm}, {"II", 5, 110 * mm}, {"III", 10, 110 * mm},
		{"I", 4, 2500 * mm}, {"II", 9, 2500 * mm}, {"III", 18, 2500 * mm},
		{"I", 6, 4999 * mm}, {"II", 13, 4999 * mm}, {"III", 26, 4999 * mm},
	} {
		m := makerOf(t, room("{seat: 400, bottom: 510, top: 810}", "accuracy: {tape: "+row.class+", growth: [0.1 %, 0.2 %], seam: 0.3}\n"))
		least := row.tape*mm/10 + row.height/500 + drawing.HairWidth
		if row.height > a4Field.H { // a rod, taped from pieces of 186 − 10 mm, each seam 0.3 mm off at most
			least += 3 * mm / 10 * ((row.height+2*rodMargin+176*mm-1)/(176*mm) - 1)
		}
		step := m.heightUncertainty(row.height)
		assert.GreaterOrEqual(t, step, least, "class %s over %v", row.class, row.height)
		assert.Less(t, step, max(least, mm/2)+mm/10, "class %s over %v: coarser than it must be", row.class, row.height)
	}
}

// The smallest error of scale that a class II tape proves on 100 mm is 0.5 %, on 250 mm 0.2 % (derived from the same
// table): a step that claimed more would claim what nobody can check.
func TestACheckingStepClaimsNoMoreThanAClassTwoTapeProves(t *testing.T) {
	m := makerOf(t, room("{seat: 400, bottom: 510, top: 810}", "accuracy: {tape: II, growth: [0, 0]}\n"))
	for _, row := range []struct {
		length geom.Length
		per    geom.Length // thousandths
	}{{100 * mm, 5}, {250 * mm, 2}} {
		assert.GreaterOrEqual(t, m.heightUncertainty(row.length), row.length*row.per/1000)
	}
}

func TestABlockSaysHowFarItsStackMisses(t *testing.T) {
	for _, row := range []struct{ stock, says string }{
		{"[50, 30.2]", "Stack: 50 mm + 2 × 30.2 mm = 110.4 mm, 0.1 mm less than the height, within the 0.4 mm that you allow."},
		{"[50, 30.3, 30.2]", "Stack: 50 mm + 30.3 mm + 30.2 mm = 110.5 mm. Or rip"},
		{"[40]", "Stack: 3 × 40 mm = 120 mm, 9.5 mm more than the height, and you allow 0.4 mm."},
	} {
		// Bare boards hang 3 mm in: pressed batting and cover, 1.5 mm each. 3 mm over 507.5 − 400.
		m := makerOf(t, room("{seat: 400, bottom: 507.5, top: 807.5}", "blocks: {stock: "+row.stock+"}\n"))
		require.Len(t, m.plan.Blocks, 1)
		require.Equal(t, 110*mm+mm/2, m.plan.Blocks[0].Height)
		assert.Contains(t, strings.Join(m.blockWords(&m.plan.Blocks[0]), " "), row.says)
	}
}

// Words of marks that stand near each other are told apart, and each is led to its own mark.
func TestWordsOfCrowdedMarksOnARodStandApart(t *testing.T) {
	m := makerOf(t, room("{seat: [400, 404], cushion: 80, sill: 860, gap: 20, deck: follow}", ""))
	for _, s := range m.rods() {
		leads := 0
		for _, d := range s.Drawings {
			var words []drawing.Text
			for _, mark := range d.Marks {
				if text, ok := mark.(drawing.Text); ok && text.Turn == 90 && text.Halo {
					words = append(words, text)
					assert.NotContains(t, text.String, "…", s.Name)
				}
			}
			for i, a := range words {
				for _, b := range words[:i] {
					apart := (a.At.X-b.At.X).Abs() >= font.Small || (a.At.Y-b.At.Y).Abs() > rodWords
					assert.True(t, apart, "%s: %q stands on %q", s.Name, a.String, b.String)
				}
				for _, mark := range d.Marks {
					if l, ok := mark.(drawing.Line); ok && l.To == a.At.Sub(geom.Pt(0, mm)) {
						leads++
					}
				}
			}
			leads -= len(words)
		}
		assert.Zero(t, leads, "%s: words without a lead", s.Name)
	}
}

// Strips no higher than their words need: a letter page has room for four of the demo's.
func TestARodIsAsHighAsItsWordsNeed(t *testing.T) {
	m := makerOf(t, demo(t))
	m.options.Field = geom.Size{W: 191 * mm, H: 2417 * mm / 10} // of letter paper
	for _, s := range m.rods() {
		for i, d := range s.Drawings {
			strips, cut := 0, false
			for _, mark := range d.Marks {
				text, ok := mark.(drawing.Text)
				if !ok {
					continue
				}
				cut = cut || strings.Contains(text.String, "…")
				if strings.HasPrefix(text.String, s.Title) {
					strips++
				}
			}
			assert.False(t, cut, s.Title)
			if i+1 < len(s.Drawings) {
				assert.Equal(t, 4, strips, s.Title)
			}
		}
	}
	long := rod{}
	long.add(0, strings.Repeat("long words ", 9), drawing.Wide)
	assert.Equal(t, rodMost, m.highRod(long))
	assert.Equal(t, rodLeast, m.highRod(rod{}))
}

// Panels that follow a deck stand at heights of their own, so a rod names them; strips are cut apart, so each says what
// it is of.
func TestARodOfHeightsNamesPanelsThatDiffer(t *testing.T) {
	follow := makerOf(t, room("{seat: [400, 412], cushion: 80, sill: 860, gap: 20, deck: follow}", ""))
	r := follow.heightRod(&follow.plan.Runs[0])
	var names []string
	for _, mark := range r.marks {
		names = append(names, mark.name)
	}
	for _, want := range []string{"deck, left", "deck, right", "cushion, left", "cushion, right", "bottom R1", "bottom R6", "top R3", "sill"} {
		assert.Contains(t, names, want)
	}
	level := makerOf(t, room("{seat: 400, cushion: 80, sill: 860, gap: 20}", ""))
	names = nil
	for _, mark := range level.heightRod(&level.plan.Runs[0]).marks {
		names = append(names, mark.name)
	}
	assert.Equal(t, []string{"deck", "cushion", "panel bottom", "clips", "clips", "panel top", "sill"}, names)
	for _, s := range level.rods() {
		assert.Contains(t, s.Title, "of run R")
	}
}

// Both edges of a stud carry their numbers; studs beyond the panels don't make the rod longer.
func TestARunsRodCarriesTheEdgesOfItsStuds(t *testing.T) {
	m := makerOf(t, room("{seat: 400, cushion: 80, sill: 860, gap: 20}", ""))
	r := m.runRod(&m.plan.Runs[0])
	var edges []geom.Length
	for _, mark := range r.marks {
		if mark.name == "stud" {
			edges = append(edges, mark.at)
		}
	}
	var want []geom.Length
	for c := 200 * mm; c < 2400*mm; c += 400 * mm {
		want = append(want, c-22*mm-mm/2, c+22*mm+mm/2)
	}
	assert.Equal(t, want, edges)
	from, to := r.ends()
	assert.Equal(t, 20*mm-rodMargin, from)
	assert.Equal(t, 2380*mm+rodMargin, to)
}

// Of runs whose heights differ on one wall, each height names its run; a wall too low for all words keeps the panels'.
func TestHeightsOnAnElevationNameTheirRuns(t *testing.T) {
	m := makerOf(t, room("{seat: 400, cushion: 80, sill: 860, gap: 20}", "      - {name: S, across: [20, 2380], height: {bottom: 1200, top: 1600}, panels: 3}\n"))
	var got []string
	for _, l := range m.heightLabels(&m.plan.Walls[0]) {
		got = append(got, l.text)
	}
	assert.Equal(t, []string{"R deck 400 mm", "R cushion 480 mm", "R bottom 500 mm", "R top 840 mm", "R sill 860 mm", "S bottom 1200 mm", "S top 1600 mm"}, got)
	sloped := makerOf(t, room("{seat: [400, 412], cushion: 80, gap: 20, panel: 300}", ""))
	got = nil
	for _, l := range sloped.heightLabels(&sloped.plan.Walls[0]) {
		got = append(got, l.text)
	}
	assert.Equal(t, []string{"deck 400 mm, 412 mm", "cushion 480 mm, 492 mm", "bottom 512 mm", "top 812 mm"}, got)
	var pic drawing.Picture
	m.elevationHeights(&pic, m.heightLabels(&m.plan.Walls[0]), geom.Scale(0.005, 0.005), geom.Pt(0, 12*mm))
	text := all(drawing.Sheet{Drawings: []drawing.Drawing{pic.Drawing()}})
	assert.Contains(t, text, "S top 1600 mm")
	assert.NotContains(t, text, "sill")
}

// A level row on a deck that rises 12 mm has 12 mm more room at one end than at the other; one that follows keeps the gap
// below and has above what the deck rises from the middle of the first panel to that of the last, 10 mm, in the gap.
func TestTheTableOfHeightsTellsGapsThatChange(t *testing.T) {
	level := makerOf(t, room("{seat: [400, 412], cushion: 80, sill: 872, gap: 20}", ""))
	row, hasPair := level.heightRow(&level.plan.Runs[0])
	assert.Equal(t, []string{"400 mm, 412 mm", "80 mm thick", "32 mm, 20 mm", "512 mm to 852 mm", "20 mm", "872 mm"}, row)
	assert.True(t, hasPair)
	follow := makerOf(t, room("{seat: [400, 412], cushion: 80, sill: 872, gap: 20, deck: follow}", ""))
	row, _ = follow.heightRow(&follow.plan.Runs[0])
	assert.Equal(t, "20 mm", row[2])
	assert.Equal(t, "≈31 mm, ≈21 mm", row[4])
}

func TestTheOrderOfWorkSaysWhatStandsOnTheBlocks(t *testing.T) {
	for use, says := range map[string]string{"drilling": "stand the bare boards on them", "hanging": "as it is hung", "both": "each finished panel on those for hanging"} {
		m := makerOf(t, room("{seat: 400, bottom: 510, top: 810}", "blocks: {for: "+use+"}\n"))
		assert.Contains(t, strings.Join(m.order(m.blocks()), " "), says)
	}
}

// A run past an outside corner is in the picture, whole, and the words of heights stand clear of it.
func TestAnElevationShowsRunsPastACornerWhole(t *testing.T) {
	m := makerOf(t, metric(`walls:
  - {name: A, width: 600, height: 900, lining: {thickness: 12}, corner: outside, runs: [{name: A, across: [0, 1100], height: {bottom: 500, top: 800}, panels: 2}]}
  - {name: B, width: 600, height: 900, lining: {thickness: 12}, corner: outside, runs: [{name: B, across: [10, 600], height: {bottom: 300, top: 600}, panels: 2}]}
  - {name: C, width: 600, height: 900, lining: {thickness: 12}, runs: [{name: C, across: [-500, 590], height: {bottom: 100, top: 250}, panels: 2}]}
`))
	for i := range m.plan.Walls {
		w := &m.plan.Walls[i]
		d := m.elevation(i, 20, m.heightLabels(w), false).Drawing()
		panels := m.plan.Runs[w.Runs[0]].Bounds
		for _, mark := range d.Marks {
			assert.True(t, d.Bounds.Inset(-mm/2).Contains(mark.Bounds()), "wall %s: %+v stands outside", w.Job.Name, mark)
			if text, ok := mark.(drawing.Text); ok && text.Anchor == drawing.Right {
				assert.Less(t, text.At.X, min(0, panels.Min.X/20), "wall %s: %q stands over the panels", w.Job.Name, text.String)
			}
		}
	}
	most := geom.Size{W: 180 * mm, H: 150 * mm}
	for _, d := range m.elevations(most) {
		assert.LessOrEqual(t, d.Bounds.W(), most.W)
		assert.LessOrEqual(t, d.Bounds.H(), most.H)
	}
}
