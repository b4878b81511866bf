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
func (b bounds) hold(l geom.Length) bool  { return l <= b.max && (l > b.min || l == b.min && !b.more) }

// fits reports a length out of bounds.
func (r *reader) fits(l geom.Length, b bounds, at Place, path string) bool {
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

// length reads a field into dst, which keeps its default when the field is left out or wrong.
func (s *section) length(name string, dst *geom.Length, b bounds) bool {
	n := s.get(name)
	if n == nil {
		return false
	}
	l, ok := s.r.lengthOf(n, join(s.path, name), b)
	if ok {
		*dst = l
	}
	return ok
}

func (s *section) lengths(name string, b bounds, most int) ([]geom.Length, bool) {
	n := s.get(name)
	if n == nil {
		return nil, false
	}
	path := join(s.path, name)
	if n.kind != list {
		s.add(name, "%s; expected a list of lengths in brackets, as in [18, 24, 18]", n.describe())
		return nil, false
	}
	if len(n.items) > most {
		s.add(name, "has %d entries; at most %d are taken", len(n.items), most)
		return nil, false
	}
	out, good := make([]geom.Length, 0, len(n.items)), true
	for i, item := range n.items {
		l, ok := s.r.lengthOf(item, fmt.Sprintf("%s[%d]", path, i), b)
		good = good && ok
		out = append(out, l)
	}
	return out, good
}

// sizeOf reads `48 x 96` or `[48, 96]`.
func (r *reader) sizeOf(n *node, path string, b bounds) (geom.Size, bool) {
	const form = "expected width x height, as in 48 x 96 or 1220 mm x 2440 mm"
	switch n.kind {
	case list:
		p, ok := r.pairOf(n, path, b, form)
		return geom.Size{W: p[0], H: p[1]}, ok
	case scalar:
		parts := strings.FieldsFunc(n.text, func(c rune) bool { return c == 'x' || c == 'X' || c == '×' })
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

func (s *section) size(name string, dst *geom.Size, b bounds) bool {
	n := s.get(name)
	if n == nil {
		return false
	}
	size, ok := s.r.sizeOf(n, join(s.path, name), b)
	if ok {
		*dst = size
	}
	return ok
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
	a, ok1 := r.lengthOf(n.items[0], path+"[0]", b)
	c, ok2 := r.lengthOf(n.items[1], path+"[1]", b)
	return [2]geom.Length{a, c}, ok1 && ok2
}

const pointForm = "expected two lengths in brackets, [across, up], as in [52, 14]"

func (s *section) point(name string, dst *geom.Point, b bounds) bool {
	n := s.get(name)
	if n == nil {
		return false
	}
	p, ok := s.r.pairOf(n, join(s.path, name), b, pointForm)
	if ok {
		*dst = geom.Pt(p[0], p[1])
	}
	return ok
}

func (s *section) points(name string, b bounds, most int) ([]geom.Point, bool) {
	n := s.get(name)
	if n == nil {
		return nil, false
	}
	if n.kind != list || len(n.items) > 0 && n.items[0].kind != list {
		s.add(name, "expected a list of points, each in its own brackets, as in [[0, 0], [96, 0], [96, 60]]")
		return nil, false
	}
	if len(n.items) > most {
		s.add(name, "has %d points; at most %d are taken", len(n.items), most)
		return nil, false
	}
	out, good := make([]geom.Point, 0, len(n.items)), true
	for i, item := range n.items {
		p, ok := s.r.pairOf(item, fmt.Sprintf("%s[%d]", join(s.path, name), i), b, pointForm)
		good = good && ok
		out = append(out, geom.Pt(p[0], p[1]))
	}
	return out, good
}

// scalar is the text of a field that holds a single value.
func (s *section) scalar(name, expected string) (string, bool) {
	n := s.get(name)
	if n == nil {
		return "", false
	}
	if n.kind != scalar {
		s.add(name, "%s; expected %s", n.describe(), expected)
		return "", false
	}
	return strings.TrimSpace(n.text), true
}

// text reads words that are printed on sheets.
func (s *section) text(name string, dst *string, most int) bool {
	t, ok := s.scalar(name, "words")
	if !ok {
		return false
	}
	t = strings.Join(strings.Fields(t), " ")
	switch {
	case t == "":
		s.add(name, "is empty; write some words")
	case len([]rune(t)) > most:
		s.add(name, "has %d characters; at most %d fit on the sheets", len([]rune(t)), most)
	case strings.ContainsFunc(t, func(c rune) bool { return !unicode.IsPrint(c) }):
		s.add(name, "holds a character that can't be printed; type it again")
	default:
		*dst = t
		return true
	}
	return false
}

// choice reads one of several words and gives its index, or −1.
func (s *section) choice(name string, words ...string) int {
	t, ok := s.scalar(name, "one of "+strings.Join(words, ", "))
	if !ok {
		return -1
	}
	for i, w := range words {
		if strings.EqualFold(t, w) {
			return i
		}
	}
	text := fmt.Sprintf("%q is not known; choose one of %s", shorten(t), strings.Join(words, ", "))
	if near := nearest(t, words); near != "" {
		text = fmt.Sprintf("%q is not known; did you mean %s? The choices are %s", shorten(t), near, strings.Join(words, ", "))
	}
	s.add(name, "%s", text)
	return -1
}

func (s *section) truth(name string, dst *bool) {
	t, ok := s.scalar(name, "true or false")
	if !ok {
		return
	}
	switch strings.ToLower(t) {
	case "true", "yes":
		*dst = true
	case "false", "no":
		*dst = false
	default:
		s.add(name, "%q is neither true nor false", shorten(t))
	}
}

// count reads a whole number.
func (s *section) count(name string, dst *int, least, most int) bool {
	t, ok := s.scalar(name, "a whole number")
	if !ok {
		return false
	}
	n, err := strconv.Atoi(t)
	switch {
	case err != nil || strings.HasPrefix(t, "+"):
		s.add(name, "%q is no whole number from %d to %d", shorten(t), least, most)
		return false
	case n < least || n > most:
		s.add(name, "%d is out of reach; a whole number from %d to %d is expected", n, least, most)
		return false
	}
	*dst = n
	return true
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
	t, ok := s.scalar(name, "a number")
	if !ok {
		return
	}
	f, ok := decimal(t)
	if !ok || f > 1e7 {
		s.add(name, "%q is no price; write a plain number in your own money, as in 42 or 42.50", shorten(t))
		return
	}
	*dst = f
}

// quantity reads a decimal number or fraction with a unit out of units, which hold the value of one.
func (s *section) quantity(name string, dst *float64, least, most float64, example string, units map[string]float64) {
	t, ok := s.scalar(name, "a number with its unit, as in "+example)
	if !ok {
		return
	}
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
	}
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

func (s *section) density(name string, dst *Density, most float64) {
	s.quantity(name, (*float64)(dst), 1, most, "36 lb/ft3 or 560 kg/m3", map[string]float64{
		"lb/ft3": lbPerFt3, "lb/ft³": lbPerFt3, "lb/ft^3": lbPerFt3, "lbs/ft3": lbPerFt3,
		"kg/m3": 1, "kg/m³": 1, "kg/m^3": 1,
	})
}

func (s *section) weight(name string, dst *Weight) {
	s.quantity(name, (*float64)(dst), 0.01, 1000, "10 lb or 4.5 kg", map[string]float64{
		"lb": kgPerLb, "lbs": kgPerLb, "oz": kgPerOunce, "kg": 1, "g": 0.001,
	})
}

func (s *section) clothWeight(name string, dst *float64) {
	s.quantity(name, dst, 0.01, 10, "12 oz/yd2 or 400 g/m2", map[string]float64{
		"oz/yd2": ozPerYd2, "oz/yd²": ozPerYd2, "oz/yd^2": ozPerYd2,
		"g/m2": 0.001, "g/m²": 0.001, "g/m^2": 0.001, "kg/m2": 1, "kg/m²": 1, "kg/m^2": 1,
	})
}
