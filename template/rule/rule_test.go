package rule

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/tolerance"
)

// base is a job of our own with nothing to find in it: two panels on studs and rails. Cases change a few words of it.
const base = `rodsheet: 1
name: Try
units: in
board: {thickness: 1/2, sheet: 48 x 96, density: 36 lb/ft3}
foam: {thickness: 1, sheet: 48 x 96}
batting: {thickness: 1/4, roll: 60}
cover: {thickness: 1/32, roll: 54}
clip: {kind: press, base: 1 1/4 x 2, holes: [[0, 1/2], [0, -1/2]], flange: 1/8, standoff: 3/8, carries: 40 lb, play: 1/4}
screws:
  board: {size: 8, length: 1/2}
  wall: {size: 8, length: 1 5/8}
  marker: 7/64
heights:
  band: {bottom: 24, top: 48}
# job
walls:
  - name: North
    width: 96
    height: 96
    lining: {thickness: 1/2}
    depth: 4 1/2
    studs: {from: 8, every: 16, depth: 3 1/2}
    rails: {at: [27, 45], width: 5, depth: 3 1/2}
    # wall
    runs:
      - {name: N, across: [10, 60], height: band, panels: 2, gap: 1/4}
# walls
`

// Lines that cases leave out, and what they put in for others.
const (
	lining = "    lining: {thickness: 1/2}\n"
	depth  = "    depth: 4 1/2\n"
	studs  = "    studs: {from: 8, every: 16, depth: 3 1/2}\n"
	rails  = "    rails: {at: [27, 45], width: 5, depth: 3 1/2}\n"
	band   = "{bottom: 24, top: 48}"
	run    = "across: [10, 60], height: band, panels: 2, gap: 1/4"
)

