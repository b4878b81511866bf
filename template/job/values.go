package job

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
	"unicode"

	"rodsheet/geom"
)

// bounds are the lengths a field may have. They are wide: they catch the wrong unit and the slipped point, not taste.
type bounds struct {
	min, max geom.Length
	more     bool // more than min, min itself won't do
}

func over0(most geom.Length) bounds       { return bounds{0, most, true} }
func from0(most geom.Length) bounds       { return bounds{0, most, false} }
func eitherWay(most geom.Length) bounds   { return bounds{-most, most, false} }
func between(least, m geom.Length) bounds { return bounds{least, m, false} }

// in is the bounds as a job of the units keeps to them: those in inches, to a quarter, are round figures in millimetres
// too, 25 mm for 1 in.
func (b bounds) in(u geom.System) bounds {
	round := func(l geom.Length) geom.Length {
		if u == geom.Imperial || l%(geom.Inch/4) != 0 {
			return l
		}
		return (l / 254 * 250).Floor(geom.Millimetre)
	}
	return bounds{-round(-b.min), round(b.max), b.more}
}

func (b bounds) hold(l geom.Length) bool { return l <= b.max && (l > b.min || l == b.min && !b.more) }

// fits reports a length out of bounds.
func (r *reader) fits(l geom.Length, b bounds, at Place, path string) bool {
	b = b.in(r.units)
	switch {
	case b.hold(l):
		return true
	case l > b.max:
		r.judge(at, path, "%s is more than the %s that is sensible here; is the unit right?", r.show(l), r.showLimit(b.max))
	case b.min == 0 && b.more && l == 0:
		r.judge(at, path, "is 0; it must be more than that")
	case b.min == 0 && l < 0:
		r.judge(at, path, "%s is negative; a length without a sign is expected", r.show(l))
	default:
		r.judge(at, path, "%s is less than the %s that is sensible here; is the unit right?", r.show(l), r.showLimit(b.min))
	}
	return false
}

// showLimit is a limit in the person's unit, or in metres where that would not come out even.
func (r *reader) showLimit(l geom.Length) string {
	if text := r.show(l); !strings.HasPrefix(text, "≈") {
		return text
	}
	if l%geom.Metre == 0 {
		return fmt.Sprintf("%d m", l/geom.Metre)
	}
	return l.String()
}

const lengthForms = `a length such as 10 1/2 in, 3' 4 1/2" or 267 mm`

func (r *reader) lengthOf(n *node, path string, b bounds) (geom.Length, bool) {
	if n.kind != scalar {
		r.add(n.place, path, "%s; expected %s", n.describe(), lengthForms)
		return 0, false
	}
	l, err := geom.ParseLength(n.text, r.units)
	if err != nil {
		r.add(n.place, path, "%s", err)
		return 0, false
	}
	return l, r.fits(l, b, n.place, path)
}

// length reads a field into dst, which it leaves alone where one of the field's words stands.
func (s *section) length(name string, dst *geom.Length) bool {
	return s.read(name, func(f *spec, n *node, path string) bool {
		if n.kind == scalar && f.word(n.text) != "" {
			return false
		}
		l, ok := s.r.lengthOf(n, path, f.limits)
		if ok {
			*dst = l
		}
		return ok
	})
}

// word is the one of the field's words that stands in place of its usual value, "" when there is none.
func (s *section) word(name string) (word string) {
	s.read(name, func(f *spec, n *node, _ string) bool {
		word = ""
		if n.kind == scalar {
			word = f.word(n.text)
		}
		return true
	})
	return word
}

// word is the one of the field's words that the text is, "" when it is none.
func (f Field) word(text string) string {
	for _, w := range f.Words {
		if strings.EqualFold(w, strings.TrimSpace(text)) {
			return w
		}
	}
	return ""
}

