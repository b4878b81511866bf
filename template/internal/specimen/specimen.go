// Package specimen is the sheet that every writer's test prints: every mark, pen, fill and way of placing text there is.
package specimen

import (
	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/page"
	"rodsheet/template/paper"
)

const mm = geom.Millimetre

// Glyphs are the characters that sheets need beyond ASCII.
const Glyphs = "½¼¾⅛⅜⅝⅞⅓⅔ 3′ 4½″ 2×⌀8 Ø30°±1 ≈−1≤x≥7–9 a·b ▲▼ ↑↓←→ ✂ øéß"

// pens are all pens of a sheet that draw, in the order of the specimen's lines.
func pens() []drawing.Pen {
	return []drawing.Pen{
		drawing.Wide, drawing.Narrow, drawing.Hair, drawing.Hidden, drawing.Centre, drawing.Neighbour, drawing.Faint,
		{Width: drawing.WideWidth, Style: drawing.Dotted},
	}
}

// marks returns a drawing 150 mm wide and 200 mm high. It holds, from below: a line per pen from x = 10 mm, 7 mm apart;
// shapes with
// every fill; circles; arcs; a hole cross at (71.4375, 101.6) mm; texts with every anchor and level; turned texts;
// letters with a halo over a line; two lines of [Glyphs].
func marks() drawing.Drawing {
	d := drawing.Drawing{Bounds: geom.R(0, 0, 150*mm, 200*mm)}
	d.Add(drawing.Path{
		Points: d.Bounds.Polygon(), Closed: true, Pen: drawing.Wide, Role: drawing.Cut,
	})
	for i, pen := range pens() {
		y := geom.Length(10+7*i) * mm
		d.Add(drawing.Line{From: geom.Pt(10*mm, y), To: geom.Pt(140*mm, y), Pen: pen, Role: drawing.Guide})
	}
	fills(&d)
	rounds(&d)
	texts(&d)
	return d
}

func fills(d *drawing.Drawing) {
	for i, fill := range []drawing.Fill{drawing.White, drawing.Pale, drawing.Tint, drawing.Black} {
		x := geom.Length(10+15*i) * mm
		d.Add(
			drawing.Path{
				Points: geom.R(x, 70*mm, x+12*mm, 80*mm).Polygon(), Closed: true,
				Pen: drawing.Narrow, Fill: fill, Role: drawing.Note,
			},
			drawing.Circle{Centre: geom.Pt(x+85*mm, 75*mm), Radius: 5 * mm, Fill: fill, Role: drawing.Note},
		)
	}
	d.Add(
		// An open path is never filled.
		drawing.Path{
			Points: []geom.Point{{X: 72 * mm, Y: 70 * mm}, {X: 80 * mm, Y: 80 * mm}, {X: 88 * mm, Y: 70 * mm}},
			Pen:    drawing.Wide, Fill: drawing.Black, Role: drawing.Guide,
		},
		// A pen of no width and no fill draws nothing.
		drawing.Path{Points: geom.R(0, 0, 10*mm, 10*mm).Polygon(), Closed: true, Pen: drawing.NoPen},
	)
}

// hole is the middle of the specimen's hole cross: 2 13/16 in and 4 in.
var hole = geom.Pt(2*geom.Inch+13*geom.Inch/16, 4*geom.Inch)

