package geom

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// Longest is the largest length that [ParseLength] takes, either way: a kilometre, far beyond any wall.
const Longest = 1000 * Metre

// fractions are the single characters people type or paste for a part of an inch.
var fractions = map[rune][2]int64{
	'½': {1, 2}, '¼': {1, 4}, '¾': {3, 4},
	'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
	'⅓': {1, 3}, '⅔': {2, 3}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
}

// lengthUnits are the units a length may carry, longest spelling first where one begins another.
var lengthUnits = []struct {
	name string
	unit Length
}{
	{"inches", Inch}, {"inch", Inch}, {"in", Inch}, {`"`, Inch}, {"″", Inch}, {"”", Inch}, {"''", Inch},
	{"feet", Foot}, {"foot", Foot}, {"ft", Foot}, {"'", Foot}, {"′", Foot}, {"’", Foot},
	{"mm", Millimetre}, {"cm", Centimetre}, {"m", Metre},
}

// A LengthError says why a text is no length. Its message quotes the whole text and says what would be right.
type LengthError struct {
	Text   string
	Reason string
}

func (e *LengthError) Error() string { return fmt.Sprintf("%q is no length: %s", e.Text, e.Reason) }

const lengthForms = "write it like 10 1/2 in, 10-1/2\", 3' 4 1/2\", 267 mm, 26.7 cm or 1.2 m"

// ParseLength reads a length as a person writes it: a whole number, a decimal with a point, a fraction or a mixed
// number, and a unit; feet and inches may stand together. A number without a unit counts in bare's unit. It works
// in integers and is exact, except that what is finer than a nanometre (a third of an inch) is rounded to the
// nearest one. A sign may lead. The error is a *[LengthError].
func ParseLength(text string, bare System) (Length, error) {
	s := lengthScanner{rest: strings.TrimSpace(text)}
	fail := func(format string, args ...any) (Length, error) {
		return 0, &LengthError{Text: text, Reason: fmt.Sprintf(format, args...)}
	}
	if len(text) > 100 {
		return 0, &LengthError{Text: strings.ToValidUTF8(text[:20], "") + "…", Reason: "it is far too long; " + lengthForms}
	}
	if s.rest == "" {
		return fail("it is empty; %s", lengthForms)
	}
	negative := s.take("-") || s.take("−")
	if !negative {
		s.take("+")
	}
	number, reason := s.number()
	if reason != "" {
		return fail("%s", reason)
	}
	unit, named := s.unit()
	if !named {
		unit = bare.Unit()
	}
	sum := new(big.Rat).Mul(number, new(big.Rat).SetInt64(int64(unit)))
	if named && unit == Foot && s.rest != "" {
		s.take("-")
		inches, reason := s.number()
		if reason != "" {
			return fail("%s", reason)
		}
		if inchUnit, named := s.unit(); named && inchUnit != Inch {
			return fail("only inches may follow feet; %s", lengthForms)
		}
		if inches.Cmp(big.NewRat(12, 1)) >= 0 {
			return fail("12 inches or more after feet; is it a slip?")
		}
		sum.Add(sum, inches.Mul(inches, new(big.Rat).SetInt64(int64(Inch))))
	}
	if s.rest != "" {
		return fail("%q is left over; %s", s.rest, lengthForms)
	}
	if sum.Cmp(new(big.Rat).SetInt64(int64(Longest))) > 0 {
		return fail("it is longer than a kilometre; is the unit right?")
	}
	l := roundHalfUp(sum)
	if negative {
		l = -l
	}
	return l, nil
}

type lengthScanner struct{ rest string }

func (s *lengthScanner) space() { s.rest = strings.TrimLeft(s.rest, " \t\u00a0\u2009\u202f") }

func (s *lengthScanner) take(prefix string) bool {
	rest, ok := strings.CutPrefix(s.rest, prefix)
	if ok {
		s.rest = rest
		s.space()
	}
	return ok
}

