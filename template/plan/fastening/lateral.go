package fastening

import (
	"math"

	"rodsheet/geom"
)

// permanent is the load duration factor C_D for a load that is there for good; reference values are for ten years (NDS 2018,
// 2.3.2 and Table 2.3.2).
const permanent = 0.9

// A dowel is a fastener between two members, in pounds and inches.
type dowel struct {
	main, side bearing
	gap        float64 // between the members
	moment     float64 // that bends the fastener, in·lb
}

// A bearing is a member that a fastener bears on: how hard it may for each inch, and over what length. Without length the load
// comes at a point, and the fastener's end there is free to turn.
type bearing struct{ perInch, length float64 }

// yields returns the least load at which a dowel between two members yields in any of the ways that it can: either member
// crushed, the dowel turning stiffly, bent once, bent twice (the modes Im, Is, II, IIIm, IIIs and IV of NDS 2018, Table
// 12.3.1A; with a gap between the members as in the general dowel equations of AWC Technical Report 12, Table 1-1, from
// memory). Where the side member has no length, only those modes remain that don't crush or clamp there.
func (d dowel) yields() float64 {
	q, l := d.main.perInch, d.main.length
	root := func(a, b, c float64) float64 { return (-b + math.Sqrt(b*b-4*a*c)) / (2 * a) }
	if d.side.length == 0 {
		return min(q*l, root(1/(4*q), l/2+d.gap, -q*l*l/4), root(1/(2*q), d.gap, -d.moment))
	}
	s, k := d.side.perInch, d.side.length
	return min(
		q*l, s*k,
		root(1/(4*s)+1/(4*q), k/2+d.gap+l/2, -s*k*k/4-q*l*l/4),
		root(1/(2*s)+1/(4*q), d.gap+l/2, -d.moment-q*l*l/4),
		root(1/(4*s)+1/(2*q), k/2+d.gap, -s*k*k/4-d.moment),
		root(1/(2*s)+1/(2*q), d.gap, -2*d.moment),
	)
}

// bendingYield is the bending yield strength of a wood screw by its shank, in psi (NDS 2018, Appendix I, Table I1); thicker
// screws than it lists count as its thickest.
func bendingYield(diameter geom.Length) float64 {
	switch d := diameter.Inches(); {
	case d <= 0.142:
		return 100_000
	case d <= 0.177:
		return 90_000
	}
	return 80_000
}

// dowelBearing is the dowel bearing strength of wood for fasteners under 1/4 in, in psi, to the nearest 50 (NDS 2018, Table
// 12.3.3).
func dowelBearing(gravity float64) float64 { return math.Round(16600*math.Pow(gravity, 1.84)/50) * 50 }

// reduction is the term R_d of NDS 2018, Table 12.3.1B: K_D for fasteners under 1/4 in, by the shank.
func reduction(diameter geom.Length) float64 {
	if d := diameter.Inches(); d > 0.17 {
		return 10*d + 0.5
	}
	return 2.2
}

// lateral is the reference lateral value of a wood screw that holds a clip on wood, in pounds: its load comes at a distance
// from the wood's face, past lining and pads that carry nothing. No table of NDS 2018 covers such a gap, so it follows from
// the yield equations with a gap; the clip's own flange is not counted on to clamp the screw. Depth is that in the wood. Less
// than 10 diameters reduce the value in proportion, as the tables' notes have it; with less than 6 there is none (NDS 2018,
// 12.1.5.6). 0 means none.
func lateral(diameter, depth, gap geom.Length, gravity float64) float64 {
	if depth < 6*diameter || diameter <= 0 || gravity <= 0 {
		return 0
	}
	root := rootDiameter(diameter).Inches()
	d := dowel{
		main: bearing{dowelBearing(gravity) * root, depth.Inches()}, gap: gap.Inches(),
		moment: bendingYield(diameter) * root * root * root / 6,
	}
	return d.yields() / reduction(diameter) * min(1, float64(depth)/float64(10*diameter))
}

// combined is the value of a screw that is pulled and loaded across at once, at the angle of those two loads to each other:
// W·Z / (W·cos²α + Z·sin²α), where α is that of the resultant to the wood's face (NDS 2018, 12.4.1). Loads and values are in
// one unit, whichever.
func combined(w, z, pull, across float64) float64 {
	squares := pull*pull + across*across
	if squares == 0 || w <= 0 || z <= 0 {
		return 0
	}
	return w * z * squares / (w*across*across + z*pull*pull)
}
