package printer

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rodsheet/geom"
	"rodsheet/template/paper"
)

const mm = geom.Millimetre

var a4 = paper.A4.Size

// synthetic is a printer that stretches, leans and turns what it prints.
type synthetic struct{ across, down, lean, turn float64 }

// print is where a place of an upright page, x right, y up in millimetres, comes out.
func (s synthetic) print(x, y float64) (float64, float64) {
	u, v := s.across*x+s.down*math.Sin(s.lean)*y, s.down*math.Cos(s.lean)*y
	sin, cos := math.Sincos(s.turn)
	return cos*u - sin*v, sin*u + cos*v
}

func (s synthetic) distance(x0, y0, x1, y1 float64) geom.Length {
	u0, v0 := s.print(x0, y0)
	u1, v1 := s.print(x1, y1)
	return geom.Millimetre.Times(math.Hypot(u1-u0, v1-v0))
}

// readings are what somebody reads off the printer's scale sheet, each to a hundredth of a millimetre.
func (s synthetic) readings(within geom.Length) Readings {
	hundredth := func(l geom.Length) geom.Length { return l.Round(mm / 100) }
	return Readings{
		Across: Line{180 * mm, hundredth(s.distance(15, 140, 195, 140)), within},
		Down:   Line{260 * mm, hundredth(s.distance(100, 20, 100, 280)), within},
		Diagonals: &Diagonals{
			Of:     geom.Size{W: 180 * mm, H: 260 * mm},
			Rising: hundredth(s.distance(15, 20, 195, 280)), Falling: hundredth(s.distance(15, 280, 195, 20)), Within: within,
		},
	}
}

func TestCorrectedPagePrintsTrueToATwentiethOfAMillimetre(t *testing.T) {
	for _, s := range []synthetic{
		{1.004, 0.993, 0, 0},
		{0.99, 1.01, 0.005, 0.02},
		{1.0021, 1.0034, -0.008, -0.01},
		{0.975, 1.02, 0.02, 0},
	} {
		p, _, err := Correct("test", a4, s.readings(mm/100), false)
		require.NoError(t, err)
		m := p.Correction()
		worst := 0.0
		// Every pair of a grid of places on an A4 page must come out at its true distance.
		var from, to [][2]float64
		for i := 0; i <= 4; i++ {
			for k := 0; k <= 4; k++ {
				x, y := a4.W.Millimetres()*float64(i)/4, a4.H.Millimetres()*float64(k)/4
				q := m.Apply(geom.Pt(geom.Millimetre.Times(x), geom.Millimetre.Times(y)))
				u, v := s.print(q.X.Millimetres(), q.Y.Millimetres())
				from, to = append(from, [2]float64{x, y}), append(to, [2]float64{u, v})
			}
		}
		for i := range from {
			for k := range i {
				want := math.Hypot(from[i][0]-from[k][0], from[i][1]-from[k][1])
				got := math.Hypot(to[i][0]-to[k][0], to[i][1]-to[k][1])
				worst = max(worst, math.Abs(want-got))
			}
		}
		assert.LessOrEqual(t, worst, 0.05, "%+v", s)
	}
}

func TestUncorrectedPageIsOffByMore(t *testing.T) {
	s := synthetic{1.004, 0.993, 0, 0}
	assert.Greater(t, (s.distance(0, 0, 210, 0) - 210*mm).Abs(), mm/2)
}

func readings(across, down float64) Readings {
	return Readings{Across: Line{180 * mm, geom.Millimetre.Times(180 * across), mm / 2}, Down: Line{250 * mm, geom.Millimetre.Times(250 * down), mm / 2}}
}

