package page

import (
	"cmp"
	"slices"
	"strconv"

	"rodsheet/geom"
	"rodsheet/geom/cover"
	"rodsheet/template/drawing"
	"rodsheet/template/font"
	"rodsheet/template/typeset"
)

// stationLead is how long the line from a window's edge to a running distance is.
const stationLead = 5 * mm

// stationRoom is the room left of a free window (W) and below it (H) for the running distances: the longest must be whole.
func (o Options) stationRoom(d *drawing.Drawing) geom.Size {
	room := geom.Size{W: 24 * mm, H: 24 * mm}
	for _, s := range d.Stations {
		side := &room.W
		if s.Upright {
			side = &room.H
		}
		*side = max(*side, stationLead+2*mm+max(font.Width(s.Reads.In(o.Units), small, true), font.Width(s.Also, small, false)))
	}
	return room
}

// free prints only pages with holes, each of them placed by its running distances, and each for itself upright or,
// where pages may be, turned.
func (o Options) free(s *drawing.Sheet) ([]spec, Count, error) {
	d := &s.Drawings[0]
	if len(d.Holes) == 0 {
		return nil, Count{Solved: true, Proved: true}, nil
	}
	frames := []frame{o.frame(o.Paper.Size, false)}
	if s.Landscape {
		frames = append(frames, o.frame(o.Paper.Size, true))
	}
	problem, room := cover.WindowProblem{Marks: holeMarks(d), Clear: holeClear}, o.stationRoom(d)
	for _, f := range frames {
		problem.Windows = append(problem.Windows, geom.Size{W: f.field.W() - room.W, H: f.field.H() - room.H})
	}
	best, err := problem.Solve()
	if err != nil {
		return nil, Count{}, err
	}
	// Read as rows from the top, each from the left.
	slices.SortStableFunc(best.Windows, func(a, b cover.Window) int {
		return cmp.Or(cmp.Compare(b.Rect.Max.Y, a.Rect.Max.Y), cmp.Compare(a.Rect.Min.X, b.Rect.Min.X))
	})
	var maps []geom.Rect
	for _, w := range best.Windows {
		maps = append(maps, w.Rect)
	}
	var pages []spec
	for i, w := range best.Windows {
		f := frames[w.Way]
		others := slices.Delete(slices.Clone(maps), i, i+1)
		pages = append(pages, spec{
			frame:  f,
			at:     position{ref: strconv.Itoa(i + 1), maps: append(maps, d.Bounds), here: i},
			layers: o.windowLayers(f, d, w.Rect, others),
		})
	}
	return pages, Count{Solved: true, Bound: best.Bound, Proved: best.Proved}, nil
}

// windowLayers returns the layers that show a window of the drawing with its running distances on the left and below,
// and registration marks where others of the printed windows overlap it.
func (o Options) windowLayers(f frame, d *drawing.Drawing, w geom.Rect, others []geom.Rect) []Layer {
	room := o.stationRoom(d)
	move := geom.Point{X: f.field.Min.X + room.W - w.Min.X, Y: f.field.Max.Y - w.Max.Y}
	strip := w
	strip.Min = strip.Min.Sub(geom.Pt(room.W, room.H))
	var extra drawing.Drawing
	extra.Add(drawing.Path{Points: w.Polygon(), Closed: true, Pen: drawing.Faint})
	for _, other := range others {
		shared := w.Intersection(other).Inset(45 * mm / 10)
		if !shared.Valid() {
			continue
		}
		for _, at := range []geom.Point{shared.Min, shared.Max} {
			if clearOf(at, d.Holes) {
				extra.Add(registration(at)...)
			}
		}
	}
	extra.Add(callouts(d, w)...)
	o.drawStations(&extra, d, w)
	shown := dropClippedRepeats(d.Marks, w)
	// Over all tints, under all crosses: a grey line must hide neither a cross nor an edge that it runs along.
	shown = slices.Insert(shown, afterFills(shown), stationLines(d, w)...)
	return []Layer{f.layer(move, w, shown), f.layer(move, strip.Inset(-mm), extra.Marks)}
}

// afterFills returns the index after the last filled path.
func afterFills(marks []drawing.Mark) int {
	for i := len(marks); i > 0; i-- {
		if p, ok := marks[i-1].(drawing.Path); ok && p.Fill != drawing.NoFill {
			return i
		}
	}
	return 0
}

