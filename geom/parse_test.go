package geom

import (
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const half = Inch / 2

func TestParseLengthReadsWhatPeopleWrite(t *testing.T) {
	for _, c := range []struct {
		text string
		bare System
		want Length
	}{
		{"10 1/2 in", Metric, 10*Inch + half},
		{`10-1/2"`, Metric, 10*Inch + half},
		{"10½″", Metric, 10*Inch + half},
		{"10 ½ in", Metric, 10*Inch + half},
		{"½", Imperial, half},
		{"1/2", Imperial, half},
		{"21/2", Imperial, 10*Inch + half},
		{"1⁄2 in", Metric, half},
		{`3' 4 1/2"`, Metric, 3*Foot + 4*Inch + half},
		{"3′ 4 1/2″", Metric, 3*Foot + 4*Inch + half},
		{"3’ 4 1/2”", Metric, 3*Foot + 4*Inch + half},
		{"3' - 4 1/2''", Metric, 3*Foot + 4*Inch + half},
		{"3'-4", Metric, 3*Foot + 4*Inch},
		{"3 ft 4 in", Metric, 3*Foot + 4*Inch},
		{"3 ft. 4 in.", Metric, 3*Foot + 4*Inch},
		{"3 feet 1/2 inch", Metric, 3*Foot + half},
		{"3 ft", Metric, 3 * Foot},
		{"1 foot", Metric, Foot},
		{"2 inches", Metric, 2 * Inch},
		{"3 1/2 ft", Metric, 42 * Inch},
		{"0' 11.75\"", Metric, 11*Inch + 3*Inch/4},
		{"267 mm", Imperial, 267 * Millimetre},
		{"267mm", Imperial, 267 * Millimetre},
		{"26.7 cm", Imperial, 267 * Millimetre},
		{"1.2 m", Imperial, 1200 * Millimetre},
		{"0.5", Metric, 500 * Micrometre},
		{"0.5", Imperial, half},
		{"15/32", Imperial, 15 * Inch / 32},
		{"1 63/64", Imperial, 127 * SixtyFourth},
		{"0.0000005 mm", Metric, 1}, // half a nanometre goes up
		{"0.00000049 mm", Metric, 0},
		{"1/3 in", Metric, 8_466_667}, // thirds are rounded
		{"⅔ in", Metric, 16_933_333},
		{"-1/2", Imperial, -half},
		{"−1/2", Imperial, -half}, // U+2212, as we print it
		{"+1/2", Imperial, half},
		{"- 5 mm", Imperial, -5 * Millimetre},
		{"  7\t", Metric, 7 * Millimetre},
		{"7\u00a0mm", Imperial, 7 * Millimetre},
		{"7\u202fmm", Imperial, 7 * Millimetre},
		{"1000 m", Metric, Longest},
		{"007", Metric, 7 * Millimetre},
		{"0", Metric, 0},
		{"-0", Metric, 0},
	} {
		got, err := ParseLength(c.text, c.bare)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.want, got, c.text)
	}
}

func TestParseLengthSaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "it is empty"},
		{" \t ", "it is empty"},
		{"10 1/0 in", "zero under its stroke"},
		{"1/00", "zero under its stroke"},
		{"1e9", `"e9" is left over`},
		{"5,5", "write a point, as in 5.5"},
		{"1,000.5 mm", "a comma is neither"},
		{"٣ in", "a number must come first"},
		{"in", "a number must come first"},
		{"-", "a number must come first"},
		{"--5", "a number must come first"},
		{"+-5", "a number must come first"},
		{"NaN", "a number must come first"},
		{".5 in", "as in 0.5"},
		{"5. in", "digits must follow the point"},
		{"1.5.2", `".2" is left over`},
		{"1/", "digits must follow the fraction's stroke"},
		{"1/2/3", `"/3" is left over`},
		{"10 3/2", "must be less than one"},
		{"10 - 1/2", `"- 1/2" is left over`}, // ten less a half, or ten and a half?
		{"10 -1/2", `"-1/2" is left over`},
		{"10-5", `"-5" is left over`},
		{"10 20", `"20" is left over`},
		{"1½½", `"½" is left over`},
		{"5 yd", `"yd" is left over`},
		{"5 mmm", `"mmm" is left over`},
		{"5 inx", `"inx" is left over`},
		{"5 mm 3", `"3" is left over`},
		{"3' 4 mm", "only inches may follow feet"},
		{"3' 2'", "only inches may follow feet"},
		{"3' 12\"", "12 inches or more after feet"},
		{"3' -", "a number must come first"},
		{"1000.000001 m", "longer than a kilometre"},
		{"99999999999999999999999999", "longer than a kilometre"},
		{"≈5 mm", "a number must come first"},
		{"5 \xff", "is left over"},
		{strings.Repeat("9", 101), "far too long"},
		{strings.Repeat("½", 60), "far too long"},
	} {
		got, err := ParseLength(c.text, Metric)
		require.Error(t, err, c.text)
		assert.Zero(t, got)
		assert.Contains(t, err.Error(), c.says)
		assert.Contains(t, err.Error(), " is no length: ")
		assert.True(t, utf8.ValidString(err.Error()), "the message of %q is text", c.text)
		var lengthError *LengthError
		require.ErrorAs(t, err, &lengthError)
	}
	_, err := ParseLength("10 1/0 in", Imperial)
	assert.EqualError(t, err, `"10 1/0 in" is no length: a fraction can't have a zero under its stroke`)
}

func TestWhatIsPrintedIsReadBack(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 1959))
	for range 2000 {
		sixtyFourths := Length(random.Int64N(20_000)-10_000) * SixtyFourth
		tenths := Length(random.Int64N(20_000)-10_000) * Millimetre / 10
		any := Length(random.Int64N(int64(2*Longest))) - Longest
		for _, c := range []struct {
			text string
			want Length
		}{
			{sixtyFourths.In(Imperial), sixtyFourths},
			{sixtyFourths.Long(Imperial), sixtyFourths},
			{tenths.Long(Metric), tenths},
			{tenths.In(Metric), tenths},
			{any.String(), any},
		} {
			got, err := ParseLength(c.text, Metric)
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.text)
		}
		bare, err := ParseLength(sixtyFourths.Bare(Imperial), Imperial)
		require.NoError(t, err)
		require.Equal(t, sixtyFourths, bare)
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{`3' 4 1/2"`, "10½″", "−26.7 cm", "1/0", "5,5", "٣ in", "1e9", "\xff", "1⁄3 in", "3'-4''"} {
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, imperial bool) {
		bare := Metric
		if imperial {
			bare = Imperial
		}
		l, err := ParseLength(text, bare)
		if err != nil {
			require.Zero(t, l)
			require.True(t, utf8.ValidString(err.Error()))
			return
		}
		require.LessOrEqual(t, l.Abs(), Longest)
		again, err := ParseLength(l.String(), bare)
		require.NoError(t, err)
		require.Equal(t, l, again)
	})
}
