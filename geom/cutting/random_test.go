package cutting

import (
	"math/rand"
	"testing"
	"time"

	"rodsheet/geom"
)

func TestMany(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	unproved := 0
	var worst time.Duration
	for seed := 0; seed < 300; seed++ {
		s := Sheets{Sheet: Sheet{Size: geom.Size{W: 96 * geom.Inch, H: 48 * geom.Inch}, Trim: 0}, Kerf: geom.Inch / 8}
		if seed%3 == 0 {
			s = Sheets{Sheet: Sheet{Size: geom.Size{W: 2440 * geom.Millimetre, H: 1220 * geom.Millimetre}}, Kerf: 3 * geom.Millimetre}
		}
		kinds := 5
		if seed%5 == 4 {
			kinds = 8
		}
		for i := 0; i < kinds; i++ {
			w := geom.Length(8*16+r.Intn(28*16)) * geom.Inch / 16
			h := geom.Length(8*16+r.Intn(28*16)) * geom.Inch / 16
			if seed%3 == 0 {
				w, h = geom.Length(200+r.Intn(800))*geom.Millimetre, geom.Length(200+r.Intn(600))*geom.Millimetre
			}
			s.Parts = append(s.Parts, Part{Size: geom.Size{W: w, H: h}, Count: 40 / kinds, Grain: Grain(seed % 2)})
		}
		start := time.Now()
		l, err := s.Plan()
		d := time.Since(start)
		if err != nil {
			t.Fatal(err)
		}
		if err := Verify(s, l); err != nil {
			t.Fatal(err)
		}
		worst = max(worst, d)
		if !l.Proved {
			unproved++
			t.Logf("%d sheets %d bound %d %s %v waste %.3f", seed, len(l.Used), l.Bound, l.BoundBy, d, l.Waste.Share())
		}
	}
	t.Log(unproved, worst)
}