func rounds(d *drawing.Drawing) {
	d.Add(
		drawing.Circle{Centre: hole, Radius: 4 * mm, Pen: drawing.Narrow, Role: drawing.Drill},
		drawing.Line{From: hole.Sub(geom.Pt(6*mm, 0)), To: hole.Add(geom.Pt(6*mm, 0)), Pen: drawing.Hair, Role: drawing.Drill},
		drawing.Line{From: hole.Sub(geom.Pt(0, 6*mm)), To: hole.Add(geom.Pt(0, 6*mm)), Pen: drawing.Hair, Role: drawing.Drill},
		drawing.Arc{Centre: geom.Pt(20*mm, 95*mm), Radius: 8 * mm, Start: 30, Sweep: 60, Pen: drawing.Wide, Role: drawing.Guide},
		drawing.Arc{Centre: geom.Pt(45*mm, 95*mm), Radius: 8 * mm, Start: 90, Sweep: 270, Pen: drawing.Narrow, Role: drawing.Cut},
		drawing.Arc{Centre: geom.Pt(100*mm, 95*mm), Radius: 8 * mm, Start: 0, Sweep: -135, Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Arc{Centre: geom.Pt(125*mm, 95*mm), Radius: 8 * mm, Start: 45, Sweep: 360, Pen: drawing.Centre, Role: drawing.Guide},
	)
}

func texts(d *drawing.Drawing) {
	for i, anchor := range []drawing.Anchor{drawing.Left, drawing.Middle, drawing.Right} {
		for j, level := range []drawing.Level{drawing.Baseline, drawing.Halfway, drawing.Top} {
			at := geom.Pt(geom.Length(30+45*i)*mm, geom.Length(145-12*j)*mm)
			d.Add(
				drawing.Line{From: at.Sub(geom.Pt(2*mm, 0)), To: at.Add(geom.Pt(2*mm, 0)), Pen: drawing.Faint},
				drawing.Line{From: at.Sub(geom.Pt(0, 2*mm)), To: at.Add(geom.Pt(0, 2*mm)), Pen: drawing.Faint},
				drawing.Text{At: at, String: "HEH pg", Height: 5 * mm, Anchor: anchor, Level: level, Bold: j == 1},
			)
		}
	}
	for i, turn := range []float64{90, 180, -90, 30, 0.2} {
		at := geom.Pt(geom.Length(25+25*i)*mm, 165*mm)
		d.Add(
			drawing.Circle{Centre: at, Radius: mm / 2, Fill: drawing.Black},
			drawing.Text{At: at, String: "N3 up", Height: 7 * mm / 2, Turn: turn},
		)
	}
	d.Add(
		drawing.Line{From: geom.Pt(10*mm, 112*mm), To: geom.Pt(140*mm, 112*mm), Pen: drawing.Wide, Role: drawing.Guide},
		drawing.Text{
			At: geom.Pt(75*mm, 112*mm), String: "10 1/2″ (haloed)", Height: 7 * mm / 2,
			Anchor: drawing.Middle, Level: drawing.Halfway, Halo: true,
		},
		drawing.Text{At: geom.Pt(8*mm, 190*mm), String: Glyphs, Height: 5 * mm / 2},
		drawing.Text{At: geom.Pt(8*mm, 182*mm), String: Glyphs, Height: 5 * mm / 2, Bold: true},
		drawing.Text{At: geom.Pt(75*mm, 2*mm), String: `<b> & "a\b" (c) 'd' %s`, Height: 5 * mm / 2, Anchor: drawing.Middle},
	)
}

// Set is the specimen on five pages, with bookmarks and links: page 1 whole on A4; page 2 on Letter turned, its left
// half seen through a window, with a second layer drawn over it; page 3 through a printer's correction; page 4 turned
// by a quarter; page 5 on paper 2 m × 1 m.
func Set() page.Set {
	d := marks()
	window := geom.R(20*mm, 20*mm, 95*mm, 190*mm)
	return page.Set{Title: "Specimen ½ (test)", Pages: []page.Page{
		{
			Number: 1, Paper: paper.A4.Size, Sheet: "whole", Ref: "A1",
			Bookmarks: []page.Bookmark{{Title: "Whole ⌀", Level: 0}, {Title: "All marks", Level: 1}},
			Layers:    []page.Layer{{ToPage: toWhole, Clip: whole(paper.A4.Size), Marks: d.Marks}},
			Links:     []page.Link{{Area: geom.R(20*mm, 20*mm, 60*mm, 30*mm), To: 3}, {Area: geom.R(0, 0, mm, mm), To: 99}},
		},
		{
			Number: 2, Paper: paper.Letter.Size.Turned(), Sheet: "window", Ref: "A2",
			Bookmarks: []page.Bookmark{{Title: "Window", Level: 0}},
			Layers: []page.Layer{
				{ToPage: toWindow, Clip: window, Marks: d.Marks},
				{ToPage: geom.Identity(), Clip: whole(paper.Letter.Size.Turned()), Marks: []drawing.Mark{
					drawing.Path{Points: window.Polygon(), Closed: true, Pen: drawing.Hair},
					drawing.Text{At: geom.Pt(150*mm, 100*mm), String: "after the window", Height: 5 * mm},
				}},
			},
			Links: []page.Link{{Area: geom.R(100*mm, 20*mm, 120*mm, 30*mm), To: 1}},
		},
		{
			Number: 3, Paper: paper.A4.Size, Sheet: "corrected",
			Bookmarks: []page.Bookmark{{Title: "Corrected", Level: 3}},
			Layers:    []page.Layer{{ToPage: toCorrected, Clip: whole(paper.A4.Size), Marks: d.Marks}},
		},
		{
			Number: 4, Paper: paper.A4.Size.Turned(), Sheet: "turned",
			Layers: []page.Layer{{ToPage: toTurned, Clip: whole(paper.A4.Size.Turned()), Marks: d.Marks}},
		},
		{
			Number: 5, Paper: geom.Size{W: 2000 * mm, H: 1000 * mm}, Sheet: "roll",
			Bookmarks: []page.Bookmark{{Title: "Roll", Level: 0}},
			Layers:    []page.Layer{{ToPage: toRoll, Clip: whole(geom.Size{W: 2000 * mm, H: 1000 * mm}), Marks: d.Marks}},
		},
	}}
}

// The maps of the set's pages, in order.
var (
	toWhole     = geom.Affine{A: 1, D: -1, X: 30 * mm, Y: 248 * mm}
	toWindow    = geom.Affine{A: 1, D: -1, X: 20*mm + geom.Inch/64, Y: 207 * mm}
	toCorrected = geom.Affine{A: 1.004, B: 0.002, C: -0.001, D: -0.997, X: 28 * mm, Y: 247 * mm}
	toTurned    = geom.Affine{B: -1, C: -1, X: 230 * mm, Y: 180 * mm}
	toRoll      = geom.Affine{A: 1, D: -1, X: 1800 * mm, Y: 990 * mm}
)

// whole returns the rectangle of all of a page.
func whole(s geom.Size) geom.Rect { return geom.Rect{Max: geom.Pt(s.W, s.H)} }