func TestReadingTrueWithinItsOwnErrorIsNotCorrected(t *testing.T) {
	// A class II tape can't prove less than 0.5 mm on up to a metre (EU 2014/32/EU, Annex X).
	p, verdicts, err := Correct("test", a4, Readings{Across: Line{180 * mm, 180*mm + mm/2, mm / 2}, Down: Line{250 * mm, 249 * mm, mm / 2}}, false)
	require.NoError(t, err)
	assert.Equal(t, 1.0, p.Across)
	assert.InDelta(t, 0.996, p.Down, 1e-12)
	assert.Equal(t, []Meaning{True, Off}, []Meaning{verdicts[0].Meaning, verdicts[1].Meaning})
	assert.Contains(t, verdicts[0].Text, "nothing is corrected")
	assert.Contains(t, verdicts[1].Text, "0.40 % too short")
	assert.False(t, p.True())

	p, _, err = Correct("test", a4, readings(1, 1), false)
	require.NoError(t, err)
	assert.True(t, p.True())
	assert.Equal(t, geom.Identity(), p.Correction())
}

func TestWrongScalesAreRecognised(t *testing.T) {
	// From ISO 216 (A4 210 × 297 mm, A3 297 × 420) and ASME Y14.1 (Letter 8.5 × 11 in, Tabloid 11 × 17 in).
	for _, row := range []struct {
		scale float64
		text  string
	}{
		{279.4 / 297, "A4 fitted to Letter"},        // 0.9407: a 100 mm line prints 94.07 mm
		{210 / 215.9, "Letter fitted to A4"},        // 0.9727: 97.27 mm
		{210. / 297, "A3 fitted to A4"},             // 0.7071
		{297. / 210, "A4 fitted to A3"},             // 1.4143
		{279.4 / 431.8, "Tabloid fitted to Letter"}, // 0.6471
		{(210 - 20.) / 210, "A4 fitted between margins of 10.0 mm"},
	} {
		_, verdicts, err := Correct("test", a4, readings(row.scale, row.scale), false)
		var refused *RefusedError
		require.ErrorAs(t, err, &refused, row.text)
		assert.Equal(t, Scaled, verdicts[0].Meaning)
		assert.Contains(t, err.Error(), row.text)
		assert.Contains(t, err.Error(), "scaling switched off")
	}
	assert.InDelta(t, 0.940741, signatures()[0].across, 5e-7)
	for _, s := range signatures() {
		if s.text == "Letter fitted to A4" {
			assert.InDelta(t, 0.972673, s.across, 5e-7)
			// The 4 in line, 101.6 mm: 98.82 mm; of A4 fitted to Letter 95.58 mm.
			assert.InDelta(t, 98.82, 101.6*s.across, 0.005)
		}
	}
	assert.InDelta(t, 95.58, 101.6*signatures()[0].across, 0.005)
}

func TestStretchedPageIsRecognised(t *testing.T) {
	_, _, err := Correct("test", a4, readings(215.9/210, 279.4/297), false)
	assert.ErrorContains(t, err, "A4 stretched to Letter")
}

func TestOrdinaryPrintersMatchNoSignature(t *testing.T) {
	for off := -0.009; off < 0.0091; off += 0.001 {
		_, verdicts, err := Correct("test", a4, readings(1+off, 1-off/2), false)
		require.NoError(t, err)
		for _, v := range verdicts {
			assert.NotEqual(t, Scaled, v.Meaning)
		}
	}
}

func TestCorrectionsBeyondThreeInAHundredAreRefused(t *testing.T) {
	_, verdicts, err := Correct("test", a4, readings(1.031, 1), false)
	var refused *RefusedError
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, TooFar, verdicts[0].Meaning)
	assert.Contains(t, err.Error(), "3.10 % too long")

	p, _, err := Correct("test", a4, readings(1.031, 1), true)
	require.NoError(t, err)
	assert.InDelta(t, 1.031, p.Across, 1e-12)
	_, _, err = Correct("test", a4, readings(1.029, 1), false)
	require.NoError(t, err)
	p, _, err = Correct("test", a4, readings(279.4/297, 279.4/297), true)
	require.NoError(t, err)
	assert.InDelta(t, 0.940741, p.Down, 1e-6)
}