// stationLines are the lines of the stations through a window, from side to side, that its running distances lead to.
func stationLines(d *drawing.Drawing, w geom.Rect) []drawing.Mark {
	var out []drawing.Mark
	for _, s := range d.Stations {
		line := drawing.Line{From: geom.Pt(w.Min.X, s.At), To: geom.Pt(w.Max.X, s.At), Pen: drawing.Faint, Role: drawing.Guide}
		if s.Upright {
			line.From, line.To = geom.Pt(s.At, w.Min.Y), geom.Pt(s.At, w.Max.Y)
		}
		if (geom.Segment{A: line.From, B: line.To}).Intersects(w) && relevant(s, d.Holes, w) {
			out = append(out, line)
		}
	}
	return out
}

// dropClippedRepeats leaves out words that the window clips, where the same words stand whole in it.
func dropClippedRepeats(marks []drawing.Mark, w geom.Rect) []drawing.Mark {
	whole := map[string]bool{}
	for _, m := range marks {
		if t, ok := m.(drawing.Text); ok && w.Contains(t.Bounds()) {
			whole[t.String] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(marks), func(m drawing.Mark) bool {
		t, ok := m.(drawing.Text)
		return ok && whole[t.String] && !w.Contains(t.Bounds())
	})
}

func clearOf(at geom.Point, holes []drawing.Hole) bool {
	for _, h := range holes {
		if at.Distance(h.At) < h.Radius+holeClear {
			return false
		}
	}
	return true
}

// relevant reports whether a station is of use in a window: one that holes stand on where one of them is seen, and any
// other where it runs.
func relevant(s drawing.Station, holes []drawing.Hole, w geom.Rect) bool {
	lo, hi := w.Min.X, w.Max.X
	if s.Upright {
		lo, hi = w.Min.Y, w.Max.Y
	}
	if s.Along != (geom.Span{}) && (s.Along.To < lo || s.Along.From > hi) {
		return false
	}
	some := false
	for _, h := range holes {
		if s.Upright && h.At.X == s.At || !s.Upright && h.At.Y == s.At {
			some = true
			if w.ContainsPoint(h.At) {
				return true
			}
		}
	}
	return !some
}

// drawStations writes the running distances of the stations that cross the window.
func (o Options) drawStations(to, d *drawing.Drawing, w geom.Rect) {
	const leading, lead = 375 * mm / 100, stationLead
	room := o.stationRoom(d)
	for _, upright := range []bool{true, false} {
		lo, hi, wide := w.Min.Y, w.Max.Y, room.W
		if upright {
			lo, hi, wide = w.Min.X, w.Max.X, room.H
		}
		var in []drawing.Station
		pitch := 2 * leading
		for _, s := range d.Stations {
			if s.Upright == upright && s.At >= lo && s.At <= hi && relevant(s, d.Holes, w) {
				in = append(in, s)
				if s.Also != "" {
					pitch = 3 * leading
				}
			}
		}
		slices.SortStableFunc(in, func(a, b drawing.Station) int { return cmp.Compare(a.At, b.At) })
		wanted := make([]geom.Length, len(in))
		for i, s := range in {
			wanted[i] = s.At
		}
		for i, at := range typeset.Spread(wanted, pitch, lo+pitch/2, hi-pitch/2) {
			s := in[i]
			text := drawing.Text{Height: small, Level: drawing.Halfway, Anchor: drawing.Right}
			place := func(along, out geom.Length) geom.Point { return geom.Pt(w.Min.X-out, along) }
			down := -leading
			if upright {
				text.Turn = 90
				place = func(along, out geom.Length) geom.Point { return geom.Pt(along, w.Min.Y-out) }
				down = leading
			}
			to.Add(drawing.Path{Points: []geom.Point{place(s.At, 0), place(s.At, lead/3), place(at, lead*2/3), place(at, lead)}, Pen: drawing.Hair})
			words := []string{s.Reads.In(o.Units)}
			for _, more := range []string{s.Also, s.Name} {
				if more != "" {
					words = append(words, font.Truncate(more, small, false, wide-lead-mm))
				}
			}
			along := at - down*geom.Length(len(words)-1)/2
			for k, line := range words {
				text.At, text.String, text.Bold = place(along, lead+mm), line, k == 0
				to.Add(text)
				along += down
			}
		}
	}
}