// digits takes a run of ASCII digits.
func (s *lengthScanner) digits() string {
	n := 0
	for n < len(s.rest) && s.rest[n] >= '0' && s.rest[n] <= '9' {
		n++
	}
	d := s.rest[:n]
	s.rest = s.rest[n:]
	return d
}

// number takes a whole, decimal, fractional or mixed number; the reason is "" when it found one.
func (s *lengthScanner) number() (value *big.Rat, reason string) {
	s.space()
	value = new(big.Rat)
	whole := s.digits()
	if whole == "" {
		if part, ok := s.character(); ok {
			s.space()
			return part, ""
		}
		if strings.HasPrefix(s.rest, ".") {
			return nil, "a digit must stand before the point, as in 0.5, so that the point isn't overlooked"
		}
		return nil, "a number must come first; " + lengthForms
	}
	value.SetString(whole)
	switch {
	case strings.HasPrefix(s.rest, "."):
		s.rest = s.rest[1:]
		decimals := s.digits()
		if decimals == "" {
			return nil, "digits must follow the point; " + lengthForms
		}
		value.SetString(whole + "." + decimals)
		s.space()
		return value, ""
	case strings.HasPrefix(s.rest, ","):
		return nil, "a comma is neither a decimal sign nor a separator here; write a point, as in 5.5"
	case strings.HasPrefix(s.rest, "/") || strings.HasPrefix(s.rest, "⁄"):
		return s.denominator(whole)
	}
	if part, ok := s.character(); ok {
		s.space()
		return value.Add(value, part), ""
	}
	// A mixed number: spaces or one hyphen, then a fraction. A hyphen between spaces might be meant as a minus.
	mark := s.rest
	tight := strings.HasPrefix(s.rest, "-") && !strings.HasPrefix(s.rest, "- ")
	s.space()
	hyphen := tight && s.take("-")
	if part, ok := s.character(); ok {
		s.space()
		return value.Add(value, part), ""
	}
	if numerator := s.digits(); numerator != "" && (strings.HasPrefix(s.rest, "/") || strings.HasPrefix(s.rest, "⁄")) {
		part, reason := s.denominator(numerator)
		if reason != "" {
			return nil, reason
		}
		if part.Cmp(big.NewRat(1, 1)) >= 0 {
			return nil, "the fraction after a whole number must be less than one"
		}
		return value.Add(value, part), ""
	}
	s.rest = mark
	if !hyphen {
		s.space()
	}
	return value, ""
}

func (s *lengthScanner) denominator(numerator string) (*big.Rat, string) {
	_, size := utf8.DecodeRuneInString(s.rest)
	s.rest = s.rest[size:]
	denominator := s.digits()
	switch {
	case denominator == "":
		return nil, "digits must follow the fraction's stroke; " + lengthForms
	case strings.Trim(denominator, "0") == "":
		return nil, "a fraction can't have a zero under its stroke"
	}
	value := new(big.Rat)
	value.SetString(numerator + "/" + denominator)
	s.space()
	return value, ""
}

// character takes one of the single-character fractions.
func (s *lengthScanner) character() (*big.Rat, bool) {
	r, size := utf8.DecodeRuneInString(s.rest)
	f, ok := fractions[r]
	if !ok {
		return nil, false
	}
	s.rest = s.rest[size:]
	return big.NewRat(f[0], f[1]), true
}

func (s *lengthScanner) unit() (Length, bool) {
	for _, u := range lengthUnits {
		if rest, ok := strings.CutPrefix(s.rest, u.name); ok {
			if next, _ := utf8.DecodeRuneInString(rest); isLetter(u.name[0]) && next < utf8.RuneSelf && isLetter(byte(next)) {
				continue
			}
			if u.name == "in" || u.name == "ft" {
				rest = strings.TrimPrefix(rest, ".") // the usual abbreviation, with its full stop
			}
			s.rest = rest
			s.space()
			return u.unit, true
		}
	}
	return 0, false
}

func isLetter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' }
