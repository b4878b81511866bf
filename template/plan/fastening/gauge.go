package fastening

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// mil is a thousandth of an inch, 25 400 nm exactly.
const mil = geom.Inch / 1000

// A Gauge is one number of wood screw. Root and Head are 0 and Threads is 0 where the standards at hand have no row.
type Gauge struct {
	Number   int
	Diameter geom.Length // of the shank: 0.060 in + 0.013 in × number (ASME B18.6.1)
	Root     geom.Length // under the threads, for design (NDS Appendix L, Table L3)
	Head     geom.Length // greatest diameter of a flat head (ASME B18.6.1)
	Threads  int         // per inch (ASME B18.6.1)
}

// Gauges are the numbers in common use, from the thinnest.
func Gauges() []Gauge {
	rows := []struct {
		number     int
		root, head geom.Length // mils
		threads    int
	}{
		{4, 0, 225, 22},
		{5, 0, 252, 20},
		{6, 113, 279, 18},
		{7, 122, 305, 16},
		{8, 131, 332, 15},
		{9, 142, 0, 14},
		{10, 152, 385, 13},
		{12, 171, 438, 11},
		{14, 196, 0, 10},
	}
	gauges := make([]Gauge, len(rows))
	for i, r := range rows {
		gauges[i] = Gauge{r.number, job.ScrewDiameter(r.number), r.root * mil, r.head * mil, r.threads}
	}
	return gauges
}

// RootDiameter is what is left of a wood screw under its threads. Between the rows of NDS Appendix L, Table L3 (#6 to
// #14) it is interpolated; outside them it is two-thirds of the shank, the rule of the USDA Wood Handbook
// (FPL-GTR-190, chapter 8), which lies clearly below the table and so errs on the careful side.
func RootDiameter(diameter geom.Length) geom.Length {
	var below Gauge
	for _, g := range Gauges() {
		if g.Root == 0 {
			continue
		}
		if g.Diameter == diameter {
			return g.Root
		}
		if g.Diameter > diameter {
			if below.Root == 0 {
				break
			}
			part := float64(diameter-below.Diameter) / float64(g.Diameter-below.Diameter)
			return below.Root + (g.Root - below.Root).Times(part)
		}
		below = g
	}
	return diameter * 2 / 3
}

// Lead is what NDS says of holes for a wood screw. The figures are diameters; 0 means no hole is needed.
type Lead struct {
	Withdrawal geom.Length // where the screw is pulled (12.1.5.2): 90 % of the root above G 0.6, 70 % above 0.5
	Thread     geom.Length // where it carries across its axis (12.1.5.3), round the thread: the root above G 0.6, else 7/8 of it
	Shank      geom.Length // the same, round the plain shank: D above G 0.6, else 7/8 D
}

// LeadHoles are the holes that NDS 12.1.5.2 and 12.1.5.3 ask for in wood of the given specific gravity.
func LeadHoles(diameter geom.Length, gravity float64) Lead {
	root := RootDiameter(diameter)
	lead := Lead{Thread: root.Times(7. / 8), Shank: diameter.Times(7. / 8)}
	if gravity > 0.6 {
		lead = Lead{Withdrawal: root.Times(0.9), Thread: root, Shank: diameter}
	} else if gravity > 0.5 {
		lead.Withdrawal = root.Times(0.7)
	}
	return lead
}

// Drills are the drills next to a wanted diameter.
type Drills struct {
	Below, Above geom.Length // equal where a drill has just the diameter
	Nearest      geom.Length // a tie goes to the thinner drill
}

// DrillsNear are the drills next to a diameter: steps of 1/64 in (ASME B94.11M) or, in metric, of 0.5 mm, as the
// common sets have them (ISO 235 has finer ones too; from memory).
func DrillsNear(d geom.Length, s geom.System) Drills {
	step := geom.SixtyFourth
	if s == geom.Metric {
		step = geom.Millimetre / 2
	}
	drills := Drills{Below: d.Floor(step), Above: d.Ceil(step)}
	drills.Nearest = drills.Below
	if drills.Above-d < d-drills.Below {
		drills.Nearest = drills.Above
	}
	return drills
}

// leadBit is the drill for a lead hole in wood of the given specific gravity: the nearest to what NDS asks for a screw
// that is both pulled and loaded across, never thicker than the root.
func leadBit(diameter geom.Length, gravity float64, s geom.System) geom.Length {
	lead := LeadHoles(diameter, gravity)
	want := lead.Thread
	if lead.Withdrawal > 0 {
		want = min(want, lead.Withdrawal)
	}
	drills := DrillsNear(want, s)
	if drills.Nearest > RootDiameter(diameter) {
		return drills.Below
	}
	return drills.Nearest
}

// Withdrawal is the reference withdrawal value of a wood screw in the side grain of solid wood, in pounds for each
// inch of thread: W = 2850 G² D (NDS 12.2.2). It must not be used for plywood, for which it comes out too high (Ahn,
// Pang & Oh, J. Korean Wood Sci. Technol. 49(1), 2021), nor for end grain.
func Withdrawal(diameter geom.Length, gravity float64) float64 {
	return 2850 * gravity * gravity * diameter.Inches()
}
