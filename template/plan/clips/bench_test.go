package clips

import (
	"fmt"
	"testing"

	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/internal/sample"
)

// building is a thousand panels: fifty walls of 20 panels each, studs every 16 in, cable zones, a socket on every wall.
func building(studs bool, widths int) *job.Job {
	var walls []job.Wall
	for w := range 50 {
		wall := sample.WallOf(fmt.Sprint("W", w), 400*inch, 96*inch)
		var across geom.Length = 4 * inch
		for r := range 20 / widths {
			run := job.Run{Name: fmt.Sprint("R", r), Panels: widths, Gap: inch / 4}
			length := geom.Length(widths)*(19*inch+inch/8) + geom.Length(w)*inch/16
			run.Across = []job.Span{{From: across, To: across + length}}
			run.Band = job.Band{Direct: true, Bottom: 20 * inch, Top: 44 * inch}
			across += length
			wall.Runs = append(wall.Runs, run)
		}
		wall.Studs = job.Members{Width: 3 * inch / 2, Margin: 3 * inch / 8, Given: true}
		for at := geom.Length(w+8) * inch; at < 400*inch; at += 16 * inch {
			wall.Studs.At = append(wall.Studs.At, at)
		}
		wall.Fittings = []job.Fitting{{Name: "socket", Kind: job.Electrical, Rect: geom.R(52*inch, 12*inch, 55*inch, 17*inch), Margin: inch}}
		walls = append(walls, wall)
	}
	j := sample.Clipped(walls...)
	j.Straight, j.Clips.Studs = true, studs
	return j
}

func BenchmarkPlaceThousandPanels(b *testing.B) {
	for _, c := range []struct {
		name   string
		studs  bool
		widths int
	}{{"same in runs of 20", false, 20}, {"studs in runs of 20", true, 20}, {"same in runs of 5", false, 5}, {"same in runs of 1", false, 1}} {
		b.Run(c.name, func(b *testing.B) {
			for range b.N {
				p := placed(b, building(c.studs, c.widths))
				if len(p.Panels) != 1000 {
					b.Fatal(len(p.Panels))
				}
			}
		})
	}
}

// Tall boards with studs and middle rows; boards whose tops slope.
func BenchmarkPlaceLargeAndSlopedPanels(b *testing.B) {
	b.Run("48 x 96 in", func(b *testing.B) {
		j := sample.Clipped(sample.Panelled([]geom.Length{8 * inch, 24 * inch, 40 * inch}, 48*inch))
		j.Walls[0].Height, j.Walls[0].Outline = 120*inch, geom.R(0, 0, 96*inch, 120*inch).Polygon()
		j.Walls[0].Runs[0].Band.Top = 116 * inch
		benchPlace(b, j)
	})
	b.Run("slope", func(b *testing.B) {
		j := sample.Clipped(sample.Panelled([]geom.Length{8 * inch, 24 * inch, 40 * inch}, 48*inch))
		j.Walls[0].Runs[0] = job.Run{Name: "G", Panels: 1, Key: "walls[0].runs[0]",
			Area: geom.Polygon{{X: 0, Y: 20 * inch}, {X: 40 * inch, Y: 20 * inch}, {X: 40 * inch, Y: 60 * inch}, {X: 0, Y: 36 * inch}}}
		benchPlace(b, j)
	})
}

func benchPlace(b *testing.B, j *job.Job) {
	for range b.N {
		placed(b, j)
	}
}
