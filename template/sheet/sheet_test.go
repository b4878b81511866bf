package sheet

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/plan"
	"rodsheet/template/plan/finding"
	"rodsheet/template/rule"
)

// a4Field is about what an A4 page offers.
var a4Field = geom.Size{W: 186 * mm, H: 260 * mm}

// a4Printable is what it can be printed on.
var a4Printable = geom.Size{W: 198 * mm, H: 285 * mm}

func makerOf(t *testing.T, text string) *maker {
	t.Helper()
	j, err := job.Read("job.yaml", []byte(text))
	require.NoError(t, err)
	p, err := plan.Make(j)
	require.NoError(t, err)
	return &maker{plan: p, findings: rule.Check(p), options: Options{Field: a4Field, Printable: a4Printable}}
}

func demo(t *testing.T) string {
	t.Helper()
	_, data := job.Demo()
	return string(data)
}

func stored(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name+".yaml"))
	require.NoError(t, err)
	return string(data)
}

// metric is a job with one run of equal panels.
func metric(more string) string {
	return `rodsheet: 1
name: Test
units: mm
board: {thickness: 12, sheet: 1220 x 2440}
foam: {thickness: 20}
batting: {thickness: 10, pressed: 1.5}
cover: {thickness: 1.5}
clip: {kind: press, base: 40 x 40, flange: 2.5, standoff: 10}
screws: {board: {size: 4 mm, length: 12}, wall: {size: 4 mm, length: 45}, marker: 3}
` + more
}

// onePanel is a job of one panel, 400 mm square.
func onePanel() string {
	return metric(`walls:
  - name: W
    width: 1000
    height: 2400
    lining: {thickness: 12.5}
    depth: 120
    runs:
      - {name: R, across: [100, 500], height: {bottom: 500, top: 900}, panels: 1}
`)
}

// all is every word of a sheet's drawings.
func all(s drawing.Sheet) string {
	var b strings.Builder
	for _, d := range s.Drawings {
		for _, m := range d.Marks {
			if t, ok := m.(drawing.Text); ok {
				b.WriteString(t.String + " ")
			}
		}
	}
	return b.String()
}

func TestNamesRunOnAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct {
		list []string
		want string
	}{
		{nil, ""},
		{[]string{"N1"}, "N1"},
		{[]string{"N1", "N2"}, "N1, N2"},
		{[]string{"N1", "N2", "N3"}, "N1–N3"},
		{[]string{"N1", "N2", "N3", "N5"}, "N1–N3, N5"},
		{[]string{"N9", "N10", "N11"}, "N9–N11"},
		{[]string{"N1", "M2", "N3"}, "N1, M2, N3"},
		{[]string{"A1", "A2", "A3", "B1", "B2"}, "A1–A3, B1, B2"},
		{[]string{"G1a", "G1b", "G2"}, "G1a, G1b, G2"},
		{[]string{"N3", "N2", "N1"}, "N3, N2, N1"},
		{[]string{"W-1", "W-2", "W-3"}, "W-1–W-3"},
	} {
		assert.Equal(t, c.want, strings.Join(finding.Ranges(c.list), ", "))
	}
}

// The inner angles of a polygon of n corners sum up to (n − 2)·180° (Euclid I.32).
func TestCornersHaveTheAnglesOfTheBoard(t *testing.T) {
	for _, p := range []geom.Polygon{
		geom.R(0, 0, 400*mm, 300*mm).Polygon(),
		{{X: 0, Y: 0}, {X: 400 * mm, Y: 0}, {X: 400 * mm, Y: 150 * mm}, {X: 0, Y: 480 * mm}},
		{{X: 0, Y: 0}, {X: 300 * mm, Y: 0}, {X: 300 * mm, Y: 100 * mm}, {X: 200 * mm, Y: 100 * mm}, {X: 200 * mm, Y: 250 * mm}, {X: 0, Y: 250 * mm}},
	} {
		sum := 0.0
		for i := range p {
			n := len(p)
			sum += interior(p[(i+n-1)%n], p[i], p[(i+1)%n])
		}
		assert.InDelta(t, float64(len(p)-2)*180, sum, 1e-9)
	}
	assert.InDelta(t, 90, interior(geom.Pt(0, 5), geom.Pt(0, 0), geom.Pt(5, 0)), 1e-12)
	assert.InDelta(t, 270, interior(geom.Pt(-5, 0), geom.Pt(0, 0), geom.Pt(0, -5)), 1e-12)
}

