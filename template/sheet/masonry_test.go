package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/typeset"
)

// words are all words of a drawing and beside its parts.
func words(d drawing.Drawing) (out []string) {
	for _, m := range d.Marks {
		if t, ok := m.(drawing.Text); ok {
			out = append(out, t.String)
		}
	}
	for _, c := range d.Callouts {
		out = append(out, c.Lines...)
	}
	return out
}

// Each place on a wall says bit, depth and fixing, and the circle there is the hole that is drilled.
func TestAWallSheetPrintsTheHoleThatIsDrilled(t *testing.T) {
	framed := strings.NewReplacer("    build: masonry\n", "    studs: {at: []}\n", "lining: {thickness: 12.5}     # plaster", "lining: {thickness: 12.5}")
	for _, row := range []struct {
		claim, text string
		hole        geom.Length
		says        []string
	}{
		{"masonry", stored(t, "stair"), 8 * mm, []string{"masonry: plug 8 × 40 mm", "drill ⌀ 8 mm, 72 mm deep from the face", "screw 5 × 70 mm"}},
		{"anchor", strings.Replace(framed.Replace(stored(t, "stair")), "plug: {hole: 8, length: 40, carries: 8 kg}", "anchor: {hole: 10, reach: 16}", 1),
			10 * mm, []string{"lining alone: anchor", "drill ⌀ 10 mm, right through 12.5 mm"}},
		{"no anchor known", framed.Replace(stored(t, "stair")), 25 * mm / 10, []string{"lining alone: a fixing made for it", "centre mark ⌀ 2.5 mm; hole by its maker"}},
		{"wood", stored(t, "bay"), 25 * mm / 10, []string{"into the stud"}},
	} {
		d := makerOf(t, row.text).walls()[0].Drawings[0]
		require.NotEmpty(t, d.Holes)
		for _, h := range d.Holes {
			assert.Equal(t, row.hole/2, h.Radius, row.claim)
		}
		for _, says := range row.says {
			assert.Contains(t, words(d), says, row.claim)
		}
		if row.claim == "masonry" {
			for _, word := range words(d) {
				assert.NotContains(t, word, "stud")
				assert.NotContains(t, word, "lining alone")
			}
		}
	}
}

func TestOnMasonryNobodyProbesForStuds(t *testing.T) {
	m := makerOf(t, stored(t, "stair"))
	order := strings.Join(m.order(m.walls()), " ")
	assert.NotContains(t, order, "stud")
	assert.Contains(t, order, "set the plug flush with the masonry's own face")
	order = strings.Join(makerOf(t, demo(t)).order(nil), " ")
	assert.Contains(t, order, "probe for the studs")
	assert.Contains(t, order, "Mark a level line round the room, a measured height above zero (▼).", "zero itself lies in the floor")
	assert.NotContains(t, order, "masonry")
}

// The line is at 1200: run S hangs from 850 to 1450, its clips at 922.5 and 1377.5.
func TestHeightsAreReadFromTheMarkedLineToo(t *testing.T) {
	m := makerOf(t, stored(t, "stair"))
	also := map[string]string{}
	for _, s := range m.walls()[0].Drawings[0].Stations {
		if s.Upright {
			assert.Empty(t, s.Also)
			continue
		}
		also[s.Reads.In(geom.Metric)] = s.Also
	}
	want := map[string]string{"850 mm": "350 mm below the line", "922.5 mm": "277.5 mm below the line", "1377.5 mm": "177.5 mm above the line", "1450 mm": "250 mm above the line"}
	assert.Equal(t, want, also)

	rods := map[string][]string{}
	for _, s := range m.rods() {
		for _, d := range s.Drawings {
			rods[s.Name] = append(rods[s.Name], words(d)...)
		}
	}
	for _, says := range []string{"350 mm below the line", "277.5 mm below the line", "177.5 mm above the line", "250 mm above the line", "1200 mm the marked line"} {
		assert.Contains(t, rods["rod height S"], says)
	}
	for _, word := range rods["rod S"] {
		assert.NotContains(t, word, "the line")
	}

	var heads, cells []string
	for _, b := range m.heightTable() {
		switch b := b.(type) {
		case typeset.Heading:
			heads = append(heads, b.Text)
		case typeset.Table:
			for _, r := range b.Rows {
				for _, c := range r {
					cells = append(cells, c.Text)
				}
			}
		}
	}
	assert.Contains(t, heads, "Heights from the marked line")
	assert.Subset(t, cells, []string{"350 mm below the line", "250 mm above the line"})
	assert.Contains(t, m.heightsFrom(), "1200 mm above zero")
	pictures := words(m.elevations(geom.Size{W: 180 * mm, H: 100 * mm})[0])
	assert.Contains(t, pictures, "S bottom 850 mm, 350 mm below")
	assert.Contains(t, pictures, "the marked line 1200 mm")
	assert.Contains(t, strings.Join(m.order(nil), " "), "Mark the line, 1200 mm above zero (▼), level all round.")
}

func TestABlockSaysWhereItsTopIsAndHowMuchItsPlacesDiffer(t *testing.T) {
	m := makerOf(t, room("{seat: [400, 400.03], bottom: 510, top: 810}", "level line: 1000\n"))
	require.Len(t, m.plan.Blocks, 1)
	said := strings.Join(m.blockWords(&m.plan.Blocks[0]), " ")
	assert.Contains(t, said, "On the deck its top is 487 mm below the line.") // 510 and 3 for the edge
	assert.Contains(t, said, "Its places differ by 0.03 mm, which no saw can tell: one height serves them all.")
	m = makerOf(t, room("{seat: 400, bottom: 510, top: 810}", ""))
	said = strings.Join(m.blockWords(&m.plan.Blocks[0]), " ")
	assert.NotContains(t, said, "differ")
	assert.NotContains(t, said, "line.")
}
