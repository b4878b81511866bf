package template_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template"
	"rodsheet/template/drawing"
	"rodsheet/template/internal/reader"
	"rodsheet/template/sheet"
)

// underSlopes is a job with triangles, a stair's slope, a notch in the foot of a board and one in its side.
const underSlopes = `rodsheet: 1
name: Under slopes
units: mm
board: {thickness: 9.2, sheet: 1220 x 2440}
foam: {thickness: 20, sheet: 1200 x 2000}
batting: {thickness: 8, pressed: 1.5, roll: 1500}
cover: {thickness: 1, roll: 1420}
clip: {kind: press, base: 38 x 38, flange: 3, standoff: 10, carries: 10 kg}
screws: {board: {size: 3.5 mm, length: 10}, wall: {size: 3.5 mm, length: 40}, marker: 2}
walls:
  - name: Gable
    width: 3000
    outline: [[0, 0], [3000, 0], [3000, 600], [1500, 2400], [0, 600]]
    lining: {thickness: 12.5}
    studs: {from: 100, every: 400, width: 45}
    runs:
      - {name: T, area: [[300, 700], [2700, 700], [1500, 2100]], panels: 4, gap: 3}
  - name: Stair
    width: 2600
    height: 2400
    lining: {thickness: 12.5}
    studs: {from: 100, every: 400, width: 45}
    openings:
      - {name: hatch, at: [700, 600], size: 420 x 300}
    fittings:
      - {name: socket, kind: electrical, at: [150, 90], size: 86 x 120}
    runs:
      - {name: S, area: [[60, 90], [2500, 90], [2500, 180], [290, 1840], [60, 1840]], panels: 5, gap: 4}
`

// A markRow is a line of the table by which a board is marked out: the corner's number, its two measures and the way
// to the next corner, mm.
type markRow struct {
	number          int
	left, up, along float64
}

var outOf = regexp.MustCompile(`^Board ([A-Z]+), .*: out of `)

// markRows reads the tables of the cutting sheets, by the name of the board over each.
func (p printed) markRows(t *testing.T) map[string][]markRow {
	t.Helper()
	out := map[string][]markRow{}
	board := ""
	for _, c := range p.of(sheet.Cutting) {
		for _, i := range p.pagesOf(c) {
			lines := map[int][]reader.Text{}
			var levels []int
			for _, w := range p.read[i].Texts {
				y := int(w.Y * 10)
				if lines[y] == nil {
					levels = append(levels, y)
				}
				lines[y] = append(lines[y], w)
			}
			slices.Sort(levels)
			for _, y := range levels {
				line := lines[y]
				slices.SortFunc(line, func(a, b reader.Text) int { return int(a.X - b.X) })
				if name := outOf.FindStringSubmatch(line[0].String); name != nil {
					board = name[1]
				}
				if len(line) != 6 || !strings.HasSuffix(line[5].String, "°") {
					continue
				}
				n, err := strconv.Atoi(line[0].String)
				require.NoError(t, err)
				row := markRow{number: n}
				for k, to := range []*float64{&row.left, &row.up, &row.along} {
					l, err := geom.ParseLength(strings.TrimPrefix(line[k+1].String, "≈"), p.Job.Units)
					require.NoError(t, err)
					*to = l.Millimetres()
				}
				out[board] = append(out[board], row)
			}
		}
	}
	return out
}

// A board is marked out on a sheet by two measures of each corner from square edges, without a protractor.
func TestCuttingSheetsMarkOutEveryBoardThatIsNoRectangle(t *testing.T) {
	for _, name := range []string{"loft", "under slopes"} {
		for _, faces := range []bool{false, true} {
			t.Run(name+" "+strconv.FormatBool(faces), func(t *testing.T) {
				p := onPaper(t, name, template.Print{Only: []drawing.Kind{sheet.Cutting}, Faces: faces})
				rows := p.markRows(t)
				rounded := 0.25 + 1e-6 // to the nearest 0.5 mm
				marked := 0
				for i := range p.Plan.Boards {
					b := &p.Plan.Boards[i]
					if b.Outline.IsRectangle() {
						assert.Empty(t, rows[b.Name], "board %s", b.Name)
						continue
					}
					marked++
					seen := b.Outline.Mirror(b.Size.W)
					if faces {
						seen = b.Outline
					}
					if !assert.Len(t, rows[b.Name], len(seen), "board %s", b.Name) {
						continue
					}
					for k, r := range rows[b.Name] {
						assert.Equal(t, k+1, r.number)
						assert.InDelta(t, seen[k].X.Millimetres(), r.left, rounded, "board %s corner %d", b.Name, r.number)
						assert.InDelta(t, seen[k].Y.Millimetres(), r.up, rounded, "board %s corner %d", b.Name, r.number)
						assert.InDelta(t, seen[k].Distance(seen[(k+1)%len(seen)]).Millimetres(), r.along, rounded, "board %s corner %d", b.Name, r.number)
					}
				}
				assert.Greater(t, marked, 2)
			})
		}
	}
}