func TestReadingsThatCannotBeRightAreNeverTaken(t *testing.T) {
	good := Line{250 * mm, 250 * mm, mm / 2}
	for _, row := range []struct {
		name    string
		r       Readings
		meaning Meaning
		text    string
	}{
		{"zero", Readings{Across: Line{250 * mm, 0, 0}, Down: good}, Missing, "more than nothing"},
		{"negative", Readings{Across: good, Down: Line{250 * mm, -mm, 0}}, Missing, "more than nothing"},
		{"inches as millimetres", Readings{Across: Line{250 * mm, geom.Millimetre.Times(9.84), 0}, Down: good}, Units, "looks like 9.84 in"},
		{"centimetres as millimetres", Readings{Across: Line{250 * mm, 25 * mm, 0}, Down: good}, Units, "looks like 25 cm"},
		{"millimetres as inches", Readings{Across: Line{254 * mm, 254 * geom.Inch, 0}, Down: good, Units: geom.Imperial}, Units, "looks like 254 mm"},
		{"another line", Readings{Across: Line{250 * mm, 101 * mm, 0}, Down: Line{250 * mm, 120 * mm, 0}}, TooFar, "another line"},
		{"diagonals of nothing", Readings{Across: good, Down: good, Diagonals: &Diagonals{}}, Missing, "no size"},
		{"diagonal zero", Readings{Across: good, Down: good, Diagonals: &Diagonals{Of: geom.Size{W: 100 * mm, H: 100 * mm}, Rising: 141 * mm}}, Missing, "nothing"},
		{"diagonals too long for the sides", Readings{Across: good, Down: good, Diagonals: &Diagonals{Of: geom.Size{W: 100 * mm, H: 100 * mm}, Rising: 145 * mm, Falling: 144 * mm, Within: mm / 2}}, Disagree, "no skew explains"},
		{"diagonals of another rectangle", Readings{Across: good, Down: good, Diagonals: &Diagonals{Of: geom.Size{W: 100 * mm, H: 100 * mm}, Rising: 170 * mm, Falling: 105 * mm, Within: mm / 2}}, Disagree, "can't be the diagonals"},
	} {
		for _, anyway := range []bool{false, true} {
			_, verdicts, err := Correct("test", a4, row.r, anyway)
			var refused *RefusedError
			require.ErrorAs(t, err, &refused, row.name)
			assert.Contains(t, err.Error(), row.text, row.name)
			assert.Equal(t, row.meaning, verdicts[0].Meaning, row.name)
		}
	}
}

func TestSkewIsReadOffTheDiagonalsAndSmallOnesAreLeft(t *testing.T) {
	s := synthetic{1, 1, 0.01, 0}
	p, verdicts, err := Correct("test", a4, s.readings(mm/10), false)
	require.NoError(t, err)
	assert.InDelta(t, math.Sin(0.01), p.Lean, 1e-4)
	assert.Contains(t, verdicts[2].Text, "to the right by 1.00 in 100")

	p, verdicts, err = Correct("test", a4, synthetic{1, 1, 0.001, 0}.readings(mm/2), false)
	require.NoError(t, err)
	assert.Zero(t, p.Lean)
	assert.Equal(t, True, verdicts[2].Meaning)
	_, _, err = Correct("test", a4, synthetic{1, 1, 0.04, 0}.readings(mm/10), false)
	assert.ErrorContains(t, err, "leans by")
}

func ExampleCorrect() {
	r := Readings{
		Across: Line{Drawn: 180 * geom.Millimetre, Read: 179 * geom.Millimetre, Within: geom.Millimetre / 2},
		Down:   Line{Drawn: 250 * geom.Millimetre, Read: 250 * geom.Millimetre, Within: geom.Millimetre / 2},
	}
	p, verdicts, err := Correct("hall", paper.A4.Size, r, false)
	fmt.Println(err)
	fmt.Printf("%.4f %.4f\n", p.Across, p.Down)
	for _, v := range verdicts {
		fmt.Println(v.Of, v.Meaning)
	}
	// Output:
	// <nil>
	// 0.9944 1.0000
	// across off
	// down true
}
