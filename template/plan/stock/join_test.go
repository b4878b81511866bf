package stock

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rodsheet/geom"
	"rodsheet/template/plan/fastening"
	"rodsheet/template/plan/internal/hung"
	"rodsheet/template/plan/internal/sample"
)

// offMiddle reports whether no joint of pieces comes nearer to the middle of their sum than off.
func offMiddle(list []geom.Length, off geom.Length) bool {
	sum := geom.Length(0)
	for _, l := range list {
		sum += l
	}
	at := geom.Length(0)
	for _, l := range list[:len(list)-1] {
		if at += l; (2*at - sum).Abs() < 2*off {
			return false
		}
	}
	return true
}

// divides reports whether a length may be divided into n pieces of whole steps, each at most most, joints off the middle:
// by trying all.
func divides(length, most, off geom.Length, n int) bool {
	var try func(rest geom.Length, list []geom.Length) bool
	try = func(rest geom.Length, list []geom.Length) bool {
		if len(list) == n-1 {
			return rest > 0 && rest <= most && offMiddle(append(slices.Clone(list), rest), off)
		}
		for l := geom.Length(1); l <= min(most, rest); l++ {
			if try(rest-l, append(slices.Clone(list), l)) {
				return true
			}
		}
		return false
	}
	return try(length, nil)
}

func TestPiecesAreTheFewestThatFitWithJointsOffTheMiddle(t *testing.T) {
	for most := geom.Length(4); most <= 14; most++ {
		for length := most + 1; length <= 3*most; length++ {
			got := pieces(length, most, 1)
			require.NotEmpty(t, got, "%d of %d", length, most)
			sum := geom.Length(0)
			for _, l := range got {
				require.True(t, l > 0 && l <= most, "%d of %d: %v", length, most, got)
				sum += l
			}
			require.Equal(t, length, sum)
			off := min(length/6, most/4)
			require.True(t, offMiddle(got, off), "%d of %d: %v", length, most, got)
			for n := 1; n < len(got); n++ {
				require.False(t, divides(length, most, off, n), "%d of %d: %d pieces would do, not %v", length, most, n, got)
			}
		}
	}
}

// By hand: 900 of 1000 is whole; 1200 of 1000 has its joint a third from an end; 1800 of 1000 would have it in the middle of a
// back or near it, so three are taken.
func TestJointsKeepOffTheMiddle(t *testing.T) {
	for _, row := range []struct {
		length, most geom.Length
		want         []geom.Length
	}{
		{900 * mm, 1000 * mm, []geom.Length{900 * mm}},
		{1200 * mm, 1000 * mm, []geom.Length{400 * mm, 800 * mm}},
		{1800 * mm, 1000 * mm, []geom.Length{600 * mm, 600 * mm, 600 * mm}},
		{3200 * mm, 1000 * mm, []geom.Length{675 * mm, 675 * mm, 1000 * mm, 850 * mm}},
		{1201*mm + 1, 1000 * mm, []geom.Length{400 * mm, 801*mm + 1}}, // pieces beside the middle one are whole steps
	} {
		assert.Equal(t, row.want, pieces(row.length, row.most, mm), row.length)
	}
	assert.Nil(t, pieces(100*in, in, in), "more pieces than anyone glues")
}

