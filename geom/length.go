// Package geom has exact lengths and the plane shapes made of them: points, segments, rectangles, polygons, and maps of
// the plane. It knows nothing of panels or paper.
package geom

import (
	"fmt"
	"math"
	"strings"
)

// A Length is a signed distance in whole nanometres.
//
// Every mark of an inch rule (1/64 in = 396 875 nm) and of a metric rule is exact; so are all sums and
// differences. Thirds of an inch are not, which is why there is no constant for them: divide last, and say where
// the remainder goes. The range is about ±9.2 million km. Products of lengths overflow from about 3 m × 3 m; take
// them through [Cross] or float64.
//
// Compare with ==. To write an exact value, count in the unit: 10*geom.Inch + geom.Inch/2.
type Length int64

// Common lengths. The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
const (
	Nanometre   Length = 1
	Micrometre         = 1000 * Nanometre
	Millimetre         = 1000 * Micrometre
	Centimetre         = 10 * Millimetre
	Metre              = 1000 * Millimetre
	Inch               = 25_400 * Micrometre
	Foot               = 12 * Inch
	SixtyFourth        = Inch / 64 // the finest mark of an inch rule, 396 875 nm
)

// A System says how people read lengths: on an inch rule or on a metric one.
type System int

// The two systems of the job file's `units`.
const (
	Metric System = iota
	Imperial
)

// String returns the system's name in a job file: "mm" or "in".
func (s System) String() string {
	if s == Imperial {
		return "in"
	}
	return "mm"
}

// Unit returns the length of a bare number in the system.
func (s System) Unit() Length {
	if s == Imperial {
		return Inch
	}
	return Millimetre
}

// Pick returns the figure of s of a rule that has one for each system.
func (s System) Pick(imperial, metric Length) Length {
	if s == Imperial {
		return imperial
	}
	return metric
}

// Fine returns the step people read lengths to when a length lies on no mark of the rule: 1/32 in or 0.5 mm.
func (s System) Fine() Length {
	if s == Imperial {
		return Inch / 32
	}
	return Millimetre / 2
}

// Millimetres returns the length as a float, for the writers and for arithmetic that need not be exact.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Inches returns the length in inches as a float.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Abs returns the length without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// Floor rounds down to a whole multiple of step; step must be positive.
func (l Length) Floor(step Length) Length {
	r := l % step
	if r < 0 {
		r += step
	}
	return l - r
}

// Ceil rounds up to a whole multiple of step; step must be positive.
func (l Length) Ceil(step Length) Length { return -(-l).Floor(step) }

// Round rounds to the nearest multiple of step, halves up; step must be positive.
func (l Length) Round(step Length) Length { return (l + step/2).Floor(step) }

// Times scales by a float and rounds to the nearest nanometre.
func (l Length) Times(f float64) Length { return Length(math.Round(float64(l) * f)) }

// String returns the exact length in millimetres, for logs and tests. People read [Length.In].
func (l Length) String() string { return decimal(l, Millimetre, 6) + " mm" }

// In returns the length as people of the system read it, with its unit: `10 1/2″`, `267 mm`. A length that lies on no
// mark of the rule (1/64 in, 0.1 mm) is rounded to the system's [System.Fine] step and marked with ≈.
func (l Length) In(s System) string {
	if s == Imperial {
		return l.Bare(s) + "″"
	}
	return l.Bare(s) + " mm"
}

// Bare returns [Length.In] without the unit, for drawings and tables that name the unit once.
func (l Length) Bare(s System) string {
	mark, about := SixtyFourth, ""
	if s == Metric {
		mark = Millimetre / 10
	}
	if l%mark != 0 {
		l, about = l.Round(s.Fine()), "≈"
	}
	if s == Metric {
		return about + decimal(l, Millimetre, 6)
	}
	sign := ""
	if l < 0 {
		sign, l = "−", -l
	}
	return about + sign + mixed(l)
}

// MarkBelow returns the greatest length on a mark of the system's rule (1/64 in, else [System.Fine]) that is not above
// l: what a limit is told as where more would break it.
func (l Length) MarkBelow(s System) Length {
	if s == Imperial {
		return l.Floor(SixtyFourth)
	}
	return l.Floor(s.Fine())
}

// MarkAbove returns the least such length that is not below l.
func (l Length) MarkAbove(s System) Length { return -(-l).MarkBelow(s) }

// Roughly returns an estimated length as text, to a tenth of a millimetre: errors are told apart by less than the
// marks of an inch rule, so people who read inches get both.
func (l Length) Roughly(s System) string {
	if s == Imperial {
		return fmt.Sprintf("%.3f″ (%.1f mm)", l.Inches(), l.Millimetres())
	}
	return fmt.Sprintf("%.1f mm", l.Millimetres())
}

// Long returns a long length as people say it: in feet and inches, `3′ 4 1/2″`, or in metres or centimetres, `1.2 m`,
// `26.7 cm`. It is rounded and marked as [Length.In] does; under one foot or one centimetre it is the same.
func (l Length) Long(s System) string {
	mark, about := SixtyFourth, ""
	if s == Metric {
		mark = Millimetre / 10
	}
	if l%mark != 0 {
		l, about = l.Round(s.Fine()), "≈"
	}
	sign := ""
	if l < 0 {
		sign, l = "−", -l
	}
	if s == Metric {
		switch {
		case l >= Metre:
			return about + sign + decimal(l, Metre, 9) + " m"
		case l >= Centimetre:
			return about + sign + decimal(l, Centimetre, 7) + " cm"
		}
		return about + sign + l.In(Metric)
	}
	feet, rest := l/Foot, l%Foot
	switch {
	case feet == 0:
		return about + sign + mixed(rest) + "″"
	case rest == 0:
		return fmt.Sprintf("%s%s%d′", about, sign, feet)
	}
	return fmt.Sprintf("%s%s%d′ %s″", about, sign, feet, mixed(rest))
}

// mixed writes a non-negative whole number of 64ths of an inch as inches and a reduced fraction.
func mixed(l Length) string {
	whole, num, den := l/Inch, l%Inch/SixtyFourth, Length(64)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprint(int64(whole))
	case whole == 0:
		return fmt.Sprintf("%d/%d", num, den)
	}
	return fmt.Sprintf("%d %d/%d", whole, num, den)
}

// decimal writes l in units with at most the given number of decimals (exact when 10^decimals divides the unit),
// without trailing zeros.
func decimal(l, unit Length, decimals int) string {
	sign := ""
	if l < 0 {
		sign, l = "−", -l
	}
	whole, rest := l/unit, l%unit
	if rest == 0 {
		return fmt.Sprintf("%s%d", sign, whole)
	}
	frac := fmt.Sprintf("%0*d", decimals, int64(rest))
	return fmt.Sprintf("%s%d.%s", sign, whole, strings.TrimRight(frac, "0"))
}
