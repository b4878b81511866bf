package job

import (
	"strings"

	"rodsheet/geom"
	"rodsheet/template/paper"
)

// pick chooses between the two columns of the table of defaults.
func pick(s geom.System, inches, millimetres geom.Length) geom.Length {
	if s == geom.Imperial {
		return inches
	}
	return millimetres
}

// defaults is a job with every default filled in. Nothing stands here that decides where a hole lands and that only
// a measurement can tell.
func defaults(u geom.System) Job {
	const mm, in = geom.Millimetre, geom.Inch
	p := func(inches, millimetres geom.Length) geom.Length { return pick(u, inches, millimetres) }
	saw := p(in/16, 1*mm)
	format := paper.A4
	if u == geom.Imperial {
		format = paper.Letter
	}
	return Job{
		Units:  u,
		Paper:  Paper{Name: strings.ToLower(format.Name), Size: format.Size, Margin: p(in/4, 6*mm), Overlap: p(in/2, 12*mm)},
		Board:  Board{Tolerance: p(in/64, 4*mm/10), Kerf: p(in/8, 3*mm), Saw: saw},
		Cover:  Cover{NapUp: true},
		Wrap:   Wrap{Auto: true, Hold: p(in, 25*mm), Fold: "auto"},
		Staple: Staple{Spacing: p(3*in/2, 40*mm), Edge: p(3*in/4, 20*mm), Crown: p(in/32, 1*mm)},
		Clip:   Clip{Play: p(in/16, 3*mm/2)},
		Clips:  Clips{Number: 4, Clear: p(2*in, 50*mm), Spacing: p(24*in, 600*mm), Step: p(in/16, 1*mm)},
		Screws: Screws{Marker: p(in/8, 3*mm)},
		Shims:  Shims{Stock: p(in/8, 3*mm)},
		Blocks: Blocks{Within: p(in/64, 4*mm/10), Foot: p(4*in, 100*mm)},
		Accuracy: Accuracy{
			Tape: 2, Seam: 3 * mm / 10, Wander: mm / 2, Growth: [2]float64{0.001, 0.002}, Squared: saw / 2,
		},
		Slivers: Slivers{Width: p(3*in, 75*mm)},
		Buying:  Buying{Spares: 2, ScrewPack: 100},
	}
}

// keepOutMargin is how far holes stay from fittings, openings and keep-outs unless the person says otherwise.
func keepOutMargin(u geom.System) geom.Length { return pick(u, geom.Inch, 25*geom.Millimetre) }