func TestAJigsFrameKeepsDistancesAndLaysTheEdgeAlongX(t *testing.T) {
	at := geom.Pt(120*mm, 80*mm)
	for _, next := range []geom.Point{{X: 320 * mm, Y: 80 * mm}, {X: -90 * mm, Y: 80 * mm}, {X: 120 * mm, Y: 200 * mm}, {X: 120 * mm, Y: -7 * mm}, {X: 400 * mm, Y: 190 * mm}, {X: -31 * mm, Y: 17 * mm}} {
		f := jigFrame(at, next)
		assert.Equal(t, geom.Point{}, f.Apply(at))
		end := f.Apply(next)
		assert.LessOrEqual(t, end.Y.Abs(), geom.Length(1), "%v", next)
		assert.LessOrEqual(t, (end.X - at.Distance(next)).Abs(), geom.Length(1), "%v", next)
		assert.InDelta(t, 1, f.A*f.D-f.B*f.C, 1e-12, "a frame never mirrors")
	}
}

// A symmetric board looks the same when it is turned by half a turn; its diagonal corners share a page, its neighbouring
// ones don't, for they are mirrored.
func TestASymmetricBoardSharesPagesByRotationNotByMirror(t *testing.T) {
	m := makerOf(t, strings.Replace(onePanel(), "base: 40 x 40", "base: 40 x 60", 1))
	sheets, covered := m.corners()
	require.Equal(t, []bool{true}, covered)
	require.Len(t, sheets, 2, "two pages serve four corners")
	for _, s := range sheets {
		assert.Equal(t, 2, s.Use)
		assert.Contains(t, all(s), "mirrored, with its own page", s.Name)
	}
	assert.Contains(t, all(sheets[0]), "Jig 2 is this one mirrored")
	assert.Contains(t, all(sheets[1]), "Jig 1 is this one mirrored")
	// Which corners share is in the words: one page has lower left and upper right, the other the other two. The wall's
	// half is that of the other hand, since the wall is looked at from the front.
	wall := map[string]string{"lower left": "lower right", "lower right": "lower left", "upper left": "upper right", "upper right": "upper left"}
	for _, s := range sheets {
		told := map[string]bool{}
		for _, mark := range s.Drawings[0].Marks {
			if text, ok := mark.(drawing.Text); ok {
				told[text.String] = true
			}
		}
		assert.Equal(t, told["lower left"], told["upper right"])
		assert.Equal(t, told["lower right"], told["upper left"])
		assert.NotEqual(t, told["lower left"], told["lower right"])
		for corner, half := range wall {
			assert.Equal(t, told[corner], told[strings.ToUpper(corner)+": meets the wall half "+half], corner)
		}
	}
}

// A pattern that stands equally far from both edges of each corner is its own mirror, so one page does for all four;
// nothing then is said of a mirrored page.
func TestACornerThatIsItsOwnMirrorServesAllFour(t *testing.T) {
	m := makerOf(t, onePanel())
	c := m.plan.Boards[0].Clips[0].Board
	require.Equal(t, c.X, c.Y, "the test's own board is not what it says")
	sheets, _ := m.corners()
	require.Len(t, sheets, 1)
	assert.Equal(t, 4, sheets[0].Use)
	assert.NotContains(t, all(sheets[0]), "mirrored")
	assert.Contains(t, all(sheets[0]), "every corner")
}

func TestMirroringACornerTwiceGivesItBack(t *testing.T) {
	for _, theta := range []float64{90, 52.25, 127.75} {
		c := corner{theta: theta, b: "left edge", clips: []jigClip{{
			base:  geom.R(50*mm, 40*mm, 90*mm, 80*mm).Polygon(),
			holes: []geom.Point{{X: 70 * mm, Y: 60 * mm}, {X: 61 * mm, Y: 77 * mm}},
		}}}
		assert.Equal(t, c.key(), c.mirrored().mirrored().key())
		assert.NotEqual(t, c.key(), c.mirrored().key())
	}
}

// A jig of the back is not the jig of the face: a board with an uneven pattern must not be drilled from the wrong one.
func TestJigsOfTheFaceAreThoseOfTheBackMirrored(t *testing.T) {
	m := makerOf(t, strings.Replace(stored(t, "asymmetric-studs"), "template: whole", "template: corners", 1))
	keys := map[Side][]string{}
	for _, side := range []Side{Back, Face} {
		list, all := m.boardCorners(0, side)
		require.True(t, all)
		for _, c := range list {
			if side == Face {
				c = c.mirrored()
			}
			keys[side] = append(keys[side], c.key())
		}
		slices.Sort(keys[side])
	}
	assert.Equal(t, keys[Back], keys[Face])
}

