package geom

import (
	"math/rand/v2"
)

// mm is a polygon from x, y, x, y … in millimetres.
func mm(xy ...Length) Polygon {
	var p Polygon
	for i := 0; i+1 < len(xy); i += 2 {
		p = append(p, Pt(xy[i]*Millimetre, xy[i+1]*Millimetre))
	}
	return p
}

// mmRect is a rectangle in millimetres.
func mmRect(x0, y0, x1, y1 Length) Rect {
	return R(x0*Millimetre, y0*Millimetre, x1*Millimetre, y1*Millimetre)
}

func ellShape() Polygon { return mm(0, 0, 1000, 0, 1000, 300, 500, 300, 500, 600, 0, 600) }

// two rooms joined by a passage 100 wide.
func dumbbell() Polygon {
	return mm(0, 0, 300, 0, 300, 100, 700, 100, 700, 0, 1000, 0, 1000, 300, 700, 300, 700, 200, 300, 200, 300, 300, 0, 300)
}

// randomPolygon is a simple polygon on a lattice, far from convex: random points, uncrossed by turning back the
// stretch between two edges that meet (2-opt).
func randomPolygon(random *rand.Rand, corners int, size, lattice Length) Polygon {
	for {
		p := make(Polygon, corners)
		for i := range p {
			p[i] = Pt(Length(random.Int64N(int64(size)))*lattice, Length(random.Int64N(int64(size)))*lattice)
		}
		for range 40 * corners {
			i, j, crosses := p.SelfIntersection()
			if !crosses {
				if q := p.Normalized(); q != nil {
					return q
				}
				break
			}
			for a, b := i+1, j; a < b; a, b = a+1, b-1 {
				p[a], p[b] = p[b], p[a]
			}
		}
	}
}

// randomStairs is a simple rectilinear polygon: columns of random tops over random bottoms that overlap.
func randomStairs(random *rand.Rand, columns int, lattice Length) Polygon {
	var bottom, top Polygon
	x, low, high := Length(0), Length(random.IntN(5)), Length(5+random.IntN(10))
	for range columns {
		wide := Length(1 + random.IntN(6))
		bottom = append(bottom, Pt(x, low), Pt(x+wide, low))
		top = append(top, Pt(x, high), Pt(x+wide, high))
		x += wide
		low = min(Length(random.IntN(14)), high-1)
		high = max(Length(1+random.IntN(20)), low+1)
		if lastLow, lastHigh := bottom[len(bottom)-1].Y, top[len(top)-1].Y; low >= lastHigh || high <= lastLow {
			low, high = lastLow, lastHigh
		}
	}
	for i := len(top) - 1; i >= 0; i-- {
		bottom = append(bottom, top[i])
	}
	for i := range bottom {
		bottom[i] = Point{bottom[i].X * lattice, bottom[i].Y * lattice}
	}
	return bottom.Normalized()
}
