package cutting

import (
	"cmp"

	"rodsheet/geom"
)

// A RollPart is a rectangle wanted Count times from a roll: W runs across the roll, H along it.
type RollPart struct {
	Name  string
	Size  geom.Size
	Count int
	// Phase is the height at which the part's lower edge stands on the wall. Where the roll has a repeat, parts are cut
	// so that the pattern runs through at equal heights; only Phase modulo the repeat matters.
	Phase geom.Length
}

// Roll is the question: how do these parts come out of the shortest length of a roll? It is cut with shears, which
// take nothing.
type Roll struct {
	Width  geom.Length // usable, across
	Repeat geom.Length // of the pattern, along the roll; 0: plain
	Nap    bool        // all parts the same way up; a repeat has the same effect
	Unit   geom.Length // what the shop sells whole numbers of (1/4 yd, 10 cm); 0: any length
	Parts  []RollPart
}

// RollLayout answers [Roll.Plan]. Coordinates have X across the roll and Y along it, from the end that is cut first.
type RollLayout struct {
	Used
	Length  geom.Length // that the parts take
	Bound   geom.Length // no plan by edge-to-edge cuts takes less
	BoundBy BoundKind
	Proved  bool
	// Pattern is where along the roll the pattern must stand as it stands at height 0 of the wall; in [0, Repeat).
	Pattern geom.Length
	// Buy is Length in whole units, when the shop starts its cut at the right place of the pattern; BuyAnywhere leaves
	// one repeat for a start at any place, and is the same for a plain cloth.
	Buy, BuyAnywhere geom.Length
	Units            int // of Buy; 0 without a unit
}

// grain is Free where parts may be turned.
func (r Roll) grain() Grain {
	if r.Nap || r.Repeat > 0 {
		return Along
	}
	return Free
}

// Plan answers with the shortest length found, and a bound that says how short it could be at best. It fails like
// [Sheets.Plan].
func (r Roll) Plan() (RollLayout, error) {
	var parts []Part
	for _, p := range r.Parts {
		parts = append(parts, Part{p.Name, p.Size, p.Count, r.grain()})
	}
	if err := cmp.Or(
		checkLength("the usable width of the roll", r.Width, false),
		checkLength("the pattern repeat", r.Repeat, true),
		checkLength("the shop's unit", r.Unit, true),
		check(parts, []geom.Size{{W: r.Width, H: maxLength}}),
	); err != nil {
		return RollLayout{}, err
	}
	f := newFrame([]Stock{{Size: geom.Size{W: r.Width, H: maxLength}}}, 0, parts, func(i, j int) bool {
		return r.Repeat == 0 || (r.Parts[i].Phase-r.Parts[j].Phase)%r.Repeat == 0
	})
	if len(f.items) == 0 {
		return RollLayout{BoundBy: ByArea, Proved: true}, nil
	}
	s := newStrip(f, r)
	s.run()
	l := RollLayout{Length: geom.Length(s.length * f.uy), Bound: geom.Length(s.bound * f.uy), BoundBy: s.by, Proved: s.done()}
	l.Used = newEmitter(f, 0, parts).emit(s.best, geom.R(0, 0, r.Width, l.Length))
	l.Pattern = geom.Length(s.origin * f.uy)
	l.Buy, l.BuyAnywhere = l.Length, l.Length+r.Repeat
	if r.Unit > 0 {
		l.Buy, l.BuyAnywhere = l.Buy.Ceil(r.Unit), l.BuyAnywhere.Ceil(r.Unit)
		l.Units = int(l.Buy / r.Unit)
	}
	return l, nil
}
