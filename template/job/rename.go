package job

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"rodsheet/geom"
)

// Rename gives a band (heights.NAME), a wall (walls[0]) or a run (walls[0].runs[1]) another name, and changes what refers
// to it: the `height` of runs, and `at` of acceptances.
func (t *Text) Rename(p Path, name string) (*Text, error) {
	name = strings.TrimSpace(name)
	at := p.Key("name")
	of, ok := root.at(p)
	switch {
	case !ok || !isEntry(p) || !t.Has(p):
		return nil, refused(p, "there is nothing of a name")
	case name == "":
		return nil, refused(p, "it needs a name")
	case of.Kind == KindNamed:
		return t.renameBand(p, name)
	case of.byName["name"] == nil:
		return nil, refused(p, "it has no name")
	}
	old, _ := t.Value(at)
	next, err := t.Set(at, name)
	if err != nil || old == "" {
		return next, err
	}
	return next.renameAt(strings.TrimSuffix(of.Name(), "s"), old, name)
}

func (t *Text) renameBand(p Path, name string) (*Text, error) {
	old := p[len(p)-1].Key
	if name == old {
		return t, nil
	}
	up := p.Parent()
	if t.Has(up.Key(name)) {
		return nil, refused(p, "there is a band %q already", name)
	}
	if v, err := typedValue(p, &spec{}, name); err != nil || v.text != name {
		return nil, refused(p, "a name is one line of letters, digits and signs")
	}
	_, f := t.find(p)
	if f.key.fixed != "" {
		return nil, refused(p, "%s", f.key.fixed)
	}
	want := t.top.clone()
	bands := want.find(up)
	bands.fields[slices.IndexFunc(bands.fields, func(f field) bool { return f.name == old })].name = name
	written := blockKey(name)
	if n, _ := t.find(up); n.span.flow || t.inBrackets(up) {
		written = flowKey(name)
	}
	changes := []change{{f.key.from, f.key.to, written}}
	for _, wall := range t.Entries(Path{}.Key("walls")) {
		for _, run := range t.Entries(wall.Key("runs")) {
			height := run.Key("height")
			n, f := t.find(height)
			if n == nil || n.kind != scalar || strings.TrimSpace(n.text) != old {
				continue
			}
			if why := n.fixed(); why != "" {
				return nil, refused(height, "%s", why)
			}
			more, err := t.replacement(height, n, f, value{text: name})
			if err != nil {
				return nil, err
			}
			changes = append(changes, more...)
			want.find(height).text = name
		}
	}
	next, err := t.splice(p, changes...)
	if err == nil {
		next, err = checked(p, next, want)
	}
	if err != nil {
		return nil, err
	}
	return next.renameAt("band", old, name)
}

// renameAt changes the places of acceptances that name the thing, or a panel of the run.
func (t *Text) renameAt(kind, old, name string) (*Text, error) {
	next := t
	for _, accept := range t.Entries(Path{}.Key("accept")) {
		at := accept.Key("at")
		was, ok := t.Value(at)
		if !ok || t.Fixed(at) != "" {
			continue
		}
		if now := renamedPlaces(was, kind, old, name); now != was {
			var err error
			if next, err = next.Set(at, now); err != nil {
				return nil, err
			}
		}
	}
	return next, nil
}

// renamedPlaces is a list of places as in "run N", "walls North, East", "N1–N4, N6" or "N1 and N2" with a name changed.
func renamedPlaces(at, kind, old, name string) string {
	rest, plural := strings.CutPrefix(at, kind+"s ")
	prefix := at[:len(at)-len(rest)]
	var b strings.Builder
	b.WriteString(prefix)
	for len(rest) > 0 {
		end, sep := len(rest), ""
		for _, s := range []string{",", " and "} {
			if i := strings.Index(rest, s); i >= 0 && i < end {
				end, sep = i, s
			}
		}
		b.WriteString(renamedPlace(rest[:end], kind, old, name, plural))
		b.WriteString(sep)
		rest = rest[end+len(sep):]
	}
	return b.String()
}