func TestEdgesAreNamedAsTheyAreSeen(t *testing.T) {
	p := geom.R(0, 0, 10*mm, 20*mm).Polygon()
	var got []string
	for i, a := range p {
		got = append(got, edgeName(a, p[(i+1)%4]))
	}
	assert.Equal(t, []string{"bottom edge", "right edge", "top edge", "left edge"}, got)
	assert.Equal(t, "sloping edge", edgeName(geom.Pt(0, 0), geom.Pt(3, 4)))
}

func TestABlockTallerThanAPageBecomesARod(t *testing.T) {
	text := metric(`heights:
  low: {seat: 200, bottom: 300, top: 700}
  high: {seat: 200, bottom: 900, top: 1300}
walls:
  - name: W
    width: 1000
    height: 2400
    lining: {thickness: 12.5}
    depth: 120
    runs:
      - {name: L, across: [50, 450], height: low, panels: 1}
      - {name: H, across: [550, 950], height: high, panels: 1}
`)
	m := makerOf(t, text)
	require.Len(t, m.plan.Blocks, 2)
	sheets := m.blocks()
	require.Len(t, sheets, 2)
	outlines := func(s drawing.Sheet) (heights []geom.Length) {
		for _, d := range s.Drawings {
			for _, mark := range d.Marks {
				if p, ok := mark.(drawing.Path); ok && p.Closed && p.Pen == drawing.Wide && p.Role == drawing.Cut {
					heights = append(heights, p.Bounds().H())
				}
			}
		}
		return heights
	}
	assert.Equal(t, []geom.Length{m.plan.Blocks[0].Height}, outlines(sheets[0]))
	assert.Empty(t, outlines(sheets[1]), "the tall block is not cut off by the page")
	assert.Contains(t, sheets[1].Hint, "Too tall for a page")
	text = all(sheets[1])
	for _, w := range []string{"too low", "too high", m.read(m.plan.Blocks[1].Height), "stands on the deck"} {
		assert.Contains(t, text, w)
	}
	for _, s := range sheets {
		for _, d := range s.Drawings {
			assert.LessOrEqual(t, d.Bounds.H(), a4Field.H)
		}
	}
}

// Every mark of a rod is on exactly one piece, pieces follow each other without a hole, and each fits a page.
func TestRodPiecesCoverEveryMarkOnce(t *testing.T) {
	m := makerOf(t, demo(t))
	for _, n := range []int{1, 2, 9, 40, 160} {
		r := rod{title: "Rod", start: "reads from the left"}
		at := geom.Length(n) * 11 * mm
		for i := range n {
			at += geom.Length(3+i*i%97) * mm
			r.add(at, fmt.Sprintf("mark %d.", i), drawing.Wide)
		}
		r.sort()
		seen := map[string]int{}
		for _, d := range m.rodPages(r) {
			for _, mark := range d.Marks {
				if text, ok := mark.(drawing.Text); ok {
					for i := range n {
						if strings.HasSuffix(text.String, fmt.Sprintf(" mark %d.", i)) {
							seen[fmt.Sprint(i)]++
						}
					}
					continue
				}
				assert.True(t, d.Bounds.Inset(-mm/2).Contains(mark.Bounds()), "%d marks: %+v stands outside its page", n, mark)
			}
		}
		assert.Len(t, seen, n)
		for i, k := range seen {
			assert.Equal(t, 1, k, "%d marks: mark %s", n, i)
		}
	}
}

func TestCutsOfARodKeepOffItsMarks(t *testing.T) {
	r := rod{}
	for x := 100 * mm; x < 190*mm; x += 20 * mm {
		r.add(x, "", drawing.Wide)
	}
	for to := 150 * mm; to < 200*mm; to += mm {
		at := r.cut(0, to)
		assert.LessOrEqual(t, at, to)
		assert.Greater(t, at, to/2)
		for _, mark := range r.marks {
			assert.GreaterOrEqual(t, (mark.at - at).Abs(), 6*mm, "cut at %v", at)
		}
	}
}

func TestSheetsComeInTheOrderOfTheSetAndOnlyThoseAskedFor(t *testing.T) {
	m := makerOf(t, demo(t))
	set := Of(m.plan, m.findings, Options{Field: a4Field, Printable: a4Printable})
	require.NotEmpty(t, set)
	last := -1
	seen := map[string]bool{}
	for _, s := range set {
		at := slices.Index(Kinds(), s.Kind)
		assert.GreaterOrEqual(t, at, last, "%s stands too late", s.Name)
		last = at
		assert.False(t, seen[s.Name], "two sheets are called %q", s.Name)
		seen[s.Name] = true
		assert.NotEmpty(t, s.Title)
		assert.NotEmpty(t, s.Hint)
		assert.NotEmpty(t, s.Drawings)
	}
	for _, k := range Kinds() {
		for _, s := range Of(m.plan, m.findings, Options{Field: a4Field, Printable: a4Printable, Only: []drawing.Kind{k}}) {
			assert.Equal(t, k, s.Kind)
		}
	}
}

