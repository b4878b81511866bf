package cover

import mathbits "math/bits"

// bits is a set of the numbers below a limit. Sets that are used together have the same limit.
type bits []uint64

func newBits(n int) bits { return make(bits, (n+63)/64) }

func (b bits) has(k int) bool { return b[k/64]>>(k%64)&1 == 1 }
func (b bits) set(k int)      { b[k/64] |= 1 << (k % 64) }
func (b bits) clear(k int)    { b[k/64] &^= 1 << (k % 64) }

func (b bits) and(c bits) {
	for i, w := range c {
		b[i] &= w
	}
}

func (b bits) or(c bits) {
	for i, w := range c {
		b[i] |= w
	}
}

func (b bits) without(c bits) {
	for i, w := range c {
		b[i] &^= w
	}
}

func (b bits) any() bool {
	for _, w := range b {
		if w != 0 {
			return true
		}
	}
	return false
}

func (b bits) within(c bits) bool {
	for i, w := range b {
		if w&^c[i] != 0 {
			return false
		}
	}
	return true
}

func (b bits) count() int { return b.common(b) }

// common returns how many numbers are in both.
func (b bits) common(c bits) int {
	n := 0
	for i, w := range b {
		n += mathbits.OnesCount64(w & c[i])
	}
	return n
}

// each calls f for every number in the set as it is when its word is reached, ascending.
func (b bits) each(f func(k int)) {
	for i, w := range b {
		for ; w != 0; w &= w - 1 {
			f(64*i + mathbits.TrailingZeros64(w))
		}
	}
}
