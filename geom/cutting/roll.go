package cutting

import (
	"fmt"
	"math/big"
	"slices"

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

// Roll is the question: how do these parts come out of the shortest length of a roll?
type Roll struct {
	Width  geom.Length // usable, across
	Length geom.Length // of one roll, 0 where it is cut from a long bolt
	Kerf   geom.Length // 0 for shears; must be 0 where there is a repeat
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

// Gap is by how much, as a share, the length might be above the least: 0 when proved.
func (l RollLayout) Gap() float64 {
	if l.Length == 0 {
		return 0
	}
	return float64(l.Length-l.Bound) / float64(l.Length)
}

// turnable tells whether parts may be turned.
func (r Roll) turnable() bool { return !r.Nap && r.Repeat == 0 }

func (r Roll) check() error {
	grain := Along
	if r.turnable() {
		grain = Free
	}
	if r.Width <= 0 {
		return &SizeError{"the usable width of the roll", r.Width.String(), "more than zero"}
	}
	for _, c := range []struct {
		what string
		l    geom.Length
	}{{"the length of the roll", r.Length}, {"the pattern repeat", r.Repeat}, {"the shop's unit", r.Unit}} {
		if c.l < 0 {
			return &SizeError{c.what, c.l.String(), "zero or more"}
		}
	}
	if err := checkKerf(r.Kerf); err != nil {
		return err
	}
	if r.Kerf > 0 && r.Repeat > 0 {
		return &SizeError{"the kerf of a roll with a pattern repeat", r.Kerf.String(), "zero: cloth with a pattern is cut with shears"}
	}
	long := geom.Length(maxLength)
	if r.Length > 0 {
		long = r.Length
	}
	if r.Repeat > long {
		return &SizeError{"the pattern repeat", r.Repeat.String(), "no longer than the roll (" + long.String() + ")"}
	}
	if r.Width > maxLength || r.Length > maxLength {
		return &SizeError{"the roll", r.Width.String() + " × " + r.Length.String(), "at most " + geom.Length(maxLength).String()}
	}
	total := 0
	for i, p := range r.Parts {
		if err := checkPart(i, p.Name, p.Size, p.Count, grain, geom.Size{W: r.Width, H: long}); err != nil {
			return err
		}
		if total += p.Count; p.Count > maxParts || total > maxParts {
			return &SizeError{"the number of parts", "over " + fmt.Sprint(maxParts), "at most " + fmt.Sprint(maxParts)}
		}
	}
	return nil
}

// Plan answers with the shortest length found. It fails like [Sheets.Plan], also for a repeat longer than the roll.
// The length may be more than one roll holds; the caller compares.
func (r Roll) Plan() (RollLayout, error) {
	if err := r.check(); err != nil {
		return RollLayout{}, err
	}
	pieces := make([]piece, len(r.Parts))
	sizes := make([]geom.Size, len(r.Parts))
	for i, p := range r.Parts {
		pieces[i], sizes[i] = piece{p.Size, p.Count, r.turnable()}, p.Size
	}
	f := newFrame(geom.Size{W: r.Width, H: maxLength}, r.Kerf, pieces, func(i, j int) bool {
		return r.Repeat == 0 || (r.Parts[i].Phase-r.Parts[j].Phase)%r.Repeat == 0
	})
	if len(f.items) == 0 {
		return RollLayout{BoundBy: ByArea, Proved: true}, nil
	}
	var l RollLayout
	var root *node
	var length int64 // in the frame's units, kerf included
	if r.Repeat > 0 {
		root, length, l.Bound, l.BoundBy, l.Pattern = r.matched(f)
	} else {
		s := newRollSearch(f, rollSteps)
		s.run()
		root, length = s.best, s.length
		l.Bound, l.BoundBy = geom.Length(s.bound*f.uy)-r.Kerf, s.by
	}
	l.Length = geom.Length(length*f.uy) - r.Kerf
	l.Proved = l.Bound == l.Length
	l.Used = newWriter(f, r.Kerf, sizes).sheet(root, geom.R(0, 0, r.Width, l.Length))
	l.Buy, l.BuyAnywhere = l.Length, l.Length+r.Repeat
	if r.Unit > 0 {
		l.Buy, l.BuyAnywhere = l.Buy.Ceil(r.Unit), l.BuyAnywhere.Ceil(r.Unit)
		l.Units = int(l.Buy / r.Unit)
	}
	return l, nil
}

// widthBound is a lower bound for the length of a strip of width w that holds items of the given heights: by area, with
// a dual feasible function over the widths, or by [barBound]. Heights are those of the items unless others are given.
func widthBound(items []item, w int64, heights []int64) (int64, BoundKind) {
	var sides []int64
	for _, it := range items {
		sides = append(sides, it.w)
		if it.turn {
			sides = append(sides, it.h)
		}
	}
	best, by := int64(0), ByArea
	for k, d := range duals(w, sides, 60) {
		sum := new(big.Int)
		for i, it := range items {
			h := it.h
			if heights != nil {
				h = heights[i]
			}
			var v *big.Int
			if it.w <= w {
				v = new(big.Int).Mul(big.NewInt(d.of(it.w)), big.NewInt(h))
			}
			if it.turn && it.h <= w {
				t := new(big.Int).Mul(big.NewInt(d.of(it.h)), big.NewInt(it.w))
				if v == nil || t.Cmp(v) < 0 {
					v = t
				}
			}
			sum.Add(sum, v.Mul(v, big.NewInt(int64(it.n))))
		}
		q, rest := new(big.Int).QuoRem(sum, big.NewInt(d.den), new(big.Int))
		b := q.Int64()
		if rest.Sign() > 0 {
			b++
		}
		if b > best {
			best = b
			if k > 0 {
				by = ByDual
			}
		}
	}
	if b := barBound(items, w, heights); b > best {
		best, by = b, ByBars
	}
	if heights == nil && slices.ContainsFunc(items, func(it item) bool { return it.turn }) {
		if b := turnBound(items, w); b > best {
			best, by = b, ByBars
		}
	}
	return best, by
}
