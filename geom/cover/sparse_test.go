package cover_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/geom/cover"
)

func TestASparseGridPrintsOnlyPagesWithMarks(t *testing.T) {
	p := cover.GridProblem{
		Marks:  []cover.Mark{{At: geom.Pt(0, 0), R: 2 * mm}, {At: geom.Pt(900*mm, 0), R: 2 * mm}, {At: geom.Pt(930*mm, 0), R: 2 * mm}},
		Window: geom.Size{W: 190 * mm, H: 260 * mm}, Overlap: 10 * mm, Clear: 5 * mm, Sparse: true,
	}
	g, err := p.Solve()
	require.NoError(t, err)
	checkGrid(t, p, g)
	assert.Len(t, g.Pages, 2)
	assert.True(t, g.Proved)
	assert.Equal(t, cover.Cell{}, g.Pages[0])
}

// TestASparseGridIsNeverBeatenByTryingAllOffsets tries every offset on half nanometres, by doubling all lengths first,
// so that the trial is finer than the marks.
func TestASparseGridIsNeverBeatenByTryingAllOffsets(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	proved, forced := 0, 0
	for range 1500 {
		p := smallGrid(rng)
		p.Sparse = true
		for i := range p.Marks {
			p.Marks[i].At = geom.Pt(2*p.Marks[i].At.X, 2*p.Marks[i].At.Y)
			p.Marks[i].R *= 2
		}
		p.Window, p.Overlap, p.Clear = geom.Size{W: 2 * p.Window.W, H: 2 * p.Window.H}, 2*p.Overlap, 2*p.Clear
		want, all := bruteOffsets(p)
		g, err := p.Solve()
		if err != nil {
			require.Zero(t, want, "%+v", p)
			continue
		}
		checkGrid(t, p, g)
		if want == 0 {
			forced++
			continue
		}
		require.LessOrEqual(t, len(g.Pages), want, "%+v\n%+v", p, g)
		if all {
			require.Equal(t, want, len(g.Pages), "%+v\n%+v", p, g)
			require.True(t, g.Proved && g.Equal)
			proved++
		}
	}
	t.Logf("%d proved, %d without a free offset", proved, forced)
	assert.Greater(t, proved, 300)
	assert.Greater(t, forced, 100)
}

// bruteOffsets is the fewest pages over all free offsets, and whether every orientation has free ones; 0 without any.
func bruteOffsets(p cover.GridProblem) (fewest int, all bool) {
	all = true
	for _, turned := range []bool{false, true} {
		w := p.Window
		if turned {
			if !p.Turn {
				continue
			}
			w = w.Turned()
		}
		px, py := w.W-p.Overlap, w.H-p.Overlap
		found := false
		for dx := range px {
			for dy := range py {
				cells, free := map[cover.Cell]bool{}, true
				for _, m := range p.Marks {
					cx, okX := bruteCell(m.At.X-dx, px, m.R+p.Clear)
					cy, okY := bruteCell(m.At.Y-dy, py, m.R+p.Clear)
					free = free && okX && okY
					cells[cover.Cell{Column: cx, Row: cy}] = true
				}
				if free {
					found = true
					if fewest == 0 || len(cells) < fewest {
						fewest = len(cells)
					}
				}
			}
		}
		all = all && found
	}
	return fewest, all
}

// bruteCell is the cell of a mark and whether it keeps off the seams on both sides.
func bruteCell(x, pitch, d geom.Length) (int, bool) {
	x += 1000 * pitch
	return int(x / pitch), x%pitch >= d && pitch-x%pitch >= d
}
