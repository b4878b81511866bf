package geom

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestUnitsAreExact(t *testing.T) {
	// International yard and pound agreement, 1 July 1959: 1 yd = 0.9144 m, so 1 in = 25.4 mm (NBS Circular 572, addendum).
	assert.Equal(t, 914_400*Micrometre, 3*Foot)
	assert.Equal(t, Length(25_400_000), Inch)
	assert.Equal(t, Inch, 64*SixtyFourth, "no nanometre is lost in a 64th")
	assert.Equal(t, Length(6_350_000), Inch/4, "a quarter inch is exactly 6.35 mm")
	assert.Equal(t, 1000*Millimetre, Metre)
	assert.Equal(t, 100*Centimetre, Metre)
	assert.Equal(t, 25.4, Inch.Millimetres())
	assert.Equal(t, 0.5, (Inch / 2).Inches())
	assert.Equal(t, Inch, Millimetre.Times(25.4))
	assert.Equal(t, Length(-2), Millimetre.Times(-1.5e-6), "halves go away from zero, as math.Round has it")
}

func TestLengthsAreWrittenAsPeopleReadThem(t *testing.T) {
	for _, c := range []struct {
		l           Length
		in, mm, str string
	}{
		{0, "0″", "0 mm", "0 mm"},
		{10*Inch + Inch/2, "10 1/2″", "266.7 mm", "266.7 mm"},
		{-10*Inch - Inch/2, "−10 1/2″", "−266.7 mm", "−266.7 mm"},
		{Inch / 2, "1/2″", "12.7 mm", "12.7 mm"},
		{-SixtyFourth, "−1/64″", "≈−0.5 mm", "−0.396875 mm"},
		{63 * SixtyFourth, "63/64″", "≈25 mm", "25.003125 mm"},
		{48 * Inch, "48″", "1219.2 mm", "1219.2 mm"},
		{267 * Millimetre, "≈10 1/2″", "267 mm", "267 mm"},
		{100 * Micrometre, "≈0″", "0.1 mm", "0.1 mm"},
		{-100 * Micrometre, "≈0″", "−0.1 mm", "−0.1 mm"}, // nothing is left to carry a sign
		{Inch / 3, "≈11/32″", "≈8.5 mm", "8.466666 mm"},
		{Inch - 1, "≈1″", "≈25.5 mm", "25.399999 mm"},
		{250 * Micrometre, "≈0″", "≈0.5 mm", "0.25 mm"}, // a half goes up
		{-250 * Micrometre, "≈0″", "≈0 mm", "−0.25 mm"},
		{1, "≈0″", "≈0 mm", "0.000001 mm"},
	} {
		assert.Equal(t, c.in, c.l.In(Imperial), "%d nm", c.l)
		assert.Equal(t, c.mm, c.l.In(Metric), "%d nm", c.l)
		assert.Equal(t, c.str, c.l.String(), "%d nm", c.l)
	}
	assert.Equal(t, "10 1/2", (10*Inch + Inch/2).Bare(Imperial))
	assert.Equal(t, "≈8.5", (Inch / 3).Bare(Metric))
}

// What is printed without ≈ is exact; what is printed with it is within half the fine step.
func TestAboutIsNeverFarOff(t *testing.T) {
	for l := -3 * Inch; l < 3*Inch; l += 7_919 {
		for _, s := range []System{Metric, Imperial} {
			text := l.In(s)
			bare, about := cutAbout(text)
			read, err := ParseLength(bare, s)
			if !assert.NoError(t, err) {
				return
			}
			off := (read - l).Abs()
			if !about && off != 0 || off > s.Fine()/2 {
				t.Fatalf("%d nm is written %q, which is %d nm off", l, text, off)
			}
		}
	}
}

func cutAbout(s string) (rest string, about bool) {
	const mark = "≈"
	if len(s) > len(mark) && s[:len(mark)] == mark {
		return s[len(mark):], true
	}
	return s, false
}

func TestRoundingToAStep(t *testing.T) {
	for _, c := range []struct{ l, step, floor, round, ceil Length }{
		{7, 5, 5, 5, 10}, {8, 5, 5, 10, 10}, {10, 5, 10, 10, 10}, {0, 5, 0, 0, 0},
		{-7, 5, -10, -5, -5}, {-8, 5, -10, -10, -5}, {-10, 5, -10, -10, -10},
		{5, 10, 0, 10, 10}, {-5, 10, -10, 0, 0}, // halves up
		{1, 3, 0, 0, 3}, {2, 3, 0, 3, 3}, {-1, 3, -3, 0, 0}, {-2, 3, -3, -3, 0},
	} {
		assert.Equal(t, c.floor, c.l.Floor(c.step), "floor of %d", int64(c.l))
		assert.Equal(t, c.round, c.l.Round(c.step), "round of %d", int64(c.l))
		assert.Equal(t, c.ceil, c.l.Ceil(c.step), "ceil of %d", int64(c.l))
	}
	assert.Equal(t, Length(3), Length(5).Times(0.5), "halves away from zero")
	assert.Equal(t, Length(5), Length(-5).Abs())
}

func TestSystems(t *testing.T) {
	assert.Equal(t, "in", Imperial.String())
	assert.Equal(t, "mm", Metric.String())
	assert.Equal(t, Inch, Imperial.Unit())
	assert.Equal(t, Millimetre, Metric.Unit())
	assert.Equal(t, 2*SixtyFourth, Imperial.Fine())
	assert.Equal(t, 500*Micrometre, Metric.Fine())
}

func TestLongLengthsAreSaidInFeetOrMetres(t *testing.T) {
	for want, l := range map[string]Length{
		"0″":        0,
		"11 3/4″":   11*Inch + 3*Inch/4,
		"1′":        Foot,
		"3′ 4 1/2″": 3*Foot + 4*Inch + Inch/2,
		"3′ 1/2″":   3*Foot + Inch/2,
		"−2′ 1″":    -25 * Inch,
		"≈1′":       Foot - 1,
	} {
		assert.Equal(t, want, l.Long(Imperial))
	}
	for want, l := range map[string]Length{
		"0 mm":      0,
		"9.5 mm":    95 * Millimetre / 10,
		"26.7 cm":   267 * Millimetre,
		"1.2 m":     1200 * Millimetre,
		"3.2405 m":  3240*Millimetre + Millimetre/2,
		"−2 m":      -2 * Metre,
		"≈1 m":      Metre - 1,
		"≈3.0125 m": 3012*Millimetre + 34*Micrometre + 400*Micrometre,
	} {
		assert.Equal(t, want, l.Long(Metric))
	}
}
