package cutting

import (
	"math/rand"
	"testing"
	"time"

	"rodsheet/geom"
)

func TestSpeed(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for seed := 0; seed < 12; seed++ {
		s := Sheets{Sheet: Sheet{Size: geom.Size{W: 96 * geom.Inch, H: 48 * geom.Inch}, Trim: 0}, Kerf: geom.Inch / 8}
		for i := 0; i < 5; i++ {
			w := geom.Length(10*16+r.Intn(26*16)) * geom.Inch / 16
			h := geom.Length(10*16+r.Intn(26*16)) * geom.Inch / 16
			s.Parts = append(s.Parts, Part{Size: geom.Size{W: w, H: h}, Count: 8, Grain: Grain(seed % 2)})
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
		t.Logf("%d parts %d bound %d %s %v waste %.3f", seed, len(l.Used), l.Bound, l.BoundBy, d, l.Waste.Share())
	}
	for _, n := range []int{5, 40, 300, 5000} {
		s := Sheets{Sheet: Sheet{Size: geom.Size{W: 2440 * geom.Millimetre, H: 1220 * geom.Millimetre}, Trim: 10 * geom.Millimetre}, Kerf: 3 * geom.Millimetre}
		for i := 0; i < n; i++ {
			w := geom.Length(200+r.Intn(800)) * geom.Millimetre
			h := geom.Length(200+r.Intn(800)) * geom.Millimetre
			s.Parts = append(s.Parts, Part{Size: geom.Size{W: w, H: h}, Count: 5000 / n, Grain: Free})
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
		t.Logf("%d kinds of 5000: sheets %d bound %d %s %v waste %.3f", n, len(l.Used), l.Bound, l.BoundBy, d, l.Waste.Share())
	}
}
