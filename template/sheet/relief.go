package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/drawing"
	"rodsheet/template/typeset"
)

// A notch is an inner corner of a board: the angle of the open space in it, in tenths of a degree, and the boards that
// have one.
type notch struct {
	tenths int
	boards []string
}

// notches are the different inner corners of all boards, in the order in which they are met.
func (m *maker) notches() []notch {
	var out []notch
	for i := range m.plan.Boards {
		b := &m.plan.Boards[i]
		if len(b.Outline) > mostCorners {
			continue // a curve: nothing to slit at any one corner
		}
		for k := range b.Outline {
			inside := b.Outline.Angle(k)
			if inside <= 180 {
				continue
			}
			tenths := int(math.Round((360 - inside) * 10))
			at := slices.IndexFunc(out, func(n notch) bool { return n.tenths == tenths })
			if at < 0 {
				at = len(out)
				out = append(out, notch{tenths: tenths})
			}
			if !slices.Contains(out[at].boards, b.Name) {
				out[at].boards = append(out[at].boards, b.Name)
			}
		}
	}
	return out
}

// reliefDrawings show at actual size how the cover is trimmed and slit at the boards' inner corners.
func (m *maker) reliefDrawings() []drawing.Drawing {
	var out []drawing.Drawing
	for _, n := range m.notches() {
		out = append(out, m.reliefPages(n)...)
	}
	return out
}

// reliefShort is how far short of the face's corner a slit stops: [plan.Plan.Reliefs] has it so.
func (m *maker) reliefShort() geom.Length {
	for i := range m.plan.Boards {
		for _, r := range m.plan.Wrap.Reliefs(m.plan.Boards[i].Outline, m.plan.Job.Units) {
			return r.To.Distance(r.Corner)
		}
	}
	return 0
}

func (m *maker) reliefPages(n notch) []drawing.Drawing {
	const edge = 45 * mm // of the board, shown along each side of the notch
	field := m.options.Field
	d := drawing.Drawing{Bounds: geom.Rect{Max: geom.Pt(field.W, field.H)}}
	wrap, short := m.plan.Wrap.Size, m.reliefShort()
	angle := float64(n.tenths) / 10
	half := angle / 2 * math.Pi / 180
	tip := wrap.Times(1 / math.Sin(half)) // where the trimmed edges meet, along the middle of the notch
	polar := func(l geom.Length, radians float64) geom.Point {
		return geom.Pt(l.Times(math.Cos(radians)), l.Times(math.Sin(radians)))
	}
	blocks := []typeset.Block{
		typeset.Title{Text: fmt.Sprintf("Inner corner of %.4g°", angle)},
		typeset.Para{Text: "On " + boardList(n.boards) + ", the panel's face down: the cover must open here to go round. At actual size."},
	}
	steps := append([]typeset.Block{typeset.Heading{Text: "Steps"}}, typeset.Steps(
		"Glue a strip of cover, "+m.read(2*wrap)+" wide, into the inner corner of board and foam first: it shows where the slit opens (common practice).",
		"Trim cover and batting in the notch to "+m.read(wrap)+" from both edges of the board: the outer full line.",
		fmt.Sprintf("Slit both from the corner of that line towards the corner of the board, %s long. Stop %s short of it: a slit that reaches it tears on.",
			m.read(max(0, tip-short)), m.read(short)),
		"Put a dab of glue at the end of the slit. Turn both sides over to the back, pull evenly, and staple them close to the corner.",
	)...)

	// The notch opens upward, the same to both sides of an upright middle.
	up := math.Pi / 2
	right, left := up-half, up+half
	long := max(edge, tip.Times(math.Cos(half))+35*mm)
	along := func(radians float64, l, off geom.Length) geom.Point { // off: into the notch
		side := up
		if radians < up {
			side = -up
		}
		return polar(l, radians).Add(polar(off, radians-side))
	}
	shown := geom.Polygon{along(right, long, 0), along(left, long, 0), along(right, long, wrap), along(left, long, wrap), geom.Pt(0, tip), geom.Pt(0, -25*mm)}.Bounds()
	shown.Min.X, shown.Max.X = min(shown.Min.X, -50*mm), max(shown.Max.X, 50*mm)
	if shown.W() > field.W || shown.H() > field.H*6/10 {
		return typeset.Set(field, append(append(blocks, typeset.Para{Text: "It is larger than this paper: set it out on the cover itself, by the measures below."}), steps...)...)
	}
	o := geom.Pt(field.W/2-shown.Centre().X, field.H-26*mm-shown.Max.Y)
	at := func(p geom.Point) geom.Point { return p.Add(o) }
	more := setWords(&d, geom.R(0, field.H-26*mm, field.W, field.H), blocks...)
	a, b := along(right, long, 0), along(left, long, 0)
	board := []geom.Point{at(a), at(geom.Point{}), at(b), at(geom.Pt(shown.Min.X, b.Y)), at(shown.Min), at(geom.Pt(shown.Max.X, shown.Min.Y)), at(geom.Pt(shown.Max.X, a.Y))}
	d.Add(
		drawing.Path{Points: board, Closed: true, Fill: drawing.Pale},
		drawing.Path{Points: board[:3], Pen: drawing.Hidden, Role: drawing.Guide},
		drawing.Path{Points: []geom.Point{at(along(right, long, wrap)), at(geom.Pt(0, tip)), at(along(left, long, wrap))}, Pen: drawing.Wide, Role: drawing.Cut},
		drawing.Line{From: at(geom.Pt(0, tip)), To: at(geom.Pt(0, short)), Pen: drawing.Wide, Role: drawing.Cut},
		drawing.Text{At: at(geom.Pt(0, -8*mm)), String: "face of the board, under the cover", Height: small, Anchor: drawing.Middle, Halo: true},
		drawing.Text{At: at(geom.Pt(0, (tip+short)/2)), String: "slit, " + m.read(max(0, tip-short)), Height: small, Bold: true, Anchor: drawing.Middle, Level: drawing.Baseline, Turn: 90, Halo: true},
		drawing.Text{At: at(along(right, long*2/3, wrap/2)), String: "wrap " + m.read(wrap), Height: small, Anchor: drawing.Middle, Level: drawing.Halfway, Turn: right * 180 / math.Pi, Halo: true},
		drawing.Text{At: at(geom.Pt(0, -13*mm)), String: m.read(short) + " uncut, from the corner of the face", Height: small, Anchor: drawing.Middle, Halo: true},
	)
	more = append(more, setWords(&d, geom.R(0, 0, field.W, o.Y+shown.Min.Y-4*mm), steps...)...)
	return append([]drawing.Drawing{d}, more...)
}

func boardList(list []string) string {
	if len(list) == 1 {
		return "board " + list[0]
	}
	return "boards " + strings.Join(list, ", ")
}