func (s *section) lengths(name string) (out []geom.Length, given bool) {
	given = s.read(name, func(f *spec, n *node, path string) bool {
		if n.kind != list {
			s.add(name, "%s; expected a list of lengths in brackets, as in %s", n.describe(), f.Example.Of(s.r.units))
			return false
		}
		if len(n.items) > f.most {
			s.add(name, "has %d entries; at most %d are taken", len(n.items), f.most)
			return false
		}
		list, good := make([]geom.Length, len(n.items)), true
		for i, item := range n.items {
			l, ok := s.r.lengthOf(item, entry(path, i), f.limits)
			list[i], good = l, good && ok
		}
		if good {
			out = list
		}
		return good
	})
	return out, given
}

// sizeOf reads `48 x 96` or `[48, 96]`.
func (r *reader) sizeOf(n *node, path string, b bounds) (geom.Size, bool) {
	const form = "expected width x height, as in 48 x 96 or 1220 mm x 2440 mm"
	switch n.kind {
	case list:
		p, ok := r.pairOf(n, path, b, form)
		return geom.Size{W: p[0], H: p[1]}, ok
	case scalar:
		parts := strings.FieldsFunc(n.text, isCross)
		if len(parts) != 2 {
			r.add(n.place, path, "%q is no size; %s", shorten(n.text), form)
			return geom.Size{}, false
		}
		if r.halfBare(parts[0], parts[1]) || r.halfBare(parts[1], parts[0]) {
			r.add(n.place, path, "%q has a unit on one side only; write it on both, or on neither when it is %s",
				shorten(n.text), r.units)
			return geom.Size{}, false
		}
		w, ok1 := r.lengthOf(&node{kind: scalar, text: parts[0], place: n.place}, path, b)
		h, ok2 := r.lengthOf(&node{kind: scalar, text: parts[1], place: n.place}, path, b)
		return geom.Size{W: w, H: h}, ok1 && ok2
	}
	r.add(n.place, path, "%s; %s", n.describe(), form)
	return geom.Size{}, false
}

func isCross(c rune) bool { return c == 'x' || c == 'X' || c == '×' }

// halfBare tells whether a has no unit and b has another than the job's: in `600 x 900 in` of a job in mm the first
// number would silently count as millimetres.
func (r *reader) halfBare(a, b string) bool {
	bare := func(t string) bool {
		inches, err1 := geom.ParseLength(t, geom.Imperial)
		metric, err2 := geom.ParseLength(t, geom.Metric)
		return err1 == nil && err2 == nil && inches != metric
	}
	named, err := geom.ParseLength(b, r.units)
	if err != nil || !bare(a) || bare(b) {
		return false
	}
	stripped, err := geom.ParseLength(strings.TrimRightFunc(b, func(c rune) bool {
		return !unicode.IsDigit(c) && !unicode.IsNumber(c)
	}), r.units)
	return err != nil || stripped != named
}

func (s *section) size(name string, dst *geom.Size) bool {
	return s.read(name, func(f *spec, n *node, path string) bool {
		size, ok := s.r.sizeOf(n, path, f.limits)
		if ok {
			*dst = size
		}
		return ok
	})
}

// pairOf reads a list of two lengths.
func (r *reader) pairOf(n *node, path string, b bounds, form string) ([2]geom.Length, bool) {
	if n.kind != list || len(n.items) != 2 {
		if n.kind == list {
			r.add(n.place, path, "has %d entries; %s", len(n.items), form)
		} else {
			r.add(n.place, path, "%s; %s", n.describe(), form)
		}
		return [2]geom.Length{}, false
	}
	a, ok1 := r.lengthOf(n.items[0], entry(path, 0), b)
	c, ok2 := r.lengthOf(n.items[1], entry(path, 1), b)
	return [2]geom.Length{a, c}, ok1 && ok2
}

const pointForm = "expected two lengths in brackets, [across, up], as in [52, 14]"

func (s *section) point(name string, dst *geom.Point) bool {
	return s.read(name, func(f *spec, n *node, path string) bool {
		p, ok := s.r.pairOf(n, path, f.limits, pointForm)
		if ok {
			*dst = geom.Pt(p[0], p[1])
		}
		return ok
	})
}

