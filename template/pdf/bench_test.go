package pdf_test

import (
	"fmt"
	"io"
	"testing"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/page"
	"rodsheet/template/pdf"
)

// busy is a set of pages with 200 strokes, 10 circles and 40 texts each.
func busy(pages int) page.Set {
	set := page.Set{Title: "busy"}
	for n := range pages {
		p := one().Pages[0]
		p.Number = n + 1
		p.Bookmarks = []page.Bookmark{{Title: fmt.Sprintf("page %d", n+1)}}
		var marks []drawing.Mark
		for i := range 200 {
			at := geom.Pt(geom.Length(20+i%20*8)*mm, geom.Length(20+i/20*25+n%5)*mm)
			marks = append(marks, drawing.Line{From: at, To: at.Add(geom.Pt(5*mm, 3*mm)), Pen: []drawing.Pen{drawing.Narrow, drawing.Hair, drawing.Hidden}[i%3]})
			if i%20 == 0 {
				marks = append(marks, drawing.Circle{Centre: at, Radius: 4 * mm, Pen: drawing.Narrow})
			}
			if i%5 == 0 {
				marks = append(marks, drawing.Text{At: at, String: fmt.Sprintf("%d 1/2″ N%d", i, n), Height: 5 * mm / 2, Bold: i%2 == 0, Turn: float64(i % 4 * 90)})
			}
		}
		p.Layers[0].Marks = marks
		set.Pages = append(set.Pages, p)
	}
	return set
}

func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{1, 15, 100, 1000} {
		b.Run(fmt.Sprintf("%d pages", n), func(b *testing.B) {
			set := busy(n)
			b.ReportAllocs()
			for b.Loop() {
				if err := pdf.Write(io.Discard, set); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
