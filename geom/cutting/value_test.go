package cutting

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestValuesOfTheLiteratureAreReachedAndProved(t *testing.T) {
	for _, c := range []struct {
		file           string
		fixed, rotated int64 // 0: not known
		source         string
	}{
		{"cgcut1", 244, 260, "Christofides & Whitlock 1977, Table 2 (rotated: computed)"},
		{"ngcut01", 164, 193, "Beasley, Oper. Res. 33, 1985, Table 1, from memory; guillotine and rotated computed (K-02)"},
		{"ngcut02", 230, 250, "as above"}, {"ngcut03", 247, 259, "as above"}, {"ngcut04", 268, 268, "as above"},
		{"ngcut05", 358, 370, "as above"}, {"ngcut06", 289, 298, "as above"}, {"ngcut07", 430, 430, "as above"},
		{"ngcut08", 834, 886, "as above"},
		{"ngcutap15", 2721, 0, "Wang 1983; guillotine value computed (K-03), without guillotine cuts 2726"},
		{"gcut01", 56460, 58136, "Beasley, J. Oper. Res. Soc. 36, 1985, Table 1; rotated computed (K-04)"},
		{"gcut02", 60536, 60611, "as above"}, {"gcut03", 61036, 61626, "as above"}, {"gcut04", 61698, 62265, "as above"},
		{"gcut05", 246000, 246000, "as above"}, {"gcut06", 238998, 240951, "as above"},
	} {
		for _, o := range []struct {
			grain Grain
			want  int64
		}{{Along, c.fixed}, {Free, c.rotated}} {
			if o.want == 0 {
				continue
			}
			v := readInstance(t, c.file).value(o.grain)
			got, err := v.Best()
			require.NoError(t, err)
			require.NoError(t, VerifyValue(v, got), c.file)
			assert.Equal(t, o.want, got.Value, "%s, %s", c.file, c.source)
			assert.True(t, got.Proved, c.file)
		}
	}
}

func TestCgcut1IsCutIntoTheNumbersOfItsOptimum(t *testing.T) {
	// 244 is published (Christofides & Whitlock, Oper. Res. 25, 1977, Table 2); the counts were worked out for the project.
	c, err := readInstance(t, "cgcut1").value(Along).Best()
	require.NoError(t, err)
	assert.Equal(t, []int{2, 1, 1, 2, 1, 1, 0}, c.Counts)
}

func TestAGoodWithAWrongValueIsRefused(t *testing.T) {
	v := Value{Sheet: Sheet{Size: mms(10, 10)}, Goods: []Good{{Size: mms(1, 1), Value: -1}}}
	_, err := v.Best()
	assert.EqualError(t, err, fmt.Sprintf("the value of part no. 1 is -1; it must be from zero to %d", int64(maxWorth)))
}

func BenchmarkValueNgcutap15(b *testing.B) {
	v := readInstance(b, "ngcutap15").value(Along)
	for b.Loop() {
		_, _ = v.Best()
	}
}

func BenchmarkValueGcut06(b *testing.B) {
	v := readInstance(b, "gcut06").value(Along)
	for b.Loop() {
		_, _ = v.Best()
	}
}
