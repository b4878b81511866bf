package printer

import "math"

// usual is how far a printer is usually off, as a standard uncertainty of its scale and of its lean: it is rarely more than
// 1 % off (common practice, from memory).
const usual = 0.005

// negligible is less than a thousandth of a millimetre on a page.
const negligible = 2e-6

// estimate returns the likeliest factors and lean: those with the least sum of squares of what the readings are off,
// each in units of its standard uncertainty, u = Within/√3 (JCGM 100:2008, 4.3.7), and of what the printer is off, in units
// of usual, or of what is read where that is more. So all readings count together, and each for what it is worth: one that
// is hardly finer than what is usual pulls the estimate a short way only.
//
// The readings are not linear in the lean; Newton's steps, with the curvature left out, settle well before the last.
func (r Readings) estimate() (across, down, lean float64) {
	sine, _ := r.lean()
	prior := [3]float64{r.Across.factor() - 1, r.Down.factor() - 1, sine}
	for i, read := range prior {
		prior[i] = max(usual, math.Abs(read))
	}
	var off [3]float64 // of across and down from 1, and the lean
	for range 6 {
		var normal [3][3]float64
		var right [3]float64
		for i := range off {
			normal[i][i] = 1 / square(prior[i])
			right[i] = -off[i] / square(prior[i])
		}
		for _, e := range r.equations(1+off[0], 1+off[1], off[2]) {
			for i := range off {
				right[i] += e.slope[i] * e.missing * e.weight
				for k := range off {
					normal[i][k] += e.slope[i] * e.slope[k] * e.weight
				}
			}
		}
		for i, step := range solve(normal, right) {
			off[i] += step
		}
	}
	for i := range off {
		if math.Abs(off[i]) < negligible {
			off[i] = 0
		}
	}
	return 1 + off[0], 1 + off[1], off[2]
}

// An equation is what one reading says of across, down and lean, linear about a place. Lengths are in nanometres.
type equation struct {
	missing float64    // the reading less what it would be at the place
	slope   [3]float64 // of what it would be
	weight  float64    // 1/u²
}

// equations are those of all readings, about the given factors and lean.
func (r Readings) equations(across, down, lean float64) []equation {
	weight := func(within float64) float64 { return 3 / square(max(1, within)) } // a reading is no finer than 1 nm
	w, h := float64(r.Across.Drawn), float64(r.Down.Drawn)
	all := []equation{
		{float64(r.Across.Read) - w*across, [3]float64{w, 0, 0}, weight(float64(r.Across.Within))},
		{float64(r.Down.Read) - h*down, [3]float64{0, h, 0}, weight(float64(r.Down.Within))},
	}
	d := r.Diagonals
	if d == nil {
		return all
	}
	w, h = float64(d.Of.W), float64(d.Of.H)
	a, b := w*across, h*down
	for i, read := range [2]float64{float64(d.Rising), float64(d.Falling)} {
		sign := float64(1 - 2*i)
		long := math.Sqrt(a*a + b*b + 2*sign*a*b*lean)
		all = append(all, equation{read - long, [3]float64{
			w * (a + sign*b*lean) / long, h * (b + sign*a*lean) / long, sign * a * b / long,
		}, weight(float64(d.Within))})
	}
	return all
}

// solve solves three equations by elimination; the matrix is symmetric and positive definite.
func solve(m [3][3]float64, b [3]float64) (x [3]float64) {
	for i := range 3 {
		for k := i + 1; k < 3; k++ {
			f := m[k][i] / m[i][i]
			for j := i; j < 3; j++ {
				m[k][j] -= f * m[i][j]
			}
			b[k] -= f * b[i]
		}
	}
	for i := 2; i >= 0; i-- {
		x[i] = b[i]
		for j := i + 1; j < 3; j++ {
			x[i] -= m[i][j] * x[j]
		}
		x[i] /= m[i][i]
	}
	return x
}