// Leaves never reach outside the field they were made for, whatever the paper.
func TestLeavesKeepInsideTheField(t *testing.T) {
	texts := map[string]string{"settle": demo(t), "bay": stored(t, "bay"), "loft": stored(t, "loft")}
	for name, text := range texts {
		for _, field := range []geom.Size{a4Field, {W: 190 * mm, H: 240 * mm}, {W: 270 * mm, H: 380 * mm}} {
			m := makerOf(t, text)
			for _, s := range Of(m.plan, m.findings, Options{Field: field, Printable: geom.Size{W: field.W + 12*mm, H: field.H + 25*mm}}) {
				if s.Layout != drawing.SinglePage {
					continue
				}
				for _, d := range s.Drawings {
					for _, mark := range d.Marks {
						_, text := mark.(drawing.Text)
						if _, ref := mark.(drawing.Ref); ref || text { // their boxes hold a little air
							assert.True(t, d.Bounds.Inset(-mm).Contains(mark.Bounds()), "%s, %s on %v: %+v", name, s.Name, field, mark)
						} else {
							assert.True(t, d.Bounds.Inset(-mm/100).Contains(mark.Bounds()), "%s, %s on %v: %+v", name, s.Name, field, mark)
						}
					}
				}
			}
		}
	}
}

// A flap folds back along the whole line of its edge; where the board goes on beyond that line it would lie in the way,
// and a hole there would be folded away with it.
func TestJigsLieOnlyWhereBothFlapsFoldFree(t *testing.T) {
	m := &maker{options: Options{Field: a4Field, Printable: a4Printable}}
	l := geom.Polygon{{X: 0, Y: 0}, {X: 300 * mm, Y: 0}, {X: 300 * mm, Y: 100 * mm}, {X: 200 * mm, Y: 100 * mm}, {X: 200 * mm, Y: 250 * mm}, {X: 0, Y: 250 * mm}}
	free := func(p geom.Polygon) (out []bool) {
		for i := range p {
			out = append(out, m.freeCorner(p, i))
		}
		return out
	}
	assert.Equal(t, []bool{true, true, false, false, false, true}, free(l))
	assert.Equal(t, []bool{true, true, true, true}, free(geom.R(0, 0, 300*mm, 200*mm).Polygon()))
	assert.Equal(t, []bool{false, false, false, false}, free(geom.R(0, 0, 300*mm, 30*mm).Polygon()), "an edge of 30 mm is no edge to push against")
	// A sharp corner of less than 20°, and a blunt one.
	assert.Equal(t, []bool{false, true, true}, free(geom.Polygon{{X: 0, Y: 0}, {X: 400 * mm, Y: 0}, {X: 400 * mm, Y: 120 * mm}}))
}

func TestCornersOfManyCorneredBoardsAreNamedByTheirMeasures(t *testing.T) {
	m := makerOf(t, demo(t))
	m.plan.Job.Units = geom.Metric
	named := func(p geom.Polygon) (out []string) {
		v := view{outline: p, bounds: p.Bounds()}
		for i := range p {
			out = append(out, m.cornerName(v, i))
		}
		return out
	}
	assert.Equal(t, []string{"lower left", "lower right", "upper right", "upper left"}, named(geom.R(0, 0, 300*mm, 200*mm).Polygon()))
	assert.Equal(t, []string{"lower left", "lower right, the lower", "lower right, the higher", "upper left"},
		named(geom.Polygon{{X: 0, Y: 0}, {X: 300 * mm, Y: 0}, {X: 300 * mm, Y: 90 * mm}, {X: 0, Y: 200 * mm}}))
	assert.Equal(t, []string{"lower left", "300 mm across, 0 mm up", "300 mm across, 100 mm up", "200 mm across, 100 mm up", "upper right", "upper left"},
		named(geom.Polygon{{X: 0, Y: 0}, {X: 300 * mm, Y: 0}, {X: 300 * mm, Y: 100 * mm}, {X: 200 * mm, Y: 100 * mm}, {X: 200 * mm, Y: 250 * mm}, {X: 0, Y: 250 * mm}}))
}
