package printer

import (
	"fmt"
	"math"

	"rodsheet/geom"
	"rodsheet/template/paper"
)

// papers are what people print on, the commonest first.
var papers = []paper.Format{paper.A4, paper.Letter, paper.A3, paper.Tabloid, paper.Legal}

// margins are what drivers leave at each edge when they shrink a page into what they can print (usual figures, from
// memory; no standard fixes them).
var margins = []geom.Length{geom.Inch / 6, 5 * geom.Millimetre, geom.Inch / 4, 10 * geom.Millimetre, geom.Inch / 2}

// A signature is the scale at which a print comes out when a program fits it to a paper.
type signature struct {
	text         string  // "A4 fitted to Letter"
	across, down float64 // equal but where the page is stretched
}

// signatures are the known wrong scales, the commonest first. Fitted to a paper, the page shrinks or grows until
// its tighter side fills it; stretched, until both do.
func signatures() []signature {
	var all []signature
	fit := func(text string, from, to geom.Size) {
		s := paper.Fitted(from, to)
		all = append(all, signature{text, s, s})
	}
	pairs := func(each func(from, to int)) {
		for from := range papers {
			for to := range papers {
				if from != to {
					each(from, to)
				}
			}
		}
	}
	pairs(func(from, to int) {
		fit(fmt.Sprintf("%s fitted to %s", papers[from].Name, papers[to].Name), papers[from].Size, papers[to].Size)
	})
	for _, f := range papers {
		for _, m := range margins {
			inside := geom.Size{W: f.Size.W - 2*m, H: f.Size.H - 2*m}
			fit(fmt.Sprintf("%s fitted between margins of %.1f mm", f.Name, m.Millimetres()), f.Size, inside)
		}
	}
	pairs(func(from, to int) {
		a, b := papers[from], papers[to]
		all = append(all, signature{fmt.Sprintf("%s stretched to %s", a.Name, b.Name), ratio(b.Size.W, a.Size.W), ratio(b.Size.H, a.Size.H)})
	})
	return all
}

func ratio(a, b geom.Length) float64 { return float64(a) / float64(b) }

// wrongScale returns the signature that the readings show, where both of them agree with it to within their own error and
// 0.1 % of the printer's. Nearer than 1 % to true none is looked for.
func (r Readings) wrongScale() (string, bool) {
	across, down := r.Across.factor(), r.Down.factor()
	if math.Abs(across-1) < 0.01 && math.Abs(down-1) < 0.01 {
		return "", false
	}
	best, least := signature{}, math.Inf(1)
	for _, s := range signatures() {
		offX, offY := math.Abs(across-s.across), math.Abs(down-s.down)
		if offX > r.Across.doubt()+0.001 || offY > r.Down.doubt()+0.001 {
			continue
		}
		if off := max(offX, offY); off < least-1e-4 { // a commoner one wins what is as good as a tie
			best, least = s, off
		}
	}
	if math.IsInf(least, 1) {
		return "", false
	}
	return fmt.Sprintf("the lines came out at %.4f across and %.4f down of their length, which is what %s gives (%.4f, %.4f)",
		across, down, best.text, best.across, best.down), true
}
