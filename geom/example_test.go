package geom_test

import (
	"fmt"

	"rodsheet/geom"
)

func ExampleParseLength() {
	for _, text := range []string{`10 1/2`, `3' 4 1/2"`, "267 mm", "5,5"} {
		l, err := geom.ParseLength(text, geom.Imperial)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(l)
	}
	// Output:
	// 266.7 mm
	// 1028.7 mm
	// 267 mm
	// "5,5" is no length: a comma is neither a decimal sign nor a separator here; write a point, as in 5.5
}

func ExampleLength_In() {
	l := 10*geom.Inch + geom.Inch/2
	fmt.Println(l.In(geom.Imperial), "or", l.In(geom.Metric))
	l = 267 * geom.Millimetre // lies on no mark of an inch rule
	fmt.Println(l.In(geom.Imperial), "or", l.In(geom.Metric))
	// Output:
	// 10 1/2″ or 266.7 mm
	// ≈10 1/2″ or 267 mm
}

func ExamplePolygon_Offset() {
	// A finished panel 1000 × 600 mm with 500 × 300 mm cut away at the upper right; the board is 50 mm smaller all round.
	panel := geom.Polygon{}
	for _, xy := range [][2]geom.Length{{0, 0}, {1000, 0}, {1000, 300}, {500, 300}, {500, 600}, {0, 600}} {
		panel = append(panel, geom.Pt(xy[0]*geom.Millimetre, xy[1]*geom.Millimetre))
	}
	boards, err := panel.Offset(-50*geom.Millimetre, geom.DefaultMitre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, board := range boards {
		fmt.Println(board.Area(), "mm²")
	}
	// At 150 mm the lower right leg, 300 mm high, is eaten.
	boards, _ = panel.Offset(-150*geom.Millimetre, geom.DefaultMitre)
	fmt.Println(len(boards), boards[0].Bounds().Size())
	// Output:
	// 300000 mm²
	// 1 {200 mm 300 mm}
}

func ExamplePolygon_Without() {
	wall := geom.R(0, 0, 300, 200).Polygon()
	for _, piece := range wall.Without(0, geom.R(100, 50, 200, 100)) { // a window, wholly inside
		b := piece.Bounds()
		fmt.Println(len(piece), "corners, from", int64(b.Min.Y), "to", int64(b.Max.Y))
	}
	// Output:
	// 8 corners, from 0 to 75
	// 8 corners, from 75 to 200
}
