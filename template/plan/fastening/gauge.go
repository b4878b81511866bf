package fastening

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// mil is a thousandth of an inch, 25 400 nm exactly.
const mil = geom.Inch / 1000

// roots are the root diameters of wood screws for design, from the thinnest (NDS 2018, Appendix L, Table L3; #7, #9 and #16 on
// from memory).
var roots = []struct {
	number int
	root   geom.Length
}{
	{6, 113 * mil}, {7, 122 * mil}, {8, 131 * mil}, {9, 142 * mil}, {10, 152 * mil}, {12, 171 * mil}, {14, 196 * mil},
	{16, 209 * mil}, {18, 232 * mil}, {20, 255 * mil}, {24, 298 * mil},
}

// rootDiameter is what is left of a wood screw under its threads. Between the rows of NDS 2018, Appendix L, Table L3 (#6 to
// #24) it is interpolated; outside them it is two-thirds of the shank, the rule of the USDA Wood Handbook
// (FPL-GTR-190, chapter 8), which lies clearly below the table and so errs on the careful side.
func rootDiameter(diameter geom.Length) geom.Length {
	for i, r := range roots {
		above := job.ScrewDiameter(r.number)
		switch {
		case above == diameter:
			return r.root
		case above > diameter && i > 0:
			from, to := roots[i-1].root, r.root
			below := job.ScrewDiameter(roots[i-1].number)
			return from + (to - from).Times(float64(diameter-below)/float64(above-below))
		case above > diameter:
			return diameter * 2 / 3
		}
	}
	return diameter * 2 / 3
}

// leadHole is what NDS 2018 says of holes for a wood screw. The figures are diameters; 0 means no hole is needed.
type leadHole struct {
	Withdrawal geom.Length // where the screw is pulled (12.1.5.2): 90 % of the root above G 0.6, 70 % above 0.5
	Thread     geom.Length // where it carries across its axis (12.1.5.3), round the thread: the root above G 0.6, else 7/8 of it
	Shank      geom.Length // the same, round the plain shank: D above G 0.6, else 7/8 D
}

// leadHoles are the holes that NDS 2018, 12.1.5.2 and 12.1.5.3 ask for in wood of the given specific gravity.
func leadHoles(diameter geom.Length, gravity float64) leadHole {
	root := rootDiameter(diameter)
	lead := leadHole{Thread: root.Times(7. / 8), Shank: diameter.Times(7. / 8)}
	if gravity > 0.6 {
		lead = leadHole{Withdrawal: root.Times(0.9), Thread: root, Shank: diameter}
	} else if gravity > 0.5 {
		lead.Withdrawal = root.Times(0.7)
	}
	return lead
}

// drillSizes are the drills next to a wanted diameter.
type drillSizes struct {
	Below, Above geom.Length // equal where a drill has just the diameter
	Nearest      geom.Length // a tie goes to the thinner drill
}

// drillsNear are the drills next to a diameter: steps of 1/64 in (ASME B94.11M) or, in metric, of 0.5 mm, as the
// common sets have them (ISO 235 has finer ones too; from memory).
func drillsNear(d geom.Length, s geom.System) drillSizes {
	step := geom.SixtyFourth
	if s == geom.Metric {
		step = geom.Millimetre / 2
	}
	drills := drillSizes{Below: d.Floor(step), Above: d.Ceil(step)}
	drills.Nearest = drills.Below
	if drills.Above-d < d-drills.Below {
		drills.Nearest = drills.Above
	}
	return drills
}

// leadBit is the drill for a lead hole in wood of the given specific gravity: the nearest to what NDS 2018 asks for a screw
// that is both pulled and loaded across, never thicker than the root.
func leadBit(diameter geom.Length, gravity float64, s geom.System) geom.Length {
	lead := leadHoles(diameter, gravity)
	want := lead.Thread
	if lead.Withdrawal > 0 {
		want = min(want, lead.Withdrawal)
	}
	drills := drillsNear(want, s)
	if drills.Nearest > rootDiameter(diameter) {
		return drills.Below
	}
	return drills.Nearest
}

// withdrawal is the reference withdrawal value of a wood screw in the side grain of solid wood, in pounds for each
// inch of thread: W = 2850 G² D, for a load of ten years (NDS 2018, 12.2.2). It must not be used for plywood, for which it
// comes out too high (Ahn, Pang & Oh, J. Korean Wood Sci. Technol. 49(1), 2021), nor for end grain.
func withdrawal(diameter geom.Length, gravity float64) float64 {
	return 2850 * gravity * gravity * diameter.Inches()
}
