package layout

import (
	"rodsheet/geom"
	"rodsheet/template/job"
	"rodsheet/template/plan/finding"
)

// OutsideWall: a panel reaches out of the outline of its wall.
type OutsideWall struct {
	Across, Up    geom.Span // of the panel
	Wall          string
	Width, Height geom.Length // of the wall; at most so high
}

// ID implements [finding.Params].
func (OutsideWall) ID() string { return "outside-wall" }

// checkOutline reports panels that leave their wall. A run may go past an outside corner: that is for the corner.
func (p *planner) checkOutline(run *Run) {
	wall := p.Walls[run.Wall].Job
	if len(wall.Outline) == 0 {
		return
	}
	room := wall.Outline.Bounds()
	for _, i := range run.Panels {
		panel := &p.Panels[i]
		finished, box := panel.Finished, panel.Finished.Bounds()
		past := max(0, room.Min.X-box.Min.X, box.Max.X-room.Max.X)
		if past > 0 && p.turnsAway(run.Wall, box, room) {
			finished = one(finished.Clip(geom.R(room.Min.X, box.Min.Y, room.Max.X, box.Max.Y)), finished)
		}
		if wall.Outline.ContainsPolygon(finished) {
			continue
		}
		field := TopField(run.Job)
		if past > 0 {
			field = ExtentField(run.Job)
		}
		p.found.Add(finding.OfPanels(run.Job.Key, panel.Name), field, OutsideWall{
			Across: geom.Span{From: box.Min.X, To: box.Max.X}, Up: geom.Span{From: box.Min.Y, To: box.Max.Y},
			Wall: wall.Name, Width: room.W(), Height: room.Max.Y,
		})
	}
}

// turnsAway reports whether there is an outside corner wherever the box goes past the ends of the wall.
func (p *planner) turnsAway(wall int, box, room geom.Rect) bool {
	walls := p.Job.Walls
	before := (wall + len(walls) - 1) % len(walls)
	if box.Min.X < room.Min.X && (wall == 0 && len(walls) < 3 || walls[before].Corner != job.Outside) {
		return false
	}
	return box.Max.X <= room.Max.X || walls[wall].Corner == job.Outside
}

// one is the only piece, or the whole where there is not just one.
func one(pieces []geom.Polygon, whole geom.Polygon) geom.Polygon {
	if len(pieces) == 1 {
		return pieces[0]
	}
	return whole
}
