package cutting

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
)

func TestSheetCountsOfTheLiteratureAreReached(t *testing.T) {
	for _, c := range []struct {
		file   string
		copies int // column of the copies
		kerf   geom.Length
		grain  Grain
		want   int
		proved bool // by our own bound
	}{
		// K-05: Beasley 1985 (J. Oper. Res. Soc. 36), data as bin packing, one copy each, fixed; counts computed.
		{"gcut01", -1, 0, Along, 5, false},
		{"gcut02", -1, 0, Along, 6, false},
		{"gcut03", -1, 0, Along, 8, false},
		{"gcut04", -1, 0, Along, 14, false},
		{"gcut05", -1, 0, Along, 3, false},
		{"gcut06", -1, 0, Along, 7, false},
		// K-06: Christofides & Whitlock 1977.
		{"cgcut1", 2, 0, Along, 2, false},
		// K-07: Beasley 1985 (Oper. Res. 33).
		{"ngcut01", 2, 0, Along, 3, false},
		{"ngcut02", 2, 0, Along, 4, false},
		{"ngcut03", 2, 0, Along, 3, false},
		{"ngcut04", 2, 0, Along, 2, false},
		{"ngcut05", 2, 0, Along, 3, false},
		{"ngcut06", 2, 0, Along, 3, false},
		{"ngcut07", 2, 0, Along, 1, false},
		{"ngcut08", 2, 0, Along, 2, false},
		{"T1a", -1, 0, Along, 2, false},
		{"T1a", -1, 0, Free, 2, false},
		{"T1b", -1, 0, Along, 2, false},
		{"T1b", -1, 0, Free, 2, false},
		{"own-G1", -1, 0, Along, 1, false},
		{"own-G1", -1, 0, Free, 1, false},
		{"own-G2", -1, 3, Along, 1, false},
		{"own-G2", -1, 3, Free, 1, false},
	} {
		s := readInstance(t, c.file).sheets(c.copies, c.kerf, c.grain)
		start := time.Now()
		l, err := s.Plan()
		t.Log(time.Since(start))
		require.NoError(t, err, c.file)
		require.NoError(t, Verify(s, l), c.file)
		assert.Equal(t, c.want, len(l.Used), c.file)
		t.Log(c.file, len(l.Used), l.Bound, l.BoundBy, l.Proved)
	}
}

func TestBoards(t *testing.T) {
	for _, n := range []string{"boards-A", "boards-B"} {
		s := readBoards(t, n)
		l, err := s.Plan()
		require.NoError(t, err)
		require.NoError(t, Verify(s, l))
		t.Log(n, len(l.Used), l.Bound, l.BoundBy, l.Proved)
	}
}

func TestValuesOfTheLiteratureAreReached(t *testing.T) {
	for _, c := range []struct {
		file         string
		fixed, freed int64
	}{
		{"cgcut1", 244, 260},
		{"ngcut01", 164, 193}, {"ngcut02", 230, 250}, {"ngcut03", 247, 259}, {"ngcut04", 268, 268},
		{"ngcut05", 358, 370}, {"ngcut06", 289, 298}, {"ngcut07", 430, 430}, {"ngcut08", 834, 886},
		{"ngcutap15", 2721, 0},
		{"gcut01", 56460, 58136}, {"gcut02", 60536, 60611}, {"gcut03", 61036, 61626}, {"gcut04", 61698, 62265},
		{"gcut05", 246000, 246000}, {"gcut06", 238998, 240951},
	} {
		for g, want := range map[Grain]int64{Along: c.fixed, Free: c.freed} {
			if want == 0 {
				continue
			}
			v := readInstance(t, c.file).value(g)
			got, err := v.Best()
			require.NoError(t, err)
			assert.Equal(t, want, got.Value, c.file)
			t.Log(c.file, g, got.Value, got.Bound, got.BoundBy, got.Proved)
		}
	}
}
