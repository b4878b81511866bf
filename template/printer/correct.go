package printer

import (
	"fmt"
	"math"
	"strings"

	"rodsheet/geom"
)

// Meaning classifies a reading.
type Meaning string

// The meanings.
const (
	True     Meaning = "true"        // within the reading's own error: nothing to correct
	Off      Meaning = "off"         // to be corrected
	Scaled   Meaning = "scaled"      // the print was scaled to fit a paper
	TooFar   Meaning = "too far"     // beyond what a printer does by itself
	Missing  Meaning = "missing"     // zero or less
	Units    Meaning = "other units" // read in another unit than it was written in
	Disagree Meaning = "disagree"    // the readings contradict each other
)

// maxCorrection is the largest correction that is made unless it is wanted anyway.
const maxCorrection = 0.03

// A Verdict is what one reading means.
type Verdict struct {
	Of      string // "across", "down", "diagonals" or "across and down"
	Meaning Meaning
	Text    string
}

// A RefusedError says why readings make no profile.
type RefusedError struct{ Verdicts []Verdict }

func (e *RefusedError) Error() string {
	texts := make([]string, len(e.Verdicts))
	for i, v := range e.Verdicts {
		texts[i] = v.Of + ": " + v.Text
	}
	return strings.Join(texts, "\n")
}

// Correct makes the likeliest profile of readings and says what each means; the scale sheet was printed on paper of the
// given size, upright. The error is a *[RefusedError]: readings of nothing, in other units or in contradiction are never taken; a
// print that was scaled to fit, and corrections beyond ±3 %, only where anyway is set.
func Correct(name string, paper geom.Size, r Readings, anyway bool) (Profile, []Verdict, error) {
	if bad := r.unusable(); len(bad) > 0 {
		return Profile{}, bad, &RefusedError{bad}
	}
	p := Profile{Name: name, Paper: paper, Readings: r, Anyway: anyway}
	var verdicts, refused []Verdict
	add := func(of string, m Meaning, refuse bool, format string, args ...any) {
		v := Verdict{of, m, fmt.Sprintf(format, args...)}
		verdicts = append(verdicts, v)
		if refuse && !anyway {
			refused = append(refused, v)
		}
	}
	if s, ok := r.wrongScale(); ok {
		add("across and down", Scaled, true, "%s. Print the scale sheet again with scaling switched off (\"actual size\", 100 %%), and read that; a correction would hide the setting, not mend it.", s)
		if !anyway {
			return Profile{}, verdicts, &RefusedError{refused}
		}
	}
	p.Across, p.Down, p.Lean = r.estimate()
	axis := func(of string, l Line, likeliest float64) {
		what := fmt.Sprintf("%s for %s", l.Read.In(r.Units), l.Drawn.In(r.Units))
		switch off := l.factor() - 1; {
		case likeliest == 1:
			add(of, True, false, "%s is true; nothing is corrected.", what)
		case math.Abs(off) <= l.doubt():
			add(of, True, false, "%s is true within the reading's own error of %s; likeliest is that the printer makes it %s, and pages are drawn the other way by as much.", what, read(l.Within, r.Units), percent(likeliest-1))
		case math.Abs(off) > maxCorrection:
			add(of, TooFar, true, "%s is %s; a printer by itself is rarely more than 1 %% off. Look for scaling in the print dialog, and read again.", what, percent(off))
		default:
			add(of, Off, false, "%s: likeliest is that the printer makes it %s; pages are drawn the other way by as much.", what, percent(likeliest-1))
		}
	}
	axis("across", r.Across, p.Across)
	axis("down", r.Down, p.Down)
	if r.Diagonals != nil {
		switch sine, doubt := r.lean(); {
		case p.Lean == 0:
			add("diagonals", True, false, "The diagonals are equal; the page is square.")
		case math.Abs(sine) <= doubt:
			add("diagonals", True, false, "The diagonals are equal within the readings' own error; likeliest is that what should be upright leans to the %s by %.2f in 100, and pages are drawn the other way by as much.", side(p.Lean), math.Abs(p.Lean)*100)
		case math.Abs(sine) > maxCorrection:
			add("diagonals", TooFar, true, "What should be upright leans by %.2f in 100; that is more than paper fed askew explains. Read again.", sine*100)
		default:
			add("diagonals", Off, false, "Likeliest is that what should be upright leans to the %s by %.2f in 100; pages are drawn the other way by as much.", side(p.Lean), math.Abs(p.Lean)*100)
		}
	}
	if len(refused) > 0 {
		return Profile{}, verdicts, &RefusedError{refused}
	}
	return p, verdicts, nil
}

