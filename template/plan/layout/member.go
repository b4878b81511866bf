package layout

import (
	"rodsheet/geom"
	"rodsheet/template/job"
)

// members are a wall's studs from the left, then its rails from below. Each runs over the bounds of the wall's outline:
// where the wall ends, panels end too.
func members(w *job.Wall) []Member {
	bounds := w.Outline.Bounds()
	var all []Member
	for _, centre := range w.Studs.At {
		m := Member{Centre: centre, Depth: w.Studs.Depth}
		m.Body = geom.R(centre-w.Studs.Width/2, bounds.Min.Y, centre-w.Studs.Width/2+w.Studs.Width, bounds.Max.Y)
		m.Safe = m.Body
		m.Safe.Min.X += w.Studs.Margin
		m.Safe.Max.X -= w.Studs.Margin
		all = append(all, m)
	}
	for _, centre := range w.Rails.At {
		m := Member{Rail: true, Centre: centre, Depth: w.Rails.Depth}
		m.Body = geom.R(bounds.Min.X, centre-w.Rails.Width/2, bounds.Max.X, centre-w.Rails.Width/2+w.Rails.Width)
		m.Safe = m.Body
		m.Safe.Min.Y += w.Rails.Margin
		m.Safe.Max.Y -= w.Rails.Margin
		all = append(all, m)
	}
	return all
}

// Holds reports whether there are holes and every one stands where a screw may stand in the member.
func (m *Member) Holds(holes []geom.Point) bool {
	if !m.Safe.Valid() || len(holes) == 0 {
		return false
	}
	for _, h := range holes {
		if !m.Safe.ContainsPoint(h) {
			return false
		}
	}
	return true
}