func (s *section) points(name string) (out []geom.Point, given bool) {
	given = s.read(name, func(f *spec, n *node, path string) bool {
		if n.kind != list || len(n.items) > 0 && n.items[0].kind != list {
			s.add(name, "expected a list of points, each in its own brackets, as in [[0, 0], [96, 0], [96, 60]]")
			return false
		}
		if len(n.items) > f.most {
			s.add(name, "has %d points; at most %d are taken", len(n.items), f.most)
			return false
		}
		list, good := make([]geom.Point, len(n.items)), true
		for i, item := range n.items {
			p, ok := s.r.pairOf(item, entry(path, i), f.limits, pointForm)
			list[i], good = geom.Pt(p[0], p[1]), good && ok
		}
		if good {
			out = list
		}
		return good
	})
	return out, given
}

// scalar hands use the text of a field that holds a single value.
func (s *section) scalar(name, expected string, use func(f *spec, text string) bool) bool {
	return s.read(name, func(f *spec, n *node, _ string) bool {
		if n.kind != scalar {
			s.add(name, "%s; expected %s", n.describe(), expected)
			return false
		}
		return use(f, strings.TrimSpace(n.text))
	})
}

// text reads words that are printed on sheets.
func (s *section) text(name string, dst *string) bool {
	return s.scalar(name, "words", func(f *spec, t string) bool {
		t = strings.Join(strings.Fields(t), " ")
		switch {
		case t == "":
			s.add(name, "is empty; write some words")
		case len([]rune(t)) > f.most:
			s.add(name, "has %d characters; at most %d fit on the sheets", len([]rune(t)), f.most)
		case strings.ContainsFunc(t, func(c rune) bool { return !unicode.IsPrint(c) }):
			s.add(name, "holds a character that can't be printed; type it again")
		default:
			*dst = t
			return true
		}
		return false
	})
}

// choice reads one of the field's words; "" when it is left out and has no default.
func (s *section) choice(name string) (word string) {
	words := s.field(name).Words
	s.scalar(name, "one of "+strings.Join(words, ", "), func(f *spec, t string) bool {
		if w := f.word(t); w != "" {
			word = w
			return true
		}
		text := fmt.Sprintf("%q is not known; choose one of %s", shorten(t), strings.Join(words, ", "))
		if near := nearest(t, words); near != "" {
			text = fmt.Sprintf("%q is not known; did you mean %s? The choices are %s", shorten(t), near, strings.Join(words, ", "))
		}
		s.add(name, "%s", text)
		return false
	})
	return word
}

func (s *section) truth(name string, dst *bool) {
	s.scalar(name, "true or false", func(_ *spec, t string) bool {
		switch strings.ToLower(t) {
		case "true", "yes":
			*dst = true
		case "false", "no":
			*dst = false
		default:
			s.add(name, "%q is neither true nor false", shorten(t))
			return false
		}
		return true
	})
}

// count reads a whole number.
func (s *section) count(name string, dst *int) bool {
	return s.scalar(name, "a whole number", func(f *spec, t string) bool {
		n, err := strconv.Atoi(t)
		switch {
		case err != nil || strings.HasPrefix(t, "+"):
			s.add(name, "%q is no whole number from %d to %d", shorten(t), f.least, f.most)
			return false
		case n < f.least || n > f.most:
			s.add(name, "%d is out of reach; a whole number from %d to %d is expected", n, f.least, f.most)
			return false
		}
		*dst = n
		return true
	})
}

// decimal reads a plain number with at most one point: no sign, exponent or digit groups.
func decimal(t string) (float64, bool) {
	if t == "" || len(t) > 30 || strings.Trim(t, "0123456789.") != "" || strings.Count(t, ".") > 1 || t == "." {
		return 0, false
	}
	f, err := strconv.ParseFloat(t, 64)
	return f, err == nil
}