func side(sine float64) string {
	if sine < 0 {
		return "left"
	}
	return "right"
}

func percent(off float64) string {
	if off < 0 {
		return fmt.Sprintf("%.2f %% too short", -off*100)
	}
	return fmt.Sprintf("%.2f %% too long", off*100)
}

// read writes a small length: to a tenth of a millimetre in either system, as no inch rule shows it.
func read(l geom.Length, s geom.System) string {
	if s == geom.Imperial {
		return fmt.Sprintf("%.3f″", l.Inches())
	}
	return fmt.Sprintf("%.1f mm", l.Millimetres())
}

// unusable returns verdicts on readings that can't be right.
func (r Readings) unusable() []Verdict {
	var bad []Verdict
	check := func(of string, drawn, got, within geom.Length) {
		if drawn <= 0 || got <= 0 || within < 0 {
			bad = append(bad, Verdict{of, Missing, fmt.Sprintf("a line of %s was read as %s; both must be more than nothing.", drawn.In(r.Units), got.In(r.Units))})
			return
		}
		if text, swapped := otherUnits(drawn, got); swapped {
			bad = append(bad, Verdict{of, Units, text})
			return
		}
		if f := float64(got) / float64(drawn); f < 0.5 || f > 2 {
			bad = append(bad, Verdict{of, TooFar, fmt.Sprintf("%s was read for a line of %s; that is another line, or a slip. Read again.", got.In(r.Units), drawn.In(r.Units))})
		}
	}
	check("across", r.Across.Drawn, r.Across.Read, r.Across.Within)
	check("down", r.Down.Drawn, r.Down.Read, r.Down.Within)
	d := r.Diagonals
	if d == nil {
		return bad
	}
	if d.Of.W <= 0 || d.Of.H <= 0 {
		return append(bad, Verdict{"diagonals", Missing, "the rectangle has no size."})
	}
	drawn := geom.Point{}.Distance(geom.Pt(d.Of.W, d.Of.H))
	check("diagonal A", drawn, d.Rising, d.Within)
	check("diagonal B", drawn, d.Falling, d.Within)
	if len(bad) > 0 {
		return bad
	}
	if text, ok := r.contradiction(); ok {
		bad = append(bad, Verdict{"diagonals", Disagree, text})
	}
	return bad
}

// otherUnits recognises a reading in inches, centimetres or millimetres that was written down as another of them.
func otherUnits(drawn, got geom.Length) (string, bool) {
	f := float64(got) / float64(drawn)
	for _, u := range []struct {
		times      float64
		taken, was string
		in         geom.System
		as         geom.Length
	}{
		{1 / 25.4, "mm", "in", geom.Metric, geom.Millimetre},
		{25.4, "in", "mm", geom.Imperial, geom.Inch},
		{1. / 10, "mm", "cm", geom.Metric, geom.Millimetre},
		{10, "cm", "mm", geom.Metric, geom.Centimetre},
	} {
		if math.Abs(f/u.times-1) < 0.08 {
			number := float64(got) / float64(u.as)
			return fmt.Sprintf("%.6g %s was read for a line of %s: that looks like %.6g %s. Write the unit with the reading.",
				number, u.taken, drawn.In(u.in), number, u.was), true
		}
	}
	return "", false
}

// contradiction says how the diagonals contradict the sides, if they do. Whatever the skew, the squares of both diagonals
// add up to twice the sum of the squares of the sides (the parallelogram law).
func (r Readings) contradiction() (string, bool) {
	d := r.Diagonals
	if sine, _ := r.lean(); math.Abs(sine) > 0.2 {
		return fmt.Sprintf("%s and %s can't be the diagonals of one rectangle on a page. Read both again.", d.Rising.In(r.Units), d.Falling.In(r.Units)), true
	}
	w, h := float64(d.Of.W)*r.Across.factor(), float64(d.Of.H)*r.Down.factor()
	expected := math.Hypot(w, h)
	got := math.Sqrt((square(float64(d.Rising)) + square(float64(d.Falling))) / 2)
	doubt := float64(d.Within) + expected*max(r.Across.doubt(), r.Down.doubt())
	if math.Abs(got-expected) <= doubt+float64(geom.Micrometre) {
		return "", false
	}
	return fmt.Sprintf("they average %s, where the lines across and down make %s: no skew explains that. One of the readings is wrong; read all four again.",
		read(geom.Length(got), r.Units), read(geom.Length(expected), r.Units)), true
}

func square(x float64) float64 { return x * x }
