package sheet

import (
	"fmt"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/job"
	"rodsheet/template/typeset"
)

// trialRings are the distances of a trial cross's rings from its drill circle.
func trialRings(units geom.System) []geom.Length {
	pitch := units.Pick(geom.Inch/32, mm)
	return []geom.Length{pitch, 2 * pitch}
}

// drillTrial draws ten crosses into a square that is cut out, two rows of five, each with a blank under it.
func drillTrial(d *drawing.Drawing, square geom.Rect, units geom.System, bit geom.Length) {
	d.Add(drawing.Text{At: geom.Pt(square.Centre().X, square.Max.Y-13*mm), String: "Drill trial, ⌀ " + bit.In(units), Height: medium, Bold: true, Anchor: drawing.Middle})
	for i := range 10 {
		at := geom.Pt(square.Min.X+geom.Length(10+20*(i%5))*mm, square.Max.Y-geom.Length(30+38*(i/5))*mm)
		rings := trialRings(units)
		for _, ring := range rings {
			d.Add(drawing.Circle{Centre: at, Radius: bit/2 + ring, Pen: drawing.Hair})
		}
		arm := bit/2 + rings[len(rings)-1] + 2*mm
		d.Add(
			drawing.Circle{Centre: at, Radius: bit / 2, Pen: drawing.Hair, Role: drawing.Drill},
			drawing.Line{From: at.Sub(geom.Pt(arm, 0)), To: at.Add(geom.Pt(arm, 0)), Pen: drawing.Hair, Role: drawing.Drill},
			drawing.Line{From: at.Sub(geom.Pt(0, arm)), To: at.Add(geom.Pt(0, arm)), Pen: drawing.Hair, Role: drawing.Drill},
			drawing.Text{At: at.Add(geom.Pt(-8*mm, -15*mm)), String: fmt.Sprintf("%d ______", i+1), Height: small},
		)
	}
}

// trialSteps say how the trial is drilled and read.
func trialSteps(j *job.Job) []typeset.Block {
	rings, fine, numbers := trialRings(j.Units), "0.2 mm", "--units mm 0.4 0 0.6 …"
	if j.Units == geom.Imperial {
		fine, numbers = "1/64″", "1/64 0 1/32 …"
	}
	half := func(l geom.Length) string { return fmt.Sprintf("± %.2g mm", l.Millimetres()) }
	return []typeset.Block{
		typeset.Heading{Text: "How true do you drill?"},
		typeset.Para{Text: fmt.Sprintf("Counted are %s for a taped seam and %s for the drill's wander; most hangs on these two, and no source is known for them. Try your drill: cut the square "+
			"out, tape it on a scrap of your board and drill its crosses with the ⌀ %s bit, as you will drill the job. Write under each how far the hole's edge reaches beyond the circle, "+
			"to %s (the rings stand %s and %s outside it). Then: rodsheet scale wander %s",
			half(j.Accuracy.Seam), half(j.Accuracy.Wander), j.Screws.Marker.In(j.Units), fine, rings[0].In(j.Units), rings[1].In(j.Units), numbers)},
	}
}