func (s *section) price(name string, dst *float64) {
	s.scalar(name, "a number", func(_ *spec, t string) bool {
		f, ok := decimal(t)
		if !ok || f > 1e7 {
			s.add(name, "%q is no price; write a plain number in your own money, as in 42 or 42.50", shorten(t))
			return false
		}
		*dst = f
		return true
	})
}

// quantity reads a decimal number or fraction with one of the units, which hold the value of one.
func (s *section) quantity(name string, dst *float64, least, most float64, units map[string]float64) {
	example := s.field(name).Example.In + " or " + s.field(name).Example.MM
	s.scalar(name, "a number with its unit, as in "+example, func(_ *spec, t string) bool {
		end := strings.LastIndexAny(t, "0123456789.")
		for i, c := range t {
			if unicode.IsLetter(c) || c == '/' && !strings.ContainsAny(t[i:], "0123456789") {
				end = i - 1
				break
			}
		}
		number, unit := strings.TrimSpace(t[:end+1]), strings.ToLower(strings.ReplaceAll(t[end+1:], " ", ""))
		value, good := decimal(number)
		if !good && strings.Contains(number, "/") && strings.Trim(number, "0123456789 /") == "" {
			value, good = mixed(number)
		}
		factor, named := units[unit]
		switch {
		case !good:
			s.add(name, "%q does not begin with a plain number; write it like %s", shorten(t), example)
		case !named && unit == "":
			s.add(name, "%q needs its unit; write it like %s", shorten(t), example)
		case !named:
			s.add(name, "the unit of %q is not known; write it like %s", shorten(t), example)
		case value*factor < least || value*factor > most:
			s.add(name, "%q is out of reach here; is the unit right?", shorten(t))
		default:
			*dst = value * factor
			return true
		}
		return false
	})
}

// mixed reads `3/4` and `2 1/2`.
func mixed(t string) (float64, bool) {
	sum := new(big.Rat)
	parts := strings.Fields(t)
	if len(parts) > 2 {
		return 0, false
	}
	for _, p := range parts {
		r, ok := new(big.Rat).SetString(p)
		if !ok || len(p) > 20 {
			return 0, false
		}
		sum.Add(sum, r)
	}
	f, _ := sum.Float64()
	return f, true
}

// The pound is 0.45359237 kg, the foot 0.3048 m, the yard 0.9144 m and the ounce 1/16 lb, all exactly (international
// yard and pound agreement, 1959): 1 lb/ft³ = 16.0184634 kg/m³.
const (
	kgPerLb    = float64(Pound)
	m3PerFt3   = 0.3048 * 0.3048 * 0.3048
	m2PerYd2   = 0.9144 * 0.9144
	lbPerFt3   = kgPerLb / m3PerFt3
	ozPerYd2   = kgPerLb / 16 / m2PerYd2
	kgPerOunce = kgPerLb / 16
)

func (s *section) density(name string, dst *Density) {
	s.quantity(name, (*float64)(dst), 1, float64(s.field(name).most), map[string]float64{
		"lb/ft3": lbPerFt3, "lb/ft³": lbPerFt3, "lb/ft^3": lbPerFt3, "lbs/ft3": lbPerFt3,
		"kg/m3": 1, "kg/m³": 1, "kg/m^3": 1,
	})
}

func (s *section) weight(name string, dst *Weight) {
	s.quantity(name, (*float64)(dst), 0.01, 1000, map[string]float64{
		"lb": kgPerLb, "lbs": kgPerLb, "oz": kgPerOunce, "kg": 1, "g": 0.001,
	})
}

func (s *section) clothWeight(name string, dst *float64) {
	s.quantity(name, dst, 0.01, 10, map[string]float64{
		"oz/yd2": ozPerYd2, "oz/yd²": ozPerYd2, "oz/yd^2": ozPerYd2,
		"g/m2": 0.001, "g/m²": 0.001, "g/m^2": 0.001, "kg/m2": 1, "kg/m²": 1, "kg/m^2": 1,
	})
}