func TestFoamLargerThanItsSheetIsJoinedAndCounted(t *testing.T) {
	j := sample.Reading()
	j.Foam.Sheet = geom.Size{W: 20 * in, H: 72 * in} // boards of 24 × 48
	p := cutUp(j, hung.Board24x48(), 3)
	foam := p.Stock.Foam
	require.Len(t, foam.Joined, 1)
	assert.Equal(t, Join{"A", []int{0, 1, 2}, []geom.Length{8 * in, 16 * in}, []geom.Length{48 * in}}, foam.Joined[0])
	require.Len(t, foam.Parts, 2)
	assert.Equal(t, Part{0, "A, 1 of 2", []int{0, 1, 2}, geom.Size{W: 8 * in, H: 48 * in}}, foam.Parts[0])
	assert.Equal(t, Part{0, "A, 2 of 2", []int{0, 1, 2}, geom.Size{W: 16 * in, H: 48 * in}}, foam.Parts[1])
	assert.Zero(t, foam.TooLarge)
	require.True(t, foam.Planned)
	laid := 0
	for _, u := range foam.Layout.Used {
		laid += len(u.Placed)
	}
	assert.Equal(t, 6, laid, "all pieces are laid out")
	assert.Equal(t, "6 pieces", item(t, p, "foam 2″, sheets of").For)
	assert.Equal(t, []geom.Length{8 * in, 16 * in}, sample.ParamsOf[TooLarge](t, p.Findings).Columns)
	assert.Equal(t, "Part A is joined of 2 pieces, numbered from the left as you face the panel: 8 + 16 wide; joints keep off its middle.",
		foam.Joined[0].Words(func(l geom.Length) string { return l.Bare(geom.Imperial) }))
	assert.Equal(t, []geom.Size{{W: 24 * in, H: 48 * in}}, []geom.Size{p.Stock.Boards.Parts[0].Size}, "boards are not joined")
}

// A sheet is laid as it takes fewer pieces.
func TestFoamIsJoinedOfAsFewPiecesAsTheSheetGives(t *testing.T) {
	j, ok := join(Part{Name: "A", Size: geom.Size{W: 140 * mm, H: 100 * mm}}, geom.Size{W: 100 * mm, H: 60 * mm}, mm)
	require.True(t, ok)
	assert.Equal(t, 3, len(j.Columns)*len(j.Rows), "upright it would take four")
	j, ok = join(Part{Name: "A", Size: geom.Size{W: 60 * mm, H: 140 * mm}}, geom.Size{W: 100 * mm, H: 60 * mm}, mm)
	require.True(t, ok)
	assert.Equal(t, []geom.Length{60 * mm}, j.Columns, "lying")
	assert.Len(t, j.Rows, 2)
}

func TestPadsComeOutOfSheetsOfHardboard(t *testing.T) {
	for _, row := range []struct {
		claim        string
		sheet        geom.Size
		sheets       int
		across, rows int
	}{
		{"the near square comes out of one sheet", geom.Size{W: 24 * in, H: 48 * in}, 1, 7, 6},
		{"a strip of one row: 22 of 2 1/8 less a kerf in 48", geom.Size{W: 48 * in, H: 5 * in / 2}, 2, 22, 1},
		{"the strip upright", geom.Size{W: 5 * in / 2, H: 48 * in}, 2, 1, 22},
	} {
		j := sample.Reading()
		j.Hardboard = row.sheet
		p := hang(j, geom.Size{W: 15 * in, H: 24 * in}, 10, hung.Stud)
		p.Shims = fastening.Shims{Thickness: in / 8, Size: geom.Size{W: 2 * in, H: 2 * in}, Count: 40, Spares: 2}
		p.cut()
		c := p.Stock.Pads
		assert.Equal(t, row.sheets, c.Sheets, row.claim)
		assert.Equal(t, [2]int{row.across, row.rows}, [2]int{c.Across, c.Rows}, row.claim)
		assert.InDelta(t, float64(row.sheets), item(t, p, "hardboard 1/8″, sheets of").Amount, 0)
	}
	j := sample.Reading()
	j.Hardboard = geom.Size{W: in, H: 48 * in}
	p := hang(j, geom.Size{W: 15 * in, H: 24 * in}, 10, hung.Stud)
	p.Shims = fastening.Shims{Thickness: in / 8, Size: geom.Size{W: 2 * in, H: 2 * in}, Count: 40, Spares: 2}
	p.cut()
	assert.Equal(t, "pad-too-large", sample.ParamsOf[TooLarge](t, p.Findings).ID())
	assert.InDelta(t, 1, item(t, p, "hardboard 1/8″ for pads").Amount, 0)
}
