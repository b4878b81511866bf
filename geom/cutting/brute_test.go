package cutting

import (
	"math/bits"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"rodsheet/geom"
)

// A brute tries every cut of every rectangle and every division of the parts among its two sides, with the saw
// taking its kerf for real. It knows of heights along the stock, so that it can place a pattern too.
type brute struct {
	kerf, repeat, origin int
	parts                []brutePart
	known                map[[4]int]bool
}

type brutePart struct {
	w, h, phase int
	turn        bool
}

// fits tells whether the parts of the mask come out of a w × h piece whose lower edge is at y.
func (b *brute) fits(w, h, y int, mask uint) bool {
	if mask == 0 {
		return true
	}
	if w <= 0 || h <= 0 {
		return false
	}
	key := [4]int{w, h, y, int(mask)}
	if b.repeat == 0 {
		key[2] = 0
	}
	if v, ok := b.known[key]; ok {
		return v
	}
	ok := b.try(w, h, y, mask)
	b.known[key] = ok
	return ok
}

func (b *brute) try(w, h, y int, mask uint) bool {
	if bits.OnesCount(mask) == 1 {
		p := b.parts[bits.TrailingZeros(mask)]
		if p.turn && p.h <= w && p.w <= h {
			return true
		}
		if b.repeat == 0 {
			return p.w <= w && p.h <= h
		}
		wait := ((b.origin+p.phase-y)%b.repeat + b.repeat) % b.repeat
		return p.w <= w && wait+p.h <= h
	}
	for sub := (mask - 1) & mask; sub > 0; sub = (sub - 1) & mask {
		for x := 1; x < w; x++ {
			if b.fits(x, h, y, sub) && b.fits(w-x-b.kerf, h, y, mask&^sub) {
				return true
			}
		}
		for x := 1; x < h; x++ {
			if b.fits(w, x, y, sub) && b.fits(w, h-x-b.kerf, y+x+b.kerf, mask&^sub) {
				return true
			}
		}
	}
	return false
}

// sheets is the fewest sheets for the mask.
func (b *brute) sheets(w, h int, mask uint, known map[uint]int) int {
	if mask == 0 {
		return 0
	}
	if n, ok := known[mask]; ok {
		return n
	}
	best := bits.OnesCount(mask)
	low := mask & -mask
	for sub := mask; sub > 0; sub = (sub - 1) & mask {
		if sub&low != 0 && b.fits(w, h, 0, sub) {
			best = min(best, 1+b.sheets(w, h, mask&^sub, known))
		}
	}
	known[mask] = best
	return best
}

func randomParts(r *rand.Rand, w, h, n int) ([]brutePart, []Part) {
	var small []brutePart
	var parts []Part
	for range n {
		g := Grain(r.Intn(2))
		pw, ph := 1+r.Intn(w), 1+r.Intn(h)
		small = append(small, brutePart{pw, ph, 0, g == Free})
		parts = append(parts, Part{Size: geom.Size{W: geom.Length(pw), H: geom.Length(ph)}, Count: 1, Grain: g})
	}
	return small, parts
}

func TestNoPlanIsBetterThanItsBoundAndProofsHold(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	proved := 0
	const cases = 250
	for range cases {
		w, h, kerf := 3+r.Intn(7), 3+r.Intn(7), r.Intn(3)
		small, parts := randomParts(r, w, h, 1+r.Intn(6))
		b := &brute{kerf: kerf, parts: small, known: map[[4]int]bool{}}
		best := b.sheets(w, h, 1<<len(small)-1, map[uint]int{})
		s := Sheets{Stock: one(geom.Size{W: geom.Length(w), H: geom.Length(h)}), Kerf: geom.Length(kerf), Parts: parts}
		l := planned(t, s)
		assert.LessOrEqual(t, l.Bound, best, "%+v", s)
		assert.Equal(t, best, len(l.Used), "%+v", s)
		if l.Proved {
			proved++
		}
	}
	assert.Equal(t, cases, proved, "small cases are settled by search")
}

func TestNoRollIsShorterThanItsBoundAndProofsHold(t *testing.T) {
	r := rand.New(rand.NewSource(15))
	proved, shortest := 0, 0
	const cases = 200
	for range cases {
		w, repeat := 3+r.Intn(5), 0
		if r.Intn(2) == 0 {
			repeat = 2 + r.Intn(3)
		}
		roll := Roll{Width: geom.Length(w), Repeat: geom.Length(repeat), Nap: r.Intn(2) == 0}
		b := &brute{repeat: repeat}
		for range 1 + r.Intn(4) {
			p := brutePart{1 + r.Intn(w), 1 + r.Intn(5), r.Intn(4), !roll.Nap && repeat == 0}
			b.parts = append(b.parts, p)
			roll.Parts = append(roll.Parts, RollPart{Size: geom.Size{W: geom.Length(p.w), H: geom.Length(p.h)}, Count: 1, Phase: geom.Length(p.phase)})
		}
		best := 0
		for ok := false; !ok; {
			best++
			for b.origin = 0; b.origin < max(1, repeat) && !ok; b.origin++ {
				b.known = map[[4]int]bool{}
				ok = b.fits(w, best, 0, 1<<len(b.parts)-1)
			}
		}
		l := rolled(t, roll)
		assert.LessOrEqual(t, int(l.Bound), best, "%+v", roll)
		assert.GreaterOrEqual(t, int(l.Length), best, "%+v", roll)
		if l.Proved {
			proved++
		}
		if int(l.Length) == best {
			shortest++
		}
	}
	t.Log(proved, shortest)
	assert.GreaterOrEqual(t, shortest, cases*9/10)
	assert.GreaterOrEqual(t, proved, cases*6/10)
}