func changed(t *testing.T, edits ...string) string {
	t.Helper()
	text := base
	for i := 0; i < len(edits); i += 2 {
		require.Contains(t, text, edits[i])
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return text
}

// read is the base job after the edits, pairs of old and new words.
func read(t *testing.T, edits ...string) *job.Job {
	t.Helper()
	j, err := job.Read("try.yaml", []byte(changed(t, edits...)))
	require.NoError(t, err)
	return j
}

func checked(t *testing.T, j *job.Job) []Finding {
	t.Helper()
	p, err := plan.Make(j)
	require.NoError(t, err)
	print := tolerance.Print{Line: [2]geom.Length{8 * geom.Inch, 10 * geom.Inch}, Page: geom.Size{W: 7 * geom.Inch, H: 9 * geom.Inch}}
	for _, b := range p.Boards { // as if jigs reached every hole
		var holes []geom.Point
		for _, c := range b.Clips {
			holes = append(holes, c.BoardHoles...)
		}
		print.Jigs = append(print.Jigs, tolerance.Corners(b.Size, holes))
	}
	p.Judge(print)
	return Check(p)
}

func findings(t *testing.T, edits ...string) []Finding {
	t.Helper()
	return checked(t, read(t, edits...))
}

func ofID(list []Finding, id string) []Finding {
	var out []Finding
	for _, f := range list {
		if f.ID == id {
			out = append(out, f)
		}
	}
	return out
}

func TestAJobWithNothingToFindHasNoFindings(t *testing.T) {
	assert.Empty(t, findings(t))
}

// cases holds a job for each rule that has something for it to find; the base job has none of them.
var cases = []struct {
	id    string
	level Level
	says  string // a part of the text with a number or name of this job
	edits []string
}{
	// Stops: the table of levels, row by row, then what it is silent on.
	{"over-box", Stop, "N1 hangs over socket", fittingAt("electrical", 20, 30)},
	{"no-place", Stop, "wide; a clip", []string{"panels: 2", "panels: 12"}},
	{"no-place", Stop, "high; a clip", []string{band, "{bottom: 24, top: 28}"}},
	{"no-place", Stop, "out of the keep-outs", []string{"# wall", "keep-outs: [{name: pipes, at: [8, 22], size: 30 x 30}]"}},
	{"corner-collision", Stop, "Run E", corner},
	{"runs-overlap", Stop, "Panels N1, N2 and T1 of runs N and T", another("T", "30, 40", "40, 60")},
	{"no-order", Stop, "A1 before B1", pinwheel},
	{"screw-pierces", Stop, "by 41/64″, more than half of the 1″", []string{"{size: 8, length: 1/2}", "{size: 8, length: 1 1/4}"}},
	{"screw-pierces", Stop, "there is no foam", []string{"foam: {thickness: 1, sheet: 48 x 96}\n", "", "{size: 8, length: 1/2}", "{size: 8, length: 3/4}"}},
	{"cannot-lift", Stop, "1/2″", []string{"kind: press", "kind: lift, lift: 1/2", "top: 48", "top: 95 3/4"}},
	{"screw-far-side", Stop, "1/4″ must remain", []string{depth, "    depth: 1 5/8\n", "depth: 3 1/2", "depth: 1", "depth: 3 1/2", "depth: 1"}},
	{"band-too-low", Stop, "20″ high", []string{band, "{seat: 20, cushion: 3, sill: 40, panel: 20, gap: even}"}},
	{"below-deck", Stop, "below the deck", []string{band, "{bottom: 24, top: 48, seat: 30}"}},
	{"over-opening", Stop, "hatch", []string{"# wall", "openings: [{name: hatch, at: [20, 30], size: 4 x 4}]"}},
	{"hole-far-side", Stop, "2 9/16″ deep from the wall's face leaves only 1/8″ of it", onBrick(depth, "    depth: 2 11/16\n")},
	{"board-parts", Stop, "2 parts", area("[[10, 24], [60, 24], [60, 48], [36, 48], [36, 24 1/8], [34, 24 1/8], [34, 48], [10, 48]]")},

	// Cautions of the table.
	{"screw-through", Caution, "9/64″", []string{"{size: 8, length: 1/2}", "{size: 8, length: 3/4}"}},
	{"screw-deep", Caution, "1 7/8″", []string{"1 5/8", "2 1/2"}},
	{"on-lining", Caution, "of 8 clips", []string{studs, "    studs: {at: [12]}\n", rails, ""}},
	{"studs-unknown", Caution, "North", []string{studs, "", rails, ""}},
	{"depth-unknown", Caution, "how deep the wall is", []string{depth, "", ", depth: 3 1/2", "", ", depth: 3 1/2", ""}},
	{"lining-gives", Caution, "8 of its 8", []string{"{thickness: 1/2}\n", "{thickness: 1/2, gives: true}\n", studs, "", rails, ""}},
	{"runs-near", Caution, "within 1/8″", another("T", "10, 60", "48 1/8, 70")},
	{"edges-uneven", Caution, "differ by 1/4″", another("T", "61, 90", "24, 48 1/4")},
	{"error-over-play", Caution, "in the clip", []string{"play: 1/4", "play: 1/64"}},
	{"stack-misses", Caution, "1/64″", []string{band, "{bottom: 24, top: 48, seat: 20}", "# job", "blocks: {stock: [3/4]}"}},
	{"wrap-short", Caution, "1 1/2″", []string{"# job", "wrap: {size: 1 1/2}"}},
	{"load-over", Caution, "0.5 lb", []string{"carries: 40 lb", "carries: 0.5 lb"}},
	{"near-heater", Caution, "N1 and N2 hang within 12″", fittingAt("heater", 20, 50)},
	{"near-heater", Caution, "N1 and N2 hang within 36″", []string{"# wall", "fittings: [{kind: heater, heater: portable, at: [20, 0], size: 4 x 4}]"}},
	{"near-heater", Caution, "within 15″ of the heater, which its plate asks for", []string{"# wall", "fittings: [{kind: heater, heater: radiator, clearance: 15, at: [20, 8], size: 4 x 4}]"}},
	{"screws-over", Caution, "A top clip has to hold", []string{"# job", "framing: {gravity: 0.42}", "density: 36 lb/ft3", "density: 170 lb/ft3", "board: {thickness: 1/2", "board: {thickness: 3"}},
	{"screw-past-zones", Caution, "cables 50 mm deep and deeper", []string{"# job", "cables: straight", "1 5/8", "2 1/4"}},
	{"jig-saw-error", Caution, "1/4″", []string{"# job", "accuracy: {squared: 1/4}"}},

	// Slips.
	{"stud-spacing", Caution, "Did you mean 16″?", []string{studs, "    studs: {from: 8, every: 1.6, depth: 3 1/2}\n"}},
	{"stud-spacing", Caution, "Did you mean ≈15 3/4″?", []string{studs, "    studs: {from: 8, every: 400, depth: 3 1/2}\n"}},
	{"wall-long", Caution, "Did you mean 96″?", []string{"width: 96", "width: 960"}},
	{"screw-stout", Caution, "Did you mean gauge 8, which is ≈5/32″ thick?", []string{"{size: 8, length: 1/2}", "{size: 8 mm, length: 1/2}"}},
	{"board-thick", Caution, "Did you mean ≈15/32″?", []string{"thickness: 1/2, sheet", "thickness: 1.19, sheet"}},
	{"standoff-none", Caution, "Did you mean how thick", []string{"standoff: 3/8", "standoff: 0"}},

	// Notes of the table.
	{"carries-unknown", Note, "clip carries", []string{"carries: 40 lb, ", ""}},
	{"not-acted-on", Note, "fir", []string{"# job", "framing: {wood: fir}"}},
	{"fittings-overlap", Note, "lie over each other", []string{"# wall", "fittings: [{kind: other, at: [70, 60], size: 4 x 4}, {kind: other, at: [71, 61], size: 4 x 4}]"}},
	{"shut-in", Note, "1/8″", []string{band, "{bottom: 0, top: 96}", run, "across: [0, 96], height: band, panels: 3"}},
	{"heavy-board", Note, "60.0 lb/ft³", []string{"36 lb/ft3", "60 lb/ft3"}},

	// What the table is silent on.
	{"over-vent", Caution, "N1 hangs over the vent", fittingAt("vent", 20, 30)},
	{"over-valve", Caution, "N1 hangs over the valve", fittingAt("valve", 20, 30)},
	{"over-fitting", Caution, "N1 hangs over the fitting", fittingAt("other", 20, 30)},
	{"door-swing", Caution, "28″", []string{"# wall", "openings: [{name: door, at: [64, 0], size: 30 x 80, swing: 28}]"}},
	{"few-clips", Caution, "30 clips", []string{"# job", "clips: {number: 30, clear: 8}"}},
	{"narrow-stance", Caution, "nearer to each other", []string{"# wall", "keep-outs: [{name: duct, at: [10, 22], size: 12 x 28}]"}},
	{"narrow-stance", Caution, "from below upward", []string{"# wall", "keep-outs: [{name: duct, at: [9, 22], size: 30 x 14}]"}},
	{"limits-clash", Caution, "clips.spacing is 1″", []string{"# job", "clips: {spacing: 1}"}},
	{"few-clips", Caution, "the keep-outs behind N1", []string{"# wall", "keep-outs: [{name: duct, at: [10, 22], size: 14 x 14}]"}},
	{"limits-clash", Caution, "can't both be kept", []string{"# job", "clips: {spacing: 2 1/8}"}},
	{"few-clips", Caution, "one line", area("[[10, 24], [18, 24], [14, 44]]")},
	{"screw-short", Caution, "1/8″ of thread", []string{"{size: 8, length: 1/2}", "{size: 8, length: 1/4}"}},
	{"screw-near-face", Caution, "1/64″ short", []string{"{size: 8, length: 1/2}", "{size: 8, length: 19/32}"}},
	{"plug-screw", Caution, "2″, does not reach through its plug: 2 19/64″ are wanted (1/8″ clip + 1/2″ lining + 1 1/2″ plug", onBrick("2 1/2]", "2]")},
	{"anchor-reach", Caution, "1/2″ thick, and the anchor takes 3/8″", anchored("{hole: 1/2, reach: 3/8, carries: 20 lb}")},
	{"fixing-over", Caution, "each of its 2 plugs carries 0.5 lb by its maker", onBrick("carries: 20 lb", "carries: 0.5 lb")},
	{"screw-depth-limit", Caution, "1 1/4″", []string{"wall: {size: 8", "wall: {size: 14"}},
	{"screw-shallow", Caution, "5/8″", []string{"1 5/8", "1 1/4"}},
	{"marker-wide", Caution, "root of the board screw", []string{"marker: 7/64", "marker: 1/4"}},
	{"marker-wide", Caution, "root of the wall screw", []string{"wall: {size: 8", "wall: {size: 4", "marker: 7/64", "marker: 3/32"}},
	{"lining-unknown", Caution, "not given", []string{lining, ""}},
	{"wrap-under-clips", Caution, "clip begins at", []string{"# job", "wrap: {size: 6}"}},
	{"staples-under-clips", Caution, "3″ in", []string{"# job", "staples: {edge: 3}"}},
	{"behind-high", Caution, "1/32″ off the wall", []string{"standoff: 3/8", "standoff: 1/32"}},
	{"staple-through", Caution, "1″", []string{"# job", "staples: {length: 1}"}},
	{"notch-narrow", Caution, "notch", area("[[10, 24], [60, 24], [60, 48], [36, 48], [36, 40], [34, 40], [34, 48], [10, 48]]")},

	{"no-board", Caution, "bare", area("[[10, 24], [60, 24], [60, 24 1/8], [34, 24 1/8], [34, 48], [10, 48]]", "panels: 1", "panels: 2")},
	{"sliver", Caution, "2″ wide", area("[[10, 24], [60, 24], [60, 48], [10, 48]]", "panels: 1", "widths: [48, 2]")},
	{"board-too-large", Caution, "11 13/16″ wider", []string{"{thickness: 1/2, sheet: 48 x 96", "{thickness: 1/2, sheet: 12 x 96"}},
	{"foam-too-large", Note, "11 13/16″ wider than the sheet of 12 × 96″. The plan joins it of 3 pieces: 8 3/16″ + 8 5/16″ + 8 3/16″", []string{"{thickness: 1, sheet: 48 x 96", "{thickness: 1, sheet: 12 x 96"}},
	{"pad-too-large", Caution, "A pad, 1 1/2 × 2 1/4″,", []string{"{thickness: 1/2}\n", "{thickness: 1/2, gives: true}\n", studs, "", rails, "", "# job", "hardboard: {sheet: 1 x 48}"}},
	{"batting-too-large", Caution, "16 13/16″ wider", []string{"roll: 60", "roll: 12"}},
	{"cover-too-large", Caution, "17 11/16″ wider", []string{"roll: 54", "roll: 12"}},
	{"accept-unknown", Caution, "scew-through", []string{"# job", "accept: [{finding: scew-through, because: ground}]"}},
	{"deck-far-out", Caution, "3″ higher", []string{band, "{bottom: 24, top: 48, seat: [17, 20]}"}},
	{"deck-restarts", Caution, "17″ at its left end to 17 1/4″", []string{band, "{seat: [17, 17 1/4], cushion: 3, sill: 60, gap: 1}",
		"# walls", "  - {name: East, width: 96, height: 96, lining: {thickness: 1/2}, depth: 4 1/2, studs: {from: 8, every: 16, depth: 3 1/2}, runs: [{name: E, across: [20, 70], height: band, panels: 2, gap: 1/4}]}"}},
	{"fixing-carries-unknown", Note, "one plug carries in this wall", onBrick(", carries: 20 lb", "")},
	{"fixing-carries-unknown", Note, "one anchor carries", anchored("{hole: 1/2}")},
	{"deck-slopes", Note, "1/4″ higher", []string{band, "{seat: [17, 17 1/4], cushion: 3, sill: 60, gap: 1}"}},
	{"deck-slopes", Note, "own height on it", []string{band, "{seat: [17, 17 1/4], cushion: 3, sill: 60, gap: 1, deck: follow}"}},
	{"out-of-plumb", Note, "1/2″ out of plumb", []string{"across: [10, 60]", "across: [[10, 60], [10 1/2, 60]]"}},
	{"pattern-differs", Note, "N2", []string{"# wall", "keep-outs: [{name: duct, at: [10, 22], size: 12 x 28}, {name: lintel, at: [47, 22], size: 13 x 28}]"}},
}

// onBrick makes the wall one of masonry and screws its clips into plugs.
func onBrick(edits ...string) []string {
	return append([]string{studs, "", rails, "", "# wall", "build: masonry", "# job",
		"fixings: {plug: {hole: 1/4, length: 1 1/2, carries: 20 lb}}", "size: 8, length: 1 5/8", "size: 8", "marker: 7/64", "marker: 7/64\n  on hand: [1/2, 2 1/2]"}, edits...)
}

// anchored names anchors for clips on the lining alone.
func anchored(anchor string) []string {
	return []string{studs, "    studs: {at: [12]}\n", rails, "", "# job", "fixings: {anchor: " + anchor + "}"}
}

// fittingAt puts one thing on the wall, 4 in square; a socket is named so.
func fittingAt(kind string, x, y int) []string {
	name := ""
	if kind == "electrical" {
		name = "name: socket, "
	}
	return []string{"# wall", fmt.Sprintf("fittings: [{%skind: %s, at: [%d, %d], size: 4 x 4}]", name, kind, x, y)}
}

// another adds a run of one panel from here to there, at these heights.
func another(name, across, up string) []string {
	return []string{"# walls", fmt.Sprintf("      - {name: %s, across: [%s], height: {bottom: %s}, panels: 1}",
		name, across, strings.Replace(up, ", ", ", top: ", 1))}
}

// pinwheel is four walls, each with one panel that goes into its right corner.
var pinwheel = func() []string {
	text := ""
	for _, name := range []string{"B", "C", "D"} {
		text += fmt.Sprintf("  - {name: %[1]s, width: 96, height: 96, lining: {thickness: 1/2}, depth: 4 1/2, corner: inside, "+
			"studs: {from: 8, every: 16, depth: 3 1/2}, runs: [{name: %[1]s, across: [3, 96], height: band, panels: 1}]}\n", name)
	}
	return []string{"# wall", "corner: inside", run, "across: [3, 96], height: band, panels: 1", "{name: N, ", "{name: A, ", "# walls", text}
}()

// area hangs the run in an outline instead; further edits follow.
func area(outline string, edits ...string) []string {
	return append([]string{run, "area: " + outline + ", panels: 1"}, edits...)
}

// corner is a second wall whose run comes too near to the first one's.
var corner = []string{
	"# wall", "corner: inside", "across: [10, 60]", "across: [45, 95]",
	"# walls", "  - name: East\n    width: 60\n    height: 96\n    lining: {thickness: 1/2}\n    depth: 4\n" +
		"    runs:\n      - {name: E, across: [1, 40], height: band, panels: 1}",
}

// odd are cases that no job file can hold, since the reader refuses it or measures less finely.
var odd = []struct {
	id    string
	level Level
	says  string
	alter func(*job.Job)
}{
	{"outside-wall", Stop, "North", func(j *job.Job) { j.Walls[0].Runs[0].Band.Top = 100 * geom.Inch }},
	{"cannot-plan-cuts", Note, "The cover could not be planned", func(j *job.Job) { j.Cover.Roll = 2000 * geom.Metre }},
	{"stack-misses", Caution, "could not be made up from stock", func(j *job.Job) {
		j.Walls[0].Runs[0].Band.HasSeat, j.Walls[0].Runs[0].Band.Seat = true, [2]geom.Length{17 * geom.Inch, 17 * geom.Inch}
		j.Blocks.Stock = []geom.Length{geom.Inch / 1000}
	}},
	{"cannot-plan-cuts", Note, "The board could not be planned", func(j *job.Job) { j.Board.Sheet.H = 2000 * geom.Metre }},
}

func TestEachRuleFindsWhatItIsFor(t *testing.T) {
	holds := func(t *testing.T, list []Finding, id string, level Level, says string) Finding {
		found := ofID(list, id)
		require.NotEmpty(t, found, "%v", list)
		f := found[0]
		assert.Equal(t, level, f.Level)
		assert.Contains(t, f.Text, says)
		assert.NotEmpty(t, f.Why, "the rule is missing")
		assert.NotEmpty(t, f.Source)
		return f
	}
	for _, c := range cases {
		t.Run(c.id, func(t *testing.T) {
			f := holds(t, findings(t, c.edits...), c.id, c.level, c.says)
			assert.NotZero(t, f.Place.Line, "the line of the job file")
		})
	}
	for _, c := range odd {
		t.Run(c.id, func(t *testing.T) {
			j := read(t)
			c.alter(j)
			holds(t, checked(t, j), c.id, c.level, c.says)
		})
	}
}

// People read a few lines, not a page; every word of a finding ends as a sentence.
func TestFindingsAreShortSentences(t *testing.T) {
	for _, c := range cases {
		for _, f := range Grouped(findings(t, c.edits...)) {
			assert.LessOrEqual(t, len([]rune(f.Text)), 330, f.Text)
			assert.LessOrEqual(t, len([]rune(f.Remedy)), 300, f.Remedy)
			assert.Regexp(t, `^\P{Ll}.*[.?]$|^clips?\.|^[a-z]+(-[a-z]+)+ is |^framing`, f.Text)
			if f.Remedy != "" {
				assert.Regexp(t, `^[A-Z].*\.$`, f.Remedy)
			}
		}
	}
}

func TestEachRuleHasACase(t *testing.T) {
	covered := map[string]bool{}
	for _, c := range cases {
		covered[c.id] = true
	}
	for _, c := range odd {
		covered[c.id] = true
	}
	for _, r := range Rules() {
		assert.True(t, covered[r.ID], r.ID)
	}
}
