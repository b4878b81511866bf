package geom

import (
	"math"
	"testing"
)

// A wavy round outline, and a comb, each of n corners.
func wavy(n int) Polygon {
	p := make(Polygon, n)
	for i := range p {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := 2000 + 100*math.Sin(40*a)
		p[i] = Pt(Millimetre.Times(r*math.Cos(a)), Millimetre.Times(r*math.Sin(a)))
	}
	return p
}

func comb(n int) Polygon {
	p := Polygon{Pt(0, 0)}
	for i := range n/2 - 1 {
		x := Length(i) * Millimetre
		y := Length(1000+900*(i%2)) * Millimetre
		p = append(p, Pt(x, y), Pt(x+Millimetre, y))
	}
	p = append(p, Pt(p[len(p)-1].X, 0))
	return p
}

func BenchmarkPolygon(b *testing.B) {
	for _, n := range []int{1_000, 10_000} {
		for name, p := range map[string]Polygon{"wavy": wavy(n), "comb": comb(n)} {
			run := func(what string, do func()) {
				b.Run(what+"/"+name+map[int]string{1_000: "/1000", 10_000: "/10000"}[n], func(b *testing.B) {
					b.ReportAllocs()
					for b.Loop() {
						do()
					}
				})
			}
			run("Normalized", func() { p.Normalized() })
			run("SelfIntersection", func() { p.SelfIntersection() })
			run("OffsetIn", func() { must(p.Offset(-Millimetre/4, DefaultMitre)) })
			if name == "wavy" { // the comb's teeth would all lie over each other: that is refused
				run("OffsetOut", func() { must(p.Offset(20*Millimetre, DefaultMitre)) })
			}
			run("RightOf", func() { p.RightOf(100 * Millimetre) })
		}
	}
	spiked := Polygon{} // out and back on the same 5,000 points, which all goes
	for i := range 5_000 {
		spiked = append(spiked, Pt(Length(i), Length(i*i)))
	}
	for i := range spiked {
		spiked = append(spiked, spiked[4_999-i])
	}
	b.Run("Normalized/spike/10000", func(b *testing.B) {
		for b.Loop() {
			spiked.Normalized()
		}
	})
	ell := ellShape()
	b.Run("OffsetIn/ell", func(b *testing.B) {
		for b.Loop() {
			must(ell.Offset(-50*Millimetre, DefaultMitre))
		}
	})
	b.Run("ClearOf/ell", func(b *testing.B) {
		for b.Loop() {
			ell.ClearOf(mmRect(400, 200, 470, 260), 50*Millimetre)
		}
	})
}

func must(pieces []Polygon, err error) {
	if err != nil {
		panic(err)
	}
}
