package geom

import (
	"math"
	"math/big"
	"math/bits"
)

// A Point is a place, or a vector, in a plane whose axes the package that uses it names.
type Point struct{ X, Y Length }

// Pt returns the point (x, y).
func Pt(x, y Length) Point { return Point{x, y} }

// Add returns the vector sum p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the vector p − q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Distance returns how far q is from p, rounded to the nearest nanometre.
func (p Point) Distance(q Point) Length {
	return Length(math.Round(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))))
}

// Orientation tells on which side of the directed line a→b the point c lies: +1 left, −1 right, 0 on it. It is exact
// for coordinates nearer to zero than 2^62 nm (4.6 million km).
func Orientation(a, b, c Point) int { return Cross(b.Sub(a), c.Sub(a)).Sign() }

// A Product is the exact signed 128-bit sum of products of lengths, in square nanometres: an area or a cross product.
type Product struct {
	hi int64
	lo uint64
}

// Cross returns the exact cross product u × v.
func Cross(u, v Point) Product { return mul(u.X, v.Y).minus(mul(u.Y, v.X)) }

// Dot returns the exact scalar product u · v.
func Dot(u, v Point) Product { return mul(u.X, v.X).plus(mul(u.Y, v.Y)) }

// Sign returns −1, 0 or +1.
func (p Product) Sign() int {
	switch {
	case p.hi < 0:
		return -1
	case p.hi == 0 && p.lo == 0:
		return 0
	}
	return 1
}

// Cmp compares p with q: −1, 0 or +1.
func (p Product) Cmp(q Product) int { return p.minus(q).Sign() }

// SquareMillimetres returns the product as a float, rounded.
func (p Product) SquareMillimetres() float64 {
	return p.float() / (float64(Millimetre) * float64(Millimetre))
}

// float takes the sign off first: near zero the two halves of a negative product would cancel each other's digits.
func (p Product) float() float64 {
	if p.hi < 0 {
		return -Product{}.minus(p).float()
	}
	return float64(p.hi)*0x1p64 + float64(p.lo)
}

func (p Product) big() *big.Int {
	b := new(big.Int).Lsh(big.NewInt(p.hi), 64)
	return b.Add(b, new(big.Int).SetUint64(p.lo))
}

func (p Product) plus(q Product) Product {
	lo, carry := bits.Add64(p.lo, q.lo, 0)
	hi, _ := bits.Add64(uint64(p.hi), uint64(q.hi), carry)
	return Product{int64(hi), lo}
}

func (p Product) minus(q Product) Product {
	lo, borrow := bits.Sub64(p.lo, q.lo, 0)
	hi, _ := bits.Sub64(uint64(p.hi), uint64(q.hi), borrow)
	return Product{int64(hi), lo}
}

func mul(a, b Length) Product {
	hi, lo := bits.Mul64(uint64(a.Abs()), uint64(b.Abs()))
	p := Product{int64(hi), lo}
	if (a < 0) != (b < 0) {
		return Product{}.minus(p)
	}
	return p
}