func renamedPlace(one, kind, old, name string, plural bool) string {
	word := strings.TrimSpace(one)
	lead := one[:strings.Index(one, word)]
	tail := one[len(lead)+len(word):]
	panel := func(text string) (string, bool) {
		digits, ok := strings.CutPrefix(text, old)
		if _, err := strconv.Atoi(digits); !ok || err != nil || digits[0] < '0' || digits[0] > '9' {
			return text, false
		}
		return name + digits, true
	}
	switch {
	case word == kind+" "+old:
		word = kind + " " + name
	case plural && word == old:
		word = name
	case kind == "run":
		if now, ok := panel(word); ok {
			word = now
			break
		}
		for i, r := range word { // a dash may be a part of the names
			if r != '–' && r != '-' {
				continue
			}
			from, ok1 := panel(word[:i])
			to, ok2 := panel(word[i+utf8.RuneLen(r):])
			if ok1 && ok2 {
				word = from + string(r) + to
				break
			}
		}
	}
	return lead + word + tail
}

// SetUnits changes the units of the job. With keep, the old unit is written behind every bare number, so that all
// measures stay; without, the numbers are read anew. The paths are of values whose text stays and that count
// differently now: prices by the yard or the metre.
//
// Fields that are left out take the defaults of the new units either way.
func (t *Text) SetUnits(u geom.System, keep bool) (next *Text, recount []Path, err error) {
	p := Path{}.Key("units")
	old, known := t.Units()
	if known && old == u {
		return t, nil, nil
	}
	next = t
	if keep && known {
		want := t.top.clone()
		var changes []change
		walk(t.top, root, nil, func(n *node, s *spec, p Path) {
			text := withUnit(n.text, s, old, u)
			if err != nil || n.kind != scalar || text == n.text {
				return
			}
			if why := n.fixed(); why != "" {
				err = refused(p, "%s", why)
				return
			}
			var more []change
			_, f := t.find(p)
			if more, err = t.replacement(p, n, f, value{text: text}); err != nil {
				return
			}
			changes = append(changes, more...)
			want.find(p).text = text
		})
		if err != nil {
			return nil, nil, err
		}
		if next, err = t.splice(p, changes...); err != nil {
			return nil, nil, err
		}
		if next, err = checked(p, next, want); err != nil {
			return nil, nil, err
		}
	}
	for _, name := range []string{"batting", "cover"} {
		if price := (Path{}).Key(name).Key("price"); t.Has(price) {
			recount = append(recount, price)
		}
	}
	next, err = next.Set(p, u.String())
	return next, recount, err
}

// walk visits the single values of a tree that belong to fields of the table.
func walk(n *node, s *spec, p Path, visit func(n *node, s *spec, p Path)) {
	if n.kind == scalar {
		visit(n, s, p)
	}
	for i, item := range n.items {
		walk(item, s, p.Index(i), visit)
	}
	for _, f := range n.fields {
		below := p.Key(f.name)
		if inner, ok := root.at(below); ok && f.name != "" {
			walk(f.value, inner, below, visit)
		}
	}
}

// withUnit is a text with a unit behind each of its bare lengths; a bare gauge number gets its mark where it would be
// taken for millimetres.
func withUnit(text string, s *spec, from, to geom.System) string {
	kind := s.Kind
	if s.Short != "" {
		kind = s.byName[s.Short].Kind
	}
	switch kind {
	case KindLength, KindEnds, KindLengths, KindPoint, KindPoints, KindReadings:
		return lengthWithUnit(text, from)
	case KindSize:
		parts := strings.FieldsFunc(text, isCross)
		if len(parts) != 2 {
			return text
		}
		cross := strings.IndexFunc(text, isCross)
		_, size := utf8.DecodeRuneInString(text[cross:])
		w, h := lengthWithUnit(parts[0], from), lengthWithUnit(parts[1], from)
		return w + text[cross:cross+size] + h
	case KindScrew:
		if _, err := strconv.Atoi(strings.TrimSpace(text)); err == nil && from == geom.Imperial && to == geom.Metric {
			return "no " + strings.TrimSpace(text)
		}
	}
	return text
}

func lengthWithUnit(text string, u geom.System) string {
	inches, err1 := geom.ParseLength(text, geom.Imperial)
	metric, err2 := geom.ParseLength(text, geom.Metric)
	if err1 != nil || err2 != nil || inches == metric { // nothing is as long in both
		return text
	}
	trimmed := strings.TrimRight(text, " ")
	return trimmed + " " + u.String() + text[len(trimmed):]
}
